"""A gust from the side on the road: the wind that lifts the windward wheels, and the one that takes half their load.

On the road the air meets the trailer faster than the wind blows: the side force goes with the product of that speed and
the wind, nearly twice the force of the same wind on a parked house. Advice to whoever tows; nothing is checked.
"""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Working, combine, formula, report
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.road_inputs import Found, Towed
from generator.calc.topics.side_area import SIDE_HEIGHT, Side, side
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


@formula(
    "Lever of the side force over the line from ball to leeward tyres",
    "c = z_c - z_h*(x_a - x_c)/(x_a - x_h)",
    "m",
    "statics: height of the side's centre over that line",
)
def LEVER(z_c: Floats, z_h: Floats, x_a: Floats, x_c: Floats, x_h: Floats) -> Floats:
    return z_c - z_h * (x_a - x_c) / (x_a - x_h)


@formula(
    "Wind that lifts the windward wheels, standing still",
    "v_c = v_1*sqrt(9.80665*A*t/(2*q_1*C_s*A_s*c))",
    "m/s",
    "statics; pressure goes with the speed squared",
)
def TIP_SPEED(v_1: Floats, A: Floats, t: Floats, q_1: Floats, C_s: Floats, A_s: Floats, c: Floats) -> Floats:
    speed: Floats = v_1 * np.sqrt(G * A * t / (2 * q_1 * C_s * A_s * c))
    return speed


@formula(
    "Gust from the side that takes this share of the windward load, on the road",
    "V_w = v_c*sqrt((sqrt((V/v_c)**4 + 4*q**2) - (V/v_c)**2)/2)",
    "m/s",
    "side force goes with resultant air speed times wind",
)
def GUST(V: Floats, q: Floats, v_c: Floats) -> Floats:
    gust: Floats = v_c * np.sqrt((np.sqrt((V / v_c) ** 4 + 4 * q**2) - (V / v_c) ** 2) / 2)
    return gust


def wind_on_road(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Gusts from the side that half unload and that lift the windward wheels, m/s."""
    seen = side(model)
    covered = [t for t in states if t.roofed]
    least = ri.extreme(covered, lambda w, t: tip_speed(w, t, seen, trials, data), least=True)
    speed = ri.top_speed(model, trials, data)
    lift, half = (_gust(least, speed, q) for q in _shares(trials, data))
    return Findings((
        report("wind.side_area", "Area of the side with neck and frame, parked and towed", seen.area, "up"),
        report("wind.tip_speed", "Side wind that lifts the windward wheels, standing still", least.value, "down"),
        report("wind.lift_speed", "Gust from the side that lifts them, at the top towing speed", lift, "down"),
        report("wind.half_speed", "Gust that takes half their load: stay off the road (advice)", half, "down"),
    ))


def tip_speed(w: Working, t: Towed, seen: Side, trials: Trials, data: Reference) -> Quantity:
    """Side wind that lifts the windward wheels with the vehicle standing still, m/s."""
    row = data.defaults
    z_c = w(SIDE_HEIGHT, z_d=t.deck, zeta=seen.zeta)
    lever = w(LEVER, z_c=z_c, z_h=t.ball, x_a=t.x_a, x_c=seen.x, x_h=t.x_h)
    return w(
        TIP_SPEED,
        v_1=trials.assumed("v_1", row["air.reference_speed"]),
        A=t.group,
        t=t.track,
        q_1=trials.assumed("q_1", row["air.reference_pressure"]),
        C_s=trials.assumed("C_s", row["wind.side_coefficient"]),
        A_s=seen.area,
        c=lever,
    )


def _shares(trials: Trials, data: Reference) -> tuple[Quantity, Quantity]:
    half = trials.assumed("q", data.defaults["wind.unloading"])
    return combine("q", np.array([1.0]), half.unit, ()), half


def _gust(least: Found, speed: Quantity, q: Quantity) -> Quantity:
    return Working()(GUST, V=speed, q=q, v_c=least.value)
