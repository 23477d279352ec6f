"""The record of decisions, newest first, and the prose that goes with them."""

from generator.document.blocks import Block, Facts, Heading, Html, Points, Prose, anchor
from generator.document.notes import html_of
from generator.document.section import Context, Section
from generator.release.slices import Notes, Revisions


def record(revisions: Revisions, context: Context) -> tuple[Block, ...]:
    """Each revision: when, who asked, why, what was decided."""
    made: list[Block] = [
        Prose(
            ("Newest first. A number that moved is found by comparing two packets; this page says why it moved.",),
            "small",
        )
    ]
    for row in reversed(revisions.rows):
        made.append(Heading(f"Revision {row.label}", anchor("revision", row.label)))
        facts = (("Date", row.date), ("Asked by", row.asked_by), ("Why", row.why))
        made.append(Facts(f"Revision {row.label}", tuple(f for f in facts if f[1])))
        made.append(Points(row.changes))
    return tuple(made) if revisions.rows else ()


def prose(notes: Notes, context: Context) -> tuple[Block, ...]:
    """The notes addressed to this reader."""
    made: list[Block] = []
    for i, page in enumerate(notes.pages, 1):
        made += [Heading(page.title, anchor("note", str(i))), Html(html_of(page.text))]
    return tuple(made)


RECORD = Section("record", "Record of decisions", Revisions, record)
NOTES = Section("notes", "Notes", Notes, prose)
