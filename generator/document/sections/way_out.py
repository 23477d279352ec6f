"""One way out of all that fails, change by change; and the words of the sheet that need explaining."""

import re
from collections.abc import Iterable, Iterator

from generator.calc.record import Change
from generator.document.blocks import Block, Head, Prose, table
from generator.document.section import Context, Part, Section
from generator.document.sentences import asked_of, begun, first_look, instead
from generator.release.slices import Decision, MendRow

FEW = 3
"""So many titles of one step are named; the rest are counted."""
HEADS = (
    Head("No.", width=5), Head("Change", width=36), Head("What it clears", width=43), Head("Still broken", width=16)
)
LEFT = (Head("What remains", width=50), Head("Whom to ask", width=50))


def blocks(decision: Decision, context: Context) -> tuple[Block, ...]:
    """The changes one after the other, and what remains with whom to ask."""
    if not decision.way_out:
        return ()
    said = (
        "The first broken limit was cleared by its easiest change, the whole design worked again, and so on. It is one "
        "way out, not the best one: prices, taste and what a shop has in stock are not in it, and the likeliest values "
        "stand for the trials. Buy nothing on it; put the changes into the spec, look at the sheets again, and ask "
        "those named."
    )
    rows = [_row(n, m, context) for n, m in enumerate(decision.way_out, start=1)]
    found: list[Block] = [Prose((said,)), table("A way out", HEADS, rows, "tight", is_titled=True)]
    if decision.left:
        left = [(first_look(r.what), begun(asked_of(r.ask))) for r in decision.left]
        found += [table("What no change of this list clears, and whom to ask", LEFT, left, "tight")]
    else:
        found += [Prose(("Nothing fails after the last change. Have the maker confirm each part before you order.",))]
    return tuple(found)


def _row(number: int, mend: MendRow, context: Context) -> tuple[str, str, str, str]:
    breaks = f"; but then breaks {_named(mend.breaks)}" if mend.breaks else ""
    return str(number), "; and ".join(_said(c, context) for c in mend.changes), _named(mend.clears) + breaks, \
        str(mend.left) if mend.left else "nothing"


def _said(change: Change, context: Context) -> str:
    return f"{change.title}: {instead(change, context.show)}"


def _named(titles: tuple[str, ...]) -> str:
    more = f"; and {len(titles) - FEW} more" if len(titles) > FEW else ""
    return "; ".join(first_look(t) for t in titles[:FEW]) + more


def with_words(parts: tuple[Part, ...], words: Iterable[tuple[str, str]]) -> tuple[Part, ...]:
    """The parts of a sheet and, behind them, the words in them that need explaining."""
    text = " ".join(t for p in parts for b in p.blocks for t in _texts(b))
    rows = [(w, m) for w, m in words if re.search(rf"(?<!\w){re.escape(w)}s?(?!\w)", text, re.IGNORECASE)]
    if not rows:
        return parts
    found = table("Words of this sheet", (Head("Word", width=20), Head("What it means", width=80)), rows, "tight",
                  is_titled=True)
    has_more = any(p.new_page for p in parts)
    return (*parts, Part("words", "Words of this sheet", (found,), not has_more))


def _texts(part: object) -> Iterator[str]:
    """Every text inside a block."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, tuple):
        for p in part:
            yield from _texts(p)
    elif hasattr(part, "__dataclass_fields__"):
        for name in part.__dataclass_fields__:
            yield from _texts(getattr(part, name))


WAY_OUT = Section("way-out", "A way out", Decision, blocks, new_page=True)
