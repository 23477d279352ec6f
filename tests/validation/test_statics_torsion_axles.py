"""Rigid frame on a ball and linear axle springs: the table of three trailers was solved in closed form, by PyNite
with an
imposed displacement of the ball and by anastruct with preload, all agreeing to 1e-4 (inch, pound-force).

Also: R. L. Gere, Mechanics of Materials, problem 2.7-8 (rigid bar on five springs; statement read, answers
recomputed), and a
uniform bar on springs k, 2k, 3k (statement read, forces 0.3, 0.4, 0.3 W recomputed).
"""

import numpy as np
import pytest

from generator.calc.record import Working, sure
from generator.calc.topics import attitude
from generator.calc.topics.suspension import G, pitch_about

CASES = [
    # W, x_g, axle stations, stiffness each, ball above level, axle loads, ball load
    (10_000, 211.2, (223, 257), (1500, 1500), 0.0, (4400, 4400), 1200.0),
    (10_000, 211.2, (223, 257), (1500, 1500), 3.0, (4060.38, 4694.69), 1244.93),
    (10_000, 211.2, (223, 257), (1500, 1500), -3.0, (4739.62, 4105.31), 1155.07),
    (15_000, 225.28, (222, 256, 290), (1500,) * 3, 0.0, (4400,) * 3, 1800.0),
    (15_000, 225.28, (222, 256, 290), (1500,) * 3, 3.0, (3756.99, 4347.70, 4938.41), 1956.91),
    (15_000, 225.28, (222, 256, 290), (1500,) * 3, -3.0, (5043.01, 4452.30, 3861.59), 1643.09),
]


def solved(W, x_g, stations, stiffness, e):
    """Axle loads and ball load by the product's formulas; forces in pounds through g, lengths in inches."""
    k = [sure("k_i", s, "N/m:spring") for s in stiffness]
    u = [sure("u_i", s, "m") for s in stations]
    K, S1 = sum(stiffness), sum(a * b for a, b in zip(stiffness, stations, strict=True))
    theta = pitch_about(Working(), sure("e", e, "m"), k, u, sure("Q", 0.0, "N*m")).values[0]
    group = W * x_g / (S1 / K)
    d_0 = attitude.SINK.of(group / G, K)
    loads = [G * attitude.PITCHED_AXLE.of(a, d_0, e, b, theta, 0.0) for a, b in zip(stiffness, stations, strict=True)]
    return loads, W - sum(loads), theta


@pytest.mark.parametrize(("W", "x_g", "stations", "stiffness", "e", "loads", "ball"), CASES)
def test_table(W, x_g, stations, stiffness, e, loads, ball):
    found, left, _ = solved(W, x_g, stations, stiffness, e)
    assert found == pytest.approx(loads, abs=0.006)
    assert left == pytest.approx(ball, abs=0.006)


@pytest.mark.parametrize(("case", "degrees"), [(CASES[1], 0.7126), (CASES[4], 0.6636)])
def test_pitch_of_the_table(case, degrees):
    assert np.degrees(solved(*case[:5])[2]) == pytest.approx(degrees, abs=5e-5)


@pytest.mark.parametrize(
    ("e", "loads", "ball"), [(0.0, (3947, 4793), 1260), (3.0, (3604, 5091), 1305), (-3.0, (4290, 4495), 1214.5)]
)
def test_unequal_springs(e, loads, ball):
    """Tandem of 1400 and 1700 lb/in, same weight and centre."""
    found, left, theta = solved(10_000, 211.2, (223, 257), (1400, 1700), e)
    assert found == pytest.approx(loads, abs=0.6)
    assert left == pytest.approx(ball, abs=0.6)
    if e:
        assert abs(np.degrees(theta)) == pytest.approx(0.7079, abs=5e-5)


def test_front_axle_lifted_off():
    """3 000 lb, ball 14 in high: front axle bare, 2 465 lb on the rear, 534.6 lb on the ball."""
    d_0 = 3000 * 211.2 / (1500 * (223 + 257)) - 14
    force = attitude.lifted(
        np.full((2, 1), 1500.0),
        np.array([[223.0], [257.0]]),
        np.zeros((2, 1)),
        np.array([d_0]),
        np.array([3000 / G]),
        np.array([211.2]),
        np.zeros(1),
        np.zeros(1),
    )[:, 0]
    assert force == pytest.approx([0.0, 2465.0], abs=0.5)
    assert 3000 - force.sum() == pytest.approx(534.6, abs=0.05)


@pytest.mark.parametrize(("low_seat", "more"), [(0.25, 503), (1.0, 2012)])
def test_seat_off_the_others(low_seat, more):
    """Triple of 3 000 lb/in an axle, middle seat 1/4 in low, or a 1 in hump under it: worked for the trade, printed
    to 1 lb."""
    S_2 = 3000 * (222**2 + 256**2 + 290**2)
    assert G * attitude.SEAT_LOAD.of(3000.0, low_seat, 256.0, S_2) == pytest.approx(more, abs=0.6)


def test_with_the_masses_above_the_ball():
    """The tandem with its centre 60 in above the ball, spindles level with the ball: 4 074.8, 4 711.3, ball 1 213.9
    lb;
    80 in: 1 203.5 lb (independent closed form)."""
    k, u = [sure("k_i", 1500.0, "N/m:spring")] * 2, [sure("u_i", 223.0, "m"), sure("u_i", 257.0, "m")]
    for above, loads, ball in ((60.0, (4074.8, 4711.3), 1213.9), (80.0, None, 1203.5)):
        Q = sure("Q", 10_000 * above - 8800.0 * 0.0, "N*m")
        theta = pitch_about(Working(), sure("e", 3.0, "m"), k, u, Q).values[0]
        d_0 = attitude.SINK.of(8800.0 / G, 3000.0)
        found = [G * attitude.PITCHED_AXLE.of(1500.0, d_0, 3.0, x, theta, 0.0) for x in (223.0, 257.0)]
        assert 10_000 - sum(found) == pytest.approx(ball, abs=0.06)
        if loads:
            assert found == pytest.approx(loads, abs=0.06)


def test_gere_2_7_8_rigid_bar_on_five_springs():
    """Springs 3k, 1.5k, k, 1.5k, 3k under 600 N, k 7.5 N/mm: 8.0 mm; 180, 90, 60 N."""
    k = np.array([3.0, 1.5, 1.0, 1.5, 3.0]) * 7500.0
    sink = attitude.SINK.of(600.0 / G, k.sum())
    assert sink == pytest.approx(0.008)
    assert k[:3] * sink == pytest.approx([180.0, 90.0, 60.0])


def test_uniform_bar_on_three_springs():
    """k, 2k, 3k at end, middle, end, uniform weight: 0.3, 0.4, 0.3 W. The bar pitches about its far end by the
    general solver."""
    k, u = np.array([[1.0], [2.0], [3.0]]) * 1e4, np.array([[0.0], [1.0], [2.0]])
    W = 1000.0
    # equilibrium of a free rigid bar: find the far-end sinking d at which the moment about the near end closes
    low, high = 0.0, 1.0
    for _ in range(60):
        d = (low + high) / 2
        force = attitude.lifted(
            k, u, np.full((3, 1), 1e9), np.array([d]), np.array([W / G]), np.array([1.0]), np.zeros(1), np.zeros(1)
        )
        low, high = (low, d) if force.sum() > W else (d, high)
    assert force[:, 0] / W == pytest.approx([0.3, 0.4, 0.3], abs=1e-6)
