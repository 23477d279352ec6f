"""Neck geometry against worked sets of a shop's practice (common practice, no source; computed by hand, in inches)."""

import numpy as np
import pytest

from generator.calc.topics import neck as nk
from generator.calc.topics.neck_window import HIGH_LIMIT
from generator.calc.topics.swing import CAB_ROOM, NOSE_REACH, QUARTER, free_yaw


@pytest.mark.parametrize(
    ("f", "w", "cab", "margin", "degrees"),
    [(36, 96, 56, 4, 23.20), (24, 96, 48, 4, 28.51), (12, 96, 52, 4, 61.93), (0, 102, 44, 4, 51.66)],
)
def test_yaw_at_which_the_nose_meets_the_cab(f, w, cab, margin, degrees):
    yaw = free_yaw(np.array([f]), np.array([w]), np.array([cab]), np.array([margin]))
    assert np.degrees(yaw[0]) == pytest.approx(degrees, abs=0.006)
    with np.errstate(divide="ignore"):
        reach = NOSE_REACH.of(f=np.array([float(f)]), w=np.array([float(w)]), psi=yaw)
    assert CAB_ROOM.of(d_c=cab, r=reach)[0] == pytest.approx(margin, abs=1e-9)


def test_a_nose_within_the_room_never_meets_the_cab():
    """(36, 96, 64, 4): corner radius 60.0 at 53.13 degrees, room 60: clear to a right angle."""
    assert np.hypot(36, 48) == pytest.approx(60.0)
    assert np.degrees(np.arctan2(48, 36)) == pytest.approx(53.13, abs=0.005)
    assert free_yaw(np.array([36]), np.array([96]), np.array([64]), np.array([4]))[0] == QUARTER


def test_a_nose_longer_than_the_room_meets_it_straight():
    assert free_yaw(np.array([50]), np.array([96]), np.array([52]), np.array([4]))[0] == 0.0


def test_reach_grows_to_the_corner_and_stays():
    yaws = np.radians([0, 20, 40, 53.13, 70, 90])
    reach = NOSE_REACH.of(f=36.0, w=96.0, psi=yaws)
    assert reach[0] == pytest.approx(36.0)
    assert (np.diff(reach) >= -1e-9).all()
    assert reach[-1] == pytest.approx(60.0, abs=1e-6)


@pytest.mark.parametrize(("degrees", "loss"), [(3, 2.62), (5, 4.37), (7, 6.14)])
def test_rail_gap_lost_under_pitch(degrees, loss):
    """Rail end 50 in from the ball; a 6 in gap is gone at 6.84 degrees."""
    level = nk.GAP_LEVEL.of(z_u=64.0, z_b=58.0)
    assert level - nk.GAP_PITCHED.of(z_u=64.0, z_b=58.0, d=50.0, phi=np.radians(degrees)) == pytest.approx(
        loss, abs=0.006
    )
    assert nk.GAP_PITCHED.of(z_u=64.0, z_b=58.0, d=50.0, phi=np.radians(6.84)) == pytest.approx(0.0, abs=0.01)


def test_headroom_over_a_neck():
    """162 - 2 - 8 - (58 + 6 + 10 + 3) = 75 in; and the same chain solved for the underside."""
    room = nk.ROOM_LEFT.of(z_lim=162.0, margin=2.0, rise=0.0, roof=8.0, z_u=64.0, depth=10.0, floor=3.0)
    assert room == pytest.approx(75.0)
    assert HIGH_LIMIT.of(
        z_lim=162.0, margin=2.0, rise=0.0, roof=8.0, room=75.0, floor=3.0, depth=10.0
    ) == pytest.approx(64.0)
