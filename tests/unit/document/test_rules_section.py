"""Rules and papers as printed: words, boxes to write in, replies, the paths side by side."""

import math
from dataclasses import replace

import pytest

from generator.calc.legal import Asked, Bounded, NotHeld, PathColumn, Rulings, Stale, Trigger
from generator.document.blocks import Caution, Facts, Table
from generator.document.ruling import RuleTable
from generator.document.section import Context
from generator.document.sections.legal import RULES, said
from generator.document.templates import environment, rendered
from generator.release.slices import Cover, Desk, Legal
from generator.units import Show

SHOW = Show("us", "USD")
FOOT = 0.3048
COVER = Cover("a", "A", "", "", "", "owner", "", "", "", "", "us", "USD", "", "")
WIDE = Bounded("Overall width", 8.5 * FOOT, ">=", 80 * 0.0254, "m")
RULE = Trigger("lamps-us-wide", "lamps", "80 in wide", ("US-OR", "US-WA"), "", (WIDE,), True, 1.0, (), None, "",
               "Seven lamps more.", "The maker", "table I-b; rules", "2015", "read", "2015-10-01")
ROUTE = ("US-OR", "US-WA")


def rulings(*triggers, **changes):
    paths = (PathColumn("rv", "Recreational vehicle", (("Size", "small"),), ("RV: too large",)),
             PathColumn("park_model", "Park model", (("Size", "larger"),), ()))
    made = Rulings("rv", ROUTE, "2026-03-01", (("path", "Path"), ("lamps", "Lamps")), triggers, paths, (), ())
    return replace(made, **changes)


def part(*triggers, **changes):
    made = RULES.part(Desk((Legal(rulings(*triggers, **changes)),)), Context(SHOW, COVER))
    assert made is not None
    return made.blocks


def lines(*triggers, **changes):
    return next(b for b in part(*triggers, **changes) if isinstance(b, RuleTable)).lines


def tables(blocks):
    return {b.caption: b for b in blocks if isinstance(b, Table)}


@pytest.mark.parametrize(("change", "word", "mark"), [
    ({}, "YES", "told"),
    ({"path": "rv"}, "YES", "review"),
    ({"tests": ()}, "ALWAYS", "told"),
    ({"tests": (), "path": "rv"}, "ASK", "not-assessed"),
    ({"woken": None, "share": math.nan, "needs": ("tow.yaml",)}, "NOT ASSESSED", "not-assessed"),
    ({"status": "fail", "must": WIDE}, "FAIL", "fail"),
    ({"status": "not assessed", "must": WIDE}, "NOT ASSESSED", "not-assessed"),
])
def test_the_word_of_a_rule(change, word, mark):
    head, line = lines(replace(RULE, **change))
    assert head.is_group
    assert (line.word, line.mark) == (word, mark)


def test_a_box_is_left_where_nobody_has_answered():
    assert lines(RULE)[1].is_open
    told = lines(replace(RULE, asked=Asked("Vehicle office", "as listed", "2026-02-20")))[1]
    assert not told.is_open
    assert told.answer == "Vehicle office; as listed; 2026-02-20"


def test_no_box_where_the_design_keeps_the_rule():
    assert not lines(replace(RULE, status="pass", must=WIDE))[1].is_open
    for change in ({"tests": ()}, {"tests": (), "path": "rv"}, {"status": "fail", "must": WIDE}, {"is_held": False}):
        assert lines(replace(RULE, **change))[1].is_open


def test_a_row_that_holds_nothing_is_not_assessed_and_cites_nothing():
    line = lines(replace(RULE, is_held=False, status="not assessed", source="common practice, no source"))[1]
    assert (line.word, line.source, line.is_open) == ("NOT ASSESSED", "", True)


def test_regions_are_printed_by_name():
    names = (("US-OR", "Oregon"), ("US-WA", "Washington"))
    assert lines(replace(RULE, regions=("US-OR",)), names=names)[1].id == "lamps-us-wide · Oregon"
    assert lines(RULE, names=names)[1].id == "lamps-us-wide · whole route"


def test_the_box_is_drawn_and_the_reply_printed():
    answered = replace(RULE, id="lamps-us-long", asked=Asked("Vehicle office", "as <listed>", "2026-02-20"))
    html = str(rendered(part(RULE, answered), environment(web=False)))
    assert html.count('class="write"') == 1
    assert "as &lt;listed&gt;" in html
    assert "lamps-us-wide · whole route" in html


def test_what_is_unknown_names_itself():
    needs = replace(RULE, woken=None, share=math.nan, needs=("tow.yaml vehicle.length",))
    assert lines(needs)[1].note == "needs tow.yaml vehicle.length"
    assert said(replace(WIDE, value=math.nan), SHOW).startswith("Overall width unknown ≥")


def test_a_rule_not_woken_stands_apart_with_what_would_wake_it():
    asleep = replace(RULE, woken=False, share=0.12, tests=(replace(WIDE, sign=">"),))
    blocks = part(asleep)
    assert next(b for b in blocks if isinstance(b, RuleTable)).lines == ()
    row = tables(blocks)["Looked at, and not woken"].rows[0]
    text = row.cells[1].text.replace("\u00a0", " ")
    assert text == "Overall width 8′-6″, wakes > 6′-8″; in 12.0 % of trials"


def test_old_texts_are_a_caution_with_their_day():
    old = replace(RULE, old="US federal rules")
    assert rulings(old, old, RULE).stale == (Stale("US federal rules", "2015-10-01", 2),)
    caution = next(b for b in part(old, old, RULE) if isinstance(b, Caution))
    assert "US federal rules: text of 2015-10-01, 2 rules" in caution.text
    assert not any(isinstance(b, Caution) for b in part(RULE))


def test_unknown_regions_are_rows_not_assessed():
    head, row = lines(unknown_regions=("ZZ",))
    assert head.title == "Regions that no table holds"
    assert (row.title, row.word, row.is_open) == ("ZZ", "NOT ASSESSED", True)


def test_what_is_not_held_is_listed():
    blocks = part(RULE, not_held=(NotHeld(("NZ", "AU"), ("Brakes", "Lamps")),))
    (row,) = tables(blocks)["Not held here, so not assessed: ask"].rows
    assert [c.text for c in row.cells] == ["NZ, AU", "Brakes; Lamps"]


def test_paths_stand_side_by_side_with_what_contradicts_them():
    side = tables(part(RULE))["What each legal path would ask"]
    assert [h.text for h in side.heads] == ["", "Recreational vehicle", "Park model"]
    assert [c.text for c in side.rows[-1].cells] == ["Contradicted here by", "RV: too large", "nothing held here"]


def facts(**changes):
    return dict(next(b for b in part(RULE, **changes) if isinstance(b, Facts)).rows)


def test_the_declared_path_is_said_with_its_contradictions():
    assert facts()["Contradicted by"] == "RV: too large"
    assert facts(path="undecided")["Declared"] == "undecided"
    assert "not assessed" in facts(path="park_model")["Contradicted by"]
    assert not any(isinstance(b, Facts) for b in part(RULE, path=""))


@pytest.mark.parametrize(("keeps", "named"), [(True, True), (False, False)])
def test_only_the_owner_is_sent_to_the_spec(keeps, named):
    made = RULES.part(Desk((Legal(rulings(RULE), keeps),)), Context(SHOW, COVER))
    assert made is not None
    assert ("project.yaml" in str(rendered(made.blocks, environment(web=True)))) is named
