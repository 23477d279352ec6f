"""weights.yaml: everything else that weighs something. Heights are above the main-deck top."""

from typing import Literal

from pydantic import Field

from generator.spec.measure import Length, Mass, Number, Share, Volume
from generator.spec.models.base import BasisWord, Id, Part, Title

Group = Literal["frame", "running gear", "shell", "interior", "systems", "furniture", "contents", "parked"]
Stage = Literal["bare", "shell", "dry", "travel", "parked"]


class WeightItem(Part):
    """Something that weighs; `mass` is for one, `quantity` says how many."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    group: Group = Field(description="Where it belongs; things of a group err together.")
    stage: Stage = Field(description="First load state in which it is aboard.")
    mass: Mass = Field(description="Mass of one, with its spread if known.")
    quantity: Number = Field(description="How many.")
    basis: BasisWord = Field(description="Where the mass comes from.")
    front: Length = Field(description="Front end, station.")
    rear: Length = Field(description="Rear end, station.")
    y: Length = Field(description="Offset of its middle from the centre line, right positive.")
    height: Length = Field(description="Height of its middle.")


class Tank(Part):
    """A tank or bottle; its filling is an item of its own."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    holds: Literal["fresh water", "grey water", "black water", "propane", "diesel"] = Field(
        description="What it holds."
    )
    capacity: Volume = Field(description="Usable capacity.")
    front: Length = Field(description="Front end, station.")
    rear: Length = Field(description="Rear end, station.")
    y: Length = Field(description="Offset of its middle from the centre line, right positive.")
    height: Length = Field(description="Height of its middle.")
    travel: Share = Field(description="Fill in the travel state.")
    wet: Share = Field(description="Fill in the wet travel state.")


class Weights(Part):
    """weights.yaml"""

    items: tuple[WeightItem, ...] = Field(min_length=1, description="Things that weigh something.")
    tanks: tuple[Tank, ...] = Field(default=(), description="Tanks and bottles.")
    stated_total: Mass | None = Field(default=None, description="Total somebody stated, compared with the list.")
