"""Screw, crank, motor and cable of a jack."""

import numpy as np

from generator.calc.record import Floats, Quantity, Working, combine, formula, sure
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack, Motor

SCREW = "power screw with a thrust collar (Shigley, ch. 8)"
FUSES = (
    5.0,
    7.5,
    10.0,
    15.0,
    20.0,
    25.0,
    30.0,
    40.0,
    50.0,
    60.0,
    80.0,
    100.0,
    125.0,
    150.0,
    175.0,
    200.0,
    225.0,
    250.0,
    300.0,
    350.0,
    400.0,
)
"""Sizes fuses come in, A: common practice, no source."""


@formula("Force on the screw", "F = 9.80665*m", "N", "standard gravity")
def LIFT(m: Floats) -> Floats:
    return G * m


@formula("Force the maker rates all driven screws at", "F_n = 9.80665*n_d*m_r", "N", "standard gravity")
def RATED_LIFT(n_d: Floats, m_r: Floats) -> Floats:
    return G * n_d * m_r


@formula("Torque to raise", "T_R = F*d_m/2*(l + pi*f*d_m/cos(a))/(pi*d_m - f*l/cos(a)) + F*f_c*d_c/2", "N*m", SCREW)
def RAISE(F: Floats, d_m: Floats, l: Floats, pi: Floats, f: Floats, a: Floats, f_c: Floats, d_c: Floats) -> Floats:
    rub = f / np.cos(a)
    return F * d_m / 2 * (l + pi * rub * d_m) / (pi * d_m - rub * l) + F * f_c * d_c / 2


@formula("Torque to lower", "T_L = F*d_m/2*(pi*f*d_m/cos(a) - l)/(pi*d_m + f*l/cos(a)) + F*f_c*d_c/2", "N*m", SCREW)
def LOWER(F: Floats, d_m: Floats, l: Floats, pi: Floats, f: Floats, a: Floats, f_c: Floats, d_c: Floats) -> Floats:
    rub = f / np.cos(a)
    return F * d_m / 2 * (pi * rub * d_m - l) / (pi * d_m + rub * l) + F * f_c * d_c / 2


@formula("Efficiency of the screw", "eta = F*l/(2*pi*T_R)", "1", SCREW)
def EFFICIENCY(F: Floats, l: Floats, pi: Floats, T_R: Floats) -> Floats:
    return F * l / (2 * pi * T_R)


@formula("Torque at the crank", "T_d = T_R/(i*eta_g)", "N*m", "gear ratio and efficiency")
def DRIVE(T_R: Floats, i: Floats, eta_g: Floats) -> Floats:
    return T_R / (i * eta_g)


@formula("Force on the crank handle", "F_c = T_d/R", "N:force", "lever")
def CRANK(T_d: Floats, R: Floats) -> Floats:
    return T_d / R


@formula("Turns of the crank", "n = i*x/l", "turns", "gear ratio and lead")
def TURNS(i: Floats, x: Floats, l: Floats) -> Floats:
    return i * x / l


@formula(
    "Time to crank",
    "t = max(n*t_n, F*x_l/(eta*eta_g*P))",
    "s",
    "the slower of a person's pace and a person's power under load",
)
def CRANK_TIME(n: Floats, t_n: Floats, F: Floats, x_l: Floats, eta: Floats, eta_g: Floats, P: Floats) -> Floats:
    return np.maximum(n * t_n, F * x_l / (eta * eta_g * P))


@formula("Electric power", "P_e = F*v/(eta*eta_g*eta_m)", "W", "lifting power through screw, gear and motor")
def POWER(F: Floats, v: Floats, eta: Floats, eta_g: Floats, eta_m: Floats) -> Floats:
    return F * v / (eta * eta_g * eta_m)


@formula(
    "Current at that power, cable included",
    "I_p = (V_b - sqrt(max(V_b**2 - 8*rho*hot*L/A*P_e, 0)))/(4*rho*hot*L/A)",
    "A",
    "constant power behind a warm copper cable; half the voltage is lost where the cable cannot deliver it",
)
def CURRENT(V_b: Floats, rho: Floats, hot: Floats, L: Floats, A: Floats, P_e: Floats) -> Floats:
    return (V_b - np.sqrt(np.maximum(V_b**2 - 8 * rho * hot * L / A * P_e, 0.0))) / (4 * rho * hot * L / A)


@formula("The maker's current at this load", "I_m = I_n*F/F_n", "A", "the maker's current at the rated lift, by load")
def STATED(I_n: Floats, F: Floats, F_n: Floats) -> Floats:
    return I_n * F / F_n


@formula("Current to plan for", "I = max(I_p, I_m)", "A", "the larger of both")
def PLANNED(I_p: Floats, I_m: Floats) -> Floats:
    return np.maximum(I_p, I_m)


@formula("Voltage lost in the cable", "dv = 2*rho*hot*L/A*I/V_b", "%", "Ohm's law, both ways, warm copper")
def DROP(rho: Floats, hot: Floats, L: Floats, A: Floats, I: Floats, V_b: Floats) -> Floats:
    return 2 * rho * hot * L / A * I / V_b


@formula("Running time", "t = x/v", "s", "the maker's speed at the rated lift")
def MOTOR_TIME(x: Floats, v: Floats) -> Floats:
    return x / v


@formula("Least fuse", "I_f = c_f*I", "A", "margin over the greatest current")
def LEAST_FUSE(c_f: Floats, I: Floats) -> Floats:
    return c_f * I


@dataclass(frozen=True, slots=True, eq=False)
class Effort:
    """What the screw asks: torques (N m), efficiency, crank force (N), turns, time by hand (s), with the working."""

    w: Working
    force: Quantity
    lower: Quantity
    efficiency: Quantity
    crank: Quantity
    turns: Quantity
    time: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Powered:
    """What the motor asks: current (A), running time (s), voltage lost, fuse (A), with the working."""

    w: Working
    current: Quantity
    time: Quantity
    drop: Quantity
    fuse: Quantity


def effort(
    w: Working, jack: Jack, load: Quantity, travel: Quantity, rise: Quantity, trials: Trials, data: Reference
) -> Effort:
    """Cranking `load` (kg on the driven screws) through `travel`, of which `rise` is under load (m)."""
    at, screw, row = f"trailer.yaml jacks.{jack.id}.screw", jack.screw, data.defaults
    lead = trials.given("l", screw.lead, "m", path=f"{at}.lead")
    gear = trials.given("i", screw.gear, "1", path=f"{at}.gear")
    eta_g = trials.given("eta_g", screw.gear_efficiency, "1", path=f"{at}.gear_efficiency")
    pi, force = sure("pi", float(np.pi), "1"), w(LIFT, m=load)
    thread = {
        "F": force,
        "d_m": trials.given("d_m", screw.pitch_diameter, "m", path=f"{at}.pitch_diameter"),
        "l": lead,
        "pi": pi,
        "f": trials.given("f", screw.thread_friction, "1", path=f"{at}.thread_friction"),
        "a": trials.assumed("a", row["jack.flank_angle"]),
        "f_c": trials.given("f_c", screw.collar_friction, "1", path=f"{at}.collar_friction"),
        "d_c": trials.given("d_c", screw.collar_diameter, "m", path=f"{at}.collar_diameter"),
    }
    up, down = w(RAISE, **thread), w(LOWER, **thread)
    eta = w(EFFICIENCY, F=force, l=lead, pi=pi, T_R=up)
    drive = w(DRIVE, T_R=up, i=gear, eta_g=eta_g)
    crank = w(CRANK, T_d=drive, R=trials.given("R", screw.crank, "m", path=f"{at}.crank"))
    turns = w(TURNS, i=gear, x=travel, l=lead)
    time = w(
        CRANK_TIME,
        n=turns,
        t_n=trials.assumed("t_n", row["jack.turn_time"]),
        F=force,
        x_l=rise,
        eta=eta,
        eta_g=eta_g,
        P=trials.assumed("P", row["jack.hand_power"]),
    )
    return Effort(w, force, down, eta, crank, turns, time)


def powered(
    jack: Jack, motor: Motor, e: Effort, driven: int, travel: Quantity, trials: Trials, data: Reference
) -> Powered:
    """The motor of a jack lifting the load of `e`; its rated lift is that of the `driven` legs it turns."""
    w, at, row = Working(list(e.w.steps)), f"trailer.yaml jacks.{jack.id}.motor", data.defaults
    speed = trials.given("v", motor.speed, "m/s:slow", path=f"{at}.speed")
    rating = trials.given("m_r", jack.lift_rating, "kg", path=f"trailer.yaml jacks.{jack.id}.lift_rating")
    rated = w(RATED_LIFT, n_d=sure("n_d", float(driven), "count"), m_r=rating)
    cable = {
        "rho": trials.assumed("rho", row["jack.copper_resistivity"]),
        "hot": trials.assumed("hot", row["jack.copper_hot"]),
        "L": trials.given("L", motor.cable_length, "m", path=f"{at}.cable_length"),
        "A": trials.given("A", motor.cable_area, "m2:copper", path=f"{at}.cable_area"),
    }
    volts = _battery(motor, trials, data)
    eta_g = trials.given(
        "eta_g", jack.screw.gear_efficiency, "1", path=f"trailer.yaml jacks.{jack.id}.screw.gear_efficiency"
    )
    power = w(
        POWER,
        F=e.force,
        v=speed,
        eta=e.efficiency,
        eta_g=eta_g,
        eta_m=trials.assumed("eta_m", row["jack.motor_efficiency"]),
    )
    from_power = w(CURRENT, V_b=volts, P_e=power, **cable)
    stated = w(STATED, I_n=trials.given("I_n", motor.current, "A", path=f"{at}.current"), F=e.force, F_n=rated)
    current = w(PLANNED, I_p=from_power, I_m=stated)
    return Powered(
        w,
        current,
        w(MOTOR_TIME, x=travel, v=speed),
        w(DROP, I=current, V_b=volts, **cable),
        _fuse(w, current, trials, data),
    )


def next_fuse(least: float) -> float:
    """The next size a fuse comes in, A; NaN beyond the list or for an unknown current."""
    return next((size for size in FUSES if size >= least), float("nan"))


def _battery(motor: Motor, trials: Trials, data: Reference) -> Quantity:
    """Voltage of a low battery of this motor's system: the 12 V figure, by its nominal voltage."""
    low, rest = data.defaults["jack.battery_voltage_low"], data.defaults["jack.battery_voltage"]
    nominal = trials.given("V_n", motor.voltage, "V", path="trailer.yaml jacks motor.voltage")
    scaled = trials.assumed("V_b", low)
    return combine("V_b", nominal.values * (scaled.values / rest.value), "V", (nominal, scaled))


def _fuse(w: Working, current: Quantity, trials: Trials, data: Reference) -> Quantity:
    least = w(LEAST_FUSE, c_f=trials.assumed("c_f", data.defaults["jack.fuse_factor"]), I=current)
    size = combine("fuse", np.array([next_fuse(float(least.values[0]))]), "A", (least,))
    return w.procedure("Fuse", "The next size fuses come in.", "common practice, no source", size, (least,))
