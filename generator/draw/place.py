"""Labels with leaders: each finds a place free of text, outlines and dimension lines, or goes to the margin column."""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from generator.draw.marks import MARK, Area, Circle, Line, Mark, Point, Rect, Text
from generator.draw.ordinates import spread
from generator.draw.text import DESCENT, width
from generator.errors import RenderError

BUCKET, CELL = 10.0, 1.0
"""Grid of buckets, and the length of the cells into which a slanted line is cut, mm."""
REACHES = (3.0, 5.0, 8.0, 13.0, 20.0, 28.0, 40.0, 55.0)
SIDES = tuple(
    (math.cos(a), -math.sin(a))
    for a in (math.radians(d) for d in (60, 120, 300, 240, 30, 150, 330, 210, 80, 100, 280, 260))
)
CLEAR = 0.6
"""Kept free around a label, mm."""
SHELF, BESIDE = 1.0, 0.6
"""Level end of a leader, and room between it and its text, mm."""
ATTEMPTS = 4
"""How often placing starts again with the labels first that found no place."""
KEEP_OFF = frozenset(
    {"ground", "frame", "cut", "outline", "hidden", "thin", "dimension", "leader", "centre", "phantom", "grid", "hatch"}
)


@dataclass(frozen=True, slots=True)
class Label:
    """A text that belongs to a point of the drawing, or to one of `others`; low rank is placed first."""

    id: str
    text: str
    target: Point
    rank: int = 0
    height: float = MARK
    bold: bool = False
    value: float | None = None
    unit: str = ""
    others: tuple[Point, ...] = ()


@dataclass(slots=True)
class Obstacles:
    """Boxes that a label must not meet, in buckets of a grid; texts are kept apart for leaders."""

    boxes: dict[tuple[int, int], list[Rect]] = field(default_factory=dict)
    words: list[Rect] = field(default_factory=list)

    def add(self, marks: Iterable[Mark]) -> None:
        """Take in what stands on the paper already."""
        for m in marks:
            match m:
                case Text():
                    self.words.append(m.box)
                    self._put(m.box)
                case Line() if m.pen in KEEP_OFF:
                    for a, b in m.segments():
                        for cell in cells(a, b):
                            self._put(cell)
                case Circle() if m.pen in KEEP_OFF:
                    for a, b in zip(ring := circle_points(m), ring[1:], strict=False):
                        for cell in cells(a, b):
                            self._put(cell)
                case Area() if m.fill == "ink":
                    xs, ys = [p[0] for p in m.points], [p[1] for p in m.points]
                    self._put(Rect(min(xs), min(ys), max(xs), max(ys)))

    def _put(self, box: Rect) -> None:
        for key in _keys(box):
            self.boxes.setdefault(key, []).append(box)

    def free(self, box: Rect) -> bool:
        """Whether nothing stands in the box."""
        return not any(box.meets(o) for key in _keys(box) for o in self.boxes.get(key, ()))

    def leader_free(self, a: Point, b: Point) -> bool:
        """Whether a leader from a to b meets no text."""
        return not any(crosses(a, b, w.grown(0.4)) for w in self.words)


def _keys(box: Rect) -> Iterable[tuple[int, int]]:
    xs = range(math.floor(box.x0 / BUCKET), math.floor(box.x1 / BUCKET) + 1)
    return ((i, j) for i in xs for j in range(math.floor(box.y0 / BUCKET), math.floor(box.y1 / BUCKET) + 1))


def cells(a: Point, b: Point) -> list[Rect]:
    """Boxes along a stroke: one for an upright or level stroke, else one for each mm."""
    thick = 0.05
    n = 1 if abs(a[0] - b[0]) < 1e-6 or abs(a[1] - b[1]) < 1e-6 else math.ceil(math.dist(a, b) / CELL)
    at = [(a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n) for i in range(n + 1)]
    return [
        Rect(min(p[0], q[0]) - thick, min(p[1], q[1]) - thick, max(p[0], q[0]) + thick, max(p[1], q[1]) + thick)
        for p, q in itertools.pairwise(at)
    ]


def circle_points(c: Circle) -> list[Point]:
    """A circle as a run of points."""
    turn = [2.0 * math.pi * i / 36 for i in range(37)]
    return [(c.centre[0] + c.radius * math.cos(t), c.centre[1] + c.radius * math.sin(t)) for t in turn]


def crosses(a: Point, b: Point, box: Rect) -> bool:
    """Whether a stroke passes through a box (Liang and Barsky's clipping)."""
    low, high = 0.0, 1.0
    for p, d, x0, x1 in ((a[0], b[0] - a[0], box.x0, box.x1), (a[1], b[1] - a[1], box.y0, box.y1)):
        if abs(d) < 1e-12:
            if not x0 < p < x1:
                return False
            continue
        t0, t1 = sorted(((x0 - p) / d, (x1 - p) / d))
        low, high = max(low, t0), min(high, t1)
    return low < high


def place(labels: Sequence[Label], standing: Iterable[Mark], room: Rect, column: Rect | None) -> tuple[Mark, ...]:
    """Texts and leaders of all labels; those that find no place beside their target stand in the column.

    Without a column they are left out: only where the sheet names the same thing elsewhere.

    Raises RenderError when the column is full.
    """
    listed, order = tuple(standing), sorted(labels, key=lambda g: (g.rank, g.id))
    for _ in range(ATTEMPTS):
        marks, left = _try(order, listed, room)
        if not left:
            break
        order = left + [g for g in order if g not in left]
    return (*marks, *_column(left, column)) if column else tuple(marks)


def _try(order: Sequence[Label], standing: Iterable[Mark], room: Rect) -> tuple[list[Mark], list[Label]]:
    """Place labels one after another; also those that found no place."""
    obstacles = Obstacles()
    obstacles.add(standing)
    marks: list[Mark] = []
    left: list[Label] = []
    for label in order:
        found = _beside(label, obstacles, room)
        if found is None:
            left.append(label)
        else:
            obstacles.add(found)
            marks += found
    return marks, left


def _beside(label: Label, obstacles: Obstacles, room: Rect) -> tuple[Mark, ...] | None:
    """The first place free of everything: nearest reach first, then target by target, side by side."""
    wide = width(label.text, label.height, label.bold)
    for reach in REACHES:
        for target in (label.target, *label.others):
            for ux, uy in SIDES:
                elbow = (target[0] + ux * reach, target[1] + uy * reach)
                if _clear(obstacles, room, target, elbow, _box(label, elbow, ux > 0, wide), ux > 0):
                    return _with_leader(label, target, elbow, ux > 0)
    return None


def _box(label: Label, elbow: Point, right: bool, wide: float) -> Rect:
    """The box of a label's text beside the elbow of its leader."""
    x = elbow[0] + (SHELF + BESIDE) * (1.0 if right else -1.0)
    x0, x1 = (x, x + wide) if right else (x - wide, x)
    base = elbow[1] + label.height / 2.0
    return Rect(x0, base - label.height, x1, base + label.height * DESCENT).grown(CLEAR)


def _clear(obstacles: Obstacles, room: Rect, target: Point, elbow: Point, box: Rect, right: bool) -> bool:
    end = (elbow[0] + (SHELF if right else -SHELF), elbow[1])
    if not (box.inside(room) and obstacles.free(box)):
        return False
    return obstacles.leader_free(target, elbow) and obstacles.leader_free(elbow, end)


def _with_leader(label: Label, target: Point, elbow: Point, right: bool) -> tuple[Area, Line, Text]:
    """A dot at the target, a slanted leader with a short shelf, and the text after the shelf."""
    x, y = elbow
    out = 1.0 if right else -1.0
    at = (x + out * (SHELF + BESIDE), y + label.height / 2.0)
    text = Text(
        label.id, label.text, at, label.height, "start" if right else "end", label.bold, False, label.value, label.unit
    )
    return (
        _dot(f"{label.id}.dot", target),
        Line(f"{label.id}.leader", "leader", (target, elbow, (x + out * SHELF, y))),
        text,
    )


def _dot(id: str, at: Point) -> Area:
    turn = [math.pi * i / 4.0 for i in range(8)]
    return Area(id, "ink", tuple((at[0] + 0.5 * math.cos(t), at[1] + 0.5 * math.sin(t)) for t in turn))


def _column(labels: Sequence[Label], column: Rect) -> list[Mark]:
    ordered = sorted(labels, key=lambda g: (g.target[1], g.id))
    gap = max((g.height for g in ordered), default=MARK) * 1.6
    if ordered and (len(ordered) - 1) * gap > column.y1 - column.y0:
        raise RenderError(f"no place for {len(ordered)} labels in the margin of the drawing; use fewer marks")
    places = spread([g.target[1] for g in ordered], gap, column.y0, column.y1)
    marks: list[Mark] = []
    for label, y in zip(_uncrossed(ordered, column.x0, places), places, strict=False):
        marks += _with_leader(label, label.target, (column.x0, y), right=True)
    return marks


def _uncrossed(labels: list[Label], x: float, places: Sequence[float]) -> list[Label]:
    """Swap the ends of leaders that cross; each swap shortens their sum, so it ends."""
    order = list(labels)
    swapped = True
    while swapped:
        swapped = False
        for i in range(len(order) - 1):
            for j in range(i + 1, len(order)):
                a, b = order[i].target, order[j].target
                now = math.dist(a, (x, places[i])) + math.dist(b, (x, places[j]))
                then = math.dist(a, (x, places[j])) + math.dist(b, (x, places[i]))
                if then < now - 1e-9:
                    order[i], order[j], swapped = order[j], order[i], True
    return order
