"""What the rails are asked against what their steel allows: bending with the flange really braced, shear, webs.

A crossmember braces only the flange it touches. Where a rail hogs (over the axles, behind the jacks) its bottom flange
is in compression and the crossmembers above do not help it. One rail at a time. N, N m, m.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.calc.beam import SAME
from generator.calc.beam_nodes import distinct
from generator.calc.record import Floats, Quantity, Working, combine, formula
from generator.calc.topics.frame_beam import POINT, Rail
from generator.calc.topics.frame_sides import Side
from generator.calc.topics.frame_steel import steel_of
from generator.calc.topics.strength import Steel, bearing_allowed, moment_allowed, shear_allowed
from generator.calc.trials import Trials
from generator.model.types import Model, Piece
from generator.records import dataclass
from generator.reference.types import Reference

FLUSH = 0.025
"""A crossmember whose face is within this of the rail's (m) holds that flange."""

LENGTHS = (0.7, 1.2, 2.0, 3.0, 4.5)
"""Unbraced lengths (m) at which a rail's strength is worked to sort its stretches."""

NEAR = 0.1
"""An axle bracket with a crossmember within this of it (m) holds the bottom flange: hanger, tube and crossmember."""


@formula("Moment of this trial: the nominal diagram grows with the mass", "M = M_0*m_s/m_0", "N*m",
         "statics, shape of the load kept")
def SCALED(M_0: Floats, m_s: Floats, m_0: Floats) -> Floats:
    """Moment N m from the nominal one and both masses kg."""
    return M_0 * m_s / m_0


@formula("Force of this trial: the nominal diagram grows with the mass", "V = V_0*m_s/m_0", "N",
         "statics, shape of the load kept")
def SCALED_FORCE(V_0: Floats, m_s: Floats, m_0: Floats) -> Floats:
    """Force N from the nominal one and both masses kg."""
    return V_0 * m_s / m_0


@formula("Moment with the load factor of the case", "M_d = phi*M", "N*m", "common practice, no source")
def DEMAND(phi: Floats, M: Floats) -> Floats:
    """Moment N m from the static one."""
    return phi * M


@formula("Force with the load factor of the case", "V_d = phi*V", "N", "common practice, no source")
def DEMAND_FORCE(phi: Floats, V: Floats) -> Floats:
    """Force N from the static one."""
    return phi * V


@dataclass(frozen=True, slots=True, eq=False)
class Case:
    """One way of carrying the frame: both rails solved (perhaps twice), load factor, mass in its state, what else it
    rests on.
    """

    id: str
    title: str
    state: str
    sides: tuple[Side, ...]
    factor: Quantity
    mass: Quantity
    rests: tuple[Quantity, ...]


@dataclass(frozen=True, slots=True)
class Braces:
    """Stations at which top and bottom flange of one rail are held sideways, m."""

    top: tuple[float, ...]
    bottom: tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """A stretch of one rail between braces of the flange in compression: greatest moment (N m) of one sense in it."""

    case: Case
    side: Side
    rail: Rail
    sign: float
    front: float
    rear: float
    moment: float

    @property
    def free(self) -> float:
        """Unbraced length, m."""
        return self.rear - self.front

    @property
    def asked(self) -> float:
        """Moment with the load factor, N m."""
        return float(self.case.factor.values[0]) * self.moment


def braces(model: Model, rail: Rail, brackets: Sequence[float]) -> Braces:
    """Where a rail's flanges are held: by members between both rails, by axle brackets with a member above."""
    of_rail = next(p for p in model.pieces if p.mark == rail.mark)
    told = {m.mark: m.braces for m in model.spec.trailer.frame.members if getattr(m, "braces", None)}
    inside = min(abs(of_rail.y0), abs(of_rail.y1))
    across = [p for p in model.pieces if p.run == "crosswise" and p.y0 < 0.0 < p.y1 and p.y1 >= inside - POINT
              and rail.front - POINT <= middle(p) <= rail.rear + POINT]
    top = sorted({middle(p) for p in across if _holds(told.get(p.mark), "top", abs(p.z1 - of_rail.z1) <= FLUSH
                                                       or abs(p.z0 - of_rail.z1) <= POINT)})
    bottom = {middle(p) for p in across if _holds(told.get(p.mark), "bottom", abs(p.z0 - of_rail.z0) <= FLUSH)}
    hung = {x for x in brackets if any(abs(x - t) <= NEAR for t in top)}
    return Braces(tuple(top), tuple(sorted(bottom | hung)))


def _holds(told: str | None, flange: str, by_place: bool) -> bool:
    return by_place if told is None else told in (flange, "both")


def middle(p: Piece) -> float:
    """Station of the middle of a piece, m."""
    return (p.x0 + p.x1) / 2


def stretches(case: Case, rail: Rail, held: Braces) -> Iterator[Stretch]:
    """All stretches of a rail in one case, for both senses of moment."""
    ends = {sign: np.array([rail.front, *(b for b in at if rail.front < b < rail.rear), rail.rear])
            for sign, at in ((1.0, held.top), (-1.0, held.bottom))}
    marks = distinct(list(ends.values()))
    for side in case.sides:
        xs = side.diagram.x
        on = slice(*np.searchsorted(xs, [rail.front, rail.rear + SAME]))
        x = np.concatenate([xs[on], marks])
        m = np.concatenate([side.diagram.moment[on], side.diagram.moment_ahead(marks)])
        order = np.argsort(x, kind="stable")
        x, m = x[order], m[order]
        for sign, at in ends.items():
            first, last = np.searchsorted(x, at, side="left"), np.searchsorted(x, at, side="right")
            for a, b, i, j in zip(at, at[1:], first, last[1:], strict=False):
                bent = np.flatnonzero(sign * m[i:j] > 0.0)
                if len(bent):
                    front, rear = x[max(i + bent[0] - 1, 0)], x[min(i + bent[-1] + 1, len(x) - 1)]
                    yield Stretch(case, side, rail, sign, float(max(a, front)), float(min(b, rear)),
                                  float((sign * m[i:j]).max()))


class Strength:
    """Allowed moment (N m) of one rail by unbraced length, worked once for each length asked."""

    def __init__(self, steel: Steel, longest: float) -> None:
        self._steel, self._longest = steel, longest
        self._known: dict[float, float] = {}

    def at(self, free: float) -> float:
        """Allowed moment with `free` m unbraced."""
        key = 0.0 if self._steel.section.shape == "HSS" else free
        if key not in self._known:
            self._known[key] = float(moment_allowed(Working(), self._steel, key).values[0])
        return self._known[key]

    def least(self, free: float) -> float:
        """A moment no greater than the allowed one with `free` m unbraced, from a few lengths."""
        longer = next((step for step in LENGTHS if step >= free), max(self._longest, free))
        return self.at(longer)


def worst_stretch(found: Sequence[Stretch], strengths: Mapping[str, Strength]) -> Stretch | None:
    """The stretch with the highest use of its strength; None if there is none."""
    if not found:
        return None
    bounds = [(f.asked / strengths[f.rail.mark].least(f.free), n) for n, f in enumerate(found)]
    best, use = 0, -1.0
    for bound, n in sorted(bounds, reverse=True):
        # A stretch whose use is surely under the worst one needs no working.
        if bound <= use:
            break
        now = found[n].asked / strengths[found[n].rail.mark].at(found[n].free)
        if now > use:
            best, use = n, now
    return found[best]


def bending_of(stretch: Stretch, steel: Steel) -> tuple[Working, Quantity, Quantity]:
    """Working, moment asked and moment allowed of one stretch."""
    w, case = Working(), stretch.case
    flange = "top" if stretch.sign > 0 else "bottom"
    moment = grown(w, case, stretch.moment, f"{stretch.side.title}, {stretch.rail.title}: the {flange} flange is in "
                   "compression; its free length runs between what holds it, or to where the moment changes sense")
    asked = w(DEMAND, phi=case.factor, M=moment)
    return w, asked, moment_allowed(w, steel, stretch.free)


def grown(w: Working, case: Case, value: float, what: str, force: bool = False) -> Quantity:
    """A moment or force of the solved case as a quantity that grows with the mass of its state."""
    mass = case.mass
    nominal = Quantity("m_0", mass.values[:1], "kg", mass.basis, mass.rests_on)
    symbol, unit = ("V_0", "N") if force else ("M_0", "N*m")
    start = w.procedure(case.title, what, "direct solution of the beam; checked against AISC Table 3-23 and a general "
                        "frame program", combine(symbol, np.array([value]), unit, [mass, *case.rests]), [nominal])
    if force:
        return w(SCALED_FORCE, V_0=start, m_s=mass, m_0=nominal)
    return w(SCALED, M_0=start, m_s=mass, m_0=nominal)


def shear_of(cases: Sequence[Case], rails: Sequence[Rail], steels: Mapping[str, Steel],
             ) -> tuple[Working, Quantity, Quantity] | None:
    """Working, shear asked and shear allowed of the rail with the highest use."""
    allowed = {mark: float(shear_allowed(Working(), s).values[0]) for mark, s in steels.items()}
    found = []
    for case in cases:
        for side in case.sides:
            for rail in rails:
                on = (side.diagram.x >= rail.front) & (side.diagram.x <= rail.rear)
                if on.any():
                    v = float(np.abs(side.diagram.shear[on]).max())
                    found.append((float(case.factor.values[0]) * v / allowed[rail.mark], case, side, rail, v))
    if not found:
        return None
    _, case, side, rail, v = max(found, key=lambda f: f[0])
    w = Working()
    asked = w(DEMAND_FORCE, phi=case.factor, V=grown(w, case, v, f"{side.title}, {rail.title}", force=True))
    return w, asked, shear_allowed(w, steels[rail.mark])


def web_of(cases: Sequence[Case], rails: Sequence[Rail], steels: Mapping[str, Steel], trials: Trials, data: Reference,
           ) -> tuple[Working, Quantity, Quantity] | None:
    """Working, force asked and force allowed of the bracket, jack or stand that the web takes worst."""
    bearing = trials.assumed("l_b", data.defaults["frame.bearing_length"])
    found = []
    strengths: dict[tuple[str, bool], float] = {}
    for case in cases:
        for side in case.sides:
            for name, x, force in _bearings(side):
                for rail in (r for r in rails if r.front <= x <= r.rear):
                    key = rail.mark, min(x - rail.front, rail.rear - x) < steels[rail.mark].section.depth
                    if key not in strengths:
                        limit, _ = bearing_allowed(Working(), steels[rail.mark], bearing, key[1])
                        strengths[key] = float(limit.values[0])
                    use = float(case.factor.values[0]) * force / strengths[key]
                    found.append((use, case, side, rail, force, key[1], name))
    if not found:
        return None
    _, case, side, rail, force, is_end, name = max(found, key=lambda f: f[0])
    w = Working()
    asked = w(DEMAND_FORCE, phi=case.factor,
              V=grown(w, case, force, f"{side.title}, {rail.title}, at {name}, no stiffener", force=True))
    allowed, _ = bearing_allowed(w, steels[rail.mark], bearing, is_end)
    return w, asked, Quantity("R_a", allowed.values, "N", allowed.basis, allowed.rests_on)


def _bearings(side: Side) -> Iterator[tuple[str, float, float]]:
    """Name, station (m) and force (N) of everything that bears on the rail but the hitch."""
    for s, r in zip(side.bent.supports, side.bent.reactions, strict=True):
        if s.title != "hitch":
            for x, share, _ in s.terms:
                yield s.title, x, float(share * r)


def steels_of(rails: Sequence[Rail], trials: Trials, data: Reference) -> tuple[dict[str, Steel], tuple[str, ...]]:
    """The steel of each rail by mark, and what is missing to know its strength."""
    steels, missing = {}, []
    for rail in rails:
        steel = steel_of(rail.section, rail.grade, trials, data)
        if isinstance(steel, str):
            missing.append(steel)
        else:
            steels[rail.mark] = steel
    return steels, tuple(sorted(set(missing)))


