"""L4 neck heights: tow vehicle, neck and house over it, and the window of neck heights with the choice."""

from dataclasses import dataclass

from generator.calc.findings import NeckRecord
from generator.calc.record import Window
from generator.draw.dimensions import Span, band
from generator.draw.marks import TEXT, Area, Line, Mark, Rect, Text, arrow, extent, hatched
from generator.draw.ordinates import spread
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, dimensions, finite, kit, largest, need, steel_known
from generator.draw.views import View, scales, title
from generator.release.slices import Desk, Envelope, Neck, Steel
from generator.units import Toward

NUMBER, TITLE = "L4", "Neck heights and window"
BEHIND = 0.55
"""How much of the main deck the detail shows behind datum A, m."""
CHART = (62.0, 110.0)
"""Widest and tallest window chart, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e, n = kit(desk), need(desk, Steel), need(desk, Envelope), need(desk, Neck)
    steel_known(s)
    r = n.record
    finite(
        (
            ("neck deck top", r.deck_top),
            ("headroom over the neck", r.headroom),
            ("bed rail", r.bed_rail),
            ("chosen neck underside", r.chosen),
            ("ball height", r.ball),
            ("coupler set", r.coupler_set),
            ("least height over the bed rail", r.low_rail),
            ("least height of the coupler", r.low_coupler),
            ("greatest height of the coupler", r.high_coupler),
            ("greatest height under the limit", r.high_limit),
            *((f"zone {z.id}", v) for z in e.zones for v in (z.front, z.rear, z.floor, z.ceiling, z.roof)),
        )
    )
    ratio, marks = largest(k, BEHIND - s.neck_front, lambda q: _sheet(k, s, e, n, q))
    w = n.window
    closing = f"closed below by {w.closed_by_low}, above by {w.closed_by_high}"
    over = _over(e)
    notes = (
        "Heights from level ground at the ball, as towed; bed and rail of the loaded tow vehicle as measured.",
        f"{_window_said(k, w)}, {closing}. The choice is {k.show(r.chosen, 'm')}.",
        *((_headroom_note(k, r, over),) if over else ()),
    )
    alt = (
        f"Neck heights at 1:{ratio:g}: heights from ground over ball {k.show(r.ball, 'm')}, neck underside "
        f"{k.show(r.chosen, 'm')}, neck deck top {k.show(r.deck_top, 'm')}; window of neck heights {closing}."
    )
    return Drawing(
        NUMBER,
        TITLE,
        "working window of the neck underside",
        k.towed(s),
        ratio,
        marks,
        tuple(map(k.say, notes)),
        k.say(alt),
        (dimensions(_rows(k, s, e, n)),),
    )


@dataclass(frozen=True, slots=True)
class _Over:
    """House over the neck: highest floor, lowest ceiling, highest roof above the main deck, m."""

    floor: float
    ceiling: float
    roof: float


def _window_said(k: Kit, w: Window) -> str:
    low, high = k.show(w.low, "m", "up"), k.show(w.high, "m", "down")
    if w.low > w.high:
        return f"No height works: the neck underside must stand at {low} at least and at {high} at most"
    return f"The neck underside may stand from {low} to {high}: the working window"


def _over(e: Envelope) -> _Over | None:
    zones = [z for z in e.zones if z.front < -0.05]
    if not zones:
        return None
    return _Over(max(z.floor for z in zones), min(z.ceiling for z in zones), max(z.roof for z in zones))


def _headroom_note(k: Kit, r: NeckRecord, over: _Over) -> str:
    drawn = k.show(over.ceiling - over.floor, "m", "down")
    most = k.show(r.headroom, "m", "down")
    return (
        f"Headroom over the neck, floor to ceiling: {drawn} as the house is drawn; the height limit would leave {most}."
    )


def _rows(k: Kit, s: Steel, e: Envelope, n: Neck) -> list[tuple[str, ...]]:
    r, w, over = n.record, n.window, _over(e)
    return [
        k.row("Ball centre above ground, loaded vehicle", r.ball, where="level ground"),
        k.row("Neck underside above ball centre", r.chosen - r.ball, where="trailer level"),
        k.row("Neck underside above ball centre, as set", r.coupler_set, where="nearest pin hole"),
        k.row("Neck underside above ground", r.chosen, where="level ground"),
        k.row("Neck frame depth", s.neck_frame_depth),
        k.row("Neck deck top above ground", r.deck_top, where="level ground"),
        *(
            [
                (
                    "Headroom over the neck",
                    k.show(over.ceiling - over.floor, "m", "down"),
                    "floor to ceiling, house as drawn",
                )
            ]
            if over
            else []
        ),
        ("Headroom the height limit leaves", k.show(r.headroom, "m", "down"), "floor to ceiling, at most"),
        k.row("Step between floors", r.step_between_floors),
        k.row("Bed rail above ground, loaded vehicle", r.bed_rail, where="level ground"),
        ("Gap over the bed rail, level", k.show(r.gap_level, "m", "down"), ""),
        ("Gap over the bed rail, pitched", k.show(r.gap_pitched, "m", "down"), ""),
        ("Gap over the bed rail, rolled", k.show(r.gap_rolled, "m", "down"), ""),
        ("Window, lowest neck underside", k.show(w.low, "m", "up"), w.closed_by_low),
        ("Window, highest neck underside", k.show(w.high, "m", "down"), w.closed_by_high),
        k.row("Front face of neck, station", s.neck_front, where="datum A"),
        k.row("Ball centre, station", s.pin_station, where="datum A"),
        k.row("Riser: main-deck top to neck underside", s.neck_underside),
        k.row("Main-deck top above ground", s.deck_height_laden, where="level ground"),
    ]


def _sheet(k: Kit, s: Steel, e: Envelope, n: Neck, ratio: float) -> Views | None:
    room, heading = k.room, 14.0
    detail = _elevation(k, s, e, n, ratio)
    box = extent(detail)
    wide, high = room.x1 - room.x0 - CHART[0] - 70.0, room.y1 - room.y0 - heading
    if box.x1 - box.x0 > wide or box.y1 - box.y0 > high:
        return None
    x, y = room.x0 + (wide - (box.x1 - box.x0)) / 2.0, room.y0 + (high - (box.y1 - box.y0)) / 2.0
    left = at(detail, x - box.x0, y - box.y0)
    heads = title("neck", (x, y + box.y1 - box.y0 + 2.0), "NECK, LEFT ELEVATION", f"1:{ratio:g}", k.towed(s))
    return (*left, *heads, *_window(k, n, room))


def _elevation(k: Kit, s: Steel, e: Envelope, n: Neck, ratio: float) -> Views:
    v, r, deck = View(ratio), n.record, s.deck_height_laden
    marks: list[Mark] = [
        m for m in (*o.steel_elevation(s, v), *o.vehicle_elevation(s, e, v)) if _before(m, v.across(BEHIND))
    ]
    rails = [m for m in o.steel_elevation(s, v) if not _before(m, v.across(BEHIND))]
    marks += [_cut_off(m, v.across(BEHIND)) for m in rails if isinstance(m, Line) and m.points[0][0] < v.across(BEHIND)]
    marks += [
        v.run(
            "decking",
            "thin",
            ((BEHIND, deck), (0.0, deck), (0.0, deck - s.deck_thickness), (BEHIND, deck - s.deck_thickness)),
        )
    ]
    marks += hitch.side(s, v)
    over = _over(e)
    floor, ceiling, top = (over.floor + deck, over.ceiling + deck, over.roof + deck) if over else (r.deck_top,) * 3
    if over:
        marks += [
            v.run("neck.floor", "phantom", ((s.neck_front, floor), (0.0, floor))),
            v.run("neck.ceiling", "phantom", ((s.neck_front, ceiling), (BEHIND, ceiling))),
        ]
    if top > ceiling:
        marks.append(v.run("house", "phantom", ((s.neck_front, r.deck_top), (s.neck_front, top), (BEHIND, top))))
    box = extent(marks)
    marks.append(Line("ground", "ground", ((box.x0 - 3.0, 0.0), (v.across(BEHIND), 0.0))))
    marks.append(_broken(v, BEHIND, deck + s.rail_underside - 0.1, max(top, ceiling) + 0.1))
    under, nose, pin = deck + s.neck_underside, v.across(s.neck_front), v.across(s.pin_station)
    left = [
        k.span("dim.ball", 0.0, v.up(r.ball), r.ball, (box.x0, pin - 3.0)),
        k.span("dim.coupler", v.up(r.ball), v.up(r.chosen), r.chosen - r.ball, (pin - 3.0, nose)),
        k.span("dim.frame", v.up(r.chosen), v.up(r.chosen + s.neck_frame_depth), s.neck_frame_depth, (nose, nose)),
        k.span("dim.deck.top", 0.0, v.up(r.deck_top), r.deck_top, (box.x0, nose)),
    ]
    if over:
        room = Span(
            "dim.headroom",
            v.up(floor),
            v.up(ceiling),
            k.show(ceiling - floor, "m", "down"),
            ceiling - floor,
            nose,
            nose,
        )
        left.append(room)
    marks += band(left, "left", box.x0)
    edge = v.across(BEHIND)
    right = [
        k.span("dim.main", 0.0, v.up(deck), deck, (edge, edge)),
        k.span("dim.riser", v.up(deck), v.up(under), s.neck_underside, (edge, v.across(0.1))),
    ]
    marks += band(right, "right", edge + 2.0)
    below = [
        k.span("dim.pin", pin, v.across(0.0), -s.pin_station, (0.0, 0.0)),
        k.span("dim.nose", nose, v.across(0.0), -s.neck_front, (0.0, 0.0)),
    ]
    marks += band(below, "below", 0.0)
    return (*marks, *_gap(k, s, e, n, v, tuple(marks)))


def _before(m: Mark, x: float) -> bool:
    return extent((m,)).x1 <= x


def _cut_off(m: Line, x: float) -> Line:
    """A level line ended at the break."""
    return Line(m.id, m.pen, tuple((min(p[0], x), p[1]) for p in m.points))


def _broken(v: View, x: float, low: float, high: float) -> Line:
    m, j = (low + high) / 2.0, 3.0 * v.ratio / 1000.0
    return v.run(
        "break", "thin", ((x, low), (x, m - j), (x - j, m - j / 3.0), (x + j, m + j / 3.0), (x, m + j), (x, high))
    )


def _gap(k: Kit, s: Steel, e: Envelope, n: Neck, v: View, standing: Views) -> Views:
    """The gap between bed rail and neck, dimensioned inside the view where it is."""
    r = n.record
    end, cab = o.known(e.vehicle_ball_to_bed_end), o.known(e.vehicle_ball_to_cab)
    if end is None or cab is None:
        return ()
    x = v.across(s.neck_front) - 5.0
    if v.across(s.pin_station - cab) > x - 3.0:
        x = v.across(s.pin_station + 0.5 * end)
    low, high = v.up(r.bed_rail), v.up(r.chosen)
    words = Label(
        "gap.text",
        f"{k.show(r.gap_level, 'm', 'down')} gap",
        (x, (low + high) / 2.0),
        height=TEXT,
        value=r.gap_level,
        unit="m",
    )
    marks: list[Mark] = [
        Line("gap", "dimension", ((x, low + 5.0), (x, high - 5.0))),
        arrow("gap.low", (x, low), (x, low + 1.0)),
        arrow("gap.high", (x, high), (x, high - 1.0)),
    ]
    if low - high >= 7.0:
        marks = [
            Line("gap", "dimension", ((x, low), (x, high))),
            arrow("gap.low", (x, low), (x, high)),
            arrow("gap.high", (x, high), (x, low)),
        ]
    box = extent(standing)
    return (*marks, *place((words,), (*standing, *marks), box, Rect(box.x1 + 2.0, box.y0, box.x1 + 6.0, box.y1)))


def _window(k: Kit, n: Neck, room: Rect) -> Views:
    """Heights that close the window as lines on a scale of heights, the window hatched, the choice marked."""
    r, w = n.record, n.window
    bounds: list[tuple[str, float, Toward]] = [
        ("bed rail and gap", r.low_rail, "up"),
        ("coupler fully in", r.low_coupler, "up"),
        ("coupler fully out", r.high_coupler, "down"),
        ("height limit and headroom", r.high_limit, "down"),
    ]
    values = [value for _, value, _ in bounds] + [r.chosen]
    low, high = min(values), max(values)
    ratio = next((float(q) for q in scales(k.cover.units) if (high - low) * 1000.0 / q <= CHART[1]), 100.0)
    v = View(ratio, 1, room.x1 - CHART[0] - 62.0, 0.0)
    shift = (room.y0 + room.y1) / 2.0 - (v.up(low) + v.up(high)) / 2.0 - 4.0
    v = View(ratio, 1, v.x, shift)
    x0, x1 = v.x, v.x + 34.0
    top, bottom = v.up(high) - 8.0, v.up(low) + 8.0
    marks: list[Mark] = [Line("window.axis", "thin", ((x0, top), (x0, bottom)))]
    if w.high > w.low:
        box = Rect(x0, v.up(w.high), x1, v.up(w.low))
        marks += [
            *hatched("window.hatch", box),
            Line(
                "window.edge", "outline", ((box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1)), True
            ),
        ]
    bounds = [(k.say(words), value, toward) for words, value, toward in bounds]
    listed = sorted([*bounds, ("neck underside, chosen", r.chosen, "near")], key=lambda b: (-b[1], b[0]))
    places = spread([v.up(h) for _, h, _ in listed], 6.0, top - 10.0, bottom + 10.0)
    for (words, height, toward), y in zip(listed, places, strict=False):
        chosen = height == r.chosen and words.startswith("neck")
        level = v.up(height)
        marks.append(Line(f"window.{words}", "cut" if chosen else "thin", ((x0 - 3.0, level), (x1 + 2.0, level))))
        marks.append(Line(f"window.{words}.leader", "leader", ((x1 + 2.0, level), (x1 + 8.0, y), (x1 + 10.0, y))))
        text = f"{k.show(height, 'm', toward)}\u00a0 {words}"
        marks.append(Text(f"window.{words}.text", text, (x1 + 11.0, y + 1.5), bold=chosen, value=height, unit="m"))
    marks.append(_pointer((x0 - 3.0, v.up(r.chosen))))
    state = k.say("neck underside above ground at the ball, as towed")
    return (*marks, *title("window", (x0 - 3.0, bottom + 14.0), "WORKING WINDOW", f"1:{ratio:g}", state))


def _pointer(tip: tuple[float, float]) -> Area:
    x, y = tip
    return Area("window.choice", "ink", ((x, y), (x - 4.0, y - 2.0), (x - 4.0, y + 2.0)))
