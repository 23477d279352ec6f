"""Loads of two supports under one weight, through the product's hitch and axle formulas.

Sources: OpenStax University Physics vol. 1, section 12; NCERT Physics XI (car on two axles); F. P. Beer, E. R.
Johnston, Statics,
problems 4.1 and 6.95 (the latter's dimensions and answers MEM); R. Jazar, Vehicle Dynamics, chapter 2; a Meriam-type
problem;
owners' and trade figures as named. Pounds and inches go through as plain numbers.
"""

import pytest

from generator.calc.sums import sums
from generator.calc.topics.axles import HITCH, SHARE, SPRUNG_GROUP
from generator.calc.topics.masses import state_masses
from generator.calc.trials import Trials
from generator.model.states import STATES, aboard
from generator.model.types import Item, Model
from generator.reference.load import reference

DATA = reference()


def two_supports(loads, front, rear):
    """Load on the front support (the ball's place) and on the rear one (the axles' place); loads are (weight,
    station)."""
    items = tuple(
        Item(f"i{n}", "load", "shell", float(m), m, m, "sure", "measured", float(x), float(x), 0.0, 0.0, aboard("bare"))
        for n, (m, x) in enumerate(loads)
    )
    model = Model(None, STATES, items, (), (rear,))
    at = state_masses(model, sums(model, Trials(count=0), DATA))["travel"]
    group = SPRUNG_GROUP.of(
        at.fixed_mass.values, at.fixed_x.values, front, at.moving_mass.values, at.moving_x.values, rear
    )
    ball = HITCH.of(at.fixed_mass.values, at.moving_mass.values, group)
    return float(ball[0]), float(group[0])


def test_car_with_52_percent_on_its_front_wheels():
    """OpenStax ex. 12.1: wheelbase 2.5 m, 52 % in front: centre 1.3 m ahead of the rear axle."""
    front, rear = two_supports([(1.0, 1.2)], 0.0, 2.5)
    assert (front, rear) == pytest.approx((0.52, 0.48))


def test_forearm_reverses_the_joint():
    """OpenStax: 50 lb at 13.0 in, muscle at 1.5 in: 433.3 lb up there, and the joint is pulled down, -383.3 lb."""
    joint, muscle = two_supports([(50.0, 13.0)], 0.0, 1.5)
    assert (joint, muscle) == pytest.approx((-383.3, 433.3), abs=0.05)


def test_stick_in_balance():
    """OpenStax: 75 g at 40, 50 g at 70 cm and the stick's 150 g at 20 cm left of the support, 316 2/3 g at 30 cm
    right: the far
    support carries nothing, the middle one all, 5.8 N."""
    far, middle = two_supports([(0.075, -0.40), (0.050, -0.70), (0.150, -0.20), (0.95 / 3, 0.30)], -1.0, 0.0)
    assert far == pytest.approx(0.0, abs=1e-12)
    assert middle * 9.8 == pytest.approx(5.8, abs=0.05)


def test_car_of_1800_kg():
    """NCERT Physics XI: 1 800 kg, axles 1.8 m apart, centre 1.05 m behind the front one, g 9.8: 3 675 N each front
    wheel, 5 145 N rear."""
    front, rear = two_supports([(1800.0, 1.05)], 0.0, 1.8)
    assert (front * 9.8 / 2, rear * 9.8 / 2) == pytest.approx((3675.0, 5145.0))


def test_truck_with_two_crates():
    """Beer & Johnston 4.1: 1 400 kg truck, crates of 350 kg at 2.05 and 3.75 m (behind the rear axle): rear 6.07,
    front 4.24 kN a
    wheel; printed 4.23 in the book, 4.24 in the slides."""
    front, rear = two_supports([(1400.0, 1.2)], 0.0, 3.0)
    assert (front * 9.81e-3, rear * 9.81e-3) == pytest.approx((8.24, 5.494), abs=0.005)
    front, rear = two_supports([(1400.0, 1.2), (350.0, 2.05), (350.0, 3.75)], 0.0, 3.0)
    assert (front * 9.81e-3 / 2, rear * 9.81e-3 / 2) == pytest.approx((4.235, 6.07), abs=0.006)


def test_truck_and_trailer():
    """Beer & Johnston 6.95 (dimensions and answers MEM): trailer 2 400 lb, axle 2 ft behind its centre, ball 9 ft
    ahead of it;
    982 lb a trailer wheel, ball 436.4 lb; truck rear 935, front 733 lb a wheel; changes +291 and -72.7 lb."""
    ball, group = two_supports([(2400.0, 9.0)], 0.0, 11.0)
    assert (ball, group / 2) == pytest.approx((436.4, 982.0), abs=0.5)
    front, rear = two_supports([(2900.0, 4.0), (ball, 12.0)], 0.0, 9.0)
    assert (front / 2, rear / 2) == pytest.approx((733.0, 935.0), abs=0.5)
    bare = two_supports([(2900.0, 4.0)], 0.0, 9.0)
    assert (front - bare[0]) / 2 == pytest.approx(-72.7, abs=0.05)
    assert (rear - bare[1]) / 2 == pytest.approx(291.0, abs=0.5)


def test_pickup_with_equal_axles():
    """Meriam-type problem: 3 020 lb at 45 in of 112, 437.1 lb at 20 in behind the rear axle make both axles equal."""
    front, rear = two_supports([(3020.0, 45.0), (437.1, 132.0)], 0.0, 112.0)
    assert front == pytest.approx(rear, abs=0.1)


def test_jazar_static_wheel_loads():
    """Jazar ch. 2: 890 kg, centre 0.78 m behind the front axle, wheelbase 2.35 m: 2 916.5 N a front wheel, 1 449 N a
    rear one; and
    backwards: 2 000 and 1 800 N on 2.34 m put the centre 1.1084 m behind the front axle."""
    front, rear = two_supports([(890.0, 0.78)], 0.0, 2.35)
    assert (front * 9.81 / 2, rear * 9.81 / 2) == pytest.approx((2916.5, 1449.0), abs=0.05)
    front, rear = two_supports([(3800.0, 1.1084)], 0.0, 2.34)
    assert (front, rear) == pytest.approx((2000.0, 1800.0), abs=0.1)


def trailer_with_tongue(ball_to_axle, weight, tongue):
    """Station of the centre behind the ball that gives this tongue load."""
    return ball_to_axle * (weight - tongue) / weight


def test_tongue_share_printed_wrong_in_the_trade_press():
    """Ball to axle 100 in, load centre 88 in, empty 800 lb with 80 on the tongue, gross 2 500: 284 lb is right, the
    printed 11.86 %
    is not: 11.36 %."""
    tongue, _ = two_supports([(800.0, trailer_with_tongue(100.0, 800.0, 80.0)), (1700.0, 88.0)], 0.0, 100.0)
    assert tongue == pytest.approx(284.0)
    assert SHARE.of(tongue, 2500.0) == pytest.approx(0.1136, abs=5e-5)
    assert abs(SHARE.of(tongue, 2500.0) - 0.1186) > 0.004


@pytest.mark.parametrize(("forward", "tongue"), [(2, 362), (3, 343), (4, 323)])
def test_axle_moved_forward(forward, tongue):
    """Owner's figures: 4 000 lb, 400 on the tongue, ball to axle 16 ft; axle 2, 3, 4 in forward."""
    found, _ = two_supports([(4000.0, trailer_with_tongue(192.0, 4000.0, 400.0))], 0.0, 192.0 - forward)
    assert found == pytest.approx(tongue, abs=0.5)


@pytest.mark.parametrize(
    ("tongue", "wheels", "distance", "rule", "left", "exact"),
    [(1025, 7200, 264, -6.50, 0.1025, -7.22), (300, 8200, 264, 17.0, 0.0937, 18.98)],
)
def test_axle_move_rule_is_not_statics(tongue, wheels, distance, rule, left, exact):
    """Parts-counter rule X = (T - 0.10 W) D/W moves the axle 6.5 in (17 in): the share is then 10.25 % (9.37 %), not
    10 %; exact is
    D (T - 0.1 W)/(0.9 W) = 7.22 (18.98) in. With W the weight on the ground (tongue and wheels)."""
    weight = tongue + wheels
    x_g = distance * wheels / weight

    def share(move):
        ball, _ = two_supports([(float(weight), x_g)], 0.0, distance + move)
        return SHARE.of(ball, weight)

    assert share(exact) == pytest.approx(0.10, abs=2e-4)
    assert share(rule) == pytest.approx(left, abs=2e-4)
    assert abs(share(rule) - 0.10) > 0.002


def test_boat_trailer():
    """Owner's figures: tongue 280, wheels 2 820, 180 in: centre 16 in ahead of the axle."""
    ball, group = two_supports([(3100.0, 163.74)], 0.0, 180.0)
    assert (ball, group) == pytest.approx((280.0, 2820.0), abs=0.5)


def test_load_behind_the_axle_lightens_the_tongue():
    """Owner's figures: 100 lb 10 ft behind the axle, coupler 12 ft ahead: 400 becomes 316.7 lb."""
    before = [(4000.0, trailer_with_tongue(12.0, 4000.0, 400.0))]
    assert two_supports(before, 0.0, 12.0)[0] == pytest.approx(400.0)
    assert two_supports([*before, (100.0, 22.0)], 0.0, 12.0)[0] == pytest.approx(316.7, abs=0.05)


def test_cargo_behind_the_axle_lifts_the_ball():
    """220 kg trailer, centre 1.85 m, axle 2.15 m behind the ball: 301.1 N; 540 kg at 3.30 m turn it to -2 532.3 N;
    zero where the
    540 kg sits at 2.272 m (recomputed from a physics problem's statement, g 9.81)."""
    assert two_supports([(220.0, 1.85)], 0.0, 2.15)[0] * 9.81 == pytest.approx(301.1, abs=0.05)
    assert two_supports([(220.0, 1.85), (540.0, 3.30)], 0.0, 2.15)[0] * 9.81 == pytest.approx(-2532.3, abs=0.1)
    assert two_supports([(220.0, 1.85), (540.0, 2.2722)], 0.0, 2.15)[0] == pytest.approx(0.0, abs=0.02)


def test_load_summary_example():
    """Common practice, no source: 14 000 lb with its centre 205 in behind the ball and the axles 240 in behind: 11
    958 on the axles,
    2 042 on the ball, 14.6 %."""
    ball, group = two_supports([(14_000.0, 205.0)], 0.0, 240.0)
    assert (round(group), round(ball)) == (11_958, 2_042)
    assert SHARE.of(ball, 14_000.0) == pytest.approx(0.146, abs=5e-4)


@pytest.mark.parametrize(("station", "change"), [(60.0, 75.0), (300.0, -25.0)])
def test_moved_hundred_pounds(station, change):
    """100 lb added s behind the ball changes its load by 100 (1 - s/L): L 240 in, s 60: +75; s 300: -25 lb (worked
    for the trade)."""
    before = [(10_000.0, 200.0)]
    ball = two_supports(before, 0.0, 240.0)[0]
    assert two_supports([*before, (100.0, station)], 0.0, 240.0)[0] - ball == pytest.approx(change)
