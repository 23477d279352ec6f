"""Side pull that lifts a side, on the scratch design."""

import pytest
import scratch
from road_found import check, found, nominal, states_of

from generator.calc.record import Working
from generator.calc.topics import tilt as ti


def test_springs_and_ball_line_each_take_something_off():
    of = found(ti.tilt)
    values = [nominal(of, f"stability.{id}") for id in ("tilt", "tilt_rigid", "tilt_uncorrected")]
    assert values == sorted(values)
    assert check(of, "stability.tilt").outcome.demand.value == values[0]


def test_the_worst_state_governs():
    _, states = states_of(scratch.spec())
    each = {t.state.id: float(ti.sprung_ratio(Working(), t).values[0]) for t in states}
    of = found(ti.tilt)
    assert nominal(of, "stability.tilt") == min(each.values())
    assert check(of, "stability.tilt").state == min(each, key=each.get)


def test_mass_high_up_and_off_centre_rolls_sooner():
    plain = nominal(found(ti.tilt), "stability.tilt")
    high = nominal(found(ti.tilt, weights={"items.3.height": "2 m"}), "stability.tilt")
    aside = nominal(found(ti.tilt, weights={"items.3.y": "300 mm"}), "stability.tilt")
    other = nominal(found(ti.tilt, weights={"items.3.y": "-300 mm"}), "stability.tilt")
    assert max(high, aside, other) < plain


def test_the_narrowest_track_counts():
    of = found(ti.tilt, trailer={"running_gear.axles.1": scratch.axle(hub_face="1.9 m")})
    assert nominal(of, "stability.tilt_rigid") < nominal(found(ti.tilt), "stability.tilt_rigid")


def test_roll_stiffness_is_a_quarter_of_rate_times_track_squared():
    _, states = states_of(scratch.spec())
    t = states[3]
    want = sum(float(k.values[0]) for k in t.rates) * 2.1**2 / 4
    assert ti.roll_stiffness(Working(), t.rates, t.tracks).values[0] == pytest.approx(want)


def test_a_narrow_tall_trailer_fails_and_an_unknown_height_passes_nothing():
    narrow = {f"running_gear.axles.{n}.hub_face": "1100 mm" for n in range(3)}
    assert check(found(ti.tilt, trailer=narrow), "stability.tilt").status == "fail"
    of = found(ti.tilt, weights={"items.3.height": "unknown"})
    assert check(of, "stability.tilt").status == "not assessed"
    assert check(of, "stability.tilt").outcome.inputs == ("fit-out",)
