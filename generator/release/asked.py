"""Rows of the request to the fabricator: clauses, reply form, acceptance sheet. `slices` hands them on."""

from dataclasses import dataclass
from typing import Literal

Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Clause:
    """A numbered clause of the request: its heading and its rows of (what, asked for)."""

    number: int
    title: str
    rows: tuple[Pair, ...]


ReplyKind = Literal["price", "value", "weeks", "choice", "words"]
"""How a row of the reply form is answered; it has only the boxes that mean something for it."""


@dataclass(frozen=True, slots=True)
class ReplyRow:
    """A row of the reply form: item number, what, what is asked for, unit and kind of the answer, part of the form."""

    number: str
    item: str
    requested: str
    unit: str
    kind: ReplyKind = "value"
    part: str = ""


@dataclass(frozen=True, slots=True)
class AcceptanceRow:
    """A row of the acceptance sheet: nominal with both bounds as text, instrument."""

    number: str
    what: str
    nominal: str
    low: str
    high: str
    how: str
