"""The display list: what stands on the paper, in millimetres from its upper left corner, y downward."""

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from generator.draw import text as letters

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

TEXT, TITLE, MARK, SMALL = 3.0, 5.0, 3.5, 2.5
"""Heights of capitals, mm: dimensions and notes; view titles; marks; field names and zones."""
ARROW = (3.0, 1.0)
"""Length and breadth of an arrow head, mm."""


class Rect(NamedTuple):
    """An upright box on the paper; a tuple, because placing makes ten thousand of them."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: "Rect") -> bool:
        """Whether the two share more than an edge."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def inside(self, other: "Rect") -> bool:
        """Whether this box lies within the other."""
        return other.x0 <= self.x0 and self.x1 <= other.x1 and other.y0 <= self.y0 and self.y1 <= other.y1

    def grown(self, by: float) -> "Rect":
        """The box with a margin of `by` mm all round."""
        return Rect(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def moved(self, dx: float, dy: float) -> "Rect":
        """The box shifted."""
        return Rect(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)


@dataclass(frozen=True, slots=True)
class Line:
    """A run of straight strokes drawn with one pen."""

    id: str
    pen: str
    points: tuple[Point, ...]
    closed: bool = False

    def segments(self) -> Iterator[tuple[Point, Point]]:
        """Its strokes one by one."""
        ring = self.points + self.points[:1] if self.closed else self.points
        return itertools.pairwise(ring)


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle, or the part of it above `floor` (a tyre flattened by the ground)."""

    id: str
    pen: str
    centre: Point
    radius: float
    floor: float | None = None


@dataclass(frozen=True, slots=True)
class Area:
    """A filled shape."""

    id: str
    fill: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text on its baseline at `at`; turned text reads from the right-hand side of the sheet.

    `value` is the model's number the text shows, if it shows one; `unit` its unit key.
    """

    id: str
    text: str
    at: Point
    height: float = TEXT
    anchor: Anchor = "start"
    bold: bool = False
    turned: bool = False
    value: float | None = None
    unit: str = ""

    @property
    def width(self) -> float:
        """Width of its letters, mm."""
        return letters.width(self.text, self.height, self.bold)

    @property
    def box(self) -> Rect:
        """The box its letters need, tails included."""
        w, h, tail = self.width, self.height, self.height * letters.DESCENT
        left = {"start": 0.0, "middle": -w / 2.0, "end": -w}[self.anchor]
        x, y = self.at
        if self.turned:
            return Rect(x - h, y - left - w, x + tail, y - left)
        return Rect(x + left, y - h, x + left + w, y + tail)

    def moved(self, dx: float, dy: float) -> "Text":
        """The same text elsewhere."""
        return Text(
            self.id,
            self.text,
            (self.at[0] + dx, self.at[1] + dy),
            self.height,
            self.anchor,
            self.bold,
            self.turned,
            self.value,
            self.unit,
        )


Mark = Line | Circle | Area | Text


def rectangle(id: str, pen: str, x0: float, y0: float, x1: float, y1: float) -> Line:
    """A closed box."""
    return Line(id, pen, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True)


def arrow(id: str, tip: Point, tail: Point) -> Area:
    """A filled head at `tip`, pointing away from `tail`."""
    length, breadth = ARROW
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    reach = math.hypot(dx, dy) or 1.0
    ux, uy = dx / reach, dy / reach
    bx, by = tip[0] - ux * length, tip[1] - uy * length
    half = breadth / 2.0
    return Area(id, "ink", (tip, (bx - uy * half, by + ux * half), (bx + uy * half, by - ux * half)))


def cross(id: str, at: Point, reach: float) -> tuple[Line, Line]:
    """A centre mark: two crossing centre lines."""
    x, y = at
    return (
        Line(f"{id}.h", "thin", ((x - reach, y), (x + reach, y))),
        Line(f"{id}.v", "thin", ((x, y - reach), (x, y + reach))),
    )


def hatched(id: str, box: Rect, gap: float = 2.5) -> tuple[Line, ...]:
    """Hatching at 45 degrees over a box, lines `gap` mm apart."""
    w, h = box.x1 - box.x0, box.y1 - box.y0
    step = gap * math.sqrt(2.0)
    lines = []
    for i in range(1, int((w + h) / step) + 1):
        c = i * step
        low = (box.x0 + min(c, w), box.y0 + max(0.0, c - w))
        high = (box.x0 + max(0.0, c - h), box.y0 + min(c, h))
        if math.dist(low, high) > 0.3:
            lines.append(Line(f"{id}.{i}", "hatch", (low, high)))
    return tuple(lines)


def texts(marks: Iterable[Mark]) -> tuple[Text, ...]:
    """The texts of a display list."""
    return tuple(m for m in marks if isinstance(m, Text))


def extent(marks: Iterable[Mark]) -> Rect:
    """The box around all marks."""
    xs: list[float] = []
    ys: list[float] = []
    for m in marks:
        match m:
            case Text():
                b = m.box
                xs += [b.x0, b.x1]
                ys += [b.y0, b.y1]
            case Circle():
                xs += [m.centre[0] - m.radius, m.centre[0] + m.radius]
                ys += [m.centre[1] - m.radius, m.centre[1] + m.radius]
            case Line() | Area():
                xs += [p[0] for p in m.points]
                ys += [p[1] for p in m.points]
    return Rect(min(xs), min(ys), max(xs), max(ys))


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark shifted on the paper."""
    match mark:
        case Text():
            return mark.moved(dx, dy)
        case Circle():
            floor = None if mark.floor is None else mark.floor + dy
            return Circle(mark.id, mark.pen, (mark.centre[0] + dx, mark.centre[1] + dy), mark.radius, floor)
        case Line():
            return Line(mark.id, mark.pen, tuple((x + dx, y + dy) for x, y in mark.points), mark.closed)
        case Area():
            return Area(mark.id, mark.fill, tuple((x + dx, y + dy) for x, y in mark.points))
