"""What ball, axles and sides carry in every towed state, trailer level. Loads at the ground in kg, stations in m.

Rubber-torsion axles do not share: each takes what its own stiffness gives it, and a ball off its level height (see
`attitude`) shifts load between them. Leaf springs on equalisers share evenly but for friction.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import leaf
from generator.calc.topics import suspension as sus
from generator.calc.topics.coupled import coupled
from generator.calc.topics.lateral import TRACK
from generator.calc.topics.masses import DESIGN, StateMass, summed
from generator.calc.topics.rides import MEAN_LOAD, Ride, hitch_station
from generator.calc.trials import Trials
from generator.model.types import Model, State
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.models.trailer import KingPin

STATICS = "statics: moments about the ball"


@formula("Sprung load on the axles", "A_s = (M_f*(x_f - x_h) + M_r*(x_r - x_h))/(x_a - x_h)", "kg", STATICS)
def SPRUNG_GROUP(M_f: Floats, x_f: Floats, x_h: Floats, M_r: Floats, x_r: Floats, x_a: Floats) -> Floats:
    return (M_f * (x_f - x_h) + M_r * (x_r - x_h)) / (x_a - x_h)


@formula("Load on the ball", "H = M_f + M_r - A_s", "kg", "statics: what the springs do not carry")
def HITCH(M_f: Floats, M_r: Floats, A_s: Floats) -> Floats:
    return M_f + M_r - A_s


@formula("Share on the ball", "s_h = H/W", "%", "definition")
def SHARE(H: Floats, W: Floats) -> Floats:
    return H / W


@formula(
    "Load of one axle at the ground",
    "N_i = A_s*k_i/K + U_i",
    "kg",
    "springs of one group sink alike; the unsprung mass stands on its own tyres",
)
def LEVEL_AXLE(A_s: Floats, k_i: Floats, K: Floats, U_i: Floats) -> Floats:
    return A_s * k_i / K + U_i


@formula(
    "Load of one axle on equalisers, at the ground",
    "N_i = f_i*A_s/n + U_i",
    "kg",
    "rockers between the springs make the spring loads equal but for their friction",
)
def EQUALISED_AXLE(f_i: Floats, A_s: Floats, n: Floats, U_i: Floats) -> Floats:
    return f_i * A_s / n + U_i


@formula(
    "Load of one axle, axles that share evenly",
    "N_e = (A - U)/n + U_i",
    "kg",
    "rockers between the springs make the spring loads equal",
)
def SHARING_AXLE(A: Floats, U: Floats, n: Floats, U_i: Floats) -> Floats:
    return (A - U) / n + U_i


@formula(
    "More on one side of an axle than half its load",
    "D_i = W*y_g*k_i*t_i/K_t",
    "kg",
    "the ball resists no roll: the axles carry it by stiffness and track",
)
def SIDE_SHIFT(W: Floats, y_g: Floats, k_i: Floats, t_i: Floats, K_t: Floats) -> Floats:
    return W * y_g * k_i * t_i / K_t


@formula("Load of the right tyre", "R_i = N_i/2 + D_i", "kg", "statics")
def RIGHT(N_i: Floats, D_i: Floats) -> Floats:
    return N_i / 2 + D_i


@formula("Load of the left tyre", "L_i = N_i/2 - D_i", "kg", "statics")
def LEFT(N_i: Floats, D_i: Floats) -> Floats:
    return N_i / 2 - D_i


@formula(
    "Difference between the sides, share of the load on the wheels", "b = 2*W*max(y_g, -y_g)/(t*A)", "%", "statics"
)
def IMBALANCE(W: Floats, y_g: Floats, t: Floats, A: Floats) -> Floats:
    return 2 * W * np.maximum(y_g, -y_g) / (t * A)


@dataclass(frozen=True, slots=True, eq=False)
class StateLoads:
    """Loads of ball, axles and sides in one towed state, trailer level; kg and m. `steps` is the working up to
    `axles`, `sprung_steps` that up to the sprung load.
    """

    at: StateMass
    x_h: Quantity
    x_a: Quantity
    tracks: tuple[Quantity, ...]
    sprung_group: Quantity
    hitch: Quantity
    share: Quantity
    group: Quantity
    axles: tuple[Quantity, ...]
    shifts: tuple[Quantity, ...]
    left: tuple[Quantity, ...]
    right: tuple[Quantity, ...]
    steps: tuple[Step, ...]
    side_steps: tuple[Step, ...]
    sprung_steps: tuple[Step, ...]
    sharing: tuple[Quantity, ...] = ()
    """Spring load of each axle over an even share, where the axles share; empty where they do not."""

    @property
    def state(self) -> State:
        """The load state."""
        return self.at.state

    @property
    def mass(self) -> Quantity:
        """Mass of the trailer, kg."""
        return self.at.mass

    def own_side_steps(self, n: int) -> tuple[Step, ...]:
        """Of `side_steps`: the stiffness against roll, and the shift on axle `n` (from 1)."""
        return (self.side_steps[1], self.side_steps[1 + n])

    @property
    def sprung_mass(self) -> Quantity:
        """Mass carried by ball and springs, kg."""
        return self.at.sprung_mass

    @property
    def sprung_x(self) -> Quantity:
        """Station of its centre, m."""
        return self.at.sprung_x

    @property
    def sprung_zeta(self) -> Quantity:
        """Height of its centre above the main-deck top, m."""
        return self.at.sprung_zeta


def level_loads(model: Model, at: Mapping[str, StateMass], trials: Trials, data: Reference) -> dict[str, StateLoads]:
    """Loads of every towed state with the trailer level, kg."""
    gear, tracks = sus.gear(model, trials, data), _tracks(model, trials)
    x_h, stations = hitch_station(model, trials), sus.acting(model)
    sharing = leaf.sharing(len(stations), trials, data) if sus.shares_evenly(model) else ()
    return {s.id: _level(stations, at[s.id], x_h, gear, tracks, sharing) for s in model.states if s.towed}


def _tracks(model: Model, trials: Trials) -> tuple[Quantity, ...]:
    gear, at = model.spec.trailer.running_gear, "trailer.yaml running_gear"
    offset = trials.given("o", gear.wheel.offset, "m", path=f"{at}.wheel.offset")
    return tuple(
        Working()(TRACK, h_f=trials.given("h_f", a.hub_face, "m", path=f"{at}.axles.{n}.hub_face"), o=offset)
        for n, a in enumerate(gear.axles, start=1)
    )


def _level(
    stations: Sequence[float],
    at: StateMass,
    x_h: Quantity,
    gear: sus.Gear,
    tracks: tuple[Quantity, ...],
    sharing: tuple[Quantity, ...],
) -> StateLoads:
    rates = _rates(stations, at, x_h, gear)
    w = Working(list(at.steps))
    K = _total("K", rates)
    x_a = w.procedure(
        "Station at which the axle springs act together",
        "The mean of the axle stations, weighted with the stiffness of each axle.",
        "mechanics of springs in parallel",
        _weighted(stations, rates),
        (),
    )
    A_s = w(SPRUNG_GROUP, M_f=at.fixed_mass, x_f=at.fixed_x, x_h=x_h, M_r=at.moving_mass, x_r=at.moving_x, x_a=x_a)
    before = tuple(w.steps)
    H = w(HITCH, M_f=at.fixed_mass, M_r=at.moving_mass, A_s=A_s)
    share = w(SHARE, H=H, W=at.mass)
    if sharing:
        n = sure("n", float(len(stations)), "1")
        axles = tuple(w(EQUALISED_AXLE, f_i=f, A_s=A_s, n=n, U_i=u) for f, u in zip(sharing, at.unsprung, strict=True))
    else:
        axles = tuple(w(LEVEL_AXLE, A_s=A_s, k_i=k, K=K, U_i=u) for k, u in zip(rates, at.unsprung, strict=True))
    side = Working()
    group = summed("A", axles, side, "Load of all axles")
    K_t = _total(
        "K_t", [combine("k", k.values * t.values**2, "N/m:spring", (k, t)) for k, t in zip(rates, tracks, strict=True)]
    )
    K_t = side.procedure(
        "Stiffness against roll",
        "The sum over the axles of stiffness times track squared.",
        "mechanics of springs in parallel",
        Quantity("K_t", K_t.values, "N*m/rad", K_t.basis, K_t.rests_on),
        (),
    )
    shifts = tuple(
        side(SIDE_SHIFT, W=at.mass, y_g=at.y, k_i=k, t_i=t, K_t=K_t) for k, t in zip(rates, tracks, strict=True)
    )
    pairs = list(zip(axles, shifts, strict=True))
    return StateLoads(
        at,
        x_h,
        x_a,
        tracks,
        A_s,
        H,
        share,
        group,
        axles,
        shifts,
        tuple(side(LEFT, N_i=n, D_i=d) for n, d in pairs),
        tuple(side(RIGHT, N_i=n, D_i=d) for n, d in pairs),
        tuple(w.steps),
        tuple(side.steps),
        before,
        sharing,
    )


def _rates(stations: Sequence[float], at: StateMass, x_h: Quantity, gear: sus.Gear) -> tuple[Quantity, ...]:
    """Stiffness of each axle at its load, from the load the group would carry at the plain mean of its stations."""
    w = Working()
    mean = sure("x_a", sum(stations) / len(stations), "m")
    sprung = w(SPRUNG_GROUP, M_f=at.fixed_mass, x_f=at.fixed_x, x_h=x_h, M_r=at.moving_mass, x_r=at.moving_x, x_a=mean)
    group = _total("A", (sprung, *at.unsprung))
    load = w(MEAN_LOAD, A=group, n=sure("n", float(len(stations)), "1"))
    return sus.rates(w, gear, sus.giving(w, gear, load))


def _weighted(stations: Sequence[float], rates: Sequence[Quantity]) -> Quantity:
    """Stiffness-weighted mean station; axles alike give their plain mean whatever the stiffness."""
    mean = sum(stations) / len(stations)
    total = sum(k.values for k in rates)
    off = sum(k.values * (x - mean) for k, x in zip(rates, stations, strict=True))
    with np.errstate(all="ignore"):
        return combine("x_a", np.asarray(mean + off / total), "m", rates)


def _total(symbol: str, given: Sequence[Quantity]) -> Quantity:
    return sus.total(symbol, given)


def axles(
    model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> Findings:
    """Hitch, group, axle and side loads of every towed state, where the axles stand, and the balance of the sides."""
    quantities = [
        *_stations(model, loads[DESIGN]),
        *(r for x in loads.values() for r in _reported(x, rides[x.state.id], coupled(model).on)),
    ]
    return Findings(tuple(quantities), (_balance(model, loads[DESIGN], trials, data),))


def _stations(model: Model, travel: StateLoads) -> Iterator[Reported]:
    for n, x in enumerate(model.axle_stations, start=1):
        yield report(
            f"axles.station.{n}",
            f"Axle {n}, station of its spindles at the travel load",
            sure("x", x, "m"),
            fixed_by_welding=True,
        )
    yield report("axles.group", "Middle of the axle group, station", travel.x_a, fixed_by_welding=True)
    spread = model.axle_stations[-1] - model.axle_stations[0]
    unsprung = travel.at.unsprung
    count = sure("n", float(len(unsprung)), "1")
    if not travel.sharing:
        shared = Working()(SHARING_AXLE, A=travel.group, U=sus.total("U", unsprung), n=count, U_i=unsprung[0])
        yield report("axles.shared", "Each axle at the travel load, if axles shared evenly (for comparison)", shared)
    yield report("axles.spread", "First axle to last", sure("s", spread, "m"), fixed_by_welding=True)


def _reported(x: StateLoads, ride: Ride, on: str) -> Iterator[Reported]:
    id, title = f"state.{x.state.id}", x.state.title.lower()
    height = combine("z", ride.deck.values + x.at.zeta.values, "m", (ride.deck, x.at.zeta))
    yield report(f"{id}.cg.z", f"Centre of mass above ground, {title}", height, "up")
    yield report(f"{id}.hitch", f"Load on the {on}, {title}", x.hitch)
    yield report(f"{id}.hitch_share", f"Share on the {on}, {title}", x.share)
    yield report(f"{id}.group", f"Load on all axles, {title}", x.group)
    for n, (load, left, right) in enumerate(zip(x.axles, x.left, x.right, strict=True), start=1):
        yield report(f"{id}.axle.{n}", f"Axle {n}, {title}", load)
        yield report(f"{id}.axle.{n}.left", f"Axle {n}, left tyre, {title}", left)
        yield report(f"{id}.axle.{n}.right", f"Axle {n}, right tyre, {title}", right)


def _balance(model: Model, travel: StateLoads, trials: Trials, data: Reference) -> Check:
    w = Working(list(travel.side_steps[:1]))
    b = w(IMBALANCE, W=travel.mass, y_g=travel.at.y, t=travel.tracks[0], A=travel.group)
    if isinstance(model.spec.trailer.coupling, KingPin):
        w.procedure(
            "The same on a plate",
            "The plate under a king pin holds some roll that a ball would not; nothing is taken off for it, so the "
            "difference between the sides is an upper bound.",
            "statics",
            b,
            (),
        )
    about = About(
        "Sides carry alike",
        "axles",
        "common practice, no source",
        "The heavy side overloads its tyres first and the house leans; no spring adjusts it away.",
        "The designer: move tanks, stove or battery to the light side.",
        levers=("trailer.running_gear.wheel.offset",),
    )
    return Check(
        "side.balance", about, DESIGN, compare(b, trials.assumed("b_max", data.defaults["side.imbalance"]), "<=", w)
    )
