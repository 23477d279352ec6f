"""Power at the wheels to keep a speed on the steepest grade, against the engine's at the highest pass. kg, N, W."""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Working,
    combine,
    compare,
    formula,
    report,
)
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.optional import absent
from generator.calc.topics.road_inputs import Towed
from generator.calc.topics.suspension import G
from generator.calc.topics.tow import COMBINATION, VEHICLE
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


@formula("Pull of the combination up the grade", "P_g = M*sin(atan(G))", "kg", "statics of a body on a slope")
def UPHILL(M: Floats, G: Floats) -> Floats:
    pull: Floats = M * np.sin(np.arctan(G))
    return pull


@formula("Rolling resistance", "P_r = c_r*M", "kg", "share of the mass, level road")
def ROLLING(c_r: Floats, M: Floats) -> Floats:
    return c_r * M


@formula("Frontal area", "A_f = w_h*(z_r - z_b)", "m2", "width of the house, highest roof down to the frame")
def FRONTAL(w_h: Floats, z_r: Floats, z_b: Floats) -> Floats:
    return w_h * (z_r - z_b)


@formula("Air density against sea level", "sigma = (1 - h/h_a)**n", "1", "standard atmosphere, linear lapse")
def DENSITY_RATIO(h: Floats, h_a: Floats, n: Floats) -> Floats:
    return (1 - h / h_a) ** n


@formula(
    "Drag", "D = q_1*(v/v_1)**2*sigma*C_d*A_f", "N", "pressure goes with the speed squared and with the air's density"
)
def DRAG(q_1: Floats, v: Floats, v_1: Floats, sigma: Floats, C_d: Floats, A_f: Floats) -> Floats:
    return q_1 * (v / v_1) ** 2 * sigma * C_d * A_f


@formula("Power needed at the wheels", "P = (9.80665*(P_g + P_r) + D)*v", "W:road", "resistance times speed")
def POWER(P_g: Floats, P_r: Floats, D: Floats, v: Floats) -> Floats:
    return (G * (P_g + P_r) + D) * v


@formula(
    "Power at the wheels there is",
    "P_a = P_e*eta*sigma",
    "W:road",
    "an engine without turbocharger gives power with the air's density",
)
def AVAILABLE(P_e: Floats, eta: Floats, sigma: Floats) -> Floats:
    return P_e * eta * sigma


def grade(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Power at the wheels on the steepest grade with the heaviest towed state, W."""
    row, v = data.defaults, ri.puller(model, trials)
    heaviest = ri.extreme(states, lambda w, t: t.mass).towed
    w = Working(list(heaviest.steps[:1]))
    mass = w(COMBINATION, V=w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo), W=heaviest.mass)
    sigma = w(
        DENSITY_RATIO,
        h=ri.stated(
            trials, model.spec.project.use.altitude, "h", row["air.altitude"], "project.yaml use.altitude"
        ),
        h_a=trials.assumed("h_a", row["air.scale"]),
        n=trials.assumed("n", row["air.exponent"]),
    )
    slope, area = ri.steepest(model, trials, data), frontal_area(w, model, trials)
    need = power_needed(w, mass, slope, sigma, area, model, trials, data)
    there = w(AVAILABLE, P_e=_engine(model, trials), eta=trials.assumed("eta", row["grade.driveline"]), sigma=sigma)
    return Findings(
        (report("grade.power", "Power at the wheels on the steepest grade", need, "up"),),
        (Check("grade.power", _ABOUT, heaviest.state.id, compare(need, there, "<=", w)),),
    )


def power_needed(
    w: Working,
    mass: Quantity,
    slope: Quantity,
    sigma: Quantity,
    area: Quantity,
    model: Model,
    trials: Trials,
    data: Reference,
) -> Quantity:
    """Power at the wheels of a combination of `mass` (kg) on a slope, frontal area m2, in W."""
    row = data.defaults
    speed = trials.assumed("v", row["grade.speed"])
    climb = w(UPHILL, M=mass, G=slope)
    roll = w(ROLLING, c_r=trials.assumed("c_r", row["grade.rolling"]), M=mass)
    drag = w(
        DRAG,
        q_1=trials.assumed("q_1", row["air.reference_pressure"]),
        v=speed,
        v_1=trials.assumed("v_1", row["air.reference_speed"]),
        sigma=sigma,
        C_d=ri.of_vehicle(model, trials, "drag", "C_d", row["grade.drag"]),
        A_f=area,
    )
    return w(POWER, P_g=climb, P_r=roll, D=drag, v=speed)


def frontal_area(w: Working, model: Model, trials: Trials) -> Quantity:
    """Frontal area of the combination, m2: as measured, else that of the house over its frame."""
    tow, house, trailer = model.spec.tow, model.spec.house, model.spec.trailer
    if tow is not None and tow.vehicle.frontal_area is not None:
        return trials.given("A_f", tow.vehicle.frontal_area, "m2", tow.vehicle.basis, "tow.yaml vehicle.frontal_area")
    roofs = [trials.given("z_r", z.roof, "m", path=f"house.yaml zones.{z.id}.roof") for z in house.zones]
    highest = np.maximum.reduce(np.broadcast_arrays(*[r.values for r in roofs]))
    return w(
        FRONTAL,
        w_h=trials.given("w_h", house.width, "m", path="house.yaml width"),
        z_r=combine("z_r", highest, "m", roofs),
        z_b=trials.given("z_b", trailer.frame.rail_underside, "m", path="trailer.yaml frame.rail_underside"),
    )


def _engine(model: Model, trials: Trials) -> Quantity:
    tow = model.spec.tow
    if tow is None:
        return absent("P_e", "W:road", "tow.yaml")
    if tow.vehicle.power is None:
        return absent("P_e", "W:road", "tow.yaml vehicle.power")
    return trials.given("P_e", tow.vehicle.power, "W:road", tow.vehicle.basis, "tow.yaml vehicle.power")


_ABOUT = About(
    "Engine keeps a speed on the steepest grade",
    "grade",
    "resistance to motion; common practice for rolling and drag",
    "The combination crawls, holds up others, and overheats; downhill the same grade asks as much of the brakes.",
    "The tow vehicle's maker: rated power, cooling, and the grade for which the tow rating was proved.",
    ri.MAKER,
)
