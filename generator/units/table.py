"""The trade's units with their exact factors, and the kinds of value they may state."""

import csv
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

from generator.errors import DataError
from generator.records import dataclass

TABLE = Path(__file__).parent.parent / "reference" / "units.csv"
PI = Fraction(3141592653589793238462643383279, 10**30)
"""To 31 digits, far below what a float holds; only the degree needs it."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of value: its name with article, SI unit key, plausible bounds (SI) and how it is written."""

    name: str
    unit: str
    low: float
    high: float
    examples: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit as written: the kinds it may state and its exact factor to SI."""

    name: str
    kinds: tuple[str, ...]
    factor: Fraction
    also: tuple[str, ...]
    source: str


KINDS: Mapping[str, Kind] = MappingProxyType({
    "length": Kind("a length", "m", -100.0, 100.0, ("8 ft 6 in", "2590 mm")),
    "distance": Kind("a distance", "m", 0.0, 5.0e8, ("1200 mi", "2000 km")),
    "mass": Kind("a mass", "kg", 0.0, 100_000.0, ("7000 lb", "3175 kg")),
    "force": Kind("a force", "N", -2.0e6, 2.0e6, ("25 lbf", "110 N")),
    "pressure": Kind("a pressure", "Pa", 0.0, 1.0e9, ("80 psi", "550 kPa")),
    "areaload": Kind("a load per area", "N/m2", 0.0, 1.0e7, ("25 psf", "1.2 kPa")),
    "linemass": Kind("a mass per length", "kg/m", 0.0, 5000.0, ("11.5 lb/ft", "17.1 kg/m")),
    "arealmass": Kind("a mass per area", "kg/m2", 0.0, 5000.0, ("2.2 lb/ft2", "11 kg/m2")),
    "density": Kind("a density", "kg/m3", 0.0, 25_000.0, ("34 lb/ft3", "550 kg/m3")),
    "volume": Kind("a volume", "m3", 0.0, 100.0, ("40 US gal", "150 L")),
    "area": Kind("an area", "m2", 0.0, 2000.0, ("215 ft2", "35 mm2")),
    "speed": Kind("a speed", "m/s", 0.0, 150.0, ("65 mph", "105 km/h")),
    "ratio": Kind("a ratio", "%", -20.0, 20.0, ("15 %", "1/4 in/ft")),
    "coefficient": Kind("a plain number", "1", 0.0, 1000.0, ("0.12", "12 %")),
    "angle": Kind("an angle", "rad", -6.3, 6.3, ("22.5 deg", "0.39 rad")),
    "stiffness": Kind("a stiffness", "N/m:spring", 0.0, 1.0e9, ("2850 lbf/in", "500 N/mm")),
    "compliance": Kind("a compliance", "m/N", 0.0, 0.01, ("0.6 in/kip", "3.4 mm/kN")),
    "torque": Kind("a torque", "N*m", 0.0, 1.0e6, ("90 lbf*ft", "120 N*m")),
    "current": Kind("a current", "A", 0.0, 2000.0, ("60 A", "35 A")),
    "voltage": Kind("a voltage", "V", 0.0, 1000.0, ("12 V", "24 V")),
    "duration": Kind("a duration", "s", 0.0, 1.0e7, ("4 min", "90 s")),
    "power": Kind("a power", "W", 0.0, 1.0e7, ("1.5 hp", "1100 W")),
})

_GALLON = "a gallon is read two ways: write `US gal` or `imp gal`, or `L`"
_LB_FORCE = "lb is a mass here: for a force write `lbf`"
AMBIGUOUS: Mapping[str, str] = MappingProxyType({
    "ton": "a ton is read three ways: write `US ton` (2000 lb), `UK ton` (2240 lb) or `t` (1000 kg)",
    "tons": "a ton is read three ways: write `US ton` (2000 lb), `UK ton` (2240 lb) or `t` (1000 kg)",
    "gal": _GALLON,
    "gallon": _GALLON,
    "gallons": _GALLON,
    "qt": "a quart is read two ways: write `US gal` or `imp gal`, or `L`",
    "quart": "a quart is read two ways: write `US gal` or `imp gal`, or `L`",
    "pt": "pt may be a pint or a point: write `US gal`, `imp gal` or `L`, or a length in `in` or `mm`",
    "pint": "a pint is read two ways: write `US gal` or `imp gal`, or `L`",
    "oz": "oz may be a mass or a volume: write `lb` or `g` for a mass, `US gal` or `L` for a volume",
    "ounce": "an ounce may be a mass or a volume: write `lb` or `g` for a mass, `US gal` or `L` for a volume",
    "cwt": "a hundredweight is read two ways: write `lb` or `kg`",
    "hundredweight": "a hundredweight is read two ways: write `lb` or `kg`",
    "bbl": "a barrel is read several ways: write `US gal` or `L`",
    "barrel": "a barrel is read several ways: write `US gal` or `L`",
    "mil": "mil may be 1/1000 in, a millimetre or an angle: write `in` or `mm`",
    "mils": "mil may be 1/1000 in, a millimetre or an angle: write `in` or `mm`",
    "thou": "write thousandths as `0.001 in`",
    "point": "a point is read several ways: write `in` or `mm`",
    "degree_Celsius": "temperatures are not asked for",
    "lb/in": f"{_LB_FORCE}, `lbf/in`",
    "lb*ft": f"{_LB_FORCE}, `lbf*ft`",
    "lb ft": f"{_LB_FORCE}, `lbf*ft`",
    "ft lb": f"{_LB_FORCE}, `lbf*ft`",
    "ft-lb": f"{_LB_FORCE}, `lbf*ft`",
    "lb-ft": f"{_LB_FORCE}, `lbf*ft`",
    "in/lb": f"{_LB_FORCE}, `in/kip` (inches for each 1000 lbf)",
    "AWG": "write the copper area: 6 AWG is 13.3 mm2, 4 AWG 21.2 mm2, 2 AWG 33.6 mm2, 1/0 AWG 53.5 mm2",
    "plf": "plf may be a mass or a force per length: write `lb/ft` for a mass",
})
"""Units never read, whatever the kind, with what to write instead."""

MISREAD: Mapping[tuple[str, str], str] = MappingProxyType({
    ("areaload", "psi"): "psi is for tyres: a load on the ground or a roof is written in `psf`",
    ("pressure", "psf"): "psf is for loads on an area: a pressure is written in `psi`",
    ("arealmass", "psf"): "psf is a force on an area: a mass per area is written in `lb/ft2`",
    ("force", "lb"): f"{_LB_FORCE}",
    ("force", "kg"): "kg is a mass: for a force write `N`",
    ("ratio", "deg"): "a slope is a rise over a run: write `2 %`, `20 mm/m` or `1/4 in/ft`",
})
"""Units of the wrong meaning for one kind, with what to write instead."""


@cache
def units() -> Mapping[str, Unit]:
    """Every spelling of every unit of the table. Raises DataError if the table is damaged."""
    try:
        with TABLE.open(encoding="utf-8", newline="") as file:
            rows = [_unit(row) for row in csv.DictReader(file, strict=True)]
    except (OSError, UnicodeError, csv.Error, ArithmeticError, ValueError, KeyError, AttributeError) as error:
        raise DataError(f"{TABLE.name}: missing or damaged: {error}") from None
    return MappingProxyType({name: unit for unit in rows for name in (unit.name, *unit.also)})


def names(kind: str) -> tuple[str, ...]:
    """Preferred spellings of the units of a kind, in the order of the table."""
    return tuple(name for name, unit in units().items() if kind in unit.kinds and name == unit.name)


def _unit(row: Mapping[str, str]) -> Unit:
    kinds = tuple(row["kinds"].split())
    if not row["source"] or not set(kinds) <= set(KINDS):
        raise ValueError(f"row {row['unit']!r}: source or kind missing")
    also = tuple(row["also"].split("|")) if row["also"] else ()
    return Unit(row["unit"], kinds, _factor(row["factor"]), also, row["source"])


def _factor(text: str) -> Fraction:
    """`a*b/c` with decimal numbers or `pi`, exactly."""
    top, _, bottom = text.partition("/")
    return _product(top) / _product(bottom) if bottom else _product(top)


def _product(text: str) -> Fraction:
    value = Fraction(1)
    for part in text.split("*"):
        value *= PI if part == "pi" else Fraction(part)
    return value
