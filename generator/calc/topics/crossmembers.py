"""Crossmembers and outriggers: floor between and outside the rails, walls at the outrigger tips. N, N m, m.

One crossmember at a time, on both rails, with what lies within half the distance to its neighbours. Walls and roof
stand at the outrigger tips; what lies lower lies on the floor, even across it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Compared,
    Findings,
    Floats,
    Missing,
    Quantity,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics.frame_beam import POINT, Rail
from generator.calc.topics.frame_braces import FLUSH, middle
from generator.calc.topics.frame_steel import section_levers, steel_of
from generator.calc.topics.frame_strength import DEMAND
from generator.calc.topics.strength import Steel, moment_allowed
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference


@formula("Moment over the rail", "M_s = -(P_w*a + w_a*a**2/2)", "N*m", "cantilever outside the rail; negative hogs")
def OVER_RAIL(P_w: Floats, a: Floats, w_a: Floats) -> Floats:
    """Moment N m from the wall N at the tip, the overhang m and the floor N/m on it."""
    return -(P_w * a + w_a * a**2 / 2)


@formula("Moment midway between the rails", "M_m = M_s + w_b*b**2/8", "N*m", "simple span with moments at its ends")
def MIDWAY(M_s: Floats, w_b: Floats, b: Floats) -> Floats:
    """Moment N m from the one over the rails, the floor N/m and the rails' distance m."""
    return M_s + w_b * b**2 / 8


@formula("Force on one rail", "R = w_b*b/2 + w_a*a + P_w", "N", "statics")
def ON_RAIL(w_b: Floats, b: Floats, w_a: Floats, a: Floats, P_w: Floats) -> Floats:
    """Force N of one crossmember with its outrigger."""
    return w_b * b / 2 + w_a * a + P_w


@formula("Greater moment of the crossmember", "M = max(max(M_s, -M_s), max(M_m, -M_m))", "N*m", "either sense")
def GREATER(M_s: Floats, M_m: Floats) -> Floats:
    """Moment N m without its sense."""
    return np.maximum(np.abs(M_s), np.abs(M_m))


@formula("Moment of the outrigger", "M = max(M_s, -M_s)", "N*m", "without its sense")
def OUTRIGGER(M_s: Floats) -> Floats:
    """Moment N m without its sense."""
    return np.maximum(M_s, -M_s)


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """One crossmember with its outriggers: stretches of deck it carries (m), floor and wall loads there (N), steel.

    `outrigger` and `grade_out` are what resists the moment over the rail; `marks` of crossmember and outrigger.
    """

    marks: tuple[str, str]
    title: str
    station: float
    section: str
    grade: str
    outrigger: str
    grade_out: str
    inside: float
    floor_inside: float
    overhang: float
    outside: float
    floor_outside: float
    walls: float

    def worst(self, is_out: bool) -> tuple[str, str]:
        """Mark of crossmember or outrigger, and what of this member is looked at."""
        crossmember, outrigger = self.marks
        if is_out:
            return outrigger, f"its outrigger {outrigger}, {self.outrigger}, is worked out"
        return crossmember, f"the crossmember itself, {self.section}, is worked out"


@dataclass(frozen=True, slots=True)
class Kind:
    """A case of the crossmembers: check id, load state, row of its load factor, whether floor live load is added."""

    id: str
    words: str
    state: str
    factor: str
    is_live: bool


KINDS = (Kind("travel", "on the road", "travel", "frame.factor_towing", False),
         Kind("parked", "parked, empty with floor live load", "parked_light", "frame.factor_parked", True))


def crossmembers(model: Model, rails: Sequence[Rail], base: float, masses: Mapping[str, Quantity], trials: Trials,
                 data: Reference) -> Findings:
    """Each case: the crossmember or outrigger worst off, and the greatest force one brings to a rail.

    `masses` (kg) of the states, for the trials.
    """
    checks, quantities = [], []
    for kind in KINDS:
        outcome, force, mark = _worst(tuple(members(model, rails, base, kind.state, data)), kind,
                                masses.get(kind.state), base, model, trials, data)
        about = replace(_about(kind), levers=section_levers(mark))
        checks.append(Check(f"frame.crossmembers.{kind.id}", about, kind.state, outcome))
        if force is not None:
            on_rail, member = force
            title = f"Greatest force of a crossmember on one rail, {kind.words}, static: {member.marks[0]}"
            quantities.append(report(f"frame.crossmembers.{kind.id}", title, on_rail))
            quantities.append(report(f"frame.crossmembers.{kind.id}.station", f"Station of that {member.marks[0]}",
                                     sure("x", member.station, "m")))
    return Findings(quantities=tuple(quantities), checks=tuple(checks))


def unassessed(kind: Kind, why: Missing) -> Check:
    """The check of a case that could not be worked."""
    return Check(f"frame.crossmembers.{kind.id}", _about(kind), kind.state, why)


def members(model: Model, rails: Sequence[Rail], base: float, state: str, data: Reference) -> Iterator[Member]:
    """Every crossmember of the main deck between the rails, with its outriggers and what lies on it."""
    main = [r for r in rails if r.rear > base]
    if not main:
        return
    of_main = [p for p in model.pieces if p.mark in {r.mark for r in main}]
    front, rear, top = min(p.x0 for p in of_main), max(p.x1 for p in of_main), max(p.z1 for p in of_main)
    level = [p for p in model.pieces if p.run == "crosswise" and abs(p.z1 - top) <= data.defaults[FLUSH].value
             and front - base / 4 <= middle(p) <= rear + base / 4]
    between = {round(middle(p), 3): p for p in level if p.y0 < 0.0 < p.y1 and p.y1 >= base / 2 - base / 8}
    arms = {round(middle(p), 3): p for p in level if p.y1 >= base / 2 + base / 16}
    if not between:
        return
    spans, reaches = _shares(sorted(between), front, rear), _shares(sorted(arms), front, rear)
    floor, walls = _loads(model, state, base, data)
    stations = sorted(between)
    reach = [reaches[x] if x in arms else (x, x) for x in stations]
    inside, outside, above = (_within(rows, np.array(at)) for rows, at in (
        (floor, [spans[x] for x in stations]), (floor, reach), (walls, reach)))
    for n, x in enumerate(stations):
        p, held = between[x], arms.get(x, between[x])
        yield Member((p.mark, held.mark), p.title, x, p.section, p.grade, held.section, held.grade,
                     spans[x][1] - spans[x][0], float(inside[n]), held.y1 - base / 2 if x in arms else 0.0,
                     reach[n][1] - reach[n][0], float(outside[n]), float(above[n]))


def _shares(stations: Sequence[float], front: float, rear: float) -> dict[float, tuple[float, float]]:
    """For each member the stretch from half way to its neighbour ahead to half way to the one behind, m."""
    ends = [min([front, *stations]), *((a + b) / 2 for a, b in pairwise(stations)), max([rear, *stations])]
    return {x: (ends[n], ends[n + 1]) for n, x in enumerate(stations)}


Rows = tuple[Floats, Floats, Floats]


def _loads(model: Model, state: str, base: float, data: Reference) -> tuple[Rows, Rows]:
    """What lies on the floor, and what stands on the walls: front and rear m, N. The frame itself is left out."""
    index = next(n for n, s in enumerate(model.states) if s.id == state)
    high = data.defaults["frame.wall_height"].value
    rows = [(i.x0, i.x1, i.mass * i.aboard[index] * G, float(abs(i.y) > base / 2 or i.z > high))
            for i in model.items if not i.unsprung and i.group not in ("frame", "running gear") and i.x1 > 0.0]
    x0, x1, force, up = np.array(rows, dtype=np.float64).reshape(-1, 4).T
    low = up == 0.0
    return (x0[low], x1[low], force[low]), (x0[~low], x1[~low], force[~low])


def _within(rows: Rows, between: Floats) -> Floats:
    """Load between each pair of stations (n, 2), N."""
    x0, x1, force = rows
    a, b = between[:, :1], between[:, 1:]
    long, at = x1 - x0 >= POINT, (x0 + x1) / 2
    share = np.clip(np.minimum(x1, b) - np.maximum(x0, a), 0.0, None) / np.where(long, x1 - x0, 1.0)
    on = np.where(long, share, (at >= a) & (at < b))
    out: Floats = np.where(force == 0.0, 0.0, on * force).sum(axis=1)
    return out


def _worst(found: Sequence[Member], kind: Kind, mass: Quantity | None, base: float, model: Model, trials: Trials,
           data: Reference) -> tuple[Compared | Missing, tuple[Quantity, Member] | None, tuple[str, ...]]:
    """The check of the member with the highest use and its mark; the greatest force on a rail (N), and whose it is."""
    if not found:
        return Missing(("trailer.yaml frame.members: crossmembers between the rails",)), None, ()
    live = trials.assumed("q_l", data.defaults["stand.live"]) if kind.is_live else sure("q_l", 0.0, "N/m2")
    width = model.spec.trailer.frame.width.nominal
    # All members at once: one value each where a trial would stand.
    over, mid, force = _moments(Working(), found, None, base, width, live)
    ends = np.abs(over.values)
    middles = np.maximum(ends, np.abs(mid.values))
    steels: dict[tuple[str, str], Steel] = {}
    for key in sorted({k for m in found for k in ((m.outrigger, m.grade_out), (m.section, m.grade))}):
        steel = steel_of(*key, trials, data)
        if isinstance(steel, str):
            return Missing((steel,)), None, ()
        steels[key] = steel
    if not np.isfinite(middles).all():
        return Missing(_unknown(mass)), None, ()
    parts = [(float(ends[n]), (m.outrigger, m.grade_out), m.overhang, True, n) for n, m in enumerate(found)]
    parts += [(float(middles[n]), (m.section, m.grade), base, False, n) for n, m in enumerate(found)]
    allowed = {(key, free): float(moment_allowed(Working(), steels[key], sure("L_b", free, "m")).values[0])
               for key, free in sorted({(key, free) for _, key, free, _, _ in parts})}
    _, key, free, is_out, n = max(parts, key=lambda part: part[0] / allowed[part[1], part[2]])
    w, (mark, words) = Working(), found[n].worst(is_out)
    over, mid, _ = _moments(w, found[n : n + 1], mass, base, width, live, words)
    moment = w(OUTRIGGER, M_s=over) if is_out else w(GREATER, M_s=over, M_m=mid)
    asked = w(DEMAND, phi=trials.assumed("phi", data.defaults[kind.factor]), M=moment)
    heaviest = found[int(force.values.argmax())]
    on_rail = _moments(Working(), [heaviest], mass, base, width, live)[2]
    length = sure("L_b", free, "m", origin=f"{mark}: its whole overhang" if is_out else f"{mark}: rail to rail")
    return compare(asked, moment_allowed(w, steels[key], length), "<=", w), (on_rail, heaviest), (mark,)


def _unknown(mass: Quantity | None) -> tuple[str, ...]:
    rests_on = frozenset() if mass is None else mass.rests_on
    names = sorted(r.removeprefix("unknown:") for r in rests_on if r.startswith("unknown:"))
    return tuple(names) or ("a mass, a width or a station of the house is unknown",)


def _moments(w: Working, of: Sequence[Member], mass: Quantity | None, base: float, width: float, live: Quantity,
             words: str = "") -> tuple[Quantity, Quantity, Quantity]:
    """Moment over the rail, midway, and force on one rail, static: of many members nominal, or of one with trials."""
    grown = np.ones(1) if mass is None else mass.values / mass.values[0]
    rests = [] if mass is None else [mass]

    def each(symbol: str, name: str, unit: str) -> Quantity:
        return Quantity(symbol, np.array([getattr(m, name) for m in of]), unit)

    def line(symbol: str, part: str) -> Quantity:
        floor, stretch = (each(symbol, name, "1").values for name in (f"floor_{part}", part))
        return combine(symbol, floor / width * grown + live.values * stretch, "N/m", [*rests, live])

    w.procedure("Crossmember looked at", f"{of[0].marks[0]}, {of[0].title}, at station x, {words}; it carries "
                "what lies within half the distance to its neighbours; what stands outside the rails or hangs high "
                "stands on the walls, at the outrigger tips",
                "tributary widths", each("x", "station", "m"), ())
    b, a = sure("b", base, "m"), each("a", "overhang", "m")
    inside, outside = line("w_b", "inside"), line("w_a", "outside")
    wall = combine("P_w", each("P_w", "walls", "N").values / 2 * grown, "N", rests)
    over = w(OVER_RAIL, P_w=wall, a=a, w_a=outside)
    on_rail = Working()(ON_RAIL, w_b=inside, b=b, w_a=outside, a=a, P_w=wall)
    return over, w(MIDWAY, M_s=over, w_b=inside, b=b), on_rail


def _about(kind: Kind) -> About:
    return About(
        title=f"Crossmembers and outriggers {kind.words}", topic="frame",
        source="beam on two rails, AISC 360 (ASD) from memory",
        concern="A floor that gives: tiles crack, walls drop at the outriggers, doors bind.",
        ask="The fabricator's engineer: section and spacing of crossmembers, their welds to the rails.",
        defer_to="a licensed engineer; the fabricator's own design")
