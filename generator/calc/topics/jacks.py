"""Jacks against their ratings: lift, standing, stroke, crank and motor; and where a jack may stand."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from generator.calc.findings import JackRecord
from generator.calc.record import (
    Check,
    Compared,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import jack_drive as jd
from generator.calc.topics import suspension as sus
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.jack_about import about, why
from generator.calc.topics.jack_loads import STAND, JackLoads, jack_station, loads_at, needed_at, stroke_needed
from generator.calc.topics.jack_window import place_check, station_window
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack

ONWARD = ("dry", "travel", "travel_wet")
"""States in which the house is unhitched on its own jacks."""


@formula("Work at the jack in a year", "t_y = 2*n_m*t", "s", "up and down once a move")
def YEAR(n_m: Floats, t: Floats) -> Floats:
    return 2 * n_m * t


@dataclass(frozen=True, slots=True)
class Jacks:
    """What this topic found, with the records the sheets draw."""

    findings: Findings
    records: tuple[JackRecord, ...]


def jacks(
    model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> Jacks:
    """Every jack of the design: loads in kg as scales read them, travel in m, effort of hand and motor."""
    found = [_jack(model, jack, loads, rides, trials, data) for jack in model.spec.trailer.jacks]
    return Jacks(
        Findings(
            tuple(q for f, _ in found for q in f.quantities),
            tuple(c for f, _ in found for c in f.checks),
            tuple(x for f, _ in found for x in f.windows),
        ),
        tuple(r for _, r in found),
    )


def _jack(
    model: Model,
    jack: Jack,
    loads: Mapping[str, StateLoads],
    rides: Mapping[str, Ride],
    trials: Trials,
    data: Reference,
) -> tuple[Findings, JackRecord]:
    if jack.station.nominal >= min(model.axle_stations):
        return _steadies(jack, trials)
    states = [s for s in ONWARD if s in loads]
    of = max((loads_at(model, jack, loads[s], rides[s], trials, data) for s in states), key=lambda x: _number(x.needed))
    stroke_w, stroke, rise = stroke_needed(model, jack, of, loads[of.state], trials, data)
    effort = jd.effort(Working(list(of.w.steps)), jack, _driven(jack, of), stroke, rise, trials, data)
    motor = (
        None if jack.motor is None else jd.powered(jack, jack.motor, effort, _driven_legs(jack), stroke, trials, data)
    )
    window = station_window(
        model, jack, of.rig, lambda x: needed_at(model, jack, of, loads[of.state], x, trials, data), trials, data
    )
    checks = tuple(_checks(model, jack, of, stroke_w, stroke, effort, motor, trials, data))
    checks += (*_stand_check(model, jack, loads[of.state], trials), place_check(jack, window, trials))
    record = _record(jack, of, stroke, effort, motor, data)
    return Findings(tuple(_quantities(model, jack, of, stroke, effort, motor, trials)), checks, (window,)), record


def _steadies(jack: Jack, trials: Trials) -> tuple[Findings, JackRecord]:
    """A jack behind the first axle: nothing is worked out for it as a lift."""
    why_not = f"trailer.yaml jacks.{jack.id}.station: a jack behind the first axle steadies the house, it lifts no nose"
    check = _check(jack, "lift", "unhitched", Missing((why_not,)))
    station = report(
        f"jack.{jack.id}.station", f"{jack.title}, station", jack_station(jack, trials), fixed_by_welding=True
    )
    steadies = "It steadies the parked house; lower it last, and never lift with it."
    return Findings((station,), (check,)), _blank(jack, steadies)


def _stand_check(model: Model, jack: Jack, load: StateLoads, trials: Trials) -> Iterator[Check]:
    """The rearmost stands behind the axles, should somebody lift the nose with them down."""
    behind = [s for s in model.spec.trailer.stands if s.station.nominal > max(model.axle_stations)]
    if not behind:
        return
    stand, w = max(behind, key=lambda s: s.station.nominal), Working()
    at = f"trailer.yaml stands.{stand.id}"
    x_r = trials.given("x_r", stand.station, "m", path=f"{at}.station")
    taken = w(STAND, W=load.mass, x_g=load.at.x, x_j=jack_station(jack, trials), x_r=x_r)
    rating = trials.given("m_r", stand.rating, "kg", path=f"{at}.rating")
    yield _check(jack, "stands", load.state.id, compare(taken, rating, "<=", w))


def _driven_legs(jack: Jack) -> int:
    return jack.legs if jack.drive == "shared shaft" else 1


def _driven(jack: Jack, of: JackLoads) -> Quantity:
    """What one crank or motor lifts, kg: both legs on a shared shaft, else the worst leg."""
    return of.worst if jack.drive == "shared shaft" else of.leg_worst


def _checks(
    model: Model,
    jack: Jack,
    of: JackLoads,
    stroke_w: Working,
    stroke: Quantity,
    e: jd.Effort,
    motor: jd.Powered | None,
    trials: Trials,
    data: Reference,
) -> Iterator[Check]:
    at, row = f"trailer.yaml jacks.{jack.id}", data.defaults
    lift = trials.given("m_r", jack.lift_rating, "kg", path=f"{at}.lift_rating")
    static = trials.given("m_r", jack.static_rating, "kg", path=f"{at}.static_rating")
    gawr = sus.gear(model, trials, data).ratings[-1]
    yield _check(jack, "lift", of.state, compare(of.needed, lift, "<=", _to(of.needed, of.w)))
    yield _check(jack, "static", "unhitched", compare(of.leg_worst, static, "<=", _to(of.leg_worst, of.w)))
    yield _check(jack, "rear_axle", of.state, compare(of.rear, gawr, "<=", _to(of.rear, of.w)))
    yield _check(
        jack,
        "stroke",
        of.state,
        compare(stroke, trials.given("s_j", jack.stroke, "m", path=f"{at}.stroke"), "<=", stroke_w),
    )
    hand = trials.assumed("F_max", row["jack.crank_peak" if motor else "jack.crank_sustained"])
    yield _check(jack, "hand", of.state, compare(e.crank, hand, "<=", _to(e.crank, e.w)))
    yield _check(jack, "holds", of.state, compare(e.lower, sure("T_0", 0.0, "N*m"), ">=", _to(e.lower, e.w)))
    if jack.motor is None or motor is None:
        yield _check(
            jack, "time", of.state, compare(e.time, trials.assumed("t_max", row["jack.crank_time"]), "<=", e.w)
        )
        return
    amps = trials.given("I_c", jack.motor.cable_ampacity, "A", path=f"{at}.motor.cable_ampacity")
    duty = trials.given("t_d", jack.motor.duty, "s", path=f"{at}.motor.duty")
    yield _check(jack, "time", of.state, compare(motor.time, duty, "<=", _to(motor.time, motor.w)))
    yield _check(jack, "fuse", of.state, compare(motor.fuse, amps, "<=", motor.w))
    yield _check(
        jack, "drop", of.state,
        compare(motor.drop, trials.assumed("dv_max", row["jack.voltage_drop"]), "<=", _to(motor.drop, motor.w)),
    )


def _to(result: Quantity, w: Working) -> Working:
    """The working as far as the step that gives a result, so that what is compared stands last."""
    ends = [n for n, s in enumerate(w.steps, start=1) if s.result.symbol == result.symbol]
    return Working(w.steps[: max(ends, default=len(w.steps))])


def _check(jack: Jack, what: str, state: str, outcome: Compared | Missing) -> Check:
    return Check(f"jack.{jack.id}.{what}", about(what, jack), state, outcome)


def _quantities(
    model: Model, jack: Jack, of: JackLoads, stroke: Quantity, e: jd.Effort, motor: jd.Powered | None, trials: Trials
) -> Iterator[Reported]:
    id, title = f"jack.{jack.id}", jack.title
    yield report(f"{id}.station", f"{title}, station", jack_station(jack, trials), fixed_by_welding=True)
    yield report(f"{id}.load", f"{title}, load level", of.level)
    yield report(f"{id}.load_worst", f"{title}, load at the worst attitude", of.worst)
    yield report(f"{id}.load_bound", f"{title}, load if the last axle carried all the rest", of.bound)
    yield report(f"{id}.leg_level", f"{title}, one leg level", of.leg_level)
    yield report(f"{id}.leg_worst", f"{title}, one leg at worst", of.leg_worst)
    yield report(f"{id}.rating_needed", f"{title}, lift rating one leg needs", of.needed)
    yield report(f"{id}.rear_axle", f"{title}, last axle while the nose is up", of.rear)
    yield report(f"{id}.stroke", f"{title}, stroke needed", stroke, "up")
    yield report(f"{id}.efficiency", f"{title}, efficiency of the screw", e.efficiency)
    yield report(f"{id}.force", f"{title}, force on the crank handle", e.crank)
    yield report(f"{id}.turns", f"{title}, turns of the crank", e.turns)
    yield report(f"{id}.hand_time", f"{title}, cranking time by hand", e.time)
    yield report(f"{id}.time", f"{title}, time to raise", motor.time if motor else e.time)
    yield report(f"{id}.year", f"{title}, work at the crank {_span(model)} if always by hand", _year(model, e))
    if motor:
        yield report(f"{id}.current", f"{title}, current from a low battery", motor.current)
        yield report(f"{id}.fuse", f"{title}, fuse", motor.fuse)
        yield report(f"{id}.drop", f"{title}, voltage lost in the cable", motor.drop)


def _span(model: Model) -> str:
    return "for its only move" if model.spec.project.use.moves else "in a year"


def _year(model: Model, e: jd.Effort) -> Quantity:
    return Working()(YEAR, n_m=sure("n_m", float(model.spec.project.use.moves_busiest), "1"), t=e.time)


def _record(
    jack: Jack, of: JackLoads, stroke: Quantity, e: jd.Effort, motor: jd.Powered | None, data: Reference
) -> JackRecord:
    return replace(
        _blank(jack, why(jack, _number(of.level), _number(of.worst), e, data)),
        load_pair=_number(of.worst),
        load_leg_level=_number(of.leg_level),
        load_leg_worst=_number(of.leg_worst),
        rating_needed=_number(of.needed),
        stroke_needed=_number(stroke),
        crank_force=_known(e.crank),
        crank_turns=_known(e.turns),
        crank_time=_known(e.time),
        motor_current=_known(motor.current) if motor else None,
        motor_time=_known(motor.time) if motor else None,
        fuse=_known(motor.fuse) if motor else None,
    )


def _blank(jack: Jack, why: str) -> JackRecord:
    """The record of a jack as its maker states it, nothing worked out."""
    unknown = float("nan")
    return JackRecord(
        id=jack.id,
        title=jack.title,
        station=jack.station.nominal,
        y=jack.y.nominal,
        legs=int(jack.legs),
        drive=jack.drive,
        load_pair=unknown,
        load_leg_level=unknown,
        load_leg_worst=unknown,
        rating_needed=unknown,
        lift_rating=jack.lift_rating.nominal,
        static_rating=jack.static_rating.nominal,
        stroke_needed=unknown,
        stroke=jack.stroke.nominal,
        crank_force=None,
        crank_turns=None,
        crank_time=None,
        motor_current=None,
        motor_time=None,
        fuse=None,
        why=why,
    )


def _known(q: Quantity) -> float | None:
    value = _number(q)
    return value if np.isfinite(value) else None


def _number(q: Quantity) -> float:
    return float(q.values[0])
