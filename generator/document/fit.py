"""Keeping the one-page sheet to one page: heights are estimated, rows cut by rank and counted; type never shrinks."""

from collections.abc import Sequence
from dataclasses import replace

from generator.document.blocks import Attention, AttentionList, Block, KeyNumbers, Prose, Table
from generator.document.section import Part

ROOM = {"letter": 630.0, "a4": 680.0}
"""Points of height left under the head of the sheet, per paper, less a line for safety."""
WIDTH = {"letter": 177.9, "a4": 172.0}
"""Width of the text in mm."""
_AVERAGE = 0.45
"""Mean advance of a character of the text font in em, on the safe side for English prose."""
_MM = 72.0 / 25.4
_HEADING, _ROW_EXTRA, _SMALL, _GUTTER = 19.0, 3.0, 10.0, 2.0
_CUTS = ((Table, 4), (AttentionList, 6), (Table, 2), (AttentionList, 3), (Table, 1), (AttentionList, 1))
"""What is cut first, and down to how many rows."""


def one_page(parts: tuple[Part, ...], paper: str) -> tuple[Part, ...]:
    """The parts with so many rows as one page holds."""
    blocks = [[*p.blocks] for p in parts]

    def too_high() -> bool:
        return sum(_HEADING + sum(height(b, WIDTH[paper]) for b in held) for held in blocks) > ROOM[paper]

    for kind, least in _CUTS:
        while too_high() and _cut_longest(blocks, kind, least):
            pass
    return tuple(replace(p, blocks=tuple(held)) for p, held in zip(parts, blocks, strict=True))


def _cut_longest(blocks: list[list[Block]], kind: type[Block], least: int) -> bool:
    """Cut the last row of the longest block of this kind; whether there was one to cut."""
    found = [
        (rows_of(b), i, k)
        for i, held in enumerate(blocks)
        for k, b in enumerate(held)
        if type(b) is kind and rows_of(b) > least
    ]
    if not found:
        return False
    _, i, k = max(found, key=lambda f: (f[0], -f[1]))
    blocks[i][k] = without_last(blocks[i][k])
    return True


def rows_of(block: Block) -> int:
    """How many rows a block has."""
    match block:
        case AttentionList(groups=groups):
            return sum(len(g[2]) for g in groups)
        case Table(rows=rows):
            return len(rows)
        case _:
            return 0


def without_last(block: Block) -> Block:
    """A block without its last row, which is counted as left out."""
    match block:
        case AttentionList(groups=groups):
            *before, (word, what, rows) = groups
            kept = [*before, (word, what, rows[:-1])] if len(rows) > 1 else before
            return replace(block, groups=tuple(kept), left_out=block.left_out + 1)
        case Table(rows=lines):
            return replace(block, rows=lines[:-1], left_out=block.left_out + 1)
        case _:
            return block


def height(block: Block, width: float) -> float:
    """Estimated height of a block in points, `width` in mm."""
    match block:
        case KeyNumbers(numbers=numbers):
            column = width / len(numbers) - _GUTTER
            return 34.0 + _SMALL * max(
                line_count(n.note, column, 8.0) + line_count(f"{n.word} {n.against}", column, 8.0) for n in numbers
            )
        case AttentionList(groups=groups):
            return (
                14.0
                + sum(14.0 + sum(_attention(a, width) for a in rows) for _, _, rows in groups)
                + (12.0 if block.left_out else 0.0)
            )
        case Table():
            return (
                13.0
                + sum(_line(block, [c.text for c in r.cells], width) for r in block.rows)
                + (12.0 if block.more else 0.0)
            )
        case Prose(paragraphs=paragraphs):
            return sum(12.0 * line_count(p, width, 9.0) + 2.0 for p in paragraphs)
        case _:
            return 0.0


def _line(table: Table, texts: Sequence[str], width: float) -> float:
    share = 100.0 / table.span
    lines = [
        line_count(t, width * (h.width or share) / 100.0 - _GUTTER, 8.0)
        for t, h in zip(texts, table.heads, strict=True)
    ]
    return _SMALL * max(lines) + _ROW_EXTRA


def _attention(a: Attention, width: float) -> float:
    what = 11.0 * line_count(a.title, 0.37 * width - _GUTTER, 9.0) + _SMALL * line_count(
        a.meaning, 0.37 * width - _GUTTER, 8.0
    )
    way_out = _SMALL * line_count(f"{a.do_next} Ask {a.ask}", 0.335 * width, 8.0)
    numbers = _SMALL * (line_count(a.numbers, 0.17 * width - _GUTTER, 8.0) + 1)
    return max(what, way_out, numbers) + _ROW_EXTRA


def line_count(text: str, width: float, size: float) -> int:
    """Lines of a text set `size` points high in a column `width` mm wide, broken at spaces, long words broken."""
    room = max(int(width * _MM / (_AVERAGE * size)), 1)
    lines, used = 1, 0
    for word in text.split(" "):
        length = len(word)
        if used and used + 1 + length > room:
            lines, used = lines + 1, 0
        lines += max(length - 1, 0) // room
        used += length % room + (1 if used else 0)
    return lines
