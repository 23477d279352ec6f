"""How the masses of a list err together, and what readings of their sums say about each of them. kg.

The covariance is that of the trials: one factor common to all lines, one for each group; a measured line errs alone.
It is never written out: all that is needed is its product with a few vectors, which costs one pass over the list.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from generator.calc.record import Floats
from generator.calc.trials import P95
from generator.model.types import Item
from generator.records import dataclass
from generator.reference.load import Reference


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """Masses of a list (kg), their standard deviations, and how they hang together.

    `shared` is 1 for a line that errs with others and 0 for a measured one; `group` counts the groups from 0.
    """

    mass: Floats
    deviation: Floats
    shared: Floats
    group: np.ndarray[tuple[int, ...], np.dtype[np.int64]]
    within: float
    across: float

    def times(self, rows: Floats) -> Floats:
        """Covariance times the rows given (rows, lines), as columns: (lines, rows)."""
        weights: Floats = np.asarray(rows, dtype=np.float64).reshape(-1, self.mass.size)
        own = weights.T * self.deviation[:, None]
        free = own * self.shared[:, None]
        groups = np.zeros((int(self.group.max(initial=-1)) + 1, own.shape[1]))
        np.add.at(groups, self.group, free)
        together = (self.within - self.across) * groups[self.group] + self.across * free.sum(axis=0)
        alone = own - self.within * free
        out: Floats = self.deviation[:, None] * (alone + self.shared[:, None] * together)
        return out

    def error(self, row: Floats) -> float:
        """Standard deviation of the sum with these weights, kg."""
        return float(np.sqrt(max(float(row @ self.times(row)[:, 0]), 0.0)))

    def shares(self, row: Floats) -> Floats:
        """Share of each line in the spread of the sum with these weights; all together 1. NaN without spread."""
        parts = row * self.times(row)[:, 0]
        total = parts.sum()
        with np.errstate(all="ignore"):
            out: Floats = parts / total if total > 0.0 else np.full(parts.shape, np.nan)
        return out


def lines_of(items: Sequence[Item], data: Reference) -> Lines:
    """The items of a design as lines: a triangle has its own deviation, its mode stays the mass; unknown ones are 0."""
    names = {g: n for n, g in enumerate(sorted({i.group for i in items}))}
    return Lines(
        np.nan_to_num(np.array([i.mass for i in items])),
        np.nan_to_num(np.array([_deviation(i) for i in items])),
        np.array([0.0 if i.basis == "measured" else 1.0 for i in items]),
        np.array([names[i.group] for i in items], dtype=np.int64),
        data.defaults["mass.correlation_group"].value,
        data.defaults["mass.correlation_common"].value,
    )


def _deviation(item: Item) -> float:
    """Standard deviation, kg; of a triangle sqrt((a^2 + b^2 + c^2 - ab - ac - bc)/18)."""
    if not item.high > item.low:
        return 0.0
    if item.shape == "triangular":
        a, b, c = item.low, item.high, item.mass
        return float(np.sqrt((a * a + b * b + c * c - a * b - a * c - b * c) / 18.0))
    return (item.high - item.low) / (2.0 * P95)


@dataclass(frozen=True, slots=True, eq=False)
class Update:
    """The list after readings: masses and deviations of its lines (kg), chi-squared of the readings against it."""

    lines: Lines
    rows: Floats
    mass: Floats
    deviation: Floats
    chi2: float
    spread: Floats

    def value(self, row: Floats) -> float:
        """A sum with these weights after the readings, kg."""
        return float(row @ self.mass)

    def error(self, row: Floats) -> float:
        """Its standard error, kg."""
        with_row = self.lines.times(row)[:, 0]
        seen = self.rows @ with_row
        left = float(row @ with_row) - float(seen @ np.linalg.solve(self.spread, seen))
        return float(np.sqrt(max(left, 0.0)))


def update(lines: Lines, rows: Floats, readings: Floats, noise: Floats) -> Update:
    """Covariance-weighted least squares: lines that are least sure, and err with many, take most of what is missing.

    `rows` (readings, lines) are the weights with which each reading adds up the lines, `noise` the covariance of the
    readings. No line falls below nothing: one that would is set to nothing and the rest solved again.
    """
    spread = _spread(lines, rows, noise)
    apart = readings - rows @ lines.mass
    chi2 = float(apart @ np.linalg.solve(spread, apart))
    now, gain = lines, _gain(lines, rows, spread)
    mass = lines.mass + gain @ apart
    while (below := (mass < 0.0)).any():
        now = replace(
            now, mass=np.where(below, 0.0, now.mass), deviation=np.where(below, 0.0, now.deviation)
        )
        spread = _spread(now, rows, noise)
        gain = _gain(now, rows, spread)
        mass = now.mass + gain @ (readings - rows @ now.mass)
    left: Floats = now.deviation**2 - (gain * now.times(rows)).sum(axis=1)
    after: Floats = np.sqrt(np.maximum(left, 0.0))
    return Update(now, rows, mass, after, chi2, spread)


def _spread(lines: Lines, rows: Floats, noise: Floats) -> Floats:
    out: Floats = rows @ lines.times(rows) + noise
    return out


def _gain(lines: Lines, rows: Floats, spread: Floats) -> Floats:
    out: Floats = np.asarray(np.linalg.solve(spread, lines.times(rows).T).T, dtype=np.float64)
    return out
