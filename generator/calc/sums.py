"""Sums over all items, nominal and trials, per load state: mass and its moments, for what stays and for what moves.

Everything after works on these few arrays, whatever the number of items. Metres and kilograms; x of what moves with the
axle group counts from the middle of the group.
"""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Basis, Floats, Quantity
from generator.calc.trials import BASES, P95, Trials, deviates, triangular
from generator.model.types import Item, Model, State
from generator.records import dataclass
from generator.reference.load import Reference

DRAWN_SINGLY = 0.99
"""Share of the variance of mass that items drawn one by one make; the small ones of a group err together instead."""
BLOCK, CELLS = 2000, 1_000_000
"""Trials worked at a time, and most masses among them; keeps the matrix of item masses at a few megabytes."""

MOMENTS = 6
"""Mass, its moments about x, y and height, and its second moments in x and y with own-length terms."""

GROUP_CORRELATION, COMMON_CORRELATION, BASIS_SHARE = (
    "mass.correlation_group",
    "mass.correlation_common",
    "mass.basis_share",
)


@dataclass(frozen=True, slots=True, eq=False)
class Sums:
    """Mass (kg) and its moments (kg m, kg m2) as arrays of nominal and trials; worst basis; what it rests on."""

    m: Floats
    mx: Floats
    my: Floats
    mz: Floats
    mxx: Floats
    myy: Floats
    basis: Basis = Basis.TABLE
    rests_on: frozenset[str] = frozenset()

    def quantity(self, symbol: str, name: str, unit: str) -> Quantity:
        """One of the sums as a quantity."""
        return Quantity(symbol, getattr(self, name), unit, self.basis, self.rests_on)

    def moved(self, x: float) -> "Sums":
        """The same things with their x counted from a point `x` further forward (m)."""
        return Sums(
            self.m,
            self.mx + x * self.m,
            self.my,
            self.mz,
            self.mxx + 2 * x * self.mx + x * x * self.m,
            self.myy,
            self.basis,
            self.rests_on,
        )

    def __add__(self, other: "Sums") -> "Sums":
        return Sums(
            self.m + other.m,
            self.mx + other.mx,
            self.my + other.my,
            self.mz + other.mz,
            self.mxx + other.mxx,
            self.myy + other.myy,
            max(self.basis, other.basis),
            self.rests_on | other.rests_on,
        )


@dataclass(frozen=True, slots=True, eq=False)
class StateSums:
    """One load state: what does not move with the axle group, what moves with it but is sprung, what is not sprung."""

    fixed: Sums
    moving: Sums
    unsprung: Sums


@dataclass(frozen=True, slots=True, eq=False)
class AllSums:
    """Sums of all states, unsprung mass of each axle, mass of each group in the travel state (kg)."""

    states: dict[str, StateSums]
    unsprung: tuple[Quantity, ...]
    groups: dict[str, Quantity]


def sums(model: Model, trials: Trials, data: Reference) -> AllSums:
    """Sum the items of a model for all its states."""
    items, table = model.items, _Columns(model)
    values = table.totals(_masses(items, trials, data))
    shared = model.assumed | {GROUP_CORRELATION, COMMON_CORRELATION}
    weak = data.defaults[BASIS_SHARE].value

    def part(state: int, which: int) -> Sums:
        of = [i for i in items if _part(i) == which and i.aboard[state] != 0.0]
        m, mx, my, mz, mxx, myy = values[table.at(state, which)]
        return Sums(m, mx, my, mz, mxx, myy, basis(of, state, weak), shared | unknowns(of))

    found = {s.id: StateSums(part(n, 0), part(n, 1), part(n, 2)) for n, s in enumerate(model.states)}
    axles = [i for i in items if i.unsprung]
    unsprung = tuple(
        Quantity("U_i", values[table.axles.start + n], "kg", BASES[i.basis], shared | unknowns([i]))
        for n, i in enumerate(axles)
    )
    groups: dict[str, Quantity] = {
        g: Quantity("m", values[table.groups.start + n], "kg", Basis.TABLE, shared) for n, g in enumerate(table.names)
    }
    return AllSums(found, unsprung, groups)


def basis(items: Sequence[Item], state: int, weak: float) -> Basis:
    """Worst basis of items that, with all worse ones, make more than the share `weak` of the mass aboard."""
    kg = {b: 0.0 for b in Basis}
    for i in items:
        of = max(BASES[i.basis], Basis.MEMORY) if i.memory else BASES[i.basis]
        kg[of] += 0.0 if math.isnan(i.mass * i.aboard[state]) else abs(i.mass * i.aboard[state])
    limit, so_far = weak * sum(kg.values()), 0.0
    for b in sorted(kg, reverse=True):
        so_far += kg[b]
        if so_far > limit:
            return b
    return Basis.MEASURED


def unknowns(items: Sequence[Item]) -> frozenset[str]:
    """Names of the items among these whose mass or place nobody knows."""
    return frozenset(
        f"unknown:{i.origin or i.id}" for i in items if math.isnan(i.mass + i.x + i.y + i.z + sum(i.aboard))
    )


def _part(item: Item) -> int:
    return 2 if item.unsprung else 1 if item.moves else 0


class _Columns:
    """Which column of the product holds which sum; states that carry the same share columns."""

    def __init__(self, model: Model) -> None:
        moments, self.names = _moments(model), sorted({i.group for i in model.items})
        parts = np.array([_part(i) for i in model.items])
        aboard = np.array([i.aboard for i in model.items])
        self._start: dict[tuple[int, int], int] = {}
        columns: list[Floats] = []
        made: dict[bytes, int] = {}
        for state in range(len(model.states)):
            for part in range(3):
                share = np.where(parts == part, aboard[:, state], 0.0)
                key = share.tobytes() + bytes([part])
                if key not in made:
                    made[key] = len(columns)
                    columns += [np.where(share == 0.0, 0.0, share * m) for m in moments.T]
                self._start[state, part] = made[key]
        self.axles = range(len(columns), len(columns) + int((parts == 2).sum()))
        columns += [(np.arange(len(parts)) == n).astype(np.float64) for n in np.flatnonzero(parts == 2)]
        self.groups = range(len(columns), len(columns) + len(self.names))
        travel = aboard[:, _travel(model.states)]
        columns += [np.where(np.array([i.group == g for i in model.items]), travel, 0.0) for g in self.names]
        self._matrix = np.column_stack(columns)

    def at(self, state: int, part: int) -> slice:
        start = self._start[state, part]
        return slice(start, start + MOMENTS)

    def totals(self, masses: "_Masses") -> Floats:
        """All sums, one row per column of the matrix, nominal first: (columns, 1 + trials). NaN where unknown."""
        weighed = (np.isnan(masses.nominal)[:, None] & (self._matrix != 0.0)).any(axis=0)
        unknown = np.isnan(self._matrix).any(axis=0) | weighed
        matrix = np.nan_to_num(self._matrix)
        nominal = np.nan_to_num(masses.nominal) @ matrix
        out = np.empty((matrix.shape[1], 1 + masses.count))
        out[:, 0] = nominal
        rows = masses.rows(matrix)
        step = min(BLOCK, 1 + CELLS // max(len(rows), 1))
        for start in range(0, masses.count, step):
            stop = min(start + step, masses.count)
            block = out[:, 1 + start : 1 + stop]
            np.matmul(rows.T, masses.block(start, stop), out=block)
            block += nominal[:, None]  # here, while the block is in the cache
        out[unknown] = np.nan
        return out


def _moments(model: Model) -> Floats:
    middle = sum(model.axle_stations) / len(model.axle_stations)
    rows = []
    for i in model.items:
        x = i.x - middle if i.moves else i.x
        rows.append((1.0, x, i.y, i.z, x * x + (i.x1 - i.x0) ** 2 / 12, i.y * i.y + i.width**2 / 12))
    return np.array(rows)


def _travel(states: Sequence[State]) -> int:
    return next(n for n, s in enumerate(states) if s.id == "travel")


@dataclass(frozen=True, slots=True, eq=False)
class _Draw:
    """One row of draws: an item by itself (kg), or the small items of a group together (in their deviations)."""

    name: str
    items: tuple[int, ...]
    spread: float
    floor: float
    factors: Floats
    own: float
    skewed: Item | None


@dataclass(frozen=True, slots=True, eq=False)
class _Masses:
    """How masses leave their nominal values: draws with one factor per group and one common to all."""

    nominal: Floats
    deviation: Floats
    count: int
    draws: tuple[_Draw, ...]
    shared: Floats
    bits: NDArray[np.uint16]
    scales: "_Scales"

    def rows(self, matrix: Floats) -> Floats:
        """What one unit of each draw adds to each column: (draws, columns)."""
        small = {d: self.deviation[list(d.items)] @ matrix[list(d.items)] for d in self.draws if len(d.items) > 1}
        rows = [small[d] if d in small else matrix[d.items[0]] for d in self.draws]
        return np.array(rows).reshape(-1, matrix.shape[1])

    def block(self, start: int, stop: int) -> Floats:
        """Departures of trials `start` to `stop` from nominal, one row per draw."""
        z = self.scales.table.take(self.bits[:, start:stop])
        z *= self.scales.own
        z += self.scales.factors @ self.shared[:, start:stop]
        apart = triangular(z[self.scales.skewed], *self.scales.triangle) - self.scales.triangle[0]
        z *= self.scales.spread
        np.maximum(z, self.scales.least, out=z)
        np.minimum(z, self.scales.most, out=z)
        z[self.scales.skewed] = apart
        return z


@dataclass(frozen=True, slots=True, eq=False)
class _Scales:
    """The draws as columns (draws, 1), made once for all blocks: own share, factors, spread, bounds; which are skewed.

    `triangle` holds nominal, least and greatest mass of the skewed ones (kg).
    """

    table: Floats
    own: Floats
    factors: Floats
    spread: Floats
    least: Floats
    most: Floats
    skewed: list[int]
    triangle: tuple[Floats, Floats, Floats]


def _scales(draws: Sequence[_Draw], shared: int) -> _Scales:
    own, spread, floor = (np.array([[getattr(d, name)] for d in draws]).reshape(-1, 1)
                          for name in ("own", "spread", "floor"))
    factors = np.array([d.factors for d in draws]).reshape(-1, shared)
    skewed = [n for n, d in enumerate(draws) if d.skewed is not None]
    kg = np.array([(i.mass, i.low, i.high) for d in draws if (i := d.skewed) is not None]).reshape(-1, 3, 1)
    # A normal is cut at three deviations; scaled bounds cut the scaled value at the same place.
    return _Scales(deviates(), own, factors, spread, np.maximum(-3.0 * spread, floor), 3.0 * spread, skewed,
                   (kg[:, 0], kg[:, 1], kg[:, 2]))


def _masses(items: Sequence[Item], trials: Trials, data: Reference) -> _Masses:
    together, common = data.defaults[GROUP_CORRELATION].value, data.defaults[COMMON_CORRELATION].value
    names = sorted({i.group for i in items})
    deviation = np.nan_to_num(np.array([(i.high - i.low) / (2 * P95) if i.high > i.low else 0.0 for i in items]))

    def drawn(name: str, of: tuple[int, ...], spread: float, skewed: Item | None) -> _Draw:
        first = items[of[0]]
        factors, own = np.zeros(1 + len(names)), 1.0
        if first.basis != "measured":
            factors[0], factors[1 + names.index(first.group)] = math.sqrt(common), math.sqrt(together - common)
            own = math.sqrt(1.0 - together)
        # No mass falls below nothing; small items stop together where the first of them would.
        floor = -min(items[n].mass / float(deviation[n]) for n in of) * spread
        return _Draw(name, of, spread, floor, factors, own, skewed)

    large = _large(deviation)
    draws = [drawn(f"item {i.id}", (n,), float(deviation[n]), i if i.shape == "triangular" else None)
             for n, i in enumerate(items) if deviation[n] > 0.0 and (n in large or i.shape == "triangular")]
    singly = {d.items[0] for d in draws}
    for group in names:
        for measured in (False, True):
            rest = tuple(n for n, i in enumerate(items) if deviation[n] > 0.0 and n not in singly and i.group == group
                         and (i.basis == "measured") == measured)
            if rest:
                spread = 1.0 if len(rest) > 1 else float(deviation[rest[0]])
                draws.append(drawn(f"small items of {group}, measured {measured}", rest, spread, None))
    bits = np.empty((len(draws), trials.count), dtype=np.uint16)
    for n, d in enumerate(draws):
        bits[n] = trials.bits(d.name)
    shared = np.array([trials.normals(name) for name in ("all items", *(f"group {g}" for g in names))])
    return _Masses(np.array([i.mass for i in items]), deviation, trials.count, tuple(draws), shared, bits,
                   _scales(draws, len(shared)))


def _large(deviation: Floats) -> frozenset[int]:
    """The items that make nearly all of the variance: they are drawn one by one, the rest of a group errs as one."""
    order = np.argsort(-deviation, kind="stable")
    share = np.cumsum(deviation[order] ** 2)
    needed = int(np.searchsorted(share, DRAWN_SINGLY * share[-1])) + 1 if len(order) and share[-1] > 0.0 else 0
    return frozenset(int(n) for n in order[:needed])
