"""A weight-distributing hitch: what its spring bars move from the rear axle to the front axle and the trailer's axles.

Worked only where tow.yaml states the share restored and the ball hangs behind the rear axle. Trailer axles and tyres
must carry their load with the bars on and off; a receiver's limit without the bars stays what it is. kg, m, N m.
"""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Reported,
    Working,
    combine,
    compare,
    formula,
    report,
)
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.road_inputs import Puller, Towed
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model

STIFF_JOINT = "statics: a moment at the ball shared by both vehicles"


@formula("Moment of the spring bars at the ball", "M_d = 9.80665*r*H*o/(1 + o/u)", "N*m", STIFF_JOINT)
def BAR_MOMENT(r: Floats, H: Floats, o: Floats, u: Floats) -> Floats:
    return G * r * H * o / (1 + o / u)


@formula("Load moved to the trailer's axles", "dA = M_d/(9.80665*u)", "kg", STIFF_JOINT)
def TO_TRAILER(M_d: Floats, u: Floats) -> Floats:
    return M_d / (G * u)


@formula("Front axle, bars on", "F_d = F_0 - (H - dA)*o/wb + M_d/(9.80665*wb)", "kg", STIFF_JOINT)
def FRONT_ON(F_0: Floats, H: Floats, dA: Floats, o: Floats, wb: Floats, M_d: Floats) -> Floats:
    return F_0 - (H - dA) * o / wb + M_d / (G * wb)


@formula("Rear axle, bars on", "R_d = R_0 + C + (H - dA)*(wb + o)/wb - M_d/(9.80665*wb)", "kg", STIFF_JOINT)
def REAR_ON(R_0: Floats, C: Floats, H: Floats, dA: Floats, o: Floats, wb: Floats, M_d: Floats) -> Floats:
    return R_0 + C + (H - dA) * (wb + o) / wb - M_d / (G * wb)


@formula("Trailer axles together, bars on", "A_d = A + dA", "kg", "sum")
def GROUP_ON(A: Floats, dA: Floats) -> Floats:
    return A + dA


def weight_distribution(model: Model, states: Sequence[Towed], trials: Trials) -> Findings:
    """Axle loads with the bars on, in the towed state with the greatest load on the ball (kg); nothing without bars."""
    tow = model.spec.tow
    if tow is None or tow.vehicle.front_restoration is None or tow.vehicle.hitch_behind_rear_axle.nominal <= 0.0:
        return Findings()
    r = trials.given("r", tow.vehicle.front_restoration, "%", tow.vehicle.basis, "tow.yaml vehicle.front_restoration")
    most = ri.extreme(states, lambda w, t: t.hitch).towed
    w = Working(list(most.steps))
    reach = combine("u", most.x_a.values - most.x_h.values, "m", (most.x_a, most.x_h))
    front, rear, group = shared(w, r, most.hitch, reach, most.group, ri.puller(model, trials))
    quantities: tuple[Reported, ...] = (
        report("tow.distributed.front", "Front axle of the tow vehicle, spring bars on", front),
        report("tow.distributed.rear", "Rear axle of the tow vehicle, spring bars on", rear, "up"),
        report("tow.distributed.group", "Trailer axles together, spring bars on", group, "up"),
    )
    rated = [
        trials.given("G_i", a.rating, "kg", path=f"trailer.yaml running_gear.axles.{n}.rating")
        for n, a in enumerate(model.spec.trailer.running_gear.axles, start=1)
    ]
    limit = combine("G_a", np.sum(np.broadcast_arrays(*[q.values for q in rated]), axis=0), "kg", rated)
    return Findings(
        quantities, (Check("tow.distributed.group", _ABOUT, most.state.id, compare(group, limit, "<=", w)),)
    )


def shared(
    w: Working, r: Quantity, H: Quantity, u: Quantity, A: Quantity, v: Puller
) -> tuple[Quantity, Quantity, Quantity]:
    """Front axle, rear axle and trailer axles (kg) with the share `r` of the front axle's loss given back."""
    moment = w(BAR_MOMENT, r=r, H=H, o=v.behind, u=u)
    moved = w(TO_TRAILER, M_d=moment, u=u)
    front = w(FRONT_ON, F_0=v.front, H=H, dA=moved, o=v.behind, wb=v.wheelbase, M_d=moment)
    rear = w(REAR_ON, R_0=v.rear, C=v.cargo, H=H, dA=moved, o=v.behind, wb=v.wheelbase, M_d=moment)
    return front, rear, w(GROUP_ON, A=A, dA=moved)


_ABOUT = About(
    "Trailer axles carry their load with the spring bars on",
    "tow",
    "statics; the axle maker's labels",
    "What the bars take off the tow vehicle's rear axle lands on the trailer's axles and tyres as well.",
    "The hitch maker: setting procedure; weigh all axles with the bars on and off.",
    "The tow vehicle maker's manual, which may ask for bars or forbid them.",
    True,
    (ri.STATION, "trailer.running_gear.axles.*.rating"),
)
