"""Plots of data beside the tables they illustrate: what each shows, from which slice, and its picture as SVG."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Generic

from generator.document.blocks import Picture
from generator.document.plots import loads, money
from generator.document.plots.chart import WIDTH, Bars, Curves, alt_of
from generator.document.section import Context, S
from generator.release.slices import Desk, Masses, Money, Numbers, Options, RoadLoads, Scale, Steel


@dataclass(frozen=True, slots=True)
class Plot(Generic[S]):
    """One plot: its file, the slice it needs, and the chart it makes of it, or None where there is nothing to see."""

    file: str
    needs: type[S]
    make: Callable[[S, Context], Bars | Curves | None]


GROUPS = Plot("mass-by-group.svg", Masses, loads.groups)
CENTRES = Plot("centres.svg", RoadLoads, loads.centres)
RATINGS = Plot("ratings.svg", RoadLoads, loads.ratings)
TYRES = Plot("tyre-reserve.svg", Numbers, loads.tyres)
JACKS = Plot("jack-effort.svg", Steel, loads.jacks)
DRIVERS = Plot("spread.svg", Scale, loads.drivers)
CURVE = Plot("cost-curve.svg", Money, money.curve)
SECTIONS = Plot("cost-by-section.svg", Money, money.sections)
YEARS = Plot("cost-over-moves.svg", Money, money.years)
EVENS = Plot("options-over-moves.svg", Options, money.evens)

PLOTS: tuple[Plot[Any], ...] = (GROUPS, CENTRES, RATINGS, TYRES, JACKS, DRIVERS, CURVE, SECTIONS, YEARS, EVENS)
"""Every plot there is; a packet gets those that its documents show."""


def picture(plot: Plot[S], held: S, context: Context) -> tuple[Picture, ...]:
    """The block that shows a plot, its alt text made of what it shows; nothing where there is nothing to see."""
    chart = plot.make(held, context)
    return () if chart is None else (Picture(plot.file, alt_of(chart), f"{WIDTH:g}mm"),)


def made(desk: Desk, context: Context, named: Iterable[str]) -> dict[str, bytes]:
    """The pictures that documents name, by file, from slices of this desk alone."""
    wanted = frozenset(named)
    charts = [(p.file, _chart(p, desk, context)) for p in PLOTS if p.file in wanted]
    if not charts:
        return {}
    from generator.document.plots.canvas import written

    return {file: written(file, chart) for file, chart in charts if chart is not None}


def _chart(plot: Plot[Any], desk: Desk, context: Context) -> Bars | Curves | None:
    held = desk.get(plot.needs)
    return None if held is None else plot.make(held, context)
