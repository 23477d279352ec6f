"""F4 running gear: axles in plan with what is measured as they are set, across with the lateral chain, from left."""

from itertools import pairwise

from generator.draw.dimensions import STEP, Span, band
from generator.draw.marks import TEXT, Line, Mark, extent
from generator.draw.ordinates import Station, levels, ordinates
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheets import gear, hitch, springs
from generator.draw.sheets.kit import Kit, Views, at, column, dimensions, finite, kit, largest, need, steel_known
from generator.draw.sheets.stations import said
from generator.draw.views import View, scales, title
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F4", "Running gear"
GAP, TITLED, BELOW = 8.0, 13.0, 3.0
"""Room between views, for their titles and above these, mm."""
BESIDE = 5.0
"""How far the first upright dimension line may reach over the ends of the lateral chain, texts apart, mm."""
SMALLEST = 3.0
"""The plan is drawn at no less than this share of the other views' scale."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    finite((
        ("hub faces", s.axles[0].hub_face), ("brackets or springs across", s.bracket_spacing),
        ("axles below the deck", s.tube_to_deck), ("offset of the wheels", s.running.offset),
        *((f"bracket of axle {a.number}", a.bracket_station) for a in s.axles),
        *((h.what, h.station) for h in s.running.hangers),
        *((f"coupling to spindle of axle {n}", d) for n, d in enumerate(s.running.to_spindle, 1)),
    ))
    ratio, marks = largest(k, s.track + s.tyre_width, lambda r: _sheet(k, s, r))
    centre = k.say("ball")
    state = "spindles as towed" if s.has_arms else "springs at the travel load"
    seats, id = ("seats of a side out of one plane", "seats") if s.has_arms else ("hanger bolts out of line", "hangers")
    notes = (
        f"Stations from datum A with {state}. Equal left and right, marked =: {centre} to the hub faces of axle 1"
        f"{_by(s, 'axle-square')}, then axle to axle{_by(s, 'axle-parallel')}; axle off the centre line"
        f"{_by(s, 'axle-centre')}; {seats}{_by(s, id)}.",
        "Toe and camber as the maker of the axles builds them, never set by bending; weld only where the maker allows. "
        "Measured again after all welding. In parentheses: for reference.",
        "Makers' drawings of axles, springs, hangers and brackets govern; here they are outlines at the sizes stated.",
    )
    alt = (
        f"Running gear at 1:{ratio:g}: {len(s.axles)} axles on {s.running.suspension}, track {k.show(s.track, 'm')}, "
        f"outside of the tyres {k.show(s.track + s.tyre_width, 'm')}, deck top {k.show(s.deck_height_laden, 'm')} "
        "above ground. Stations, lateral chain, heights and alignment stand in the schedules."
    )
    return Drawing(NUMBER, TITLE, s.running.suspension or "axles", k.towed(s), ratio, marks, tuple(map(k.say, notes)),
                   k.say(alt), (dimensions(gear.rows(k, s)), *gear.tables(k, s)))


def _by(s: Steel, id: str) -> str:
    """How far something may be off, for a note."""
    found = s.running.allowed(id)
    return f" {found.text}" if found else ""


def _sheet(k: Kit, s: Steel, ratio: float) -> Views | None:
    """Across and from the left at one scale above each other, the plan at the left as large as it fits."""
    room, v = k.room, View(ratio)
    across, side = _across(k, s, v), _side(k, s, v)
    a, b = extent(across), extent(side)
    words = ("RUNNING GEAR ACROSS", "SUSPENSION, LEFT ELEVATION")
    wide = max(column(a, words[0], ratio), column(b, words[1], ratio))
    over = room.y1 - room.y0 - (a.y1 - a.y0) - (b.y1 - b.y0) - 2.0 * TITLED - GAP
    left = room.x1 - room.x0 - wide - GAP
    if over < 0.0 or left < 0.0 or (found := _plan_in(k, s, left, room.y1 - room.y0 - TITLED, ratio)) is None:
        return None
    scale, plan = found
    c = extent(plan)
    spare = (left - (c.x1 - c.x0)) / 3.0
    x1, x2 = room.x0 + spare - c.x0, room.x1 - spare / 2.0 - wide
    y1 = room.y0 + (room.y1 - room.y0 - TITLED - (c.y1 - c.y0)) / 2.0 - c.y0
    y2 = room.y0 + over / 3.0 - a.y0
    y3 = y2 + a.y1 + TITLED + GAP + over / 3.0 - b.y0
    marks: list[Mark] = [*at(plan, x1, y1), *at(across, x2 - a.x0, y2), *at(side, x2 - b.x0, y3)]
    state = k.towed(s)
    marks += title("plan", (x1 + c.x0, y1 + c.y1 + BELOW), "PLAN", f"1:{scale:g}", f"deck left out; {state}")
    marks += title("across", (x2, y2 + a.y1 + BELOW), words[0], f"1:{ratio:g}", f"looking forward; {state}")
    marks += title("side", (x2, y3 + b.y1 + BELOW), words[1], f"1:{ratio:g}", state)
    return tuple(marks)


def _plan_in(k: Kit, s: Steel, wide: float, high: float, most: float) -> tuple[float, Views] | None:
    """The plan at the largest scale up to that of the other views that fits into the room left."""
    long = s.axles[-1].station + s.tyre_diameter / 2.0 - s.pin_station
    for ratio in scales(k.cover.units):
        if ratio < most or long * 1000.0 / ratio > wide:
            continue
        if ratio > SMALLEST * most:
            return None
        made = _plan(k, s, View(float(ratio)))
        box = extent(made)
        if box.x1 - box.x0 <= wide and box.y1 - box.y0 <= high:
            return float(ratio), made
    return None


def _plan(k: Kit, s: Steel, v: View) -> Views:
    """Rails, axles and wheels from above with stations, measures equal left and right, those from coupling to hubs."""
    run, face, first = s.running, s.axles[0].hub_face / 2.0, s.axles[0]
    rear = s.axles[-1].station + s.tyre_diameter / 2.0 + 0.15
    pin, hub = v.p(s.pin_station, 0.0), [v.p(first.station, y * face) for y in (-1, 1)]
    marks: list[Mark] = [
        *gear.frame_plan(s, v, rear),
        *gear.axles_plan(s, v),
        *hitch.plan(s, v),
        v.run("plan.centre", "centre", ((s.pin_station - 0.1, 0.0), (rear + 0.1, 0.0))),
        *(Line(f"plan.diagonal.{i}", "dimension", (pin, h)) for i, h in enumerate(hub)),
    ]
    edge = extent(marks)
    marks += ordinates("plan", _stations(k, s, v), edge.y0, False, v.across(s.pin_station) - 5.0, v.across(rear) + 4.0)
    marks += band(_equal(k, s, v, -1), "below", edge.y1)
    long = k.span("plan.to.axle", v.across(s.pin_station), v.across(first.station), first.station - s.pin_station,
                  (v.up(0.0), v.up(-face)))
    marks += band(gear.reference([long]), "below", edge.y1 + STEP * (len(s.axles) > 1))
    labels = []
    for i, h in enumerate(hub):
        spots = [(pin[0] + f * (h[0] - pin[0]), pin[1] + f * (h[1] - pin[1])) for f in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2)]
        value = run.to_spindle[0]
        labels.append(Label(f"plan.hub.{i}", f"= {k.show(value, 'm')}", spots[0], 0, TEXT, value=value, unit="m",
                            others=tuple(spots[1:])))
    return (*marks, *place(labels, marks, extent(marks), None))


def _stations(k: Kit, s: Steel, v: View) -> list[Station]:
    """Coupling, datum, brackets or hangers, spindles; the one that governs with how far it may be off."""
    run, half = s.running, s.bracket_spacing / 2.0
    out = (s.track + s.tyre_width) / 2.0
    by = run.allowed("axle-station" if s.has_arms else "spindle-station")
    told = f" {by.text}" if by else ""
    found = [
        Station("pin", v.across(s.pin_station), v.up(0.0) - 3.0, said(k, s.pin_station, k.say("ball")), s.pin_station),
        Station("datum", v.across(0.0), v.up(s.rails_outside / 2.0), "0\u00a0 datum A", 0.0),
    ]
    for a in s.axles:
        words = f"axle {a.number}" if s.has_arms else f"axle {a.number}{told}"
        found.append(Station(f"axle.{a.number}", v.across(a.station), v.up(out), said(k, a.station, words), a.station))
        if s.has_arms:
            x = a.bracket_station
            found.append(Station(f"bracket.{a.number}", v.across(x), v.up(half), said(k, x, f"bracket{told}"), x))
    return found + [Station(f"hanger.{i}", v.across(h.station), v.up(half), said(k, h.station, h.what), h.station)
                    for i, h in enumerate(run.hangers)]


def _equal(k: Kit, s: Steel, v: View, side: int) -> list[Span]:
    """Axle to axle at the hub faces of one side: equal on the other."""
    foot = v.up(side * s.axles[0].hub_face / 2.0)
    return [k.span(f"plan.axles.{a.number}", v.across(a.station), v.across(b.station), b.station - a.station,
                   (foot, foot), "= ") for a, b in pairwise(s.axles)]


def _across(k: Kit, s: Steel, v: View) -> Views:
    """Axle, hubs, tyres, rails looking forward: lateral chain below, heights at the left, deck chain at the right."""
    half = (s.track + s.tyre_width) / 2.0
    marks: list[Mark] = [
        *gear.axle_across(s, v),
        v.run("across.centre", "centre", ((0.0, -0.04), (0.0, s.deck_height_laden + 0.06))),
        Line("across.ground", "ground", ((-v.mm(half) - 4.0, 0.0), (v.mm(half) + 4.0, 0.0))),
    ]
    top = min(extent(marks).y0, v.up(s.deck_height_laden))
    chain = band(gear.lateral(k, s, v), "below", 0.0)
    right = max(v.mm(half) + 4.0, extent(chain).x1 - BESIDE)
    marks += chain
    marks += band([_wide(k, v, "rails", s.rails_outside, v.up(s.deck_height_laden + s.rail_underside)),
                   _wide(k, v, "deck", s.deck_width, v.up(s.deck_height_laden))], "above", top)
    marks += levels("across.levels", gear.heights(k, s, v), -v.mm(half) - 1.0, top - 6.0, -1.0)
    return (*marks, *band(_deck_chain(k, s, v, v.mm(half)), "right", right))


def _wide(k: Kit, v: View, words: str, value: float, level: float) -> Span:
    """A width about the centre line, with what it is."""
    return k.span(f"across.{words}", v.across(-value / 2.0), v.across(value / 2.0), value, (level, level), f"{words} ")


def _deck_chain(k: Kit, s: Steel, v: View, edge: float) -> list[Span]:
    """From the ground over spindle and tube or eyes and the rails to the deck top: the parts close to the whole."""
    deck = s.deck_height_laden
    steps = sorted({0.0, s.tyre_radius_laden, deck - s.tube_to_deck, deck + s.rail_underside, deck})
    spans = [k.span(f"across.chain.{i}", v.up(a), v.up(b), b - a, (edge, edge))
             for i, (a, b) in enumerate(pairwise(steps)) if b - a > 1e-3]
    return spans + gear.reference([k.span("across.chain.deck", v.up(0.0), v.up(deck), deck, (edge, edge))])


def _along(k: Kit, v: View, id: str, a: float, b: float, feet: tuple[float, float]) -> Span:
    """From station to station."""
    return k.span(id, v.across(a), v.across(b), b - a, feet)


def _side(k: Kit, s: Steel, v: View) -> Views:
    """The suspension of the left side under its rail, wheels in phantom lines."""
    r, deck = s.tyre_diameter / 2.0, s.deck_height_laden
    front, rear = s.axles[0].station - r - 0.1, s.axles[-1].station + r + 0.1
    low = deck + s.rail_underside
    marks: list[Mark] = [
        *springs.wheels(s, v),
        *gear.rail_side(s, v, front, rear),
        *springs.side(s, v, "outline"),
        *springs.clamps(s, v),
        Line("side.ground", "ground", ((v.across(front) - 2.0, 0.0), (v.across(rear) + 2.0, 0.0))),
    ]
    eyes = v.up(deck - s.tube_to_deck)
    held = [a.bracket_station for a in s.axles] if s.has_arms else [h.station for h in s.running.hangers]
    spans = [_along(k, v, f"side.axle.{a.number}", a.station, b.station, (0.0, 0.0)) for a, b in pairwise(s.axles)]
    if s.has_arms:
        first = s.axles[0]
        spans.append(_along(k, v, "side.arm", first.bracket_station, first.station, (eyes, 0.0)))
    above = [_along(k, v, f"side.held.{i}", a, b, (v.up(low), v.up(low))) for i, (a, b) in enumerate(pairwise(held))]
    marks += band(gear.reference(p for p in spans if p.value > 1e-3), "below", 0.0)
    return (*marks, *band(gear.reference(above), "above", v.up(deck) - 1.0))
