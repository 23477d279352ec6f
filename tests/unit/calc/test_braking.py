"""Braking, pulling away and holding, on the scratch design."""

import math

import pytest
import scratch
from road_found import check, found, nominal, quantity, states_of

from generator.calc.topics.braking import braking
from generator.calc.trials import Trials

IDS = ["brakes.force", "brakes.stop", "brakes.grip", "brakes.breakaway", "pulling.hitch"]
NO_BRAKES = {f"running_gear.axles.{n}.brake": {"type": "none", "size": "none", "rating": "0 kg"} for n in range(3)}


def travel(**changes):
    return next(t for t in states_of(scratch.spec(**changes))[1] if t.state.id == "travel")


def test_a_sound_design_passes():
    of = found(braking)
    assert [c.id for c in of.checks] == IDS
    assert {c.status for c in of.checks} == {"pass"}


def test_brakes_count_for_less_than_half_of_their_axle_rating_and_never_for_more_than_the_grip():
    """Common practice, no source: 45 % of the rating, grip 0.6."""
    weak = {f"running_gear.axles.{n}.brake.rating": "1000 kg" for n in range(3)}
    of, t = found(braking, trailer=weak), travel()
    mass, ball = float(t.mass.values[0]), float(t.hitch.values[0])
    alone = 2250 + 1650 + 150
    want = (0.45 * 3000 + 0.435 * (alone + ball)) / (alone + mass)
    assert nominal(of, "braking.deceleration") == pytest.approx(want)
    strong = {f"running_gear.axles.{n}.brake.rating": "20000 kg" for n in range(3)}
    limit = found(braking, trailer=strong)
    # Grip: 0.6 of what the stop at 43.5 % leaves on the wheels; the load moved is a W z_g over the wheelbase.
    base = float(t.x_a.values[0] - t.x_h.values[0])
    left = mass - ball - 0.435 * mass * float(t.height.values[0]) / base
    want = (0.6 * left + 0.435 * (alone + ball)) / (alone + mass)
    assert nominal(limit, "braking.deceleration") == pytest.approx(want)
    assert check(of, "brakes.force").status == "fail"


def test_brakes_at_their_ratings_are_held_against_the_heaviest_load_on_the_wheels():
    """43.5 % of the load on the trailer's own wheels: 49 CFR 393.52(d). Small brakes fail; grip cannot hide it."""
    states = states_of(scratch.spec())[1]
    heaviest = max(states, key=lambda t: float(t.group.values[0]))
    asked = 0.435 * float(heaviest.group.values[0])
    for kg in (1000.0, 2000.0, 3200.0):
        sized = {f"running_gear.axles.{n}.brake.rating": f"{kg} kg" for n in range(3)}
        outcome = check(found(braking, trailer=sized), "brakes.force")
        assert outcome.state == heaviest.state.id
        assert (outcome.outcome.demand.value, outcome.outcome.limit.value) == pytest.approx((0.45 * 3 * kg, asked))
        assert outcome.status == ("pass" if 0.45 * 3 * kg >= asked else "fail")


def test_over_run_brakes_leave_to_their_maker_what_push_and_lever_give():
    """No controller, and no battery that sets them when the trailer breaks away: nothing is passed on their rating."""
    over_run = {f"running_gear.axles.{n}.brake.type": "over-run" for n in range(3)}
    of = found(braking, trailer=over_run)
    assert [c.id for c in of.checks] == [*IDS[:3], "brakes.overrun", *IDS[3:]]
    for id in ("brakes.overrun", "brakes.breakaway"):
        assert check(of, id).status == "not assessed"
        assert check(of, id).outcome.inputs[0].startswith("the maker's letter")
    said = " ".join(c.about.ask for c in of.checks)
    assert "controller" not in said
    assert "battery" not in said


def test_the_combination_must_reach_the_force_of_the_rule_not_its_distance_alone():
    outcome = check(found(braking), "brakes.stop").outcome
    assert outcome.limit.value == pytest.approx(0.435)


def test_without_brakes_force_and_breakaway_fail_and_the_rest_is_still_worked():
    of = found(braking, trailer=NO_BRAKES)
    assert check(of, "brakes.force").status == check(of, "brakes.breakaway").status == "fail"
    assert check(of, "brakes.breakaway").ratio is None
    assert nominal(of, "braking.deceleration") == nominal(of, "braking.without_trailer") < 0.435
    assert check(of, "pulling.hitch").status == "pass"


def test_a_hard_stop_presses_on_the_ball_and_pulling_away_lifts_it():
    of, t = found(braking), travel()
    assert nominal(of, "braking.hitch") > float(t.hitch.values[0]) > 0.0
    assert nominal(of, "braking.rear_added") == pytest.approx(nominal(of, "braking.hitch") * (4.4 - 0.05) / 4.4)
    assert nominal(of, "braking.push") > 0.0


def test_mountain_roads_are_steeper_unless_the_design_says_how_steep():
    paved = check(found(braking), "brakes.breakaway").outcome.demand.value
    steep = check(found(braking, project={"use.roads": ["mountain"]}), "brakes.breakaway").outcome
    said = check(found(braking, project={"use.steepest_grade": "12 %"}), "brakes.breakaway").outcome
    assert paved < steep.demand.value < said.demand.value
    assert said.demand.value / paved == pytest.approx(math.sin(math.atan(0.12)) / math.sin(math.atan(0.06)))
    assert "grade.steepest_mountain" in steep.rests_on
    assert not {"grade.steepest", "grade.steepest_mountain"} & said.rests_on


def test_a_tail_heavy_trailer_lifts_the_ball_when_pulling_away():
    of = found(braking, weights={"items.3.front": "8 m", "items.3.mass": "6000 kg"})
    assert check(of, "pulling.hitch").status == "fail"


def test_what_is_unknown_is_named_and_passes_nothing():
    of = found(braking, trailer={"running_gear.axles.1.brake.rating": "unknown"})
    for id in ("brakes.force", "brakes.stop", "brakes.breakaway"):
        assert check(of, id).outcome.inputs == ("trailer.yaml running_gear.axles.2.brake.rating",)
    assert check(of, "brakes.grip").status == "pass"
    of = found(braking, project={"use.steepest_grade": "unknown"})
    assert check(of, "brakes.breakaway").outcome.inputs == ("project.yaml use.steepest_grade",)


def test_without_a_tow_vehicle_the_trailer_is_still_looked_at():
    of = found(braking, with_tow=False)
    assert [c.status for c in of.checks] == ["pass", "not assessed", "pass", "pass", "pass"]
    assert check(of, "brakes.stop").outcome.inputs == ("tow.yaml",)


def test_chocks_hold_the_house_on_the_slope_of_its_site():
    assert nominal(found(braking), "parked.chocks") == pytest.approx(
        float(travel().mass.values[0]) * math.sin(math.atan(0.01))
    )
    down = scratch.SITE | {"slope_along": "-1 %"}
    assert nominal(found(braking, site=down), "parked.chocks") == nominal(found(braking), "parked.chocks")
    assert not [q for q in found(braking, site=None).quantities if q.id == "parked.chocks"]


def test_trials_spread_the_results_about_the_nominal_ones():
    of = quantity(found(braking, Trials(count=500)), "braking.hitch")
    assert of.low < nominal(found(braking), "braking.hitch") < of.high
