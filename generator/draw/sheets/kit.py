"""What every sheet needs: the slices it draws from, formatted values, dimensions, layout, tables."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from generator.draw.dimensions import Span
from generator.draw.marks import TEXT, TITLE, Area, Line, Mark, Point, Rect, Text, moved
from generator.draw.pages import Lettering, field, lettering, paper
from generator.draw.sheet import Schedule
from generator.draw.text import width
from generator.draw.views import scales
from generator.errors import RenderError
from generator.release.slices import Cover, Desk, Slice, Steel

Some = TypeVar("Some", bound=Slice)
Views = tuple[Mark, ...]


def need(desk: Desk, kind: type[Some]) -> Some:
    """The slice of this kind; raises RenderError naming it when it was not granted."""
    found = desk.get(kind)
    if not isinstance(found, kind):
        raise RenderError(f"needs what is not in this packet: {WORDS.get(kind.__name__, kind.__name__.lower())}")
    return found


WORDS = {
    "Steel": "the frame",
    "Envelope": "the outline of the house",
    "Neck": "the neck",
    "Placement": "the axle window",
    "RoadLoads": "the loads on hitch and axles",
    "Lamps": "lamps and wiring",
    "Paths": "swing and turn",
    "SteelLoads": "the loads on the frame",
}


def finite(named: Iterable[tuple[str, float | None]]) -> None:
    """Refuse a drawing whose numbers are unknown; raises RenderError naming them all."""
    bad = [name for name, value in named if value is None or not math.isfinite(value)]
    if bad:
        raise RenderError(f"cannot be drawn until these are known: {', '.join(bad)}")


def foremost(s: Steel) -> float:
    """Foremost station of the steel and its coupling: front of the neck, or the ball or head of a tongue, m."""
    return s.neck_front if s.has_neck else min([s.pin_station, *(p.x0 for p in s.pieces)])


def ahead_of(s: Steel) -> str:
    """What stands ahead of datum A, in a word."""
    return "neck" if s.has_neck else "tongue"


def front_underside(s: Steel) -> float:
    """Underside of neck or tongue above the main-deck top, m; that of the rails where neither is sized."""
    under = s.neck_underside if s.has_neck else s.hitched.tongue_underside
    return under if math.isfinite(under) else s.rail_underside


def steel_known(s: Steel) -> None:
    """Refuse to draw a frame with unknown sizes."""
    finite(
        (
            ("deck length", s.deck_length),
            ("deck width", s.deck_width),
            ("rails outside", s.rails_outside),
            ("deck thickness", s.deck_thickness),
            ("underside of the rails", s.rail_underside),
            *(
                (
                    ("front of the neck", s.neck_front),
                    ("neck underside", s.neck_underside),
                    ("neck depth", s.neck_frame_depth),
                    ("neck width", s.neck_width),
                )
                if s.has_neck
                else ()
            ),
            ("station of the ball", s.pin_station),
            ("height of the ball", s.ball_height),
            ("diameter of the ball", s.ball_diameter),
            ("angle of the tongue", s.hitched.tongue_angle),
            *((("length of the pin", s.hitched.pin_length),) if s.hitched.coupling == "king pin" else ()),
            ("laden deck height", s.deck_height_laden),
            ("diameter of the tyre", s.tyre_diameter),
            ("width of the tyre", s.tyre_width),
            ("laden radius of the tyre", s.tyre_radius_laden),
            ("track", s.track),
            ("mass as towed", s.travel_mass),
            *((f"station of axle {a.number}", a.station) for a in s.axles),
            *((f"place of member {p.mark}", v) for p in s.pieces for v in (p.x0, p.x1, p.y0, p.y1, p.z0, p.z1, p.skew)),
        )
    )
    if not s.axles:
        raise RenderError("cannot be drawn without an axle")


def boxes_known(s: Steel) -> None:
    """Refuse to draw wheel boxes with unknown sizes."""
    finite((f"wheel box {n}", v) for n, b in enumerate(s.boxes, 1) for v in (b.front, b.rear, b.inside, b.top))


@dataclass(frozen=True, slots=True)
class Kit:
    """Cover, formatter and the room for views of one desk."""

    cover: Cover
    show: Lettering

    @property
    def room(self) -> Rect:
        """Where views may stand."""
        return field(paper(self.cover))

    def span(self, id: str, a: float, b: float, value: float, at: tuple[float, float], before: str = "") -> Span:
        """A dimension from paper place a to b; its text is the formatter's on the model's value (m)."""
        return Span(id, a, b, before + self.show(value, "m"), value, *at)

    def say(self, text: str) -> str:
        """A text in the words of the design's coupling."""
        return self.cover.say(text)

    def towed(self, s: Steel) -> str:
        """Load state and mass as they stand in a view title."""
        return f"as towed, {self.show(s.travel_mass, 'kg')}"

    def row(self, what: str, value: float, unit: str = "m", where: str = "") -> tuple[str, ...]:
        """A row of a dimension schedule."""
        return self.say(what), self.show(value, unit), self.say(where)


def kit(desk: Desk) -> Kit:
    """The kit of a desk."""
    cover = need(desk, Cover)
    return Kit(cover, lettering(cover))


def dimensions(rows: Sequence[tuple[str, ...]]) -> Schedule:
    """The dimension schedule beside a drawing."""
    return Schedule("Dimensions", ("Dimension", "Value", "From, or remark"), (False, True, False), tuple(rows))


def axle_rows(k: Kit, s: Steel) -> list[tuple[str, ...]]:
    """Stations of the axles."""
    return [k.row(f"Axle {a.number}, station of spindles", a.station, where="datum A") for a in s.axles]


def at(marks: Iterable[Mark], dx: float, dy: float) -> Views:
    """Marks shifted on the paper."""
    return tuple(moved(m, dx, dy) for m in marks)


def largest(k: Kit, longest: float, build: Callable[[float], Views | None]) -> tuple[float, Views]:
    """The largest standard scale at which `build` finds room, and what it made; `longest` m must fit across the sheet.

    Raises RenderError when none does.
    """
    for ratio in scales(k.cover.units):
        made = None if longest * 1000.0 / ratio > k.room.x1 - k.room.x0 else build(float(ratio))
        if made is not None:
            return float(ratio), made
    raise RenderError("is too large for every standard scale on this sheet")


def column(box: Rect, words: str, ratio: float) -> float:
    """Room a view and its title need beside others, mm."""
    return max(box.x1 - box.x0, width(f"{words}\u00a0 1:{ratio:g}", TITLE, bold=True))


def datum(at: Point, down: bool = True) -> Views:
    """The flag of datum A: a filled triangle on the line and a framed letter."""
    x, y = at
    out = 1.0 if down else -1.0
    y1, y2 = y + out * 3.0, y + out * 8.5
    letter = Text("datum.A.text", "A", (x, max(y1, y2) - 1.25), TEXT, "middle", bold=True)
    return (
        Area("datum.A.foot", "ink", ((x - 1.5, y), (x + 1.5, y), (x, y + out * 3.0))),
        Line("datum.A", "thin", ((x - 2.75, y1), (x + 2.75, y1), (x + 2.75, y2), (x - 2.75, y2)), closed=True),
        letter,
    )
