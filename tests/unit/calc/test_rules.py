"""The rules engine on the scratch design: woken or not, unknown; checks, legal paths, unknown regions, old texts."""

import re
from dataclasses import replace

import numpy as np
import pytest
from scratch import BALL, DATA, KING_PIN, SITE, spec

from generator.calc.record import Compared, Missing
from generator.calc.run import work
from generator.calc.topics.rules import _holds, ruled
from generator.calc.topics.rules_inputs import given
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import FOLDER, csv_rows
from generator.reference.rules import NOT_HELD, TOPICS

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


@pytest.mark.parametrize("code", ["US-ZZ", "US"])
def test_no_common_threshold_stands_in_for_a_state_nobody_looked_up(code):
    out = found(project={"use.regions": [code, "US-WA"]})
    assert out.rulings.unknown_regions == (code,)
    assert check(out, "regions").status == "not assessed"
    assert trigger(out, "brakes-us-common").regions == ("US-WA",)
    assert code in trigger(out, "brakes-us-breakaway").regions


def test_nothing_is_told_of_a_region_without_rows():
    out = found(project=NOWHERE)
    assert out.rulings.triggers == ()
    assert {c.id for c in out.findings.checks} == {"rule.regions", "rule.path"}


def test_what_is_not_held_is_named():
    out = found(project={"use.regions": ["NZ"]})
    lacking = {t.id: t.status for t in out.rulings.triggers if not t.is_held}
    assert lacking["brakes-nz-ask"] == lacking["driver-nz-ask"] == "not assessed"
    held = check(out, "held")
    assert held.status == "not assessed"
    assert not held.about.mandatory
    (words,) = held.outcome.inputs
    assert words.startswith("the rules of New Zealand on ")
    assert "licence and carrier" in words
    assert check(found(), "held") is None


@pytest.mark.parametrize("code", ["EU", "UK", "AU", "NZ", "CA", "CA-BC", "CA-NT", "CA-NU", "CA-ON", "CA-QC"])
def test_every_region_abroad_has_a_word_on_every_topic(code):
    """What no table holds is a row that is never assessed; no topic passes by silence."""
    out = found(project={"use.regions": [code], "legal_path": "caravan"})
    assert out.rulings.not_held == ()
    assert {t.topic for t in out.rulings.triggers} >= set(TOPICS) - {"width"}
    assert all(t.status == "not assessed" for t in out.rulings.triggers if not t.is_held and t.woken is not False)


def test_an_undecided_path_is_not_assessed_and_shows_all_paths():
    out = found(project={"legal_path": "undecided"})
    assert check(out, "path").status == "not assessed"
    assert [p.id for p in out.rulings.paths] == ["rv", "park_model", "manufactured", "foundation_dwelling"]
    assert not any(t.path for t in out.rulings.triggers)
    abroad = found(project={"legal_path": "undecided", "use.regions": ["NZ"]})
    assert [p.id for p in abroad.rulings.paths] == ["foundation_dwelling", "caravan", "vehicle"]
    assert "declare one of foundation_dwelling, caravan, vehicle" in check(abroad, "path").outcome.inputs[0]


def test_a_path_whose_claims_no_table_holds_is_not_assessed():
    out = found(project={"use.regions": ["NZ"]})
    assert "no claim of `rv` is held for New Zealand" in check(out, "path").outcome.inputs[0]
    assert check(found(), "path") is None
    both = found(project={"use.regions": ["US-WA", "CA"]})
    assert "for Canada (national agreement); paths there: foundation_dwelling, caravan, vehicle" in check(
        both, "path").outcome.inputs[0]


@pytest.mark.parametrize(("code", "pounds", "against"), [
    ("NZ", 7_000, ()), ("NZ", 8_000, ("Caravan: over 3 500 kg",)),
    ("AU", 9_900, ()), ("AU", 9_930, ("Caravan: over 4.5 t",)), ("CA", 30_000, ()),
])
def test_a_caravan_is_contradicted_by_its_mass(code, pounds, against):
    """Vehicle classes of New Zealand, VSB 1; nothing is held for Canada, which is no contradiction."""
    narrow = {"width": "2400 mm"}
    out = found(told={"rating.gvwr.requested": pounds * POUND, "width.tyres": 2.4}, house=narrow,
                trailer={"frame.width": "2400 mm"}, project={"use.regions": [code], "legal_path": "caravan"})
    named = {p.id: p.against for p in out.rulings.paths}
    assert named["caravan"] == against
    assert ("path-contradicted" in {t.id for t in out.tasks}) is bool(against)


def test_a_wide_vehicle_is_contradicted_and_one_moved_once():
    """2.55 m: Vehicle Dimensions and Mass 2016."""
    once = {"use.moves_a_year": None, "use.moves": "once"}
    out = found(project={"use.regions": ["NZ"], "legal_path": "vehicle"} | once, house={"width": "2560 mm"})
    against = {p.id: p.against for p in out.rulings.paths}["vehicle"]
    assert against == ("Vehicle: no move in an ordinary year", "Vehicle: wider than 2.55 m")


def test_a_house_moved_once_may_stand_on_a_foundation():
    once = {"use.moves_a_year": None, "use.moves": "once", "legal_path": "foundation_dwelling"}
    assert trigger(found(project=once), "path-foundation-moves").woken is False
    assert trigger(found(project={"legal_path": "foundation_dwelling"}), "path-foundation-moves").woken is True


OVERRUN = {f"running_gear.axles.{n}.brake.type": "over-run" for n in range(3)}


@pytest.mark.parametrize(("gvwr", "share", "id", "status"), [
    (10_000, 1.75, "light", "pass"), (10_000, 1.76, "light", "fail"),
    (15_000, 1.25, "mid", "pass"), (15_000, 1.26, "mid", "fail"), (20_001, 1.0, "end", "fail"),
])
def test_over_run_brakes_by_the_tow_vehicle(gvwr, share, id, status):
    """49 CFR 393.48(d)(1)-(3), edition of 2015: 1.75 times to 12,000 lb, 1.25 times under 20,001 lb, none beyond."""
    tow = {"vehicle.gvwr": f"{gvwr / share} lb"}
    out = found(told={"rating.gvwr.requested": gvwr * POUND}, trailer=OVERRUN, tow=tow)
    surge = {c.id: c.status for c in out.findings.checks if c.id.startswith("rule.brakes-us-surge")}
    assert surge == {f"rule.brakes-us-surge-{id}": status}


def test_over_run_brakes_abroad():
    """To 3 500 kg by UK rules (read) and the EU's (from memory); where nothing is held somebody is to be asked."""
    heavy = {"rating.gvwr.requested": 3501.0}
    out = found(told=heavy, trailer=OVERRUN, project={"use.regions": ["EU", "UK", "NZ"]})
    assert check(out, "brakes-eu-overrun").status == check(out, "brakes-eu-uk-overrun").status == "fail"
    assert trigger(out, "brakes-nz-overrun").status == "not assessed"
    light = found(told={"rating.gvwr.requested": 3500.0}, trailer=OVERRUN, project={"use.regions": ["EU", "UK"]})
    assert check(light, "brakes-eu-overrun").status == "review"
    assert check(light, "brakes-eu-uk-overrun").status == "pass"
    assert check(found(project={"use.regions": ["EU"]}), "brakes-eu-overrun") is None


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


def test_old_size_limits_are_warned_of_too():
    """Minnesota's height was read in a text of 2001."""
    out = found(project={"use.regions": ["US-MN"], "date": "2015-05-01"})
    assert ("2001-01-01", 1) in [(s.as_of, s.rules) for s in out.rulings.stale]
    (task,) = [t for t in out.tasks if t.id == "rules-old"]
    assert "(height, Minnesota) (text of 2001-01-01)" in task.what


def test_texts_of_the_last_year_are_not_old():
    out = found(project={"date": "2015-12-01", "use.regions": ["US-OR"]})
    assert out.rulings.stale == ()
    assert "rules-old" not in {t.id for t in out.tasks}
    assert {s.as_of for s in found(project={"date": "2016-04-30"}).rulings.stale} == {"2015-04-01"}


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
            must = "" if row["must"] == NOT_HELD else row["must"]
            for text in filter(None, (*row["when"].split(" & "), must)):
                terms, _, unit, other = TEST.fullmatch(text).groups()
                yield row["id"], terms.split(" + "), unit, other


def _known(**changes):
    model = resolve(spec(**changes), DATA)
    with np.errstate(all="ignore"):
        at = work(model, DATA, SURE)
        return given(model, at.loads, {q.id: q for q in at.quantities}, SURE, DATA)


def test_every_quantity_a_rule_names_exists_in_the_unit_the_rule_is_written_in():
    tow = {"vehicle.length": "6 m", "vehicle.ball_to_bumper": "200 mm"}
    known, pin = (_known(trailer=t, tow=tow, site=SITE | {"frost": "600 mm"}) for t in (BALL, KING_PIN))
    seen = list(written_tests())
    assert len(seen) > 80
    for rule, terms, unit, other in seen:
        at = pin if "pin.diameter" in terms else known
        wanted = UNITS[unit] if other is None else at.of(other).quantity.unit
        assert {at.of(id).quantity.unit for id in terms} == {wanted}, rule


def test_a_check_carries_its_source_and_whom_to_ask():
    axle = check(found(), "weight-us-axle")
    assert isinstance(axle.outcome, Compared)
    assert axle.about.source.startswith("23 CFR 658.17(c); US federal rules, annual edition of 2015")
    assert axle.about.ask == "State enforcement office; a certified scale."
