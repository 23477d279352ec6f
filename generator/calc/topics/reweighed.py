"""The list after the scale: corrected items in place of those written, and trials that keep to what was read. kg.

The readings do not make every item known: they make their sums known. So an item keeps much of its own spread, and the
trials of all items are moved together until each trial adds up to a reading within the scale's own error.
"""

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace

import numpy as np

from generator.calc.lines import Update
from generator.calc.record import Floats, Quantity
from generator.calc.sums import AllSums, StateSums, Sums, sums
from generator.calc.trials import P95, Trials
from generator.model.types import Item, Model, State
from generator.records import dataclass
from generator.reference.load import Reference

MOMENTS = ("m", "mx", "my", "mz", "mxx", "myy")


@dataclass(frozen=True, slots=True)
class Line:
    """One item before and after the readings: factor on its mass, standard deviations (kg)."""

    factor: float
    before: float
    after: float


@dataclass(frozen=True, slots=True, eq=False)
class Correction:
    """What the tickets that count say of the list: each item of it, and all of them together."""

    lines: Mapping[str, Line]
    update: Update
    noise: Floats


def correction(items: Sequence[Item], update: Update, noise: Floats) -> Correction:
    """The outcome of the least squares by item; `noise` is the covariance of the readings, kg2."""
    rows = zip(items, update.mass, update.lines.deviation, update.deviation, strict=True)
    lines = {
        i.id: Line(float(mass) / i.mass, float(before), float(after))
        for i, mass, before, after in rows
        if i.high > i.low and i.mass > 0.0
    }
    return Correction(lines, update, noise)


def corrected(model: Model, by: Correction | None) -> Model:
    """The design with its items as weighed. An item that a changed spec made heavier keeps its factor."""
    if by is None:
        return model
    return replace(model, items=tuple(_item(i, by.lines.get(i.id), reduced=True) for i in model.items))


def _item(item: Item, line: Line | None, reduced: bool) -> Item:
    if line is None:
        return item
    mass, spread = item.mass * line.factor, P95 * (line.after if reduced else line.before)
    shape = "normal" if spread > 0.0 else "sure"
    return replace(item, mass=mass, low=mass - spread, high=mass + spread, shape=shape)


def weighed_sums(written: Model, trials: Trials, data: Reference, by: Correction | None) -> AllSums:
    """Sums of the list as corrected: nominal by the corrected masses, trials by moving each trial to the readings.

    Source: a draw from the list before the readings, less the gain of the readings times what that draw misses them by,
    is a draw from the list after them (linear Gaussian conditioning).
    """
    if by is None:
        return sums(written, trials, data)
    rows = by.update.rows
    extra = tuple(State(f"reading {n}", "", False, (), "", "") for n in range(len(rows)))
    items = tuple(
        replace(_item(i, by.lines.get(i.id), reduced=False), aboard=(*i.aboard, *map(float, row)))
        for i, row in zip(written.items, rows.T, strict=True)
    )
    drawn = sums(replace(written, items=items, states=(*written.states, *extra)), trials, data)
    missed = np.array([_mass(drawn.states[s.id]) for s in extra])
    missed = missed - missed[:, :1] - _errors(by.noise, trials)
    gains = [sums(_as_gain(written, column), Trials(count=0), data) for column in _gain(by.update).T]
    return _moved(drawn, [s.id for s in written.states], gains, missed)


def _mass(of: StateSums) -> Floats:
    return of.fixed.m + of.moving.m + of.unsprung.m


def _errors(noise: Floats, trials: Trials) -> Floats:
    """Errors of the readings: nothing at nominal, then trials of their covariance, kg."""
    z = np.array([trials.normals(f"error of reading {n}") for n in range(len(noise))])
    return np.concatenate((np.zeros((len(noise), 1)), np.linalg.cholesky(noise) @ z), axis=1)


def _gain(update: Update) -> Floats:
    """What one kilogram missed by each reading puts on each item: (items, readings)."""
    out: Floats = np.asarray(np.linalg.solve(update.spread, update.lines.times(update.rows).T).T, dtype=np.float64)
    return out


def _as_gain(model: Model, column: Floats) -> Model:
    """The design with gains for masses: its sums are what the readings put on each sum."""
    rows = zip(model.items, column, strict=True)
    return replace(
        model, items=tuple(replace(i, mass=float(k), low=float(k), high=float(k), shape="sure") for i, k in rows)
    )


def _moved(drawn: AllSums, ids: Sequence[str], gains: Sequence[AllSums], missed: Floats) -> AllSums:
    def less(values: Floats, per: Sequence[Floats]) -> Floats:
        out: Floats = values - np.array([g[0] for g in per]) @ missed
        return out

    def part(of: Sums, per: Sequence[Sums]) -> Sums:
        m, mx, my, mz, mxx, myy = (less(getattr(of, n), [getattr(g, n) for g in per]) for n in MOMENTS)
        return Sums(m, mx, my, mz, mxx, myy, of.basis, of.rests_on)

    def quantity(q: Quantity, per: Sequence[Quantity]) -> Quantity:
        return replace(q, values=less(q.values, [g.values for g in per]))

    states = {
        id: StateSums(*(
            part(getattr(drawn.states[id], f.name), [getattr(g.states[id], f.name) for g in gains])
            for f in fields(StateSums)
        ))
        for id in ids
    }
    unsprung = tuple(quantity(q, [g.unsprung[n] for g in gains]) for n, q in enumerate(drawn.unsprung))
    groups = {name: quantity(q, [g.groups[name] for g in gains]) for name, q in drawn.groups.items()}
    return AllSums(states, unsprung, groups)
