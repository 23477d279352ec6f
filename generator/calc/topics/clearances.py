"""Headroom in each zone, and the tyre under its box or deck with the wheel at its stop."""

from collections.abc import Iterator

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Floats,
    Quantity,
    Reported,
    Working,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import rides as rd
from generator.calc.topics import suspension as sus
from generator.calc.topics.leaf import G, Springs
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.solids import around
from generator.model.types import Model, Piece
from generator.reference.types import Reference
from generator.spec.models.trailer import Leaf


@formula("Headroom", "h = ceiling - floor", "m", "geometry of the zone")
def HEADROOM(ceiling: Floats, floor: Floats) -> Floats:
    return ceiling - floor


@formula("Headroom needed", "need = max(wanted, tallest + free)", "m", "who must stand here, with shoes")
def HEADROOM_NEED(wanted: Floats, tallest: Floats, free: Floats) -> Floats:
    return np.maximum(wanted, tallest + free)


@formula(
    "Tyre to what is above it at the stop",
    "gap = z_d + top - skin - (r_t + D/2) - j",
    "m",
    "height chain, the wheel risen by the travel left",
)
def BOX_GAP(z_d: Floats, top: Floats, skin: Floats, r_t: Floats, D: Floats, j: Floats) -> Floats:
    return z_d + top - skin - (r_t + D / 2) - j


@formula("Room to the nearer end of the box", "g = min(x_1 - x_f, x_r - x_n) - D/2", "m", "stations of axles and box")
def END_ROOM(x_1: Floats, x_f: Floats, x_r: Floats, x_n: Floats, D: Floats) -> Floats:
    return np.minimum(x_1 - x_f, x_r - x_n) - D / 2


@formula("Load of one spring, travel load", "S = k_s*y/9.80665", "kg", "spring rate and deflection")
def SPRING_LOAD(k_s: Floats, y: Floats) -> Floats:
    return k_s * y / G


def _headroom(w: Working, model: Model, zone_id: str, trials: Trials) -> Quantity:
    zone = next(z for z in model.spec.house.zones if z.id == zone_id)
    at = f"house.yaml zones.{zone.id}"
    return w(
        HEADROOM,
        ceiling=trials.given("ceiling", zone.ceiling, "m", path=f"{at}.ceiling"),
        floor=trials.given("floor", zone.floor, "m", path=f"{at}.floor"),
    )


def headroom_rows(model: Model, trials: Trials) -> Iterator[Reported]:
    """Headroom of each zone, m."""
    for zone in model.spec.house.zones:
        yield report(
            f"headroom.{zone.id}", f"Headroom, {zone.title}", _headroom(Working(), model, zone.id, trials), "down"
        )


def headroom_checks(model: Model, trials: Trials, data: Reference) -> Iterator[Check]:
    """Headroom of each zone against what is wanted, and the tallest person where everybody must stand (m)."""
    people = model.spec.house.people
    for zone in model.spec.house.zones:
        w = Working()
        got = _headroom(w, model, zone.id, trials)
        need = trials.given("wanted", zone.headroom, "m", path=f"house.yaml zones.{zone.id}.headroom")
        if zone.id in people.stands_in:
            tallest = trials.given("tallest", people.tallest, "m", path="house.yaml people.tallest")
            free = trials.assumed("free", data.defaults["headroom.over_stature"])
            need = w(HEADROOM_NEED, wanted=need, tallest=tallest, free=free)
        about = About(
            title=f"Headroom, {zone.title}",
            topic="heights",
            source="house.yaml: headroom wanted, tallest person",
            concern="Somebody cannot stand where they must.",
            ask="The people who will live here, on a mock-up.",
            defer_to="The building code of the declared path, where one applies.",
            levers=(f"house.zones.{zone.id}.ceiling", f"house.zones.{zone.id}.floor"),
        )
        yield Check(f"headroom.{zone.id}", about, "", compare(got, need, ">=", w))


def box_checks(model: Model, ride: Ride, trials: Trials, data: Reference) -> Iterator[Check]:
    """Tyre against what is above it with the wheel at its stop, m; `ride` is that of the travel state."""
    gear = sus.gear(model, trials, data)
    for n, (top, skin) in enumerate(_covers(model, trials, data), start=1):
        w = Working(list(ride.steps))
        jounce = sus.travel_left(w, gear, ride.give)
        gap = w(BOX_GAP, z_d=ride.deck, top=top, skin=skin, r_t=ride.radius, D=gear.diameter, j=jounce)
        about = About(
            title="Tyre clear of what is above it at the stop",
            topic="heights",
            source="common practice, no source",
            concern="On a bad bump the tyre rubs through box or floor and fails.",
            ask="The axle maker: greatest upward travel of the wheel.",
            defer_to="The axle maker's drawing.",
            levers=("trailer.wheel_boxes.top", "trailer.running_gear.suspension.tube_to_deck",
                    "trailer.running_gear.suspension.hanger"),
        )
        least = trials.assumed("gap_min", data.defaults["tyre.box_gap"])
        yield Check(f"box.{n}.jounce", about, rd.DESIGN, compare(gap, least, ">=", w))


def bump_checks(model: Model, ride: Ride, trials: Trials, data: Reference) -> Iterator[Check]:
    """Leaf springs: travel left to the stop (m) and load of one spring (kg); `ride` is that of the travel state."""
    gear = sus.gear(model, trials, data)
    match model.spec.trailer.running_gear.suspension, gear.springs:
        case Leaf(spring_rating=rating), Springs(rate=rate):
            w, loaded = Working(list(ride.steps)), Working(list(ride.steps))
            least = trials.assumed("j_min", data.defaults["leaf.bump_least"])
            yield Check("spring.bump", BUMP, rd.DESIGN, compare(sus.travel_left(w, gear, ride.give), least, ">=", w))
            limit = trials.given("S_r", rating, "kg", path="trailer.yaml running_gear.suspension.spring_rating")
            load = loaded(SPRING_LOAD, k_s=rate, y=ride.give)
            yield Check("spring.rating", SPRING, rd.DESIGN, compare(load, limit, "<=", loaded))


def _covers(model: Model, trials: Trials, data: Reference) -> Iterator[tuple[Quantity, Quantity]]:
    """Top above the deck and thickness of what is over the tyres: each box, or the deck where tyres run under it."""
    trailer = model.spec.trailer
    steel = _lowest(model)
    for n, box in enumerate(trailer.wheel_boxes, start=1):
        skin = trials.assumed("skin", data.defaults["box.skin"])
        if steel is not None and not steel.z0 >= box.top.nominal - float(skin.values[0]):
            yield sure("top", 0.0, "m"), _down_to(steel)
        else:
            yield trials.given("top", box.top, "m", path=f"trailer.yaml wheel_boxes.{n}.top"), skin
    if not trailer.wheel_boxes and trailer.deck == "over the wheels":
        yield sure("top", 0.0, "m"), _over(model, trials)


def _over(model: Model, trials: Trials) -> Quantity:
    """From the main-deck top down to what hangs lowest over a tyre: decking, steel, or foam and belly sheet (m)."""
    frame, lowest = model.spec.trailer.frame, _lowest(model)
    decking = trials.given("skin", frame.deck_thickness, "m", path="trailer.yaml frame.deck_thickness")
    steel = decking if lowest is None else _down_to(lowest)
    if frame.belly is None:
        return steel
    belly = trials.given("skin", frame.belly, "m", path="trailer.yaml frame.belly")
    return belly if np.isnan(belly.values[0]) or belly.values[0] > steel.values[0] else steel


def _lowest(model: Model) -> Piece | None:
    """The lowest piece of steel over a tyre, in plan within its length and width."""
    gear, over = model.spec.trailer.running_gear, []
    half, width = gear.tyre.diameter.nominal / 2, gear.tyre.section_width.nominal
    for axle, x in zip(gear.axles, model.axle_stations, strict=True):
        y = axle.hub_face.nominal / 2 - gear.wheel.offset.nominal
        over += [p for p in model.pieces
                 if p.x0 < x + half and p.x1 > x - half and around(p)[1][0] < y + width / 2
                 and around(p)[1][1] > y - width / 2]
    return min(over, key=lambda p: p.z0, default=None)


def _down_to(piece: Piece) -> Quantity:
    """From the main-deck top down to the underside of a piece, m; upward negative."""
    gap = [f"unknown:trailer.yaml frame.members.{piece.mark}"] if np.isnan(piece.z0) else []
    return sure("skin", -piece.z0, "m", rests_on=gap, origin=f"underside of {piece.mark}")


def end_checks(model: Model, trials: Trials, data: Reference) -> Iterator[Check]:
    """Room between the tyres and both ends of each wheel box, m."""
    gear = model.spec.trailer.running_gear
    for n, box in enumerate(model.spec.trailer.wheel_boxes, start=1):
        w, at = Working(), f"trailer.yaml wheel_boxes.{n}"
        first, last = (sure(s, x, "m", origin="trailer.yaml running_gear.station")
                       for s, x in (("x_1", min(model.axle_stations)), ("x_n", max(model.axle_stations))))
        room = w(
            END_ROOM, x_1=first, x_n=last,
            x_f=trials.given("x_f", box.front, "m", path=f"{at}.front"),
            x_r=trials.given("x_r", box.rear, "m", path=f"{at}.rear"),
            D=trials.given("D", gear.tyre.diameter, "m", path="trailer.yaml running_gear.tyre.diameter"),
        )
        least = trials.assumed("g_e", data.defaults["box.end_gap"])
        yield Check(f"box.{n}.ends", ENDS, "", compare(room, least, ">=", w))


ENDS = About(
    title="Tyres clear of the ends of their box",
    topic="heights",
    source="common practice, no source",
    concern="The tyre rubs the end of its box whenever the axle moves, and fails.",
    ask="The axle maker: how far the wheel moves fore and aft.",
    levers=("trailer.wheel_boxes.front", "trailer.wheel_boxes.rear", "trailer.running_gear.station"),
)
BUMP = About(
    title="Leaf springs keep travel to their stop",
    topic="heights",
    source="common practice, no source",
    concern="On a bad bump the axle strikes the frame: bent beams, broken spring leaves, cracked welds.",
    ask="The axle and spring maker: deflection at the rated load, and the room the axle needs above it.",
    defer_to="The spring maker's sheet.",
    levers=("trailer.running_gear.suspension.hanger",),
)
SPRING = About(
    title="Leaf springs carry their load",
    topic="ratings",
    source="the spring maker's rating",
    concern="A spring over its rating sags, then breaks, and lets its axle swing.",
    ask="The axle maker: rating of each spring of the set.",
    defer_to="The spring maker's rating.",
    mandatory=True,
    levers=("trailer.running_gear.suspension.spring_rating", "trailer.running_gear.station"),
)
