"""What hangs lowest under the trailer, and what stands highest: every candidate, and the one that governs."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Floats, Quantity, Step, Working, formula, sure
from generator.calc.topics import rides as rd
from generator.calc.topics.heights import Point, point_height, roof_points, roofed
from generator.calc.topics.levelling import PIPE
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.trials import Trials
from generator.model.types import Model, Piece
from generator.records import dataclass

STRIDE = 0.25
"""Longest step (m) between the points at which a long member is looked at. The project's own choice."""


@formula(
    "Point of the underside above ground",
    "z = z_d + e - (x - x_h)*theta + zeta",
    "m",
    "frame line through the ball, pitched by the ball's height error",
)
def LOW_HEIGHT(z_d: Floats, e: Floats, x: Floats, x_h: Floats, theta: Floats, zeta: Floats) -> Floats:
    return z_d + e - (x - x_h) * theta + zeta


@formula("Foot of the jack from the main-deck top", "zeta = clear - z_0", "m",
         "retracted, level; z_0 is the deck above ground with the travel load")
def FOOT(clear: Floats, z_0: Floats) -> Floats:
    return clear - z_0


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
    """Lower edges of the steel and other low points: nominal stations (m), nominal heights above ground, one row per
    case (m). Steel comes first; mirrored pieces count once.
    """

    corners: tuple[tuple[float, Piece], ...]
    others: tuple[Low, ...]
    x: Floats
    z: Floats
    cases: tuple[tuple[Ride, int], ...]
    x_h: Quantity

    @property
    def wears(self) -> NDArray[np.bool_]:
        """Which points are made to touch the ground."""
        return np.array([*(False for _ in self.corners), *(p.wears for p in self.others)], dtype=bool)

    def least(self, worth: Callable[[Floats, Floats], Floats], wanted: NDArray[np.bool_]) -> Lowest | None:
        """The wanted point, state and ball error with the least `worth(x, z)` at nominal; what nobody knows governs."""
        places = np.flatnonzero(wanted)
        if not places.size:
            return None
        values = np.nan_to_num(worth(self.x[places], self.z[:, places]), nan=-np.inf)
        case, place = np.unravel_index(int(np.argmin(values)), values.shape)
        low, (ride, side) = self._low(int(places[place])), self.cases[case]
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

    def _low(self, place: int) -> Low:
        if place >= len(self.corners):
            return self.others[place - len(self.corners)]
        x, p = self.corners[place]
        gap = [f"unknown:trailer.yaml frame.members.{p.mark}"] if np.isnan(x + p.z0) else []
        return Low(
            f"{p.title} ({p.mark})", sure("x", x, "m", rests_on=gap), sure("zeta", p.z0, "m", rests_on=gap)
        )


@dataclass(frozen=True, slots=True, eq=False)
class Highest:
    """The roof point that governs on the road: its height above ground with the ball off its height (m)."""

    point: Point
    ride: Ride
    height: Quantity
    steps: tuple[Step, ...]


def underside(model: Model, rides: Mapping[str, Ride], trials: Trials) -> Underside:
    """Every low point of frame, jacks, drains and stated fittings in every towed state, ball high and low."""
    corners = tuple((x, p) for (_, x, _), p in {(p.mark, x, p.z0): p for p in model.pieces for x in _along(p)}.items())
    others = (*_stated(model, trials), *_feet(model, rides, trials), *_drains(model, trials))
    cases = tuple((ride, side) for ride in rides.values() for side in (0, 1))
    x_h = rd.hitch_station(model, trials)
    x = np.array([*(x for x, _ in corners), *_nominals(p.x for p in others)])
    zeta = np.array([*(p.z0 for _, p in corners), *_nominals(p.zeta for p in others)])
    return Underside(corners, others, x, _grid(x, zeta, cases, x_h), cases, x_h)


def highest(model: Model, rides: Mapping[str, Ride], trials: Trials, rise: Callable[[Floats], Floats]) -> Highest:
    """The roof point, roofed towed state and ball error that stand highest at nominal once `rise(x)` is added (m)."""
    x_h, points = rd.hitch_station(model, trials), roof_points(model, trials)
    cases = tuple((rides[s], side) for s in roofed(model) for side in (0, 1))
    x = _nominals(p.station for p in points)
    z = _grid(x, _nominals(p.zeta for p in points), cases, x_h) + rise(x)
    case, place = np.unravel_index(int(np.argmax(np.nan_to_num(z, nan=np.inf))), z.shape)
    (ride, side), point = cases[case], points[place]
    w = Working(list(ride.steps))
    return Highest(point, ride, point_height(w, ride, point, x_h, side == 0), tuple(w.steps))


def _along(p: Piece) -> tuple[float, ...]:
    """Stations of both ends of a piece, and between them as often as its length asks for (m)."""
    if p.run != "lengthwise" or not np.isfinite(p.x1 - p.x0):
        return p.x0, p.x1
    return tuple(np.linspace(p.x0, p.x1, int(np.ceil((p.x1 - p.x0) / STRIDE)) + 1).tolist())


def _nominals(quantities: Iterable[Quantity]) -> Floats:
    return np.array([float(q.values[0]) for q in quantities])


def _grid(x: Floats, zeta: Floats, cases: Sequence[tuple[Ride, int]], x_h: Quantity) -> Floats:
    """Nominal heights above ground of points (along) in cases (down), m."""
    z_d, e, theta = (
        _nominals(column)[:, np.newaxis]
        for column in (
            [ride.deck for ride, _ in cases],
            [ride.errors[side] for ride, side in cases],
            [ride.pitches[side] for ride, side in cases],
        )
    )
    return LOW_HEIGHT.of(z_d=z_d, e=e, x=x, x_h=x_h.values[0], theta=theta, zeta=zeta)


def _stated(model: Model, trials: Trials) -> Iterator[Low]:
    for point in model.spec.trailer.low_points:
        at = f"trailer.yaml low_points.{point.id}"
        yield Low(
            point.title,
            trials.given("x", point.station, "m", path=f"{at}.station"),
            trials.given("zeta", point.height, "m", path=f"{at}.height"),
            point.wears == "yes",
        )


def _feet(model: Model, rides: Mapping[str, Ride], trials: Trials) -> Iterator[Low]:
    for jack in model.spec.trailer.jacks:
        w, at = Working(), f"trailer.yaml jacks.{jack.id}"
        clear = trials.given("clear", jack.foot_clearance, "m", path=f"{at}.foot_clearance")
        zeta = w(FOOT, clear=clear, z_0=rides[DESIGN].deck)
        yield Low(f"{jack.title}, foot", trials.given("x", jack.station, "m", path=f"{at}.station"), zeta,
                  steps=tuple(w.steps))


def _drains(model: Model, trials: Trials) -> Iterator[Low]:
    for drain in model.spec.house.drains:
        w, at = Working(), f"house.yaml drains.{drain.id}"
        ends = {"x_2": "end", "x_1": "start", "y_2": "end_y", "y_1": "start_y"}
        length = w(
            PIPE, **{s: trials.given(s, getattr(drain, name), "m", path=f"{at}.{name}") for s, name in ends.items()}
        )
        zeta = w(
            DRAIN_END,
            z_s=trials.given("z_s", drain.height, "m", path=f"{at}.height"),
            i_0=trials.given("i_0", drain.fall, "%", path=f"{at}.fall"),
            l=length,
        )
        yield Low(f"{drain.title}, outlet", trials.given("x", drain.end, "m", path=f"{at}.end"), zeta,
                  steps=tuple(w.steps))
