"""The symbols of the workings: what each stands for, with its unit, told apart by the checks where one serves twice."""

from collections.abc import Iterator

from markupsafe import Markup

from generator.calc.record import Check, Step, Value
from generator.document.blocks import Block, Head, table
from generator.document.formula import symbol
from generator.document.lexicon import words
from generator.document.section import Context, Section
from generator.document.sections.route import STEPS
from generator.formulas import GRAVITY, WORK, G, is_formula
from generator.release.slices import Numbers
from generator.units import Show

TITLE = "Symbols"
Use = tuple[str, str, str, str]
"""A symbol, what it stands for, its unit key, the topic of the check."""


def symbols(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """Every symbol in every working, sorted; one that stands for several things says in which checks."""
    say = context.cover.say
    told = {(name, say(means), unit, topic) for c in numbers.technical for name, means, unit, topic in used(c)}
    uses = sorted(told, key=lambda u: (u[0].casefold(), u))
    if not uses:
        return ()
    heads = (Head("Symbol", width=14), Head("Stands for, unit (in checks on)", width=86))
    gravity = (symbol(GRAVITY), f"standard gravity, {G} N/kg = {context.show(float(G), 'N/kg')}")
    rows = sorted([gravity, *_rows(uses, context.show)], key=lambda row: (row[0].casefold(), row[0]))
    note = "A letter may serve twice; within one check it means one thing. Regions stand for their limits."
    return (table(TITLE, heads, rows, note=note, is_titled=True),)


def used(check: Check) -> Iterator[Use]:
    """Each symbol of one check: what a step gives by the name of the step, all else by the lexicon."""
    topic, known = check.about.topic, dict[str, float]()
    for step in check.outcome.steps:
        if step.what in STEPS:
            continue
        for v in step.inputs:
            if known.get(v.symbol) != v.value:
                yield (v.symbol, said(v, topic, step), v.unit, topic)
        known[step.result.symbol] = step.result.value
        yield (step.result.symbol, _result(step), step.result.unit, topic)


def said(value: Value, topic: str, step: Step) -> str:
    """What an input stands for; where nobody has said, the step it goes into."""
    return words(value.symbol, value.unit, topic) or f"goes into: {step.what[:1].lower()}{step.what[1:]}"


def _result(step: Step) -> str:
    what = step.what if is_formula(step.text) else step.what.partition(":")[0]
    return what[:1].lower() + what[1:]


def _rows(uses: list[Use], show: Show) -> Iterator[tuple[Markup, str]]:
    """A row for each symbol, or run of numbered symbols of one meaning; several meanings with their checks."""
    merged: dict[tuple[str, str, str], tuple[set[str], set[str]]] = {}
    for name, means, unit, topic in uses:
        names, topics = merged.setdefault((_stem(name, means, uses), means, unit), (set(), set()))
        names.add(name)
        topics.add(topic)
    for stem in dict.fromkeys(stem for stem, _, _ in merged):
        held = [(means, unit, *rest) for (s, means, unit), rest in merged.items() if s == stem]
        every = sorted({n for _, _, names, _ in held for n in names}, key=lambda n: (len(n), n))
        said = [_meaning(means, unit, topics if len(held) > 1 else set(), show) for means, unit, _, topics in held]
        yield _run(every), "; ".join(said)


def _meaning(means: str, unit: str, topics: set[str], show: Show) -> str:
    label = show.label(WORK.get(unit, unit))
    where = f" ({', '.join(sorted(topics)).replace('_', ' ')})" if topics else ""
    return f"{means}{', ' if label else ''}{label}{where}"


def _stem(name: str, means: str, uses: list[Use]) -> str:
    base = name.rpartition("_")[0] if name.rpartition("_")[2].isdigit() else name
    alike = {n for n, m, _, _ in uses if m == means and n.rpartition("_")[0] == base}
    return base if len(alike) > 1 else name


def _run(names: list[str]) -> Markup:
    if len(names) == 1:
        return symbol(names[0])
    return Markup("{} to {}").format(symbol(names[0]), symbol(names[-1]))


SYMBOLS = Section("symbols", TITLE, Numbers, symbols)
