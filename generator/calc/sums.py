"""Sums over all items, nominal and trials, per load state: mass and its moments, for what stays and for what moves.

Everything after works on these few arrays, whatever the number of items. Metres and kilograms; x of what moves with the
axle group counts from the middle of the group.
"""

import math
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Basis, Floats, Quantity
from generator.calc.trials import BASES, P95, Trials, normal_cdf, spread_of
from generator.model.types import Item, Model, State
from generator.reference.load import Reference

BLOCK = 2000
"""Trials worked at a time; keeps the matrix of item masses at a few megabytes."""

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
        columns += [np.eye(len(parts))[n] for n in np.flatnonzero(parts == 2)]
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
        out = np.empty((matrix.shape[1], 1 + masses.count))
        out[:, 0] = np.nan_to_num(masses.nominal) @ matrix
        for start in range(0, masses.count, BLOCK):
            stop = min(start + BLOCK, masses.count)
            out[:, 1 + start : 1 + stop] = matrix.T @ masses.block(start, stop)
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


@dataclass(slots=True, eq=False)
class _Masses:
    """Masses of all items, nominal and by blocks of trials, with one factor per group and one common to all."""

    nominal: Floats
    spread: Floats
    count: int
    own: Floats
    shared: Floats
    factors: Floats
    bits: list[NDArray[np.uint16]]
    skewed: list[tuple[int, Item]]

    def block(self, start: int, stop: int) -> Floats:
        """Masses of trials `start` to `stop`, one row per item (kg)."""
        z = _deviates()[np.stack([b[start:stop] for b in self.bits])]
        z *= self.own[:, None]
        z += self.factors.T @ self.shared[:, start:stop]
        skewed = [(n, spread_of(z[n], i.mass, i.low, i.high, i.shape)) for n, i in self.skewed]
        np.clip(z, -3.0, 3.0, out=z)
        z *= self.spread[:, None]
        z += np.nan_to_num(self.nominal)[:, None]
        np.maximum(z, 0.0, out=z)
        for n, kg in skewed:
            z[n] = kg
        return z


def _masses(items: Sequence[Item], trials: Trials, data: Reference) -> _Masses:
    together, common = data.defaults[GROUP_CORRELATION].value, data.defaults[COMMON_CORRELATION].value
    names = sorted({i.group for i in items})
    factors = np.zeros((1 + len(names), len(items)))
    own = np.ones(len(items))
    for n, i in enumerate(items):
        if i.basis != "measured":
            factors[0, n], factors[1 + names.index(i.group), n] = math.sqrt(common), math.sqrt(together - common)
            own[n] = math.sqrt(1.0 - together)
    spread = np.array([(i.high - i.low) / (2 * P95) if i.shape == "normal" else 0.0 for i in items])
    streams = ("all items", *(f"group {g}" for g in names))
    shared = np.stack([trials.normals(s) for s in streams])
    bits = [_bits(i.id, trials) for i in items] if trials.count else []
    skewed = [(n, i) for n, i in enumerate(items) if i.shape == "triangular" and i.high > i.low]
    return _Masses(
        np.array([i.mass for i in items]), np.nan_to_num(spread), trials.count, own, shared, factors, bits, skewed
    )


def _bits(name: str, trials: Trials) -> NDArray[np.uint16]:
    """One 16-bit number per trial from the stream of this item, so that a new item leaves the others' draws alone."""
    seed = np.random.SeedSequence([trials.seed, zlib.crc32(f"item {name}".encode())])
    raw = np.random.PCG64(seed).random_raw(-(-trials.count // 4))
    return (
        np.column_stack([(raw >> np.uint64(s)) & np.uint64(0xFFFF) for s in (48, 32, 16, 0)]).astype(np.uint16).ravel()
    )


@cache
def _deviates() -> Floats:
    """Standard normals at the middles of 65 536 equal steps of probability (largest 4.3)."""
    z: Floats = np.arange(-4000, 4001, dtype=np.float64) * 0.002
    return np.interp((np.arange(65536) + 0.5) / 65536, normal_cdf(z), z)
