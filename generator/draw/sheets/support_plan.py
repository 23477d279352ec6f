"""G2 load and support plan: where the load comes down on the road and standing, with values per load state."""

import math
from collections.abc import Sequence

from generator.draw.marks import Area, Circle, Line, Mark, Point, Rect, extent
from generator.draw.ordinates import Station, ordinates
from generator.draw.pages import Drawing, margin, paper
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, finite, foremost, kit, largest, need, steel_known
from generator.draw.sheets.points import SIGN, Support, both_sides, legend, sign, supports
from generator.draw.sheets.tabular import Size, lettered, measured
from generator.draw.views import View, title
from generator.release.slices import Desk, Envelope, Numbers, RoadLoads, Steel

NUMBER, TITLE, NEEDS = "G2", "Load and support plan", RoadLoads
KINDS = ("jack", "stand", "tie")
"""Points that carry or hold the standing trailer."""
HEADING, OVER, APART, TITLED, CENTRE = 13.0, 6.0, 8.0, 120.0, 2.0
"""Room of a view title, below and beside plan and tables, width of the title, radius of the sign of a centre of mass,
mm."""
DASH = "–"


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, loads = kit(desk), need(desk, Steel), need(desk, RoadLoads)
    steel_known(s)
    e, numbers = desk.get(Envelope), desk.get(Numbers)
    listed = tuple(p for p in supports(s) if p.kind in KINDS)
    finite([(f"{p.kind} {p.id}", v) for p in listed for v in (p.station, p.y)])
    tables = tuple(_tables(k, s, loads, numbers if isinstance(numbers, Numbers) else Numbers((), (), ())))
    house = e if isinstance(e, Envelope) else None
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _sheet(k, s, loads, house, listed, tables, r))
    notes = (
        "H is the hitch, A1 the front axle; L left, R right. Loads are those of a scale on level ground, nominal; "
        "P5 and P95 stand in the load summary. The black and white sign is the centre of mass, loaded for the road.",
        f"{_pads(s)}Stands, pads, ties and soil are for the owner of the site; their makers and local code decide.",
        "Nobody goes under a trailer that rests on a jack alone. Chock the wheels before the tow vehicle leaves.",
    )
    towed = next((r for r in loads.states if r.id == "travel"), None)
    alt = (
        f"Plan at 1:{ratio:g}: hitch, {len(s.axles)} axles, {len(listed)} kinds of jacks, stands and ties at their "
        f"stations. As towed {k.show(s.travel_mass, 'kg')}, on the hitch "
        f"{k.show(towed.hitch if towed else None, 'kg')}. All loads stand in the schedules."
    )
    return Drawing(NUMBER, TITLE, "loads per state, level", "as in the tables", ratio, marks, notes, alt,
                   tuple(t for _, t in tables))


def _pads(s: Steel) -> str:
    known = any(math.isfinite(p) for p in (*s.jack_pads, *(q.pad for q in s.stands)))
    return "Pads are drawn at their size. " if known else ""


def _tables(k: Kit, s: Steel, loads: RoadLoads, numbers: Numbers) -> list[tuple[str, Schedule]]:
    found = {q.id: q.nominal for q in numbers.quantities}
    tables = [("towed", _towed(k, s, loads)), ("standing", _standing(k, s, found))]
    return [(id, t) for id, t in tables if t.rows]


def _towed(k: Kit, s: Steel, loads: RoadLoads) -> Schedule:
    """Load points down, towed states across."""
    states = [r for r in loads.states if r.hitch is not None]
    rows = [
        ("Mass", *(k.show(r.mass, "kg") for r in states)),
        ("Centre of mass, station", *(k.show(r.x, "m") for r in states)),
        ("right of the centre line", *(k.show(r.y, "m") for r in states)),
        ("H, hitch", *(k.show(r.hitch, "kg") for r in states)),
    ]
    for n, a in enumerate(s.axles):
        rows += [(f"A{a.number} {side}, {words}", *(k.show(getattr(r, words)[n], "kg") for r in states))
                 for side, words in (("L", "left"), ("R", "right"))]
    head = ("Load at", *(r.title for r in states))
    return Schedule("On the road, hitched and level", head, (False, *(True,) * len(states)),
                    tuple(rows) if states else ())


def _standing(k: Kit, s: Steel, found: dict[str, float]) -> Schedule:
    def of(id: str, unit: str = "kg") -> str:
        return k.show(found[id], unit, "up") if math.isfinite(found.get(id, math.nan)) else DASH

    def one(key: str, kind: str, id: str, rating: float, lifted: float, pad: float) -> tuple[str, ...]:
        return (
            key, k.show(rating, "kg", "down"), k.show(lifted, "kg", "up") if math.isfinite(lifted) else DASH,
            of(f"parked.{kind}.{id}.level"), of(f"parked.{kind}.{id}.worst"),
            k.show(pad, "m", "down") if math.isfinite(pad) else DASH, of(f"pad.{kind}.{id}.side_wind", "m"),
        )

    pads = dict(zip((j.id for j in s.jacks), s.jack_pads, strict=False))
    rows = [
        one(f"{j.id} jack, leg", "jack", j.id, j.static_rating, j.load_leg_worst, pads.get(j.id, math.nan))
        for j in s.jacks
    ]
    rows += [one(f"{p.id} stand", "stand", p.id, p.rating, math.nan, p.pad) for p in s.stands]
    if math.isfinite(found.get("parked.tie.tension", math.nan)):
        least = min((p.rating for p in s.points if p.kind == "tie"), default=math.nan)
        rows.append(("tie, design wind", k.show(least, "kg", "down"), DASH, DASH, of("parked.tie.tension"), DASH,
                     DASH))
    heads = ("Support", "Rating of one", "Lifting, worst", "Parked, level", "Parked, worst", "Pad, side",
             "Pad to order")
    keep = [c for c in range(len(heads)) if c < 2 or any(r[c] != DASH for r in rows)]
    return Schedule("Standing, one leg, stand or tie", tuple(heads[c] for c in keep),
                    (False, *(True,) * (len(keep) - 1)), tuple(tuple(r[c] for c in keep) for r in rows))


def _sheet(k: Kit, s: Steel, loads: RoadLoads, e: Envelope | None, listed: tuple[Support, ...],
           tables: Sequence[tuple[str, Schedule]], ratio: float) -> Views | None:
    room = k.room
    plan, v = _plan(k, s, loads, e, listed, ratio), View(ratio)
    p = extent(plan)
    wide, high = max(p.x1 - p.x0, TITLED), p.y1 - p.y0 + HEADING
    corners = _corners([t for _, t in tables], wide, high, room)
    if corners is None:
        return None
    used = max(high, *(y + measured(t).height for (_, y), (_, t) in zip(corners, tables, strict=True)), 0.0)
    spare = max(room.y1 - room.y0 - used, 0.0) / 3.0
    x, y = room.x0 - p.x0, room.y0 + spare - p.y0
    marks: list[Mark] = [*at(plan, x, y)]
    marks += title("plan", (x + p.x0, y + p.y1 + 3.0), "PLAN OF LOADS AND SUPPORTS", f"1:{ratio:g}", "")
    for (left, top), (id, t) in zip(corners, tables, strict=True):
        marks += lettered(id, t, (room.x0 + left, room.y0 + spare + top))
    field = Rect(x + p.x0 - 2.0, y + v.up(_half(s, e)) - 2.0, x + p.x1 + 2.0, y + p.y1 + 2.0)
    marks += place(_labels(s, View(ratio, 1, x, y)), marks, field, None)
    return (*marks, *legend((p.kind for p in listed), margin(paper(k.cover))))


def _corners(tables: Sequence[Schedule], wide: float, high: float, room: Rect) -> list[Point] | None:
    """Upper left corners of the tables from that of the room: right of a plan this big, the last ones below it."""
    sizes, left = [measured(t) for t in tables], wide + APART
    across, down = room.x1 - room.x0, room.y1 - room.y0
    for beside in range(len(sizes), -1, -1):
        x = [left] * beside + [0.0] * (len(sizes) - beside)
        y = [*_tops(sizes[:beside], 0.0), *_tops(sizes[beside:], high + OVER)]
        ends = [(a + t.width, b + t.height) for a, b, t in zip(x, y, sizes, strict=True)]
        if wide <= across and high <= down and all(a <= across and b <= down for a, b in ends):
            return list(zip(x, y, strict=True))
    return None


def _tops(sizes: Sequence[Size], start: float) -> list[float]:
    return [start + sum(t.height + OVER for t in sizes[:n]) for n in range(len(sizes))]


def _half(s: Steel, e: Envelope | None) -> float:
    return max([s.deck_width, e.width if e else 0.0, s.track + s.tyre_width]) / 2.0


def _plan(k: Kit, s: Steel, loads: RoadLoads, e: Envelope | None, listed: Sequence[Support], ratio: float) -> Views:
    v, nose = View(ratio), foremost(s)
    marks: list[Mark] = [
        *o.decks_plan(s, v),
        *o.wheels_plan(s, v, "outline"),
        *(o.house_plan(e, v) if e is not None else ()),
        *hitch.plan(s, v),
        v.run("centre", "centre", ((nose - 0.2, 0.0), (s.deck_length + 0.2, 0.0))),
    ]
    for id, p, y in both_sides(listed, "plan"):
        marks += sign(id, p.kind, v.p(p.station, y))
    marks += _padded(s, v)
    towed, stood = next((r for r in loads.states if r.id == "travel"), None), []
    if towed is not None and math.isfinite(towed.x + towed.y):
        marks += _centre(v.p(towed.x, towed.y))
        stood = [_station(k, v, "mass", towed.x, 0.0, "centre of mass")]
    edge = extent(marks).y0
    stations = [*stood, Station("datum", 0.0, v.up(_half(s, e)), "0\u00a0 datum A", 0.0)]
    stations.append(_station(k, v, "hitch", s.pin_station, 0.0, "H"))
    stations += [_station(k, v, f"axle.{a.number}", a.station, _half(s, e), f"A{a.number}") for a in s.axles]
    stations += [_station(k, v, f"{p.kind}.{p.id}", p.station, p.y, p.name) for p in listed]
    return (*marks, *ordinates("load", stations, edge, False, v.across(nose) - 6.0, v.across(s.deck_length) + 6.0))


def _station(k: Kit, v: View, id: str, x: float, y: float, words: str) -> Station:
    return Station(id, v.across(x), v.up(y) - SIGN, f"{k.show(x, 'm')}\u00a0 {words}", x)


def _padded(s: Steel, v: View) -> Views:
    pads = dict(zip((j.id for j in s.jacks), s.jack_pads, strict=False))
    squares = [(f"pad.jack.{j.id}", j.station, abs(j.y), pads.get(j.id, math.nan)) for j in s.jacks]
    squares += [(f"pad.stand.{p.id}", p.station, abs(p.y), p.pad) for p in s.stands]
    return tuple(
        v.box(f"{id}.{side}", "thin", x - w / 2.0, side * y - w / 2.0, x + w / 2.0, side * y + w / 2.0)
        for id, x, y, w in squares if math.isfinite(x + y + w) for side in ((-1, 1) if y else (1,))
    )


def _centre(c: Point) -> Views:
    """The sign of a centre of mass: a circle, two quarters of it black."""
    turn = [math.pi / 2.0 * i / 6.0 for i in range(7)]
    quarters = tuple(
        Area(f"mass.{n}", "ink", (c, *((c[0] + CENTRE * math.cos(t + n * math.pi),
                                        c[1] + CENTRE * math.sin(t + n * math.pi)) for t in turn)))
        for n in (0, 1)
    )
    return (Circle("mass", "thin", c, CENTRE), *quarters,
            Line("mass.h", "thin", ((c[0] - CENTRE - 1.5, c[1]), (c[0] + CENTRE + 1.5, c[1]))),
            Line("mass.v", "thin", ((c[0], c[1] - CENTRE - 1.5), (c[0], c[1] + CENTRE + 1.5))))


def _labels(s: Steel, v: View) -> list[Label]:
    """Names of hitch and wheels, right above, left below; jacks, stands and ties have theirs at their stations."""
    half, wide = s.track / 2.0, s.tyre_width / 2.0
    labels = [Label("name.hitch", "H", v.p(s.pin_station, 0.0), 0)]
    for a in s.axles:
        labels.append(Label(f"name.{a.number}.R", f"A{a.number} R", v.p(a.station, half - wide), 1))
        labels.append(Label(f"name.{a.number}.L", f"A{a.number} L", v.p(a.station, wide - half), 1))
    return labels
