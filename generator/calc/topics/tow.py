"""The tow vehicle: what hitch and trailer ask of its ratings, and, whatever it is, what a tow vehicle must offer."""

from collections.abc import Iterator, Mapping

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
    spread,
    sure,
)
from generator.calc.topics import rides as rd
from generator.calc.topics.attitude import Attitudes, worst
from generator.calc.topics.coupled import raised
from generator.calc.topics.optional import towing
from generator.calc.topics.rides import Ride
from generator.calc.topics.swing import NOSE_REACH, nose
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference


@formula(
    "Load added on the rear axle", "dR = H*(wb + o)/wb", "kg", "moments about the front axle; o behind the rear axle"
)
def REAR_ADDED(H: Floats, wb: Floats, o: Floats) -> Floats:
    return H * (wb + o) / wb


@formula("Load added on the front axle", "dF = -H*o/wb", "kg", "moments about the rear axle")
def FRONT_ADDED(H: Floats, wb: Floats, o: Floats) -> Floats:
    return -H * o / wb


@formula(
    "Rear axle with the trailer", "R = R_0 + dR + C", "kg", "all people and cargo taken on the rear axle, the safe side"
)
def REAR(R_0: Floats, dR: Floats, C: Floats) -> Floats:
    return R_0 + dR + C


@formula("Load taken off the front axle, share", "relief = -dF/F_0", "%", "ratio")
def RELIEF(dF: Floats, F_0: Floats) -> Floats:
    return -dF / F_0


@formula("Front axle with the trailer", "F = F_0 + dF", "kg", "sum")
def FRONT(F_0: Floats, dF: Floats) -> Floats:
    return F_0 + dF


@formula("Tow vehicle alone, loaded", "V = F_0 + R_0 + C", "kg", "sum of its axle loads, people and cargo")
def VEHICLE(F_0: Floats, R_0: Floats, C: Floats) -> Floats:
    return F_0 + R_0 + C


@formula("Tow vehicle with the hitch load", "V_h = V + H", "kg", "sum")
def VEHICLE_HITCHED(V: Floats, H: Floats) -> Floats:
    return V + H


@formula("Payload used", "p = H + C", "kg", "hitch load, people and cargo")
def PAYLOAD_USED(H: Floats, C: Floats) -> Floats:
    return H + C


@formula("Payload there is", "p_max = GV - F_0 - R_0", "kg", "rated gross mass less the axle loads, hitch aboard")
def PAYLOAD(GV: Floats, F_0: Floats, R_0: Floats) -> Floats:
    return GV - F_0 - R_0


@formula("Combination", "GC = V + W", "kg", "vehicle alone and the whole trailer: the hitch load is counted once")
def COMBINATION(V: Floats, W: Floats) -> Floats:
    return V + W


@formula("Rating needed, with the reserve", "need = x/reserve", "kg", "share of a rating a design should use")
def NEEDED(x: Floats, reserve: Floats) -> Floats:
    return x / reserve


@formula(
    "Highest bed rail",
    "z_b = min(z_u - gap, z_u - kept - d*tan(phi) - w_r*tan(rho))",
    "m",
    "neck window, solved for the rail",
)
def RAIL_MOST(z_u: Floats, gap: Floats, kept: Floats, d: Floats, phi: Floats, w_r: Floats, rho: Floats) -> Floats:
    return np.minimum(z_u - gap, z_u - kept - d * np.tan(phi) - w_r * np.tan(rho))


@formula("Ball to cab", "d_c = r + m", "m", "reach of the nose corner and the margin")
def CAB_LEAST(r: Floats, m: Floats) -> Floats:
    return r + m


@formula("Ball height for a level trailer", "z_ball = z_u - c", "m", "height chain")
def BALL(z_u: Floats, c: Floats) -> Floats:
    return z_u - c


@dataclass(frozen=True, slots=True, eq=False)
class _Ask:
    """What the trailer brings: greatest hitch load and trailer mass (kg), with how they were found."""

    hitch: Quantity
    hitch_state: str
    hitch_steps: tuple[Step, ...]
    mass: Quantity
    mass_state: str
    mass_steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Vehicle:
    """The tow vehicle's loads and ratings, kg and m; all unknown without tow.yaml."""

    front: Quantity
    rear: Quantity
    cargo: Quantity
    wheelbase: Quantity
    behind: Quantity


def tow(
    model: Model, found: Attitudes, rides: Mapping[str, Ride], plate: Quantity, trials: Trials, data: Reference
) -> Findings:
    """Each rating of the tow vehicle against the worst hitch load, the heaviest towed state and the trailer loaded to
    the rating asked for (`plate`), kg.
    """
    ask, vehicle = _ask(found), _vehicle(model, trials)
    checks = (*_checks(model, ask, vehicle, trials, data), *_to_the_plate(model, vehicle, plate, trials))
    w = Working()
    used = w(PAYLOAD_USED, H=ask.hitch, C=vehicle.cargo)
    alone = w(VEHICLE, F_0=vehicle.front, R_0=vehicle.rear, C=vehicle.cargo)
    rear = w(REAR, R_0=vehicle.rear, dR=_rear_added(w, ask, vehicle), C=vehicle.cargo)
    quantities = (
        report("tow.payload_used", "Payload used", used),
        report("tow.rear_axle", "Rear axle of the tow vehicle", rear),
        report("tow.combination", "Combination", w(COMBINATION, V=alone, W=ask.mass)),
        report(
            "tow.front_relief",
            "Front axle of the tow vehicle, load taken off",
            w(RELIEF, dF=_front_added(w, ask, vehicle), F_0=vehicle.front),
        ),
        *_required(model, ask, vehicle, rides[rd.DESIGN], trials, data),
    )
    return Findings(quantities, checks)


def _ask(found: Attitudes) -> _Ask:
    most = worst(found.cases, lambda c: c.hitch)
    heaviest = worst(found.cases, lambda c: c.loads.mass)
    return _Ask(
        most.value.named("H"),
        most.case.loads.state.id,
        most.steps,
        heaviest.value.named("W"),
        heaviest.case.loads.state.id,
        (*heaviest.case.loads.at.steps[:1], heaviest.steps[-1]),
    )


def _vehicle(model: Model, trials: Trials) -> _Vehicle:
    named = (
        ("front_axle", "F_0", "kg"),
        ("rear_axle", "R_0", "kg"),
        ("people_and_cargo", "C", "kg"),
        ("wheelbase", "wb", "m"),
        ("hitch_behind_rear_axle", "o", "m"),
    )
    return _Vehicle(*(towing(model, trials, field, symbol, unit) for field, symbol, unit in named))


def _rear_added(w: Working, ask: _Ask, v: _Vehicle) -> Quantity:
    return w(REAR_ADDED, H=ask.hitch, wb=v.wheelbase, o=v.behind)


def _front_added(w: Working, ask: _Ask, v: _Vehicle) -> Quantity:
    return w(FRONT_ADDED, H=ask.hitch, wb=v.wheelbase, o=v.behind)


def _checks(model: Model, ask: _Ask, v: _Vehicle, trials: Trials, data: Reference) -> Iterator[Check]:
    def rated(field: str) -> Quantity:
        return towing(model, trials, field, "rating", "kg")

    def check(id: str, w: Working, demand: Quantity, limit: Quantity, state: str = ask.hitch_state) -> Check:
        return Check(id, _about(id), state, compare(demand, limit, "<=", w))

    w = Working(list(ask.hitch_steps))
    used = w(PAYLOAD_USED, H=ask.hitch, C=v.cargo)
    yield check("tow.payload", w, used, w(PAYLOAD, GV=rated("gvwr"), F_0=v.front, R_0=v.rear))
    w = Working(list(ask.hitch_steps))
    rear = w(REAR, R_0=v.rear, dR=_rear_added(w, ask, v), C=v.cargo)
    yield check("tow.rear_axle", w, rear, rated("rear_gawr"))
    yield check("tow.rear_tyres", w, rear, rated("rear_tyres"))
    w = Working(list(ask.hitch_steps))
    added = _front_added(w, ask, v)
    yield check("tow.front_axle", w, w(FRONT, F_0=v.front, dF=added), rated("front_gawr"))
    w = Working(list(ask.hitch_steps))
    relief = w(RELIEF, dF=_front_added(w, ask, v), F_0=v.front)
    yield check("tow.front_relief", w, relief, trials.assumed("relief_max", data.defaults["tow.front_relief_fail"]))
    w = Working(list(ask.hitch_steps))
    alone = w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo)
    yield check("tow.gvwr", w, w(VEHICLE_HITCHED, V=alone, H=ask.hitch), rated("gvwr"))
    w = Working(list(ask.mass_steps))
    alone = w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo)
    yield check("tow.combination", w, w(COMBINATION, V=alone, W=ask.mass), rated("gcwr"), ask.mass_state)
    yield check("tow.rating", Working(list(ask.mass_steps)), ask.mass, rated("tow_rating"), ask.mass_state)
    yield check("tow.hitch", Working(list(ask.hitch_steps)), ask.hitch, rated("hitch_rating"))


def _to_the_plate(model: Model, v: _Vehicle, plate: Quantity, trials: Trials) -> Iterator[Check]:
    """A trailer may be loaded to its plate: whether this tow vehicle may then still tow it (kg)."""
    limit = towing(model, trials, "tow_rating", "rating", "kg")
    yield Check("tow.plate", _about("tow.plate"), "", compare(plate.named("GVWR"), limit, "<=", Working()))
    w = Working()
    whole = w(COMBINATION, V=w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo), W=plate)
    gcwr = towing(model, trials, "gcwr", "rating", "kg")
    yield Check("tow.plate_combination", _about("tow.plate_combination"), "", compare(whole, gcwr, "<=", w))


def _required(model: Model, ask: _Ask, v: _Vehicle, ride: Ride, trials: Trials, data: Reference) -> Iterator[Reported]:
    """What a tow vehicle must offer, whichever it is; kg and m, with the reserve on every rating."""
    row, w = data.defaults, Working()
    hitch, mass, reserve = _high(w, ask.hitch), _high(w, ask.mass), trials.assumed("reserve", row["tow.reserve"])
    known = model.spec.tow is not None
    cargo = v.cargo if known else trials.assumed("C", row["tow.people_gear"])
    alone = (
        w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo)
        if known
        else w(VEHICLE, F_0=trials.assumed("F_0", row["tow.vehicle_mass"]), R_0=sure("R_0", 0.0, "kg"), C=cargo)
    )
    needs = {
        "payload": ("Payload", w(PAYLOAD_USED, H=hitch, C=cargo)),
        "hitch": ("Rating of ball and frame kit", hitch),
        "tow_rating": ("Tow rating", mass),
        "gcwr": ("Rated combination", w(COMBINATION, V=alone, W=mass)),
    }
    for id, (title, q) in needs.items():
        yield report(
            f"tow.required.{id}",
            f"A tow vehicle needs: {title.lower()}, at least",
            w(NEEDED, x=q, reserve=reserve),
            "up",
        )
    yield from _required_shape(w, model, ride, trials, data)


def _required_shape(w: Working, model: Model, ride: Ride, trials: Trials, data: Reference) -> Iterator[Reported]:
    row, of = data.defaults, raised(model)
    if of is None:
        yield report("tow.required.ball", "A tow vehicle needs: ball from the ground, loaded", ride.ball)
        return
    z_u = w(rd.ABOVE_GROUND, z_d=ride.deck, zeta=rd.neck_underside(model, trials))
    x_h = rd.hitch_station(model, trials)
    ahead, width = nose(w, model, trials)
    longest = sure("d", max(of.coupling.station.nominal - of.neck.front.nominal, -float(x_h.values[0])), "m")
    rail = w(
        RAIL_MOST,
        z_u=z_u,
        gap=trials.assumed("gap", row["neck.rail_gap"]),
        kept=trials.assumed("kept", row["neck.rail_gap_moving"]),
        d=longest,
        phi=trials.assumed("phi", row["neck.pitch_road"]),
        w_r=sure("w_r", of.neck.width.nominal / 2, "m"),
        rho=trials.assumed("rho", row["neck.roll"]),
    )
    reach = w(NOSE_REACH, f=ahead, w=width, psi=trials.assumed("psi", row["neck.yaw_free"]))
    cab = w(CAB_LEAST, r=reach, m=trials.assumed("m", row["neck.cab_margin"]))
    low, high = rd.coupler_ends(of.coupling, trials)
    yield report("tow.required.bed_rail", "A tow vehicle needs: bed rail from the ground, at most", rail, "down")
    yield report(
        "tow.required.ball_to_cab",
        "A tow vehicle needs: ball to cab, at least, where the nose is below its roof",
        cab,
        "up",
    )
    yield report(
        "tow.required.ball_low", "A tow vehicle needs: ball from the ground, at least", w(BALL, z_u=z_u, c=high), "up"
    )
    yield report(
        "tow.required.ball_high", "A tow vehicle needs: ball from the ground, at most", w(BALL, z_u=z_u, c=low), "down"
    )


def _high(w: Working, q: Quantity) -> Quantity:
    """The value only one trial in twenty exceeds."""
    value = spread(q.values)[1] if q.values.size > 1 else q.values[0]
    return w.procedure(
        f"{q.symbol}, high side",
        "The value that one trial in twenty exceeds.",
        "trials",
        combine(q.symbol, np.array([max(float(value), float(q.values[0]))]), q.unit, (q,)),
        (q,),
    )


def _about(id: str) -> About:
    title, concern, levers = _WORDS[id]
    return About(
        title=title,
        topic="tow",
        source="the tow vehicle's labels and manual, tow.yaml",
        concern=concern,
        ask="Whoever tows: door labels, hitch label and a weighed tow vehicle.",
        defer_to="The tow vehicle maker's ratings and manual.",
        mandatory=id in _MANDATORY,
        levers=levers,
    )


_PLACE = ("trailer.running_gear.station", "tow.vehicle.people_and_cargo")
_MANDATORY = frozenset(
    {"tow.payload", "tow.rear_axle", "tow.rear_tyres", "tow.gvwr", "tow.combination", "tow.rating", "tow.hitch"}
)
_WORDS: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "tow.payload": ("Payload of the tow vehicle", "The tow vehicle is over its own rating before it moves.", _PLACE),
    "tow.rear_axle": (
        "Rear axle of the tow vehicle",
        "The hitch load bends the axle and overheats the rear brakes.",
        _PLACE,
    ),
    "tow.rear_tyres": ("Rear tyres of the tow vehicle", "The tyres that carry the hitch load fail first.", _PLACE),
    "tow.front_axle": (
        "Front axle of the tow vehicle",
        "A ball ahead of the rear axle loads the front one as well.",
        _PLACE,
    ),
    "tow.front_relief": (
        "Front axle keeps its load",
        "A light front axle does not steer or brake.",
        ("tow.vehicle.hitch_behind_rear_axle",),
    ),
    "tow.gvwr": ("Gross mass of the tow vehicle", "The tow vehicle is over its rated gross mass.", _PLACE),
    "tow.combination": ("Combination within its rating", "Brakes, cooling and gears were never proved for more.", ()),
    "tow.rating": ("Trailer within the tow rating", "The maker does not stand behind a heavier trailer.", ()),
    "tow.plate": (
        "Trailer loaded to the rating asked for within the tow rating",
        "The label on the trailer invites a load this tow vehicle must not pull; less is left for cargo than it says.",
        (),
    ),
    "tow.plate_combination": (
        "Combination with the trailer loaded to the rating asked for",
        "The label on the trailer invites a load this combination must not have.",
        (),
    ),
    "tow.hitch": (
        "Ball and frame kit carry the hitch load",
        "The ball tears out of the bed.",
        ("trailer.running_gear.station",),
    ),
}
