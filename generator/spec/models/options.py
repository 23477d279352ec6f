"""options/*.yaml: an alternative to the design, as changes to it."""

from typing import Annotated, Any

from pydantic import Field, StringConstraints

from generator.records import dataclass
from generator.spec.models.base import Line, Part, Prose, Title

SPEC_PATH = r"^(project|trailer|house|weights|tow|site|costs)(\.[a-z0-9_-]+)*$"
SpecPath = Annotated[str, StringConstraints(pattern=SPEC_PATH)]


class Option(Part):
    """An alternative to the design; whatever it does not name stays as it is"""

    title: Title = Field(description="Name as printed.")
    why: Prose = Field(description="What speaks for it, in a sentence or two.")
    to_shop: Line | None = Field(
        default=None,
        description="Words under which the shop is asked to price it; without them the shop does not hear of it.",
    )
    replace: dict[SpecPath, Any] = Field(
        default={}, description="New texts, maps or lists by their path; a whole file where the path is its name alone."
    )
    remove: tuple[SpecPath, ...] = Field(default=(), description="Keys and entries that go.")
    add: dict[SpecPath, tuple[Any, ...]] = Field(default={}, description="Entries that join a list.")


@dataclass(frozen=True, slots=True)
class Moved:
    """One text of the spec that an option changes: its path, what stood there and what stands there now."""

    path: str
    was: str
    now: str
