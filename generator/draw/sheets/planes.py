"""Where the frame is cut across: stations chosen by where its members stand, and their marks on the elevation."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from generator.draw.marks import MARK, Line, Mark, Text, arrow
from generator.draw.sheets.kit import Views, foremost
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.slices import Steel

BEHIND, MOST = 0.004, 4
"""The plane stands this far behind what it shows (m); how many sections there are at most."""
NEAR, DROP = 11.0, 6.0
"""Planes closer than this on paper stand one below the other, by so much, mm."""
APART = 0.6
"""The last plane keeps this far from the others, m."""
TOGETHER, PLATE = 0.06, 0.03
"""Cross pieces whose middles lie this close stand at one station; what is no deeper than a plate makes none, m."""


@dataclass(frozen=True, slots=True)
class Plane:
    """A section: its letter, what it shows, the station of the plane and of what it shows (m)."""

    letter: str
    words: str
    x: float
    shown: float

    @property
    def name(self) -> str:
        """As in its title."""
        return f"{self.letter}–{self.letter}"


@dataclass(frozen=True, slots=True)
class _Stop:
    """Cross pieces that stand together."""

    x: float
    rear: float
    marks: tuple[str, ...]
    deep: float


def chosen(s: Steel) -> tuple[Plane, ...]:
    """Planes from front to rear: neck or tongue root, the commonest bay, the wheels, the deepest member left."""
    stops = _stops([p for p in s.pieces if p.run == "crosswise" and p.z1 < 0.3 and p.x0 > -1e-3])
    ahead = _stops([p for p in s.pieces if p.run == "crosswise" and p.x1 < -1e-3])
    deck = [t for t in stops if not at_wheels(s, t.x, 0.1) and 0.15 < t.x < s.deck_length - 0.15]
    group = (s.axles[0].bracket_station + s.axles[-1].bracket_station) / 2.0
    found: list[tuple[str, _Stop]] = []
    if ahead:
        found.append((_ahead(s), min(ahead, key=lambda t: (abs(t.x - foremost(s) / 2.0), t.x))))
    elif stops:
        found.append(("front crossmember", stops[0]))
    if deck:
        common = Counter(t.marks for t in deck).most_common()
        kind = max(common, key=lambda c: (c[1], len(c[0]), c[0]))[0]
        found.append(("main deck", min((t for t in deck if t.marks == kind),
                                       key=lambda t: (abs(t.x - s.deck_length / 2.0), t.x))))
    beside = [t for t in stops if at_wheels(s, t.x)]
    if beside:
        found.append(("through the wheels", min(beside, key=lambda t: (abs(t.x - group), t.x))))
    left = [t for t in deck if all(t.marks != f.marks and abs(t.x - f.x) > APART for _, f in found)]
    if left:
        found.append(("deepest crossmember", max(left, key=lambda t: (t.deep, len(t.marks), -t.x))))
    ordered = sorted(found, key=lambda f: f[1].x)[:MOST]
    return tuple(Plane("ABCDEFGH"[i], words, t.rear + BEHIND, t.x) for i, (words, t) in enumerate(ordered))


def at_wheels(s: Steel, x: float, more: float = 0.0) -> bool:
    """Whether a station lies beside the tyres, or within `more` of them (m)."""
    reach = s.tyre_diameter / 2.0 + more
    return s.axles[0].station - reach < x < s.axles[-1].station + reach


def _ahead(s: Steel) -> str:
    return "neck" if s.has_neck else "tongue"


def _stops(pieces: Sequence[Piece]) -> list[_Stop]:
    """Cross pieces gathered by where they stand, front to rear."""
    groups: list[list[Piece]] = []
    for p in sorted((p for p in pieces if p.z1 - p.z0 > PLATE), key=lambda p: (p.x0 + p.x1, p.mark, p.y0)):
        if groups and (p.x0 + p.x1 - groups[-1][0].x0 - groups[-1][0].x1) / 2.0 < TOGETHER:
            groups[-1].append(p)
        else:
            groups.append([p])
    return [_Stop(sum(p.x0 + p.x1 for p in g) / (2.0 * len(g)), max(p.x1 for p in g),
                  tuple(sorted({p.mark for p in g})), max(p.z1 - p.z0 for p in g)) for g in groups]


def marks(planes: Sequence[Plane], s: Steel, v: View) -> Views:
    """Heavy strokes above and below the elevation at each plane; below with its letter, arrows looking forward."""
    out: list[Mark] = []
    # A tyre drawn flat on the ground would reach below it: letters stay clear of the whole circle.
    low = v.up(min(0.0, s.tyre_radius_laden - s.tyre_diameter / 2.0)) + 1.5
    last = -math.inf
    for p in planes:
        tops = [q.z1 for q in s.pieces if q.x0 - 0.1 <= p.x <= q.x1 + 0.1]
        x, top = v.across(p.x), v.up(s.deck_height_laden + max(tops, default=0.0)) - 0.5
        # The arrow of a plane close behind another would stand on its letter: it goes below.
        y = low if x - last > NEAR else low + DROP
        last = x if y == low else -math.inf
        out += [
            Line(f"plane.{p.letter}.top", "cut", ((x, top - 2.0), (x, top))),
            Line(f"plane.{p.letter}", "cut", ((x, y), (x, y + 4.0))),
            Line(f"plane.{p.letter}.look", "thin", ((x, y + 3.0), (x - 5.0, y + 3.0))),
            arrow(f"plane.{p.letter}.head", (x - 6.0, y + 3.0), (x, y + 3.0)),
            Text(f"plane.{p.letter}.text", p.letter, (x + 1.2, y + 4.4), MARK, bold=True),
        ]
    return tuple(out)
