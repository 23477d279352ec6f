"""Loads and use of every limit with the axle group at any station: what window and sweep of the axles work with.

Loads in kg, stations in m. A limit is a ratio that passes at 1; it either grows or falls as the group moves aft.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Floats
from generator.calc.topics import axles as ax
from generator.calc.topics import suspension as sus
from generator.calc.topics.attitude import PITCHED_AXLE, PITCHED_HITCH, SINK
from generator.calc.topics.rating_chain import WORST_TYRE
from generator.records import dataclass

Flags = NDArray[np.bool_]
Numbers = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit: its words, whether its ratio grows as the group moves aft."""

    words: str
    grows: bool


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """Everything the sweep needs, as arrays of (states, 1 + trials), for any station of the group."""

    ids: tuple[str, ...]
    titles: tuple[str, ...]
    middle: float
    x_h: Floats
    M_f: Floats
    x_f: Floats
    M_r: Floats
    x_r: Floats
    W: Floats
    y: Floats
    m_s: Floats
    heights: tuple[Floats, Floats, Floats]
    errors: tuple[Floats, Floats]
    rates: tuple[Floats, ...]
    unsprung: tuple[Floats, ...]
    seats: tuple[Floats, ...]
    offsets: tuple[float, ...]
    tracks: tuple[float, ...]
    onward: Floats
    share: tuple[float, float]
    least: float
    hitch: float
    axles: tuple[float, ...]
    tyre: float
    limits: tuple[Limit, ...]
    sharing: tuple[Floats, ...] = ()
    """Spring load of each axle over an even share, where axles share; empty where they do not."""

    def cut(self, count: int) -> "Bench":
        """The same with nominal and the first `count` trials only, in arrays of their own."""
        return self.part(0, 1 + count)

    def part(self, start: int, stop: int) -> "Bench":
        """The same with the columns from `start` to `stop` only: nominal is column 0."""
        return replace(self, **{name: _few(getattr(self, name), slice(start, stop)) for name in BY_TRIAL})


BY_TRIAL = ("x_h", "M_f", "x_f", "M_r", "x_r", "W", "y", "m_s", "heights", "errors", "rates", "unsprung", "seats",
            "sharing")


BLOCK = 2000
"""Trials worked at a time: the arrays of all limits and states stay in the processor's cache."""


def _few(arrays: Any, columns: slice) -> Any:
    """Copies, so that the whole need not be kept for a part."""
    if isinstance(arrays, tuple):
        return tuple(_few(a, columns) for a in arrays)
    return arrays[..., columns].copy()


@dataclass(frozen=True, slots=True, eq=False)
class Loads:
    """Loads for given stations: least and greatest of share and ball load over the ball heights, axles, worst tyres."""

    share: tuple[Floats, Floats]
    hitch: tuple[Floats, Floats]
    axles: tuple[Floats, ...]
    tyres: tuple[Floats, ...]


def loads_at(b: Bench, x: Floats) -> Loads:
    """Loads (kg) with the middle of the group at `x` (m), an array that broadcasts against (states, 1 + trials)."""
    K = sum(b.rates)
    off = sum(k * o for k, o in zip(b.rates, b.offsets, strict=True)) / K
    J = sum(k * (o - off) ** 2 for k, o in zip(b.rates, b.offsets, strict=True))
    x_a = x + off
    A_s = ax.SPRUNG_GROUP.of(b.M_f, b.x_f, b.x_h, b.M_r, b.x_r + (x - b.middle), x_a)
    z_s, z_h, z_p = b.heights
    Q, d_0 = sus.PITCH_MASS.of(b.m_s, z_s, z_h, A_s, z_p), SINK.of(A_s, K)
    sides, shares = [], b.sharing or (np.ones(1),) * len(b.rates)
    for e in b.errors:
        theta = sus.PITCH.of(e, K, x_a - b.x_h, J, Q)
        axles = [
            f * PITCHED_AXLE.of(k, d_0, e, x + o - b.x_h, theta, 0.0) + u
            for f, k, o, u in zip(shares, b.rates, b.offsets, b.unsprung, strict=True)
        ]
        sides.append((PITCHED_HITCH.of(b.W, sum(axles)), axles))
    (H1, N1), (H2, N2) = sides
    H, N = (np.minimum(H1, H2), np.maximum(H1, H2)), [np.maximum(p, q) for p, q in zip(N1, N2, strict=True)]
    K_t = sum(k * t**2 for k, t in zip(b.rates, b.tracks, strict=True))
    tyres = tuple(
        WORST_TYRE.of(n, ax.SIDE_SHIFT.of(b.W, b.y, k, t, K_t), seat)
        for n, k, t, seat in zip(N, b.rates, b.tracks, b.seats, strict=True)
    )
    return Loads((ax.SHARE.of(H[0], b.W), ax.SHARE.of(H[1], b.W)), H, tuple(N), tyres)


def ratios(b: Bench, x: Floats) -> Floats:
    """Use of every limit, one row per limit: at most 1 passes, infinite where what is divided by is not positive."""
    with np.errstate(all="ignore"):
        at = loads_at(b, x)
    onward = b.onward[:, None]

    def over(top: Floats | float, bottom: Floats | float) -> Floats:
        return np.where(np.asarray(bottom) > 0.0, top / bottom, np.where(np.isnan(top + bottom), np.nan, np.inf))

    with np.errstate(all="ignore"):
        rows = [
            np.where(onward, over(b.share[0], at.share[0]), over(b.least, at.hitch[0])),
            np.where(onward, over(at.share[1], b.share[1]), 0.0),
            over(at.hitch[1], b.hitch),
            *(over(n, g) for n, g in zip(at.axles, b.axles, strict=True)),
            *(over(t, b.tyre) for t in at.tyres),
        ]
    return np.array(np.broadcast_arrays(*rows))


def greatest(b: Bench) -> Floats:
    """Greatest use of any limit in any state with the group where it is designed: (1 + trials,)."""
    width, x = b.W.shape[-1], np.array([[b.middle]])
    parts = [ratios(b.part(n, n + BLOCK), x).max(axis=(0, 1)) for n in range(0, width, BLOCK)]
    return np.concatenate(parts)


def kept_at(b: Bench, stations: Floats) -> Floats:
    """Share of all columns that keep every limit in every state, at each station (m, ascending order).

    What falls as the group moves aft is kept from some station on, what grows is kept up to some station. So each trial
    has one run of stations, and both its ends are found by halving: a dozen looks for a thousand stations.
    """
    width, grows = b.W.shape[-1], np.array([limit.grows for limit in b.limits])
    runs = [_run(b.part(n, n + BLOCK), stations, grows) for n in range(0, width, BLOCK)]
    first, after = (np.sort(np.concatenate(ends)) for ends in zip(*runs, strict=True))
    numbers = np.arange(len(stations))
    begun, ended = (np.searchsorted(ends, numbers, side="right") for ends in (first, after))
    out: Floats = (begun - ended) / width
    return out


def _run(b: Bench, stations: Floats, grows: Flags) -> tuple[Numbers, Numbers]:
    """Per trial: number of the first station that keeps all limits, and of the first one behind the last that does."""

    def kept(n: Numbers, rows: Flags) -> Flags:
        return np.asarray(ratios(b, stations[n][None, :])[rows].max(axis=(0, 1)) <= 1.0)

    count = b.W.shape[-1], len(stations)
    first = _first(lambda n: kept(n, ~grows), *count)
    return first, np.maximum(first, _first(lambda n: ~kept(n, grows), *count))


def _first(holds: Callable[[Numbers], Flags], width: int, count: int) -> Numbers:
    """Per trial the first of `count` numbers for which `holds`, as it does for all that follow; `count` if for none."""
    low, high = np.zeros(width, dtype=np.int64), np.full(width, count, dtype=np.int64)
    for _ in range(count.bit_length()):
        middle = np.minimum((low + high) // 2, count - 1)
        yes = holds(middle) & (low < high)
        low, high = np.where(yes | (low >= high), low, middle + 1), np.where(yes, middle, high)
    return low
