"""What welding fixes for ever, and the next decision."""

from generator.document.blocks import Block, Head, Prose, table
from generator.document.section import Context, Section
from generator.document.sentences import opening
from generator.release.slices import Decision

MOST = 6


HEADS = (
    Head("What", width=26),
    Head("Value", width=18),
    Head("Window that works", width=34),
    Head("Freezes at", width=22),
)


def brief(decision: Decision, context: Context) -> tuple[Block, ...]:
    """Six rows: what, value, window, when it freezes."""
    rows = [
        (opening(r.what, 90), r.value, r.window, r.freezes)
        for r in decision.fixed[:MOST]
    ]
    return (
        (table("Fixed by welding", HEADS, rows, "tight", is_titled=True, left_out=len(decision.fixed) - len(rows)),)
        if rows
        else ()
    )


def whole(decision: Decision, context: Context) -> tuple[Block, ...]:
    """All rows."""
    rows = [(r.what, r.value, r.window, r.freezes) for r in decision.fixed]
    return (table("Fixed by welding", HEADS, rows, is_titled=True),) if rows else ()


def next_decision(decision: Decision, context: Context) -> tuple[Block, ...]:
    """The next decision and what waiting costs."""
    texts = [opening(decision.next, 300), opening(decision.costs_of_waiting, 300)]
    return (Prose(tuple(t for t in texts if t)),) if any(texts) else ()


FIXED_BRIEF = Section("fixed", "Fixed by welding", Decision, brief)
FIXED = Section("fixed", "Fixed by welding", Decision, whole)
NEXT_DECISION = Section("next", "Next decision", Decision, next_decision)
