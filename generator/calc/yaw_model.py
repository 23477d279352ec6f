"""Linear model of a tow vehicle with one trailer in yaw: four states, one wheel an axle, steering held straight.

States: lateral speed of the tow vehicle's centre of mass, its yaw rate, rate and angle of the trailer's yaw against it.
Source: equations of plane motion of two rigid bodies joined at the ball, linear tyres; any text on vehicle dynamics.
Level road, no driver, no roll, no sway control. SI; arrays hold one value per trial.
"""

import numpy as np
from numpy.typing import NDArray

from generator.calc.record import Floats
from generator.records import dataclass

STEPS, PASSES = 16, 4
"""Steps of the search for the first loss of damping, and how often the step found is cut again."""


@dataclass(frozen=True, slots=True, eq=False)
class Combination:
    """Tow vehicle (1) and trailer (2). Every array has one value per trial; the trailer's axles stand along axis 0.

    m1, i1: mass kg, yaw inertia kg m2. a, b: front and rear axle ahead of and behind its centre of mass, h: ball behind
    it, m. c1, c2: cornering stiffness of front and rear axle, N/rad. m2, i2: of the trailer; d: its centre of mass
    behind the ball; arms, c: each axle behind the ball (m) and its cornering stiffness (N/rad).
    """

    m1: Floats
    i1: Floats
    a: Floats
    b: Floats
    h: Floats
    c1: Floats
    c2: Floats
    m2: Floats
    i2: Floats
    d: Floats
    arms: Floats
    c: Floats


def state_matrices(of: Combination, speed: Floats) -> tuple[Floats, Floats]:
    """Mass and force matrices (trials, 4, 4) of M x' = K x at a speed (m/s)."""
    h, d, m2, u = of.h, of.d, of.m2, speed
    s0, s1, s2 = of.c.sum(axis=0), (of.c * of.arms).sum(axis=0), (of.c * of.arms**2).sum(axis=0)
    turn = of.c1 * of.a - of.c2 * of.b - s0 * h
    zero = np.zeros(np.broadcast_shapes(*(np.shape(x) for x in (of.m1, h, d, m2, s0, u, of.c1))))
    one = zero + 1.0
    mass = (
        (of.m1 + m2, -m2 * (h + d), -m2 * d, zero),
        (-m2 * h, of.i1 + m2 * h * (h + d), m2 * h * d, zero),
        (-m2 * d, of.i2 + m2 * d * (h + d), of.i2 + m2 * d**2, zero),
        (zero, zero, zero, one),
    )
    yaw = of.c1 * of.a**2 + of.c2 * of.b**2 + s0 * h**2 + s1 * h - m2 * h * u**2
    force = (
        (of.c1 + of.c2 + s0, turn - s1 + (of.m1 + m2) * u**2, -s1, -s0 * u),
        (turn, yaw, s1 * h, s0 * h * u),
        (-s1, s1 * h + s2 - m2 * d * u**2, s2, s1 * u),
        (zero, zero, -u * one, zero),
    )
    return _stacked(mass, zero), _stacked(force, zero) / -np.expand_dims(zero + u, (-1, -2))


def _stacked(rows: tuple[tuple[Floats, ...], ...], zero: Floats) -> Floats:
    return np.moveaxis(np.array([[zero + x for x in row] for row in rows]), (0, 1), (-2, -1))


def roots(of: Combination, speed: Floats) -> NDArray[np.complex128]:
    """The four roots (1/s) of each trial at a speed (m/s); NaN where the model has no finite numbers."""
    mass, force = state_matrices(of, speed)
    out = np.full((*mass.shape[:-2], 4), np.nan, dtype=np.complex128)
    good = np.flatnonzero(_finite(mass) & _finite(force))
    flat_mass, flat_force, flat_out = mass.reshape(-1, 4, 4), force.reshape(-1, 4, 4), out.reshape(-1, 4)
    good = good[np.linalg.det(flat_mass[good]) > 0.0]
    matrix = np.linalg.solve(flat_mass[good], flat_force[good])
    sound = _finite(matrix)
    flat_out[good[sound]] = np.linalg.eigvals(matrix[sound])
    return out


def _finite(matrices: Floats) -> NDArray[np.bool_]:
    return np.asarray(np.isfinite(matrices).all(axis=(-1, -2)))


def damping(of: Combination, speed: Floats) -> Floats:
    """Least damping ratio of the four roots of each trial; 1 where none swings, negative where motion grows."""
    found = roots(of, np.atleast_1d(speed))
    least: Floats = np.min(-found.real / np.abs(found), axis=-1)
    return least


def critical_speed(of: Combination, low: float, high: float) -> Floats:
    """Lowest speed between `low` and `high` (m/s) from which damping is gone; `high` where it is never gone.

    Each pass cuts the range into even steps and keeps the first in which the sign changes.
    """
    like = sum(np.zeros_like(getattr(of, name)) for name in ("m1", "i1", "a", "h", "c1", "c2", "m2", "i2", "d"))
    bottom, top = like + low, like + high
    for _ in range(PASSES):
        grid = bottom + (top - bottom) * np.linspace(0.0, 1.0, STEPS + 1)[:, None]
        zeta = damping(of, grid)
        gone = zeta <= 0.0
        first = np.where(gone.any(axis=0), np.argmax(gone, axis=0), STEPS)
        bottom, top = (np.take_along_axis(grid, n[None], 0)[0] for n in (np.maximum(first - 1, 0), first))
    return np.where(np.isnan(zeta).any(axis=0), np.nan, top)
