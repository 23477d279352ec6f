"""G1 general arrangement: left elevation, plan, front and rear, third angle, as towed."""

import math

from generator.draw.dimensions import Span, band
from generator.draw.marks import SMALL, Line, Mark, Text, extent
from generator.draw.pages import Drawing
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import (
    Kit,
    Views,
    at,
    axle_rows,
    boxes_known,
    datum,
    dimensions,
    finite,
    foremost,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.sheets.legs import tongue
from generator.draw.sheets.points import both_sides, sign, supports
from generator.draw.text import width, wrap
from generator.draw.views import View, title
from generator.release.slices import Desk, Envelope, Steel

NUMBER, TITLE = "G1", "General arrangement"
GAP, OVER = 12.0, 6.0
"""Least room between views beside each other and above each other, mm."""
NAME_LINES = 3
"""Most lines for the name of a zone."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e = kit(desk), need(desk, Steel), need(desk, Envelope)
    steel_known(s)
    boxes_known(s)
    finite(
        (
            ("width of the house", e.width),
            ("front of the house", e.front),
            ("rear of the house", e.rear),
            *((f"zone {z.id}", v) for z in e.zones for v in (z.front, z.rear, z.floor, z.roof)),
            *((f"roof point {r.id}", r.laden) for r in e.roof),
        )
    )
    ratio, marks = largest(k, _overall(s, e), lambda r: _views(k, s, e, r))
    notes = (
        "Stations run aft from datum A, the front face of the main deck's front crossmember. Heights from "
        "level ground.",
        f"Heights as towed at {k.show(s.travel_mass, 'kg')}; bare trailer {k.show(s.bare_mass, 'kg')}, deck then "
        f"{k.show(s.deck_height_bare, 'm')} up.",
        "House and tow vehicle are outlines for reference only; neither is part of this order. Jacks are drawn up. "
        "Spare, step and tank bays: see the request.",
        "Preliminary sizing. The maker certifies ratings; welds and strength are for a licensed engineer.",
    )
    alt = (
        f"General arrangement at 1:{ratio:g}: plan above the left elevation, front view at its left, rear view at its "
        f"right. Main deck {k.show(s.deck_length, 'm')}, overall {k.show(_overall(s, e), 'm')}, highest point "
        f"{k.show(_top(s, e), 'm', 'up')} above ground as towed. All dimensions stand in the schedule."
    )
    return Drawing(
        NUMBER,
        TITLE,
        f"trailer with house outline, {len(s.axles)} axles",
        f"as towed, {k.show(s.travel_mass, 'kg')}",
        ratio,
        marks,
        notes,
        k.say(alt),
        (dimensions(_rows(k, s, e)),),
    )


def _front(s: Steel, e: Envelope) -> float:
    return min(foremost(s), e.front)


def _rear(s: Steel, e: Envelope) -> float:
    return max(s.deck_length, e.rear)


def _overall(s: Steel, e: Envelope) -> float:
    return _rear(s, e) - _front(s, e)


def _top(s: Steel, e: Envelope) -> float:
    return max((r.laden for r in e.roof), default=s.deck_height_laden + max((z.roof for z in e.zones), default=0.0))


def group(s: Steel) -> float:
    """Station of the middle of the axle group, m."""
    return sum(a.station for a in s.axles) / len(s.axles)


def _rows(k: Kit, s: Steel, e: Envelope) -> list[tuple[str, ...]]:
    deck = s.deck_height_laden
    limit = [("Height limit over the route", k.show(e.height_limit, "m", "down"), "see L2")]
    limit = limit if math.isfinite(e.height_limit) else []
    return [
        k.row("Overall length", _overall(s, e), where="foremost to rearmost point"),
        k.row("Main deck, length", s.deck_length, where="datum A to rear face"),
        k.row("Main deck, width", s.deck_width),
        k.row("House, width", e.width, where="trim included"),
        k.row("Ball centre, station", s.pin_station, where="ahead of datum A"),
        k.row("Axle group, station", group(s), where="datum A to middle of group"),
        *axle_rows(k, s),
        k.row("Ball centre above ground", s.ball_height, where="level ground"),
        *_ahead(k, s),
        k.row("Track, tyre centres", s.track),
        k.row("Deck top above ground, as towed", deck, where="level ground"),
        k.row("Deck top above ground, bare", s.deck_height_bare, where="level ground"),
        ("Highest point above ground, as towed", k.show(_top(s, e), "m", "up"), "level, no hitch error"),
        *limit,
    ]


def _ahead(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    """What stands ahead of datum A: sizes of the neck, or underside and angle of the tongue."""
    if s.has_neck:
        return [
            k.row("Neck deck, front face", s.neck_front, where="ahead of datum A"),
            k.row("Neck, width", s.neck_width),
            k.row("Neck underside above ground, as towed", s.deck_height_laden + s.neck_underside, where="at the ball"),
        ]
    under, angle = s.hitched.tongue_underside, s.hitched.tongue_angle
    rows = [k.row("Tongue, front end of the steel", min(p.x0 for p in tongue(s)), where="station")] if tongue(s) else []
    if math.isfinite(under):
        rows.append(k.row("Tongue underside above ground, as towed", s.deck_height_laden + under))
    return [*rows, k.row("Tongue leg to centre line", angle, "rad", "in plan")] if angle > 0.0 else rows


def _views(k: Kit, s: Steel, e: Envelope, ratio: float) -> Views | None:
    scale = f"1:{ratio:g}"
    elevation, plan = _elevation(k, s, e, ratio), _plan(s, e, ratio)
    front, rear = _across(k, s, e, ratio, True), _across(k, s, e, ratio, False)
    boxes = [extent(m) for m in (front, elevation, rear)]
    low, above = max(b.y1 for b in boxes), min(b.y0 for b in boxes)
    p, room = extent(plan), k.room
    middle = (min(p.x0, boxes[1].x0), max(p.x1, boxes[1].x1))
    wide = (boxes[0].x1 - boxes[0].x0) + (middle[1] - middle[0]) + (boxes[2].x1 - boxes[2].x0)
    heading = 13.0
    high = (p.y1 - p.y0) + heading + OVER + (low - above) + 2.0 + heading
    spare = room.x1 - room.x0 - wide - 2.0 * GAP
    if spare < 0.0 or high > room.y1 - room.y0:
        return None
    gap, rise = GAP + min(spare / 4.0, 14.0), min((room.y1 - room.y0 - high) / 3.0, 8.0)
    x = room.x0 + (room.x1 - room.x0 - wide - 2.0 * gap) / 2.0
    y_plan = room.y0 + rise - p.y0
    y_row = y_plan + p.y1 + heading + OVER + rise - above
    x_mid = x + (boxes[0].x1 - boxes[0].x0) + gap - middle[0]
    x_rear = x_mid + middle[1] + gap - boxes[2].x0
    y_title = y_row + low + 2.0
    marks: list[Mark] = []
    state = k.towed(s)
    for id, words, part, dx, dy, left, ty in (
        ("plan", "PLAN", plan, x_mid, y_plan, x_mid + p.x0, y_plan + p.y1 + 2.0),
        ("front", "FRONT", front, x - boxes[0].x0, y_row, x, y_title),
        ("elevation", "LEFT ELEVATION", elevation, x_mid, y_row, x_mid + boxes[1].x0, y_title),
        ("rear", "REAR", rear, x_rear, y_row, x_rear + boxes[2].x0, y_title),
    ):
        marks += at(part, dx, dy)
        marks += title(id, (left, ty), words, scale, state)
    return tuple(marks)


def _elevation(k: Kit, s: Steel, e: Envelope, ratio: float) -> Views:
    v = View(ratio)
    deck, top = s.deck_height_laden, _top(s, e)
    marks: list[Mark] = [
        *o.steel_elevation(s, v),
        *o.decking_elevation(s, v),
        *o.wheels_elevation(s, v),
        *hitch.side(s, v),
        *o.jacks_elevation(s, v),
        *o.boxes_elevation(s, v),
        *o.house_elevation(e, deck, v),
        *o.roof_points(e, deck, v),
        *o.vehicle_elevation(s, e, v),
    ]
    box = extent(marks)
    marks.append(Line("ground", "ground", ((box.x0 - 3.0, 0.0), (v.across(_rear(s, e)) + 6.0, 0.0))))
    x = {
        "nose": v.across(_front(s, e)),
        "ball": v.across(s.pin_station),
        "a": v.across(0.0),
        "group": v.across(group(s)),
        "deck": v.across(s.deck_length),
        "rear": v.across(_rear(s, e)),
    }
    under = v.up(deck + s.rail_underside)
    spans = [
        k.span("dim.ball", x["ball"], x["a"], -s.pin_station, (0.0, 0.0)),
        k.span("dim.group", x["a"], x["group"], group(s), (0.0, 0.0)),
        k.span("dim.deck", x["a"], x["deck"], s.deck_length, (0.0, 0.0)),
    ]
    marks += band(spans, "below", 0.0)
    # Above the roof: house and deck end so near each other that their lines would run together below.
    ends = [v.up(deck + z.roof) for z in sorted(e.zones, key=lambda z: z.front)] or [v.up(deck)]
    start = ends[0] if s.has_neck or e.front <= foremost(s) else v.up(s.ball_height) - 3.0
    marks += band(
        [k.span("dim.overall", x["nose"], x["rear"], _overall(s, e), (start, ends[-1]))], "above", v.up(top)
    )
    heights = [
        k.span("dim.height.deck", 0.0, v.up(deck), deck, (x["deck"] + 4.0, x["deck"])),
        Span("dim.height.top", 0.0, v.up(top), k.show(top, "m", "up"), top, x["rear"] + 4.0, x["rear"]),
    ]
    marks += band(heights, "right", box.x1)
    if not s.has_neck:
        ball = k.span("dim.height.ball", 0.0, v.up(s.ball_height), s.ball_height, (box.x0 - 3.0, x["ball"] - 3.0))
        marks += band([ball], "left", box.x0 - 3.0)
    marks += _zones(e, deck, v)
    marks.append(Line("datum.line", "centre", ((x["a"], under + 2.0), (x["a"], 2.0))))
    return tuple(marks)


def _zones(e: Envelope, deck: float, v: View) -> Views:
    """Names of the zones under their roofs, on as many lines as they need; turned where there is no room else."""
    marks: list[Mark] = []
    for z in e.zones:
        x, top, room = (v.across(z.front) + v.across(z.rear)) / 2.0, v.up(deck + z.roof), v.mm(z.rear - z.front) - 2.0
        lines = wrap(z.title, SMALL, max(room, 1.0), NAME_LINES)
        if all(width(line, SMALL) <= room for line in lines) and "…" not in "".join(lines):
            marks += [Text(f"zone-name.{z.id}.{n}", line, (x, top + 6.0 + 3.4 * n), SMALL, "middle")
                      for n, line in enumerate(lines)]
            continue
        lines = wrap(z.title, SMALL, v.mm(z.roof - z.floor) - 12.0, max(1, int(room / 3.4)))
        first, foot = x - 1.7 * (len(lines) - 1) + SMALL / 2.0, top + 4.0 + max(width(line, SMALL) for line in lines)
        if room > SMALL and "…" not in "".join(lines):
            marks += [Text(f"zone-name.{z.id}.{n}", line, (first + 3.4 * n, foot), SMALL, turned=True)
                      for n, line in enumerate(lines)]
    return tuple(marks)


def _plan(s: Steel, e: Envelope, ratio: float) -> Views:
    v = View(ratio)
    half = max([s.deck_width, s.neck_width, e.width] if s.has_neck else [s.deck_width, e.width]) / 2.0
    marks: list[Mark] = [
        *o.decks_plan(s, v),
        *o.wheels_plan(s, v, "hidden"),
        *o.boxes_plan(s, v),
        *o.house_plan(e, v),
        *hitch.plan(s, v),
        *(
            m
            for id, p, y in both_sides(supports(s), "plan")
            if p.kind == "jack"
            for m in sign(id, p.kind, v.p(p.station, y))
        ),
        v.run("centre", "centre", ((_front(s, e) - 0.2, 0.0), (_rear(s, e) + 0.2, 0.0))),
    ]
    marks += datum((v.across(0.0), v.up(half)), down=False)
    return tuple(marks)


def _across(k: Kit, s: Steel, e: Envelope, ratio: float, from_front: bool) -> Views:
    v = View(ratio, -1 if from_front else 1)
    deck = s.deck_height_laden
    key = "front" if from_front else "rear"
    wide = max(s.track / 2.0 + s.tyre_width / 2.0, e.width / 2.0, s.deck_width / 2.0)
    marks: list[Mark] = [
        *o.steel_across(s, v, from_front),
        *o.house_across(e, deck, v, from_front),
        v.run("centre", "centre", ((0.0, -0.05), (0.0, _top(s, e) + 0.1))),
    ]
    half = v.mm(e.width / 2.0)
    marks.append(Line("ground", "ground", ((-v.mm(wide) - 3.0, 0.0), (v.mm(wide) + 3.0, 0.0))))
    if from_front:
        name, across = ("neck", s.neck_width) if s.has_neck else ("deck", s.deck_width)
        wide = v.mm(across / 2.0)
        spans = [k.span(f"dim.{key}.{name}", -wide, wide, across, (0.0, 0.0))]
    else:
        track = v.mm(s.track / 2.0)
        spans = [
            k.span(f"dim.{key}.track", -track, track, s.track, (0.0, 0.0)),
            k.span(f"dim.{key}.house", -half, half, e.width, (0.0, 0.0)),
        ]
    return (*marks, *band(spans, "below", 0.0))
