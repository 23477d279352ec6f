"""Tables lettered on a sheet: a head, fine rules, texts left and numbers right, columns as wide as they need."""

from dataclasses import dataclass

from generator.draw.marks import TEXT, Line, Mark, Point, Text
from generator.draw.sheet import Schedule
from generator.draw.sheets.kit import Views
from generator.draw.text import clean, wrap
from generator.draw.text import width as wide

ROW, BETWEEN = 5.3, 3.2
"""Height of a line and room between columns, mm."""
BOLD, LINES = 1.03, 4
"""Semibold letters are so much wider; a head takes at most so many lines."""


@dataclass(frozen=True, slots=True)
class Size:
    """Room a table takes on paper, mm."""

    columns: tuple[float, ...]
    head: int
    rows: int

    @property
    def width(self) -> float:
        """From its left to its right edge, mm."""
        return sum(self.columns)

    @property
    def height(self) -> float:
        """From the top of its title to its last rule, mm."""
        return ROW * (1 + self.head + self.rows) + 2.4


def _head(words: str, room: float) -> tuple[str, ...]:
    return wrap(words, TEXT * BOLD, room, 2 * LINES)


def _least(words: str) -> float:
    """Width of the longest word of a head, mm."""
    return max(wide(w, TEXT, bold=True) for w in clean(words).split(" "))


def _room(words: str, room: float) -> float:
    """The room, or so much more that the head stands on few lines, mm."""
    while len(_head(words, room)) > LINES:
        room += 1.0
    return room


def measured(s: Schedule) -> Size:
    """The room of a table whose heads break into lines and whose cells do not."""
    columns = tuple(
        _room(h, max([_least(h) + 0.1, *(wide(clean(row[c]), TEXT) for row in s.rows)])) + BETWEEN
        for c, h in enumerate(s.head)
    )
    lines = max(len(_head(h, w - BETWEEN + 0.01)) for h, w in zip(s.head, columns, strict=True))
    return Size(columns, lines, len(s.rows))


def lettered(id: str, s: Schedule, at: Point) -> Views:
    """The table with its upper left corner at a place on the paper."""
    size = measured(s)
    x, y = at[0], at[1] + ROW
    marks: list[Mark] = [Text(f"{id}.title", clean(s.title), (x + 0.5, y - 1.4), TEXT, bold=True)]
    marks.append(Line(f"{id}.top", "outline", ((x, y), (x + size.width, y))))
    foot = y + ROW * size.head + 1.2
    for c, words in enumerate(s.head):
        lines = _head(words, size.columns[c] - BETWEEN + 0.01)
        for n, line in enumerate(lines):
            base = foot - 1.6 - ROW * (len(lines) - 1 - n)
            marks.append(_cell(f"{id}.head.{c}.{n}", line, x, base, size.columns[c], s.right[c], bold=True))
        x += size.columns[c]
    marks.append(Line(f"{id}.foot", "thin", ((at[0], foot), (x, foot))))
    for r, row in enumerate(s.rows, 1):
        y, x = foot + ROW * r, at[0]
        for c, words in enumerate(row):
            if words:
                marks.append(_cell(f"{id}.{r}.{c}", clean(words), x, y - 1.4, size.columns[c], s.right[c]))
            x += size.columns[c]
        pen = "grid" if r < len(s.rows) else "outline"
        marks.append(Line(f"{id}.rule.{r}", pen, ((at[0], y), (at[0] + size.width, y))))
    return tuple(marks)


def _cell(id: str, words: str, x: float, base: float, room: float, right: bool, bold: bool = False) -> Text:
    inset = BETWEEN / 2.0 if right else 0.5
    at = (x + room - inset, base) if right else (x + inset, base)
    return Text(id, words, at, TEXT, "end" if right else "start", bold)
