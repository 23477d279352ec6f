"""Money under uncertainty: our sampler against exact distributions and published sets.

Sources: course worksheet on triangular durations (6, 12, 24 months: P(<= 12) = 1/3); GAO-09-3SP (Cost Estimating and
Assessment Guide) figure 18, two dice; GUM (JCGM 100) 5.2.2, ten equal parts of one calibration; operations-research
course table of three-point activities (edge cases). Tolerances are four standard errors of 10 000 trials.
"""

import numpy as np
import pytest

from generator.calc.topics.cost_trials import sample
from generator.calc.trials import Trials, normal_cdf

N = 10_000
TRIALS = Trials()


def four_errors(p):
    return 4 * np.sqrt(p * (1 - p) / N)


def test_triangular_6_12_24_months():
    total = sample([("duration", 6.0, 12.0, 24.0)], 0.4, TRIALS)
    assert np.mean(total <= 12.0) == pytest.approx(1 / 3, abs=four_errors(1 / 3))
    assert total.mean() == pytest.approx(14.0, abs=4 * 3.742 / np.sqrt(N))
    assert total.std() == pytest.approx(3.742, abs=4 * 3.742 / np.sqrt(2 * N))
    assert total.min() >= 6.0
    assert total.max() <= 24.0


def test_two_dice():
    """Least 2, greatest 12, median 7; P(<= 7) 21/36, P(6 to 8) 16/36."""
    dice = [np.floor(6 * normal_cdf(TRIALS.normals(name))) + 1 for name in ("first die", "second die")]
    total = dice[0] + dice[1]
    assert (total.min(), np.median(total), total.max()) == (2, 7, 12)
    assert np.mean(total <= 7) == pytest.approx(21 / 36, abs=four_errors(21 / 36))
    assert np.mean((total >= 6) & (total <= 8)) == pytest.approx(16 / 36, abs=four_errors(16 / 36))


@pytest.mark.parametrize(("rho", "expected"), [(1.0, 1.0), (0.0, 0.32)])
def test_ten_resistors_of_one_standard(rho, expected):
    """Ten parts of standard uncertainty 0.1: together 1.0 if one standard calibrated all, 0.32 if independent."""
    half = 0.1 * np.sqrt(6.0)
    rows = [(f"part {n}", 1000.0 - half, 1000.0, 1000.0 + half) for n in range(10)]
    assert sample(rows, rho, TRIALS).std() == pytest.approx(expected, abs=4 * expected / np.sqrt(2 * N) + 0.005)


LINES = [("frame", 9000.0, 10000.0, 13000.0), ("axles", 2500.0, 3000.0, 4500.0), ("coat", 1200.0, 1500.0, 1800.0),
         ("permits", 600.0, 800.0, 1600.0), ("haul", 900.0, 1000.0, 1500.0)]
"""A set whose independent and fully correlated totals are known (sum of the likely amounts 16 300)."""


@pytest.mark.parametrize(("rho", "p50", "p80", "below"), [
    (0.0, 17553.0, 18502.0, 0.079), (0.3, 17528.0, 18737.0, 0.150), (0.5, 17498.0, 18883.0, 0.187),
    (1.0, 17406.0, 19242.0, 0.25863),
])
def test_five_lines_with_one_factor(rho, p50, p80, below):
    """rho 1 is exact by closed form, the others by 400 000 draws of an independent program."""
    total = sample(LINES, rho, TRIALS)
    deviation = np.interp(rho, [0.0, 1.0], [990.79, 1744.5])
    assert total.mean() == pytest.approx(17633.0, abs=4 * deviation / np.sqrt(N))
    # Standard error of a quantile: sqrt(p (1 - p)/n) over the density there, that of a normal within a tenth.
    assert np.percentile(total, 50) == pytest.approx(p50, abs=4 * 1.4 * deviation / np.sqrt(N) + 12)
    assert np.percentile(total, 80) == pytest.approx(p80, abs=4 * 1.6 * deviation / np.sqrt(N) + 12)
    assert np.mean(total <= 16300.0) == pytest.approx(below, abs=four_errors(below) + 0.001)


def test_independent_lines_understate_the_reserve():
    """The lesson of that set: correlation moves P80 and barely the mean."""
    apart, together = (sample(LINES, rho, TRIALS) for rho in (0.0, 0.5))
    assert np.percentile(together, 80) > np.percentile(apart, 80) + 200.0
    assert together.mean() == pytest.approx(apart.mean(), abs=30.0)


@pytest.mark.parametrize(("low", "likely", "high"), [
    (5, 5, 7), (1, 2, 5), (5, 5, 5), (4, 8, 13), (1, 10, 17), (1, 5, 7), (2, 6, 9), (4, 4, 6), (2, 7, 10), (2, 4, 7),
    (6, 10, 13), (2, 6, 6), (2, 2, 3), (7, 7, 12),
])
def test_three_point_activities_with_every_edge(low, likely, high):
    """Activities A to N of the course table: likely may stand at an end, or all three may be one number."""
    total = sample([("activity", float(low), float(likely), float(high))], 0.4, TRIALS)
    assert np.isfinite(total).all()
    assert low <= total.min() <= total.max() <= high
    spread = np.sqrt((low**2 + likely**2 + high**2 - low * likely - low * high - likely * high) / 18)
    assert total.mean() == pytest.approx((low + likely + high) / 3, abs=4 * spread / np.sqrt(N) + 1e-12)
