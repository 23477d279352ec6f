"""Spring bars, only where the design says there are any."""

from pathlib import Path

import pytest
import scratch
from road_found import check, nominal, states_of

from generator.calc.topics.weight_distribution import weight_distribution
from generator.calc.trials import Trials
from generator.design import design

BARS = {"vehicle.front_restoration": "50 %", "vehicle.hitch_behind_rear_axle": "1300 mm"}


def bars(**changes):
    model, states = states_of(scratch.spec(**changes))
    return weight_distribution(model, states, Trials(count=0)), states


def test_nothing_is_said_without_bars_or_over_a_ball_ahead_of_the_axle():
    for changes in ({}, {"tow": {"vehicle.front_restoration": "50 %"}}, {"with_tow": False}):
        of, _ = bars(**changes)
        assert of.quantities == of.checks == ()


def test_trailer_axles_carry_more_and_nothing_is_lost():
    of, states = bars(tow=BARS)
    most = max(states, key=lambda t: float(t.hitch.values[0]))
    group, mass = float(most.group.values[0]), float(most.mass.values[0])
    assert nominal(of, "tow.distributed.group") > group
    total = sum(nominal(of, f"tow.distributed.{id}") for id in ("front", "rear", "group"))
    assert total == pytest.approx(2250 + 1650 + 150 + mass)


def test_more_restored_is_more_on_the_front_axle():
    less, more = (bars(tow=BARS | {"vehicle.front_restoration": r})[0] for r in ("20 %", "80 %"))
    assert nominal(more, "tow.distributed.front") > nominal(less, "tow.distributed.front")
    assert nominal(more, "tow.distributed.rear") < nominal(less, "tow.distributed.rear")


def test_axles_that_only_just_carried_it_fail_with_the_bars_on():
    axle = {f"running_gear.axles.{n}.rating": "600 kg" for n in range(3)}
    assert check(bars(tow=BARS, trailer=axle)[0], "tow.distributed.group").status == "fail"
    assert check(bars(tow=BARS)[0], "tow.distributed.group").status == "pass"


def test_unknown_restoration_is_not_assessed():
    of, _ = bars(tow=BARS | {"vehicle.front_restoration": "unknown"})
    assert check(of, "tow.distributed.group").outcome.inputs == ("tow.yaml vehicle.front_restoration",)


def test_the_scale_card_shows_bars_slack_and_set_with_one_total() -> None:
    """Bars move load between axles and make none: both sets of readings add up to the combination (statics)."""
    card = design(Path(__file__).resolve().parents[3] / "specs" / "wren").results.scale_card
    assert card is not None
    rows = {r.id: r.predicted for s in card.stages if s.id == "travel" for r in s.rows}
    for end in ("", "_set"):
        assert sum(rows[f"{part}{end}"] for part in ("steer", "drive", "group")) == pytest.approx(rows["combination"])
    assert rows["steer_set"] > rows["steer"]
    assert rows["group_set"] > rows["group"]
