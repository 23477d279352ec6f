"""Revision letters in order, without those that read as numbers or other letters."""

from itertools import product

LETTERS = "ABCDEFGHJKLMNPRTUVWY"
"""I, O, Q, S, X and Z are left out. Source: ASME Y14.35, revision letters, by a secondary page."""


def place(letter: str) -> int | None:
    """The place of a revision letter in their order, from 1; None for a text that is none."""
    if not letter or any(c not in LETTERS for c in letter) or len(letter) > 2:
        return None
    value = 0
    for c in letter:
        value = value * len(LETTERS) + LETTERS.index(c) + 1
    return value


def letter_at(place: int) -> str:
    """The revision letter at a place: 1 is A, 20 is Y, 21 is AA; 420 is the last."""
    names: list[str] = [*LETTERS, *("".join(pair) for pair in product(LETTERS, repeat=2))]
    return names[place - 1]


def after(used: tuple[str, ...]) -> str:
    """The letter due when these are used."""
    return letter_at(max((p for letter in used if (p := place(letter))), default=0) + 1)
