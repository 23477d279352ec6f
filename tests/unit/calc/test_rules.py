"""The rules engine on the scratch design: woken or not, unknown; checks, legal paths, unknown regions, old texts."""

import re
from dataclasses import replace

import numpy as np
import pytest
from scratch import BALL, DATA, SITE, spec

from generator.calc.record import Compared, Missing
from generator.calc.run import work
from generator.calc.topics.rules import _holds, ruled
from generator.calc.topics.rules_inputs import given
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import FOLDER, csv_rows

SURE = Trials(count=0)
POUND, FOOT = 0.45359237, 0.3048
NOWHERE = {"use.regions": ["ZZ"]}


def worked(trials=SURE, **changes):
    """The scratch design with changes, and all its topics."""
    model = resolve(spec(**changes), DATA)
    with np.errstate(all="ignore"):
        return model, work(model, DATA, trials)


BASE = worked()


def found(told=None, **changes):
    """The rules of the scratch design with changes; `told` sets reported quantities (SI) to other values."""
    model, at = worked(**changes) if changes else BASE
    known = {q.id: q for q in at.quantities}
    for id, value in (told or {}).items():
        known[id] = replace(known[id], nominal=value, low=value, high=value)
    with np.errstate(all="ignore"):
        return ruled(model, at.loads, known, SURE, DATA)


def trigger(out, id):
    return next(t for t in out.rulings.triggers if t.id == id)


def check(out, id):
    return next((c for c in out.findings.checks if c.id == f"rule.{id}"), None)


def test_a_test_holds_on_its_side_of_the_limit_alone():
    values = np.array([9.0, 10.0, 11.0, np.nan])
    limit = np.array([10.0])
    expected = {">": [0, 0, 1], ">=": [0, 1, 1], "<": [1, 0, 0], "<=": [1, 1, 0]}
    for sign, holds in expected.items():
        out = _holds(values, limit, sign)
        assert out[:3].tolist() == holds
        assert np.isnan(out[3])


def test_the_last_bit_of_a_float_wakes_nothing():
    ten = 10_000 * POUND
    for noisy in (ten * (1 + 2e-16), ten * (1 - 2e-16), sum([45.359237] * 100)):
        assert _holds(np.array([noisy]), np.array([ten]), ">").tolist() == [0.0]
        assert _holds(np.array([noisy]), np.array([ten]), ">=").tolist() == [1.0]


@pytest.mark.parametrize(("gvwr", "woken"), [(10_000, False), (10_100, True)])
def test_licence_rule_needs_both_combination_and_trailer(gvwr, woken):
    out = found(told={"rating.gvwr.requested": gvwr * POUND})
    assert trigger(out, "driver-us-cdl-a").woken is woken


def test_one_test_that_fails_settles_a_rule_whatever_else_is_unknown():
    out = found(told={"rating.gvwr.requested": 9_000 * POUND}, with_tow=False)
    assert trigger(out, "driver-us-cdl-a").woken is False
    out = found(told={"rating.gvwr.requested": 12_000 * POUND}, with_tow=False)
    asked = trigger(out, "driver-us-cdl-a")
    assert asked.woken is None
    assert asked.needs == ("tow.yaml",)
    assert np.isnan(asked.share)


def test_an_unknown_value_is_never_a_pass():
    out = found(with_tow=False)
    gross = check(out, "weight-us-gross")
    assert gross.status == "not assessed"
    assert gross.outcome.inputs == ("tow.yaml",)
    assert trigger(out, "weight-us-gross").status == "not assessed"


def test_a_rule_not_woken_asks_nothing():
    out = found()
    spread = trigger(out, "weight-us-group-tandem").tests[0].value
    assert spread == pytest.approx(1.8)
    assert trigger(out, "weight-us-group-close").woken is False
    assert check(out, "weight-us-group-close") is None
    assert check(out, "weight-us-group-tandem").status == "pass"


def test_the_nearest_region_of_a_key_holds():
    out = found(project={"use.regions": ["US-CA", "US-OR", "US-WA"]})
    brakes = {t.id: t.regions for t in out.rulings.triggers if t.id.startswith("brakes-us-")}
    assert brakes["brakes-us-1500"] == ("US-CA",)
    assert brakes["brakes-us-stopping"] == ("US-OR",)
    assert brakes["brakes-us-common"] == ("US-WA",)
    assert brakes["brakes-us-breakaway"] == ("US-CA", "US-OR", "US-WA")


def test_no_brakes_fail_where_brakes_are_the_law():
    bare = {"type": "none", "size": "none", "rating": "0 kg"}
    axles = {f"running_gear.axles.{n}.brake": bare for n in range(3)}
    out = found(trailer=axles, project={"use.regions": ["US-WA"]})
    assert check(out, "brakes-us-common").status == "fail"
    assert check(out, "brakes-us-common").about.mandatory
    assert check(out, "brakes-us-all-wheels").status == "fail"
    assert not check(out, "brakes-us-all-wheels").about.mandatory


def test_a_limit_from_memory_is_reviewed_at_best():
    out = found(project={"use.regions": ["EU"]})
    assert trigger(out, "size-eu-trailer").must.value == pytest.approx(11.7)
    assert check(out, "size-eu-trailer").status == "review"


def test_rules_of_a_ball_are_for_a_ball():
    ids = {t.id for t in found().rulings.triggers}
    assert "coupling-us-raised" in ids
    assert "coupling-us-ball-over" not in ids
    ids = {t.id for t in found(trailer=BALL).rulings.triggers}
    assert "coupling-us-ball-over" in ids
    assert "coupling-us-raised" not in ids


def test_a_region_no_table_holds_is_not_assessed_and_a_task():
    out = found(project={"use.regions": ["US-OR", "ZZ", "US-ZZ"]})
    assert out.rulings.unknown_regions == ("US-ZZ", "ZZ")
    regions = check(out, "regions")
    assert isinstance(regions.outcome, Missing)
    assert "ZZ" in regions.outcome.inputs[0]
    assert regions.about.mandatory


def test_nothing_is_told_of_a_region_without_rows():
    out = found(project=NOWHERE)
    assert out.rulings.triggers == ()
    assert {c.id for c in out.findings.checks} == {"rule.regions", "rule.path"}


def test_what_is_not_held_is_named():
    lacking = {n.regions: n.topics for n in found(project={"use.regions": ["NZ"]}).rulings.not_held}
    assert "Licence and carrier" in lacking[("NZ",)]
    assert "Brakes" in lacking[("NZ",)]
    assert "Height, length and overhang" not in lacking[("NZ",)]


def test_an_undecided_path_is_not_assessed_and_shows_all_paths():
    out = found(project={"legal_path": "undecided"})
    assert check(out, "path").status == "not assessed"
    assert [p.id for p in out.rulings.paths] == ["rv", "park_model", "manufactured", "foundation_dwelling"]
    assert not any(t.path for t in out.rulings.triggers)


def test_a_path_whose_claims_no_table_holds_is_not_assessed():
    out = found(project={"use.regions": ["NZ"]})
    assert "no claim of this path is held for NZ" in check(out, "path").outcome.inputs[0]
    assert check(found(), "path") is None


def test_contradictions_of_a_path_are_named():
    out = found(told={"floor.area": 410 * FOOT**2})
    assert check(out, "path-rv-area").status == "fail"
    against = {p.id: p.against for p in out.rulings.paths}
    assert "RV: floor at most 400 square feet" in against["rv"]
    assert "RV: 8 body feet wide or more" in against["rv"]
    assert "Park model: moved more than once a year" in against["park_model"]
    assert "Dwelling on a foundation: it is to move" in against["foundation_dwelling"]
    assert {t.path for t in out.rulings.triggers} == {"", "rv"}


def test_a_manufactured_home_must_reach_the_definition():
    small = {"width": "2300 mm", "front": "0 m", "rear": "9 m"}
    path = {"legal_path": "manufactured"}
    out = found(project=path, house=small, told={"floor.area": 20.0})
    assert trigger(out, "path-manufactured-small").woken is True
    assert trigger(found(project=path), "path-manufactured-small").woken is False


def test_a_contradicted_path_is_a_task_until_somebody_has_asked():
    tasks = {t.id: t.what for t in found().tasks}
    assert "RV: 8 body feet wide or more" in tasks["path-contradicted"]
    rows = [{"rule": r, "asked": "Title office", "reply": "taken", "date": "2026-02-20"}
            for r in ("path-rv-body", "path-rv-wide")]
    assert "path-contradicted" not in {t.id for t in found(project={"confirmations": rows}).tasks}


def test_replies_stand_beside_their_rule():
    row = {"rule": "lamps-us-wide", "asked": "Vehicle office", "reply": "as listed", "date": "2026-02-20"}
    model = resolve(spec(project={"confirmations": [row]}), DATA)
    _, at = BASE
    out = ruled(model, at.loads, {q.id: q for q in at.quantities}, SURE, DATA)
    assert trigger(out, "lamps-us-wide").asked.reply == "as listed"
    assert trigger(out, "lamps-us-long").asked.reply == ""


def test_old_texts_are_warned_of_once_with_their_days():
    out = found()
    old = [(s.source, s.as_of) for s in out.rulings.stale]
    assert ("US federal rules, annual edition of 2015", "2015-10-01") in old
    (task,) = [t for t in out.tasks if t.id == "rules-old"]
    assert "2015-10-01" in task.what
    assert "2015-04-01" in task.what


def test_texts_of_the_last_year_are_not_old():
    out = found(project={"date": "2015-12-01", "use.regions": ["US-OR"]})
    assert out.rulings.stale == ()
    assert "rules-old" not in {t.id for t in out.tasks}
    assert {s.as_of for s in found(project={"date": "2016-05-01"}).rulings.stale} == {"2015-04-01"}


def test_a_rule_some_trials_wake_tells_their_share():
    trials = Trials(count=1000)
    _, at = worked(trials)
    mass = next(q for q in at.quantities if q.id == "state.dry.mass")
    model = resolve(spec(project={"use.regions": ["US-MA"]}), DATA)
    known = {q.id: q for q in at.quantities}
    ten = 10_000 * POUND
    known["state.dry.mass"] = replace(mass, nominal=ten, low=ten - 200, high=ten + 200)
    out = ruled(model, at.loads, known, trials, DATA)
    asked = trigger(out, "brakes-us-ma")
    assert asked.woken is False
    assert 0.4 < asked.share < 0.6


UNITS = {"lb": "kg", "kg": "kg", "in": "m", "ft": "m", "mm": "m", "m": "m", "ft2": "m2", "%": "%", None: "count"}
TEST = re.compile(r"(.+) (?:<=|>=|<|>) (?:([0-9.]+)(?: (.+))?|(.+))")


def written_tests():
    """Every test of every row: rule, ids it adds, unit it is written in, id it is compared with."""
    for path in sorted((FOLDER / "rules").glob("*.csv")):
        for _, row in csv_rows(f"rules/{path.name}"):
            for text in filter(None, (*row["when"].split(" & "), row["must"])):
                terms, _, unit, other = TEST.fullmatch(text).groups()
                yield row["id"], terms.split(" + "), unit, other


def test_every_quantity_a_rule_names_exists_in_the_unit_the_rule_is_written_in():
    tow = {"vehicle.length": "6 m", "vehicle.ball_to_bumper": "200 mm"}
    model = resolve(spec(trailer=BALL, tow=tow, site=SITE | {"frost": "600 mm"}), DATA)
    with np.errstate(all="ignore"):
        at = work(model, DATA, SURE)
        known = given(model, at.loads, {q.id: q for q in at.quantities}, SURE, DATA)
    seen = list(written_tests())
    assert len(seen) > 80
    for rule, terms, unit, other in seen:
        wanted = UNITS[unit] if other is None else known.of(other).quantity.unit
        assert {known.of(id).quantity.unit for id in terms} == {wanted}, rule


def test_a_check_carries_its_source_and_whom_to_ask():
    axle = check(found(), "weight-us-axle")
    assert isinstance(axle.outcome, Compared)
    assert axle.about.source.startswith("23 CFR 658.17(c); US federal rules, annual edition of 2015")
    assert axle.about.ask == "State enforcement office; a certified scale."
