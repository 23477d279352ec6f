"""What a section is made of: frozen records ready for their template, text for print and nothing left to work out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, count
from typing import ClassVar, Literal

from markupsafe import Markup

DASH = "–"
NOTHING = Markup("")
RowKind = Literal["row", "group", "total"]
TableKind = Literal["data", "tight", "schedule"]
MOST_AS_CARDS = 6
"""A table with more columns scrolls on a phone instead of becoming cards."""
MOST_TOGETHER = 14
"""A table of at most this many rows is kept on one page."""


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a page; `template` names its file in templates/blocks."""

    template: ClassVar[str] = ""


@dataclass(frozen=True, slots=True)
class Prose(Block):
    """Paragraphs; `kind` is a class of the style sheet."""

    template: ClassVar[str] = "prose"
    paragraphs: tuple[str, ...]
    kind: Literal["body", "small", "lead"] = "body"


@dataclass(frozen=True, slots=True)
class Points(Block):
    """A list of sentences."""

    template: ClassVar[str] = "points"
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Heading(Block):
    """A heading of the third level, on a new page if asked; it can be linked to by its `anchor`."""

    template: ClassVar[str] = "heading"
    text: str
    anchor: str
    is_new_page: bool = False


@dataclass(frozen=True, slots=True)
class Facts(Block):
    """Labels and their values, one a row."""

    template: ClassVar[str] = "facts"
    caption: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class KeyNumber:
    """A number to be seen from across the table: label, value, note, and how it stands against its limit.

    `word` is `holds`, `broken` or `not known`, `against` the limit and what is left of it.
    """

    label: str
    value: str
    note: str
    word: str = ""
    against: str = ""


@dataclass(frozen=True, slots=True)
class KeyNumbers(Block):
    """A strip of key numbers."""

    template: ClassVar[str] = "key_numbers"
    caption: str
    numbers: tuple[KeyNumber, ...]


@dataclass(frozen=True, slots=True)
class Caution(Block):
    """A warning with what it defers to."""

    template: ClassVar[str] = "caution"
    text: str
    defer_to: str = ""


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column: its text, whether numbers stand below it, its share of the width in percent."""

    text: str
    right: bool = False
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: text or marked-up text, right aligned or not, the label it gets where the table is shown as cards."""

    text: str
    right: bool
    label: str
    is_head: bool


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table; a group row has one cell across all columns. `mark` is its class, empty for a plain row."""

    cells: tuple[Cell, ...]
    mark: str
    is_group: bool


@dataclass(frozen=True, slots=True)
class Table(Block):
    """A table with its caption. `span`: number of columns; `is_wide`: scrolls on a phone; `is_short`: kept on one page.

    `is_titled`: the caption repeats the title of the section, and is not shown again.
    """

    template: ClassVar[str] = "table"
    caption: str
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]
    span: int
    is_wide: bool
    is_short: bool
    kind: TableKind = "data"
    note: str = ""
    is_titled: bool = False
    left_out: int = 0

    @property
    def more(self) -> str:
        """The note, and how many rows were left out."""
        return " ".join(t for t in (self.note, left_out(self.left_out)) if t)


Line = tuple[RowKind, Sequence[str]]


def table(
    caption: str,
    heads: Sequence[Head],
    lines: Iterable[Line | Sequence[str]],
    kind: TableKind = "data",
    note: str = "",
    is_titled: bool = False,
    left_out: int = 0,
) -> Table:
    """A table of lines of text; a line is its cells, or (kind, cells).

    An empty text is printed as an en dash, in a total it stays empty.
    """
    rows = tuple(_row(heads, line) for line in lines)
    return Table(
        caption,
        tuple(heads),
        rows,
        len(heads),
        len(heads) > MOST_AS_CARDS,
        len(rows) <= MOST_TOGETHER,
        kind,
        note,
        is_titled,
        left_out,
    )


def _kind_of(line: Line | Sequence[str]) -> tuple[RowKind, Sequence[str]]:
    match line:
        case (("row" | "group" | "total") as kind, (list() | tuple()) as cells):
            return kind, cells
        case _:
            return "row", [text if isinstance(text, str) else str(text) for text in line]


def _row(heads: Sequence[Head], line: Line | Sequence[str]) -> Row:
    kind, cells = _kind_of(line)
    if kind == "group":
        return Row((Cell(str(cells[0]), False, "", True),), "group", True)
    empty = "" if kind == "total" else DASH
    made = tuple(
        Cell(text or empty, h.right, h.text, i == 0) for i, (h, text) in enumerate(zip(heads, cells, strict=True))
    )
    return Row(made, "" if kind == "row" else kind, False)


@dataclass(frozen=True, slots=True)
class Above:
    """What stands under another check already: its symbol with its value, how many steps led to it, a link there."""

    symbol: Markup
    result: str
    steps: str
    href: str
    title: str


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step of a working: what, the formula, its numbers led by "=" or "with", symbol of the result, result, source.

    `above`: instead of all that, what is taken over from other checks.
    """

    what: str = ""
    formula: Markup = NOTHING
    lead: str = ""
    numbers: Markup = NOTHING
    symbol: Markup = NOTHING
    result: str = ""
    source: str = ""
    above: tuple[Above, ...] = ()


@dataclass(frozen=True, slots=True)
class Bar:
    """The use of a limit as a bar, in mm: the part within the limit and the part over it."""

    within: str
    over: str
    is_over: bool


@dataclass(frozen=True, slots=True)
class CheckBlock(Block):
    """One check as printed: see the visual standard in docs/decisions.md."""

    template: ClassVar[str] = "check"
    anchor: str
    id: str
    title: str
    state: str
    status: str
    mark: str
    steps: tuple[StepRow, ...]
    compared: str
    ratio: str
    bar: Bar | None
    sentence: str
    small: str
    rests_on: str
    register: str
    is_short: bool


@dataclass(frozen=True, slots=True)
class TodoLine:
    """A line of a checklist."""

    item: str
    do: str
    evidence: str
    stop_if: str
    defer_to: str


@dataclass(frozen=True, slots=True)
class Checklist(Block):
    """A page to tick."""

    template: ClassVar[str] = "checklist"
    caption: str
    lines: tuple[TodoLine, ...]


@dataclass(frozen=True, slots=True)
class Picture(Block):
    """A picture of the file map, with what it shows in words and its width in mm."""

    template: ClassVar[str] = "picture"
    file: str
    alt: str
    width: str


@dataclass(frozen=True, slots=True)
class SheetPage(Block):
    """A drawing on its own page at its own size."""

    template: ClassVar[str] = "sheet"
    anchor: str
    file: str
    alt: str
    title: str
    paper: str


@dataclass(frozen=True, slots=True)
class Html(Block):
    """Marked-up text made from allowed elements only."""

    template: ClassVar[str] = "html"
    text: Markup


@dataclass(frozen=True, slots=True)
class Attention:
    """A line of the owner's sheet: what it is about, in plain words, and the way out."""

    status: str
    mark: str
    title: str
    href: str
    meaning: str
    numbers: str
    ratio: str
    do_next: str
    ask: str


@dataclass(frozen=True, slots=True)
class AttentionList(Block):
    """Stop, ask and watch, in this order, with what was left out."""

    template: ClassVar[str] = "attention"
    groups: tuple[tuple[str, str, tuple[Attention, ...]], ...]
    left_out: int
    note: str = ""

    @property
    def more(self) -> str:
        """How many rows were left out, and the note."""
        return " ".join(t for t in (left_out(self.left_out), self.note) if t)


@dataclass(frozen=True, slots=True)
class Signature(Block):
    """Lines to be filled in by hand."""

    template: ClassVar[str] = "signature"
    labels: tuple[str, ...]


def left_out(count: int) -> str:
    """What was left out for want of room, and where it stands."""
    return f"{count} more lines in document 3, load summary." if count > 0 else ""


def mark(status: str) -> str:
    """The class of a status in the style sheets."""
    return status.replace(" ", "-")


def anchor(prefix: str, id: str) -> str:
    """An id of the page that is safe in links, made from an id of the record."""
    return prefix + "-" + "".join(c if c.isascii() and (c.isalnum() or c in "._-") else "-" for c in id)


def unique(anchors: Iterable[str]) -> tuple[str, ...]:
    """The same anchors, made different from one another by a number at the end."""
    out: dict[str, None] = {}
    for name in anchors:
        tries = chain([name], (f"{name}--{n}" for n in count(2)))
        out[next(t for t in tries if t not in out)] = None
    return tuple(out)
