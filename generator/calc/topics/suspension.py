"""Rubber-torsion axles on trailing arms: heights under load, rates, and how a ball off its height pitches the frame."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from generator.calc.record import Floats, Quantity, Working, combine, formula
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Tyre

G = 9.80665
"""Standard gravity, m/s2. Source: ISO 80000-3 (exact by convention)."""


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
    "Moment per unit pitch of the masses above ball and spindles",
    "Q = 9.80665*(m_s*(z_s - z_h) + A_s*(z_h - z_p))",
    "N*m",
    "statics of the pitched trailer, small angles",
)
def PITCH_MASS(m_s: Floats, z_s: Floats, z_h: Floats, A_s: Floats, z_p: Floats) -> Floats:
    return G * (m_s * (z_s - z_h) + A_s * (z_h - z_p))


@formula("Pitch, nose up", "theta = e*K*u/(K*u**2 + J - Q)", "rad", "rigid frame on a ball and linear axle springs")
def PITCH(e: Floats, K: Floats, u: Floats, J: Floats, Q: Floats) -> Floats:
    return e * K * u / (K * u**2 + J - Q)


@dataclass(frozen=True, slots=True, eq=False)
class Gear:
    """The running gear as quantities: arm, angles, tyre, and rating and unsprung mass of each axle. SI."""

    arm: Quantity
    start: Quantity
    turn: Quantity
    stop: Quantity
    soft: Quantity
    tube_to_deck: Quantity
    diameter: Quantity
    tyre_rate: Quantity
    ratings: tuple[Quantity, ...]
    unsprung: tuple[Quantity, ...]


def gear(model: Model, trials: Trials, data: Reference) -> Gear:
    """The running gear of the spec; the turn at rated load and its spread are defaults of the reference data."""
    running = model.spec.trailer.running_gear
    torsion, tyre, at = running.suspension, running.tyre, "trailer.yaml running_gear"
    axles = list(enumerate(running.axles, start=1))
    return Gear(
        trials.given("R", torsion.arm, "m", path=f"{at}.suspension.arm"),
        trials.given("alpha_0", torsion.start_angle, "rad", path=f"{at}.suspension.start_angle"),
        trials.assumed("turn", data.defaults["torsion.angle_rated"]),
        trials.assumed("stop", data.defaults["torsion.angle_stop"]),
        trials.assumed("s", data.defaults["torsion.stiffness_factor"]),
        trials.given("h_td", torsion.tube_to_deck, "m", path=f"{at}.suspension.tube_to_deck"),
        trials.given("D", tyre.diameter, "m", tyre.basis, f"{at}.tyre.diameter"),
        _tyre_rate(tyre, trials, data),
        tuple(trials.given("G_i", a.rating, "kg", path=f"{at}.axles.{i}.rating") for i, a in axles),
        tuple(trials.given("U_i", a.unsprung, "kg", path=f"{at}.axles.{i}.unsprung") for i, a in axles),
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


def arm_angle(w: Working, g: Gear, mean_load: Quantity) -> Quantity:
    """Angle of the arms below level (rad) when the axles carry `mean_load` (kg each at the ground), trailer level."""
    unsprung, rating = mean("U_m", g.unsprung), mean("G_m", g.ratings)
    return w(ARM_ANGLE, alpha_0=g.start, stop=g.stop, turn=g.turn, s=g.soft, N_m=mean_load, U_m=unsprung, G_m=rating)


def rates(w: Working, g: Gear, angle: Quantity) -> tuple[Quantity, ...]:
    """Rate of each axle (N/m), springs and tyres in series, at this arm angle (rad)."""
    wheels = (
        w(WHEEL_RATE, s=g.soft, G_i=r, U_i=u, turn=g.turn, R=g.arm, alpha=angle)
        for r, u in zip(g.ratings, g.unsprung, strict=True)
    )
    return tuple(w(AXLE_RATE, k_w=k, k_t=g.tyre_rate) for k in wheels)


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
        combine("J", spread, "N*m", inputs),
        inputs,
    )
    return w(PITCH, e=e, K=K, u=u_mean, J=J, Q=Q)
