"""A flat tyre at the roadside: how high one side must be lifted, and what the lift point then carries. kg, m."""

from collections.abc import Mapping

import numpy as np

from generator.calc.record import (
    About,
    Basis,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Working,
    compare,
    formula,
    report,
)
from generator.calc.topics import suspension as sus
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.leaf import Springs
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.parked_bounds import unknown
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


@formula(
    "Lift of the frame until the wheel hangs free",
    "y = R*(sin(alpha_0) - sin(alpha)) + D/2 - r_t + c",
    "m",
    "arm back to no load, tyre round again, and room to pull the wheel off",
)
def LIFT(R: Floats, alpha_0: Floats, alpha: Floats, D: Floats, r_t: Floats, c: Floats) -> Floats:
    drop: Floats = np.sin(alpha_0) - np.sin(alpha)
    return R * drop + D / 2 - r_t + c


@formula(
    "Lift of the frame until the wheel hangs free, leaf springs",
    "y_l = y + D/2 - r_t + c",
    "m",
    "spring back to no load, tyre round again, and room to pull the wheel off",
)
def LIFT_LEAF(y: Floats, D: Floats, r_t: Floats, c: Floats) -> Floats:
    return y + D / 2 - r_t + c


@formula("Heavier side on its tyres", "m_l = max(L, R)", "kg", "all tyres of one side, on the safe side")
def HEAVIER(L: Floats, R: Floats) -> Floats:
    return np.maximum(L, R)


def tyre_change(
    model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> Findings:
    """Lift and load of one side in the travel state (m, kg), hitched, against the lift points of the frame."""
    gear, ride, load, w = sus.gear(model, trials, data), rides[DESIGN], loads[DESIGN], Working()
    clear = trials.assumed("c", data.defaults["tyre.change_clearance"])
    lift = _lift(gear, ride, clear)
    heavier = w(HEAVIER, L=sus.total("L", load.left), R=sus.total("R", load.right))
    points = [p for p in model.spec.trailer.points if p.kind == "lift"]
    rows = (
        report("tyre_change.lift", "Lift of one side to change a tyre", lift, "up"),
        report("tyre_change.load", "Load at the lift points of one side, tyres of that side clear", heavier, "up"),
    )
    if not points:
        none = Missing(("trailer.yaml points (kind: lift)",))
        return Findings(rows, (Check("tyre_change.point", POINT, DESIGN, none),))
    missing = unknown({f"trailer.yaml points.{p.id}.rating": p.rating for p in points})
    least = np.nan if missing else min(p.rating.nominal for p in points)
    rating = Quantity("m_r", np.array([least]), "kg", Basis.QUOTED, missing, points[0].rating.origin)
    return Findings(rows, (Check("tyre_change.point", POINT, DESIGN, compare(heavier, rating, "<=", w)),))


def _lift(gear: sus.Gear, ride: Ride, clear: Quantity) -> Quantity:
    w = Working()
    match gear.springs:
        case sus.Arms() as s:
            return w(LIFT, R=s.arm, alpha_0=s.start, alpha=ride.give, D=gear.diameter, r_t=ride.radius, c=clear)
        case Springs():
            return w(LIFT_LEAF, y=ride.give, D=gear.diameter, r_t=ride.radius, c=clear)


POINT = About(
    "Lift point carries one side for a tyre change",
    "roadside",
    "statics",
    "The jack punches through, or the frame bends, where nobody meant it to be lifted.",
    "The fabricator: lift points marked on the frame, with their rating.",
    "the axle maker's lifting instructions; never lift under a torsion tube",
)
