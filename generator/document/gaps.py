"""Checks not assessed, by what they lack: one gap however many checks it holds up."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.calc.findings import Task
from generator.calc.record import Check, Missing

ENGINEER = "licensed engineer"
"""An input that is an engineer's to give says so in these words."""


@dataclass(frozen=True, slots=True)
class Gap:
    """What is missing in words, whom to ask, what else these checks lack, and the checks it holds up."""

    what: str
    ask: str
    also: tuple[str, ...]
    checks: tuple[Check, ...]

    @property
    def is_mandatory(self) -> bool:
        """Whether it holds up a check the design cannot be issued without."""
        return any(c.about.mandatory for c in self.checks)


def gaps(checks: Iterable[Check], tasks: Sequence[Task]) -> tuple[Gap, ...]:
    """The gaps, widest first, those an engineer fills last as one."""
    lacking = {c: frozenset(c.outcome.inputs) for c in checks if isinstance(c.outcome, Missing)}
    theirs = tuple(c for c, inputs in lacking.items() if any(ENGINEER in i for i in inputs))
    rest = {c: inputs for c, inputs in lacking.items() if c not in theirs}
    made: list[Gap] = []
    while rest:
        counted = Counter(i for inputs in rest.values() for i in inputs)
        shared = min(counted, key=lambda i: (-counted[i], i), default="")
        held = {c: inputs for c, inputs in rest.items() if shared in inputs or not inputs}
        made.append(_gap(held, shared, tasks))
        rest = {c: inputs for c, inputs in rest.items() if c not in held}
    return (*made, *((_engineer(theirs),) if theirs else ()))


def _gap(held: dict[Check, frozenset[str]], shared: str, tasks: Sequence[Task]) -> Gap:
    """A gap named as the task that will fill it, if several checks wait for one; else by the one check."""
    checks = tuple(held)
    inputs = frozenset[str]().union(*held.values())
    task = next((t for t in tasks if not t.id.startswith("check-") and {c.id for c in checks} <= _blocked(t)), None)
    if task is not None:
        said = {i for i in inputs if i in task.what or i.replace(" ", ": ", 1) in task.what}
        return Gap(task.what, _asked(checks) if task.who == "owner" and len(checks) == 1 else task.who,
                   tuple(sorted(inputs - said)), checks)
    common = frozenset(inputs).intersection(*held.values()) or frozenset({shared})
    return Gap(f"Missing: {', '.join(sorted(common))}", _asked(checks), tuple(sorted(inputs - common)), checks)


def _engineer(checks: tuple[Check, ...]) -> Gap:
    return Gap("Left to a licensed engineer", "a licensed engineer, before steel is cut", (), checks)


def _blocked(task: Task) -> frozenset[str]:
    return frozenset(task.blocks.split(", "))


def _asked(checks: Sequence[Check]) -> str:
    return checks[0].about.ask


def unheld(tasks: Iterable[Task], found: Iterable[Gap]) -> tuple[Task, ...]:
    """Tasks that no gap speaks of: they hold up nothing that is checked."""
    ids = {c.id for g in found for c in g.checks}
    return tuple(t for t in tasks if not (_blocked(t) & ids))
