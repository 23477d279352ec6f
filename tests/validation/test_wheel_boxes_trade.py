"""Wheel boxes and the deck over the wheels against habits of the trade and a height chain worked by hand.

* Common practice, no source: a deck over the wheels stands some 10 to 12 in higher than one between them; its height is
  the tyre under load, its travel, a clearance and the frame over it.
* Height chain worked by hand (tyre 0.7824 m, 500 kN/m; arm 0.1524 m, 22.5 degrees; axle of 2 722 kg carrying
  1 887.62 kg): radius 0.37269, travel left 0.045902, deck 0.70943 m.
* Outside diameter by the size mark: 235/80R16 is 30.80 in.
"""

from pathlib import Path

import pytest

from generator.calc.run import work
from generator.calc.topics import wheel_boxes as wb
from generator.calc.topics.lateral import marked_diameter
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.new import new_folder
from generator.spec.read import read_spec

HERON = Path(__file__).resolve().parents[2] / "specs" / "heron"
INCH = 0.0254
RADIUS, TRAVEL, DECK, DIAMETER = 0.37269, 0.045902, 0.70943, 0.7824
DATA = reference()


def rise_over(folder):
    of = {q.id: q.nominal for q in work(resolve(read_spec(folder), DATA), DATA, Trials(count=0)).quantities}
    return of["box.over.floor"] - of["box.boxed.floor"]


def test_example_design_is_ten_to_twelve_inches_lower_between_its_wheels():
    assert 10.0 <= rise_over(HERON) / INCH <= 12.0


def test_a_new_design_too(tmp_path):
    new_folder(tmp_path / "new", "gooseneck", "us")
    assert 9.5 <= rise_over(tmp_path / "new") / INCH <= 12.5


def test_chain_by_hand():
    underside = wb.UNDERSIDE.of(r_t=RADIUS, D=DIAMETER, j=TRAVEL, g=INCH)
    assert underside == pytest.approx(0.83519, abs=1e-5)
    assert wb.BOX_TOP.of(z_c=underside, s=0.01905, z_l=DECK) == pytest.approx(0.14481, abs=1e-5)
    over = wb.OVER_DECK.of(z_c=underside, b_x=0.1016, t_d=0.01905, z_l=DECK)
    assert over == pytest.approx(0.95584, abs=1e-5)
    assert (over - DECK) / INCH == pytest.approx(9.70, abs=0.01)


def test_a_rule_without_the_upper_half_of_the_tyre_puts_the_deck_through_it():
    """Read word for word, "static radius, jounce, clearance, frame" ends below the top of the tyre it should clear."""
    word_for_word = RADIUS + TRAVEL + INCH + 0.1016 + 0.01905
    assert word_for_word < RADIUS + DIAMETER / 2
    assert wb.OVER_DECK.of(z_c=RADIUS + DIAMETER / 2 + TRAVEL + INCH, b_x=0.1016, t_d=0.01905, z_l=DECK) > word_for_word


def test_length_of_a_box_over_marked_tyres():
    """Three 235/80R16 at 34 in: 68 in and a tyre of 30.80 in, with room and skins at both ends."""
    diameter = marked_diameter("ST235/80R16")
    assert diameter / INCH == pytest.approx(30.80, abs=0.005)
    length = wb.BOX_LENGTH.of(n=3.0, p=34 * INCH, D=diameter, g_e=2 * INCH, s=0.75 * INCH)
    assert length / INCH == pytest.approx(68 + 30.80 + 4 + 1.5, abs=0.005)
