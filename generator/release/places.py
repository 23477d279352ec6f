"""Where each mark of the frame goes: stations, distance off the centre line, top, ends. Text for the schedules."""

import math
from collections.abc import Iterable, Sequence

from generator.calc.findings import Cope, Results, Turned
from generator.model.solids import middle_at, slope
from generator.model.types import Model, Piece
from generator.release.slices import PlaceRow
from generator.units import Show

FEW = 4
"""From so many equal steps on, stations are told as a run."""
SAME = 1e-4
"""Stations and sizes nearer than this are one, m."""


def places(model: Model, results: Results, show: Show) -> tuple[PlaceRow, ...]:
    """One row a mark, in the order of the marks."""
    marks: dict[str, list[Piece]] = {}
    for p in model.pieces:
        marks.setdefault(p.mark, []).append(p)
    return tuple(
        PlaceRow(mark, _where(of, show), _across(of, show), _top(of, show), _ends(mark, of[0], results, show))
        for mark, of in sorted(marks.items())
    )


def _where(of: Sequence[Piece], show: Show) -> str:
    if of[0].run == "lengthwise":
        return f"{show(of[0].x0, 'm')} to {show(of[0].x1, 'm')}"
    return stations_text(((p.x0 + p.x1) / 2.0 for p in of), show)


def stations_text(stations: Iterable[float], show: Show) -> str:
    """Stations from the front, even runs drawn together: `2'-0" to 8'-0", 4 at 2'-0"; 9'-6"`."""
    rest: list[float] = []
    for x in sorted(stations):
        if not rest or x - rest[-1] > SAME:
            rest.append(x)
    parts = []
    while rest:
        n = _even(rest)
        if n >= FEW:
            step = show(rest[1] - rest[0], "m")
            parts.append(f"{show(rest[0], 'm')} to {show(rest[n - 1], 'm')}, {n} places {step} apart")
        else:
            n = 1
            parts.append(show(rest[0], "m"))
        rest = rest[n:]
    return "; ".join(parts)


def _even(stations: Sequence[float]) -> int:
    """How many stations from the first on are evenly spaced."""
    n = min(len(stations), 2)
    while n < len(stations) and abs(stations[n] - 2.0 * stations[n - 1] + stations[n - 2]) <= SAME:
        n += 1
    return n


def _across(of: Sequence[Piece], show: Show) -> str:
    """Distance from the centre line: of the middle, or of both ends of what runs crosswise."""
    p = max(of, key=lambda q: q.y0 + q.y1)
    if angle := slope(p):
        front, rear = (show(abs(middle_at(p, x)), "m") for x in (p.x0, p.x1))
        return f"middle {front} at its front to {rear} at its rear, {show(math.atan(angle), 'rad')}, {_side(of)}"
    if p.run != "crosswise":
        middle = (p.y0 + p.y1) / 2.0
        return f"{show(abs(middle), 'm')} {_side(of)}" if abs(middle) > SAME else "on the centre line"
    if p.y0 < -SAME and p.y1 > SAME:
        if abs(p.y0 + p.y1) <= SAME:
            return f"{show(p.y1, 'm')} each way"
        return f"{show(-p.y0, 'm')} left to {show(p.y1, 'm')} right"
    inner, outer = sorted((abs(p.y0), abs(p.y1)))
    return f"{show(inner, 'm')} to {show(outer, 'm')} {_side(of)}"


def _side(of: Sequence[Piece]) -> str:
    left, right = (any(sign * (p.y0 + p.y1) > 0.0 for p in of) for sign in (-1.0, 1.0))
    return "each side" if left and right else ("left" if left else "right")


def _top(of: Sequence[Piece], show: Show) -> str:
    """Top from the main-deck top, and the foot of what stands; below it is negative."""
    p = of[0]
    return f"{show(p.z1, 'm')}, foot {show(p.z0, 'm')}" if p.run == "upright" else show(p.z1, "m")


def _ends(mark: str, p: Piece, results: Results, show: Show) -> str:
    said = [_cope(c, show) for c in results.copes if c.mark == mark]
    plain = f"cut across the trailer, {show(math.atan(angle), 'rad')} off square" if (angle := slope(p)) else "square"
    ways = [t for t in results.turned if t.mark == mark]
    toes = [_toes(t, len(ways) > 1, show) for t in ways]
    return "; ".join([*(dict.fromkeys(said) or [plain]), *toes])


def _cope(c: Cope, show: Show) -> str:
    size = f"{show(c.length, 'm', 'up')} x {show(c.depth, 'm', 'up')}"
    return f"{c.end} coped {size} for the {c.flange} flange of {c.into}"


def _toes(t: Turned, is_one_of_many: bool, show: Show) -> str:
    return f"toes {t.toes} at {stations_text(t.stations, show)}" if is_one_of_many else f"toes {t.toes}"
