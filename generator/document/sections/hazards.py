"""Pages to tick: what must not go wrong while building, lifting, hitching, towing, parking.

A phase begins a new page unless it fits whole under the one before it; so a page is never split for want of a line.
"""

from collections.abc import Sequence

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
from generator.draw.text import CAP_HEIGHT, wrap
from generator.release.slices import Cover, Hazards, TodoPage, TodoRow

ROOM = {True: 699.0, False: 749.0}
"""Points of height a page holds, Letter and A4: with the margins that end at its edges, less a few for safety."""
WIDTH = {True: 177.9, False: 172.0}
"""Width of the text in mm, Letter and A4."""
SHARES = (0.13, 0.31, 0.16, 0.18, 0.15)
"""Widths of the columns item, do, evidence, stop if, defer to."""
SIZES = (9.0, 9.0, 9.0, 9.0, 8.0)
"""Sizes of their type in points."""
_FIRST, _AROUND, _PADDING = 26.0, 111.0, 5.0
"""Points taken by the heading of the section; by heading, caution, table head and signature; by a row's edges."""

_CAPITALS = CAP_HEIGHT * 25.4 / 72.0
"""Height of capitals in mm of type a point high."""
_GUTTER, _MOST = 2.0, 99
_LINE = 11.0
"""Points from one line of a row to the next."""

DEFERS = "the rule in force, the maker's manual and the authority; where this list differs from them, they win"


def using(cover: Cover, context: Context) -> tuple[Block, ...]:
    """How to use the pages."""
    return (
        Points(
            (
                "One part a phase of the work. Tick a line only with its evidence at hand; write the date and initials "
                "beside it.",
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
    is_letter = context.cover.units == "us"
    starts = new_pages([height(p, WIDTH[is_letter]) for p in hazards.pages], ROOM[is_letter])
    held = zip(hazards.pages, anchors, starts, strict=True)
    return tuple(b for p, a, is_new in held for b in _phase(p, a, is_new))


def new_pages(heights: Sequence[float], room: float) -> tuple[bool, ...]:
    """Which phases begin a new page: those that do not fit whole under what stands on the page before (points)."""
    starts, used = [], _FIRST
    for n, high in enumerate(heights):
        is_new = n > 0 and used + high > room
        used = high if is_new else used + high
        starts.append(is_new)
    return tuple(starts)


def height(page: TodoPage, width: float) -> float:
    """Height of a phase on paper, points, in a text `width` mm wide; lines break as the printed font breaks them."""
    return _AROUND + sum(_row(row, width) for row in page.rows)


def _row(row: TodoRow, width: float) -> float:
    texts = (row.item, row.do, row.evidence, row.stop_if, row.defer_to)
    lines = (len(wrap(t, size * _CAPITALS, width * share - _GUTTER, _MOST))
             for t, share, size in zip(texts, SHARES, SIZES, strict=True))
    return _LINE * max(lines) + _PADDING


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
