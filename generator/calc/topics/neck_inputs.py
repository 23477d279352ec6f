"""What goes into the neck window: what is under the neck, what stands on it, and how far each input could move."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.record import Quantity, Working, combine, sure
from generator.calc.topics import neck_window as nw
from generator.calc.topics import rides as rd
from generator.calc.topics.coupled import Raised
from generator.calc.topics.heights import ROOF_HEIGHT, roofed
from generator.calc.topics.limits import height_limit
from generator.calc.topics.optional import towing
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.house import Zone
from generator.spec.models.trailer import Neck


def under(model: Model, part: Raised, trials: Trials, data: Reference) -> nw.Under:
    """What the neck must clear, from the tow vehicle's measurements (m, rad); unknown without them."""
    low, high = rd.coupler_ends(part.coupling, trials)
    x_h, front = part.coupling.station.nominal, part.neck.front.nominal
    cab, end = (towing(model, trials, f, s, "m") for f, s in (("ball_to_cab", "d_f"), ("ball_to_bed_end", "d_a")))
    half = towing(model, trials, "bed_half_width", "w_r", "m")
    return nw.Under(
        rail=towing(model, trials, "bed_rail", "z_b", "m"),
        gap=trials.assumed("gap", data.defaults["neck.rail_gap"]),
        kept=trials.assumed("kept", data.defaults["neck.rail_gap_moving"]),
        ahead=_no_more(cab, x_h - front),
        behind=_no_more(end, -x_h),
        pitch=trials.assumed("phi", data.defaults["neck.pitch_road"]),
        half=_no_more(half, part.neck.width.nominal / 2),
        roll=trials.assumed("rho", data.defaults["neck.roll"]),
        ball=towing(model, trials, "ball_height", "z_ball", "m"),
        shortest=low,
        longest=high,
    )


def _no_more(q: Quantity, most: float) -> Quantity:
    """Only the part of the rail that lies under the neck counts."""
    return Quantity(q.symbol, np.minimum(q.values, most), q.unit, q.basis, q.rests_on, q.origin)


def neck_zones(model: Model) -> tuple[Zone, ...]:
    """Zones that stand, wholly or partly, ahead of the main deck; one whose front nobody knows may."""
    return tuple(z for z in model.spec.house.zones if not z.front.nominal >= 0.0)


def overs(
    model: Model, neck: Neck, rides: Mapping[str, Ride], trials: Trials, data: Reference
) -> Iterator[nw.Over]:
    """What stands on the neck in each of its zones, from the height limit down, m."""
    margin = model.spec.project.margins.height
    limit = height_limit(Working(), model, data)
    for zone in neck_zones(model):
        at = f"house.yaml zones.{zone.id}"
        tops = [
            zone.roof.nominal,
            *(
                p.height.nominal
                for p in model.spec.house.roof_points
                if zone.front.nominal <= p.station.nominal <= zone.rear.nominal
            ),
        ]
        frame_top = neck.underside.nominal + neck.frame_depth.nominal
        yield nw.Over(
            zone.id,
            zone.title,
            limit,
            trials.given("margin", margin, "m", path="project.yaml margins.height"),
            _rise(model, zone, rides, trials),
            sure("roof", max(tops) - zone.ceiling.nominal, "m", origin=zone.roof.origin),
            trials.given("room", zone.headroom, "m", path=f"{at}.headroom"),
            sure("floor", zone.floor.nominal - frame_top, "m", origin=zone.floor.origin),
            trials.given("depth", neck.frame_depth, "m", path="trailer.yaml neck.frame_depth"),
        )


def _rise(model: Model, zone: Zone, rides: Mapping[str, Ride], trials: Trials) -> Quantity:
    """How far the zone rises above its travel height, at worst over roofed towed states and ball errors, m."""
    x_h, nothing = rd.hitch_station(model, trials), sure("zeta", 0.0, "m")
    level, found = rides[rd.DESIGN].deck, []
    for id in roofed(model):
        ride = rides[id]
        for end in (zone.front, zone.rear):
            x = trials.given("x", end, "m")
            for e, theta in zip(ride.errors, ride.pitches, strict=True):
                z = Working()(ROOF_HEIGHT, z_d=ride.deck, e=e, x=x, x_h=x_h, theta=theta, zeta=nothing)
                found.append(combine("rise", z.values - level.values, "m", (z, level)))
    return combine("rise", np.maximum.reduce(np.broadcast_arrays(*[q.values for q in found])), "m", found)


def levers(model: Model, below: nw.Under, above: tuple[nw.Over, ...], data: Reference) -> tuple[nw.Lever, ...]:
    """Every input of the window and how far it can go: who must stand stays standing, gaps and angles stay real."""
    limits = [r.height for r in data.regions.values() if r.height is not None]
    people, rows = model.spec.house.people, data.defaults
    rail, ball, shortest, longest = (
        float(q.values[0]) for q in (below.rail, below.ball, below.shortest, below.longest)
    )
    standing = people.tallest.nominal + rows["headroom.over_stature"].value
    common = (
        nw.Lever(
            "tow.vehicle.bed_rail", "A tow vehicle with lower bed rails", "m", "rail", rows["neck.rail_floor"].value
        ),
        nw.Lever("neck.rail_gap", "Gap asked over the bed rails", "m", "gap", 0.0),
        nw.Lever("neck.rail_gap_moving", "Gap kept when pitched and rolled", "m", "kept", 0.0),
        nw.Lever("neck.pitch_road", "Pitch allowed for", "rad", "pitch", 0.0),
        nw.Lever("neck.roll", "Roll allowed for", "rad", "roll", 0.0),
        nw.Lever("tow.vehicle.ball_to_bed_end", "Rail behind the ball (tailgate down or off)", "m", "behind", 0.0),
        nw.Lever("trailer.neck.front", "Rail ahead of the ball under the neck", "m", "ahead", 0.0),
        nw.Lever("tow.vehicle.ball_height", "A higher ball", "m", "ball", rail),
        nw.Lever("tow.vehicle.ball_height", "A lower ball", "m", "ball", ball + shortest - longest),
        nw.Lever("trailer.coupling.adjust_low", "A coupler that retracts further", "m", "shortest", 0.0),
        nw.Lever("trailer.coupling.adjust_high", "A coupler that extends further", "m", "longest", 2 * longest),
        nw.Lever("project.use.regions", "A route with a higher limit", "m", "limit", max(limits), nw.EVERY),
        nw.Lever("project.margins.height", "Margin under the limit", "m", "margin", 0.0, nw.EVERY),
        nw.Lever(
            "trailer.neck.frame_depth",
            "Depth of the neck frame",
            "m",
            "depth",
            rows["neck.depth_floor"].value,
            nw.EVERY,
        ),
    )
    zones = tuple(
        lever
        for o in above
        for lever in (
            nw.Lever(
                f"house.zones.{o.zone}.headroom",
                f"Headroom, {o.title}",
                "m",
                "room",
                standing if o.zone in people.stands_in else rows["headroom.sitting"].value,
                o.zone,
            ),
            nw.Lever(
                f"house.zones.{o.zone}.roof",
                f"Roof build-up, {o.title}",
                "m",
                "roof",
                rows["neck.roof_floor"].value,
                o.zone,
            ),
            nw.Lever(f"house.zones.{o.zone}.floor", f"Floor build-up, {o.title}", "m", "floor", 0.0, o.zone),
            nw.Lever(
                "trailer.running_gear.suspension.hitch_height_tolerance",
                f"Rise when light and off height, {o.title}",
                "m",
                "rise",
                0.0,
                o.zone,
            ),
        )
    )
    return common + zones if above else tuple(lever for lever in common if not lever.zone)
