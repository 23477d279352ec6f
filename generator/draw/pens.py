"""Pens by name: width and dashes in mm, ink. Source of the series: ISO 128-2."""

from dataclasses import dataclass

INK, SECOND = "#1a1a1a", "#595959"


@dataclass(frozen=True, slots=True)
class Pen:
    """A line as drawn: width mm, dashes mm, colour."""

    width: float
    dashes: tuple[float, ...] = ()
    ink: str = INK


PENS: dict[str, Pen] = {
    "ground": Pen(1.0),
    "frame": Pen(0.7),
    "cut": Pen(0.7),
    "outline": Pen(0.5),
    "hidden": Pen(0.25, (2.0, 0.8)),
    "thin": Pen(0.25),
    "dimension": Pen(0.25),
    "leader": Pen(0.25),
    "hatch": Pen(0.25, (), SECOND),
    "centre": Pen(0.25, (8.0, 1.5, 1.0, 1.5)),
    "phantom": Pen(0.25, (8.0, 1.5, 1.0, 1.5, 1.0, 1.5), SECOND),
    "grid": Pen(0.18, (), SECOND),
}
"""Pens in the order in which they are drawn last to first: the widest lie lowest."""

FILLS = {"ink": INK}
