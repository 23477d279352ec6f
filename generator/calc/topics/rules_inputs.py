"""What the rules look at: sizes, masses and counts of trailer and combination as quantities by id. m, kg."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np

from generator.calc.record import (
    Basis,
    Floats,
    Formula,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    formula,
    report,
    sure,
)
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.ends import group_station
from generator.calc.topics.optional import absent, standing, towing
from generator.calc.topics.rides import hitch_station
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Ball, Gooseneck, KingPin

BRIDGE = "bridge formula: variables in 23 CFR 658.17(e) and 658.5, the formula itself read second-hand"


@formula("From front to rear", "l = x_1 - x_0", "m", "difference of stations")
def BETWEEN(x_0: Floats, x_1: Floats) -> Floats:
    return x_1 - x_0


@formula(
    "Front of the tow vehicle to the rear of the trailer", "l_c = l_v + d_b + l_t", "m",
    "length of the vehicle, ball behind its rear end (ahead of it: negative), trailer from the ball aft",
)
def COMBINED(l_v: Floats, d_b: Floats, l_t: Floats) -> Floats:
    return l_v + d_b + l_t


@formula("First to last axle of the combination", "l_w = wb + o + x_n - x_h", "m", "stations; o behind the rear axle")
def ALL_AXLES(wb: Floats, o: Floats, x_n: Floats, x_h: Floats) -> Floats:
    return wb + o + x_n - x_h


@formula("Bridge formula, unrounded", "W_b = w*(l/f*N/(N - 1) + 12*N + 36)", "kg", BRIDGE)
def BRIDGE_FORMULA(w: Floats, l: Floats, f: Floats, N: Floats) -> Floats:
    return w * (l / f * N / (N - 1) + 12 * N + 36)


@formula("Combination as loaded", "GC = F_0 + R_0 + C + W", "kg", "tow vehicle, people and cargo, whole trailer")
def ALL_MASS(F_0: Floats, R_0: Floats, C: Floats, W: Floats) -> Floats:
    return F_0 + R_0 + C + W


@formula(
    "Rating of the combination", "G_c = max(max(GCWR, GV + GVWR), GC)", "kg",
    "49 CFR 383.5: the greater of the label, the sum of ratings and the actual mass",
)
def COMBINATION_RATING(GCWR: Floats, GV: Floats, GVWR: Floats, GC: Floats) -> Floats:
    return np.maximum(np.maximum(GCWR, GV + GVWR), GC)


@formula("Trailer over tow vehicle, gross ratings", "r_v = GVWR/GV", "%", "49 CFR 393.48(d)")
def OVER_VEHICLE(GVWR: Floats, GV: Floats) -> Floats:
    return GVWR / GV


@formula("Strength of all chains", "B_s = n*B_c", "kg", "chains share the pull")
def ALL_CHAINS(n: Floats, B_c: Floats) -> Floats:
    return n * B_c


@dataclass(frozen=True, slots=True, eq=False)
class Known:
    """A quantity a rule can name: its title, its values, how it was worked out."""

    title: str
    quantity: Quantity
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Given:
    """Everything a rule can name; what no topic reports is unknown and names itself."""

    told: Mapping[str, Reported]
    trials: Trials
    own: Mapping[str, Known] = field(default_factory=dict)

    def of(self, id: str) -> Known:
        """The quantity of this id; one reported with a spread is normal between its P5 and P95."""
        if id in self.own:
            return self.own[id]
        found = self.told.get(id)
        if found is None:
            return Known(id, absent("q", "", f"a value for {id}"))
        shape = "sure" if found.low == found.high or np.isnan(found.low) else "normal"
        values = self.trials.spread(id, found.nominal, found.low, found.high, shape)
        return Known(found.title, Quantity("q", values, found.unit, found.basis, found.rests_on))


def given(
    model: Model, loads: Mapping[str, StateLoads], told: Mapping[str, Reported], trials: Trials, data: Reference
) -> Given:
    """What the topics reported, and the sizes, masses and counts that only rules look at."""
    own = {id: known for make in (_sizes, _masses, _counts) for id, known in make(model, loads, told, trials, data)}
    return Given(told, trials, own)


def reported(found: Given) -> tuple[Reported, ...]:
    """The own quantities as reported; sizes and masses are rounded up, for no rule forgives an inch."""
    return tuple(report(id, k.title, k.quantity, "down" if id.startswith("bridge.") else "up")
                 for id, k in found.own.items() if id in REPORTED)


REPORTED = frozenset({
    "width.overall", "length.trailer", "length.body", "length.without_tongue", "length.hitch_to_axles",
    "length.combination", "combination.mass", "combination.rating", "axles.heaviest", "axles.group_heaviest",
    "bridge.group", "bridge.combination",
})
"""Own quantities that are news; the others repeat the spec."""

Named = Iterator[tuple[str, Known]]


def _sizes(
    model: Model, loads: Mapping[str, StateLoads], told: Mapping[str, Reported], trials: Trials, data: Reference
) -> Named:
    house, trailer = model.spec.house, model.spec.trailer
    deck = trials.given("x_1", trailer.frame.length, "m", path="trailer.yaml frame.length")
    rear = _most("x_1", (trials.given("x_1", house.rear, "m", path="house.yaml rear"), deck), np.maximum)
    nose = trials.given("x_0", house.front, "m", path="house.yaml front")
    neck = trailer.neck
    ahead = sure("x_0", 0.0, "m", Basis.MEASURED) if neck is None else trials.given(
        "x_0", neck.front, "m", path="trailer.yaml neck.front")
    hitch = hitch_station(model, trials)
    front = _most("x_0", (nose, ahead), np.minimum)
    tyres = Given(told, trials).of("width.tyres").quantity
    width = _most("w", (trials.given("w", house.width, "m", path="house.yaml width"),
                        trials.given("w", trailer.frame.width, "m", path="trailer.yaml frame.width"), tyres),
                  np.maximum)
    yield "width.overall", Known("Overall width", width)
    yield "length.trailer", _worked("Trailer over all, coupling included", BETWEEN, x_1=rear,
                                    x_0=_most("x_0", (front, hitch), np.minimum))
    yield "length.body", _worked("Body of the house, front to rear", BETWEEN, x_0=nose,
                                 x_1=trials.given("x_1", house.rear, "m", path="house.yaml rear"))
    yield "length.without_tongue", _worked("Deck and house, without tongue", BETWEEN, x_0=front, x_1=rear)
    yield "length.hitch_to_axles", _worked("Coupling to the middle of the axle group", BETWEEN, x_0=hitch,
                                           x_1=group_station(model, trials))
    aft = Working()(BETWEEN, x_0=hitch, x_1=rear)
    yield "length.combination", _worked("Combination, front to rear", COMBINED, l_t=aft,
                                        l_v=towing(model, trials, "length", "l_v", "m"), d_b=_overhung(model, trials))


def _overhung(model: Model, trials: Trials) -> Quantity:
    """Ball behind the rear end of the tow vehicle, m; negative for one in its bed."""
    if isinstance(model.spec.trailer.coupling, Ball):
        return towing(model, trials, "ball_to_bumper", "d_b", "m")
    to_end = towing(model, trials, "ball_to_bed_end", "d_b", "m")
    return combine("d_b", -to_end.values, "m", (to_end,))


def _masses(
    model: Model, loads: Mapping[str, StateLoads], told: Mapping[str, Reported], trials: Trials, data: Reference
) -> Named:
    mass = _most("W", [s.mass for s in loads.values()], np.maximum)
    vehicle = {symbol: towing(model, trials, name, symbol, "kg") for symbol, name in (
        ("F_0", "front_axle"), ("R_0", "rear_axle"), ("C", "people_and_cargo"), ("GCWR", "gcwr"), ("GV", "gvwr"))}
    asked = Given(told, trials).of("rating.gvwr.requested").quantity.named("GVWR")
    w = Working()
    actual = w(ALL_MASS, F_0=vehicle["F_0"], R_0=vehicle["R_0"], C=vehicle["C"], W=mass)
    yield "combination.mass", Known("Combination, heaviest towed state", actual, tuple(w.steps))
    rating = w(COMBINATION_RATING, GCWR=vehicle["GCWR"], GV=vehicle["GV"], GVWR=asked, GC=actual)
    yield "combination.rating", Known("Rating of the combination", rating, tuple(w.steps))
    yield "vehicle.rating", Known("Rating of the tow vehicle", vehicle["GV"])
    over = Working()
    yield "trailer.over_vehicle", Known("Trailer over tow vehicle, gross ratings",
                                        over(OVER_VEHICLE, GVWR=asked, GV=vehicle["GV"]), tuple(over.steps))
    axles = [a for s in loads.values() for a in s.axles]
    yield "axles.heaviest", Known("Heaviest axle of any towed state", _most("N", axles, np.maximum))
    group = _most("A", [s.group for s in loads.values()], np.maximum)
    yield "axles.group_heaviest", Known("Axle group, heaviest towed state", group)
    count = len(model.spec.trailer.running_gear.axles)
    spread, last = (Given(told, trials).of(i).quantity for i in ("axles.spread", f"axles.station.{count}"))
    yield "bridge.group", bridge("Bridge formula, axle group of the trailer", spread, count, data, trials)
    length = Working()(ALL_AXLES, wb=towing(model, trials, "wheelbase", "wb", "m"), x_n=last,
                       o=towing(model, trials, "hitch_behind_rear_axle", "o", "m"), x_h=hitch_station(model, trials))
    yield "bridge.combination", bridge("Bridge formula, all axles of the combination", length, count + 2, data, trials)


def bridge(title: str, length: Quantity, axles: int, data: Reference, trials: Trials) -> Known:
    """Greatest mass of a group of axles, kg: length to the nearest foot, mass to the nearest 500 lb, ties down."""
    w = Working()
    foot = trials.assumed("f", data.defaults["rules.bridge_length_step"])
    step = trials.assumed("w", data.defaults["rules.bridge_mass_step"])
    feet = combine("l", np.floor(length.values / foot.values + 0.5) * foot.values, "m", (length, foot))
    rounded = w.procedure("First to last axle, to the nearest foot", "Rounded to the nearest foot.",
                          "federal practice, read second-hand", feet, (length.named("l_0"),))
    raw = w(BRIDGE_FORMULA, w=step, l=rounded, f=foot, N=sure("N", float(axles), "count", Basis.MEASURED))
    # A hair below one half, so that an exact tie goes down and noise of the last digit does not lift it.
    down = combine("W_b", np.floor(raw.values / step.values + 0.5 - 1e-9) * step.values, "kg", (raw,))
    even = w.procedure("Bridge formula, to the nearest step", "To the nearest 500 lb; an exact tie goes down.",
                       "23 CFR 658.5; ties read second-hand", down, (raw,))
    return Known(title, even, tuple(w.steps))


def _counts(
    model: Model, loads: Mapping[str, StateLoads], told: Mapping[str, Reported], trials: Trials, data: Reference
) -> Named:
    trailer, house, use = model.spec.trailer, model.spec.house, model.spec.project.use
    gear, chains, coupling = trailer.running_gear, trailer.chains, trailer.coupling
    braked = sum(a.brake.type != "none" for a in gear.axles)
    for id, title, number in (
        ("axles.count", "Axles", len(gear.axles)), ("brakes.axles", "Axles with brakes", braked),
        ("chains.count", "Safety chains", chains.count), ("use.moves", "Moves in an ordinary year", use.moves_ordinary),
        ("lofts.sleeping", "Lofts to sleep in", sum(loft.sleeps > 0 for loft in house.lofts)),
        ("climbs.count", "Stairs and ladders", len(house.climbs)),
    ):
        yield id, Known(title, sure("n", float(number), "count", Basis.QUOTED))
    each = trials.given("B_c", chains.breaking, "kg", path="trailer.yaml chains.breaking")
    yield "chains.each", Known("Breaking strength of one chain", each)
    n = sure("n", float(chains.count), "count", Basis.QUOTED)
    yield "chains.together", _worked("Breaking strength of all chains", ALL_CHAINS, n=n, B_c=each)
    if isinstance(coupling, Ball | Gooseneck):
        ball = trials.given("d_b", coupling.ball_diameter, "m", path="trailer.yaml coupling.ball_diameter")
        yield "ball.diameter", Known("Ball", ball)
    if isinstance(coupling, KingPin):
        pin = trials.given("d_p", coupling.pin_diameter, "m", path="trailer.yaml coupling.pin_diameter")
        yield "pin.diameter", Known("King pin", pin)
    site = model.spec.site
    has_frost = site is not None and site.frost is not None
    frost = standing(model, trials, "frost", "d_f", "m") if has_frost else absent("d_f", "m", "site.yaml frost")
    yield "site.frost", Known("Depth of frost", frost)


def _worked(title: str, f: Formula, **inputs: Quantity) -> Known:
    w = Working()
    return Known(title, w(f, **inputs), tuple(w.steps))


def _most(symbol: str, parts: Iterable[Quantity], pick: np.ufunc) -> Quantity:
    """The greatest or least of several, trial by trial."""
    held = tuple(parts)
    return combine(symbol, pick.reduce(np.broadcast_arrays(*[q.values for q in held])), held[0].unit, held)
