"""Every limit that is broken, cause by cause, for a person who reads the decision sheet alone."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from markupsafe import Markup

from generator.calc.record import TOPIC_ORDER, Check, Compared, mending_order
from generator.document.blocks import Block, Head, Line, Prose, table
from generator.document.section import Context, Section
from generator.document.sentences import clears, first_look, has_needs, instead
from generator.release.slices import Numbers

MOST = 2
"""Ways out, and things a way out breaks, that are named."""
FEW = 4
"""So many broken limits always stand on the first page."""
TOPICS: Mapping[str, str] = MappingProxyType({
    "masses": "Weights", "tow": "Tow vehicle", "hitch": "Hitch", "axles": "Axles and their place",
    "ratings": "Axles, tyres, wheels, chains", "braking": "Brakes", "stability": "On the road", "neck": "Neck",
    "heights": "Heights", "lateral": "Widths", "ends": "Ends", "jacks": "Jacks", "frame": "Frame",
    "frame fit": "Frame", "parked": "Parked", "dwelling": "As a dwelling", "rules": "Rules", "money": "Quotes",
})
"""What the topics are called here; others stand under their own name."""
ALIKE = ("neck.rail_gap", "dwelling.escape", "dwelling.alarm", "dwelling.ceiling", "dwelling.loft")
"""Ids whose checks are one cause each."""


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """All broken limits, the worst of each cause with what it means, what clears it and whom to ask."""
    broken = [c for c in numbers.checks if c.status == "fail"]
    causes, titles = _causes(broken), {c.id: first_look(c.about.title) for c in numbers.checks}
    if len(causes) <= FEW:
        return ()
    order = list(dict.fromkeys((*TOPIC_ORDER, *(c.about.topic for c in broken))))
    lines: list[Line] = []
    for topic in order:
        rows = sorted((h for h in causes if h[0].about.topic == topic), key=lambda h: mending_order(h[0]))
        if rows:
            lines.append(("group", (TOPICS.get(topic, topic.capitalize()),)))
            lines += [("row", _row(held, titles, context)) for held in rows]
    heads = (Head("What does not hold", width=30), Head("What it means", width=23), Head("What clears it", width=26),
             Head("Whom to ask", width=21))
    said = (
        f"{len(broken)} limits are broken, for {len(causes)} reasons at most: one mistake breaks several limits. Begin "
        "with the first line of page 1; what stands further down often clears itself. Order nothing that depends on a "
        "line of this table."
    )
    return (Prose((said,)), table("All that fails", heads, lines, "tight", is_titled=True))


def has_page(checks: Iterable[Check]) -> bool:
    """Whether so much fails that it gets pages of its own."""
    return len(_causes(c for c in checks if c.status == "fail")) > FEW


def _causes(checks: Iterable[Check]) -> list[tuple[Check, ...]]:
    """The checks by cause, the worst of each first."""
    held: dict[str, list[Check]] = {}
    for check in checks:
        held.setdefault(_cause(check.id), []).append(check)
    return [tuple(sorted(c, key=mending_order)) for c in held.values()]


def _cause(id: str) -> str:
    """An id without the number of its axle, or the stem of ids that belong together."""
    stem = next((a for a in ALIKE if id.startswith(f"{a}.")), "")
    if id.startswith("dwelling.") and not stem:
        stem = ".".join(id.split(".")[:2])  # each way up is one cause
    return stem or ".".join(part for part in id.split(".") if not part.isdigit())


def _ways_out(check: Check, titles: Mapping[str, str], context: Context) -> str:
    """Up to two single changes that clear a check, those that break least first, with what each breaks."""
    if check.pair:
        return f"{clears(check, context.show).partition(';')[0]}; two together do: " + " and ".join(
            f"{c.title}: {instead(c, context.show)}{_breaks(c.upsets, titles)}" for c in check.pair) + "."
    found = sorted(check.changes, key=lambda c: len(c.upsets))[:MOST]
    if not check.changes and not check.about.levers:
        return "Nothing to work out: do what the last column asks."
    return " Or: ".join(f"{c.title}: {instead(c, context.show)}{_breaks(c.upsets, titles)}." for c in found) \
        or "No single change clears it: clear what stands above first."


def _breaks(upsets: tuple[str, ...], titles: Mapping[str, str]) -> str:
    if not upsets:
        return ""
    named = "; ".join(titles.get(i, i) for i in upsets[:MOST])
    more = f" and {len(upsets) - MOST} more" if len(upsets) > MOST else ""
    return f" (but then breaks: {named}{more})"


def _row(held: tuple[Check, ...], titles: Mapping[str, str], context: Context) -> tuple[str, ...]:
    check, show = held[0], context.show
    numbers = has_needs(check.outcome, show) if isinstance(check.outcome, Compared) else ""
    others = f" and {len(held) - 1} more like it" if len(held) > 1 else ""
    title = Markup("{}<br><small>{}{}</small>").format(first_look(check.about.title), numbers, others)
    return title, check.about.concern, _ways_out(check, titles, context), check.about.ask


FAILURES = Section("failures", "All that fails", Numbers, blocks, new_page=True)
