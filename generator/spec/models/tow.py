"""tow.yaml: the tow vehicle, measured loaded and level."""

from pydantic import Field

from generator.spec.measure import Area, Coefficient, Compliance, Length, Mass, Power, Rating, Share, Size
from generator.spec.models.base import BasisWord, Line, Part, Title


class Vehicle(Part):
    """A tow vehicle and its ratings."""

    title: Title = Field(description="Name as printed; no brand needed.")
    basis: BasisWord = Field(description="Where the ratings come from.")
    wheelbase: Size = Field(description="Wheelbase.")
    hitch_behind_rear_axle: Length = Field(description="Ball or king pin behind the rear axle; ahead of it negative.")
    front_axle: Mass = Field(description="Front axle load, driver, fuel and hitch aboard, no trailer.")
    rear_axle: Mass = Field(description="Rear axle load, driver, fuel and hitch aboard, no trailer.")
    people_and_cargo: Mass = Field(description="People and cargo not on those axle loads.")
    gvwr: Rating = Field(description="Rated gross mass.")
    front_gawr: Rating = Field(description="Rated front axle load.")
    rear_gawr: Rating = Field(description="Rated rear axle load.")
    rear_tyres: Rating = Field(description="Rated load of all rear tyres.")
    gcwr: Rating = Field(description="Rated combined mass.")
    tow_rating: Rating = Field(description="Rated trailer mass for this kind of coupling.")
    hitch_rating: Rating = Field(description="Rated vertical load of ball or plate and of what carries it.")
    length: Size | None = Field(
        default=None, description="Length over all: front bumper to rear bumper or shut tailgate."
    )
    bed_rail: Size | None = Field(default=None, description="Top of bed rail from the ground, loaded.")
    ball_height: Size = Field(description="Ball centre (king pin: top of the plate) from the ground, loaded.")
    ball_to_cab: Size | None = Field(default=None, description="Ball centre to the back of the cab.")
    ball_to_bed_end: Size | None = Field(
        default=None, description="Ball centre to the end of the bed or the shut tailgate."
    )
    ball_to_bumper: Size | None = Field(
        default=None, description="Ball behind the vehicle to its rearmost part: bumper, shut tailgate, spare wheel."
    )
    bumper_half_width: Size | None = Field(
        default=None, description="Centre line to the corner of the vehicle's rear end, for a ball behind it."
    )
    bed_half_width: Size | None = Field(default=None, description="Centre line to the outside of the bed rail.")
    cab_height: Size | None = Field(default=None, description="Top of the cab from the ground.")
    compliance: Compliance = Field(description="Ball drops by this much per load added.")
    front_restoration: Share | None = Field(
        default=None, description="Share of the front axle's lost load a weight-distributing hitch gives back."
    )
    tyre_cornering: Coefficient | None = Field(
        default=None, description="Cornering stiffness of its tyres per radian, over the load they carry."
    )
    yaw_index: Coefficient | None = Field(
        default=None, description="Its yaw inertia over its mass times both distances from centre of mass to axle."
    )
    power: Power | None = Field(default=None, description="Rated power of the engine.")
    frontal_area: Area | None = Field(default=None, description="Frontal area of the whole combination, if measured.")
    drag: Coefficient | None = Field(default=None, description="Drag coefficient on that area.")


class Tow(Part):
    """tow.yaml"""

    vehicle: Vehicle = Field(description="The tow vehicle.")
    measured_by: Line = Field(description="Who measured, and when.")
