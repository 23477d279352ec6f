"""Checks not assessed, by what they lack: one gap however many checks it holds up."""

from collections.abc import Iterable
from dataclasses import dataclass

from generator.calc.record import Check, Missing

ENGINEER = "licensed engineer"
"""An input that is an engineer's to give says so in these words."""


@dataclass(frozen=True, slots=True)
class Gap:
    """What is missing in words, and the checks it holds up."""

    what: str
    checks: tuple[Check, ...]

    @property
    def is_mandatory(self) -> bool:
        """Whether it holds up a check the design cannot be issued without."""
        return any(c.about.mandatory for c in self.checks)

    @property
    def held(self) -> str:
        """The checks it holds up, by name."""
        return "; ".join(c.about.title for c in self.checks)


def gaps(checks: Iterable[Check]) -> tuple[Gap, ...]:
    """The gaps in the order of their first check; all that an engineer must give is one gap, and the last."""
    lacking: dict[frozenset[str], list[Check]] = {}
    theirs: list[Check] = []
    for check in checks:
        if isinstance(check.outcome, Missing):
            inputs = frozenset(check.outcome.inputs)
            held = theirs if any(ENGINEER in i for i in inputs) else lacking.setdefault(inputs, [])
            held.append(check)
    made = tuple(Gap(", ".join(sorted(inputs)), tuple(held)) for inputs, held in lacking.items())
    return (*made, *((Gap("what a licensed engineer must design", tuple(theirs)),) if theirs else ()))
