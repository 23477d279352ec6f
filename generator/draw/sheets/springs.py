"""Suspension as seen from the left: torsion arms with brackets, or leaf springs with hangers and equalisers.

Outlines at the sizes the spec states; what only the makers know is drawn as a mark and no size.
"""

import math
from collections.abc import Iterator

from generator.draw.marks import Circle, Line, Mark
from generator.draw.sheets.kit import Views
from generator.draw.sheets.legs import is_slanted
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.slices import AxlePlace, Steel

EYE, BRACKET, ROCKER, HALF, STEPS = 0.02, 0.13, 0.09, 0.03, 12
"""Radius of an eye, half length of a bracket and of an equaliser, half width of a hanger (as drawn, m); strokes."""
NEAR = 0.03
"""How far springs may stand beside the rail they hang from, m."""


def wheels(s: Steel, v: View) -> Views:
    """Tyres as phantom circles with the centres of their spindles."""
    marks: list[Mark] = []
    for a in s.axles:
        (x, y), r = v.p(a.station, s.tyre_radius_laden), v.mm(s.tyre_diameter / 2.0)
        marks.append(Circle(f"tyre.{a.number}", "phantom", (x, y), r, v.y))
        marks.append(Line(f"spindle.{a.number}.h", "centre", ((x - 4.0, y), (x + 4.0, y))))
        marks.append(Line(f"spindle.{a.number}.v", "centre", ((x, y - 4.0), (x, y + 4.0))))
    return tuple(marks)


def side(s: Steel, v: View, pen: str) -> Views:
    """The suspension of the left side, with this pen; nothing where its sizes are unknown."""
    eyes = s.deck_height_laden - s.tube_to_deck
    if not math.isfinite(eyes):
        return ()
    if s.has_arms:
        return tuple(m for a in s.axles for m in _arm(s, a, v, pen, eyes))
    return tuple(_leaves(s, v, pen, eyes))


def rails(s: Steel) -> list[Piece]:
    """Lengthwise steel over the springs or brackets of the left side: the main rail, and what runs right under it."""
    half = s.bracket_spacing / 2.0
    return [p for p in s.pieces if p.run == "lengthwise" and not is_slanted(p) and p.z1 < 0.01
            and p.y0 - NEAR < -half < p.y1 + NEAR]


def _seat(s: Steel, x: float) -> float:
    """Underside of that steel at a station, above ground, m."""
    return s.deck_height_laden + min((p.z0 for p in rails(s) if p.x0 <= x <= p.x1), default=s.rail_underside)


def _arm(s: Steel, a: AxlePlace, v: View, pen: str, eyes: float) -> Iterator[Mark]:
    """Bracket, tube end and trailing arm of one axle."""
    x, r = a.bracket_station, 0.045
    rail = _seat(s, x)
    yield v.run(f"bracket.{a.number}", pen, ((x - BRACKET, rail), (x - r, eyes), (x + r, eyes), (x + BRACKET, rail)))
    yield Circle(f"tube.{a.number}", pen, v.p(x, eyes), v.mm(r))
    if math.isfinite(s.arm):
        ends = ((x, eyes), (a.station, s.tyre_radius_laden))
        dx, dz = ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]
        out = 0.025 / max(math.hypot(dx, dz), 1e-6)
        nx, nz = -dz * out, dx * out
        sides = ((1, ends[0]), (1, ends[1]), (-1, ends[1]), (-1, ends[0]))
        corners = [(p[0] + f * nx, p[1] + f * nz) for f, p in sides]
        yield v.run(f"arm.{a.number}", pen, corners, True)


def _leaves(s: Steel, v: View, pen: str, eyes: float) -> Iterator[Mark]:
    """Hangers under the rail, equalisers between springs, each spring from eye to eye over or under its beam."""
    run, u = s.running, s.sprung
    for i, h in enumerate(run.hangers):
        half, rail = BRACKET * 0.45, _seat(s, h.station)
        yield v.run(f"hanger.{i}", pen, ((h.station - half, rail), (h.station - EYE, eyes), (h.station + EYE, eyes),
                                         (h.station + half, rail)))
        yield Circle(f"hanger.{i}.bolt", pen, v.p(h.station, eyes), v.mm(EYE))
        if h.what == "equaliser":
            yield v.run(f"equaliser.{i}", pen, ((h.station - ROCKER, eyes - 0.03), (h.station, eyes + 0.03),
                                                (h.station + ROCKER, eyes - 0.03)), True)
    half = run.eye_length / 2.0
    if not math.isfinite(half + u.beam + u.beam_height + u.pack_low + u.pack_high):
        return
    for a in s.axles:
        yield from _spring(s, a, v, pen, eyes, half)


def _spring(s: Steel, a: AxlePlace, v: View, pen: str, eyes: float, half: float) -> Iterator[Mark]:
    """One spring: the main leaf as an arc through both eyes, the pack at its seat, the beam."""
    u, x = s.sprung, a.station
    top = u.pack_high
    ends = [(x + half * (2.0 * i / STEPS - 1.0), top + (eyes - top) * (2.0 * i / STEPS - 1.0) ** 2)
            for i in range(STEPS + 1)]
    yield v.run(f"leaf.{a.number}", pen, ends)
    pack = u.pack_high - u.pack_low
    low = [(px, pz - pack * (1.0 - abs(px - x) / half)) for px, pz in ends]
    yield v.run(f"pack.{a.number}", pen, low)
    yield Circle(f"beam.{a.number}", pen, v.p(x, u.beam_height), v.mm(u.beam / 2.0))
    for i, at in enumerate((x - half, x + half)):
        yield Circle(f"eye.{a.number}.{i}", pen, v.p(at, eyes), v.mm(EYE))


def across(id: str, s: Steel, side: int, v: View) -> Views:
    """Bracket or hanger under the rail of one side with the centre line of tube or eyes, in phantom lines."""
    eyes, y = s.deck_height_laden - s.tube_to_deck, side * s.bracket_spacing / 2.0
    if not math.isfinite(eyes + y):
        return ()
    low, rail = eyes - EYE, _seat(s, s.axles[0].bracket_station)
    return (
        v.box(f"{id}.hanger", "phantom", y - HALF, low, y + HALF, rail),
        v.run(f"{id}.eyes", "centre", ((y - 3.0 * HALF, eyes), (y + 3.0 * HALF, eyes))),
    )


def clamps(s: Steel, v: View) -> Views:
    """U-bolts around pack and beam of each leaf spring with the plate at their ends, marks and no sizes."""
    u, marks = s.sprung, list[Mark]()
    if s.has_arms or not math.isfinite(u.pack_high + u.pack_low + u.beam_height + u.beam):
        return ()
    ends = u.pack_high, u.pack_low, u.beam_height - u.beam / 2.0, u.beam_height + u.beam / 2.0
    low, high, half = min(ends) - 0.02, max(ends) + 0.02, u.beam / 2.0 + 0.008
    for a in s.axles:
        for i, x in enumerate((a.station - half, a.station + half)):
            marks.append(v.run(f"bolt.{a.number}.{i}", "thin", ((x, low), (x, high))))
        for name, z in (("low", low), ("high", high)):
            ends_at = ((a.station - half - 0.02, z), (a.station + half + 0.02, z))
            marks.append(v.run(f"plate.{a.number}.{name}", "outline", ends_at))
    return tuple(marks)
