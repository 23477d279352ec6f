"""Options as plain text of 80 columns: the tables of `compare`."""

import math
from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import wrap

from generator.calc.compared import Comparison, Flip, change_of, columns, dearer, letter, number_of
from generator.units import Show

WIDE, FIRST, GAP = 80, 24, 2
"""Columns of the whole, of the first column, and between two."""

ABREAST = 3
"""Options beside the base in one table."""

Cells = Sequence[str]


def abreast(found: Comparison, show: Show) -> str:
    """All designs side by side, below an option its difference from the base; letters stand for the options."""
    heads = [line for n, c in enumerate(found.designs[1:], start=1)
             for line in wrap(f"{letter(n)}  {c.title}", WIDE, subsequent_indent="   ")]
    blocks = ["\n".join(_block(found, show, places)) for places in columns(len(found.designs) - 1, ABREAST)]
    heads += ["", "Below a value: how far it lies from the base, nothing if not at all."]
    return "\n\n".join(["\n".join(heads), *blocks])


def _block(found: Comparison, show: Show, places: Sequence[int]) -> Iterator[str]:
    yield from _line(("", *("base" if n == 0 else letter(n) for n in places)))
    yield "-" * WIDE
    for word in found.words:
        yield from _line((word.title, *(word.texts[n] for n in places)))
    for group in dict.fromkeys(r.group for r in found.numbers):
        rows = [r for r in found.numbers if r.group == group and any(math.isfinite(r.values[n]) for n in places)]
        if rows:
            yield from _titled(group)
        for row in rows:
            yield from _line((row.id, *(number_of(row, n, show) for n in places)))
            yield from _line(("", *(_moved(change_of(row, n, show)) for n in places)))
    if found.money:
        yield from _titled("Money, with tax")
    for amount in found.money:
        yield from _line((amount.id, *(show.money(amount.values[n]) for n in places)))
        yield from _line(("", *(_moved(dearer(amount, n, show)) for n in places)))
    flips = [f for f in found.flips if f.tells(places)]
    if flips:
        yield from _titled("Checks that change")
    for flip in flips:
        yield from _flip(flip, places)


def _titled(text: str) -> tuple[str, ...]:
    return "", text


def _flip(flip: Flip, places: Sequence[int]) -> Iterator[str]:
    """An id longer than the first column stands on a line of its own."""
    statuses = [flip.statuses[n] or "-" for n in places]
    if len(flip.id) > FIRST:
        yield flip.id
        yield from _line(("", *statuses))
    else:
        yield from _line((flip.id, *statuses))


def _moved(change: str) -> str:
    """A change as the text tables print it: nothing where nothing moved."""
    return "" if change == "same" else change


def _line(cells: Cells) -> Iterator[str]:
    """One row of the table, its cells wrapped; a row of differences in which nothing stands is left out."""
    width = (WIDE - FIRST) // (len(cells) - 1) - GAP
    wrapped = [wrap(cells[0], FIRST), *(wrap(c.replace("\u00a0", " "), width) for c in cells[1:])]
    for parts in zip_longest(*wrapped, fillvalue=""):
        first, *rest = parts
        yield (first.ljust(FIRST) + "".join((" " * GAP + p.rjust(width)) for p in rest)).rstrip()
