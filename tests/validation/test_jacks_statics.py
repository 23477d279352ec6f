"""A nose jack by plain statics (moments about the axle), a worked set in pounds and inches: 10 000 lb 211.2 in behind
the ball, one axle at 240 in, jack at 12 in: ball 1 200 lb, jack 1 263.2 lb; nose raised 12 in, centre 60 in and spindle
14 in high: 3.017 degrees, 1 156.8 lb. Recomputed by an independent program."""

import numpy as np
import pytest

from generator.calc.topics.jack_rig import Rig

WEIGHT, CENTRE, AXLE, JACK = 10_000.0, 211.2, 240.0, 12.0


def rig(rate=1e9, above=0.0):
    """Pounds and inches: statics knows no units."""
    carried = WEIGHT * CENTRE / AXLE
    return Rig(
        np.array([AXLE]),
        np.array([[rate]]),
        np.array([[0.0]]),
        np.array([carried / rate]),
        np.array([WEIGHT]),
        np.array([CENTRE]),
        np.array([above]),
    )


def test_jack_takes_the_hitch_load_at_a_shorter_arm():
    assert rig().held(JACK, np.zeros(1)).jack[0] == pytest.approx(1263.2, abs=0.05)
    assert rig().held(0.0, np.zeros(1)).jack[0] == pytest.approx(1200.0, abs=0.05)


def test_raised_nose_swings_the_mass_aft_on_one_axle():
    held = rig(above=46.0).held(JACK, np.array([12.0]))
    assert np.degrees(held.pitch[0]) == pytest.approx(3.017, abs=0.01)
    assert held.jack[0] == pytest.approx(1156.8, rel=1e-3)


@pytest.mark.parametrize("station", [0.0, 12.0, 60.0])
def test_reactions_make_up_the_weight(station):
    held = rig().held(station, np.zeros(1))
    assert held.jack[0] + held.axles[0, 0] == pytest.approx(WEIGHT)
