"""Beam axles on leaf springs with equalisers: heights under load, even sharing, and where the hangers push. SI."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from generator.calc.record import Floats, Quantity, Working, formula, sure
from generator.calc.trials import CONFIDENCES, P95, Trials
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Frame
from generator.spec.models.trailer import Leaf as LeafPart

G = 9.80665
"""Standard gravity, m/s2. Source: ISO 80000-3 (exact by convention)."""


@formula("Rate of one spring within its band", "k_s = k*s_k", "N/m:spring", "stated rate and its band")
def SPRING_RATE(k: Floats, s_k: Floats) -> Floats:
    return k * s_k


@formula(
    "Spring pressed by its load",
    "y = 9.80665*(N_m - U_m)/(2*k_s)",
    "m",
    "two linear springs carry what of the axle load is not unsprung",
)
def PRESSED(N_m: Floats, U_m: Floats, k_s: Floats) -> Floats:
    return G * (N_m - U_m) / (2 * k_s)


@formula("Beam of the axle above ground", "z_b = r_t - drop", "m", "height chain of tyre and axle")
def BEAM_HEIGHT(r_t: Floats, drop: Floats) -> Floats:
    return r_t - drop


@formula(
    "Eyes of springs that lie over the axle, above ground",
    "z_e = z_b + d_b/2 + seat + pack + arch - y",
    "m",
    "height chain of seat, leaves and arch",
)
def EYES_OVER(z_b: Floats, d_b: Floats, seat: Floats, pack: Floats, arch: Floats, y: Floats) -> Floats:
    return z_b + d_b / 2 + seat + pack + arch - y


@formula(
    "Eyes of springs that lie under the axle, above ground",
    "z_e = z_b - d_b/2 - seat + arch - y",
    "m",
    "height chain of seat and arch; the main leaf meets the seat",
)
def EYES_UNDER(z_b: Floats, d_b: Floats, seat: Floats, arch: Floats, y: Floats) -> Floats:
    return z_b - d_b / 2 - seat + arch - y


@formula("Main deck above ground at the axle group", "z_d = z_e + hanger - zeta_r", "m", "height chain of hangers")
def DECK_ON_HANGERS(z_e: Floats, hanger: Floats, zeta_r: Floats) -> Floats:
    return z_e + hanger - zeta_r


@formula("Travel left to the stop", "j = bump - y", "m", "travel from the unloaded spring, less what is used")
def BUMP_LEFT(bump: Floats, y: Floats) -> Floats:
    return bump - y


@dataclass(frozen=True, slots=True, eq=False)
class Springs:
    """Leaf springs of the spec as quantities, m and N/m; `over` tells whether they lie over the axle."""

    over: bool
    drop: Quantity
    tube: Quantity
    seat: Quantity
    pack: Quantity
    arch: Quantity
    rate: Quantity
    hanger: Quantity
    bump: Quantity
    under_rail: Quantity


def springs(part: LeafPart, frame: Frame, trials: Trials, data: Reference) -> Springs:
    """The springs of the spec; the band of a rate that states none is a default of the reference data."""
    at = "trailer.yaml running_gear.suspension"
    rate = trials.given("k", part.rate, "N/m:spring", path=f"{at}.rate")
    if part.rate.shape == "sure":
        rate = Working()(SPRING_RATE, k=rate, s_k=trials.assumed("s_k", data.defaults["leaf.rate_factor"]))
    return Springs(
        part.mounting == "over the axle",
        trials.given("drop", part.drop, "m", path=f"{at}.drop"),
        trials.given("d_b", part.tube, "m", path=f"{at}.tube"),
        trials.given("seat", part.seat, "m", path=f"{at}.seat"),
        trials.given("pack", part.pack, "m", path=f"{at}.pack"),
        trials.given("arch", part.arch, "m", path=f"{at}.arch"),
        rate.named("k_s"),
        trials.given("hanger", part.hanger, "m", path=f"{at}.hanger"),
        trials.given("bump", part.bump, "m", path=f"{at}.bump"),
        trials.given("zeta_r", frame.rail_underside, "m", path="trailer.yaml frame.rail_underside"),
    )


def eyes(w: Working, s: Springs, radius: Quantity, pressed: Quantity) -> Quantity:
    """Height of the spring eyes above ground, m."""
    beam = w(BEAM_HEIGHT, r_t=radius, drop=s.drop)
    if s.over:
        return w(EYES_OVER, z_b=beam, d_b=s.tube, seat=s.seat, pack=s.pack, arch=s.arch, y=pressed)
    return w(EYES_UNDER, z_b=beam, d_b=s.tube, seat=s.seat, arch=s.arch, y=pressed)


def sharing(n: int, trials: Trials, data: Reference) -> tuple[Quantity, ...]:
    """Spring load of each of `n` axles over an even share: 1, with what friction in the rockers holds back.

    The shares of one trial sum to `n`: what one rocker holds back from an axle its neighbours carry. Each axle alone
    has the spread of the default as its P5 and P95.
    """
    row = data.defaults["leaf.sharing"]
    basis = CONFIDENCES[row.confidence]
    if n == 1 or trials.count == 0:
        return tuple(sure("f_i", 1.0, "1", basis, (row.id,)) for _ in range(n))
    z = np.stack([trials.normals(f"{row.id}.{i}") for i in range(n)])
    z = (z - z.mean(axis=0)) * np.sqrt(n / (n - 1))
    spread = (row.high - row.low) / (2.0 * P95)
    return tuple(
        Quantity("f_i", np.concatenate(([1.0], 1.0 + spread * own)), "1", basis, frozenset({row.id})) for own in z
    )


def equalised(stations: Sequence[float], eye: float) -> tuple[tuple[float, float, float], ...]:
    """Hanger forces of leaf springs with equalisers, as shares of the group: station (m), share, no lever arm.

    End hangers carry half a spring's load, the equalisers between two springs a whole one's. `stations` of the axles,
    `eye` to eye length of a spring, m.
    """
    n = len(stations)
    between = [(a + b) / 2 for a, b in pairwise(stations)]
    ends = ((stations[0] - eye / 2, 0.5 / n, 0.0), (stations[-1] + eye / 2, 0.5 / n, 0.0))
    return (ends[0], *((x, 1.0 / n, 0.0) for x in between), ends[1])
