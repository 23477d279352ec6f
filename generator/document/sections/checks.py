"""Every check: the summary sorted by ratio, and one block a check with its working."""

from itertools import groupby

from markupsafe import Markup

from generator.calc.record import Basis, Check, Compared, Missing, Step
from generator.document.blocks import (
    NOTHING,
    Above,
    Bar,
    Block,
    CheckBlock,
    Head,
    Heading,
    StepRow,
    anchor,
    mark,
    table,
    unique,
)
from generator.document.formula import in_numbers, in_sentence, in_symbols, symbol
from generator.document.section import Context, Section
from generator.document.sections.route import cited
from generator.document.sentences import BASES, SIGNS, UNKNOWN, against, demanded, shown, verdict
from generator.formulas import in_work, is_formula
from generator.release.slices import Numbers
from generator.units import Show

ORDER = {"fail": 0, "not assessed": 1, "review": 2, "pass": 3}
TOGETHER = 5
"""A block of at most this many steps is kept on one page."""
REGISTER = "#s-assumptions"
"""Where the register stands."""
WORKED = "Every check is worked out, with its formulas and numbers, in document 3, workings."
USE_CLASS = (
    "Use class: how much the house is moved in a year. A parked, B occasional, C seasonal, D touring; gravel counts "
    "one class up. Each class asks for more reserve than the one before."
)
"""What the word means, printed where it is first used."""
Place = tuple[str, str]
"""Anchor and title of a check."""
Done = dict[Step, Place]
"""Steps printed already, and under which check."""


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
    ranked = sorted(numbers.technical, key=_rank)
    is_classed = any("use class" in c.about.title for c in ranked)
    note = " ".join((*((WORKED,) if context.codes.numbers else ()), *((USE_CLASS,) if is_classed else ())))
    rows = [_summed(c, show) for c in ranked]
    return (table("Checks, worst first", heads, rows, note=note, is_titled=True),) if rows else ()


def _rank(check: Check) -> tuple[int, float, str]:
    """Worst first; what has no ratio stands before the others of its status, but last among what passes."""
    without = 0.0 if check.status == "pass" else 9.0
    return ORDER[check.status], -(without if check.ratio is None else check.ratio), check.id


def _summed(check: Check, show: Show) -> tuple[str, ...]:
    match check.outcome:
        case Missing():
            return (check.about.title, "", "", "", "NOT ASSESSED")
        case Compared() as c:
            return (
                check.about.title,
                demanded(c, show),
                against(c, show),
                show.ratio(check.ratio),
                check.status.upper(),
            )


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The checks by topic, in the order they were made."""
    checks = numbers.technical
    anchors = dict(zip(range(len(checks)), unique(anchor("check", c.id) for c in checks), strict=True))
    topics = list(dict.fromkeys(c.about.topic for c in checks))
    placed = sorted(enumerate(checks), key=lambda p: (topics.index(p[1].about.topic), p[0]))
    made: list[Block] = []
    done: Done = {}
    for topic, held in groupby(placed, key=lambda p: p[1].about.topic):
        made.append(Heading(_named(topic), anchor("topic", topic)))
        made += [block(check, anchors[i], context, done) for i, check in held]
    return tuple(made)


def block(check: Check, name: str, context: Context, done: Done) -> CheckBlock:
    """One check as printed; `done` holds the steps printed before it, and where."""
    show, outcome = context.show, check.outcome
    rows = _rows(check, name, show, done)
    return CheckBlock(
        name,
        check.id,
        check.about.title,
        f" · {check.state.replace('_', ' ')}" if check.state else "",
        check.status.upper(),
        mark(check.status),
        rows,
        _compared(outcome, show) if isinstance(outcome, Compared) else "",
        show.ratio(check.ratio) if isinstance(outcome, Compared) else "",
        _bar(check.ratio),
        verdict(check, show),
        _small(check, context),
        _rests_on(outcome, context) if isinstance(outcome, Compared) else "",
        REGISTER if context.codes.numbers else "",
        len(rows) <= TOGETHER,
    )


def _compared(outcome: Compared, show: Show) -> Markup:
    """Demand and limit, each with its symbol so that it is found among the steps, and the rule of the ratio."""
    rule = "demand / limit" if outcome.sense == "<=" else "limit / demand"
    demand = Markup("{} = {}").format(symbol(outcome.demand.symbol), demanded(outcome, show))
    limit = Markup("{} = {}").format(symbol(outcome.limit.symbol), shown(outcome.limit, show))
    return Markup("Compared: {} {} {}; {} =").format(demand, SIGNS[outcome.sense], limit, rule)


def _rows(check: Check, name: str, show: Show, done: Done) -> tuple[StepRow, ...]:
    """The steps of a check: what was printed before is named, the last step is always printed."""
    here = (name, check.about.title)
    steps = [(s, done.get(s, here)) for s in check.outcome.steps]
    rows: list[StepRow] = []
    for is_here, runs in groupby(steps[:-1], key=lambda pair: pair[1] == here):
        held = list(dict.fromkeys(runs))
        rows += [_step(s, show) for s, _ in held] if is_here else [StepRow(above=_above(held, show))]
    rows += [_step(s, show) for s, _ in steps[-1:]]
    for step, where in steps:
        done.setdefault(step, where)
    return tuple(rows)


def _above(pairs: list[tuple[Step, Place]], show: Show) -> tuple[Above, ...]:
    """Steps that stand under other checks, with what the last of each run of them gave."""
    found = []
    for (name, title), run in groupby(pairs, key=lambda pair: pair[1]):
        steps = [s for s, _ in run]
        count = "1 step" if len(steps) == 1 else f"{len(steps)} steps"
        found.append(
            Above(symbol(steps[-1].result.symbol), in_work(steps[-1].result, show), count, f"#{name}", title)
        )
    return tuple(found)


def _step(step: Step, show: Show) -> StepRow:
    made = is_formula(step.text)
    return StepRow(
        step.what,
        in_symbols(step.text if made else step.text.removesuffix(".")),
        "=" if made else "with",
        in_numbers(step, show),
        NOTHING if made else symbol(step.result.symbol),
        in_work(step.result, show),
        in_sentence(cited(step.source, (step,))),
    )


def _bar(ratio: float | None) -> Bar | None:
    if ratio is None:
        return None
    over = max(min(ratio - 1.0, 0.2), 0.0) * 50.0
    return Bar(f"{min(ratio, 1.0) * 50.0:.1f}mm", f"{over:.1f}mm", over > 0.0)


def _small(check: Check, context: Context) -> str:
    about, outcome = check.about, check.outcome
    lines = [("Source", cited(about.source, outcome.steps))]
    if check.status != "pass":
        lines += [("If it does not hold", about.concern), ("Ask", about.ask)]
    if isinstance(outcome, Compared):
        broken = context.show.percent(outcome.fail_share)
        lines.append(("Trials", f"{broken} break the limit; weakest value: {BASES[Basis(outcome.basis)]}"))
    lines.append(("Defer to", about.defer_to))
    return " · ".join(f"{label}: {text.removesuffix('.')}" for label, text in lines if text)


def _rests_on(outcome: Compared, context: Context) -> str:
    """The assumptions by their codes in the register."""
    ids = [r for r in outcome.rests_on if not r.startswith(UNKNOWN)]
    return context.codes.listed(ids) if ids else "stated values only"


def _named(word: str) -> str:
    return word[:1].upper() + word[1:].replace("_", " ").replace("-", " ")


SUMMARY = Section("summary", "Checks, worst first", Numbers, summary)
CHECKS = Section("checks", "Every check", Numbers, blocks)
