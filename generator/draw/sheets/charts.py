"""Charts on sheets: a curve over stations, its axis, hatching, and level labels kept apart along an edge."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from generator.draw.marks import SMALL, TEXT, Line, Mark, Rect, Text
from generator.draw.ordinates import spread
from generator.draw.sheets.kit import Kit, Views
from generator.draw.text import width
from generator.units import DISPLAY

STEPS = (1.0, 2.0, 5.0, 10.0)
INCHES = (1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0)


@dataclass(frozen=True, slots=True)
class Chart:
    """A box on paper with its range of values: unit key, and the values at its lower and upper edge."""

    id: str
    box: Rect
    unit: str
    low: float
    high: float

    def y(self, value: float) -> float:
        """Paper y of a value."""
        return self.box.y1 - (value - self.low) / (self.high - self.low) * (self.box.y1 - self.box.y0)


def step_of(k: Kit, unit: str, reach: float, most: int) -> float:
    """A round step in the unit shown, so that at most `most` steps cover `reach` (SI)."""
    look = DISPLAY[unit][0 if k.cover.units == "us" else 1]
    least = reach / most / look.factor
    if look.label == "ft-in":
        return next((s for s in INCHES if s >= least), 120.0) * look.factor
    power = 10.0 ** math.floor(math.log10(max(least, 1e-12)))
    return next(s for s in STEPS if s * power >= least * (1.0 - 1e-9)) * power * look.factor


def scaled(k: Kit, id: str, box: Rect, unit: str, values: Sequence[float], most: int = 4) -> tuple[Chart, float]:
    """A chart whose edges are round values around `values`, and its step."""
    low, high = min(values), max(values)
    step = step_of(k, unit, max(high - low, abs(high) * 1e-3, 1e-9), most)
    bottom, top = math.floor(low / step + 1e-9) * step, math.ceil(high / step - 1e-9) * step
    return Chart(id, box, unit, bottom, top if top > bottom else bottom + step), step


def tick(k: Kit, value: float, unit: str, step: float) -> str:
    """A number of an axis: whole where its step is whole in the unit shown."""
    look = DISPLAY[unit][0 if k.cover.units == "us" else 1]
    whole = look.label != "ft-in" and step / look.factor > 0.999
    return f"{value / look.factor:,.0f}".replace("-", "−") if whole else k.show.number(value, unit)


def axis(k: Kit, c: Chart, step: float, across: bool) -> Views:
    """Left edge with ticks and numbers; fine lines across where asked, a line at zero always."""
    b = c.box
    marks: list[Mark] = [Line(f"{c.id}.axis", "thin", ((b.x0, b.y0), (b.x0, b.y1)))]
    for i in range(round((c.high - c.low) / step) + 1):
        value = c.low + i * step
        value = 0.0 if abs(value) < step * 1e-6 else value
        y = c.y(value)
        end = b.x1 if across or value == 0.0 else b.x0
        marks.append(Line(f"{c.id}.grid.{i}", "thin" if value == 0.0 else "grid", ((b.x0 - 1.5, y), (end, y))))
        marks.append(
            Text(f"{c.id}.tick.{i}", tick(k, value, c.unit, step), (b.x0 - 2.5, y + SMALL / 2.0), SMALL, "end")
        )
    return tuple(marks)


def curve(id: str, points: Sequence[tuple[float, float]], pen: str = "outline") -> Line:
    """A curve without its needless points: those within 0.02 mm of the line between their neighbours."""
    kept: list[tuple[float, float]] = []
    for p in (key for key, _ in groupby(points)):
        while len(kept) >= 2 and _on_line(kept[-2], kept[-1], p):
            kept.pop()
        kept.append(p)
    return Line(id, pen, tuple(kept))


def _on_line(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    reach = math.dist(a, c)
    area = abs((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0]))
    between = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) >= 0.0
    return between and reach > 0.0 and area / reach < 0.02


def filled(id: str, points: Sequence[tuple[float, float]], zero: float, gap: float = 2.5) -> tuple[Line, ...]:
    """Upright hatching between a curve and its zero line, every `gap` mm."""
    lines: list[Line] = []
    x = points[0][0] + gap
    for (x0, y0), (x1, y1) in pairwise(points):
        while x0 <= x < x1:
            y = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
            if abs(y - zero) > 0.4:
                lines.append(Line(f"{id}.{len(lines)}", "hatch", ((x, zero), (x, y))))
            x += gap
    return tuple(lines)


@dataclass(frozen=True, slots=True)
class Tag:
    """A level label of one or two lines that belongs to a place along an edge."""

    id: str
    along: float
    text: str
    under: str = ""
    bold: bool = False
    value: float | None = None
    unit: str = ""


def tags(listed: Sequence[Tag], start: float, down: bool, low: float, high: float) -> Views:
    """Level labels below (`down`) or above `start`, kept apart by `spread`, each with a jogged leader."""
    ordered = sorted(listed, key=lambda t: (t.along, t.id))
    wide = [max(width(t.text, TEXT, t.bold), width(t.under, SMALL)) + 3.0 for t in ordered]
    gap = max(wide, default=0.0)
    places = spread([t.along for t in ordered], gap, low + gap / 2.0, high - gap / 2.0)
    out = 1.0 if down else -1.0
    deep = TEXT + (SMALL + 1.6 if any(t.under for t in ordered) else 0.0)
    marks: list[Mark] = []
    for t, place in zip(ordered, places, strict=False):
        end = start + out * 7.0
        base = end + TEXT + 1.2 if down else end - 1.2 - (deep - TEXT)
        marks.append(
            Line(
                f"{t.id}.leader",
                "leader",
                ((t.along, start), (t.along, start + out * 1.5), (place, start + out * 6.0), (place, end)),
            )
        )
        marks.append(Text(f"{t.id}.text", t.text, (place, base), TEXT, "middle", t.bold, value=t.value, unit=t.unit))
        if t.under:
            marks.append(Text(f"{t.id}.under", t.under, (place, base + SMALL + 1.6), SMALL, "middle"))
    return tuple(marks)
