"""Weighings of known answer: from axle readings to gross, hitch load and centre; what a moved mass changes.

Sources beside each. Pounds and inches stand as plain numbers: the statics do not ask.
"""

from dataclasses import replace
from pathlib import Path

import pytest
from ticket_sample import three, weighing

from generator.calc.record import Working, sure
from generator.calc.run import work
from generator.calc.topics.scale_card import MOVE
from generator.calc.topics.weighings import WEIGHED_CENTRE, solve
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.read import read_spec

DATA = reference()
HERON = Path(__file__).parents[2] / "specs" / "heron"


@pytest.fixture(scope="module")
def heron():
    model = resolve(read_spec(HERON), DATA)
    return model, work(model, DATA, Trials(count=0)).loads["travel"]


def nominal(q):
    return float(q.values[0])


def test_three_weighings(heron):
    """Common practice of weighing with load-spreading bars, figures of the project's own: alone 4 200 and 3 400; bars
    slack 3 900, 5 300, 9 900; bars set 4 080, 4 960, 10 060: gross 11 500, ball 1 600 (13.9 %), 160 moved to the
    trailer's axles, 60 % of the steer axle's loss restored; 240 in from ball to axles put the centre at 206.61 in.
    """
    model, loads = heron
    level = replace(loads, x_h=sure("x_h", 0.0, "m"), x_a=sure("x_a", 240.0, "m"))
    weighings = three(3900, 5300, 9900, (4200, 3400))
    bars = {"hitched": three(4080, 4960, 10060, (1, 1))["hitched"], "slack": weighings["hitched"]}
    found = solve(weighing(**bars, alone=weighings["alone"]), model, level, Trials(count=0), DATA)
    assert nominal(found.gross) == pytest.approx(11_500)
    assert nominal(found.hitch) == pytest.approx(1_600)
    assert nominal(found.share) == pytest.approx(0.139, abs=5e-4)
    assert nominal(found.x) == pytest.approx(206.61, abs=0.005)
    assert nominal(found.moved) == pytest.approx(160)
    assert nominal(found.restored) == pytest.approx(0.60)
    assert nominal(found.heaviest) == pytest.approx(10_060)  # rated by the larger of both readings
    # gross trailer is also all axles together (slack) less the tow vehicle alone: the same thing, no second witness
    assert nominal(found.gross) == pytest.approx(3900 + 5300 + 9900 - 4200 - 3400)


def test_two_scale_weighing():
    """FAA-H-8083-1, calculator example (copy): far support 340 lb at -78 in from the main axle, 2 006 lb together:
    centre -13.2 in; the axle 128 in from datum puts it at 114.8 (the last from memory).
    """
    for axle, centre in ((0.0, -13.2), (128.0, 114.8)):
        x = Working()(
            WEIGHED_CENTRE,
            x_h=sure("x_h", axle - 78.0, "m"),
            x_a=sure("x_a", axle, "m"),
            T_2=sure("T_2", 2006.0 - 340.0, "kg"),
            W=sure("W", 2006.0, "kg"),
        )
        assert nominal(x) == pytest.approx(centre, abs=0.05)


@pytest.mark.parametrize(
    ("mass", "behind", "reach", "change"),
    [
        (100, 60, 240, 75),  # project's own: 100 lb 60 in behind the ball, 240 in to the axles
        (100, 300, 240, -25),  # and 60 in behind the axles
        (100, 22 * 12, 12 * 12, 316.7 - 400),  # owner's worked figures: 10 ft behind axles 12 ft behind the ball
    ],
)
def test_moved_mass(mass, behind, reach, change):
    given = {"m": sure("m", mass, "kg"), "s": sure("s", behind, "m"), "u": sure("u", reach, "m")}
    assert nominal(Working()(MOVE, **given)) == pytest.approx(change, abs=0.05)


def test_error_of_a_hitch_load_is_that_of_four_readings(heron):
    """Project's own: a scale of 20 lb steps errs by 20/sqrt(12) lb = 2.6188 kg, the ball by twice that; what fuel and
    people add is a floor of 10 kg.
    """
    model, loads = heron
    readings = three(1900, 2200, 2300, (2000, 1400))
    found = solve(weighing(**readings, graduation="20 lb"), model, loads, Trials(count=0), DATA)
    gross, hitch = found.readings
    assert hitch.error == 10.0
    assert gross.error == pytest.approx((2.6188**2 + 100) ** 0.5, abs=5e-5)
    assert found.noise[0, 1] == found.noise[1, 1] == pytest.approx(100.0)
    coarse = solve(weighing(**readings, graduation="100 lb"), model, loads, Trials(count=0), DATA)
    assert coarse.readings[1].error == pytest.approx(10 * 2.6188, abs=5e-4)


def test_spread_of_a_weighed_trailer_is_that_of_its_readings(heron):
    model, loads = heron
    found = solve(weighing(**three(1900, 2200, 2300, (2000, 1400))), model, loads, Trials(), DATA)
    for reading in found.readings:
        trials = reading.value.values[1:]
        assert trials.std() == pytest.approx(reading.error, rel=4 / (2 * trials.size) ** 0.5)
