"""Levelling the parked house on its slope, drains at their fall, water and frost on the site. m, rad."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    compare,
    formula,
    report,
)
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.jack_loads import jack_station
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.parked_bounds import HEAVY, Parked, site, stated, unknown
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.house import Drain
from generator.spec.models.trailer import Jack

GEOMETRY = "geometry of a sloping stand"


@formula("Block under the wheels of the low side", "b = max(s_y, -s_y)*t", "m", GEOMETRY)
def WHEEL_BLOCK(s_y: Floats, t: Floats) -> Floats:
    return np.maximum(s_y, -s_y) * t


@formula("Travel of the nose from coupled level, up positive", "y = s_x*(x_a - x_j)", "m", GEOMETRY)
def NOSE(s_x: Floats, x_a: Floats, x_j: Floats) -> Floats:
    return s_x * (x_a - x_j)


@formula("Range of the feet", "r = max(s_x, -s_x)*d_x + max(s_y, -s_y)*d_y", "m", GEOMETRY)
def FEET_RANGE(s_x: Floats, d_x: Floats, s_y: Floats, d_y: Floats) -> Floats:
    return np.maximum(s_x, -s_x) * d_x + np.maximum(s_y, -s_y) * d_y


@formula("Rise left when the foot is down", "y_j = s - max(0, clear + fall - block)", "m", "stroke of the jack")
def RISE_LEFT(s: Floats, clear: Floats, fall: Floats, block: Floats) -> Floats:
    return s - np.maximum(0, clear + fall - block)


@formula("Rise left below a drop leg", "y_j = s - step - give", "m", "the drop leg comes within one pin step")
def RISE_DROP(s: Floats, step: Floats, give: Floats) -> Floats:
    return s - step - give


@formula("Nose to be lowered", "d = -y", "m", GEOMETRY)
def LOWERED(y: Floats) -> Floats:
    return -y


@formula("Fall left, house out of level", "i = i_0 - tan(phi)", "%", "level error along the pipe, the worse way")
def FALL_LEFT(i_0: Floats, phi: Floats) -> Floats:
    return i_0 - np.tan(phi)


@formula("Fall that must be left", "i_k = k*i_n", "%", "share of the fall the code asks for")
def FALL_KEPT(k: Floats, i_n: Floats) -> Floats:
    return k * i_n


@formula("Length of the pipe", "l = sqrt((x_2 - x_1)**2 + (y_2 - y_1)**2)", "m", "plan")
def PIPE(x_2: Floats, x_1: Floats, y_2: Floats, y_1: Floats) -> Floats:
    return np.sqrt((x_2 - x_1) ** 2 + (y_2 - y_1) ** 2)


@formula("Outlet above ground", "z_o = z_d + zeta - i_0*l", "m", "height chain")
def OUTLET(z_d: Floats, zeta: Floats, i_0: Floats, l: Floats) -> Floats:
    return z_d + zeta - i_0 * l


def levelling(
    model: Model, loads: Mapping[str, StateLoads], parked: Parked, trials: Trials, data: Reference
) -> Findings:
    """Wheel block, nose travel and range of the feet on the site's slope; drains; flood and frost."""
    drains = [_drain(d, model, parked, trials, data) for d in model.spec.house.drains]
    quantities, checks = list(_sloping(model, loads[DESIGN], parked, trials)), []
    checks += list(_nose(model, loads[DESIGN], trials, data))
    checks += list(_feet(model, parked, trials))
    checks += [c for _, found in drains for c in found]
    if not drains and any(t.holds in ("grey water", "black water") for t in model.spec.weights.tanks):
        checks.append(Check("drain.fall", FALLS, HEAVY, Missing(("house.yaml drains",))))
    quantities += [q for found, _ in drains for q in found]
    return Findings(tuple(quantities), (*checks, *_ground(model, parked, trials)))


def _slopes(model: Model, trials: Trials) -> tuple[Quantity, Quantity]:
    return site(model, trials, "slope_along", "s_x", "%"), site(model, trials, "slope_across", "s_y", "%")


def _sloping(model: Model, load: StateLoads, parked: Parked, trials: Trials) -> Iterator[Reported]:
    along, across = _slopes(model, trials)
    w = Working()
    block = w(WHEEL_BLOCK, s_y=across, t=load.tracks[0])
    yield report("level.wheel_block", "Block under the wheels of the low side", block, "up")
    jack = _nose_jack(model)
    if jack is not None:
        travel = w(NOSE, s_x=along, x_a=load.x_a, x_j=jack_station(jack, trials))
        yield report("level.nose", "Travel of the nose to stand level, up positive", travel)
    if parked.feet:
        yield report("level.feet", "Range of height of the feet", _range(w, model, parked, trials), "up")


def _nose_jack(model: Model) -> Jack | None:
    """The foremost jack ahead of the axles."""
    ahead = [j for j in model.spec.trailer.jacks if not j.station.nominal >= min(model.axle_stations)]
    return min(ahead, key=lambda j: j.station.nominal if j.station.known else -np.inf, default=None)


def _nose(model: Model, load: StateLoads, trials: Trials, data: Reference) -> Iterator[Check]:
    jack = _nose_jack(model)
    if jack is None:
        return
    at, w = f"trailer.yaml jacks.{jack.id}", Working()
    along, _ = _slopes(model, trials)
    travel = w(NOSE, s_x=along, x_a=load.x_a, x_j=jack_station(jack, trials))
    clear = trials.given("clear", jack.foot_clearance, "m", path=f"{at}.foot_clearance")
    if float(travel.values[0]) < 0.0:
        low = w(LOWERED, y=travel)
        yield Check("level.nose", NOSE_LOW, HEAVY, compare(low, clear, "<=", w))
        return
    stroke = trials.given("s", jack.stroke, "m", path=f"{at}.stroke")
    if jack.pin_step is not None:
        step = trials.given("step", jack.pin_step, "m", path=f"{at}.pin_step")
        left = w(RISE_DROP, s=stroke, step=step, give=trials.assumed("give", data.defaults["jack.ground_give"]))
    else:
        block = trials.given("block", jack.block, "m", path=f"{at}.block")
        fall = site(model, trials, "ground_fall_at_jack", "fall", "m")
        left = w(RISE_LEFT, s=stroke, clear=clear, fall=fall, block=block)
    yield Check("level.nose", NOSE_HIGH, HEAVY, compare(travel, left, "<=", w))


def _range(w: Working, model: Model, parked: Parked, trials: Trials) -> Quantity:
    along, across = _slopes(model, trials)
    missing = unknown({f"{f.path}.station": f.station for f in parked.feet})
    missing |= unknown({f"{f.path}.y": f.y for f in parked.feet})
    stations = [f.station.nominal for f in parked.feet]
    long, wide = max(stations) - min(stations), 2 * max(abs(f.y.nominal) for f in parked.feet)
    d_x, d_y = (Quantity(s, np.array([np.nan if missing else v]), "m", rests_on=missing)
                for s, v in (("d_x", long), ("d_y", wide)))
    return w(FEET_RANGE, s_x=along, d_x=d_x, s_y=across, d_y=d_y)


def _feet(model: Model, parked: Parked, trials: Trials) -> Iterator[Check]:
    stands = model.spec.trailer.stands
    if not stands:
        return
    w = Working()
    needed = _range(w, model, parked, trials)
    reaches = [stated(trials, "r_f", s.reach, "m", f"trailer.yaml stands.{s.id}.reach") for s in stands]
    # min() would pass over an unknown reach: the first unknown one stands for all.
    least = min(reaches, key=lambda q: -np.inf if np.isnan(q.values[0]) else float(q.values[0]))
    yield Check("level.feet", FEET, HEAVY, compare(needed, least, "<=", w))


def _drain(
    drain: Drain, model: Model, parked: Parked, trials: Trials, data: Reference
) -> tuple[tuple[Reported, ...], tuple[Check, ...]]:
    at, row, w = f"house.yaml drains.{drain.id}", data.defaults, Working()
    fall = trials.given("i_0", drain.fall, "%", path=f"{at}.fall")
    small = drain.bore.nominal <= row["drain.small_bore"].value
    asked = trials.assumed("i_n", row["drain.fall_small" if small else "drain.fall_large"])
    if not drain.bore.known:
        asked = stated(trials, "i_n", drain.bore, "%", f"{at}.bore")
    left = w(FALL_LEFT, i_0=fall, phi=trials.assumed("phi", row["drain.attitude"]))
    kept = w(FALL_KEPT, k=trials.assumed("k", row["drain.kept"]), i_n=asked)
    ends = {"x_2": drain.end, "x_1": drain.start, "y_2": drain.end_y, "y_1": drain.start_y}
    names = {"x_2": "end", "x_1": "start", "y_2": "end_y", "y_1": "start_y"}
    chain = Working()
    length = chain(PIPE, **{s: trials.given(s, m, "m", path=f"{at}.{names[s]}") for s, m in ends.items()})
    height = trials.given("zeta", drain.height, "m", path=f"{at}.height")
    outlet = chain(OUTLET, z_d=parked.deck, zeta=height, i_0=fall, l=length)
    inlet = site(model, trials, "sewer_inlet", "z_i", "m")
    checks = (
        Check(f"drain.{drain.id}.fall", _titled(FALLS, drain), HEAVY, compare(fall, asked, ">=", Working())),
        Check(f"drain.{drain.id}.level", _titled(OUT_OF_LEVEL, drain), HEAVY, compare(left, kept, ">=", w)),
        Check(f"drain.{drain.id}.outlet", _titled(OUTLETS, drain), HEAVY, compare(outlet, inlet, ">=", chain)),
    )
    return (report(f"drain.{drain.id}.outlet", f"{drain.title}, outlet above ground", outlet, "down"),), checks


def _titled(about: About, drain: Drain) -> About:
    return About(f"{about.title}: {drain.title}", about.topic, about.source, about.concern, about.ask, about.defer_to)


def _ground(model: Model, parked: Parked, trials: Trials) -> Iterator[Check]:
    flood = site(model, trials, "flood", "z_f", "m")
    yield Check("site.flood", FLOODED, HEAVY, compare(flood, parked.underside, "<=", Working()))
    frost = site(model, trials, "frost", "d_f", "m")
    known = not np.isnan(frost.values[0])
    named = tuple(sorted(r.removeprefix("unknown:") for r in frost.rests_on))
    yield Check("site.frost", FROZEN, HEAVY, Missing((FROST,) if known else named))


FROST = "the building official's answer: pads on top of ground that freezes, re-levelled each spring, or footings"
OFFICIAL = "the local building official"
PLUMBER = "a licensed plumber and the local plumbing code"
NOSE_HIGH = About(
    "Nose rises far enough to stand level",
    "levelling",
    GEOMETRY,
    "The house stands nose low all season: doors swing, drains stand full.",
    "Whoever surveys the stand: slope along the trailer, measured with a level and a long straight edge.",
    levers=("trailer.jacks.*.stroke", "trailer.jacks.*.block"),
)
NOSE_LOW = About(
    "Nose comes down far enough to stand level",
    "levelling",
    GEOMETRY,
    "The foot is on the ground before the house is level; the nose cannot come down further.",
    "Whoever surveys the stand: slope along the trailer, measured with a level and a long straight edge.",
)
FEET = About(
    "Stands reach over the slope of the stand",
    "levelling",
    GEOMETRY,
    "A stand screwed out past its range, or piled on loose blocks, tips over.",
    "Whoever sells the stands: range of the screw; blocks below it solid and crossed.",
    "The maker of the stands.",
)
FALLS = About(
    "Fall of the drain, house level",
    "drains",
    "IPC table 704.1, read in a city code built on it; other codes ask more of large drains",
    "Solids stay in the pipe.",
    "The plumber: which code rules, and the fall it asks for.",
    PLUMBER,
)
OUT_OF_LEVEL = About(
    "Fall left when the house is a little out of level",
    "drains",
    "common practice, no source",
    "A house called level is seldom level: the drain then runs half full or back.",
    "The plumber: more fall where there is height for it.",
    PLUMBER,
)
OUTLETS = About(
    "Outlet above the sewer inlet",
    "drains",
    "height chain",
    "Sewage does not run uphill to its inlet.",
    "Whoever runs the stand: height of the inlet above the ground under the wheels.",
    PLUMBER,
)
FLOODED = About(
    "Underside of the frame above the design flood",
    "site",
    "the flood map where the house stands",
    "Water lifts the house off its stands or fills the belly; leave before it comes.",
    "The building official or flood authority: design flood at the stand.",
    OFFICIAL,
)
FROZEN = About(
    "Pads on ground that freezes",
    "site",
    "the frost depth where the house stands",
    "Frozen ground lifts the pads unevenly and racks the house.",
    "The building official: frost depth, and whether pads may stand above it.",
    OFFICIAL,
)
