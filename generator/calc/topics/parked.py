"""The trailer parked, all of it: wind and ties, anchors, stands, pads, levelling, drains, site; and a tyre change."""

from collections.abc import Mapping

from generator.calc.record import Findings
from generator.calc.topics.anchors import anchors
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.levelling import levelling
from generator.calc.topics.masses import StateMass
from generator.calc.topics.pads import pads
from generator.calc.topics.parked_bounds import parked_of
from generator.calc.topics.parked_wind import wind, wind_of
from generator.calc.topics.rides import Ride
from generator.calc.topics.stands import stands, stood
from generator.calc.topics.tyre_change import tyre_change
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


def parked(
    model: Model,
    at: Mapping[str, StateMass],
    loads: Mapping[str, StateLoads],
    rides: Mapping[str, Ride],
    trials: Trials,
    data: Reference,
) -> Findings:
    """Everything about the house where it stands; loads in kg as scales read, forces in N, lengths in m."""
    house = parked_of(model, at, rides, trials)
    blown, standing = wind_of(model, house, trials, data), stood(model, at, house, trials, data)
    parts = (
        wind(model, house, blown, trials, data),
        stands(model, standing, house, trials),
        pads(model, house, standing, blown, trials, data),
        anchors(model, at, house, blown, trials, data),
        levelling(model, loads, house, trials, data),
        tyre_change(model, loads, rides, trials, data),
    )
    return Findings(tuple(q for p in parts for q in p.quantities), tuple(c for p in parts for c in p.checks))
