"""What hangs lowest under the trailer, and what stands highest: every candidate, and the one that governs."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from generator.calc.record import Floats, Quantity, Step, Working, formula, sure
from generator.calc.topics import rides as rd
from generator.calc.topics.heights import Point, point_height, roof_points, roofed
from generator.calc.topics.levelling import PIPE
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.trials import Trials
from generator.model.types import Model, Piece
from generator.spec.models.house import Drain
from generator.spec.models.trailer import Jack


@formula(
    "Point of the underside above ground",
    "z = z_d + e - (x - x_h)*theta + zeta",
    "m",
    "frame line through the ball, pitched by the ball's height error",
)
def LOW_HEIGHT(z_d: Floats, e: Floats, x: Floats, x_h: Floats, theta: Floats, zeta: Floats) -> Floats:
    return z_d + e - (x - x_h) * theta + zeta


@formula("Foot of the jack from the main-deck top", "zeta = clear - z_d", "m", "retracted, trailer level at travel load")
def FOOT(clear: Floats, z_d: Floats) -> Floats:
    return clear - z_d


@formula("Outlet of the drain from the main-deck top", "zeta = z_s - i_0*l", "m", "fall along the pipe")
def DRAIN_END(z_s: Floats, i_0: Floats, l: Floats) -> Floats:
    return z_s - i_0 * l


@dataclass(frozen=True, slots=True, eq=False)
class Low:
    """A point under the trailer: name, station, height from the main-deck top (m), and whether it is made to touch."""

    title: str
    x: Quantity
    zeta: Quantity
    wears: bool = False
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Lowest:
    """A point in the towed state and with the ball error in which it governs: height above ground (m), working."""

    low: Low
    ride: Ride
    height: Quantity
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Underside:
    """All low points with their nominal stations (m), and nominal heights above ground, one row per case (m)."""

    lows: tuple[Low, ...]
    x: Floats
    z: Floats
    cases: tuple[tuple[Ride, int], ...]
    x_h: Quantity

    def least(self, worth: Callable[[Floats, Floats], Floats], wanted: Floats) -> Lowest | None:
        """The wanted point, state and ball error with the least `worth(x, z)` at nominal; what nobody knows governs."""
        places = np.flatnonzero(wanted)
        if not places.size:
            return None
        values = np.nan_to_num(worth(self.x[places], self.z[:, places]), nan=-np.inf)
        case, place = np.unravel_index(int(np.argmin(values)), values.shape)
        low, (ride, side) = self.lows[places[place]], self.cases[case]
        w = Working([*ride.steps, *low.steps])
        height = w(
            LOW_HEIGHT,
            z_d=ride.deck,
            e=ride.errors[side],
            x=low.x,
            x_h=self.x_h,
            theta=ride.pitches[side],
            zeta=low.zeta,
        )
        return Lowest(low, ride, height, tuple(w.steps))


@dataclass(frozen=True, slots=True, eq=False)
class Highest:
    """The roof point that governs on the road: its height above ground with the ball off its height (m)."""

    point: Point
    ride: Ride
    height: Quantity
    steps: tuple[Step, ...]


def underside(model: Model, rides: Mapping[str, Ride], trials: Trials) -> Underside:
    """Every low point of frame, jacks, drains and stated fittings in every towed state, ball high and low."""
    lows = (*_frame(model.pieces), *_stated(model, trials), *_feet(model, rides, trials), *_drains(model, trials))
    cases = tuple((ride, side) for ride in rides.values() for side in (0, 1))
    x, zeta = (np.array([float(getattr(p, name).values[0]) for p in lows]) for name in ("x", "zeta"))
    x_h = rd.hitch_station(model, trials)
    z_d, e, theta = (
        np.array([[_nominal(q)] for q in column])
        for column in (
            [ride.deck for ride, _ in cases],
            [ride.errors[side] for ride, side in cases],
            [ride.pitches[side] for ride, side in cases],
        )
    )
    z = LOW_HEIGHT.of(z_d=z_d, e=e, x=x, x_h=x_h.values[0], theta=theta, zeta=zeta)
    return Underside(lows, x, z, cases, x_h)


def highest(
    model: Model, rides: Mapping[str, Ride], trials: Trials, above: Callable[[float, float], float] | None = None
) -> Highest:
    """The roof point, roofed towed state and ball error of the greatest nominal height, or of `above(x, z)`."""
    x_h, points = rd.hitch_station(model, trials), roof_points(model, trials)

    def rank(case: tuple[Point, Ride, bool]) -> float:
        point, ride, high = case
        z = _nominal(point_height(Working(), *_still(ride, point), _cut(x_h), high))
        value = z if above is None else above(_nominal(point.station), z)
        return float(np.nan_to_num(value, nan=np.inf))

    cases = [(p, rides[s], high) for s in roofed(model) for p in points for high in (True, False)]
    point, ride, high = max(cases, key=rank)
    w = Working(list(ride.steps))
    height = point_height(w, ride, point, x_h, high)
    return Highest(point, ride, height, tuple(w.steps))
