"""Marks of change on a sheet: a cloud around every text that is other than on the sheet before, and its delta."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from generator.draw.marks import SMALL, Line, Mark, Rect, Text
from generator.draw.pages import inner, zone_of
from generator.draw.sheet import Other, Sheet

ROOM, ARC = 0.9, 2.4
"""From a text to its cloud, and about the chord of one of its arcs, mm."""
BLOCKS = ("frame", "zone", "revisions", "title", "block", "scale", "projection", "notes")
"""What stands on every sheet and is no part of its drawing."""


def clouded(new: Iterable[Sheet], old: Iterable[Sheet], letter: str) -> tuple[Sheet, ...]:
    """The sheets with clouds and deltas where they differ from the older ones of the same number."""
    before = {s.number: s for s in old}
    return tuple(_clouded(s, before[s.number], letter) if s.number in before else s for s in new)


def _clouded(new: Sheet, old: Sheet, letter: str) -> Sheet:
    was = _texts(old)
    moved = [t for id, t in _texts(new).items() if was.get(id) is None or was[id].text != t.text]
    gone = [t for id, t in was.items() if id not in _texts(new)]
    others = [Other(zone_of(new.size, t.at), was[t.id].text if t.id in was else "", t.text) for t in moved]
    others += [Other(zone_of(new.size, t.at), t.text, "") for t in gone]
    marks = [m for t in moved for m in _cloud(t, letter, inner(new.size))]
    return replace(new, marks=(*new.marks, *marks), changed=tuple(others))


def _texts(sheet: Sheet) -> Mapping[str, Text]:
    return {m.id: m for m in sheet.marks if isinstance(m, Text) and not m.id.startswith(BLOCKS)}


def _cloud(text: Text, letter: str, room: Rect) -> Iterator[Mark]:
    box = text.box.grown(ROOM)
    yield Line(f"cloud.{text.id}", "thin", tuple(_scallops(box)), closed=True)
    x, y = min(box.x1 + 0.6, room.x1 - 4.6), box.y0 + 1.2
    yield Line(f"delta.{text.id}", "thin", ((x, y), (x + 4.4, y), (x + 2.2, y - 3.9)), closed=True)
    yield Text(f"delta.{text.id}.letter", letter, (x + 2.2, y - 0.5), SMALL * 0.72, "middle")


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
