"""Jacks, stands, lift, tie and anchor points and chain anchors: what they are, their signs on plans, the legend."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from generator.draw.marks import SMALL, Circle, Line, Mark, Point, Rect, Text, rectangle
from generator.draw.sheets.kit import Views
from generator.release.slices import Steel

SIGN = 1.6
"""Half size of a sign on paper, mm."""
COLUMN, ROW = 43.0, 4.6
"""Room of an entry of the legend, mm."""
WORDS = {
    "jack": "jack leg",
    "stand": "stand",
    "lift": "lift point",
    "tie": "tie point",
    "anchor": "house anchor",
    "chain": "safety-chain anchors",
}


@dataclass(frozen=True, slots=True)
class Support:
    """One kind of point: id, kind, station and distance off the centre line, both sides alike (m)."""

    id: str
    kind: str
    station: float
    y: float

    @property
    def name(self) -> str:
        """Its id with its kind."""
        return self.id if self.id.startswith(self.kind) else f"{self.id} {self.kind}"


def supports(s: Steel) -> tuple[Support, ...]:
    """All points of the frame in order of station; the chains' anchors stand by the ball, so they carry no y."""
    out = [Support(j.id, "jack", j.station, abs(j.y)) for j in s.jacks]
    out += [Support(p.id, "stand", p.station, abs(p.y)) for p in s.stands]
    out += [Support(p.id, p.kind, p.station, abs(p.y)) for p in s.points]
    if math.isfinite(s.chain_anchor):
        out.append(Support("chain anchors", "chain", s.chain_anchor, 0.0))
    return tuple(sorted(out, key=lambda p: (p.station, p.kind, p.id)))


def sign(id: str, kind: str, at: Point) -> Views:
    """The sign of a kind of point."""
    (x, y), r = at, SIGN
    match kind:
        case "jack":
            return (
                rectangle(id, "outline", x - r, y - r, x + r, y + r),
                Line(f"{id}.a", "thin", ((x - r, y - r), (x + r, y + r))),
                Line(f"{id}.b", "thin", ((x - r, y + r), (x + r, y - r))),
            )
        case "stand":
            return (Line(id, "outline", ((x, y - r), (x + r, y + r), (x - r, y + r)), True),)
        case "lift":
            return (Circle(id, "outline", at, r),)
        case "tie":
            return (Line(id, "outline", ((x, y - r), (x + r, y), (x, y + r), (x - r, y)), True),)
        case "chain":
            return (
                Circle(id, "outline", (x, y - 0.75 * r), 0.6 * r),
                Circle(f"{id}.b", "outline", (x, y + 0.75 * r), 0.6 * r),
            )
        case _:
            return (rectangle(id, "outline", x - r * 0.8, y - r * 0.8, x + r * 0.8, y + r * 0.8),)


def both_sides(listed: Iterable[Support], id: str) -> list[tuple[str, Support, float]]:
    """Id, point and y (m) of each sign on a plan."""
    return [(f"{id}.{p.kind}.{p.id}.{side}", p, side * p.y) for p in listed for side in ((-1, 1) if p.y else (1,))]


def by_station(listed: Iterable[Support]) -> list[tuple[float, float]]:
    """Station and greatest reach off the centre line of the points that share a station, m."""
    groups: dict[float, list[Support]] = {}
    for p in listed:
        groups.setdefault(round(p.station, 3), []).append(p)
    return [(g[0].station, max(p.y for p in g)) for _, g in sorted(groups.items())]


def legend(kinds: Iterable[str], box: Rect) -> Views:
    """Signs and their words in the lower right corner of the notes, two beside each other."""
    listed = set(kinds)
    shown = [k for k in WORDS if k in listed]
    marks: list[Mark] = []
    for i, kind in enumerate(shown):
        x, y = box.x1 - COLUMN * (2 - i % 2), box.y1 - 7.0 + ROW * (i // 2)
        marks += sign(f"legend.{kind}", kind, (x + 2.6, y - SMALL / 2.0))
        marks.append(Text(f"legend.{kind}.text", WORDS[kind], (x + 6.4, y), SMALL))
    return tuple(marks)
