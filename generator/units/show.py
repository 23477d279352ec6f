"""Values in SI become text in the project's units, rounded once and, where asked, to the safe side."""

import math
from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from types import MappingProxyType
from typing import Literal

from generator.errors import CalcError
from generator.records import dataclass

Toward = Literal["near", "up", "down"]
System = Literal["us", "si"]
NONE = "\u2013"
SPACE = "\u00a0"
MINUS = "\u2212"
PRIME, DOUBLE_PRIME = "\u2032", "\u2033"
_NOISE = 1.0e-6
"""Share of a rounding step taken for floating-point noise: 7000.0000001 lb rounded up stays 7,000 lb."""

_LB, _IN, _FT = 0.45359237, 0.0254, 0.3048
_LBF = _LB * 9.80665


@dataclass(frozen=True, slots=True)
class Look:
    """How a unit is shown: label, SI value of one, decimals from 10 up, decimals below 10."""

    label: str
    factor: float
    decimals: int = 0
    fine: int = 0


INCHES = Look("ft-in", _IN)
"""Feet, inches and sixteenths: the only look that is not a plain number."""

DISPLAY: Mapping[str, tuple[Look, Look]] = MappingProxyType({
    "kg": (Look("lb", _LB, 0, 1), Look("kg", 1.0, 0, 1)),
    "m": (INCHES, Look("mm", 0.001, 0, 1)),
    "m:far": (Look("mi", 1609.344), Look("km", 1000.0)),
    "m2": (Look("ft\u00b2", _FT**2, 1, 2), Look("m\u00b2", 1.0, 1, 2)),
    "m2:section": (Look("in\u00b2", _IN**2, 2, 2), Look("mm\u00b2", 1e-6)),
    "m2:copper": (Look("mm\u00b2", 1e-6, 1, 1), Look("mm\u00b2", 1e-6, 1, 1)),
    "m3": (Look("US gal", 0.003785411784, 0, 1), Look("L", 0.001, 0, 1)),
    "m3:room": (Look("ft\u00b3", _FT**3, 0, 1), Look("m\u00b3", 1.0, 1, 2)),
    "m3:section": (Look("in\u00b3", _IN**3, 1, 2), Look("cm\u00b3", 1e-6, 1, 2)),
    "m4": (Look("in\u2074", _IN**4, 1, 2), Look("cm\u2074", 1e-8, 0, 1)),
    "kg/m": (Look("lb/ft", _LB / _FT, 1, 2), Look("kg/m", 1.0, 1, 2)),
    "kg/m2": (Look("lb/ft\u00b2", _LB / _FT**2, 1, 2), Look("kg/m\u00b2", 1.0, 1, 2)),
    "kg/m3": (Look("lb/ft\u00b3", _LB / _FT**3, 1, 2), Look("kg/m\u00b3", 1.0, 0, 1)),
    "N": (Look("lbf", _LBF), Look("kN", 1000.0, 1, 2)),
    "N:force": (Look("lbf", _LBF, 0, 1), Look("N", 1.0)),
    "N*m": (Look("lbf\u00b7ft", _LBF * _FT, 0, 1), Look("N\u00b7m", 1.0, 0, 1)),
    "N*m/rad": (Look("lbf\u00b7ft/rad", _LBF * _FT), Look("N\u00b7m/rad", 1.0)),
    "N/m": (Look("lbf/ft", _LBF / _FT), Look("kN/m", 1000.0, 1, 2)),
    "N/m:spring": (Look("lbf/in", _LBF / _IN), Look("N/mm", 1000.0, 0, 1)),
    "Pa": (Look("psi", _LBF / _IN**2, 0, 1), Look("kPa", 1000.0, 0, 1)),
    "N/m2": (Look("psf", _LBF / _FT**2, 0, 1), Look("kPa", 1000.0, 1, 2)),
    "m/s": (Look("mph", 1609.344 / 3600.0, 0, 1), Look("km/h", 1.0 / 3.6, 0, 1)),
    "m/s:slow": (Look("in/min", _IN / 60.0, 0, 1), Look("mm/s", 0.001, 0, 1)),
    "rad": (Look("\u00b0", math.pi / 180.0, 1, 1), Look("\u00b0", math.pi / 180.0, 1, 1)),
    "s": (Look("s", 1.0, 0, 1), Look("s", 1.0, 0, 1)),
    "A": (Look("A", 1.0, 0, 1), Look("A", 1.0, 0, 1)),
    "V": (Look("V", 1.0, 1, 1), Look("V", 1.0, 1, 1)),
    "W": (Look("W", 1.0), Look("W", 1.0)),
    "W:road": (Look("hp", _LBF * _FT * 550.0), Look("kW", 1000.0)),
    "m/s2": (Look("ft/s\u00b2", _FT, 2, 2), Look("m/s\u00b2", 1.0, 3, 3)),
    "m:altitude": (Look("ft", _FT), Look("m", 1.0)),
    "ohm*m": (Look("\u03a9\u00b7mm\u00b2/m", 1e-6, 3, 4), Look("\u03a9\u00b7mm\u00b2/m", 1e-6, 3, 4)),
    "N/kg": (Look("lbf/lb", 9.80665, 3, 3), Look("N/kg", 1.0, 5, 5)),
    "m:work": (Look("in", _IN, 2, 3), Look("mm", 0.001, 1, 2)),
    "N/m2:work": (Look("psf", _LBF / _FT**2, 2, 3), Look("kPa", 1000.0, 3, 4)),
    "rad:work": (Look("\u00b0", math.pi / 180.0, 3, 3), Look("\u00b0", math.pi / 180.0, 3, 3)),
    "rad:linear": (Look("rad", 1.0, 5, 5), Look("rad", 1.0, 5, 5)),
    "m/N": (Look("in/kip", _IN / (1000.0 * _LBF), 1, 2), Look("mm/kN", 1e-6, 1, 2)),
    "kg*m2": (Look("lb\u00b7ft\u00b2", _LB * _FT**2), Look("kg\u00b7m\u00b2", 1.0)),
    "Hz": (Look("Hz", 1.0, 2, 3), Look("Hz", 1.0, 2, 3)),
    "1": (Look("", 1.0, 1, 3), Look("", 1.0, 1, 3)),
    "count": (Look("", 1.0), Look("", 1.0)),
    "%": (Look("%", 0.01, 1, 1), Look("%", 0.01, 1, 1)),
    "turns": (Look("turns", 1.0, 0, 1), Look("turns", 1.0, 0, 1)),
})
"""Unit keys of the calculation, and how each is shown in US units and in SI."""

_LARGE: Mapping[str, tuple[float, Look]] = MappingProxyType({
    "mm": (10.0, Look("m", 1.0, 3, 3)),
    "kPa": (1.0e7, Look("MPa", 1.0e6, 0, 1)),
    "s": (120.0, Look("min", 60.0, 0, 1)),
})
"""From this SI value on, a value that carries its own unit is shown in a larger one; a column never is."""

CURRENCIES: Mapping[str, str] = MappingProxyType(
    {"USD": "$", "CAD": "CA$", "AUD": "A$", "NZD": "NZ$", "EUR": "\u20ac", "GBP": "\u00a3"})


@dataclass(frozen=True, slots=True)
class Show:
    """Writes values for one project: `show(value, unit)` gives text with its unit. Nothing known prints a dash."""

    system: System = "us"
    currency: str = "USD"

    def __call__(self, value: float | None, unit: str, toward: Toward = "near") -> str:
        """The value with its unit, rounded `toward` the safe side: `show(2880.3, "kg")` is 6,350 lb."""
        if value is None or not math.isfinite(value):
            return NONE
        look = self._look(unit)
        if look is INCHES:
            return feet_inches(value / _IN, toward)
        if look.label in _LARGE and abs(value) >= _LARGE[look.label][0]:
            look = _LARGE[look.label][1]
        gap = "" if look.label in ("", "\u00b0") else SPACE
        return f"{_plain(value, look, toward)}{gap}{look.label}"

    def number(self, value: float | None, unit: str, toward: Toward = "near") -> str:
        """The value without its unit, for a column headed `label(unit)`; feet and inches keep their marks."""
        if value is None or not math.isfinite(value):
            return NONE
        look = self._look(unit)
        return feet_inches(value / _IN, toward) if look is INCHES else _plain(value, look, toward)

    def label(self, unit: str) -> str:
        """The unit as a column head: `lb`, `mm`, `ft-in`; empty for a plain number."""
        return self._look(unit).label

    def ratio(self, value: float | None) -> str:
        """A use of a limit with three decimals, never rounded across 1 or onto it."""
        if value is None or not math.isfinite(value):
            return NONE
        shown = _rounded(value, 0.001, "near")
        if value != 1.0 and shown == 1.0:
            shown = 1.001 if value > 1.0 else 0.999
        return _signed(f"{abs(shown):.3f}", shown)

    def demand(self, value: float, limit: float, unit: str, sense: str) -> str:
        """A demand beside its limit, rounded to the safe side where the limit prints exactly, so that both agree."""
        toward: Toward = "up" if sense == "<=" else "down"
        exact = unit not in ("1", "count") and self(limit, unit, "up") == self(limit, unit, "down")
        return self(value, unit, toward if exact else "near")

    def change(self, value: float, base: float, unit: str) -> str:
        """How far a value lies from another, with its sign; `same` where nothing moved that would show."""
        moved = self(value - base, unit)
        if moved.lstrip(MINUS) == self(0.0, unit):
            return "same"
        return f"+{moved}" if value > base else moved

    def percent(self, value: float | None) -> str:
        """A share as per cent with one decimal: 0.146 is 14.6 %."""
        return self(value, "%")

    def money(self, amount: Decimal | None) -> str:
        """An amount in the project's currency, in whole units; cents only below 100 and where there are any."""
        if amount is None or not amount.is_finite():
            return NONE
        cents = abs(amount) < 100 and amount != amount.to_integral_value()
        shown = amount.quantize(Decimal("0.01") if cents else Decimal(1), ROUND_HALF_UP)
        sign = MINUS if shown < 0 else ""
        return f"{sign}{CURRENCIES.get(self.currency, self.currency + SPACE)}{abs(shown):,}"

    def _look(self, unit: str) -> Look:
        if unit not in DISPLAY:
            raise CalcError(f"no unit is called {unit!r}; there are {', '.join(DISPLAY)}")
        return DISPLAY[unit][0 if self.system == "us" else 1]


def feet_inches(inches: float, toward: Toward = "near") -> str:
    """Inches as feet, inches and sixteenths: the total is rounded once, then carried; under 12 in inches alone."""
    sixteenths = round(_rounded(inches * 16.0, 1.0, toward))
    sign = MINUS if sixteenths < 0 else ""
    feet, rest = divmod(abs(sixteenths), 192)
    whole, part = divmod(rest, 16)
    fraction = _fraction(part)
    if feet:
        tail = f"{whole}{SPACE}{fraction}" if part else f"{whole}"
        return f"{sign}{feet}{PRIME}-{tail}{DOUBLE_PRIME}"
    text = SPACE.join(piece for piece in (f"{whole}" if whole or not part else "", fraction) if piece)
    return f"{sign}{text}{DOUBLE_PRIME}"


def _fraction(part: int) -> str:
    if not part:
        return ""
    divisor = math.gcd(part, 16)
    return f"{part // divisor}/{16 // divisor}"


def _plain(value: float, look: Look, toward: Toward) -> str:
    shown = value / look.factor
    decimals = look.decimals if abs(shown) >= 10.0 else look.fine
    shown = _rounded(shown, 10.0**-decimals, toward)
    return _signed(f"{abs(shown):,.{decimals}f}", shown)


def _rounded(value: float, step: float, toward: Toward) -> float:
    """A multiple of `step`: the nearest (half away from zero), or the next one up or down, noise apart."""
    steps = value / step
    if toward == "up":
        return math.ceil(steps - _NOISE) * step
    if toward == "down":
        return math.floor(steps + _NOISE) * step
    return math.copysign(math.floor(abs(steps) + 0.5 + _NOISE), steps) * step


def _signed(digits: str, value: float) -> str:
    return MINUS + digits if value < 0.0 else digits


def wire_gauge(area: float) -> str:
    """The American wire gauge of a conductor of this copper area (m2), `2 AWG`; empty if none is within 2 %.

    Source: ASTM B258, diameters in geometric steps from 0.46 in (4/0) to 0.005 in (36).
    """
    if not 0.0 < area < 1e-3:
        return ""
    whole = round(36.0 - 39.0 * math.log(math.sqrt(4.0 * area / math.pi) / (0.005 * _IN)) / math.log(92.0))
    exact = math.pi / 4.0 * (0.005 * _IN * 92.0 ** ((36.0 - whole) / 39.0)) ** 2
    if whole < -3 or abs(area / exact - 1.0) > 0.02:
        return ""
    return f"{whole} AWG" if whole > 0 else f"{1 - whole}/0 AWG"
