"""Legs of a tongue that run at an angle: their faces in plan and seen along the trailer, their angle drawn. m, rad."""

import math
from collections.abc import Iterable, Sequence

from generator.draw.marks import TEXT, Line, Mark, Point, Rect, arrow
from generator.draw.place import Label
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.slices import Steel

RADIUS, STEPS = 22.0, 12
"""Radius of the arc of an angle on paper, mm, and the strokes it is drawn with."""


def is_slanted(p: Piece) -> bool:
    """Whether a piece runs at an angle to the centre line."""
    return p.skew > 1.0 + 1e-9


def slope(p: Piece) -> float:
    """How far a leg moves off the centre line for each metre aft; 0 for a straight piece."""
    return math.sqrt(max(p.skew**2 - 1.0, 0.0))


def middle(p: Piece, x: float) -> float:
    """Where the middle of a piece lies across the trailer at station x."""
    side = 1.0 if p.y0 + p.y1 >= 0.0 else -1.0
    return (p.y0 + p.y1) / 2.0 + side * slope(p) * (x - (p.x0 + p.x1) / 2.0)


def ring(p: Piece) -> tuple[Point, ...]:
    """Corners of a leg from above (station, y): cut across at both ends, mitred on the centre line; none if straight."""
    if not is_slanted(p):
        return ()
    half, side = (p.y1 - p.y0) / 2.0 * p.skew, 1.0 if p.y0 + p.y1 >= 0.0 else -1.0
    corners = [(x, middle(p, x) + out * half) for x, out in ((p.x0, -1), (p.x1, -1), (p.x1, 1), (p.x0, 1))]
    return tuple(_on_side(corners, side))


def _on_side(corners: Sequence[Point], side: float) -> list[Point]:
    """The part of a ring on one side of the centre line."""
    out: list[Point] = []
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        if side * a[1] >= 0.0:
            out.append(a)
        if a[1] * b[1] < 0.0:
            share = a[1] / (a[1] - b[1])
            out.append((a[0] + share * (b[0] - a[0]), 0.0))
    return out


def across(p: Piece) -> tuple[float, float]:
    """Least and greatest y of a piece as it lies."""
    ys = [y for _, y in ring(p)] or [p.y0, p.y1]
    return min(ys), max(ys)


def nose(p: Piece) -> tuple[float, float]:
    """Least and greatest y of the front end of a piece."""
    ys = [y for x, y in ring(p) if x < p.x0 + 1e-9] or [p.y0, p.y1]
    return min(ys), max(ys)


def boxed(p: Piece) -> Rect:
    """The box around a piece from above."""
    return Rect(p.x0, across(p)[0], p.x1, across(p)[1])


def tongue(s: Steel) -> tuple[Piece, ...]:
    """Pieces that stand ahead of datum A, of a trailer on a tongue."""
    return () if s.has_neck else tuple(p for p in s.pieces if p.x0 < -1e-6)


def legs(s: Steel) -> tuple[Piece, ...]:
    """The lengthwise pieces of a tongue, left ones first."""
    return tuple(sorted((p for p in tongue(s) if p.run == "lengthwise"), key=lambda p: (p.y0, p.x0)))


def back(pieces: Iterable[Piece]) -> float:
    """Rearmost station of pieces; 0 for none."""
    return max((p.x1 for p in pieces), default=0.0)


def angle(id: str, p: Piece, view: View, words: str, value: float) -> tuple[tuple[Mark, ...], Label]:
    """The angle between the centre line and the middle of a leg: an arc about the point where they meet, its label."""
    x = p.x0 - middle(p, p.x0) / (slope(p) * (1.0 if p.y0 + p.y1 >= 0.0 else -1.0))
    cx, cy = view.p(x, 0.0)
    reach = max(RADIUS, view.mm(p.x1 - x) * 0.5)
    turn = [value * i / STEPS for i in range(STEPS + 1)]
    arc = tuple((cx + reach * math.cos(t), cy + reach * math.sin(t)) for t in turn)
    ends = (arrow(f"{id}.low", arc[0], arc[1]), arrow(f"{id}.high", arc[-1], arc[-2]))
    label = Label(f"{id}.text", words, arc[STEPS // 2], -1, TEXT, value=value, unit="rad", others=arc[2:-2])
    return (Line(id, "dimension", arc), *ends), label
