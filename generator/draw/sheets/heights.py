"""L2 height chains: laden and at the highest, step by step from the ground against the limit."""

import math
from dataclasses import replace

from generator.calc.findings import Chain
from generator.draw.dimensions import Span, band
from generator.draw.marks import TEXT, Line, Mark, Rect, Text, arrow, extent
from generator.draw.ordinates import spread
from generator.draw.pages import Drawing
from generator.draw.sheet import Schedule
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, finite, kit, largest, need, steel_known
from generator.draw.text import fit, width, wrap
from generator.draw.views import Solid, View, title
from generator.errors import RenderError
from generator.release.slices import Desk, Envelope, Steel

NUMBER, TITLE = "L2", "Height chains"
LINES = 3
"""Most lines for the name of a step."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e = kit(desk), need(desk, Steel), need(desk, Envelope)
    steel_known(s)
    chains = tuple(c for c in e.chains if c.id.startswith("height"))[:2]
    if not chains:
        raise RenderError("cannot be drawn without a height chain")
    finite(
        [
            ("width of the house", e.width),
            *((f"{c.title}: {t.title}", t.value) for c in chains for t in c.steps),
            *((c.title, c.total) for c in chains),
        ]
    )
    ratio, marks = largest(k, max(c.total for c in chains), lambda r: _sheet(k, s, e, chains, r))
    limit = next((c.limit for c in chains if c.limit is not None), None)
    notes = (
        "Heights from level ground; the right half is drawn, the house as a box up to its highest point. Each step is "
        "rounded once; the total once, up, from the exact sum, so that the printed steps may add up to a little less "
        "or more. Limits and reserves are rounded down.",
        f"Limit: the least height of the regions of the route, {k.show(limit, 'm', 'down')}; confirm each with "
        "its authority."
        if limit is not None
        else "No height limit is known for this route: ask each authority.",
        "Measure the finished house at its highest point, lightest load, highest hitch, before it is moved.",
    )
    said = " ".join(
        f"{c.title}: {k.show(c.total, 'm', 'up')}"
        + (f", {k.show(c.limit - c.total, 'm', 'down')} under the limit." if c.limit is not None else ".")
        for c in chains
    )
    return Drawing(
        NUMBER,
        TITLE,
        "ground to highest point",
        "each chain as named",
        ratio,
        marks,
        notes,
        f"Height chains at 1:{ratio:g}. {said}",
        (*(_schedule(k, c) for c in chains), _roof(k, e)),
    )


def _schedule(k: Kit, c: Chain) -> Schedule:
    rows = [(t.title, k.show(t.value, "m"), t.source) for t in c.steps]
    rows.append(("Total above ground", k.show(c.total, "m", "up"), "rounded up"))
    if c.limit is not None:
        rows += [
            ("Limit", k.show(c.limit, "m", "down"), "least of the route"),
            ("Reserve", k.show(c.limit - c.total, "m", "down"), "rounded down"),
        ]
    return Schedule(c.title, ("Step", "Value", "Source"), (False, True, False), tuple(rows))


def _roof(k: Kit, e: Envelope) -> Schedule:
    rows = tuple(
        (
            r.title,
            k.show(r.station, "m"),
            k.show(r.zeta, "m"),
            k.show(r.laden, "m", "up"),
            k.show(r.highest, "m", "up"),
            r.highest_state,
        )
        for r in e.roof
    )
    return Schedule(
        "Roof points",
        ("Point", "Station", "Above deck", "Laden, level", "Highest", "In state"),
        (False, True, True, True, True, False),
        rows,
    )


def _sheet(k: Kit, s: Steel, e: Envelope, chains: tuple[Chain, ...], ratio: float) -> Views | None:
    room, heading = k.room, 14.0
    each = (room.x1 - room.x0) / len(chains)
    panels = [_panel(k, s, e, c, ratio, i, each) for i, c in enumerate(chains)]
    boxes = [extent(p) for p in panels]
    top, bottom = min(b.y0 for b in boxes), max(b.y1 for b in boxes)
    if max(b.x1 - b.x0 for b in boxes) > each - 6.0 or bottom - top + heading > room.y1 - room.y0:
        return None
    y = room.y0 + (room.y1 - room.y0 - heading - (bottom - top)) / 2.0 - top
    marks: list[Mark] = []
    for i, (panel, b, c) in enumerate(zip(panels, boxes, chains, strict=False)):
        x = room.x0 + i * each + (each - (b.x1 - b.x0)) / 2.0 - b.x0
        marks += at(panel, x, y)
        name = fit(c.title.upper(), 5.0, each - 40.0, True)
        state = f"load state: {c.state[:1].lower()}{c.state[1:]}"
        marks += title(f"chain.{i}", (x + b.x0, y + bottom + 3.0), name, f"1:{ratio:g}", state)
    return tuple(marks)


def _levels(c: Chain) -> list[float]:
    out = [0.0]
    for t in c.steps:
        out.append(out[-1] + t.value)
    return out


def _panel(k: Kit, s: Steel, e: Envelope, c: Chain, ratio: float, n: int, each: float) -> Views:
    """Right half of the rear view as an outline, the ladder of steps, their names, total and reserve."""
    v = View(ratio)
    levels = _levels(c)
    deck = next(
        (z for z, t in zip(levels, c.steps, strict=False) if t.title.lower().startswith("deck top")),
        s.deck_height_laden,
    )
    half = v.mm(e.width / 2.0)
    body = v.mm(max(s.track / 2.0 + s.tyre_width / 2.0, e.width / 2.0))
    radius = levels[1] if c.steps[0].title.lower().startswith("tyre radius") else s.tyre_radius_laden
    top = radius + s.tyre_diameter / 2.0
    marks: list[Mark] = [
        *_steel(replace(s, deck_height_laden=deck), top, v),
        *_wheel(s, v, radius, deck),
        v.run("deck", "thin", ((0.0, deck), (s.deck_width / 2.0, deck), (s.deck_width / 2.0, deck - s.deck_thickness))),
        v.run("house", "phantom", ((0.0, c.total), (e.width / 2.0, c.total), (e.width / 2.0, deck))),
        v.run("centre", "centre", ((0.0, -0.1), (0.0, c.total + 0.15))),
    ]
    ladder = body + 14.0
    marks.append(Line("ground", "ground", ((-4.0, 0.0), (ladder + 12.0, 0.0))))
    for i, (a, b, _t) in enumerate(zip(levels, levels[1:], c.steps, strict=False)):
        marks += _rung(f"{n}.{i}", v, ladder + 5.0 * (i % 2), a, b)
        if i < len(c.steps) - 1:
            marks.append(Line(f"{n}.level.{i}", "dimension", ((half + 1.5, v.up(b)), (ladder + 8.0, v.up(b)))))
    marks.append(
        Line(f"{n}.total.level", "dimension", ((half + 1.5, v.up(levels[-1])), (ladder + 8.0, v.up(levels[-1]))))
    )
    marks += _names(k, c, v, levels, ladder, n, each - ladder - 72.0)
    if c.limit is not None:
        marks += _rung(f"{n}.reserve", v, ladder + 5.0 * (len(c.steps) % 2), c.total, c.limit)
        y = v.up(c.limit)
        marks.append(Line(f"{n}.limit", "cut", ((-4.0, y), (ladder + 12.0, y))))
        words = f"limit {k.show(c.limit, 'm', 'down')}"
        within = c.limit < c.total and width(words, TEXT) < half - 4.0
        base = y + 1.8 + TEXT if within else min(y, v.up(c.total)) - 1.8
        marks.append(Text(f"{n}.limit.text", words, (2.0, base), value=c.limit, unit="m"))
    total = Span(f"{n}.total", 0.0, v.up(c.total), k.show(c.total, "m", "up"), c.total, -4.0, -1.0)
    return (*marks, *band((total,), "left", -4.0))


def _steel(s: Steel, top: float, v: View) -> Views:
    """The right half of the steel at the wheels, seen from behind, with the tyre, which stands `top` high (m)."""
    tyre = Rect(s.track / 2.0 - s.tyre_width / 2.0, 0.0, s.track / 2.0 + s.tyre_width / 2.0, top)
    solids = [f for _, f in o.at_wheels(s, right_only=True)]
    lines = o.visible([*solids, Solid("tyre", tyre, s.axles[-1].station + 1e-3)], v)
    return tuple(m for m in lines if abs(m.points[0][0]) + abs(m.points[1][0]) > 1e-6)


def _wheel(s: Steel, v: View, radius: float, deck: float) -> Views:
    """Centre lines of spindle and of torsion tube or spring eyes: where steps of the chain begin and end."""
    track, wide, held, tube = s.track / 2.0, s.tyre_width, s.bracket_spacing / 2.0, deck - s.tube_to_deck
    marks = [v.run("spindle", "centre", ((track - wide, radius), (track + wide * 0.7, radius)))]
    if math.isfinite(held + tube):
        marks.append(v.run("tube", "centre", ((held - wide * 0.5, tube), (held + wide * 0.5, tube))))
    return tuple(marks)


def _rung(id: str, v: View, x: float, a: float, b: float) -> Views:
    """One step of the ladder; short ones have their arrows outside."""
    ya, yb = v.up(a), v.up(b)
    low, high = min(ya, yb), max(ya, yb)
    if high - low >= 7.0:
        return (
            Line(f"{id}.rung", "dimension", ((x, ya), (x, yb))),
            arrow(f"{id}.rung.a", (x, ya), (x, yb)),
            arrow(f"{id}.rung.b", (x, yb), (x, ya)),
        )
    return (
        Line(f"{id}.rung", "dimension", ((x, low - 4.0), (x, high + 4.0))),
        arrow(f"{id}.rung.a", (x, low), (x, low - 1.0)),
        arrow(f"{id}.rung.b", (x, high), (x, high + 1.0)),
    )


def _names(k: Kit, c: Chain, v: View, levels: list[float], ladder: float, n: int, room: float) -> Views:
    """What each step is, beside the ladder in the order of height; at the top the reserve."""
    rows = [
        (v.up((a + b) / 2.0), k.show(t.value, "m"), t.title, t.value, False, 5.0 * (i % 2))
        for i, (a, b, t) in enumerate(zip(levels, levels[1:], c.steps, strict=False))
    ]
    if c.limit is not None:
        reserve = c.limit - c.total
        words = "under the limit" if reserve >= 0.0 else "over the limit"
        rows.append(
            (
                v.up((c.limit + c.total) / 2.0),
                k.show(abs(reserve), "m", "down" if reserve >= 0.0 else "up"),
                words,
                abs(reserve),
                True,
                5.0 * (len(c.steps) % 2),
            )
        )
    rows.sort(key=lambda r: r[0])
    start = ladder + 18.0 + max(width(r[1], TEXT, r[4]) for r in rows) + 3.0
    said = [wrap(r[2], TEXT, room, LINES) for r in rows]
    places = spread(
        [r[0] for r in rows], 6.2 + 4.4 * (max(map(len, said)) - 1), v.up(max(levels)) - 30.0, -3.0
    )
    marks: list[Mark] = []
    for i, ((y, value, _, number, bold, off), place) in enumerate(zip(rows, places, strict=False)):
        x = ladder + 14.0
        marks.append(Line(f"{n}.name.{i}.leader", "leader", ((ladder + off, y), (x, place), (x + 3.0, place))))
        marks.append(
            Text(f"{n}.name.{i}.value", value, (x + 4.0, place + TEXT / 2.0), bold=bold, value=number, unit="m")
        )
        for j, line in enumerate(said[i]):
            marks.append(Text(f"{n}.name.{i}.{j}", line, (start, place + TEXT / 2.0 + 4.6 * j), bold=bold))
    return tuple(marks)
