"""Departure and breakover against published answers.

* Common practice, no source (arithmetic of it): departure 12 over 108 in is 6.34 degrees, 14 over 96 in 8.30 degrees.
* A page on vehicle geometry: breakover = 2 atan(2 h/wheelbase): 15 and 120 in give 28.07 degrees; its 27.04 degrees for
  12 and 100 in is a wrong print of 26.99.
* Australia (VSB 1, ADR 43) and New Zealand (2016 rule), read second-hand: 100 mm near the axles, 3.7 m, 4 m.
"""

from math import cos, degrees, radians, sin

import numpy as np
import pytest

from generator.calc.topics import ends as en
from generator.reference.load import reference


@pytest.mark.parametrize(("clear", "overhang", "angle"), [(12, 108, 6.34), (14, 96, 8.30)])
def test_departure(clear, overhang, angle):
    assert degrees(en.DEPARTURE.of(z=clear, x=300.0 + overhang, x_n=300.0)) == pytest.approx(angle, abs=0.005)
    room = en.TAIL_ROOM.of(z=clear, x=overhang, x_n=0.0, beta=np.arctan(clear / overhang))
    assert room == pytest.approx(0.0, abs=1e-9)


def test_breakover_at_the_middle():
    assert degrees(en.BREAKOVER.of(z=15.0, x=60.0, x_t=0.0, x_a=120.0)) == pytest.approx(28.07, abs=0.005)


def test_wrong_print_of_a_breakover():
    found = degrees(en.BREAKOVER.of(z=12.0, x=50.0, x_t=0.0, x_a=100.0))
    assert found == pytest.approx(26.99, abs=0.005)
    assert abs(found - 27.04) > 0.03


@pytest.mark.parametrize(("z", "x"), [(0.3, 1.0), (0.4, 3.0), (0.25, 5.5)])
def test_breakover_drawn(z, x):
    """A crest of two planes at that angle: with its edge under the point, both wheels stand on the planes."""
    base = 7.0
    gamma = float(en.BREAKOVER.of(z=z, x=x, x_t=0.0, x_a=base))
    front, rear = np.hypot(x, z), np.hypot(base - x, z)
    between = np.sqrt(front**2 + rear**2 - 2 * front * rear * np.cos(np.pi - gamma))
    assert between == pytest.approx(base)


def test_roof_corner_turned_about_the_axles():
    turned = en.ON_RAMP.of(z=4.0, x=-2.5, x_a=5.7, beta=radians(7.0))
    assert turned == pytest.approx((np.array([[cos(radians(7.0)), sin(radians(7.0))]]) @ [4.0, 8.2])[0])
    assert turned == en.ON_RAMP.of(z=4.0, x=13.9, x_a=5.7, beta=radians(7.0))


def test_rules_as_read():
    row = reference().defaults
    assert [row[f"ends.{n}"].value for n in ("clearance_au", "overhang_au", "overhang_nz")] == [0.1, 3.7, 4.0]
