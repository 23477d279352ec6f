"""The slices that are drawn: the trailer's steel, and the outlines of house and tow vehicle. m, kg."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.calc.findings import Chain, Results
from generator.calc.record import Compared
from generator.model.aboard import below_deck
from generator.model.types import Model
from generator.release.slices import (
    AxlePlace,
    Box,
    Envelope,
    Hitched,
    HouseZone,
    Sprung,
    StandPair,
    Steel,
    SteelPoint,
    WallLine,
)
from generator.spec.measure import Measure
from generator.spec.models.tow import Vehicle
from generator.spec.models.trailer import Ball, Gooseneck, KingPin, Leaf, RunningGear, Torsion, Trailer

NAN = math.nan
OUTER, ON_DECK = 0.8, 0.1
"""A side wall further out than this share of half the house is an outer one; its foot this near the deck top stands on
it, m."""
NO_CHAIN = Chain("lateral", "Lateral chain", "", (), NAN, None)


def quantity(results: Results, id: str) -> float:
    """Nominal value of a reported quantity, SI; NaN if nothing of that id was found."""
    return next((q.nominal for q in results.quantities if q.id == id), NAN)


def state_mass(results: Results, id: str) -> float:
    """Mass of a load state, kg."""
    return next((s.mass for s in results.states if s.id == id), NAN)


def state_deck(results: Results, id: str) -> float:
    """Main-deck top above ground in a load state, at the axle group, m."""
    deck = next((s.deck for s in results.states if s.id == id), None)
    return NAN if deck is None else deck


def steel(model: Model, results: Results) -> Steel:
    """What is welded, with the heights at which it will stand."""
    trailer = model.spec.trailer
    coupling, frame, gear = trailer.coupling, trailer.frame, trailer.running_gear
    first, angle = gear.axles[0], quantity(results, "ride.arm_angle")
    neck, reach, arm = _neck(trailer), _reach(trailer), _arm(gear)
    lateral = next((c for c in results.chains if c.id == "lateral"), NO_CHAIN)
    return Steel(
        pieces=model.pieces,
        deck_length=frame.length.nominal, deck_width=frame.width.nominal, rails_outside=frame.rails_outside.nominal,
        deck_thickness=frame.deck_thickness.nominal, rail_underside=frame.rail_underside.nominal,
        neck_front=neck.front, neck_width=neck.width, neck_rails_outside=neck.rails_outside,
        neck_underside=neck.underside, neck_frame_depth=neck.frame_depth,
        pin_station=coupling.station.nominal, coupler_low=reach.low, coupler_high=reach.high,
        coupler_set=coupler_set(model, results),
        ball_height=ball_height(model, results), ball_diameter=reach.diameter,
        coupler_rating=coupling.rating.nominal,
        deck_height_laden=state_deck(results, "travel"), deck_height_bare=state_deck(results, "bare"),
        boxes=tuple(Box(b.front.nominal, b.rear.nominal, b.inside.nominal, b.top.nominal) for b in trailer.wheel_boxes),
        axles=_axles(model, 0.0 if math.isnan(arm) else arm * math.cos(angle)),
        spacing=gear.spacing.nominal, tyre_diameter=gear.tyre.diameter.nominal,
        tyre_width=gear.tyre.section_width.nominal, tyre_radius_laden=quantity(results, "ride.tyre_radius"),
        track=first.hub_face.nominal - 2.0 * gear.wheel.offset.nominal,
        tube_to_deck=below_deck(trailer), arm=arm, arm_angle_laden=angle,
        bracket_spacing=gear.suspension.bracket_spacing.nominal,
        jacks=results.jacks, jack_pads=tuple(_size(jack.pad) for jack in trailer.jacks),
        jack_mount=tuple(jack.foot_clearance.nominal for jack in trailer.jacks),
        stands=tuple(StandPair(s.id, s.station.nominal, s.y.nominal, s.rating.nominal, _size(s.pad))
                     for s in trailer.stands),
        points=tuple(SteelPoint(p.id, p.kind, p.station.nominal, p.y.nominal, p.rating.nominal)
                     for p in trailer.points),
        chain_anchor=trailer.chains.anchor_station.nominal,
        steel_mass=sum(p.mass for p in model.pieces), travel_mass=state_mass(results, "travel"),
        bare_mass=state_mass(results, "bare"), lateral=lateral, tolerance_class=frame.general_tolerance,
        frame_mass=sum(i.mass for i in model.items if i.group == "frame" and i.id.startswith("frame.")),
        has_neck=trailer.neck is not None, has_arms=isinstance(gear.suspension, Torsion), hitched=_hitched(trailer),
        sprung=_sprung(trailer, results),
    )


def _hitched(trailer: Trailer) -> Hitched:
    coupling, tongue = trailer.coupling, trailer.tongue
    length = coupling.pin_length.nominal if isinstance(coupling, KingPin) else NAN
    if tongue is None:
        return Hitched(coupling.type, length)
    ball = coupling.height.nominal if isinstance(coupling, Ball) else NAN
    return Hitched(coupling.type, length, tongue.underside.nominal, tongue.angle.nominal, ball)


def _sprung(trailer: Trailer, results: Results) -> Sprung:
    over = min((_left(results, f"box.{n}.jounce") for n in range(1, 1 + max(1, len(trailer.wheel_boxes)))), default=NAN)
    travel, is_over = quantity(results, "height.jounce"), trailer.deck == "over the wheels"
    match trailer.running_gear.suspension:
        case Torsion():
            return Sprung(travel_left=travel, over_tyre=over, is_over_wheels=is_over)
        case Leaf(tube=tube, seat=seat, pack=pack) as leaf:
            beam = quantity(results, "ride.tyre_radius") - leaf.drop.nominal
            if leaf.mounting == "over the axle":
                low = beam + tube.nominal / 2.0 + seat.nominal
            else:
                low = beam - tube.nominal / 2.0 - seat.nominal - pack.nominal
            return Sprung(tube.nominal, beam, low, low + pack.nominal, travel, over, is_over)


def _size(measure: Measure | None) -> float:
    """A size, m; NaN if it is not stated."""
    return NAN if measure is None else measure.nominal


def _left(results: Results, id: str) -> float:
    """What a check finds to be there, m; NaN if it could not be made."""
    outcome = next((c.outcome for c in results.checks if c.id == id), None)
    return outcome.demand.value if isinstance(outcome, Compared) else NAN


@dataclass(frozen=True, slots=True)
class _NeckSizes:
    front: float = NAN
    width: float = NAN
    rails_outside: float = NAN
    underside: float = NAN
    frame_depth: float = NAN


@dataclass(frozen=True, slots=True)
class _Reach:
    """Size of ball or pin, and neck underside above ball or plate at both ends of the adjustment, m."""

    diameter: float
    low: float = NAN
    high: float = NAN


def _neck(trailer: Trailer) -> _NeckSizes:
    neck = trailer.neck
    return _NeckSizes() if neck is None else _NeckSizes(
        neck.front.nominal, neck.width.nominal, neck.rails_outside.nominal, neck.underside.nominal,
        neck.frame_depth.nominal)


def _reach(trailer: Trailer) -> _Reach:
    match trailer.coupling:
        case Ball(ball_diameter=diameter):
            return _Reach(diameter.nominal)
        case Gooseneck(ball_diameter=diameter, adjust_low=low, adjust_high=high):
            return _Reach(diameter.nominal, low.nominal, high.nominal)
        case KingPin(pin_diameter=diameter, adjust_low=low, adjust_high=high):
            return _Reach(diameter.nominal, low.nominal, high.nominal)


def _arm(gear: RunningGear) -> float:
    match gear.suspension:
        case Torsion(arm=arm):
            return arm.nominal
        case Leaf():
            return NAN


def coupler_set(model: Model, results: Results) -> float:
    """Neck underside above the ball: the nearest hole to level, or mid travel while no tow vehicle is known, m."""
    reach, hole = _reach(model.spec.trailer), quantity(results, "neck.coupler_set")
    return hole if math.isfinite(hole) else (reach.low + reach.high) / 2.0


def ball_height(model: Model, results: Results) -> float:
    """Ball centre above ground, m: where a fixed coupler stands with the trailer level, whatever ball is set for it;
    under a neck the tow vehicle's, to which the coupler is set, or where the coupler as set would have it.
    """
    tow, deck, trailer = model.spec.tow, state_deck(results, "travel"), model.spec.trailer
    match trailer.coupling:
        case Ball(height=height):
            return deck + height.nominal
        case Gooseneck() | KingPin():
            if tow is not None and tow.vehicle.ball_height.known:
                return tow.vehicle.ball_height.nominal
            return deck + _neck(trailer).underside - coupler_set(model, results)


def _axles(model: Model, ahead: float) -> tuple[AxlePlace, ...]:
    gear = model.spec.trailer.running_gear
    return tuple(
        AxlePlace(n, x, x - ahead, axle.rating.nominal, axle.hub_face.nominal, f"{axle.brake.type} {axle.brake.size}")
        for n, (x, axle) in enumerate(zip(model.axle_stations, gear.axles, strict=True), 1)
    )


def envelope(model: Model, results: Results) -> Envelope:
    """Outer sizes of the house, its roof points, and the tow vehicle as far as it is known."""
    house, trailer = model.spec.house, model.spec.trailer
    fronts = [house.front.nominal, trailer.coupling.station.nominal]
    foremost = min([*fronts, trailer.neck.front.nominal] if trailer.neck is not None else fronts)
    rearmost = max(house.rear.nominal, trailer.frame.length.nominal)
    vehicle = None if model.spec.tow is None else model.spec.tow.vehicle
    limit, titles = quantity(results, "height.limit"), {s.id: s.title for s in model.states}
    return Envelope(
        front=house.front.nominal, rear=house.rear.nominal, width=house.width.nominal, length=rearmost - foremost,
        zones=tuple(HouseZone(z.id, z.title, z.front.nominal, z.rear.nominal, z.floor.nominal, z.ceiling.nominal,
                              z.roof.nominal) for z in house.zones),
        roof=tuple(replace(r, highest_state=titles.get(r.highest_state, r.highest_state)) for r in results.roof),
        chains=tuple(replace(c, state=titles.get(c.state, c.state)) for c in results.chains),
        height_limit=limit,
        vehicle_bed_rail=_of(vehicle, "bed_rail"), vehicle_ball=_of(vehicle, "ball_height"),
        vehicle_ball_to_cab=_of(vehicle, "ball_to_cab"), vehicle_ball_to_bed_end=_of(vehicle, "ball_to_bed_end"),
        vehicle_cab_height=_of(vehicle, "cab_height"), vehicle_wheelbase=_of(vehicle, "wheelbase"),
        vehicle_ball_behind_axle=_of(vehicle, "hitch_behind_rear_axle"), walls=tuple(_walls(model)),
    )


def _walls(model: Model) -> Iterator[WallLine]:
    """Outer side walls whose foot stands on the main deck, with the depth of their framing."""
    house = model.spec.house
    depth = {b.id: next((_size(y.thickness) for y in b.layers if y.breadth is not None), NAN) for b in house.buildups}
    for s in house.surfaces:
        outer = abs(s.left.nominal) > OUTER * house.width.nominal / 2.0
        if s.plane == "side" and outer and s.rear is not None and abs(s.bottom.nominal) < ON_DECK:
            yield WallLine(s.front.nominal, s.rear.nominal, s.left.nominal, depth.get(s.buildup, NAN))


def _of(vehicle: Vehicle | None, field: str) -> float | None:
    """A size of the tow vehicle, m; None where it is not known."""
    if vehicle is None:
        return None
    value: Measure | None = getattr(vehicle, field)
    return value.nominal if value is not None and value.known else None
