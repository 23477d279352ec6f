"""What couples the trailer as seen: the ball with the coupler's outline, or the king pin on its plate."""

from generator.draw.marks import Circle, Line, Mark, Point
from generator.draw.sheets.legs import legs, nose
from generator.draw.views import View
from generator.release.slices import Steel

PLATE = 0.15
"""Half the length of the pin's bearing face as drawn, a mark and no size of the maker's, m."""


def is_pin(s: Steel) -> bool:
    """Whether the trailer hangs on a king pin."""
    return s.hitched.coupling == "king pin"


def side(s: Steel, view: View) -> tuple[Mark, ...]:
    """Ball or king pin in elevation with its centre lines, the coupler of a tongue as an outline."""
    x, y = view.p(s.pin_station, s.ball_height)
    r = max(view.mm(s.ball_diameter / 2.0), 0.6)
    below = view.mm(s.hitched.pin_length) if is_pin(s) else r
    top = view.up(s.deck_height_laden + s.neck_underside) if s.has_neck else y - r - 2.0
    return (
        *mark(s, (x, y), view),
        Line("ball.v", "centre", ((x, y + below + 2.0), (x, top))),
        *_coupler(s, view),
    )


def mark(s: Steel, at: Point, view: View) -> tuple[Mark, ...]:
    """The ball with a level centre line, or the pin below its bearing face; seen from the side or along the trailer."""
    (x, y), r = at, max(view.mm(s.ball_diameter / 2.0), 0.6)
    if not is_pin(s):
        level = Line("ball.h", "thin", ((x - r - 2.0, y), (x + r + 2.0, y)))
        return Circle("ball", "outline", at, r), level
    low, half = y + view.mm(s.hitched.pin_length), view.mm(PLATE)
    return (
        Line("ball", "outline", ((x - r, y), (x - r, low), (x + r, low), (x + r, y))),
        Line("ball.h", "outline", ((x - half, y), (x + half, y))),
    )


def _coupler(s: Steel, view: View) -> tuple[Mark, ...]:
    """From the front end of a tongue to its ball: an outline, no size of the maker's."""
    found = [p for p in legs(s) if p.x0 > s.pin_station]
    if not found:
        return ()
    head, r, deck = min(found, key=lambda p: p.x0), s.ball_diameter / 2.0, s.deck_height_laden
    ball = s.ball_height
    return (
        view.run(
            "coupler",
            "phantom",
            (
                (head.x0, head.z0 + deck),
                (s.pin_station - 1.4 * r, ball - 0.3 * r),
                (s.pin_station - 1.4 * r, ball + 1.4 * r),
                (s.pin_station + 1.4 * r, ball + 1.6 * r),
                (head.x0, head.z1 + deck),
            ),
        ),
    )


def plan(s: Steel, view: View) -> tuple[Mark, ...]:
    """The centre of ball or king pin from above, the coupler of a tongue as an outline."""
    c = view.p(s.pin_station, 0.0)
    marks: list[Mark] = [
        Circle("ball", "outline", c, max(view.mm(s.ball_diameter / 2.0), 0.8)),
        Line("ball.across", "centre", ((c[0], c[1] - 6.0), (c[0], c[1] + 6.0))),
    ]
    found = [p for p in legs(s) if p.x0 > s.pin_station]
    if found:
        x0 = min(p.x0 for p in found)
        half = max(abs(y) for p in found for y in nose(p))
        tip, r = s.pin_station - 0.7 * s.ball_diameter, 0.7 * s.ball_diameter
        marks.append(view.run("coupler", "phantom", ((x0, -half), (tip, -r), (tip, r), (x0, half))))
    return tuple(marks)
