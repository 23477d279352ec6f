"""Three ways over the wheels side by side: a box in the floor, the whole floor raised, the deck over the wheels."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Reported, Working, combine, formula, report, sure
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.floor import is_raised
from generator.calc.topics.low_points import highest
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.house import Zone

CHAIN = "height chain, the wheel risen to its stop"
SIZES = "size from tyre, gap and skin"


@formula("Least underside of what is above the tyre", "z_c = r_t + D/2 + j + g", "m", CHAIN)
def UNDERSIDE(r_t: Floats, D: Floats, j: Floats, g: Floats) -> Floats:
    return r_t + D / 2 + j + g


@formula("Deck between the wheels, steel flush", "z_l = z_d - b_x", "m", "without the steel over the tyres")
def LOW_DECK(z_d: Floats, b_x: Floats) -> Floats:
    return z_d - b_x


@formula("Top of the wheel box above that deck", "h_b = max(z_c + s - z_l, 0)", "m", CHAIN)
def BOX_TOP(z_c: Floats, s: Floats, z_l: Floats) -> Floats:
    return np.maximum(z_c + s - z_l, 0.0)


@formula("Deck over the wheels", "z_o = max(z_c + b_x + t_d, z_l)", "m", CHAIN)
def OVER_DECK(z_c: Floats, b_x: Floats, t_d: Floats, z_l: Floats) -> Floats:
    return np.maximum(z_c + b_x + t_d, z_l)


@formula("Floor above the floor as drawn", "r = z_l + h_b - z_d", "m", "height chain")
def RISE(z_l: Floats, h_b: Floats, z_d: Floats) -> Floats:
    return z_l + h_b - z_d


@formula("Finished floor above ground", "z_f = z_d + f + r", "m", "height chain")
def FLOOR(z_d: Floats, f: Floats, r: Floats) -> Floats:
    return z_d + f + r


@formula("Headroom with the roof where it is drawn", "h = c - f - r", "m", "height chain")
def HEADROOM(c: Floats, f: Floats, r: Floats) -> Floats:
    return c - f - r


@formula("Highest point with the headroom as drawn", "z_r = z + r", "m", "height chain")
def HEIGHT(z: Floats, r: Floats) -> Floats:
    return z + r


@formula("Length of the box", "l_b = (n - 1)*p + D + 2*g_e + 2*s", "m", SIZES)
def BOX_LENGTH(n: Floats, p: Floats, D: Floats, g_e: Floats, s: Floats) -> Floats:
    return (n - 1) * p + D + 2 * g_e + 2 * s


@formula("Inner face of the box from the centre line", "b_i = (t - w_t)/2 - g - s", "m", SIZES)
def BOX_INSIDE(t: Floats, w_t: Floats, g: Floats, s: Floats) -> Floats:
    return (t - w_t) / 2 - g - s


@formula("Floor between the boxes", "b_c = 2*b_i", "m", SIZES)
def CLEAR_WIDTH(b_i: Floats) -> Floats:
    return 2 * b_i


@formula("Floor the boxes take", "A_b = 2*l_b*max(w_d/2 - b_i, 0)", "m2", "both sides")
def FLOOR_LOST(l_b: Floats, w_d: Floats, b_i: Floats) -> Floats:
    return 2 * l_b * np.maximum(w_d / 2 - b_i, 0.0)


@formula("Mass of the boxes", "m_b = q*(A_b + 2*l_b*h_b + 4*h_b*max(w_d/2 - b_i, 0))", "kg", "tops, inner faces, ends")
def BOX_MASS(q: Floats, A_b: Floats, l_b: Floats, h_b: Floats, w_d: Floats, b_i: Floats) -> Floats:
    return q * (A_b + 2 * l_b * h_b + 4 * h_b * np.maximum(w_d / 2 - b_i, 0.0))


@formula("Mass of the second floor", "m_r = q*(w_d*l_d - A_b)", "kg", "deck less the boxes, whose skins it needs too")
def RAISED_MASS(q: Floats, w_d: Floats, l_d: Floats, A_b: Floats) -> Floats:
    return q * (w_d * l_d - A_b)


@formula("Mass of box skins and second floor", "m = m_b + m_r", "kg", "sum")
def BOTH(m_b: Floats, m_r: Floats) -> Floats:
    return m_b + m_r


@formula("Steel of the deck over the wheels", "m_o = q*l_d*max(w_d - w_r, 0)", "kg", "strips outside the rails")
def OVER_MASS(q: Floats, l_d: Floats, w_d: Floats, w_r: Floats) -> Floats:
    return q * l_d * np.maximum(w_d - w_r, 0.0)


@formula("Storage under the raised floor", "V_r = h_b*(w_d*l_d - A_b)", "m3:room", "between the two floors, boxes out")
def RAISED_STORAGE(h_b: Floats, w_d: Floats, l_d: Floats, A_b: Floats) -> Floats:
    return h_b * (w_d * l_d - A_b)


@formula(
    "Storage hung under the deck", "V_o = max(z_o - z_l, 0)*max(w_d - w_r, 0)*max(l_d - l_b, 0)", "m3:room",
    "the height gained, outside the rails, ahead of and behind the wheels",
)
def OVER_STORAGE(z_o: Floats, z_l: Floats, w_d: Floats, w_r: Floats, l_d: Floats, l_b: Floats) -> Floats:
    return np.maximum(z_o - z_l, 0.0) * np.maximum(w_d - w_r, 0.0) * np.maximum(l_d - l_b, 0.0)


@formula("Finish of the floor over the raised one", "f = f_z - t_b", "m", "height chain")
def FINISH(f_z: Floats, t_b: Floats) -> Floats:
    return f_z - t_b


@formula("Floor above the floor it has as drawn, raised over the boxes", "r_d = r - t_b", "m", "height chain")
def RISE_DRAWN(r: Floats, t_b: Floats) -> Floats:
    return r - t_b


WAYS = {"boxed": "box in the floor", "raised": "whole floor raised", "over": "deck over the wheels"}
"""The ways over the wheels: ids, and how they are said."""

BRINGS = ("floor", "headroom", "height", "floor_lost", "storage", "mass")
"""What each brings, the last part of the ids of its quantities."""


@dataclass(frozen=True, slots=True, eq=False)
class Box:
    """The box as tyre, travel and gaps ask for it: length, inner face, top, and what it takes of the floor (m, m2)."""

    length: Quantity
    inside: Quantity
    top: Quantity
    lost: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One way over the wheels: rise of the floor over the one drawn (m), floor lost (m2), storage (m3), mass (kg)."""

    id: str
    title: str
    rise: Quantity
    lost: Quantity
    storage: Quantity
    mass: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Deck:
    """The deck as drawn and without steel over the tyres, and the least underside over them, above ground (m).

    `width`, `length` of the deck and `rails` outside to outside (m), `depth` and `sheet` of what lies over the tyres.
    """

    drawn: Quantity
    low: Quantity
    underside: Quantity
    width: Quantity
    length: Quantity
    rails: Quantity
    depth: Quantity
    sheet: Quantity


def wheel_boxes(
    model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> Findings:
    """Floor and highest point above ground, headroom (m), floor lost (m2), storage (m3) and mass (kg) of each way."""
    ride = rides[DESIGN]
    deck = _deck(model, ride, trials, data)
    box = _box(model, loads[DESIGN], deck, trials, data)
    ways = (_boxed(deck, box, trials, data), _raised(deck, box, trials, data), _over(deck, box, trials, data))
    zone = _lowest(model.spec.house.zones)
    top = highest(model, rides, trials, np.zeros_like).height
    drawn, raised = way_drawn(model), _raised_by(model, zone, trials)
    return Findings(
        (
            report("box.needed.length", "Wheel box needed, length", box.length, "up"),
            report("box.needed.top", "Wheel box needed, top above the deck", box.top, "up"),
            report("box.needed.inside", "Wheel box needed, inner face from the centre line", box.inside, "down"),
            report("box.boxed.clear_width", "Floor between the boxes", Working()(CLEAR_WIDTH, b_i=box.inside), "down"),
            *(q for way in ways for q in _reported(way, deck, zone, top, drawn, raised, trials)),
        )
    )


def way_drawn(model: Model) -> str:
    """Which of the ways the design has as it is drawn: its id, or nothing."""
    trailer = model.spec.trailer
    if trailer.deck == "over the wheels":
        return "over"
    return "raised" if is_raised(model) else "boxed" if trailer.wheel_boxes else ""


def _lowest(zones: tuple[Zone, ...]) -> Zone:
    """The zone of the main deck with the least headroom; one nobody knows governs."""
    on_deck = [z for z in zones if not z.rear.nominal <= 0.0] or list(zones)
    return min(on_deck, key=lambda z: float(np.nan_to_num(z.ceiling.nominal - z.floor.nominal, nan=-np.inf)))


def _deck(model: Model, ride: Ride, trials: Trials, data: Reference) -> Deck:
    w, trailer = Working(), model.spec.trailer
    tyre, frame = trailer.running_gear.tyre, trailer.frame
    depth = trials.assumed("b_x", data.defaults["box.over_depth"])
    is_over = trailer.deck == "over the wheels"
    return Deck(
        drawn=ride.deck,
        low=w(LOW_DECK, z_d=ride.deck, b_x=depth) if is_over else ride.deck,
        underside=w(
            UNDERSIDE,
            r_t=ride.radius,
            D=trials.given("D", tyre.diameter, "m", tyre.basis, "trailer.yaml running_gear.tyre.diameter"),
            j=ride.jounce,
            g=trials.assumed("g", data.defaults["tyre.box_gap"]),
        ),
        width=trials.given("w_d", frame.width, "m", path="trailer.yaml frame.width"),
        length=trials.given("l_d", frame.length, "m", path="trailer.yaml frame.length"),
        rails=trials.given("w_r", frame.rails_outside, "m", path="trailer.yaml frame.rails_outside"),
        depth=depth,
        sheet=trials.given("t_d", frame.deck_thickness, "m", path="trailer.yaml frame.deck_thickness"),
    )


def _box(model: Model, load: StateLoads, deck: Deck, trials: Trials, data: Reference) -> Box:
    w, gear, at = Working(), model.spec.trailer.running_gear, "trailer.yaml running_gear"
    skin = trials.assumed("s", data.defaults["box.skin"])
    track = combine("t", np.minimum.reduce(np.broadcast_arrays(*[t.values for t in load.tracks])), "m", load.tracks)
    length = w(
        BOX_LENGTH,
        n=sure("n", float(len(gear.axles)), "count"),
        p=trials.given("p", gear.spacing, "m", path=f"{at}.spacing"),
        D=trials.given("D", gear.tyre.diameter, "m", gear.tyre.basis, f"{at}.tyre.diameter"),
        g_e=trials.assumed("g_e", data.defaults["box.end_gap"]),
        s=skin,
    )
    inside = w(
        BOX_INSIDE,
        t=track,
        w_t=trials.given("w_t", gear.tyre.section_width, "m", gear.tyre.basis, f"{at}.tyre.section_width"),
        g=trials.assumed("g", data.defaults["tyre.box_gap"]),
        s=skin,
    )
    top = w(BOX_TOP, z_c=deck.underside, s=skin, z_l=deck.low)
    return Box(length, inside, top, w(FLOOR_LOST, l_b=length, w_d=deck.width, b_i=inside))


def _boxed(deck: Deck, box: Box, trials: Trials, data: Reference) -> Way:
    w = Working()
    rise = w(RISE, z_l=deck.low, h_b=sure("h_b", 0.0, "m"), z_d=deck.drawn)
    mass = _box_mass(w, deck, box, trials, data)
    return Way("boxed", WAYS["boxed"], rise, box.lost, sure("V", 0.0, "m3:room"), mass)


def _raised(deck: Deck, box: Box, trials: Trials, data: Reference) -> Way:
    w = Working()
    rise = w(RISE, z_l=deck.low, h_b=box.top, z_d=deck.drawn)
    q = trials.assumed("q", data.defaults["box.raised_areal"])
    second = w(RAISED_MASS, q=q, w_d=deck.width, l_d=deck.length, A_b=box.lost)
    mass = w(BOTH, m_b=_box_mass(w, deck, box, trials, data), m_r=second)
    storage = w(RAISED_STORAGE, h_b=box.top, w_d=deck.width, l_d=deck.length, A_b=box.lost)
    return Way("raised", WAYS["raised"], rise, sure("A", 0.0, "m2"), storage, mass)


def _over(deck: Deck, box: Box, trials: Trials, data: Reference) -> Way:
    w = Working()
    over = w(OVER_DECK, z_c=deck.underside, b_x=deck.depth, t_d=deck.sheet, z_l=deck.low)
    rise = w(RISE, z_l=over, h_b=sure("h_b", 0.0, "m"), z_d=deck.drawn)
    sizes = {"l_d": deck.length, "w_d": deck.width, "w_r": deck.rails}
    storage = w(OVER_STORAGE, z_o=over, z_l=deck.low, l_b=box.length, **sizes)
    mass = w(OVER_MASS, q=trials.assumed("q", data.defaults["box.over_areal"]), **sizes)
    return Way("over", WAYS["over"], rise, sure("A", 0.0, "m2"), storage, mass)


def _box_mass(w: Working, deck: Deck, box: Box, trials: Trials, data: Reference) -> Quantity:
    q = trials.assumed("q", data.defaults["box.areal"])
    return w(BOX_MASS, q=q, A_b=box.lost, l_b=box.length, h_b=box.top, w_d=deck.width, b_i=box.inside)


def _raised_by(model: Model, zone: Zone, trials: Trials) -> Quantity:
    """How far the floor of a zone is raised as drawn: top of the boxes under it, above the main-deck top, m."""
    box = max(model.spec.trailer.wheel_boxes, key=lambda b: b.top.nominal, default=None)
    if box is None or not (is_raised(model) and zone.floor.nominal >= box.top.nominal):
        return sure("t_b", 0.0, "m")
    return trials.given("t_b", box.top, "m", path="trailer.yaml wheel_boxes.top")


def _reported(
    way: Way, deck: Deck, zone: Zone, top: Quantity, drawn: str, raised: Quantity, trials: Trials
) -> Iterator[Reported]:
    w, at = Working(), f"house.yaml zones.{zone.id}"
    floor = w(FINISH, f_z=trials.given("f", zone.floor, "m", path=f"{at}.floor"), t_b=raised)
    ceiling = trials.given("c", zone.ceiling, "m", path=f"{at}.ceiling")
    name, to = f"box.{way.id}", f"{way.title}, as drawn" if way.id == drawn else way.title
    yield report(f"{name}.floor", f"Floor above ground, {to}", w(FLOOR, z_d=deck.drawn, f=floor, r=way.rise), "up")
    headroom = w(HEADROOM, c=ceiling, f=floor, r=way.rise)
    yield report(f"{name}.headroom", f"Headroom under the roof as drawn, {zone.title}, {to}", headroom, "down")
    height = w(HEIGHT, z=top, r=w(RISE_DRAWN, r=way.rise, t_b=raised))
    yield report(f"{name}.height", f"Highest point with the headroom as drawn, {to}", height, "up")
    yield report(f"{name}.floor_lost", f"Floor lost, {to}", way.lost, "up")
    yield report(f"{name}.storage", f"Storage gained, {to}", way.storage, "down")
    yield report(f"{name}.mass", f"Mass added to a plain deck, {to}", way.mass, "up")
