"""Trials moved to the readings: two items by hand, and the covariance that conditioning leaves."""

import numpy as np
import pytest
from scratch import DATA, item, model

from generator.calc.lines import lines_of, update
from generator.calc.topics.reweighed import corrected, correction, weighed_sums
from generator.calc.trials import Trials

GROSS = np.array([[1.0, 1.0]])


def two():
    """Two items of different groups, measured so that they err alone: sd 30 and 40 kg."""
    p95 = 1.6448536269514722
    return model([
        item("a", 1000.0, 2.0, spread=30.0 * p95 / 1000.0, group="shell", basis="measured"),
        item("b", 1000.0, 4.0, spread=40.0 * p95 / 1000.0, group="interior", basis="measured"),
    ])


def test_two_items_by_hand():
    """Read 2100 kg, error 0: what is missing, 100 kg, splits as the variances 900 and 1600: 36 and 64 kg. What is left
    of each is 24 kg (1/sd2 = 1/900 + 1/1600), and their sum is sure."""
    of = two()
    by = correction(of.items, update(lines_of(of.items, DATA), GROSS, np.array([2100.0]), np.array([[1e-6]])),
                    np.array([[1e-6]]))
    now = corrected(of, by)
    assert [i.mass for i in now.items] == pytest.approx([1036.0, 1064.0], abs=1e-4)
    assert [(i.high - i.low) / 2 / 1.6448536269514722 for i in now.items] == pytest.approx([24.0, 24.0], abs=1e-4)
    trials = Trials(count=4000)
    at = weighed_sums(of, trials, DATA, by).states["travel"].fixed
    assert at.m[0] == pytest.approx(2100.0, abs=1e-4)
    assert at.m[1:] == pytest.approx(np.full(4000, 2100.0), abs=0.01)
    # The centre still wanders: one 24 kg more is the other 24 kg less, 2 m apart.
    assert np.std(at.mx[1:]) == pytest.approx(48.0, rel=0.05)
    assert at.mx[0] == pytest.approx(2.0 * 1036.0 + 4.0 * 1064.0, abs=1e-3)


def test_the_scales_own_error_stays():
    of, noise = two(), np.array([[400.0]])
    by = correction(of.items, update(lines_of(of.items, DATA), GROSS, np.array([2100.0]), noise), noise)
    at = weighed_sums(of, Trials(count=4000), DATA, by).states["travel"].fixed
    # 1/sd2 = 1/2500 + 1/400
    assert np.std(at.m[1:]) == pytest.approx(np.sqrt(1 / (1 / 2500.0 + 1 / 400.0)), rel=0.05)
    assert at.m[0] == pytest.approx(2000.0 + 100.0 * 2500.0 / 2900.0, abs=1e-6)


def test_without_a_correction_sums_and_list_are_as_written():
    of = two()
    assert corrected(of, None) is of
    assert weighed_sums(of, Trials(count=0), DATA, None).states["travel"].fixed.m[0] == 2000.0
