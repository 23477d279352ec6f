"""Bridge and Highway Structure Rehabilitation and Repair, table 6.7 p. 251 (H20 truck and lane loading).

Rows of 20 to 26 ft of the printed H20 column are wrong: there the heavy axle alone at mid-span governs, so a search
must also try part of the axles. Those rows are negative tests.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve


def h20(span):
    """Greatest moment (kip-ft) of 8 and 32 kip axles 14 ft apart; an axle off the span is left out."""
    places = np.arange(0.0, span + 0.01, 0.025)
    trains = [[(p, 32.0)] + ([(p - 14.0, 8.0)] if p >= 14.0 else []) for p in places]
    bent = solve(Girder(0.0, span, ((0.0, 1.0),)), [at("A", 0.0), at("B", span)], [loads(points=t) for t in trains])
    return max(float(b.moment(b.loads.points[:, 0]).max()) for b in bent)


@pytest.mark.parametrize(("span", "printed"), [
    (28.0, 226.8), (30.0, 246.61), (32.0, 266.45), (34.0, 286.31), (36.0, 306.18), (38.0, 326.06), (40.0, 345.96),
])
def test_h20_moment(span, printed):
    assert h20(span) == pytest.approx(printed, abs=0.05 if printed == 226.8 else 0.01)


@pytest.mark.parametrize(("span", "printed", "right"), [
    (20.0, 147.92, 160.0), (22.0, 167.56, 176.0), (24.0, 187.27, 192.0), (26.0, 207.02, 208.0),
])
def test_short_spans_are_governed_by_the_heavy_axle_alone(span, printed, right):
    found = h20(span)
    assert found == pytest.approx(right, abs=0.01)
    assert found > printed + 0.5


@pytest.mark.parametrize(("span", "moment", "shear"), [
    (20.0, 122.0, 32.4), (22.0, 137.72, 33.04), (40.0, 308.0, 38.8), (60.0, 558.0, 45.2), (100.0, 1250.0, 58.0),
])
def test_lane_load(span, moment, shear):
    """0.64 kip/ft with 18 kip at mid-span for moment, 26 kip at the support for shear."""
    line = [(0.0, span, 0.64, 0.64)]
    cases = [loads([(span / 2, 18.0)], line), loads([(0.0, 26.0)], line)]
    bent = solve(Girder(0.0, span, ((0.0, 1.0),)), [at("A", 0.0), at("B", span)], cases)
    assert bent[0].moment(np.array([span / 2]))[0] == pytest.approx(moment, abs=0.005)
    assert bent[1].reactions[0] == pytest.approx(shear, abs=0.005)
