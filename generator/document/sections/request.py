"""The request to the shop: cover, clauses, drawing list, reply table, acceptance sheet."""

from collections.abc import Mapping
from itertools import groupby
from types import MappingProxyType

from generator.document.blocks import (
    Block,
    Caution,
    Facts,
    Head,
    Heading,
    KeyNumber,
    KeyNumbers,
    Points,
    Prose,
    Signature,
    anchor,
    table,
)
from generator.document.section import Context, Section
from generator.release.slices import Cover, ReplyKind, Request, RoadLoads


def cover(request: Request, context: Context) -> tuple[Block, ...]:
    """Who asks, by when, how long the price must hold."""
    c = context.cover
    return (
        Prose((c.summary,), "lead"),
        Facts(
            "This request",
            (
                ("Request", request.number),
                ("Asked by", c.owner),
                ("Revision", f"{c.revision}, {c.date}"),
                ("Price wanted by", request.due),
                ("Questions until", request.questions_until),
                ("Questions to", request.questions_to),
                ("Price stays valid for", f"{request.valid_days} days"),
                ("Reply with", "the reply form 1-reply-form.pdf, or its table twin 1-reply-form.csv"),
            ),
        ),
        Caution(
            "Sizes and ratings here are requests worked out by the owner with a preliminary sizing aid. They "
            "are not a sealed "
            "design. The maker of the trailer assigns and certifies its ratings.",
            "the maker's engineer, and the law of the place where the trailer is registered",
        ),
    )


def requested(loads: RoadLoads, context: Context) -> tuple[Block, ...]:
    """Requested ratings with what was worked out."""
    if not loads.requested:
        return ()
    show = context.show
    numbers = tuple(
        KeyNumber(r.title, show(r.nominal, r.unit, r.toward), "requested; the maker certifies")
        for r in loads.requested[:4]
    )
    rest = [(r.title, show(r.nominal, r.unit, r.toward)) for r in loads.requested[4:]]
    more = (Facts("More requested ratings", tuple(rest)),) if rest else ()
    return (KeyNumbers("Requested ratings", numbers), *more)


def reading(request: Request, context: Context) -> tuple[Block, ...]:
    """How the papers rank among themselves."""
    return (
        Points(
            (
                "Written dimensions govern; do not scale. A detail governs over a general view, a later "
                "revision over an earlier one.",
                "Drawing and table disagree, or something cannot be built as shown: stop and ask before cutting.",
                "Stations are measured aft from datum A, the front face of the main deck's front crossmember; "
                "forward is negative.",
                "Heights in schedules are from the top of the main deck unless the row says from level ground, "
                "in the load state named.",
                "A substitution needs a written deviation, agreed before it is made.",
            )
        ),
    )


def drawing_list(cover: Cover, context: Context) -> tuple[Block, ...]:
    """The drawings that belong to the request."""
    rows = [(s.number, s.title, s.size.name, s.scale, cover.revision) for s in context.drawings]
    heads = (
        Head("Sheet", width=10),
        Head("Title", width=46),
        Head("Size", width=14),
        Head("Scale", width=18),
        Head("Rev", width=12),
    )
    return (table("Drawings of document 2", heads, rows),) if rows else ()


def clauses(request: Request, context: Context) -> tuple[Block, ...]:
    """The numbered clauses."""
    made: list[Block] = []
    for clause in request.clauses:
        made.append(Heading(f"{clause.number}  {clause.title}", anchor("clause", str(clause.number))))
        made.append(Facts(f"Clause {clause.number}: {clause.title}", clause.rows))
    return tuple(made)


ANSWERED: Mapping[ReplyKind, str] = MappingProxyType(
    {
        "price": "price each, quantity, extension",
        "value": "the value you offer, with its unit",
        "weeks": "weeks",
        "choice": "yes or no",
        "words": "words",
    }
)


def reply(request: Request, context: Context) -> tuple[Block, ...]:
    """What the reply form asks, part by part; its rows stand on the form."""
    heads = (Head("Rows", width=16), Head("About", width=42), Head("Answered with", width=42))
    lines = []
    for (part, kind), run in groupby(request.reply, key=lambda r: (r.part, r.kind)):
        numbers = [r.number for r in run]
        lines.append((" to ".join(dict.fromkeys((numbers[0], numbers[-1]))), part, ANSWERED[kind]))
    if not lines:
        return ()
    note = "Answer each row of the form in the boxes it has. A row left empty is read as not offered."
    return (table("Parts of the reply form", heads, lines, note=note, is_titled=True),)


def acceptance(request: Request, context: Context) -> tuple[Block, ...]:
    """What is measured at delivery."""
    heads = (
        Head("No.", width=4),
        Head("What", width=36),
        Head("Nominal", True, 12),
        Head("Low", True, 11),
        Head("High", True, 11),
        Head("Measured", width=12),
        Head("With", width=14),
    )
    rows = [(r.number, r.what, r.nominal, r.low, r.high, " ", r.how) for r in request.acceptance]
    return (
        (
            Prose(
                (
                    "Filled in together at delivery, on level ground, before the last payment. A reading "
                    "outside its bounds is written "
                    "down and settled by name before the trailer leaves.",
                )
            ),
            table("Acceptance sheet", heads, rows, is_titled=True),
            Signature(("Measured by", "For the owner", "For the shop", "Date")),
        )
        if rows
        else ()
    )


REQUEST_COVER = Section("request", "Request for a price", Request, cover)
REQUESTED = Section("ratings-requested", "Requested ratings", RoadLoads, requested)
READING = Section("reading", "How to read the papers", Request, reading)
DRAWING_LIST = Section("drawings", "Drawings", Cover, drawing_list)
CLAUSES = Section("clauses", "Clauses", Request, clauses)
REPLY = Section("reply", "Reply form", Request, reply)
ACCEPTANCE = Section("acceptance", "Acceptance sheet", Request, acceptance, new_page=True)
