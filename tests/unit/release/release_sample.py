"""The example design with results put together by hand, so that release is tested without the calculation. Invented."""

import math
from decimal import Decimal
from functools import cache
from pathlib import Path

from generator.calc.findings import (
    Beam,
    Budget,
    Chain,
    ChainStep,
    CostRow,
    GroupRow,
    JackRecord,
    NeckRecord,
    Prompt,
    RatingRow,
    Results,
    RoofRow,
    StateRow,
    SumRow,
    SupportForce,
    Sweep,
    Task,
)
from generator.calc.legal import Rulings, Trigger
from generator.calc.measured import ScaleCard
from generator.calc.record import (
    About,
    Assumption,
    Basis,
    Change,
    Check,
    Compared,
    Missing,
    Reported,
    Step,
    Value,
    Window,
)
from generator.model.resolve import resolve
from generator.model.types import Model
from generator.reference.load import Reference, reference
from generator.spec.models.spec import Spec
from generator.spec.read import read_spec

HERON = Path(__file__).parents[3] / "specs" / "heron"
LB, IN = 0.45359237, 0.0254


@cache
def data() -> Reference:
    """The project's own reference data."""
    return reference()


@cache
def spec() -> Spec:
    """The example design."""
    return read_spec(HERON)


def model(of: Spec | None = None) -> Model:
    """The design resolved."""
    return resolve(of or spec(), data())


def quantity(id: str, nominal: float, unit: str, fixed: bool = False) -> Reported:
    """A quantity with 4 % either way."""
    return Reported(id, f"Title of {id}", nominal, nominal * 0.96, nominal * 1.04, unit, Basis.ESTIMATE, "near", fixed)


def check(id: str, demand: float, limit: float, mandatory: bool = False, rests_on: tuple[str, ...] = (),
          share: float = 0.0) -> Check:
    """A compared check with one step whose input names a line of the spec."""
    about = About(f"Title of {id}", id.split(".")[0], "trailer.yaml: as stated", "It breaks.", "The axle maker.",
                  mandatory=mandatory, levers=("trailer.running_gear.station",))
    inputs = (Value("W", demand, "kg", "trailer.yaml:12"), Value("f", 1.0, "1", "practice"))
    step = Step("Load", "D = W*f", "statics", inputs, Value("D", demand, "kg"))
    outcome = Compared(Value("D", demand, "kg"), Value("L", limit, "kg", "tow.yaml:7"), "<=", share, Basis.QUOTED,
                       frozenset(rests_on), (step,))
    change = Change("trailer.running_gear.station", "Axles aft", Value("x", 4.0, "m"), Value("x", 4.1, "m"))
    return Check(id, about, "travel", outcome, (change,) if demand > limit else ())


def missing(id: str, *inputs: str) -> Check:
    """A check that could not be made."""
    return Check(id, About(f"Title of {id}", "tow", "statics", "Unknown.", "The owner."), "travel", Missing(inputs))


def rulings() -> Rulings:
    """One rule that every recipient of rules may see."""
    rule = Trigger("lamps-us-all", "lamps", "Every trailer", ("US-OR",), "", (), True, 1.0, (), None, "", "Lamps.",
                   "The maker", "table I-b", "2015", "read", "2015-10-01")
    return Rulings("rv", ("US-OR",), "2026-03-01", (("lamps", "Lamps"),), (rule,), (), (), ())


def results(**changed: object) -> Results:
    """Results of every kind; `changed` replaces a field."""
    chain = Chain("lateral", "Lateral", "travel", (ChainStep("hub face", 2.2, "trailer.yaml:88"),), 2.2, 2.6)
    neck = NeckRecord(1.63, 1.5, 1.75, 1.68, 1.63, 1.68, 1.65, 1.81, 2.0, 0.16, 0.1, 0.08, 1.47, 1.0, 0.65, 1.1)
    jack = JackRecord("nose", "Nose jack pair", -0.3, 0.8, 2, "shared shaft", 1500.0, 750.0, 1000.0, 1125.0, 4000.0,
                      5000.0, 0.4, 0.5, 120.0, 300.0, 400.0, 55.0, 90.0, 80.0, "one motor lifts both")
    states = tuple(StateRow(id, id, True, 7700.0 * k, 7500.0 * k, 7900.0 * k, 3.0, 0.0, 1.6, 1500.0 * k, 0.19,
                            6200.0 * k, (2066.0 * k,) * 3, (1033.0 * k,) * 3, (1033.0 * k,) * 3, 0.70, 4.0)
                   for id, k in (("bare", 0.35), ("travel", 1.0)))
    beam = Beam("frame.travel", "Frame", "travel", 7700.0, (0.0, 8.0), (1.0, 1.0), (0.0, 0.0), (0.0, 0.0),
                (SupportForce("ball", -2.0, 1e4),), (SupportForce("stove in the parlour", 1.0, 500.0),))
    sweep = Sweep((3.0, 4.0), (0.2, 0.18), (1500.0, 1400.0), (2000.0, 2100.0), (0.9, 0.8), 0.15, 0.25, None, 3175.0,
                  3.0, 5.0)
    row = CostRow("axles", "Axles", "trailer", "quote", Decimal(3), Decimal(900), Decimal(1000), Decimal(1100),
                  Decimal(0), Decimal("3000.50"), "deposit")
    budget = Budget("USD", (row,), (SumRow("trailer", 1, Decimal("3000.50")),), (), (), Decimal("3000.50"),
                    Decimal(3100), Decimal(3300), Decimal(300), 0.2,
                    (Prompt("alarms", "Alarms", "not priced", "", "ask"),), (Decimal(3000),))
    given: dict[str, object] = {
        "items": model().items,
        "quantities": (
            quantity("state.travel.mass", 7700.123456789012, "kg"), quantity("state.travel.hitch", 1500.0, "kg"),
            quantity("state.travel.hitch_share", 0.19, "%"), quantity("state.bare.mass", 2700.0, "kg"),
            quantity("state.bare.hitch", 500.0, "kg"), quantity("state.bare.axle.1", 730.0, "kg"),
            quantity("rating.gvwr.requested", 18000 * LB, "kg", True),
            *(quantity(f"rating.gawr.{n}.requested", 7000 * LB, "kg", True) for n in (1, 2, 3)),
            *(quantity(f"rating.gawr.{n}.least", 5200 * LB, "kg") for n in (1, 2, 3)),
            quantity("neck.underside", 1.65, "m", True), quantity("ride.arm_angle", 0.05, "rad"),
            quantity("ride.tyre_radius", 0.37, "m"), quantity("height.limit", 4.1148, "m"),
            quantity("tow.payload_used", 2000.0, "kg"), quantity("headroom.bath", 1.95, "m"),
            quantity("neck.coupler_set", math.nan, "m"),
        ),
        "checks": (
            check("axle.1.rating", 2000.0, 3175.0, True, ("torsion.stiffness_factor", "unknown:tow.yaml bed_rail")),
            check("mass.plausible", 7000.0, 6000.0), check("tow.payload", 2000.0, 2500.0, False, ("tow.reserve",)),
            missing("neck.rail_gap.level", "tow.yaml vehicle.bed_rail", "tow.yaml:33"),
            missing("frame.neck_root", "tow.yaml vehicle.bed_rail", "tow.yaml:33"),
        ),
        "windows": (
            Window("neck.window", "Neck", 1.63, 1.68, 1.65, 1.66, "m", "bed rail, tow.yaml", "limit", ()),
            Window("axles.window", "Axles", 4.2, 4.6, 4.4, 4.45, "m", "share", "coupler", ()),
        ),
        "assumptions": (
            Assumption("torsion.stiffness_factor", "Rubber stiffness", "1", "practice", "Loads are off"),
            Assumption("tow.reserve", "Reserve", "0.85", "practice", "At its limit"),
        ),
        "tasks": (Task("ask-rail", "Measure the bed rail", "the owner", "the neck"),),
        "states": states, "groups": (GroupRow("frame", 1600.0, 1500.0, 1700.0, 3.0, -0.2, 20),), "chains": (chain,),
        "roof": (RoofRow("ridge", "Ridge", 2.0, 3.2, 3.9, 4.0, "shell"),), "neck": neck, "jacks": (jack,), "beam": beam,
        "sweep": sweep,
        "ratings": tuple(RatingRow(n, 2066.0, 2300.0, (("tyre", 3190.0), ("axle", 3175.0)), "axle", 3175.0)
                         for n in (1, 2, 3)),
        "budget": budget,
        "scale_card": ScaleCard((), 45.359237, ()),
        "rulings": rulings(),
    }
    return Results(**(given | changed))  # type: ignore[arg-type]
