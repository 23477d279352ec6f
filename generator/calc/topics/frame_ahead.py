"""Rails of the neck or legs of the tongue, bent while the tow vehicle stops or pulls: force and moment together.

At datum A, one leg. A hard stop and a start uphill are taken on an even road: what the road adds is in the bending
checks. The root's welds, the riser and fatigue are a licensed engineer's. N, N m, m.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from generator.calc.record import (
    About,
    Check,
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
from generator.calc.topics.braking import PULL, hitch_braking, hitch_pulling
from generator.calc.topics.columns import ALLOWED_PULL, AMPLIFIED, BUCKLING_LOAD, push_allowed, used
from generator.calc.topics.coupled import coupled
from generator.calc.topics.frame_beam import POINT
from generator.calc.topics.frame_braces import Free, Hold, braces, stretches_of, unbraced
from generator.calc.topics.frame_cases import Cases, Frame
from generator.calc.topics.frame_neck import PUSH
from generator.calc.topics.frame_steel import section_levers, steel_of
from generator.calc.topics.frame_strength import Case, grown
from generator.calc.topics.rides import DESIGN, hitch_station
from generator.calc.topics.road_inputs import Towed
from generator.calc.topics.strength import Steel, moment_allowed
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model, Piece
from generator.records import dataclass
from generator.reference.types import Reference

ID = "frame.axial_bending"


@formula("Moment at the root in a hard stop, all legs", "M = 2*M_s + 9.80665*(H_b - H)*a + F_x*h_x", "N*m",
         "statics; sagging positive, the ball under the leg's middle presses the other way")
def STOP_MOMENT(M_s: Floats, H_b: Floats, H: Floats, a: Floats, F_x: Floats, h_x: Floats) -> Floats:
    """Moment N m from that of one of two sides, loads on the ball kg, arm m, push N and its height over the legs m."""
    return 2 * M_s + G * (H_b - H) * a + F_x * h_x


@formula("Moment at the root while pulling away, all legs", "M = 2*M_s + 9.80665*(H_p - H)*a - F_x*h_x", "N*m",
         "statics; the push turned round")
def PULL_MOMENT(M_s: Floats, H_p: Floats, H: Floats, a: Floats, F_x: Floats, h_x: Floats) -> Floats:
    """Moment N m, as in a stop, with the force the other way."""
    return 2 * M_s + G * (H_p - H) * a - F_x * h_x


@formula("Moment of one leg", "M_1 = max(M, -M)/(n*cos(beta))", "N*m", "legs alike; beta is their angle in plan")
def LEG_MOMENT(M: Floats, n: Floats, beta: Floats) -> Floats:
    """Moment N m along a leg, without its sense."""
    return np.maximum(M, -M) / (n * np.cos(beta))


@formula("Force along one leg", "P_r = F_x/(n*cos(beta))", "N", "legs alike; beta is their angle in plan")
def LEG_FORCE(F_x: Floats, n: Floats, beta: Floats) -> Floats:
    """Force N along a leg."""
    return F_x / (n * np.cos(beta))


@formula("Length of a leg, ball to datum A", "L = a/cos(beta)", "m", "plan")
def LEG_LENGTH(a: Floats, beta: Floats) -> Floats:
    """Length m along a leg."""
    return a / np.cos(beta)


@dataclass(frozen=True, slots=True, eq=False)
class Legs:
    """The members that cross or meet datum A from ahead, alike: one of them, its steel, how many, angle (rad)."""

    piece: Piece
    steel: Steel
    count: Quantity
    angle: Quantity
    flanges: tuple[Free, Free]
    """Longest stretch ahead of datum A between what holds its top and its bottom flange."""


def ahead(f: Frame, found: Cases, towed: Sequence[Towed], trials: Trials, data: Reference,
          ) -> tuple[Check, tuple[Reported, ...]]:
    """The worse of a hard stop and a start uphill, for the leg at datum A."""
    travel, case = next((t for t in towed if t.state.id == DESIGN), None), found["towing"]
    if travel is None:
        return unassessed(f.model, Missing(("what ball and axles carry in the travel state",))), ()
    legs = legs_of(f, trials, data)
    if isinstance(legs, Missing):
        return unassessed(f.model, legs), ()
    if isinstance(case, Missing):
        return unassessed(f.model, case), ()
    worked = [_drive(f, case, legs, travel, is_push, trials, data) for is_push in (True, False)]
    w, use = max(worked, key=lambda pair: float(np.nan_to_num(pair[1].values[0], nan=np.inf)))
    limit = sure("u_max", 1.0, "1")
    title = f"{_named(f.model)}: use by force and bending together"
    check = unassessed(f.model, Missing(()))
    levers = section_levers((legs.piece.mark,), "frame" if f.model.spec.trailer.tongue is None else "tongue")
    check = replace(check, about=replace(check.about, levers=levers), outcome=compare(use, limit, "<=", w))
    return check, (report(f"{ID}.use", title, use, "up"),)


def unassessed(model: Model, why: Missing) -> Check:
    """The check where it could not be worked."""
    return Check(ID, replace(ABOUT, title=f"{_named(model)}, force and bending together"), DESIGN, why)


def _named(model: Model) -> str:
    return "Tongue leg" if coupled(model).root == "Tongue" else "Neck rail"


def legs_of(f: Frame, trials: Trials, data: Reference) -> Legs | Missing:
    """The neck's rails, or the lengthwise members of the tongue, where they pass datum A."""
    tongue = f.model.spec.trailer.tongue
    marks = {m.mark for m in tongue.members} if tongue is not None else {r.mark for r in f.rails}
    held = [p for p in f.model.pieces if p.mark in marks and p.run == "lengthwise" and p.x0 < -POINT <= p.x1]
    if not held:
        return Missing(("a lengthwise member of neck or tongue that reaches datum A",))
    p = min(held, key=lambda p: (data.sections[p.section].modulus, p.mark))
    steel = steel_of(p.section, p.grade, trials, data)
    if isinstance(steel, str):
        return Missing((steel,))
    straight = sure("beta", 0.0, "rad")
    angle = straight if tongue is None else trials.given("beta", tongue.angle, "rad", path="trailer.yaml tongue.angle")
    count = sure("n", float(len(held)), "count", origin="trailer.yaml, legs that reach datum A")
    rail = next((r for r in f.rails if r.mark == p.mark), None)
    if rail is None:
        ends = Hold(p.x0, "front end"), Hold(p.x0 + -p.x0 * p.skew, "datum A, measured along the leg")
        alone = Free(*ends, ())
        return Legs(p, steel, count, angle, (alone, alone))
    holds = braces(f.model, rail, (), data)
    return Legs(p, steel, count, angle, (_longest(holds.top, p), _longest(holds.bottom, p)))


def _longest(held: Sequence[Hold], p: Piece) -> Free:
    return max(stretches_of([*held, Hold(0.0, "datum A")], p.x0, 0.0), key=lambda free: free.length)


def _drive(f: Frame, case: Case, legs: Legs, t: Towed, is_push: bool, trials: Trials, data: Reference,
           ) -> tuple[Working, Quantity]:
    """Working and use of one leg while the tow vehicle stops or pulls."""
    w = Working()
    force, hitch, words = _stop(w, t, trials, data) if is_push else _pull(w, f.model, t, trials, data)
    most, side = max(((float(s.diagram.moment_ahead(np.zeros(1))[0]), s) for s in case.sides),
                     key=lambda row: abs(row[0]))
    still = grown(w, case, side, most, 0.0, f"{words}; just ahead of datum A, the worse side, standing still")
    still = still.named("M_s")
    station = hitch_station(f.model, trials)
    arm = combine("a", -station.values, "m", [station])
    height = combine("h_x", f.ball.values - (legs.piece.z0 + legs.piece.z1) / 2, "m", [f.ball])
    shared = {"M_s": still, "H": t.hitch, "a": arm, "F_x": force, "h_x": height}
    whole = w(STOP_MOMENT, H_b=hitch, **shared) if is_push else w(PULL_MOMENT, H_p=hitch, **shared)
    moment = w(LEG_MOMENT, M=whole, n=legs.count, beta=legs.angle)
    along = w(LEG_FORCE, F_x=force, n=legs.count, beta=legs.angle)
    sags = float(whole.values[0]) > 0.0
    bends = moment_allowed(w, legs.steel, _unbraced(w, legs, sags)).named("M_c")
    omega = trials.assumed("Omega_c", data.defaults["frame.omega_axial"])
    if not is_push:
        area = legs.steel.dimension("A", legs.steel.section.area, "m2:section")
        limit = w(ALLOWED_PULL, F_y=legs.steel.strength, A=area, Omega_c=omega)
        return w, used(w, along, limit, moment.named("M_r"), bends)
    fixity = trials.assumed("K", data.defaults["frame.column_length"])
    length = w(LEG_LENGTH, a=arm, beta=legs.angle)
    limit = push_allowed(w, legs.steel, length, fixity, omega)
    buckling = w(BUCKLING_LOAD, E=legs.steel.modulus,
                 I=legs.steel.dimension("I", legs.steel.section.inertia, "m4"), K=fixity, L=length)
    return w, used(w, along, limit, w(AMPLIFIED, M_1=moment, P_r=along, P_e=buckling), bends)


def _unbraced(w: Working, legs: Legs, sags: bool) -> Quantity:
    """Free length (m) of the flange in compression; of no account for a tube, which does not buckle sideways."""
    free = legs.flanges[0 if sags else 1]
    if legs.steel.section.shape == "HSS":
        return sure("L_b", free.length, "m")
    return unbraced(w, "top" if sags else "bottom", legs.piece.mark, free)


def _stop(w: Working, t: Towed, trials: Trials, data: Reference) -> tuple[Quantity, Quantity, str]:
    """Push at the coupler (N) and load on the ball (kg) in a hard stop, the trailer's own brakes doing nothing."""
    share = trials.assumed("c_x", data.defaults["frame.push_braking"])
    hitch = hitch_braking(w, t, share.named("a"), sure("beta", 0.0, "%"))
    return w(PUSH, c_x=share, W=t.mass), hitch, "a hard stop"


def _pull(w: Working, model: Model, t: Towed, trials: Trials, data: Reference) -> tuple[Quantity, Quantity, str]:
    """Pull at the coupler (N) and load on the ball (kg) while pulling away on the steepest grade."""
    grade = ri.steepest(model, trials, data)
    share = w(PULL, a_0=trials.assumed("a_0", data.defaults["brake.pull_away"]), G=grade)
    return w(PUSH, c_x=share, W=t.mass), hitch_pulling(w, t, share), "pulling away uphill"


ABOUT = About(
    title="Rails ahead of datum A, force and bending together", topic="frame",
    source="AISC 360 (ASD), chapters E and H, as a first look, from memory; welds and fatigue are not in it",
    concern="In a hard stop the trailer pushes its own tongue or neck into the tow vehicle while its load bends it.",
    ask="A licensed engineer: section of neck or tongue, with the push and pull stated here.",
    defer_to="a licensed engineer; the fabricator's own design")
