"""quotes/*.yaml: what a shop replied, one file for each; the name of the file names the quote."""

from typing import Literal

from pydantic import Field

from generator.records import dataclass
from generator.spec.measure import Count, Money
from generator.spec.models.base import Day, Line, Part, Title

Asked = Literal[
    "trailer", "coating", "jacks", "spare wheel", "label and serial number", "papers and fees", "freight", "tax"
]
"""The rows of the reply form that every quote must answer with money or a word."""


class Answered(Part):
    """What a quote says of one thing the request asked for."""

    what: Asked = Field(description="Row of the reply form.")
    said: Literal["priced", "included", "excluded"] = Field(description="What the quote does with it.")
    price: Money | None = Field(default=None, description="Its price, where it is priced.")


class Quote(Part):
    """A quote as received"""

    title: Title = Field(description="Name as printed; a word for the shop is enough.")
    received: Day = Field(description="Day it came.")
    valid_to: Day = Field(description="Last day on which it holds.")
    weeks: Count | None = Field(default=None, description="Weeks from order to delivery.")
    answers: tuple[Answered, ...] = Field(min_length=1, description="What it prices, includes and leaves out.")
    differs: tuple[Line, ...] = Field(default=(), description="Where it departs from the request, in its words.")


@dataclass(frozen=True, slots=True)
class Received:
    """A quote under the name of its file."""

    id: str
    quote: Quote
