"""Charts as SVG by matplotlib: laid out in mm, one path a pen, in the font, pens and greys of the sheets."""

import io
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from generator.document.files import FACES, font_path
from generator.document.plots.chart import WIDTH, Bar, Bars, Curves
from generator.draw.ordinates import spread
from generator.draw.pens import INK, PENS, SECOND
from generator.draw.text import CAP_HEIGHT, width

RULE, BAR = "#c4c4c4", "#9a9a9a"
"""Greys of rules and bars: apart from ink and white when printed in black."""
SIZE = 8.0
"""Points of all letters of a plot."""
CAPITAL = SIZE * 25.4 / 72.0 * CAP_HEIGHT
"""Height of capitals, mm."""
ROW, THICK, TOP, GUTTER = 5.0, 3.0, 6.0, 3.0
"""Pitch of rows, thickness of a bar, room for the title, room between columns, mm."""
NAMES = 60.0
"""Most room for names beside bars and curves, mm."""
PLOT, UNDER = 46.0, 11.0
"""Height of the field of curves, and of numbers and words under it, mm."""
LINES = 3.9
"""Least distance of two labels under one another, mm."""
DASHES = (4.0, 2.0)
"""Dashes of a soft line, points."""

Point = tuple[float, float]
Side = Literal["left", "center", "right"]


@dataclass(slots=True)
class Ink:
    """What is to be drawn, in mm from the upper left corner: strokes by pen, boxes by grey, texts."""

    strokes: dict[tuple[str, float, bool], list[Sequence[Point]]] = field(default_factory=dict)
    boxes: dict[str, list[tuple[float, float, float, float]]] = field(default_factory=dict)
    texts: list[tuple[float, float, str, Side, bool, str]] = field(default_factory=list)

    def line(self, points: Sequence[Point], pen: str = "thin", colour: str = INK, dashed: bool = False) -> None:
        """A run of strokes with a pen of the sheets."""
        self.strokes.setdefault((colour, PENS[pen].width, dashed), []).append(points)

    def box(self, x0: float, y0: float, x1: float, y1: float, grey: str = BAR) -> None:
        """A filled box."""
        self.boxes.setdefault(grey, []).append((x0, y0, x1, y1))

    def text(self, x: float, y: float, words: str, side: Side = "left", bold: bool = False, ink: str = INK) -> None:
        """A line of text whose capitals stand around `y`."""
        if words:
            self.texts.append((x, y + CAPITAL / 2.0, words, side, bold, ink))


def written(name: str, chart: Bars | Curves) -> bytes:
    """The chart as SVG, the same bytes from the same numbers."""
    import matplotlib
    from matplotlib.font_manager import fontManager

    ink = Ink()
    ink.text(0.0, 2.0, chart.title, bold=True)
    high = _bars(ink, chart) if isinstance(chart, Bars) else _curves(ink, chart)
    for face in FACES:
        fontManager.addfont(font_path(face))
    style = {"svg.fonttype": "none", "svg.hashsalt": name, "font.family": "Source Sans Pro", "font.size": SIZE}
    with matplotlib.rc_context(style):
        out = io.BytesIO()
        figure_of(ink, high).savefig(out, format="svg", transparent=True, metadata={"Date": None, "Creator": None})
    return out.getvalue()


def figure_of(ink: Ink, high: float) -> Any:
    """A figure of the standard width, `high` mm high, holding what is to be drawn."""
    from matplotlib.figure import Figure
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    figure = Figure(figsize=(WIDTH / 25.4, high / 25.4))
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set(xlim=(0.0, WIDTH), ylim=(high, 0.0))
    for grey, boxes in ink.boxes.items():
        rings = [Path(((a, b), (c, b), (c, d), (a, d), (a, b)), closed=True) for a, b, c, d in boxes]
        axes.add_patch(PathPatch(Path.make_compound_path(*rings), facecolor=grey, linewidth=0.0))
    for (colour, pen, dashed), runs in ink.strokes.items():
        path = Path.make_compound_path(*(Path(run) for run in runs))
        look = {"edgecolor": colour, "linewidth": pen * 72.0 / 25.4, "linestyle": (0.0, DASHES) if dashed else "solid"}
        axes.add_patch(PathPatch(path, fill=False, capstyle="butt", joinstyle="round", **look))
    for x, y, words, side, bold, colour in ink.texts:
        axes.text(x, y, _plain(words), ha=side, va="baseline", weight="semibold" if bold else "normal", color=colour)
    return figure


def _plain(words: str) -> str:
    """Words that are never taken for a formula."""
    return words.replace("$", r"\$")


def _wide(words: Iterable[str], bold: bool = False) -> float:
    return max((width(w, CAPITAL, bold) for w in words), default=0.0)


def short(words: str, room: float) -> str:
    """The words, cut at a space with an ellipsis where they need more than `room` mm."""
    if _wide((words,)) <= room + 1e-6:
        return words
    kept = words.split(" ")
    while len(kept) > 1 and _wide((" ".join(kept) + "…",)) > room:
        kept.pop()
    return " ".join(kept).rstrip(",;:") + "…"


def _bars(ink: Ink, chart: Bars) -> float:
    """Names, bars with spreads and ticks, numbers in a column; gives the height."""
    left = min(_wide(b.name for b in chart.rows if not b.is_heading), NAMES) + GUTTER
    right = WIDTH - _wide(b.text for b in chart.rows) - GUTTER
    low, high = chart.reach
    reach = (right - left) / ((high - low) or 1.0)

    def x(value: float) -> float:
        return left + (value - low) * reach

    foot = TOP + ROW * len(chart.rows)
    for n, row in enumerate(chart.rows):
        y = TOP + ROW * (n + 0.5)
        if row.is_heading:
            ink.text(0.0, y, short(row.name, WIDTH), bold=True)
            continue
        ink.text(0.0, y, short(row.name, left - GUTTER))
        _bar(ink, row, x, y)
        ink.text(WIDTH, y, row.text, "right")
        ink.line(((x(0.0), y - ROW / 2.0), (x(0.0), y + ROW / 2.0)))
    for rule in chart.rules:
        ends = TOP + ROW * rule.first, TOP + ROW * (rule.last + 1)
        ink.line([(x(rule.value), y) for y in ends], "outline", dashed=rule.is_soft)
    if not chart.key:
        return foot + 1.0
    ink.text(left, foot + 3.0, chart.key, ink=SECOND)
    return foot + 6.0


def _bar(ink: Ink, row: Bar, x: Any, y: float) -> None:
    ink.box(x(0.0), y - THICK / 2.0, x(row.value), y + THICK / 2.0)
    if math.isfinite(row.low) and row.low < row.high:
        ink.line(((x(row.low), y), (x(row.high), y)))
        for end in (row.low, row.high):
            ink.line(((x(end), y - 0.8), (x(end), y + 0.8)))
    if math.isfinite(row.tick):
        ink.line(((x(row.tick), y - 2.2), (x(row.tick), y + 2.2)), "cut")


def _curves(ink: Ink, chart: Curves) -> float:
    """Axes, curves, points, and their names in a column at the right; gives the height."""
    names = [line.name for line in chart.lines if line.name] + [s.name for s in chart.spots]
    left = _wide(text for _, text in chart.up.ticks) + GUTTER
    right = WIDTH - min(_wide(names), NAMES) - 3.0 * GUTTER
    top = TOP + 1.0 + LINES * len(chart.bounds)
    foot = top + max(PLOT, LINES * len(names))
    across, up = chart.across, chart.up

    def p(x: float, y: float) -> Point:
        return (left + (x - across.low) / (across.high - across.low) * (right - left),
                foot - (y - up.low) / (up.high - up.low) * (foot - top))

    _axes(ink, chart, p)
    for line in chart.lines:
        ink.line([p(*q) for q in line.points], "thin" if line.is_soft else "outline",
                 SECOND if line.is_soft else INK)
    _spots(ink, chart, p)
    _named(ink, chart, p, right, (top, foot))
    ink.text(left, foot + 8.0, across.words, ink=SECOND)
    return foot + UNDER


def _axes(ink: Ink, chart: Curves, p: Any) -> None:
    across, up = chart.across, chart.up
    for value, text in up.ticks:
        x, y = p(across.low, value)
        ink.line(((x, y), p(across.high, value)), "grid", RULE)
        ink.text(x - 1.5, y, text, "right")
    for value, text in across.ticks:
        x, y = p(value, up.low)
        ink.line(((x, y), (x, y + 1.2)))
        ink.text(x, y + 3.4, text, "center")
    ink.line((p(across.low, up.low), p(across.high, up.low)))
    for n, (value, name) in enumerate(chart.bounds):
        x, y = p(value, up.high)
        ink.line(((x, y - 1.0 - LINES * n), p(value, up.low)), dashed=True)
        ink.text(x, y - 2.6 - LINES * n, name, "left" if value < (across.low + across.high) / 2.0 else "right")
    if up.words:
        ink.text(WIDTH, 2.0, up.words, "right", ink=SECOND)


def _spots(ink: Ink, chart: Curves, p: Any) -> None:
    for s in chart.spots:
        x, y = p(s.x, s.y)
        if s.drops:
            ink.line(((x, y), p(s.x, chart.up.low)), "thin", SECOND)
        if math.isfinite(s.low):
            ink.line((p(s.x, s.low), p(s.x, s.high)))
        if s.is_open:
            left, right, over, under = x - 0.9, x + 0.9, y - 0.9, y + 0.9
            ink.line(((left, over), (right, over), (right, under), (left, under), (left, over)))
        else:
            ink.box(x - 0.9, y - 0.9, x + 0.9, y + 0.9, INK)


def _named(ink: Ink, chart: Curves, p: Any, right: float, room: tuple[float, float]) -> None:
    """Names at the right, kept apart, each with a leader to its point or to the end of its curve."""
    ends = [(p(*line.points[-1]), line.name) for line in chart.lines if line.name]
    ends += [(p(s.x, s.y), s.name) for s in chart.spots]
    ends.sort(key=lambda e: (e[0][1], -e[0][0], e[1]))
    places = spread([y for (_, y), _ in ends], LINES, room[0] + 1.0, room[1] - 1.0)
    for ((x, y), name), place in zip(ends, places, strict=True):
        ink.line(((x + 1.2, y), (right + GUTTER, place), (right + GUTTER + 2.0, place)), "grid", SECOND)
        ink.text(right + 2.0 * GUTTER, place, short(name, WIDTH - right - 2.0 * GUTTER))
