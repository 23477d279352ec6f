"""What moved between two designs, told from two desks of one reader; worked for real on an invented design."""

from dataclasses import asdict
from functools import cache
from pathlib import Path

import pytest

from generator.calc.run import calculate
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.release.changes import changed, percent
from generator.release.cut import cut
from generator.release.grants import CHECKS, QUANTITIES, RECIPIENTS, may_see
from generator.release.slices import Changes, Desk, Numbers
from generator.revision.difference import data_moved, fields_moved
from generator.spec.read import parse_source, read_source
from generator.spec.source import Source, source_of

DIPPER = Path(__file__).resolve().parents[3] / "specs" / "dipper"
STATION = b"station: 2920 mm"


@cache
def sources() -> tuple[Source, Source]:
    """The design as it is, and with its axles 100 mm further aft."""
    old = read_source(DIPPER)
    files = {f.path: f.data for f in old.files}
    assert files["trailer.yaml"].count(STATION) == 1
    files["trailer.yaml"] = files["trailer.yaml"].replace(STATION, b"station: 3020 mm")
    return old, source_of("dipper", files)


@cache
def desks(to: str) -> tuple[Desk, Desk]:
    made = []
    for source in sources():
        model = resolve(parse_source(source), reference())
        made.append(cut(model, calculate(model, reference()), reference(), to))
    return made[0], made[1]


def told(to: str) -> Changes:
    return changed(*desks(to))


def test_a_result_is_told_with_both_values_and_by_how_much() -> None:
    row = next(m for m in told("owner").numbers if m.id == "axles.group")
    assert (row.was, row.now, row.percent) == ("2,920\u00a0mm", "3,020\u00a0mm", "+3.4 %")


def test_a_check_that_flips_is_told_and_no_other() -> None:
    old, new = ({c.id: c.status for c in _numbers(d).checks} for d in desks("owner"))
    flips = {m.id: (m.was, m.now) for m in told("owner").flips}
    assert flips
    assert flips == {id: (old.get(id, "–"), new.get(id, "–")) for id in old | new if old.get(id) != new.get(id)}


def test_untouched_topics_have_no_check_that_moved() -> None:
    old, new = ({c.id: (c.about.topic, c.status, c.ratio) for c in _numbers(d).checks} for d in desks("owner"))
    moved = {held[id][0] for held in (old, new) for id in held if old.get(id) != new.get(id)}
    untouched = set(told("owner").untouched)
    assert untouched
    assert untouched.isdisjoint(moved)


def _numbers(desk: Desk) -> Numbers:
    found = desk.get(Numbers)
    assert isinstance(found, Numbers)
    return found


@pytest.mark.parametrize("to", [to for to in RECIPIENTS if to != "owner"])
def test_others_are_told_of_nothing_they_may_not_see(to: str) -> None:
    c = told(to)
    assert c.numbers
    assert all(may_see(QUANTITIES[to], m.id) for m in c.numbers)
    assert all(may_see(CHECKS[to], m.id) for m in c.flips)
    assert (c.fields, c.data, c.holders, c.stale) == ((), (), (), ())
    assert ".yaml" not in repr(asdict(c))


def test_the_same_design_has_no_changes() -> None:
    old, _ = desks("owner")
    c = changed(old, old)
    assert (c.numbers, c.less, c.flips, c.clauses) == ((), 0, (), ())


def test_texts_of_the_spec_are_told_by_path() -> None:
    (row,) = fields_moved(*sources())
    assert (row.id, row.was, row.now, row.percent) == (
        "trailer.running_gear.station", "2920 mm", "3020 mm", "+3.4 %")


def test_data_that_is_other_is_named() -> None:
    was = {"tool": "1", "reference": {"a.csv": "x", "b.csv": "y"}, "packages": {"numpy": "1"}}
    now = {"tool": "2", "reference": {"a.csv": "z", "c.csv": "y"}, "packages": {"numpy": "1"}}
    assert data_moved(was, now) == (
        "This program was 1 and is 2.", "Reference table a.csv is other.", "Reference table b.csv is gone.",
        "Reference table c.csv is new.")


def test_percent_is_of_what_it_was() -> None:
    assert [percent(100.0, 110.0), percent(-50.0, -55.0), percent(0.0, 1.0), percent(1.0, float("nan"))] == [
        "+10.0 %", "\u221210.0 %", "", ""]
