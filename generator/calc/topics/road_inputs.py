"""What the topics of the moving trailer share: its towed states with heights, the tow vehicle, speeds and grades."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

import numpy as np

from generator.calc.record import Floats, Quantity, Step, Working, combine, formula
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.heights import roofed
from generator.calc.topics.optional import towing
from generator.calc.topics.rides import Ride
from generator.calc.trials import Trials
from generator.model.types import Model, State
from generator.records import dataclass
from generator.reference.types import Default, Reference
from generator.spec.measure import Measure

STATION = "trailer.running_gear.station"
MAKER = "The tow vehicle maker's ratings and manual, the axle and brake maker's instructions."


@formula("Centre of mass above ground", "z_g = z_d + zeta", "m", "height chain")
def MASS_HEIGHT(z_d: Floats, zeta: Floats) -> Floats:
    return z_d + zeta


@dataclass(frozen=True, slots=True, eq=False)
class Towed:
    """One towed state, trailer level. Stations, heights above ground and tracks in m, loads at the ground in kg.

    `height` is that of the centre of mass; `steps` lead to it and to the loads of ball and axles.
    """

    state: State
    roofed: bool
    mass: Quantity
    x: Quantity
    y: Quantity
    height: Quantity
    yaw_inertia: Quantity
    x_h: Quantity
    x_a: Quantity
    hitch: Quantity
    share: Quantity
    group: Quantity
    axles: tuple[Quantity, ...]
    tracks: tuple[Quantity, ...]
    deck: Quantity
    ball: Quantity
    rates: tuple[Quantity, ...]
    steps: tuple[Step, ...]
    still: "Towed | None" = None
    """The same without trials, by which the governing state is chosen."""

    @property
    def nominal(self) -> "Towed":
        """The same state without trials."""
        return self.still or self

    @property
    def track(self) -> Quantity:
        """The least track, m."""
        return combine("t", np.minimum.reduce(np.broadcast_arrays(*[t.values for t in self.tracks])), "m", self.tracks)

    def cut(self, count: int) -> "Towed":
        """The same state with its nominal values and the first `count` trials only."""
        held = {f.name: getattr(self, f.name) for f in fields(self)}
        return Towed(**{n: _cut(v, count) for n, v in held.items()})


def _cut(part: Any, count: int) -> Any:
    match part:
        case Quantity() as q if q.values.size > count + 1:
            return replace(q, values=q.values[: count + 1])
        case (Quantity(), *_):
            return tuple(_cut(q, count) for q in part)
        case _:
            return part


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """A quantity in one towed state, with its working."""

    towed: Towed
    value: Quantity
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Puller:
    """A tow vehicle, people and cargo aboard, no trailer: axle loads (kg), wheelbase, ball behind the axle (m)."""

    front: Quantity
    rear: Quantity
    cargo: Quantity
    wheelbase: Quantity
    behind: Quantity


def towed_states(model: Model, loads: Mapping[str, StateLoads], rides: Mapping[str, Ride]) -> tuple[Towed, ...]:
    """Every towed state with the height of its centre of mass (m)."""
    covered = roofed(model)
    # A width nobody knows spoils the yaw inertia alone, which must then name it.
    widths = frozenset(f"unknown:{i.origin or i.id}" for i in model.items if math.isnan(i.width))
    return tuple(_towed(x, rides[id], id in covered, widths) for id, x in loads.items())


def _towed(x: StateLoads, ride: Ride, covered: bool, widths: frozenset[str]) -> Towed:
    w, at = Working([*x.steps, *x.side_steps[:1]]), x.at
    height = w(MASS_HEIGHT, z_d=ride.deck, zeta=at.zeta)
    whole = Towed(
        state=x.state,
        roofed=covered,
        mass=x.mass,
        x=at.x,
        y=at.y,
        height=height,
        yaw_inertia=replace(at.yaw_inertia, rests_on=at.yaw_inertia.rests_on | widths),
        x_h=x.x_h,
        x_a=x.x_a,
        hitch=x.hitch,
        share=x.share,
        group=x.group,
        axles=x.axles,
        tracks=x.tracks,
        deck=ride.deck,
        ball=ride.ball,
        rates=ride.rates,
        steps=tuple(w.steps),
    )
    return replace(whole, still=whole.cut(0))


def extreme(states: Sequence[Towed], work: Callable[[Working, Towed], Quantity], least: bool = False) -> Found:
    """A quantity in the state where it is greatest (or least) at nominal; a state nobody can work out governs."""
    sign = -1.0 if least else 1.0

    def rank(t: Towed) -> float:
        return float(np.nan_to_num(sign * work(Working(), t.nominal).values[0], nan=np.inf))

    governing = max(states, key=rank)
    return Found(governing, *worked(governing, work))


def worked(t: Towed, work: Callable[[Working, Towed], Quantity]) -> tuple[Quantity, tuple[Step, ...]]:
    """A quantity in one state, with its working from the state's mass on."""
    w = Working(list(t.steps))
    return work(w, t), tuple(w.steps)


def puller(model: Model, trials: Trials) -> Puller:
    """The tow vehicle of tow.yaml; all unknown without it (kg, m)."""
    named = (
        ("front_axle", "F_0", "kg"),
        ("rear_axle", "R_0", "kg"),
        ("people_and_cargo", "C", "kg"),
        ("wheelbase", "wb", "m"),
        ("hitch_behind_rear_axle", "o", "m"),
    )
    return Puller(*(towing(model, trials, field, symbol, unit) for field, symbol, unit in named))


def stated(trials: Trials, value: Measure | None, symbol: str, default: Default, path: str) -> Quantity:
    """A value of the spec where it is written, even as `unknown`; else the default, which then stands in the register.

    SI, in the unit of the default.
    """
    if value is None:
        return trials.assumed(symbol, default)
    return trials.given(symbol, value, default.unit, path=path)


def of_vehicle(model: Model, trials: Trials, field: str, symbol: str, default: Default) -> Quantity:
    """A value of the tow vehicle that may be left out of tow.yaml, in the unit of the default."""
    tow = model.spec.tow
    value: Measure | None = None if tow is None else getattr(tow.vehicle, field)
    return stated(trials, value, symbol, default, f"tow.yaml vehicle.{field}")


def top_speed(model: Model, trials: Trials, data: Reference) -> Quantity:
    """Greatest speed at which the house is towed, m/s."""
    row = data.defaults["use.highway_speed"]
    return stated(trials, model.spec.project.use.top_speed, "V", row, "project.yaml use.top_speed")


def steepest(model: Model, trials: Trials, data: Reference) -> Quantity:
    """Steepest grade of the routes, rise over run."""
    use = model.spec.project.use
    row = data.defaults["grade.steepest_mountain" if "mountain" in use.roads else "grade.steepest"]
    return stated(trials, use.steepest_grade, "G", row, "project.yaml use.steepest_grade")
