"""Revision letters. Source: ASME Y14.35, by a secondary page: I, O, Q, S, X and Z are not used; AA follows Y."""

import pytest

from generator.revision.letters import LETTERS, after, letter_at, place


def test_the_letters_left_out_are_those_of_the_standard() -> None:
    assert sorted(set("ABCDEFGHIJKLMNOPQRSTUVWXYZ") - set(LETTERS)) == list("IOQSXZ")


@pytest.mark.parametrize(("used", "due"), [
    ((), "A"), (("A",), "B"), (("A", "H"), "J"), (("N",), "P"), (("P",), "R"), (("R",), "T"), (("W",), "Y"),
    (("Y",), "AA"), (("AA",), "AB"), (("AY",), "BA"), (("B", "A"), "C"), (("P1", "draft"), "A"),
])
def test_the_letter_due(used: tuple[str, ...], due: str) -> None:
    assert after(used) == due


def test_place_and_letter_are_inverse() -> None:
    assert [place(letter_at(n)) for n in range(1, 421)] == list(range(1, 421))
    assert [place(t) for t in ("", "I", "a", "AAA", "P2", "A1")] == [None] * 6
