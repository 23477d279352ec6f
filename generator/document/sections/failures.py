"""Every limit that is broken, cause by cause, for a person who reads the decision sheet alone."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from markupsafe import Markup

from generator.calc.record import Check, Compared
from generator.document.blocks import Block, Head, Line, Prose, table
from generator.document.section import Context, Section
from generator.document.sentences import against, clears, demanded
from generator.release.slices import Numbers

FEW = 4
"""So many broken limits always stand on the first page."""
TOPICS: Mapping[str, str] = MappingProxyType({
    "tow": "Tow vehicle", "masses": "Weights", "hitch": "Hitch", "axles": "Axles and their place",
    "ratings": "Axles, tyres, wheels, chains", "braking": "Brakes", "stability": "On the road", "neck": "Neck",
    "heights": "Heights", "lateral": "Widths", "ends": "Ends", "jacks": "Jacks", "frame": "Frame",
    "frame fit": "Frame", "parked": "Parked", "dwelling": "As a dwelling", "rules": "Rules", "money": "Quotes",
})
"""Topics in the order to think of them, and their names; others follow under their own."""
ALIKE = ("neck.rail_gap", "dwelling.escape", "dwelling.alarm", "dwelling.ceiling", "dwelling.loft")
"""Ids whose checks are one cause each."""


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """All broken limits, the worst of each cause with what it means, what clears it and whom to ask."""
    broken = [c for c in numbers.checks if c.status == "fail"]
    causes = _causes(broken)
    if len(causes) <= FEW:
        return ()
    order = list(dict.fromkeys((*TOPICS, *(c.about.topic for c in broken))))
    lines: list[Line] = []
    for topic in order:
        rows = [held for held in causes if held[0].about.topic == topic]
        if rows:
            lines.append(("group", (TOPICS.get(topic, topic.capitalize()),)))
            lines += [("row", _row(held, context)) for held in rows]
    heads = (Head("What is wrong", width=31), Head("What it means", width=23), Head("What clears it", width=25),
             Head("Whom to ask", width=21))
    said = (
        f"{len(broken)} limits are broken, for {len(causes)} reasons at most: one mistake breaks several limits. Begin at "
        "the top; what stands further down often clears itself. Order nothing that depends on a line of this table."
    )
    return (Prose((said,)), table("All that fails", heads, lines, "tight"))


def _causes(checks: Iterable[Check]) -> list[tuple[Check, ...]]:
    """The checks by cause, the worst of each first."""
    held: dict[str, list[Check]] = {}
    for check in checks:
        held.setdefault(_cause(check.id), []).append(check)
    return [tuple(sorted(c, key=lambda check: -(check.ratio or 9.0))) for c in held.values()]


def _cause(id: str) -> str:
    """An id without the number of its axle, or the stem of ids that belong together."""
    stem = next((a for a in ALIKE if id.startswith(f"{a}.")), "")
    return stem or ".".join(part for part in id.split(".") if not part.isdigit())


def _row(held: tuple[Check, ...], context: Context) -> tuple[str, ...]:
    check, show = held[0], context.show
    numbers = f"{demanded(check.outcome, show)} {against(check.outcome, show)}" \
        if isinstance(check.outcome, Compared) else ""
    others = f" and {len(held) - 1} more like it" if len(held) > 1 else ""
    title = Markup("{}<br><small>{}{}</small>").format(check.about.title, numbers, others)
    return title, check.about.concern, clears(check, show), check.about.ask


FAILURES = Section("failures", "All that fails", Numbers, blocks, new_page=True)
