"""F1 frame plan: every member with its mark, stations from datum A, member schedule."""

import math
from collections.abc import Sequence

from generator.draw.dimensions import band
from generator.draw.marks import Mark, Rect, cross, extent
from generator.draw.ordinates import Station, ordinates
from generator.draw.pages import HEADING, Drawing, margin, paper
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, boxes_known, dimensions, foremost, kit, largest, need, steel_known
from generator.draw.sheets.legs import angle, is_slanted, legs, middle
from generator.draw.sheets.points import SIGN, WORDS, Support, both_sides, by_station, legend, sign, supports
from generator.draw.sheets.stations import LETTERS, Place, places, said
from generator.draw.views import View, title
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F1", "Frame plan"
ABOVE_TITLE, ABOVE_VIEW = 2.8, 3.0
"""Room between the stations and the view title, and what the stations may take of the margin at the top, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    boxes_known(s)
    ratio, marks = largest(k, s.deck_length - foremost(s), lambda r: _fitted(k, s, r))
    stations = len({round(p.x0 + p.x1, 6) for p in o.pieces_of(s, "crosswise")})
    notes = (
        "All stations run from datum A, the front face of the main deck's front crossmember. Below the view: centre "
        "lines of cross pieces and posts, ends of long members, with their marks (+2: two more, in the schedule). "
        f"Above: axles, {'brackets, ' if s.has_arms else ''}points of the legend, named on sheet F6.",
        "Edges under other steel are dashed, also ends coped under a flange. Decking left out.",
        "Square within the general tolerance, diagonals compared before the axles are set.",
        "Sections and grades in the member schedule; weld sizes and strength are for the maker's licensed engineer.",
    )
    marks_listed = ", ".join(sorted({p.mark for p in s.pieces}))
    alt = (
        f"Frame plan at 1:{ratio:g} with members marked {marks_listed}; {stations} crossmember stations and "
        f"{len(s.axles)} axles as ordinates from datum A. Dimension and member schedules list every value."
    )
    return Drawing(
        NUMBER,
        TITLE,
        "steel seen from above, decking left out",
        f"members alone, {k.show(s.steel_mass, 'kg')}",
        ratio,
        marks,
        notes,
        alt,
        (dimensions(_rows(k, s)), _members(k, s.pieces), *_placed(s)),
    )


def _steel_stations(k: Kit, s: Steel) -> list[Place]:
    """Each place a saw or a square must find: faces, centre lines of cross pieces and posts, ends of long members."""
    named = (
        (0.0, "datum A, front face of front crossmember"),
        (s.deck_length, "rear of main deck"),
        *(((s.neck_front, "front of neck"),) if s.has_neck else ()),
        (s.pin_station, k.say("ball")),
    )
    long = [(p.mark, x) for p in s.pieces if p.run == "lengthwise" for x in (p.x0, p.x1)]
    centred = [(p.mark, (p.x0 + p.x1) / 2.0) for p in s.pieces if p.run != "lengthwise"]
    return places(named, centred, long)


def _axles(s: Steel) -> list[tuple[str, float, float]]:
    """Name, station and reach off the centre line (m) of spindles and brackets."""
    half = s.track / 2.0 + s.tyre_width / 2.0
    out = [(f"axle {a.number}", a.station, half) for a in s.axles]
    name = "bracket" if s.has_arms else "spring seat"
    return out + [(f"{name} {a.number}", a.bracket_station, s.bracket_spacing / 2.0) for a in s.axles]


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    rows = [k.row(p.words[0].upper() + p.words[1:], p.x, where="station") for p in _steel_stations(k, s)]
    rows += [
        k.row(name[0].upper() + name[1:], x, where=f"station, {k.show(y, 'm')} off the centre line")
        for name, x, y in _axles(s)
    ]
    rows += [
        k.row(f"{WORDS[p.kind][0].upper()}{WORDS[p.kind][1:]}, {p.id}", p.station, where=_off(k, p))
        for p in supports(s)
    ]
    return [
        *rows,
        k.row("Main rails, outside to outside", s.rails_outside),
        k.row("Main deck, width", s.deck_width),
        k.row("Main deck, length", s.deck_length),
        *_ahead(k, s),
        k.row("Bracket centres across" if s.has_arms else "Spring centres across", s.bracket_spacing),
        k.row("Track, tyre centres", s.track),
    ]


def _ahead(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    if s.has_neck:
        return [
            k.row("Neck, width", s.neck_width),
            k.row("Neck rails, outside to outside", s.neck_rails_outside),
            k.row("Rear of frame to front of neck", s.deck_length - s.neck_front, where="reference"),
        ]
    rows = [k.row("Rear of frame to front of tongue", s.deck_length - foremost(s), where="reference")]
    if not legs(s):
        return rows
    if any(map(is_slanted, legs(s))):
        return [k.row("Tongue leg to centre line", s.hitched.tongue_angle, "rad", "in plan"), *rows]
    return [k.row("Tongue rails, outside to outside", _legs_outside(s)), *rows]


def _legs_outside(s: Steel) -> float:
    """Width over the straight rails of a tongue, m."""
    return max(p.y1 for p in legs(s)) - min(p.y0 for p in legs(s))


def alike(k: Kit, pieces: Sequence[Piece]) -> list[tuple[tuple[str, str, str, str, str], list[Piece]]]:
    """Pieces that are cut alike: mark, member, section, grade, cut length as text; by mark."""
    groups: dict[tuple[str, str, str, str, str], list[Piece]] = {}
    for p in pieces:
        groups.setdefault((p.mark, p.title, p.section, p.grade, k.show(p.cut_length, "m")), []).append(p)
    return sorted(groups.items())


def _members(k: Kit, pieces: Sequence[Piece]) -> Schedule:
    rows = [
        (mark, words, section, grade, str(len(g)), long, k.show(sum(p.mass for p in g), "kg"))
        for (mark, words, section, grade, long), g in alike(k, pieces)
    ]
    rows.append(("", "All members", "", "", str(len(pieces)), "", k.show(sum(p.mass for p in pieces), "kg")))
    return Schedule(
        "Members",
        ("Mark", "Member", "Section", "Grade", "Quantity", "Cut length", "Mass, all"),
        (False, False, False, False, True, True, True),
        tuple(rows),
    )


def _placed(s: Steel) -> tuple[Schedule, ...]:
    """Where each mark goes, and how its ends are cut."""
    rows = tuple((p.mark, p.where, p.across, p.top, p.ends) for p in s.places)
    head = ("Mark", "Stations, from datum A", "Off the centre line", "Top, from deck top", "Ends and toes")
    return (Schedule("Where each mark goes", head, (False,) * 5, rows),) if rows else ()


def _off(k: Kit, p: Support) -> str:
    return f"station, {k.show(p.y, 'm')} off the centre line" if p.y else _on_centre(p)


def _on_centre(p: Support) -> str:
    return "station, each side of the ball" if p.kind == "chain" else "station, on the centre line"


def _fitted(k: Kit, s: Steel, ratio: float) -> Views | None:
    """The view with as many marks beside its stations as there is room for."""
    return next((made for letters in LETTERS if (made := _views(k, s, ratio, letters)) is not None), None)


def _views(k: Kit, s: Steel, ratio: float, letters: int) -> Views | None:
    v, room = View(ratio), k.room
    marks: list[Mark] = [*o.steel_plan(s, v), *o.wheels_plan(s, v, "phantom"), *o.boxes_plan(s, v), *hitch.plan(s, v)]
    axles = [a for a in _axles(s) if math.isfinite(a[1] + a[2])]
    listed = tuple(p for p in supports(s) if math.isfinite(p.station + p.y))
    for name, x, y in axles:
        if not name.startswith("axle"):
            for side in (-1, 1):
                marks += cross(f"{name}.{side}", v.p(x, side * y), 1.8)
    for id, p, y in both_sides(listed, "point"):
        marks += sign(id, p.kind, v.p(p.station, y))
    edge = extent(marks)
    low, high = edge.y1, edge.y0
    left, right = v.across(foremost(s)) - 4.0, v.across(s.deck_length) + 4.0
    below = [
        Station(p.id, v.across(p.x), v.up(-_foot(s, p.x)), said(k, p.x, p.short(letters)), p.x, p.rank)
        for p in _steel_stations(k, s)
    ]
    above = [Station("datum", v.across(0.0), v.up(_foot(s, 0.0)), "0\u00a0 datum A", 0.0, 0)]
    above += [Station(name, v.across(x), v.up(y), said(k, x, _short(name)), x, 0) for name, x, y in axles
              if not name.startswith("spring")]
    above += [
        Station(f"points.{x:.3f}", v.across(x), v.up(y) - SIGN if y else v.up(_foot(s, x)), said(k, x, ""), x, 0)
        for x, y in by_station(listed)
    ]
    marks += ordinates("steel", below, low, True, left, right)
    marks += ordinates("fittings", above, high, False, left, right)
    marks += _widths(k, s, v, edge)
    box = extent(marks)
    deep, top = box.y1 - box.y0, room.y0 - ABOVE_VIEW
    if box.x1 - box.x0 > room.x1 - room.x0 or deep > room.y1 - top:
        return None
    dx = (room.x0 + room.x1 - box.x0 - box.x1) / 2.0
    dy = top + max(0.0, room.y1 - top - HEADING - deep) / 2.0 - box.y0
    placed = at(marks, dx, dy)
    labels, turned = _labels(s, View(ratio, 1, dx, dy)), _angle(k, s, View(ratio, 1, dx, dy))
    if turned is not None:
        placed, labels = (*placed, *turned[0]), [*labels, turned[1]]
    view = Rect(dx + box.x0, dy + high - 1.0, dx + box.x1, dy + low + 1.0)
    # A mark that finds no free place stands beside its stations and in the schedule.
    named = place(labels, placed, view, None)
    corner = (dx + box.x0, dy + box.y1 + ABOVE_TITLE)
    heads = title("frame", corner, "FRAME PLAN", f"1:{ratio:g}", f"unladen, members {k.show(s.steel_mass, 'kg')}")
    signs = legend((p.kind for p in listed), margin(paper(k.cover)))
    return (*placed, *named, *heads, *signs)


def _short(name: str) -> str:
    return "bracket" if name.startswith("bracket") else name


def _foot(s: Steel, x: float) -> float:
    """How far the outermost steel at a station reaches from the centre line, m."""
    met = [p for p in s.pieces if p.x0 - 1e-6 <= x <= p.x1 + 1e-6]
    return max((-middle(p, x) + (p.y1 - p.y0) / 2.0 * p.skew for p in met), default=0.0)


def _widths(k: Kit, s: Steel, v: View, edge: Rect) -> Views:
    rails, deck = v.mm(s.rails_outside / 2.0), v.mm(s.deck_width / 2.0)
    x = v.across(s.deck_length)
    right = [
        k.span("dim.rails", -rails, rails, s.rails_outside, (x, x)),
        k.span("dim.deck.width", -deck, deck, s.deck_width, (x, x)),
    ]
    if not s.has_neck:
        return (*band(right, "right", edge.x1), *_tongue_widths(k, s, v, edge))
    xn = v.across(s.neck_front)
    neck, inner = v.mm(s.neck_width / 2.0), v.mm(s.neck_rails_outside / 2.0)
    left = [
        k.span("dim.neck.rails", -inner, inner, s.neck_rails_outside, (xn, xn)),
        k.span("dim.neck.width", -neck, neck, s.neck_width, (xn, xn)),
    ]
    return (*band(right, "right", edge.x1), *band(left, "left", edge.x0))


def _angle(k: Kit, s: Steel, v: View) -> tuple[Views, Label] | None:
    """The angle of the legs of a tongue, drawn at the left one."""
    found = [p for p in legs(s) if is_slanted(p)]
    value = s.hitched.tongue_angle
    return angle("dim.tongue.angle", found[0], v, k.show(value, "rad"), value) if found else None


def _tongue_widths(k: Kit, s: Steel, v: View, edge: Rect) -> Views:
    """The width over straight rails."""
    found = legs(s)
    if not found or is_slanted(found[0]):
        return ()
    x, half = v.across(found[0].x0), v.mm(_legs_outside(s) / 2.0)
    return band([k.span("dim.tongue.rails", -half, half, _legs_outside(s), (x, x))], "left", edge.x0)


def _labels(s: Steel, v: View) -> list[Label]:
    """One label for each mark, at the piece of it that stands freest; how many there are stands in the schedule."""
    groups: dict[str, list[Piece]] = {}
    for p in s.pieces:
        groups.setdefault(p.mark, []).append(p)
    labels = []
    for rank, (mark, pieces) in enumerate(sorted(groups.items(), key=lambda g: (len(g[1]), g[0]))):
        spots = [spot for p in sorted(pieces, key=lambda p: (p.x0, p.y0)) for spot in _spots(p, v)]
        middle = len(spots) // 2
        nearest = sorted(range(len(spots)), key=lambda i: (abs(i - middle), i))
        labels.append(
            Label(f"mark.{mark}", mark, spots[nearest[0]], rank, others=tuple(spots[i] for i in nearest[1:25]))
        )
    return labels


def _spots(p: Piece, v: View) -> list[tuple[float, float]]:
    """Where a leader may point at a piece."""
    at = (0.3, 0.5, 0.7) if p.run != "upright" else (0.5,)
    if p.run == "lengthwise":
        return [v.p(x, middle(p, x)) for x in (p.x0 + f * (p.x1 - p.x0) for f in at)]
    return [v.p((p.x0 + p.x1) / 2.0, p.y0 + f * (p.y1 - p.y0)) for f in at]
