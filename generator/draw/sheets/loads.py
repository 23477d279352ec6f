"""L1 load diagrams: line load, supports, shear and moment of the whole frame as towed, under an elevation strip."""

from dataclasses import dataclass

from generator.calc.findings import Beam
from generator.draw.marks import TITLE as HEAD
from generator.draw.marks import Area, Line, Mark, Rect, Text, arrow, extent
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.charts import Tag, axis, curve, filled, scaled, tags
from generator.draw.sheets.kit import Kit, Views, dimensions, finite, foremost, kit, largest, need, steel_known
from generator.draw.views import View, title
from generator.errors import RenderError
from generator.release.slices import Desk, Steel, SteelLoads

NUMBER, TITLE = "L1", "Load diagrams, as towed"
NAMES, TALL, BETWEEN = 78.0, 27.0, 7.0
"""Column of names left of the charts, height of a chart and room between two, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, b = kit(desk), need(desk, Steel), need(desk, SteelLoads).beam
    steel_known(s)
    if len(b.x) < 2:
        raise RenderError("cannot be drawn without a diagram of loads")
    finite(
        (
            ("line load", sum(b.line_load)),
            ("shear", sum(b.shear)),
            ("moment", sum(b.moment)),
            *((f"force at {p.title}", p.force) for p in b.supports),
        )
    )
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _sheet(k, s, b, r))
    e = extremes(b)
    notes = (
        f"Static loads of the whole frame, both rails together, {k.show(b.mass, 'kg')} on it; road impact, braking and "
        "jacking not included.",
        "Supports push up. Shear is the sum of upward forces ahead of the station; moment positive where the "
        "frame sags.",
        f"Charts stand under the elevation at its scale, stations from datum A. {b.title}.",
        f"For sizing only. Members, {'neck' if s.has_neck else 'tongue'} root and welds are for a licensed engineer.",
    )
    alt = (
        f"Load diagrams at 1:{ratio:g} along the frame: line load, shear and moment as towed. "
        + " ".join(f"{p.title} {k.show(p.force, 'N')}." for p in b.supports)
        + f" Greatest sagging moment {k.show(e.sag.value, 'N*m')} at {k.show(e.sag.station, 'm')}, greatest hogging "
        f"moment {k.show(e.hog.value, 'N*m')} at {k.show(e.hog.station, 'm')}."
    )
    return Drawing(
        NUMBER,
        TITLE,
        "line load, shear and moment, static",
        k.towed(s),
        ratio,
        marks,
        notes,
        alt,
        (_supports(k, b), dimensions([("Scale of stations", f"1:{ratio:g}", "as the elevation")])),
    )


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


def extremes(b: Beam) -> Extremes:
    """Greatest line load, shear both ways, and moment both ways (N/m, N, N m at stations in m)."""

    def pick(values: tuple[float, ...], sign: float) -> Extreme:
        i = max(range(len(values)), key=lambda j: (sign * values[j], -j))
        return Extreme(b.x[i], values[i])

    return Extremes(
        pick(b.line_load, 1.0), pick(b.shear, 1.0), pick(b.shear, -1.0), pick(b.moment, 1.0), pick(b.moment, -1.0)
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
    ]
    return Schedule("Loads and extremes", ("What", "Station", "Value"), (False, True, True), tuple(rows))


def _sheet(k: Kit, s: Steel, b: Beam, ratio: float) -> Views | None:
    room = k.room
    v = View(ratio, 1, 0.0, 0.0)
    strip: list[Mark] = [*o.frame_elevation(s, v), *o.wheels_elevation(s, v), *hitch.side(s, v)]
    box = extent(strip)
    left, right = min(v.across(b.x[0]), box.x0), max(v.across(b.x[-1]), box.x1)
    high = (box.y1 - box.y0) + 22.0 + 3.0 * TALL + 2.0 * BETWEEN + 8.0
    if NAMES + right - left + 16.0 > room.x1 - room.x0 or high > room.y1 - room.y0:
        return None
    spare_x, spare_y = room.x1 - room.x0 - NAMES - (right - left), room.y1 - room.y0 - high
    x, y = room.x0 + NAMES + spare_x / 3.0 - left, room.y0 + spare_y / 3.0 - box.y0
    v = View(ratio, 1, x, y)
    return _placed(k, s, b, v, Rect(x + left, y + 22.0 + spare_y / 3.0, x + right, room.y1), room)


def _placed(k: Kit, s: Steel, b: Beam, v: View, below: Rect, room: Rect) -> Views:
    marks: list[Mark] = [
        *o.steel_elevation(s, v),
        *o.decking_elevation(s, v),
        *o.wheels_elevation(s, v),
        *hitch.side(s, v),
        Line("ground", "ground", ((below.x0 - 3.0, v.y), (below.x1 + 3.0, v.y))),
    ]
    marks += title("strip", (room.x0, v.y - 14.0), "LEFT ELEVATION", f"1:{v.ratio:g}", k.towed(s))
    marks += _forces(k, b, v, room)
    e = extremes(b)
    plots = (
        ("load", "LINE LOAD", "N/m", b.line_load, (e.load,), "down"),
        ("shear", "SHEAR", "N", b.shear, (e.shear_up, e.shear_down), ""),
        ("moment", "MOMENT", "N*m", b.moment, (e.sag, e.hog), "sagging positive"),
    )
    labels: list[Label] = []
    for i, (id, words, unit, values, peaks, remark) in enumerate(plots):
        y = below.y0 + 4.0 + i * (TALL + BETWEEN)
        chart, step = scaled(k, id, Rect(below.x0, y, below.x1, y + TALL), unit, (0.0, *values))
        points = [(v.across(x), chart.y(value)) for x, value in zip(b.x, values, strict=False)]
        ring = [(points[0][0], chart.y(0.0)), *points, (points[-1][0], chart.y(0.0))]
        marks += [*axis(k, chart, step, across=False), *filled(id, points, chart.y(0.0)), curve(f"{id}.curve", ring)]
        marks.append(Text(f"{id}.name", words, (room.x0, y + HEAD), HEAD, bold=True))
        unit_words = ", ".join(w for w in (k.show.label(unit), remark) if w)
        marks.append(Text(f"{id}.unit", unit_words, (room.x0, y + HEAD + 5.4)))
        for n, peak in enumerate(peaks):
            if abs(peak.value) > 1e-6:
                text = f"{k.show(peak.value, unit)} at {k.show(peak.station, 'm')}"
                labels.append(
                    Label(
                        f"{id}.peak.{n}",
                        text,
                        (v.across(peak.station), chart.y(peak.value)),
                        i,
                        3.0,
                        value=peak.value,
                        unit=unit,
                    )
                )
    for j, p in enumerate(b.supports):
        marks.append(
            Line(
                f"support.{j}.line",
                "grid",
                ((v.across(p.station), v.y + 23.5), (v.across(p.station), below.y0 + 4.0 + 3.0 * TALL + 2.0 * BETWEEN)),
            )
        )
    field = Rect(below.x0, below.y0 - 2.0, below.x1, room.y1)
    return (*marks, *place(labels, marks, field, Rect(min(below.x1 + 1.0, room.x1 - 60.0), below.y0, room.x1, room.y1)))


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
