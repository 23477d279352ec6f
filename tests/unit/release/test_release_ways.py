"""The three ways over the wheels side by side: who gets them, for which deck, and that they are the numbers told."""

from pathlib import Path

import pytest

from generator.calc.topics.wheel_boxes import BRINGS, WAYS
from generator.design import Design, design
from generator.document.section import Context
from generator.document.sections.windows import ways
from generator.release.cut import cut
from generator.release.slices import Cover, Desk, Numbers
from generator.units import Show

SPECS = Path(__file__).resolve().parents[3] / "specs"


@pytest.fixture(scope="module")
def heron() -> Design:
    return design(SPECS / "heron")


def desk(of: Design, to: str) -> Desk:
    return cut(of.model, of.results, of.data, to)


def numbers(of: Design, to: str) -> Numbers:
    found = desk(of, to).get(Numbers)
    assert isinstance(found, Numbers)
    return found


def test_the_owner_sees_all_three_and_which_is_drawn(heron: Design) -> None:
    rows = numbers(heron, "owner").ways
    assert [r.title for r in rows] == list(WAYS.values())
    assert [r.is_drawn for r in rows] == [True, False, False]
    told = {q.id: q.nominal for q in heron.results.quantities}
    for id, row in zip(WAYS, rows, strict=True):
        assert [getattr(row, what).nominal for what in BRINGS] == [told[f"box.{id}.{what}"] for what in BRINGS]


def test_nobody_else_does(heron: Design) -> None:
    assert numbers(heron, "fabricator").ways == ()


def test_a_deck_over_the_wheels_has_no_choice_left() -> None:
    assert numbers(design(SPECS / "dipper"), "owner").ways == ()


def test_the_table_has_a_row_for_each_and_says_which_is_drawn(heron: Design) -> None:
    owner = desk(heron, "owner")
    cover = owner.get(Cover)
    assert isinstance(cover, Cover)
    (table,) = ways(numbers(heron, "owner"), Context(Show("us", "USD"), cover))
    text = repr(table)
    assert "'Box in the floor, as drawn'" in text
    assert "'Whole floor raised'" in text
    assert "'Deck over the wheels'" in text
