"""The tyres: what the worst tyre of each axle carries, and the reserve it keeps."""

from collections.abc import Iterator

from generator.calc.record import Compared
from generator.document.blocks import Block, Head, Line, table
from generator.document.plots import TYRES as PLOT
from generator.document.plots import picture
from generator.document.section import Context, Section
from generator.release.slices import Numbers
from generator.units import Show


def reserve(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """Axle by axle: load of the worst tyre, its rating, the reserve kept and the least asked for."""
    lines = list(_lines(numbers, context.show))
    if not lines:
        return ()
    heads = (Head("Axle", width=12), Head("Worst tyre", True, 20), Head("Rated for", True, 20),
             Head("Reserve kept", True, 16), Head("Least asked for", True, 16), Head("Status", width=16))
    note = "A reserve is for heat, speed, kerbs and belongings; a tyre at its rating has none."
    return (table("Reserve of the tyres", heads, lines, note=note, is_titled=True), *picture(PLOT, numbers, context))


def _lines(numbers: Numbers, show: Show) -> Iterator[Line]:
    told = {c.id: c for c in numbers.technical}
    for id, check in told.items():
        kept = check.outcome
        if not (id.startswith("tyre.") and id.endswith(".reserve") and isinstance(kept, Compared)):
            continue
        load = told.get(id.replace(".reserve", ".load"))
        carried = ("", "")
        if load is not None and isinstance(load.outcome, Compared):
            carried = show(load.outcome.demand.value, "kg"), show(load.outcome.limit.value, "kg", "down")
        yield "row", (id.split(".")[1], *carried, show.percent(kept.demand.value), show.percent(kept.limit.value),
                      check.status.upper())


TYRES = Section("tyres", "Reserve of the tyres", Numbers, reserve)
