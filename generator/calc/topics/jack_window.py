"""Where a jack may stand: behind the tow vehicle's bed corner, ahead of the tyres, where its leg still lifts."""

from collections.abc import Callable

import numpy as np

from generator.calc.record import Window, Working
from generator.calc.topics import rides as rd
from generator.calc.topics.ball_class import is_ball
from generator.calc.topics.jack_rig import Rig
from generator.calc.topics.swing import bed_corner
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack

HALVINGS = 22
"""Steps of the bisection in station: from ten metres to a few micrometres."""


def station_window(
    model: Model, jack: Jack, rig: Rig, needed: Callable[[float], float], trials: Trials, data: Reference
) -> Window:
    """Stations (m) at which one leg's lift rating is enough for `needed` (kg) and nothing is struck."""
    low, by_low = _front(model, trials, data)
    stop = min(model.axle_stations) - model.spec.trailer.running_gear.tyre.diameter.nominal / 2
    high, by_high = _rear(needed, jack.lift_rating.nominal, float(rd.hitch_station(model, trials).values[0]), stop)
    if is_ball(model) and jack.legs == 1 and high > 0.0:
        high, by_high = 0.0, "the root of the tongue"
    return Window(
        f"jack.{jack.id}.window",
        f"{jack.title}, station",
        low,
        high,
        jack.station.nominal,
        low if low <= high else None,
        "m",
        by_low,
        by_high,
    )


def _front(model: Model, trials: Trials, data: Reference) -> tuple[float, str]:
    if is_ball(model):
        return float(rd.hitch_station(model, trials).values[0]), "the coupler"
    corner = float(bed_corner(Working(), model, trials).values[0])
    behind = float(rd.hitch_station(model, trials).values[0]) + corner + data.defaults["neck.cab_margin"].value
    if np.isnan(behind) or behind <= 0.0:
        return 0.0, "the front of the main deck"
    return behind, "the corner of the tow vehicle's bed in a turn"


def _rear(needed: Callable[[float], float], rating: float, front: float, stop: float) -> tuple[float, str]:
    """The load grows as the jack nears the axles, so one station ends the window."""
    if needed(stop) <= rating:
        return stop, "the tyres of the first axle"
    low, high = front, stop
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if needed(middle) <= rating else (low, middle)
    return low, "the lift rating of one leg"
