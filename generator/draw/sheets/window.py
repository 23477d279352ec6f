"""L3 axle placement window: hitch share, hitch load, heaviest axle and probability against the station of the group."""

import math
from collections.abc import Sequence

from generator.calc.findings import Sweep
from generator.draw.marks import TEXT, Line, Mark, Rect, Text, hatched
from generator.draw.marks import TITLE as HEAD
from generator.draw.ordinates import spread
from generator.draw.pages import Drawing
from generator.draw.sheet import Schedule
from generator.draw.sheets.charts import Chart, Tag, axis, curve, scaled, step_of, tags
from generator.draw.sheets.kit import Kit, Views, dimensions, finite, kit, need
from generator.draw.text import width
from generator.draw.views import View, scales, title
from generator.errors import RenderError
from generator.release.slices import Desk, Placement

NUMBER, TITLE = "L3", "Axle placement window"
ROWS = 10
"""Rows of the table of stations in and beside the window."""
NAMES, LIMITS, BETWEEN = 66.0, 52.0, 7.0
"""Column of names left of the charts, of limits right of them, and room between two charts, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, p = kit(desk), need(desk, Placement)
    if len(p.sweep.station) < 2:
        raise RenderError("cannot be drawn without a sweep of stations")
    s, w = p.sweep, p.window
    finite(
        (
            ("hitch share", sum(s.share)),
            ("hitch load", sum(s.hitch)),
            ("axle load", sum(s.axle)),
            ("probability", sum(s.ok)),
            ("chosen station", w.chosen),
            ("limit of the axles", s.axle_limit),
            ("limits of the share", s.share_low + s.share_high),
        )
    )
    marks, ratio = _sheet(k, p)
    notes = (
        "Station of the middle of the axle group, from datum A. All towed load states must keep every limit.",
        (
            f"Window {k.show(w.low, 'm', 'up')} to {k.show(w.high, 'm', 'down')}, closed ahead by {w.closed_by_low}, "
            f"behind by {w.closed_by_high}."
            if w.high >= w.low
            else f"No station keeps every limit: {w.closed_by_low} asks for {k.show(w.low, 'm')} at least, "
            f"{w.closed_by_high} for {k.show(w.high, 'm')} at most."
        ),
        *_reserve(k, p),
        f"The structure leaves room from {k.show(s.stop_front, 'm')} to {k.show(s.stop_rear, 'm')}.",
        "Once brackets are welded the station is fixed. Weigh the finished house before it travels.",
    )
    alt = (
        f"Four charts over the station of the axle group: hitch share, hitch load, heaviest axle, share of trials in "
        f"which all limits are kept. {notes[1]} Chosen: {k.show(w.chosen, 'm')}."
    )
    return Drawing(
        NUMBER,
        TITLE,
        "share, loads and probability over the station",
        "all towed states",
        ratio,
        marks,
        notes,
        alt,
        (_ends(k, p), _table(k, p)),
    )


def _reserve(k: Kit, p: Placement) -> tuple[str, ...]:
    """Why the choice need not stand where the reserve is greatest."""
    w, s = p.window, p.sweep
    if w.best is None:
        return ()
    most = f"Most reserve, the most used limit least used: {k.show(w.best, 'm')}."
    apart = w.chosen - w.best
    if abs(apart) < 1e-6:
        return (f"{most} The choice stands there.",)
    return (
        f"{most} The choice stands {k.show(abs(apart), 'm')} {'behind' if apart > 0.0 else 'ahead of'} it: every "
        f"limit is kept in {k.show(_kept(s, w.chosen), '%')} of trials there, in {k.show(_kept(s, w.best), '%')} "
        "at most reserve.",
    )


def _kept(s: Sweep, x: float) -> float:
    """Share of trials in which every limit is kept, between two stations of the sweep on a straight line."""
    for a, b, u, v in zip(s.station, s.station[1:], s.ok, s.ok[1:], strict=False):
        if a <= x <= b:
            return u + (v - u) * (x - a) / (b - a) if b > a else u
    return math.nan


def _ends(k: Kit, p: Placement) -> Schedule:
    w, s = p.window, p.sweep
    rows = [
        ("Window, foremost station", k.show(w.low, "m", "up"), w.closed_by_low),
        ("Window, rearmost station", k.show(w.high, "m", "down"), w.closed_by_high),
        k.row("Chosen station", w.chosen, where="datum A to middle of group"),
    ]
    if w.best is not None:
        rows.append(k.row("Station with most reserve", w.best))
    rows += [
        k.row("Structure: foremost", s.stop_front),
        k.row("Structure: rearmost", s.stop_rear),
        ("Hitch share", f"{k.show(s.share_low, '%')} to {k.show(s.share_high, '%')}", "limits"),
        ("Heaviest axle", k.show(s.axle_limit, "kg", "down"), "limit"),
    ]
    if s.hitch_limit is not None:
        rows.append(("Hitch load", k.show(s.hitch_limit, "kg", "down"), "limit"))
    return dimensions(rows)


def _table(k: Kit, p: Placement) -> Schedule:
    """Stations of the sweep: those in and beside the window, and both ends."""
    s, w, last = p.sweep, p.window, len(p.sweep.station) - 1
    beside = (s.station[last] - s.station[0]) / 20.0
    near = [i for i, x in enumerate(s.station) if w.low - beside <= x <= w.high + beside] or list(range(last + 1))
    shown = sorted({0, *near[:: max(1, len(near) // ROWS)], last})
    rows = tuple(
        (
            k.show(s.station[i], "m"),
            k.show(s.share[i], "%"),
            k.show(s.hitch[i], "kg"),
            k.show(s.axle[i], "kg"),
            k.show(s.ok[i], "%"),
        )
        for i in shown
    )
    return Schedule(
        "Stations", ("Station", "Hitch share", "Hitch load", "Heaviest axle", "All kept"), (True,) * 5, rows
    )


def _sheet(k: Kit, p: Placement) -> tuple[Views, float]:
    s, w, room = p.sweep, p.window, k.room
    x0, x1 = room.x0 + NAMES, room.x1 - LIMITS
    first, last = s.station[0], s.station[-1]
    ratio = next((float(q) for q in scales(k.cover.units) if (last - first) * 1000.0 / q <= x1 - x0), 200.0)
    wide = (last - first) * 1000.0 / ratio
    v = View(ratio, 1, x0 + (x1 - x0 - wide) / 2.0 - first * 1000.0 / ratio)
    left, right = v.across(first), v.across(last)
    top, bottom = room.y0 + 15.0, room.y1 - 27.0
    tall = (bottom - top - 3.0 * BETWEEN) / 4.0
    marks: list[Mark] = []
    plots: tuple[tuple[str, str, str, Sequence[float], list[tuple[str, float]]], ...] = (
        ("share", "HITCH SHARE", "%", s.share, [("least", s.share_low), ("most", s.share_high)]),
        ("hitch", "HITCH LOAD", "kg", s.hitch, [("most", s.hitch_limit)] if s.hitch_limit is not None else []),
        ("axle", "HEAVIEST AXLE", "kg", s.axle, [("most", s.axle_limit)]),
        ("ok", "ALL KEPT", "%", s.ok, []),
    )
    for i, (id, words, unit, values, limits) in enumerate(plots):
        y = top + i * (tall + BETWEEN)
        spread_over = (0.0, 1.0) if id == "ok" else (*values, *(limit for _, limit in limits))
        chart, step = scaled(k, id, Rect(left, y, right, y + tall), unit, spread_over, 4)
        marks += [
            *axis(k, chart, step, across=True),
            *_window(chart, v, w.low, w.high, first, last),
            *_limits(k, chart, limits),
        ]
        marks.append(curve(f"{id}.curve", [(v.across(x), chart.y(u)) for x, u in zip(s.station, values, strict=False)]))
        marks.append(Text(f"{id}.name", words, (room.x0, y + HEAD), HEAD, bold=True))
        marks.append(Text(f"{id}.unit", _unit(k, id, unit), (room.x0, y + HEAD + 5.4)))
    marks += _stations(k, v, p, left, right, top, bottom)
    marks += title(
        "window",
        (left, bottom + 12.0),
        "STATION OF THE AXLE GROUP",
        f"1:{ratio:g}",
        "window hatched; all towed load states",
    )
    return tuple(marks), ratio


def _unit(k: Kit, id: str, unit: str) -> str:
    words = {"share": "of the trailer's mass", "ok": "of trials keep every limit"}.get(id, "worst towed state")
    return f"{k.show.label(unit)} {words}" if unit == "%" else f"{k.show.label(unit)}, {words}"


def _window(c: Chart, v: View, low: float, high: float, first: float, last: float) -> Views:
    if not high > low:
        return ()
    box = Rect(v.across(max(low, first)), c.box.y0, v.across(min(high, last)), c.box.y1)
    return (
        *hatched(f"{c.id}.window", box, 5.0),
        Line(f"{c.id}.low", "thin", ((box.x0, box.y0), (box.x0, box.y1))),
        Line(f"{c.id}.high", "thin", ((box.x1, box.y0), (box.x1, box.y1))),
    )


def _limits(k: Kit, c: Chart, limits: list[tuple[str, float]]) -> Views:
    marks: list[Mark] = []
    ordered = sorted(limits, key=lambda g: -g[1])
    places = spread([c.y(limit) for _, limit in ordered], 5.4, c.box.y0, c.box.y1)
    for n, ((words, limit), place) in enumerate(zip(ordered, places, strict=False)):
        y, x = c.y(limit), c.box.x1
        marks.append(Line(f"{c.id}.limit.{n}", "hidden", ((c.box.x0, y), (x, y))))
        marks.append(
            Line(f"{c.id}.limit.{n}.leader", "leader", ((x, y), (x + 1.5, y), (x + 4.0, place), (x + 5.0, place)))
        )
        text = f"{words} {k.show(limit, c.unit)}"
        marks.append(Text(f"{c.id}.limit.{n}.text", text, (x + 6.0, place + TEXT / 2.0), value=limit, unit=c.unit))
    return tuple(marks)


def _stations(k: Kit, v: View, p: Placement, left: float, right: float, top: float, bottom: float) -> Views:
    """Named stations above the charts, round stations below, the choice as a line through all."""
    w, s = p.window, p.sweep
    listed = [
        ("low", w.low, "window from", "up"),
        ("high", w.high, "window to", "down"),
        ("chosen", w.chosen, "chosen", "near"),
    ]
    if w.best is not None and abs(w.best - w.chosen) > 1e-6:
        listed.append(("best", w.best, "most reserve", "near"))
    inside = [row for row in listed if s.station[0] <= row[1] <= s.station[-1]]
    marks: list[Mark] = list(
        tags(
            [
                Tag(
                    f"station.{id}",
                    v.across(x),
                    k.show(x, "m", "up" if to == "up" else "down" if to == "down" else "near"),
                    words,
                    id == "chosen",
                    x,
                    "m",
                )
                for id, x, words, to in inside
            ],
            top - 1.0,
            False,
            left - 30.0,
            right + 30.0,
        )
    )
    x = v.across(w.chosen)
    if left <= x <= right:
        marks.append(Line("chosen", "cut", ((x, top - 1.0), (x, bottom + 1.5))))
    if w.best is not None and left <= v.across(w.best) <= right:
        marks.append(Line("best", "centre", ((v.across(w.best), top - 1.0), (v.across(w.best), bottom))))
    step = step_of(
        k, "m", s.station[-1] - s.station[0], max(2, int((right - left) / (width("00′-00 1/2″", TEXT) + 4.0)))
    )
    n = int(s.station[0] / step) + 1
    while n * step <= s.station[-1] + 1e-9:
        x = v.across(n * step)
        marks += [
            Line(f"tick.{n}", "thin", ((x, bottom), (x, bottom + 1.5))),
            Text(f"tick.{n}.text", k.show(n * step, "m"), (x, bottom + 6.0), TEXT, "middle", value=n * step, unit="m"),
        ]
        n += 1
    return tuple(marks)
