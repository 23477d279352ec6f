"""How the axles are sprung: heights under load, rates, and how a ball off its height pitches the frame.

Rubber-torsion axles on trailing arms each take what their own stiffness gives them; leaf springs on equalisers (see
`leaf`) share evenly, which is statics' way of saying that all of them stand at the middle of the group.
"""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import Floats, Quantity, Working, combine, formula, sure
from generator.calc.topics import leaf
from generator.calc.topics.leaf import G as G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Leaf, Torsion, Tyre


@formula("Rate of one tyre within its band", "k_t = k*s_t", "N/m:spring", "stated rate and its band")
def TYRE_RATE(k: Floats, s_t: Floats) -> Floats:
    return k * s_t


@formula("Tyre radius under load", "r_t = D/2 - 9.80665*N_m/(2*k_t)", "m", "two linear tyres carry one axle")
def TYRE_RADIUS(D: Floats, N_m: Floats, k_t: Floats) -> Floats:
    return D / 2 - G * N_m / (2 * k_t)


@formula(
    "Arm below level",
    "alpha = max(alpha_0 - stop, alpha_0 - turn/s*(N_m - U_m)/(G_m - U_m))",
    "rad",
    "published articulation table of rubber-torsion arms: the same turn at rated load whatever the start angle",
)
def ARM_ANGLE(alpha_0: Floats, stop: Floats, turn: Floats, s: Floats, N_m: Floats, U_m: Floats, G_m: Floats) -> Floats:
    return np.maximum(alpha_0 - stop, alpha_0 - turn / s * (N_m - U_m) / (G_m - U_m))


@formula("Torsion tube above ground", "z_t = r_t + R*sin(alpha)", "m", "geometry of a trailing arm")
def TUBE_HEIGHT(r_t: Floats, R: Floats, alpha: Floats) -> Floats:
    return r_t + R * np.sin(alpha)


@formula("Main deck above ground at the axle group", "z_d = z_t + h_td", "m", "height chain")
def DECK_HEIGHT(z_t: Floats, h_td: Floats) -> Floats:
    return z_t + h_td


@formula(
    "Rate of one wheel's spring at this load",
    "k_w = s*9.80665*(G_i - U_i)/2/(turn*R*cos(alpha))",
    "N/m:spring",
    "tangent of the arm's linear torque, vertical at the spindle",
)
def WHEEL_RATE(s: Floats, G_i: Floats, U_i: Floats, turn: Floats, R: Floats, alpha: Floats) -> Floats:
    return s * G * (G_i - U_i) / 2 / (turn * R * np.cos(alpha))


@formula(
    "Rate of one axle, springs and tyres in series",
    "k_i = 1/(1/(2*k_w) + 1/(2*k_t))",
    "N/m:spring",
    "springs in series, two wheels side by side",
)
def AXLE_RATE(k_w: Floats, k_t: Floats) -> Floats:
    return 1 / (1 / (2 * k_w) + 1 / (2 * k_t))


@formula("Travel left to the stop", "j = R*(sin(alpha) - sin(alpha_0 - stop))", "m", "geometry of a trailing arm")
def JOUNCE_LEFT(R: Floats, alpha: Floats, alpha_0: Floats, stop: Floats) -> Floats:
    left: Floats = R * (np.sin(alpha) - np.sin(alpha_0 - stop))
    return left


@formula("Spindle behind the tube", "a_s = R*cos(alpha)", "m", "geometry of a trailing arm")
def SPINDLE_AFT(R: Floats, alpha: Floats) -> Floats:
    return R * np.cos(alpha)


@formula(
    "Ball above its level height",
    "e = e_set + z_design - z_s + c_t*9.80665*(H_design - H_s)",
    "m",
    "the group settles, the tow vehicle rises as the hitch load falls",
)
def HITCH_ERROR(e_set: Floats, z_design: Floats, z_s: Floats, c_t: Floats, H_design: Floats, H_s: Floats) -> Floats:
    return e_set + z_design - z_s + c_t * G * (H_design - H_s)


@formula(
    "Moment per radian of pitch of the masses above ball and spindles",
    "Q = 9.80665*(m_s*(z_s - z_h) + A_s*(z_h - z_p))",
    "N*m/rad",
    "statics of the pitched trailer, small angles",
)
def PITCH_MASS(m_s: Floats, z_s: Floats, z_h: Floats, A_s: Floats, z_p: Floats) -> Floats:
    return G * (m_s * (z_s - z_h) + A_s * (z_h - z_p))


@formula("Pitch, nose up", "theta = e*K*u/(K*u**2 + J - Q)", "rad", "rigid frame on a ball and linear axle springs")
def PITCH(e: Floats, K: Floats, u: Floats, J: Floats, Q: Floats) -> Floats:
    return e * K * u / (K * u**2 + J - Q)


@dataclass(frozen=True, slots=True, eq=False)
class Arms:
    """Rubber-torsion axles as quantities: arm, angles, stiffness of the rubber, tube to deck. SI."""

    arm: Quantity
    start: Quantity
    turn: Quantity
    stop: Quantity
    soft: Quantity
    tube_to_deck: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Gear:
    """The running gear as quantities: springs, tyre, and rating and unsprung mass of each axle. SI."""

    springs: Arms | leaf.Springs
    diameter: Quantity
    tyre_rate: Quantity
    ratings: tuple[Quantity, ...]
    unsprung: tuple[Quantity, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """Springs under one load: what they give (arm angle, rad, or spring deflection, m), the height of tubes or eyes and
    of the main deck above ground (m).
    """

    give: Quantity
    tube: Quantity
    deck: Quantity


def gear(model: Model, trials: Trials, data: Reference) -> Gear:
    """The running gear of the spec; bands and turns that it does not state are defaults of the reference data."""
    running = model.spec.trailer.running_gear
    tyre, at = running.tyre, "trailer.yaml running_gear"
    axles = list(enumerate(running.axles, start=1))
    return Gear(
        _springs(model, trials, data),
        trials.given("D", tyre.diameter, "m", tyre.basis, f"{at}.tyre.diameter"),
        _tyre_rate(tyre, trials, data),
        tuple(trials.given("G_i", a.rating, "kg", path=f"{at}.axles.{i}.rating") for i, a in axles),
        tuple(trials.given("U_i", a.unsprung, "kg", path=f"{at}.axles.{i}.unsprung") for i, a in axles),
    )


def _springs(model: Model, trials: Trials, data: Reference) -> Arms | leaf.Springs:
    trailer, at = model.spec.trailer, "trailer.yaml running_gear.suspension"
    match trailer.running_gear.suspension:
        case Leaf() as part:
            return leaf.springs(part, trailer.frame, trials, data)
        case Torsion() as torsion:
            return Arms(
                trials.given("R", torsion.arm, "m", path=f"{at}.arm"),
                trials.given("alpha_0", torsion.start_angle, "rad", path=f"{at}.start_angle"),
                trials.assumed("turn", data.defaults["torsion.angle_rated"]),
                trials.assumed("stop", data.defaults["torsion.angle_stop"]),
                trials.assumed("s", data.defaults["torsion.stiffness_factor"]),
                trials.given("h_td", torsion.tube_to_deck, "m", path=f"{at}.tube_to_deck"),
            )


def _tyre_rate(tyre: Tyre, trials: Trials, data: Reference) -> Quantity:
    stated = trials.given("k", tyre.stiffness, "N/m:spring", tyre.basis, "trailer.yaml running_gear.tyre.stiffness")
    if tyre.stiffness.shape != "sure":
        return stated.named("k_t")
    return Working()(TYRE_RATE, k=stated, s_t=trials.assumed("s_t", data.defaults["tyre.stiffness_factor"]))


def mean(symbol: str, given: Sequence[Quantity]) -> Quantity:
    """Mean of like quantities; it rests on all of them."""
    values = np.sum(np.broadcast_arrays(*[q.values for q in given]), axis=0) / len(given)
    return combine(symbol, values, given[0].unit, given)


def total(symbol: str, given: Sequence[Quantity]) -> Quantity:
    """Sum of like quantities; it rests on all of them."""
    values = np.sum(np.broadcast_arrays(*[q.values for q in given]), axis=0)
    return combine(symbol, np.atleast_1d(values), given[0].unit, given)


def shares_evenly(model: Model) -> bool:
    """Whether the axles share evenly by equalisers, whatever their attitude."""
    match model.spec.trailer.running_gear.suspension:
        case Leaf():
            return True
        case Torsion():
            return False


def acting(model: Model) -> tuple[float, ...]:
    """Stations at which the axle springs act on the frame (m): each its own, or all the middle of a sharing group."""
    stations = model.axle_stations
    return (sum(stations) / len(stations),) * len(stations) if shares_evenly(model) else stations


def chain_words(model: Model) -> tuple[str, str, str]:
    """The steps of the height chain from spindle to deck in words, and what the first rests on."""
    match model.spec.trailer.running_gear.suspension:
        case Torsion():
            return "Torsion arm, spindle to tube", "Torsion tube to deck top", "arm and load"
        case Leaf():
            return "Axle and spring, spindle to eyes", "Spring eyes to deck top", "springs and load"


def settled(w: Working, g: Gear, radius: Quantity, mean_load: Quantity) -> Settled:
    """How the springs stand when the axles carry `mean_load` (kg each at the ground), trailer level."""
    give = giving(w, g, mean_load)
    match g.springs:
        case Arms() as s:
            tube = w(TUBE_HEIGHT, r_t=radius, R=s.arm, alpha=give)
            return Settled(give, tube, w(DECK_HEIGHT, z_t=tube, h_td=s.tube_to_deck))
        case leaf.Springs() as s:
            return _on_leaves(w, s, radius, give)


def rebound(w: Working, g: Gear, radius: Quantity) -> Settled:
    """How the springs stand with nothing on them, m."""
    match g.springs:
        case Arms() as s:
            tube = w(TUBE_HEIGHT, r_t=radius, R=s.arm, alpha=s.start)
            return Settled(s.start, tube, w(DECK_HEIGHT, z_t=tube, h_td=s.tube_to_deck))
        case leaf.Springs() as s:
            return _on_leaves(w, s, radius, sure("y", 0.0, "m"))


def _on_leaves(w: Working, s: leaf.Springs, radius: Quantity, give: Quantity) -> Settled:
    eyes = leaf.eyes(w, s, radius, give)
    return Settled(give, eyes, w(leaf.DECK_ON_HANGERS, z_e=eyes, hanger=s.hanger, zeta_r=s.under_rail))


def giving(w: Working, g: Gear, mean_load: Quantity) -> Quantity:
    """Arm angle below level (rad) or spring deflection (m) when the axles carry `mean_load` (kg each)."""
    unsprung = mean("U_m", g.unsprung)
    match g.springs:
        case Arms() as s:
            rating = mean("G_m", g.ratings)
            return w(ARM_ANGLE, alpha_0=s.start, stop=s.stop, turn=s.turn, s=s.soft, N_m=mean_load, U_m=unsprung,
                     G_m=rating)
        case leaf.Springs() as s:
            return w(leaf.PRESSED, N_m=mean_load, U_m=unsprung, k_s=s.rate)


def rates(w: Working, g: Gear, give: Quantity) -> tuple[Quantity, ...]:
    """Rate of each axle (N/m), springs and tyres in series, when the springs give so much (see `Settled`)."""
    match g.springs:
        case Arms() as s:
            wheels = [
                w(WHEEL_RATE, s=s.soft, G_i=r, U_i=u, turn=s.turn, R=s.arm, alpha=give)
                for r, u in zip(g.ratings, g.unsprung, strict=True)
            ]
        case leaf.Springs() as s:
            wheels = [s.rate] * len(g.ratings)
    return tuple(w(AXLE_RATE, k_w=k, k_t=g.tyre_rate) for k in wheels)


def travel_left(w: Working, g: Gear, give: Quantity) -> Quantity:
    """Upward travel of a wheel left to its stop, m."""
    match g.springs:
        case Arms() as s:
            return w(JOUNCE_LEFT, R=s.arm, alpha=give, alpha_0=s.start, stop=s.stop)
        case leaf.Springs() as s:
            return w(leaf.BUMP_LEFT, bump=s.bump, y=give)


def spindle_aft(g: Gear, give: Quantity) -> Quantity:
    """How far a spindle lies behind what holds its axle to the frame: a trailing arm; nothing for a beam axle. m."""
    match g.springs:
        case Arms() as s:
            return Working()(SPINDLE_AFT, R=s.arm, alpha=give)
        case leaf.Springs():
            return sure("a_s", 0.0, "m")


def pitch_about(w: Working, e: Quantity, rates: Sequence[Quantity], arms: Sequence[Quantity], Q: Quantity) -> Quantity:
    """Pitch (rad, nose up) for a ball `e` (m) above level; `arms` are the stations of the axles behind the ball (m)."""
    k = np.array(np.broadcast_arrays(*[q.values for q in rates]))
    u = np.array(np.broadcast_arrays(*[q.values for q in arms]))
    total_rate = k.sum(axis=0)
    centre = (k * u).sum(axis=0) / total_rate
    spread = (k * (u - centre) ** 2).sum(axis=0)
    inputs = (*rates, *arms)
    K = combine("K", total_rate, "N/m:spring", inputs)
    u_mean = combine("u", centre, "m", inputs)
    J = w.procedure(
        "Rotational rate of the axles about their middle",
        "J is the sum of k_i times the square of each axle's distance from the stiffness-weighted middle.",
        "mechanics of springs in parallel",
        combine("J", spread, "N*m/rad", inputs),
        inputs,
    )
    return w(PITCH, e=e, K=K, u=u_mean, J=J, Q=Q)
