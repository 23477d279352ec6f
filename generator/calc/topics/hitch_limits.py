"""The greatest load the ball may carry: coupler, and what the tow vehicle has left. kg."""

import math

from generator.calc.topics.coupled import coupled
from generator.model.types import Model
from generator.records import dataclass


@dataclass(frozen=True, slots=True)
class HitchLimit:
    """The least of the limits (kg) and its words."""

    words: str
    load: float


def hitch_limits(model: Model) -> HitchLimit:
    """The least known limit of the load on the ball; unknown ones are left to the checks of the tow vehicle.

    Source: makers' ratings; statics of the tow vehicle about its front axle, people and cargo all on the rear axle.
    """
    words = coupled(model)
    known = [HitchLimit(f"{words.part} at its vertical rating", model.spec.trailer.coupling.vertical_rating.nominal)]
    if model.spec.tow is not None:
        v = model.spec.tow.vehicle

        def rear(rating: float) -> float:
            left = rating - v.rear_axle.nominal - v.people_and_cargo.nominal
            return room(left, v.wheelbase.nominal, v.hitch_behind_rear_axle.nominal)

        known += [
            HitchLimit(f"{words.on} and what carries it at their rating", v.hitch_rating.nominal),
            HitchLimit(
                "tow vehicle at its rated mass",
                v.gvwr.nominal - v.front_axle.nominal - v.rear_axle.nominal - v.people_and_cargo.nominal,
            ),
            HitchLimit("tow vehicle's rear axle at its rating", rear(v.rear_gawr.nominal)),
            HitchLimit("tow vehicle's rear tyres at their rating", rear(v.rear_tyres.nominal)),
        ]
    return min((k for k in known if math.isfinite(k.load)), key=lambda k: k.load, default=HitchLimit("", math.nan))


def room(left: float, wheelbase: float, behind: float) -> float:
    """Ball load (kg) that brings `left` (kg) onto the rear axle; `behind` is the ball behind that axle (m)."""
    return left * wheelbase / (wheelbase + behind) if wheelbase + behind > 0.0 else math.inf
