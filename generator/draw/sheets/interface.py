"""F7 house interface and anchors: sill lines, anchor stations, clear zones over the wheels, the edge as a section."""

import math
from collections.abc import Iterator, Sequence

from generator.draw.dimensions import Span, band
from generator.draw.marks import TEXT, Line, Mark, Rect, Text, arrow, extent, hatched
from generator.draw.ordinates import Station, ordinates
from generator.draw.pages import Drawing, margin, paper
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import (
    Kit,
    Views,
    at,
    boxes_known,
    column,
    dimensions,
    finite,
    foremost,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.sheets.points import SIGN, Support, both_sides, legend, sign, supports
from generator.draw.views import Solid, View, edges, title
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import Desk, Envelope, Numbers, Steel, WallLine

NUMBER, TITLE = "F7", "House interface and anchors"
PLAN, SECTION = "PLAN OF THE DECK", "SECTION A\u2013A"
SECTIONS = {"us": (4, 8, 12, 16), "si": (5, 10, 20)}
"""Scales of the section at the edge, largest first. Source: ISO 5455; inch-to-the-foot scales for US sheets."""
INSIDE, OVER, NEAR = 0.30, 0.35, 0.35
"""How far the section shows inboard of the anchor, above the deck, and along the trailer to find one near it, m."""
SILL, LAP, STRAY = 0.038, 0.006, 0.08
"""Height of the sill and lap of the flashing as drawn, marks and no sizes; a piece that ends nearer the break is left
out, m."""
APART, HEADING = 14.0, 13.0
"""Room between plan and section, and of a view title, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e = kit(desk), need(desk, Steel), need(desk, Envelope)
    steel_known(s)
    boxes_known(s)
    anchors = tuple(p for p in supports(s) if p.kind == "anchor")
    if not anchors:
        raise RenderError("has nothing to show: no house anchor is in the spec")
    finite([("width of the house", e.width), ("front of the house", e.front), ("rear of the house", e.rear),
            *((f"anchor {p.id}", v) for p in anchors for v in (p.station, p.y))])
    walls = [w for w in e.walls if math.isfinite(w.front + w.rear + w.y)]
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _sheet(k, s, e, walls, anchors, r))
    rating = min((p.rating for p in s.points if p.kind == "anchor"), default=math.nan)
    notes = tuple(n for n in (
        f"Anchors are in pairs, left and right alike; asked for: {k.show(rating, 'kg', 'down')} each. Plates and holes "
        "by the trailer's shop; sills and bolts by the owner's builder, to an engineer's sizes.",
        _plates(s, anchors),
        _clear(k, s),
        "The owner's builder laps the wall's skin over the deck edge with a drip flashing and keeps unlike metals "
        "apart. No other weld, hole or lug at the edge without the owner's word.",
    ) if n)
    alt = (
        f"Plan of the deck at 1:{ratio:g} with sill lines, {len(anchors)} pairs of house anchors and the zones over "
        "the wheels; beside it a section through the right edge at an anchor. Anchors at "
        + ", ".join(k.show(p.station, "m") for p in anchors) + "."
    )
    return Drawing(NUMBER, TITLE, "sills, anchors, clear zones", k.towed(s), ratio, marks, notes, alt,
                   tuple(_schedules(k, s, e, walls, anchors, desk)))


def _plates(s: Steel, anchors: Sequence[Support]) -> str:
    """What the house is bolted to: the smallest piece at each anchor, by its mark."""
    found = {held[0].mark: held[0].title for p in anchors if (held := _held(s, p))}
    return "; ".join(f"{mark}: {title[:1].lower()}{title[1:]}" for mark, title in sorted(found.items())) + \
        "." if found else ""


def _clear(k: Kit, s: Steel) -> str:
    left, over = s.sprung.travel_left, s.sprung.over_tyre
    travel = f"the wheels still rise {k.show(left, 'm', 'up')} to their stops" if math.isfinite(left) else \
        "the wheels still rise to their stops"
    room = f"; at the stops {k.show(over, 'm', 'down')} is left over the tyres" if math.isfinite(over) else ""
    return f"Hatched: keep clear of pipe, cable, screw and lining. As towed, {travel}{room}."


def _schedules(k: Kit, s: Steel, e: Envelope, walls: Sequence[WallLine], anchors: Sequence[Support],
               desk: Desk) -> Iterator[Schedule]:
    half, ratings = s.deck_width / 2.0, {p.id: p.rating for p in s.points}
    rows = tuple(
        (p.id, k.show(p.station, "m"), k.show(p.y, "m"), k.show(half - p.y, "m"), k.show(ratings[p.id], "kg", "down"),
         "; ".join(q.mark for q in _held(s, p)) or "–")
        for p in anchors
    )
    heads = ("Anchor, each side", "Station", "Off centre", "From deck edge", "Rating of one", "Steel there")
    yield Schedule("House anchors", heads, (False, True, True, True, True, False), rows)
    titles = {q.mark: q.title for p in anchors for q in _held(s, p)}
    if titles:
        yield Schedule("Bolted where", ("Mark", "What"), (False, False), tuple(sorted(titles.items())))
    numbers = desk.get(Numbers)
    told = [q for q in (numbers.quantities if isinstance(numbers, Numbers) else ()) if q.id.startswith("anchor.")]
    if told:
        asked = tuple((q.title, k.show(q.nominal, q.unit, "up")) for q in told)
        yield Schedule("What the anchors must hold", ("Case", "Load"), (False, True), asked)
    yield dimensions([
        k.row("Main deck, length", s.deck_length, where="datum A to rear face"),
        k.row("Main deck, width", s.deck_width),
        k.row("Main rails, outside to outside", s.rails_outside),
        k.row("House, width", e.width, where="trim included"),
        k.row("House past the deck edge, each side", (e.width - s.deck_width) / 2.0),
        k.row("House past the rear of the deck", e.rear - s.deck_length),
        *(k.row("Side wall, its middle off the centre line", abs(w.y), where="sill") for w in walls[:1]),
        *(k.row("Side wall, breadth of its framing", w.framing) for w in walls[:1] if math.isfinite(w.framing)),
        *(row for n, b in enumerate(s.boxes, 1) for row in (
            k.row(f"Wheel box {n}, front face", b.front, where="station"),
            k.row(f"Wheel box {n}, rear face", b.rear, where="station"),
            k.row(f"Wheel box {n}, inner face off the centre line", b.inside),
            k.row(f"Wheel box {n}, top above the deck", b.top),
        )),
    ])


def _held(s: Steel, p: Support) -> list[Piece]:
    """Plates and pieces that stand at an anchor on the right side, the smallest first."""
    near = [q for q in s.pieces if q.x0 - 1e-3 <= p.station <= q.x1 + 1e-3 and q.y0 - 1e-3 <= p.y <= q.y1 + 1e-3
            and q.z0 < 0.0]
    listed = sorted(near, key=lambda q: ((q.x1 - q.x0) * (q.y1 - q.y0), q.mark))
    return [q for n, q in enumerate(listed) if q.mark not in {r.mark for r in listed[:n]}]


def _sheet(k: Kit, s: Steel, e: Envelope, walls: Sequence[WallLine], anchors: tuple[Support, ...],
           ratio: float) -> Views | None:
    room, plan = k.room, _plan(k, s, e, walls, anchors, ratio)
    p = extent(plan)
    for scale in SECTIONS[k.cover.units]:
        section = _section(k, s, e, walls, _shown(s, anchors), float(scale))
        q = extent(section)
        wide = column(p, PLAN, ratio) + APART + column(q, SECTION, scale) <= room.x1 - room.x0
        high = p.y1 - p.y0 + q.y1 - q.y0 + 2.0 * HEADING + APART / 2.0 <= room.y1 - room.y0
        if wide and max(p.y1 - p.y0, q.y1 - q.y0) + HEADING <= room.y1 - room.y0:
            return _set(k, s, anchors, (plan, ratio), (section, scale), beside=True)
        if high and p.x1 - p.x0 <= room.x1 - room.x0:
            return _set(k, s, anchors, (plan, ratio), (section, scale), beside=False)
    return None


def _shown(s: Steel, anchors: Sequence[Support]) -> Support:
    """The anchor of the section: the foremost, of a trailer on a tongue the rearmost, clear of its legs."""
    return anchors[0] if s.has_neck else anchors[-1]


def _set(k: Kit, s: Steel, anchors: Sequence[Support], plan: tuple[Views, float], section: tuple[Views, int],
         beside: bool) -> Views:
    room, p, q = k.room, extent(plan[0]), extent(section[0])
    if beside:
        named = column(q, SECTION, section[1])
        spare = (room.x1 - room.x0 - column(p, PLAN, plan[1]) - named) / 3.0
        x1, x2 = room.x0 + spare - p.x0, room.x1 - spare - named - q.x0
        y1, y2 = ((room.y0 + room.y1 - HEADING - b.y0 - b.y1) / 2.0 for b in (p, q))
    else:
        spare = (room.y1 - room.y0 - (p.y1 - p.y0) - (q.y1 - q.y0) - 2.0 * HEADING) / 3.0
        x1, x2 = ((room.x0 + room.x1 - b.x0 - b.x1) / 2.0 for b in (p, q))
        y1, y2 = room.y0 + spare - p.y0, room.y1 - HEADING - spare / 2.0 - q.y1
    marks: list[Mark] = [*at(plan[0], x1, y1), *at(section[0], x2, y2)]
    marks += title("plan", (x1 + p.x0, y1 + p.y1 + 3.0), PLAN, f"1:{plan[1]:g}", "")
    marks += title("section", (x2 + q.x0, y2 + q.y1 + 3.0), SECTION, f"1:{section[1]}", "")
    v = View(plan[1], 1, x1, y1)
    field = Rect(x1 + p.x0, v.up(s.deck_width / 2.0) + 1.0, x1 + p.x1, v.up(-s.deck_width / 2.0) - 1.0)
    marks += place(_labels(s, anchors, v), marks, field, None)
    shown = View(float(section[1]), 1, x2, y2)
    marks += place(_parts(s, _shown(s, anchors), shown), marks, extent(at(section[0], x2, y2)).grown(1.0), None)
    return (*marks, *legend(["anchor"], margin(paper(k.cover))))


def _plan(k: Kit, s: Steel, e: Envelope, walls: Sequence[WallLine], anchors: Sequence[Support], ratio: float) -> Views:
    v, half, rails = View(ratio), s.deck_width / 2.0, s.rails_outside / 2.0
    low, high = min(0.0, foremost(s) if s.has_neck else 0.0), s.deck_length
    marks: list[Mark] = [
        *o.decks_plan(s, v),
        *(v.run(f"rail.{n}", "hidden", ((0.0, y), (s.deck_length, y))) for n, y in enumerate((-rails, rails))),
        *o.wheels_plan(s, v, "hidden"),
        *o.house_plan(e, v),
        v.run("centre", "centre", ((low - 0.15, 0.0), (high + 0.15, 0.0))),
        *_zones(s, v),
        *(m for w in walls for m in _sill(w, v)),
    ]
    for id, p, y in both_sides(anchors, "plan"):
        marks += sign(id, p.kind, v.p(p.station, y))
    box = extent(marks)
    stations = [Station("datum", 0.0, v.up(half), "0\u00a0 datum A", 0.0)]
    stations += [
        Station(p.id, v.across(p.station), v.up(p.y) - SIGN, f"{k.show(p.station, 'm')}\u00a0 {p.id}", p.station)
        for p in anchors
    ]
    stations += [Station(f"box.{n}.{end}", v.across(x), v.up(half), f"{k.show(x, 'm')}\u00a0 wheel box", x, 1)
                 for n, b in enumerate(s.boxes) for end, x in (("front", b.front), ("rear", b.rear))]
    stations.append(Station("rear", v.across(high), v.up(half), f"{k.show(high, 'm')}\u00a0 deck", high, 1))
    marks += ordinates("at", stations, box.y0, False, box.x0, box.x1 + 4.0)
    marks += _cutting(v, _shown(s, anchors).station, half, (v.up(-rails), v.up(rails)))
    marks += band(_across(k, s, e, anchors, v), "right", extent(marks).x1)
    return tuple(marks)


def _across(k: Kit, s: Steel, e: Envelope, anchors: Sequence[Support], v: View) -> list[Span]:
    """Breadths of deck, anchors and house, and the clear floor between the wheel boxes."""
    end = v.across(s.deck_length)
    listed = [("deck", s.deck_width / 2.0, end), ("house", e.width / 2.0, v.across(e.rear)),
              ("anchors", anchors[-1].y, v.across(anchors[-1].station) + SIGN)]
    return [k.span(f"dim.{id}", v.up(y), v.up(-y), 2.0 * y, (x, x)) for id, y, x in listed]


def _sill(w: WallLine, v: View) -> Views:
    """Middle line of a wall, with both faces of its framing where its breadth is known."""
    id, half = f"sill.{w.y:g}.{w.front:g}", w.framing / 2.0
    faces = () if not math.isfinite(half) else tuple(
        v.run(f"{id}.{n}", "phantom", ((w.front, w.y + out), (w.rear, w.y + out)))
        for n, out in enumerate((-half, half))
    )
    return (v.run(id, "grid", ((w.front, w.y), (w.rear, w.y))), *faces)


def _zones(s: Steel, v: View) -> Views:
    """Zones over the wheels, hatched: inside the wheel boxes, or over each tyre of a deck above the wheels."""
    half, r = s.deck_width / 2.0, s.tyre_diameter / 2.0
    inner = s.track / 2.0 - s.tyre_width / 2.0
    zones = [(b.front, b.rear, b.inside) for b in s.boxes] or \
        [(s.axles[0].station - r, s.axles[-1].station + r, inner)]
    marks: list[Mark] = []
    for n, (front, rear, inside) in enumerate(zones):
        for side in (-1, 1):
            a, b = sorted((v.up(side * inside), v.up(side * half)))
            marks.append(v.box(f"zone-over.{n}.{side}", "thin", front, side * inside, rear, side * half))
            marks += hatched(f"zone-hatch.{n}.{side}", Rect(v.across(front), a, v.across(rear), b), 3.0)
    return tuple(marks)


def _cutting(v: View, station: float, half: float, lines: Sequence[float]) -> Views:
    """The cutting plane of section A-A at the right edge: heavy ends and a letter, on none of the lines at these mm."""
    x = v.across(station)
    low = v.up(half) + min(SIGN + 14.0, v.mm(half) - 8.0)
    top = low - 4.0
    foot = next((y for y in (low + 5.0, low - 1.5) if not any(y - TEXT - 0.5 < line < y + 1.0 for line in lines)),
                low + 9.0)
    return (
        Line("plane.A", "centre", ((x, v.up(half) + SIGN + 1.0), (x, low))),
        Line("plane.A.end", "cut", ((x, top), (x, low))),
        Line("plane.A.way", "dimension", ((x, low), (x - 6.0, low))),
        arrow("plane.A.arrow", (x - 6.0, low), (x, low)),
        Text("plane.A.text", "A", (x - 6.0, foot), TEXT, bold=True),
    )


def _labels(s: Steel, anchors: Sequence[Support], v: View) -> list[Label]:
    """Marks of the plates at the anchors on the left, and what the zones over the wheels are."""
    labels = [
        Label(f"plate.{p.id}", " ".join(q.mark for q in held[:2]), v.p(p.station, -p.y), 1)
        for p in anchors if (held := _held(s, p))
    ]
    middle = sum(a.station for a in s.axles) / len(s.axles)
    inside = s.boxes[0].inside if s.boxes else s.track / 2.0 - s.tyre_width / 2.0
    return [*labels, Label("clear", "clear zone over the wheels", v.p(middle, inside), 0)]


def _section(k: Kit, s: Steel, e: Envelope, walls: Sequence[WallLine], a: Support, ratio: float) -> Views:
    """The right edge of the deck at an anchor, seen from behind: steel cut there, decking, wall in phantom."""
    v, deck, half = View(ratio), 0.0, s.deck_width / 2.0
    low = a.y - INSIDE
    solids, cut = [], []
    for p in s.pieces:
        if p.z0 < 0.3 and p.x1 > a.station - 1e-6 and p.x0 < a.station + NEAR and p.y1 > low + STRAY:
            face = Rect(max(p.y0, low), p.z0, p.y1, min(p.z1, OVER))
            solids.append(Solid(p.mark, face, -max(p.x0, a.station)))
            if p.x0 - 1e-6 <= a.station <= p.x1 + 1e-6 and p.run == "lengthwise":
                cut.append(v.box(f"cut.{p.mark}.{p.y0:g}", "cut", face.x0, face.y0, face.x1, face.y1))
    marks: list[Mark] = [
        *(m for m in edges(solids, v) if isinstance(m, Line) and m.pen == "outline"), *cut,
        v.box("section.deck", "outline", low, -s.deck_thickness, half, deck),
        v.run("section.house", "phantom", ((e.width / 2.0, -0.06), (e.width / 2.0, OVER))),
        v.run("section.flashing", "phantom", ((half + LAP, OVER * 0.3), (half + LAP, -2.0 * SILL))),
        v.run("section.anchor", "centre", ((a.y, _lowest(s, a) - 0.05), (a.y, OVER * 0.6))),
    ]
    wall = next((w for w in walls if w.y > 0.0 and w.front <= a.station <= w.rear), None)
    spans = [
        k.span("dim.edge", v.across(a.y), v.across(half), half - a.y, (v.up(_lowest(s, a)), v.up(-s.deck_thickness))),
    ]
    above = [k.span("dim.over", v.across(half), v.across(e.width / 2.0), (e.width / 2.0 - half),
                    (v.up(0.0), v.up(OVER)))]
    if wall is not None and math.isfinite(wall.framing):
        inner, outer = wall.y - wall.framing / 2.0, wall.y + wall.framing / 2.0
        marks.append(v.box("section.wall", "phantom", inner, 0.0, outer, OVER))
        marks.append(v.box("section.sill", "phantom", inner, 0.0, outer, SILL))
        above.append(k.span("dim.sill", v.across(wall.y), v.across(half), half - wall.y, (v.up(OVER), v.up(0.0))))
        marks.append(v.run("section.middle", "centre", ((wall.y, -0.02), (wall.y, OVER + 0.03))))
        above.append(k.span("dim.framing", v.across(inner), v.across(outer), wall.framing, (v.up(OVER), v.up(OVER))))
    box = extent(marks)
    down = [k.span("dim.depth", v.up(0.0), v.up(s.rail_underside), -s.rail_underside, (box.x0, box.x0))] \
        if s.rails_outside / 2.0 > low else []
    return (
        *marks, *band(spans, "below", box.y1), *band([d for d in above if abs(d.value) > 1e-6], "above", box.y0),
        *band(down, "left", box.x0),
        *_break(v, low, s),
    )


def _lowest(s: Steel, a: Support) -> float:
    return min((q.z0 for q in _held(s, a)), default=s.rail_underside)


def _break(v: View, low: float, s: Steel) -> Views:
    """Where the section is broken off inboard."""
    return (o.break_line("section.break", v, low, s.rail_underside - 0.02, 0.05),)


def _parts(s: Steel, a: Support, v: View) -> list[Label]:
    """Marks of the steel at the anchor, and what the lines of the section are."""
    labels = [Label(f"part.{q.mark}", q.mark, v.p((max(q.y0, a.y - INSIDE) + q.y1) / 2.0, (q.z0 + q.z1) / 2.0))
              for q in _held(s, a)]
    edge = s.deck_width / 2.0
    return [*labels, Label("part.deck", "decking", v.p(edge - 0.16, -s.deck_thickness / 2.0), 1, TEXT),
            Label("part.anchor", f"axis of {a.id}", v.p(a.y, _lowest(s, a) - 0.03), 1, TEXT),
            Label("part.flashing", "drip flashing", v.p(edge + LAP, OVER * 0.2), 1, TEXT),
            Label("part.wall", "house wall", v.p(edge - 0.03, OVER * 0.8), 2, TEXT)]
