"""L1 load diagrams: line load, supports, shear, moment, deflection of the whole frame under an elevation strip."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.findings import Beam
from generator.draw.marks import TITLE as HEAD
from generator.draw.marks import Area, Line, Mark, Rect, Text, arrow, extent, texts
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.charts import Tag, axis, curve, filled, scaled, tags
from generator.draw.sheets.kit import Kit, Views, at, dimensions, finite, foremost, kit, largest, need, steel_known
from generator.draw.views import View, title
from generator.errors import RenderError
from generator.release.slices import Desk, Steel, SteelLoads

NUMBER, TITLE = "L1", "Load diagrams, as towed"
NAMES, TALL, BETWEEN, CHARTS = 78.0, 20.0, 6.0, 4
"""Column of names left of the charts, height of a chart and room between two, mm, and how many there are."""


@dataclass(frozen=True, slots=True)
class Way:
    """A way the frame is carried: number and title of its sheet, id of its diagram, its state and remark in notes."""

    number: str
    title: str
    id: str
    state: str
    remark: str


TOWED = Way(NUMBER, TITLE, "travel", "as towed", "Road impact, braking and jacking not included.")
OTHERS = (
    Way("L1.2", "Load diagrams, hard stop", "braking", "as towed, braking",
        "Every mass pushes forward at its own height and the brakes hold at the ground: the steps of the moment are "
        "these couples."),
    Way("L1.3", "Load diagrams, on the jacks", "jacked", "unhitched",
        "Hitch free, the nose on its jacks, the axles under the rest: while it is jacked and while it stands "
        "unhitched alike. Frame level."),
    Way("L1.4", "Load diagrams, parked", "parked", "parked",
        "Contents as listed, wheels hanging; jacks and stands only push, all feet level. What one low foot does: load "
        "summary. Snow not included."),
)


def draw(desk: Desk) -> Drawing:
    """The sheet as towed; raises RenderError when something it needs is missing or unknown."""
    return _drawn(desk, TOWED, need(desk, SteelLoads).beam)


def ways(desk: Desk) -> tuple[Way, ...]:
    """The other ways this frame is carried that could be solved."""
    loads = desk.get(SteelLoads)
    known = {b.id for b in loads.cases} if isinstance(loads, SteelLoads) else set()
    return tuple(w for w in OTHERS if w.id in known)


def draw_way(desk: Desk, way: Way) -> Drawing:
    """The sheet of another way; raises RenderError when something it needs is missing or unknown."""
    return _drawn(desk, way, next(b for b in need(desk, SteelLoads).cases if b.id == way.id))


def _drawn(desk: Desk, way: Way, b: Beam) -> Drawing:
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    if len(b.x) < 2 or len(b.deflection) != len(b.x):
        raise RenderError("cannot be drawn without a diagram of loads")
    finite(
        (
            ("line load", sum(b.line_load)),
            ("shear", sum(b.shear)),
            ("moment", sum(b.moment)),
            ("deflection", sum(b.deflection)),
            *((f"force at {p.title}", p.force) for p in b.supports),
        )
    )
    state = k.towed(s) if way is TOWED else f"{way.state}, {k.show(b.mass, 'kg')} on the frame"
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _sheet(k, s, b, state, r))
    e = extremes(b)
    notes = (
        f"Static loads of the whole frame, both rails together, {k.show(b.mass, 'kg')} on it. {k.say(way.remark)}",
        "Supports push up. Shear is the sum of upward forces ahead of the station; moment positive where the "
        "frame sags; deflection of the bare frame from the chord of the main deck, upward positive.",
        f"Charts stand under the elevation at its scale, stations from datum A. {b.title}.",
        f"For sizing only. Members, {'neck' if s.has_neck else 'tongue'} root and welds are for a licensed engineer.",
    )
    alt = (
        f"{way.title} at 1:{ratio:g}: line load, shear, moment and deflection along the frame. "
        + " ".join(f"{p.title} {k.show(p.force, 'N')}." for p in b.supports)
        + f" Greatest sagging moment {k.show(e.sag.value, 'N*m')} at {k.show(e.sag.station, 'm')}, greatest hogging "
        f"moment {k.show(e.hog.value, 'N*m')} at {k.show(e.hog.station, 'm')}."
    )
    tables = (_supports(k, b), dimensions([("Scale of stations", f"1:{ratio:g}", "as the elevation")]))
    subtitle = "line load, shear, moment, deflection"
    return Drawing(way.number, way.title, subtitle, state, ratio, marks, notes, alt, tables)


@dataclass(frozen=True, slots=True)
class Extreme:
    """A value and where it stands."""

    station: float
    value: float


@dataclass(frozen=True, slots=True)
class Extremes:
    """Greatest and least of each diagram."""

    load: Extreme
    shear_up: Extreme
    shear_down: Extreme
    sag: Extreme
    hog: Extreme
    rise: Extreme
    drop: Extreme


def extremes(b: Beam) -> Extremes:
    """Greatest line load, shear, moment and deflection, each both ways (N/m, N, N m, m at stations in m)."""

    def pick(values: tuple[float, ...], sign: float) -> Extreme:
        i = max(range(len(values)), key=lambda j: (sign * values[j], -j))
        return Extreme(b.x[i], values[i])

    return Extremes(
        pick(b.line_load, 1.0), pick(b.shear, 1.0), pick(b.shear, -1.0), pick(b.moment, 1.0), pick(b.moment, -1.0),
        pick(b.deflection, 1.0), pick(b.deflection, -1.0),
    )


def _supports(k: Kit, b: Beam) -> Schedule:
    e = extremes(b)
    rows = [(f"Support: {p.title}", k.show(p.station, "m"), k.show(p.force, "N")) for p in b.supports]
    rows += [(f"Couple of the arm on {p.title}", k.show(p.station, "m"), k.show(p.couple, "N*m"))
             for p in b.supports if p.couple]
    rows += [(f"Load: {p.title}", k.show(p.station, "m"), k.show(p.force, "N")) for p in b.points]
    rows += [
        ("Sum of supports", "", k.show(sum(p.force for p in b.supports), "N")),
        ("Greatest line load", k.show(e.load.station, "m"), k.show(e.load.value, "N/m")),
        ("Greatest shear", k.show(e.shear_up.station, "m"), k.show(e.shear_up.value, "N")),
        ("Least shear", k.show(e.shear_down.station, "m"), k.show(e.shear_down.value, "N")),
        ("Greatest sagging moment", k.show(e.sag.station, "m"), k.show(e.sag.value, "N*m")),
        ("Greatest hogging moment", k.show(e.hog.station, "m"), k.show(e.hog.value, "N*m")),
        ("Highest above the chord", k.show(e.rise.station, "m"), k.show(e.rise.value, "m:work")),
        ("Lowest below the chord", k.show(e.drop.station, "m"), k.show(e.drop.value, "m:work")),
    ]
    return Schedule("Loads and extremes", ("What", "Station", "Value"), (False, True, True), tuple(rows))


def _sheet(k: Kit, s: Steel, b: Beam, state: str, ratio: float) -> Views | None:
    room = k.room
    v = View(ratio, 1, 0.0, 0.0)
    seen = (*o.steel_elevation(s, v), *o.decking_elevation(s, v), *o.wheels_elevation(s, v), *hitch.side(s, v))
    box = extent(seen)
    left, right = min(v.across(b.x[0]), box.x0), max(v.across(b.x[-1]), box.x1)
    charts = CHARTS * TALL + (CHARTS - 1) * BETWEEN
    high = (box.y1 - box.y0) + 22.0 + charts + 8.0
    if NAMES + right - left + 16.0 > room.x1 - room.x0 or high > room.y1 - room.y0:
        return None
    spare_x, spare_y = room.x1 - room.x0 - NAMES - (right - left), room.y1 - room.y0 - high
    x, y = room.x0 + NAMES + spare_x / 3.0 - left, room.y0 + spare_y / 3.0 - box.y0
    top = y + 22.0 + spare_y / 3.0
    below = Rect(x + left, top, x + right, top + 4.0 + charts)
    return _placed(k, s, b, View(ratio, 1, x, y), state, below, room, at(seen, x, y))


def _placed(k: Kit, s: Steel, b: Beam, v: View, state: str, below: Rect, room: Rect, seen: Views) -> Views | None:
    """Elevation, forces and charts; nothing where the labels of the extremes find no place at this scale."""
    marks: list[Mark] = [
        *seen,
        Line("ground", "ground", ((below.x0 - 3.0, v.y), (below.x1 + 3.0, v.y))),
    ]
    marks += title("strip", (room.x0, v.y - 14.0), "LEFT ELEVATION", f"1:{v.ratio:g}", k.towed(s))
    marks += _forces(k, b, v, room)
    labels = list[Label]()
    for i, chart in enumerate(_plots(b)):
        top = below.y0 + 4.0 + i * (TALL + BETWEEN)
        marks += _plot(k, chart, v, b, Rect(below.x0, top, below.x1, top + TALL), room.x0)
        labels += _peaks(k, chart, v, b, Rect(below.x0, top, below.x1, top + TALL), i)
    for j, p in enumerate(b.supports):
        x = v.across(p.station)
        marks.append(Line(f"support.{j}.line", "grid", ((x, v.y + 23.5), (x, below.y1))))
    placed = place(labels, marks, Rect(below.x0, below.y0 - 2.0, room.x1, room.y1), None)
    return (*marks, *placed) if len(texts(placed)) == len(labels) else None


@dataclass(frozen=True, slots=True)
class _Plot:
    """A chart: id, its name, unit, values, what is labelled, remark."""

    id: str
    words: str
    unit: str
    values: tuple[float, ...]
    peaks: tuple[Extreme, ...]
    remark: str


def _plots(b: Beam) -> tuple[_Plot, ...]:
    e = extremes(b)
    return (
        _Plot("load", "LINE LOAD", "N/m", b.line_load, (e.load,), "down"),
        _Plot("shear", "SHEAR", "N", b.shear, (e.shear_up, e.shear_down), ""),
        _Plot("moment", "MOMENT", "N*m", b.moment, (e.sag, e.hog), "sagging positive"),
        _Plot("deflection", "DEFLECTION", "m:work", b.deflection, (e.rise, e.drop), "up, from the chord"),
    )


def _plot(k: Kit, p: _Plot, v: View, b: Beam, box: Rect, names: float) -> Views:
    chart, step = scaled(k, p.id, box, p.unit, (0.0, *p.values))
    points = [(v.across(x), chart.y(value)) for x, value in zip(b.x, p.values, strict=True)]
    ring = [(points[0][0], chart.y(0.0)), *points, (points[-1][0], chart.y(0.0))]
    unit = ", ".join(w for w in (k.show.label(p.unit), p.remark) if w)
    return (
        *axis(k, chart, step, across=False), *filled(p.id, points, chart.y(0.0)), curve(f"{p.id}.curve", ring),
        Text(f"{p.id}.name", p.words, (names, box.y0 + HEAD), HEAD, bold=True),
        Text(f"{p.id}.unit", unit, (names, box.y0 + HEAD + 5.4)),
    )


def _peaks(k: Kit, p: _Plot, v: View, b: Beam, box: Rect, rank: int) -> Iterator[Label]:
    """Labels of the greatest values of a chart, either way; what shows as nought is left out."""
    chart, _ = scaled(k, p.id, box, p.unit, (0.0, *p.values))
    for n, peak in enumerate(p.peaks):
        if any(digit in "123456789" for digit in k.show.number(peak.value, p.unit)):
            text = f"{k.show(peak.value, p.unit)} at {k.show(peak.station, 'm')}"
            at = (v.across(peak.station), chart.y(peak.value))
            yield Label(f"{p.id}.peak.{n}", text, at, rank, 3.0, value=peak.value, unit=p.unit)


def _forces(k: Kit, b: Beam, v: View, room: Rect) -> Views:
    """Arrows of the supports under the ground line with their forces."""
    marks: list[Mark] = []
    for j, p in enumerate(b.supports):
        x = v.across(p.station)
        head: Area = arrow(f"support.{j}.head", (x, v.y + 1.0), (x, v.y + 6.0))
        marks += [head, Line(f"support.{j}", "thin", ((x, v.y + 1.0), (x, v.y + 7.0)))]
    listed = [
        Tag(f"support.{j}.tag", v.across(p.station), k.show(p.force, "N"), p.title, value=p.force, unit="N")
        for j, p in enumerate(b.supports)
    ]
    marks += tags(listed, v.y + 7.0, True, room.x0 + NAMES - 20.0, room.x1)
    return tuple(marks)
