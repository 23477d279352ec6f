"""Typed records of the rules on a route: what each compares, whether it is woken, what it asks. SI; loads in kg."""

from collections import Counter
from typing import Literal

from generator.records import dataclass

Sign = Literal["<=", ">=", "<", ">"]


@dataclass(frozen=True, slots=True)
class Bounded:
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
    `path`: the legal path whose claim it contradicts when woken. `needs` names what is unknown. `old`: the name of its
    source if its text is older at the project's date than a rule may be. `is_held` is false for a row that only says
    that no figure is held, and whom to ask.
    """

    id: str
    topic: str
    title: str
    regions: tuple[str, ...]
    path: str
    tests: tuple[Bounded, ...]
    woken: bool | None
    share: float
    needs: tuple[str, ...]
    must: Bounded | None
    status: str
    follows: str
    confirm: str
    source: str
    edition: str
    confidence: str
    as_of: str
    old: str = ""
    asked: Asked = Asked()
    is_held: bool = True


@dataclass(frozen=True, slots=True)
class PathColumn:
    """A legal path beside the others: its answers by question, and the claims of it that this design contradicts."""

    id: str
    title: str
    answers: tuple[tuple[str, str], ...]
    against: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotHeld:
    """Regions of the route, by name, and the topics for which no rule is held there."""

    regions: tuple[str, ...]
    topics: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stale:
    """A source of rules whose text is old: its name, the day, how many rules."""

    source: str
    as_of: str
    rules: int


@dataclass(frozen=True, slots=True)
class Rulings:
    """All rules of one design: declared path, rules in the order of print, paths side by side, what is not held.

    `names`: regions of the route with their names. `old_limits`: source and day of the text of each size limit of the
    route that is older at the project's date than a rule may be.
    """

    path: str
    regions: tuple[str, ...]
    date: str
    topics: tuple[tuple[str, str], ...]
    triggers: tuple[Trigger, ...]
    paths: tuple[PathColumn, ...]
    not_held: tuple[NotHeld, ...]
    unknown_regions: tuple[str, ...]
    names: tuple[tuple[str, str], ...] = ()
    old_limits: tuple[tuple[str, str], ...] = ()

    @property
    def stale(self) -> tuple[Stale, ...]:
        """The old sources of these rules and of the size limits, oldest first."""
        counted = Counter((t.as_of, t.old) for t in self.triggers if t.old)
        counted.update((as_of, source) for source, as_of in self.old_limits)
        return tuple(Stale(source, as_of, n) for (as_of, source), n in sorted(counted.items()))
