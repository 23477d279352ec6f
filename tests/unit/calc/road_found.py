"""The topics of the moving trailer worked on the scratch design."""

import scratch

from generator.calc.sums import sums
from generator.calc.topics.axles import level_loads
from generator.calc.topics.masses import state_masses
from generator.calc.topics.rides import rides
from generator.calc.topics.road_inputs import towed_states
from generator.calc.trials import Trials
from generator.model.resolve import resolve

NOMINAL = Trials(count=0)


def states_of(spec, trials=NOMINAL):
    """The model and its towed states."""
    model = resolve(spec, scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, trials, scratch.DATA)), trials, scratch.DATA)
    return model, towed_states(model, loads, rides(model, loads, trials, scratch.DATA))


def found(topic, trials=NOMINAL, **changes):
    """Findings of one topic for the scratch design with changes."""
    model, states = states_of(scratch.spec(**changes), trials)
    return topic(model, states, trials, scratch.DATA)


def check(of, id):
    """The check of this id."""
    return next(c for c in of.checks if c.id == id)


def quantity(of, id):
    """The quantity of this id."""
    return next(q for q in of.quantities if q.id == id)


def nominal(of, id):
    """The nominal value of a quantity."""
    return quantity(of, id).nominal
