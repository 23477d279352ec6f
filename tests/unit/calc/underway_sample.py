"""Ends, access and wheel boxes worked on the scratch design."""

import numpy as np
import scratch

from generator.calc.sums import sums
from generator.calc.topics.access import access
from generator.calc.topics.axles import level_loads
from generator.calc.topics.ends import ends
from generator.calc.topics.masses import state_masses
from generator.calc.topics.rides import rides
from generator.calc.topics.wheel_boxes import wheel_boxes
from generator.calc.trials import Trials
from generator.model.resolve import resolve

STILL = Trials(count=0)


def worked(spec, trials=STILL, data=scratch.DATA):
    """Model, loads and rides of a spec."""
    model = resolve(spec, data)
    loads = level_loads(model, state_masses(model, sums(model, trials, data)), trials, data)
    return model, loads, rides(model, loads, trials, data)


def found(spec, trials=STILL, data=scratch.DATA):
    """Quantities (nominal) and checks of the three topics, by id."""
    with np.errstate(all="ignore"):
        model, loads, ride = worked(spec, trials, data)
        parts = (
            ends(model, ride, trials, data),
            access(model, loads, trials, data),
            wheel_boxes(model, loads, ride, trials, data),
        )
    return (
        {q.id: q for p in parts for q in p.quantities},
        {c.id: c for p in parts for c in p.checks},
    )
