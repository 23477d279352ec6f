"""What every part of a spec shares."""

from datetime import date
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, StringConstraints

from generator.errors import Refusal

ONE_LINE = r"^[^\n]+$"


def real_day(text: str) -> str:
    """The text itself if it is a day of the calendar; raises Refusal."""
    try:
        date.fromisoformat(text)
    except ValueError:
        raise Refusal(f"`{text}` is no day of the calendar", "write a day as 2026-05-31") from None
    return text


Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9-]{0,39}$")]
Title = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=80, pattern=ONE_LINE)]
Line = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=240, pattern=ONE_LINE)]
Prose = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=4000)]
Day = Annotated[str, StringConstraints(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"), AfterValidator(real_day)]
BasisWord = Literal["measured", "quoted", "table", "estimate", "placeholder"]
Side = Literal["left", "right", "both", "centre"]


class Part(BaseModel):
    """A piece of a spec: unknown keys are refused, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
