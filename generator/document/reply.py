"""The reply form: a fillable page for people, and its table twin for machines."""

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType
from typing import ClassVar

from generator.document.blocks import Block, Prose
from generator.document.section import Part
from generator.release.slices import Cover, ReplyKind, ReplyRow, Request


@dataclass(frozen=True, slots=True)
class FormName:
    """What the form is called."""

    number: int
    name: str
    title: str


FORM = FormName(1, "reply-form", "Reply form")
COLUMNS = (
    "request",
    "revision",
    "number",
    "item",
    "requested",
    "unit",
    "kind",
    "offered",
    "value_offered",
    "deviation",
    "unit_price",
    "quantity",
    "extension",
    "lead_time_weeks",
    "notes",
)
"""Columns of the table twin; from `offered` on the shop fills them in."""
OFFERED = ("", "comply", "deviation", "not offered")
YES_NO = ("", "yes", "no")
GUARDED = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A text cell that starts so could be taken for a formula by a spreadsheet; it gets a leading apostrophe."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field of the form: name, spoken label, choices if it is a choice, whether it takes more than a line."""

    name: str
    label: str
    choices: tuple[str, ...] = ()
    is_long: bool = False


@dataclass(frozen=True, slots=True)
class Box:
    """A box that rows of one kind have: name, head of its column, share of the width in percent."""

    name: str
    head: str
    width: int
    choices: tuple[str, ...] = ()
    is_long: bool = False


NOTE = Box("deviation", "Deviation or note", 24)
BOXES: Mapping[ReplyKind, tuple[Box, ...]] = MappingProxyType(
    {
        "price": (
            Box("offered", "Offered", 11, OFFERED),
            Box("price", "Price each", 12),
            Box("quantity", "Qty", 6),
            Box("extension", "Extension", 13),
            Box("deviation", "Note", 20),
        ),
        "value": (Box("offered", "Offered", 11, OFFERED), Box("value", "Value offered", 20), NOTE),
        "weeks": (Box("weeks", "Weeks", 10), NOTE),
        "choice": (Box("value", "Yes or no", 11, YES_NO), NOTE),
        "words": (Box("value", "Answer", 52, (), True),),
    }
)
"""The boxes of a row by its kind."""
MOST_TOGETHER = 6
"""A table of at most this many rows is kept on one page."""
NUMBER = 5
"""Share of the width of the column of numbers, in percent."""


@dataclass(frozen=True, slots=True)
class FormRow:
    """A row of the form."""

    number: str
    item: str
    requested: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class FormHead:
    """The head of a column of the form and its share of the width in percent."""

    text: str
    width: int


@dataclass(frozen=True, slots=True)
class ReplyForm(Block):
    """One table of the form to fill in: rows of one kind, under the heads of their boxes; short: kept on one page."""

    template: ClassVar[str] = "reply_form"
    caption: str
    heads: tuple[FormHead, ...]
    rows: tuple[FormRow, ...]
    is_short: bool


@dataclass(frozen=True, slots=True)
class Fields(Block):
    """Labelled lines to fill in."""

    template: ClassVar[str] = "fields"
    caption: str
    fields: tuple[Field, ...]


def form_blocks(request: Request, cover: Cover) -> tuple[Part, ...]:
    """The form: who replies, the rows, the totals and the signature."""
    who = tuple(
        Field(f"who-{name}", label)
        for name, label in (
            ("shop", "Shop"),
            ("contact", "Name and how to reach you"),
            ("quote", "Your quote number and date"),
            ("valid", f"Price valid until (asked for: {request.valid_days} days)"),
        )
    )
    total = tuple(
        Field(f"total-{name}", label)
        for name, label in (
            ("sum", "Total of the rows under Prices"),
            ("sign", "Signed for the shop, name"),
            ("date", "Date"),
        )
    )
    intro = Prose(
        (
            f"Request {request.number}, revision {cover.revision}. Price wanted by {request.due}; questions to "
            f"{request.questions_to}.",
            f"A field left empty is read as not offered. Prices in {cover.currency} before tax. The same rows stand in "
            f"{FORM.number}-{FORM.name}.csv.",
        )
    )
    return (
        Part("s-who", "Who replies", (intro, Fields("Who replies", who)), False),
        Part("s-rows", "Rows", _tables(request.reply), False),
        Part("s-total", "Total and signature", (Fields("Total and signature", total),), False),
    )


def _tables(rows: tuple[ReplyRow, ...]) -> tuple[Block, ...]:
    """A table for each run of rows of one part and kind."""
    made = []
    for (part, kind), run in groupby(enumerate(rows, 1), key=lambda pair: (pair[1].part, pair[1].kind)):
        boxes = BOXES[kind]
        item = 100 - NUMBER - sum(box.width for box in boxes)
        heads = (
            FormHead("No.", NUMBER),
            FormHead("Item and what is requested", item),
            *(FormHead(box.head, box.width) for box in boxes),
        )
        made_rows = tuple(_row(n, row, boxes) for n, row in run)
        made.append(ReplyForm(part or "Reply", heads, made_rows, len(made_rows) <= MOST_TOGETHER))
    return tuple(made)


def _row(n: int, row: ReplyRow, boxes: tuple[Box, ...]) -> FormRow:
    asked = f"row {row.number}, {row.item}"
    fields = (Field(f"r{n}-{box.name}", f"{box.head}: {asked}", box.choices, box.is_long) for box in boxes)
    requested = f"{row.requested} (answer in {row.unit})" if row.kind == "value" and row.unit else row.requested
    return FormRow(row.number, row.item, requested, tuple(fields))


def as_csv(request: Request, cover: Cover) -> bytes:
    """The table twin: UTF-8 with its mark, every cell quoted, CRLF, texts guarded against being taken for formulas."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for r in request.reply:
        asked = [request.number, cover.revision, r.number, r.item, r.requested, r.unit, r.kind]
        writer.writerow([guarded(t) for t in asked] + [""] * (len(COLUMNS) - len(asked)))
    return out.getvalue().encode("utf-8-sig")


def guarded(text: str) -> str:
    """A text cell that no spreadsheet takes for a formula."""
    return "'" + text if text.startswith(GUARDED) else text
