"""F2 frame elevation: the bare frame from the left and cut on the centre line, heights from the main-deck top."""

from generator.draw.marks import Line, Mark, Rect, extent
from generator.draw.ordinates import Station, levels, ordinates
from generator.draw.pages import HEADING, Drawing
from generator.draw.sheets import hitch, planes, profiles, springs
from generator.draw.sheets import outlines as o
from generator.draw.sheets.detail import is_cut, labelled
from generator.draw.sheets.kit import (
    Kit,
    Views,
    ahead_of,
    at,
    boxes_known,
    dimensions,
    foremost,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.sheets.stations import LETTERS, Place, places, said
from generator.draw.views import Solid, View, title
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F2", "Frame elevation"
GAP, TITLED, LEVELLED = 5.0, 12.0, 44.0
"""Room between the two views, for the title between them, and for the heights at the left, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    boxes_known(s)
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _fitted(k, s, r))
    held = "brackets of the axles" if s.has_arms else "hangers, equalisers and springs"
    notes = (
        "Heights from the main-deck top, negative below it; they are those of the welded frame and do not depend on "
        "the load. Stations from datum A; marks as the member schedule of sheet S1.",
        "Above: ends of lengthwise members and middles of posts of the left side. Below: middles of what the centre "
        "line cuts, drawn heavy as rolled; channels and angles with their toes as they point.",
        f"Wheels and {held} in phantom lines: their makers' drawings govern. Ground as towed. Letters: sheet F2.2.",
        "Weld sizes, gussets of hangers and brackets, and strength are for the maker's licensed engineer.",
    )
    shown = ", ".join(sorted({p.mark for p in s.pieces}))
    alt = (
        f"Left elevation and section on the centre line of the frame at 1:{ratio:g} with members {shown}; heights from "
        "the main-deck top, stations from datum A. All values stand in the schedule."
    )
    return Drawing(NUMBER, TITLE, "left elevation and section on the centre line", f"{ahead_of(s)} level", ratio,
                   marks, tuple(map(k.say, notes)), k.say(alt), (dimensions(_rows(k, s)),))


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    rows = [k.row(words[0].upper() + words[1:], z, where="from the main-deck top") for _, words, z, _ in _heights(s)]
    for words, listed in (("left side", _side_places(k, s)), ("on the centre line", _cut_places(k, s))):
        rows += [k.row(p.words[0].upper() + p.words[1:], p.x, where=f"station, {words}") for p in listed]
    return rows


def _heights(s: Steel) -> list[tuple[str, str, float, float]]:
    """Heights of the frame (m from the main-deck top): id, words, height, station where the feature ends."""
    front = foremost(s)
    rows = [("deck", "deck top", 0.0, 0.0), ("rail", "underside of rails", s.rail_underside, 0.0)]
    steel = max((p.z1 for p in s.pieces if p.run != "upright" and p.z1 <= 0.0 and p.x0 >= -1e-6), default=0.0)
    if steel < -1e-3:
        rows.append(("steel", "top of steel", steel, 0.0))
    if s.has_neck:
        top = s.neck_underside + s.neck_frame_depth
        rows += [("neck", "neck underside", s.neck_underside, front), ("neck.top", "neck deck top", top, front)]
    else:
        ahead = [p for p in s.pieces if p.run == "lengthwise" and p.x0 < -1e-3]
        rows += [(f"tongue.{i}", f"{words} of tongue", z, min(p.x0 for p in ahead))
                 for i, (words, z) in enumerate((("underside", min(p.z0 for p in ahead)), ("top", max(p.z1 for p in ahead)))
                                                if ahead else ())]
    tubes = [p for p in s.pieces if p.run == "upright" and is_cut(p) and p.x0 < s.pin_station < p.x1]
    rows += [("tube", "lower end of coupler tube", p.z0, p.x0) for p in tubes[:1]]
    rows += [("box", "top of wheel-box steel", max(p.z1 for p in over), min(p.x0 for p in over))
             for over in [_over_boxes(s)] if over]
    return rows


def _over_boxes(s: Steel) -> list[Piece]:
    """Steel of the wheel boxes above the deck."""
    low, high = s.axles[0].station - s.tyre_diameter, s.axles[-1].station + s.tyre_diameter
    return [p for p in s.pieces if p.z1 > 0.0 and p.x0 > low - 0.5 and p.x1 < high + 0.5 and p.x0 > 0.1]


def _side_places(k: Kit, s: Steel) -> list[Place]:
    """Ends of lengthwise members of the left side, middles of its posts."""
    left = [p for p in s.pieces if p.y0 < -1e-3 and not is_cut(p)]
    named = ((0.0, "datum A"), (s.deck_length, "rear of main deck"), (s.pin_station, k.say("ball")))
    ended = [(p.mark, x) for p in left if p.run == "lengthwise" for x in (p.x0, p.x1)]
    return places(named, [(p.mark, (p.x0 + p.x1) / 2.0) for p in left if p.run == "upright"], ended)


def _cut_places(k: Kit, s: Steel) -> list[Place]:
    """Middles of what the centre line cuts."""
    cut = [p for p in s.pieces if is_cut(p)]
    named = ((0.0, "datum A"), (s.pin_station, k.say("ball")))
    ended = [(p.mark, x) for p in cut if p.run == "lengthwise" for x in (p.x0, p.x1)]
    return places(named, [(p.mark, (p.x0 + p.x1) / 2.0) for p in cut if p.run != "lengthwise"], ended)


def _fitted(k: Kit, s: Steel, ratio: float) -> Views | None:
    """Both views with as many marks beside their stations as there is room for."""
    return next((made for n in (*LETTERS, 0) if (made := _views(k, s, ratio, n)) is not None), None)


def _views(k: Kit, s: Steel, ratio: float, letters: int) -> Views | None:
    v, room = View(ratio), k.room
    upper, lower = _elevation(k, s, v, letters), _section(k, s, v, letters)
    a, b = extent(upper), extent(lower)
    left, right = min(a.x0, b.x0), max(a.x1, b.x1)
    deep = (a.y1 - a.y0) + GAP + TITLED + GAP + (b.y1 - b.y0)
    if right - left > room.x1 - room.x0 or deep > room.y1 - room.y0 - 1.0:
        return None
    spare = (room.y1 - room.y0 - deep) / 2.0
    dx = (room.x0 + room.x1 - left - right) / 2.0
    y1 = room.y0 + spare - a.y0
    y2 = y1 + a.y1 + GAP + TITLED + GAP + spare / 2.0 - b.y0
    marks: list[Mark] = [*at(upper, dx, y1), *at(lower, dx, y2)]
    corner, under = dx + left, f"unladen, members {k.show(s.steel_mass, 'kg')}"
    marks += title("elevation", (corner, y1 + a.y1 + GAP / 2.0), "LEFT ELEVATION", f"1:{ratio:g}", under)
    below = min(y2 + b.y1 + 2.0, room.y1 + 1.0)
    marks += title("section", (corner, below), "SECTION ON THE CENTRE LINE", f"1:{ratio:g}", "looking right")
    return tuple(marks)


def _elevation(k: Kit, s: Steel, v: View, letters: int) -> Views:
    """The left side with wheels and springs in phantom lines, stations above, heights at the left, planes of sections."""
    left, deck = [p for p in s.pieces if p.y0 < -1e-3], s.deck_height_laden
    solids = [Solid(p.mark, o.face_along(p, s), -p.y0) for p in left]
    marks: list[Mark] = [
        *o.visible(solids, v),
        v.box("decking", "thin", 0.0, deck - s.deck_thickness, s.deck_length, deck),
        *springs.wheels(s, v),
        *springs.side(s, v, "phantom"),
        *hitch.side(s, v),
        Line("ground", "ground", ((v.across(foremost(s)) - 3.0, 0.0), (v.across(s.deck_length) + 3.0, 0.0))),
        *planes.marks(planes.chosen(s), s, v),
    ]
    edge = v.across(foremost(s)) - 3.0
    listed = [
        Station(id, v.up(deck + z), v.across(x), f"{said(k, z, '')} {words}", z) for id, words, z, x in _heights(s)
    ]
    high = v.up(deck + max(p.z1 for p in left))
    marks += levels("levels", listed, edge, high - 4.0, -1.0)
    ends = (v.across(foremost(s)) - 6.0, v.across(s.deck_length) + 6.0)
    marks += _stations("side", k, s, _side_places(k, s), left, v, letters, ends, high)
    return (*marks, *labelled("side", left, solids, v, marks))


def _stations(id: str, k: Kit, s: Steel, listed: list[Place], pieces: list[Piece], v: View, letters: int,
              ends: tuple[float, float], edge: float) -> Views:
    """Stations above a view."""
    found = []
    for p in listed:
        tops = [q.z1 for q in pieces if q.x0 - 1e-3 <= p.x <= q.x1 + 1e-3]
        foot = v.up(s.deck_height_laden + max(tops, default=0.0))
        found.append(Station(p.id, v.across(p.x), foot, said(k, p.x, p.short(letters)), p.x, p.rank))
    return ordinates(id, found, edge, False, *ends)


def _section(k: Kit, s: Steel, v: View, letters: int) -> Views:
    """What the centre line cuts, heavy, and the right side beyond; stations of the cut pieces below."""
    pieces, deck = [p for p in s.pieces if p.y1 > 1e-3], s.deck_height_laden
    solids = [Solid(p.mark, o.face_along(p, s), -max(p.y0, 0.0)) for p in pieces]
    cut = [p for p in pieces if is_cut(p)]
    marks: list[Mark] = [
        *o.visible([f for p, f in zip(pieces, solids, strict=True) if p not in cut], v),
        *(m for i, p in enumerate(cut) for m in profiles.along(f"cut.{i}", s, p, v)),
        v.box("section.decking", "thin", 0.0, deck - s.deck_thickness, s.deck_length, deck),
    ]
    low = v.up(deck + min(p.z0 for p in pieces))
    found = []
    for p in _cut_places(k, s):
        feet = [q.z0 for q in pieces if q.x0 - 1e-3 <= p.x <= q.x1 + 1e-3]
        foot = v.up(deck + min(feet, default=0.0))
        found.append(Station(p.id, v.across(p.x), foot, said(k, p.x, p.short(letters)), p.x, p.rank))
    ends = (v.across(foremost(s)) - 6.0, v.across(s.deck_length) + 6.0)
    marks += ordinates("cut", found, low, True, *ends)
    shown = [(p, f) for p, f in zip(pieces, solids, strict=True)]
    return (*marks, *labelled("section", [p for p, _ in shown], [f for _, f in shown], v, marks))
