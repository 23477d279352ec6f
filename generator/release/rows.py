"""Rows of the slices that tell of the trailer: stands, points, boxes, axles, marks, ways. `slices` hands them on."""

import math
from dataclasses import dataclass

from generator.calc.record import Change, Reported


@dataclass(frozen=True, slots=True)
class WayRow:
    """One way over the wheels: whether it is the one drawn, and what it brings (m, m2, m3, kg)."""

    title: str
    is_drawn: bool
    floor: Reported
    headroom: Reported
    height: Reported
    floor_lost: Reported
    storage: Reported
    mass: Reported


@dataclass(frozen=True, slots=True)
class StandPair:
    """A pair of stands: station, offset, rating of one (m, kg)."""

    id: str
    station: float
    y: float
    rating: float
    pad: float = math.nan
    """Side of the square pad under one stand."""


@dataclass(frozen=True, slots=True)
class SteelPoint:
    """Lift, tie or anchor points, both sides (m, kg)."""

    id: str
    kind: str
    station: float
    y: float
    rating: float


@dataclass(frozen=True, slots=True)
class Box:
    """A wheel box of one side, mirrored (m, height above deck)."""

    front: float
    rear: float
    inside: float
    top: float


@dataclass(frozen=True, slots=True)
class AxlePlace:
    """One axle: station of spindles and of bracket, rating and brake in words (m, kg)."""

    number: int
    station: float
    bracket_station: float
    rating: float
    hub_face: float
    brake: str


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """Where a mark goes, as text: stations, off the centre line, top from the main-deck top, ends and toes."""

    mark: str
    where: str
    across: str
    top: str
    ends: str


@dataclass(frozen=True, slots=True)
class Hitched:
    """What couples the trailer: gooseneck, king pin or ball; length of the pin; the tongue's underside, angle and ball.

    m, above the main-deck top; rad between a leg and the centre line. NaN for what the trailer has not.
    """

    coupling: str = "gooseneck"
    pin_length: float = math.nan
    tongue_underside: float = math.nan
    tongue_angle: float = 0.0
    ball_above_deck: float = math.nan


@dataclass(frozen=True, slots=True)
class Sprung:
    """What lies between the wheels under the travel load, heights above ground, and the room over the tyres (m).

    A beam axle's tube with the pack of leaves on its seat, NaN for torsion axles; the wheel's travel left to its stop;
    what is then left between tyre and whatever is above it, NaN where nothing is.
    """

    beam: float = math.nan
    beam_height: float = math.nan
    pack_low: float = math.nan
    pack_high: float = math.nan
    travel_left: float = math.nan
    over_tyre: float = math.nan
    is_over_wheels: bool = False


@dataclass(frozen=True, slots=True)
class MendRow:
    """A step of a way out: for which check, the changes, titles of what they clear and break, how many are left."""

    aim: str
    changes: tuple[Change, ...]
    clears: tuple[str, ...]
    breaks: tuple[str, ...]
    left: int


@dataclass(frozen=True, slots=True)
class LeftRow:
    """What a way out leaves broken, and whom to ask."""

    what: str
    ask: str


@dataclass(frozen=True, slots=True)
class WallLine:
    """An outer side wall: from, to, middle line off the centre line (right is positive), breadth of its framing (m)."""

    front: float
    rear: float
    y: float
    framing: float


@dataclass(frozen=True, slots=True)
class LampRow:
    """A kind of lamp or reflector and where it is drawn (m): right one of a pair, height above the main-deck top.

    `low`, `high`: limits above ground, `edge`: most off the outer edge; NaN where there is none, or none is known.
    """

    title: str
    count: int
    colour: str
    face: str
    place: str
    level: str
    station: float
    y: float
    zeta: float
    low: float
    high: float
    edge: float
    source: str
    is_memory: bool

    @property
    def is_reflector(self) -> bool:
        """Whether it only reflects."""
        return "reflector" in self.title.lower()


@dataclass(frozen=True, slots=True)
class CircuitRow:
    """One contact of the connector: number, circuit, colour of the wire."""

    contact: str
    circuit: str
    colour: str
    is_memory: bool
