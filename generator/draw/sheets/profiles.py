"""Steel cut by a plane, drawn as the profile it was rolled to: webs and flanges at their places, toes as they point."""

from generator.draw.marks import Line, Mark, Point
from generator.draw.sheets.kit import Views
from generator.draw.sheets.legs import middle
from generator.draw.views import THIN, View
from generator.model.types import Piece
from generator.release.slices import Shape, Steel

SAME = 1e-3
"""Stations nearer than this are one, m."""
Ring = tuple[tuple[Point, ...], bool]
"""Points of a stroke in metres (across, height above ground) and whether it closes."""


def across(id: str, s: Steel, p: Piece, x: float, v: View) -> Views:
    """A lengthwise or upright piece cut at station x, as seen along the trailer."""
    half = (p.y1 - p.y0) / 2.0 * p.skew
    y = middle(p, x) if p.run == "lengthwise" else (p.y0 + p.y1) / 2.0
    rolled = p.run == "lengthwise"
    return _drawn(id, s, p, (y - half, y + half), rolled, 1.0 if y >= 0.0 else -1.0, v)


def along(id: str, s: Steel, p: Piece, v: View) -> Views:
    """A piece cut on the centre line, as seen from the side."""
    return _drawn(id, s, p, (p.x0, p.x1), p.run == "crosswise", 1.0, v)


def _drawn(id: str, s: Steel, p: Piece, wide: Point, rolled: bool, side: float, v: View) -> Views:
    deck = s.deck_height_laden
    low, high = p.z0 + deck, p.z1 + deck
    shape = next((q for q in s.shapes if q.mark == p.mark), None)
    rings = [_box(wide, (low, high), 0.0)]
    if rolled and shape is not None:
        rings = _rings(shape, p, wide, (low, high), side)
    marks: list[Mark] = []
    for i, (points, closed) in enumerate(rings):
        xs, zs = [q[0] for q in points], [q[1] for q in points]
        thin = min(v.mm(max(xs) - min(xs)), v.mm(max(zs) - min(zs))) < THIN
        marks.append(_line(f"{id}.{i}", points, v) if closed and thin else v.run(f"{id}.{i}", "cut", points, closed))
    return tuple(marks)


def _line(id: str, points: tuple[Point, ...], v: View) -> Line:
    """The middle line of a box too thin to show two edges."""
    (x0, z0), (x1, z1) = points[0], points[2]
    x, z = (x0 + x1) / 2.0, (z0 + z1) / 2.0
    ends = ((x0, z), (x1, z)) if abs(x1 - x0) > abs(z1 - z0) else ((x, z0), (x, z1))
    return v.run(id, "cut", ends)


def _box(wide: Point, deep: Point, inset: float) -> Ring:
    (a, b), (c, d) = (wide[0] + inset, wide[1] - inset), (deep[0] + inset, deep[1] - inset)
    return ((a, c), (b, c), (b, d), (a, d)), True


def _rings(shape: Shape, p: Piece, wide: Point, deep: Point, side: float) -> list[Ring]:
    """Middle lines of the plates of a section; `side` is outboard of a lengthwise piece."""
    (a, b), (c, d), t, w = wide, deep, shape.flange / 2.0, shape.web / 2.0
    back = _back(shape, p, side)
    heel, toe = (b - w, a) if back > 0.0 else (a + w, b)
    match shape.shape:
        case "I":
            m = (a + b) / 2.0
            return [(((a, c + t), (b, c + t)), False), (((a, d - t), (b, d - t)), False), (((m, c), (m, d)), False)]
        case "C":
            return [(((toe, c + t), (heel, c + t), (heel, d - t), (toe, d - t)), False)]
        case "L":
            return [(((toe, d - t), (heel, d - t), (heel, c)), False)]
        case "HSS":
            return [_box(wide, deep, w)]
        case _:
            return [_box(wide, deep, 0.0)]


def _back(shape: Shape, p: Piece, side: float) -> float:
    """Where the back of a channel or angle is turned: 1 to the greater coordinate, -1 to the lesser."""
    x = (p.x0 + p.x1) / 2.0
    word = next((w for w, at in shape.toes if any(abs(x - q) < SAME for q in at)), "")
    return {"inward": side, "outward": -side, "forward": 1.0, "aft": -1.0}.get(word, side)
