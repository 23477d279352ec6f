"""Plots of money: chance of a cost, cost by section, cost over the moves a year. Money of the project."""

from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise

from generator.calc.compared import letter
from generator.calc.findings import Years
from generator.document.plots.chart import Axis, Bar, Bars, Curves, Line, Spot, steps
from generator.document.section import Context
from generator.release.slices import Money, Options
from generator.units import Show

LISTS = {"jacks anchors and site": "jacks, anchors and site", "inspection title and tax": "inspection, title and tax"}
"""Sections whose names are lists, as printed."""
FEW_POINTS = 2
"""With no more points than this there is no curve to draw."""
LEAST_MOVES = 4
"""Moves a year to which the axis reaches at least."""
CHANCES = (0.0, 0.2, 0.5, 0.8, 1.0)


def curve(money: Money, context: Context) -> Curves | None:
    """Chance of staying under an amount; base, P50 and P80 marked."""
    b, show = money.budget, context.show
    if len(b.curve) <= FEW_POINTS:
        return None
    amounts = [float(a) for a in b.curve]
    ends = steps((amounts[0], amounts[-1]), 1.0, 5)
    marks = (("Base", b.base, share_under(amounts, float(b.base))), ("P50", b.p50, 0.5), ("P80", b.p80, 0.8))
    return Curves(
        "Chance that the whole cost stays under an amount",
        Axis("cost with tax", _money(ends, show)),
        Axis("", tuple((c, f"{c:.0%}".replace("%", "\u00a0%")) for c in CHANCES)),
        (Line(tuple((a, i / (len(amounts) - 1)) for i, a in enumerate(amounts))),),
        tuple(Spot(float(amount), chance, f"{name} {show.money(amount)}", drops=True)
              for name, amount, chance in marks),
    )


def share_under(amounts: Sequence[float], amount: float) -> float:
    """Share of the trials that stay under an amount, read off the curve."""
    for i, (low, high) in enumerate(pairwise(amounts)):
        if amount < low:
            return i / (len(amounts) - 1)
        if amount <= high:
            return (i + (amount - low) / (high - low if high > low else 1.0)) / (len(amounts) - 1)
    return 1.0


def sections(money: Money, context: Context) -> Bars | None:
    """Cost of each section with tax, dearest first."""
    held = sorted(money.budget.sections, key=lambda s: (-s.total, s.title))
    if len(held) <= FEW_POINTS:
        return None
    rows = tuple(Bar(named(s.title), float(s.total), context.show.money(s.total)) for s in held)
    return Bars("Cost by section, likely amounts with tax", rows)


def years(money: Money, context: Context) -> Curves | None:
    """Base cost with the years of use over the moves a year; the project's own moves marked."""
    y = money.budget.years
    if y is None or not y.running:
        return None
    show, base = context.show, money.budget.base
    own = 1.0 / y.years if y.once else float(y.moves)
    ends = _moves(own)
    points = tuple((m, float(base) + _running(y, m)) for m in ends)
    return Curves(
        f"Base estimate and {y.years} years, over the moves a year",
        Axis("moves a year", tuple((m, f"{m:g}") for m in ends)),
        Axis("", _money(steps([0.0, *(c for _, c in points)], 1.0, 5), show)),
        (Line(points), Line(tuple((m, float(base)) for m in ends), f"Base {show.money(base)}", is_soft=True)),
        (Spot(own, float(y.total), f"{'once' if y.once else f'{y.moves} a year'}: {show.money(y.total)}", drops=True),),
    )


def _running(y: Years, moves: float) -> float:
    return y.years * (float(y.a_year) + float(y.a_move) * moves)


def _moves(own: float) -> tuple[float, ...]:
    return steps((0.0, max(2.0 * own, LEAST_MOVES)), 1.0, 6)


def evens(options: Options, context: Context) -> Curves | None:
    """Cost of every design over the years against the moves a year; where an option meets the base is marked."""
    found, show = options.comparison, context.show
    held = {r.id: r.values for r in found.money}
    if not {"cost.base", "cost.move", "cost.year"} <= held.keys():
        return None
    priced = [(n, float(a) + found.years * float(c), found.years * float(b)) for n, (a, b, c) in enumerate(
        zip(held["cost.base"], held["cost.move"], held["cost.year"], strict=True))
        if a is not None and b is not None and c is not None]
    ends = _moves(max([found.moves, *(e.moves for e in found.evens if e is not None and 0.0 < e.moves <= 100.0)]))
    if len(priced) < FEW_POINTS:
        return None
    lines = tuple(Line(tuple((m, fixed + each * m) for m in (ends[0], ends[-1])),
                       "As designed" if n == 0 else f"{letter(n)}  {found.designs[n].title}", is_soft=n > 0)
                  for n, fixed, each in priced)
    costs = [c for line in lines for _, c in line.points]
    fixed, each = priced[0][1:] if priced[0][0] == 0 else (0.0, 0.0)
    met = tuple(Spot(e.moves, fixed + each * e.moves, f"{letter(n)} even at {e.moves:.1f} moves", drops=True)
                for n, e in enumerate(found.evens, start=1) if e is not None and 0.0 < e.moves <= ends[-1] and fixed)
    return Curves(
        f"Base estimate and {found.years} years of each design, over the moves a year",
        Axis("moves a year", tuple((m, f"{m:g}") for m in ends)),
        Axis("", _money(steps(costs, 1.0, 5), show)), lines, met,
    )


def _money(values: Sequence[float], show: Show) -> tuple[tuple[float, str], ...]:
    return tuple((v, show.money(Decimal(round(v)))) for v in values)


def named(text: str) -> str:
    """A section of the budget as printed."""
    words = LISTS.get(text, text)
    return words[:1].upper() + words[1:].replace("_", " ")
