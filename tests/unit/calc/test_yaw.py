"""Swaying on the scratch design: honest status, and what makes it worse."""

import math

import pytest
import scratch
from road_found import check, found, nominal, quantity, states_of

from generator.calc.record import Basis
from generator.calc.topics.yaw import yaw
from generator.calc.trials import Trials

SAID = {"tow": {"vehicle.tyre_cornering": "7", "vehicle.yaw_index": "1.05"},
        "trailer": {"running_gear.tyre.cornering": "6"}}
"""Everything stated, with the values of the defaults."""
TAIL = {"items.3.front": "7 m", "items.3.mass": "1900 kg"}
SOFT = {"running_gear.tyre.cornering": "2"}


def test_tyres_from_memory_are_reviewed_at_best():
    of = found(yaw)
    assert check(of, "stability.damping").status == "review"
    assert check(of, "stability.damping").outcome.demand.value > 0.1
    assert {"yaw.cornering_tow", "yaw.cornering_trailer"} <= check(of, "stability.damping").outcome.rests_on


def test_with_everything_stated_it_can_pass_and_the_number_is_the_same():
    of = found(yaw, **SAID)
    assert check(of, "stability.damping").status == "pass"
    assert nominal(of, "stability.damping") == pytest.approx(nominal(found(yaw), "stability.damping"))


@pytest.mark.parametrize("left_out", [("tow", "vehicle.tyre_cornering"), ("tow", "vehicle.yaw_index"),
                                      ("trailer", "running_gear.tyre.cornering")])
def test_one_thing_from_memory_is_enough_for_a_review(left_out):
    root, path = left_out
    changes = {r: {p: v for p, v in c.items() if (r, p) != (root, path)} for r, c in SAID.items()}
    assert check(found(yaw, **changes), "stability.damping").status == "review"


def test_without_a_tow_vehicle_nothing_is_assessed_and_a_reference_serves_for_comparing():
    of = found(yaw, with_tow=False)
    assert check(of, "stability.damping").outcome.inputs == ("tow.yaml",)
    assert math.isnan(nominal(of, "stability.damping"))
    assert math.isnan(nominal(of, "stability.critical_speed"))
    assert 0.0 < nominal(of, "stability.reference_damping") < 1.0
    assert "for comparing options only" in quantity(of, "stability.reference_speed").title
    assert not [q for q in found(yaw).quantities if "reference" in q.id]


def test_an_unknown_mass_passes_nothing():
    of = found(yaw, weights={"items.3.mass": "unknown"})
    assert check(of, "stability.damping").status == "not assessed"
    assert math.isnan(nominal(of, "stability.yaw_index"))


def test_an_unknown_width_is_named_by_the_swaying_it_alone_spoils():
    of = found(yaw, trailer={"running_gear.axles.0.hub_face": "unknown"})
    assert check(of, "stability.damping").outcome.inputs == ("axle.1",)


def test_mass_at_the_tail_takes_damping_away():
    plain, tail = found(yaw, **SAID), found(yaw, weights=TAIL, **SAID)
    assert nominal(tail, "stability.damping") < nominal(plain, "stability.damping")
    assert nominal(tail, "stability.yaw_index") > nominal(plain, "stability.yaw_index")


def test_more_speed_takes_damping_away():
    slow = found(yaw, project={"use.top_speed": "80 km/h"})
    fast = found(yaw, project={"use.top_speed": "140 km/h"})
    assert nominal(slow, "stability.damping") > nominal(fast, "stability.damping")


def test_no_speed_without_damping_is_an_answer():
    of = quantity(found(yaw), "stability.critical_speed")
    assert of.nominal == pytest.approx(200 / 3.6)
    assert of.title.endswith("up to")
    soft = quantity(found(yaw, trailer=SOFT, weights=TAIL), "stability.critical_speed")
    assert soft.nominal < 200 / 3.6
    assert soft.title.startswith("Speed at which")


def test_a_trailer_that_sways_at_its_top_speed_fails():
    assert check(found(yaw, trailer=SOFT, weights=TAIL), "stability.damping").status == "fail"


def test_the_band_of_the_tyres_brackets_the_speed():
    of = quantity(
        found(yaw, weights=TAIL, trailer={"running_gear.tyre.cornering": "2 to 5"}), "stability.critical_speed"
    )
    assert of.low < of.nominal < of.high
    assert of.basis is Basis.MEMORY


def test_the_governing_state_is_the_one_least_damped():
    _, states = states_of(scratch.spec())
    assert check(found(yaw), "stability.damping").state in {t.state.id for t in states}
    spread = quantity(found(yaw, Trials(count=400)), "stability.damping")
    assert spread.low < spread.nominal < spread.high
