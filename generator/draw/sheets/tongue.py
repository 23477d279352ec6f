"""F3 tongue detail: the steel of the tongue from above and in section on the centre line, with its chain of heights."""

from generator.draw.dimensions import band
from generator.draw.marks import Line, Mark, Rect, extent
from generator.draw.ordinates import Station, levels
from generator.draw.pages import Drawing
from generator.draw.place import Label, place
from generator.draw.sheets import hitch
from generator.draw.sheets import outlines as o
from generator.draw.sheets.detail import cuts, ended, is_cut, labelled, stations_above
from generator.draw.sheets.kit import (
    Kit,
    Views,
    at,
    column,
    dimensions,
    finite,
    foremost,
    front_underside,
    kit,
    largest,
    need,
    steel_known,
)
from generator.draw.sheets.legs import angle, back, boxed, is_slanted, legs, middle, ring
from generator.draw.sheets.stations import Place, places
from generator.draw.views import Solid, View, edges, scales, title
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import Desk, Steel

NUMBER, TITLE = "F3", "Tongue detail"
BEHIND, PAST = 0.35, 0.15
"""How much of the main deck stands behind datum A at least, and behind the ends of the legs, m."""
GAP, BELOW, TITLED = 12.0, 6.0, 11.0
"""Room between views, above their titles and for their titles, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, s = kit(desk), need(desk, Steel)
    steel_known(s)
    if not legs(s):
        raise RenderError("has nothing to show: no lengthwise member of the tongue is in the spec")
    finite([("underside of the tongue", s.hitched.tongue_underside)])
    ratio, marks = largest(k, _behind(s) - foremost(s), lambda q: _sheet(k, s, q))
    under = s.deck_height_laden + s.hitched.tongue_underside
    notes = (
        "Heights from level ground, trailer level as towed. Stations from datum A: centre lines of pieces cut by the "
        "section and of posts, ends of the others. Pieces cut are drawn heavy; marks as the member schedule.",
        "Dashed: edges under other steel. Angles and widths of legs are those of their middle lines; ends at the head "
        "and at the root are cut to the coupler maker's drawing and to the members they meet.",
        "Coupler as an outline only: bolts, holes and nose are its maker's.",
        "Welds of tongue, head and root: by the designer named in the reply. Nothing here sizes them.",
    )
    shown = ", ".join(sorted({p.mark for p in _near(s)}))
    alt = (
        f"Tongue at 1:{ratio:g} from above and in section on the centre line, with members {shown}. Ball centre "
        f"{k.show(s.ball_height, 'm')} and tongue underside {k.show(under, 'm')} above ground. All dimensions stand in "
        "the schedule."
    )
    return Drawing(
        NUMBER,
        TITLE,
        "steel of the tongue and its root",
        k.towed(s),
        ratio,
        marks,
        notes,
        alt,
        (dimensions(_rows(k, s)),),
    )


def _rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    deck, under = s.deck_height_laden, s.hitched.tongue_underside
    rows = [
        k.row("Ball centre above ground", s.ball_height, where="level ground"),
        k.row("Tongue underside above ground", deck + under, where="level ground"),
        k.row("Main-deck top above ground", deck, where="level ground"),
        k.row("Main-deck top above ball centre, trailer level", -s.hitched.ball_above_deck, where="weld to this"),
        k.row("Main-deck top above the tow vehicle's ball", deck - s.ball_height, where="as towed"),
        k.row("Main-deck top above tongue underside", -under),
        k.row("Main-deck top above tongue top", -_top(s)),
        k.row("Main rails, outside to outside", s.rails_outside),
    ]
    if s.hitched.tongue_angle > 0.0:
        rows.append(k.row("Leg to centre line", s.hitched.tongue_angle, "rad", "in plan"))
        rows.append(k.row("Between the legs", 2.0 * s.hitched.tongue_angle, "rad", "in plan"))
    for p in [q for q in legs(s) if q.y0 + q.y1 > 0.0]:
        rows += [
            k.row(f"{p.mark}, middle line off the centre line, front end", middle(p, p.x0), where="in plan"),
            k.row(f"{p.mark}, middle line off the centre line, datum A", middle(p, 0.0), where="in plan"),
            k.row(f"{p.mark}, middle line off the centre line, rear end", middle(p, p.x1), where="in plan"),
            k.row(f"{p.mark}, length", p.cut_length, where="along its middle line"),
        ]
    return rows + [k.row(p.words[0].upper() + p.words[1:], p.x, where="station") for p in _stations(s, _near(s))]


def _behind(s: Steel) -> float:
    """Where the views end behind datum A, m."""
    return min(max(BEHIND, back(legs(s)) + PAST), s.deck_length)


def _near(s: Steel) -> list[Piece]:
    return [p for p in s.pieces if p.x0 < _behind(s) - 1e-6]


def _top(s: Steel) -> float:
    """Top of the legs above the main-deck top, m."""
    return max(p.z1 for p in legs(s))


def _stations(s: Steel, shown: list[Piece]) -> list[Place]:
    """Where the pieces shown stand along the trailer."""
    centred = [(p.mark, (p.x0 + p.x1) / 2.0) for p in shown if p.run != "lengthwise"]
    ended_at = [(p.mark, x) for p in shown if p.run == "lengthwise" for x in (p.x0, p.x1) if x < _behind(s)]
    return places(((0.0, "datum A"), (s.pin_station, "ball")), centred, ended_at)


def _sheet(k: Kit, s: Steel, ratio: float) -> Views | None:
    """Plan and section side by side, the section at the scale of the plan or larger."""
    room = k.room
    plan = _plan(k, s, View(ratio))
    p, deep = extent(plan), room.y1 - room.y0 - BELOW - TITLED
    left = room.x1 - room.x0 - (p.x1 - p.x0) - 2.0 * GAP
    if p.y1 - p.y0 > deep or left < 0.0 or (found := _section_in(k, s, left, deep, ratio)) is None:
        return None
    scale, section = found
    b, words = extent(section), "SECTION ON THE CENTRE LINE"
    wide = column(b, words, scale)
    spare = (room.x1 - room.x0 - column(p, "PLAN", ratio) - wide - GAP) / 3.0
    if spare < 0.0:
        return None
    high = max(p.y1 - p.y0, b.y1 - b.y0)
    base = room.y0 + (deep - high) / 2.0 + high
    x1, x2 = room.x0 + spare - p.x0, room.x1 - spare - wide - b.x0
    marks: list[Mark] = [*at(plan, x1, base - p.y1), *at(section, x2, base - b.y1)]
    for id, x, said, r, state in (
        ("plan", x1 + p.x0, "PLAN", ratio, "decking left out"),
        ("section", x2 + b.x0, words, scale, f"looking right; {k.towed(s)}"),
    ):
        marks += title(id, (x, base + BELOW), said, f"1:{r:g}", state)
    return tuple(marks)


def _section_in(k: Kit, s: Steel, wide: float, high: float, most: float) -> tuple[float, Views] | None:
    """The section at the largest scale that fits into the room left, no smaller than the plan."""
    for ratio in (r for r in scales(k.cover.units) if r <= most):
        if (_behind(s) - foremost(s)) * 1000.0 / ratio > wide:
            continue
        made = _section(k, s, View(float(ratio)))
        box = extent(made)
        if box.x1 - box.x0 <= wide and box.y1 - box.y0 <= high:
            return float(ratio), made
    return None


def _plan(k: Kit, s: Steel, v: View) -> Views:
    """Tongue and front of the main deck from above."""
    end, found = _behind(s), _near(s)
    solids = [Solid(p.mark, ended(boxed(p), foremost(s), end), p.z1, (), ring(p)) for p in found]
    half = max(abs(y) for f in solids for y in (f.face.y0, f.face.y1))
    marks: list[Mark] = [
        *edges(solids, v),
        *hitch.plan(s, v),
        v.run("plan.centre", "centre", ((foremost(s) - 0.12, 0.0), (end + 0.06, 0.0))),
        o.break_line("plan.break", v, end, -half - 0.04, half + 0.04),
    ]
    leg, labels = legs(s)[0], list[Label]()
    if is_slanted(leg):
        turned = angle("dim.angle", leg, v, k.show(s.hitched.tongue_angle, "rad"), s.hitched.tongue_angle)
        marks += turned[0]
        labels.append(turned[1])
    rails, wide = v.mm(s.rails_outside / 2.0), v.mm(s.deck_width / 2.0)
    x = v.across(end)
    right = [
        k.span("dim.rails", -rails, rails, s.rails_outside, (x, x)),
        k.span("dim.deck", -wide, wide, s.deck_width, (x, x)),
    ]
    marks += band(right, "right", x + 3.0)
    labels += [
        Label(f"plan.{mark}", mark, spots[0], len(spots), others=tuple(spots[1:24]))
        for mark, spots in sorted(_spots(found, end, v).items())
    ]
    box = extent(marks)
    return (*marks, *place(labels, marks, Rect(box.x0 - 8.0, box.y0, box.x1, box.y1), None))


def _spots(found: list[Piece], end: float, v: View) -> dict[str, list[tuple[float, float]]]:
    """Where a leader may point at each mark from above."""
    spots: dict[str, list[tuple[float, float]]] = {}
    for p in sorted(found, key=lambda p: (p.x0, p.y0)):
        rear, shares = min(p.x1, end), (0.5, 0.3, 0.7)
        if p.run == "lengthwise":
            new = [v.p(x, middle(p, x)) for x in (p.x0 + f * (rear - p.x0) for f in shares)]
        else:
            new = [v.p((p.x0 + p.x1) / 2.0, p.y0 + f * (p.y1 - p.y0)) for f in shares]
        spots.setdefault(p.mark, []).extend(new)
    return spots


def _section(k: Kit, s: Steel, v: View) -> Views:
    """Tongue cut on the centre line, looking right, over the ground, with the chain of heights."""
    deck, end = s.deck_height_laden, _behind(s)
    pieces = [p for p in _near(s) if is_cut(p) or p.y0 + p.y1 > 1e-3]
    solids = [Solid(p.mark, ended(o.face_along(p, s), foremost(s), end), -max(p.y0, 0.0)) for p in pieces]
    head, pin, edge = v.across(min(p.x0 for p in legs(s))), v.across(s.pin_station), v.across(end)
    under, top, rail = front_underside(s) + deck, _top(s) + deck, s.rail_underside + deck
    marks: list[Mark] = [
        *o.visible(solids, v),
        *cuts("section", pieces, solids, v),
        *hitch.side(s, v),
        o.break_line("section.break", v, end, rail - 0.05, deck + 0.05),
        v.run("section.decking", "thin", ((end, deck), (0.0, deck), (0.0, deck - s.deck_thickness))),
        Line("section.ground", "ground", ((pin - 6.0, 0.0), (edge + 3.0, 0.0))),
        Line("section.datum", "centre", ((v.across(0.0), v.up(min(under, rail)) + 1.0), (v.across(0.0), -1.0))),
    ]
    nose = extent(marks).x0
    heights = [
        Station(id, v.up(z), x, f"{k.show(z, 'm')} {words}", z)
        for id, words, z, x in (
            ("ball", "ball centre", s.ball_height, pin - 3.0),
            ("under", "tongue underside", under, head),
            ("top", "tongue top", top, head),
            ("deck", "deck top", deck, v.across(0.0)),
        )
    ]
    right = [
        k.span("dim.rail", 0.0, v.up(rail), rail, (edge + 3.0, edge)),
        k.span("dim.deck.top", 0.0, v.up(deck), deck, (edge + 3.0, edge)),
    ]
    below = [
        k.span("dim.pin", pin, v.across(0.0), -s.pin_station, (0.0, 0.0)),
        k.span("dim.head", head, v.across(0.0), -min(p.x0 for p in legs(s)), (0.0, 0.0)),
        k.span("dim.root", v.across(0.0), v.across(back(legs(s))), back(legs(s)), (0.0, 0.0)),
    ]
    marks += [*band(right, "right", edge + 3.0), *band(below, "below", 0.0)]
    marks += levels("levels", heights, nose, v.up(deck) - 8.0, -1.0)
    marks += stations_above("section", k, s, _stations(s, pieces), pieces, v, (nose - 6.0, edge + 14.0))
    return (*marks, *labelled("section", pieces, solids, v, marks))
