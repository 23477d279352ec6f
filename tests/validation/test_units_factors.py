"""Every factor of the units table against two outside sources.

scipy.constants (CODATA 2018/2022 tables of SciPy, exact definitions) and pint (its default registry, which follows
NIST SP 811). Tolerance: a float's last places (1e-12), except the degree and the horsepower, also exact here.
"""

import math
import re
from fractions import Fraction

import pint
import pytest
from scipy import constants as c

from generator.units import KINDS, Unit, units

TABLE = sorted({unit.name: unit for unit in units().values()}.values(), key=lambda unit: unit.name)
REGISTRY = pint.UnitRegistry()
LIBRARY = {
    "US ton": "short_ton",
    "UK ton": "long_ton",
    "US gal": "gallon",
    "imp gal": "imperial_gallon",
    "lb": "pound",
    "psi": "psi",
    "psf": "force_pound/foot**2",
    "lbf": "force_pound",
    "kip": "1000*force_pound",
    "lb/ft": "pound/foot",
    "lb/ft2": "pound/foot**2",
    "lb/ft3": "pound/foot**3",
    "lbf/in": "force_pound/inch",
    "in/kip": "inch/(1000*force_pound)",
    "lbf*ft": "force_pound*foot",
    "lbf*in": "force_pound*inch",
    "in/min": "inch/minute",
    "mph": "mile/hour",
    "km/h": "kilometer/hour",
    "%": "percent",
    "in/ft": "inch/foot",
    "mm/m": "millimeter/meter",
    "in": "inch",
    "ft": "foot",
    "mi": "mile",
    "h": "hour",
    "min": "minute",
    "t": "metric_ton",
    "hp": "horsepower",
    "deg": "degree",
    "L": "liter",
}


def power(spelled: str) -> str:
    """`m2` as the library writes it."""
    return re.sub("(?<=[a-z])([23])", r"**\1", spelled)


@pytest.mark.parametrize("unit", TABLE, ids=lambda unit: unit.name)
def test_against_pint(unit: Unit) -> None:
    theirs = REGISTRY(f"1.0*({LIBRARY.get(unit.name, power(unit.name))})")
    target = KINDS[unit.kinds[0]].unit.split(":")[0].replace("%", "dimensionless").replace("1", "dimensionless")
    assert float(unit.factor) == pytest.approx(theirs.to(power(target)).magnitude, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("in", c.inch),
        ("ft", c.foot),
        ("mi", c.mile),
        ("lb", c.pound),
        ("US ton", c.short_ton),
        ("UK ton", c.long_ton),
        ("t", c.metric_ton),
        ("lbf", c.pound_force),
        ("kip", 1000 * c.pound_force),
        ("psi", c.psi),
        ("bar", c.bar),
        ("psf", c.pound_force / c.foot**2),
        ("US gal", c.gallon),
        ("imp gal", c.gallon_imp),
        ("L", c.liter),
        ("mph", c.mph),
        ("km/h", c.kmh),
        ("deg", c.degree),
        ("hp", c.horsepower),
        ("h", c.hour),
        ("min", c.minute),
        ("ft3", c.foot**3),
        ("ft2", c.foot**2),
        ("in2", c.inch**2),
        ("lbf*ft", c.pound_force * c.foot),
        ("lbf*in", c.pound_force * c.inch),
        ("lbf/in", c.pound_force / c.inch),
        ("lb/ft", c.pound / c.foot),
        ("lb/ft2", c.pound / c.foot**2),
        ("lb/ft3", c.pound / c.foot**3),
        ("in/kip", c.inch / (1000 * c.pound_force)),
        ("in/min", c.inch / c.minute),
        ("in/ft", 1 / 12),
        ("g", c.gram),
        ("mm", c.milli),
        ("cm", c.centi),
        ("%", 0.01),
    ],
)
def test_against_scipy(name: str, value: float) -> None:
    assert float(units()[name].factor) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "exact"),
    [
        ("ft", "0.3048"),
        ("mi", "1609.344"),
        ("lb", "0.45359237"),
        ("lbf", "4.4482216152605"),
        ("US gal", "0.003785411784"),
        ("imp gal", "0.00454609"),
        ("in2", "0.00064516"),
        ("ft3", "0.028316846592"),
        ("US ton", "907.18474"),
        ("UK ton", "1016.0469088"),
    ],
)
def test_exact_by_definition(name: str, exact: str) -> None:
    """NIST SP 811 (2008), appendix B.8, bold (exact) factors, typed a second time."""
    assert units()[name].factor == Fraction(exact)


def test_standard_gravity_is_in_the_pound_force() -> None:
    """g 9.80665 m/s2 exactly (CGPM 1901); scipy.constants.g."""
    assert units()["lbf"].factor / units()["lb"].factor == Fraction("9.80665")
    assert c.g == 9.80665


def test_degree() -> None:
    assert float(units()["deg"].factor) == math.radians(1.0)
