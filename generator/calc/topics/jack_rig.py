"""A trailer on its axles and one jack station: the jack imposes the height, the axles answer with their springs.

Lengths in m, forces in N, rates in N/m. Rows of the arrays are axles, columns are trials.
"""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import Floats, Quantity, combine
from generator.records import dataclass

HALVINGS = 48
"""Steps of the bisection in pitch: from one radian to below 1e-14."""


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """The trailer held at one height: force on the jack and on each axle at the ground (N), pitch nose up (rad)."""

    jack: Floats
    axles: Floats
    pitch: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Rig:
    """Springs `rates` at `stations`, unsprung weights `hung` (N), sinking at level `sunk` (m), sprung weight (N) at
    `centre` (station, m) and `above` the spindles (m).
    """

    stations: Floats
    rates: Floats
    hung: Floats
    sunk: Floats
    weight: Floats
    centre: Floats
    above: Floats

    @property
    def nominal(self) -> "Rig":
        """The nominal trial alone."""
        return Rig(
            self.stations,
            self.rates[:, :1],
            self.hung[:, :1],
            self.sunk[:1],
            self.weight[:1],
            self.centre[:1],
            self.above[:1],
        )

    def held(self, station: float, rise: Floats) -> Held:
        """The trailer with the jack at `station` `rise` above its height when hitched level; a wheel may lift."""
        u, sunk = self.stations[:, None] - station, self.sunk - rise
        pitch = self._pitch(station, rise)
        force = self.rates * (sunk + u * pitch)
        lifting = (force < -self.hung).any(axis=0)
        if lifting.any():
            pitch = np.where(lifting, self._bisect(station, rise), pitch)
            force = np.maximum(-self.hung, self.rates * (sunk + u * pitch))
        return Held(self.weight - force.sum(axis=0), force + self.hung, pitch)

    def rise_for(self, station: float, hitch: Floats | float, rise: Floats) -> Floats:
        """Rise at the jack (m) that lifts a point at station `hitch` by `rise` (m), all wheels down."""
        start, slope = self._line(station)
        ahead = station - hitch
        return (rise - start * ahead) / (1.0 + slope * ahead)

    def rise_to_pitch(self, station: float, pitch: Floats) -> Floats:
        """Rise at the jack (m) at which the frame stands nose up by `pitch` (rad) against the ground."""
        start, slope = self._line(station)
        return (pitch - start) / slope

    def _line(self, station: float) -> tuple[Floats, Floats]:
        """Pitch at rise 0, and pitch per metre of rise, with all wheels down (linear)."""
        u = self.stations[:, None] - station
        first, second = (self.rates * u).sum(axis=0), (self.rates * u**2).sum(axis=0) - self.weight * self.above
        return (self.weight * (self.centre - station) - self.sunk * first) / second, first / second

    def _pitch(self, station: float, rise: Floats) -> Floats:
        start, slope = self._line(station)
        return start + slope * rise

    def _bisect(self, station: float, rise: Floats) -> Floats:
        """Pitch (rad) at which the moments about the jack vanish when springs pull no more than the unsprung weight."""
        u = self.stations[:, None] - station
        low, high = np.full(np.shape(self.sunk + rise), -0.5), np.full(np.shape(self.sunk + rise), 0.5)
        for _ in range(HALVINGS):
            pitch = (low + high) / 2
            force = np.maximum(-self.hung, self.rates * (self.sunk - rise + u * pitch))
            short = (force * u).sum(axis=0) < self.weight * (self.centre - station + self.above * pitch)
            low, high = np.where(short, pitch, low), np.where(short, high, pitch)
        middle: Floats = (low + high) / 2
        return middle


def rig(
    stations: Sequence[float],
    rates: Sequence[Quantity],
    unsprung: Sequence[Quantity],
    sunk: Quantity,
    mass: Quantity,
    centre: Quantity,
    above: Quantity,
    gravity: float,
) -> Rig:
    """A rig from quantities: rates N/m, unsprung and sprung mass kg, the rest m."""
    rows = np.array(np.broadcast_arrays(*(q.values for q in (*rates, *unsprung, sunk, mass, centre, above))))
    n = len(rates)
    return Rig(
        np.array(stations),
        rows[:n],
        rows[n : 2 * n] * gravity,
        rows[2 * n],
        rows[2 * n + 1] * gravity,
        rows[2 * n + 2],
        rows[2 * n + 3],
    )


def as_mass(symbol: str, force: Floats, gravity: float, given: Sequence[Quantity]) -> Quantity:
    """A force (N) as scales read it (kg), resting on `given`."""
    return combine(symbol, np.atleast_1d(force / gravity), "kg", given)
