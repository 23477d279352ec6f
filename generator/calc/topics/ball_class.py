"""Classes of ball couplings behind a tow vehicle: which one a trailer falls into, and the loads it is tested to. kg."""

from collections.abc import Iterator
from math import isclose

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    compare,
    formula,
    holds,
    report,
)
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Ball

SOURCE = "COMAR 11.13.08.10 table 1 and 11.13.08.04 B, a state rule built on SAE J684"
LAST = 4
BEYOND = "the maker's letter: rating of coupler, ball and receiver above the classes, and the standard behind it"


@formula("Load a coupler of class 4 is tested to", "F = f*GVWR", "kg", SOURCE)
def TESTED(f: Floats, GVWR: Floats) -> Floats:
    return f * GVWR


@formula("Strength each safety chain needs", "B_n = max(B_c, GVWR)", "kg",
         "the stricter of class and gross mass: SAE J684 read second-hand, NH RSA 266:63")
def CHAIN_LEAST(B_c: Floats, GVWR: Floats) -> Floats:
    return np.maximum(B_c, GVWR)


def class_of(gross: float, data: Reference) -> int:
    """Class 1 to 4 of a trailer of this gross mass (kg); 4 also above its end."""
    ends = ((n, data.defaults[f"ball.class_{n}"].value) for n in range(1, LAST))
    return next((n for n, end in ends if gross <= end or isclose(gross, end)), LAST)


def is_ball(model: Model) -> bool:
    """Whether the trailer is towed on a ball behind the tow vehicle."""
    return isinstance(model.spec.trailer.coupling, Ball)


def proof_loads(gvwr: Quantity, trials: Trials, data: Reference) -> Iterator[Reported]:
    """The loads the coupler of a trailer of this gross rating must have withstood, kg."""
    n = class_of(float(gvwr.values[0]), data)
    if not holds(gvwr.values[0], data.defaults[f"ball.class_{LAST}"].value, "<="):
        return
    for id, words in (("pull", "lengthwise, either way"), ("across", "across"), ("up", "upward"), ("down", "downward")):
        row = trials.assumed("f", data.defaults[f"ball.{id}_{n}"])
        load = row if n < LAST else Working()(TESTED, f=row, GVWR=gvwr)
        yield report(f"coupler.tested.{id}", f"Test load of a class {n} coupler and ball, {words}", load, "up")


def chain_least(w: Working, gvwr: Quantity, trials: Trials, data: Reference) -> Quantity:
    """Breaking strength each chain needs: its class's end where the trailer is lighter, else the gross mass. kg."""
    n = class_of(float(gvwr.values[0]), data)
    if n == LAST:
        return gvwr
    return w(CHAIN_LEAST, B_c=trials.assumed("B_c", data.defaults[f"ball.class_{n}"]), GVWR=gvwr)


def class_check(gvwr: Quantity, trials: Trials, data: Reference) -> Check:
    """The gross rating asked for against the end of the classes, kg; above it the classes say nothing."""
    within = compare(gvwr, trials.assumed("C_4", data.defaults[f"ball.class_{LAST}"]), "<=", Working())
    return Check(
        "coupler.class",
        About(
            "Trailer within the classes of ball couplings",
            "ratings",
            SOURCE,
            "Above the last class no common test stands behind a coupler on a ball at the bumper.",
            "The makers of coupler, ball and receiver: what their part was tested to, and by which standard.",
            "The makers' ratings; the law in force on the route.",
        ),
        "",
        within if holds(gvwr.values[0], data.defaults[f"ball.class_{LAST}"].value, "<=") else Missing((BEYOND,)),
    )
