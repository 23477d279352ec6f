"""A. Kassimali, Structural Analysis, example D.3: fixed at A, AB 20 ft with 45 kip at its middle, BC 30 ft with
1.8 kip/ft, overhang moment -90 kip-ft at C. Printed MA -97.5, MB -142.5 kip-ft.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, Support, at, loads, solve


def test_example_d_3():
    clamp = Support("turning at A", ((0.0, 0.0, 1.0),))
    case = loads(points=[(10.0, 45.0), (60.0, 9.0)], lines=[(20.0, 50.0, 1.8, 1.8)])
    supports = [at("A", 0.0), clamp, at("B", 20.0), at("C", 50.0)]
    b = solve(Girder(0.0, 60.0, ((0.0, 1.0),)), supports, [case])[0]
    assert b.moment(np.array([50.0]))[0] == pytest.approx(-90.0, rel=1e-9)
    assert b.moment(np.array([0.0, 20.0])) == pytest.approx([-97.5, -142.5], abs=0.05)
