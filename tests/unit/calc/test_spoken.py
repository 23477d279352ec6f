"""Titles and sentences in the words of the coupling: one list, phrases before words, ids and paths untouched."""

from pathlib import Path

import pytest

from generator.calc.said import BALL, KING_PIN, NECK
from generator.calc.spoken import saying
from generator.design import design
from generator.spec.new import new_folder


@pytest.mark.parametrize(
    ("words", "text", "said"),
    [
        (KING_PIN, "Load on the ball, ball off its height", "Load on the king pin, king pin off its height"),
        (KING_PIN, "Coupler reaches the ball", "Pin box reaches the plate"),
        (KING_PIN, "Ball and frame kit carry the hitch load", "Plate and frame kit carry the hitch load"),
        (KING_PIN, "tow.vehicle.ball_height and ball.class_1", "tow.vehicle.ball_height and ball.class_1"),
        (KING_PIN, "{ball} above", "{ball} above"),
        (KING_PIN, "roll that a ball would not", "roll that a ball would not"),
        (BALL, "The root of the neck", "The root of the tongue"),
        (BALL, "diagonals, neck height, seats", "diagonals, tongue height, seats"),
        (NECK, "The root of the neck holds the ball", "The root of the neck holds the ball"),
    ],
)
def test_a_phrase_is_said_as_the_coupling_has_it(words, text, said):
    assert saying(words)(text) == said


@pytest.mark.parametrize("words", [BALL, KING_PIN])
def test_saying_it_twice_changes_nothing_more(words):
    say = saying(words)
    for phrase, _ in words:
        assert say(say(phrase)) == say(phrase)


@pytest.mark.parametrize(("kind", "absent"), [("king-pin", "ball"), ("ball", "neck")])
def test_a_starter_speaks_of_its_own_coupling(tmp_path: Path, kind: str, absent: str) -> None:
    new_folder(tmp_path / "a", kind, "us")
    results = design(tmp_path / "a").results
    titles = [c.about.title for c in results.checks] + [q.title for q in results.quantities]
    assert [t for t in titles if absent in t.lower().split()] == []
