"""Where a jack may stand: behind the tow vehicle's bed corner, ahead of the tyres, where its leg still lifts."""

from collections.abc import Callable

import numpy as np

from generator.calc.record import About, Basis, Check, Floats, Window, Working, compare, formula, sure
from generator.calc.topics import rides as rd
from generator.calc.topics.ball_class import is_ball
from generator.calc.topics.jack_rig import Rig
from generator.calc.topics.swing import bed_corner
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack


@formula("Room of the jack in its window", "r = min(x - x_1, x_2 - x)", "m", "nearest end of the window")
def ROOM(x: Floats, x_1: Floats, x_2: Floats) -> Floats:
    return np.minimum(x - x_1, x_2 - x)


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


def place_check(jack: Jack, window: Window, trials: Trials) -> Check:
    """Whether the jack stands inside its window (m)."""
    w = Working()
    x = trials.given("x", jack.station, "m", path=f"trailer.yaml jacks.{jack.id}.station")
    ends = {s: sure(s, v, "m", Basis.ESTIMATE, origin=why)
            for s, v, why in (("x_1", window.low, window.closed_by_low), ("x_2", window.high, window.closed_by_high))}
    about = About(
        f"{jack.title} stands inside its window",
        "jacks",
        "window of the station",
        "The jack meets the tow vehicle in a turn, or stands where it cannot lift; it is welded in its place.",
        "The fabricator: another place for the jack before steel is cut.",
        levers=(f"trailer.jacks.{jack.id}.station",),
    )
    room, none = w(ROOM, x=x, **ends), sure("r_min", 0.0, "m", Basis.MEASURED)
    return Check(f"jack.{jack.id}.place", about, "", compare(room, none, ">=", w))


def _front(model: Model, trials: Trials, data: Reference) -> tuple[float, str]:
    if is_ball(model):
        return float(rd.hitch_station(model, trials).values[0]), "the coupler"
    corner = float(bed_corner(Working(), model, trials).values[0])
    behind = float(rd.hitch_station(model, trials).values[0]) + corner + data.defaults["neck.cab_margin"].value
    if np.isnan(behind):
        return 0.0, "the front of the main deck, nothing being known of the tow vehicle"
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
