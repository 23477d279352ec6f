"""F2 frame elevation: the bare frame from the left and cut on the centre line, heights from the main-deck top."""

from dataclasses import dataclass, replace

from generator.draw.marks import TITLE as TITLE_HEIGHT
from generator.draw.marks import Line, Mark, extent
from generator.draw.ordinates import Station, levels, ordinates
from generator.draw.pages import Drawing, margin, paper
from generator.draw.sheets import hitch, planes, profiles, springs
from generator.draw.sheets import outlines as o
from generator.draw.sheets.detail import is_cut, labelled
from generator.draw.sheets.kit import (
    Kit,
    Views,
    at,
    boxes_known,
    dimensions,
    foremost,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.sheets.legs import legs
from generator.draw.sheets.stations import LETTERS, Place, places, said
from generator.draw.text import width
from generator.draw.views import Solid, View, title
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F2", "Frame elevation"
GAP, TITLED = 4.0, 12.0
"""Room between the two views, and for the title between them, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    boxes_known(s)
    if not s.pieces:
        raise RenderError("has nothing to show: no member is in the spec")
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _fitted(k, s, r))
    held = "brackets of the axles" if s.has_arms else "hangers, equalisers and springs"
    notes = (
        "Heights from the main-deck top, negative below it; they are those of the welded frame and do not depend on "
        "the load. Stations from datum A; marks as the member schedule of sheet S1.",
        "Stations of the right half: middles of what runs across and of posts, ends of the others. What the centre "
        "line cuts is drawn heavy and as rolled, channels and angles with their toes as they point.",
        f"Wheels and {held} in phantom lines: their makers' drawings govern. Ground as towed. Letters: sheet F2.2.",
        "Weld sizes, gussets of hangers and brackets, and strength are for the maker's licensed engineer.",
    )
    shown = ", ".join(sorted({p.mark for p in s.pieces}))
    alt = (
        f"Left elevation and section on the centre line of the frame at 1:{ratio:g} with members {shown}; heights from "
        "the main-deck top, stations from datum A. All values stand in the schedule."
    )
    return Drawing(NUMBER, TITLE, "left elevation and section on the centre line",
                   f"members {k.show(s.steel_mass, 'kg')}", ratio, marks, tuple(map(k.say, notes)), k.say(alt),
                   (dimensions(_rows(k, s)),))


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    rows = [k.row(h.words[0].upper() + h.words[1:], h.z, where="from the main-deck top") for h in heights(s)]
    return rows + [k.row(p.words[0].upper() + p.words[1:], p.x, where="station") for p in _places(k, s)]


@dataclass(frozen=True, slots=True)
class Height:
    """A height of the frame: what it is, in few letters too, m from the main-deck top, station where it ends."""

    id: str
    words: str
    short: str
    z: float
    x: float


def heights(s: Steel) -> list[Height]:
    """Heights of the welded frame from the main-deck top."""
    front, found = foremost(s), [Height("deck", "main-deck top", "deck", 0.0, 0.0)]
    found.append(Height("rail", "underside of the main rails", "rails", s.rail_underside, 0.0))
    flush = max((p.z1 for p in s.pieces if p.run != "upright" and p.z1 <= 0.0 and p.x0 >= -1e-6), default=0.0)
    if flush < -1e-3:
        found.append(Height("steel", "top of the steel under the decking", "steel", flush, 0.0))
    if s.has_neck:
        top = s.neck_underside + s.neck_frame_depth
        found.append(Height("neck", "underside of the neck", "neck", s.neck_underside, front))
        found.append(Height("neck.top", "top of the neck frame", "neck top", top, front))
    elif ahead := legs(s):
        found.append(Height("tongue", "underside of the tongue", "tongue", min(p.z0 for p in ahead), ahead[0].x0))
        found.append(Height("tongue.top", "top of the tongue", "tongue top", max(p.z1 for p in ahead), ahead[0].x0))
    tubes = [p for p in s.pieces if p.run == "upright" and is_cut(p) and p.x0 < s.pin_station < p.x1]
    found += [Height("tube", "lower end of the coupler tube", "tube", p.z0, p.x0) for p in tubes[:1]]
    if over := _over_boxes(s):
        at, top = min(p.x0 for p in over), max(p.z1 for p in over)
        found.append(Height("box", "top of the wheel-box steel", "box", top, at))
    return found


def _over_boxes(s: Steel) -> list[Piece]:
    """Lengthwise steel of the wheel boxes above the deck."""
    low, high = s.axles[0].station, s.axles[-1].station
    return [p for p in s.pieces if p.run == "lengthwise" and p.z1 > 0.0 and p.x0 <= low and p.x1 >= high]


def _places(k: Kit, s: Steel) -> list[Place]:
    """Where the pieces of the right half stand: middles of what runs across and of posts, ends of the others."""
    half = [p for p in s.pieces if p.y1 > 1e-3]
    named = ((0.0, "datum A"), (s.deck_length, "rear of main deck"), (s.pin_station, k.say("ball")))
    across = [p for p in half if p.run == "upright" or (p.run == "crosswise" and is_cut(p))]
    centred = [(p.mark, (p.x0 + p.x1) / 2.0) for p in across]
    return places(named, centred, [(p.mark, x) for p in half if p.run == "lengthwise" for x in (p.x0, p.x1)])


def _fitted(k: Kit, s: Steel, ratio: float) -> Views | None:
    """Both views with as many words beside their stations and heights as there is room for."""
    v = View(ratio)
    upper, lower = _elevation(s, v), _section(s, v)
    tries = ((told, n) for told in (True, False) for n in LETTERS)
    return next((made for told, n in tries if (made := _views(k, s, upper, lower, told, n)) is not None), None)


def _views(k: Kit, s: Steel, upper: "_Shown", lower: "_Shown", told: bool, letters: int) -> Views | None:
    v, room = upper.view, k.room
    upper, lower = upper.plus(_levels(k, s, upper, told)), lower.plus(_stations(k, s, lower, letters))
    named = frozenset(word for p in _places(k, s) for word in p.short(letters).split())
    lower = replace(lower, named=named)
    a, b = extent(upper.marks), extent(lower.marks)
    left, right = min(a.x0, b.x0), max(a.x1, b.x1)
    deep = (a.y1 - a.y0) + TITLED + GAP + (b.y1 - b.y0)
    if right - left > room.x1 - room.x0 or deep > room.y1 - room.y0:
        return None
    spare = (room.y1 - room.y0 - deep) / 3.0
    dx = (room.x0 + room.x1 - left - right) / 2.0
    y1 = room.y0 + spare - a.y0
    y2 = room.y1 - spare / 2.0 - b.y1
    marks: list[Mark] = [*at(upper.labelled("side"), dx, y1), *at(lower.labelled("section"), dx, y2)]
    corner, scale = dx + left, f"1:{v.ratio:g}"
    under = f"unladen, members {k.show(s.steel_mass, 'kg')}"
    marks += title("elevation", (corner, y1 + a.y1 + 1.0), "LEFT ELEVATION", scale, under)
    below, words = min(y2 + b.y1 + 2.0, room.y1 + 1.0), "SECTION ON THE CENTRE LINE"
    # The title reaches below the field: it stays left of the revision block.
    corner = min(corner, margin(paper(k.cover)).x1 - width(f"{words}\u00a0 {scale}", TITLE_HEIGHT, bold=True))
    marks += title("section", (corner, below), words, scale, "looking right")
    return tuple(marks)


@dataclass(frozen=True, slots=True)
class _Shown:
    """A view before its marks are named."""

    view: View
    pieces: tuple[Piece, ...]
    solids: tuple[Solid, ...]
    marks: Views
    named: frozenset[str] = frozenset()
    """Marks of cross pieces and posts that stand beside their stations."""

    def plus(self, marks: Views) -> "_Shown":
        """The view with more marks."""
        return replace(self, marks=(*self.marks, *marks))

    def labelled(self, id: str) -> Views:
        """The view with the marks of its members."""
        left = [(p, f) for p, f in zip(self.pieces, self.solids, strict=True)
                if p.run == "lengthwise" or p.mark not in self.named]
        hidden = [f for f in self.solids if all(f is not g for _, g in left)]
        pieces, solids = [p for p, _ in left], [f for _, f in left]
        return (*self.marks, *labelled(id, pieces, solids, self.view, self.marks, hidden))


def _elevation(s: Steel, v: View) -> _Shown:
    """The left side with wheels and springs in phantom lines and the planes of the sections."""
    left, deck = tuple(p for p in s.pieces if p.y0 < -1e-3), s.deck_height_laden
    solids = tuple(Solid(p.mark, o.face_along(p, s), -p.y0) for p in left)
    front, rear = v.across(foremost(s)), v.across(s.deck_length)
    return _Shown(v, left, solids, (
        *o.visible(solids, v),
        v.box("decking", "thin", 0.0, deck - s.deck_thickness, s.deck_length, deck),
        *springs.wheels(s, v),
        *springs.side(s, v, "phantom"),
        *hitch.side(s, v),
        Line("ground", "ground", ((front - 3.0, 0.0), (rear + 3.0, 0.0))),
        *planes.marks(planes.chosen(s), s, v),
    ))


def _levels(k: Kit, s: Steel, shown: _Shown, told: bool) -> Views:
    """Heights at the left of the elevation, with what they are where there is room."""
    v, deck = shown.view, s.deck_height_laden
    listed = [
        Station(h.id, v.up(deck + h.z), v.across(h.x), said(k, h.z, h.short if told else ""), h.z) for h in heights(s)
    ]
    high = v.up(deck + max(p.z1 for p in shown.pieces))
    return levels("levels", listed, v.across(foremost(s)) - 1.0, high - 4.0, -1.0)


def _section(s: Steel, v: View) -> _Shown:
    """What the centre line cuts, heavy, and the right side beyond."""
    pieces, deck = tuple(p for p in s.pieces if p.y1 > 1e-3), s.deck_height_laden
    solids = tuple(Solid(p.mark, o.face_along(p, s), -max(p.y0, 0.0)) for p in pieces)
    return _Shown(v, pieces, solids, (
        *o.visible([f for p, f in zip(pieces, solids, strict=True) if not is_cut(p)], v),
        *(m for i, p in enumerate(pieces) if is_cut(p) for m in profiles.along(f"cut.{i}", s, p, v)),
        v.box("section.decking", "thin", 0.0, deck - s.deck_thickness, s.deck_length, deck),
    ))


def _stations(k: Kit, s: Steel, shown: _Shown, letters: int) -> Views:
    """Stations below the section, from the lowest steel there."""
    v, deck, found = shown.view, s.deck_height_laden, list[Station]()
    for p in _places(k, s):
        feet = [q.z0 for q in shown.pieces if q.x0 - 1e-3 <= p.x <= q.x1 + 1e-3]
        foot = v.up(deck + min(feet, default=s.rail_underside))
        found.append(Station(p.id, v.across(p.x), foot, said(k, p.x, p.short(letters)), p.x, p.rank))
    low = v.up(deck + min(p.z0 for p in shown.pieces))
    return ordinates("stations", found, low, True, v.across(foremost(s)) - 6.0, v.across(s.deck_length) + 6.0)
