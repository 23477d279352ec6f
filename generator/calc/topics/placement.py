"""Where the axle group may stand: the window over all towed states, its best station, and how sure each station is.

Loads in kg, stations in m. Every limit is a ratio that passes at 1; it either grows or falls as the group moves aft, so
that each state and limit closes one end of the window.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from generator.calc.findings import Sweep
from generator.calc.record import (
    About,
    Basis,
    Check,
    Findings,
    Floats,
    Quantity,
    Window,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import suspension as sus
from generator.calc.topics.attitude import ONWARD, STATION, TOLERANCE
from generator.calc.topics.axle_bench import Bench, Limit, greatest, kept_at, loads_at, ratios
from generator.calc.topics.axle_ends import HALVINGS, REACH, ends, show_ends
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.hitch_limits import HitchLimit, hitch_limits
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.rating_chain import axle_limits, tyre_limit
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.load import Reference

STATIONS = 61
"""Stations of the sweep that the sheet draws."""

SWEPT_TRIALS = 1000
"""Trials used for the curve of sure stations: two in a hundred is fine enough for a drawing."""


@formula("Room to the stops", "room = min(x - x_1, x_2 - x)", "m", "what stands in the way, trailer.yaml")
def STOP_ROOM(x: Floats, x_1: Floats, x_2: Floats) -> Floats:
    return np.minimum(x - x_1, x_2 - x)


def bench(
    model: Model,
    loads: Mapping[str, StateLoads],
    rides: Mapping[str, Ride],
    trials: Trials,
    data: Reference,
    hitch: HitchLimit,
    seats: Sequence[Quantity],
) -> Bench:
    """Gather what the sweep needs from the level loads and rides of the towed states."""
    ids = tuple(loads)
    every, ride = [loads[i] for i in ids], [rides[i] for i in ids]
    width = 1 + trials.count

    def stack(*given: Quantity) -> Floats:
        return np.stack([np.broadcast_to(q.values, width) for q in given])

    n, stations, words = len(model.axle_stations), sus.acting(model), coupled(model)
    middle = sum(stations) / n
    return Bench(
        ids,
        tuple(x.state.title.lower() for x in every),
        middle,
        stack(every[0].x_h),
        stack(*(x.at.fixed_mass for x in every)),
        stack(*(x.at.fixed_x for x in every)),
        stack(*(x.at.moving_mass for x in every)),
        stack(*(x.at.moving_x for x in every)),
        stack(*(x.mass for x in every)),
        stack(*(x.at.y for x in every)),
        stack(*(x.sprung_mass for x in every)),
        (
            stack(*(r.deck for r in ride)) + stack(*(x.sprung_zeta for x in every)),
            stack(*(r.ball for r in ride)),
            stack(*(r.radius for r in ride)),
        ),
        (stack(*(r.errors[0] for r in ride)), stack(*(r.errors[1] for r in ride))),
        tuple(stack(*(r.rates[i] for r in ride)) for i in range(n)),
        tuple(stack(every[0].at.unsprung[i]) for i in range(n)),
        tuple(stack(q) for q in seats),
        tuple(x - middle for x in stations),
        tuple(float(t.values[0]) for t in every[0].tracks),
        np.array([i in ONWARD for i in ids]),
        (data.defaults[words.share_low].value, data.defaults[words.share_high].value),
        data.defaults["hitch.least"].value,
        hitch.load,
        axle_limits(model),
        tyre_limit(model, data),
        _limits(n, hitch, words.on),
        tuple(stack(f) for f in every[0].sharing),
    )


def _limits(n: int, hitch: HitchLimit, on: str) -> tuple[Limit, ...]:
    return (
        Limit(f"too little load on the {on}", False),
        Limit(f"too great a share on the {on}", True),
        Limit(hitch.words, True),
        *(Limit(f"axle {i} at its rating", False) for i in range(1, n + 1)),
        *(Limit(f"a tyre of axle {i} at its rated load", False) for i in range(1, n + 1)),
    )


def placement(
    model: Model,
    loads: Mapping[str, StateLoads],
    rides: Mapping[str, Ride],
    seats: Sequence[Quantity],
    trials: Trials,
    data: Reference,
) -> tuple[Bench, Findings]:
    """The checks of the chosen station, and the bench from which `window` and `sweep` draw the rest."""
    b = bench(model, loads, rides, trials, data, hitch_limits(model), seats)
    use = greatest(b)
    inputs = [q for x in loads.values() for q in (x.hitch, *x.axles)] + [r for x in rides.values() for r in x.rates]
    used = report(
        "axles.use", "Greatest use of any limit at the chosen axle station", combine("r", use, "1", inputs), "up"
    )
    # All trials of every state are tens of megabytes; what still wants the bench draws a curve of a few of them.
    return b.cut(SWEPT_TRIALS), Findings((used,), (_inside(model, b, use, inputs, trials, data), _stops(model, trials)))


def window(b: Bench, model: Model) -> Window | None:
    """The window of group stations (m), what closes it, and the best station; None where an input is unknown."""
    gear = model.spec.trailer.running_gear
    stops = (gear.foremost.nominal, gear.rearmost.nominal)
    known = np.isfinite([float(ratios(b.cut(0), np.array([[b.middle]])).max()), *stops]).all()
    return _window(b, stops, gear.station_step.nominal, gear.stops) if known else None


def _window(b: Bench, stops: tuple[float, float], step: float, words: str) -> Window:
    lows, highs = ends(b)
    row, state = np.unravel_index(int(np.argmax(lows)), lows.shape)
    other, of = np.unravel_index(int(np.argmin(highs)), highs.shape)
    low, closed_low = float(lows[row, state]), f"{b.limits[row].words}, {b.titles[state]}"
    high, closed_high = float(highs[other, of]), f"{b.limits[other].words}, {b.titles[of]}"
    if low < stops[0]:
        low, closed_low = stops[0], f"foremost place: {words}"
    if high > stops[1]:
        high, closed_high = stops[1], f"rearmost place: {words}"
    low, high = max(low, b.middle - REACH), min(high, b.middle + REACH)
    low, high = min(low, b.middle + REACH), max(high, b.middle - REACH)
    best = best_station(b, low, high, step) if low <= high else None
    return Window(
        "axles.window", "Middle of the axle group, station", low, high, b.middle, best, "m", closed_low, closed_high
    )


def best_station(b: Bench, low: float, high: float, step: float) -> float:
    """Station (m) with the least use of its most used limit, to the shop's step, inside the window."""
    nominal, grows = b.cut(0), np.array([limit.grows for limit in b.limits])

    def leaning(x: float) -> float:
        use = ratios(nominal, np.array([[x]])).max(axis=(1, 2))
        return float(use[grows].max() - use[~grows].max())

    first, last = low, high
    for _ in range(HALVINGS):
        x = (first + last) / 2
        first, last = (first, x) if leaning(x) > 0.0 else (x, last)
    if not step > 0.0:
        return first
    steps = [k * step for k in (np.floor(first / step), np.ceil(first / step)) if low <= k * step <= high]
    uses = [float(ratios(nominal, np.array([[x]])).max()) for x in steps]
    return float(steps[int(np.argmin(uses))]) if steps else first


def sweep(b: Bench, model: Model) -> Sweep:
    """Share, ball load, heaviest axle (travel state, kg) and how sure each of some sixty stations is."""
    gear = model.spec.trailer.running_gear
    stops = (gear.foremost.nominal, gear.rearmost.nominal)
    first, last = min(stops[0], b.middle) - 0.5, max(stops[1], b.middle) + 0.5
    stations = np.linspace(first, last, STATIONS) if np.isfinite([first, last]).all() else np.full(STATIONS, b.middle)
    few = b.part(1, 1 + SWEPT_TRIALS) if b.W.shape[-1] > 1 else b
    state = b.ids.index(DESIGN)
    inside = (stations >= stops[0] - 1e-9) & (stations <= stops[1] + 1e-9)
    ok = kept_at(few, stations) * inside
    at = loads_at(b.cut(0), stations[:, None, None])
    share, hitch = (np.mean([low, high], axis=0)[:, state, 0] for low, high in (at.share, at.hitch))
    worst = np.max([n[..., 0].max(axis=1) for n in at.axles], axis=0)
    return Sweep(
        tuple(map(float, stations)),
        tuple(map(float, share)),
        tuple(map(float, hitch)),
        tuple(map(float, worst)),
        tuple(ok.tolist()),
        b.share[0],
        b.share[1],
        b.hitch if np.isfinite(b.hitch) else None,
        min(b.axles),
        *stops,
    )


def _inside(model: Model, b: Bench, use: Floats, inputs: list[Quantity], trials: Trials, data: Reference) -> Check:
    words = coupled(model)
    low, high, least = (data.defaults[i] for i in (words.share_low, words.share_high, "hitch.least"))
    w = Working()
    show_ends(b, w)
    r = combine("r", use, "1", [*inputs, *(trials.assumed("s", d) for d in (low, high, least))])
    nominal = ratios(b.cut(0), np.array([[b.middle]]))[..., 0]
    row, state = np.unravel_index(int(np.argmax(np.nan_to_num(nominal, nan=np.inf))), nominal.shape)
    w.procedure(
        "Most used limit at the chosen station",
        "Shares on the ball, ball, axle and tyre ratings in every towed "
        f"state, ball high and low. Governed by: {b.limits[row].words}, {b.titles[state]}.",
        "enveloping",
        r,
        (),
    )
    about = About(
        "Axle group stands inside its window",
        "axles",
        "statics of every towed state",
        "Axles welded in the wrong place cannot be moved: ball, axles or tyres stay overloaded, or the trailer sways.",
        "The designer, before the frame is cut; the fabricator, whether the brackets can be set there.",
        "The makers of coupler, axles and tyres; a licensed engineer for the frame.",
        True,
        (STATION, TOLERANCE, "trailer.running_gear.tyre.load", "trailer.running_gear.axles.*.rating"),
    )
    return Check("axles.window", about, b.ids[state], compare(r, sure("r_max", 1.0, "1", Basis.MEASURED), "<=", w))


def _stops(model: Model, trials: Trials) -> Check:
    gear, w, at = model.spec.trailer.running_gear, Working(), "trailer.yaml running_gear"
    room = w(
        STOP_ROOM,
        x=trials.given("x", gear.station, "m", path=f"{at}.station"),
        x_1=trials.given("x_1", gear.foremost, "m", path=f"{at}.foremost"),
        x_2=trials.given("x_2", gear.rearmost, "m", path=f"{at}.rearmost"),
    )
    about = About(
        "Axle group clear of what stands in its way",
        "axles",
        f"trailer.yaml: {gear.stops}",
        "Wheels meet a door, a tank or the end of the frame.",
        "The designer and the fabricator.",
        mandatory=True,
        levers=(STATION,),
    )
    return Check("axles.stops", about, "", compare(room, sure("room_min", 0.0, "m", Basis.MEASURED), ">=", w))
