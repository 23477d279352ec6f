"""The smallest single change of a failing check: it clears it, one step less does not, and it is said what it
upsets."""

from math import isnan

import pytest
from scratch import BALL, DATA, LEAF, spec

from generator.calc.levers import LEVERS, _first, _kind, changed, moved
from generator.calc.run import calculate, statuses, work
from generator.calc.trials import Trials
from generator.model.resolve import resolve

SURE = Trials(count=0)
FAILS = {"running_gear.station": "6400 mm", "coupling.rating": "6000 kg"}


@pytest.fixture(scope="module")
def failing():
    design = spec(trailer=FAILS)
    return design, {c.id: c for c in calculate(resolve(design, DATA), DATA, SURE).checks}


def test_each_change_clears_its_check_and_one_step_less_does_not(failing):
    design, checks = failing
    tried = 0
    for check in checks.values():
        for change in check.changes:
            if not change.lever.startswith(("trailer.running_gear.station", "trailer.coupling")):
                continue
            assert statuses(changed(design, change.lever, change.then.value), DATA)[check.id] in ("pass", "review")
            step = moved(design, change.lever, 2) - moved(design, change.lever, 1)
            nearer = change.then.value - step * (1 if change.then.value > change.now.value else -1)
            assert statuses(changed(design, change.lever, nearer), DATA)[check.id] == "fail"
            tried += 1
    assert tried >= 3


def test_moving_the_axles_is_offered_for_too_great_a_share(failing):
    _, checks = failing
    change = checks["hitch.share_high"].changes[0]
    assert change.lever == "trailer.running_gear.station"
    assert change.then.value < change.now.value == pytest.approx(6.4)
    assert (change.then.value / 0.01) == pytest.approx(round(change.then.value / 0.01))
    assert change.then.unit == "m"


def test_a_change_names_what_it_upsets():
    """Axles so far back that the share fails; stops that the cure runs into are named."""
    design = spec(trailer={"running_gear.station": "6400 mm", "running_gear.foremost": "6300 mm"})
    checks = {c.id: c for c in calculate(resolve(design, DATA), DATA, SURE).checks}
    assert "axles.stops" in checks["hitch.share_high"].changes[0].upsets


def test_passing_checks_carry_no_change(failing):
    _, checks = failing
    assert all(not c.changes for c in checks.values() if c.status == "pass")


def test_every_lever_is_a_measure_of_the_spec():
    designs = (spec(trailer={"jacks": []}), spec(trailer=BALL | LEAF, tow={"vehicle.ball_to_bumper": "300 mm"}))
    for path in LEVERS:
        if not path.startswith(("trailer.jacks", "house.openings", "house.climbs")):
            has = [d for d in designs if _first(d, path) is not None]
            assert has, path
            assert _kind(has[0], path.replace("*", "0")) == path


def test_every_lever_of_every_check_is_known():
    """A check may only point at levers that exist; a path without measures (no boxes) is left out."""
    design = spec()
    for check in work(resolve(design, DATA), DATA, SURE).checks:
        for path in check.about.levers:
            measure = _first(design, {"house.roof_points": "house.roof_points.*.height"}.get(path, path))
            assert (
                measure is None
                or _kind(design, path) in LEVERS
                or path == "house.roof_points"
                or path.startswith("tow.")
            ), path


@pytest.mark.parametrize(
    ("path", "reached"),
    [
        ("trailer.running_gear.axles.1.rating", [3200.0, 1.0, 3200.0]),
        ("trailer.running_gear.axles.*.rating", [1.0, 1.0, 1.0]),
    ],
)
def test_a_path_reaches_one_or_all(path, reached):
    axles = changed(spec(), path, 1.0).trailer.running_gear.axles
    assert [a.rating.nominal for a in axles] == reached


def test_a_path_reaches_by_name():
    zones = changed(spec(), "house.zones.loft.ceiling", 3.0).house.zones
    assert [z.ceiling.nominal for z in zones] == [2.2, 3.0]


def test_changing_keeps_the_spread():
    design = spec(trailer={"running_gear.tyre.load": "1850 kg +/- 50 kg"})
    load = changed(design, "trailer.running_gear.tyre.load", 2000.0).trailer.running_gear.tyre.load
    assert (load.low, load.high) == pytest.approx((1950.0, 2050.0))


def test_steps_stand_on_their_grid_and_always_move():
    design = spec(trailer={"running_gear.station": "5703 mm"})
    path = "trailer.running_gear.station"
    assert [moved(design, path, s) for s in (1, 2, -1, -2)] == pytest.approx([5.71, 5.72, 5.70, 5.69])


def test_an_unknown_lever_is_no_lever():
    design = spec(trailer={"running_gear.station": "unknown"})
    assert isnan(moved(design, "trailer.running_gear.station", 1))
    assert calculate(resolve(design, DATA), DATA, SURE).checks


def test_no_lever_in_reach_gives_no_change():
    design = spec(trailer={"coupling.rating": "100 kg"})
    checks = {c.id: c for c in calculate(resolve(design, DATA), DATA, SURE).checks}
    assert checks["coupler.rating"].status == "fail"
    assert checks["coupler.rating"].changes == ()
