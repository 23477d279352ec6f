"""Pages to tick: what must not go wrong while building, lifting, hitching, towing, parking."""

from generator.document.blocks import (
    Block,
    Caution,
    Checklist,
    Head,
    Heading,
    Points,
    Signature,
    TodoLine,
    anchor,
    table,
    unique,
)
from generator.document.section import Context, Section
from generator.release.slices import Cover, Hazards, TodoPage

DEFERS = "the rule in force, the maker's manual and the authority; where this list differs from them, they win"


def using(cover: Cover, context: Context) -> tuple[Block, ...]:
    """How to use the pages."""
    return (
        Points(
            (
                "One page a phase. Tick a line only with its evidence at hand; write the date and initials beside it.",
                "Stop means stop: nothing goes on until the line is settled by whoever is named under defer to.",
                "Nobody is ever inside while the house is being moved, and nobody is ever under a load that "
                "rests on jacks alone.",
                "The list points to the rule that governs; it does not replace the rule, a manual, or a "
                "licensed person.",
            )
        ),
    )


def phases(hazards: Hazards, context: Context) -> tuple[Block, ...]:
    """Which pages there are."""
    rows = [(p.title, str(len(p.rows)), p.caution) for p in hazards.pages]
    return (
        table(
            "Pages", (Head("Page", width=28), Head("Lines", True, 8), Head("Caution", width=64)), rows, is_titled=True
        ),
    )


def pages(hazards: Hazards, context: Context) -> tuple[Block, ...]:
    """One page a phase."""
    anchors = unique(anchor("phase", p.id) for p in hazards.pages)
    return tuple(b for i, (p, a) in enumerate(zip(hazards.pages, anchors, strict=True)) for b in _phase(p, a, i > 0))


def _phase(page: TodoPage, name: str, is_new_page: bool) -> tuple[Block, ...]:
    lines = tuple(TodoLine(r.item, r.do, r.evidence, r.stop_if, r.defer_to) for r in page.rows)
    return (
        Heading(page.title, name, is_new_page),
        Caution(page.caution, DEFERS),
        Checklist(page.title, lines),
        Signature(("Done by", "Date", "Place")),
    )


USING = Section("using", "How to use these pages", Cover, using)
PHASES = Section("phases", "Pages", Hazards, phases)
PAGES = Section("pages", "Pages to tick", Hazards, pages, new_page=True)
