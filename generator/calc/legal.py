"""Typed records of the rules on a route: what each compares, whether it is woken, what it asks. SI; loads in kg."""

from dataclasses import dataclass
from typing import Literal

Sign = Literal["<=", ">=", "<", ">"]


@dataclass(frozen=True, slots=True)
class Tested:
    """A quantity against a limit: what it is in words, both values (NaN: unknown) in one unit."""

    what: str
    value: float
    sign: Sign
    limit: float
    unit: str


@dataclass(frozen=True, slots=True)
class Asked:
    """Who was asked about a rule, what came back and when; all empty while nobody was."""

    asked: str = ""
    reply: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class Trigger:
    """One rule on this route: which tests wake it, whether they do (None: unknown) and in what share of trials.

    `must` is what then has to hold and `status` how the check of it came out; both empty for a rule that only informs.
    `path`: the legal path whose claim it contradicts when woken. `needs` names what is unknown.
    """

    id: str
    topic: str
    title: str
    regions: tuple[str, ...]
    path: str
    tests: tuple[Tested, ...]
    woken: bool | None
    share: float
    needs: tuple[str, ...]
    must: Tested | None
    status: str
    follows: str
    confirm: str
    source: str
    edition: str
    confidence: str
    as_of: str
    asked: Asked = Asked()


@dataclass(frozen=True, slots=True)
class PathColumn:
    """A legal path beside the others: its answers by question, and the claims of it that this design contradicts."""

    id: str
    title: str
    answers: tuple[tuple[str, str], ...]
    against: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotHeld:
    """Regions of the route, and the topics for which no rule is held there."""

    regions: tuple[str, ...]
    topics: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stale:
    """A source of rules whose text is older than a year at the project's date: its name, the day, how many rules."""

    source: str
    as_of: str
    rules: int


@dataclass(frozen=True, slots=True)
class Rulings:
    """All rules of one design: declared path, rules in the order of print, the paths beside one another, what is not
    held and what is old.
    """

    path: str
    regions: tuple[str, ...]
    date: str
    topics: tuple[tuple[str, str], ...]
    triggers: tuple[Trigger, ...]
    paths: tuple[PathColumn, ...]
    not_held: tuple[NotHeld, ...]
    unknown_regions: tuple[str, ...]
    stale: tuple[Stale, ...]
