"""The budget: totals, splits, curve, lines, what is not priced. Money of the project."""

from collections.abc import Iterable
from decimal import Decimal
from itertools import accumulate

from generator.calc.findings import Budget, CostRow, Prompt, SumRow
from generator.document import plots
from generator.document.blocks import Block, Facts, Head, Line, Points, Prose, table
from generator.document.plots.money import named
from generator.document.section import Context, Section
from generator.document.sentences import clipped, over_years
from generator.release.slices import Money
from generator.units import Show


def brief(money: Money, context: Context) -> tuple[Block, ...]:
    """Base, P50, P80 and what is not priced, for the one-page sheet."""
    b, show = money.budget, context.show
    heads = (
        Head("Base estimate", True),
        Head("Even chance (P50)", True),
        Head("Four in five (P80)", True),
        Head("Not priced", True),
    )
    row = (show.money(b.base), show.money(b.p50), show.money(b.p80), f"{len(b.not_priced)} prompts")
    names = clipped(not_priced_words(b), 170)
    return (table("Money", heads, [row], "tight", names, is_titled=True),)


def not_priced_words(budget: Budget) -> str:
    """What is not priced, as a sentence to stand beside a total."""
    return f"Not priced: {names_not_priced(budget)}" if budget.not_priced else names_not_priced(budget)


def names_not_priced(budget: Budget) -> str:
    """The first three prompts nobody answered by name, and how many more."""
    missing = budget.not_priced
    if not missing:
        return "Every prompt is answered."
    first = ", ".join(p.title for p in missing[:3])
    return f"{first} and {len(missing) - 3} more." if len(missing) > 3 else f"{first}."


def totals(money: Money, context: Context) -> tuple[Block, ...]:
    """The totals, and the note that stands beside each of them."""
    b, show = money.budget, context.show
    return (
        Facts(
            "Totals with tax",
            (
                ("Base estimate: sum of the likely amounts", show.money(b.base)),
                ("P50: as likely to be over as under", show.money(b.p50)),
                ("P80: kept in four trials of five", show.money(b.p80)),
                ("Contingency: P80 less base", show.money(b.contingency)),
                ("Chance that the base is enough", show.percent(b.below_base)),
                ("Not priced", names_not_priced(b)),
            ),
        ),
        Prose(
            (
                "The base is the sum of what each line most likely costs. Lines run over more often than under, "
                "so the base "
                "is not the middle: plan on P50, keep P80 within reach.",
            ),
            "small",
        ),
        *((Points(b.notes),) if b.notes else ()),
        *plots.picture(plots.CURVE, money, context),
    )


def splits(money: Money, context: Context) -> tuple[Block, ...]:
    """By section, by status, by milestone."""
    b, show = money.budget, context.show
    return (
        _sums("By section", b.sections, show),
        *plots.picture(plots.SECTIONS, money, context),
        _sums("By status of the price", b.statuses, show),
        _milestones(b.milestones, show),
        Prose((f"{not_priced_words(b)} No total here includes them.",), "small"),
    )


def years(money: Money, context: Context) -> tuple[Block, ...]:
    """What moves and years cost after the build, line by line and in all."""
    y, show = money.budget.years, context.show
    if y is None:
        return (Prose(("Nothing is priced for moving and keeping the house: write `running` in costs.yaml.",)),)
    heads = (Head("", width=40), Head("When", width=18), Head("Each time", True, 14), Head("Times", True, 10),
             Head(f"In {y.years} years", True, 18))
    lines: list[Line] = [("row", (r.title, r.each, show.money(r.once), f"{float(r.times):.4g}", show.money(r.total)))
                         for r in y.rows]
    lines.append(("total", ("Running cost", "", "", "", show.money(y.running))))
    return (
        table(over_years(y.years, y.moves, y.once), heads, lines),
        *plots.picture(plots.YEARS, money, context),
        Facts("Moves and years", (
            *((("One move", show.money(y.a_move)),) if y.a_move else ()),
            ("One year standing still", show.money(y.a_year)),
            (f"Base estimate and {y.years} years", show.money(y.total)),
            (f"Base estimate and {y.years} years, kept in four trials of five", show.money(y.p80)),
        )),
        Prose(("At the prices of today: no interest, no rise of prices, nothing for a sale.",), "small"),
    )


def quotes(money: Money, context: Context) -> tuple[Block, ...]:
    """The quotes side by side, levelled, with what each leaves open."""
    found, show = money.quotes, context.show
    if found is None:
        return ()
    heads = (Head("", width=30), *(Head(h.title, True, 70 / len(found.heads)) for h in found.heads))
    lines: list[Line] = [("row", (named(r.what), *(t if isinstance(t, str) else show.money(t) for t in r.said)))
                         for r in found.rows]
    lines += [
        ("total", ("As quoted", *(show.money(h.stated) for h in found.heads))),
        ("total", ("Levelled", *(_levelled(h.levelled, show) for h in found.heads))),
        ("row", ("Weeks to delivery", *("" if h.weeks is None else str(h.weeks) for h in found.heads))),
        ("row", ("Holds until", *(h.valid_to for h in found.heads))),
    ]
    note = "Levelled: what a quote leaves open is filled with the dearest price another quote gives for it."
    left = [f"{h.title} leaves open: {', '.join(h.holes)}." for h in found.heads if h.holes]
    left += [f"{h.title} differs: {text}" for h in found.heads for text in h.differs]
    return (table("Quotes side by side", heads, lines, note=note), *((Points(tuple(left)),) if left else ()))


def _levelled(amount: Decimal | None, show: Show) -> str:
    return "no quote prices it" if amount is None else show.money(amount)


def _sums(caption: str, rows: Iterable[SumRow], show: Show) -> Block:
    held = tuple(rows)
    lines: list[Line] = [("row", (named(r.title), str(r.lines), show.money(r.total))) for r in held]
    if held:
        lines.append(
            (
                "total",
                ("Total", str(sum(r.lines for r in held)), show.money(sum((r.total for r in held[1:]), held[0].total))),
            )
        )
    return table(caption, (Head("", width=60), Head("Lines", True, 15), Head("Likely with tax", True, 25)), lines)


def _milestones(rows: tuple[SumRow, ...], show: Show) -> Block:
    sums = accumulate(r.total for r in rows)
    lines = [
        (named(r.title), str(r.lines), show.money(r.total), show.money(s)) for r, s in zip(rows, sums, strict=True)
    ]
    heads = (
        Head("Milestone", width=45),
        Head("Lines", True, 11),
        Head("Due then", True, 20),
        Head("Paid by then", True, 24),
    )
    return table("Cash by milestone", heads, lines)


def lines(money: Money, context: Context) -> tuple[Block, ...]:
    """Every line, grouped by section with subtotals."""
    b, show = money.budget, context.show
    heads = (
        Head("Line", width=37),
        Head("Status", width=12),
        Head("Low", True, 12),
        Head("Likely", True, 12),
        Head("High", True, 12),
        Head("With tax", True, 15),
    )
    made: list[Line] = []
    for part in b.sections:
        rows = [r for r in b.lines if r.section == part.title]
        made += [("group", (named(part.title),)), *(_line(r, show) for r in rows)]
        made.append(("total", ("Subtotal", f"{part.lines} lines", "", "", "", show.money(part.total))))
    made.append(("total", ("All lines", f"{len(b.lines)} lines", "", "", "", show.money(b.base))))
    note = "Low, likely and high are whole amounts of the line before tax. " + not_priced_words(b)
    return (table("Budget lines", heads, made, note=note, is_titled=True),)


def _line(row: CostRow, show: Show) -> Line:
    return (
        "row",
        (
            row.title,
            row.status,
            show.money(row.low),
            show.money(row.likely),
            show.money(row.high),
            show.money(row.total),
        ),
    )


def prompts(money: Money, context: Context) -> tuple[Block, ...]:
    """What is often forgotten: not priced first, then how each is answered."""
    b = money.budget
    answered = [p for p in b.prompts if p not in b.not_priced]
    heads = (Head("Often forgotten", width=34), Head("Asked of", width=42), Head("Typical range", width=24))
    found = [table("Not priced", heads, [(p.title, p.why, p.typical) for p in b.not_priced])] if b.not_priced else []
    return (*found, *_answered(answered))


def _answered(held: list[Prompt]) -> tuple[Block, ...]:
    if not held:
        return ()
    heads = (Head("Often forgotten", width=40), Head("How the budget answers it", width=60))
    return (table("Answered", heads, [(p.title, p.answer) for p in held]),)


def reading(money: Money, context: Context) -> tuple[Block, ...]:
    """How to read the budget."""
    return (
        Points(
            (
                "An estimate is our own; a quote has a date it is good until; only ordered and paid lines are certain.",
                "An amount is quantity times unit price; tax is added line by line.",
                "This is not a price from anybody: prices come from the people who sell, in writing.",
            )
        ),
    )


MONEY_BRIEF = Section("money", "Money", Money, brief)
TOTALS = Section("totals", "What it costs", Money, totals)
SPLITS = Section("splits", "Where it goes and when", Money, splits)
QUOTES = Section("quotes", "Quotes received", Money, quotes)
YEARS = Section("years", "Moves and years", Money, years)
LINES = Section("lines", "Budget lines", Money, lines, new_page=True)
PROMPTS = Section("prompts", "What is often forgotten", Money, prompts)
READING = Section("reading", "How to read this", Money, reading)
