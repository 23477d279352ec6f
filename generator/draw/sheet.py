"""A drawing sheet: paper, frame, zones, title block, revision block, notes, scale bar; and what stands in them."""

from dataclasses import dataclass

from generator.draw import svg as writer
from generator.draw.marks import Mark


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet size: name and mm."""

    name: str
    width: float
    height: float


TABLOID = Paper("11x17 in", 431.8, 279.4)
A3 = Paper("A3", 420.0, 297.0)


@dataclass(frozen=True, slots=True)
class Schedule:
    """A table beside the drawing, as text: title, head, rows; `right` tells which columns hold numbers."""

    title: str
    head: tuple[str, ...]
    right: tuple[bool, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Other:
    """A text of a sheet that is other than on an earlier one: its zone, what stood there, what stands there now."""

    zone: str
    was: str
    now: str


def tells_money(number: str) -> bool:
    """Whether a sheet of this number tells of money: those of the letter M."""
    return number.startswith("M")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A finished sheet. `marks` is its display list; `svg` writes it at true size.

    `changed`: what is other than on the sheet of an earlier revision it was compared with.
    """

    number: str
    title: str
    size: Paper
    scale: str
    marks: tuple[Mark, ...]
    alt: str
    schedule: tuple[Schedule, ...]
    changed: tuple[Other, ...] = ()

    @property
    def tells_money(self) -> bool:
        """Whether it stands with the budget: the set of drawings is handed on."""
        return tells_money(self.number)

    def svg(self) -> str:
        """The sheet as SVG, width and height in mm."""
        return writer.write(self.number, f"{self.number} {self.title}", (self.size.width, self.size.height), self.marks)
