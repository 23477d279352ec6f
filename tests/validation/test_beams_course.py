"""Structural-analysis course notes and a board-exam reviewer (as read in copies; authors not named there): supports
that lift, three equal reactions, three axles on a span.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve


@pytest.mark.parametrize(("tip", "reactions", "moments"), [
    (25.0, (-10.0, 55.0), (-20.0, -100.0)),
    (30.0, (-13.33, 63.33), (-26.66, -120.0)),
])
def test_overhang_lifts_its_far_support(tip, reactions, moments):
    """Supports 0 and 6 m, 5 kN/m from 2 to 6 m, tip load at 10 m; -26.66 is a truncated print of -26.667."""
    case = loads(points=[(10.0, tip)], lines=[(2.0, 6.0, 5.0, 5.0)])
    b = solve(Girder(0.0, 10.0, ((0.0, 1.0),)), [at("A", 0.0), at("B", 6.0)], [case])[0]
    assert b.reactions == pytest.approx(reactions, abs=0.005)
    assert b.moment(np.array([2.0, 6.0])) == pytest.approx(moments, abs=0.01)


def test_three_equal_reactions():
    """Two 3-m spans, overhang 1.319 m each end, 300 N/m: three reactions of 863.8 N (truncated), M middle -207 N m."""
    over = 1.3194
    case = loads(lines=[(-over, 6.0 + over, 300.0, 300.0)])
    supports = [at("A", 0.0), at("B", 3.0), at("C", 6.0)]
    b = solve(Girder(-over, 6.0 + over, ((-over, 1.0),)), supports, [case])[0]
    assert b.reactions == pytest.approx([863.8] * 3, abs=0.1)
    assert b.moment(np.array([3.0]))[0] == pytest.approx(-207.0, abs=0.5)


def moving(axles, span, step=0.02):
    """Greatest moment under any axle of a train moving over a simple span, axles off the span left out."""
    length = axles[-1][0]
    places = np.arange(-length, span + step / 2, step)
    trains = [[(x + p, f) for x, f in axles if 0.0 <= x + p <= span] for p in places]
    cases = [loads(points=t) for t in trains if t]
    bent = solve(Girder(0.0, span, ((0.0, 1.0),)), [at("A", 0.0), at("B", span)], cases)
    return max(float(b.moment(b.loads.points[:, 0]).max()) for b in bent)


def test_three_axles_on_40_feet():
    """Axles 24, 24, 6 kip, 16 and 12 ft apart, span 40 ft: 323 kip-ft (university handout)."""
    assert moving([(0.0, 24.0), (16.0, 24.0), (28.0, 6.0)], 40.0) == pytest.approx(323.0, abs=0.5)


def test_two_axles_on_20_metres():
    """40 and 20 kN 4 m apart, span 20 m: 261.4 kN m is 261.33 rounded up."""
    assert moving([(0.0, 40.0), (4.0, 20.0)], 20.0) == pytest.approx(261.33, abs=0.01)
