"""Our own options against habits of the trade. Common practice, no source:

* a deck over the wheels stands some 10 to 12 in higher than one between them, and gains about that much room beneath;
* it costs about a tenth more than a trailer of the same length with its deck between the wheels;
* springs with equalisers share the load of the axles more evenly than rubber torsion and weigh more;
* a house on a higher deck tips sooner.
"""

from functools import cache
from pathlib import Path

import pytest

from generator.calc.compared import Comparison
from generator.design import compared, design

SPECS = Path(__file__).resolve().parents[2] / "specs"
INCH = 0.0254


@cache
def comparison(name: str) -> Comparison:
    found = compared(design(SPECS / name)).results.comparison
    assert found is not None
    return found


def values(name: str, option: str, id: str) -> tuple[float, float]:
    """A result of the design and of one of its options."""
    found = comparison(name)
    at = [c.id for c in found.designs].index(option)
    row = next(r for r in found.numbers if r.id == id)
    return row.values[0], row.values[at]


OVER = (("wren", "over-the-wheels"), ("heron", "over-the-wheels-ball"))


@pytest.mark.parametrize(("name", "option"), OVER)
def test_a_deck_over_the_wheels_is_ten_to_twelve_inches_higher(name: str, option: str) -> None:
    low, high = values(name, option, "height.deck.laden")
    assert 10.0 <= round((high - low) / INCH, 1) <= 12.0


@pytest.mark.parametrize(("name", "option"), OVER)
def test_it_gains_about_that_much_room_beneath(name: str, option: str) -> None:
    rise = values(name, option, "height.deck.laden")
    room = values(name, option, "clearance.frame")
    assert room[1] - room[0] == pytest.approx(rise[1] - rise[0], abs=0.5 * INCH)


def test_it_costs_about_a_tenth_more_at_the_same_length() -> None:
    """The three payments for the trailer of wren, as designed and with its deck over the wheels."""
    it = design(SPECS / "wren")
    option = next(o for o in it.model.spec.options if o.id == "over-the-wheels")
    assert option.spec.trailer.frame.length == it.model.spec.trailer.frame.length
    paid = [sum(line.likely for line in spec.costs.lines if line.id.startswith("trailer-"))
            for spec in (it.model.spec, option.spec)]
    assert 1.05 <= float(paid[1] / paid[0]) <= 1.15


def test_an_unbroken_floor_is_what_it_buys() -> None:
    for option in ("over-the-wheels", "raised-floor"):
        boxed, whole = values("wren", option, "floor.free")
        assert whole > boxed
    assert values("wren", "raised-floor", "headroom.galley")[1] < values("wren", "raised-floor", "headroom.galley")[0]


def test_springs_share_more_evenly_and_weigh_more() -> None:
    """Heron has torsion axles and leaf springs as an option; wren and dipper the other way round."""
    for name, option, leaf in (("heron", "leaf-springs", 1), ("wren", "torsion", 0), ("dipper", "torsion", 0)):
        share, mass = (values(name, option, id) for id in ("sharing", "state.bare.mass"))
        assert share[leaf] < share[1 - leaf]
        assert mass[leaf] > mass[1 - leaf]


def test_a_house_on_a_higher_deck_tips_sooner() -> None:
    for name, option in OVER:
        boxed, over = values(name, option, "stability.tilt")
        assert over < boxed
