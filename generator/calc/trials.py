"""Trials: one recorded seed, normals from raw bits, so that every run of every command draws the same numbers."""

import math
import zlib
from functools import cache

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Basis, Floats, Quantity, sure
from generator.records import dataclass
from generator.reference.types import Default
from generator.spec.measure import Measure

SEED = 20261125
COUNT = 10_000
P95 = 1.6448536269514722
"""Standard normal deviate at 95 %: "+/-" in a spec means P5 to P95."""

BASES = {
    "measured": Basis.MEASURED,
    "quoted": Basis.QUOTED,
    "table": Basis.TABLE,
    "estimate": Basis.ESTIMATE,
    "placeholder": Basis.PLACEHOLDER,
}
CONFIDENCES = {"read": Basis.TABLE, "computed": Basis.TABLE, "memory": Basis.MEMORY, "practice": Basis.ESTIMATE}


@dataclass(frozen=True, slots=True)
class Trials:
    """`count` trials from `seed`; count 0 gives the nominal design alone."""

    seed: int = SEED
    count: int = COUNT

    def bits(self, name: str) -> NDArray[np.uint16]:
        """One 16-bit number per trial (count,) from the stream called `name`; streams do not touch each other."""
        seed = np.random.SeedSequence([self.seed, zlib.crc32(name.encode())])
        raw = np.random.PCG64(seed).random_raw(-(-self.count // 4))
        return np.ascontiguousarray(raw, dtype="<u8").view("<u2")[: self.count]

    def normals(self, name: str) -> Floats:
        """Independent standard normals (count,) of the stream called `name`."""
        return deviates()[self.bits(name)]

    def spread(self, name: str, nominal: float, low: float, high: float, shape: str) -> Floats:
        """Nominal first, then the trials of one value (1 + count,); a sure value stays alone (1,)."""
        if shape in ("sure", "unknown") or self.count == 0:
            return np.array([nominal])
        z = self.normals(name)
        return np.concatenate(([nominal], spread_of(z, nominal, low, high, shape)))

    def given(self, symbol: str, measure: Measure, unit: str, basis: str = "quoted", path: str = "") -> Quantity:
        """A value of the spec as a quantity; an unknown one is NaN and names `path` (`unknown:tow.yaml bed_rail`)."""
        values = self.spread(path or symbol, measure.nominal, measure.low, measure.high, measure.shape)
        rests_on = frozenset() if measure.known else frozenset({f"unknown:{path or measure.origin or symbol}"})
        return Quantity(symbol, values, unit, BASES[basis], rests_on, measure.origin)

    def assumed(self, symbol: str, default: Default) -> Quantity:
        """A default as a quantity that rests on its row of the register; bounds are read as uniform."""
        basis = CONFIDENCES[default.confidence]
        if default.low == default.high or self.count == 0:
            return sure(symbol, default.value, default.unit, basis, (default.id,), default.source)
        uniform = normal_cdf(self.normals(default.id))
        values = np.concatenate(([default.value], default.low + (default.high - default.low) * uniform))
        return Quantity(symbol, values, default.unit, basis, frozenset({default.id}), default.source)


def spread_of(z: Floats, nominal: float, low: float, high: float, shape: str) -> Floats:
    """Values of standard normals `z`: triangular, or normal with P5 `low` and P95 `high`, cut at 3 sd and at 0."""
    if shape == "normal":
        values = nominal + np.clip(z, -3.0, 3.0) * (high - low) / (2.0 * P95)
        return np.maximum(values, 0.0) if nominal >= 0.0 else values
    return triangular(z, nominal, low, high)


def triangular(z: Floats, nominal: float | Floats, low: float | Floats, high: float | Floats) -> Floats:
    """Triangular values of standard normals `z`, from `low` over the likeliest, `nominal`, to `high`."""
    u, width = normal_cdf(z), high - low
    rising = low + np.sqrt(u * width * (nominal - low))
    falling = high - np.sqrt((1.0 - u) * width * (high - nominal))
    return np.where(u * width < nominal - low, rising, falling)


def normal_cdf(z: Floats) -> Floats:
    """Standard normal distribution function, by the same table (error under 2e-7)."""
    _, phi = _normal_table()
    # The table's steps are even, so the place is found by arithmetic: ten times quicker than a search.
    steps = (np.clip(z, -8.0, 8.0) + 8.0) * 500.0
    i = np.minimum(steps.astype(np.int64), len(phi) - 2)
    out: Floats = phi[i] + (steps - i) * (phi[i + 1] - phi[i])
    return out


@cache
def deviates() -> Floats:
    """Standard normals at the middles of 65 536 equal steps of probability (largest 4.3)."""
    z, phi = _normal_table()
    return np.interp((np.arange(65536) + 0.5) / 65536, phi, z)


@cache
def _normal_table() -> tuple[Floats, Floats]:
    z: Floats = np.arange(-4000, 4001, dtype=np.float64) * 0.002
    return z, np.array([0.5 * math.erfc(-v / math.sqrt(2.0)) for v in z])
