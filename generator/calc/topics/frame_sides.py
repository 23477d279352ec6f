"""Right and left rail by themselves: loads by the lever rule, supports on the road, on the jacks and on stands. N, m.

The ball cannot resist roll: what the rails ask of the hitch differently is torque in the front crossmembers.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Bent, Diagram, Girder, Loads, Support, at, diagram, pushed, solve
from generator.calc.record import Floats
from generator.calc.topics.frame_beam import POINT, Rail, Road
from generator.calc.topics.suspension import G
from generator.model.types import Model, Piece
from generator.records import dataclass

SIDES = ("right", "left")


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One rail in one case: what it is, the solved beam, its diagram, which set of loads, whether a foot is low."""

    title: str
    bent: Bent
    diagram: Diagram
    load: int = 0
    is_low: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """Both rails on jacks and stands that only push, all level and then with each of them low; `low` is the greatest
    reaction (N) at each support of either rail, `lifted` the names of those that then carry nothing.
    """

    sides: tuple[Side, ...]
    names: tuple[str, ...]
    low: tuple[float, ...]
    lifted: tuple[str, ...]


def base_of(rails: Sequence[Rail], pieces: Sequence[Piece]) -> float:
    """Distance between the centre lines of the main rails, m; NaN without rails."""
    marks = {r.mark for r in rails}
    middles = [abs(p.y0 + p.y1) / 2 for p in pieces if p.mark in marks]
    return 2.0 * float(np.mean(middles)) if middles else float("nan")


def sides_of(model: Model, state: str, base: float, more: Sequence[tuple[float, float, float]] = (),
             hanging: bool = False) -> tuple[Loads, ...] | None:
    """What each rail carries in a state (right, left), by the lever rule over `base` m; None if anything is unknown.

    `more` are line loads on the centre line: front, rear (m), N in all. `hanging`: axles and wheels hang on it too.
    """
    index = next(i for i, s in enumerate(model.states) if s.id == state)
    rows = np.array([(i.x0, i.x1, i.y, i.mass * i.aboard[index] * G) for i in model.items if hanging or not i.unsprung]
                    + [(x0, x1, 0.0, force) for x0, x1, force in more], dtype=np.float64)
    if not (np.isfinite(rows).all() and base > POINT):
        return None
    x0, x1, y, force = rows[rows[:, 3] != 0.0].T
    point = x1 - x0 < POINT
    return tuple(_loads(x0, x1, force * (0.5 + sign * y / base), point) for sign in (1.0, -1.0))


def _loads(x0: Floats, x1: Floats, force: Floats, point: NDArray[np.bool_]) -> Loads:
    line = force[~point] / (x1 - x0)[~point]
    return Loads(np.column_stack([(x0 + x1)[point] / 2, force[point]]),
                 np.column_stack([x0[~point], x1[~point], line, line]))


def in_step(springs: Sequence[Support]) -> Support:
    """Springs that sink alike, as one support: the axles under a level frame that does not bend."""
    rates = np.array([s.stiffness or 0.0 for s in springs])
    shares = rates / rates.sum()
    return Support("axles", tuple((x, float(k) * share, float(k) * lever) for k, s in zip(shares, springs, strict=True)
                                  for x, share, lever in s.terms))


def half(girder: Girder) -> Girder:
    """The girder of one rail where two alike make the frame."""
    return replace(girder, runs=tuple((x, ei / 2) for x, ei in girder.runs))


def sunk(case: Loads, road: Road) -> float:
    """How far the axle springs of both rails give under a load with the frame level, m."""
    springs, x_h = road.bare.supports[1:], road.bare.supports[0].terms[0][0]
    rate = sum(s.stiffness or 0.0 for s in springs)
    mean = sum((s.stiffness or 0.0) * (share * x + lever) for s in springs for x, share, lever in s.terms) / rate
    x0, x1, w0, w1 = case.lines.T
    turning = case.points[:, 1] @ (case.points[:, 0] - x_h) + ((w0 + w1) / 2 * (x1 - x0) * ((x0 + x1) / 2 - x_h)).sum()
    return float(turning) / (mean - x_h) / rate


def on_road(road: Road, sides: Sequence[Loads]) -> tuple[tuple[Side, ...], tuple[Side, ...]]:
    """Each rail on hitch and axles: first as the bare frame, then as if the house made it stiff."""
    hitch, springs = road.bare.supports[0], road.bare.supports[1:]
    halves = [replace(s, stiffness=(s.stiffness or 0.0) / 2) for s in springs]
    group, girder = in_step(springs), half(road.bare.girder)
    stiff = solve(girder, [replace(hitch, imposed=0.0), group], sides)
    low = [[-2.0 * sunk(case, road)] + [0.0] * len(halves) for case in sides]
    bare = solve(girder, [hitch, *halves], sides, low)
    return (_named("bare frame", bare), _named("frame stiffened by the house", stiff))


def on_jack(road: Road, station: float, sides: Sequence[Loads]) -> tuple[Side, ...] | None:
    """Each rail on the jack at `station` and the axles, frame level, hitch free; None if they stand together."""
    group = in_step(road.bare.supports[1:])
    if abs(sum(share * x + lever for x, share, lever in group.terms) - station) < POINT:
        return None
    return _named("on the jacks", solve(half(road.bare.girder), [at("jack", station), group], sides))


def props(model: Model) -> list[Support]:
    """What the parked trailer stands on: jacks and stands by station, those at one station together."""
    trailer = model.spec.trailer
    named = sorted([(j.station.nominal, j.id) for j in trailer.jacks] + [(s.station.nominal, s.id)
                                                                        for s in trailer.stands])
    found: list[Support] = []
    for x, name in named:
        if not found or x - found[-1].terms[0][0] >= POINT:
            found.append(at(name, x))
    return found


def on_stands(girder: Girder, supports: Sequence[Support], sides: Sequence[Loads], low: float,
              words: Sequence[str] = ("on its stands",)) -> Standing:
    """Each rail on supports that only push, and again with each of them `low` m lower than the others.

    `sides` are right and left of each set of loads, `words` how each set is said.
    """
    n, k = len(supports), len(sides)
    patterns = [[-low if i == j else 0.0 for i in range(n)] for j in range(n)]
    found = pushed(girder, supports, [*sides, *(case for case in sides for _ in patterns)],
                   [[0.0] * n] * k + patterns * k)
    names = tuple(s.title for s in supports)
    level = [_side(i, words, "all feet level", b) for i, b in enumerate(found[:k])]
    off = [_side(i // n, words, f"the foot {names[i % n]} low", b, True) for i, b in enumerate(found[k:])]
    reactions = np.array([b.reactions for b in found])
    lifted = tuple(name for name, r in zip(names, reactions[k:].min(axis=0), strict=True) if r <= 0.0)
    return Standing((*level, *off), names, tuple(float(v) for v in reactions.max(axis=0)), lifted)


def _side(i: int, words: Sequence[str], feet: str, b: Bent, is_low: bool = False) -> Side:
    return Side(f"{SIDES[i % 2]} rail, {words[i // 2]}, {feet}", b, diagram(b), i // 2, is_low)


def _named(what: str, bent: Sequence[Bent]) -> tuple[Side, ...]:
    return tuple(Side(f"{SIDES[n % 2]} rail, {what}", b, diagram(b)) for n, b in enumerate(bent))


def chord(b: Diagram, front: float, rear: float, stations: int) -> tuple[Floats, Floats]:
    """Stations m and how far the beam stands above the straight line between `front` and `rear` there, m."""
    x = np.linspace(front, rear, stations)
    w = b.deflection(x)
    return x, w - (w[0] + (w[-1] - w[0]) * (x - front) / (rear - front))


def reaching(girder: Girder, sides: Sequence[Loads]) -> Girder:
    """The girder made long enough to carry these loads."""
    ends = np.concatenate([np.array([girder.front, girder.rear]), *(s.points[:, 0] for s in sides),
                           *(s.lines[:, :2].ravel() for s in sides)])
    front, rear = float(ends.min()), float(ends.max())
    return replace(girder, front=front, rear=rear, runs=((front, girder.runs[0][1]), *girder.runs[1:]))
