"""The tow vehicle against an independent hand program, and what it must be when there is none."""

import pytest
import scratch

from generator.calc.record import Missing, sure
from generator.calc.sums import sums
from generator.calc.topics import tow as tw
from generator.calc.topics.attitude import attitudes
from generator.calc.topics.axles import level_loads
from generator.calc.topics.masses import state_masses
from generator.calc.topics.rides import rides
from generator.calc.trials import Trials
from generator.model.resolve import resolve

IDS = [
    "tow.payload",
    "tow.rear_axle",
    "tow.rear_tyres",
    "tow.front_axle",
    "tow.front_relief",
    "tow.gvwr",
    "tow.combination",
    "tow.rating",
    "tow.hitch",
    "tow.plate",
    "tow.plate_combination",
]


def test_ball_behind_the_axle_of_a_light_truck():
    """Independent hand program: 538.46 kg 1.30 m behind, wheelbase 3.99 m, front axle 1 650 kg."""
    assert tw.REAR_ADDED.of(H=538.46, wb=3.99, o=1.30) == pytest.approx(713.90, abs=0.01)
    added = tw.FRONT_ADDED.of(H=538.46, wb=3.99, o=1.30)
    assert added == pytest.approx(-175.44, abs=0.01)
    assert tw.RELIEF.of(dF=added, F_0=1650.0) == pytest.approx(0.10633, abs=1e-5)


def test_ball_ahead_of_the_axle_loads_the_front_too():
    """Independent hand program: gooseneck, 1 107.14 kg 0.10 m ahead."""
    assert tw.REAR_ADDED.of(H=1107.14, wb=3.99, o=-0.10) == pytest.approx(1079.4, abs=0.05)
    assert tw.FRONT_ADDED.of(H=1107.14, wb=3.99, o=-0.10) == pytest.approx(27.748, abs=1e-3)


@pytest.mark.parametrize(("behind", "most"), [(1.30, 678.83), (-0.10, 923.14)])
def test_hitch_load_that_uses_up_a_reserve_of_900_kg(behind, most):
    """Independent hand program."""
    assert tw.REAR_ADDED.of(H=most, wb=3.99, o=behind) == pytest.approx(900.0, abs=0.01)


def test_both_axles_carry_exactly_what_the_ball_brings():
    assert tw.REAR_ADDED.of(H=1000.0, wb=4.0, o=-0.3) + tw.FRONT_ADDED.of(H=1000.0, wb=4.0, o=-0.3) == pytest.approx(
        1000.0
    )


def found(trials=Trials(count=0), **changes):  # noqa: B008 - frozen
    model = resolve(scratch.spec(**changes), scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, trials, scratch.DATA)), trials, scratch.DATA)
    ride = rides(model, loads, trials, scratch.DATA)
    tilted = attitudes(model, loads, ride, trials)
    return tw.tow(model, tilted, ride, sure("GVWR", 8500.0, "kg"), trials, scratch.DATA), tilted


def status(of, id):
    return next(c.status for c in of.checks if c.id == id)


def quantity(of, id):
    return next(q.nominal for q in of.quantities if q.id == id)


def test_the_hitch_load_counts_once_in_the_combination():
    of, tilted = found()
    heaviest = max(float(c.loads.mass.values[0]) for c in tilted.cases)
    assert quantity(of, "tow.combination") == pytest.approx(2250 + 1650 + 150 + heaviest)


def test_the_worst_hitch_load_over_states_and_ball_heights_is_used():
    of, tilted = found()
    most = max(float(c.hitch.values[0]) for c in tilted.cases)
    assert quantity(of, "tow.payload_used") == pytest.approx(most + 150)
    assert quantity(of, "tow.rear_axle") == pytest.approx(1650 + 150 + most * (4.4 - 0.05) / 4.4)


@pytest.mark.parametrize(
    ("field", "value", "id"),
    [
        ("gvwr", "4100 kg", "tow.payload"),
        ("gvwr", "4100 kg", "tow.gvwr"),
        ("rear_gawr", "1900 kg", "tow.rear_axle"),
        ("rear_tyres", "1900 kg", "tow.rear_tyres"),
        ("front_gawr", "2200 kg", "tow.front_axle"),
        ("gcwr", "7000 kg", "tow.combination"),
        ("tow_rating", "3000 kg", "tow.rating"),
        ("hitch_rating", "300 kg", "tow.hitch"),
        ("hitch_behind_rear_axle", "3 m", "tow.front_relief"),
    ],
)
def test_each_rating_can_fail_alone(field, value, id):
    of, _ = found(tow={f"vehicle.{field}": value})
    assert status(of, id) == "fail"
    assert status(found()[0], id) == "pass"


def test_an_unknown_rating_is_not_assessed_and_named():
    of, _ = found(tow={"vehicle.gcwr": "unknown"})
    outcome = next(c.outcome for c in of.checks if c.id == "tow.combination")
    assert isinstance(outcome, Missing)
    assert outcome.inputs == ("tow.yaml vehicle.gcwr",)
    assert status(of, "tow.rating") == "pass"


def test_without_a_tow_vehicle_it_says_what_one_must_be():
    of, tilted = found(with_tow=False)
    assert [c.id for c in of.checks] == IDS
    assert {c.status for c in of.checks} == {"not assessed"}
    heaviest = max(float(c.loads.mass.values[0]) for c in tilted.cases)
    assert quantity(of, "tow.required.tow_rating") == pytest.approx(heaviest / 0.85)
    assert quantity(of, "tow.required.ball_low") < quantity(of, "tow.required.ball_high")
    assert quantity(of, "tow.required.payload") > quantity(of, "tow.required.hitch") > 0.0


def test_the_required_rating_counts_the_high_side_of_the_trials():
    still, noisy = found()[0], found(Trials(count=2000))[0]
    assert quantity(noisy, "tow.required.tow_rating") > quantity(still, "tow.required.tow_rating")
