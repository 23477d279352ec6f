"""tickets/*.yaml: what a scale read, one file for each visit; the name of the file names the ticket."""

from typing import Literal

from pydantic import Field

from generator.records import dataclass
from generator.spec.measure import Mass, Rating
from generator.spec.models.base import Day, Line, Part, Title

Weighed = Literal["one draft", "several readings", "axle by axle"]
TowedState = Literal["bare", "shell", "dry", "travel", "travel_wet"]


class Hitched(Part):
    """One weighing of tow vehicle and trailer together."""

    steer: Rating = Field(description="Steer axle of the tow vehicle.")
    drive: Rating = Field(description="Drive axle of the tow vehicle.")
    trailer: Rating = Field(description="All axles of the trailer.")


class Alone(Part):
    """The weighing of the tow vehicle alone, same fuel and people."""

    steer: Rating = Field(description="Steer axle.")
    drive: Rating = Field(description="Drive axle.")


class Sides(Part):
    """The trailer's wheels weighed side by side."""

    left: Rating = Field(description="All left wheels of the trailer.")
    right: Rating = Field(description="All right wheels of the trailer.")


class Ticket(Part):
    """A scale ticket"""

    title: Title = Field(description="Name as printed.")
    date: Day = Field(description="Day of the weighing.")
    place: Line = Field(description="Which scale, and the number of its ticket.")
    by: Line = Field(description="Who weighed: a role.")
    revision: Line = Field(description="Revision of the design at that time.")
    state: TowedState = Field(description="Load state it was in.")
    weighed: Weighed = Field(description="Whole in one draft, in several readings, or axle by axle and added up.")
    level: Literal["yes", "no"] = Field(description="Scale and approach level, trailer level.")
    same_load: Literal["yes", "no"] = Field(description="Same fuel, people and tank filling in all its weighings.")
    graduation: Mass = Field(description="Step of the scale's reading.")
    hitched: Hitched = Field(description="Hitched; weight-distributing bars, if there are any, set as for the road.")
    slack: Hitched | None = Field(default=None, description="Hitched, bars slack; left out without such bars.")
    alone: Alone | None = Field(default=None, description="Tow vehicle alone; without it only the axles are known.")
    axles: tuple[Rating, ...] = Field(
        default=(), description="Each trailer axle by itself, front to rear, as for the road."
    )
    sides: Sides | None = Field(default=None, description="Left and right wheels, if weighed.")


@dataclass(frozen=True, slots=True)
class Weighing:
    """A ticket under the name of its file."""

    id: str
    ticket: Ticket
