"""The chain of ratings of each axle, the worst tyre, requested ratings."""

import pytest
import scratch
from scratch import DATA, spec

from generator.calc.run import work
from generator.calc.topics.attitude import SEAT_LOAD
from generator.calc.topics.axles import SHARING_AXLE
from generator.calc.topics.rating_checks import use_class
from generator.calc.trials import Trials
from generator.model.resolve import resolve

POUND = 0.45359237


def worked(trials=None, **changes):
    of = resolve(spec(**changes), DATA)
    return of, work(of, DATA, trials or Trials(count=0))


def checks(**changes):
    return {c.id: c for c in worked(**changes)[1].checks}


def quantities(of):
    return {q.id: q for q in of.quantities}


def test_least_of_the_chain_governs():
    _, of = worked()
    assert [(r.governing, r.capacity) for r in of.ratings.rows] == [("axle", 3200.0)] * 3
    _, of = worked(
        trailer={"running_gear.axles.1.hub_rating": "2900 kg", "running_gear.axles.2.brake.rating": "2500 kg"}
    )
    assert [r.governing for r in of.ratings.rows] == ["axle", "hubs and bearings", "brakes"]


def test_seven_thousand_pound_axle_on_small_tyres():
    """Common practice, no source: a 7 000 lb axle on two tyres good for 3 250 lb carries only 6 500 lb; 3 750 lb
    tyres cure it."""
    axle = {
        "rating": "7000 lb",
        "hub_rating": "7000 lb",
        "brake": {"type": "electric", "size": "12 in", "rating": "7000 lb"},
    }
    trailer = {"running_gear.axles": [scratch.axle(**axle)] * 2, "running_gear.tyre.load": "3250 lb"}
    found = checks(trailer=trailer)
    assert found["tyre.1.axle_rating"].status == "fail"
    assert found["tyre.1.axle_rating"].outcome.demand.value == pytest.approx(6500 * POUND)
    assert checks(trailer=trailer | {"running_gear.tyre.load": "3750 lb"})["tyre.1.axle_rating"].status == "pass"


def test_passenger_tyre_counts_for_less():
    """49 CFR 571.120 S5.1.2: rating divided by 1.10; a 1 874 lb tyre gives 3 407.3 lb a pair."""
    found = checks(trailer={"running_gear.tyre.kind": "passenger", "running_gear.tyre.load": "1874 lb"})
    assert found["tyre.1.axle_rating"].outcome.demand.value == pytest.approx(3407.3 * POUND, abs=0.03)


def test_worst_tyre_adds_side_and_seat():
    _, of = worked()
    level = of.loads["travel"]
    worst = quantities(of)["tyre.1.worst"].nominal
    assert worst > float(level.right[0].values[0]) > float(level.axles[0].values[0]) / 2


def test_rating_met_and_reserve_met_are_two_statements():
    _, of = worked()
    needed = quantities(of)["tyre.1.worst"].nominal
    found = checks(
        trailer={
            "running_gear.tyre.load": f"{needed * 1.05:.1f} kg",
            "running_gear.axles": [scratch.axle(rating="1600 kg")] * 3,
        }
    )
    assert found["tyre.1.load"].status == "pass"
    assert found["tyre.1.reserve"].status == "fail"


@pytest.mark.parametrize(
    ("moves", "distance", "roads", "letter"),
    [
        ("1", "300 mi", ["paved"], "a"),
        ("2", "300 mi", ["paved"], "b"),
        ("1", "1500 mi", ["paved"], "b"),
        ("8", "5000 mi", ["paved"], "c"),
        ("9", "300 mi", ["paved"], "d"),
        ("1", "5001 mi", ["paved"], "d"),
        ("1", "300 mi", ["gravel"], "b"),
        ("12", "9000 mi", ["gravel"], "d"),
    ],
)
def test_use_class_by_moves_and_distance(moves, distance, roads, letter):
    """Common practice, no source: the higher of moves and distance; rough roads one class up."""
    use = {"use.moves_a_year": moves, "use.distance_a_year": distance, "use.roads": roads}
    assert use_class(resolve(spec(project=use), DATA), DATA) == letter


def test_requested_ratings_cover_the_high_side_and_add_up():
    """GVWR at least the heaviest towed state's high side; axle ratings and least ball load reach it (49 CFR 571.120
    S10.2)."""
    trials = Trials(count=2000)
    of, found = worked(trials)
    q = quantities(found)
    gvwr = q["rating.gvwr.requested"].nominal
    heaviest = max(q[f"state.{s.id}.mass"].high for s in of.states if s.towed)
    assert heaviest <= gvwr < heaviest + 50.0 + 1e-6
    assert gvwr % 50.0 == pytest.approx(0.0, abs=1e-6)
    axles = [q[f"rating.gawr.{n}.requested"].nominal for n in (1, 2, 3)]
    assert sum(axles) + 0.15 * gvwr >= gvwr
    assert all(a >= q[f"axle.{n}.worst"].high for n, a in enumerate(axles, start=1))
    least = [q[f"rating.gawr.{n}.least"].nominal for n in (1, 2, 3)]
    assert sum(least) + 0.15 * gvwr >= gvwr
    assert all(a >= q[f"axle.{n}.worst"].high for n, a in enumerate(least, start=1))
    assert q["rating.cargo"].nominal == pytest.approx(gvwr - q["state.dry.mass"].nominal)


def test_the_rating_asked_for_is_the_axles_own_and_the_least_is_told_beside_it():
    """One number on every page: the axle as scheduled; below the least, the least is asked for and the check fails."""
    q = quantities(worked()[1])
    for n in (1, 2, 3):
        assert q[f"rating.gawr.{n}.requested"].nominal == 3200.0 >= q[f"rating.gawr.{n}.least"].nominal
    weak = {"running_gear.axles": [scratch.axle(rating="1300 kg")] * 3}
    q = quantities(worked(trailer=weak)[1])
    assert q["rating.gawr.1.requested"].nominal == q["rating.gawr.1.least"].nominal > 1300.0
    assert checks(trailer=weak)["rating.1.requested"].status == "fail"


def test_requested_rating_goes_in_hundreds_of_pounds_where_pounds_are_shown():
    _, of = worked(project={"units": "us"})
    hundreds = quantities(of)["rating.gvwr.requested"].nominal / POUND / 100
    assert hundreds == pytest.approx(round(hundreds), abs=1e-9)


@pytest.mark.parametrize(
    ("change", "id"),
    [
        ({"running_gear.wheel.pressure": "600 kPa"}, "wheel.pressure"),
        ({"coupling.rating": "5000 kg"}, "coupler.rating"),
        ({"chains.breaking": "5000 kg"}, "chain.strength"),
        ({"running_gear.tyre.speed": "50 mph"}, "tyre.speed"),
        ({"running_gear.axles.0.brake.rating": "2000 kg"}, "brake.1.rating"),
        ({"running_gear.wheel.load": "500 kg"}, "wheel.1.tyre"),
        ({"running_gear.tyre.load": "500 kg"}, "tyre.1.load"),
        ({"running_gear.axles": [scratch.axle(rating="1300 kg")] * 3}, "axle.3.rating"),
        ({"running_gear.axles": [scratch.axle(hub_rating="1300 kg")] * 3}, "rating.3.governing"),
        ({"coupling.vertical_rating": "500 kg"}, "hitch.rating"),
    ],
)
def test_each_part_too_weak_fails_its_own_check(change, id):
    assert checks()[id].status in ("pass", "review")
    assert checks(trailer=change)[id].status == "fail"


def test_axle_without_brakes_has_no_brake_check():
    axle = scratch.axle(brake={"type": "none", "size": "-", "rating": "1 kg"})
    assert "brake.1.rating" not in checks(trailer={"running_gear.axles": [axle] * 3})


def test_axles_that_do_not_share_overload_one():
    """Common practice, no source: axles that do not share can put 9 000 lb on an 8 000 lb axle of a 14 000 lb
    trailer. Level, two
    axles carry 6 000 lb each; with the rear one on a ledge of some 4 in it carries 9 000 lb, rockers would leave it
    at 6 000 lb."""
    inch, k, u = 0.0254, 300e3, (6.10, 6.96)
    more = SEAT_LOAD.of(k, 4.05 * inch, u[1], k * (u[0] ** 2 + u[1] ** 2)) / POUND
    assert 6000.0 + more == pytest.approx(9000.0, abs=100.0)
    assert SHARING_AXLE.of(12_000.0, 0.0, 2.0, 0.0) == 6000.0
