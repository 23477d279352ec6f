"""Loads and use of every limit with the axle group at any station: what window and sweep of the axles work with.

Loads in kg, stations in m. A limit is a ratio that passes at 1; it either grows or falls as the group moves aft.
"""

from dataclasses import replace
from typing import Any

import numpy as np

from generator.calc.record import Floats
from generator.calc.topics import axles as ax
from generator.calc.topics import suspension as sus
from generator.calc.topics.attitude import PITCHED_AXLE, PITCHED_HITCH, SINK
from generator.calc.topics.rating_chain import WORST_TYRE
from generator.records import dataclass


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
        """The same with nominal and the first `count` trials only."""
        return replace(self, **{name: _few(getattr(self, name), count) for name in BY_TRIAL})


BY_TRIAL = ("x_h", "M_f", "x_f", "M_r", "x_r", "W", "y", "m_s", "heights", "errors", "rates", "unsprung", "seats",
            "sharing")


def _few(arrays: Any, count: int) -> Any:
    return tuple(a[..., : 1 + count] for a in arrays) if isinstance(arrays, tuple) else arrays[..., : 1 + count]


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
