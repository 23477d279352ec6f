"""A gust from the side on the road: the wind that lifts the windward wheels, and the one that takes half their load.

On the road the air meets the trailer faster than the wind blows: the side force goes with the product of that speed and
the wind, nearly twice the force of the same wind on a parked house. Advice to whoever tows; nothing is checked.
"""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Working, combine, formula, report
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.road_inputs import Found, Towed
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.measure import Measure


@formula("Centre of the side above ground", "z_c = z_d + zeta", "m", "height chain")
def SIDE_HEIGHT(z_d: Floats, zeta: Floats) -> Floats:
    return z_d + zeta


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


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """The trailer seen from the side: area m2, station of its centre and its height above the main-deck top, m."""

    area: Quantity
    x: Quantity
    zeta: Quantity


def wind_on_road(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Gusts from the side that half unload and that lift the windward wheels, m/s."""
    seen = side(model)
    covered = [t for t in states if t.roofed]
    least = ri.extreme(covered, lambda w, t: tip_speed(w, t, seen, trials, data), least=True)
    speed = ri.top_speed(model, trials, data)
    lift, half = (_gust(least, speed, q) for q in _shares(trials, data))
    return Findings((
        report("wind.side_area", "Area of the side with neck and frame", seen.area, "up"),
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


def side(model: Model) -> Side:
    """Outline of the side: under each stretch the frame or the neck, above it the highest roof. m, m2."""
    zones, trailer = model.spec.house.zones, model.spec.trailer
    measures: list[tuple[str, Measure]] = [
        (f"house.yaml zones.{z.id}.{end}", getattr(z, end)) for z in zones for end in ("front", "rear", "roof")
    ]
    measures += [
        ("trailer.yaml frame.rail_underside", trailer.frame.rail_underside),
        trailer.ahead,
    ]
    missing = frozenset(f"unknown:{path}" for path, m in measures if not m.known)
    strips = [] if missing else list(_strips(model))
    area, x, zeta = _centre(strips)
    return Side(
        Quantity("A_s", np.array([area]), "m2", rests_on=missing),
        Quantity("x_c", np.array([x]), "m", rests_on=missing),
        Quantity("zeta", np.array([zeta]), "m", rests_on=missing),
    )


def _strips(model: Model) -> list[tuple[float, float, float, float]]:
    """Upright strips of the side: front, rear, bottom, top (m)."""
    zones, trailer = model.spec.house.zones, model.spec.trailer
    ends = sorted({0.0, *(e for z in zones for e in (z.front.nominal, z.rear.nominal))})
    strips = []
    for front, rear in pairwise(ends):
        roofs = [z.roof.nominal for z in zones if z.front.nominal <= front and rear <= z.rear.nominal]
        bottom = trailer.ahead[1].nominal if rear <= 0.0 else trailer.frame.rail_underside.nominal
        if roofs:
            strips.append((front, rear, bottom, max(roofs)))
    return strips


def _centre(strips: Sequence[tuple[float, float, float, float]]) -> tuple[float, float, float]:
    """Area of strips (front, rear, bottom, top) and its centre, m2 and m; NaN where there are none."""
    area = sum((rear - front) * (top - bottom) for front, rear, bottom, top in strips)
    if not area > 0.0:
        return float("nan"), float("nan"), float("nan")
    x = sum((rear - front) * (top - bottom) * (front + rear) / 2 for front, rear, bottom, top in strips) / area
    zeta = sum((rear - front) * (top - bottom) * (bottom + top) / 2 for front, rear, bottom, top in strips) / area
    return area, x, zeta
