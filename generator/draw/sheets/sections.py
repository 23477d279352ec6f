"""F2.2 sections across the frame: steel as rolled where it is cut, what stands right ahead, deck, house in phantom."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.draw.dimensions import Span, band
from generator.draw.marks import Mark, Rect, extent
from generator.draw.ordinates import Station, levels
from generator.draw.pages import Drawing
from generator.draw.sheets import outlines as o
from generator.draw.sheets import planes, profiles, springs
from generator.draw.sheets.detail import labelled
from generator.draw.sheets.kit import Kit, Views, at, boxes_known, column, dimensions, kit, largest, need, steel_known
from generator.draw.sheets.legs import is_slanted, middle
from generator.draw.sheets.planes import Plane
from generator.draw.sheets.stations import said
from generator.draw.views import Solid, View, title
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import Desk, Envelope, Steel

NUMBER, TITLE = "F2.2", "Frame sections"
GAP, TITLED, ACROSS = 6.0, 13.0, 2
"""Room between sections and for their titles, mm; sections beside each other."""
ALIKE = 0.004
"""Widths nearer than this are one, m."""
AHEAD, ABOVE = 0.1, 0.1
"""How far ahead of what it shows a section still looks, and how much of the house stands over the deck, m."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    boxes_known(s)
    cuts, house = planes.chosen(s), desk.get(Envelope)
    if not cuts:
        raise RenderError("has nothing to show: no crossmember is in the spec")
    width = house.width if isinstance(house, Envelope) else math.nan
    ratio, marks = largest(k, s.deck_width, lambda r: _sheet(k, s, cuts, width, r))
    notes = (
        "Looking forward; each plane stands right behind the members it shows, at the letters of sheet F2. What it "
        "cuts is drawn heavy and as rolled, channels and angles with their toes as they point; further steel left out.",
        "Heights from the main-deck top, negative below it. All alike left and right.",
        "Decking thin, house and tyres in phantom lines. Cut lengths and copes: schedules of sheets S1 on.",
    )
    alt = f"Sections across the frame at 1:{ratio:g}: " + "; ".join(
        f"{p.name} at {k.show(p.shown, 'm')}, {p.words}" for p in cuts) + ". All dimensions stand in the schedule."
    return Drawing(NUMBER, TITLE, "across the trailer, looking forward", f"members {k.show(s.steel_mass, 'kg')}", ratio,
                   marks, notes, k.say(alt), (dimensions(_rows(k, s, cuts, width)),))


@dataclass(frozen=True, slots=True)
class _Cut:
    """A section: its plane, the pieces it cuts and those it shows ahead."""

    plane: Plane
    cut: tuple[Piece, ...]
    ahead: tuple[Piece, ...]

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All of them."""
        return (*self.cut, *self.ahead)

    @property
    def is_up(self) -> bool:
        """Whether all of it stands above the main deck: a section through a neck."""
        return min(p.z0 for p in self.pieces) > 0.0


def _cut_at(s: Steel, plane: Plane) -> _Cut:
    cut = tuple(p for p in s.pieces if p.x0 + 1e-4 < plane.x < p.x1 - 1e-4)
    ahead = tuple(p for p in s.pieces if plane.shown - AHEAD < p.x1 <= plane.x and p.x0 > plane.shown - 2.0 * AHEAD)
    return _Cut(plane, cut, ahead)


def _rows(k: Kit, s: Steel, cuts: Sequence[Plane], width: float) -> list[tuple[str, ...]]:
    rows = []
    for plane in cuts:
        c = _cut_at(s, plane)
        rows.append(k.row(f"Section {plane.name}, shows what stands at", plane.shown, where=f"station; {plane.words}"))
        rows += [k.row(f"{plane.name}: {words}", value, where="across") for _, words, value, _ in _widths(s, c, width)]
        rows += [k.row(f"{plane.name}: {words}", z, where="from the main-deck top") for words, z, _ in _heights(s, c)]
    return rows


def _widths(s: Steel, c: _Cut, width: float) -> list[tuple[str, str, float, bool]]:
    """Widths about the centre line (m): id, what, value, and whether it stands above the section."""
    found = [("deck", "deck", s.neck_width if c.is_up else s.deck_width, True), ("house", "house", width, True)]
    if c.is_up:
        found.append(("rails", "neck rails", s.neck_rails_outside, False))
    elif c.plane.x > 0.0:
        found.append(("rails", "rails", s.rails_outside, False))
    else:
        found = []
    slanted = [p for p in c.cut if is_slanted(p)]
    if slanted:
        found.append(("legs", "legs", 2.0 * abs(middle(slanted[0], c.plane.x)), False))
    edge = 0.0 if slanted else 2.0 * max((o.face_across(p, s).x1 for p in c.pieces), default=0.0)
    if edge > 0.0 and all(abs(edge - value) > ALIKE for _, _, value, _ in found):
        found.append(("edge", "steel", edge, False))
    return [f for f in found if math.isfinite(f[2]) and f[2] > 0.0]


def _heights(s: Steel, c: _Cut) -> list[tuple[str, float, float]]:
    """Heights from the main-deck top (m): what, height, and where it ends across; each height once."""
    rows = [] if c.is_up or c.plane.x < 0.0 else [("deck", 0.0, -s.deck_width / 2.0)]
    for p in sorted(c.pieces, key=lambda p: (p.y0, p.mark)):
        low = _face(p, s, c.plane.x).x0
        if p.z1 - p.z0 > 0.02 and low < 0.0:
            rows += [(f"{p.mark} top", p.z1, low), (f"{p.mark} underside", p.z0, low)]
    found: dict[int, tuple[str, float, float]] = {}
    for row in rows:
        found.setdefault(round(row[1] * 1000.0), row)
    return [found[key] for key in sorted(found)]


def _sheet(k: Kit, s: Steel, cuts: Sequence[Plane], width: float, ratio: float) -> Views | None:
    """The sections in rows, each over its title."""
    v, room = View(ratio), k.room
    made = [(c, _section(k, s, c, width, v)) for c in (_cut_at(s, p) for p in cuts)]
    boxes = [extent(m) for _, m in made]
    heads = [f"SECTION {c.plane.name}" for c, _ in made]
    wide = [max(column(b, h, ratio) for b, h in zip(boxes[i::ACROSS], heads[i::ACROSS], strict=True))
            for i in range(min(ACROSS, len(made)))]
    rows = [boxes[i:i + ACROSS] for i in range(0, len(made), ACROSS)]
    high = [max(b.y1 - b.y0 for b in row) for row in rows]
    left = room.x1 - room.x0 - sum(wide) - GAP * (len(wide) - 1)
    over = room.y1 - room.y0 - sum(high) - TITLED * len(rows) - GAP * (len(rows) - 1)
    if left < 0.0 or over < 0.0:
        return None
    marks: list[Mark] = []
    for n, ((c, views), b, head) in enumerate(zip(made, boxes, heads, strict=True)):
        row, col = divmod(n, ACROSS)
        x = room.x0 + left / (len(wide) + 1.0) * (col + 1) + sum(wide[:col]) + GAP * col
        y = room.y0 + over / (len(rows) + 1.0) * (row + 1) + sum(high[:row]) + (TITLED + GAP) * row + high[row]
        named = (*views, *_labels(s, c, v, views))
        marks += at(named, x - b.x0, y - b.y1)
        below = f"at {k.show(c.plane.shown, 'm')}, looking forward"
        marks += title(f"section.{c.plane.letter}", (x, y + 2.0), head, f"1:{ratio:g}", below)
    return tuple(marks)


def _solids(s: Steel, c: _Cut) -> list[Solid]:
    """What may be seen: closed sections that are cut, and all that stands ahead."""
    closed = {q.mark for q in s.shapes if q.shape in ("HSS", "plate")}
    solids = [Solid(p.mark, o.face_across(p, s), c.plane.x) for p in c.cut if p.mark in closed and not is_slanted(p)]
    return [*solids, *(Solid(p.mark, o.face_across(p, s), p.x1) for p in c.ahead)]


def _labels(s: Steel, c: _Cut, v: View, standing: Views) -> Views:
    solids = [Solid(p.mark, _face(p, s, c.plane.x), c.plane.x) for p in c.cut]
    solids += [Solid(p.mark, o.face_across(p, s), p.x1) for p in c.ahead]
    return labelled(f"mark.{c.plane.letter}", c.pieces, solids, v, standing)


def _face(p: Piece, s: Steel, x: float) -> Rect:
    """A cut piece where the plane meets it."""
    face = o.face_across(p, s)
    if not is_slanted(p):
        return face
    half, y = (p.y1 - p.y0) / 2.0 * p.skew, middle(p, x)
    return Rect(y - half, face.y0, y + half, face.y1)


def _section(k: Kit, s: Steel, c: _Cut, width: float, v: View) -> Views:
    """One section with its dimensions, before its marks are named."""
    deck, id = s.deck_height_laden, c.plane.letter
    marks: list[Mark] = [
        *o.visible(_solids(s, c), v),
        *(m for i, p in enumerate(c.cut) for m in profiles.across(f"{id}.cut.{i}", s, p, c.plane.x, v)),
        *_around(s, c, width, v),
    ]
    steel = extent(marks)
    top = deck + max([p.z1 for p in c.pieces] + [0.0] * (not c.is_up)) + ABOVE
    bottom = steel.y1
    marks.append(v.run(f"{id}.centre", "centre", ((0.0, (v.y - bottom) * v.ratio / 1000.0 - 0.06), (0.0, top + 0.04))))
    over = [_span(k, v, id, what, words, value, v.up(top) if what == "house" else v.up(deck + _seat(s, c)))
            for what, words, value, is_over in _widths(s, c, width) if is_over]
    under = [_span(k, v, id, what, words, value, v.up(deck + min(p.z0 for p in c.cut or c.ahead)))
             for what, words, value, is_over in _widths(s, c, width) if not is_over]
    marks += [*band(over, "above", v.up(top)), *band(under, "below", bottom)]
    edge = min(extent(marks).x0, v.across(-s.deck_width / 2.0)) if c.plane.x > 0.0 else extent(marks).x0
    listed = [Station(f"{i}", v.up(deck + z), v.across(y), f"{said(k, z, '')} {words}", z)
              for i, (words, z, y) in enumerate(_heights(s, c))]
    marks += levels(f"{id}.levels", listed, edge, steel.y0 - 14.0, steel.y1 + 14.0)
    return tuple(marks)


def _seat(s: Steel, c: _Cut) -> float:
    """Height of the decking the section is under, m from the main-deck top."""
    return s.neck_underside + s.neck_frame_depth if c.is_up else 0.0


def _span(k: Kit, v: View, id: str, what: str, words: str, value: float, level: float) -> Span:
    """A width about the centre line, with what it is."""
    ends = v.across(-value / 2.0), v.across(value / 2.0)
    return k.span(f"{id}.dim.{what}", *ends, value, (level, level), f"{words} ")


def _around(s: Steel, c: _Cut, width: float, v: View) -> Views:
    """Decking, lower ends of the house walls, tyres beside the frame."""
    if c.plane.x < 0.0 and not c.is_up:
        return ()
    id, seat = c.plane.letter, s.deck_height_laden + _seat(s, c)
    half = (s.neck_width if c.is_up else s.deck_width) / 2.0
    beside = planes.at_wheels(s, c.plane.x)
    inner = min([half, *(b.inside for b in s.boxes if b.front < c.plane.x < b.rear)])
    low = seat if c.is_up else seat - s.deck_thickness
    marks: list[Mark] = [v.box(f"{id}.decking", "thin", -inner, low, inner, low + s.deck_thickness)]
    over = max([seat, *(s.deck_height_laden + p.z1 for p in c.pieces)]) + ABOVE
    for side in (-1, 1):
        if math.isfinite(width):
            wall = side * width / 2.0
            marks.append(v.run(f"{id}.house.{side}", "phantom", ((wall, seat), (wall, over))))
        if beside:
            marks += springs.across(f"{id}.{side}", s, side, v)
            y, wide, top = side * s.track / 2.0, s.tyre_width / 2.0, s.tyre_radius_laden + s.tyre_diameter / 2.0
            marks.append(v.box(f"{id}.tyre.{side}", "phantom", y - wide, 0.0, y + wide, top))
    return tuple(marks)
