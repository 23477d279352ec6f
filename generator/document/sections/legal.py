"""Rules and papers: the declared legal path, the rules the design wakes, what is not held, the paths side by side."""

import math
from collections.abc import Iterable, Iterator

from generator.calc.legal import Bounded, Rulings, Trigger
from generator.document.blocks import DASH, Block, Caution, Facts, Head, Prose, mark, table
from generator.document.ruling import RuleLine, RuleTable
from generator.document.section import Context, Section
from generator.document.sentences import SIGNS
from generator.release.slices import Legal
from generator.units import Show

TITLE = "Rules and papers"
UNDECIDED = "undecided"
ANSWERED = ("PASS",)
"""Words in the box of a rule that leave nothing to ask about this design."""
TOLD = "told"
"""The look of a rule that is woken: neither good nor bad."""
CONFIDENCES = {"read": "", "computed": "computed from it", "memory": "from memory", "practice": "common practice"}
"""How a rule is known, where that needs saying."""

USE = (
    "These tables find questions; they answer none. A rule counts as settled when the office named has answered in "
    "writing: the box is for whom was asked, the reply and its date."
)
KEEP = "Written into project.yaml under confirmations, with the id printed beside the rule, replies are printed here."


def blocks(legal: Legal, context: Context) -> tuple[Block, ...]:
    """The rules of the route on this design."""
    rulings, show = legal.rulings, context.show
    woken = tuple(t for t in rulings.triggers if t.woken is not False)
    asleep = tuple(t for t in rulings.triggers if t.woken is False)
    return (
        *_warning(rulings),
        Prose((USE, *((KEEP,) if legal.keeps_replies else ()))),
        *_path(rulings, woken),
        RuleTable("Rules this design wakes", tuple(_lines(rulings, woken, show))),
        *_not_held(rulings),
        *_asleep(asleep, show),
        *_side_by_side(rulings),
    )


def _warning(rulings: Rulings) -> Iterator[Block]:
    if rulings.stale:
        named = "; ".join(f"{s.source}: text of {s.as_of}, {s.rules} rule{'' if s.rules == 1 else 's'}"
                          for s in rulings.stale)
        yield Caution(f"More than a year old on {rulings.date}: {named}.",
                      "the law in force: look each rule up before anything rests on it")


def _path(rulings: Rulings, woken: Iterable[Trigger]) -> Iterator[Block]:
    """The declared path with what contradicts it; nothing for whoever is not told of it."""
    if not rulings.path:
        return
    declared = next((p for p in rulings.paths if p.id == rulings.path), None)
    if declared is None:
        yield Facts("Legal path", (
            ("Declared", UNDECIDED),
            ("So", "not assessed: the table at the end of this section says what each path would ask"),
        ))
        return
    against = "; ".join(declared.against)
    held = any(t.path == rulings.path for t in rulings.triggers)
    none = "none of the claims held here" if held else "not assessed: no claim is held for this route"
    yield Facts("Legal path", (("Declared", declared.title), ("Contradicted by", against or none)))


def _lines(rulings: Rulings, woken: tuple[Trigger, ...], show: Show) -> Iterator[RuleLine]:
    for topic, words in rulings.topics:
        here = tuple(t for t in woken if t.topic == topic)
        if here:
            yield RuleLine(words, is_group=True)
            yield from (_line(t, rulings, show) for t in here)
    if rulings.unknown_regions:
        yield RuleLine("Regions that no table holds", is_group=True)
        yield from (_unknown(code) for code in rulings.unknown_regions)


def _line(t: Trigger, rulings: Rulings, show: Show) -> RuleLine:
    word, look = _word(t)
    answer = "; ".join(filter(None, (t.asked.asked, t.asked.reply, t.asked.date)))
    known = CONFIDENCES[t.confidence]
    read = (t.source, "" if known in t.source else known, f"as of {t.as_of}") if t.is_held else ()
    source = "; ".join(filter(None, read))
    route, names = rulings.regions, dict(rulings.names)
    whole = t.regions == route and len(route) > 1
    where = "whole route" if whole else ", ".join(names.get(c, c) for c in t.regions)
    return RuleLine(
        title=t.title, id=" · ".join(filter(None, (t.id, where))), compared=_compared(t, show) or (DASH,),
        word=word, mark=look, note=_note(t, show), follows=t.follows, source=source,
        confirm=t.confirm, answer=answer, is_open=not answer and word not in ANSWERED,
    )


def _unknown(code: str) -> RuleLine:
    return RuleLine(code, word="NOT ASSESSED", mark=mark("not assessed"), is_open=True,
                    follows="Nobody has looked up what this region asks.",
                    confirm="The road and vehicle authority of the region")


def _word(t: Trigger) -> tuple[str, str]:
    """Whether a rule is woken, or how what it asks came out, as the word in the box and its look."""
    if t.woken is None or t.status == "not assessed":
        return "NOT ASSESSED", mark("not assessed")
    if t.status:
        return t.status.upper(), mark(t.status)
    if t.tests:
        return "YES", mark("review") if t.path else TOLD
    return ("ASK", mark("not assessed")) if t.path else ("ALWAYS", TOLD)


def _note(t: Trigger, show: Show) -> str:
    """What is unknown, or how many trials wake a rule that not all wake."""
    if t.needs:
        return f"needs {', '.join(t.needs)}"
    return f"in {show.percent(t.share)} of trials" if 0.0 < t.share < 1.0 else ""


def _compared(t: Trigger, show: Show) -> tuple[str, ...]:
    asked = () if t.must is None else (f"asked: {said(t.must, show)}",)
    return (*(said(each, show) for each in t.tests), *asked)


def said(test: Bounded, show: Show) -> str:
    """A quantity against its limit: `Overall width 8'-5" ≥ 6'-8"`."""
    return f"{test.what} {_known(test.value, test, show)} {_limit(test, show)}"


def _waits(test: Bounded, show: Show) -> str:
    """A quantity, and from where on a rule would wake."""
    return f"{test.what} {_known(test.value, test, show)}, wakes {_limit(test, show)}"


def _limit(test: Bounded, show: Show) -> str:
    return f"{SIGNS.get(test.sign, test.sign)} {_known(test.limit, test, show)}"


def _known(value: float, test: Bounded, show: Show) -> str:
    return show(value, test.unit) if test.unit and math.isfinite(value) else "unknown"


def _asleep(asleep: tuple[Trigger, ...], show: Show) -> Iterator[Block]:
    if asleep:
        heads = (Head("Rule", width=40), Head("Here, and what would wake it", width=60))
        rows = [(t.title, "; ".join(filter(None, (*(_waits(x, show) for x in t.tests), _note(t, show)))))
                for t in asleep]
        yield table("Looked at, and not woken", heads, rows, kind="tight")


def _not_held(rulings: Rulings) -> Iterator[Block]:
    if rulings.not_held:
        heads = (Head("Region", width=40), Head("No rule held on", width=60))
        rows = [(", ".join(n.regions), "; ".join(n.topics)) for n in rulings.not_held]
        yield table("Not held here, so not assessed: ask", heads, rows, kind="tight")


def _side_by_side(rulings: Rulings) -> Iterator[Block]:
    if not rulings.paths:
        return
    questions = tuple(q for q, _ in rulings.paths[0].answers)
    heads = (Head("", width=16), *(Head(p.title, width=21) for p in rulings.paths))
    rows = [(q, *(dict(p.answers).get(q, "") for p in rulings.paths)) for q in questions]
    rows.append(("Contradicted here by", *("; ".join(p.against) or "nothing held here" for p in rulings.paths)))
    yield table("What each legal path would ask", heads, rows, kind="tight")


RULES = Section("rules", TITLE, Legal, blocks)
