"""Headroom against the stature of people: ANSUR II, NATICK/TR-15/007 (public file of 4,082 men and 1,986 women;
percentiles unweighted, linear between values): men's 95th 73.6 in, 99th 75.9 in; women's 95th 68.5 in, 99th 70.0 in;
men's sitting height 95th 38.5 in. The clearance above the head (shoes and room, 2 in) is common practice, no source.
"""

import pytest
from scratch import DATA, spec

from generator.calc.topics.clearances import headroom_checks
from generator.calc.trials import Trials
from generator.model.resolve import resolve

MAN_95, MAN_99, WOMAN_95, WOMAN_99, SITTING_95 = 73.6, 75.9, 68.5, 70.0, 38.5


def status(headroom: float, tallest: float) -> str:
    """The check of a zone of this headroom (in) in which somebody of this stature (in) must stand."""
    zone = {"zones.0.floor": "0 in", "zones.0.ceiling": f"{headroom} in", "zones.0.headroom": "1 in",
            "people.tallest": f"{tallest} in", "people.stands_in": ["main"]}
    model = resolve(spec(house=zone), DATA)
    return next(c for c in headroom_checks(model, Trials(count=0), DATA) if c.id == "headroom.main").status


@pytest.mark.parametrize(("headroom", "tallest", "word"), [
    (76, MAN_95, "pass"), (76, MAN_99, "fail"),  # 6 ft 4 in just serves the 95th man
    (80, MAN_99, "pass"),  # 6 ft 8 in, the ceiling of the tiny-house appendix, serves all
    (72, WOMAN_99, "pass"), (72, MAN_95, "fail"), (70, WOMAN_95, "fail"),
])
def test_who_can_stand_where(headroom: float, tallest: float, word: str) -> None:
    assert status(headroom, tallest) == word


def test_nobody_tall_sits_upright_on_a_mattress_under_the_least_that_is_taken() -> None:
    """36 in over the bed is asked for to sit up in: enough over the bare bed for the mean man (36.2 in less a slouch),
    not for the 95th on 6 in of mattress with 2 in to spare, who needs 46.5 in."""
    least = DATA.defaults["headroom.sitting"].value / 0.0254
    assert least == pytest.approx(36.0)
    assert least < SITTING_95 + 6 + 2
