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
class Sheet:
    """A finished sheet. `marks` is its display list; `svg` writes it at true size."""

    number: str
    title: str
    size: Paper
    scale: str
    marks: tuple[Mark, ...]
    alt: str
    schedule: tuple[Schedule, ...]

    def svg(self) -> str:
        """The sheet as SVG, width and height in mm."""
        return writer.write(self.number, f"{self.number} {self.title}", (self.size.width, self.size.height), self.marks)
