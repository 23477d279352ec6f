"""The limits of the route, region by region: cited in one table, which workings refer to."""

import re
from collections.abc import Iterable

from generator.calc.record import Step, Value
from generator.document.blocks import Block, Head, table
from generator.document.section import Context, Section
from generator.release.slices import Numbers

TITLE = "Limits of the route"
STEPS = ("Least height limit of the route", "Least width limit of the route")
"""Steps whose inputs are the limits of the regions, by what they give."""


def cited(source: str, steps: Iterable[Step]) -> str:
    """A source as printed beside a step; the statutes of a route are named by their table."""
    return f"see {TITLE}" if source in {s.source for s in steps if s.what in STEPS} else source


def limits(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """Each region with its height and width limit and where it is written."""
    steps = {s.what: s for c in numbers.checks for s in c.outcome.steps if s.what in STEPS}
    regions = sorted({_named(v) for s in steps.values() for v in s.inputs})
    if not regions:
        return ()
    show = context.show
    values = [{_named(v): show(v.value, v.unit) for v in _inputs(steps.get(what))} for what in STEPS]
    sources: dict[str, str] = {}
    for step in steps.values():
        sources.update(_by_region(step.source, regions))
    heads = (Head("Region", width=16), Head("Height", True, 13), Head("Width", True, 13), Head("Written in", width=58))
    rows = [(r, *(v.get(r, "") for v in values), sources.get(r, "does not govern")) for r in regions]
    note = "Look each rule up in its present text, and ask for posted clearances on the roads to be used."
    return (table(TITLE, heads, rows, note=note, is_titled=True),)


def _inputs(step: Step | None) -> tuple[Value, ...]:
    return step.inputs if step else ()


def _named(limit: Value) -> str:
    """The region of a limit by its name."""
    return limit.origin or limit.symbol


def _by_region(source: str, regions: list[str]) -> dict[str, str]:
    """The parts of `Region: text; Region: text` by region."""
    names = "|".join(re.escape(r) for r in sorted(regions, key=len, reverse=True))
    parts = re.split(rf"(?:^|; )({names}): ", source)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


ROUTE = Section("route", TITLE, Numbers, limits)
