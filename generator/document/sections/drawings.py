"""The drawings, each on its own page at true scale, with its schedules after it."""

from collections.abc import Iterable, Iterator, Sequence

from generator.document.blocks import Block, Head, Heading, Prose, SheetPage, anchor, table
from generator.document.section import Context, Drawn, Section
from generator.release.slices import Cover, Money

LONGEST, ROOM = 34, 4
"""Characters after which a text of a schedule is broken, and characters of room between columns."""
WITHOUT = (Head("Sheet", width=12), Head("Title", width=36), Head("Why not", width=52))


def sheets(cover: Cover, context: Context) -> tuple[Block, ...]:
    """What sheets there are, how to print them, and the sheets."""
    if not context.drawings and not context.lacking:
        return ()
    rows = [(s.number, s.title, s.size.name, s.scale) for s in context.drawings]
    lacking = [(s.number, s.title, s.reason) for s in context.lacking]
    heads = (Head("Sheet", width=12), Head("Title", width=52), Head("Size", width=16), Head("Scale", width=20))
    return (
        Prose(
            (
                "Print the sheets at 100 %, never fitted to the page. Every sheet carries a scale bar: measure it "
                "before trusting a print. A number not listed here is not part of the set. Zone 1, 2 and so on: "
                "lengths of the house from the front, each with one floor and one ceiling height.",
            )
        ),
        *((table("Sheets", heads, rows, is_titled=True),) if rows else ()),
        *((table("Sheets not drawn", WITHOUT, lacking),) if lacking else ()),
        *_pages(context.drawings),
    )


def money(held: Money, context: Context) -> tuple[Block, ...]:
    """The sheet of money: with the budget, so that nobody hands it on with the drawings."""
    listed = [s for s in context.sheets if s.tells_money]
    said = f"Sheet {', '.join(s.number for s in listed)}, on the next page: cost by section, cash by milestone."
    return (Prose((said,)), *_pages(listed)) if listed else ()


def _pages(listed: Iterable[Drawn]) -> Iterator[Block]:
    for s in listed:
        yield SheetPage(anchor("sheet", s.number), file_of(s), s.alt, f"{s.number}  {s.title}", paper_of(s))


def schedules(cover: Cover, context: Context) -> tuple[Block, ...]:
    """The dimension schedules of all sheets that are handed on, as tables."""
    made: list[Block] = []
    for sheet in context.drawings:
        if sheet.schedule:
            made.append(Heading(f"{sheet.number}  {sheet.title}", anchor("schedule", sheet.number)))
        for s in sheet.schedule:
            widths = _widths(s.head, s.rows)
            heads = tuple(Head(t, right, w) for t, right, w in zip(s.head, s.right, widths, strict=True))
            made.append(table(f"{sheet.number}: {s.title}", heads, s.rows, "schedule"))
    return tuple(made)


def _widths(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[float]:
    """Widths of columns in percent, after their longest text or word of the head; a sentence is broken."""
    longest = [max(len(word) for word in text.split(" ")) for text in head]
    for row in rows:
        longest = [max(n, min(len(text), LONGEST)) for n, text in zip(longest, row, strict=True)]
    return [round(100.0 * (n + ROOM) / sum(n + ROOM for n in longest), 1) for n in longest]


def file_of(sheet: Drawn) -> str:
    """The file name of a sheet."""
    return f"{sheet.number}.svg"


def paper_of(sheet: Drawn) -> str:
    """The named page of a sheet's size."""
    return "a3" if sheet.size.name == "A3" else "tabloid"


MONEY = Section("money-sheet", "Money on one sheet", Money, money)
SHEETS = Section("sheets", "Sheets", Cover, sheets)
SCHEDULES = Section("schedules", "Dimension schedules", Cover, schedules)
