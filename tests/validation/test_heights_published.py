"""Torsion articulation against a published table (maker withheld; read), tyre sizes against their marks, and facts of
the trade (common practice, no source)."""

import numpy as np
import pytest

from generator.calc.topics import suspension as sus
from generator.calc.topics.lateral import TYRE_GAP, marked_diameter
from generator.calc.topics.neck_window import HIGH_LIMIT, LOW_LEVEL
from generator.reference.load import reference

INCH, FOOT = 0.0254, 0.3048
DATA = reference()
TURN, STOP = (DATA.defaults[f"torsion.angle_{w}"].value for w in ("rated", "stop"))


def spindle(start, load):
    """Arm height at `load` (share of the rated spring load) of a 6 in arm starting `start` degrees down, inches."""
    alpha = sus.ARM_ANGLE.of(alpha_0=np.radians(start), stop=STOP, turn=TURN, s=1.0, N_m=load, U_m=0.0, G_m=1.0)
    return sus.TUBE_HEIGHT.of(r_t=0.0, R=6.0, alpha=alpha)


@pytest.mark.parametrize(
    ("start", "load", "travel"), [(22.5, 1.0, 2.30), (22.5, 9.9, 3.34), (0.0, 1.0, 2.30), (0.0, 9.9, 3.22)]
)
def test_published_travel_of_a_6_inch_arm(start, load, travel):
    """Start 22.5 degrees down: 2.30 in to full load, 3.34 in to shock load; start level: 2.30 and 3.22 in."""
    assert spindle(start, 0.0) - spindle(start, load) == pytest.approx(travel, abs=0.006)


@pytest.mark.parametrize(("degrees", "forward"), [(22.5, 0.46), (32.5, 0.94)])
def test_published_movement_of_the_wheel_along_the_trailer(degrees, forward):
    """Start level: the wheel moves 0.46 in at full load and 0.94 in at shock load."""
    level, turned = (sus.SPINDLE_AFT.of(R=6.0, alpha=np.radians(a)) for a in (0.0, degrees))
    assert level - turned == pytest.approx(forward, abs=0.006)


def test_mean_rate_of_a_3500_lb_axle_on_that_arm():
    """3 500 lb over 2.296 in: 1 524 lb/in an axle; the tangent rates at both ends bracket it."""
    pounds = 0.45359237 * 9.80665
    ends = [
        2 * sus.WHEEL_RATE.of(s=1.0, G_i=3500 * 0.45359237, U_i=0.0, turn=TURN, R=6 * INCH, alpha=a) / pounds * INCH
        for a in (np.radians(22.5), 0.0)
    ]
    assert min(ends) < 1524 < max(ends)
    assert np.mean(ends) == pytest.approx(1524, rel=0.02)


@pytest.mark.parametrize(
    ("size", "inches"),
    [
        ("205/75R15", 27.11),
        ("225/75R15", 28.29),
        ("ST235/80R16", 30.80),
        ("LT235/85R16", 31.73),
        ("235/75R17.5", 31.38),
    ],
)
def test_tyre_diameter_by_its_mark(size, inches):
    """Rim plus twice width times aspect over 25.4, computed by hand."""
    assert marked_diameter(size) / INCH == pytest.approx(inches, abs=0.006)


def test_spacing_must_leave_two_inches_between_tyres():
    """Common practice, no source: 34 in spacing leaves 3.2 in between 30.8 in tyres; 32 in is too close."""
    assert TYRE_GAP.of(s_a=34.0, D=30.8) == pytest.approx(3.2)
    assert TYRE_GAP.of(s_a=32.0, D=30.8) * INCH < DATA.defaults["tyre.gap"].value


def test_a_deck_two_feet_up_leaves_little_over_eleven_feet():
    """Common practice, no source: 13 ft 6 in less a deck 24 in up, less 3 in of margin and an inch or two of rise."""
    left = HIGH_LIMIT.of(
        z_lim=13.5 * FOOT,
        margin=DATA.defaults["height.margin"].value,
        rise=1.5 * INCH,
        roof=0.0,
        room=0.0,
        floor=0.0,
        depth=24 * INCH,
    )
    assert 11.0 < left / FOOT < 11.5


@pytest.mark.parametrize(("rail", "frame"), [(46.0, 4.0), (54.0, 5.0), (60.0, 6.0)])
def test_a_neck_deck_takes_four_and_a_half_to_six_feet(rail, frame):
    """Common practice, no source: bed rails 46 to 60 in up, the gap over them and 4 to 6 in of frame leave 4.5 to 6 ft
    less to build in over the neck than from the ground."""
    nothing = {"z_lim": 13.5 * FOOT, "margin": 0.0, "rise": 0.0, "roof": 0.0, "room": 0.0, "floor": 0.0}
    low = LOW_LEVEL.of(z_b=rail * INCH, gap=DATA.defaults["neck.rail_gap"].value)
    less = HIGH_LIMIT.of(depth=0.0, **nothing) - (HIGH_LIMIT.of(depth=frame * INCH, **nothing) - low)
    assert 4.5 <= less / FOOT <= 6.0 + 1e-9
