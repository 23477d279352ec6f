"""What each foot of the parked house carries: heaviest state, snow, one foot low. kg as scales read, N, m.

Every item at its high bound, floor live load or listed contents (whichever is more), wheels hanging. Feet push only:
one that would pull is left out and the rest solved again. The stiffness of the house itself is left out.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.calc.beam import Girder, Loads, at, loads, solve
from generator.calc.record import (
    About,
    Basis,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    compare,
    formula,
    report,
)
from generator.calc.topics.frame_beam import POINT, girder, rails_of
from generator.calc.topics.masses import StateMass
from generator.calc.topics.parked_bounds import HEAVY, LIGHT, Foot, Parked, bound, larger, place, site, unknown
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.errors import CalcError
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference

Row = tuple[float, ...]
"""A load of the beam as `beam.loads` takes it."""

BEAM = "direct solution of the beam; checked against a general frame program"


@formula("Snow on the roof", "m_s = c_s*p_g*A_r/9.80665", "kg", "ASCE 7, low roof, from memory; every other factor 1")
def SNOW(c_s: Floats, p_g: Floats, A_r: Floats) -> Floats:
    return c_s * p_g * A_r / G


@formula(
    "House as heavy as it may stand, without snow",
    "W = W_d + max(m_c, q_l*A_f/9.80665)",
    "kg",
    "empty house at its high bounds, with listed contents or floor live load, whichever is more",
)
def HEAVIEST(W_d: Floats, m_c: Floats, q_l: Floats, A_f: Floats) -> Floats:
    return W_d + np.maximum(m_c, q_l * A_f / G)


@formula(
    "One foot of the pair",
    "m_f = R/9.80665*(1/2 + max(y_g, -y_g)/(2*max(y_f, -y_f)))",
    "kg",
    "statics of two feet, offset mass",
)
def ONE_FOOT(R: Floats, y_g: Floats, y_f: Floats) -> Floats:
    off: Floats = np.maximum(y_g, -y_g) / (2 * np.maximum(y_f, -y_f))
    return R / G * (0.5 + off)


@formula(
    "Worst foot of four",
    "m_4 = max(m_f, (W + m_s)/2)",
    "kg",
    "statics: a stiff house on uneven feet rocks on two of them, across the diagonal",
)
def WORST_OF_FOUR(m_f: Floats, W: Floats, m_s: Floats) -> Floats:
    return np.maximum(m_f, (W + m_s) / 2)


@dataclass(frozen=True, slots=True, eq=False)
class FootLoad:
    """One foot of a pair: all level without snow, and at worst with it and a foot low (kg), with the working."""

    foot: Foot
    level: Quantity
    worst: Quantity
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Stood:
    """The heaviest house on its feet: loads of the feet, snow (kg); or why they were not found."""

    feet: tuple[FootLoad, ...]
    mass: Quantity
    snow: Quantity
    why_not: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class _Ask:
    """What the beam is asked: mass without snow and snow (kg), how low a foot may be (m), modulus (Pa), the working."""

    w: Working
    mass: Quantity
    snow: Quantity
    low: Quantity
    modulus: Quantity


def stood(model: Model, masses: Mapping[str, StateMass], parked: Parked, trials: Trials, data: Reference) -> Stood:
    """The heaviest house on its stands and two-legged jacks, all level and each in turn a little low."""
    ask = _ask(model, masses, parked, trials, data)
    if len(parked.feet) < 2:
        return Stood((), ask.mass, ask.snow, "trailer.yaml stands: two pairs of feet or more")
    try:
        level, worst = _solved(model, parked, ask, data)
    except CalcError as fault:
        return Stood((), ask.mass, ask.snow, str(fault))
    pairs = zip(parked.feet, level, worst, strict=True)
    return Stood(tuple(_load(f, a, b, parked, ask, trials) for f, a, b in pairs), ask.mass, ask.snow)


def stands(model: Model, found: Stood, parked: Parked, trials: Trials) -> Findings:
    """Each foot against its standing rating, and the masses it stands under."""
    rows = [
        report("parked.mass_low", "Parked, empty, every item at its low bound", parked.low, "down"),
        report("parked.mass_high", "Parked, as heavy as it may stand, without snow", found.mass, "up"),
        report("parked.snow", "Snow on the roof", found.snow, "up"),
    ]
    if found.why_not:
        why = Missing((found.why_not,))
        none = (Check("parked.feet", FEET, HEAVY, why),) if len(parked.feet) < 2 else ()
        each = tuple(Check(f"parked.{f.id}", titled(FEET, f), HEAVY, why) for f in parked.feet)
        return Findings(tuple(rows), none or each)
    rows += [r for load in found.feet for r in _rows(load)]
    step = STEPS[0 if model.spec.project.units == "us" else 1]
    return Findings(tuple(rows), tuple(_check(load, step, trials) for load in found.feet))


def _ask(model: Model, masses: Mapping[str, StateMass], parked: Parked, trials: Trials, data: Reference) -> _Ask:
    w, row = Working(), data.defaults
    w.procedure(
        "Mass of the house parked and empty, high side",
        "Every item aboard at its high bound.",
        "take-off",
        bound(model, masses, LIGHT, "high").named("W_d"),
        (),
    )
    empty = bound(model, masses, LIGHT, "high")
    contents = combine("m_c", parked.high.values - empty.values, "kg", (parked.high,))
    live = trials.assumed("q_l", row["stand.live"])
    mass = w(HEAVIEST, W_d=empty, m_c=contents, q_l=live, A_f=_floor(model))
    share = trials.assumed("c_s", row["snow.roof_share"])
    snow = w(SNOW, c_s=share, p_g=site(model, trials, "snow", "p_g", "N/m2"), A_r=parked.roof)
    low = trials.assumed("low", row["stand.low"])
    return _Ask(w, mass, snow, low, trials.assumed("E", row["frame.modulus"]))


def _floor(model: Model) -> Quantity:
    """Floor of all zones, lofts too, m2."""
    house = model.spec.house
    needed = {"house.yaml width": house.width}
    for zone in house.zones:
        needed |= {f"house.yaml zones.{zone.id}.{end}": getattr(zone, end) for end in ("front", "rear")}
    area = sum(z.rear.nominal - z.front.nominal for z in house.zones) * house.width.nominal
    return Quantity("A_f", np.array([area]), "m2", Basis.TABLE, unknown(needed))


def _solved(model: Model, parked: Parked, ask: _Ask, data: Reference) -> tuple[Floats, Floats]:
    """Reaction of each pair (N): all level without snow; and the greatest with snow, each foot in turn low."""
    n, snow = len(parked.feet), float(ask.snow.values[0])
    stations = [f.station.nominal for f in parked.feet]
    rows = _rows_of(model, ask)
    if rows is None or not np.isfinite([*stations, ask.modulus.values[0]]).all():
        return np.full(n, np.nan), np.full(n, np.nan)
    house, rails = model.spec.house, rails_of(model, data)
    roof = (house.front.nominal, house.rear.nominal)
    if roof[1] <= roof[0]:
        raise CalcError("the house ends ahead of where it starts")
    points, lines = rows
    ends = [*(p[0] for p in points), *(e for line in lines for e in line[:2]), *roof, *stations]
    ends += [e for r in rails for e in (r.front, r.rear)]
    if not np.isfinite(ends).all():
        return np.full(n, np.nan), np.full(n, np.nan)
    beam = girder(min(ends), max(ends), rails, float(ask.modulus.values[0]))
    even = G * snow / (roof[1] - roof[0])
    snowed = [(*roof, even, even)] if np.isfinite(snow) else []
    bench = rest(beam, stations, [loads(points, lines), loads(points, [*lines, *snowed])])
    level = held(bench, 0)
    if not snowed:
        return level, np.full(n, np.nan)
    low = float(ask.low.values[0])
    return level, np.max([held(bench, 1, k, low) for k in (None, *range(n))], axis=0)


def _rows_of(model: Model, ask: _Ask) -> tuple[list[Row], list[Row]] | None:
    """Point loads and line loads of the heaviest house without snow (N); None if anything is unknown."""
    heavy, light = place(model, HEAVY), place(model, LIGHT)
    empty = sum(i.high * i.aboard[light] for i in model.items)
    listed = sum(i.high * i.aboard[heavy] for i in model.items)
    extra = float(ask.mass.values[0]) - empty
    is_live = extra > listed - empty
    n = light if is_live else heavy
    rows = [(i, i.high * i.aboard[n] * G) for i in model.items if i.aboard[n] != 0.0]
    if not np.isfinite([extra, *(v for i, force in rows for v in (force, i.x0, i.x1))]).all():
        return None
    points: list[Row] = [(i.x, force) for i, force in rows if i.x1 - i.x0 < POINT]
    lines: list[Row] = [(i.x0, i.x1, *(force / (i.x1 - i.x0),) * 2) for i, force in rows if i.x1 - i.x0 >= POINT]
    if is_live:
        zones = [(z.front.nominal, z.rear.nominal) for z in model.spec.house.zones]
        if not all(b > a for a, b in zones):
            raise CalcError("a zone of the house ends ahead of where it starts")
        even = extra * G / sum(b - a for a, b in zones)
        lines += [(a, b, even, even) for a, b in zones]
    return points, lines


@dataclass(frozen=True, slots=True, eq=False)
class Rest:
    """A beam on feet at `stations` (m): how far each case bends it there and what 1 N up at a foot adds, on the outer
    feet alone and divided by `soft` (m/N); sum (N) and moment about station 0 (N m) of each case.
    """

    stations: Floats
    bends: Floats
    lifts: Floats
    soft: float
    totals: Floats
    moments: Floats


def rest(beam: Girder, stations: Sequence[float], cases: Sequence[Loads]) -> Rest:
    """The beam on its outer feet under each case and under 1 N at each foot: all that every set of feet needs.

    Raises CalcError if two pairs of feet stand at one station.
    """
    x = np.array(stations)
    if (np.diff(np.sort(x)) < POINT).any():
        raise CalcError("two pairs of feet stand at one station")
    units = [loads([(station, -1.0)]) for station in stations]
    outer = [at("front", float(x.min())), at("rear", float(x.max()))]
    bent = solve(beam, outer, [*cases, *units])
    soft = (beam.rear - beam.front) ** 3 / beam.runs[0][1]
    movements = np.array([b.deflection(x) for b in bent]) / soft
    first = np.array([b.reactions for b in bent[: len(cases)]])
    places = np.array([s.terms[0][0] for s in outer])
    k = len(cases)
    return Rest(x, movements[:k], movements[k:].T, soft, first.sum(axis=1), first @ places)


def held(bench: Rest, case: int, dropped: int | None = None, low: float = 0.0) -> Floats:
    """Reactions (N) of feet that push only, the foot `dropped` standing `low` (m) below the rest.

    Raises CalcError if the house does not stand on its feet.
    """
    n = len(bench.stations)
    kept = list(range(n))
    wanted = np.where(np.arange(n) == dropped, -low, 0.0) / bench.soft
    while True:
        x, m = bench.stations[kept], len(kept)
        system, right = np.zeros((m + 2, m + 2)), np.zeros(m + 2)
        system[:m, :m], system[:m, m], system[:m, m + 1] = bench.lifts[np.ix_(kept, kept)], 1.0, x
        system[m, :m], system[m + 1, :m] = 1.0, x
        right[:m] = wanted[kept] - bench.bends[case][kept]
        right[m:] = bench.totals[case], bench.moments[case]
        try:
            found = np.linalg.solve(system, right)[:m]
        except np.linalg.LinAlgError as error:
            raise CalcError("the parked house does not stand on its feet") from error
        worst = int(found.argmin())
        if found[worst] >= 0.0:
            break
        if m == 2:
            raise CalcError("the parked house tips over its outer feet")
        del kept[worst]
    out = np.zeros(n)
    out[kept] = found
    return out


def _load(foot: Foot, level: float, worst: float, parked: Parked, ask: _Ask, trials: Trials) -> FootLoad:
    y_f = trials.given("y_f", foot.y, "m", path=f"{foot.path}.y")
    station = trials.given("x_f", foot.station, "m", path=f"{foot.path}.station")
    others = [trials.given("x", f.station, "m", path=f"{f.path}.station") for f in parked.feet]

    def reaction(w: Working, value: float, sentence: str, given: Sequence[Quantity]) -> Quantity:
        R = combine("R", np.array([value]), "N", (*given, ask.modulus, station, *others))
        return w.procedure("Reaction of the pair", sentence, BEAM, R, (*given, station))

    dry, w = Working(), Working(list(ask.w.steps))
    even = dry(ONE_FOOT, R=reaction(dry, level, LEVEL, (ask.mass,)), y_g=parked.y, y_f=y_f)
    R = reaction(w, worst, ONE_LOW, (ask.mass, ask.snow, ask.low))
    most = w(ONE_FOOT, R=R, y_g=parked.y, y_f=y_f)
    if len(parked.feet) == 2:
        most = w(WORST_OF_FOUR, m_f=most, W=ask.mass, m_s=ask.snow)
    return FootLoad(foot, even, most, tuple(w.steps))


def _rows(load: FootLoad) -> Iterator[Reported]:
    id, title = load.foot.id, load.foot.title
    yield report(f"parked.{id}.level", f"{title}, one foot, all feet level, no snow", load.level, "up")
    yield report(f"parked.{id}.worst", f"{title}, one foot, a foot low, snow on the roof", load.worst, "up")


def _check(load: FootLoad, step: float, trials: Trials) -> Check:
    foot = load.foot
    rating = trials.given("m_r", foot.rating, "kg", path=foot.rated)
    outcome = compare(load.worst, rating, "<=", Working(list(load.steps)))
    check = Check(f"parked.{foot.id}", titled(FEET, foot), HEAVY, outcome)
    return larger(check, foot.rated, "Feet that hold more", rating, float(load.worst.values[0]), step)


def titled(about: About, foot: Foot) -> About:
    """The words of a check for one pair of feet."""
    return About(f"{about.title}: {foot.title.lower()}", about.topic, about.source, about.concern, about.ask,
                 about.defer_to)


STEPS = (45.359237, 25.0)
"""Steps of a rating that can be bought: 100 lb or 25 kg. Common practice, no source."""

LEVEL = "Both rails together on all feet level, wheels hanging, every load spread over its length."
ONE_LOW = "The greatest with all feet level and with each in turn a little low; a foot that would pull is left out."
FEET = About(
    "Foot within its standing rating",
    "parked",
    "rating of the maker; load by statics",
    "A stand buckles under the house; the one that settles last carries the most.",
    "Whoever sells the stands: rating standing, not lifting, at the height it is used.",
    "the maker's rating; a licensed engineer where the house stays",
)
