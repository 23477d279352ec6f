"""Tables of the standard normal distribution (as in any handbook; values from memory), and the NIST/SEMATECH
e-Handbook rule for zero failures, against our trials."""

import numpy as np
import pytest

from generator.calc.trials import Trials, normal_cdf


@pytest.mark.parametrize(("z", "printed"), [(1.96, 0.97500), (0.84162, 0.80000), (1.28155, 0.90000), (0.0, 0.5)])
def test_distribution_function(z, printed):
    assert normal_cdf(np.array([z]))[0] == pytest.approx(printed, abs=5e-6)


def test_draws_are_standard_normal():
    z = Trials().normals("a stream of its own")
    assert z.mean() == pytest.approx(0.0, abs=4 / np.sqrt(z.size))
    assert z.std() == pytest.approx(1.0, abs=4 / np.sqrt(2 * z.size))
    for p, quantile in ((0.80, 0.84162), (0.90, 1.28155), (0.975, 1.95996)):
        density = np.exp(-quantile**2 / 2) / np.sqrt(2 * np.pi)
        assert np.quantile(z, p) == pytest.approx(quantile, abs=4 * np.sqrt(p * (1 - p) / z.size) / density)


def test_streams_are_independent():
    a, b = (Trials().normals(name) for name in ("one", "another"))
    assert abs(np.corrcoef(a, b)[0, 1]) < 4 / np.sqrt(a.size)


def test_erf_to_the_accuracy_it_states():
    """Against the C library's erfc, off the table's own steps: error under 2e-7."""
    from math import erfc, sqrt

    z = np.linspace(-5.0, 5.0, 1237)
    exact = np.array([0.5 * erfc(-v / sqrt(2.0)) for v in z])
    assert np.abs(normal_cdf(z) - exact).max() < 2e-7
