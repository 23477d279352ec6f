"""Every check: the summary sorted by ratio, and one block a check with its working."""

from itertools import groupby

from markupsafe import Markup

from generator.calc.record import Basis, Check, Compared, Missing, Step
from generator.document.blocks import Bar, Block, CheckBlock, Head, Heading, StepRow, anchor, mark, table, unique
from generator.document.formula import in_numbers, in_symbols, symbol
from generator.document.section import Context, Section
from generator.document.sentences import BASES, UNKNOWN, against, clipped, shown, verdict
from generator.formulas import is_formula
from generator.release.slices import Numbers
from generator.units import Show

ORDER = {"fail": 0, "not assessed": 1, "review": 2, "pass": 3}
TOGETHER = 12
SOURCE_IN_TABLE = 100
"""Characters of a source in the narrow column; the whole of it stands under the check."""
FEW_IDS = 3
"""Up to so many assumptions are named again and again."""
"""A block of at most this many rows is kept on one page."""
Place = tuple[str, str]
"""Anchor and title of a check."""
Done = dict[Step | frozenset[str], Place]
"""Steps, and sets of assumptions, printed already, and under which check."""


def summary(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """All checks, worst first."""
    show = context.show
    heads = (
        Head("Check", width=42),
        Head("Demand", True, 15),
        Head("Limit", True, 16),
        Head("Ratio", True, 9),
        Head("Status", width=18),
    )
    ranked = sorted(numbers.checks, key=lambda c: (ORDER[c.status], -(c.ratio if c.ratio is not None else 9.0), c.id))
    return (table("Checks, worst first", heads, [_summed(c, show) for c in ranked], is_titled=True),) if ranked else ()


def _summed(check: Check, show: Show) -> tuple[str, ...]:
    match check.outcome:
        case Missing():
            return (check.about.title, "", "", "", "NOT ASSESSED")
        case Compared() as c:
            return (
                check.about.title,
                shown(c.demand, show),
                against(c, show),
                show.ratio(check.ratio),
                check.status.upper(),
            )


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The checks by topic, in the order they were made."""
    anchors = dict(zip(range(len(numbers.checks)), unique(anchor("check", c.id) for c in numbers.checks), strict=True))
    topics = list(dict.fromkeys(c.about.topic for c in numbers.checks))
    placed = sorted(enumerate(numbers.checks), key=lambda p: (topics.index(p[1].about.topic), p[0]))
    made: list[Block] = []
    done: Done = {}
    for topic, held in groupby(placed, key=lambda p: p[1].about.topic):
        made.append(Heading(_named(topic), anchor("topic", topic)))
        made += [block(check, anchors[i], context, done) for i, check in held]
    return tuple(made)


def block(check: Check, name: str, context: Context, done: Done) -> CheckBlock:
    """One check as printed; `done` holds the steps printed before it, and where."""
    show, outcome = context.show, check.outcome
    made = isinstance(outcome, Compared)
    rows = _rows(check, name, show, done)
    return CheckBlock(
        name,
        check.id,
        check.about.title,
        f" · {check.state}" if check.state else "",
        check.status.upper(),
        mark(check.status),
        rows,
        shown(outcome.demand, show) if isinstance(outcome, Compared) else "",
        against(outcome, show) if isinstance(outcome, Compared) else "",
        show.ratio(check.ratio) if made else "",
        ("demand / limit" if outcome.sense == "<=" else "limit / demand") if isinstance(outcome, Compared) else "",
        _bar(check.ratio),
        verdict(check, show),
        tuple(_small(check, name, context, done)),
        len(rows) <= TOGETHER,
        made or bool(outcome.steps),
    )


def _rows(check: Check, name: str, show: Show, done: Done) -> tuple[StepRow, ...]:
    """The steps of a check: what was printed before is named, the last step is always printed."""
    here = (name, check.about.title)
    steps = [(s, done.get(s, here)) for s in check.outcome.steps]
    rows: list[StepRow] = []
    for where, run in groupby(steps[:-1], key=lambda pair: pair[1]):
        held = tuple(dict.fromkeys(s for s, _ in run))
        rows += [_step(s, show) for s in held] if where == here else [_above(held, where, show)]
    rows += [_step(s, show) for s, _ in steps[-1:]]
    for step, where in steps:
        done.setdefault(step, where)
    return tuple(rows)


def _above(steps: tuple[Step, ...], where: Place, show: Show) -> StepRow:
    """Steps that stand under another check, with what the last of them gave."""
    result = steps[-1].result
    count = "1 step" if len(steps) == 1 else f"{len(steps)} steps"
    name, title = where
    return StepRow(count, symbol(result.symbol), "", Markup(""), shown(result, show), "", f"#{name}", title)


def _step(step: Step, show: Show) -> StepRow:
    return StepRow(
        step.what,
        in_symbols(step.text),
        "=" if is_formula(step.text) else "with",
        in_numbers(step, show),
        show(step.result.value, step.result.unit),
        clipped(step.source, SOURCE_IN_TABLE),
    )


def _bar(ratio: float | None) -> Bar | None:
    if ratio is None:
        return None
    over = max(min(ratio - 1.0, 0.2), 0.0) * 50.0
    return Bar(f"{min(ratio, 1.0) * 50.0:.1f}mm", f"{over:.1f}mm", over > 0.0)


def _small(check: Check, name: str, context: Context, done: Done) -> list[tuple[str, str]]:
    about, outcome = check.about, check.outcome
    lines = [("Source", about.source)]
    if check.status != "pass":
        lines += [("If it does not hold", about.concern), ("Ask", about.ask)]
    if isinstance(outcome, Compared):
        lines.append(("Rests on", _rests_on(outcome, (name, check.about.title), done)))
        lines.append(
            (
                "Trials",
                f"{context.show.percent(outcome.fail_share)} break the limit; weakest value: "
                f"{BASES[Basis(outcome.basis)]}",
            )
        )
    if about.defer_to:
        lines.append(("Defer to", about.defer_to))
    return [(label, text) for label, text in lines if text]


def _rests_on(outcome: Compared, here: Place, done: Done) -> str:
    """The assumptions by id; a long list that was printed before is named by its check."""
    ids = frozenset(r for r in outcome.rests_on if not r.startswith(UNKNOWN))
    if not ids:
        return "stated values only"
    where = done.setdefault(ids, here)
    if where == here or len(ids) <= FEW_IDS:
        return ", ".join(sorted(ids))
    return f"the same {len(ids)} assumptions as {where[1]}"


def _named(word: str) -> str:
    return word[:1].upper() + word[1:].replace("_", " ").replace("-", " ")


SUMMARY = Section("summary", "Checks, worst first", Numbers, summary)
CHECKS = Section("checks", "Every check", Numbers, blocks, new_page=True)
