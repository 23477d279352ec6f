"""E1 lamps and wiring: lamps and reflectors where the rules of the route want them, circuits, harness, breakaway."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.draw.marks import SMALL, TEXT, Circle, Line, Mark, Point, Text, extent, rectangle
from generator.draw.ordinates import Station, levels
from generator.draw.pages import Drawing, margin, paper
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, boxes_known, finite, foremost, kit, largest, need, steel_known
from generator.draw.sheets.tabular import ROW, lettered, measured
from generator.draw.text import width, wrap
from generator.draw.views import View, title
from generator.release.slices import Desk, Envelope, LampRow, Lamps, Steel

NUMBER, TITLE, NEEDS = "E1", "Lamps and wiring", Lamps
LAMP, INSET, NEXT = 1.4, 2.6, 4.2
"""Half size of a sign, first sign from the edge and the next one from it, mm on paper."""
GAP, HEADING, OVER, WORDS = 7.0, 12.0, 2.0, 80.0
"""Between views, room of a view title, above the tables, least width of the words on wiring, mm."""
PLACES = {
    "pair": "rear, far apart at the same height", "reflector": "rear, far apart at the same height",
    "plate": "rear left, lights the plate", "row": "rear, middle of the house, near the top",
    "corner": "outer edges, near the top", "foremost": "each side, furthest forward",
    "front": "each side, front of the deck", "middle": "each side, near the middle", "rear": "each side, far rear",
}
"""Where a lamp belongs, in words."""
HEAD = (
    "No.", "Lamp or reflector", "Count", "Place", "Least", "Most", "Off edge, most", "Centre, towed", "Centre, bare"
)
RIGHT = (True, False, False, False, True, True, True, True, True)
PLACE, EDGE, DASH = 3, 6, "–"
"""Head of the table of lamps, which columns hold numbers; columns of place and edge; what is not limited."""


@dataclass(frozen=True, slots=True)
class _Spot:
    """A sign on a view: face, place and level that lamps share, whether they only reflect, their numbers, one lamp."""

    face: str
    place: str
    numbers: str
    row: LampRow


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e, lamps = kit(desk), need(desk, Steel), need(desk, Envelope), need(desk, Lamps)
    steel_known(s)
    boxes_known(s)
    finite((f"zone {z.id}", v) for z in e.zones for v in (z.front, z.rear, z.floor, z.roof))
    finite([("width of the house", e.width), ("front of the house", e.front), ("rear of the house", e.rear)])
    finite((f"place of the {r.title.lower()}", v) for r in lamps.rows for v in (r.station, r.y, r.zeta))
    tables = tuple(_tables(k, s, lamps, whole=False))
    long = max(s.deck_length, e.rear) - min(foremost(s), e.front)
    ratio, marks = largest(k, long + 2.0 * e.width, lambda r: _sheet(k, s, e, lamps, tables, r))
    alt = (
        f"Front view, left elevation and rear view at 1:{ratio:g} with {len(lamps.rows)} kinds of lamps and reflectors "
        f"by number; their heights, colours and places stand in the schedule. {_connected(lamps)}"
    )
    notes = tuple(_notes(lamps))
    return Drawing(NUMBER, TITLE, "lamps, reflectors, circuits", k.towed(s), ratio, marks, notes, alt,
                   (*(t for _, t in _tables(k, s, lamps, whole=True)), *_worded(lamps)))


def _connected(lamps: Lamps) -> str:
    return f"Connector: {lamps.connector}." if lamps.connector else ""


def _notes(lamps: Lamps) -> Iterator[str]:
    if lamps.rows:
        yield f"Lamps after {lamps.law}; the rule in force governs, the maker who certifies the trailer confirms. " \
            "Circle: lamp; square: reflector."
        yield "Heights hold with the bare and the full trailer. What belongs high on the house is fitted to the " \
            "frame for delivery, on brackets that come off, with cable enough to move it up."
    else:
        yield "No lamp rule is held for the regions of this route: kinds, heights and edges are the vehicle office's " \
            "to say, before the order."
    told = " Contacts and colours are from memory: prove each." if any(c.is_memory for c in lamps.circuits) else ""
    yield f"Ground every lamp by its own wire, not through the frame or the coupling.{told}"


def _tables(k: Kit, s: Steel, lamps: Lamps, whole: bool) -> Iterator[tuple[str, Schedule]]:
    """Lamps and circuits; the `whole` tables for the schedule, else what a sheet has room for."""
    if lamps.rows:
        rows = [_row(k, s, n, r) for n, r in enumerate(lamps.rows, 1)]
        keep = [c for c in range(len(HEAD)) if (whole or c != PLACE) and (c != EDGE or any(r[c] != DASH for r in rows))]
        told = ", from memory" if any(r.is_memory for r in lamps.rows) else ""
        yield "lamps", Schedule(f"Lamps and reflectors, heights above ground{told}", tuple(HEAD[c] for c in keep),
                                tuple(RIGHT[c] for c in keep), tuple(tuple(r[c] for c in keep) for r in rows))
    if lamps.circuits:
        circuits = tuple((c.contact, c.circuit, c.colour) for c in lamps.circuits)
        told = ", from memory" if any(c.is_memory for c in lamps.circuits) else ""
        yield "circuits", Schedule(f"Connector{told}", ("No.", "Circuit", "Colour"), (True, False, False), circuits)


def _row(k: Kit, s: Steel, n: int, r: LampRow) -> tuple[str, ...]:
    decks = (s.deck_height_laden, s.deck_height_bare)
    centre = [k.show(deck + r.zeta, "m") if r.level != "top" else "on house" for deck in decks]
    least = k.show(r.low, "m", "up") if math.isfinite(r.low) else DASH
    limits = [least, *(k.show(value, "m", "down") if math.isfinite(value) else DASH for value in (r.high, r.edge))]
    return (str(n), r.title, f"{r.count} {r.colour}", PLACES[r.place], *limits, *centre)


def _worded(lamps: Lamps) -> tuple[Schedule, ...]:
    asked = [("Lamps", line) for line in lamps.asked] if lamps.rows else []
    rows = [*asked, *_said(lamps)]
    return (Schedule("Wiring as asked for", ("What", "Words"), (False, False), tuple(rows)),) if rows else ()


def _said(lamps: Lamps) -> list[tuple[str, str]]:
    """The wiring in the spec's words; the lamps too where no rule places them."""
    rows = [] if lamps.rows else [("Lamps", line) for line in lamps.asked]
    rows += [("Connector", lamps.connector), ("Harness", lamps.harness), ("Ground", lamps.bonding),
             ("Breakaway", lamps.breakaway)]
    return [(what, line) for what, line in (*rows, *(("Powered jack", line) for line in lamps.motors)) if line]


def _words(lamps: Lamps, room: float) -> list[tuple[str, tuple[str, ...]]]:
    """What is said of the wiring, broken into lines of `room` mm."""
    return [(what, wrap(line, TEXT, room - _indent(lamps), 9)) for what, line in _said(lamps)]


def _indent(lamps: Lamps) -> float:
    return max((width(what, TEXT, bold=True) for what, _ in _said(lamps)), default=0.0) + 3.0


def _sheet(k: Kit, s: Steel, e: Envelope, lamps: Lamps, tables: Sequence[tuple[str, Schedule]],
           ratio: float) -> Views | None:
    room, spots = k.room, _spots(lamps.rows)
    below = _below(lamps, tables, room.x1 - room.x0)
    top = s.deck_height_laden + max((z.roof for z in e.zones), default=0.0)
    if below is None or View(ratio).mm(top) + HEADING + OVER + below[0] > room.y1 - room.y0:
        return None
    front, side, rear = (_front(s, e, spots, ratio), _side(s, e, spots, ratio), _rear(k, s, e, lamps, spots, ratio))
    boxes = [extent(m) for m in (front, side, rear)]
    wide = sum(b.x1 - b.x0 for b in boxes) + 2.0 * GAP
    low, top = max(b.y1 for b in boxes), min(b.y0 for b in boxes)
    views = low - top + HEADING
    if wide > room.x1 - room.x0 or views + OVER + below[0] > room.y1 - room.y0:
        return None
    gap = (room.x1 - room.x0 - wide) / 4.0
    spare = (room.y1 - room.y0 - views - OVER - below[0]) / 3.0
    y, x = room.y0 + spare - top, room.x0 + gap
    marks: list[Mark] = []
    for name, view, b in zip(("FRONT", "LEFT ELEVATION", "REAR"), (front, side, rear), boxes, strict=True):
        marks += at(view, x - b.x0, y)
        scale = f"1:{ratio:g}" if name != "FRONT" or b.x1 - b.x0 > 45.0 else ""
        marks += title(f"view.{name}", (x, y + low + 3.0), name, scale, "")
        labels = _labels(s, e, spots, View(ratio, -1 if name == "FRONT" else 1, x - b.x0, y), name)
        field = extent(at(view, x - b.x0, y)).grown(GAP / 2.0)
        marks += place(labels, marks, field, None)
        x += b.x1 - b.x0 + GAP + gap
    top = y + low + HEADING + OVER
    x = room.x0
    for id, t in tables:
        marks += lettered(id, t, (x, top))
        x += measured(t).width + GAP
    return (*marks, *_text(lamps, room.x0 + below[1], below[2], top), *(_legend(k) if lamps.rows else ()))


def _below(lamps: Lamps, tables: Sequence[tuple[str, Schedule]], across: float) -> tuple[float, float, float] | None:
    """Height of what stands below the views, left edge and width of the words; None if they find no room beside."""
    sizes = [measured(t) for _, t in tables]
    used = sum(t.width + GAP for t in sizes)
    room = across - used
    if room >= WORDS:
        words = ROW * (1 + sum(len(lines) for _, lines in _words(lamps, room)))
        return max([words, *(t.height for t in sizes)]), used, room
    return None


def _text(lamps: Lamps, left: float, room: float, top: float) -> Views:
    x = left
    if not _said(lamps):
        return ()
    marks: list[Mark] = [Text("wiring.title", "Wiring", (x + 0.5, top + ROW - 1.4), TEXT, bold=True)]
    marks.append(Line("wiring.top", "outline", ((x, top + ROW), (x + room, top + ROW))))
    y = top + ROW + 1.2
    for n, (what, lines) in enumerate(_words(lamps, room)):
        for i, line in enumerate(lines):
            y += ROW
            if not i:
                marks.append(Text(f"wiring.{n}", what, (x + 0.5, y - 1.4), TEXT, bold=True))
            marks.append(Text(f"wiring.{n}.{i}", line, (x + _indent(lamps), y - 1.4), TEXT))
    return tuple(marks)


def _legend(k: Kit) -> Views:
    box = margin(paper(k.cover))
    x, y = box.x1 - 43.0, box.y1 - 7.0
    return (
        Circle("legend.lamp", "outline", (x + 2.6, y - SMALL / 2.0), LAMP), Text("legend.lamp.text", "lamp",
                                                                               (x + 6.4, y), SMALL),
        *_square("legend.reflector", (x + 2.6, y + 5.0 - SMALL / 2.0)),
        Text("legend.reflector.text", "reflector", (x + 6.4, y + 5.0), SMALL),
    )


def _square(id: str, c: Point) -> Views:
    r = LAMP * 0.85
    return (rectangle(id, "outline", c[0] - r, c[1] - r, c[0] + r, c[1] + r),)


def _spots(rows: Sequence[LampRow]) -> list[_Spot]:
    """Lamps that share a place as one sign with all their numbers."""
    groups: dict[tuple[str, str, str, bool, float], list[int]] = {}
    for n, r in enumerate(rows):
        groups.setdefault((r.face, r.place, r.level, r.is_reflector, round(r.zeta, 2)), []).append(n)
    return [_Spot(key[0], key[1], " ".join(str(n + 1) for n in of), rows[of[0]]) for key, of in groups.items()]


def _points(s: Steel, e: Envelope, spot: _Spot, v: View) -> list[Point]:
    """Where the signs of a spot stand on its view, paper mm."""
    r, z = spot.row, v.up(s.deck_height_laden + spot.row.zeta)
    if spot.face == "side":
        inward = INSET + (NEXT if r.is_reflector else 0.0)
        x = v.across(r.station)
        if r.place == "middle" and not r.is_reflector:
            return [(x, z)]
        return [(x - inward if r.place == "rear" else x + inward, z)]
    edge = v.mm(r.y) - INSET - (NEXT if r.is_reflector else 0.0)
    if r.level == "top":
        z += INSET
    match r.place:
        case "row":
            return [(v.x + n * NEXT, z) for n in (-1, 0, 1)]
        case "plate":
            return [(v.x - 0.5 * v.mm(r.y), z)]
        case _:
            return [(v.x - edge, z), (v.x + edge, z)]


def _signs(s: Steel, e: Envelope, spots: Sequence[_Spot], v: View, face: str) -> Views:
    marks: list[Mark] = []
    for n, spot in enumerate(spots):
        for i, c in enumerate(_points(s, e, spot, v) if spot.face == face else ()):
            id = f"lamp.{face}.{n}.{i}"
            marks += _square(id, c) if spot.row.is_reflector else (Circle(id, "outline", c, LAMP),)
    return tuple(marks)


def _labels(s: Steel, e: Envelope, spots: Sequence[_Spot], v: View, view: str) -> list[Label]:
    face = {"FRONT": "front", "LEFT ELEVATION": "side", "REAR": "rear"}[view]
    labels = []
    for n, spot in enumerate(spots):
        if spot.face == face:
            c = _points(s, e, spot, v)
            labels.append(Label(f"number.{face}.{n}", spot.numbers, c[0], n, TEXT, bold=True, others=tuple(c[1:])))
    return labels


def _side(s: Steel, e: Envelope, spots: Sequence[_Spot], ratio: float) -> Views:
    v = View(ratio)
    ends = v.across(min(foremost(s), e.front)) - 4.0, v.across(max(s.deck_length, e.rear)) + 4.0
    return (*o.frame_elevation(s, v), *o.wheels_elevation(s, v), *o.boxes_elevation(s, v), *hitch.side(s, v),
            *o.house_elevation(e, s.deck_height_laden, v), *_signs(s, e, spots, v, "side"),
            Line("side.ground", "ground", ((ends[0], 0.0), (ends[1], 0.0))))


def _front(s: Steel, e: Envelope, spots: Sequence[_Spot], ratio: float) -> Views:
    v = View(ratio, -1)
    return (*_ends(s, e, v, True), *_signs(s, e, spots, v, "front"))


def _ends(s: Steel, e: Envelope, v: View, from_front: bool) -> Views:
    wide = v.mm(max(s.track / 2.0 + s.tyre_width / 2.0, e.width / 2.0)) + 3.0
    return (*o.steel_across(s, v, from_front), *o.house_across(e, s.deck_height_laden, v, from_front),
            Line(f"ground.{from_front}", "ground", ((-wide, 0.0), (wide, 0.0))))


def _rear(k: Kit, s: Steel, e: Envelope, lamps: Lamps, spots: Sequence[_Spot], ratio: float) -> Views:
    """The rear view, with the limits of heights and the centre of the rear lamps at its left."""
    v = View(ratio)
    last = max(e.zones, key=lambda z: z.rear, default=None)
    half = e.width / 2.0
    roof = () if last is None else (v.run("house.tail", "phantom", tuple((y, s.deck_height_laden + last.roof)
                                                                        for y in (-half, half))),)
    view = (*_ends(s, e, v, False), *roof, *_signs(s, e, spots, v, "rear"))
    limits: dict[float, set[str]] = {}
    for n, r in enumerate(lamps.rows, 1):
        if r.face == "rear":
            for value in (r.low, r.high):
                if math.isfinite(value):
                    limits.setdefault(round(value, 6), set()).add(str(n))
    edge = extent(view).x0 - 2.0
    stations = [
        Station(f"limit.{value:g}", v.up(value), edge, f"{_numbers(of)}: {k.show(value, 'm')}", value)
        for value, of in sorted(limits.items())
    ]
    if not stations:
        return view
    low = v.up(max(limits)) - 8.0
    return (*view, *levels("limit", stations, edge, low, v.up(min(limits)) + 4.0))


def _numbers(of: set[str]) -> str:
    listed = sorted(map(int, of))
    if len(listed) > 2 and listed[-1] - listed[0] == len(listed) - 1:
        return f"{listed[0]} to {listed[-1]}"
    return ", ".join(map(str, listed))
