"""The frame as a beam: what it carries on the road, its rails, its supports, and the diagram of it. N, N m, m.

Both rails together; stations positive aft of datum A. The house's own stiffness is unknown, so the frame is solved
bare and again as if the house made it stiff: the truth lies between.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Bent, Girder, Loads, Support, at, loads, solve
from generator.calc.findings import Beam, SupportForce
from generator.calc.record import Floats, Quantity
from generator.calc.topics.leaf import equalised
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.topics.suspension import G, gear, spindle_aft
from generator.calc.trials import Trials
from generator.errors import CalcError
from generator.model.types import Model, Piece
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Leaf, Torsion

POINT = 0.010
"""An item shorter than this (m) is a point load, and a rail within this of the stated width is a rail."""

TOUCH = 0.002
"""Rails nearer to each other than this (m), one above the other, lie on each other."""

STIFF = 1e12
"""E I (N m2) that stands for a frame the house makes stiff: it bends less than a hair."""

STATIONS, BINS = 161, 40
"""Evenly spaced stations of the diagram, and equal lengths over which its line load is averaged."""

DRAWN = 0.01
"""Point loads above this share of all are drawn as arrows; lesser ones join the line load of the diagram."""


@dataclass(frozen=True, slots=True)
class Rail:
    """Rails of one mark, both sides together: front and rear (m), section, grade, inertia m4 and modulus m3 of all.

    `stacked`: where another rail lies on it or under it, front and rear (m) and the inertia of both (m4).
    """

    mark: str
    title: str
    section: str
    grade: str
    front: float
    rear: float
    inertia: float
    modulus: float
    stacked: tuple[tuple[float, float, float], ...] = ()

    def parts(self, x: Floats) -> Floats:
        """Its part (1: all) at stations (m): rails that lie on each other bend alike, so each takes by its inertia.

        Nothing is counted on a weld that would make one section of both; beside the other's end it carries alone.
        """
        found = np.ones(x.shape)
        for front, rear, both in self.stacked:
            ahead = front if front > self.front else -np.inf
            behind = rear if rear < self.rear else np.inf
            found[(x > ahead) & (x < behind)] = self.inertia / both
        return found

    @property
    def joints(self) -> tuple[float, ...]:
        """Stations (m) at which another rail starts or ends to share."""
        return tuple(x for front, rear, _ in self.stacked for x in (front, rear))


@dataclass(frozen=True, slots=True, eq=False)
class Road:
    """The frame solved in the travel state, bare and as stiff as the house may make it.

    `places` (m) and `moments` (N m, both sides of every jump) hold all extremes of `bare`, then of `stiff`; `springs`
    (axle rates) and `modulus` of the steel are what the share between the supports rests on.
    """

    bare: Bent
    stiff: Bent
    rails: tuple[Rail, ...]
    places: tuple[Floats, Floats]
    moments: tuple[Floats, Floats]
    springs: tuple[Quantity, ...]
    modulus: Quantity

    @property
    def governing(self) -> Bent:
        """The one with the greater moment."""
        bare, stiff = (float(np.abs(m).max()) for m in self.moments)
        return self.bare if bare > stiff else self.stiff


def case_of(model: Model, state: str = DESIGN) -> Loads | None:
    """What the frame carries in a state: sprung items spread over their length (N); None if anything is unknown."""
    index = next(i for i, s in enumerate(model.states) if s.id == state)
    rows = [(i, i.mass * i.aboard[index] * G) for i in model.items if not i.unsprung]
    if not np.isfinite([(force, i.x0, i.x1) for i, force in rows]).all():
        return None
    rows = [(i, force) for i, force in rows if force != 0.0]
    points = [((i.x0 + i.x1) / 2, f) for i, f in rows if i.x1 - i.x0 < POINT]
    lines = [(i.x0, i.x1, *(f / (i.x1 - i.x0),) * 2) for i, f in rows if i.x1 - i.x0 >= POINT]
    return loads(points, lines)


def rails_of(model: Model, data: Reference) -> tuple[Rail, ...]:
    """The rails: lengthwise members whose outside is the stated rail width of deck or neck."""
    trailer = model.spec.trailer
    widths = [trailer.frame.rails_outside, *([trailer.neck.rails_outside] if trailer.neck is not None else [])]
    edges = [v.nominal / 2 for v in widths if v.known]
    found = [p for p in model.pieces if p.run == "lengthwise" and any(abs(_outside(p) - e) < POINT for e in edges)]
    marks = sorted({(p.x0, p.x1, p.mark) for p in found})
    made = [(next(p for p in found if (p.x0, p.x1, p.mark) == key),
             _rail([p for p in found if (p.x0, p.x1, p.mark) == key], data)) for key in marks]
    return tuple(replace(r, stacked=tuple((max(r.front, o.front), min(r.rear, o.rear), r.inertia + o.inertia)
                                          for q, o in made if _touch(p, q))) for p, r in made)


def _touch(p: Piece, q: Piece) -> bool:
    """Whether one of two rails lies along the other."""
    return bool(abs(p.z0 - q.z1) < TOUCH or abs(p.z1 - q.z0) < TOUCH) and (
        abs(_outside(p) - _outside(q)) < POINT and p.x0 < q.x1 - POINT and q.x0 < p.x1 - POINT)


def solve_road(model: Model, case: Loads, ride: Ride, rails: Sequence[Rail], data: Reference) -> Road | None:
    """Hitch held at its level height, one spring with a trailing arm per axle; None if any of them is unknown."""
    x_h = model.spec.trailer.coupling.station.nominal
    arm = float(spindle_aft(gear(model, Trials(count=0), data), ride.give).values[0])
    rates = np.array([float(k.values[0]) for k in ride.rates])
    spindles = np.array(model.axle_stations)
    springs = _springs(model, arm, rates)
    if not np.isfinite([x_h, *rates, *spindles, *(v for s in springs for t in s.terms for v in t)]).all():
        return None
    mean = float(rates @ spindles / rates.sum())
    if mean <= x_h:
        raise CalcError("the axles stand ahead of the ball")
    sprung = case.total * (_centre(case) - x_h) / (mean - x_h)
    supports = [at("hitch", x_h, imposed=-sprung / float(rates.sum()))]
    supports += springs
    ends = np.concatenate([case.points[:, 0], case.lines[:, :2].ravel(), [t[0] for s in supports for t in s.terms],
                           [e for r in rails for e in (r.front, r.rear)]])
    front, rear = float(ends.min()), float(ends.max())
    modulus = Trials(count=0).assumed("E", data.defaults["frame.modulus"])
    bare, stiff = (solve(Girder(front, rear, runs), supports, [case])[0]
                   for runs in (_runs(front, rails, float(modulus.values[0])), ((front, STIFF),)))
    (x, m), (x_stiff, m_stiff) = (_extremes(b, rails) for b in (bare, stiff))
    return Road(bare, stiff, tuple(rails), (x, x_stiff), (m, m_stiff), ride.rates, modulus)


def _springs(model: Model, arm: float, rates: Floats) -> list[Support]:
    """The axles under the frame: one spring each on its bracket, or one for all on hangers that share evenly."""
    stations = model.axle_stations
    match model.spec.trailer.running_gear.suspension:
        case Leaf(eye_length=eye):
            return [Support("hangers", equalised(stations, eye.nominal), float(rates.sum()))]
        case Torsion():
            return [at(f"axle {n} bracket", x - arm, arm, float(k))
                    for n, (x, k) in enumerate(zip(stations, rates, strict=True), start=1)]


def _extremes(b: Bent, rails: Sequence[Rail]) -> tuple[Floats, Floats]:
    """Every station at which a moment can be greatest, rail ends included, and the moment on both its sides."""
    x = np.concatenate([b.breaks(), b.peaks(), [e for r in rails for e in (r.front, r.rear)]])
    return np.concatenate([x, x]), np.concatenate([b.moment(x), b.moment(x, after=False)])


def _rail(pieces: list[Piece], data: Reference) -> Rail:
    p, section = pieces[0], data.sections[pieces[0].section]
    n = len(pieces)
    return Rail(p.mark, p.title, p.section, p.grade, p.x0, p.x1, n * section.inertia, n * section.modulus)


def _outside(piece: Piece) -> float:
    return max(abs(piece.y0), abs(piece.y1))


def _runs(front: float, rails: Sequence[Rail], modulus: float) -> tuple[tuple[float, float], ...]:
    """E I from each rail end on; a stretch without a rail keeps the stiffness ahead of it, a nose that of its rail."""
    ends = sorted({e for r in rails for e in (r.front, r.rear)})
    runs: list[tuple[float, float]] = []
    for a, b in pairwise(ends):
        inertia = sum(r.inertia for r in rails if r.front < (a + b) / 2 < r.rear)
        runs.append((a, modulus * inertia if inertia else runs[-1][1]))
    if not runs:
        return ((front, STIFF),)
    return ((front, runs[0][1]), *runs[1:])


def girder(front: float, rear: float, rails: Sequence[Rail], modulus: float) -> Girder:
    """Both rails together as a beam from `front` to `rear` (m), from the modulus of their steel (Pa)."""
    return Girder(front, rear, _runs(front, rails, modulus))


def _centre(case: Loads) -> float:
    x0, x1, w0, _ = case.lines.T
    first = case.points[:, 0] @ case.points[:, 1] + ((x0 + x1) / 2 * w0 * (x1 - x0)).sum()
    return float(first) / case.total


def record(road: Road, length: float) -> Beam:
    """The diagram of the frame with the greater moment; the main deck is `length` m long."""
    which = "bare frame" if road.governing is road.bare else "frame stiffened by the house"
    return drawn("travel", f"Travel state, static: {which}", DESIGN, (road.governing,), (road.bare,), length)


def drawn(id: str, title: str, state: str, bents: Sequence[Bent], bare: Sequence[Bent], length: float,
          ) -> Beam:
    """Beams on the same supports added up as one diagram; at a support, point load or couple a station stands twice.

    `bare`: those whose deflection is shown, the mean of them from the chord of the main deck (`length` m).
    """
    weights = merged([b.loads for b in bents])
    reactions = sum(b.reactions for b in bents)
    forces = [SupportForce(s.title, x, float(r) * share, float(r) * lever)
              for s, r in zip(bents[0].supports, np.atleast_1d(reactions), strict=True) for x, share, lever in s.terms]
    points = [SupportForce("point load", float(x), float(f)) for x, f in weights.points[_drawn(weights)]]
    loaded = [x for b in bents for x in (*b.loads.points[:, 0], *(x for x, _ in b.loads.couples))]
    jumps = {round(float(x), 9) for x in (*(f.station for f in forces), *loaded)}
    front, rear = min(b.girder.front for b in bents), max(b.girder.rear for b in bents)
    even = np.linspace(front, rear, STATIONS)
    places = sorted({round(float(x), 9) for x in np.concatenate([even, *(b.peaks() for b in bents)])} | jumps)
    pairs = [(x, after) for x in places for after in ((False, True) if x in jumps else (True,))]
    x = np.array([p for p, _ in pairs])
    after = np.array([a for _, a in pairs])
    shear = sum(np.where(after, b.shear(x), b.shear(x, after=False)) for b in bents)
    moment = sum(np.where(after, b.moment(x), b.moment(x, after=False)) for b in bents)
    edges = np.linspace(front, rear, BINS + 1)
    line = averaged(weights, edges)[np.clip(np.searchsorted(edges, x, side="right") - 1, 0, BINS - 1)]
    return Beam(id, title, state, weights.total / G, _floats(x), _floats(line), _floats(np.atleast_1d(shear)),
                _floats(np.atleast_1d(moment)), tuple(forces), tuple(points), _centre(weights),
                _floats(np.mean([_off(b, x, length) for b in bare], axis=0)))


def merged(loads: Sequence[Loads]) -> Loads:
    """Several sets of loads as one."""
    return Loads(np.concatenate([case.points for case in loads]), np.concatenate([case.lines for case in loads]))


def _off(b: Bent, x: Floats, length: float) -> Floats:
    """How far a beam stands above the chord of the main deck, m."""
    ends = np.clip(np.array([0.0, length]), b.girder.front, b.girder.rear)
    w0, w1 = b.deflection(ends)
    off: Floats = b.deflection(x) - (w0 + (w1 - w0) * (x - ends[0]) / (ends[1] - ends[0]))
    return off


def averaged(case: Loads, edges: Floats) -> Floats:
    """Line load N/m averaged between edges: all lines, and the point loads that are not drawn as arrows."""
    x0, x1, w0, w1 = case.lines.T
    reach = np.clip(edges[:, None], x0, x1) - x0
    ahead = (w0 * reach + (w1 - w0) * reach**2 / (2.0 * (x1 - x0))).sum(axis=1)
    small = case.points[~_drawn(case)]
    ahead += np.where(small[:, 0] < edges[:, None], small[:, 1], 0.0).sum(axis=1)
    ahead[-1] += small[small[:, 0] >= edges[-1], 1].sum()
    out: Floats = np.diff(ahead) / np.diff(edges)
    return out


def _drawn(case: Loads) -> NDArray[np.bool_]:
    return np.asarray(case.points[:, 1] > DRAWN * case.total)


def unsolved() -> Beam:
    """The record of a frame that could not be solved: no stations, mass NaN."""
    return Beam("travel", "Travel state: an unknown mass or station leaves it unsolved", DESIGN, float("nan"), (), (),
                (), (), (), ())


def _floats(values: Iterable[float]) -> tuple[float, ...]:
    return tuple(float(v) for v in values)
