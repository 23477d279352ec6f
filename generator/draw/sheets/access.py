"""A1 access and swing paths: turning about the ball, angles under the trailer, the tightest turn on the way."""

import math
from collections.abc import Iterator, Sequence

from generator.draw.dimensions import Span, band
from generator.draw.marks import TEXT, Area, Circle, Line, Mark, Point, Rect, extent
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheet import Schedule
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.kit import Kit, Views, at, finite, foremost, kit, largest, need, steel_known
from generator.draw.sheets.legs import ring, tongue
from generator.draw.sheets.tabular import lettered, measured
from generator.draw.views import View, scales, title
from generator.release.slices import Desk, Envelope, Paths, Slope, Steel, Swing, Turn

NUMBER, TITLE, NEEDS = "A1", "Access and swing paths", Paths
YAWS = (0, 45, 90)
"""Swing positions, degrees."""
STUB, CAB = 0.7, 0.75
"""How far behind datum A the trailer is broken off, and how much of the tow vehicle is drawn, m."""
SECTOR, STEPS = 50.0, 40
"""How much of the turn is drawn, degrees, and the strokes of its arcs."""
APART, HEADING, OVER, LETTERS, NAMED = 10.0, 11.0, 6.0, 8.0, 86.0
"""Between columns, room of a view title, between what stands one above the other, for letters around the turn, width
of a title, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s, e, p = kit(desk), need(desk, Steel), need(desk, Envelope), need(desk, Paths)
    steel_known(s)
    finite([("front of trailer and house from the ball", p.swing.ahead), ("width of trailer and house", p.swing.half),
            ("front of the house", e.front), ("rear of the house", e.rear), ("width of the house", e.width)])
    turn = p.turn if p.turn is not None and math.isfinite(p.turn.path + p.turn.swept) else None
    table = _table(k, p)
    long = s.deck_length - foremost(s) + (2.0 * p.swing.half if turn else 0.0)
    ratio, marks = largest(k, long, lambda r: _sheet(k, s, e, p, turn, table, r))
    alt = (
        f"At 1:{ratio:g}: plan of the trailer swinging about the {k.say('ball')} at {_yaws(s, p.swing)} degrees behind "
        "the tow vehicle; left elevation with departure and breakover angles"
        + ("; at a smaller scale the tightest turn with the paths of hitch and wheels and the width swept." if turn
           else ".")
    )
    notes = tuple(_notes(k, s, p, turn))
    what = "swing, ends, turn" if turn else "swing and ends"
    return Drawing(NUMBER, TITLE, what, k.towed(s), ratio, marks, notes, alt, (table,))


def _notes(k: Kit, s: Steel, p: Paths, turn: Turn | None) -> Iterator[str]:
    known = math.isfinite(p.swing.cab if s.has_neck else p.swing.rear)
    yield ("Trailer drawn level behind the tow vehicle as measured; outlines of the vehicle for reference only. "
           if known else "No tow vehicle is known: the trailer alone is drawn. ") + "Margins are taken off the angles."
    yield "Angles hold in the worst towed state, ball high or low; the point that sets each is marked."
    if turn is not None:
        yield "The turn is steady, every axle group square to the line from its middle; a short turn cuts in less. " \
            "Wheels, posts and kerbs: walk the way with a tape."
    yield "A slow trial turn and a spotter come before the first move."


def _yaws(s: Steel, w: Swing) -> str:
    return ", ".join(f"{math.degrees(y):.0f}" for y, _ in _positions(s, w))


def _table(k: Kit, p: Paths) -> Schedule:
    """What is there against what is wanted."""
    rows: list[tuple[str, str, str]] = []

    def put(what: str, has: float, wanted: float, unit: str, way: str) -> None:
        if math.isfinite(has):
            text = k.show(has, unit, "down" if way == "least" else "up")
            limit = k.show(wanted, unit, "up" if way == "least" else "down") if math.isfinite(wanted) else "–"
            rows.append((k.say(what), text, limit))

    w, nan = p.swing, math.nan
    put("Yaw free of the tow vehicle", w.free, w.wanted, "rad", "least")
    for degrees, room in w.rooms:
        put(f"Nose to cab, up to {degrees}°", room, nan, "m", "least")
    put("Departure angle", p.departure.angle, p.departure.wanted, "rad", "least")
    put("Breakover angle", p.breakover.angle, p.breakover.wanted, "rad", "least")
    put("Ground clearance, least", p.clearance, nan, "m", "least")
    if p.turn is not None:
        t = p.turn
        put("Yaw in the tightest turn", t.yaw, nan, "rad", "most")
        put("Tail swings out by", t.tail_swing, nan, "m", "most")
        if math.isfinite(t.gate):
            put(f"Gate, {'straight' if t.is_straight else 'turning'}", t.gate, t.gate_needed, "m", "least")
    return Schedule("Room and angles", ("What", "There is", "Wanted"), (False, True, True), tuple(rows))


def _sheet(k: Kit, s: Steel, e: Envelope, p: Paths, turn: Turn | None, table: Schedule, ratio: float) -> Views | None:
    """Swing with the table at its right, the elevation below both; the turn at the right of all."""
    room, v, size = k.room, View(ratio), measured(table)
    swing, side = _swing(k, s, p.swing, v), _elevation(k, s, e, p, v)
    a, b = extent(swing), extent(side)
    upper, lower = max(a.y1 - a.y0 + HEADING, size.height), b.y1 - b.y0 + HEADING
    wide = max(max(a.x1 - a.x0, NAMED) + APART + size.width, b.x1 - b.x0)
    spare = (room.y1 - room.y0 - upper - lower - OVER) / 3.0
    if spare < 0.0 or wide > room.x1 - room.x0:
        return None
    turned = _beside(k, s, e, turn, Rect(room.x0 + wide + APART, room.y0, room.x1, room.y1)) if turn else ()
    if turned is None:
        return None
    free = 0.0 if turn else (room.x1 - room.x0 - wide) / 2.0
    x, y1 = room.x0 + free, room.y0 + spare - a.y0
    y2 = room.y0 + upper + OVER + 2.0 * spare - b.y0
    marks: list[Mark] = [*at(swing, x - a.x0, y1), *at(side, x - b.x0, y2)]
    name = "SWING ABOUT THE PIN" if hitch.is_pin(s) else "SWING ABOUT THE BALL"
    marks += title("swing", (x, y1 + a.y1 + 2.0), name, f"1:{ratio:g}", "")
    marks += title("ends", (x, y2 + b.y1 + 2.0), "LEFT ELEVATION", f"1:{ratio:g}", "")
    marks += lettered("room", table, (x + wide - size.width, room.y0 + spare))
    named = _named(k, s, p, View(ratio, 1, x - a.x0, y1), View(ratio, 1, x - b.x0, y2))
    return (*marks, *place(named, marks, Rect(x - 3.0, room.y0, x + wide + 4.0, room.y1), None), *turned)


def _beside(k: Kit, s: Steel, e: Envelope, turn: Turn, room: Rect) -> Views | None:
    """The turn at the largest standard scale that its room holds; None if none does."""
    for scale in scales(k.cover.units):
        path = _turn(k, s, e, turn, float(scale))
        c = extent(path).grown(LETTERS)
        wide = max(c.x1 - c.x0, NAMED)
        if wide <= room.x1 - room.x0 and c.y1 - c.y0 + HEADING <= room.y1 - room.y0:
            dx = (room.x0 + room.x1 - c.x0 - c.x1) / 2.0
            dy = room.y0 + (room.y1 - room.y0 - HEADING - c.y1 + c.y0) / 2.0 - c.y0
            left = min(dx + c.x0, room.x1 - NAMED)
            shown = (*at(path, dx, dy), *title("turn", (left, dy + c.y1), "TIGHTEST TURN", f"1:{scale}", ""))
            named = _paths(k, e, s, turn, View(float(scale), 1, dx, dy))
            field = Rect(room.x0 - APART / 2.0, room.y0, room.x1, dy + c.y1)
            return (*shown, *place(named, shown, field, None))
    return None


def _positions(s: Steel, w: Swing) -> list[tuple[float, str]]:
    """Yaws drawn (rad) with their pens: straight, then in phantom 45 and 90 degrees, or where it meets the vehicle."""
    listed = [(math.radians(y), "phantom" if y else "outline") for y in YAWS]
    if not s.has_neck and math.isfinite(w.free) and w.free < math.pi / 2.0:
        listed[-1] = (w.free, "phantom")
    return listed


def _turned(points: Sequence[Point], yaw: float) -> list[Point]:
    """Places (aft of the ball, right of the centre line) of a trailer that has yawed, its tail to the left."""
    c, n = math.cos(yaw), math.sin(yaw)
    return [(x * c + y * n, y * c - x * n) for x, y in points]


def _body(s: Steel, w: Swing) -> list[tuple[str, list[Point], bool]]:
    """Front of trailer and house from the ball: name, corners, whether the run is closed."""
    aft = -s.pin_station + STUB
    front = -w.ahead
    out = [("nose", [(aft, -w.half), (front, -w.half), (front, w.half), (aft, w.half)], False)]
    if s.has_neck:
        out.append(("riser", [(-s.pin_station, -w.half), (-s.pin_station, w.half)], False))
    for n, piece in enumerate(tongue(s)):
        if piece.run == "lengthwise":
            corners = ring(piece) or ((piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1),
                                      (piece.x0, piece.y1))
            points = [(min(x, 0.0 if not ring(piece) else x) - s.pin_station, y) for x, y in corners]
            out.append((f"leg.{n}", points, True))
    return out


def _swing(k: Kit, s: Steel, w: Swing, v: View) -> Views:
    marks: list[Mark] = []
    for n, (yaw, pen) in enumerate(_positions(s, w)):
        for name, points, closed in _body(s, w):
            marks.append(v.run(f"swing.{n}.{name}", pen, _turned(points, yaw), closed))
        ends = _turned([(0.0, 0.0), (-s.pin_station + STUB + 0.2, 0.0)], yaw)
        marks.append(v.run(f"swing.{n}.axis", "centre", ends))
    marks += [Circle("ball", "outline", v.p(0.0, 0.0), max(v.mm(s.ball_diameter / 2.0), 0.8)), *_vehicle(s, w, v)]
    if s.has_neck:
        marks.append(_arc("swing.corner", "dimension", v, math.hypot(w.ahead, w.half),
                          math.pi - math.atan2(w.half, w.ahead), math.pi + math.atan2(w.half, w.ahead)))
    box = extent(marks)
    spans = list(_rooms(k, w, v, box)) if s.has_neck else []
    return (*marks, *band(spans, "below", box.y1))


def _rooms(k: Kit, w: Swing, v: View, box: Rect) -> Iterator[Span]:
    """Least room between nose and cab up to each yaw."""
    for degrees, room in w.rooms:
        if math.isfinite(room + w.cab):
            a, b = v.across(-w.cab), v.across(-w.cab + room)
            yield Span(f"dim.room.{degrees}", a, b, f"{degrees}°: {k.show(room, 'm', 'down')}", room,
                       v.up(-w.half), v.up(-w.half))


def _vehicle(s: Steel, w: Swing, v: View) -> Views:
    """The rear of the tow vehicle around the ball in phantom, broken off ahead."""
    if s.has_neck and math.isfinite(w.cab + w.bed_end + w.bed_half):
        cut = -w.cab - CAB
        return (
            v.box("vehicle.bed", "phantom", -w.cab, -w.bed_half, w.bed_end, w.bed_half),
            v.run("vehicle.cab", "phantom", ((cut, -w.bed_half), (-w.cab, -w.bed_half), (-w.cab, w.bed_half),
                                             (cut, w.bed_half))),
            o.break_line("vehicle.cut", v, cut, -w.bed_half - 0.08, w.bed_half + 0.08),
            _arc("vehicle.corner", "dimension", v, math.hypot(w.bed_end, w.bed_half),
                 -math.atan2(w.bed_half, w.bed_end), math.atan2(w.bed_half, w.bed_end)),
        )
    if not s.has_neck and math.isfinite(w.rear + w.rear_half):
        cut = -w.rear - CAB
        return (
            v.run("vehicle.rear", "phantom", ((cut, -w.rear_half), (-w.rear, -w.rear_half), (-w.rear, w.rear_half),
                                              (cut, w.rear_half))),
            o.break_line("vehicle.cut", v, cut, -w.rear_half - 0.08, w.rear_half + 0.08),
        )
    return ()


def _arc(id: str, pen: str, v: View, radius: float, low: float, high: float, centre: Point = (0.0, 0.0)) -> Line:
    """An arc from one angle to another, counted from aft toward the right, m."""
    turn = [low + (high - low) * i / STEPS for i in range(STEPS + 1)]
    return v.run(id, pen, ((centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turn))


def _elevation(k: Kit, s: Steel, e: Envelope, p: Paths, v: View) -> Views:
    high = s.deck_length
    marks: list[Mark] = [*o.frame_elevation(s, v), *o.wheels_elevation(s, v), *o.jacks_elevation(s, v),
                         *hitch.side(s, v)]
    ahead = _tow_axle(s, e)
    if s.has_neck:
        marks += o.vehicle_elevation(s, e, v)
    elif ahead is not None:
        marks.append(Circle("vehicle.wheel", "phantom", v.p(ahead, s.tyre_radius_laden), v.mm(s.tyre_diameter / 2.0),
                            v.y))
    last = s.axles[-1].station
    if math.isfinite(p.departure.angle) and p.departure.angle < 1.5:
        end = high + 0.35
        marks.append(v.run("departure", "thin", ((last, 0.0), (end, (end - last) * math.tan(p.departure.angle)))))
        marks += _dot("departure.point", v, p.departure)
    if ahead is not None and math.isfinite(p.breakover.station + p.breakover.height):
        group = sum(a.station for a in s.axles) / len(s.axles)
        crest = (p.breakover.station, p.breakover.height)
        marks.append(v.run("breakover", "thin", ((ahead, 0.0), crest, (group, 0.0))))
        marks += _dot("breakover.point", v, p.breakover)
    box = extent(marks)
    marks.append(Line("ground", "ground", ((box.x0 - 4.0, 0.0), (max(box.x1, v.across(high)) + 4.0, 0.0))))
    return tuple(marks)


def _tow_axle(s: Steel, e: Envelope) -> float | None:
    behind = o.known(e.vehicle_ball_behind_axle)
    return None if behind is None else s.pin_station - behind


def _dot(id: str, v: View, slope: Slope) -> Views:
    if not math.isfinite(slope.station + slope.height):
        return ()
    x, y = v.p(slope.station, slope.height)
    return (Area(id, "ink", tuple((x + 0.7 * math.cos(i * math.pi / 4.0), y + 0.7 * math.sin(i * math.pi / 4.0))
                                  for i in range(8))),)


def _named(k: Kit, s: Steel, p: Paths, plan: View, side: View) -> list[Label]:
    """Yaws at the swing positions, angles at the elevation, and what each line is."""
    w, aft = p.swing, -s.pin_station + STUB + 0.2
    labels = [
        Label(f"yaw.{n}", k.show(yaw, "rad", "down"), plan.p(*_turned([(aft * 0.95, 0.0)], yaw)[0]), 0, TEXT, value=yaw,
              unit="rad")
        for n, (yaw, _) in enumerate(_positions(s, w)) if n
    ]
    if s.has_neck:
        corner = math.hypot(w.ahead, w.half)
        labels.append(Label("radius", f"radius {k.show(corner, 'm', 'up')}", plan.p(-corner, 0.0), 1, TEXT,
                            value=corner, unit="m"))
    last = s.axles[-1].station
    if math.isfinite(p.departure.angle):
        x = s.deck_length + 0.25
        labels.append(Label("departure.text", f"departure {k.show(p.departure.angle, 'rad', 'down')}",
                            side.p(x, (x - last) * math.tan(p.departure.angle)), 0, TEXT, value=p.departure.angle,
                            unit="rad"))
    if math.isfinite(p.breakover.angle + p.breakover.station):
        labels.append(Label("breakover.text", f"breakover {k.show(p.breakover.angle, 'rad', 'down')}",
                            side.p(p.breakover.station, p.breakover.height), 0, TEXT, value=p.breakover.angle,
                            unit="rad"))
    return labels


def _turn(k: Kit, s: Steel, e: Envelope, t: Turn, ratio: float) -> Views:
    """The steady turn to the right: paths of hitch and wheels, the strip swept, the house where it is and later."""
    v = View(ratio)
    group = sum(a.station for a in s.axles) / len(s.axles)
    ahead, tail = group - e.front, e.rear - group
    half = _half(e, s)
    inner = t.path - half
    outer = inner + t.swept
    low, high = -math.atan2(tail, t.path), math.radians(SECTOR)
    rings = (("inner", "outline", inner), ("outer", "outline", outer), ("hitch", "centre", t.radius),
             ("wheels", "dimension", t.path))
    marks: list[Mark] = [_about(f"turn.{id}", pen, v, r, low if id in ("inner", "outer") else 0.0, high)
                         for id, pen, r in rings]
    for n, turned in enumerate((0.0, math.radians(SECTOR * 0.6))):
        pen = "phantom" if n else "outline"
        corners = ((-half, -tail), (half, -tail), (half, ahead), (-half, ahead))
        marks.append(_placed(f"house.{n}", pen, v, corners, t.path, turned, closed=True))
        for i, a in enumerate(s.axles):
            along = group - a.station
            marks.append(_placed(f"turn.axle.{n}.{i}", "thin", v, ((-s.track / 2.0, along), (s.track / 2.0, along)),
                                 t.path, turned))
        marks.append(_placed(f"turn.reach.{n}", "centre", v, ((0.0, 0.0), (0.0, t.reach)), t.path, turned))
    line = (-outer - 0.2, 0.0), (-inner + 0.2, 0.0)
    marks.append(v.run("turn.line", "centre", line))
    spans = [
        Span("dim.cut", v.across(-t.radius), v.across(-t.path), k.show(t.cut_in, "m", "up"), t.cut_in, 0.0, 0.0),
        Span("dim.swept", v.across(-outer), v.across(-inner), k.show(t.swept, "m", "up"), t.swept, 0.0, 0.0),
    ]
    return (*marks, *band(spans, "below", extent(marks).y1))


def _paths(k: Kit, e: Envelope, s: Steel, t: Turn, v: View) -> list[Label]:
    """What each path of the turn is."""
    outer = t.path - _half(e, s) + t.swept
    return [
        Label("path.hitch", f"hitch, radius {k.show(t.radius, 'm')}", _on(v, t.radius, SECTOR * 0.95), 0, TEXT,
              value=t.radius, unit="m"),
        Label("path.wheels", "middle of the axles", _on(v, t.path, SECTOR * 0.9), 0, TEXT),
        Label("path.swept", "swept by the house", _on(v, outer, SECTOR * 0.7), 0, TEXT),
    ]


def _half(e: Envelope, s: Steel) -> float:
    """Half the widest part on the road, m."""
    return max(e.width, s.track + s.tyre_width) / 2.0


def _on(v: View, radius: float, degrees: float) -> Point:
    turn = math.radians(degrees)
    return v.p(-radius * math.cos(turn), radius * math.sin(turn))


def _about(id: str, pen: str, v: View, radius: float, low: float, high: float) -> Line:
    """An arc about the middle of the turn, from the line square to the trailer on."""
    turn = [low + (high - low) * i / STEPS for i in range(STEPS + 1)]
    return v.run(id, pen, ((-radius * math.cos(t), radius * math.sin(t)) for t in turn))


def _placed(id: str, pen: str, v: View, points: Sequence[Point], path: float, turned: float,
            closed: bool = False) -> Line:
    """Places (right of the trailer's centre line, ahead of its axle group) after so much of the turn."""
    c, n = math.cos(turned), math.sin(turned)
    return v.run(id, pen, (((x - path) * c + y * n, y * c - (x - path) * n) for x, y in points), closed)
