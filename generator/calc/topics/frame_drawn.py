"""The frame as drawn in every way it is carried: a hard stop, on its jacks, parked. Both rails together; N, N m, m.

A hard stop: every mass pushes forward at its own height, the brakes hold at the ground. Along the rails that is a
couple where each mass sits, one at each bracket, and one at the riser, where the push of the neck goes down to the
deck.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from generator.calc.beam import Bent, Loads, solve
from generator.calc.findings import Beam
from generator.calc.record import Missing
from generator.calc.topics.frame_beam import STIFF, case_of, drawn
from generator.calc.topics.frame_cases import Cases, Frame
from generator.calc.topics.frame_sides import Side
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.topics.suspension import G
from generator.errors import CalcError
from generator.records import dataclass
from generator.reference.types import Reference

APART = 0.5
"""Couples of a long mass stand no further apart than this along it, m."""

TITLES = {"jacked": "On the nose jacks, hitch free, static", "parked": "Parked, contents as listed, feet level, static"}
"""Cases solved rail by rail, as their sum is called."""

Couple = tuple[float, float]
"""Where a couple acts (m), and how much it is: nose-down positive (N m)."""


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """The frame and its cases as solved."""

    frame: Frame
    cases: Cases


def diagrams(solved: Solved | None, ride: Ride, data: Reference) -> tuple[Beam, ...]:
    """The diagrams of all ways but the road, of those that could be solved."""
    if solved is None:
        return ()
    return tuple(b for b in (_braking(solved.frame, ride, data), *_sides(solved)) if b is not None)


def _sides(solved: Solved) -> Iterator[Beam]:
    """Right and left rail added up, all feet level."""
    length = solved.frame.model.spec.trailer.frame.length.nominal
    for id, title in TITLES.items():
        case = solved.cases.get(id)
        if case is None or isinstance(case, Missing):
            continue
        both: tuple[Side, ...] = case.sides[:2]
        bents = tuple(s.bent for s in both)
        state = "unhitched" if id == "jacked" else case.state
        yield drawn(id, title, state, bents, bents, length)


def _braking(f: Frame, ride: Ride, data: Reference) -> Beam | None:
    """A stop that takes the stated share of gravity, the trailer's brakes stopping all of the trailer."""
    case, share = case_of(f.model), data.defaults["brake.hard"].value
    found = couples(f, ride, share)
    if case is None or not np.isfinite(found).all():
        return None
    loaded = replace(case, couples=tuple(found))
    bare, stiff = (_solved(f, loaded, runs) for runs in (f.road.bare.girder.runs, ((f.road.bare.girder.front, STIFF),)))
    if bare is None or stiff is None:
        return None
    governing, which = max(((bare, "bare frame"), (stiff, "frame stiffened by the house")), key=_greatest)
    title = f"Hard stop at {share:.1f} g, own brakes stopping all: {which}"
    return drawn("braking", title, DESIGN, (governing,), (bare,), f.model.spec.trailer.frame.length.nominal)


def _greatest(row: tuple[Bent, str]) -> float:
    b = row[0]
    return float(np.abs(b.moment(np.concatenate([b.breaks(), b.peaks()]))).max())


def couples(f: Frame, ride: Ride, share: float) -> list[Couple]:
    """What a stop of `share` of gravity turns the frame by, mass by mass, at the riser and at the brackets."""
    deck, model = float(ride.deck.values[0]), f.model
    neck, main = _axis(f, deck, ahead=True), _axis(f, deck, ahead=False)
    index = next(i for i, s in enumerate(model.states) if s.id == DESIGN)
    rows = [(i, i.mass * i.aboard[index] * G * share) for i in model.items if i.mass * i.aboard[index] != 0.0]
    found: list[Couple] = []
    hung = carried = 0.0
    for i, push in rows:
        if i.unsprung:
            carried += push * (i.z + deck)
            continue
        level = neck if i.x < 0.0 else main
        hung += push * (neck - main) if i.x < 0.0 else 0.0
        carried += push * main
        parts = max(1, math.ceil((i.x1 - i.x0) / APART))
        found += [(i.x0 + (n + 0.5) * (i.x1 - i.x0) / parts, push * (i.z + deck - level) / parts) for n in range(parts)]
    found.append((0.0, hung))
    brackets = [(x, part) for s in f.road.bare.supports[1:] for x, part, _ in s.terms]
    whole = sum(part for _, part in brackets)
    return [*found, *((x, carried * part / whole) for x, part in brackets)]


def _axis(f: Frame, deck: float, ahead: bool) -> float:
    """Height of the middle of the neck rails or of the main rails above ground, m."""
    trailer = f.model.spec.trailer
    if ahead and trailer.neck is not None:
        return deck + trailer.neck.underside.nominal + trailer.neck.frame_depth.nominal / 2.0
    return deck + (trailer.frame.rail_underside.nominal - trailer.frame.deck_thickness.nominal) / 2.0


def _solved(f: Frame, loaded: Loads, runs: tuple[tuple[float, float], ...]) -> Bent | None:
    try:
        return solve(replace(f.road.bare.girder, runs=runs), f.road.bare.supports, [loaded])[0]
    except CalcError:
        return None
