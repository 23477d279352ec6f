"""What fails or is close, in three blocks for a person who decides: stop, ask, watch."""

from collections.abc import Mapping

from generator.calc.record import Check, Compared, mending_order
from generator.document.blocks import NOTHING, Attention, AttentionList, Block, anchor, mark
from generator.document.gaps import Gap, gaps
from generator.document.section import Context, Section
from generator.document.sections.failures import has_page
from generator.document.sentences import asked_of, first_look, has_needs, in_its_file, next_step, opening, way_of
from generator.release.slices import Numbers

CLOSE = 0.9
CHECKS_PAGE = "3-workings.html"
"""Where the working of a check stands on the screen."""
QUOTES_PLACE = "5-budget.html#s-quotes"
MOST = 8
TITLE, MEANING, STEP = 90, 110, 150
"""Most characters of a title, of what it means and of the next step; longer ones end between two clauses."""
WORDS = (
    ("Stop", "a limit is broken; order nothing that depends on it"),
    ("Ask", "not settled: someone must measure, confirm or decide"),
    ("Watch", "kept, but little is left"),
)
"""The three words and what they mean."""


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The first eight rows, worst first; what does not fit is counted. Checks that lack the same are one row."""
    titles = {c.id: first_look(c.about.title) for c in numbers.checks}
    gaps_of = {w.id: -w.slack for w in numbers.windows if w.slack < 0.0 and w.unit == "m"}
    near = [c for c in numbers.checks if _rank(c) < len(WORDS)]
    compared = [(_order(c), attention(c, context, titles, gaps_of.get(c.id))) for c in near]
    lacking = [((1, not g.is_mandatory, False, 0.0, 0.0, g.what), missing(g)) for g in gaps(numbers.checks)]
    ranked = sorted([*compared, *lacking], key=lambda row: row[0])
    kept = [(order[0], row) for order, row in ranked[:MOST]]
    groups = tuple((word, what, tuple(a for rank, a in kept if rank == r)) for r, (word, what) in enumerate(WORDS))
    note = "All that fails stands after this page, then a way out and the words." if has_page(numbers.checks) else ""
    return (AttentionList(tuple(g for g in groups if g[2]), max(len(ranked) - MOST, 0), note),)


def missing(gap: Gap) -> Attention:
    """Checks that wait for the same thing, in plain words."""
    first = gap.checks[0]
    many = len(gap.checks) > 1
    return Attention(
        "NOT ASSESSED",
        mark("not assessed"),
        opening(f"Waiting for {gap.what}" if many else first.about.title, TITLE),
        f"{CHECKS_PAGE}#{anchor('check', first.id)}",
        opening(f"Holds up {len(gap.checks)} checks: {gap.held}" if many else first.about.concern, MEANING),
        "no number yet",
        NOTHING,
        opening(f"Find out: {in_its_file(gap.what)}.", STEP),
        asked_of(first.about.ask),
    )


def attention(check: Check, context: Context, titles: Mapping[str, str], gap: float | None = None) -> Attention:
    """A check in plain words; `gap` (m) is what an empty window lacks."""
    show, about, outcome = context.show, check.about, check.outcome
    numbers = has_needs(outcome, show) if isinstance(outcome, Compared) else ""
    if gap is not None:
        numbers = f"no place works: {show(gap, 'm', 'up')} missing between its two ends"
    step = way_of(check, show, titles) if check.status == "fail" else next_step(check, show)
    return Attention(
        check.status.upper(),
        mark(check.status),
        opening(first_look(about.title), TITLE),
        _where(check),
        opening(about.concern, MEANING),
        numbers,
        f"ratio {show.ratio(check.ratio)}" if check.ratio is not None else NOTHING,
        opening(step, STEP),
        asked_of(about.ask),
    )


def _where(check: Check) -> str:
    """Where the check stands in full: a quote in the budget, everything else in the workings."""
    return QUOTES_PLACE if check.about.topic == "money" else f"{CHECKS_PAGE}#{anchor('check', check.id)}"


def _rank(check: Check) -> int:
    """Its block: stop, ask, watch, or none; what is not assessed stands in a gap instead."""
    if check.status == "fail":
        return 0
    if check.status == "review":
        return 1
    if check.status == "not assessed":
        return len(WORDS)
    return 2 if check.ratio is not None and check.ratio >= CLOSE else len(WORDS)


def _order(check: Check) -> tuple[int, bool, bool, float, float, str]:
    """What is broken in the order to mend it; the rest worst first; a count kept exactly is not a narrow one."""
    if check.status == "fail":
        optional, is_bare, topic, worst, id = mending_order(check)
        return 0, optional, is_bare, float(topic), worst, id
    counted = isinstance(check.outcome, Compared) and check.outcome.demand.unit == "count"
    return _rank(check), not check.about.mandatory, True, 0.0, 0.0 if counted else -(check.ratio or 0.0), check.id


ATTENTION = Section("attention", "What fails or is close", Numbers, blocks)
