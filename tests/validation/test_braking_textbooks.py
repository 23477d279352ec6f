"""Load transfer while braking.

D. Halliday, R. Resnick, J. Walker, Fundamentals of Physics, 8th edition, chapter 12: car of 11 kN, wheelbase 4.2 m,
centre of mass 1.8 m behind the front axle and 0.75 m up, wheels locked at 0.40 (statement read, answers from memory,
recomputed).
R. N. Jazar, Vehicle Dynamics: Theory and Application, equations 2.194 to 2.197 and the example after them: a trailer
whose centre of mass lies over its axle at the height of its hinge puts no upright force on the hinge, whatever it is
accelerated with (read).
49 CFR 393.52(d), edition of 2015: 43.5 % of gross, 14 ft/s2, 40 ft from 20 mph (read).
A trailer of 10 000 lb, ball to axle 240 in, centre of mass 211.2 in behind the ball and 60 in up, ball 20 in up, braked
at half of gravity, and one of 4 420 kg: independent hand programs.
"""

import pytest
from road_sample import towed

from generator.calc.record import Working, sure
from generator.calc.topics import braking as br
from generator.reference.load import reference

DATA = reference()
CENTRE = (4000.0 * 3.10 + 420.0 * 3.80) / 4420.0
LIGHT = towed(4420.0, CENTRE, -1.4, 3.8, 1.62, 0.50)
POUNDS = towed(10_000.0, 211.2, 0.0, 240.0, 60.0, 20.0)


def share(symbol, value):
    return sure(symbol, value, "%")


def hitch(t, a, beta):
    return br.hitch_braking(Working(), t, share("a", a), share("beta", beta)).values[0]


def test_locked_wheels_of_a_car():
    """The car turned about: its front axle is our ball, its rear axle our axle group, all brakes at the road."""
    car = towed(11_000.0, 1.8, 0.0, 4.2, 0.75, 0.0)
    front = hitch(car, 0.40, 1.0)
    assert front / 2 == pytest.approx(3.5e3, abs=50.0)
    assert (11_000.0 - front) / 2 == pytest.approx(2.0e3, abs=50.0)
    assert 0.40 * front / 2 == pytest.approx(1.4e3, abs=50.0)
    assert 0.40 * (11_000.0 - front) / 2 == pytest.approx(7.9e2, abs=5.0)


@pytest.mark.parametrize("a", [0.1, 0.5, 0.9])
@pytest.mark.parametrize("beta", [0.0, 1.0])
def test_no_upright_force_on_a_hinge_at_the_height_of_the_mass(a, beta):
    """With its own brakes at the road the mass tips; pushed by the hinge alone it does not."""
    over = towed(2000.0, 4.0, 0.0, 4.0, 0.8, 0.8)
    assert hitch(over, a, beta) == pytest.approx(beta * 2000.0 * a * 0.8 / 4.0, abs=1e-9)


def test_pulling_is_braking_backwards_without_brakes():
    for a in (0.0, 0.15, 0.3):
        pulled = br.hitch_pulling(Working(), LIGHT, share("a_p", a)).values[0]
        assert pulled == pytest.approx(hitch(LIGHT, -a, 0.0), rel=1e-12)


@pytest.mark.parametrize(("beta", "load", "left"), [(1.0, 2450.0, 7550.0), (0.0, 2033.0, 7967.0)])
def test_trailer_in_pounds(beta, load, left):
    assert hitch(POUNDS, 0.5, beta) == pytest.approx(load, abs=0.5)
    assert 10_000.0 - hitch(POUNDS, 0.5, beta) == pytest.approx(left, abs=0.5)
    assert br.PUSH.of(a=0.5, W=10_000.0, beta=beta) == pytest.approx(5000.0 * (1.0 - beta))


@pytest.mark.parametrize(("a", "beta", "load"), [(0.5, 1.0, 1227.0), (0.5, 0.0, 1014.5), (0.334, 0.85, 977.09)])
def test_ball_load_of_a_trailer(a, beta, load):
    assert hitch(LIGHT, a, beta) == pytest.approx(load, rel=5e-5)


@pytest.mark.parametrize(("a", "beta", "grip"), [(0.5, 1.0, 0.69213), (0.334, 0.85, 0.36447)])
def test_grip_of_a_trailer(a, beta, grip):
    """The hand program prints 0.36446 for the second; its own ball load of 977.09 kg gives 0.36447."""
    assert br.grip_used(Working(), LIGHT, share("a", a), share("beta", beta)).values[0] == pytest.approx(grip, abs=6e-6)


def test_ball_load_while_pulling():
    assert br.hitch_pulling(Working(), LIGHT, share("a_p", 0.15)).values[0] == pytest.approx(395.66, abs=0.006)
    assert br.hitch_pulling(Working(), LIGHT, share("a_p", 0.0)).values[0] == pytest.approx(538.46, abs=0.02)


def test_stop_of_the_rule():
    row = DATA.defaults
    g = 9.80665
    assert row["brake.rule_speed"].value == pytest.approx(20 * 0.44704)
    assert row["brake.rule_distance"].value == pytest.approx(40 * 0.3048)
    d = br.STOP.of(v=row["brake.rule_speed"].value, s=row["brake.rule_distance"].value, g=g)
    assert d == pytest.approx(0.33429, abs=6e-6)
    # The rule's own note: 14 ft/s2 over 32.2 ft/s2.
    assert row["brake.rule_force"].value == pytest.approx(14 / 32.2, abs=0.0005)


@pytest.mark.parametrize(
    ("mph", "share_of_g", "feet"), [(60.0, 0.35, 342.86), (60.0, 0.28, 428.57), (60.0, 0.34782 + 0.05, 301.64)]
)
def test_braking_distance_of_a_highway_text(mph, share_of_g, feet):
    """N. J. Garber, L. A. Hoel, Traffic and Highway Engineering, type example (read): V2/(30 (a/g + G)). The 30 is
    29.94 rounded, so their distances are 0.2 % shorter. The last is 522.14 ft less 220.50 ft of reaction."""
    d = br.STOP.of(v=mph * 0.44704, s=feet * 0.3048, g=9.80665)
    assert d == pytest.approx(share_of_g, rel=3e-3)


def test_a_slope_pulls_with_the_sine_of_its_angle():
    """Grade lesson (read): 10 000 lb on 5 %: 500 lb by rule, 499.4 lb by sine; 4 500 kg: 2 207.25 N by rule, g 9.81."""
    assert br.DOWNHILL.of(W=10_000.0, G=0.05) == pytest.approx(499.4, abs=0.05)
    assert br.DOWNHILL.of(W=4500.0, G=0.05) * 9.81 == pytest.approx(2207.25, rel=1.3e-3)
