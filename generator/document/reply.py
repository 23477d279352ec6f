"""The reply form: a fillable page for people, and its table twin for machines."""

import csv
import io
from dataclasses import dataclass
from typing import ClassVar

from generator.document.blocks import Block, Prose
from generator.document.section import Part
from generator.release.slices import Cover, Request


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
GUARDED = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A text cell that starts so could be taken for a formula by a spreadsheet; it gets a leading apostrophe."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field of the form: name, spoken label, choices if it is a choice."""

    name: str
    label: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FormRow:
    """A row of the form."""

    number: str
    item: str
    requested: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class ReplyForm(Block):
    """The table to fill in."""

    template: ClassVar[str] = "reply_form"
    caption: str
    rows: tuple[FormRow, ...]


@dataclass(frozen=True, slots=True)
class Fields(Block):
    """Labelled lines to fill in."""

    template: ClassVar[str] = "fields"
    caption: str
    fields: tuple[Field, ...]


def form_blocks(request: Request, cover: Cover) -> tuple[Part, ...]:
    """The form: who replies, the rows, the totals and the signature."""
    rows = tuple(_row(n, r.number, r.item, _asked(r.requested, r.unit)) for n, r in enumerate(request.reply, 1))
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
        for name, label in (("sum", "Sum of all extensions"), ("sign", "Signed for the shop, name"), ("date", "Date"))
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
        Part("s-rows", "Rows", (ReplyForm("Reply, row by row", rows),), False),
        Part("s-total", "Total and signature", (Fields("Total and signature", total),), False),
    )


def _asked(requested: str, unit: str) -> str:
    return f"{requested} (answer in {unit})" if unit else requested


def _row(n: int, number: str, item: str, requested: str) -> FormRow:
    asked = f"row {number}, {item}"
    return FormRow(
        number,
        item,
        requested,
        (
            Field(f"r{n}-offered", f"Offered: {asked}", OFFERED),
            Field(f"r{n}-value", f"Value offered: {asked}"),
            Field(f"r{n}-deviation", f"Deviation or note: {asked}"),
            Field(f"r{n}-price", f"Price each: {asked}"),
            Field(f"r{n}-quantity", f"Quantity: {asked}"),
            Field(f"r{n}-extension", f"Extension: {asked}"),
            Field(f"r{n}-weeks", f"Lead time in weeks: {asked}"),
        ),
    )


def as_csv(request: Request, cover: Cover) -> bytes:
    """The table twin: UTF-8 with its mark, every cell quoted, CRLF, texts guarded against being taken for formulas."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for r in request.reply:
        asked = [request.number, cover.revision, r.number, r.item, r.requested, r.unit]
        writer.writerow([guarded(t) for t in asked] + [""] * (len(COLUMNS) - len(asked)))
    return out.getvalue().encode("utf-8-sig")


def guarded(text: str) -> str:
    """A text cell that no spreadsheet takes for a formula."""
    return "'" + text if text.startswith(GUARDED) else text
