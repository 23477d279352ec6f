"""Lamps and reflectors that the rules of a region ask for, and the circuits of connectors, as data. SI."""

import math
from collections.abc import Iterable

from generator.errors import DataError
from generator.records import dataclass
from generator.reference.load import INCH, confidence, csv_rows, number, table, text
from generator.reference.types import Confidence

UNITS = {"in": INCH, "mm": 0.001}
FACES = ("rear", "side", "front")
PLACES = ("pair", "reflector", "plate", "row", "corner", "foremost", "front", "middle", "rear")
LEVELS = ("frame", "nose", "top")


@dataclass(frozen=True, slots=True)
class LampRule:
    """A kind of lamp or reflector: where it belongs, between which heights above ground, how near the edge (m).

    `wide_from`, `long_from`: from which width and length of the trailer on; `wide_to`: below which width. NaN: none.
    """

    id: str
    regions: tuple[str, ...]
    title: str
    count: int
    colour: str
    face: str
    place: str
    level: str
    low: float
    high: float
    edge: float
    wide_from: float
    long_from: float
    wide_to: float
    source: str
    confidence: Confidence

    def wakes(self, width: float, length: float) -> bool:
        """Whether a trailer of this overall width and length (m) needs it; one whose sizes are unknown does."""
        is_narrow, is_short = width < self.wide_from, length < self.long_from
        return not (is_narrow or is_short or width >= self.wide_to)


@dataclass(frozen=True, slots=True)
class Circuit:
    """One contact of a connector: its number, what it carries, the colour of its wire."""

    id: str
    connector: str
    contact: str
    circuit: str
    colour: str
    source: str
    confidence: Confidence


def lamp_rules() -> tuple[LampRule, ...]:
    """Every lamp of every rule held, in the order of the file."""
    return tuple(table("lamps.csv", csv_rows("lamps.csv"), _lamp).values())


def lamps_of(regions: Iterable[str], width: float, length: float) -> tuple[LampRule, ...]:
    """The lamps asked for on a route by a trailer of this overall width and length (m)."""
    route = tuple(regions)
    return tuple(r for r in lamp_rules() if r.wakes(width, length) and any(_holds(r, code) for code in route))


def circuits() -> tuple[Circuit, ...]:
    """Every circuit of every connector held, in the order of the file."""
    return tuple(table("circuits.csv", csv_rows("circuits.csv"), _circuit).values())


def circuits_of(connector: str) -> tuple[Circuit, ...]:
    """The circuits of the connector that this text names; none if it is not held."""
    return tuple(c for c in circuits() if c.connector in connector)


def _holds(rule: LampRule, code: str) -> bool:
    return any(code == r or code.startswith(f"{r}-") for r in rule.regions)


def _lamp(row: dict[str, str]) -> tuple[str, LampRule]:
    if row["face"] not in FACES or row["place"] not in PLACES or row["level"] not in LEVELS:
        raise DataError(f"reference/lamps.csv: {row['id']}: face, place or level is none of those known")
    factor = UNITS[text(row, "unit")]
    low, high, edge, wide, long, narrow = (
        number(row, key) * factor if row[key] else math.nan
        for key in ("low", "high", "edge", "wide_from", "long_from", "wide_to")
    )
    return row["id"], LampRule(
        row["id"], tuple(row["regions"].split()), text(row, "title"), int(number(row, "count")), text(row, "colour"),
        row["face"], row["place"], row["level"], low, high, edge, wide, long, narrow, text(row, "source"),
        confidence(row),
    )


def _circuit(row: dict[str, str]) -> tuple[str, Circuit]:
    connector, contact, circuit, colour, source = (
        text(row, key) for key in ("connector", "contact", "circuit", "colour", "source")
    )
    return row["id"], Circuit(row["id"], connector, contact, circuit, colour, source, confidence(row))
