"""Axles, hubs, wheels and the rails over them as they are drawn on the sheet of the running gear; its schedules."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from generator.draw.dimensions import Span
from generator.draw.marks import Line, Mark
from generator.draw.ordinates import Station
from generator.draw.sheet import Schedule
from generator.draw.sheets import outlines as o
from generator.draw.sheets import profiles, springs
from generator.draw.sheets.kit import Kit, Views
from generator.draw.sheets.legs import boxed, is_slanted, ring
from generator.draw.views import View
from generator.release.slices import Steel

TUBE, LEAF, DRUM, CORNER = 0.045, 0.03, 0.15, 0.16
"""Half a torsion tube, half a pack's width, radius of a drum as drawn (m); corner of a tyre, share of its width."""
PLATE = 0.02
"""Pieces up to this thickness are plates, m."""


def frame_plan(s: Steel, v: View, rear: float) -> Views:
    """Lengthwise steel and the front crossmember from above, ended at a station, thin."""
    marks: list[Mark] = []
    low = s.rail_underside - 0.2
    for i, p in enumerate(s.pieces):
        is_front = p.run == "crosswise" and abs(p.x0) < 1e-3 and p.z1 < 0.1
        is_rail = p.run == "lengthwise" and p.x0 < rear and p.z0 > low and p.z1 - p.z0 > PLATE
        is_box = p.z0 > -0.01 and p.x0 > 0.0
        if not is_front and (is_box or not is_rail):
            continue
        b = boxed(p)
        if is_slanted(p):
            marks.append(v.run(f"frame.{i}", "thin", ring(p), closed=True))
        elif p.y1 - p.y0 < 0.5 or is_front:
            marks.append(_open(f"frame.{i}", v, b.x0, min(b.x1, rear), b.y0, b.y1, b.x1 > rear))
    reach = max((boxed(p).y1 for p in s.pieces if p.x0 < rear < p.x1), default=s.rails_outside / 2.0) + 0.1
    marks.append(o.break_line("frame.break", v, rear, -reach, reach))
    return tuple(marks)


def _open(id: str, v: View, x0: float, x1: float, y0: float, y1: float, runs_on: bool) -> Line:
    points = ((x1, y0), (x0, y0), (x0, y1), (x1, y1))
    return v.run(id, "thin", points, closed=not runs_on)


def axles_plan(s: Steel, v: View) -> Views:
    """Each axle from above: beam or tube with arms, springs, hubs, wheels in phantom lines."""
    return tuple(m for n in range(len(s.axles)) for m in _axle_plan(s, v, n))


def _axle_plan(s: Steel, v: View, n: int) -> Iterator[Mark]:
    a, half, run = s.axles[n], s.bracket_spacing / 2.0, s.running
    face, r, wide = a.hub_face / 2.0, s.tyre_diameter / 2.0, s.tyre_width / 2.0
    yield v.run(f"axle.{a.number}", "centre", ((a.station, -face - 0.2), (a.station, face + 0.2)))
    beam = s.sprung.beam / 2.0 if math.isfinite(s.sprung.beam) else TUBE
    reach = half + 0.12 if s.has_arms else face - 0.1
    yield v.box(f"beam.{a.number}", "outline", a.bracket_station - beam, -reach, a.bracket_station + beam, reach)
    for side in (-1, 1):
        hub = side * face
        yield v.run(f"hub.{a.number}.{side}", "outline", ((a.station - DRUM, hub), (a.station + DRUM, hub)))
        inner = hub - side * 0.07
        low, high = sorted((hub, inner))
        yield v.box(f"drum.{a.number}.{side}", "thin", a.station - DRUM, low, a.station + DRUM, high)
        tyre = side * s.track / 2.0
        yield v.box(f"tyre.{a.number}.{side}", "phantom", a.station - r, tyre - wide, a.station + r, tyre + wide)
        y = side * half
        if s.has_arms:
            arm = side * (half + 0.12)
            low, high = sorted((arm, arm + side * 0.04))
            x = a.bracket_station
            yield v.box(f"bracket.{a.number}.{side}", "outline", x - 0.1, y - 0.03, x + 0.1, y + 0.03)
            yield v.box(f"arm.{a.number}.{side}", "outline", x - beam, low, a.station + 0.03, high)
        elif math.isfinite(run.eye_length):
            eye = run.eye_length / 2.0
            yield v.box(f"spring.{a.number}.{side}", "outline", a.station - eye, y - LEAF, a.station + eye, y + LEAF)


def axle_across(s: Steel, v: View) -> Views:
    """Axle 1 looking forward with hubs, tyres, springs or brackets, and the rails over it as they are cut there."""
    a, deck, half = s.axles[0], s.deck_height_laden, s.bracket_spacing / 2.0
    z, eyes, face, u = s.tyre_radius_laden, deck - s.tube_to_deck, a.hub_face / 2.0, s.sprung
    cut = [p for p in s.pieces if p.run == "lengthwise" and p.x0 < a.station < p.x1 and p.z0 < -0.01 and p.z1 <= 0.0]
    marks: list[Mark] = [m for i, p in enumerate(cut) for m in profiles.across(f"across.rail.{i}", s, p, a.station, v)]
    deep = deck - s.deck_thickness
    inner = min([s.deck_width / 2.0, *(b.inside for b in s.boxes)])
    marks.append(v.box("across.decking", "thin", -inner, deep, inner, deck))
    marks.append(v.run("across.spindles", "centre", ((-face - 0.25, z), (face + 0.25, z))))
    if s.has_arms:
        end = half + 0.12
        marks.append(v.box("across.tube", "outline", -end, eyes - TUBE, end, eyes + TUBE))
    elif math.isfinite(u.beam + u.beam_height):
        low, high, end = u.beam_height - u.beam / 2.0, u.beam_height + u.beam / 2.0, face - 0.12
        marks.append(v.box("across.beam", "outline", -end, low, end, high))
    for side in (-1, 1):
        marks += _wheel_across(s, v, side, eyes)
    return tuple(marks)


def _wheel_across(s: Steel, v: View, side: int, eyes: float) -> Iterator[Mark]:
    z, u, rail = s.tyre_radius_laden, s.sprung, s.deck_height_laden + s.rail_underside
    y, wide, top = side * s.track / 2.0, s.tyre_width / 2.0, s.tyre_radius_laden + s.tyre_diameter / 2.0
    c, hub, held = CORNER * s.tyre_width, side * s.axles[0].hub_face / 2.0, side * s.bracket_spacing / 2.0
    a, b = y - wide, y + wide
    tyre = ((a, c), (a + c, 0.0), (b - c, 0.0), (b, c), (b, top - c), (b - c, top), (a + c, top), (a, top - c))
    yield v.run(f"across.tyre.{side}", "outline", tyre, True)
    yield v.run(f"across.middle.{side}", "centre", ((y, -0.03), (y, top + 0.03)))
    yield v.run(f"across.hub.{side}", "thin", ((hub, z - DRUM), (hub, z + DRUM)))
    if s.has_arms:
        yield v.box(f"across.bracket.{side}", "outline", held - 0.03, eyes - TUBE, held + 0.03, rail)
        arm = held + side * 0.14
        yield v.box(f"across.arm.{side}", "outline", arm - 0.02, min(z, eyes) - 0.03, arm + 0.02, max(z, eyes) + 0.03)
        inner, outer = sorted((arm + side * 0.02, hub))
        yield v.box(f"across.spindle.{side}", "thin", inner, z - 0.025, outer, z + 0.025)
    elif math.isfinite(u.pack_low + u.pack_high):
        yield v.box(f"across.pack.{side}", "outline", held - LEAF, u.pack_low, held + LEAF, u.pack_high)
        yield from springs.across(f"across.{side}", s, side, v)
        inner, outer = sorted((hub - side * 0.12, hub))
        yield v.box(f"across.spindle.{side}", "thin", inner, z - 0.025, outer, z + 0.025)


def rail_side(s: Steel, v: View, front: float, rear: float) -> Views:
    """The rails of the left side between two stations, with break lines, and the decking over them."""
    deck, marks, high = s.deck_height_laden, list[Mark](), 0.0
    for i, p in enumerate(springs.rails(s)):
        x0, x1 = max(p.x0, front), min(p.x1, rear)
        if x1 > x0:
            face = o.face_along(p, s)
            for n, z in enumerate((face.y0, face.y1)):
                marks.append(v.run(f"side.rail.{i}.{n}", "outline", ((x0, z), (x1, z))))
            marks += [v.run(f"side.rail.{i}.end.{n}", "outline", ((x, face.y0), (x, face.y1)))
                      for n, x in enumerate((p.x0, p.x1)) if front < x < rear]
            high = min(high, p.z0)
    marks.append(v.run("side.deck", "thin", ((front, deck), (rear, deck))))
    return (*marks, *(o.break_line(f"side.break.{i}", v, x, deck + high - 0.05, deck + 0.05)
                      for i, x in enumerate((front, rear))))


def lateral(k: Kit, s: Steel, v: View) -> list[Span]:
    """The chain across: half a tyre, offset, hub face to hub face, offset, half a tyre make up the outside of tyres."""
    face, half, off = s.axles[0].hub_face, s.tyre_width / 2.0, s.running.offset
    y = face / 2.0 - off
    spans = [_about(k, v, "hub faces", face), *reference([_about(k, v, "tyres", s.track + s.tyre_width)]),
             _about(k, v, "brackets" if s.has_arms else "springs", s.bracket_spacing)]
    for side in (-1, 1):
        spans.append(_part(k, v, f"tyre.{side}", side * y, side * (y + half), half))
        if abs(off) > 1e-4:
            spans.append(_part(k, v, f"offset.{side}", side * face / 2.0, side * y, abs(off)))
    return spans


def reference(spans: Iterable[Span]) -> list[Span]:
    """Dimensions that follow from others, in parentheses: a chain is never closed twice (ISO 129-1)."""
    return [replace(s, text=f"({s.text})") for s in spans]


def _about(k: Kit, v: View, words: str, value: float) -> Span:
    return k.span(f"lateral.{words}", v.across(-value / 2.0), v.across(value / 2.0), value, (0.0, 0.0), f"{words} ")


def _part(k: Kit, v: View, id: str, a: float, b: float, value: float) -> Span:
    return k.span(f"lateral.{id}", v.across(a), v.across(b), value, (0.0, 0.0))


def heights(k: Kit, s: Steel, v: View) -> list[Station]:
    """Heights above ground at the left of the axle."""
    deck, u, half, out = s.deck_height_laden, s.sprung, s.bracket_spacing / 2.0, (s.track + s.tyre_width) / 2.0
    rows = [
        ("deck", "deck top", deck, s.deck_width / 2.0),
        ("rail", "rails, underside", deck + s.rail_underside, s.rails_outside / 2.0),
        ("eyes", "torsion tube" if s.has_arms else "spring eyes", deck - s.tube_to_deck, half),
        ("spindle", "spindles", s.tyre_radius_laden, out),
        ("pack", "spring seat", u.pack_low, half + LEAF),
        ("beam", "beam, middle", u.beam_height, half),
    ]
    known = [row for row in rows if math.isfinite(row[2])]
    return [Station(id, v.up(z), -v.mm(y), f"{k.show(z, 'm')} {words}", z) for id, words, z, y in known]


def rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    """The dimensions of the sheet."""
    run, deck, u = s.running, s.deck_height_laden, s.sprung
    held = "Torsion tube" if s.has_arms else "Spring eyes"
    found = [("Coupling, centre", s.pin_station, "station")]
    for a in s.axles:
        found.append((f"Axle {a.number}, spindles", a.station, "station, as towed"))
        if s.has_arms:
            found.append((f"Axle {a.number}, torsion tube and brackets", a.bracket_station, "station"))
    found += [(h.what[0].upper() + h.what[1:], h.station, "station, springs at the travel load") for h in run.hangers]
    found += [(f"Ball to hub face of axle {n}", d, "in plan, left equal to right")
              for n, d in enumerate(run.to_spindle, 1)]
    found += [
        ("Ball to axle 1", s.axles[0].station - s.pin_station, "along the centre line"),
        ("Axle to axle", s.spacing if len(s.axles) > 1 else math.nan, "left equal to right"),
        ("Hub face to hub face", s.axles[0].hub_face, "axle 1"), ("Wheel offset", run.offset, "from the hub face"),
        ("Track", s.track, "tyre centres"), ("Tyre, section width", s.tyre_width, ""),
        ("Outside of the tyres", s.track + s.tyre_width, "hub faces less twice the offset, and a tyre's width"),
        ("Brackets across" if s.has_arms else "Springs across", s.bracket_spacing, "centres"),
        ("Rails, outside to outside", s.rails_outside, ""), ("Main deck, width", s.deck_width, ""),
        ("Main deck, corner to corner", run.diagonal, "left equal to right, before the axles are set"),
        ("Tyre, diameter", s.tyre_diameter, "unladen"), ("Spindles above ground", s.tyre_radius_laden, "as towed"),
        (f"{held} above ground", deck - s.tube_to_deck, "as towed"),
        (f"{held} below the main-deck top", s.tube_to_deck, "as welded"),
        ("Underside of the rails above ground", deck + s.rail_underside, "as towed"),
        ("Main-deck top above ground", deck, "as towed"),
        ("Main-deck top above ground, bare", s.deck_height_bare, "as delivered"),
        ("Torsion arm", s.arm, ""), ("Spring, eye to eye", run.eye_length, ""), ("Spring, arch unloaded", run.arch, ""),
        ("Pack of leaves at the seat", run.pack, ""), ("Spring seat on the beam", run.seat, ""),
        ("Beam, diameter", u.beam, ""), ("Beam below the spindles", run.drop, ""),
        ("Travel left to the stop", u.travel_left, "as towed"),
    ]
    return [k.row(what, value, where=where) for what, value, where in found if math.isfinite(value)]


def tables(k: Kit, s: Steel) -> tuple[Schedule, ...]:
    """Alignment, axles, and what rolls on them."""
    run = s.running
    aligned = tuple((k.say(w.what), w.text, k.say(w.how)) for w in run.within)
    turned = ("Start angle", run.start_angle), ("Arm below level as towed", s.arm_angle_laden)
    angles = [(words, k.show(value, "rad")) for words, value in turned if math.isfinite(value)]
    maker = ("Toe and camber", "as the maker's", "maker's drawing")
    axles = tuple((str(a.number), k.show(a.station, "m"), k.show(a.rating, "kg"), _hub(k, s, n), a.brake)
                  for n, a in enumerate(s.axles))
    parts = [("Suspension", run.suspension), *angles,
             *(("One spring", f"{k.show(run.rate, 'N/m:spring')}, rated {k.show(run.spring_rating, 'kg')}")
               for _ in range(1) if math.isfinite(run.rate)),
             ("Tyres", f"{run.tyre}; {k.show(run.tyre_load, 'kg')} at {k.show(run.tyre_pressure, 'Pa')} cold"),
             ("Wheels", f"{run.wheel}; {k.show(run.wheel_load, 'kg')}; studs {run.studs}"), ("Spare", run.spare)]
    return (
        Schedule("Alignment", ("What", "May be off", "Measured with"), (False, False, False), (*aligned, maker)),
        Schedule("Axles", ("Axle", "Station", "Rating", "Hubs", "Brakes"), (True, True, True, True, False), axles),
        Schedule("Suspension, wheels, tyres", ("Part", "As ordered"), (False, False),
                 tuple((what, k.say(words)) for what, words in parts if words)),
    )


def _hub(k: Kit, s: Steel, n: int) -> str:
    return k.show(s.running.hub_ratings[n], "kg") if n < len(s.running.hub_ratings) else "–"
