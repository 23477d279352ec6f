"""Everything together, on the scratch design: ids, states, missing files, unknown values, registers."""

from collections import Counter

import numpy as np
import pytest
from scratch import DATA, spec

from generator.calc.run import calculate, work
from generator.calc.trials import Trials
from generator.model.resolve import resolve

FEW = Trials(count=200)


def results(trials=FEW, **changes):
    return calculate(resolve(spec(**changes), DATA), DATA, trials)


@pytest.fixture(scope="module")
def plain():
    return results()


def test_ids_are_unique(plain):
    for kind in (plain.checks, plain.quantities, plain.windows, plain.assumptions, plain.tasks):
        assert not [i for i, n in Counter(x.id for x in kind).items() if n > 1]


def test_ids_of_the_contract_are_there(plain):
    ids = {q.id for q in plain.quantities}
    for s in ("bare", "shell", "dry", "travel", "travel_wet"):
        for name in (
            "mass",
            "cg.x",
            "cg.y",
            "cg.z",
            "hitch",
            "hitch_share",
            "group",
            "axle.1",
            "axle.1.left",
            "axle.1.right",
            "yaw_inertia",
        ):
            assert f"state.{s}.{name}" in ids
    for s in ("unhitched", "parked_light", "parked_heavy"):
        assert f"state.{s}.mass" in ids
    assert {
        "axles.station.1",
        "axles.group",
        "axles.spread",
        "rating.gvwr.requested",
        "rating.gawr.1.requested",
        "rating.1.governing",
        "tyre.1.capacity",
        "axle.1.tolerance_load",
        "rating.cargo",
    } <= ids
    checks = {c.id for c in plain.checks}
    assert {
        "axle.1.rating",
        "tyre.1.axle_rating",
        "hitch.rating",
        "hitch.share_low",
        "hitch.share_high",
        "hitch.positive",
        "side.balance",
        "mass.plausible",
        "axles.window",
        "tyre.1.reserve",
        "wheel.1.tyre",
    } <= checks
    assert "axles.window" in {w.id for w in plain.windows}


def test_nominal_does_not_depend_on_trials():
    few, none = results(), results(Trials(count=0))
    for a, b in zip(few.quantities, none.quantities, strict=True):
        if not a.id.startswith(("rating.g", "tow.required", "rating.cargo")):
            assert a.nominal == pytest.approx(b.nominal, rel=1e-12, nan_ok=True), a.id


def test_twice_the_same(plain):
    again = results()
    assert [(q.id, q.nominal, q.low, q.high) for q in plain.quantities if q.nominal == q.nominal] == [
        (q.id, q.nominal, q.low, q.high) for q in again.quantities if q.nominal == q.nominal
    ]
    assert [(c.id, c.status, c.ratio) for c in plain.checks] == [(c.id, c.status, c.ratio) for c in again.checks]


def test_state_rows_balance(plain):
    for row in plain.states:
        assert row.mass_low <= row.mass <= row.mass_high
        if row.towed:
            assert row.hitch + sum(row.axles) == pytest.approx(row.mass)
            assert sum(row.left) + sum(row.right) == pytest.approx(row.group)
        else:
            assert row.hitch is None
            assert row.axles == ()


def test_groups_add_up_to_the_travel_state(plain):
    travel = next(s for s in plain.states if s.id == "travel")
    assert sum(g.mass for g in plain.groups) == pytest.approx(travel.mass)


def test_sweep_agrees_with_the_window(plain):
    """Inside the nominal window nearly every trial passes near its best station; outside its stops none does."""
    window = next(w for w in plain.windows if w.id == "axles.window")
    sweep = plain.sweep
    assert len(sweep.station) == len(sweep.ok) == 61
    at = np.array(sweep.station)
    assert np.all(np.array(sweep.ok)[(at < sweep.stop_front - 1e-6) | (at > sweep.stop_rear + 1e-6)] == 0.0)
    best = int(np.argmin(abs(at - window.best)))
    assert sweep.ok[best] > 0.5
    assert np.all(np.diff(sweep.share) > 0.0)


def test_without_a_tow_vehicle_its_checks_are_not_assessed_and_a_task_says_why():
    found = results(with_tow=False)
    blocked = [c for c in found.checks if c.status == "not assessed" and "tow.yaml" in c.outcome.inputs]
    assert {"tow.payload", "tow.rear_axle", "tow.combination"} <= {c.id for c in blocked}
    task = next(t for t in found.tasks if t.id == "file-tow")
    assert "tow.payload" in task.blocks
    assert [c.id for c in found.checks] == [c.id for c in results().checks]


def test_without_optional_files_everything_else_stands():
    found = results(with_tow=False, site=None)
    assert {t.id for t in found.tasks} >= {"file-tow", "file-site", "file-costs", "file-revisions"}
    assert next(c for c in found.checks if c.id == "axle.1.rating").status == "pass"


def test_unknown_mass_blocks_and_raises_a_task():
    unknown = ("weights.yaml: items.4.mass", "Mass of one.", "weights.yaml:40")
    of = resolve(spec(weights={"items.4.mass": "unknown"}, unknowns=[unknown]), DATA)
    of = type(of)(
        of.spec,
        of.states,
        tuple(i if i.id != "belongings" else _with_origin(i) for i in of.items),
        of.pieces,
        of.axle_stations,
        of.assumed,
    )
    found = calculate(of, DATA, FEW)
    checks = {c.id: c for c in found.checks}
    assert checks["axle.1.rating"].status == "not assessed"
    assert checks["axle.1.rating"].outcome.inputs == ("weights.yaml: items.4.mass",)
    assert "axle.1.rating" in found.tasks[0].blocks
    assert not [w for w in found.windows if w.id == "axles.window"]


def _with_origin(i):
    from dataclasses import replace

    return replace(i, origin="weights.yaml:40")


def test_a_check_open_for_another_reason_is_a_task_of_its_own(plain):
    task = next(t for t in plain.tasks if t.id == "check-frame-neck_root")
    assert task.blocks == "frame.neck_root"
    assert "engineer" in task.what


def test_register_holds_every_default_a_result_rests_on(plain):
    register = {a.id for a in plain.assumptions}
    for check in plain.checks:
        if check.status != "not assessed":
            assert {r for r in check.outcome.rests_on if r in DATA.defaults} <= register, check.id
    assert {
        "mass.unlisted_specified",
        "mass.correlation_group",
        "hitch.share_low",
        "torsion.stiffness_factor",
    } <= register
    assert all(a.source and a.value and a.statement and a.if_wrong for a in plain.assumptions)


def test_stated_total_in_the_wrong_unit_is_named():
    of = resolve(spec(), DATA)
    travel = float(work(of, DATA, Trials(count=0)).at["travel"].mass.values[0])
    found = results(weights={"stated_total": f"{travel * 0.4536:.1f} kg"})
    check = next(c for c in found.checks if c.id == "mass.stated")
    assert check.status == "fail"
    assert "pound and kilogram" in check.about.concern
    fine = results(weights={"stated_total": f"{travel * 1.05:.1f} kg"})
    assert next(c for c in fine.checks if c.id == "mass.stated").status != "fail"


def test_short_list_is_flagged():
    """Common practice, no source: a finished house under 45 lb per square foot of deck is a list cut short."""
    found = results(weights={"items.2.mass": "100 kg", "items.3.mass": "100 kg"})
    check = next(c for c in found.checks if c.id == "mass.plausible")
    assert check.status == "fail"
    assert check.outcome.limit.value == pytest.approx(45 * 0.45359237 / 0.3048**2)


@pytest.mark.parametrize("count", [1, 2, 4])
def test_any_number_of_axles(count):
    import scratch

    found = results(trailer={"running_gear.axles": [scratch.axle()] * count})
    assert sum(1 for c in found.checks if c.id.startswith("axle.") and c.id.endswith(".rating")) == count


def test_trials_near_the_limit_ask_for_review():
    of = resolve(spec(), DATA)
    worst = max(
        float(q.nominal)
        for q in work(of, DATA, Trials(count=0)).quantities
        if q.id.startswith("axle.") and q.id.endswith("worst")
    )
    axle_ = {
        "rating": f"{worst * 1.01:.1f} kg",
        "hub_rating": "3200 kg",
        "unsprung": "160 kg",
        "hub_face": "2.1 m",
        "brake": {"type": "electric", "size": "12 in", "rating": "3200 kg"},
    }
    found = results(Trials(count=2000), trailer={"running_gear.axles": [axle_] * 3})
    governing = [
        c for c in found.checks if c.id.startswith("axle.") and c.id.endswith(".rating") and c.status != "fail"
    ]
    assert governing
    assert any(c.status == "review" for c in governing)


def test_hitch_never_passes_on_not_a_number():
    found = results(trailer={"coupling.station": "unknown"})
    for check in found.checks:
        if check.id.startswith(("hitch.", "axle.", "axles.window")):
            assert check.status == "not assessed", check.id


def test_empty_axle_window_says_what_opens_it():
    found = results(Trials(count=0), trailer={"coupling.vertical_rating": "700 kg"})
    window = next(w for w in found.windows if w.id == "axles.window")
    assert window.slack < 0.0
    assert window.best is None
    assert window.closed_by_high.startswith("coupler at its vertical rating")


def test_sharing_axles_are_reported_for_comparison(plain):
    of = {q.id: q.nominal for q in plain.quantities}
    assert of["axles.shared"] == pytest.approx(of["state.travel.axle.2"])
