"""How a design is spoken of outside the US, and on leaf springs."""

import pytest
import scratch

from generator.calc.said import COUPLINGS, LEAF, OUTSIDE_US, SPRINGS, law_says, says
from generator.calc.spoken import saying
from generator.model.types import Model

ABROAD, ON_SPRINGS = saying(OUTSIDE_US), saying(LEAF)


def routed(*regions: str) -> Model:
    return scratch.model((), scratch.spec(project={"use.regions": list(regions)}))


def test_nothing_is_said_otherwise_where_the_us_is_on_the_route() -> None:
    assert law_says(routed("US-OR")) == ()
    assert law_says(routed("CA", "US-WA")) == ()
    assert says(routed("US-OR")) == (*SPRINGS["torsion"], *COUPLINGS["gooseneck"])
    assert law_says(routed("NZ")) == OUTSIDE_US


@pytest.mark.parametrize(("ours", "abroad"), [
    ("Trailer rating (GVWR) to ask for", "Gross trailer mass to ask for"),
    ("Axle 2 rating (GAWR) to ask for", "Axle 2 rating to ask for"),
    ("The title office and the insurer.", "The registration authority and the insurer."),
    ("49 CFR 393.52(d), brakes", "US rule, 49 CFR 393.52(d), brakes"),
    ("coefficients of ASCE 7", "coefficients of US code, ASCE 7"),
    ("c = GVWR - W_dry", "c = GVWR - W_dry"),
])
def test_words_of_us_law_give_way(ours: str, abroad: str) -> None:
    """A symbol of a formula stays, or the text would no longer be the formula."""
    assert ABROAD(ours) == abroad


@pytest.mark.parametrize("text", ["49 CFR 567", "24 CFR 3280", "ASCE 7, wind", "Trailer rating (GVWR)"])
def test_said_twice_it_stays(text: str) -> None:
    """Some texts pass twice: once with the results, once when they are cut for a recipient."""
    assert ABROAD(ABROAD(text)) == ABROAD(text)


def test_leaf_springs_hang_from_hangers() -> None:
    assert ON_SPRINGS("Tongue root, brackets and welds") == "Tongue root, hangers and welds"
    assert ON_SPRINGS("Frame on hitch and axle brackets") == "Frame on hitch and hangers"
    assert ON_SPRINGS("jack brackets") == "jack brackets"
