"""Money: lines worked out exactly, one-factor trials for P50 and P80, subtotals, and what is not priced.

Money is Decimal; trials run on floats and are rounded once, to the money step. Amounts are in the project's currency.
"""

from collections.abc import Iterable, Sequence
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

import numpy as np

from generator.calc.findings import Budget, CostRow, Prompt, SumRow
from generator.calc.record import Floats
from generator.calc.topics.cost_trials import CENT, rounded, sample
from generator.calc.topics.cost_years import years_of
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import AskedPrompt, Reference
from generator.spec.measure import Measure
from generator.spec.models.costs import BudgetLine, Costs
from generator.spec.models.spec import Spec

FIXED = ("ordered", "invoiced", "paid")
"""Statuses whose price is no longer uncertain."""

SECTIONS = ("design and permits", "trailer", "delivery", "shell", "doors and windows", "services", "interior",
            "jacks anchors and site", "inspection title and tax", "insurance", "tools and storage", "owner supplied")
STATUSES = ("estimate", "quote", "ordered", "invoiced", "paid")
TAX_PROMPT = "sales-tax"


@dataclass(frozen=True, slots=True)
class Priced:
    """A line worked out, with its bounds for the trials (floats, tax included)."""

    row: CostRow
    low: float
    likely: float
    high: float
    note: str = ""


def budget(model: Model, data: Reference, prompts: Iterable[AskedPrompt], trials: Trials) -> Budget | None:
    """The budget worked out (money of the project); None where the spec has no costs.yaml."""
    spec = model.spec
    if spec.costs is None:
        return None
    costs, (tax, tax_note) = spec.costs, _tax(spec.costs)
    rho, rho_note = _correlation(costs, data)
    priced = tuple(_priced(line, costs, tax, spec.project.date, data) for line in costs.lines)
    rows = tuple(p.row for p in priced)
    base = sum((r.total for r in rows), Decimal(0))
    totals = _totals(priced, rho, trials)
    answered, strays = _answered(spec, costs, tuple(prompts), bool(tax_note))
    p80 = rounded(float(np.percentile(totals, 80.0)), ROUND_CEILING)
    return Budget(
        currency=spec.project.currency, lines=rows,
        sections=_sums(SECTIONS, [(r.section, r.total) for r in rows]),
        statuses=_sums(STATUSES, [(r.status, r.total) for r in rows]),
        milestones=_sums([m.title for m in costs.milestones], [(r.due, r.total) for r in rows], keep_empty=True),
        base=base, p50=rounded(float(np.percentile(totals, 50.0)), ROUND_HALF_UP), p80=p80, contingency=p80 - base,
        below_base=float(np.mean(totals <= float(base) + 0.005)), prompts=answered,
        curve=tuple(rounded(float(v), ROUND_HALF_UP) for v in np.percentile(totals, np.arange(0.0, 101.0, 5.0))),
        years=years_of(costs, spec.project.use, tax, _bounds(priced), base, rho, trials, data),
        notes=tuple(n for n in (tax_note, rho_note, *(p.note for p in priced), *strays) if n),
    )


def features(spec: Spec) -> frozenset[str]:
    """The features of a design that the prompts ask about."""
    trailer = spec.trailer
    found = {"common", trailer.coupling.type, trailer.running_gear.suspension.type, trailer.deck}
    if trailer.wheel_boxes:
        found.add("wheel boxes")
    found.add("hired haul" if spec.tow is None else "own tow vehicle")
    if any(j.motor is not None for j in trailer.jacks):
        found.add("powered jacks")
    if spec.site is not None:
        found.add("parked")
    return frozenset(found)


def _totals(priced: Sequence[Priced], rho: float, trials: Trials) -> Floats:
    totals = sample(_bounds(priced), rho, trials)
    return totals if totals.size else np.array([sum(p.likely for p in priced)])


def _bounds(priced: Sequence[Priced]) -> list[tuple[str, float, float, float]]:
    return [(p.row.id, p.low, p.likely, p.high) for p in priced]


def _tax(costs: Costs) -> tuple[Decimal, str]:
    """The tax rate, and a note where it is unknown and no total can include it."""
    if costs.tax.known:
        return Decimal(repr(costs.tax.nominal)), ""
    return Decimal(0), "The tax rate is unknown: no total here includes tax."


def _correlation(costs: Costs, data: Reference) -> tuple[float, str]:
    rate: Measure = costs.correlation
    if rate.known:
        return min(max(rate.nominal, 0.0), 1.0), ""
    default = data.defaults["cost.correlation"]
    return default.value, f"{default.statement}: {default.value:g} ({data.cite(default.source)})."


def _priced(line: BudgetLine, costs: Costs, rate: Decimal, date: str, data: Reference) -> Priced:
    expired = line.status == "quote" and line.valid_to is not None and line.valid_to < date
    quantity = Decimal(repr(line.quantity))
    low, likely, high = (_cents(quantity * price) for price in (line.low, line.likely, line.high))
    note = ""
    if line.status in FIXED:
        low = high = likely
    if expired:
        rise = Decimal(repr(data.defaults["cost.expired_rise"].value))
        high = max(high, _cents(likely * (1 + rise)))
        note = (f"{line.title}: the quote was good until {line.valid_to}; it counts as an estimate again, and its high "
                f"amount stands at least {rise:%} above the likely one.")
    rate = rate if line.taxed == "yes" else Decimal(0)
    tax = _cents(likely * rate)
    due = next((m.title for m in costs.milestones if m.id == line.due), line.due)
    row = CostRow(line.id, line.title, line.section, "estimate" if expired else line.status, quantity, low, likely,
                  high, tax, likely + tax, due)
    with_tax = 1 + rate
    return Priced(row, float(low * with_tax), float(row.total), float(high * with_tax), note)


def _sums(titles: Sequence[str], rows: Sequence[tuple[str, Decimal]], keep_empty: bool = False) -> tuple[SumRow, ...]:
    """A subtotal for each title in order; those without lines are left out unless kept."""
    amounts = {t: [a for title, a in rows if title == t] for t in titles}
    return tuple(SumRow(t, len(a), sum(a, Decimal(0))) for t, a in amounts.items() if a or keep_empty)


def _answered(spec: Spec, costs: Costs, prompts: tuple[AskedPrompt, ...], tax_unknown: bool,
              ) -> tuple[tuple[Prompt, ...], tuple[str, ...]]:
    """Each prompt that concerns this design with its answer, and notes on answers that match no prompt."""
    covered: dict[str, str] = {}
    for line in costs.lines:
        for id in line.covers:
            covered.setdefault(id, f"priced in line: {line.title}")
    for a in costs.answers:
        covered.setdefault(a.prompt, f"{a.answer}: {a.why}")
    if tax_unknown:
        covered.pop(TAX_PROMPT, None)
    known, has = {p.id for p in prompts}, features(spec)
    made = tuple(Prompt(p.id, p.title, covered.get(p.id, "not priced"), _why(p), p.typical)
                 for p in prompts if p.when in has or p.id in covered)
    unmatched = sorted(id for id in covered if id not in known)
    strays = tuple(f"costs.yaml answers {id!r}, which is no prompt of the list." for id in unmatched)
    return made, strays


def _why(prompt: AskedPrompt) -> str:
    return "every design" if prompt.when == "common" else prompt.when


def _cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)
