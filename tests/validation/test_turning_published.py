"""Turning: published worked answers, a design guide's formulas, rules of the trade, and a path followed step by step.

* Truck dimension guide (maker withheld): wheelbase 198 in, track 77 in, inner wheel at 30 degrees: 342.9, 419.9 and
  464.3 in (inner rear, outer rear, outer front wheel).
* A turning lesson: R = wheelbase/sin: 250 in at sin .819 gives 305.25 in; 400 in at 45 degrees 565 in (truncated); its
  print of 2 312 in for 400 in at 10 degrees is wrong, 2 303.5 in is right.
* AASHTO Green Book, section on turning: off-tracking by the squares of the lengths; front overhang
  sqrt(R2 + A (2 L + A)) - R. R 42 ft, wheelbase 13.1 ft, hitch 4.2 ft behind the axle, trailer 24 ft: 9.84 ft (computed
  from the formula, no print).
* Common practice, no source (arithmetic of it): R 40 ft, L 25 ft cut in 8.8 ft; a gate is width, cut-in and 2 ft; axles
  35 in either side of the middle at 300 in: 6.7 degrees.
"""

from math import atan2, cos, degrees, hypot, pi, sin

import pytest

from generator.calc.topics import access as ac
from generator.reference.load import reference


@pytest.mark.parametrize(("front", "rear"), [(198 / 0.5, 342.9), (464.3, 419.9)])
def test_truck_guide(front, rear):
    assert ac.GROUP_PATH.of(R=front, L=198.0) == pytest.approx(rear, abs=0.1)


def test_truck_guide_by_cotangents():
    """The other route of the guide: cot of the mean is cot 30 and the track over the wheelbase: 2.121."""
    outer = 3**0.5 + 77 / 198
    assert outer == pytest.approx(2.121, abs=5e-4)
    assert ac.GROUP_PATH.of(R=198 * hypot(1.0, outer), L=198.0) == pytest.approx(198 * outer)
    assert 198 * hypot(1.0, outer) == pytest.approx(464.3, abs=0.05)


@pytest.mark.parametrize(("wheelbase", "sine", "radius"), [(250, 0.819, 305.25), (400, sin(pi / 4), 565.69)])
def test_lesson(wheelbase, sine, radius):
    path = ac.GROUP_PATH.of(R=radius, L=wheelbase)
    assert sin(ac.YAW.of(L=wheelbase, R_a=path)) == pytest.approx(sine, rel=1e-5)


def test_wrong_print_of_the_lesson():
    """Printed 2 312 in; 400 in at 10 degrees turn on 2 303.5 in."""
    path = ac.GROUP_PATH.of(R=2303.5, L=400.0)
    assert degrees(ac.YAW.of(L=400.0, R_a=path)) == pytest.approx(10.0, abs=5e-4)
    path = ac.GROUP_PATH.of(R=2312.0, L=400.0)
    assert degrees(ac.YAW.of(L=400.0, R_a=path)) != pytest.approx(10.0, abs=0.03)


def test_squares_of_the_lengths():
    assert ac.OFF_TRACKING.of(R=42.0, wb=13.1, o=4.2, L=24.0) == pytest.approx(9.84, abs=0.005)
    added = ac.OFF_TRACKING.of(R=42.0, wb=13.1, o=0.0, L=24.0)
    assert added > ac.OFF_TRACKING.of(R=42.0, wb=13.1, o=4.2, L=24.0), "the hitch behind the axle takes cut-in away"


@pytest.mark.parametrize(("R", "L", "A"), [(12.2, 6.0, 0.6), (15.0, 7.5, 1.2), (9.0, 0.0, 3.3)])
def test_front_overhang_of_the_guide(R, L, A):
    printed = (R**2 + A * (2 * L + A)) ** 0.5 - R
    path = float(ac.GROUP_PATH.of(R=R, L=L))
    assert hypot(path, L + A) - R == pytest.approx(printed)
    if L == 0.0:
        assert ac.TAIL_SWING.of(R_a=R, w=0.0, v=A) == pytest.approx(printed)


def test_cut_in_gate_and_scrub_of_the_trade():
    path = ac.GROUP_PATH.of(R=40.0, L=25.0)
    cut_in = ac.CUT_IN.of(R=40.0, R_a=path)
    assert cut_in == pytest.approx(8.8, abs=0.05)
    assert reference().defaults["access.gate_margin"].value == pytest.approx(2 * 0.3048)
    assert ac.GATE.of(w=8.5, c=cut_in, m=2.0) == pytest.approx(19.3, abs=0.05)
    assert degrees(ac.SCRUB.of(p_h=35.0, R_a=300.0)) == pytest.approx(6.7, abs=0.05)


@pytest.mark.parametrize(("R", "L"), [(12.0, 6.0), (12.0, 9.0), (20.0, 8.0)])
def test_a_trailer_drawn_round_a_circle(R, L):
    """The hitch goes round in steps of 0.02 degrees; the axles follow along the drawbar and settle on their circle."""
    x, y = R, -L
    step = pi / 9000
    for n in range(4 * 18000):
        hx, hy = R * cos(n * step), R * sin(n * step)
        heading = atan2(hy - y, hx - x)
        x, y = hx - L * cos(heading), hy - L * sin(heading)
    assert hypot(x, y) == pytest.approx(float(ac.GROUP_PATH.of(R=R, L=L)), rel=2e-3)
