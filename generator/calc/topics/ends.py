"""Ends and underside: ground clearance, departure and breakover angles, the tail on a ramp, the roof on a ramp."""

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
    sure,
)
from generator.calc.topics.low_points import Highest, Lowest, Underside, highest, underside
from generator.calc.topics.optional import towing
from generator.calc.topics.rides import Ride, hitch_station
from generator.calc.topics.road_inputs import stated
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Leaf

RIGHT_ANGLE = float(np.pi / 2)
NEAR_AXLE = 1.0
"""How near an axle (m) the Australian rule on ground clearance looks. Source: VSB 1, read second-hand."""


@formula("First axle", "x_1 = x_a - (n - 1)/2*p", "m", "stations")
def FIRST_AXLE(x_a: Floats, n: Floats, p: Floats) -> Floats:
    return x_a - (n - 1) / 2 * p


@formula("Last axle", "x_n = x_a + (n - 1)/2*p", "m", "stations")
def LAST_AXLE(x_a: Floats, n: Floats, p: Floats) -> Floats:
    return x_a + (n - 1) / 2 * p


@formula("Rear axle of the tow vehicle", "x_t = x_h - o", "m", "stations; o is the ball behind that axle")
def TOW_AXLE(x_h: Floats, o: Floats) -> Floats:
    return x_h - o


@formula(
    "Departure angle",
    "delta = atan(z/(x - x_n))",
    "rad",
    "line from where the last tyre stands; the roundness of the tyre gives a little more",
)
def DEPARTURE(z: Floats, x: Floats, x_n: Floats) -> Floats:
    angle: Floats = np.arctan(z / (x - x_n))
    return angle


@formula(
    "Breakover angle",
    "gamma = atan(z/(x - x_t)) + atan(z/(x_a - x))",
    "rad",
    "lines from the point to where the wheels ahead of and behind it stand",
)
def BREAKOVER(z: Floats, x: Floats, x_t: Floats, x_a: Floats) -> Floats:
    angle: Floats = np.arctan(z / (x - x_t)) + np.arctan(z / (x_a - x))
    return angle


@formula("Angle that must be kept free, with a skid", "beta_k = min(beta, delta_k)", "rad", "the skid lifts the rest")
def WITH_SKID(beta: Floats, delta_k: Floats) -> Floats:
    return np.minimum(beta, delta_k)


@formula(
    "Room under the tail where a ramp begins", "c_t = z - (x - x_n)*tan(beta)", "m", "last tyre at the foot of the ramp"
)
def TAIL_ROOM(z: Floats, x: Floats, x_n: Floats, beta: Floats) -> Floats:
    return z - (x - x_n) * np.tan(beta)


@formula(
    "Roof point above where the axles stand, pitched on a ramp",
    "z_r = z*cos(beta) + max(x - x_a, x_a - x)*sin(beta)",
    "m",
    "turned about where the axle group stands, whichever way lifts the point",
)
def ON_RAMP(z: Floats, x: Floats, x_a: Floats, beta: Floats) -> Floats:
    raised: Floats = z * np.cos(beta) + np.maximum(x - x_a, x_a - x) * np.sin(beta)
    return raised


@formula("Axle beam, its middle above ground", "z_t = r_t - d", "m", "beam below the spindles by its drop")
def BEAM(r_t: Floats, d: Floats) -> Floats:
    return r_t - d


@formula("Axle tube, underside above ground", "c_a = z_t - h_t", "m", "height chain")
def TUBE_CLEAR(z_t: Floats, h_t: Floats) -> Floats:
    return z_t - h_t


@formula("Rear overhang behind the middle of the axle group", "v = max(x_r, l_d) - x_a", "m", "stations")
def OVERHANG(x_r: Floats, l_d: Floats, x_a: Floats) -> Floats:
    return np.maximum(x_r, l_d) - x_a


def group_station(model: Model, trials: Trials) -> Quantity:
    """Station of the middle of the axle group, m."""
    return trials.given("x_a", model.spec.trailer.running_gear.station, "m", path="trailer.yaml running_gear.station")


def ramp(model: Model, trials: Trials, data: Reference) -> Quantity:
    """Sharpest change of slope on the way, rad."""
    use = model.spec.project.use
    row = data.defaults["ends.ramp_ferry" if "ferry" in use.roads else "ends.ramp_break"]
    return stated(trials, use.ramp_break, "beta", row, "project.yaml use.ramp_break")


def ends(model: Model, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> Findings:
    """Ground clearance and rear overhang (m), departure and breakover angle (rad), tail and roof on a ramp (m)."""
    under = underside(model, rides, trials)
    parts = (
        _clearance(model, under, rides, trials, data),
        _clearance_at_axles(model, under, trials, data),
        _departure(model, under, trials, data),
        _breakover(model, under, trials, data),
        _roof(model, rides, trials, data),
        _overhang(model, trials, data),
    )
    return Findings(tuple(q for p in parts for q in p.quantities), tuple(c for p in parts for c in p.checks))


def _clearance(model: Model, under: Underside, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> Findings:
    found = under.least(lambda x, z: z, ~under.wears)
    state, height, steps = min((_tube(model, r, trials, data) for r in rides.values()),
                               key=lambda found: float(np.nan_to_num(found[1].values[0], nan=-np.inf)))
    title = "axle tube"
    if found is not None and not found.height.values[0] >= height.values[0]:
        title, state, height, steps = found.low.title, found.ride.state, found.height, found.steps
    least = trials.assumed("c_min", data.defaults["ends.clearance_least"])
    w = Working(list(steps))
    named = _lowest(w, title, height, state)
    return Findings(
        (report("ends.clearance", f"Least ground clearance: {title}", named, "down"),),
        (Check("ends.clearance", CLEARANCE, state, compare(named, least, ">=", w)),),
    )


def _tube(model: Model, ride: Ride, trials: Trials, data: Reference) -> tuple[str, Quantity, tuple[Step, ...]]:
    """Underside of the axle tube or beam above ground (m) in one state, and its working."""
    w, middle = Working(list(ride.steps)), ride.tube
    match model.spec.trailer.running_gear.suspension:
        case Leaf(drop=drop):
            path = "trailer.yaml running_gear.suspension.drop"
            middle = w(BEAM, r_t=ride.radius, d=trials.given("d", drop, "m", path=path))
    half = trials.assumed("h_t", data.defaults["ends.tube_half"])
    height = w(TUBE_CLEAR, z_t=middle, h_t=half)
    return ride.state, height, tuple(w.steps)


def _lowest(w: Working, title: str, height: Quantity, state: str) -> Quantity:
    sentence = f"Of all low points in all towed states with the ball high and low, the lowest is {title}, {state}."
    return w.procedure(
        "Lowest point", sentence, "search", combine("c", height.values, "m", (height,)), (height.named("c"),)
    )


def _clearance_at_axles(model: Model, under: Underside, trials: Trials, data: Reference) -> Findings:
    if not _in(model, "AU"):
        return Findings()
    away = np.abs(under.x[:, np.newaxis] - np.array(model.axle_stations)).min(axis=1)
    found = under.least(lambda x, z: z, ~(away > NEAR_AXLE))
    if found is None:
        return Findings()
    w, least = Working(list(found.steps)), trials.assumed("c_min", data.defaults["ends.clearance_au"])
    named = _lowest(w, found.low.title, found.height, found.ride.state)
    return Findings((), (Check("ends.clearance_axles", AT_AXLES, found.ride.state, compare(named, least, ">=", w)),))


def _axle(w: Working, model: Model, trials: Trials, last: bool) -> Quantity:
    gear = model.spec.trailer.running_gear
    return w(
        LAST_AXLE if last else FIRST_AXLE,
        x_a=group_station(model, trials),
        n=sure("n", float(len(gear.axles)), "count"),
        p=trials.given("p", gear.spacing, "m", path="trailer.yaml running_gear.spacing"),
    )


def _departure(model: Model, under: Underside, trials: Trials, data: Reference) -> Findings:
    w, beta = Working(), ramp(model, trials, data)
    x_n = _axle(w, model, trials, last=True)
    at = float(x_n.values[0])
    behind, skids = ~(under.x <= at), under.wears

    def steep(x: Floats, z: Floats) -> Floats:
        return np.arctan(z / (x - at))

    hard, skid = under.least(steep, behind & ~skids), under.least(steep, behind & skids)
    if hard is None:
        free = sure("delta", RIGHT_ANGLE, "rad")
        return Findings((), (Check("ends.departure", DEPARTS, "", compare(free, beta, ">=", w)),))
    need = beta
    if skid is not None:
        w = Working([*w.steps, *skid.steps])
        delta_k = w(DEPARTURE, z=skid.height, x=skid.low.x, x_n=x_n)
        need = w(WITH_SKID, beta=beta, delta_k=delta_k)
    w = Working([*w.steps, *hard.steps])
    delta = w(DEPARTURE, z=hard.height, x=hard.low.x, x_n=x_n)
    room = Working()(TAIL_ROOM, z=hard.height, x=hard.low.x, x_n=x_n, beta=beta)
    title = hard.low.title
    quantities = (
        report("ends.departure", f"Departure angle, set by: {title}", delta, "down"),
        report("ends.tail_room", f"Room under the tail where a ramp begins: {title}", room, "down"),
        *_at("ends.departure", "What sets the departure angle", hard),
    )
    return Findings(quantities, (Check("ends.departure", DEPARTS, hard.ride.state, compare(delta, need, ">=", w)),))


def _breakover(model: Model, under: Underside, trials: Trials, data: Reference) -> Findings:
    w = Working()
    first, x_a = _axle(w, model, trials, last=False), group_station(model, trials)
    behind = towing(model, trials, "hitch_behind_rear_axle", "o", "m")
    x_t = w(TOW_AXLE, x_h=hitch_station(model, trials), o=behind)
    ahead, after = float(x_t.values[0]), float(x_a.values[0])
    between = ~(under.x <= ahead) & ~(under.x >= float(first.values[0]))
    found = under.least(lambda x, z: np.arctan(z / (x - ahead)) + np.arctan(z / (after - x)), between)
    beta = ramp(model, trials, data)
    if found is None:
        free = combine("gamma", x_t.values * 0.0 + RIGHT_ANGLE, "rad", (x_t, x_a))
        return Findings((), (Check("ends.breakover", CRESTS, "", compare(free, beta, ">=", w)),))
    w = Working([*w.steps, *found.steps])
    gamma = w(BREAKOVER, z=found.height, x=found.low.x, x_t=x_t, x_a=x_a)
    return Findings(
        (
            report("ends.breakover", f"Breakover angle, set by: {found.low.title}", gamma, "down"),
            *_at("ends.breakover", "What sets the breakover angle", found),
        ),
        (Check("ends.breakover", CRESTS, found.ride.state, compare(gamma, beta, ">=", w)),),
    )


def _at(id: str, title: str, found: Lowest) -> tuple[Reported, Reported]:
    """Where the point stands that sets an angle, in the state that makes the angle least, m."""
    return (
        report(f"{id}_station", f"{title}, station", found.low.x),
        report(f"{id}_height", f"{title}, above ground", found.height, "down"),
    )


def _roof(model: Model, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> Findings:
    beta, x_a = ramp(model, trials, data), group_station(model, trials)
    tilt, at = float(beta.values[0]), float(x_a.values[0])
    top: Highest = highest(model, rides, trials, lambda x: np.abs(x - at) * np.tan(tilt))
    w = Working(list(top.steps))
    raised = w(ON_RAMP, z=top.height, x=top.point.station, x_a=x_a, beta=beta)
    title = f"Highest point above where the axles stand, pitched on a ramp: {top.point.title}"
    quantity = report("ends.roof_ramp", title, raised, "up")
    clear = model.spec.project.use.lowest_clearance
    if clear is None:
        return Findings((quantity,))
    limit = trials.given("z_c", clear, "m", path="project.yaml use.lowest_clearance")
    return Findings((quantity,), (Check("ends.roof_ramp", ROOF, top.ride.state, compare(raised, limit, "<=", w)),))


def _overhang(model: Model, trials: Trials, data: Reference) -> Findings:
    w = Working()
    overhang = w(
        OVERHANG,
        x_r=trials.given("x_r", model.spec.house.rear, "m", path="house.yaml rear"),
        l_d=trials.given("l_d", model.spec.trailer.frame.length, "m", path="trailer.yaml frame.length"),
        x_a=group_station(model, trials),
    )
    quantity: Reported = report("ends.overhang", "Rear overhang behind the middle of the axle group", overhang, "up")
    return Findings((quantity,), tuple(_overhang_limits(model, overhang, tuple(w.steps), trials, data)))


def _overhang_limits(
    model: Model, overhang: Quantity, steps: tuple[Step, ...], trials: Trials, data: Reference
) -> Iterator[Check]:
    rows = {"AU": data.defaults["ends.overhang_au"], "NZ": data.defaults["ends.overhang_nz"]}
    held = [row for code, row in rows.items() if _in(model, code)]
    if held:
        row = min(held, key=lambda r: r.value)
        outcome = compare(overhang, trials.assumed("v_max", row), "<=", Working(list(steps)))
        yield Check("ends.overhang", OVERHANGS, "", outcome)


def _in(model: Model, code: str) -> bool:
    return any(r == code or r.startswith(f"{code}-") for r in model.spec.project.use.regions)


PRACTICE = "common practice, no source"
LIFTS = ("trailer.running_gear.suspension.tube_to_deck", "trailer.running_gear.tyre.diameter")
WALK = "A walk of the route with a level and a tape, driveway and site included; slow, with a spotter, the first time."
CLEARANCE = About(
    title="Ground clearance at the lowest point",
    topic="ends",
    source=PRACTICE,
    concern="What hangs lowest is torn off by a stone, a kerb or a rail crossing.",
    ask="The shop and whoever fits tanks and steps: height of everything under the deck; list it in `low_points`.",
    defer_to=WALK,
    levers=LIFTS,
)
AT_AXLES = About(
    title="Ground clearance near the axles, Australia",
    topic="ends",
    source="VSB 1, read second-hand",
    concern="The trailer is refused at inspection.",
    ask="The registration authority.",
    defer_to="The design rules in force.",
    mandatory=True,
    levers=LIFTS,
)
DEPARTS = About(
    title="Tail clear where a ramp begins",
    topic="ends",
    source=PRACTICE,
    concern="The tail grounds at the foot of a driveway or ferry ramp and bends, or lifts the wheels.",
    ask="Whoever knows the route: sharpest change of slope; the shop: a skid or roller under the tail.",
    defer_to=WALK,
    levers=(*LIFTS, "trailer.running_gear.station"),
)
CRESTS = About(
    title="Underside clear over a crest",
    topic="ends",
    source=PRACTICE,
    concern="The frame hangs on a crest or rail crossing between the tow vehicle and the axles.",
    ask="Whoever knows the route: sharpest crest and rail crossing, and what the signs there say.",
    defer_to=WALK,
    levers=(*LIFTS, "trailer.running_gear.station"),
)
ROOF = About(
    title="Roof clear over a ramp or dip",
    topic="ends",
    source="clear height stated in project.yaml",
    concern="On a ramp or in a dip a roof corner stands higher than on the level, and strikes.",
    ask="The ferry or site: clear height over the ramp, measured square to it.",
    defer_to=WALK,
    levers=("house.roof_points",),
)
OVERHANGS = About(
    title="Rear overhang within the rule",
    topic="ends",
    source="design rules of the regions passed, read in part second-hand",
    concern="The trailer is refused registration.",
    ask="The registration authority: the rule for this class, and how the overhang is measured.",
    defer_to="The law in force in each region.",
    mandatory=True,
    levers=("trailer.running_gear.station",),
)
