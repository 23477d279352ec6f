"""What a plot shows, as numbers and words; how it is laid out and written is no matter here."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.units import DISPLAY, Show

WIDTH = 150.0
"""Width of every plot on paper, mm."""
MOST_SAID = 12
"""Rows named in an alternative text; more stand in the table beside the plot."""
STEPS = (1.0, 2.0, 5.0, 10.0)
FEET = 12.0
"""Inches in the foot in which stations of US plots step."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A row of bars: name, value, its number as text; spread from `low` to `high` and limit `tick` where there are.

    A row without a value is a heading.
    """

    name: str
    value: float = math.nan
    text: str = ""
    low: float = math.nan
    high: float = math.nan
    tick: float = math.nan

    @property
    def is_heading(self) -> bool:
        """Whether the row only names those below."""
        return math.isnan(self.value)


@dataclass(frozen=True, slots=True)
class Rule:
    """A line down through rows `first` to `last`, with what it stands for; `is_soft` is dashed."""

    value: float
    first: int
    last: int
    is_soft: bool = False


@dataclass(frozen=True, slots=True)
class Bars:
    """Level bars under one another, names left, numbers right. `key` says what lines and ticks stand for."""

    title: str
    rows: tuple[Bar, ...]
    rules: tuple[Rule, ...] = ()
    key: str = ""

    @property
    def reach(self) -> tuple[float, float]:
        """Least and greatest number to be shown, nought between them."""
        values = [0.0, *(r.value for r in self.rules)]
        values += [v for b in self.rows for v in (b.value, b.low, b.high, b.tick) if math.isfinite(v)]
        return min(values), max(values)


@dataclass(frozen=True, slots=True)
class Line:
    """A curve through points, named at its right end. `is_soft` is thin and grey."""

    points: tuple[tuple[float, float], ...]
    name: str = ""
    is_soft: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """A point with a name, its spread upward and downward, and a drop to the lower axis where asked."""

    x: float
    y: float
    name: str
    low: float = math.nan
    high: float = math.nan
    drops: bool = False
    is_open: bool = False


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis measures in words, and the numbers written on it."""

    words: str
    ticks: tuple[tuple[float, str], ...]

    @property
    def low(self) -> float:
        """Number at its beginning."""
        return self.ticks[0][0]

    @property
    def high(self) -> float:
        """Number at its end."""
        return self.ticks[-1][0]


@dataclass(frozen=True, slots=True)
class Curves:
    """Curves and points over two axes."""

    title: str
    across: Axis
    up: Axis
    lines: tuple[Line, ...] = ()
    spots: tuple[Spot, ...] = ()
    bounds: tuple[tuple[float, str], ...] = ()
    """Upright limit lines: where on the axis across, and what each is."""


def alt_of(chart: Bars | Curves) -> str:
    """What a plot shows, in words and numbers."""
    match chart:
        case Bars():
            said = [f"{b.name} {b.text}".rstrip() for b in chart.rows]
        case Curves():
            said = [s.name for s in chart.spots] + [line.name for line in chart.lines if line.name]
            said += [name for _, name in chart.bounds]
    more = f"; {len(said) - MOST_SAID} more in the table" if len(said) > MOST_SAID else ""
    return f"{chart.title}: {'; '.join(said[:MOST_SAID])}{more}."


def factor(show: Show, unit: str) -> float:
    """SI value of one of the unit shown."""
    look = DISPLAY[unit][0 if show.system == "us" else 1]
    return look.factor * (FEET if look.label == "ft-in" else 1.0)


def steps(values: Sequence[float], one: float, most: int) -> tuple[float, ...]:
    """Round numbers of the unit whose SI value is `one` around finite values: at most `most` steps."""
    low, high = min(values), max(values)
    least = max(high - low, abs(high) * 1e-3, one * 1e-3) / one / most
    power = 10.0 ** math.floor(math.log10(least))
    step = next(s for s in STEPS if s * power >= least * (1.0 - 1e-9)) * power * one
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(n * step for n in range(first, max(last, first + 1) + 1))
