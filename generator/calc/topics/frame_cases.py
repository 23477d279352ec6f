"""The ways the frame is carried: on the road, on the nose jacks, parked on its stands, parked under snow. N, N m, m.

Each rail by itself; the worse one is reported. House stiffness is left out but for the second towing solution.
"""

from collections.abc import Mapping, Sequence
from functools import partial

import numpy as np

from generator.calc.beam import Diagram, at, diagram, solve
from generator.calc.record import (
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    combine,
    formula,
    report,
    sure,
)
from generator.calc.topics.frame_beam import STATIONS, Rail, Road, case_of
from generator.calc.topics.frame_sides import (
    Side,
    Standing,
    chord,
    half,
    on_jack,
    on_road,
    on_stands,
    props,
    reaching,
    sides_of,
    sunk,
)
from generator.calc.topics.frame_strength import Case, grown
from generator.calc.topics.rides import DESIGN
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.errors import CalcError
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference

LIGHT, HEAVY = "parked_light", "parked_heavy"

WORDS = {"towing": "on the road", "jacked": "on the nose jacks", "parked": "parked on its stands",
         "parked_snow": "parked under snow"}
"""Case ids and how they are said."""

Cases = dict[str, Case | Missing]


@formula("Mass on the frame: the trailer parked, live load on its floors, snow on its roof",
         "m_s = W + (q_l*A_f + c_s*p_g*A_r)/9.80665", "kg", "every item at its nominal mass, wheels hanging")
def PARKED(W: Floats, q_l: Floats, A_f: Floats, c_s: Floats, p_g: Floats, A_r: Floats) -> Floats:
    """Mass kg from that of the state, pressures N/m2, areas m2 and the roof's share of the snow."""
    return W + (q_l * A_f + c_s * p_g * A_r) / G


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """What all cases share: model, road solution, rails, their distance (m), masses of the states (kg), ball above the
    main-deck top (m).
    """

    model: Model
    road: Road
    rails: tuple[Rail, ...]
    base: float
    sprung: Quantity
    masses: Mapping[str, Quantity]
    ball: Quantity


def case_ids(model: Model) -> tuple[str, ...]:
    """The cases this trailer has, whatever is known of them."""
    trailer = model.spec.trailer
    ids = ["towing", "jacked"] if trailer.jacks else ["towing"]
    if len(trailer.jacks) + len(trailer.stands) > 1:
        ids += ["parked"] if model.spec.site is None else ["parked", "parked_snow"]
    return tuple(ids)


def cases(f: Frame, trials: Trials, data: Reference) -> tuple[Cases, Standing | None]:
    """Every case that this trailer has, solved or why not; and how it stands parked."""
    found: Cases = {"towing": _towing(f, trials, data)}
    ids, standing = case_ids(f.model), None
    if "jacked" in ids:
        found["jacked"] = _jacked(f, trials, data)
    share = trials.assumed("c_s", data.defaults["snow.roof_share"])
    if "parked" in ids:
        none = sure("p_g", 0.0, "N/m2", origin="no snow in this case")
        found["parked"], standing = _parked(f, "parked", none, share.named("c_s"), trials, data)
    site = f.model.spec.site
    if "parked_snow" in ids and site is not None:
        snow = trials.given("p_g", site.snow, "N/m2", path="site.yaml snow")
        found["parked_snow"] = _unknown(snow)
        if np.isfinite(snow.values[0]):
            found["parked_snow"], _ = _parked(f, "parked_snow", snow, share, trials, data)
    return found, standing


def _alone(mass: Quantity, w: Working) -> Quantity:
    """What acts where nothing is added: the sprung mass as it is."""
    return mass.named("m_s")


def _towing(f: Frame, trials: Trials, data: Reference) -> Case | Missing:
    loads = sides_of(f.model, DESIGN, f.base)
    if loads is None:
        return _unknown(f.sprung)
    bare, stiff = on_road(f.road, loads)
    return Case("towing", "Frame on hitch and axle brackets, each rail by itself", DESIGN, (*bare, *stiff),
                trials.assumed("phi", data.defaults["frame.factor_towing"]), (partial(_alone, f.sprung),),
                (*f.road.springs, f.road.modulus))


def _jacked(f: Frame, trials: Trials, data: Reference) -> Case | Missing:
    stations = [j.station.nominal for j in f.model.spec.trailer.jacks]
    station = min(stations) if np.isfinite(stations).all() else float("nan")
    loads = sides_of(f.model, DESIGN, f.base)
    girder = f.road.bare.girder
    if loads is None or not girder.front <= station <= girder.rear:
        return _unknown(f.sprung) if loads is None else Missing(("trailer.yaml jacks: a station on the frame",))
    sides = on_jack(f.road, station, loads)
    if sides is None:
        return Missing(("trailer.yaml jacks: a station away from the axles",))
    return Case("jacked", "Frame level on the foremost jacks and the axles, each rail by itself", DESIGN, sides,
                trials.assumed("phi", data.defaults["frame.factor_jacking"]), (partial(_alone, f.sprung),),
                f.road.springs)


def _parked(f: Frame, id: str, snow: Quantity, share: Quantity, trials: Trials, data: Reference,
            ) -> tuple[Case | Missing, Standing | None]:
    """Listed contents, or the empty house with floor live load, all feet level or one low: the worst counts."""
    unknown = _unknown_feet(f.model)
    if unknown:
        return Missing(unknown), None
    live = trials.assumed("q_l", data.defaults["stand.live"])
    low = trials.assumed("low", data.defaults["stand.low"])
    roof = _over_house(f.model, float(snow.values[0] * share.values[0]))
    listed = sides_of(f.model, HEAVY, f.base, roof, hanging=True)
    loaded = sides_of(f.model, LIGHT, f.base, [*roof, *_live(f.model, float(live.values[0]))], hanging=True)
    if listed is None or loaded is None:
        return _unknown(f.masses.get(HEAVY, f.sprung)), None
    loads = (*listed, *loaded)
    try:
        standing = on_stands(half(reaching(f.road.bare.girder, loads)), props(f.model), loads, float(low.values[0]),
                             ("contents as listed", "empty with floor live load"))
    except CalcError as fault:
        return Missing((str(fault),)), None
    bare = sure("q_l", 0.0, "N/m2", origin="contents as listed instead")
    acting = tuple(partial(_acting, f, state, pressure, snow, share) for state, pressure in ((HEAVY, bare),
                                                                                           (LIGHT, live)))
    case = Case(id, "Frame on jacks and stands that only push, wheels hanging, each rail by itself", HEAVY,
                standing.sides, trials.assumed("phi", data.defaults["frame.factor_parked"]), acting,
                (f.road.modulus, low))
    return case, standing


def _acting(f: Frame, state: str, live: Quantity, snow: Quantity, share: Quantity, w: Working) -> Quantity:
    """What acts parked: the mass of the state with live load (N/m2) on its floors and snow (N/m2) on its roof, kg."""
    house = f.model.spec.house
    width = house.width.nominal
    floors = sum(z.rear.nominal - z.front.nominal for z in house.zones) * width
    roof = (house.rear.nominal - house.front.nominal) * width
    return w(PARKED, W=f.masses.get(state, f.sprung), q_l=live, A_f=sure("A_f", floors, "m2"), c_s=share, p_g=snow,
             A_r=sure("A_r", roof, "m2"))


def _unknown_feet(model: Model) -> tuple[str, ...]:
    """Jacks and stands whose station nobody knows; all of them if they stand at one place."""
    trailer = model.spec.trailer
    feet = [("jacks", j.id, j.station) for j in trailer.jacks] + [("stands", s.id, s.station) for s in trailer.stands]
    unknown = tuple(f"trailer.yaml {kind}.{id}.station" for kind, id, station in feet if not station.known)
    return unknown or (() if len(props(model)) > 1 else ("trailer.yaml stands: feet at two stations or more",))


def _unknown(mass: Quantity) -> Missing:
    names = sorted(r.removeprefix("unknown:") for r in mass.rests_on if r.startswith("unknown:"))
    return Missing(tuple(names) or ("a mass, a station or the distance of the rails is unknown",))


def _over_house(model: Model, pressure: float) -> list[tuple[float, float, float]]:
    """Snow (N/m2) over the plan of the house as a line load: front, rear (m), N."""
    house = model.spec.house
    front, rear = house.front.nominal, house.rear.nominal
    return [(front, rear, pressure * house.width.nominal * (rear - front))]


def _live(model: Model, pressure: float) -> list[tuple[float, float, float]]:
    """Live load (N/m2) on every floor zone: front, rear (m), N."""
    width = model.spec.house.width.nominal
    return [(z.front.nominal, z.rear.nominal, pressure * width * (z.rear.nominal - z.front.nominal))
            for z in model.spec.house.zones]


def reported(f: Frame, found: Cases, off: Mapping[str, float], standing: Standing | None,
             ) -> tuple[Reported, ...]:
    """Moments, shear, deflection and camber of every case; torque of the hitch; what a low stand does."""
    rows: list[Reported] = []
    for id, case in found.items():
        if isinstance(case, Case):
            rows += _of_case(f, id, case, off[id])
    towing, parked = found["towing"], found.get("parked")
    if isinstance(towing, Case):
        rows += [_torque(f, towing), _tip(f, towing)]
        rows += _camber(f, "towing", _dry(f), "hitch and axles")
    rows += [_low(c) for c in (parked, found.get("parked_snow")) if isinstance(c, Case)]
    if isinstance(parked, Case) and standing is not None:
        lifted = combine("n", np.array([float(len(standing.lifted))]), "count", parked.rests)
        rows.append(report("frame.parked.lifted", "Stands or jacks that lift off when they are the low one", lifted))
        rows += _camber(f, "parked", _empty(f), "jacks and stands")
    if isinstance(towing, Case) and isinstance(parked, Case) and f.rails:
        rows.append(_difference(f, towing, parked))
    return tuple(rows)


def _of_case(f: Frame, id: str, case: Case, off: float) -> list[Reported]:
    words, rows = WORDS[id], []
    for key, sense, sign in (("moment_sag", "sagging", 1.0), ("moment_hog", "hogging", -1.0)):
        value, side, x = _extreme([(sign * s.diagram.moment, s) for s in case.sides])
        told = f"{words}, static: {side.title}"
        moment = grown(Working(), case, side, max(value, 0.0), x, sense)
        rows += [report(f"frame.{id}.{key}", f"Greatest {sense} moment of one rail, {told}", moment),
                 _place(f"frame.{id}.{key}_station", f"Station of the greatest {sense} moment of one rail, {words}", x,
                        case)]
    value, side, x = _extreme([(np.abs(s.diagram.shear), s) for s in case.sides])
    shear = grown(Working(), case, side, value, x, "shear", force=True)
    rows += [report(f"frame.{id}.shear", f"Greatest shear of one rail, {words}, static: {side.title}", shear),
             _place(f"frame.{id}.shear_station", f"Station of the greatest shear of one rail, {words}", x, case)]
    if f.rails:
        apart = combine("w", np.array([off]), "m", [f.road.modulus, *case.rests])
        title = f"One rail from the chord over the house, {words}, bare frame, static"
        rows.append(report(f"frame.{id}.deflection", title, apart, "up"))
    return rows


def _extreme(rows: Sequence[tuple[Floats, Side]]) -> tuple[float, Side, float]:
    """The greatest of the values over all sides, the side it is of, and its station m."""
    values, side = max(rows, key=lambda row: float(row[0].max()))
    k = int(values.argmax())
    return float(values[k]), side, float(side.diagram.x[k])


def _place(id: str, title: str, x: float, case: Case) -> Reported:
    return report(id, title, combine("x", np.array([x]), "m", case.rests))


def deviation(f: Frame, case: Case) -> float:
    """Greatest distance of either rail, bare frame, feet level, from the chord over the house, m."""
    front, rear = house_span(f)
    bare = [s for s in case.level if "stiffened" not in s.title]
    return max(float(np.abs(chord(s.diagram, front, rear, STATIONS)[1]).max()) for s in bare)


def house_span(f: Frame) -> tuple[float, float]:
    """The stretch of the frame under the house, m."""
    house, girder = f.model.spec.house, f.road.bare.girder
    return max(house.front.nominal, girder.front), min(house.rear.nominal, girder.rear)


def _torque(f: Frame, case: Case) -> Reported:
    """Torque of both rails that pull the hitch differently: the ball has no hold on it, the front frame takes it."""
    right, left = (s.bent.reactions[0] for s in case.sides[2:])
    torque = combine("T", np.array([abs(float(right - left)) * f.base / 2]), "N*m", [f.sprung])
    return report("frame.towing.front_torque", "Torque in the front crossmembers: the ball cannot resist roll, static",
                  torque, "up")


def _tip(f: Frame, case: Case) -> Reported:
    rear = np.array([f.model.spec.trailer.frame.length.nominal])
    level = [s.bent.supports[0].imposed for s in case.sides[:2]]
    drop = max(float(z - s.diagram.deflection(rear)[0]) for z, s in zip(level, case.sides[:2], strict=True))
    return report("frame.towing.tip", "Tail of the main deck below the level of the hitch end, bare frame, static",
                  combine("w", np.array([drop]), "m", [f.road.modulus, *case.rests]), "up")


def _dry(f: Frame) -> Diagram | None:
    """Both rails under the finished empty house, level on hitch and axles."""
    case = case_of(f.model, "dry")
    if case is None:
        return None
    springs, girder = f.road.bare.supports[1:], reaching(f.road.bare.girder, [case])
    hitch = at("hitch", f.road.bare.supports[0].terms[0][0], imposed=-sunk(case, f.road))
    return diagram(solve(girder, [hitch, *springs], [case])[0])


def _empty(f: Frame) -> Diagram | None:
    """Both rails under the finished empty house on the jacks and stands that carry."""
    case, supports = case_of(f.model, LIGHT), props(f.model)
    if case is None:
        return None
    try:
        standing = on_stands(reaching(f.road.bare.girder, [case]), supports, (case,), 0.0)
    except CalcError:
        return None
    return standing.sides[0].diagram


def _camber(f: Frame, id: str, b: Diagram | None, supports: str) -> list[Reported]:
    """How much higher than straight the main deck must be built to come straight under its dead load, and where."""
    if b is None or not f.rails:
        return []
    length = f.model.spec.trailer.frame.length.nominal
    x, off = chord(b, 0.0, length, STATIONS)
    most = int(np.abs(off).argmax())
    rests = [f.road.modulus, *f.road.springs]
    words = f"main deck straight under the finished empty house on {supports}"
    return [report(f"frame.{id}.camber", f"Camber for a {words}, upward positive", combine(
                "w", np.array([-float(off[most])]), "m", rests)),
            report(f"frame.{id}.camber_station", f"Station of that camber ({supports})", combine(
                "x", np.array([float(x[most])]), "m", rests))]


def _low(case: Case) -> Reported:
    value, side, foot = max(((float(r), s, held) for s in case.sides for held, r in zip(
        s.bent.supports, s.bent.reactions, strict=True)), key=lambda row: row[0])
    most = grown(Working(), case, side, value, foot.terms[0][0], foot.title, force=True)
    title = (f"Greatest force of one stand or jack leg, {WORDS[case.id]}, every item at its nominal mass: "
             f"{foot.title}, {side.title} (at their high bounds under each foot)")
    return report(f"frame.{case.id}.low_reaction", title, combine("m", most.values / G, "kg", [most]), "up")


def _difference(f: Frame, towing: Case, parked: Case) -> Reported:
    """How far the main deck changes shape between road and stands: doors bind by it."""
    length = f.model.spec.trailer.frame.length.nominal
    shapes: list[Floats] = [np.mean([chord(s.diagram, 0.0, length, STATIONS)[1] for s in c.sides[:2]], axis=0)
                            for c in (towing, parked)]
    most = float(np.abs(shapes[0] - shapes[1]).max())
    return report("frame.towing_parked.difference", "Main deck changes its shape by this between road and stands",
                  combine("w", np.array([most]), "m", [f.road.modulus, *towing.rests]), "up")

