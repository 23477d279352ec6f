"""S1 and on, schedules: members as they are cut, where each mark goes, the running gear, dimensions of the whole."""

import math
from collections.abc import Iterator, Sequence

from generator.draw.marks import Mark, Rect, extent
from generator.draw.pages import Drawing
from generator.draw.sheet import Schedule
from generator.draw.sheets import gear, tables
from generator.draw.sheets.elevation import heights
from generator.draw.sheets.frame import alike
from generator.draw.sheets.kit import Kit, foremost, kit, need, steel_known
from generator.errors import RenderError
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "S1", "Schedules"
GAP, BETWEEN, WORTH = 12.0, 6.0, 40.0
"""Between two columns of tables, between tables, and room left that is worth beginning in, mm."""


def draw(desk: Desk) -> tuple[Drawing, ...]:
    """The sheets, as many as the rows need; raises RenderError when something they need is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    if not s.pieces:
        raise RenderError("has nothing to list: no member is in the spec")
    room = k.room
    long, short = (_members(k, s),), (*_placed(s), _overall(k, s), _running(k, s), *gear.tables(k, s))
    made = list(tables.pages(long, (room,), (room,)))
    left = _halves(room._replace(y0=extent(made[-1]).y1 + BETWEEN))
    more = list(tables.pages(short, left if left[0].y1 - left[0].y0 > WORTH else _halves(room), _halves(room),
                             len(long)))
    if left[0].y1 - left[0].y0 > WORTH:
        made[-1:], more = [(*made[-1], *more[0])], more[1:]
    told = ["members as they are cut"] * len(made) + ["places, running gear, dimensions"] * len(more)
    listed = (*long, *short)
    return tuple(_sheet(k, s, n, words, listed, marks) for n, (words, marks) in
                 enumerate(zip(told, [*made, *more], strict=True), 1))


def _halves(room: Rect) -> tuple[Rect, Rect]:
    middle = (room.x0 + room.x1) / 2.0
    return room._replace(x1=middle - GAP / 2.0), room._replace(x0=middle + GAP / 2.0)


def _sheet(k: Kit, s: Steel, n: int, words: str, told: Sequence[Schedule], marks: tuple[Mark, ...]) -> Drawing:
    notes = (
        "Cut lengths are those of the finished piece, along its run; add for the saw. Sections and grades as ordered; "
        "a mill certificate with each of the rails.",
        "Stations from datum A; heights from the main-deck top, negative below it. Masses without plates, weld metal "
        f"and zinc; with them the frame is allowed {k.show(s.frame_mass, 'kg')}.",
    ) if words.startswith("members") else (
        "Stations from datum A, negative ahead of it. Heights above ground on level ground in the state named.",
        "Axles, springs, hubs, wheels and tyres: makers' ratings and drawings govern.",
    )
    alt = f"Schedules on a sheet: {', '.join(t.title for t in told)}. The same rows stand beside the other sheets."
    shown = tuple(told) if n == 1 else ()
    return Drawing(f"S{n}", TITLE, words, f"members {k.show(s.steel_mass, 'kg')}",
                   None, marks, tuple(map(k.say, notes)), k.say(alt), shown)


def _members(k: Kit, s: Steel) -> Schedule:
    """Every piece as it is cut, with the mass of all alike."""
    ends = {p.mark: p.ends for p in s.places}
    rows = [
        (mark, words, section, grade, str(len(g)), long, k.show(sum(p.mass for p in g), "kg"), ends.get(mark, ""))
        for (mark, words, section, grade, long), g in alike(k, s.pieces)
    ]
    rows.append(("", "All members", "", "", str(len(s.pieces)), "", k.show(s.steel_mass, "kg"), ""))
    head = ("Mark", "Member", "Section", "Grade", "Qty", "Cut length", "Mass, all", "Ends and toes")
    return Schedule("Members", head, (False, False, False, False, True, True, True, False), tuple(rows))


def _placed(s: Steel) -> tuple[Schedule, ...]:
    rows = tuple((p.mark, p.where, p.across, p.top) for p in s.places)
    head = ("Mark", "Stations, from datum A", "Off the centre line", "Top, from the deck top")
    return (Schedule("Where each mark goes", head, (False,) * 4, rows),) if rows else ()


def _overall(k: Kit, s: Steel) -> Schedule:
    rows = [k.row(what, value, where=where) for what, value, where in _sizes(s) if math.isfinite(value)]
    rows += [k.row(h.words[0].upper() + h.words[1:], h.z, where="from the main-deck top") for h in heights(s) if h.z]
    return Schedule("Frame", ("Dimension", "Value", "From, or remark"), (False, True, False), tuple(rows))


def _sizes(s: Steel) -> Iterator[tuple[str, float, str]]:
    """Sizes of the whole frame (m)."""
    yield "Main deck, length", s.deck_length, "datum A to rear"
    yield "Main deck, width", s.deck_width, "over the frame"
    yield "Main deck, corner to corner", s.running.diagonal, "left equal to right"
    yield "Rails, outside to outside", s.rails_outside, ""
    yield "Decking", s.deck_thickness, "thickness, on the steel"
    yield "Overall, front to rear", s.deck_length - foremost(s), "steel and coupling, without lamps"
    if s.has_neck:
        yield "Front of the neck", s.neck_front, "station"
        yield "Neck, width", s.neck_width, ""
        yield "Neck rails, outside to outside", s.neck_rails_outside, ""
    yield "Ball, centre", s.pin_station, "station"
    yield "Ball, centre above ground", s.ball_height, "trailer level, as towed"
    yield "Safety-chain anchors", s.chain_anchor, "station"
    for n, b in enumerate(s.boxes, 1):
        yield f"Wheel box {n}, front", b.front, "station, both sides"
        yield f"Wheel box {n}, rear", b.rear, "station"
        yield f"Wheel box {n}, inner face", b.inside, "off the centre line"
        yield f"Wheel box {n}, top", b.top, "from the main-deck top"


def _running(k: Kit, s: Steel) -> Schedule:
    told = {row[0] for row in _overall(k, s).rows}
    rows = tuple(row for row in gear.rows(k, s) if row[0] not in told)
    return Schedule("Running gear", ("Dimension", "Value", "From, or remark"), (False, True, False), rows)
