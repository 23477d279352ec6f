"""house.yaml: envelope, build-ups, openings and who must stand where. Heights are above the main-deck top."""

from typing import Literal

from pydantic import Field

from generator.spec.measure import Angle, ArealMass, Count, Length, Mass, Ratio, Share, Size
from generator.spec.models.base import BasisWord, Id, Line, Part, Title


class Zone(Part):
    """A part of the floor plan with one floor level."""

    id: Id = Field(description="Name (also in `headroom.<zone>`).")
    title: Title = Field(description="Name as printed.")
    front: Length = Field(description="Front end, station.")
    rear: Length = Field(description="Rear end, station.")
    floor: Length = Field(description="Finished floor.")
    ceiling: Length = Field(description="Lowest ceiling where somebody must stand.")
    roof: Length = Field(description="Highest roof surface over the zone.")
    headroom: Size = Field(description="Headroom wanted.")
    use: Literal["living", "sleeping", "kitchen", "bath", "hall"] | None = Field(
        default=None, description="What it is used for; the rules for ceilings and escape go by it."
    )


class Loft(Part):
    """A raised floor under a low ceiling, open to the room below."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    front: Length = Field(description="Front end, station.")
    rear: Length = Field(description="Rear end, station.")
    left: Length = Field(description="Left edge, y.")
    right: Length = Field(description="Right edge, y.")
    floor: Length = Field(description="Finished loft floor.")
    low: Length = Field(description="Ceiling where it is lowest.")
    high: Length = Field(description="Ceiling where it is highest; it falls evenly to the lowest.")
    sleeps: Count = Field(description="How many sleep there.")


class Climb(Part):
    """The way up to a loft or a raised zone."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    to: Id = Field(description="Loft or zone it leads to.")
    kind: Literal["stair", "ladder"] = Field(description="Stair with treads, or ladder with rungs.")
    width: Size = Field(description="Clear width.")
    rise: Size = Field(description="Rise of one step, or rung to rung.")
    tread: Size | None = Field(default=None, description="Depth of one tread (stair).")
    angle: Angle | None = Field(default=None, description="Angle to the floor (ladder).")
    headroom: Size | None = Field(default=None, description="Least headroom above the steps (stair).")


class Alarm(Part):
    """An alarm and where it hangs."""

    kind: Literal["smoke", "carbon monoxide", "gas"] = Field(description="What it warns of.")
    place: Id = Field(description="Zone or loft.")


class RoofPoint(Part):
    """A point that may be the highest on the road: ridge ends, vents, flues, panels."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    station: Length = Field(description="Station.")
    height: Length = Field(description="Height.")


class Layer(Part):
    """One layer of a build-up: a sheet, framing, or a stated mass per area."""

    material: Id = Field(description="Material, an id of the reference table.")
    thickness: Size | None = Field(default=None, description="Thickness of a sheet, or depth of framing.")
    breadth: Size | None = Field(default=None, description="Breadth of one framing member.")
    spacing: Size | None = Field(default=None, description="Framing, centre to centre.")
    extra: Share | None = Field(default=None, description="Plates, headers, waste left in: added share.")
    mass: ArealMass | None = Field(default=None, description="Mass per area, if stated instead.")
    group: Literal["shell", "interior"] = Field(default="shell", description="When it is built in.")


class Buildup(Part):
    """A wall, floor or roof as layers, outside to inside."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    spread: Share = Field(description="P5 to P95, either way.")
    basis: BasisWord = Field(description="Where its masses come from.")
    layers: tuple[Layer, ...] = Field(min_length=1, description="Layers, outside to inside.")


class Surface(Part):
    """A flat piece of the envelope. `side` runs fore and aft, `cross` athwart, `flat` lies level or sloped."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    buildup: Id = Field(description="Its build-up.")
    plane: Literal["side", "cross", "flat"] = Field(description="How it stands.")
    front: Length = Field(description="Front end, station (cross: its station).")
    rear: Length | None = Field(default=None, description="Rear end, station (not for cross).")
    left: Length = Field(description="Left edge, y (side: its y).")
    right: Length | None = Field(default=None, description="Right edge, y (not for side).")
    bottom: Length = Field(description="Lower edge, or the level of a flat surface at its left or front edge.")
    top: Length | None = Field(default=None, description="Upper edge; of a flat surface its other edge's level.")
    top_end: Length | None = Field(
        default=None, description="Upper edge at the rear (side) or right end (cross), where the top edge slopes."
    )
    slopes: Literal["across", "along", "level"] = Field(default="level", description="Which way a flat surface slopes.")


class Opening(Part):
    """A window, door or hatch: its hole is deducted, its own mass added."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    surface: Id = Field(description="Surface it is in.")
    width: Size = Field(description="Width of the hole.")
    height: Size = Field(description="Height of the hole (flat surface: its other side).")
    centre: Length = Field(description="Station of its middle (cross: its y).")
    sill: Length = Field(description="Lower edge (flat surface: y of its middle).")
    mass: Mass = Field(description="Mass of the unit.")
    basis: BasisWord = Field(description="Where the mass comes from.")
    escape_from: Id | None = Field(default=None, description="Zone or loft from which it is the way to escape.")
    clear_width: Size | None = Field(default=None, description="Width that is clear when it stands open.")
    clear_height: Size | None = Field(default=None, description="Height that is clear when it stands open.")
    clear_sill: Length | None = Field(
        default=None, description="Lower edge of the clear opening; without it the sill of the hole."
    )
    way_out: Literal["yes", "no"] = Field(default="no", description="An outer door.")


class Drain(Part):
    """A drain pipe from its upper end to its outlet."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    start: Length = Field(description="Upper end, station.")
    start_y: Length = Field(description="Upper end, offset from the centre line.")
    end: Length = Field(description="Outlet, station.")
    end_y: Length = Field(description="Outlet, offset from the centre line.")
    height: Length = Field(description="Underside of the bore at the upper end.")
    fall: Ratio = Field(description="Fall along the pipe, trailer level.")
    bore: Size = Field(description="Nominal bore.")


class People(Part):
    """Who uses the house."""

    count: Count = Field(description="How many sleep aboard.")
    tallest: Size = Field(description="Height of the tallest.")
    stands_in: tuple[Id, ...] = Field(min_length=1, description="Zones in which everybody must stand upright.")


class House(Part):
    """house.yaml"""

    width: Size = Field(description="Greatest width of the house, trim included.")
    front: Length = Field(description="Foremost point of the house.")
    rear: Length = Field(description="Rearmost point of the house.")
    zones: tuple[Zone, ...] = Field(min_length=1, description="Floor zones.")
    roof_points: tuple[RoofPoint, ...] = Field(min_length=1, description="Points that may be the highest.")
    buildups: tuple[Buildup, ...] = Field(min_length=1, description="Layered build-ups.")
    surfaces: tuple[Surface, ...] = Field(min_length=1, description="The envelope and inner walls.")
    openings: tuple[Opening, ...] = Field(default=(), description="Windows, doors, hatches.")
    drains: tuple[Drain, ...] = Field(default=(), description="Drain pipes, each run of one fall.")
    people: People = Field(description="Who uses it.")
    lofts: tuple[Loft, ...] = Field(default=(), description="Lofts.")
    climbs: tuple[Climb, ...] = Field(default=(), description="Stairs and ladders inside.")
    alarms: tuple[Alarm, ...] | None = Field(
        default=None, description="Alarms; without the list nothing is said of them, an empty one says there are none."
    )
    notes: tuple[Line, ...] = Field(default=(), description="What else the shop or an official must know.")
