"""Drivers of a spread and the correction of a list by scale readings, on five lines of known answer.

Source: the project's own check values, worked out apart from this code with dense matrices: five lines of 1 200, 900,
700, 780, 420 kg at 3.6, 3.4, 1.2, 3.0, 3.8 m, +/- 10, 15, 20, 10, 2 % (P5 to P95), groups 0 0 1 1 2, axle at 3.8, ball
at -1.4 m. The rule is the textbook one of linear least squares with a prior (for example A. Gelb, Applied Optimal
Estimation, 1974, ch. 4; from memory).
"""

import numpy as np
import pytest

from generator.calc.lines import Lines, update

ROUNDED_P95 = 1.6449
"""The deviate at 95 % as those sums round it."""
MASS = np.array([1200.0, 900.0, 700.0, 780.0, 420.0])
AT = np.array([3.6, 3.4, 1.2, 3.0, 3.8])
BAND = np.array([0.10, 0.15, 0.20, 0.10, 0.02])
GROUP = np.array([0, 0, 1, 1, 2])
X_A, X_H = 3.8, -1.4
GROSS, HITCH = np.ones(5), (X_A - AT) / (X_A - X_H)
READING, ON_HITCH = 2.6188, 5.2376
"""Standard errors, kg: one reading of a scale with 20 lb graduation, and a hitch load from four of them."""


def lines(within=0.6, across=0.2):
    return Lines(MASS, MASS * BAND / ROUNDED_P95, np.ones(5), GROUP, within, across)


def both():
    noise = np.array([[READING**2 + ON_HITCH**2, ON_HITCH**2], [ON_HITCH**2, ON_HITCH**2]])
    return update(lines(), np.array([GROSS, HITCH]), np.array([4200.0, HITCH @ MASS + 60.0]), noise)


def test_nominal_hitch():
    hitch = float(HITCH @ MASS)
    assert hitch == pytest.approx(585.38, abs=0.005)
    assert hitch / MASS.sum() == pytest.approx(0.14635, abs=5e-6)


@pytest.mark.parametrize(
    ("within", "across", "hitch", "gross"),
    [(0, 0, 43.726, 146.89), (0.5, 0, 47.330, 177.76), (0.6, 0.2, 49.876, 205.94)],
)
def test_deviations_of_sums(within, across, hitch, gross):
    of = lines(within, across)
    assert np.sqrt(HITCH @ of.times(HITCH)[:, 0]) == pytest.approx(hitch, abs=5e-4)
    assert np.sqrt(GROSS @ of.times(GROSS)[:, 0]) == pytest.approx(gross, abs=5e-3)


def test_shares_of_the_spread_of_the_hitch_load():
    assert lines().shares(HITCH) == pytest.approx([0.01868, 0.04560, 0.83409, 0.10162, 0.0], abs=5e-6)


def test_two_readings():
    found = both()
    assert found.mass == pytest.approx([1226.6, 932.73, 799.56, 819.01, 421.40], abs=0.05)
    assert found.value(GROSS) == pytest.approx(4199.3, abs=0.05)
    assert found.value(HITCH) == pytest.approx(644.71, abs=0.005)
    assert found.error(GROSS) == pytest.approx(5.8076, abs=5e-5)
    assert found.error(HITCH) == pytest.approx(5.1774, abs=5e-5)
    assert found.chi2 == pytest.approx(1.4328, abs=5e-5)


def test_gross_alone():
    found = update(lines(), GROSS[None, :], np.array([4200.0]), np.array([[READING**2 + ON_HITCH**2]]))
    assert found.mass == pytest.approx([1251.5, 959.31, 758.39, 809.16, 421.51], abs=0.05)
    assert found.value(GROSS) == pytest.approx(4199.8, abs=0.05)
    assert found.mass[4] < 425.0  # a plain factor would move the well-known running gear to 441
    assert MASS[4] * 4200 / MASS.sum() == pytest.approx(441.0)


def test_the_same_by_dense_matrices():
    """A second route: the covariance written out, and the posterior from the information form."""
    of, rows = lines(), np.array([GROSS, HITCH])
    same = GROUP[:, None] == GROUP[None, :]
    r = np.where(same, 0.6, 0.2)
    np.fill_diagonal(r, 1.0)
    S = r * np.outer(of.deviation, of.deviation)
    assert of.times(np.eye(5)) == pytest.approx(S)
    noise = np.array([[READING**2 + ON_HITCH**2, ON_HITCH**2], [ON_HITCH**2, ON_HITCH**2]])
    after = np.linalg.inv(np.linalg.inv(S) + rows.T @ np.linalg.inv(noise) @ rows)
    mass = MASS + after @ rows.T @ np.linalg.inv(noise) @ (np.array([4200.0, HITCH @ MASS + 60.0]) - rows @ MASS)
    found = both()
    assert found.mass == pytest.approx(mass, rel=1e-9)
    assert found.deviation == pytest.approx(np.sqrt(np.diag(after)), rel=1e-9)


def test_fully_correlated_lines_in_proportion_take_a_plain_factor():
    of = Lines(MASS, 0.1 * MASS, np.ones(5), np.zeros(5, dtype=np.int64), 1.0, 1.0)
    found = update(of, GROSS[None, :], np.array([4200.0]), np.array([[1e-9]]))
    assert found.mass == pytest.approx(MASS * 1.05, rel=1e-9)


def test_a_measured_line_errs_alone():
    """Two lines alike, one of them measured: the other takes what the readings miss through its friends."""
    shared = np.array([1.0, 1.0, 0.0])
    of = Lines(np.full(3, 100.0), np.full(3, 10.0), shared, np.zeros(3, dtype=np.int64), 0.6, 0.2)
    S = of.times(np.eye(3))
    assert S[2] == pytest.approx([0.0, 0.0, 100.0])
    assert S[0] == pytest.approx([100.0, 60.0, 0.0])


def test_no_line_falls_below_nothing():
    of = Lines(np.array([1000.0, 20.0]), np.array([20.0, 30.0]), np.zeros(2), np.array([0, 1]), 0.6, 0.2)
    found = update(of, np.ones((1, 2)), np.array([960.0]), np.array([[1.0]]))
    assert found.mass[1] == 0.0
    assert found.mass.sum() == pytest.approx(960.0, abs=0.2)
