"""Trailer, house and tow vehicle as seen from the sides and from above, in one view each. Heights from level ground."""

import itertools
import math
from collections.abc import Iterable

from generator.draw.marks import Circle, Line, Mark, Point, Rect
from generator.draw.sheets.legs import across, boxed, is_slanted, nose, ring, tongue
from generator.draw.views import Solid, View, edges
from generator.model.types import Piece
from generator.release.slices import Envelope, HouseZone, Steel

AHEAD = 0.3
"""How far ahead of the foremost tyre a section through the wheels still looks, m."""


def known(value: float | None) -> float | None:
    """The value if it is a finite number."""
    return value if value is not None and math.isfinite(value) else None


def steel_elevation(s: Steel, view: View) -> tuple[Mark, ...]:
    """Steel of the left side; hidden edges and what stands behind the tyres left out."""
    left = [p for p in s.pieces if p.y0 < 0.0]
    return _beside_tyres(visible((Solid(p.mark, face_along(p, s), -p.y0) for p in left), view), s, view)


def _beside_tyres(lines: Iterable[Line], s: Steel, view: View) -> tuple[Mark, ...]:
    """Lines without the parts behind the tyres, which stand outside everything else."""
    centres, r = [view.p(a.station, s.tyre_radius_laden) for a in s.axles], view.mm(s.tyre_diameter / 2.0)
    marks: list[Mark] = []
    for line in lines:
        for i, (a, b) in enumerate(line.segments()):
            covered = sorted(h for c in centres for h in _inside(a, b, c, r))
            at = 0.0
            for j, (low, high) in enumerate([*covered, (1.0, 1.0)]):
                if low - at > 1e-6:
                    marks.append(Line(f"{line.id}.{i}.{j}", line.pen, (_between(a, b, at), _between(a, b, low))))
                at = max(at, high)
    return tuple(marks)


def _inside(a: Point, b: Point, centre: Point, r: float) -> tuple[tuple[float, float], ...]:
    """The share of the way from a to b that lies inside a circle."""
    dx, dy, fx, fy = b[0] - a[0], b[1] - a[1], a[0] - centre[0], a[1] - centre[1]
    p, q, c = dx * dx + dy * dy, dx * fx + dy * fy, fx * fx + fy * fy - r * r
    root = q * q - p * c
    if p == 0.0 or root <= 0.0:
        return ()
    low, high = max(0.0, (-q - math.sqrt(root)) / p), min(1.0, (-q + math.sqrt(root)) / p)
    return ((low, high),) if low < high else ()


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def steel_across(s: Steel, view: View, from_front: bool) -> tuple[Mark, ...]:
    """All steel and the tyres seen along the trailer, without what stands behind."""
    solids = [f for p in s.pieces for f in along(p, s, from_front)]
    reach = s.tyre_diameter / 2.0
    near = max((reach - a.station if from_front else a.station + reach) for a in s.axles)
    half, wide, top = s.track / 2.0, s.tyre_width / 2.0, s.tyre_radius_laden + reach
    tyres = [Solid("tyre", Rect(c - wide, 0.0, c + wide, top), near) for c in (-half, half)]
    z = s.tyre_radius_laden
    axle = view.run("axle.centre", "centre", ((-half - wide - 0.05, z), (half + wide + 0.05, z)))
    return (*visible([*solids, *tyres], view), axle)


def at_wheels(s: Steel, right_only: bool = False) -> tuple[tuple[Piece, Solid], ...]:
    """Steel that a section through the rearmost axle cuts or shows beyond, as far as ahead of the foremost tyre."""
    plane, ahead = s.axles[-1].station, s.axles[0].station - s.tyre_diameter / 2.0 - AHEAD
    found = []
    for p in s.pieces:
        face = face_across(p, s)
        low = max(face.x0, 0.0) if right_only else face.x0
        if p.x0 < plane and p.x1 > ahead and face.x1 > low:
            found.append((p, Solid(p.mark, Rect(low, face.y0, face.x1, face.y1), min(p.x1, plane))))
    return tuple(found)


def steel_plan(s: Steel, view: View) -> tuple[Mark, ...]:
    """All steel from above, edges under other steel dashed."""
    return edges([Solid(p.mark, boxed(p), p.z1, _over_ends(p, s.pieces), ring(p)) for p in s.pieces], view)


def _over_ends(p: Piece, pieces: Iterable[Piece]) -> tuple[Rect, ...]:
    """Steel as high as this piece that runs across its end: the end is coped under its flange."""
    slack = 0.001
    found = []
    for o in pieces:
        if o is p or is_slanted(p) or is_slanted(o) or abs(o.z1 - p.z1) > slack or {o.run, p.run} != {"lengthwise", "crosswise"}:
            continue
        a, b = ((p.x0, p.x1), (o.x0, o.x1)) if p.run == "lengthwise" else ((p.y0, p.y1), (o.y0, o.y1))
        c, d = ((p.y0, p.y1), (o.y0, o.y1)) if p.run == "lengthwise" else ((p.x0, p.x1), (o.x0, o.x1))
        ends_in = b[0] + slack < a[0] < b[1] - slack or b[0] + slack < a[1] < b[1] - slack
        if ends_in and d[0] <= c[0] + slack and c[1] <= d[1] + slack:
            found.append(boxed(o))
    return tuple(found)


def face_along(p: Piece, s: Steel) -> Rect:
    """A piece seen from the side, heights above ground."""
    return Rect(p.x0, p.z0 + s.deck_height_laden, p.x1, p.z1 + s.deck_height_laden)


def face_across(p: Piece, s: Steel) -> Rect:
    """A piece seen along the trailer, heights above ground."""
    low, high = across(p)
    return Rect(low, p.z0 + s.deck_height_laden, high, p.z1 + s.deck_height_laden)


def along(p: Piece, s: Steel, from_front: bool) -> tuple[Solid, ...]:
    """A piece seen along the trailer; of a leg at an angle its front end too, when seen from the front."""
    near, whole = -p.x0 if from_front else p.x1, face_across(p, s)
    if not (is_slanted(p) and from_front):
        return (Solid(p.mark, whole, near),)
    low, high = nose(p)
    return Solid(p.mark, whole, near), Solid(p.mark, Rect(low, whole.y0, high, whole.y1), near + 1e-3)


def visible(solids: Iterable[Solid], view: View) -> tuple[Line, ...]:
    """Outlines of boxes without what is hidden."""
    marks = edges(tuple(solids), view)
    return tuple(m for m in marks if isinstance(m, Line) and m.pen == "outline")


def decking_elevation(s: Steel, view: View) -> tuple[Mark, ...]:
    """Decking of the main deck as a thin box on the steel."""
    deck = s.deck_height_laden
    return _beside_tyres((view.box("decking", "thin", 0.0, deck - s.deck_thickness, s.deck_length, deck),), s, view)


def wheels_elevation(s: Steel, view: View) -> tuple[Mark, ...]:
    """Tyres standing on the ground, with the centre of each axle."""
    marks: list[Mark] = []
    for a in s.axles:
        centre = view.p(a.station, s.tyre_radius_laden)
        r = view.mm(s.tyre_diameter / 2.0)
        marks.append(Circle(f"tyre.{a.number}", "outline", centre, r, view.y))
        marks.append(Circle(f"wheel.{a.number}", "thin", centre, r * 0.52))
        x, y = centre
        marks.append(Line(f"axle.{a.number}.h", "centre", ((x - r * 0.7, y), (x + r * 0.7, y))))
        marks.append(Line(f"axle.{a.number}.v", "centre", ((x, y - r - 1.5), (x, y + min(r * 0.7, y_below(view, y))))))
    return tuple(marks)


def y_below(view: View, y: float) -> float:
    """Room between a point on paper and the ground, mm."""
    return max(0.0, view.y - y - 0.5)


def decks_plan(s: Steel, view: View) -> tuple[Mark, ...]:
    """Main deck and neck as boxes from above, or the main deck over the steel of the tongue."""
    half, neck = s.deck_width / 2.0, s.neck_width / 2.0
    if s.has_neck:
        return (
            view.box("deck", "outline", 0.0, -half, s.deck_length, half),
            view.box("neck", "outline", s.neck_front, -neck, 0.0, neck),
        )
    top = max((p.z1 for p in s.pieces), default=0.0) + 1.0
    steel = [Solid(p.mark, boxed(p), p.z1, (), ring(p)) for p in tongue(s)]
    return edges([Solid("deck", Rect(0.0, -half, s.deck_length, half), top), *steel], view)


def wheels_plan(s: Steel, view: View, pen: str) -> tuple[Mark, ...]:
    """Tyres from above and the centre line of each axle."""
    marks: list[Mark] = []
    half, wide, r = s.track / 2.0, s.tyre_width / 2.0, s.tyre_diameter / 2.0
    for a in s.axles:
        for key, c in (("left", -half), ("right", half)):
            marks.append(view.box(f"tyre.{a.number}.{key}", pen, a.station - r, c - wide, a.station + r, c + wide))
        reach = half + wide + 0.02
        marks.append(view.run(f"axle.{a.number}", "centre", ((a.station, -reach), (a.station, reach))))
    return tuple(marks)


def boxes_plan(s: Steel, view: View) -> tuple[Mark, ...]:
    """Wheel boxes of both sides from above."""
    half = s.deck_width / 2.0
    return tuple(
        view.box(
            f"box.{i}.{side}",
            "phantom",
            b.front,
            min(side * b.inside, side * half),
            b.rear,
            max(side * b.inside, side * half),
        )
        for i, b in enumerate(s.boxes)
        for side in (-1, 1)
    )


def skyline(zones: Iterable[HouseZone]) -> list[tuple[float, float, float, float]]:
    """Front, rear, lowest floor, highest roof of each stretch of the house."""
    listed = sorted(zones, key=lambda z: (z.front, z.rear, z.id))
    ends = sorted({round(e, 6) for z in listed for e in (z.front, z.rear)})
    out = []
    for a, b in itertools.pairwise(ends):
        over = [z for z in listed if z.front < b - 1e-6 and a + 1e-6 < z.rear]
        if over:
            out.append((a, b, min(z.floor for z in over), max(z.roof for z in over)))
    return out


def house_elevation(e: Envelope, deck: float, view: View) -> tuple[Mark, ...]:
    """Outline of the house over a deck standing `deck` above ground."""
    runs = skyline(e.zones)
    if not runs:
        return ()
    top = [p for a, b, _, roof in runs for p in ((a, roof + deck), (b, roof + deck))]
    bottom = [p for a, b, floor, _ in reversed(runs) for p in ((b, floor + deck), (a, floor + deck))]
    return (view.run("house", "phantom", (*top, *bottom), closed=True),)


def roof_points(e: Envelope, deck: float, view: View) -> tuple[Mark, ...]:
    """What stands above the roof line of its zone: a stem up to each roof point."""
    runs = skyline(e.zones)
    marks: list[Mark] = []
    for i, r in enumerate(e.roof):
        under = [roof for a, b, _, roof in runs if a - 0.05 <= r.station <= b + 0.05]
        if under and r.zeta > max(under) + 0.01:
            low, high, half = max(under) + deck, r.zeta + deck, 0.8 * view.ratio / 1000.0
            marks += [
                view.run(f"roof.{i}", "thin", ((r.station, low), (r.station, high))),
                view.run(f"roof.{i}.top", "thin", ((r.station - half, high), (r.station + half, high))),
            ]
    return tuple(marks)


def boxes_elevation(s: Steel, view: View) -> tuple[Mark, ...]:
    """Tops of the wheel boxes over the deck."""
    deck = s.deck_height_laden
    return tuple(
        view.run(
            f"fender.{i}", "thin", ((b.front, deck), (b.front, deck + b.top), (b.rear, deck + b.top), (b.rear, deck))
        )
        for i, b in enumerate(s.boxes)
    )


def jacks_elevation(s: Steel, view: View) -> tuple[Mark, ...]:
    """Jack legs drawn up as on the road: body from the feet to the deck."""
    marks: list[Mark] = []
    for j, clear in zip(s.jacks, s.jack_mount, strict=False):
        if math.isfinite(j.station + clear):
            x, foot, top = view.across(j.station), view.up(clear), view.up(s.deck_height_laden)
            marks += [
                Line(
                    f"jack.{j.id}",
                    "thin",
                    ((x - 0.8, foot - 0.8), (x - 0.8, top), (x + 0.8, top), (x + 0.8, foot - 0.8)),
                ),
                Line(
                    f"jack.{j.id}.foot",
                    "thin",
                    ((x - 1.8, foot - 0.8), (x + 1.8, foot - 0.8), (x + 1.8, foot), (x - 1.8, foot)),
                    True,
                ),
            ]
    return tuple(marks)


def house_across(e: Envelope, deck: float, view: View, from_front: bool) -> tuple[Mark, ...]:
    """House seen along the trailer: its width, and the part over the neck when seen from the front."""
    runs = skyline(e.zones)
    if not runs:
        return ()
    half, low, high = e.width / 2.0, min(r[2] for r in runs), max(r[3] for r in runs)
    marks = [view.box("house", "phantom", -half, low + deck, half, high + deck)]
    if from_front and runs[0][2] > low + 0.1:
        marks.append(view.run("house.neck", "phantom", ((-half, runs[0][2] + deck), (half, runs[0][2] + deck))))
    return tuple(marks)


def house_plan(e: Envelope, view: View) -> tuple[Mark, ...]:
    """House from above."""
    return (view.box("house", "phantom", e.front, -e.width / 2.0, e.rear, e.width / 2.0),)


def vehicle_elevation(s: Steel, e: Envelope, view: View) -> tuple[Mark, ...]:
    """Bed and cab of the tow vehicle around the ball, cut behind the cab's front; only what the spec states."""
    rail, cab = known(e.vehicle_bed_rail), known(e.vehicle_ball_to_cab)
    end, tall, behind = known(e.vehicle_ball_to_bed_end), known(e.vehicle_cab_height), known(e.vehicle_ball_behind_axle)
    if rail is None or cab is None or end is None or tall is None:
        return ()
    ball, wheel = s.pin_station, s.tyre_radius_laden
    x_cab, x_end = ball - cab, ball + end
    cut = x_cab - 0.75
    marks: list[Mark] = [
        view.run("vehicle.bed", "phantom", ((x_cab, wheel), (x_end, wheel), (x_end, rail), (x_cab, rail))),
        view.run("vehicle.cab", "phantom", ((cut, tall), (x_cab, tall), (x_cab, wheel), (cut, wheel))),
        break_line("vehicle.cut", view, cut, wheel - 0.08, tall + 0.08),
    ]
    if behind is not None:
        centre = view.p(ball - behind, wheel)
        marks.append(Circle("vehicle.wheel", "phantom", centre, view.mm(s.tyre_diameter / 2.0), view.y))
    return tuple(marks)


def break_line(id: str, view: View, x: float, low: float, high: float) -> Line:
    """A long break line with one jog."""
    m = (low + high) / 2.0
    jog = 2.0 * view.ratio / 1000.0
    return view.run(
        id,
        "thin",
        ((x, low), (x, m - jog), (x - jog, m - jog / 3.0), (x + jog, m + jog / 3.0), (x, m + jog), (x, high)),
    )


def ground(view: View, x0: float, x1: float) -> Line:
    """Level ground."""
    return view.run("ground", "ground", ((x0, 0.0), (x1, 0.0)))


def pieces_of(s: Steel, run: str) -> tuple[Piece, ...]:
    """Pieces of one direction, in order of mark and place."""
    return tuple(sorted((p for p in s.pieces if p.run == run), key=lambda p: (p.mark, p.x0, p.y0, p.z0)))
