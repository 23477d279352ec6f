"""The first attempt among the examples: its real faults are found, and its page tells of no other."""

import re
from fnmatch import fnmatchcase
from pathlib import Path

from generator.calc.levers import changed, is_steel, with_section
from generator.calc.record import Check
from generator.calc.run import judge, statuses
from generator.calc.trials import Trials
from generator.calc.worked import work
from generator.design import design
from generator.model.resolve import resolve

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "first-sketch.md").read_text(encoding="utf-8")
SKETCH = design(ROOT / "specs" / "first-sketch")
FOUND = {c.id: c for c in SKETCH.results.checks}
FAILS = {i: c for i, c in FOUND.items() if c.status == "fail"}
BEGINNERS = (
    "tyre.1.axle_rating", "axle.2.rating", "neck.window", "hitch.share_low", "height.overall", "jack.front.lift",
    "mass.stated", "cab.strike", "quote.shop-by-the-river.whole", "rule.brakes-us-all-wheels", "brakes.force",
    "width.tyres", "chain.strength", "dwelling.escape.bed-loft.window-bed.area",
)
"""Mistakes beginners make, one check for each."""


def told() -> list[str]:
    """Ids and patterns of the page's table."""
    rows = [line for line in PAGE.splitlines() if line.startswith("| ") and "`" in line]
    return [id for row in rows for id in re.findall(r"`([a-z][\w.*-]+)`", row.split("|")[4])]


def test_the_mistakes_of_beginners_are_found() -> None:
    assert [i for i in BEGINNERS if i not in FAILS] == []
    assert len(BEGINNERS) >= 12


def test_the_wet_tanks_are_what_breaks_the_hitch_share() -> None:
    assert FAILS["hitch.share_low"].state == "travel_wet"


def test_each_failure_is_explained_and_says_whom_to_ask() -> None:
    for check in FAILS.values():
        assert check.about.concern, check.id
        assert check.about.ask, check.id


def test_most_failures_have_a_smallest_change() -> None:
    def is_open(check: Check) -> bool:
        return not check.changes

    open_ids = sorted(i for i, c in FAILS.items() if is_open(c))
    assert len(open_ids) < len(FAILS) / 3, open_ids


def test_pounds_for_kilograms_is_said_in_words() -> None:
    assert "kilograms, not pounds" in FAILS["mass.stated"].about.concern


def test_the_page_tells_of_what_fails_and_of_all_of_it() -> None:
    patterns = told()
    assert [p for p in patterns if not any(fnmatchcase(i, p) for i in FAILS)] == []
    stems = "tyre|wheel|rating|axle|neck|jack|parked\\.jack|brakes|axles|dwelling|height|headroom|rule"
    related = re.compile(rf"^({stems})\b")
    left = [i for i in FAILS if not any(fnmatchcase(i, p) for p in patterns) and not related.match(i)]
    assert left == []


def test_the_way_out_gives_what_it_says_when_the_spec_is_changed() -> None:
    """Each change put into the spec and the whole worked again: what fails then is what the list says."""
    spec, data, out = SKETCH.model.spec, SKETCH.data, SKETCH.results.out
    heavier = work(SKETCH.model, data, Trials()).ratings.heavier
    broken = set(FAILS)
    for mend in out.steps:
        for change in mend.changes:
            spec = (
                with_section(spec, change.lever, change.names[1], data.sections)
                if is_steel(change.lever) and change.names
                else changed(spec, change.lever, change.then.value)
            )
        now = statuses(spec, data, heavier=heavier)
        after = {i for i, s in now.items() if s == "fail"} | (broken - set(now))
        assert (set(mend.cleared), set(mend.broken)) == (broken - after, after - broken)
        assert len(after) == mend.left < len(broken)
        broken = after
    assert broken == set(out.left)
    assert len(out.steps) > 10
    with_trials = {c.id for c in judge(resolve(spec, data), data) if c.status == "fail"}
    # A rating to ask for rests on the trials; those of the design as it was serve along the way.
    assert all(i.startswith("rating.") and i.endswith(".requested") for i in with_trials ^ broken)
