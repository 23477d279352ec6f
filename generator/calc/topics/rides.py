"""How the trailer sits in each towed state: tyre, spring, deck height, axle rates, the ball off its level height."""

from collections.abc import Mapping
from typing import Protocol

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Step, Working, combine, formula, report, sure
from generator.calc.topics import suspension as sus
from generator.calc.topics.optional import absent
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Ball, Gooseneck, KingPin

DESIGN = "travel"
"""The load state at which the trailer is set level."""


class Loaded(Protocol):
    """What a ride needs of the loads in one state, trailer level; kg and m."""

    @property
    def hitch(self) -> Quantity:
        """Load on the ball, kg."""

    @property
    def group(self) -> Quantity:
        """Load of all axles at the ground, kg."""

    @property
    def sprung_mass(self) -> Quantity:
        """Mass carried by ball and springs, kg."""

    @property
    def sprung_zeta(self) -> Quantity:
        """Height of its centre above the main-deck top, m."""


@dataclass(frozen=True, slots=True, eq=False)
class Ride:
    """One towed state: heights above ground with the trailer level (m), what the springs give, rate per axle (N/m).

    `give` is the angle of torsion arms below level (rad), or the deflection of leaf springs (m); `tube` the height of
    the tubes or of the spring eyes. `ball` is the ball height at which the trailer is level in this state. `errors` and
    `pitches` are the ball's height above that level (m) and the nose-up pitch (rad) with the set height off by plus and
    by minus its tolerance.
    """

    state: str
    radius: Quantity
    give: Quantity
    tube: Quantity
    deck: Quantity
    ball: Quantity
    rates: tuple[Quantity, ...]
    jounce: Quantity
    errors: tuple[Quantity, Quantity]
    pitches: tuple[Quantity, Quantity]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Level:
    """A state before the ball's error is known."""

    w: Working
    radius: Quantity
    stand: sus.Settled
    rates: tuple[Quantity, ...]


@formula("Load of one axle", "N_m = A/n", "kg", "mean of the group; at level the arms share one angle")
def MEAN_LOAD(A: Floats, n: Floats) -> Floats:
    return A / n


@formula("Ball for a level trailer, above ground", "z_h = z_d + h_u - c", "m", "height chain of neck and coupler")
def LEVEL_BALL(z_d: Floats, h_u: Floats, c: Floats) -> Floats:
    return z_d + h_u - c


@formula("Ball for a level trailer, above ground", "z_h = z_d + zeta_h", "m", "height chain of tongue and coupler")
def LEVEL_TONGUE(z_d: Floats, zeta_h: Floats) -> Floats:
    return z_d + zeta_h


@formula("Height above ground of a level of the frame", "z_s = z_d + zeta", "m", "height chain")
def ABOVE_GROUND(z_d: Floats, zeta: Floats) -> Floats:
    return z_d + zeta


@formula("Body on its springs, up and down", "f = sqrt(k/m)/(2*pi)", "Hz", "textbook: a mass on a spring, no damping")
def BOUNCE(k: Floats, m: Floats, pi: Floats) -> Floats:
    """Natural frequency Hz from the rate of all axles N/m and the mass they carry kg."""
    return np.sqrt(k / m) / (2 * pi)


def bounce(model: Model, loads: Mapping[str, Loaded], rides: Mapping[str, Ride], trials: Trials, data: Reference,
           ) -> Findings:
    """`bounce.travel` (Hz): how briskly the body bounces over its axles in the travel state; lower rides softer."""
    load, rates = loads[DESIGN], rides[DESIGN].rates
    carried = sus.total("m", (load.group, *(_negative(u) for u in sus.gear(model, trials, data).unsprung)))
    rate = combine("k", np.sum(np.broadcast_arrays(*[q.values for q in rates]), axis=0), "N/m:spring", rates)
    found = Working()(BOUNCE, k=rate, m=carried, pi=sure("pi", float(np.pi), "1"))
    return Findings((report("bounce.travel", "Ride: body on springs and tyres, bounces a second, travel load", found),))


def rides(model: Model, loads: Mapping[str, Loaded], trials: Trials, data: Reference) -> dict[str, Ride]:
    """The ride of every towed state, from its loads at level (kg, m); the travel state is the one set level."""
    gear = sus.gear(model, trials, data)
    levels = {s.id: _level(gear, loads[s.id]) for s in model.states if s.towed}
    setting = setting_of(model, levels[DESIGN].stand.deck, trials)
    return {id: _ride(model, gear, id, levels, loads, setting, trials, data) for id in levels}


def level_ball(w: Working, model: Model, deck: Quantity, setting: Quantity, trials: Trials) -> Quantity:
    """Height of ball or plate above ground at which the trailer stands level with its main deck at `deck`, m.

    `setting`: extension of coupler or pin box, as `setting_of` finds it.
    """
    trailer = model.spec.trailer
    match trailer.coupling:
        case Ball() as ball:
            zeta = trials.given("zeta_h", ball.height, "m", path="trailer.yaml coupling.height")
            return w(LEVEL_TONGUE, z_d=deck, zeta_h=zeta)
        case Gooseneck() | KingPin():
            return w(LEVEL_BALL, z_d=deck, h_u=neck_underside(model, trials), c=setting)


def setting_of(model: Model, design: Quantity, trials: Trials) -> Quantity:
    """Extension at which coupler or pin box are pinned (m): the hole nearest to level behind the tow vehicle.

    `design`: main deck in the travel state (m). Without a tow vehicle the middle of the travel; nothing for a tongue.
    """
    coupling, tow = model.spec.trailer.coupling, model.spec.tow
    if isinstance(coupling, Ball):
        return absent("c", "m", "trailer.yaml coupling.adjust_low")
    ends = coupler_ends(coupling, trials)
    if tow is None or not tow.vehicle.ball_height.known:
        return sus.mean("c", ends)
    ball = trials.given("z_ball", tow.vehicle.ball_height, "m", tow.vehicle.basis, "tow.yaml vehicle.ball_height")
    wanted = design.values[:1] + neck_underside(model, trials).values[:1] - ball.values[:1]
    low, high = (float(q.values[0]) for q in ends)
    # Pinned once, for the nominal design; trials do not choose another hole.
    return combine("c", nearest_hole(wanted, low, high, coupling.adjust_step.nominal), "m", (design, ball, *ends))


def nearest_hole(wanted: Floats, shortest: float, longest: float, step: float) -> Floats:
    """Extension of the pin hole nearest to the one wanted, holes `step` apart from the shortest to the longest (m)."""
    if not step > 0.0:
        return np.clip(wanted, shortest, longest)
    last = np.floor((longest - shortest) / step + 1e-9)
    return shortest + step * np.clip(np.round((wanted - shortest) / step), 0.0, last)


def neck_underside(model: Model, trials: Trials) -> Quantity:
    """Neck underside above the main-deck top, m; unknown without a neck."""
    neck, path = model.spec.trailer.neck, "trailer.yaml neck.underside"
    return absent("h_u", "m", path) if neck is None else trials.given("h_u", neck.underside, "m", path=path)


def coupler_ends(coupling: Gooseneck | KingPin, trials: Trials) -> tuple[Quantity, Quantity]:
    """Neck underside above ball or plate, coupler or pin box at its shortest and at its longest, m."""
    at = "trailer.yaml coupling"
    return (
        trials.given("c_min", coupling.adjust_low, "m", path=f"{at}.adjust_low"),
        trials.given("c_max", coupling.adjust_high, "m", path=f"{at}.adjust_high"),
    )


def hitch_station(model: Model, trials: Trials) -> Quantity:
    """Station of the ball, m."""
    return trials.given("x_h", model.spec.trailer.coupling.station, "m", path="trailer.yaml coupling.station")


def compliance(model: Model, trials: Trials, data: Reference) -> Quantity:
    """How far the ball drops per newton (m/N); a tow vehicle not described is taken as rigid, and that is said."""
    tow = model.spec.tow
    if tow is None or not tow.vehicle.compliance.known:
        return trials.assumed("c_t", data.defaults["tow.compliance"])
    return trials.given("c_t", tow.vehicle.compliance, "m/N", tow.vehicle.basis, "tow.yaml vehicle.compliance")


def _level(g: sus.Gear, load: Loaded) -> _Level:
    w = Working()
    mean_load = w(MEAN_LOAD, A=load.group, n=sure("n", float(len(g.ratings)), "1"))
    radius = w(sus.TYRE_RADIUS, D=g.diameter, N_m=mean_load, k_t=g.tyre_rate)
    stand = sus.settled(w, g, radius, mean_load)
    return _Level(w, radius, stand, sus.rates(Working(), g, stand.give))


def _ride(
    model: Model,
    gear: sus.Gear,
    id: str,
    levels: Mapping[str, _Level],
    loads: Mapping[str, Loaded],
    setting: Quantity,
    trials: Trials,
    data: Reference,
) -> Ride:
    level, load, w = levels[id], loads[id], Working()
    deck = level.stand.deck
    ball = level_ball(w, model, deck, setting, trials)
    high, low = (_error(model, sign, level, levels[DESIGN], load, loads[DESIGN], trials, data) for sign in (1.0, -1.0))
    sprung = w(ABOVE_GROUND, z_d=deck, zeta=load.sprung_zeta)
    carried = sus.total("A_s", (load.group, *(_negative(u) for u in gear.unsprung)))
    q = w(sus.PITCH_MASS, m_s=load.sprung_mass, z_s=sprung, z_h=ball, A_s=carried, z_p=level.radius)
    arms = _arms(model, hitch_station(model, trials))
    jounce = sus.travel_left(w, gear, level.stand.give)
    pitches = (sus.pitch_about(w, high, level.rates, arms, q), sus.pitch_about(w, low, level.rates, arms, q))
    return Ride(
        id,
        level.radius,
        level.stand.give,
        level.stand.tube,
        deck,
        ball,
        level.rates,
        jounce,
        (high, low),
        pitches,
        tuple(level.w.steps),
    )


def _error(
    model: Model,
    sign: float,
    level: _Level,
    design: _Level,
    load: Loaded,
    design_load: Loaded,
    trials: Trials,
    data: Reference,
) -> Quantity:
    tolerance = trials.given(
        "e_set",
        model.spec.trailer.running_gear.suspension.hitch_height_tolerance,
        "m",
        path="trailer.yaml running_gear.suspension.hitch_height_tolerance",
    )
    e_set = tolerance if sign > 0 else _negative(tolerance)
    return Working()(
        sus.HITCH_ERROR,
        e_set=e_set,
        z_design=design.stand.deck,
        z_s=level.stand.deck,
        c_t=compliance(model, trials, data),
        H_design=design_load.hitch,
        H_s=load.hitch,
    )


def _arms(model: Model, x_h: Quantity) -> tuple[Quantity, ...]:
    return tuple(Quantity("u_i", np.asarray(x - x_h.values), "m", x_h.basis, x_h.rests_on) for x in sus.acting(model))


def _negative(q: Quantity) -> Quantity:
    return Quantity(q.symbol, -q.values, q.unit, q.basis, q.rests_on, q.origin)
