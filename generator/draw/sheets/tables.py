"""Tables lettered on a sheet: columns as wide as their words, long words wrapped, rows carried over, never cut."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.draw.marks import TEXT, TITLE, Line, Mark, Rect, Text
from generator.draw.sheet import Schedule
from generator.draw.text import clean, width
from generator.errors import RenderError

PITCH, LEAD, APART, HEADED = 5.2, 4.6, 4.0, 8.0
"""From row to row, from line to line in a cell, between columns, and height of a table's title, mm."""
LEAST = 3
"""A table begins only where its head and so many rows fit."""
NARROWEST = 22.0
"""No column that wraps becomes narrower, mm."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row as lettered: lines of each cell, and whether it is the head or a total."""

    cells: tuple[tuple[str, ...], ...]
    bold: bool = False

    @property
    def high(self) -> float:
        """Its height, mm."""
        return PITCH + LEAD * (max((len(c) for c in self.cells), default=1) - 1)


def pages(
    tables: Sequence[Schedule], first: Sequence[Rect], rooms: Sequence[Rect], number: int = 0
) -> Iterator[tuple[Mark, ...]]:
    """The tables one after another through the rooms of the first page and those of every further one, as wide.

    `number` is that of the first table, by which its marks are named.

    Raises RenderError when a row is taller than a room.
    """
    marks: list[Mark] = []
    full, rooms = rooms, first
    room, y = 0, rooms[0].y0
    for n, table in enumerate(tables, number):
        widths = _widths(table, rooms[0].x1 - rooms[0].x0)
        head, *rows = [_row(cells, widths, i == 0) for i, cells in enumerate((table.head, *table.rows))]
        at, part = 0, 0
        while at < len(rows):
            box = rooms[room]
            fits = _fitting(rows[at:], box.y1 - y - HEADED - head.high)
            if fits < min(LEAST, len(rows) - at):
                if y <= box.y0 and box in full:
                    raise RenderError(f"has no room for a row of the table {table.title}")
                room, y = room + 1, 0.0
                if room == len(rooms):
                    yield tuple(marks)
                    marks, room, rooms = [], 0, full
                y = rooms[room].y0
                continue
            words = table.title if part == 0 else f"{table.title}, continued"
            made, y = _part(f"t{n}.{part}", words, head, rows[at:at + fits], table.right, widths, (box.x0, y))
            marks += made
            at, part, y = at + fits, part + 1, y + HEADED / 2.0
    if marks:
        yield tuple(marks)


def _fitting(rows: Sequence[Row], room: float) -> int:
    """How many rows fit."""
    used, n = 0.0, 0
    for row in rows:
        used += row.high
        if used > room:
            break
        n += 1
    return n


def _widths(table: Schedule, room: float) -> tuple[float, ...]:
    """Width of each column: its words, or where they do not all fit, what the widest give up by wrapping."""
    listed = (table.head, *table.rows)
    natural = [max(width(clean(row[i]), TEXT, True) for row in listed) + 0.5 for i in range(len(table.head))]
    left = room - APART * (len(natural) - 1)
    level = max(natural)
    while sum(min(w, level) for w in natural) > left and level > NARROWEST:
        level -= 1.0
    return tuple(min(w, level) for w in natural)


def _row(cells: Sequence[str], widths: Sequence[float], bold: bool) -> Row:
    return Row(tuple(_wrapped(c, w, bold) for c, w in zip(cells, widths, strict=True)), bold)


def _wrapped(words: str, room: float, bold: bool) -> tuple[str, ...]:
    """Lines of a cell; a word wider than the cell is broken."""
    lines = [""]
    for word in clean(words).split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if width(longer, TEXT, bold) <= room:
            lines[-1] = longer
            continue
        lines += [word] if lines[-1] else []
        lines[-1] = word
        while width(lines[-1], TEXT, bold) > room and len(lines[-1]) > 1:
            n = next(n for n in range(len(lines[-1]) - 1, 0, -1) if n == 1 or width(lines[-1][:n], TEXT, bold) <= room)
            lines[-1:] = [lines[-1][:n], lines[-1][n:]]
    return tuple(lines)


def _part(id: str, words: str, head: Row, rows: Sequence[Row], right: Sequence[bool], widths: Sequence[float],
          corner: tuple[float, float]) -> tuple[list[Mark], float]:
    """Title, head and rows from a corner down, and where they end."""
    x, y = corner
    end = x + sum(widths) + APART * (len(widths) - 1)
    marks: list[Mark] = [Text(f"{id}.title", words, (x, y + TITLE), TITLE, bold=True)]
    y += HEADED
    for n, row in enumerate((head, *rows)):
        marks += _lettered(f"{id}.{n}", row, right, widths, (x, y))
        y += row.high
        marks.append(Line(f"{id}.{n}.rule", "outline" if n == 0 else "grid", ((x, y), (end, y))))
    return marks, y


def _lettered(id: str, row: Row, right: Sequence[bool], widths: Sequence[float], corner: tuple[float, float],
              ) -> Iterator[Mark]:
    x, y = corner
    for c, (lines, w, is_right) in enumerate(zip(row.cells, widths, right, strict=True)):
        for n, line in enumerate(lines):
            if line:
                at = (x + w if is_right else x, y + PITCH - 1.3 + LEAD * n)
                yield Text(f"{id}.{c}.{n}", line, at, TEXT, "end" if is_right else "start", row.bold)
        x += w + APART
