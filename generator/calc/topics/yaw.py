"""Swaying: the yaw index for comparing options, damping at the top towing speed, the speed at which it is gone.

Honest status: without a tow vehicle nothing is assessed and a reference pickup serves for comparing options only; with
tyre or inertia data from memory the check is under review at best.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

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
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.road_inputs import Puller, Towed
from generator.calc.topics.suspension import G
from generator.calc.topics.tow import FRONT, FRONT_ADDED, REAR, REAR_ADDED, VEHICLE
from generator.calc.trials import Trials
from generator.calc.yaw_model import Combination, critical_speed, damping
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Default, Reference
from generator.spec.measure import Measure

LOOKED_AT = 300
"""Trials worked through the model: its roots are dear."""
MODEL = "linear model of two bodies joined at the ball: level road, no driver, no roll, no sway control"


@formula(
    "Yaw index",
    "i_y = I_z/(W*(x_g - x_h)*(x_a - x_g))",
    "1",
    "yaw inertia over that of a trailer without slip that would just sway; ordinary trailers reach 1.3 to 2",
)
def YAW_INDEX(I_z: Floats, W: Floats, x_g: Floats, x_h: Floats, x_a: Floats) -> Floats:
    return I_z / (W * (x_g - x_h) * (x_a - x_g))


@formula("Front axle ahead of the tow vehicle's centre of mass", "a_1 = wb*(R_0 + C)/V", "m", "statics")
def FRONT_ARM(wb: Floats, R_0: Floats, C: Floats, V: Floats) -> Floats:
    return wb * (R_0 + C) / V


@formula("Yaw inertia of the tow vehicle", "I_1 = i_1*V*a_1*(wb - a_1)", "kg*m2", "index of its yaw inertia")
def TOW_INERTIA(i_1: Floats, V: Floats, a_1: Floats, wb: Floats) -> Floats:
    return i_1 * V * a_1 * (wb - a_1)


@formula("Speed looked at", "v = V*m_v", "m/s", "margin over the top towing speed")
def SPEED(V: Floats, m_v: Floats) -> Floats:
    return V * m_v


@dataclass(frozen=True, slots=True, eq=False)
class Swaying:
    """One towed state behind one tow vehicle: stations of its axles (m), inputs of the model, how they were found."""

    towed: Towed
    stations: tuple[float, ...]
    inputs: tuple[Quantity, ...]
    steps: tuple[Step, ...]

    def combination(self) -> Combination:
        """The model of the nominal design and of each trial."""
        m1, i1, a, wb, o, front, rear, c_t, c_r, m2, i2, x_g, x_h, *axles = (q.values for q in self.inputs)
        b = wb - a
        arms = np.array([x - x_h for x in self.stations])
        c = np.array(np.broadcast_arrays(*[c_r * G * n for n in axles]))
        return Combination(m1, i1, a, b, b + o, c_t * G * front, c_t * G * rear, m2, i2, x_g - x_h, arms, c)


@dataclass(frozen=True, slots=True, eq=False)
class Ties:
    """What ties the two vehicles to the road: stiffness ratios of tow and trailer tyres, index of the tow vehicle's
    yaw inertia.
    """

    tow: Quantity
    trailer: Quantity
    inertia: Quantity


def yaw(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Yaw index, least damping ratio over the towed states at top speed and a margin, speed without damping (m/s)."""
    few = Trials(trials.seed, min(trials.count, LOOKED_AT))
    vehicle, ties = ri.puller(model, few), said(model, few, data)
    w = Working()
    margin = few.assumed("m_v", data.defaults["yaw.speed_margin"])
    speed = w(SPEED, V=ri.top_speed(model, few, data), m_v=margin)
    worst = _worst(model, states, speed.values[:1], data)
    case = swaying(model, worst.cut(few.count), vehicle, ties)
    w.steps += case.steps
    zeta = damping_of(w, case, speed)
    limit = few.assumed("zeta_min", data.defaults["yaw.damping_least"])
    travel = next(t for t in states if t.state.id == DESIGN)
    quantities = (
        _index(travel),
        report("stability.damping", "Damping ratio of swaying at the top towing speed and a margin", zeta, "down"),
        _critical("stability.critical_speed", "behind this tow vehicle", model, worst, ri.puller, data),
        *_reference(model, travel, speed, few, data),
    )
    return Findings(quantities, (Check("stability.damping", _ABOUT, worst.state.id, compare(zeta, limit, ">=", w)),))


def _worst(model: Model, states: Sequence[Towed], speed: Floats, data: Reference) -> Towed:
    """The state that sways longest at nominal; one nobody can work out governs."""
    still = Trials(count=0)
    vehicle, ties = ri.puller(model, still), said(model, still, data)

    def rank(t: Towed) -> float:
        zeta = damping(swaying(model, t.nominal, vehicle, ties).combination(), speed)
        return float(np.nan_to_num(zeta[0], nan=-np.inf))

    return min(states, key=rank)


def _index(t: Towed) -> Reported:
    index = Working()(YAW_INDEX, I_z=t.yaw_inertia, W=t.mass, x_g=t.x, x_h=t.x_h, x_a=t.x_a)
    return report("stability.yaw_index", "Yaw index, travel load (for comparing options; not a limit)", index)


def _reference(model: Model, t: Towed, speed: Quantity, trials: Trials, data: Reference) -> Iterator[Reported]:
    """Without a tow vehicle, the same behind the reference pickup: only for setting options side by side."""
    if model.spec.tow is None:
        case = swaying(model, t.cut(trials.count), reference_pickup(trials, data), said(model, trials, data))
        title = "Damping ratio behind the reference pickup, travel load (for comparing options only)"
        yield report("stability.reference_damping", title, damping_of(Working(), case, speed), "down")
        words = "behind the reference pickup (for comparing options only)"
        yield _critical("stability.reference_speed", words, model, t, lambda m, s: reference_pickup(s, data), data)


def reference_pickup(trials: Trials, data: Reference) -> Puller:
    """A tow vehicle nobody owns, the same for every option (kg, m)."""
    row = data.defaults
    mass, share = trials.assumed("m", row["yaw.reference_mass"]), trials.assumed("p", row["yaw.reference_front"])
    return Puller(
        combine("F_0", mass.values * share.values, "kg", (mass, share)),
        combine("R_0", mass.values * (1.0 - share.values), "kg", (mass, share)),
        sure("C", 0.0, "kg"),
        trials.assumed("wb", row["yaw.reference_wheelbase"]),
        trials.assumed("o", row["yaw.reference_behind"]),
    )


def said(model: Model, trials: Trials, data: Reference) -> Ties:
    """What the spec says of tyres and inertia, else what is remembered of them."""
    row, tyre = data.defaults, model.spec.trailer.running_gear.tyre
    path = "trailer.yaml running_gear.tyre.cornering"
    return Ties(
        ri.of_vehicle(model, trials, "tyre_cornering", "c_t", row["yaw.cornering_tow"]),
        ri.stated(trials, tyre.cornering, "c_r", row["yaw.cornering_trailer"], path),
        ri.of_vehicle(model, trials, "yaw_index", "i_1", row["yaw.inertia_index"]),
    )


def swaying(model: Model, t: Towed, v: Puller, ties: Ties) -> Swaying:
    """The model of one towed state behind one tow vehicle."""
    w = Working(list(t.steps))
    mass = w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo)
    arm = w(FRONT_ARM, wb=v.wheelbase, R_0=v.rear, C=v.cargo, V=mass)
    inertia = w(TOW_INERTIA, i_1=ties.inertia, V=mass, a_1=arm, wb=v.wheelbase)
    front = w(FRONT, F_0=v.front, dF=w(FRONT_ADDED, H=t.hitch, wb=v.wheelbase, o=v.behind))
    rear = w(REAR, R_0=v.rear, dR=w(REAR_ADDED, H=t.hitch, wb=v.wheelbase, o=v.behind), C=v.cargo)
    own = (t.mass, t.yaw_inertia, t.x, t.x_h, *t.axles)
    inputs = (mass, inertia, arm, v.wheelbase, v.behind, front, rear, ties.tow, ties.trailer, *own)
    return Swaying(t, model.axle_stations, inputs, tuple(w.steps))


def damping_of(w: Working, case: Swaying, speed: Quantity) -> Quantity:
    """Least damping ratio at a speed (m/s)."""
    return w.procedure(
        "Least damping ratio of swaying",
        "The roots of the linear model of tow vehicle and trailer (lateral speed, yaw rate, articulation and its rate; "
        "cornering stiffness of an axle is its stiffness ratio times the load it carries with the trailer on) at this "
        f"speed; the least of minus real part over size. Spread: the first {LOOKED_AT} trials. "
        f"Governed by: {case.towed.state.title.lower()}.",
        MODEL,
        combine("zeta", damping(case.combination(), speed.values), "1", (*case.inputs, speed)),
        (speed, *case.inputs),
    )


def _critical(
    id: str, words: str, model: Model, t: Towed, vehicle: Callable[[Model, Trials], Puller], data: Reference
) -> Reported:
    """The speed without damping, nominal and at both ends of the tyres' band; the search's end where there is none."""
    still = Trials(count=0)
    case = swaying(model, t.nominal, vehicle(model, still), _band(model, said(model, still, data), data))
    low, high = data.defaults["yaw.speed_low"].value, data.defaults["yaw.speed_high"].value
    values = critical_speed(case.combination(), low, high)
    basis = combine("v_0", values, "m/s", case.inputs)
    found = f"Speed at which damping of swaying is gone, {words}"
    none = f"Damping of swaying is not gone {words} up to"
    least, most = (float(pick(values)) for pick in (np.min, np.max))
    nominal = float(values[0])
    title = none if nominal >= high else found
    return Reported(id, title, nominal, least, most, "m/s", basis.basis, "down", rests_on=basis.rests_on)


def _band(model: Model, ties: Ties, data: Reference) -> Ties:
    """Nominal stiffness of all tyres, all at the low end, all at the high end."""
    tow, tyre = model.spec.tow, model.spec.trailer.running_gear.tyre
    tow_said = None if tow is None else tow.vehicle.tyre_cornering
    return replace(
        ties,
        tow=_ends(ties.tow, tow_said or data.defaults["yaw.cornering_tow"]),
        trailer=_ends(ties.trailer, tyre.cornering or data.defaults["yaw.cornering_trailer"]),
    )


def _ends(q: Quantity, of: Measure | Default) -> Quantity:
    return replace(q, values=np.array([q.values[0], of.low, of.high]))


_ABOUT = About(
    "Swaying dies away at the top towing speed and a margin",
    "stability",
    f"{MODEL}; least ratio is the project's own choice",
    "The trailer swings on after a gust, a passing truck or a swerve, wider each time, until it takes the tow vehicle "
    "with it. Tail-heavy loading is the usual cause.",
    "The tow vehicle's and the tyre makers: cornering stiffness; then a trial on an empty road, from slow upward.",
    "The tow vehicle maker's speed limit for towing; sway control as a help, never as the cure.",
    False,
    (ri.STATION,),
)
