"""Yaw free of the tow vehicle against plane outlines turned in small steps: another way to the same angle."""

import numpy as np
import pytest
import scratch
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from generator.calc.record import Missing
from generator.calc.topics.tongue_swing import HALF_TURN, Rear, face_yaw, leg_yaw, point_yaw, tongue_swing
from generator.calc.trials import Trials
from generator.model.resolve import resolve

SURE = Trials(count=0)
STEP = np.radians(0.05)
YAWS = np.arange(0.0, np.pi, STEP)


def turned(points):
    """Points (aft, aside) of the trailer at every yaw, seen from the tow vehicle."""
    aft, aside = np.asarray(points, dtype=float).T
    c, s = np.cos(YAWS)[:, None], np.sin(YAWS)[:, None]
    return aft * c - aside * s, aft * s + aside * c


def first_inside(points, ahead, half, long=6.0):
    """First yaw at which one of the points stands inside the outline of the vehicle, a rectangle ahead of the ball."""
    aft, aside = turned(points)
    inside = (aft < -ahead) & (aft > -ahead - long) & (np.abs(aside) < half)
    hit = inside.any(axis=1)
    return YAWS[hit.argmax()] if hit.any() else np.pi


def one(value):
    return np.array([value])


SIZE = st.floats(0.1, 1.4)


@given(SIZE, SIZE, st.floats(0.2, 3.0), SIZE)
@settings(max_examples=80, deadline=None)
def test_front_of_the_house_meets_the_vehicle_where_its_outline_does(ahead, half, aft, width):
    """The front face as 2000 points; its corner or the vehicle's corner, whichever comes first."""
    edge = [(aft, v) for v in np.linspace(-width, width, 2000)]
    seen = first_inside(edge, ahead, half)
    rear = Rear(one(ahead), one(half))
    worked = min(point_yaw(rear, one(aft), one(width))[0], face_yaw(rear, one(aft), one(width))[0])
    assume(seen < np.pi - 0.1)
    assert worked - 1e-9 <= seen <= worked + 0.15


@given(st.floats(0.2, 0.8), st.floats(0.6, 1.1), st.floats(0.0, 0.3), st.floats(0.0, 0.5), st.floats(1.2, 2.5))
@settings(max_examples=80, deadline=None)
def test_a_leg_meets_the_corner_where_its_outline_does(ahead, half, at_ball, rate, aft):
    leg = [(u, at_ball + rate * u) for u in np.linspace(0.0, aft, 3000)]
    seen = first_inside(leg, ahead, half)
    rear = Rear(one(ahead), one(half))
    worked = min(leg_yaw(rear, one(at_ball), one(rate), one(aft))[0], point_yaw(rear, one(0.0), one(at_ball))[0])
    assume(worked < HALF_TURN)
    assert seen == pytest.approx(worked, abs=0.01)


def test_a_straight_rail_beside_a_wide_bumper_lies_on_it_at_a_right_angle():
    """Half the tongue's breadth equals ball to bumper: turned a quarter, the rail lies on the bumper."""
    assert leg_yaw(Rear(one(0.3), one(0.9)), one(0.3), one(0.0), one(2.0))[0] == pytest.approx(np.pi / 2)


def test_a_long_tongue_never_brings_the_house_to_the_vehicle():
    """Corner of the vehicle 1.03 m from the ball, front of the house 2 m."""
    rear = Rear(one(0.5), one(0.9))
    assert face_yaw(rear, one(2.0), one(1.25))[0] == HALF_TURN


def found(tow=None):
    bare = scratch.BALL | {"jacks": []}
    model = resolve(scratch.spec(trailer=bare, tow=tow or {}, house={"front": "0 m"}), scratch.DATA)
    part = model.spec.trailer.tongue
    assert part is not None
    return tongue_swing(model, part, SURE, scratch.DATA)


MEASURED = {"vehicle.ball_to_bumper": "350 mm", "vehicle.bumper_half_width": "950 mm"}


def test_what_is_not_measured_is_not_assessed_and_named():
    (check,) = found().checks
    assert isinstance(check.outcome, Missing)
    assert set(check.outcome.inputs) == {"tow.yaml vehicle.ball_to_bumper", "tow.yaml vehicle.bumper_half_width"}


def test_a_leg_on_the_scratch_design_by_hand():
    """Middle of a leg 350 mm off at station -650: at the ball, 750 mm further ahead, 350 - tan 25 deg 750 = 0.3 mm.

    C6x8.2 is 1.92 in wide, over cos 25 deg half of it 26.9 mm. Corner of the rear end, margin 101.6 mm off: 248.4 mm
    ahead, 1051.6 mm out.
    """
    (check,) = found(MEASURED).checks
    out = 0.35 - np.tan(np.radians(25)) * 0.75 + 0.0254 * 1.92 / 2 / np.cos(np.radians(25))
    at = np.radians(25) + np.arcsin(out * np.cos(np.radians(25)) / np.hypot(0.2484, 1.0516))
    by_leg = np.pi - np.arctan2(1.0516, 0.2484) - at
    assert check.outcome.demand.value == pytest.approx(by_leg, abs=1e-4)
    assert found(MEASURED).quantities[0].nominal == check.outcome.demand.value


def test_a_longer_ball_mount_gives_more_yaw():
    yaws = [found(MEASURED | {"vehicle.ball_to_bumper": f"{d} mm"}).quantities[0].nominal for d in (250, 400, 600)]
    assert yaws == sorted(yaws)
    assert yaws[0] < yaws[-1]
