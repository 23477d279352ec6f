"""Blocks that are filled in by hand: labels with a value or an empty box, and a card to cut out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from generator.document.blocks import Block

SHORT = 44
"""A value of more characters has a row to itself; others stand in pairs."""


@dataclass(frozen=True, slots=True)
class Box:
    """A label and its value; `is_blank`: there is none, and room is left to write it."""

    label: str
    value: str
    is_blank: bool


@dataclass(frozen=True, slots=True)
class BoxRow:
    """One or two boxes; `is_alone`: one that takes the whole row."""

    boxes: tuple[Box, ...]
    is_alone: bool


@dataclass(frozen=True, slots=True)
class Boxes(Block):
    """Labels with values or empty boxes, two in a row."""

    template: ClassVar[str] = "boxes"
    caption: str
    rows: tuple[BoxRow, ...]


@dataclass(frozen=True, slots=True)
class Card(Block):
    """A card to cut out: its title and its labels with values or empty boxes, for whoever drives."""

    template: ClassVar[str] = "card"
    title: str
    rows: tuple[BoxRow, ...]
    note: str


def boxes(caption: str, pairs: Sequence[tuple[str, str]]) -> Boxes:
    """Pairs of label and value in rows of two; an empty value is a box to write in."""
    return Boxes(caption, _rows(pairs))


def card(title: str, pairs: Sequence[tuple[str, str]], note: str) -> Card:
    """A card of pairs of label and value."""
    return Card(title, _rows(pairs), note)


def _rows(pairs: Sequence[tuple[str, str]]) -> tuple[BoxRow, ...]:
    """The short ones in pairs, in their order; then the long ones, and a short one left over, each alone."""
    made = [Box(label, value, not value) for label, value in pairs]
    short = [b for b in made if len(b.value) <= SHORT]
    even = len(short) - len(short) % 2
    paired = tuple(BoxRow((short[n], short[n + 1]), False) for n in range(0, even, 2))
    alone = (*short[even:], *(b for b in made if len(b.value) > SHORT))
    return (*paired, *(BoxRow((b,), True) for b in alone))
