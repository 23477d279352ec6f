"""What moving and keeping the house costs: each move, each year, and over the years of comparison.

Money of the project. Prices are Decimal; trials run on floats and are rounded once, to the money step.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

import numpy as np

from generator.calc.findings import RunningRow, Years
from generator.calc.topics.cost_trials import CENT, rounded, sample
from generator.calc.trials import Trials
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.costs import Costs, Running
from generator.spec.models.project import Use

Bounds = tuple[str, float, float, float]
"""A line of the trials: name, low, likely, high."""


@dataclass(frozen=True, slots=True)
class Often:
    """How often a line comes: with each move, and in all the years at no move at all."""

    a_move: float
    standing: float


def years_of(costs: Costs, use: Use, rate: Decimal, built: Sequence[Bounds], base: Decimal, rho: float,
             trials: Trials, data: Reference) -> Years | None:
    """Cost of `years` of use at the moves of the project; None where costs.yaml says nothing of running costs.

    `built`: the lines of the budget with tax, `rate`: tax, `rho`: correlation of any two lines (0 to 1).
    """
    if not costs.running:
        return None
    span = data.defaults["cost.years"].value
    moves = use.moves_over(span)
    rows = tuple(_row(line, use, span, moves, rate) for line in costs.running)
    running = sum((r.total for r in rows), Decimal(0))
    often = [_often(line, use, span) for line in costs.running]
    a_move = sum((_money(o.a_move) * r.once for o, r in zip(often, rows, strict=True)), Decimal(0))
    standing = sum((_money(o.standing) * r.once for o, r in zip(often, rows, strict=True)), Decimal(0))
    totals = sample([*built, *_bounds(costs.running, rows, rate)], rho, trials)
    p80 = float(np.percentile(totals, 80.0)) if totals.size else float(base + running)
    return Years(
        int(span), use.moves_ordinary, bool(use.moves), rows, _cents(a_move), _cents(standing / _money(span)),
        running, base + running, rounded(p80, ROUND_CEILING),
    )


def break_even(here: tuple[Decimal, Years], there: tuple[Decimal, Years]) -> float:
    """Moves a year at which two designs (base cost, years) cost the same; NaN where they never do."""
    gained = float(here[1].a_move - there[1].a_move) * here[1].years
    owed = float(there[0] - here[0]) + float(there[1].a_year - here[1].a_year) * here[1].years
    moves = owed / gained if gained else math.nan
    return moves if moves > 0.0 else math.nan


def _row(line: Running, use: Use, span: float, moves: float, rate: Decimal) -> RunningRow:
    often = _often(line, use, span)
    times = _money(often.a_move * moves + often.standing)
    once = line.likely * (1 + (rate if line.taxed == "yes" else Decimal(0)))
    return RunningRow(line.id, line.title, _words(line), times, _cents(once), _cents(once * times))


def _often(line: Running, use: Use, span: float) -> Often:
    match line.each:
        case "move":
            return Often(1.0, 0.0)
        case "year":
            return Often(0.0, float(math.floor(span / (line.years or 1.0) + 1e-9)))
        case _:
            each = line.distance.nominal if line.distance is not None else math.nan
            share = use.distance_a_year.nominal / each if use.distance_a_year.known and each > 0.0 else 0.0
            return Often(share / use.moves_busiest, 0.0) if use.moves_busiest else Often(0.0, share * span)


def _words(line: Running) -> str:
    if line.each == "year":
        return "each year" if line.years in (None, 1.0) else f"every {line.years:g} years"
    if line.each == "move":
        return "each move"
    return f"every {line.distance.text}" if line.distance is not None else "by distance"


def _bounds(lines: Iterable[Running], rows: Iterable[RunningRow], rate: Decimal) -> Iterator[Bounds]:
    for line, row in zip(lines, rows, strict=True):
        with_tax = row.times * (1 + (rate if line.taxed == "yes" else Decimal(0)))
        yield (f"running.{line.id}", float(line.low * with_tax), float(line.likely * with_tax),
               float(line.high * with_tax))


def _money(value: float) -> Decimal:
    return Decimal(repr(float(value)))


def _cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)
