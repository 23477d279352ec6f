"""The house as a dwelling: ceilings, lofts, stairs and ladders, escape openings, alarms, outer doors.

The numbers are those of the declared legal path where this program holds them; for any other path the residential
appendix for tiny houses serves as a first look, and every title says so.
"""

import math
from collections.abc import Callable, Iterable, Iterator

import numpy as np

from generator.calc.record import (
    About,
    Basis,
    Check,
    Compared,
    Findings,
    Floats,
    Missing,
    Quantity,
    Sense,
    Working,
    compare,
    formula,
    sure,
)
from generator.calc.topics.floor import floor
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.measure import Measure
from generator.spec.models.house import Climb, House, Loft, Opening, Zone

TOPIC = "dwelling"
FUELS = ("propane", "diesel")
OWN = {"foundation_dwelling": "irc", "manufactured": "hud"}
"""Legal paths whose own numbers are held, and the first part of their ids."""
ASK = "The building official or whoever certifies the declared path: the edition in force and what was adopted of it."
DEFER = "The code of the declared path, as adopted where the house stands."


@formula("Ceiling above the finished floor", "h = c - f", "m", "geometry of the zone")
def CEILING(c: Floats, f: Floats) -> Floats:
    return c - f


@formula("Least side of the loft", "s = min(x_1 - x_0, y_1 - y_0)", "m", "plan of the loft")
def SIDE(x_0: Floats, x_1: Floats, y_0: Floats, y_1: Floats) -> Floats:
    return np.minimum(x_1 - x_0, y_1 - y_0)


@formula(
    "Floor of the loft that counts", "A = (x_1 - x_0)*(y_1 - y_0)*max(0, min(1, (h_2 - t)/max(h_2 - h_1, 0.001)))",
    "m2", "the part under an evenly falling ceiling that is high enough",
)
def COUNTED(x_0: Floats, x_1: Floats, y_0: Floats, y_1: Floats, h_1: Floats, h_2: Floats, t: Floats) -> Floats:
    share = np.maximum(0, np.minimum(1, (h_2 - t) / np.maximum(h_2 - h_1, 0.001)))
    return (x_1 - x_0) * (y_1 - y_0) * share


@formula("Tread that goes with the riser", "g = S - 4/3*r", "m", "AQ104.2.1.3: 20 in less four thirds of the riser")
def TREAD(S: Floats, r: Floats) -> Floats:
    return S - 4 / 3 * r


@formula("Clear area of the opening", "A = b*h", "m2", "width times height, standing open")
def CLEAR(b: Floats, h: Floats) -> Floats:
    return b * h


@formula("Outer doors apart", "d = sqrt((x_2 - x_1)**2 + (y_2 - y_1)**2)", "m", "centre to centre in plan")
def APART(x_1: Floats, x_2: Floats, y_1: Floats, y_2: Floats) -> Floats:
    return np.sqrt((x_2 - x_1) ** 2 + (y_2 - y_1) ** 2)


@dataclass(frozen=True, slots=True)
class Code:
    """Which numbers are used, and whether they are those of the declared path."""

    first: str
    is_own: bool
    trials: Trials
    data: Reference

    def limit(self, symbol: str, name: str) -> Quantity:
        """A number of the code."""
        return self.trials.assumed(symbol, self.data.defaults[f"dwelling.{self.first}.{name}"])

    def source(self, name: str) -> str:
        """Where a number stands."""
        return self.data.defaults[f"dwelling.{self.first}.{name}"].source

    def given(self, symbol: str, measure: Measure, path: str) -> Quantity:
        """A size of house.yaml as a quantity."""
        unit = "rad" if measure.kind == "angle" else "m"
        return self.trials.given(symbol, measure, unit, path=f"house.yaml {path}")


def dwelling(model: Model, trials: Trials, data: Reference) -> Findings:
    """Checks of the house as a dwelling by its declared legal path."""
    house, path = model.spec.house, model.spec.project.legal_path
    first = "hud" if path == "manufactured" else "irc"
    code = Code(first, path in OWN and (first == "hud" or _is_tiny(model, trials, data)), trials, data)
    used = any(z.use for z in house.zones) or bool(house.lofts)
    if not used:
        needs = Missing(("house.yaml zones.*.use",))
        return Findings(checks=(Check("dwelling.use", _about("What the rooms are used for", "ceiling", code,
                                "Ceilings and escapes cannot be checked."), "", needs),))
    checks = [*_ceilings(house, code), *_escapes(house, code), *_alarms(model, code)]
    if code.first == "irc":
        checks += [*_lofts(house, code), *_climbs(house, code)]
    else:
        checks += _doors(house, code)
    return Findings(checks=tuple(checks))


def _is_tiny(model: Model, trials: Trials, data: Reference) -> bool:
    """Whether the floor is small enough for the tiny-house appendix; beyond it the whole code holds."""
    area = next(q.nominal for q in floor(model, trials).quantities if q.id == "floor.area")
    return area <= data.defaults["dwelling.irc.area_most"].value


def _about(title: str, name: str, code: Code, concern: str, levers: tuple[str, ...] = ()) -> About:
    look = "" if code.is_own else " (first look, by the tiny-house appendix)"
    return About(f"{title}{look}", TOPIC, code.source(name), concern, ASK, DEFER, levers=levers)


def _against(code: Code, title: str, name: str, demand: Quantity, sense: Sense, concern: str, w: Working,
             levers: tuple[str, ...] = ()) -> tuple[About, Compared | Missing]:
    return _about(title, name, code, concern, levers), compare(demand, code.limit("m", name), sense, w)


def _ceilings(house: House, code: Code) -> Iterator[Check]:
    names = {"irc": {"bath": "ceiling_bath", "kitchen": "ceiling_bath"}, "hud": {"hall": "ceiling_hall"}}[code.first]
    for zone in (z for z in house.zones if z.use is not None):
        w, at = Working(), f"zones.{zone.id}"
        got = w(CEILING, c=code.given("c", zone.ceiling, f"{at}.ceiling"), f=code.given("f", zone.floor, f"{at}.floor"))
        about, outcome = _against(code, f"Ceiling, {zone.title}", names.get(zone.use or "", "ceiling"), got, ">=",
                                  "The room does not count as a room, and heads meet beams.", w,
                                  (f"house.{at}.ceiling", f"house.{at}.floor"))
        yield Check(f"dwelling.ceiling.{zone.id}", about, "", outcome)


def _plan(loft: Loft, code: Code) -> dict[str, Quantity]:
    at = f"lofts.{loft.id}"
    return {s: code.given(s, getattr(loft, n), f"{at}.{n}")
            for s, n in (("x_0", "front"), ("x_1", "rear"), ("y_0", "left"), ("y_1", "right"))}


def _lofts(house: House, code: Code) -> Iterator[Check]:
    concern = "The loft does not count as a place to sleep, and nobody can sit up or get out in it."
    for loft in (x for x in house.lofts if x.sleeps):
        w, plan, floor = Working(), _plan(loft, code), code.given("f", loft.floor, f"lofts.{loft.id}.floor")
        side = w(SIDE, **plan)
        about, outcome = _against(code, f"Least side, {loft.title}", "loft_side", side, ">=", concern, w)
        yield Check(f"dwelling.loft.{loft.id}.side", about, "", outcome)
        w = Working()
        low, high = (w(CEILING, c=code.given("c", getattr(loft, n), f"lofts.{loft.id}.{n}"), f=floor)
                     for n in ("low", "high"))
        area = w(COUNTED, h_1=low, h_2=high, t=code.limit("t", "loft_counts"), **plan)
        about, outcome = _against(code, f"Floor that counts, {loft.title}", "loft_area", area, ">=", concern, w)
        yield Check(f"dwelling.loft.{loft.id}.area", about, "", outcome)


def _climbs(house: House, code: Code) -> Iterator[Check]:
    for climb in house.climbs:
        yield from _stair(climb, code) if climb.kind == "stair" else _ladder(climb, code)


def _stair(climb: Climb, code: Code) -> Iterator[Check]:
    at, concern = f"climbs.{climb.id}", "People fall on stairs that are not what their feet expect."
    rise = code.given("r", climb.rise, f"{at}.rise")
    yield from _each(climb, code, concern, (
        ("riser_low", "Riser", rise, ">="), ("riser_high", "Riser", rise, "<="),
        ("stair_width", "Width", code.given("b", climb.width, f"{at}.width"), ">="),
        *((("stair_headroom", "Headroom", code.given("h", climb.headroom, f"{at}.headroom"), ">="),)
          if climb.headroom is not None else ()),
    ))
    w = Working()
    need = w(TREAD, S=code.limit("S", "tread_sum"), r=rise)
    about = _about(f"Tread, {climb.title}", "tread_sum", code, concern,
                   (f"house.climbs.{climb.id}.tread", f"house.climbs.{climb.id}.rise"))
    if climb.tread is None:
        yield Check(f"dwelling.{climb.id}.tread", about, "", Missing((f"house.yaml {at}.tread",)))
    else:
        got = code.given("g", climb.tread, f"{at}.tread")
        yield Check(f"dwelling.{climb.id}.tread", about, "", compare(got, need, ">=", w))


def _ladder(climb: Climb, code: Code) -> Iterator[Check]:
    at = f"climbs.{climb.id}"
    rung = code.given("r", climb.rise, f"{at}.rise")
    rows: list[tuple[str, str, Quantity, Sense]] = [
        ("rung_low", "Rung to rung", rung, ">="), ("rung_high", "Rung to rung", rung, "<="),
        ("ladder_width", "Width", code.given("b", climb.width, f"{at}.width"), ">="),
    ]
    if climb.angle is not None:
        angle = code.given("a", climb.angle, f"{at}.angle")
        rows += [("ladder_low", "Angle", angle, ">="), ("ladder_high", "Angle", angle, "<=")]
    yield from _each(climb, code, "A ladder too steep, too narrow or with rungs far apart throws people off.", rows)


def _each(climb: Climb, code: Code, concern: str,
          rows: Iterable[tuple[str, str, Quantity, Sense]]) -> Iterator[Check]:
    for name, what, got, sense in rows:
        bound = "least" if sense == ">=" else "greatest"
        about, outcome = _against(code, f"{what}, {bound}, {climb.title}", name, got, sense, concern, Working(),
                                  tuple(f"house.climbs.{climb.id}.{n}" for n in ("rise", "width", "angle")))
        yield Check(f"dwelling.{climb.id}.{name}", about, "", outcome)


def _sleeping(house: House) -> Iterator[Zone | Loft]:
    yield from (z for z in house.zones if z.use == "sleeping")
    yield from (loft for loft in house.lofts if loft.sleeps)


def _escapes(house: House, code: Code) -> Iterator[Check]:
    concern = "In a fire or a gas leak nobody gets out that way, and nobody gets in to help."
    for place in _sleeping(house):
        ways = [o for o in house.openings if o.escape_from == place.id]
        about = _about(f"A way to escape, {place.title}", "escape_sill", code, concern)
        count = sure("n", float(len(ways)), "count", Basis.MEASURED)
        one = sure("n_min", 1.0, "count", Basis.MEASURED)
        yield Check(f"dwelling.escape.{place.id}", about, "", compare(count, one, ">=", Working()))
        for way in ways:
            yield from _escape(place, way, code, concern)


def _escape(place: Zone | Loft, way: Opening, code: Code, concern: str) -> Iterator[Check]:
    at, w = f"openings.{way.id}", Working()
    sill = w(CEILING, c=code.given("c", way.clear_sill or way.sill, f"{at}.sill"),
             f=code.given("f", place.floor, f"{place.id}.floor")).named("s")
    about, outcome = _against(code, f"Sill, {way.title}", "escape_sill", sill, "<=", concern, w)
    yield Check(f"dwelling.escape.{place.id}.{way.id}.sill", about, "", outcome)
    if code.first == "hud":
        return
    sizes = {"width": way.clear_width, "height": way.clear_height}
    gap = Missing(tuple(f"house.yaml {at}.clear_{n}" for n, m in sizes.items() if m is None))
    got = {n: code.given(n[0], m, f"{at}.clear_{n}") for n, m in sizes.items() if m is not None}
    for name in sizes:
        about = _about(f"Clear {name}, {way.title}", f"escape_{name}", code, concern, (f"house.{at}.clear_{name}",))
        found = compare(got[name], code.limit("m", f"escape_{name}"), ">=", Working()) if name in got else gap
        yield Check(f"dwelling.escape.{place.id}.{way.id}.{name}", about, "", found)
    w, about = Working(), _about(f"Clear area, {way.title}", "escape_area", code, concern,
                                 tuple(f"house.{at}.clear_{n}" for n in sizes))
    whole = gap if gap.inputs else compare(w(CLEAR, b=got["width"], h=got["height"]), code.limit("m", "escape_area"),
                                           ">=", w)
    yield Check(f"dwelling.escape.{place.id}.{way.id}.area", about, "", whole)


def _alarms(model: Model, code: Code) -> Iterator[Check]:
    house, held = model.spec.house, Code("irc", code.is_own and code.first == "irc", code.trials, code.data)
    concern = "Smoke and carbon monoxide kill people who sleep."
    wanted = [("smoke", p) for p in _sleeping(house)]
    if any(t.holds in FUELS for t in model.spec.weights.tanks):
        wanted += [("carbon monoxide", p) for p in _sleeping(house)]
    for kind, place in wanted:
        about = _about(f"Alarm, {kind}, {place.title}", "alarms", held, concern)
        id = f"dwelling.alarm.{kind.replace(' ', '_')}.{place.id}"
        if house.alarms is None:
            yield Check(id, about, "", Missing(("house.yaml alarms",)))
            continue
        near = sum(a.kind == kind and a.place == place.id for a in house.alarms)
        found = sure("n", float(near), "count", Basis.MEASURED)
        yield Check(id, about, "", compare(found, held.limit("m", "alarms"), ">=", Working()))


def _doors(house: House, code: Code) -> Iterator[Check]:
    doors = [o for o in house.openings if o.way_out == "yes"]
    concern = "One door can be on fire: the home is not certified without a second one far from it."
    count = sure("n", float(len(doors)), "count", Basis.MEASURED)
    about, outcome = _against(code, "Outer doors", "doors", count, ">=", concern, Working())
    yield Check("dwelling.doors", about, "", outcome)
    if len(doors) > 1:
        yield _apart(house, doors, code, concern)


def _apart(house: House, doors: list[Opening], code: Code, concern: str) -> Check:
    places = [_place(house, d, code) for d in doors]

    def far(pair: tuple[int, int]) -> float:
        (x_1, y_1), (x_2, y_2) = places[pair[0]], places[pair[1]]
        return math.hypot(float(x_2.values[0] - x_1.values[0]), float(y_2.values[0] - y_1.values[0]))

    pairs = [(a, b) for a in range(len(doors)) for b in range(a + 1, len(doors))]
    first, second = max(pairs, key=far)
    w, (x_1, y_1), (x_2, y_2) = Working(), places[first], places[second]
    about, outcome = _against(code, "Outer doors apart", "doors_apart", w(APART, x_1=x_1, x_2=x_2, y_1=y_1, y_2=y_2),
                              ">=", concern, w)
    return Check("dwelling.doors_apart", about, "", outcome)


def _place(house: House, door: Opening, code: Code) -> tuple[Quantity, Quantity]:
    """Station and y of the middle of a door, m."""
    wall = next(s for s in house.surfaces if s.id == door.surface)
    at: Callable[[str, Measure, str], Quantity] = code.given
    along = at("x", door.centre, f"openings.{door.id}.centre")
    if wall.plane == "side":
        return along, at("y", wall.left, f"surfaces.{wall.id}.left")
    return at("x", wall.front, f"surfaces.{wall.id}.front"), along.named("y")
