"""asbuilt/*.yaml: what was measured on the trailer, one file for each visit; the name of the file names the visit."""

from typing import Literal

from pydantic import Field

from generator.records import dataclass
from generator.spec.measure import Length
from generator.spec.models.base import Day, Id, Line, Part, Title

Place = Literal[
    "deck width",
    "neck deck width",
    "diagonals",
    "flatness",
    "coupler off centre",
    "deck height, bare",
    "neck underside",
    "ball station",
    "bracket station",
    "spindle station",
    "axle square",
    "axle parallel",
    "axle off centre",
    "seats",
    "track",
    "jack station",
    "tyre diameter",
]


class Measurement(Part):
    """One dimension of the acceptance sheet as measured."""

    what: Place = Field(description="Dimension of the acceptance sheet; stations, heights and signs as in the spec.")
    which: Id | None = Field(default=None, description="Which axle (`axle-1`) or jack (its name), where several.")
    measured: Length = Field(description="What was read; `+/-` is what the instrument cannot tell.")
    instrument: Line = Field(description="Tape, level, string ...")


class AsBuilt(Part):
    """A visit with tape and level"""

    title: Title = Field(description="Name as printed.")
    date: Day = Field(description="Day of the visit.")
    by: Line = Field(description="Who measured: a role.")
    measurements: tuple[Measurement, ...] = Field(min_length=1, description="What was measured.")


@dataclass(frozen=True, slots=True)
class Visit:
    """A sheet of measurements under the name of its file."""

    id: str
    sheet: AsBuilt
