"""Bridge formula of 23 CFR 658.17(e) (annual edition of 2015; formula as printed in federal pamphlets).

Values: enforcement-training text and federal pamphlet on the bridge formula (N 5 at 48 and 51 ft, N 4 at 21 ft, N 2 at
4 ft), its tandem exception (36 to 38 ft) and its worked example (axles 1-3 and 2-5), a truck-weight guide (wheelbase of
189 in), and rows of the published table (2 to 4 axles). Rounding to 500 lb: 23 CFR 658.5; an exact tie goes down.
"""

import numpy as np
import pytest

from generator.calc.record import sure
from generator.calc.topics.rules_inputs import BRIDGE_FORMULA, bridge
from generator.calc.trials import Trials
from generator.reference.load import reference

POUND, FOOT, INCH = 0.45359237, 0.3048, 0.0254
DATA = reference()


def allowed(axles, length):
    """Pounds allowed on a group: axles, first to last in m."""
    known = bridge("group", sure("l", length, "m"), axles, DATA, Trials(count=0))
    return float(known.quantity.values[0]) / POUND


def raw(axles, feet):
    step, foot = np.array([500 * POUND]), np.array([FOOT])
    return float(BRIDGE_FORMULA.of(w=step, l=np.array([feet * FOOT]), f=foot, N=np.array([float(axles)]))[0]) / POUND


@pytest.mark.parametrize(("axles", "feet", "pounds"), [
    (5, 48, 78_000), (5, 51, 79_875), (4, 21, 56_000), (2, 4, 34_000),
    (2, 5, 35_000), (2, 6, 36_000), (2, 7, 37_000), (2, 8, 38_000), (2, 9, 39_000), (2, 10, 40_000),
    (3, 8, 42_000), (3, 9, 42_750), (3, 10, 43_500), (3, 12, 45_000), (3, 16, 48_000), (4, 12, 50_000),
    (4, 16, 52_667), (4, 37, 66_667), (4, 38, 67_333),
])
def test_formula_before_rounding(axles, feet, pounds):
    assert raw(axles, feet) == pytest.approx(pounds, abs=0.5)


@pytest.mark.parametrize(("axles", "feet", "pounds"), [
    (5, 51, 80_000), (3, 9, 42_500), (4, 16, 52_500), (4, 36, 66_000), (4, 37, 66_500), (4, 38, 67_500),
    (3, 20, 51_000), (4, 35, 65_500), (5, 48, 78_000),
])
def test_table_values(axles, feet, pounds):
    assert allowed(axles, feet * FOOT) == pytest.approx(pounds, abs=0.01)


def test_wheelbase_of_189_inches_counts_as_16_feet():
    assert allowed(4, 189 * INCH) == pytest.approx(52_500, abs=0.01)


def test_one_axle_has_no_bridge():
    with np.errstate(all="ignore"):
        assert not np.isfinite(allowed(1, 0.0))
