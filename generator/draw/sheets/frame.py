"""F1 frame plan: every member with its mark, stations from datum A, member schedule."""

import math
from collections.abc import Sequence

from generator.draw.dimensions import band
from generator.draw.marks import Mark, Rect, cross, extent
from generator.draw.ordinates import Station, ordinates
from generator.draw.pages import HEADING, Drawing
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, dimensions, kit, largest, need, steel_known
from generator.draw.views import View, title
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F1", "Frame plan"


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    ratio, marks = largest(k, s.deck_length - s.neck_front, lambda r: _views(k, s, r))
    stations = len({round(p.x0 + p.x1, 6) for p in o.pieces_of(s, "crosswise")})
    notes = (
        "All stations run from datum A, the front face of the main deck's front crossmember; crossmembers to their "
        "centre line. Edges under other steel are dashed. Decking left out.",
        "Stations below the view: steel. Stations above: axles, brackets, jacks, stands. The schedule lists them all.",
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
        f"steel, {k.show(s.steel_mass, 'kg')}",
        ratio,
        marks,
        notes,
        alt,
        (dimensions(_rows(k, s)), _members(k, s.pieces)),
    )


def _steel_stations(s: Steel) -> list[tuple[str, float, int, str]]:
    """Name, station, rank and words of each place a saw or a square must find."""
    out = [
        ("datum", 0.0, 0, "datum A, front face of front crossmember"),
        ("deck.rear", s.deck_length, 0, "rear face of main deck"),
        ("neck.front", s.neck_front, 0, "front face of neck"),
        ("ball", s.pin_station, 0, "ball centre"),
    ]
    for p in o.pieces_of(s, "crosswise"):
        centre = (p.x0 + p.x1) / 2.0
        out.append((f"{p.mark}.{centre:.4f}", centre, 2, f"{p.title} {p.mark}, centre line"))
    for p in o.pieces_of(s, "upright"):
        centre = (p.x0 + p.x1) / 2.0
        out.append((f"{p.mark}.{centre:.4f}", centre, 1, f"{p.title} {p.mark}, centre line"))
    unique: dict[float, tuple[str, float, int, str]] = {}
    for row in sorted(out, key=lambda r: (r[2], r[0])):
        unique.setdefault(round(row[1], 4), row)
    return sorted(unique.values(), key=lambda r: r[1])


def _fittings(s: Steel) -> list[tuple[str, float, float, str]]:
    """Name, station, y and words of what is bolted or welded to the frame."""
    half = s.track / 2.0 + s.tyre_width / 2.0
    out = [(f"axle.{a.number}", a.station, half, f"axle {a.number}, spindles") for a in s.axles]
    out += [
        (f"bracket.{a.number}", a.bracket_station, s.bracket_spacing / 2.0, f"axle {a.number}, bracket")
        for a in s.axles
    ]
    out += [(f"jack.{j.id}", j.station, abs(j.y), j.title) for j in s.jacks]
    return out + [(f"stand.{p.id}", p.station, abs(p.y), f"stand {p.id}") for p in s.stands]


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    rows = [k.row(words[0].upper() + words[1:], x, where="station") for _, x, _, words in _steel_stations(s)]
    rows += [
        k.row(words[0].upper() + words[1:], x, where=f"station, {k.show(y, 'm')} off the centre line")
        for _, x, y, words in _fittings(s)
    ]
    return [
        *rows,
        k.row("Main rails, outside to outside", s.rails_outside),
        k.row("Main deck, width", s.deck_width),
        k.row("Main deck, length", s.deck_length),
        k.row("Neck, width", s.neck_width),
        k.row("Neck rails, outside to outside", s.neck_rails_outside),
        k.row("Bracket centres across", s.bracket_spacing),
        k.row("Track, tyre centres", s.track),
        k.row("Rear of frame to front of neck", s.deck_length - s.neck_front, where="reference"),
    ]


def _members(k: Kit, pieces: Sequence[Piece]) -> Schedule:
    groups: dict[tuple[str, str, str, str, str], list[Piece]] = {}
    for p in pieces:
        groups.setdefault((p.mark, p.title, p.section, p.grade, k.show(p.cut_length, "m")), []).append(p)
    rows = [
        (mark, words, section, grade, str(len(g)), long, k.show(sum(p.mass for p in g), "kg"))
        for (mark, words, section, grade, long), g in sorted(groups.items())
    ]
    rows.append(("", "All members", "", "", str(len(pieces)), "", k.show(sum(p.mass for p in pieces), "kg")))
    return Schedule(
        "Members",
        ("Mark", "Member", "Section", "Grade", "Quantity", "Cut length", "Mass, all"),
        (False, False, False, False, True, True, True),
        tuple(rows),
    )


def _views(k: Kit, s: Steel, ratio: float) -> Views | None:
    v, room = View(ratio), k.room
    marks: list[Mark] = [*o.steel_plan(s, v), *o.wheels_plan(s, v, "phantom"), *o.boxes_plan(s, v), *o.ball_plan(s, v)]
    placed_on = [f for f in _fittings(s) if math.isfinite(f[1] + f[2])]
    for name, x, y, _ in placed_on:
        if not name.startswith("axle"):
            for side in (-1, 1):
                marks += cross(f"{name}.{side}", v.p(x, side * y), 1.8)
    edge = extent(marks)
    low, high = edge.y1, edge.y0
    left, right = v.across(s.neck_front) - 4.0, v.across(s.deck_length) + 4.0
    below = [
        Station(name, v.across(x), v.up(-_foot(s, x)), _said(k, name, x), x, rank)
        for name, x, rank, _ in _steel_stations(s)
    ]
    above = [Station("datum", v.across(0.0), v.up(_foot(s, 0.0)), "0\u00a0 datum A", 0.0, 0)]
    above += [
        Station(name, v.across(x), v.up(y), f"{k.show(x, 'm')}\u00a0 {_named(name)}", x, 0)
        for name, x, y, _ in placed_on
    ]
    marks += ordinates("steel", below, low, True, left, right)
    marks += ordinates("fittings", above, high, False, left, right)
    marks += _widths(k, s, v, edge)
    box = extent(marks)
    if box.x1 - box.x0 > room.x1 - room.x0 - 12.0 or box.y1 - box.y0 > room.y1 - room.y0:
        return None
    dx = (room.x0 + room.x1 - box.x0 - box.x1) / 2.0
    dy = room.y0 + max(0.0, room.y1 - room.y0 - HEADING - (box.y1 - box.y0)) / 2.0 - box.y0
    placed = at(marks, dx, dy)
    labels = _labels(s, View(ratio, 1, dx, dy))
    view = Rect(dx + box.x0, dy + high - 1.0, dx + box.x1, dy + low + 1.0)
    # In the upper corner, where leaders pass above the texts of the widths.
    column = Rect(dx + box.x1 + 1.0, dy + high, room.x1, dy + (low + high) / 2.0 - 16.0)
    named = place(labels, placed, view, column)
    heads = title(
        "frame",
        (dx + box.x0, dy + box.y1 + 1.5),
        "FRAME PLAN",
        f"1:{ratio:g}",
        f"unladen, steel {k.show(s.steel_mass, 'kg')}",
    )
    return (*placed, *named, *heads)


def _named(name: str) -> str:
    kind, _, id = name.partition(".")
    return f"{kind} {id}" if kind in ("axle", "bracket") else id


def _said(k: Kit, name: str, x: float) -> str:
    """A station as printed; the few that are no member's centre line are named."""
    words = {"deck.rear": "rear", "neck.front": "front", "ball": "ball"}.get(name, "")
    text = k.show(x, "m") if x else "0"
    return f"{text}\u00a0 {words}" if words else text


def _foot(s: Steel, x: float) -> float:
    """How far the outermost steel at a station reaches from the centre line, m."""
    return max((abs(p.y0) for p in s.pieces if p.x0 - 1e-6 <= x <= p.x1 + 1e-6 and p.y0 < 0.0), default=0.0)


def _widths(k: Kit, s: Steel, v: View, edge: Rect) -> Views:
    rails, deck = v.mm(s.rails_outside / 2.0), v.mm(s.deck_width / 2.0)
    x = v.across(s.deck_length)
    right = [
        k.span("dim.rails", -rails, rails, s.rails_outside, (x, x)),
        k.span("dim.deck.width", -deck, deck, s.deck_width, (x, x)),
    ]
    xn = v.across(s.neck_front)
    neck, inner = v.mm(s.neck_width / 2.0), v.mm(s.neck_rails_outside / 2.0)
    left = [
        k.span("dim.neck.rails", -inner, inner, s.neck_rails_outside, (xn, xn)),
        k.span("dim.neck.width", -neck, neck, s.neck_width, (xn, xn)),
    ]
    return (*band(right, "right", edge.x1), *band(left, "left", edge.x0))


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
        return [v.p(p.x0 + f * (p.x1 - p.x0), (p.y0 + p.y1) / 2.0) for f in at]
    return [v.p((p.x0 + p.x1) / 2.0, p.y0 + f * (p.y1 - p.y0)) for f in at]
