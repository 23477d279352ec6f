"""Stopping, pulling away and holding on a grade: brake force, grip, and what that does to the load on the ball.

Loads at the ground and forces along the road in kg, as shares of the mass they move; heights and stations in m.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.road_inputs import Found, Puller, Towed
from generator.calc.topics.suspension import G
from generator.calc.topics.tow import REAR_ADDED, VEHICLE
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference

ABOUT_AXLES = "dynamics: moments about the axle group, trailer rigid and level"
BRAKES = "trailer.running_gear.axles.*.brake.rating"


@formula("Push of the trailer on the ball", "F_x = a*W*(1 - beta)", "kg", "dynamics: what its own brakes do not stop")
def PUSH(a: Floats, W: Floats, beta: Floats) -> Floats:
    return a * W * (1 - beta)


@formula(
    "Load on the ball while braking", "H_b = (W*(x_a - x_g) + a*W*z_g - F_x*z_h)/(x_a - x_h)", "kg", ABOUT_AXLES
)
def HITCH_BRAKING(
    W: Floats, x_a: Floats, x_g: Floats, a: Floats, z_g: Floats, F_x: Floats, z_h: Floats, x_h: Floats
) -> Floats:
    return (W * (x_a - x_g) + a * W * z_g - F_x * z_h) / (x_a - x_h)


@formula("Load left on the axles while braking", "N_b = W - H_b", "kg", "statics: what the ball does not carry")
def AXLES_BRAKING(W: Floats, H_b: Floats) -> Floats:
    return W - H_b


@formula("Grip the trailer's wheels use", "mu = a*W*beta/N_b", "%", "brake force over the load on the wheels")
def GRIP_USED(a: Floats, W: Floats, beta: Floats, N_b: Floats) -> Floats:
    return a * W * beta / N_b


@formula("Pull as a share of gravity", "a_p = a_0 + G", "%", "pulling away on the steepest grade, small angle")
def PULL(a_0: Floats, G: Floats) -> Floats:
    return a_0 + G


@formula(
    "Load on the ball while pulling away",
    "H_p = (W*(x_a - x_g) - a_p*W*(z_g - z_h))/(x_a - x_h)",
    "kg",
    ABOUT_AXLES,
)
def HITCH_PULLING(
    W: Floats, x_a: Floats, x_g: Floats, a_p: Floats, z_g: Floats, z_h: Floats, x_h: Floats
) -> Floats:
    return (W * (x_a - x_g) - a_p * W * (z_g - z_h)) / (x_a - x_h)


@formula("Deceleration of the rule's stop, share of gravity", "d = v*v/(2*s*g)", "%", "even deceleration to rest")
def STOP(v: Floats, s: Floats, g: Floats) -> Floats:
    return v * v / (2 * s * g)


@formula("What the rule asks, by its distance or its force, whichever is more", "a_r = max(d, f_r)", "%", "of gravity")
def RULE(d: Floats, f_r: Floats) -> Floats:
    return np.maximum(d, f_r)


@formula("Brake force of the trailer at its ratings", "B_r = c_b*G_b", "kg", "brakes as rated, whatever the road takes")
def RATED(c_b: Floats, G_b: Floats) -> Floats:
    return c_b * G_b


@formula("Brake force asked of the trailer", "B_a = f_r*A", "kg", "the rule's share of the load on its own wheels")
def ASKED(f_r: Floats, A: Floats) -> Floats:
    return f_r * A


@formula(
    "Brake force of the trailer",
    "B_t = min(B_r, mu_r*N_b)",
    "kg",
    "brakes as rated, not more than the road takes from the wheels with the load left on them",
)
def BRAKE_FORCE(B_r: Floats, mu_r: Floats, N_b: Floats) -> Floats:
    return np.minimum(B_r, mu_r * N_b)


@formula(
    "Deceleration of the combination, share of gravity",
    "d_c = (B_t + f_r*(V_m + H))/(V_m + W)",
    "%",
    "sum of brake forces over sum of masses; nothing is known of the tow vehicle's brakes: they are taken to give just "
    "what the rule asks of the load on its own wheels",
)
def COMBINED(B_t: Floats, f_r: Floats, V_m: Floats, H: Floats, W: Floats) -> Floats:
    return (B_t + f_r * (V_m + H)) / (V_m + W)


@formula("Pull of the trailer down the grade", "P_g = W*sin(atan(G))", "kg", "statics of a body on a slope")
def DOWNHILL(W: Floats, G: Floats) -> Floats:
    pull: Floats = W * np.sin(np.arctan(G))
    return pull


def braking(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Stopping, pulling away, breakaway on a grade, and the load on the ball in each (kg)."""
    vehicle, stop = ri.puller(model, trials), _Stop(model, trials, data)
    hard = _hardest(states, trials.assumed("a", data.defaults["brake.hard"]), trials, data)
    pulling = _pulling(model, states, trials, data)
    travel = next(t for t in states if t.state.id == DESIGN)
    quantities = (
        *_reported(hard, vehicle, trials, data),
        report("pulling.hitch", "Load on the ball, pulling away on the steepest grade", pulling.value, "down"),
        *_stopping_rows(stop, travel, vehicle, trials),
        *_chocks(model, travel, trials),
    )
    checks = (
        _force(stop, states),
        _combination(stop, states, vehicle),
        _grip(stop, states),
        *(_overrun() if is_overrun(model) else (_breakaway(stop, states, model, trials, data),)),
        Check(
            "pulling.hitch",
            _PULLING,
            pulling.towed.state.id,
            compare(pulling.value, trials.assumed("H_min", data.defaults["hitch.least"]), ">=", _w(pulling)),
        ),
    )
    return Findings(quantities, checks)


class _Stop:
    """What stops the combination: brakes of the trailer, grip, and what the rule asks. SI, kg."""

    def __init__(self, model: Model, trials: Trials, data: Reference) -> None:
        row = data.defaults
        self.rated = _rated(model, trials)
        self.share = trials.assumed("c_b", row["brake.force_share"])
        self.own = trials.assumed("beta", row["brake.own_share"])
        self.grip = trials.assumed("mu_r", row["brake.friction"])
        self.rule = trials.assumed("f_r", row["brake.rule_force"])
        self.speed = trials.assumed("v", row["brake.rule_speed"])
        self.distance = trials.assumed("s", row["brake.rule_distance"])

    def at_ratings(self, w: Working) -> Quantity:
        """Brake force of the trailer's brakes by their ratings, kg."""
        return w(RATED, c_b=self.share, G_b=self.rated)

    def force(self, w: Working, load: Quantity) -> Quantity:
        """Brake force of the trailer with this load (kg) on its wheels, kg."""
        return w(BRAKE_FORCE, B_r=self.at_ratings(w), mu_r=self.grip, N_b=load)

    def braked(self, w: Working, t: Towed, a: Quantity) -> Quantity:
        """Brake force of the trailer in one state, its wheels unloaded by the stop itself (`a`, share of g), kg."""
        return self.force(w, w(AXLES_BRAKING, W=t.mass, H_b=hitch_braking(w, t, a.named("a"), self.own)))

    def demand(self, w: Working) -> Quantity:
        """Deceleration of the rule's stop by its distance, as a share of gravity."""
        return w(STOP, v=self.speed, s=self.distance, g=sure("g", G, "m/s2"))

    def asked(self, w: Working) -> Quantity:
        """What the rule asks of the combination, by distance and by force, as a share of gravity."""
        return w(RULE, d=self.demand(w), f_r=self.rule)


def _rated(model: Model, trials: Trials) -> Quantity:
    """Axle loads for which the fitted brakes are rated, added up, kg."""
    ratings = [
        trials.given("G_b", a.brake.rating, "kg", path=f"trailer.yaml running_gear.axles.{n}.brake.rating")
        for n, a in enumerate(model.spec.trailer.running_gear.axles, start=1)
        if a.brake.type != "none"
    ]
    if not ratings:
        return sure("G_b", 0.0, "kg", origin="trailer.yaml: no axle has brakes")
    total = np.sum(np.broadcast_arrays(*[r.values for r in ratings]), axis=0)
    return combine("G_b", np.atleast_1d(total), "kg", ratings)


def hitch_braking(w: Working, t: Towed, a: Quantity, beta: Quantity) -> Quantity:
    """Load on the ball in one state at deceleration `a` (share of g), own brakes stopping `beta` of the mass, kg."""
    push = w(PUSH, a=a, W=t.mass, beta=beta)
    return w(HITCH_BRAKING, W=t.mass, x_a=t.x_a, x_g=t.x, a=a, z_g=t.height, F_x=push, z_h=t.ball, x_h=t.x_h)


def grip_used(w: Working, t: Towed, a: Quantity, beta: Quantity) -> Quantity:
    """Grip the trailer's wheels use at deceleration `a` (share of g)."""
    N_b = w(AXLES_BRAKING, W=t.mass, H_b=hitch_braking(w, t, a, beta))
    return w(GRIP_USED, a=a, W=t.mass, beta=beta, N_b=N_b)


def hitch_pulling(w: Working, t: Towed, a_p: Quantity) -> Quantity:
    """Load on the ball in one state, pulled with `a_p` (share of g), kg."""
    return w(HITCH_PULLING, W=t.mass, x_a=t.x_a, x_g=t.x, a_p=a_p, z_g=t.height, z_h=t.ball, x_h=t.x_h)


def _hardest(states: Sequence[Towed], a: Quantity, trials: Trials, data: Reference) -> Found:
    beta = trials.assumed("beta", data.defaults["brake.own_share"])
    return ri.extreme(states, lambda w, t: hitch_braking(w, t, a, beta))


def _pulling(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Found:
    a_0, grade = trials.assumed("a_0", data.defaults["brake.pull_away"]), ri.steepest(model, trials, data)
    return ri.extreme(states, lambda w, t: hitch_pulling(w, t, w(PULL, a_0=a_0, G=grade)), least=True)


def _reported(hard: Found, vehicle: Puller, trials: Trials, data: Reference) -> Iterator[Reported]:
    w, a = Working(), trials.assumed("a", data.defaults["brake.hard"])
    title = ("Load on the ball in a hard stop, at most: the trailer's brakes stopping all of the trailer, "
             f"whatever the grip; {hard.towed.state.title.lower()}")
    yield report("braking.hitch", title, hard.value, "up")
    yield report(
        "braking.rear_added",
        "Rear axle of the tow vehicle, added by the ball in a hard stop (passing load, not a rating)",
        w(REAR_ADDED, H=hard.value, wb=vehicle.wheelbase, o=vehicle.behind),
        "up",
    )
    yield report(
        "braking.push",
        f"Push on the ball in a hard stop, trailer brakes dead; {hard.towed.state.title.lower()}",
        w(PUSH, a=a, W=hard.towed.mass, beta=sure("beta", 0.0, "%")),
        "up",
    )


def _stopping_rows(stop: _Stop, t: Towed, vehicle: Puller, trials: Trials) -> Iterator[Reported]:
    w, state = Working(), t.state.title.lower()
    alone = _alone(w, vehicle)
    both = w(COMBINED, B_t=stop.braked(w, t, stop.asked(w)), f_r=stop.rule, V_m=alone, H=t.hitch, W=t.mass)
    dead = w(COMBINED, B_t=sure("B_t", 0.0, "kg"), f_r=stop.rule, V_m=alone, H=t.hitch, W=t.mass)
    title = f"Deceleration of the combination, {state}, share of gravity"
    yield report("braking.deceleration", title, both, "down")
    yield report("braking.without_trailer", f"Deceleration with the trailer's brakes dead, {state}", dead, "down")


def _chocks(model: Model, t: Towed, trials: Trials) -> Iterator[Reported]:
    """What chocks must hold where the house stands, once it is unhitched; nothing without a site."""
    site = model.spec.site
    if site is not None:
        slope = trials.given("G", site.slope_along, "%", "estimate", "site.yaml slope_along")
        steep = combine("G", np.abs(slope.values), "%", (slope,))
        hold = Working()(DOWNHILL, W=t.mass, G=steep)
        yield report("parked.chocks", "Chocks and brakes must hold on the site's slope, travel load", hold, "up")


def _force(stop: _Stop, states: Sequence[Towed]) -> Check:
    most = ri.extreme(states, lambda w, t: w(ASKED, f_r=stop.rule, A=t.group))
    w = _w(most)
    return Check("brakes.force", _FORCE, most.towed.state.id, compare(stop.at_ratings(w), most.value, ">=", w))


def _combination(stop: _Stop, states: Sequence[Towed], vehicle: Puller) -> Check:
    def work(w: Working, t: Towed) -> Quantity:
        B_t = stop.braked(w, t, stop.asked(w))
        return w(COMBINED, B_t=B_t, f_r=stop.rule, V_m=_alone(w, vehicle), H=t.hitch, W=t.mass)

    least = ri.extreme(states, work, least=True)
    limit = stop.asked(Working())
    return Check("brakes.stop", _STOPPING, least.towed.state.id, compare(least.value, limit, ">=", _w(least)))


def _grip(stop: _Stop, states: Sequence[Towed]) -> Check:
    demand = stop.demand(Working())
    most = ri.extreme(states, lambda w, t: grip_used(w, t, demand.named("a"), stop.own))
    w = Working()
    stop.demand(w)
    w.steps += most.steps
    return Check("brakes.grip", _GRIP, most.towed.state.id, compare(most.value, stop.grip, "<=", w))


def _breakaway(stop: _Stop, states: Sequence[Towed], model: Model, trials: Trials, data: Reference) -> Check:
    """In the state that uses the greatest part of its brake force."""
    grade = ri.steepest(model, trials, data)

    def share(w: Working, t: Towed) -> Quantity:
        pull, held = w(DOWNHILL, W=t.mass, G=grade), stop.force(w, t.group)
        with np.errstate(all="ignore"):
            return combine("r", pull.values / held.values, "1", (pull, held))

    worst = ri.extreme(states, share).towed
    w = Working(list(worst.steps))
    held = stop.force(w, worst.group)
    pull = w(DOWNHILL, W=worst.mass, G=grade)
    return Check("brakes.breakaway", _BREAKAWAY, worst.state.id, compare(pull, held, "<=", w))


def is_overrun(model: Model) -> bool:
    """Whether any axle has over-run brakes: no controller works them, and no battery when the trailer breaks away."""
    return any(a.brake.type == "over-run" for a in model.spec.trailer.running_gear.axles)


def _overrun() -> Iterator[Check]:
    """What only the maker of over-run brakes knows: nobody can say from their rating what push and lever give."""
    yield Check("brakes.overrun", _OVERRUN, "", Missing((OVERRUN_RATIO,)))
    yield Check("brakes.breakaway", replace(_BREAKAWAY, ask=OVERRUN_SHOP), "", Missing((OVERRUN_LEVER,)))


def _alone(w: Working, v: Puller) -> Quantity:
    return w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo).named("V_m")


def _w(found: Found) -> Working:
    return Working(list(found.steps))


def _about(title: str, source: str, concern: str, ask: str, *levers: str) -> About:
    return About(title, "braking", source, concern, ask, ri.MAKER, False, levers)


_RULE = "49 CFR 393.52(d), edition of 2015 (commercial moves; guidance for a private one)"
_BRAKE_MAKER = "The axle maker: brake torque at full output, and the tyre radius it is for."
_FORCE = _about(
    "Trailer brakes, at their ratings, stop the load on the trailer's own wheels",
    _RULE,
    "The tow vehicle must stop part of the trailer too: its brakes fade, and the trailer pushes in a bend.",
    _BRAKE_MAKER,
    BRAKES,
)
_STOPPING = _about(
    "Combination brakes as hard as the rule asks, by force and by distance",
    _RULE,
    "The combination does not stop where the traffic ahead does.",
    _BRAKE_MAKER,
    BRAKES,
)
_GRIP = _about(
    "Trailer wheels roll on in a stop within the rule's distance",
    "common practice, no source",
    "Wheels that lock give no side grip: the trailer swings out beside the tow vehicle.",
    "Whoever tows: set the brakes with the trailer loaded, on the surface of the day.",
    ri.STATION,
)
OVERRUN_RATIO = "the maker's letter: brake force for each unit of push, for this trailer's mass and these tyres"
OVERRUN_LEVER = "the maker's letter: what the breakaway cable and its lever hold, and for how long"
OVERRUN_SHOP = "The brake maker: hold on the steepest grade, forward and back, and for 15 minutes."
_OVERRUN = _about(
    "Over-run brakes: coupling, lever ratio and wheel brakes belong together",
    "common practice, no source",
    "They brake only while the trailer pushes: all the way down a long grade, and against whoever backs uphill.",
    "The maker of the over-run coupling: the set it is proved with, how backing and a long descent are dealt with.",
    BRAKES,
)
_BREAKAWAY = _about(
    "Breakaway brakes hold the trailer on the steepest grade",
    "statics; 49 CFR 393.43(d), edition of 2015: at once, and for 15 minutes",
    "A trailer that has come off runs back down the hill.",
    "The shop: breakaway test with a full battery, held for 15 minutes, in the acceptance sheet.",
    BRAKES,
)
_PULLING = _about(
    "The ball stays pressed down while pulling away uphill",
    "dynamics: moments about the axle group",
    "The coupler knocks up against its latch at every start, and the tow vehicle's rear wheels lose grip.",
    "The designer: axles further aft, or the heavy things lower.",
    ri.STATION,
)
