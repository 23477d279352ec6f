"""F6 jacks, stands, lift, tie and anchor points: plan and elevation, loads and ratings in the schedule."""

from collections.abc import Sequence

from generator.draw.marks import Line, Mark, Rect, extent, rectangle
from generator.draw.ordinates import Station, ordinates
from generator.draw.pages import Drawing, margin, paper
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, finite, foremost, front_underside, kit, largest, need, steel_known
from generator.draw.sheets.legs import legs, middle
from generator.draw.sheets.points import SIGN, Support, both_sides, legend, sign, supports
from generator.draw.views import View, title
from generator.errors import RenderError
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F6", "Jacks, lift and tie points"
RISER = 0.5
"""A leg less than this ahead of datum A stands on the riser, not under the neck, m."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    listed = supports(s)
    if all(p.kind == "chain" for p in listed):
        raise RenderError("has nothing to show: no jack, stand or point is in the spec")
    finite([(f"{p.kind} {p.id}", v) for p in listed for v in (p.station, p.y)])
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _sheet(k, s, listed, r))
    notes = (
        f"Signs as the legend. {_sides(listed)} Safety chains: one anchor each side of the {k.say('ball')}.",
        "Lift and park only at these points, on level ground, wheels chocked, as the makers' manuals say. Nobody goes "
        "under a trailer that rests on a jack alone.",
        "Ratings are asked for; the makers of jacks, stands and lugs certify them.",
    )
    alt = (
        f"Plan and left elevation at 1:{ratio:g} with {len(listed)} kinds of points: "
        + "; ".join(
            f"{p.kind} {p.id} at {k.show(p.station, 'm')}, {k.show(abs(p.y), 'm')} off the centre line" for p in listed
        )
        + "."
    )
    return Drawing(NUMBER, TITLE, "stations, loads and ratings", k.towed(s), ratio, marks, notes, alt, _schedules(k, s))


def _schedules(k: Kit, s: Steel) -> tuple[Schedule, ...]:
    jacks = tuple(
        (
            j.id,
            j.title,
            str(j.legs),
            k.show(j.station, "m"),
            k.show(j.y, "m"),
            k.show(j.load_pair, "kg"),
            k.show(j.load_leg_worst, "kg"),
            k.show(j.rating_needed, "kg"),
            k.show(j.lift_rating, "kg"),
            k.show(j.static_rating, "kg"),
            k.show(j.stroke_needed, "m", "up"),
            k.show(j.stroke, "m", "down"),
        )
        for j in s.jacks
    )
    heads = (
        "Jack",
        "What",
        "Legs",
        "Station",
        "Off centre",
        "Load, all legs",
        "Load, worst leg",
        "Rating needed, a leg",
        "Lift rating, a leg",
        "Static rating, a leg",
        "Stroke needed",
        "Stroke",
    )
    points = tuple(
        (p.id, p.kind, k.show(p.station, "m"), k.show(abs(p.y), "m"), k.show(p.rating, "kg", "down"))
        for p in sorted(s.points, key=lambda p: (p.station, p.id))
    )
    stands = tuple(
        (p.id, "stand", k.show(p.station, "m"), k.show(abs(p.y), "m"), k.show(p.rating, "kg", "down"))
        for p in sorted(s.stands, key=lambda p: (p.station, p.id))
    )
    told = [n for n in range(len(heads)) if any(row[n] != k.show(None, "m") for row in jacks)]
    tables = [_columns(Schedule("Jacks", heads, (False, False, *(True,) * 10), jacks), told)] if jacks else []
    if stands or points:
        tables.append(
            Schedule(
                "Stands and points, each side",
                ("Point", "Kind", "Station", "Off centre", "Rating of one"),
                (False, False, True, True, True),
                stands + points,
            )
        )
    return tuple(tables)


def _columns(table: Schedule, kept: Sequence[int]) -> Schedule:
    """The table without the columns in which this reader is told nothing."""
    return Schedule(table.title, tuple(table.head[n] for n in kept), tuple(table.right[n] for n in kept),
                    tuple(tuple(row[n] for n in kept) for row in table.rows))


def _sheet(k: Kit, s: Steel, listed: tuple[Support, ...], ratio: float) -> Views | None:
    room, heading, over = k.room, 13.0, 5.0
    plan, elevation = _plan(k, s, listed, ratio), _elevation(s, listed, ratio)
    p, e = extent(plan), extent(elevation)
    left, right = min(p.x0, e.x0), max(p.x1, e.x1)
    low = View(ratio).mm((max(s.deck_width, s.neck_width) if s.has_neck else s.deck_width) / 2.0)
    high = (low - p.y0) + (e.y1 - e.y0) + 2.0 * heading + over + 2.0
    if right - left + 20.0 > room.x1 - room.x0 or high > room.y1 - room.y0:
        return None
    spare = (room.y1 - room.y0 - high) / 3.0
    x = (room.x0 + room.x1 - left - right) / 2.0
    y1 = room.y0 + spare - p.y0
    y2 = y1 + low + heading + over + spare - e.y0
    marks: list[Mark] = [*at(plan, x, y1), *at(elevation, x, y2)]
    marks += title("plan", (x + left, y1 + low + 4.0), "PLAN", f"1:{ratio:g}", k.towed(s))
    marks += title(
        "elevation",
        (x + left, y2 + e.y1 + 4.0),
        "LEFT ELEVATION",
        f"1:{ratio:g}",
        "jacks and stands down, frame as towed",
    )
    labels = _labels(s, listed, View(ratio, 1, x, y2))
    field = Rect(x + left - 12.0, y1 + low + 3.0, x + right + 12.0, y2 + e.y1 + 4.0)
    signs = legend((p.kind for p in listed), margin(paper(k.cover)))
    return (*marks, *place(labels, marks, field, None), *signs)


def _plan(k: Kit, s: Steel, listed: tuple[Support, ...], ratio: float) -> Views:
    v = View(ratio)
    half, rails, nose = s.deck_width / 2.0, s.rails_outside / 2.0, foremost(s)
    marks: list[Mark] = [
        *o.decks_plan(s, v),
        v.run("rail.left", "hidden", ((0.0, -rails), (s.deck_length, -rails))),
        v.run("rail.right", "hidden", ((0.0, rails), (s.deck_length, rails))),
        *o.wheels_plan(s, v, "phantom"),
        *hitch.plan(s, v),
        v.run("centre", "centre", ((nose - 0.15, 0.0), (s.deck_length + 0.15, 0.0))),
    ]
    for id, p, y in both_sides(listed, "plan"):
        marks += sign(id, p.kind, v.p(p.station, y))
    edge = extent(marks).y0
    stations = [Station("datum", 0.0, v.up(half), "0\u00a0 datum A", 0.0)]
    stations += [
        Station(
            f"{p.kind}.{p.id}",
            v.across(p.station),
            v.up(p.y if p.y or p.station > 0.0 else _half_at(s, p.station)) - SIGN,
            f"{k.show(p.station, 'm')}\u00a0 {p.name}",
            p.station,
        )
        for p in listed
    ]
    marks += ordinates("points", stations, edge, False, v.across(nose) - 6.0, v.across(s.deck_length) + 6.0)
    return tuple(marks)


def _elevation(s: Steel, listed: tuple[Support, ...], ratio: float) -> Views:
    v = View(ratio)
    marks: list[Mark] = [*o.frame_elevation(s, v), *o.wheels_elevation(s, v), *hitch.side(s, v)]
    for p in listed:
        x, under = v.across(p.station), v.up(_underside(s, p.station))
        if p.kind == "jack":
            marks += [
                rectangle(f"jack.{p.id}.leg", "outline", x - 1.0, under, x + 1.0, -1.6),
                rectangle(f"jack.{p.id}.foot", "outline", x - 2.6, -1.6, x + 2.6, -0.5),
            ]
        elif p.kind == "stand":
            marks.append(
                Line(
                    f"stand.{p.id}.leg",
                    "thin",
                    ((x - 2.6, -0.5), (x - 0.8, under), (x + 0.8, under), (x + 2.6, -0.5)),
                    True,
                )
            )
        else:
            marks += sign(f"{p.kind}.{p.id}.side", p.kind, v.p(p.station, _middle(s, p.station)))
    marks.append(Line("ground", "ground", ((v.across(foremost(s)) - 6.0, 0.0), (v.across(s.deck_length) + 6.0, 0.0))))
    return tuple(marks)


def _middle(s: Steel, station: float) -> float:
    """Height above ground of the middle of the rails, or of the neck ahead of the riser, m."""
    if not s.has_neck and station < 0.0:
        top = max((p.z1 for p in legs(s)), default=0.0)
        return s.deck_height_laden + (front_underside(s) + top) / 2.0
    neck = s.neck_underside + s.neck_frame_depth / 2.0
    return s.deck_height_laden + (neck if station < -RISER else s.rail_underside / 2.0)


def _underside(s: Steel, station: float) -> float:
    """Height above ground of what a leg at a station stands under, m."""
    is_ahead = station < (-RISER if s.has_neck else 0.0)
    return s.deck_height_laden + (front_underside(s) if is_ahead else s.rail_underside)


def _half_at(s: Steel, station: float) -> float:
    """How far the steel at a station ahead of datum A reaches from the centre line, m."""
    if s.has_neck:
        return s.neck_width / 2.0
    return max((y for p in legs(s) if p.x0 <= station <= p.x1 for y in (middle(p, station),)), default=0.0)


def _sides(listed: Sequence[Support]) -> str:
    single = any(p.kind != "chain" and not p.y for p in listed)
    return "Points off the centre line are in pairs." if single else "All in pairs, left and right alike."


def _labels(s: Steel, listed: tuple[Support, ...], v: View) -> list[Label]:
    groups: dict[tuple[bool, float], list[Support]] = {}
    for p in listed:
        groups.setdefault((p.kind in ("jack", "stand"), round(p.station, 4)), []).append(p)
    labels = []
    for (standing, station), same in sorted(groups.items()):
        z = _underside(s, station) * 0.5 if standing else _middle(s, station)
        labels.append(
            Label(
                f"{same[0].kind}.{same[0].id}.label",
                ", ".join(p.name for p in same),
                v.p(station, z),
                0 if standing else 1,
                3.0,
            )
        )
    return labels
