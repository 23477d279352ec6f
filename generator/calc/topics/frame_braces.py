"""What holds a rail's flanges sideways, and the lengths left free between. m.

A crossmember holds only the flange its face reaches. An axle bracket under the rail holds the bottom flange where the
axle's tube ties it to the other side and a crossmember stands over it: the rail cannot twist there. A hanger of leaf
springs is tied to nothing. A place where the moment changes sense holds nothing either.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.calc.record import Basis, Quantity, Working, sure
from generator.calc.topics.frame_beam import POINT, Rail
from generator.model.types import Model, Piece
from generator.reference.types import Reference
from generator.spec.models.trailer import Torsion

FLUSH, BRACKET = "frame.brace_flush", "frame.brace_bracket"
"""Rows of the register: how near a face must come to hold a flange, a crossmember to a bracket to close the ring."""

RESTS = frozenset({FLUSH, BRACKET})


@dataclass(frozen=True, slots=True, order=True)
class Hold:
    """A station (m) at which a flange is held, or the rail ends, and by what."""

    station: float
    what: str


@dataclass(frozen=True, slots=True)
class Free:
    """A stretch of flange between two holds, and all that hold this flange."""

    front: Hold
    rear: Hold
    held: tuple[Hold, ...]

    @property
    def length(self) -> float:
        """Unbraced length, m."""
        return self.rear.station - self.front.station


@dataclass(frozen=True, slots=True)
class Braces:
    """Where top and bottom flange of one rail are held sideways, front to rear."""

    top: tuple[Hold, ...]
    bottom: tuple[Hold, ...]


def braces(model: Model, rail: Rail, brackets: Sequence[float], data: Reference) -> Braces:
    """Where a rail's flanges are held: by members between both rails, by `brackets` (stations m) with a member over."""
    of_rail = next(p for p in model.pieces if p.mark == rail.mark)
    near, over = data.defaults[FLUSH].value, data.defaults[BRACKET].value
    told = {m.mark: m.braces for m in model.spec.trailer.frame.members if getattr(m, "braces", None)}
    inside = min(abs(of_rail.y0), abs(of_rail.y1))
    across = [p for p in model.pieces if p.run == "crosswise" and p.y0 < 0.0 < p.y1 and p.y1 >= inside - POINT
              and rail.front - POINT <= middle(p) <= rail.rear + POINT]
    top = {Hold(middle(p), p.mark) for p in across
           if _holds(told.get(p.mark), "top", abs(p.z1 - of_rail.z1) <= near or abs(p.z0 - of_rail.z1) <= POINT)}
    bottom = {Hold(middle(p), p.mark) for p in across
              if _holds(told.get(p.mark), "bottom", abs(p.z0 - of_rail.z0) <= near)}
    ties = brackets if _ties(model, of_rail) else ()
    hung = {Hold(x, f"axle bracket with its tube, under {min(m for m, d in under if d == closest)}")
            for x in ties for under in [[(t.what, abs(x - t.station)) for t in top if abs(x - t.station) <= over]]
            if under for closest in [min(d for _, d in under)]}
    return Braces(_apart(top), _apart(bottom | hung))


def _apart(found: set[Hold]) -> tuple[Hold, ...]:
    """Front to rear, one a station."""
    return tuple({h.station: h for h in sorted(found, reverse=True)}[x] for x in sorted({h.station for h in found}))


def _holds(told: str | None, flange: str, by_place: bool) -> bool:
    return by_place if told is None else told in (flange, "both")


def _ties(model: Model, rail: Piece) -> bool:
    """Whether the axles' brackets stand under this rail's flange, and a tube runs between them."""
    suspension = model.spec.trailer.running_gear.suspension
    if not isinstance(suspension, Torsion):
        return False
    low, high = sorted((abs(rail.y0), abs(rail.y1)))
    return low - POINT <= suspension.bracket_spacing.nominal / 2 <= high + POINT


def middle(p: Piece) -> float:
    """Station of the middle of a piece, m."""
    return (p.x0 + p.x1) / 2


def stretches_of(held: Sequence[Hold], front: float, rear: float) -> tuple[Free, ...]:
    """The free stretches of a flange from `front` to `rear` (m)."""
    between = tuple(h for h in held if front < h.station < rear)
    ends = (_end(held, front), *between, _end(held, rear))
    return tuple(Free(a, b, tuple(held)) for a, b in pairwise(ends))


def _end(held: Sequence[Hold], x: float) -> Hold:
    return next((h for h in held if abs(h.station - x) <= POINT), Hold(x, "end of the rail"))


def unbraced(w: Working, flange: str, mark: str, free: Free) -> Quantity:
    """The free length of a flange in compression (m) as a step: both ends, and every place that holds it."""
    ends = [sure("s_1", free.front.station, "m"), sure("s_2", free.rear.station, "m")]
    others = [h for h in free.held if h not in (free.front, free.rear)]
    points = [sure(f"s_{n}", h.station, "m") for n, h in enumerate(others, start=3)]
    more = ", ".join(f"s_{n} ({h.what})" for n, h in enumerate(others, start=3))
    rest = f"; it is held besides at {more}" if others else "; it is held nowhere else"
    sentence = f"The {flange} flange of {mark} from s_1 ({free.front.what}) to s_2 ({free.rear.what}){rest}."
    length = sure("L_b", free.length, "m", Basis.ESTIMATE, RESTS)
    return w.procedure("Length over which the flange in compression is free", sentence,
                       "stations of the pieces; what holds a flange is an assumption", length, [*ends, *points])
