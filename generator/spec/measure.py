"""Field types of the spec: text with a unit becomes a `Measure` in SI, with its spread and its place in the file."""

import math
import re
from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic_core import core_schema

from generator import units
from generator.records import dataclass
from generator.units import UnitError

Shape = Literal["sure", "normal", "triangular", "unknown"]
Sign = Literal["any", "not negative", "positive"]

UNKNOWN = "unknown"
_PLUS_MINUS = re.compile(r" ?(?:\+ ?/ ?-|±) ?")
_RANGE = re.compile(r" to ")
_BARE = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_UNIT = re.compile(r"-?[0-9]+(?:\.[0-9]+)? ?([^0-9'\" ].*)")
_SHARE = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?%")


class Text(str):
    """A scalar as written in a spec file, with its `file:line`."""

    __slots__ = ("origin",)
    origin: str

    def __new__(cls, value: str, origin: str = "") -> "Text":
        """A text written at `origin`."""
        text = super().__new__(cls, value)
        text.origin = origin
        return text


@dataclass(frozen=True, slots=True)
class Measure:
    """A physical value in SI: nominal, its P5 and P95 (or its bounds), and where it was written.

    `unknown` has nominal NaN: it flows through every formula and ends as `not assessed`. `foreign` marks a unit that
    is not in the table of the trade, whose SI value must be echoed.
    """

    nominal: float
    low: float
    high: float
    shape: Shape
    kind: str
    text: str = ""
    origin: str = ""
    foreign: bool = False

    @property
    def known(self) -> bool:
        """Whether the person wrote a value."""
        return not math.isnan(self.nominal)


@dataclass(frozen=True, slots=True)
class Reads:
    """How a field reads its text; stands in its annotation, where the schema and the reference page find it."""

    kind: str
    sign: Sign
    most: float
    examples: tuple[str, ...]

    def read(self, value: object) -> Measure:
        """The measure written; raises UnitError."""
        if isinstance(value, Measure):
            return value
        if not isinstance(value, str):
            raise UnitError("a single value is wanted here", self.allowed())
        origin = getattr(value, "origin", "")
        if value == UNKNOWN:
            return Measure(math.nan, math.nan, math.nan, "unknown", self.kind, UNKNOWN, origin)
        found = _spread(" ".join(value.split()), self.kind, str(value), origin)
        self._refuse_sign(found)
        return found

    def allowed(self) -> str:
        """What may be written, in words."""
        name = units.KINDS[self.kind].name
        return f"write {name}, for example {' or '.join(f'`{e}`' for e in self.examples)}, or `unknown`"

    def _refuse_sign(self, found: Measure) -> None:
        lowest = found.nominal if found.shape == "normal" else found.low
        if self.sign == "positive" and lowest <= 0.0:
            raise UnitError(f"`{found.text}` is not more than zero", "write a value above zero, or `unknown`")
        if self.sign == "not negative" and lowest < 0.0:
            raise UnitError(f"`{found.text}` is negative", "write zero or more, or `unknown`")
        if max(found.nominal, found.high) > self.most:
            most = f"{self.most:g}" if self.kind == "coefficient" else f"{self.most * 100:g} %"
            raise UnitError(f"`{found.text}` is too much here", f"at most {most}")

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        number = r"-?[0-9].*" + ("" if self.kind == "coefficient" else r"[A-Za-z%'\"].*")
        return {"type": "string", "pattern": f"^({UNKNOWN}|{number})$", "maxLength": 2 * units.LONGEST,
                "examples": [*self.examples, UNKNOWN], "x-kind": self.kind, "x-sign": self.sign,
                "x-units": list(units.names(self.kind))}


@dataclass(frozen=True, slots=True)
class Plain:
    """How a field reads a number without a unit."""

    name: Literal["number", "count", "money"]
    examples: tuple[str, ...]

    def read(self, value: object) -> float | int | Decimal:
        """The number written; raises UnitError."""
        if isinstance(value, (int, float, Decimal)) and not isinstance(value, bool):
            return value
        if not isinstance(value, str) or not re.fullmatch(self.pattern(), value):
            shown = f"`{value}`" if isinstance(value, str) else "this"
            raise UnitError(f"{shown} is not {self.wanted()}", f"write digits alone, for example `{self.examples[0]}`")
        if self.name == "money":
            return Decimal(str(value))
        if self.name == "count":
            return int(value)
        if float(value) == 0.0:
            raise UnitError("a quantity of zero", "write more than zero, or leave the entry out")
        return float(value)

    def pattern(self) -> str:
        """The digits allowed, as a regular expression."""
        return {"number": r"[0-9]{1,7}(\.[0-9]{1,6})?", "count": "[0-9]{1,7}",
                "money": r"[0-9]{1,10}(\.[0-9]{1,2})?"}[self.name]

    def wanted(self) -> str:
        """What is wanted, in words."""
        return {"number": "a plain number above zero", "count": "a whole number",
                "money": "an amount of money without sign, comma or currency"}[self.name]

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^{self.pattern()}$", "examples": list(self.examples),
                "x-kind": self.name}


def measure(kind: str, *examples: str, sign: Sign = "not negative", most: float = math.inf) -> Reads:
    """What a field of this kind reads (see `units.parse`); stands in `Annotated[Measure, ...]`."""
    return Reads(kind, sign, most, examples or units.KINDS[kind].examples)


def _spread(text: str, kind: str, written: str, origin: str) -> Measure:
    if len(parts := _PLUS_MINUS.split(text)) == 2:
        return _plus_minus(parts[0], parts[1], kind, written, origin)
    if len(parts := _RANGE.split(text)) == 2:
        return _range(parts[0], parts[1], kind, written, origin)
    found = units.read(text, kind)
    return Measure(found.value, found.value, found.value, "sure", kind, written, origin, found.foreign)


def _plus_minus(middle: str, spread: str, kind: str, written: str, origin: str) -> Measure:
    found = units.read(middle, kind)
    share = _SHARE.fullmatch(spread)
    if share and kind == "ratio":
        raise UnitError(f"`{written}` is read two ways", "write both ends, for example `10 % to 20 %`")
    if share:
        half, foreign = abs(found.value) * float(share[1]) / 100.0, False
    elif _BARE.fullmatch(spread) and kind != "coefficient":
        raise UnitError(f"`{written}`: the spread has no unit", f"write `{middle} +/- {spread} %`, or give its unit")
    else:
        other = units.read(spread, kind)
        half, foreign = other.value, other.foreign
    if half <= 0.0 or (units.KINDS[kind].low >= 0.0 and half >= found.value):
        raise UnitError(f"`{written}`: the spread is not between zero and the value itself",
                        "write for example `+/- 10 %`, more than 0 % and less than 100 %")
    if share and float(share[1]) >= 100.0:
        raise UnitError(f"`{written}`: the spread is 100 % or more", "write less than 100 %")
    return Measure(found.value, found.value - half, found.value + half, "normal", kind, written, origin,
                   found.foreign or foreign)


def _range(low: str, high: str, kind: str, written: str, origin: str) -> Measure:
    unit = _UNIT.fullmatch(high)
    first = units.read(f"{low} {unit[1]}" if unit and _BARE.fullmatch(low) else low, kind)
    last = units.read(high, kind)
    if first.value >= last.value:
        raise UnitError(f"`{written}`: the first value is not below the second", "write the lower one first")
    middle = (first.value + last.value) / 2.0
    return Measure(middle, first.value, last.value, "triangular", kind, written, origin, first.foreign or last.foreign)


Length = Annotated[Measure, measure("length", sign="any")]
"""A station, offset or height: may be negative."""
Size = Annotated[Measure, measure("length", sign="positive")]
"""A length above zero."""
Gap = Annotated[Measure, measure("length")]
"""A length of zero or more."""
Distance = Annotated[Measure, measure("distance")]
Mass = Annotated[Measure, measure("mass", "640 lb +/- 10 %", "290 kg")]
Rating = Annotated[Measure, measure("mass", sign="positive")]
"""A rated load, above zero."""
Pressure = Annotated[Measure, measure("pressure", sign="positive")]
Ratio = Annotated[Measure, measure("ratio", sign="any")]
Share = Annotated[Measure, measure("ratio", "15 %", "0 %", most=1.0)]
"""From nothing to all."""
Coefficient = Annotated[Measure, measure("coefficient", "0.12", sign="positive")]
"""A plain number without a unit: friction, gear."""
Efficiency = Annotated[Measure, measure("coefficient", "0.85", "85 %", sign="positive", most=1.0)]
Speed = Annotated[Measure, measure("speed", sign="positive")]
Stiffness = Annotated[Measure, measure("stiffness", sign="positive")]
Compliance = Annotated[Measure, measure("compliance")]
Torque = Annotated[Measure, measure("torque")]
Current = Annotated[Measure, measure("current", sign="positive")]
Voltage = Annotated[Measure, measure("voltage", sign="positive")]
Area = Annotated[Measure, measure("area", sign="positive")]
Volume = Annotated[Measure, measure("volume", sign="positive")]
Duration = Annotated[Measure, measure("duration", sign="positive")]
Angle = Annotated[Measure, measure("angle", sign="any")]
Power = Annotated[Measure, measure("power", sign="positive")]
ArealMass = Annotated[Measure, measure("arealmass")]
AreaLoad = Annotated[Measure, measure("areaload")]
Number = Annotated[float, Plain("number", ("3", "2.5"))]
Count = Annotated[int, Plain("count", ("12", "3"))]
Money = Annotated[Decimal, Plain("money", ("1250", "84.50"))]
