"""Options as plain text: the table of `compare`."""

import math
from collections.abc import Iterator, Sequence

from generator.calc.compared import Comparison, NumberRow
from generator.units import Show

WIDEST = 34
"""Columns of a design are cut to this many characters in the head, where their letters are explained above."""


def abreast(found: Comparison, show: Show) -> str:
    """All designs side by side, one result a line; letters stand for the options."""
    letters = ["base", *(chr(ord("A") + n) for n in range(len(found.designs) - 1))]
    heads = [f"{letter}: {c.title}" for letter, c in zip(letters, found.designs, strict=True)]
    rows = [("", *letters), *_rows(found, show)]
    widths = [max(len(r[n]) for r in rows) for n in range(len(rows[0]))]
    lines = ["  ".join(cell.ljust(w) for cell, w in zip(r, widths, strict=True)).rstrip() for r in rows]
    return "\n".join([*heads, "", *lines])


def _rows(found: Comparison, show: Show) -> Iterator[Sequence[str]]:
    for word in found.words:
        yield (word.title, *(t[:WIDEST] for t in word.texts))
    for number in found.numbers:
        yield (number.id, *_numbers(number, show))
    for money in found.money:
        yield (money.id, *(show.money(v) for v in money.values))
    for flip in found.flips:
        yield (flip.id, *(s or "-" for s in flip.statuses))


def _numbers(row: NumberRow, show: Show) -> Iterator[str]:
    base = row.values[0]
    for n, value in enumerate(row.values):
        told = show(value, row.unit)
        plain = n == 0 or not math.isfinite(value) or not math.isfinite(base)
        yield told if plain else f"{told} ({show.change(value, base, row.unit)})"
