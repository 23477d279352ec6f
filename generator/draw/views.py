"""From metres to paper: a view's scale and direction, and the hidden edges of boxes seen along an axis."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.draw.marks import TEXT, TITLE, Line, Mark, Point, Rect, Text

US_SCALES = (1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192)
SI_SCALES = (1, 2, 5, 10, 20, 25, 40, 50, 75, 100, 200)
"""Reductions in use. Source: ISO 5455 for metric (1:25, 1:40 and 1:75 are common practice, no source);
inch-to-the-foot scales for US sheets."""


def scales(units: str) -> tuple[int, ...]:
    """Standard reductions of the project's units, largest drawing first."""
    return US_SCALES if units == "us" else SI_SCALES


@dataclass(frozen=True, slots=True)
class View:
    """Maps metres (across to the right, up) to paper mm; `turn` -1 looks from the other side."""

    ratio: float
    turn: int = 1
    x: float = 0.0
    y: float = 0.0

    def mm(self, metres: float) -> float:
        """A length on paper."""
        return metres * 1000.0 / self.ratio

    def across(self, metres: float) -> float:
        """Paper x of a place across the view."""
        return self.x + self.turn * self.mm(metres)

    def up(self, metres: float) -> float:
        """Paper y of a height."""
        return self.y - self.mm(metres)

    def p(self, across: float, up: float) -> Point:
        """Paper point."""
        return self.across(across), self.up(up)

    def run(self, id: str, pen: str, points: Iterable[Point], closed: bool = False) -> Line:
        """A line through points given in metres."""
        return Line(id, pen, tuple(self.p(*q) for q in points), closed)

    def box(self, id: str, pen: str, x0: float, z0: float, x1: float, z1: float) -> Line:
        """A box given in metres."""
        return self.run(id, pen, ((x0, z0), (x1, z0), (x1, z1), (x0, z1)), closed=True)


def title(id: str, at: Point, words: str, scale: str, state: str) -> tuple[Text, ...]:
    """A view title: name and scale, below it load state and mass."""
    x, y = at
    head = Text(f"{id}.title", f"{words}\u00a0 {scale}".rstrip(), (x, y + TITLE), TITLE, bold=True)
    return (head, Text(f"{id}.title.state", state, (x, y + TITLE + 5.4), TEXT)) if state else (head,)


THIN, SAME, TRIMMED = 0.75, 0.15, 0.4
"""A plate thinner than this is one line, edges nearer than this are one, hidden lines end this far off others, mm."""

Part = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Solid:
    """A box as seen: its face on the paper plane (m), how near it is to the eye, and level boxes its ends lie under.

    `ring`: the corners of a face that is no upright box, in order, convex; `face` is then the box around it.
    """

    id: str
    face: Rect
    near: float
    under: tuple[Rect, ...] = ()
    ring: tuple[Point, ...] = ()

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners in order."""
        f = self.face
        return self.ring or ((f.x0, f.y0), (f.x1, f.y0), (f.x1, f.y1), (f.x0, f.y1))


def edges(solids: Sequence[Solid], view: View) -> tuple[Mark, ...]:
    """Outlines of boxes, the parts behind nearer boxes dashed; edges that run together are drawn once."""
    mm = view.ratio / 1000.0
    runs: dict[tuple[str, bool, float], list[Part]] = {}
    straight = [s for s in solids if not s.ring]
    faces = [_thinned(s.face, THIN * mm) for s in straight]
    columns = _merged({x for f in faces for x in (f.x0, f.x1)}, SAME * mm)
    rows = _merged({y for f in faces for y in (f.y0, f.y1)}, SAME * mm)
    for s, f in zip(straight, faces, strict=True):
        nearer = [o for o in _before(s, solids) if _near(o.face, f)]
        for level, fixed, low, high in (
            (True, f.y0, f.x0, f.x1),
            (True, f.y1, f.x0, f.x1),
            (False, f.x0, f.y0, f.y1),
            (False, f.x1, f.y0, f.y1),
        ):
            hides = [p for o in nearer if (p := _across(o, level, fixed)) is not None]
            covered = _clip(_union(hides), low, high)
            for pen, parts in (("outline", _gaps(covered, low, high)), ("hidden", covered)):
                runs.setdefault((pen, level, (rows if level else columns)[fixed]), []).extend(parts)
    slanted = (m for i, s in enumerate(solids) if s.ring for m in _slanted(f"slant.{i}", s, _before(s, solids), view))
    return (*_strokes(runs, view, TRIMMED * mm), *slanted)


def _before(s: Solid, solids: Sequence[Solid]) -> list[Solid]:
    """What stands before a solid, and what its ends lie under."""
    return [*(o for o in solids if o.near > s.near + 1e-6), *(Solid("", face, s.near) for face in s.under)]


def _near(o: Rect, f: Rect) -> bool:
    """Whether one box may cover an edge of the other, so that most of a frame need not be looked at."""
    return o.x0 <= f.x1 and f.x0 <= o.x1 and o.y0 <= f.y1 and f.y0 <= o.y1


def _across(o: Solid, level: bool, fixed: float) -> Part | None:
    """What a solid covers of a level or upright line through its inside."""
    f = o.face
    if not (f.y0 < fixed - 1e-6 < fixed + 1e-6 < f.y1 if level else f.x0 < fixed - 1e-6 < fixed + 1e-6 < f.x1):
        return None
    if not o.ring:
        return (f.x0, f.x1) if level else (f.y0, f.y1)
    reach = (f.x0 - 1.0, f.x1 + 1.0) if level else (f.y0 - 1.0, f.y1 + 1.0)
    a, b = ((reach[0], fixed), (reach[1], fixed)) if level else ((fixed, reach[0]), (fixed, reach[1]))
    share = _within(a, b, o.corners)
    return None if share is None else (reach[0] + share[0] * (reach[1] - reach[0]),
                                       reach[0] + share[1] * (reach[1] - reach[0]))


def _within(a: Point, b: Point, ring: Sequence[Point]) -> Part | None:
    """The share of a stroke from a to b that lies inside a convex ring, or None (Cyrus and Beck's clipping)."""
    around = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    turn = 1.0 if sum(p[0] * q[1] - q[0] * p[1] for p, q in around) > 0.0 else -1.0
    low, high = 0.0, 1.0
    for p, q in around:
        ex, ey = turn * (q[0] - p[0]), turn * (q[1] - p[1])
        at_a = ex * (a[1] - p[1]) - ey * (a[0] - p[0])
        at_b = ex * (b[1] - p[1]) - ey * (b[0] - p[0])
        if at_a <= 1e-9 and at_b <= 1e-9:
            return None
        if at_a < 0.0 < at_b:
            low = max(low, at_a / (at_a - at_b))
        elif at_b < 0.0 < at_a:
            high = min(high, at_a / (at_a - at_b))
    return (low, high) if high - low > 1e-9 else None


def _slanted(id: str, s: Solid, nearer: Sequence[Solid], view: View) -> Iterator[Line]:
    """The sides of a ring, the parts behind nearer solids dashed."""
    ring = s.corners
    for n, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True)):
        covered = _union([p for o in nearer if (p := _within(a, b, o.corners)) is not None])
        for pen, parts in (("outline", _gaps(covered, 0.0, 1.0)), ("hidden", covered)):
            for i, ends in enumerate(parts):
                points = ((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in ends)
                yield view.run(f"{id}.{n}.{pen}.{i}", pen, points)


def _strokes(runs: Mapping[tuple[str, bool, float], Sequence[Part]], view: View, trim: float) -> Iterator[Line]:
    for pen, level, fixed in sorted(runs):
        parts = _union(runs[pen, level, fixed])
        if pen == "hidden":
            seen = _union(runs.get(("outline", level, fixed), []))
            apart = [g for p in parts for g in _gaps(_clip(seen, *p), *p)]
            parts = [(a + trim, b - trim) for a, b in apart if b - a > 3.0 * trim]
        for i, (a, b) in enumerate(parts):
            ends = ((a, fixed), (b, fixed)) if level else ((fixed, a), (fixed, b))
            yield view.run(f"{pen}.{'h' if level else 'v'}.{fixed:g}.{i}", pen, ends)


def _thinned(f: Rect, least: float) -> Rect:
    """The face, or its middle line where it is too thin to show two edges."""
    wide, high = f.x1 - f.x0 < least, f.y1 - f.y0 < least
    x, y = (f.x0 + f.x1) / 2.0, (f.y0 + f.y1) / 2.0
    return Rect(x if wide else f.x0, y if high else f.y0, x if wide else f.x1, y if high else f.y1)


def _merged(places: Iterable[float], near: float) -> dict[float, float]:
    """Each place and where it is drawn: places closer than `near` to the next share the middle of their group."""
    groups: list[list[float]] = []
    for place in sorted(places):
        if groups and place - groups[-1][-1] < near:
            groups[-1].append(place)
        else:
            groups.append([place])
    return {place: round((g[0] + g[-1]) / 2.0, 6) for g in groups for place in g}


def _union(parts: Iterable[Part]) -> list[Part]:
    out: list[Part] = []
    for a, b in sorted(parts):
        if out and a <= out[-1][1] + 1e-6:
            out[-1] = (out[-1][0], max(out[-1][1], b))
        else:
            out.append((a, b))
    return [p for p in out if p[1] - p[0] > 1e-6]


def _clip(parts: Iterable[Part], low: float, high: float) -> list[Part]:
    cut = ((max(a, low), min(b, high)) for a, b in parts)
    return [(a, b) for a, b in cut if b - a > 1e-6]


def _gaps(parts: Iterable[Part], low: float, high: float) -> list[Part]:
    out: list[Part] = []
    at = low
    for a, b in parts:
        if a - at > 1e-6:
            out.append((at, a))
        at = max(at, b)
    return [*out, (at, high)] if high - at > 1e-6 else out
