"""The chain of ratings of one axle and its worst tyre: what each part carries, and what it must. kg at the ground."""

import numpy as np

from generator.calc.record import Basis, Floats, Quantity, Working, formula, sure
from generator.calc.topics.attitude import Attitudes, Pitched, Worst, worst, worst_axle
from generator.calc.topics.axles import StateLoads
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.measure import Measure

TYRE_RULE = "49 CFR 571.120 S5.1.2 and 571.110 S4.2.2: tyres of an axle against its rating"
AT = "trailer.yaml running_gear"


@formula("Load the tyres of one axle may carry", "T_2 = 2*T/f", "kg", TYRE_RULE)
def TYRE_PAIR(T: Floats, f: Floats) -> Floats:
    return 2 * T / f


@formula(
    "Worst tyre of the axle",
    "T_w = N_i/2 + max(D_i, -D_i) + T_i/2",
    "kg",
    "heavier side, ball at its worst height and a low seat together",
)
def WORST_TYRE(N_i: Floats, D_i: Floats, T_i: Floats) -> Floats:
    return N_i / 2 + np.maximum(D_i, -D_i) + T_i / 2


@dataclass(frozen=True, slots=True, eq=False)
class Link:
    """One axle's chain of ratings: parts (words and kg), the load at level and worst, the worst tyre."""

    axle: int
    parts: tuple[tuple[str, Quantity], ...]
    level: Quantity
    load: Worst
    tyre: Worst
    pair: Quantity

    @property
    def governing(self) -> tuple[str, Quantity]:
        """The part with the least rating; an unknown one governs."""
        return min(self.parts, key=lambda p: np.nan_to_num(float(p[1].values[0]), nan=-np.inf))


def axle_limits(model: Model) -> tuple[float, ...]:
    """Load each axle may carry whatever its tyres: the lesser of axle and hub rating, kg."""
    return tuple(
        float(np.minimum(a.rating.nominal, a.hub_rating.nominal)) for a in model.spec.trailer.running_gear.axles
    )


def tyre_limit(model: Model, data: Reference) -> float:
    """Load one tyre may carry: its own (a passenger-car tyre counts for less) or its wheel's, kg."""
    gear = model.spec.trailer.running_gear
    return float(np.minimum(gear.tyre.load.nominal / divisor(model, data), gear.wheel.load.nominal))


def divisor(model: Model, data: Reference) -> float:
    """By how much a tyre's marked load is divided: 1, or the rule's figure for a passenger-car tyre."""
    passenger = model.spec.trailer.running_gear.tyre.kind == "passenger"
    return data.defaults["tyre.passenger_divisor"].value if passenger else 1.0


def link_of(model: Model, n: int, travel: StateLoads, found: Attitudes, trials: Trials, data: Reference) -> Link:
    """The chain of axle `n`, its load at level and worst, its worst tyre, with the working (kg)."""
    gear = model.spec.trailer.running_gear
    axle, w = gear.axles[n - 1], Working()

    def given(symbol: str, measure: Measure, path: str) -> Quantity:
        return trials.given(symbol, measure, "kg", path=f"{AT}.{path}")

    f = (
        trials.assumed("f", data.defaults["tyre.passenger_divisor"])
        if gear.tyre.kind == "passenger"
        else sure("f", 1.0, "1", Basis.MEASURED)
    )
    tyre = trials.given("T", gear.tyre.load, "kg", gear.tyre.basis, f"{AT}.tyre.load")
    pair = w(TYRE_PAIR, T=tyre, f=f)
    wheels = w(TYRE_PAIR, T=given("T", gear.wheel.load, "wheel.load"), f=sure("f", 1.0, "1", Basis.MEASURED))
    parts = [
        ("axle", given("G_i", axle.rating, f"axles.{n}.rating")),
        ("tyres", pair),
        ("wheels", wheels),
        ("hubs and bearings", given("G_h", axle.hub_rating, f"axles.{n}.hub_rating")),
    ]
    if axle.brake.type != "none":
        parts.append(("brakes", given("G_b", axle.brake.rating, f"axles.{n}.brake.rating")))
    seat = found.seats[n - 1]

    def worst_tyre(case: Pitched) -> Quantity:
        return Working()(WORST_TYRE, N_i=case.axles[n - 1], D_i=case.loads.shifts[n - 1], T_i=seat)

    case = worst(found.cases, worst_tyre)
    steps = Working(list(case.case.own_steps[n - 1]))
    steps.steps += [*case.case.loads.own_side_steps(n), *found.seat_steps[n - 1]]
    steps(WORST_TYRE, N_i=case.case.axles[n - 1], D_i=case.case.loads.shifts[n - 1], T_i=seat)
    steps.steps.append(case.steps[-1])
    return Link(
        n,
        tuple(parts),
        travel.axles[n - 1],
        worst_axle(found.cases, n),
        Worst(case.value, case.case, tuple(steps.steps)),
        pair,
    )
