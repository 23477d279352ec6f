"""Puts a design's own words and numbers into the fixed wording of the request."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.findings import JackRecord, RatingRow, Results
from generator.calc.record import Reported, Window
from generator.calc.topics.leaf import equalised
from generator.errors import DataError
from generator.model.region import ABROAD, countries
from generator.model.types import Model
from generator.reference.types import ClauseRow, ClauseText, Hold, Reference
from generator.release.jacks import jack_words
from generator.release.slices import Clause, Cover, Envelope, Pair, Steel
from generator.spec.measure import Measure
from generator.spec.models.trailer import (
    Ball,
    Coupling,
    Gooseneck,
    KingPin,
    Leaf,
    Suspension,
    Torsion,
    Trailer,
    Tyre,
)
from generator.units import Show, Toward

Words = Mapping[str, str]
DASH = "\N{EN DASH}"
KINDS = {"gooseneck": "with a neck for a gooseneck ball", "king pin": "with a neck for a king pin",
         "ball": "with a tongue for a ball"}
"""What a trailer of each coupling is called."""
AS_ORDERED = ("suspension", "rating", "hub_rating", "hub_face", "start_angle", "brake", "brake_rating")
"""What tells one axle from another when it is ordered."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a request is written from: the design, its results, its drawn sizes, and how values are shown."""

    model: Model
    results: Results
    data: Reference
    cover: Cover
    steel: Steel
    envelope: Envelope
    show: Show

    def reported(self, id: str) -> Reported | None:
        """A quantity by its id, or None if nothing of that id was found."""
        return next((q for q in self.results.quantities if q.id == id), None)

    def window(self, id: str) -> Window | None:
        """A window by its id."""
        return next((w for w in self.results.windows if w.id == id), None)

    def rating(self, axle: int) -> RatingRow | None:
        """The chain of ratings of one axle."""
        return next((r for r in self.results.ratings if r.axle == axle), None)


def fill(texts: tuple[ClauseText, ...], words: Words, kinds: Mapping[str, tuple[Words, ...]],
         has: frozenset[str]) -> tuple[Clause, ...]:
    """The clauses with every {name} filled; a clause left without rows drops out and the numbers close up."""
    filled = ((text.title, tuple(_rows(text, words, kinds, has))) for text in texts)
    kept = [(title, rows) for title, rows in filled if rows]
    return tuple(Clause(n, title, rows) for n, (title, rows) in enumerate(kept, 1))


def _rows(clause: ClauseText, words: Words, kinds: Mapping[str, tuple[Words, ...]],
          has: frozenset[str]) -> Iterator[Pair]:
    for row in clause.rows:
        if row.when and row.when not in has:
            continue
        for record in kinds[row.each] if row.each else ({},):
            yield _filled(clause.title, row, {**words, **record})


def _filled(clause: str, row: ClauseRow, words: Words) -> Pair:
    try:
        return row.what.format_map(words), row.text.format_map(words)
    except KeyError as name:
        raise DataError(f"reference/clauses.yaml: {clause}: {row.what}: nothing is called {name}") from None


def words(a: Asked) -> dict[str, str]:
    """Every {name} of the clauses that stands once."""
    return {**_terms(a), **_loads(a), **_sizes(a), **_makes(a)}


def records(a: Asked, holds: tuple[Hold, ...]) -> dict[str, tuple[Words, ...]]:
    """The {names} that come once for every axle, jack, wheel box, line of the design or hold point."""
    show, spec = a.show, a.model.spec
    axles = tuple(_axle(a, n) for n in range(len(spec.trailer.running_gear.axles)))
    jacks = tuple(_jack(a, jack) for jack in a.results.jacks)
    powered = {jack.title for jack in spec.trailer.jacks if jack.motor is not None}
    return {
        "axles": axles, "axle_kinds": _alike(axles),
        "jacks": jacks, "powered_jacks": tuple(jack for jack in jacks if jack["title"] in powered),
        "point_kinds": _point_kinds(a),
        "boxes": tuple({"n": str(n), "front": station(show, b.front), "rear": station(show, b.rear),
                        "inside": show(b.inside, "m"), "top": show(b.top, "m")}
                       for n, b in enumerate(a.steel.boxes, 1)),
        "access": tuple({"text": line} for line in spec.trailer.access),
        "house_notes": tuple({"text": line} for line in spec.house.notes),
        "holds": tuple({"id": h.id, "text": h.text} for h in holds),
    }


def station(show: Show, x: float) -> str:
    """A station in words: `5 ft 7 in ahead of datum A`."""
    return f"{show(abs(x), 'm')} {'ahead of' if x < 0.0 else 'behind'} datum A"


def length(show: Show, value: float, toward: Toward = "near") -> str:
    """A length as a shop writes it: whole millimetres have no decimal."""
    return show(value, "m", toward).replace(".0\N{NO-BREAK SPACE}mm", "\N{NO-BREAK SPACE}mm")


def _alike(axles: tuple[dict[str, str], ...]) -> tuple[Words, ...]:
    """Axles that are ordered alike, told once: `Axles 1, 2 and 3`."""
    kinds: dict[tuple[str, ...], list[dict[str, str]]] = {}
    for axle in axles:
        kinds.setdefault(tuple(axle.get(name, "") for name in AS_ORDERED), []).append(axle)
    return tuple({**alike[0], "which": _named([axle["n"] for axle in alike])} for alike in kinds.values())


def _named(numbers: list[str]) -> str:
    return f"Axle {numbers[0]}" if len(numbers) == 1 else f"Axles {', '.join(numbers[:-1])} and {numbers[-1]}"


def _point_kinds(a: Asked) -> tuple[Words, ...]:
    """Lift, tie and anchor points: what the rating of one of them is for."""
    meant = {
        "lift": f"one point, static, straight up; {_lifts(a)}",
        "tie": "one strap to a ground anchor or to a carrier's deck, static",
        "anchor": "the pull of one hold-down of the house, straight up, static; shear beside it by whoever designs",
    }
    held = {point.kind for point in a.steel.points}
    return tuple({"kind": f"{kind.capitalize()} points", "meant": meant[kind]} for kind in meant if kind in held)


def _lifts(a: Asked) -> str:
    """What two lift points on a diagonal would carry."""
    two = 2.0 * min((p.rating for p in a.steel.points if p.kind == "lift"), default=math.nan)
    states = (("loaded for the road", a.steel.travel_mass), ("bare", a.steel.bare_mass))
    fits = next((words for words, mass in states if two >= mass), None)
    if fits is None:
        return "two on a diagonal do not carry the bare trailer: the lift is planned by whoever lifts"
    return f"two on a diagonal carry the trailer {fits}"


def deck_to_neck_window(a: Asked) -> tuple[float, float]:
    """The window of the neck's underside above the main-deck top, m; NaN where it is not known."""
    neck = a.window("neck.window")
    if neck is None:
        return math.nan, math.nan
    return neck.low - a.steel.deck_height_laden, neck.high - a.steel.deck_height_laden


def _terms(a: Asked) -> dict[str, str]:
    terms = a.model.spec.project.request
    return {
        "number": terms.number, "revision": a.cover.revision, "status": a.cover.purpose,
        "questions_until": terms.questions_until, "questions_to": a.model.spec.project.roles.questions_to,
        "furnished": joined(terms.furnished_by_owner), "excluded": joined(terms.excluded),
        "evaluated": joined(terms.evaluated_on), "payment": joined(terms.payment), "warranty": terms.warranty,
        "delivery_place": terms.delivery_place, "delivery_wanted": terms.delivery_wanted,
        "regions": regions_named(a),
    }


def regions_named(a: Asked) -> str:
    """The regions of the route by name; the code itself where the tables hold none."""
    named = (a.data.regions[c].title if c in a.data.regions else c for c in a.model.spec.project.use.regions)
    return ", ".join(dict.fromkeys(named))


def is_abroad(a: Asked) -> bool:
    """Whether no region of the route lies in the US."""
    return ABROAD in countries(a.model.spec.project.use.regions)


def _loads(a: Asked) -> dict[str, str]:
    show, defaults = a.show, a.data.defaults
    mass = a.reported("state.travel.mass")
    vehicle = {name: show(getattr(a.envelope, f"vehicle_{name}"), "m")
               for name in ("bed_rail", "ball", "ball_to_cab", "ball_to_bed_end")}
    return vehicle | {
        "gvwr": shown(show, a.reported("rating.gvwr.requested")),
        "travel_mass": shown(show, mass),
        "travel_mass_low": DASH if mass is None else show(mass.low, "kg"),
        "travel_mass_high": DASH if mass is None else show(mass.high, "kg"),
        "hitch": shown(show, a.reported("state.travel.hitch")),
        "hitch_share": shown(show, a.reported("state.travel.hitch_share")),
        "share_low": show(a.results.sweep.share_low, "%"),
        "share_high": show(a.results.sweep.share_high, "%"),
        "factor_towing": f"{defaults['frame.factor_towing'].value:g}",
        "factor_jacking": f"{defaults['frame.factor_jacking'].value:g}",
        **_steel(a), **_together(a),
    }


def _steel(a: Asked) -> dict[str, str]:
    """Mass of the members, what plates and weld add, and the strength of the rolled sections."""
    show, share = a.show, a.model.spec.trailer.frame.plates_share.nominal
    names = sorted({m.section for m in a.model.spec.trailer.frame.members})
    rolled = [s for s in (a.data.sections[name] for name in names if name in a.data.sections) if s.shape != "plate"]
    return {
        "steel_mass": show(a.steel.steel_mass, "kg"), "plates_share": show(share, "%"),
        "frame_mass": show(a.steel.frame_mass, "kg"),
        "properties": joined([f"{s.name}: S {show(s.modulus, 'm3:section')}, I {show(s.inertia, 'm4')}"
                              for s in rolled]),
    }


def _together(a: Asked) -> dict[str, str]:
    """Axle ratings and the least load on the ball, with the ratings asked for and with the least that would do."""
    show, share = a.show, a.results.sweep.share_low
    gvwr = a.reported("rating.gvwr.requested")
    ball = math.nan if gvwr is None else share * gvwr.nominal
    axles = [x.number for x in a.steel.axles]
    sums = {id: sum(_nominal(a, f"rating.gawr.{n}.{id}") for n in axles) for id in ("requested", "least")}
    return {
        "ball_least": show(ball, "kg"), "gawr_sum": show(sums["requested"], "kg"),
        "carried": show(sums["requested"] + ball, "kg"), "carried_least": show(sums["least"] + ball, "kg"),
    }


def _nominal(a: Asked, id: str) -> float:
    found = a.reported(id)
    return math.nan if found is None else found.nominal


def _sizes(a: Asked) -> dict[str, str]:
    show, steel = a.show, a.steel
    group = a.window("axles.window")
    gear = a.model.spec.trailer.running_gear
    sizes = {name: show(getattr(steel, name), "m") for name in (
        "deck_length", "deck_width", "neck_width", "neck_underside", "deck_thickness", "spacing", "track",
        "coupler_low", "coupler_high", "coupler_set", "bracket_spacing")}
    low, high = deck_to_neck_window(a)
    rails = steel.tube_to_deck + steel.rail_underside
    return sizes | {
        "trailer_kind": f"{KINDS[a.model.spec.trailer.coupling.type]}, deck {a.model.spec.trailer.deck}",
        "hangers": hangers(a),
        "length_overall": show(steel.deck_length - min(steel.pin_station, steel.neck_front), "m"),
        "length_from_ball": show(steel.deck_length - steel.pin_station, "m"),
        "neck_length": show(-steel.neck_front, "m"), "pin_station": station(show, steel.pin_station),
        "deck_laden": show(steel.deck_height_laden, "m"), "deck_bare": show(steel.deck_height_bare, "m"),
        "neck_low": show(low, "m", "up"), "neck_high": show(high, "m", "down"),
        "neck_bare": show(steel.deck_height_bare + steel.neck_underside, "m"),
        "coupler_level": show(steel.deck_height_laden + steel.neck_underside - steel.ball_height, "m"),
        "tube_to_deck": show(steel.tube_to_deck, "m"), "tube_to_rail": show(rails, "m"),
        "group_station": station(show, gear.station.nominal),
        "group_low": DASH if group is None else show(group.low, "m", "up"),
        "group_high": DASH if group is None else show(group.high, "m", "down"),
        "group_best": DASH if group is None else show(group.best, "m"),
        "tyres_outside": show(steel.track + steel.tyre_width, "m", "up"),
        "house_width": show(a.envelope.width, "m", "up"), "house_front": station(show, a.envelope.front),
        "house_rear": station(show, a.envelope.rear), "chain_station": station(show, steel.chain_anchor),
    }


def hangers(a: Asked) -> str:
    """Where the hangers and equalisers of leaf springs sit, front to rear; nothing for other springs."""
    match a.model.spec.trailer.running_gear.suspension:
        case Leaf(eye_length=eye):
            found = [x for x, *_ in equalised(a.model.axle_stations, eye.nominal)]
            named = ["front hanger", *(["equaliser"] * (len(found) - 2)), "rear hanger"]
            return ", ".join(f"{what} {a.show(x, 'm')}" for what, x in zip(named, found, strict=True))
        case Torsion():
            return ""


def _makes(a: Asked) -> dict[str, str]:
    show, trailer = a.show, a.model.spec.trailer
    coupling, gear, chains = trailer.coupling, trailer.running_gear, trailer.chains
    tyre, wheel, wiring = gear.tyre, gear.wheel, trailer.wiring
    masses = {"tyre_load": tyre.load, "wheel_load": wheel.load, "coupler_rating": coupling.rating,
              "coupler_vertical": coupling.vertical_rating, "chain_breaking": chains.breaking}
    lengths = {"wheel_offset": wheel.offset, "seat_tolerance": gear.suspension.seat_tolerance,
               **_coupler_step(coupling)}
    pressures = {"tyre_pressure": tyre.pressure, "wheel_pressure": wheel.pressure}
    return {
        **{name: show(mass.nominal, "kg") for name, mass in masses.items()},
        **{name: length(show, measure.nominal) for name, measure in lengths.items()},
        **{name: show(pressure.nominal, "Pa") for name, pressure in pressures.items()},
        "tolerance_class": trailer.frame.general_tolerance, "camber": trailer.frame.camber_wanted,
        "coating": trailer.frame.coating, "grades": joined(sorted({m.grade for m in trailer.frame.members})),
        "welding_code": trailer.welding.code, "welding_visual": trailer.welding.visual,
        "welding_designer": trailer.welding.designer,
        "tyre": f"{tyre.size}, {tyre.kind}, {load_range(tyre)}", "wheel": wheel.size,
        "wheel_studs": wheel.studs, "spare": gear.spare, **_coupling(show, coupling),
        "chain_count": str(chains.count), "chain_grade": chains.grade,
        "breakaway": chains.breakaway, "connector": wiring.connector, "lamps": joined(wiring.lamps),
        "harness": wiring.harness, "bonding": wiring.bonding, "label_place": trailer.papers.label_place,
        "papers": joined(trailer.papers.papers), **_tongue(show, trailer),
    }


def load_range(tyre: Tyre) -> str:
    """The load range in words; a marking that is no letter or number speaks for itself."""
    return tyre.load_range if " " in tyre.load_range else f"load range {tyre.load_range}"


def _tongue(show: Show, trailer: Trailer) -> dict[str, str]:
    """The tongue ahead of the deck, and its angle in plan."""
    tongue = trailer.tongue
    if tongue is None:
        return {}
    angle = tongue.angle.nominal
    legs = f"Two legs at {show(angle, 'rad')} to the centre line in plan" if angle else "Straight"
    return {"tongue_legs": legs, "tongue_underside": show(-tongue.underside.nominal, "m")}


def _coupling(show: Show, coupling: Coupling) -> dict[str, str]:
    """The coupling and what it takes, in words."""
    match coupling:
        case Gooseneck(ball_diameter=diameter):
            return {"coupling": "Gooseneck coupler", "takes": f"ball {show(diameter.nominal, 'm')}"}
        case Ball(ball_diameter=diameter, height=height):
            return {"coupling": "Ball coupler", "takes": f"ball {show(diameter.nominal, 'm')}",
                    "ball_below": show(-height.nominal, "m")}
        case KingPin(pin_diameter=diameter):
            return {"coupling": "Pin box", "takes": f"king pin {show(diameter.nominal, 'm')}"}


def _coupler_step(coupling: Coupling) -> dict[str, Measure]:
    match coupling:
        case Gooseneck(adjust_step=step) | KingPin(adjust_step=step):
            return {"coupler_step": step}
        case Ball():
            return {}


def _sprung(show: Show, suspension: Suspension) -> dict[str, str]:
    """The suspension in words, and what only that kind has."""
    match suspension:
        case Torsion(start_angle=angle):
            return {"suspension": "rubber torsion", "start_angle": show(angle.nominal, "rad")}
        case Leaf() as leaf:
            sizes = (f"one spring {show(leaf.rate.nominal, 'N/m:spring')}, arch {show(leaf.arch.nominal, 'm')} "
                     f"unloaded, {show(leaf.eye_length.nominal, 'm')} from eye to eye, rated "
                     f"{show(leaf.spring_rating.nominal, 'kg')}, pack {show(leaf.pack.nominal, 'm')} at the seat")
            drop = leaf.drop.nominal
            bend = f"dropped {show(drop, 'm')}" if drop else "straight"
            beam = f"beam {show(leaf.tube.nominal, 'm')}, {bend}, spring seat {length(show, leaf.seat.nominal)}"
            return {"suspension": f"{beam}; leaf springs {leaf.mounting}, equalisers between the axles: {sizes}"}


def _axle(a: Asked, index: int) -> dict[str, str]:
    show, n = a.show, index + 1
    axle, place = a.model.spec.trailer.running_gear.axles[index], a.steel.axles[index]
    suspension, row = a.model.spec.trailer.running_gear.suspension, a.rating(n)
    return {
        "n": str(n), "station": station(show, place.station), "bracket_station": station(show, place.bracket_station),
        "requested": shown(show, a.reported(f"rating.gawr.{n}.requested")),
        "least": shown(show, a.reported(f"rating.gawr.{n}.least")),
        "load": DASH if row is None else show(row.load, "kg"),
        "load_worst": DASH if row is None else show(row.load_worst, "kg"),
        "axle_rating": "rating" if is_abroad(a) else "GAWR",
        "rating": show(axle.rating.nominal, "kg"), "hub_rating": show(axle.hub_rating.nominal, "kg"),
        "hub_face": show(axle.hub_face.nominal, "m"), **_sprung(show, suspension), "brake": place.brake,
        "brake_rating": show(axle.brake.rating.nominal, "kg"),
    }


def _jack(a: Asked, jack: JackRecord) -> dict[str, str]:
    spec = next((j for j in a.model.spec.trailer.jacks if j.id == jack.id), None)
    return {**jack_words(a.show, jack, spec), "station": station(a.show, jack.station)}


def shown(show: Show, quantity: Reported | None) -> str:
    """A reported quantity as text, rounded to its safe side."""
    return DASH if quantity is None else show(quantity.nominal, quantity.unit, quantity.toward)


def joined(lines: tuple[str, ...] | list[str]) -> str:
    """Lines as one text."""
    return "; ".join(lines) if lines else "nothing"
