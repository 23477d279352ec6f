"""Slices of the shape: the steel, the outlines around it, the windows of neck and axles, loads on the frame."""

import math
from dataclasses import dataclass

from generator.calc.findings import Beam, Chain, JackRecord, NeckRecord, RoofRow, Sweep
from generator.calc.record import Window
from generator.model.types import Piece
from generator.release.base import Slice
from generator.release.gear import UNKNOWN, Running, Shape
from generator.release.rows import (
    AxlePlace,
    Box,
    CircuitRow,
    Hitched,
    LampRow,
    PlaceRow,
    Sprung,
    StandPair,
    SteelPoint,
    WallLine,
)


@dataclass(frozen=True, slots=True)
class Steel(Slice):
    """What is welded: geometry of the trailer. m, kg; heights above the main-deck top unless said otherwise."""

    pieces: tuple[Piece, ...]
    deck_length: float
    deck_width: float
    rails_outside: float
    deck_thickness: float
    rail_underside: float
    neck_front: float
    neck_width: float
    neck_rails_outside: float
    neck_underside: float
    neck_frame_depth: float
    pin_station: float
    coupler_low: float
    coupler_high: float
    coupler_set: float
    ball_height: float
    ball_diameter: float
    coupler_rating: float
    deck_height_laden: float
    deck_height_bare: float
    boxes: tuple[Box, ...]
    axles: tuple[AxlePlace, ...]
    spacing: float
    tyre_diameter: float
    tyre_width: float
    tyre_radius_laden: float
    track: float
    tube_to_deck: float
    arm: float
    arm_angle_laden: float
    bracket_spacing: float
    jacks: tuple[JackRecord, ...]
    jack_mount: tuple[float, ...]
    stands: tuple[StandPair, ...]
    points: tuple[SteelPoint, ...]
    chain_anchor: float
    steel_mass: float
    travel_mass: float
    bare_mass: float
    lateral: Chain
    tolerance_class: str
    hitched: Hitched
    sprung: Sprung
    frame_mass: float = math.nan
    """Members (`steel_mass`) with plates, gussets, weld metal and zinc allowed for."""
    places: tuple[PlaceRow, ...] = ()
    shapes: tuple[Shape, ...] = ()
    running: Running = UNKNOWN
    jack_pads: tuple[float, ...] = ()
    """Side of the square pad under one foot of each jack; NaN where none is stated."""
    has_neck: bool = True
    """False for a trailer on a tongue: the sizes of neck and coupler travel are NaN."""
    has_arms: bool = True
    """False for beam axles on leaf springs: the sizes of the torsion arm are NaN."""


@dataclass(frozen=True, slots=True)
class HouseZone:
    """A zone: front, rear, finished floor, ceiling, roof (m, heights above deck)."""

    id: str
    title: str
    front: float
    rear: float
    floor: float
    ceiling: float
    roof: float


@dataclass(frozen=True, slots=True)
class Envelope(Slice):
    """Outer sizes, house and tow vehicle as outlines, roof points. m."""

    front: float
    rear: float
    width: float
    length: float
    zones: tuple[HouseZone, ...]
    roof: tuple[RoofRow, ...]
    chains: tuple[Chain, ...]
    height_limit: float
    vehicle_bed_rail: float | None
    vehicle_ball: float | None
    vehicle_ball_to_cab: float | None
    vehicle_ball_to_bed_end: float | None
    vehicle_cab_height: float | None
    vehicle_wheelbase: float | None
    vehicle_ball_behind_axle: float | None
    walls: tuple[WallLine, ...] = ()
    """Outer side walls that stand on the main deck."""


@dataclass(frozen=True, slots=True)
class Neck(Slice):
    """The neck window and its numbers."""

    record: NeckRecord
    window: Window


@dataclass(frozen=True, slots=True)
class Placement(Slice):
    """The window of axle stations and what stands behind it."""

    sweep: Sweep
    window: Window


@dataclass(frozen=True, slots=True)
class SteelLoads(Slice):
    """Loads on the steel per zone, no names of items: as towed, and carried in the other ways it has."""

    beam: Beam
    cases: tuple[Beam, ...] = ()
    """The other ways the frame is carried: braking, on its jacks, parked; of those that could be solved."""


@dataclass(frozen=True, slots=True)
class Lamps(Slice):
    """Lamps as the rules held for the route place them, and the wiring in the spec's own words.

    `law`: whose rules they are, in words; empty if none is held.
    """

    rows: tuple[LampRow, ...]
    law: str
    asked: tuple[str, ...]
    connector: str
    harness: str
    bonding: str
    breakaway: str
    circuits: tuple[CircuitRow, ...]
    motors: tuple[str, ...] = ()
    """Powered jacks: current, fuse and cable, in words."""


@dataclass(frozen=True, slots=True)
class Swing:
    """Turning about the ball, as calculated. m, rad; NaN for what is not known or does not apply.

    `ahead`, `half`: foremost point of neck and house from the ball, half their width; `rooms`: yaw in degrees with the
    least room up to it; `rear`, `rear_half`: rear end of a vehicle that tows by a tongue.
    """

    ahead: float
    half: float
    cab: float
    bed_end: float
    bed_half: float
    rear: float
    rear_half: float
    free: float
    wanted: float
    rooms: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class Slope:
    """An angle under the trailer: what sets it, its station and height in the worst state. m, rad."""

    angle: float
    wanted: float
    what: str
    station: float
    height: float


@dataclass(frozen=True, slots=True)
class Turn:
    """The tightest turn on the way in steady state, and the gate. m, rad."""

    radius: float
    reach: float
    yaw: float
    path: float
    cut_in: float
    swept: float
    tail_swing: float
    gate_needed: float
    gate: float
    is_straight: bool


@dataclass(frozen=True, slots=True)
class Paths(Slice):
    """Where the trailer swings and grounds; for the owner also the turn and the gate on the way."""

    swing: Swing
    departure: Slope
    breakover: Slope
    clearance: float
    clearance_at: str
    turn: Turn | None
