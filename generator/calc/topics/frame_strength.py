"""What the rails are asked against what their steel allows: bending with the flange really braced, shear, webs.

A crossmember braces only the flange it touches. Where a rail hogs (over the axles, behind the jacks) its bottom flange
is in compression and the crossmembers above do not help it. One rail at a time. N, N m, m.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np

from generator.calc.beam import SAME
from generator.calc.beam_nodes import distinct
from generator.calc.record import Floats, Quantity, Working, combine, formula, sure
from generator.calc.topics.frame_beam import Rail
from generator.calc.topics.frame_braces import Braces, Free, stretches_of, unbraced
from generator.calc.topics.frame_sides import Side
from generator.calc.topics.frame_steel import steel_of
from generator.calc.topics.strength import Steel, bearing_allowed, moment_allowed, shear_allowed
from generator.calc.trials import Trials
from generator.records import dataclass
from generator.reference.types import Reference

BEAM = "direct solution of the beam; checked against AISC Table 3-23 and a general frame program"


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


@formula("What this rail takes where another lies on it", "M_r = M*I_r/I_s", "N*m",
         "statics: both bend alike, so by inertia; no weld that joins them is counted on")
def SHARED(M: Floats, I_r: Floats, I_s: Floats) -> Floats:
    """Moment N m of one rail, from that of both (N m), its inertia and that of both (m4)."""
    return M * I_r / I_s


@formula("What this rail takes where another lies on it", "V_r = V*I_r/I_s", "N",
         "statics: both bend alike, so by inertia; no weld that joins them is counted on")
def SHARED_FORCE(V: Floats, I_r: Floats, I_s: Floats) -> Floats:
    """Shear N of one rail, from that of both (N), its inertia and that of both (m4)."""
    return V * I_r / I_s


Acting = Callable[[Working], Quantity]
"""The mass (kg) that acts on the frame under one set of loads, as a step of a working."""


@dataclass(frozen=True, slots=True, eq=False)
class Case:
    """One way of carrying the frame: both rails solved (more than once), load factor, what acts on each side by its
    set of loads, what else it rests on.
    """

    id: str
    title: str
    state: str
    sides: tuple[Side, ...]
    factor: Quantity
    acting: tuple[Acting, ...]
    rests: tuple[Quantity, ...]

    @property
    def level(self) -> tuple[Side, ...]:
        """The sides with every support at its height."""
        return tuple(s for s in self.sides if not s.is_low)


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """A free stretch of the flange in compression of one rail, and the greatest moment (N m) of its sense in it.

    `moment` is that of all rails there, `part` (to 1) what this one takes of it.
    """

    case: Case
    side: Side
    rail: Rail
    sign: float
    free: Free
    moment: float
    station: float
    part: float

    @property
    def asked(self) -> float:
        """Moment of this rail with the load factor, N m."""
        return float(self.case.factor.values[0]) * self.moment * self.part


def stretches(case: Case, rail: Rail, held: Braces) -> Iterator[Stretch]:
    """The worst side of every free stretch of a rail in one case, for both senses of moment."""
    found: dict[tuple[float, int], Stretch] = {}
    frees = {sign: stretches_of(flange, rail.front, rail.rear) for sign, flange in ((1.0, held.top),
                                                                                   (-1.0, held.bottom))}
    marks = distinct([np.array([h.station for of in frees.values() for f in of for h in (f.front, f.rear)]),
                      np.array(rail.joints)])
    for side in case.sides:
        xs = side.diagram.x
        on = slice(*np.searchsorted(xs, [rail.front, rail.rear + SAME]))
        x = np.concatenate([xs[on], marks])
        m = np.concatenate([side.diagram.moment[on], side.diagram.moment_ahead(marks)])
        order = np.argsort(x, kind="stable")
        x, m = x[order], m[order]
        part = rail.parts(x)
        for sign, of in frees.items():
            ends = np.array([of[0].front.station, *(f.rear.station for f in of)])
            first, last = np.searchsorted(x, ends, side="left"), np.searchsorted(x, ends, side="right")
            for n, (free, i, j) in enumerate(zip(of, first, last[1:], strict=False)):
                k = i + int((sign * m[i:j] * part[i:j]).argmax())
                moment, was = float(sign * m[k]), found.get((sign, n))
                if moment * part[k] > (0.0 if was is None else was.moment * was.part):
                    found[sign, n] = Stretch(case, side, rail, sign, free, moment, float(x[k]), float(part[k]))
    yield from found.values()


class Strength:
    """Allowed moment (N m) of one rail by unbraced length, worked once for each length asked."""

    def __init__(self, steel: Steel) -> None:
        self._steel = steel
        self._known: dict[float, float] = {}

    def at(self, free: float) -> float:
        """Allowed moment with `free` m unbraced."""
        key = 0.0 if self._steel.section.shape == "HSS" else free
        if key not in self._known:
            self._known[key] = float(moment_allowed(Working(), self._steel, sure("L_b", key, "m")).values[0])
        return self._known[key]


def worst_stretch(found: Sequence[Stretch], strengths: Mapping[str, Strength]) -> Stretch | None:
    """The stretch with the highest use of its strength; None if there is none."""
    return max(found, key=lambda f: f.asked / strengths[f.rail.mark].at(f.free.length), default=None)


def bending_of(stretch: Stretch, steel: Steel) -> tuple[Working, Quantity, Quantity]:
    """Working, moment asked and moment allowed of one stretch."""
    w, case = Working(), stretch.case
    flange = "top" if stretch.sign > 0 else "bottom"
    moment = grown(w, case, stretch.side, stretch.moment, stretch.station,
                   f"{stretch.rail.mark}, {_first_low(stretch.rail.title)}: the stretch with the highest use, its "
                   f"{flange} flange in compression; the greatest moment of all may stand where the flange is held "
                   "more closely")
    if stretch.part < 1.0:
        moment = w(SHARED, M=moment, **_inertias(stretch.rail, stretch.part))
    asked = w(DEMAND, phi=case.factor, M=moment)
    if steel.section.shape == "HSS":
        return w, asked, moment_allowed(w, steel, sure("L_b", stretch.free.length, "m"))
    return w, asked, moment_allowed(w, steel, unbraced(w, flange, stretch.rail.mark, stretch.free))


def _inertias(rail: Rail, part: float) -> dict[str, Quantity]:
    """Inertia (m4) of a rail and of all that lie on each other, of which it takes this part."""
    said = f"{rail.mark} {rail.section}"
    return {"I_r": sure("I_r", rail.inertia, "m4", origin=said),
            "I_s": sure("I_s", rail.inertia / part, "m4", origin=f"{said} and the rail it lies on")}


def _first_low(title: str) -> str:
    return title[:1].lower() + title[1:]


def grown(w: Working, case: Case, side: Side, value: float, station: float, what: str, force: bool = False) -> Quantity:
    """A moment (N m) or force (N) of one side of a solved case, at a station (m), growing with what acts."""
    mass = case.acting[side.load](w)
    nominal = Quantity("m_0", mass.values[:1], "kg", mass.basis, mass.rests_on)
    symbol, unit = ("V_0", "N") if force else ("M_0", "N*m")
    start = w.procedure(case.title, f"{_first_up(side.title)}, at station x under the mass m_0; {what}.", BEAM,
                        combine(symbol, np.array([value]), unit, [mass, *case.rests]),
                        [sure("x", station, "m"), nominal])
    if force:
        return w(SCALED_FORCE, V_0=start, m_s=mass, m_0=nominal)
    return w(SCALED, M_0=start, m_s=mass, m_0=nominal)


def _first_up(title: str) -> str:
    return title[:1].upper() + title[1:]


def shear_of(cases: Sequence[Case], rails: Sequence[Rail], steels: Mapping[str, Steel],
             ) -> tuple[Working, Quantity, Quantity, str] | None:
    """Working, shear asked, shear allowed and load state of the rail with the highest use."""
    allowed = {mark: float(shear_allowed(Working(), s).values[0]) for mark, s in steels.items()}
    found = []
    for case in cases:
        for side in case.sides:
            for rail in rails:
                on = np.flatnonzero((side.diagram.x >= rail.front) & (side.diagram.x <= rail.rear))
                if len(on):
                    parts = rail.parts(side.diagram.x[on])
                    best = int((np.abs(side.diagram.shear[on]) * parts).argmax())
                    v, x, part = abs(float(side.diagram.shear[on][best])), side.diagram.x[on][best], float(parts[best])
                    use = float(case.factor.values[0]) * v * part / allowed[rail.mark]
                    found.append((use, case, side, rail, v, float(x), part))
    if not found:
        return None
    _, case, side, rail, v, x, part = max(found, key=lambda f: f[0])
    w = Working()
    shear = grown(w, case, side, v, x, f"{rail.mark}, {_first_low(rail.title)}", force=True)
    if part < 1.0:
        shear = w(SHARED_FORCE, V=shear, **_inertias(rail, part))
    return w, w(DEMAND_FORCE, phi=case.factor, V=shear), shear_allowed(w, steels[rail.mark]), case.state


def web_of(cases: Sequence[Case], rails: Sequence[Rail], steels: Mapping[str, Steel], trials: Trials, data: Reference,
           ) -> tuple[Working, Quantity, Quantity, str] | None:
    """Working, force asked, force allowed and load state of the bracket, jack or stand that the web takes worst."""
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
                    found.append((use, case, side, rail, force, x, key[1], name))
    if not found:
        return None
    _, case, side, rail, force, x, is_end, name = max(found, key=lambda f: f[0])
    w = Working()
    borne = grown(w, case, side, force, x, f"{rail.mark}, {_first_low(rail.title)}, over {name}, no stiffener",
                  force=True)
    asked = w(DEMAND_FORCE, phi=case.factor, V=borne)
    allowed, _ = bearing_allowed(w, steels[rail.mark], bearing, is_end)
    return w, asked, allowed, case.state


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


