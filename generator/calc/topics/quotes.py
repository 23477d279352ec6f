"""Quotes levelled: what each leaves open is named, and filled with the dearest price another quote gives for it."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import get_args

from generator.calc.quoted import QuotedRow, QuoteHead, Quotes
from generator.calc.record import About, Basis, Check, Findings, Working, compare, sure
from generator.model.types import Model
from generator.spec.models.quotes import Answered, Asked, Received

ASKED: tuple[str, ...] = get_args(Asked)
SILENT = "not said"


def quotes(model: Model) -> tuple[Quotes | None, Findings]:
    """The quotes side by side (None without any), and whether each is whole and still holds."""
    received = model.spec.quotes
    if not received:
        return None, Findings()
    heads = tuple(_head(r, received) for r in received)
    rows = tuple(QuotedRow(what, tuple(_told(r, what) for r in received)) for what in ASKED)
    checks = tuple(c for h in heads for c in _checks(h, model.spec.project.date))
    return Quotes(heads, rows), Findings(checks=checks)


def _answer(of: Received, what: str) -> Answered | None:
    return next((a for a in of.quote.answers if a.what == what), None)


def _told(of: Received, what: str) -> Decimal | str:
    answer = _answer(of, what)
    if answer is None:
        return SILENT
    return answer.price if answer.said == "priced" and answer.price is not None else answer.said


def _head(of: Received, among: Sequence[Received]) -> QuoteHead:
    told = {what: _told(of, what) for what in ASKED}
    holes = tuple(what for what, t in told.items() if t in (SILENT, "excluded"))
    stated = sum((t for t in told.values() if isinstance(t, Decimal)), Decimal(0))
    plugs = [max((t for r in among if isinstance(t := _told(r, what), Decimal)), default=None) for what in holes]
    levelled = None if None in plugs else stated + sum((p for p in plugs if p is not None), Decimal(0))
    q = of.quote
    return QuoteHead(of.id, q.title, q.received, q.valid_to, q.weeks, holes, q.differs, stated, levelled)


def _checks(head: QuoteHead, day: str) -> Iterator[Check]:
    named = ", ".join(head.holes) or "nothing"
    whole = About(
        f"{head.title} prices everything asked for; left open: {named}",
        "money",
        "the rows of the reply form",
        "The cheapest quote is the one that leaves the most out; the rest is asked for after the order.",
        f"The shop: its price for {named}, in writing, before the order.",
    )
    holes, none = sure("n", float(len(head.holes)), "count", Basis.QUOTED), sure("n_max", 0.0, "count", Basis.MEASURED)
    yield Check(f"quote.{head.id}.whole", whole, "", compare(holes, none, "<=", Working()))
    holds = About(
        f"{head.title} still holds on the day of this packet",
        "money",
        "the last day stated in the quote",
        "A price whose day has passed binds nobody.",
        "The shop: whether it still stands by its price.",
    )
    left = (date.fromisoformat(head.valid_to) - date.fromisoformat(day)).days
    days, least = sure("d", float(left), "count", Basis.QUOTED), sure("d_min", 0.0, "count", Basis.MEASURED)
    yield Check(f"quote.{head.id}.valid", holds, "", compare(days, least, ">=", Working()))
