"""A ball off its level height, and a bracket seat off the others: what that does to ball and axles. kg, m, N/m.

Torsion axles do not share, so both shift load between them; on equalisers neither does, and only the ball's load
answers to its height. The ball is taken at both ends of its tolerance in every
towed state, and a wheel that would lift hangs on the frame instead.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Sense,
    Step,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import suspension as sus
from generator.calc.topics.axles import SHARE, StateLoads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.masses import summed
from generator.calc.topics.rides import Ride
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference

RIGID = "rigid frame on a ball and linear axle springs"
ONWARD = frozenset({"dry", "travel", "travel_wet"})
"""States in which the house goes on the road; bare and shell are delivery moves, which only must not lift the ball."""

STATION = "trailer.running_gear.station"
TOLERANCE = "trailer.running_gear.suspension.hitch_height_tolerance"


@formula("Springs compressed, trailer level", "d_0 = 9.80665*A_s/K", "m", "mechanics of springs in parallel")
def SINK(A_s: Floats, K: Floats) -> Floats:
    return G * A_s / K


@formula("Load of one axle, ball off its height", "N_i = k_i*(d_0 - e + u_i*theta)/9.80665 + U_i", "kg", RIGID)
def PITCHED_AXLE(k_i: Floats, d_0: Floats, e: Floats, u_i: Floats, theta: Floats, U_i: Floats) -> Floats:
    return k_i * (d_0 - e + u_i * theta) / G + U_i


@formula(
    "Load of one axle on equalisers, ball off its height",
    "N_i = f_i*(A_s + K*(u_i*theta - e)/9.80665)/n + U_i",
    "kg",
    "rigid frame on a ball and one group of springs that share evenly but for friction",
)
def PITCHED_EQUALISED(
    f_i: Floats, A_s: Floats, K: Floats, u_i: Floats, theta: Floats, e: Floats, n: Floats, U_i: Floats
) -> Floats:
    return f_i * (A_s + K * (u_i * theta - e) / G) / n + U_i


@formula("Load on the ball, ball off its height", "H = W - A", "kg", "statics: what the axles do not carry")
def PITCHED_HITCH(W: Floats, A: Floats) -> Floats:
    return W - A


@formula(
    "More on one axle whose seats stand lower than the others'",
    "T_i = k_i*delta*(1 - k_i*u_i**2/S_2)/9.80665",
    "kg",
    RIGID,
)
def SEAT_LOAD(k_i: Floats, delta: Floats, u_i: Floats, S_2: Floats) -> Floats:
    return k_i * delta * (1 - k_i * u_i**2 / S_2) / G


@dataclass(frozen=True, slots=True, eq=False)
class Pitched:
    """One towed state with the ball at one end of its tolerance: loads of axles and ball (kg), share, working.

    `own_steps` is the working of each axle alone.
    """

    loads: StateLoads
    ride: Ride
    high: bool
    axles: tuple[Quantity, ...]
    hitch: Quantity
    share: Quantity
    steps: tuple[Step, ...]
    own_steps: tuple[tuple[Step, ...], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Worst:
    """The extreme of a quantity over states and ball heights, trial by trial, and the case that governs at nominal."""

    value: Quantity
    case: Pitched
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Attitudes:
    """Both ball heights of every towed state, and what a low seat adds to each axle (kg)."""

    cases: tuple[Pitched, ...]
    seats: tuple[Quantity, ...]
    seat_steps: tuple[tuple[Step, ...], ...]


def attitudes(model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials) -> Attitudes:
    """Every towed state with the ball high and low, kg."""
    cases = tuple(_pitched(model, loads[id], rides[id], high) for id in loads for high in (True, False))
    workings = tuple(_seat(model, loads["travel"], rides["travel"], n, trials) for n in range(len(model.axle_stations)))
    return Attitudes(cases, tuple(q for q, _ in workings), tuple(steps for _, steps in workings))


def _pitched(model: Model, x: StateLoads, ride: Ride, high: bool) -> Pitched:
    w, side = Working(list(x.sprung_steps)), 0 if high else 1
    e = w.procedure(
        "Ball above its level height",
        "The set height is off by its tolerance; in other states than the one set "
        "level the axles stand higher or lower and the tow vehicle rises or sinks.",
        sus.HITCH_ERROR.source,
        ride.errors[side].named("e"),
        (),
    )
    theta = w.procedure(
        "Pitch, nose up",
        "The pitch at which springs and masses balance about the ball; it grows with the ball's error and falls "
        "with its distance from the axles.",
        sus.PITCH.source,
        ride.pitches[side].named("theta"),
        (e,),
    )
    K = sus.total("K", ride.rates)
    d_0 = w(SINK, A_s=x.sprung_group, K=K)
    shared = len(w.steps)
    behind = arms(model, x)
    if x.sharing:
        n_axles = sure("n", float(len(behind)), "1")
        axles = tuple(
            w(PITCHED_EQUALISED, f_i=f, A_s=x.sprung_group, K=K, u_i=u, theta=theta, e=e, n=n_axles, U_i=m)
            for f, u, m in zip(x.sharing, behind, x.at.unsprung, strict=True)
        )
    else:
        axles = tuple(
            w(PITCHED_AXLE, k_i=k, d_0=d_0, e=e, u_i=u, theta=theta, U_i=m)
            for k, u, m in zip(ride.rates, behind, x.at.unsprung, strict=True)
        )
    if any((np.nan_to_num(n.values) < 0.0).any() for n in axles):
        axles = _hung(w, axles, model, x, ride, e, d_0)
    own = tuple((*w.steps[:shared], *w.steps[shared + n :: len(axles)]) for n in range(len(axles)))
    H = w(PITCHED_HITCH, W=x.mass, A=summed("A", axles, w, "Load of all axles"))
    return Pitched(x, ride, high, axles, H, w(SHARE, H=H, W=x.mass), tuple(w.steps), own)


def arms(model: Model, x: StateLoads) -> tuple[Quantity, ...]:
    """Distance of each axle behind the ball, m."""
    return tuple(
        combine("u_i", np.atleast_1d(station - x.x_h.values), "m", (x.x_h,)) for station in sus.acting(model)
    )


def _hung(
    w: Working, axles: Sequence[Quantity], model: Model, x: StateLoads, ride: Ride, e: Quantity, d_0: Quantity
) -> tuple[Quantity, ...]:
    """Axles again, where a wheel would lift: its unsprung mass hangs on the frame."""
    z_s = ride.deck.values + x.sprung_zeta.values
    given = (
        *(q.values for q in axles),
        *(k.values for k in ride.rates),
        *(u.values for u in arms(model, x)),
        *(m.values for m in x.at.unsprung),
        d_0.values - e.values,
        x.sprung_mass.values,
        x.sprung_x.values - x.x_h.values,
        z_s - ride.ball.values,
        ride.radius.values - ride.ball.values,
    )
    rows = np.array(np.broadcast_arrays(*given))
    n = len(axles)
    loads, springs, behind, hung = (rows[i * n : (i + 1) * n].copy() for i in range(4))
    lifting = (np.nan_to_num(loads) < 0.0).any(axis=0)
    forces = lifted(springs[:, lifting], behind[:, lifting], G * hung[:, lifting], *rows[4 * n :, lifting])
    loads[:, lifting] = forces / G + hung[:, lifting]
    return tuple(
        w.procedure(
            f"Load of axle {i + 1} with a wheel off the ground",
            "Where a spring would pull, the axle hangs on it "
            "with its own mass; the pitch is found by bisection from the moments about the ball.",
            RIGID,
            combine("N_i", loads[i], "kg", (*axles, e)),
            (axles[i],),
        )
        for i in range(n)
    )


def lifted(
    k: Floats, u: Floats, hung: Floats, d: Floats, m_s: Floats, u_s: Floats, above: Floats, below: Floats
) -> Floats:
    """Spring forces (N), one row per axle, when one may hang: no less than minus its unsprung weight `hung` (N).

    k N/m; u, u_s axle and sprung centre behind the ball, d sinking at the ball's line, above and below the heights of
    sprung centre and spindles over the ball (m); m_s sprung mass (kg).
    """
    low, high = np.full(d.shape, -0.5), np.full(d.shape, 0.5)
    for _ in range(48):
        theta = (low + high) / 2
        pull = np.maximum(-hung, k * (d + u * theta))
        turns = (pull * (u + below * theta)).sum(axis=0) > G * m_s * (u_s + above * theta)
        low, high = np.where(turns, low, theta), np.where(turns, theta, high)
    force: Floats = np.maximum(-hung, k * (d + u * (low + high) / 2))
    return force


def _seat(model: Model, x: StateLoads, ride: Ride, n: int, trials: Trials) -> tuple[Quantity, tuple[Step, ...]]:
    if x.sharing:
        return sure("T_i", 0.0, "kg"), ()
    w = Working()
    delta = trials.given(
        "delta",
        model.spec.trailer.running_gear.suspension.seat_tolerance,
        "m",
        path="trailer.yaml running_gear.suspension.seat_tolerance",
    )
    behind = arms(model, x)
    S_2 = w.procedure(
        "Stiffness of the axles about the ball",
        "The sum over the axles of stiffness times distance squared.",
        RIGID,
        combine(
            "S_2",
            np.atleast_1d(sum(k.values * u.values**2 for k, u in zip(ride.rates, behind, strict=True))),
            "N*m/rad",
            (*ride.rates, *behind),
        ),
        (),
    )
    return w(SEAT_LOAD, k_i=ride.rates[n], delta=delta, u_i=behind[n], S_2=S_2), tuple(w.steps)


def worst_axle(cases: Sequence[Pitched], n: int) -> Worst:
    """Greatest load of axle `n` (from 1) over cases, with the working of that axle alone, kg."""
    found = worst(cases, lambda c: c.axles[n - 1])
    return Worst(found.value, found.case, (*found.case.own_steps[n - 1], found.steps[-1]))


def worst(cases: Sequence[Pitched], of: Callable[[Pitched], Quantity], least: bool = False) -> Worst:
    """Greatest (or least) of a quantity over cases, trial by trial; a case nobody can work out governs."""
    sign = -1.0 if least else 1.0
    case = max(cases, key=lambda c: np.nan_to_num(sign * float(of(c).values[0]), nan=np.inf))
    pick = np.minimum if least else np.maximum
    values = pick.reduce(np.broadcast_arrays(*[of(c).values for c in cases]))
    w = Working(list(case.steps))
    value = combine(of(case).symbol, values, of(case).unit, [of(c) for c in cases])
    w.procedure(
        "Least of all" if least else "Greatest of all",
        f"Over all towed states that count here, ball high and low. Governed by: {case.loads.state.title.lower()}, "
        f"ball {'high' if case.high else 'low'}.",
        "enveloping",
        value,
        (of(case),),
    )
    return Worst(value, case, tuple(w.steps))


def hitch_and_axles(model: Model, found: Attitudes, trials: Trials, data: Reference) -> Findings:
    """Each axle and the ball against their ratings and shares, in the worst state with the ball at its worst height."""
    quantities = [
        report(f"axle.{n}.tolerance_load", f"Axle {n}, more load if its seats stand low by their tolerance", q)
        for n, q in enumerate(found.seats, start=1)
        if not sus.shares_evenly(model)
    ]
    quantities += [
        report(f"axle.{n}.worst", f"Axle {n}, worst state, ball at its worst height", worst_axle(found.cases, n).value)
        for n in range(1, len(found.seats) + 1)
    ]
    return Findings(tuple(quantities), (*_ratings(model, found, trials), *_hitch(model, found, trials, data)))


def _ratings(model: Model, found: Attitudes, trials: Trials) -> Iterator[Check]:
    for n, axle in enumerate(model.spec.trailer.running_gear.axles, start=1):
        case = worst_axle(found.cases, n)
        rating = trials.given("G_i", axle.rating, "kg", path=f"trailer.yaml running_gear.axles.{n}.rating")
        about = About(
            f"Axle {n} carries its load",
            "axles",
            "the axle maker's label",
            "An axle over its rating bends, wears its bearings and overheats its tyres; the others do not help it.",
            "The axle maker: rating at the ground for this axle, brake and hub.",
            "The axle maker's rating.",
            True,
            (STATION, TOLERANCE, f"trailer.running_gear.axles.{n - 1}.rating"),
        )
        yield Check(
            f"axle.{n}.rating",
            about,
            case.case.loads.state.id,
            compare(case.value, rating, "<=", Working(list(case.steps))),
        )


def _hitch(model: Model, found: Attitudes, trials: Trials, data: Reference) -> Iterator[Check]:
    words = coupled(model)
    onward = [c for c in found.cases if c.loads.state.id in ONWARD]
    least, most = worst(onward, lambda c: c.share, least=True), worst(onward, lambda c: c.share)
    lightest, heaviest = worst(found.cases, lambda c: c.hitch, least=True), worst(found.cases, lambda c: c.hitch)
    rating = trials.given(
        "H_r", model.spec.trailer.coupling.vertical_rating, "kg", path="trailer.yaml coupling.vertical_rating"
    )
    rows: tuple[tuple[str, str, str, Worst, Quantity, Sense, bool, str, str, tuple[str, ...]], ...] = (
        (
            "hitch.rating",
            f"{words.part.capitalize()} carries the load on the {words.on}",
            f"the {words.part} maker's rating",
            heaviest,
            rating,
            "<=",
            True,
            f"A {words.part} or {words.on} over its vertical rating can part.",
            f"The {words.part} maker: vertical rating at this extension.",
            (STATION, "trailer.coupling.vertical_rating"),
        ),
        (
            "hitch.share_low",
            f"Enough of the trailer's mass on the {words.on}",
            "owner guides of tow vehicles",
            least,
            trials.assumed("s_min", data.defaults[words.share_low]),
            ">=",
            True,
            f"With too little on the {words.on} a trailer sways, and no driver catches it.",
            "Whoever tows: the share the tow vehicle's maker asks for with this coupling.",
            (STATION,),
        ),
        (
            "hitch.share_high",
            f"Not too much of the trailer's mass on the {words.on}",
            "owner guides of tow vehicles",
            most,
            trials.assumed("s_max", data.defaults[words.share_high]),
            "<=",
            False,
            f"With too much on the {words.on} the tow vehicle's rear axle is overloaded and its steering grows light.",
            "Whoever tows: payload and rear axle rating of the tow vehicle.",
            (STATION,),
        ),
        (
            "hitch.positive",
            f"The {words.on} is always pressed down",
            "statics: moments about the axles",
            lightest,
            trials.assumed("H_min", data.defaults["hitch.least"]),
            ">=",
            True,
            "A trailer that lifts its coupler in any towed state, also bare on delivery, tears at it and sways.",
            "The designer and whoever moves the bare trailer and the shell.",
            (STATION,),
        ),
    )
    for id, title, source, case, limit, sense, mandatory, concern, ask, levers in rows:
        about = About(
            title, "hitch", source, concern, ask, f"The makers of {words.part}, {words.on} and tow vehicle.", mandatory,
            levers,
        )
        yield Check(id, about, case.case.loads.state.id, compare(case.value, limit, sense, Working(list(case.steps))))
