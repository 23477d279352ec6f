"""T. G. Hicks, Civil Engineering Formulas, Table 2.1 p. 50 (equal spans, uniform load), and Handbook of Civil
Engineering Calculations, 2nd ed., p. 1.63 (two spans with uniform and point loads).
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve


def equal_spans(count):
    girder = Girder(0.0, float(count), ((0.0, 1.0),))
    supports = [at(f"{i}", float(i)) for i in range(count + 1)]
    return solve(girder, supports, [loads(lines=[(0.0, float(count), 1.0, 1.0)])])[0]


def test_three_equal_spans():
    b = equal_spans(3)
    assert b.reactions == pytest.approx([0.4, 1.1, 1.1, 0.4], rel=1e-9)
    assert b.moment(np.array([1.0, 2.0])) == pytest.approx([-0.1, -0.1], rel=1e-9)
    assert b.moment(b.peaks()) == pytest.approx([0.080, 0.025, 0.080], abs=5e-4)


def test_four_equal_spans():
    b = equal_spans(4)
    assert b.shear(np.array([0.0, 1.0, 2.0])) == pytest.approx([11 / 28, 15 / 28, 13 / 28], rel=1e-9)
    assert -b.shear(np.array([1.0, 2.0]), after=False) == pytest.approx([17 / 28, 13 / 28], rel=1e-9)
    assert b.moment(np.array([1.0, 2.0])) == pytest.approx([-3 / 28, -2 / 28], rel=1e-9)
    assert b.moment(b.peaks())[:2] == pytest.approx([0.0772, 0.0364], abs=5e-5)


def test_two_unequal_spans_page_1_63():
    """Printed: MB -80.2 kip-ft, reactions 4.98, 52.87, 23.15 kip."""
    case = loads(points=[(5.0, 6.0), (19.0, 10.0)], lines=[(0.0, 10.0, 2.0, 2.0), (10.0, 25.0, 3.0, 3.0)])
    b = solve(Girder(0.0, 25.0, ((0.0, 1.0),)), [at("A", 0.0), at("B", 10.0), at("C", 25.0)], [case])[0]
    assert b.moment(np.array([10.0]))[0] == pytest.approx(-80.2, abs=0.05)
    assert b.reactions == pytest.approx([4.98, 52.87, 23.15], abs=0.005)
