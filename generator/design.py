"""A spec folder read, resolved and calculated: all that `check` and `explain` need."""

from dataclasses import replace
from pathlib import Path

from generator.calc.comparison import compare
from generator.calc.findings import Results
from generator.calc.record import Check
from generator.calc.run import ALL_LEVERS, NO_LEVERS, calculate, judge
from generator.model.resolve import resolve
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import reference
from generator.reference.types import Reference
from generator.spec.read import parse_source, read_source, read_spec
from generator.spec.source import Source


@dataclass(frozen=True, slots=True)
class Design:
    """What a spec means and what was computed from it."""

    model: Model
    results: Results
    data: Reference


def design(folder: Path, levers: str = ALL_LEVERS) -> Design:
    """Read, resolve and calculate a spec folder; raises SpecError with all faults.

    `levers`: of every failing check, or of the one with this id.
    """
    return designed(read_source(folder), levers)


def checks_of(folder: Path) -> tuple[Model, tuple[Check, ...]]:
    """The model of a spec folder and its checks, no more; raises SpecError with all faults."""
    data = reference()
    model = resolve(read_spec(folder), data)
    return model, judge(model, data)


def designed(source: Source, levers: str = ALL_LEVERS) -> Design:
    """Resolve and calculate a source already read."""
    data = reference()
    model = resolve(parse_source(source), data)
    return Design(model, calculate(model, data, levers=levers), data)


def compared(it: Design) -> Design:
    """The design with all its options worked and set beside it; as it is if it has none."""
    options = it.model.spec.options
    if not options:
        return it
    others = [(option, model, calculate(model, it.data, levers=NO_LEVERS))
              for option in options for model in [resolve(option.spec, it.data)]]
    return replace(it, results=replace(it.results, comparison=compare((it.model, it.results), others, it.data)))
