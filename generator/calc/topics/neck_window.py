"""The window of neck heights: the intervals of bed rail, coupler and height limit, and what would open an empty one."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields, replace
from typing import Any, TypeVar

import numpy as np

from generator.calc.record import (
    Change,
    Floats,
    Quantity,
    Value,
    Window,
    Working,
    combine,
    formula,
    sure,
)
from generator.records import dataclass

Part = TypeVar("Part", "Under", "Over")

ROUNDS, STEPS = 5, np.arange(1, 1024) / 1024
"""Rounds of looking for the least change, each narrowing it to one of 1,024 parts; a round is one array run."""
"""Steps of a bisection: the interval falls below 1e-15 of the lever's range."""


NO_LIMIT = sure("z_3", float("inf"), "m")
"""A neck with no room on it meets no height limit before the coupler ends."""


@formula(
    "Least neck underside above the bed rails, trailer level",
    "z_1 = z_b + gap",
    "m",
    "published owner guides of tow vehicles",
)
def LOW_LEVEL(z_b: Floats, gap: Floats) -> Floats:
    return z_b + gap


@formula(
    "Least neck underside above the bed rails, pitched and rolled",
    "z_2 = z_b + kept + d*tan(phi) + w_r*tan(rho)",
    "m",
    "geometry of the neck turning about the ball, on the safe side",
)
def LOW_MOVING(z_b: Floats, kept: Floats, d: Floats, phi: Floats, w_r: Floats, rho: Floats) -> Floats:
    return z_b + kept + d * np.tan(phi) + w_r * np.tan(rho)


@formula(
    "Greatest neck underside under the height limit",
    "z_3 = z_lim - margin - rise - roof - room - floor - depth",
    "m",
    "height chain from the limit down",
)
def HIGH_LIMIT(
    z_lim: Floats, margin: Floats, rise: Floats, roof: Floats, room: Floats, floor: Floats, depth: Floats
) -> Floats:
    return z_lim - margin - rise - roof - room - floor - depth


@formula("Neck underside at an end of the coupler", "z_c = z_ball + c", "m", "coupler at the end of its travel")
def COUPLER_END(z_ball: Floats, c: Floats) -> Floats:
    return z_ball + c


@formula("Furthest rail under the neck", "d = max(d_f, d_a)", "m", "ball to the end of the rail ahead and behind")
def REACH(d_f: Floats, d_a: Floats) -> Floats:
    return np.maximum(d_f, d_a)


@dataclass(frozen=True, slots=True, eq=False)
class Under:
    """What the neck must clear, m and rad: rail, gaps, reach ahead and behind, half width, angles, ball, coupler."""

    rail: Quantity
    gap: Quantity
    kept: Quantity
    ahead: Quantity
    behind: Quantity
    pitch: Quantity
    half: Quantity
    roll: Quantity
    ball: Quantity
    shortest: Quantity
    longest: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Over:
    """What stands on the neck in one zone, from the height limit down, m."""

    zone: str
    title: str
    limit: Quantity
    margin: Quantity
    rise: Quantity
    roof: Quantity
    room: Quantity
    floor: Quantity
    depth: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Ends:
    """The intervals of the neck's underside above ground, m, with what each end is called."""

    level: Quantity
    moving: Quantity
    coupler_low: Quantity
    coupler_high: Quantity
    limit: Quantity
    low: Quantity
    high: Quantity
    closed_by_low: str
    closed_by_high: str


def ends(w: Working, under: Under, overs: tuple[Over, ...]) -> Ends:
    """All ends of the window, worked out from what is under and over the neck."""
    level = w(LOW_LEVEL, z_b=under.rail, gap=under.gap)
    reach = w(REACH, d_f=under.ahead, d_a=under.behind)
    moving = w(LOW_MOVING, z_b=under.rail, kept=under.kept, d=reach, phi=under.pitch, w_r=under.half, rho=under.roll)
    coupler = w(COUPLER_END, z_ball=under.ball, c=under.shortest), w(COUPLER_END, z_ball=under.ball, c=under.longest)
    limits = {
        o.title: w(
            HIGH_LIMIT,
            z_lim=o.limit,
            margin=o.margin,
            rise=o.rise,
            roof=o.roof,
            room=o.room,
            floor=o.floor,
            depth=o.depth,
        )
        for o in overs
    }
    limit = _pick("z_3", limits.values(), np.minimum) if limits else NO_LIMIT
    low, high = _pick("low", (level, moving, coupler[0]), np.maximum), _pick("high", (limit, coupler[1]), np.minimum)
    lows = {
        "the gap asked over the bed rails, trailer level": level,
        "the gap kept over the bed rails when the trailer pitches and rolls": moving,
        "the coupler, fully retracted": coupler[0],
    }
    highs = {
        **{f"the height limit over {title}": q for title, q in limits.items()},
        "the coupler, fully extended": coupler[1],
    }
    return Ends(level, moving, *coupler, limit, low, high, _closing(lows, max), _closing(highs, min))


def window(found: Ends, chosen: float, deck: float, step: float, changes: tuple[Change, ...]) -> Window:
    """The window as reported; the best height is its middle, held to the shop's step above the deck."""
    low, high = float(found.low.values[0]), float(found.high.values[0])
    middle = (low + high) / 2
    best = (
        deck + round((middle - deck) / step) * step if step > 0 and np.isfinite(middle - deck) and low <= high else None
    )
    return Window(
        "neck.window",
        "Underside of the neck above ground, travel load, level",
        low,
        high,
        chosen,
        best,
        "m",
        found.closed_by_low,
        found.closed_by_high,
        changes,
    )


def _pick(symbol: str, given: Iterable[Quantity], of: np.ufunc) -> Quantity:
    quantities = tuple(given)
    return combine(symbol, of.reduce(np.broadcast_arrays(*[q.values for q in quantities])), "m", quantities)


def _closing(named: Mapping[str, Quantity], pick: Callable[..., str]) -> str:
    unknown = sorted(
        {
            r.removeprefix("unknown:")
            for q in named.values()
            if not np.isfinite(q.values[0])
            for r in q.rests_on
            if r.startswith("unknown:")
        }
    )
    return f"not known: {', '.join(unknown)}" if unknown else pick(named, key=lambda name: float(named[name].values[0]))


# What opens an empty window: each input alone, by narrowing over the same formulas.

EVERY = "*"
"""Zone of a lever that moves all zones alike."""


@dataclass(frozen=True, slots=True)
class Lever:
    """One input that may be varied: id, title, unit, field of `Under` or (with a zone) `Over`, how far it can go."""

    id: str
    title: str
    unit: str
    field: str
    bound: float
    zone: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Inputs:
    """All that makes the window, one number each."""

    under: Under
    overs: tuple[Over, ...]

    @property
    def slack(self) -> float:
        """Upper end less lower end, m."""
        return float(self.slacks[0])

    @property
    def slacks(self) -> Floats:
        """Upper end less lower end, m, for each value of the lever that was put in."""
        found = ends(Working(), self.under, self.overs)
        return np.asarray(found.high.values - found.low.values, dtype=np.float64)

    def get(self, lever: Lever) -> float:
        """The lever's value now."""
        owner = self.under if not lever.zone else next(o for o in self.overs if lever.zone in (EVERY, o.zone))
        return float(getattr(owner, lever.field).values[0])

    def put(self, lever: Lever, value: float | Floats) -> "Inputs":
        """The same inputs with the lever at `value`, or at each of many."""
        if not lever.zone:
            return Inputs(_put(self.under, lever.field, value), self.overs)
        return Inputs(
            self.under, tuple(_put(o, lever.field, value) if lever.zone in (EVERY, o.zone) else o for o in self.overs)
        )


def opening_changes(under: Under, overs: tuple[Over, ...], levers: tuple[Lever, ...]) -> tuple[Change, ...]:
    """For each lever the least change that opens an empty window, least share of its range first."""
    inputs = Inputs(_alone(under), tuple(_alone(o) for o in overs))
    if not inputs.slack < 0.0:
        return ()
    found = [c for c in (_change(inputs, lever) for lever in levers) if c is not None]
    return tuple(change for _, change in sorted(found, key=lambda pair: (pair[0], pair[1].lever)))


def _change(inputs: Inputs, lever: Lever) -> tuple[float, Change] | None:
    now = inputs.get(lever)
    at_bound = inputs.put(lever, lever.bound).slack
    if not (np.isfinite(now) and now != lever.bound and at_bound > inputs.slack):
        return None
    if at_bound < 0.0:
        return 2.0, _as_change(lever, now, lever.bound, ("not enough alone",))
    shut, opened = now, lever.bound
    for _ in range(ROUNDS):
        tried = np.append(shut + (opened - shut) * STEPS, opened)
        first = int(np.argmax(inputs.put(lever, tried).slacks >= 0.0))
        shut, opened = (float(tried[first - 1]) if first else shut), float(tried[first])
    return abs(opened - now) / abs(lever.bound - now), _as_change(lever, now, opened, ())


def _as_change(lever: Lever, now: float, then: float, upsets: tuple[str, ...]) -> Change:
    return Change(
        lever.id, lever.title, Value(lever.field, now, lever.unit), Value(lever.field, then, lever.unit), upsets
    )


def _alone(part: Part) -> Part:
    nominal: dict[str, Any] = {
        f.name: _single(v) for f in fields(part) if isinstance(v := getattr(part, f.name), Quantity)
    }
    return replace(part, **nominal)


def _put(part: Part, field: str, value: float | Floats) -> Part:
    q: Quantity = getattr(part, field)
    values = np.atleast_1d(np.asarray(value, dtype=np.float64))
    changed: dict[str, Any] = {field: Quantity(q.symbol, values, q.unit, q.basis, q.rests_on)}
    return replace(part, **changed)


def _single(q: Quantity) -> Quantity:
    return Quantity(q.symbol, q.values[:1], q.unit, q.basis, q.rests_on, q.origin)
