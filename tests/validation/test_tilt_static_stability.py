"""Side pull that lifts a side.

NHTSA, rollover rating rule, chapter V (read): static stability factor t/(2h); tilt angle is its arctangent. Track 84 in
and height 60 in give 0.700, 96 and 80 in 0.600, 73.5 and 70 in 0.525; 80 and 65 in 0.6154 and 31.61 degrees, 96 and
66 in 0.7273 and 36.03 degrees (computed from it).
A trailer of 4 420 kg and a gooseneck of 6 770 kg: independent hand program, the first also by vectors about the line
from the ball to the leeward tyre.
"""

import numpy as np
import pytest
from road_sample import towed

from generator.calc.record import Working
from generator.calc.topics import tilt as ti

INCH = 0.0254
CENTRE = (4000.0 * 3.10 + 420.0 * 3.80) / 4420.0


@pytest.mark.parametrize(
    ("track", "height", "factor"),
    [(84, 60, 0.700), (96, 80, 0.600), (73.5, 70, 0.525), (80, 65, 0.6154), (96, 66, 0.7273)],
)
def test_static_stability_factor(track, height, factor):
    assert ti.UNCORRECTED.of(t=track * INCH, z_g=height * INCH) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("track", "height", "degrees"), [(80, 65, 31.61), (96, 66, 36.03)])
def test_tilt_angle(track, height, degrees):
    assert np.degrees(np.arctan(ti.UNCORRECTED.of(t=track, z_g=height))) == pytest.approx(degrees, abs=0.006)


def light(y_g=0.0, rates=()):
    return towed(4420.0, CENTRE, -1.4, 3.8, 1.62, 0.50, y_g=y_g, rates=rates, axles=(1940.8, 1940.8) if rates else None)


def test_without_load_on_the_ball_it_is_the_static_stability_factor():
    over = towed(3000.0, 3.8, -1.4, 3.8, 1.62, 0.50)
    assert ti.rigid_ratio(Working(), over).values[0] == pytest.approx(ti.UNCORRECTED.of(t=2.0, z_g=1.62))


def test_about_the_line_from_ball_to_tyre():
    assert ti.UNCORRECTED.of(t=2.0, z_g=1.62) == pytest.approx(0.61728, abs=6e-6)
    assert ti.rigid_ratio(Working(), light()).values[0] == pytest.approx(0.56326, abs=1e-5)
    assert ti.rigid_ratio(Working(), light(0.04)).values[0] == pytest.approx(0.53761, abs=1e-5)
    assert ti.rigid_ratio(Working(), light(-0.04)).values[0] == pytest.approx(0.53761, abs=1e-5)


def test_the_same_by_vectors():
    """Weight and side pull through the centre of mass have no moment about the line from ball to leeward contact."""
    t = light()
    ball, contact, centre = np.array([-1.4, 0.0, 0.50]), np.array([3.8, 1.0, 0.0]), np.array([CENTRE, 0.0, 1.62])
    line = (contact - ball) / np.linalg.norm(contact - ball)
    pull = ti.rigid_ratio(Working(), t).values[0]
    moment = np.cross(centre - ball, np.array([0.0, pull, -1.0])) @ line
    assert moment == pytest.approx(0.0, abs=1e-9)


def test_springs_give():
    """Roll stiffness 594 784 N m per radian, spread over two axles of 2.0 m track."""
    sprung = ti.sprung_ratio(Working(), light(rates=(297_392.0, 297_392.0)))
    assert sprung.values[0] == pytest.approx(0.56326 * (1 - 0.11360), abs=2e-5)
    assert sprung.values[0] == pytest.approx(0.49926, abs=2e-5)


def test_gooseneck():
    """Share on the ball 0.16354: half the track over the height is 8 % too kind."""
    u = 8.40
    x_g = -2.30 + u * (1 - 0.16354)
    t = towed(6770.0, x_g, -2.30, 6.10, 1.85, 1.10, track=2.03)
    assert ti.UNCORRECTED.of(t=2.03, z_g=1.85) == pytest.approx(0.54865, abs=6e-6)
    assert ti.rigid_ratio(Working(), t).values[0] == pytest.approx(0.50836, abs=1e-5)
