"""The trailer on the move, topic by topic."""

from collections.abc import Mapping

from generator.calc.record import Findings
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.braking import braking
from generator.calc.topics.grade import grade
from generator.calc.topics.rides import Ride
from generator.calc.topics.road_inputs import towed_states
from generator.calc.topics.tilt import tilt
from generator.calc.topics.weight_distribution import weight_distribution
from generator.calc.topics.wind_on_road import wind_on_road
from generator.calc.topics.yaw import yaw
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


def on_the_road(
    model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> tuple[Findings, ...]:
    """Braking, tilt, side wind, swaying, grades and, where it is fitted, weight distribution."""
    states = towed_states(model, loads, rides)
    return (
        weight_distribution(model, states, trials),
        braking(model, states, trials, data),
        tilt(model, states, trials, data),
        wind_on_road(model, states, trials, data),
        yaw(model, states, trials, data),
        grade(model, states, trials, data),
    )
