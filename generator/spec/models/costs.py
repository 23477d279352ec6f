"""costs.yaml: budget lines, in the project's currency."""

from typing import Literal

from pydantic import Field

from generator.spec.measure import Distance, Money, Number, Share
from generator.spec.models.base import Day, Id, Line, Part, Title

Section = Literal[
    "design and permits", "trailer", "delivery", "shell", "doors and windows", "services", "interior",
    "jacks anchors and site", "inspection title and tax", "insurance", "tools and storage", "owner supplied",
]
Status = Literal["estimate", "quote", "ordered", "invoiced", "paid"]


class BudgetLine(Part):
    """One thing that costs money: low, likely and high for one unit, without tax."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    section: Section = Field(description="Section of the budget.")
    status: Status = Field(description="How firm the price is.")
    quantity: Number = Field(description="How many units.")
    low: Money = Field(description="Low price of one.")
    likely: Money = Field(description="Likely price of one.")
    high: Money = Field(description="High price of one.")
    taxed: Literal["yes", "no"] = Field(description="Whether the project's tax rate applies.")
    due: Id = Field(description="Milestone at which it is paid.")
    valid_to: Day | None = Field(default=None, description="Last day of a quote.")
    covers: tuple[Id, ...] = Field(default=(), description="Prompts of the *not priced* list it answers.")


class Milestone(Part):
    """A moment at which money leaves."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")


class Answer(Part):
    """Why a prompt of the *not priced* list needs no line."""

    prompt: Id = Field(description="Prompt of the reference list.")
    answer: Literal["included", "not needed"] = Field(description="Included elsewhere, or not needed.")
    why: Line = Field(description="By whom, or why.")


class Running(Part):
    """Something that costs money again and again: low, likely and high each time, without tax."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    each: Literal["move", "year", "distance"] = Field(description="What brings it about.")
    years: Number | None = Field(default=None, description="With `year`: every so many years; without it every year.")
    distance: Distance | None = Field(default=None, description="With `distance`: every so many miles or kilometres.")
    low: Money = Field(description="Low price each time.")
    likely: Money = Field(description="Likely price each time.")
    high: Money = Field(description="High price each time.")
    taxed: Literal["yes", "no"] = Field(description="Whether the project's tax rate applies.")


class Costs(Part):
    """costs.yaml"""

    tax: Share = Field(description="Sales or use tax.")
    correlation: Share = Field(description="How far lines err together.")
    milestones: tuple[Milestone, ...] = Field(min_length=1, description="Milestones, in order.")
    lines: tuple[BudgetLine, ...] = Field(min_length=1, description="Budget lines.")
    answers: tuple[Answer, ...] = Field(default=(), description="Prompts answered without a line.")
    running: tuple[Running, ...] = Field(default=(), description="What every move and every year costs.")
