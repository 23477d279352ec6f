"""A beam from break to break: shear, moment, slope and movement by running sums. N, N m, m; see `beam` for signs."""

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Floats
from generator.records import dataclass

Terms = tuple[Floats, Floats, int]
"""Part of a moment: size_i <x - station_i>^power / power!, summed."""


@dataclass(frozen=True, slots=True, eq=False)
class Nodes:
    """State just behind each break: load slope g, load q, shear v, moment m, slope and movement that bending adds.

    `force` and `couple` are the jumps of shear and moment there, `flex` is 1/(E I) from there on.
    """

    x: Floats
    g: Floats
    q: Floats
    v: Floats
    m: Floats
    slope: Floats
    w: Floats
    force: Floats
    couple: Floats
    flex: Floats

    def moment(self, x: Floats, side: Literal["left", "right"]) -> Floats:
        """Moment just ahead (`left`) or just behind (`right`) of each station."""
        i, t = self._from(x, side)
        return self.m[i] + t * (self.v[i] + t * (self.q[i] / 2.0 + t * self.g[i] / 6.0))

    def shear(self, x: Floats, side: Literal["left", "right"]) -> Floats:
        """Shear just ahead (`left`) or just behind (`right`) of each station."""
        i, t = self._from(x, side)
        return self.v[i] + t * (self.q[i] + t * self.g[i] / 2.0)

    def bent(self, x: Floats) -> tuple[Floats, Floats]:
        """Movement and slope that bending adds behind the front end."""
        i, t = self._from(x, "right")
        m, v, q, g = self.m[i], self.v[i], self.q[i], self.g[i]
        slope = self.slope[i] + self.flex[i] * t * (m + t * (v / 2.0 + t * (q / 6.0 + t * g / 24.0)))
        bend = self.flex[i] * t**2 * (m / 2.0 + t * (v / 6.0 + t * (q / 24.0 + t * g / 120.0)))
        return self.w[i] + self.slope[i] * t + bend, slope

    def _from(self, x: Floats, side: Literal["left", "right"]) -> tuple[NDArray[np.int64], Floats]:
        i = np.clip(np.searchsorted(self.x, x, side=side) - 1, 0, len(self.x) - 1)
        return i, x - self.x[i]


def nodes(front: float, rear: float, runs: Sequence[tuple[float, float]], terms: Sequence[Terms]) -> Nodes:
    """Forces and bending from break to break of a beam from `front` to `rear` (m), front end held level at nil.

    `runs` are (station m, E I in N m2 from there on), front first.
    """
    x = distinct([np.array([front, rear, *(s for s, _ in runs)]), *(t[0] for t in terms)])
    jumps = np.zeros((4, len(x)))
    for stations, sizes, power in terms:
        np.add.at(jumps[power], np.searchsorted(x, stations), sizes)
    flex = 1.0 / np.array([ei for _, ei in runs])
    flex = flex[np.clip(np.searchsorted(np.array([s for s, _ in runs]), x, side="right") - 1, 0, None)]
    t = np.diff(x)
    g = np.cumsum(jumps[3])
    q = np.cumsum(jumps[2] + _after(g[:-1] * t))
    v = np.cumsum(jumps[1] + _after(t * (q[:-1] + t * g[:-1] / 2.0)))
    m = np.cumsum(jumps[0] + _after(t * (v[:-1] + t * (q[:-1] / 2.0 + t * g[:-1] / 6.0))))
    a, b, c, d, e = m[:-1], v[:-1], q[:-1], g[:-1], flex[:-1]
    slope = np.cumsum(_after(e * t * (a + t * (b / 2.0 + t * (c / 6.0 + t * d / 24.0)))))
    bend = e * t**2 * (a / 2.0 + t * (b / 6.0 + t * (c / 24.0 + t * d / 120.0)))
    w = np.cumsum(_after(slope[:-1] * t + bend))
    return Nodes(x, g, q, v, m, slope, w, jumps[1], jumps[0], flex)


def _after(steps: Floats) -> Floats:
    return np.concatenate(([0.0], steps))


def distinct(parts: Sequence[Floats]) -> Floats:
    """The different numbers among some arrays, in order; `np.unique` would load masked arrays first (10 ms)."""
    x = np.sort(np.concatenate(parts))
    new = np.ones(len(x), dtype=np.bool_)
    new[1:] = x[1:] != x[:-1]
    return x[new]
