"""Power on the steepest grade, on the scratch design."""

import math

import pytest
import scratch
from road_found import check, found, nominal, states_of

from generator.calc.topics.grade import grade

POWER = {"vehicle.power": "300 kW"}


def test_resistance_times_speed():
    """Written out once more: grade, rolling and drag of the heaviest state at 45 mph on 6 %."""
    _, states = states_of(scratch.spec())
    mass = max(float(t.mass.values[0]) for t in states) + 2250 + 1650 + 150
    v, area = 45 * 0.44704, 2.55 * (2.65 + 0.23)
    drag = 0.5 * 1.225 * v**2 * area
    want = (9.80665 * mass * (math.sin(math.atan(0.06)) + 0.012) + drag) * v
    assert nominal(found(grade), "grade.power") == pytest.approx(want, rel=1e-5)


def test_an_engine_nobody_stated_is_named():
    assert check(found(grade), "grade.power").outcome.inputs == ("tow.yaml vehicle.power",)
    assert check(found(grade, with_tow=False), "grade.power").outcome.inputs == ("tow.yaml",)


def test_a_strong_engine_passes_and_a_weak_one_fails():
    assert check(found(grade, tow=POWER), "grade.power").status == "pass"
    assert check(found(grade, tow={"vehicle.power": "150 kW"}), "grade.power").status == "fail"


def test_thin_air_takes_power_and_less_drag():
    low = check(found(grade, tow=POWER), "grade.power").outcome
    high = check(found(grade, tow=POWER, project={"use.altitude": "3000 m"}), "grade.power").outcome
    assert high.limit.value == pytest.approx(low.limit.value * 0.9093 / 1.225, rel=1e-3)
    assert high.demand.value < low.demand.value


def test_measured_drag_and_area_replace_the_assumed_ones():
    of = found(grade, tow=POWER | {"vehicle.frontal_area": "9 m2", "vehicle.drag": "0.8"})
    assert "grade.drag" not in check(of, "grade.power").outcome.rests_on
    assert nominal(of, "grade.power") != nominal(found(grade), "grade.power")


@pytest.mark.parametrize("altitude", ["0 m", "60 km"])
def test_no_altitude_breaks_it(altitude):
    outcome = check(found(grade, tow=POWER, project={"use.altitude": altitude}), "grade.power")
    assert outcome.status == ("pass" if altitude == "0 m" else "not assessed")
