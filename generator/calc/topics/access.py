"""Turning and gates: how far the wheels cut in, what a gate must leave, how the tail swings, how tyres scrub."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from generator.calc.record import (
    About,
    Change,
    Check,
    Findings,
    Floats,
    Quantity,
    Value,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.ends import group_station
from generator.calc.topics.lateral import OUTSIDE
from generator.calc.topics.optional import standing, towing
from generator.calc.topics.rides import DESIGN, hitch_station
from generator.calc.topics.road_inputs import stated
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference

STEADY = "steady turn: every axle group square to the line from the middle of the turn"
STEP = {"us": 0.3048, "si": 0.1}
"""Steps (m) in which another gate or turn is named: 1 ft or 100 mm. Common practice, no source."""


@formula("Hitch to the middle of the axle group", "L = x_a - x_h", "m", "stations")
def REACH(x_a: Floats, x_h: Floats) -> Floats:
    return x_a - x_h


@formula("Path of the axle group", "R_a = sqrt(max(R**2 - L**2, 0))", "m", STEADY)
def GROUP_PATH(R: Floats, L: Floats) -> Floats:
    return np.sqrt(np.maximum(R**2 - L**2, 0.0))


@formula("Cut-in of the axle group", "c = R - R_a", "m", STEADY)
def CUT_IN(R: Floats, R_a: Floats) -> Floats:
    return R - R_a


@formula("Yaw of the trailer against the path of the hitch", "psi = atan(L/R_a)", "rad", STEADY)
def YAW(L: Floats, R_a: Floats) -> Floats:
    angle: Floats = np.arctan(L / R_a)
    return angle


@formula("Slip of the outermost axle's tyres", "s_c = atan(p_h/R_a)", "rad", "half the spread across the path")
def SCRUB(p_h: Floats, R_a: Floats) -> Floats:
    angle: Floats = np.arctan(p_h / R_a)
    return angle


@formula("Half the spread of the axles", "p_h = (n - 1)/2*p", "m", "stations")
def HALF_SPREAD(n: Floats, p: Floats) -> Floats:
    return (n - 1) / 2 * p


@formula("Widest part on the road", "w = max(w_h, w_o)", "m", "house or outside of the tyres")
def WIDEST(w_h: Floats, w_o: Floats) -> Floats:
    return np.maximum(w_h, w_o)


@formula(
    "Tail swings out beyond the house's side by", "v_t = sqrt((R_a + w/2)**2 + v**2) - R_a - w/2", "m", "plane geometry"
)
def TAIL_SWING(R_a: Floats, w: Floats, v: Floats) -> Floats:
    return np.sqrt((R_a + w / 2) ** 2 + v**2) - R_a - w / 2


@formula("Overhang of the tail", "v = x_r - x_a", "m", "stations")
def TAIL(x_r: Floats, x_a: Floats) -> Floats:
    return x_r - x_a


@formula("Overhang of the nose ahead of the axle group", "f = x_a - x_n", "m", "stations")
def NOSE(x_a: Floats, x_n: Floats) -> Floats:
    return x_a - x_n


@formula(
    "Width swept by the house in that turn",
    "b = sqrt((R_a + w/2)**2 + max(f, v)**2) - R_a + w/2",
    "m",
    "from the inner side at the axles to the outermost corner",
)
def SWEPT(R_a: Floats, w: Floats, f: Floats, v: Floats) -> Floats:
    swept: Floats = np.sqrt((R_a + w / 2) ** 2 + np.maximum(f, v) ** 2) - R_a + w / 2
    return swept


@formula(
    "Off-tracking of the whole train",
    "u = R - sqrt(max(R**2 - wb**2 + o**2 - L**2, 0))",
    "m",
    "AASHTO Green Book, turning: squares of the lengths add up, that of a hitch off the rear axle subtracts; R is "
    "the path of the front axle",
)
def OFF_TRACKING(R: Floats, wb: Floats, o: Floats, L: Floats) -> Floats:
    return R - np.sqrt(np.maximum(R**2 - wb**2 + o**2 - L**2, 0.0))


@formula("Gate needed, turning through it", "g = w + c + m", "m", "width, cut-in and room to steer: common practice")
def GATE(w: Floats, c: Floats, m: Floats) -> Floats:
    return w + c + m


@formula("Gate needed, straight through", "g = w + m", "m", "width and room to steer: common practice")
def GATE_STRAIGHT(w: Floats, m: Floats) -> Floats:
    return w + m


def turn(model: Model, trials: Trials, data: Reference) -> Quantity:
    """Radius of the tightest turn on the way, path of the hitch, m."""
    row = data.defaults["access.turn"]
    return stated(trials, model.spec.project.use.tightest_turn, "R", row, "project.yaml use.tightest_turn")


def access(model: Model, loads: Mapping[str, StateLoads], trials: Trials, data: Reference) -> Findings:
    """Cut-in, swept width, off-tracking, tail swing (m), yaw and scrub (rad) in the tightest turn; gate (m)."""
    w = Working()
    x_a, radius = group_station(model, trials), turn(model, trials, data)
    reach = w(REACH, x_a=x_a, x_h=hitch_station(model, trials))
    path = w(GROUP_PATH, R=radius, L=reach)
    cut_in = w(CUT_IN, R=radius, R_a=path)
    width = _width(w, model, loads, trials)
    house = model.spec.house
    tail = w(TAIL, x_r=trials.given("x_r", house.rear, "m", path="house.yaml rear"), x_a=x_a)
    nose = w(NOSE, x_a=x_a, x_n=trials.given("x_n", house.front, "m", path="house.yaml front"))
    train = w(
        OFF_TRACKING,
        R=radius,
        wb=towing(model, trials, "wheelbase", "wb", "m"),
        o=towing(model, trials, "hitch_behind_rear_axle", "o", "m"),
        L=reach,
    )
    needed, gate = _gate(model, reach, radius, width, trials, data)
    quantities = (
        report("access.cut_in", "Cut-in of the wheels in the tightest turn", cut_in, "up"),
        report("access.yaw", "Yaw of the trailer in the tightest turn", w(YAW, L=reach, R_a=path), "up"),
        report("access.swept", "Width swept by the house", w(SWEPT, R_a=path, w=width, f=nose, v=tail), "up"),
        report("access.tail_swing", "Tail swings out by", w(TAIL_SWING, R_a=path, w=width, v=tail), "up"),
        report("access.off_tracking", "Off-tracking of tow vehicle and trailer together", train, "up"),
        report("access.scrub", "Slip of the outermost axle's tyres", _scrub(w, model, path, trials), "up"),
        report("access.gate_needed", "Gate needed", needed, "up"),
    )
    follows = compare(radius, reach, ">=", Working(list(w.steps[:1])))
    return Findings(quantities, (Check("access.turn", TURNS, "", follows), gate))


def _width(w: Working, model: Model, loads: Mapping[str, StateLoads], trials: Trials) -> Quantity:
    tyre, tracks = model.spec.trailer.running_gear.tyre, loads[DESIGN].tracks
    track = combine("t", np.maximum.reduce(np.broadcast_arrays(*[t.values for t in tracks])), "m", tracks)
    section = trials.given("w_t", tyre.section_width, "m", tyre.basis, "trailer.yaml running_gear.tyre.section_width")
    outside = w(OUTSIDE, t=track, w_t=section)
    return w(WIDEST, w_h=trials.given("w_h", model.spec.house.width, "m", path="house.yaml width"), w_o=outside)


def _scrub(w: Working, model: Model, path: Quantity, trials: Trials) -> Quantity:
    gear = model.spec.trailer.running_gear
    half = w(
        HALF_SPREAD,
        n=sure("n", float(len(gear.axles)), "count"),
        p=trials.given("p", gear.spacing, "m", path="trailer.yaml running_gear.spacing"),
    )
    return w(SCRUB, p_h=half, R_a=path)


def _gate(
    model: Model,
    reach: Quantity,
    radius: Quantity,
    width: Quantity,
    trials: Trials,
    data: Reference,
) -> tuple[Quantity, Check]:
    """The gate needed (m), and the check of the one on the way, with a wider gate or turn that clears it."""
    w, site = Working(), model.spec.site
    room = trials.assumed("m", data.defaults["access.gate_margin"])
    opening = standing(model, trials, "gate_width", "g_s", "m")
    if site is not None and site.gate_passed == "straight":
        needed = w(GATE_STRAIGHT, w=width, m=room)
        turning = False
    else:
        path = w(GROUP_PATH, R=radius, L=reach)
        needed = w(GATE, w=width, c=w(CUT_IN, R=radius, R_a=path), m=room)
        turning = True
    check = Check("access.gate", PASSES, "", compare(opening, needed, ">=", w))
    if check.status != "fail":
        return needed, check
    step = STEP[model.spec.project.units]
    changes = [_change("site.gate_width", "A wider gate", opening, float(needed.values[0]), step)]
    left = float(opening.values[0] - width.values[0] - room.values[0])
    if turning and left > 0.0:
        wider = (float(reach.values[0]) ** 2 + left**2) / (2 * left)
        changes.append(_change("project.use.tightest_turn", "A wider turn into the gate", radius, wider, step))
    return needed, replace(check, changes=tuple(changes))


def _change(lever: str, title: str, now: Quantity, least: float, step: float) -> Change:
    then = float(np.ceil(least / step - 1e-9)) * step
    return Change(lever, title, now.nominal, Value(now.symbol, then, now.unit))


TURNS = About(
    title="Trailer can follow the tightest turn",
    topic="access",
    source=STEADY,
    concern="The axles cannot follow: the tow vehicle must shunt, and the trailer is dragged sideways on its tyres.",
    ask="Whoever knows the route: radius of the tightest turn, junction and site included.",
    defer_to="A walk of the route; a haulier where it is tight.",
    levers=("trailer.running_gear.station", "trailer.coupling.station"),
)
PASSES = About(
    title="Gate wide enough",
    topic="access",
    source="common practice, no source",
    concern="The house's side or the wheels strike the gate post on the inside of the turn.",
    ask="Whoever knows the site: width between the posts, and whether the house comes straight at it.",
    defer_to="A slow trial with a spotter at the inner post.",
)
