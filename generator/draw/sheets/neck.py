"""F3 neck detail: the steel of neck and riser from the front and in section on the centre line, and the coupler."""

from collections.abc import Iterable

from generator.draw.dimensions import Span, band
from generator.draw.marks import Line, Mark, Text, extent
from generator.draw.pages import Drawing
from generator.draw.sheets import hitch, tongue
from generator.draw.sheets import outlines as o
from generator.draw.sheets.detail import before, cuts, ended, is_cut, labelled, seen, stations_above
from generator.draw.sheets.kit import Kit, Views, at, dimensions, kit, largest, need, steel_known
from generator.draw.sheets.stations import Place, places
from generator.draw.views import Solid, View, scales, title
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F3", "Neck or tongue detail"
BEHIND, AROUND = 0.45, 0.3
"""How much of the main deck stands behind datum A in the section, and of the neck around the ball in the detail, m."""
GAP, BELOW, TITLED = 9.0, 6.0, 11.0
"""Room between views, above their titles and for their titles, mm."""
PLATE = 0.02
"""Flat pieces up to this thickness are plates, m."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    if not s.has_neck:
        return tongue.draw(desk)
    steel_known(s)
    if not any(p.x0 < -1e-3 for p in s.pieces):
        raise RenderError("has nothing to show: no member of the neck is in the spec")
    ratio, marks = largest(k, BEHIND - s.neck_front, lambda q: _sheet(k, s, q))
    above = s.deck_height_laden + s.neck_underside - s.ball_height
    notes = (
        "Heights from level ground, trailer level as towed. Stations from datum A: centre lines of pieces cut by the "
        "section and of posts, ends of the others. Pieces cut are drawn heavy; marks as the member schedule.",
        f"Neck underside stands {k.show(above, 'm')} above ball centre when the trailer is level; the coupler is "
        f"set to {k.show(s.coupler_set, 'm')}, its nearest pin hole. It reaches {k.show(s.coupler_low, 'm')} to "
        f"{k.show(s.coupler_high, 'm')}.",
        "Welds of neck, riser, gussets and coupler: by the designer named in the reply. Nothing here sizes them.",
    )
    marks_shown = ", ".join(sorted({p.mark for p in _near(s, BEHIND)}))
    alt = (
        f"Neck and riser at 1:{ratio:g} from the front and in section on the centre line, and the coupler larger, with "
        f"members {marks_shown}. Neck underside {k.show(s.deck_height_laden + s.neck_underside, 'm')} above ground, "
        f"{k.show(above, 'm')} above ball centre. All dimensions stand in the schedule."
    )
    return Drawing(
        NUMBER,
        "Neck detail",
        k.say("steel of neck, riser and coupler"),
        k.towed(s),
        ratio,
        marks,
        tuple(map(k.say, notes)),
        k.say(alt),
        (dimensions(_rows(k, s)),),
    )


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    deck, under = s.deck_height_laden, s.deck_height_laden + s.neck_underside
    rows = [
        k.row("Ball centre above ground", s.ball_height, where="level ground"),
        k.row("Neck underside above ball centre", under - s.ball_height, where="trailer level"),
        k.row("Neck underside above ball centre, as set", s.coupler_set, where="nearest pin hole"),
        k.row("Coupler, shortest", s.coupler_low, where="neck underside above ball centre"),
        k.row("Coupler, longest", s.coupler_high, where="neck underside above ball centre"),
        k.row("Neck underside above ground", under, where="level ground"),
        k.row("Neck frame depth", s.neck_frame_depth),
        k.row("Neck deck top above ground", under + s.neck_frame_depth, where="level ground"),
        k.row("Main-deck top above ground", deck, where="level ground"),
        k.row("Riser: main-deck top to neck underside", s.neck_underside),
        k.row("Neck width", s.neck_width),
        k.row("Neck rails, outside to outside", s.neck_rails_outside),
        k.row("Main rails, outside to outside", s.rails_outside),
    ]
    rows += [k.row(p.words[0].upper() + p.words[1:], p.x, where="station") for p in _stations(k, s, _half(s, BEHIND))]
    sizes = {(p.mark, p.title, k.show(p.x1 - p.x0, "m"), k.show(p.z1 - p.z0, "m")) for p in _plates(s)}
    rows += [(f"{words} {mark}", f"{a} x {b}", "along the trailer x upright") for mark, words, a, b in sorted(sizes)]
    return rows


def _near(s: Steel, behind: float) -> list[Piece]:
    """Pieces of neck and riser, those of the main deck that begin before `behind`."""
    return [p for p in s.pieces if p.x0 < behind - 1e-6]


def _half(s: Steel, behind: float) -> list[Piece]:
    """What a section on the centre line shows looking right: pieces cut by it and those beyond."""
    return [p for p in _near(s, behind) if p.y1 > 1e-3]


def _plates(s: Steel) -> list[Piece]:
    """Upright plates of neck and riser that show their face from the side, one of each pair."""
    return [p for p in _half(s, 0.0) if p.y1 - p.y0 <= PLATE and p.z1 - p.z0 > PLATE and p.z0 > 0.0]


def _stations(k: Kit, s: Steel, pieces: Iterable[Piece]) -> list[Place]:
    """Where the pieces of the section stand along the trailer."""
    shown = list(pieces)
    named = ((0.0, "datum A"), (s.neck_front, "front of neck"), (s.pin_station, k.say("ball")))
    centred = [(p.mark, (p.x0 + p.x1) / 2.0) for p in shown if is_cut(p) or p.run == "crosswise"]
    ended = [(p.mark, x) for p in shown if not is_cut(p) and p.run != "crosswise" for x in (p.x0, p.x1) if x < BEHIND]
    return places(named, centred, ended)


def _sheet(k: Kit, s: Steel, ratio: float) -> Views | None:
    """Front view and section on the same ground, the coupler larger beside them where there is room."""
    room, v = k.room, View(ratio)
    front, section = _front(k, s, View(ratio, -1)), _section(k, s, v)
    f, b = extent(front), extent(section)
    left = room.x1 - room.x0 - (f.x1 - f.x0) - (b.x1 - b.x0) - 2.0 * GAP
    deepest = room.y1 - room.y0 - BELOW - TITLED
    low, high = max(f.y1, b.y1), min(f.y0, b.y0)
    if left < 0.0 or low - high > deepest or (coupler := _coupler_in(k, s, left, deepest)) is None:
        return None
    c, scale = extent(coupler[1]), coupler[0]
    high = min(high, low - (c.y1 - c.y0))
    spare = (left - (c.x1 - c.x0)) / 4.0
    y = room.y0 + (deepest - (low - high)) / 2.0 - high
    x1 = room.x0 + spare - f.x0
    x2 = room.x0 + 2.0 * spare + (f.x1 - f.x0) + GAP - b.x0
    x3 = room.x1 - spare - c.x1
    y3 = y + low - c.y1
    marks: list[Mark] = [*at(front, x1, y), *at(section, x2, y), *at(coupler[1], x3, y3)]
    base, state = y + low + BELOW, k.towed(s)
    for id, x, words, r, under in (
        ("front", x1 + f.x0, "FRONT", ratio, state),
        ("section", x2 + b.x0, "SECTION ON THE CENTRE LINE", ratio, f"looking right; {state}"),
        ("coupler", x3 + c.x0, k.say("coupler").upper(), scale, "same section"),
    ):
        marks += title(id, (x, base), words, f"1:{r:g}", under)
    return tuple(marks)


def _coupler_in(k: Kit, s: Steel, wide: float, high: float) -> tuple[float, Views] | None:
    """The coupler at the largest scale that fits into the room left, mm."""
    for ratio in scales(k.cover.units):
        if 2.0 * AROUND * 1000.0 / ratio > wide:
            continue
        made = _coupler(k, s, View(float(ratio)))
        box = extent(made)
        if box.x1 - box.x0 <= wide and box.y1 - box.y0 <= high:
            return float(ratio), made
    return None


def _front(k: Kit, s: Steel, v: View) -> Views:
    """Neck and riser seen from the front; tyres and tow vehicle left out."""
    pieces = _near(s, BEHIND)
    solids = [Solid(p.mark, o.face_across(p, s), -p.x0) for p in pieces]
    deck = s.deck_height_laden
    top = deck + max(p.z1 for p in pieces)
    ball = v.p(0.0, s.ball_height)
    half = max(s.neck_width, s.deck_width) / 2.0
    marks: list[Mark] = [
        *o.visible(solids, v),
        *hitch.mark(s, ball, v),
        v.run("front.centre", "centre", ((0.0, -0.04), (0.0, top + 0.08))),
        Line("front.ground", "ground", ((-v.mm(half) - 3.0, 0.0), (v.mm(half) + 3.0, 0.0))),
    ]
    low, high = v.up(deck + s.rail_underside), v.up(top)
    rails, wide = v.mm(s.rails_outside / 2.0), v.mm(s.deck_width / 2.0)
    below = [
        k.span("dim.front.rails", -rails, rails, s.rails_outside, (low, low)),
        k.span("dim.front.deck", -wide, wide, s.deck_width, (low, low)),
    ]
    inner, neck = v.mm(s.neck_rails_outside / 2.0), v.mm(s.neck_width / 2.0)
    above = [
        k.span("dim.front.neck.rails", -inner, inner, s.neck_rails_outside, (high, high)),
        k.span("dim.front.neck", -neck, neck, s.neck_width, (high, high)),
    ]
    marks += [*band(below, "below", 0.0), *band(above, "above", high)]
    return (*marks, *labelled("front", pieces, solids, v, marks))


def _section(k: Kit, s: Steel, v: View) -> Views:
    """Neck and riser cut on the centre line, looking right, over the ground, with the chain of heights."""
    pieces, deck = _half(s, BEHIND), s.deck_height_laden
    solids = [Solid(p.mark, ended(o.face_along(p, s), s.neck_front, BEHIND), -max(p.y0, 0.0)) for p in pieces]
    under, top = deck + s.neck_underside, deck + s.neck_underside + s.neck_frame_depth
    nose, pin, edge = v.across(s.neck_front), v.across(s.pin_station), v.across(BEHIND)
    marks: list[Mark] = [
        *o.visible(solids, v),
        *cuts("section", pieces, solids, v),
        *hitch.side(s, v),
        o.break_line("section.break", v, BEHIND, deck + s.rail_underside - 0.05, deck + 0.05),
        Line("section.ground", "ground", ((nose - 3.0, 0.0), (edge + 3.0, 0.0))),
        Line("section.datum", "centre", ((v.across(0.0), v.up(deck + s.rail_underside) + 1.0), (v.across(0.0), -1.0))),
    ]
    left = [
        k.span("dim.ball", 0.0, v.up(s.ball_height), s.ball_height, (nose - 3.0, pin - 3.0)),
        k.span("dim.set", v.up(s.ball_height), v.up(under), under - s.ball_height, (pin - 3.0, nose)),
        k.span("dim.depth", v.up(under), v.up(top), s.neck_frame_depth, (nose, nose)),
        k.span("dim.top", 0.0, v.up(top), top, (nose - 3.0, nose)),
    ]
    right = [
        k.span("dim.main", 0.0, v.up(deck), deck, (edge + 3.0, edge)),
        k.span("dim.riser", v.up(deck), v.up(under), s.neck_underside, (edge, v.across(_riser_back(s)))),
        *_legs(k, "dim.leg", (p for p in _plates(s) if p.x1 > -AROUND), s, v, v.across(0.0)),
    ]
    below = [
        k.span("dim.pin", pin, v.across(0.0), -s.pin_station, (0.0, 0.0)),
        k.span("dim.nose", nose, v.across(0.0), -s.neck_front, (0.0, 0.0)),
    ]
    marks += [*band(left, "left", nose - 3.0, last=-1.0), *band(right, "right", edge + 3.0, last=-1.0)]
    marks += band(below, "below", 0.0)
    marks += stations_above("section", k, s, _stations(k, s, pieces), pieces, v, (nose - 6.0, edge + 6.0))
    return (*marks, *labelled("section", pieces, solids, v, marks))


def _riser_back(s: Steel) -> float:
    """Rearmost station of what carries the neck, m."""
    return max(
        (p.x1 for p in s.pieces if p.run == "upright" and p.z1 >= s.neck_underside - 0.01 and p.x1 < BEHIND),
        default=0.0,
    )


def _legs(k: Kit, id: str, plates: Iterable[Piece], s: Steel, v: View, from_x: float) -> list[Span]:
    """How far plates hang below the neck, each length once."""
    under, found = s.deck_height_laden + s.neck_underside, dict[int, Piece]()
    for p in sorted(plates, key=lambda p: -p.x1):
        if p.z0 < s.neck_underside - 1e-3:
            found.setdefault(round((s.neck_underside - p.z0) * 1000.0), p)
    return [
        k.span(
            f"{id}.{p.mark}",
            v.up(under),
            v.up(s.deck_height_laden + p.z0),
            s.neck_underside - p.z0,
            (from_x, v.across(p.x1)),
        )
        for _, p in sorted(found.items())
    ]


def _coupler(k: Kit, s: Steel, v: View) -> Views:
    """Coupler, its beams and plates around the ball."""
    low, high = s.pin_station - AROUND, s.pin_station + AROUND
    near = [p for p in _half(s, high) if p.x1 > low + 1e-6 and p.z1 > 0.0]
    pieces = [p for p in near if not is_cut(p) or (low < p.x0 and p.x1 < high)]
    solids = [Solid(p.mark, ended(o.face_along(p, s), low, high), -max(p.y0, 0.0)) for p in pieces]
    under = s.deck_height_laden + s.neck_underside
    tubes = [p for p in pieces if p.run == "upright" and p.x0 < s.pin_station < p.x1 and is_cut(p)]
    shown = [p for p, f in zip(pieces, solids, strict=True) if seen(f.face, before(f, solids))]
    marks: list[Mark] = [*o.visible(solids, v), *cuts("coupler", pieces, solids, v), *hitch.side(s, v)]
    for i, x in enumerate((low, high)):
        marks.append(o.break_line(f"coupler.break.{i}", v, x, under - 0.04, under + s.neck_frame_depth + 0.04))
    left_edge, right_edge = v.across(low) - 2.0, v.across(high) + 2.0
    pin = v.across(s.pin_station)
    left = [
        k.span("dim.coupler.set", v.up(s.ball_height), v.up(under), under - s.ball_height, (pin - 3.0, v.across(low)))
    ]
    right = []
    for p in tubes[:1]:
        end, half = s.deck_height_laden + p.z0, 0.4 * (p.x1 - p.x0)
        # The inner tube is the coupler maker's: it is shown reaching from the outer tube to the ball, not sized.
        marks.append(
            v.run(
                "coupler.inner",
                "phantom",
                (
                    (s.pin_station - half, end),
                    (s.pin_station - half, s.ball_height),
                    (s.pin_station + half, s.ball_height),
                    (s.pin_station + half, end),
                ),
            )
        )
        right.append(k.span("dim.coupler.tube", v.up(end), v.up(under), under - end, (v.across(p.x1), v.across(high))))
    right += _legs(k, "dim.coupler.leg", (p for p in _plates(s) if p in shown), s, v, v.across(high))
    marks += [*band(left, "left", left_edge), *band(right, "right", right_edge)]
    ends = (left_edge - 10.0, right_edge + 10.0)
    marks += stations_above("coupler", k, s, _stations(k, s, pieces), pieces, v, ends, (low, high))
    words = "box and pin: the box's maker" if hitch.is_pin(s) else "inner tube and socket: coupler's maker"
    maker = Text("coupler.maker", words, (left_edge - 10.0, max(extent(marks).y1, v.up(s.ball_height)) + 4.5))
    return (*marks, maker, *labelled("coupler", pieces, solids, v, (*marks, maker)))
