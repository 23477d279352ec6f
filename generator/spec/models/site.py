"""site.yaml: where it stands."""

from typing import Literal

from pydantic import Field

from generator.spec.measure import AreaLoad, Gap, Length, Ratio, Share, Size, Speed
from generator.spec.models.base import Line, Part, Title


class Site(Part):
    """site.yaml"""

    title: Title = Field(description="Name as printed.")
    slope_along: Ratio = Field(description="Slope along the trailer, up toward the rear positive.")
    slope_across: Ratio = Field(description="Slope across the trailer, up to the right positive.")
    ground_fall_at_jack: Length = Field(description="Ground under the jack's foot below the ground under the wheels.")
    soil: Literal["rock", "gravel", "sand", "clay", "fill", "organic", "unknown"] = Field(
        description="Soil under the stands."
    )
    bearing: AreaLoad = Field(description="Bearing pressure allowed on the soil.")
    wind: Speed = Field(description="Design wind, 3-second gust.")
    snow: AreaLoad = Field(description="Ground snow load.")
    gate_width: Size = Field(description="Narrowest gate on the way in.")
    gate_passed: Literal["straight", "turning"] | None = Field(
        default=None, description="Whether the house goes straight through that gate; taken as turning if not said."
    )
    exposure: Literal["B", "C", "D"] | None = Field(
        default=None, description="Ground upwind: B houses or wood, C open country, D open water or shore."
    )
    frost: Gap | None = Field(default=None, description="Depth to which the ground freezes.")
    flood: Length | None = Field(default=None, description="Water of the design flood above the ground at the stand.")
    seismic: Share | None = Field(default=None, description="Sideways seismic load as a share of the weight.")
    sewer_inlet: Length | None = Field(default=None, description="Sewer inlet above the ground under the wheels.")
    services: tuple[Line, ...] = Field(default=(), description="Water, drain and power at the stand.")
