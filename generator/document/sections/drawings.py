"""The drawings, each on its own page at true scale, with its schedules after it."""

from generator.document.blocks import Block, Head, Heading, Prose, SheetPage, anchor, table
from generator.document.section import Context, Drawn, Section
from generator.release.slices import Cover


def sheets(cover: Cover, context: Context) -> tuple[Block, ...]:
    """What sheets there are, how to print them, and the sheets."""
    if not context.sheets:
        return ()
    rows = [(s.number, s.title, s.size.name, s.scale) for s in context.sheets]
    heads = (Head("Sheet", width=12), Head("Title", width=52), Head("Size", width=16), Head("Scale", width=20))
    return (
        Prose(
            (
                "Print the sheets at 100 %, never fitted to the page. Every sheet carries a scale bar: measure "
                "it before trusting a print.",
            )
        ),
        table("Sheets", heads, rows, is_titled=True),
        *(
            SheetPage(anchor("sheet", s.number), file_of(s), s.alt, f"{s.number}  {s.title}", paper_of(s))
            for s in context.sheets
        ),
    )


def schedules(cover: Cover, context: Context) -> tuple[Block, ...]:
    """The dimension schedules of all sheets, as tables."""
    made: list[Block] = []
    for sheet in context.sheets:
        if sheet.schedule:
            made.append(Heading(f"{sheet.number}  {sheet.title}", anchor("schedule", sheet.number)))
        for s in sheet.schedule:
            heads = tuple(Head(text, right) for text, right in zip(s.head, s.right, strict=True))
            made.append(table(f"{sheet.number}: {s.title}", heads, s.rows, "schedule"))
    return tuple(made)


def file_of(sheet: Drawn) -> str:
    """The file name of a sheet."""
    return f"{sheet.number}.svg"


def paper_of(sheet: Drawn) -> str:
    """The named page of a sheet's size."""
    return "a3" if sheet.size.name == "A3" else "tabloid"


SHEETS = Section("sheets", "Sheets", Cover, sheets)
SCHEDULES = Section("schedules", "Dimension schedules", Cover, schedules, new_page=True)
