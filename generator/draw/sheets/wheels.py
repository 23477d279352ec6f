"""F5 section through the wheels: tyres, axle, frame, deck and boxes across; beside it the wheels from the left."""

import math
from collections.abc import Iterable
from dataclasses import replace

from generator.draw.dimensions import Span, band
from generator.draw.marks import Line, Mark, Rect, extent
from generator.draw.ordinates import Station, levels
from generator.draw.pages import Drawing
from generator.draw.sheets import outlines as o
from generator.draw.sheets.detail import labelled
from generator.draw.sheets.kit import (
    Kit,
    Views,
    at,
    boxes_known,
    column,
    dimensions,
    finite,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.views import Solid, View, scales, title
from generator.release.slices import Desk, Envelope, Steel

NUMBER, TITLE = "F5", "Section through the wheels"
GAP, BELOW, TITLED = 10.0, 4.0, 11.0
"""Room between views, above their titles and for their titles, mm."""
AROUND, ABOVE = 0.3, 0.22
"""How much of the frame stands ahead of and behind the tyres or boxes, and of the house over what stands highest, m."""
LEAF, CORNER = 0.05, 0.16
"""Width of a pack of leaves as drawn, a mark and no size (m); corner of a tyre as drawn, share of its width."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    boxes_known(s)
    finite((("hub faces", s.axles[-1].hub_face), ("bracket spacing", s.bracket_spacing)))
    house = desk.get(Envelope)
    width = house.width if isinstance(house, Envelope) else math.nan
    ratio, marks = largest(k, max(s.deck_width, s.track + s.tyre_width), lambda r: _sheet(k, s, width, r))
    over = "what is right above it (steel, decking, belly sheet)" if s.sprung.is_over_wheels else "its box"
    room = math.isfinite(s.sprung.travel_left + s.sprung.over_tyre)
    notes = (
        "Heights from level ground as towed, at the rearmost axle; steel cut there is drawn heavy, steel ahead of it "
        "to the front of the wheels as seen. All alike left and right.",
        *(
            (
                f"Over the tyre: {k.show(s.sprung.travel_left, 'm', 'down')} travel left to the stop, then "
                f"{k.show(s.sprung.over_tyre, 'm', 'down')} between tyre and {over}. Both are critical.",
            )
            if room
            else ()
        ),
        "Axles, springs, hubs and wheels: their makers' drawings govern; here they are outlines at the sizes stated. "
        "House and wheel-box skins in phantom lines.",
    )
    alt = (
        f"Section through the wheels at 1:{ratio:g} with the wheels from the left beside it: track "
        f"{k.show(s.track, 'm')}, outside of the tyres {k.show(s.track + s.tyre_width, 'm')}, rails outside "
        f"{k.show(s.rails_outside, 'm')}, deck top {k.show(s.deck_height_laden, 'm')} above ground. All dimensions "
        "stand in the schedule."
    )
    subtitle = "deck over the wheels" if s.sprung.is_over_wheels else "deck between the wheels"
    tables = (dimensions(_rows(k, s, width)),)
    return Drawing(NUMBER, TITLE, subtitle, k.towed(s), ratio, marks, notes, alt, tables)


def _rows(k: Kit, s: Steel, width: float) -> list[tuple[str, ...]]:
    u, tyre = s.sprung, s.tyre_radius_laden + s.tyre_diameter / 2.0
    rows = [
        ("Track, tyre centres", s.track, ""),
        ("Outside of the tyres", s.track + s.tyre_width, ""),
        ("Tyre, width", s.tyre_width, "section width"),
        ("Tyre, diameter", s.tyre_diameter, "unladen"),
        ("Hub face to hub face", s.axles[-1].hub_face, ""),
        ("Bracket or spring centres across", s.bracket_spacing, ""),
        ("Rails, outside to outside", s.rails_outside, ""),
        ("Tyre to rail, each side", (s.track - s.tyre_width - s.rails_outside) / 2.0, ""),
        ("Deck width", s.deck_width, ""),
        ("House, width", width, "trim included"),
        ("Spindles above ground", s.tyre_radius_laden, "tyres under load"),
        ("Axle beam, centre above ground", u.beam_height, ""),
        ("Spring eyes or torsion tube above ground", s.deck_height_laden - s.tube_to_deck, ""),
        ("Underside of the rails above ground", s.deck_height_laden + s.rail_underside, ""),
        ("Top of the tyre above ground", tyre, ""),
        ("Deck top above ground", s.deck_height_laden, ""),
        ("Travel left to the stop", u.travel_left, "rounded down on the sheet"),
        ("Left over the tyre at the stop", u.over_tyre, "to steel, decking or belly right above it, or to the box"),
        ("Axle to axle", s.spacing if len(s.axles) > 1 else math.nan, ""),
        ("Tyre to tyre", s.spacing - s.tyre_diameter if len(s.axles) > 1 else math.nan, ""),
    ]
    for n, b in enumerate(s.boxes, 1):
        rows += [
            (f"Wheel box {n}, length", b.rear - b.front, "clear"),
            (f"Wheel box {n}, inner face off the centre line", b.inside, "clear"),
            (f"Wheel box {n}, tyre to inner face", (s.track - s.tyre_width) / 2.0 - b.inside, ""),
            (f"Wheel box {n}, top above deck", b.top, ""),
            (f"Wheel box {n}, front to tyre", s.axles[0].station - s.tyre_diameter / 2.0 - b.front, ""),
            (f"Wheel box {n}, tyre to rear", b.rear - s.axles[-1].station - s.tyre_diameter / 2.0, ""),
        ]
    return [k.row(what, value, where=where) for what, value, where in rows if math.isfinite(value)]


def _sheet(k: Kit, s: Steel, width: float, ratio: float) -> Views | None:
    """The section, and beside it the wheels from the left at no less than half its scale."""
    room = k.room
    section = _section(k, s, width, View(ratio))
    b, deep = extent(section), room.y1 - room.y0 - BELOW - TITLED
    left = room.x1 - room.x0 - (b.x1 - b.x0) - GAP
    if b.y1 - b.y0 > deep or left < 0.0 or (found := _side_in(k, s, left, deep, 2.0 * ratio)) is None:
        return None
    scale, side = found
    c, side_words = extent(side), "WHEELS, LEFT ELEVATION"
    words = f"SECTION THROUGH {f'AXLE {s.axles[-1].number}' if len(s.axles) > 1 else 'THE AXLE'}"
    wide, beside = column(b, words, ratio), column(c, side_words, scale)
    spare = (room.x1 - room.x0 - wide - beside - GAP) / 3.0
    if spare < 0.0:
        return None
    high = max(b.y1 - b.y0, c.y1 - c.y0)
    base = room.y0 + (deep - high) / 2.0 + high
    x1, x2 = room.x0 + spare - c.x0, room.x1 - spare - wide - b.x0
    marks: list[Mark] = [*at(side, x1, base - c.y1), *at(section, x2, base - b.y1)]
    state = k.towed(s)
    for id, x, said, r, under in (
        ("side", x1 + c.x0, side_words, scale, state),
        ("section", x2 + b.x0, words, ratio, f"looking forward; {state}"),
    ):
        marks += title(id, (x, base + BELOW), said, f"1:{r:g}", under)
    return tuple(marks)


def _side_in(k: Kit, s: Steel, wide: float, high: float, most: float) -> tuple[float, Views] | None:
    for ratio in scales(k.cover.units):
        if ratio > most:
            return None
        made = _side(k, s, View(float(ratio)))
        box = extent(made)
        if box.x1 - box.x0 <= wide and box.y1 - box.y0 <= high:
            return float(ratio), made
    return None


def _section(k: Kit, s: Steel, width: float, v: View) -> Views:
    shown = o.at_wheels(s)
    pieces, solids, plane = [p for p, _ in shown], [f for _, f in shown], s.axles[-1].station
    tyres = [_tyre(s, side, plane) for side in (-1, 1)]
    heavy = [
        v.box(f"section.cut.{i}", "cut", f.face.x0, f.face.y0, f.face.x1, f.face.y1)
        for i, (p, f) in enumerate(shown)
        if p.run == "lengthwise" and p.x0 < plane < p.x1
    ]
    wide = max(s.track + s.tyre_width, s.deck_width, width if math.isfinite(width) else 0.0) / 2.0
    marks: list[Mark] = [
        *o.visible((*solids, *tyres), v),
        *heavy,
        *(m for side in (-1, 1) for m in _wheel(s, side, v)),
        *_axle(s, v),
        *_decking(s, v),
        *_house(s, width, v),
        v.run("section.centre", "centre", ((0.0, -0.04), (0.0, _highest(s) + ABOVE + 0.04))),
        Line("section.ground", "ground", ((-v.mm(wide) - 4.0, 0.0), (v.mm(wide) + 4.0, 0.0))),
    ]
    marks += band(_finite(_lateral(k, s, v)), "below", 0.0)
    top = v.up(_highest(s) + ABOVE)
    marks += band(_finite(_over(k, s, width, v, top)), "above", top)
    marks += band(_finite(_heights(k, s, v)), "right", v.mm(wide) + 4.0, last=-1.0)
    marks += levels("levels", _levels(k, s, v), -v.mm(wide) - 1.0, v.up(_highest(s) + ABOVE), -1.0)
    return (*marks, *labelled("section", pieces, solids, v, marks, tyres))


def _finite(spans: Iterable[Span]) -> list[Span]:
    """Dimensions whose numbers are known and lie in order."""
    return [s for s in spans if math.isfinite(s.a + s.b + s.value) and s.value > 0.0]


def _highest(s: Steel) -> float:
    """Top of deck, boxes and the steel at the wheels above ground, m."""
    steel = (f.face.y1 for _, f in o.at_wheels(s))
    boxes = (s.deck_height_laden + b.top for b in s.boxes)
    return max([s.deck_height_laden, *steel, *boxes])


def _tyre(s: Steel, side: int, plane: float) -> Solid:
    """The tyre of one side cut at the spindle."""
    y0, y1, top = *_walls(s, side), s.tyre_radius_laden + s.tyre_diameter / 2.0
    c = CORNER * s.tyre_width
    ring = ((y0, c), (y0 + c, 0.0), (y1 - c, 0.0), (y1, c), (y1, top - c), (y1 - c, top), (y0 + c, top), (y0, top - c))
    return Solid("tyre", Rect(y0, 0.0, y1, top), plane + 1e-3, (), ring)


def _walls(s: Steel, side: int) -> tuple[float, float]:
    """Left and right side wall of a tyre, m from the centre line."""
    return side * s.track / 2.0 - s.tyre_width / 2.0, side * s.track / 2.0 + s.tyre_width / 2.0


def _wheel(s: Steel, side: int, v: View) -> Views:
    """The place of the tyre with its wheel at the stop, and the hub's mounting face, on one side."""
    y0, y1 = _walls(s, side)
    top, c = s.tyre_radius_laden + s.tyre_diameter / 2.0, CORNER * s.tyre_width
    hub, low, high = side * s.axles[-1].hub_face / 2.0, s.tyre_radius_laden - 0.07, s.tyre_radius_laden + 0.07
    face, rise = v.run(f"hub.{side}", "thin", ((hub, low), (hub, high))), top + s.sprung.travel_left
    if not rise > top:
        return (face,)
    stop = ((y0, top), (y0, rise - c), (y0 + c, rise), (y1 - c, rise), (y1, rise - c), (y1, top))
    return face, v.run(f"stop.{side}", "phantom", stop)


def _axle(s: Steel, v: View) -> Views:
    """Centre line of the spindles; a beam with its springs, or the centre line of the torsion tube."""
    u, out, half = s.sprung, (s.track + s.tyre_width) / 2.0 + 0.06, s.bracket_spacing / 2.0
    eyes, z = s.deck_height_laden - s.tube_to_deck, s.tyre_radius_laden
    marks: list[Mark] = [v.run("spindles", "centre", ((-out, z), (out, z)))]
    if s.has_arms and math.isfinite(eyes):
        marks.append(v.run("tube", "centre", ((-half - 0.12, eyes), (half + 0.12, eyes))))
    if not math.isfinite(u.beam + u.beam_height + u.pack_low + u.pack_high + eyes):
        return tuple(marks)
    low, high = u.beam_height - u.beam / 2.0, u.beam_height + u.beam / 2.0
    marks.append(v.box("beam", "outline", -half - 0.07, low, half + 0.07, high))
    for side in (-1, 1):
        y = side * half
        marks += [
            v.box(f"pack.{side}", "phantom", y - LEAF / 2.0, u.pack_low, y + LEAF / 2.0, u.pack_high),
            v.run(f"eye.{side}", "centre", ((y - 0.06, eyes), (y + 0.06, eyes))),
        ]
    return tuple(marks)


def _decking(s: Steel, v: View) -> Views:
    """Decking on the steel, ended at the boxes."""
    half, deck = s.deck_width / 2.0, s.deck_height_laden
    half = min([half, *(b.inside for b in s.boxes)])
    return (v.box("decking", "thin", -half, deck - s.deck_thickness, half, deck),)


def _house(s: Steel, width: float, v: View) -> Views:
    """Lower ends of the house walls, and the wheel boxes with the underside of their tops."""
    deck, up, marks = s.deck_height_laden, _highest(s) + ABOVE, list[Mark]()
    half = width / 2.0 if math.isfinite(width) else s.deck_width / 2.0
    for side in (-1, 1):
        if math.isfinite(width):
            marks.append(v.run(f"house.{side}", "phantom", ((side * half, deck), (side * half, up))))
        if s.sprung.is_over_wheels and math.isfinite(_under(s)):
            marks.append(v.run(f"belly.{side}", "phantom", tuple((y, _under(s)) for y in _walls(s, side))))
        for i, b in enumerate(s.boxes[:1]):
            marks.append(v.run(f"box.{side}.{i}", "phantom", (
                (side * b.inside, deck), (side * b.inside, deck + b.top), (side * half, deck + b.top))))
            if math.isfinite(under := _under(s)) and under < deck + b.top:
                marks.append(v.run(f"skin.{side}.{i}", "phantom", ((side * b.inside, under), (side * half, under))))
    return tuple(marks)


def _under(s: Steel) -> float:
    """Underside of what is above the tyre, above ground, m; NaN where nothing is."""
    return s.tyre_radius_laden + s.tyre_diameter / 2.0 + s.sprung.travel_left + s.sprung.over_tyre


def _lateral(k: Kit, s: Steel, v: View) -> list[Span]:
    """The chain across from tyre to tyre, track, hub faces, springs."""
    places, spans = [-s.lateral.total / 2.0], list[Span]()
    for i, step in enumerate(s.lateral.steps):
        places.append(places[-1] + step.value)
        if abs(places[-1] + places[-2]) > 1e-6:
            spans.append(_level(k, v, f"dim.lateral.{i}", places[-2], places[-1], step.value))
        else:
            spans.append(_wide(k, v, "rails", step.value))
    hub, spring, track = s.axles[-1].hub_face, s.bracket_spacing, s.track
    held = "brackets" if s.has_arms else "springs"
    for words, value in ((held, spring), ("track", track), ("tyres", s.lateral.total)):
        spans.append(_wide(k, v, words, value))
    return [*spans, _wide(k, v, "hub faces", hub)] if abs(hub - track) > 1e-3 else spans


def _wide(k: Kit, v: View, words: str, value: float, at: float = 0.0) -> Span:
    """A width about the centre line, with what it is."""
    return k.span(f"dim.{words}", v.across(-value / 2.0), v.across(value / 2.0), value, (at, at), f"{words} ")


def _level(k: Kit, v: View, id: str, a: float, b: float, value: float, at: float = 0.0) -> Span:
    return k.span(id, v.across(a), v.across(b), value, (at, at))


def _over(k: Kit, s: Steel, width: float, v: View, top: float) -> list[Span]:
    """Widths of deck and house, and the floor left between the boxes."""
    spans = [_wide(k, v, "deck", s.deck_width, v.up(s.deck_height_laden)), _wide(k, v, "house", width, top)]
    for b in s.boxes[:1]:
        level, tyre = v.up(s.deck_height_laden + b.top), v.up(s.tyre_radius_laden + s.tyre_diameter / 2.0)
        wall = (s.track - s.tyre_width) / 2.0
        spans.append(_wide(k, v, "between boxes", 2.0 * b.inside, level))
        spans.append(Span("dim.box.side", v.across(b.inside), v.across(wall), k.show(wall - b.inside, "m", "down"),
                          wall - b.inside, level, tyre))
    return spans


def _heights(k: Kit, s: Steel, v: View) -> list[Span]:
    """On the right: travel of the wheel, what is left over the tyre, box over the deck."""
    top, u, deck = s.tyre_radius_laden + s.tyre_diameter / 2.0, s.sprung, s.deck_height_laden
    edge, tyre = v.mm((s.track + s.tyre_width) / 2.0), v.mm(s.track / 2.0)
    spans = [
        _down(k, "dim.travel", v.up(top), v.up(top + u.travel_left), u.travel_left, tyre, "travel"),
        _down(k, "dim.over", v.up(top + u.travel_left), v.up(_under(s)), u.over_tyre, tyre, "clear"),
    ]
    return spans + [k.span("dim.box", v.up(deck), v.up(deck + b.top), b.top, (edge, edge), "box ") for b in s.boxes[:1]]


def _down(k: Kit, id: str, a: float, b: float, value: float, at: float, words: str) -> Span:
    """A room as dimension with what it is, rounded down."""
    return Span(id, a, b, f"{k.show(value, 'm', 'down')} {words}", value, at, at)


def _levels(k: Kit, s: Steel, v: View) -> list[Station]:
    """Heights above ground on the left, from the axle to the box."""
    deck, u, half = s.deck_height_laden, s.sprung, s.bracket_spacing / 2.0
    outer, low = (s.track + s.tyre_width) / 2.0, u.beam_height - u.beam / 2.0
    rows = [
        ("deck", "deck top", deck, s.deck_width / 2.0),
        ("rail", "underside of rails", deck + s.rail_underside, s.rails_outside / 2.0),
        ("eyes", "torsion tube" if s.has_arms else "spring eyes", deck - s.tube_to_deck, half + 0.06),
        ("tyre", "top of tyre", s.tyre_radius_laden + s.tyre_diameter / 2.0, outer),
        ("spindle", "spindles", s.tyre_radius_laden, outer + 0.06),
        ("beam", "underside of beam", low, half + 0.07),
        *((f"box.{i}", "top of box", deck + b.top, b.inside) for i, b in enumerate(s.boxes[:1])),
    ]
    return [
        Station(id, v.up(z), -v.mm(y), f"{k.show(z, 'm')} {words}", z) for id, words, z, y in rows if math.isfinite(z)
    ]


def _side(k: Kit, s: Steel, v: View) -> Views:
    """Tyres, boxes and the steel of the left side around them."""
    r, first, last = s.tyre_diameter / 2.0, s.axles[0].station, s.axles[-1].station
    front = min([first - r, *(b.front for b in s.boxes)]) - AROUND
    rear = max([last + r, *(b.rear for b in s.boxes)]) + AROUND
    near = replace(s, pieces=tuple(replace(p, x0=max(p.x0, front), x1=min(p.x1, rear)) for p in s.pieces
                                   if p.x0 < rear - 1e-3 and p.x1 > front + 1e-3))
    deck = s.deck_height_laden
    high = max([deck, *(deck + p.z1 for p in near.pieces), *(deck + b.top for b in s.boxes)])
    marks: list[Mark] = [
        *o.steel_elevation(near, v),
        *o.wheels_elevation(s, v),
        *_boxes(s, v),
        *(o.break_line(f"side.break.{i}", v, x, deck + s.rail_underside - 0.06, deck + 0.06)
          for i, x in enumerate((front, rear))),
        Line("side.ground", "ground", ((v.across(front), 0.0), (v.across(rear), 0.0))),
    ]
    below = [_level(k, v, f"dim.axle.{a.number}", a.station, b.station, b.station - a.station)
             for a, b in zip(s.axles, s.axles[1:], strict=False)]
    over = [_gap(k, s, v, f"dim.gap.{a.number}", a.station + r, b.station - r)
            for a, b in zip(s.axles, s.axles[1:], strict=False)]
    below.append(_level(k, v, "dim.wheels", first - r, last + r, last - first + 2.0 * r))
    for i, b in enumerate(s.boxes):
        top = v.up(deck + b.top)
        over.append(_level(k, v, f"dim.box.length.{i}", b.front, b.rear, b.rear - b.front, top))
        over += [_gap(k, s, v, f"dim.box.front.{i}", b.front, first - r),
                 _gap(k, s, v, f"dim.box.rear.{i}", last + r, b.rear)]
    marks += band(_finite(below), "below", 0.0)
    return (*marks, *band(_finite(over), "above", v.up(high)))


def _gap(k: Kit, s: Steel, v: View, id: str, a: float, b: float) -> Span:
    level = v.up(s.tyre_radius_laden)
    return Span(id, v.across(a), v.across(b), k.show(b - a, "m", "down"), b - a, level, level)


def _boxes(s: Steel, v: View) -> Views:
    deck = s.deck_height_laden
    return tuple(
        v.run(f"box.{i}", "phantom", ((b.front, deck), (b.front, deck + b.top), (b.rear, deck + b.top), (b.rear, deck)))
        for i, b in enumerate(s.boxes)
    )
