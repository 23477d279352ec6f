"""Marks of change on a sheet: a cloud around every text that is other than on the sheet before, and its delta."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from generator.draw.marks import SMALL, Line, Mark, Rect, Text
from generator.draw.pages import inner, zone_of
from generator.draw.sheet import Other, Sheet
from generator.draw.text import width

ROOM, ARC, DELTA = 0.9, 2.4, (4.4, 3.9)
"""From a text to its cloud, about the chord of one of its arcs, and the size of a delta, mm."""
ZONE_ROOM = 13.0
"""Width of the zones in the revision block, mm; more of them stand in document 7 alone."""
BLOCKS = ("frame", "zone", "revisions", "title", "block", "scale", "projection", "notes")
"""What stands on every sheet and is no part of its drawing."""


def clouded(new: Iterable[Sheet], old: Iterable[Sheet], letter: str) -> tuple[Sheet, ...]:
    """The sheets with clouds and deltas where they differ from the older ones of the same number."""
    before = {s.number: s for s in old}
    return tuple(_clouded(s, before[s.number], letter) if s.number in before else s for s in new)


def _clouded(new: Sheet, old: Sheet, letter: str) -> Sheet:
    was, now = _texts(old), _texts(new)
    moved = [t for id, t in now.items() if id not in was or was[id].text != t.text]
    gone = [t for id, t in was.items() if id not in now]
    others = (
        *(Other(zone_of(new.size, t.at), was[t.id].text if t.id in was else "", t.text) for t in moved),
        *(Other(zone_of(new.size, t.at), t.text, "") for t in gone),
    )
    taken = [t.box for t in now.values()] + [t.box.grown(ROOM) for t in moved]
    marks = _zoned(new.marks, others, letter)
    for text in moved:
        marks.append(Line(f"cloud.{text.id}", "thin", tuple(_scallops(text.box.grown(ROOM))), closed=True))
        marks += _delta(text, letter, inner(new.size), taken)
    return replace(new, marks=tuple(marks), changed=others)


def _texts(sheet: Sheet) -> Mapping[str, Text]:
    return {m.id: m for m in sheet.marks if isinstance(m, Text) and not m.id.startswith(BLOCKS)}


def _delta(text: Text, letter: str, room: Rect, taken: list[Rect]) -> tuple[Mark, ...]:
    """The triangle with the letter at a corner of the cloud, where it covers no text; its place is then taken."""
    box, (wide, high) = text.box.grown(ROOM + 0.5), DELTA
    places = [Rect(x, y, x + wide, y + high)
              for y in (box.y0 - high, box.y1, (box.y0 + box.y1 - high) / 2.0)
              for x in (box.x1, box.x0 - wide, (box.x0 + box.x1 - wide) / 2.0)]
    free = [p for p in places if p.inside(room) and not any(p.meets(t) for t in taken)]
    at = (free or places)[0]
    taken.append(at)
    edges = ((at.x0, at.y1), (at.x1, at.y1), ((at.x0 + at.x1) / 2.0, at.y0))
    middle = ((at.x0 + at.x1) / 2.0, at.y1 - 0.5)
    return (
        Line(f"delta.{text.id}", "thin", edges, closed=True),
        Text(f"delta.{text.id}.letter", letter, middle, SMALL * 0.72, "middle"),
    )


def _zoned(marks: Iterable[Mark], others: Iterable[Other], letter: str) -> list[Mark]:
    """The marks, the zones where things moved lettered into this revision's row of the revision block."""
    held = list(marks)
    rows = (m.id.removesuffix("0") for m in held if isinstance(m, Text) and m.id.startswith("revisions.")
            and m.id.endswith(".0") and m.text == letter)
    cell = f"{next(rows, '')}1"
    words = " ".join(sorted({o.zone for o in others})) or "none"
    words = words if width(words, SMALL) <= ZONE_ROOM else "see 7"
    return [replace(m, text=words) if isinstance(m, Text) and m.id == cell else m for m in held]


def _scallops(box: Rect) -> Iterator[tuple[float, float]]:
    """Points of arcs that bulge outward, going round the box once."""
    corners = ((box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1))
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        length = math.hypot(x1 - x0, y1 - y0)
        count = max(1, round(length / ARC))
        out = ((y1 - y0) / length, -(x1 - x0) / length)
        for i in range(count):
            for step in (0.0, 0.25, 0.5, 0.75):
                along, bulge = (i + step) / count, 0.3 * length / count * math.sin(math.pi * step)
                yield (x0 + (x1 - x0) * along + out[0] * bulge, y0 + (y1 - y0) * along + out[1] * bulge)
