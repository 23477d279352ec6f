"""The designs side by side: what each changes, every result that tells them apart, money, and the guide to use."""

import math
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.calc.compared import (
    Comparison,
    Even,
    MoneyRow,
    NumberRow,
    Score,
    change_of,
    columns,
    dearer,
    letter,
    number_of,
)
from generator.document.blocks import Block, Head, Heading, Line, Points, Prose, table
from generator.document.plots import EVENS, picture
from generator.document.section import Context, Section
from generator.document.sentences import over_years
from generator.release.slices import GuideRow, Options
from generator.units import Show

ABREAST = 4
"""Options beside the base in one table; more stand in further tables, each beside the base."""


def designs(options: Options, context: Context) -> tuple[Block, ...]:
    """Each option and why it is looked at."""
    found = options.comparison
    blocks: list[Block] = [Prose(_foreword(found))]
    for number, c in enumerate(found.designs[1:], start=1):
        blocks += [Heading(f"{letter(number)}  {c.title}", f"option-{c.id}"), Prose((c.why,))]
    return tuple(blocks)


def changes(options: Options, context: Context) -> tuple[Block, ...]:
    """Every text of the spec an option changes."""
    heads = (Head("Path", width=40), Head("As designed", width=30), Head("Here", width=30))
    return tuple(
        table(f"What option {letter(number)} changes", heads, [(m.path, m.was, m.now) for m in c.moved], "tight")
        for number, c in enumerate(options.comparison.designs[1:], start=1)
    )


def _foreword(found: Comparison) -> tuple[str, ...]:
    weighed = (
        " The base rests on scale tickets, which no option can: its masses are corrected, those of the options are "
        "the listed ones."
        if found.base_weighed
        else ""
    )
    return (
        "Every option is the whole design with the changes listed at the end, read, calculated and priced like the "
        "base. Capacity comes first: an option whose checks fail is no option until they are cleared." + weighed,
        f"Letters stand for the options: {_letters(found)}.",
    )


def _letters(found: Comparison) -> str:
    return "; ".join(f"{letter(n)} {c.title}" for n, c in enumerate(found.designs[1:], start=1))


def _columns(found: Comparison) -> Iterator[tuple[int, ...]]:
    return columns(len(found.designs) - 1, ABREAST)


def _heads(columns: Sequence[int], first: str) -> tuple[Head, ...]:
    share = 66 / len(columns)
    return (Head(first, width=34), *(Head("As designed" if n == 0 else letter(n), True, share) for n in columns))


def side_by_side(options: Options, context: Context) -> tuple[Block, ...]:
    """Kinds in words, then every result in its group, each option with its difference from the base."""
    found, show = options.comparison, context.show
    made: list[Block] = []
    for places in _columns(found):
        lines: list[Line | Sequence[str]] = [(w.title, *(w.texts[n] for n in places)) for w in found.words]
        made.append(table("Kinds", _heads(places, ""), lines, "tight"))
        groups = dict.fromkeys(r.group for r in found.numbers)
        rows: list[Line | Sequence[str]] = []
        for group in groups:
            held = [r for r in found.numbers if r.group == group and any(math.isfinite(r.values[n]) for n in places)]
            rows += [("group", (group,)), *(_number_line(r, places, show) for r in held)] if held else []
        note = "Below each option its difference from the base. Ids in small type are those of results.json."
        made.append(table("Results", _heads(places, "Result"), rows, "tight", note))
    return tuple(made)


def _number_line(row: NumberRow, columns: Sequence[int], show: Show) -> tuple[str, ...]:
    better = f", {row.better} is better" if row.better else ""
    title = Markup("{}<br><small>{}{}</small>").format(row.title, row.id, better)
    return (title, *(_number(row, n, show) for n in columns))


def _number(row: NumberRow, n: int, show: Show) -> str:
    shown, change = number_of(row, n, show), change_of(row, n, show)
    return Markup("{}<br><small>{}</small>").format(shown, change) if change else shown


def money(options: Options, context: Context) -> tuple[Block, ...]:
    """What each costs to build, to move and over the years, and the moves a year at which it breaks even."""
    found, show = options.comparison, context.show
    if not found.money:
        return ()
    made: list[Block] = []
    for places in _columns(found):
        lines = [(_titled(r, found), *(_amount(r, n, show) for n in places)) for r in found.money]
        made.append(table("Money of the options", _heads(places, "Amounts with tax"), lines, "tight"))
    made += picture(EVENS, options, context)
    sentences = [f"{letter(n)}: {_even(e, found)}" for n, e in enumerate(found.evens, start=1) if e is not None]
    if sentences:
        made += [Heading("Moves a year at which an option pays", "break-even"), Points(tuple(sentences))]
    asks = [f"{letter(n)} also asks for, priced or not: {', '.join(_small(a) for a in c.asks)}."
            for n, c in enumerate(found.designs[1:], start=1) if c.asks]
    if asks:
        made += [Heading("What budgets forget with these options", "option-prompts"), Points(tuple(asks))]
    return tuple(made)


def _small(title: str) -> str:
    return title[:1].lower() + title[1:]


def _titled(row: MoneyRow, found: Comparison) -> str:
    if row.id in ("cost.years", "cost.years.p80"):
        return f"{row.title} ({over_years(found.years, found.moves, found.moved_once)})"
    return row.title


def _counted(count: int, of: str) -> str:
    return f"{count} {of}" if count == 1 else f"{count} {of}s"


def _amount(row: MoneyRow, n: int, show: Show) -> str:
    shown, more = show.money(row.values[n]), dearer(row, n, show)
    return Markup("{}<br><small>{}</small>").format(shown, more) if more else shown


def _even(even: Even, found: Comparison) -> str:
    years = f"over {_counted(found.years, 'year')}"
    if not math.isfinite(even.moves):
        if even.is_same:
            return f"costs the same as designed {years} at any number of moves."
        if even.cheaper_beyond == even.cheaper_at_none:
            return f"“{even.cheaper_at_none}” costs less {years} at any number of moves."
        return f"a move costs the same in both; “{even.cheaper_at_none}” costs less {years}."
    return (
        f"even at {even.moves:.1f} moves a year {years}; with fewer “{even.cheaper_at_none}” costs less, with more "
        f"“{even.cheaper_beyond}”."
    )


def flips(options: Options, context: Context) -> tuple[Block, ...]:
    """Checks that set the designs apart; those that are passed wherever they stand are counted in a sentence."""
    found = options.comparison
    made: list[Block] = []
    for places in _columns(found):
        rows = [(Markup("{}<br><small>{}</small>").format(f.title, f.id), *(f.statuses[n] for n in places))
                for f in found.flips if f.tells(places)]
        if rows:
            note = "A dash: the design has no such check." if any("" in row for row in rows) else ""
            made.append(table("Checks that change", _heads(places, "Check"), rows, "tight", note, is_titled=True))
    if not made:
        made.append(Prose(("Every check that two designs share stands alike in both.",)))
    return (*made, *_passing(found))


def _passing(found: Comparison) -> tuple[Block, ...]:
    """How many checks come and go with the parts of a design and are passed wherever they stand."""
    count = sum(f.comes_or_goes(range(len(f.statuses))) for f in found.flips)
    if not count:
        return ()
    what = "1 more check belongs" if count == 1 else f"{count} more checks belong"
    return (Prose((f"{what} to parts that not every design has; passed wherever they stand, they are not listed. "
                   "What quotes and scale tickets say is of the base alone and stands in the budget and on the scale "
                   "card.",), "small"),)


def weights(options: Options, context: Context) -> tuple[Block, ...]:
    """The person's own weights, or why there is no winner."""
    found = options.comparison
    if found.score is None:
        return (Prose((
            "No option is called the best here: that depends on what you weigh. Under “wishes” in project.yaml "
            "write what you weigh (the id of a result above) and its weight (a number), and the weighted "
            "sums are printed in this place.",
        )),)
    if not found.score.sums:
        return (Prose((f"None of the weighed results can be ranked in all designs: "
                       f"{', '.join(found.score.unused)}.",)),)
    left = f" Not used, because not every design has a number there: {', '.join(found.score.unused)}." \
        if found.score.unused else ""
    return (
        *(_weighted(found, found.score, places) for places in _columns(found)),
        Prose(("Of each result the worst design counts 0 and the best 1, the others in proportion; a sum is these "
               "times their weights over all weights, and says nothing about checks that fail." + left,), "small"),
    )


def _weighted(found: Comparison, score: Score, places: Sequence[int]) -> Block:
    titles = {r.id: r.title for r in found.numbers}
    heads = (Head("Result", width=32), Head("Weight", True, 8),
             *(Head(h.text, True, 60 / len(places)) for h in _heads(places, "")[1:]))
    lines: list[Line | Sequence[str]] = [
        (Markup("{}<br><small>{}</small>").format(titles[what], what), f"{weight:g}", *(f"{of[n]:.2f}" for n in places))
        for (what, weight), of in zip(score.weights, score.standings, strict=True)]
    lines.append(("total", ("Weighted sum", "", *(f"{score.sums[n]:.2f}" for n in places))))
    return table("Weights as you gave them, and what they make", heads, lines, "tight", is_titled=True)


def guide(options: Options, context: Context) -> tuple[Block, ...]:
    """From use to equipment: the classes, the answers, why."""
    own = options.comparison.use_class
    heads = (Head("", width=12), *(Head(f"{c}{' (yours)' if c == own else ''}", width=22) for c in "ABCD"))
    rows = [(r.what, *_answers(r)) for r in options.guide]
    uses = [("Use", *(use for _, use in options.classes))]
    return (
        Prose(("Common practice and judgement, no source. Capacity checks come first, whatever this table says. Roads "
               "of gravel count one class up; mountains want brakes on all wheels and the power check.",)),
        table(f"By use; this design is in class {own}", heads, [*uses, *rows], "tight"),
        Points(options.reasons),
    )


def _answers(row: GuideRow) -> tuple[str, ...]:
    return row.a, row.b, row.c, row.d


OPTIONS = Section("options", "What is set side by side", Options, designs)
SIDE_BY_SIDE = Section("side-by-side", "Side by side", Options, side_by_side)
OPTION_MONEY = Section("option-money", "Money and moves", Options, money)
FLIPS = Section("flips", "Checks that change", Options, flips)
WEIGHTS = Section("weights", "Your weights", Options, weights)
CHANGES = Section("changes", "What each option changes", Options, changes, new_page=True)
GUIDE = Section("usage-guide", "Which equipment for which use", Options, guide)
