"""project.yaml: who, what for, and the terms on which the numbers are read."""

from typing import Literal

from pydantic import Field

from generator.spec.measure import Angle, Count, Distance, Gap, Money, Number, Share, Size, Speed
from generator.spec.models.base import Day, Id, Line, Part, Prose, Title


class Use(Part):
    """How the house will be moved; sets the use class and with it the reserves."""

    moves_a_year: Count | None = Field(
        default=None, description="Moves in an ordinary year; 0: it is never moved. Left out with `moves: once`."
    )
    moves: Literal["once"] | None = Field(
        default=None, description="In place of `moves_a_year`: one move in all, to where it will stand for years."
    )
    distance_a_year: Distance = Field(
        description="Distance towed in an ordinary year; with `moves: once` the distance of that move."
    )
    roads: tuple[Literal["highway", "paved", "gravel", "mountain", "ferry"], ...] = Field(
        min_length=1, description="Kinds of road on the routes."
    )
    regions: tuple[Line, ...] = Field(
        min_length=1, description="Regions of the route: each state of the US (US-OR, US-DC ...), CA or CA-BC, CA-NT, "
        "CA-NU, CA-ON, CA-QC, EU, UK, AU, NZ; any other is not assessed."
    )
    top_speed: Speed | None = Field(default=None, description="Greatest speed at which it will be towed.")
    steepest_grade: Share | None = Field(default=None, description="Steepest grade of the routes.")
    altitude: Distance | None = Field(default=None, description="Highest pass of the routes above the sea.")
    tightest_turn: Size | None = Field(
        default=None, description="Radius of the tightest turn on the way, path of the hitch."
    )
    ramp_break: Angle | None = Field(
        default=None, description="Sharpest change of slope on the way: driveway, kerb, loading or ferry ramp."
    )
    lowest_clearance: Size | None = Field(
        default=None, description="Least clear height over a ramp or dip on the way: ferry door, underpass, shed."
    )

    @property
    def moves_ordinary(self) -> int:
        """Moves in an ordinary year: none of a house moved once."""
        return self.moves_a_year or 0

    @property
    def moves_busiest(self) -> int:
        """Moves in the year that has most of them: the one of a house moved once."""
        return 1 if self.moves else self.moves_ordinary

    def moves_over(self, years: float) -> float:
        """Moves in so many years."""
        return 1.0 if self.moves else self.moves_ordinary * years


class Margins(Part):
    """Room the owner keeps on top of what the rules ask."""

    height: Gap = Field(description="Kept free under the height limit, in the highest towed state.")


class Roles(Part):
    """Who answers for what; roles, not people."""

    owner: Line = Field(description="How the owner signs.")
    designer: Line = Field(description="Who drew the design.")
    questions_to: Line = Field(description="Where a bidder sends questions.")
    tows: Line = Field(description="Who tows the house.")


class Request(Part):
    """Terms of the request to the fabricator."""

    number: Id = Field(description="Number of the request.")
    quotes_due: Day = Field(description="Day by which quotes are due.")
    questions_until: Day = Field(description="Last day for questions.")
    quote_valid_days: Count = Field(description="Days a quote must stay valid.")
    delivery_place: Line = Field(description="Where the trailer is handed over.")
    delivery_wanted: Line = Field(description="When it is wanted.")
    furnished_by_owner: tuple[Line, ...] = Field(default=(), description="What the owner supplies.")
    excluded: tuple[Line, ...] = Field(min_length=1, description="What is not part of the request.")
    evaluated_on: tuple[Line, ...] = Field(min_length=1, description="What counts besides the price.")
    payment: tuple[Line, ...] = Field(min_length=1, description="Payment milestones offered.")
    warranty: Line = Field(description="Warranty asked for.")


class Wish(Part):
    """How much one compared result weighs for you when alternatives are set side by side."""

    what: Line = Field(description="Result, by the id printed beside it in the options document.")
    weight: Number = Field(description="Its weight against the others.")


class Confirmation(Part):
    """Who was asked about a rule, and what came back."""

    rule: Id = Field(description="The rule, by the id printed beside it in the load summary.")
    asked: Line = Field(description="Who was asked: the office and how, no names needed.")
    reply: Line = Field(description="What was answered.")
    date: Day = Field(description="Day of the answer.")


class Insurance(Part):
    """What an insurer asks that stands nowhere else; what is left out is a box on the underwriter's sheet."""

    replacement_value: Money | None = Field(
        default=None, description="Cost of building it again with paid labour; for the insurer and for you alone."
    )
    value_basis: Line | None = Field(default=None, description="How that value was found.")
    cover_while_building: Line | None = Field(default=None, description="Cover while it is being built.")
    heat: tuple[Literal["electric", "propane", "diesel", "solid fuel"], ...] | None = Field(
        default=None, description="What it is heated and cooked with; chooses pages of the safety checklist."
    )
    heater: Line | None = Field(default=None, description="Heater: kind, listing, clearances; no brand needed.")
    battery: Literal["lithium", "lead acid", "none"] | None = Field(
        default=None, description="Chemistry of the house battery; chooses lines of the safety checklist."
    )
    battery_place: Line | None = Field(default=None, description="Where the house battery stands, how it is vented.")
    storage: Line | None = Field(default=None, description="Where it stands between moves, and how it is secured.")


class Project(Part):
    """project.yaml"""

    id: Id = Field(description="Short name of the design, also the folder name of its packet.")
    title: Title = Field(description="Name of the design as printed.")
    summary: Prose = Field(description="The design in a few sentences.")
    units: Literal["us", "si"] = Field(description="Units shown.")
    currency: Literal["USD", "CAD", "EUR", "GBP", "AUD", "NZD"] = Field(description="Currency of all money.")
    date: Day = Field(description="Day to which data and prices are read.")
    stage: Literal["sketch", "specified", "quoted", "weighed"] = Field(
        description="How far the design is; sets the allowance for mass not listed."
    )
    legal_path: Literal[
        "rv", "park_model", "manufactured", "foundation_dwelling", "caravan", "vehicle", "undecided"
    ] = Field(
        description="What the house is declared to be; the first three are of US law, caravan and vehicle (a "
        "registered trailer that is lived in) of other countries."
    )
    use: Use = Field(description="How it will be moved.")
    margins: Margins = Field(description="Room kept on top of the rules.")
    roles: Roles = Field(description="Who answers for what.")
    request: Request = Field(description="Terms of the request to the fabricator.")
    confirmations: tuple[Confirmation, ...] = Field(
        default=(), description="What was asked of the authorities about single rules, and what they answered."
    )
    insurance: Insurance | None = Field(default=None, description="What an insurer asks.")
    wishes: tuple[Wish, ...] = Field(
        default=(), description="Weights of the compared results; without them no option is named the best."
    )
