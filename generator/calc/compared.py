"""Records of designs set side by side, the base first, then each option, and how they are told. SI; money."""

import math
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Literal

from generator.records import dataclass
from generator.spec.models.options import Moved
from generator.units import Show

Better = Literal["less", "more", ""]
PASS = "pass"


@dataclass(frozen=True, slots=True)
class Contender:
    """One of the designs: its name, title, why it is looked at, what it changes, and what it asks for besides."""

    id: str
    title: str
    why: str
    moved: tuple[Moved, ...]
    asks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordRow:
    """Something said in words of every design."""

    title: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NumberRow:
    """One result of every design, which way is better, NaN where a design has none; `group`: what it belongs to.

    A value at `end` was looked for no further: the truth lies above it.
    """

    id: str
    title: str
    group: str
    unit: str
    better: Better
    values: tuple[float, ...]
    end: float = math.inf

    def is_above(self, n: int) -> bool:
        """Whether the value of a design is where the search ended."""
        return self.values[n] >= self.end * (1.0 - 1e-9)


@dataclass(frozen=True, slots=True)
class MoneyRow:
    """One amount of every design; None where nothing is priced."""

    id: str
    title: str
    values: tuple[Decimal | None, ...]


@dataclass(frozen=True, slots=True)
class Flip:
    """A check whose status is not the same in all designs; empty where a design has no such check."""

    id: str
    title: str
    statuses: tuple[str, ...]

    def tells(self, among: Sequence[int]) -> bool:
        """Whether it sets these designs apart: unlike where they have it, or with some only and not passed there."""
        held = {self.statuses[n] for n in among}
        return len(held - {""}) > 1 or ("" in held and bool(held - {"", PASS}))

    def comes_or_goes(self, among: Sequence[int]) -> bool:
        """Whether it is passed in some of these designs and absent in the others."""
        return {self.statuses[n] for n in among} == {"", PASS}


@dataclass(frozen=True, slots=True)
class Even:
    """Moves a year at which an option costs the same as the base (NaN: at none), and which is cheaper beyond.

    `is_same`: both cost the same at any number of moves.
    """

    moves: float
    cheaper_beyond: str
    cheaper_at_none: str
    is_same: bool


@dataclass(frozen=True, slots=True)
class Score:
    """The person's weights, those that could not be used, and the weighted sum of each design (0 worst to 1 best).

    `standings`: for each weight, where every design stands in that result between the worst (0) and the best (1).
    """

    weights: tuple[tuple[str, float], ...]
    unused: tuple[str, ...]
    standings: tuple[tuple[float, ...], ...]
    sums: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """All designs side by side."""

    designs: tuple[Contender, ...]
    words: tuple[WordRow, ...]
    numbers: tuple[NumberRow, ...]
    money: tuple[MoneyRow, ...]
    flips: tuple[Flip, ...]
    evens: tuple[Even | None, ...]
    moves: int
    moved_once: bool
    years: int
    use_class: str
    score: Score | None
    base_weighed: bool
    """True where the base rests on scale tickets, which no option can."""


def letter(number: int) -> str:
    """A, B, C ... for options counted from 1; after Z comes A27."""
    return chr(ord("A") + number - 1) if number <= 26 else f"A{number}"


def columns(options: int, most: int) -> Iterator[tuple[int, ...]]:
    """Places of the designs of each table: the base (0), then at most so many options, spread as evenly as they go."""
    tables = -(-options // most)
    each = -(-options // tables) if tables else 0
    for start in range(1, options + 1, each or 1):
        yield (0, *range(start, min(start + each, options + 1)))


def number_of(row: NumberRow, n: int, show: Show) -> str:
    """The value of a design; one at the end of its search lies above it."""
    told = show(row.values[n], row.unit)
    return f"above {told}" if row.is_above(n) else told


def change_of(row: NumberRow, n: int, show: Show) -> str:
    """How far an option lies from the base; nothing for the base, or where either is unknown or only above a value."""
    value, base = row.values[n], row.values[0]
    if n == 0 or not (math.isfinite(value) and math.isfinite(base)) or row.is_above(n) or row.is_above(0):
        return ""
    return show.change(value, base, row.unit)


def dearer(row: MoneyRow, n: int, show: Show) -> str:
    """How much more than the base an option costs; nothing for the base, or where either is not priced."""
    value, base = row.values[n], row.values[0]
    if n == 0 or value is None or base is None:
        return ""
    return "same" if value == base else f"{'+' if value > base else ''}{show.money(value - base)}"
