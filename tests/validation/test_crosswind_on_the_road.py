"""A gust from the side.

Rule of the trade as used by travellers (arithmetic of it, no source): a gust that takes half the windward load off a
standing trailer of 14 000 lb, track 7 ft, side 322 ft2 centred 7.75 ft up, coefficient 1.3, pressure 0.00256 V2: 54
mph.
A trailer of 3 000 kg, side 7.2 by 3.0 m, on the road at 22.352 m/s: independent hand program. Wind pressure: 25.6 psf
at 100 mph by the rounded 0.00256, 25.57 psf by standard air.
"""

import numpy as np
import pytest
from road_sample import towed

from generator.calc.record import Quantity, Working, sure
from generator.calc.topics import wind_on_road as wr
from generator.calc.trials import Trials
from generator.reference.load import reference

DATA = reference()
FOOT, POUND, MPH, PSF = 0.3048, 0.45359237, 0.44704, 47.88025898033584


def seen(area, x, zeta):
    return wr.Side(sure("A_s", area, "m2"), sure("x_c", x, "m"), sure("zeta", zeta, "m"), sure("zeta_t", 2 * zeta, "m"))


def tip(t, side):
    return wr.tip_speed(Working(), t, side, Trials(count=0), DATA).values[0]


def test_air_brought_to_rest():
    assert DATA.defaults["air.reference_pressure"].value / PSF == pytest.approx(25.57, abs=0.006)
    assert DATA.defaults["air.reference_pressure"].value / PSF == pytest.approx(0.00256 * 100**2, rel=2e-3)


def test_rule_of_travellers_for_a_standing_trailer():
    speed = wr.TIP_SPEED.of(
        v_1=100 * MPH, A=14_000 * POUND, t=7 * FOOT, q_1=25.6 * PSF, C_s=1.3, A_s=322 * FOOT**2, c=7.75 * FOOT
    )
    assert wr.GUST.of(V=0.0, q=0.5, v_c=speed) / MPH == pytest.approx(54.0, abs=0.5)


def test_tip_speed_standing_still():
    t = towed(3000.0, 3.10, -1.4, 3.8, 1.6, 0.50)
    assert tip(t, seen(7.2 * 3.0, 3.6, 2.45)) == pytest.approx(25.685, abs=0.0006)


@pytest.mark.parametrize(("q", "gust"), [(1.0, 21.346), (0.5, 12.805)])
def test_gusts_on_the_road(q, gust):
    assert wr.GUST.of(V=22.352, q=q, v_c=25.685) == pytest.approx(gust, abs=0.0015)


def test_half_unloading_in_miles_an_hour():
    assert wr.GUST.of(V=22.352, q=0.5, v_c=25.685) / MPH == pytest.approx(28.645, abs=0.003)


@pytest.mark.parametrize("V", [0.0, 15.0, 30.0])
def test_the_gust_makes_the_side_force_that_lifts(V):
    """Substituted back: resultant speed times wind is the square of the standing tip speed."""
    v_c = 26.0
    wind = wr.GUST.of(V=V, q=1.0, v_c=v_c)
    assert wind * np.hypot(V, wind) == pytest.approx(v_c**2, rel=1e-12)


def test_a_higher_centre_needs_less_wind():
    t = towed(3000.0, 3.10, -1.4, 3.8, 1.6, 0.50)
    assert tip(t, seen(21.6, 3.6, 3.0)) < tip(t, seen(21.6, 3.6, 2.45))
    assert isinstance(t.track, Quantity)
