"""The scratch design parked: three pairs of stands, ties, anchors and a site that leaves nothing out."""

from copy import deepcopy

import numpy as np
import scratch

from generator.calc.sums import sums
from generator.calc.topics.axles import level_loads
from generator.calc.topics.masses import state_masses
from generator.calc.topics.parked import parked
from generator.calc.topics.rides import rides
from generator.calc.trials import Trials
from generator.model.resolve import resolve

STILL = Trials(count=0)


def stand(id, station, **more):
    return {"id": id, "station": station, "y": "850 mm", "rating": "4000 kg", "pad": "700 mm", "reach": "300 mm"} | more


def point(id, kind, station, y="800 mm", rating="2000 kg"):
    return {"id": id, "kind": kind, "station": station, "y": y, "rating": rating}


STANDS = [stand("fore", "500 mm"), stand("middle", "4 m"), stand("aft", "8500 mm")]
TIES = [point(f"tie-{n}", "tie", f"{n} m") for n in (1, 4, 8)]
ANCHORS = [point(f"anchor-{n}", "anchor", f"{n} m", "1200 mm") for n in (1, 3, 5, 8)]
NOSE = {
    "id": "nose",
    "title": "Nose jack",
    "station": "-500 mm",
    "y": "0 m",
    "legs": "1",
    "drive": "single",
    "lift_rating": "4000 kg",
    "static_rating": "5000 kg",
    "stroke": "400 mm",
    "foot_clearance": "200 mm",
    "block": "150 mm",
    "screw": {
        "lead": "5 mm",
        "pitch_diameter": "26.2 mm",
        "collar_diameter": "36 mm",
        "thread_friction": "0.15",
        "collar_friction": "0.10",
        "gear": "4",
        "gear_efficiency": "0.9",
        "crank": "250 mm",
    },
}
DRAIN = {
    "id": "grey",
    "title": "Grey drain",
    "start": "4 m",
    "start_y": "0 m",
    "end": "8500 mm",
    "end_y": "0 m",
    "height": "-100 mm",
    "fall": "1/4 in/ft",
    "bore": "40 mm",
}
SITE = scratch.SITE | {
    "exposure": "C",
    "frost": "0 m",
    "flood": "0 m",
    "seismic": "20 %",
    "sewer_inlet": "100 mm",
}


def spec(trailer=None, house=None, site=None, **more):
    """The scratch design parked, with changes by dotted key."""
    fitted = {"stands": STANDS, "points": [*TIES, *ANCHORS], "jacks": [NOSE]} | (trailer or {})
    return scratch.spec(
        trailer=fitted, house={"drains": [deepcopy(DRAIN)]} | (house or {}), site=SITE if site is None else site, **more
    )


def found(design=None, trials=STILL):
    """The topic's findings on a design."""
    model = resolve(design or spec(), scratch.DATA)
    with np.errstate(all="ignore"):
        masses = state_masses(model, sums(model, trials, scratch.DATA))
        loads = level_loads(model, masses, trials, scratch.DATA)
        ride = rides(model, loads, trials, scratch.DATA)
        return parked(model, masses, loads, ride, trials, scratch.DATA)


def check(of, id):
    return next(c for c in of.checks if c.id == id)


def value(of, id):
    return next(q.nominal for q in of.quantities if q.id == id)
