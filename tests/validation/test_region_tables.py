"""Size limits by region against the statutes and instruments that name them.

Heights of the states: statutes as named beside each group (codes of California, Colorado and Indiana read in the code;
others quoted in a public rules set, in a trade list, or from memory where the table says so). Width: 23 CFR 658.15,
edition of 2015. Abroad: Directive 96/53/EC annex I, Construction and Use Regulations 1986 regulation 8, ADR 43, Land
Transport Rule Vehicle Dimensions and Mass 2016, national agreement of Canada, territorial limits.
"""

import pytest

from generator.reference.load import reference

REGIONS = reference().regions
INCH = 0.0254

HEIGHTS = {
    # feet, inches: states
    (13, 6): (
        # IC 9-20-3-3, OCGA 32-6-22, F.S. 316.515(2), 625 ILCS 5/15-103, MCL 257.719(1), 169.81, 63-5-17, NJSA 39:3-84,
        # VTL 385, ORC 5577.05, 75 Pa.C.S. 4922, 56-5-4060, 55-7-202, 46.2-1110, 17C-17-4; AL permit rules; MD digest
        "IN GA FL IL MI MN MS NJ NY OH PA SC TN VA WV AL MD "
        # R.S. 32:381, RSMo 304.170, 47 O.S. 14-103, G.S. 20-116, 28-1095: more on some roads, the lower is taken
        "LA MO OK NC AZ "
        # trade list, or from memory (DE, NH)
        "IA KY WI CT DE DC MA ME NH RI VT"),
    # Veh. Code 35250, 621.207, RCW 46.44.020, 72-7-402(3), NRS 484D.605, SDCL 32-22-14, W.S. 31-18, 27-35-207;
    # trade list: 49-1010, 8-1904, 61-10-103, 39-12-04, 66-7-406, 818.080; HRS 291-34 from memory
    (14, 0): "CA TX WA UT NV SD WY AR ID KS MT ND NM OR HI",
    (14, 6): "CO NE",  # C.R.S. 42-4-504(1); 60-6,289 by a trade list
    (15, 0): "AK",  # 17 AAC 25.012(b)
}
STATES = [(code, feet * 12 + inches) for (feet, inches), codes in HEIGHTS.items() for code in codes.split()]


def test_every_state_is_looked_at_once() -> None:
    assert sorted(code for code, _ in STATES) == sorted(c[3:] for c in REGIONS if c.startswith("US-"))
    assert len(STATES) == 51


@pytest.mark.parametrize(("code", "inches"), STATES)
def test_height_of_a_state(code: str, inches: float) -> None:
    assert REGIONS[f"US-{code}"].height == pytest.approx(inches * INCH, abs=1e-4)


@pytest.mark.parametrize(("code", "inches"), [(c, 108 if c == "HI" else 102) for c, _ in STATES])
def test_width_of_a_state(code: str, inches: float) -> None:
    """23 CFR 658.15(a): 102 in, in Hawaii 108 in."""
    assert REGIONS[f"US-{code}"].width == pytest.approx(inches * INCH, abs=1e-4)


@pytest.mark.parametrize(("codes", "height", "width"), [
    ("CA CA-BC CA-ON CA-QC", 4.15, 2.6), ("CA-NT CA-NU", 4.2, 2.6), ("EU", 4.0, 2.55), ("UK", None, 2.55),
    ("AU", 4.3, 2.5), ("NZ", 4.3, 2.55),
])
def test_sizes_abroad(codes: str, height: float | None, width: float) -> None:
    for code in codes.split():
        assert (REGIONS[code].height, REGIONS[code].width) == (height, width)


def test_what_was_not_read_says_so() -> None:
    """Arizona's base height, Delaware, Hawaii, New Hampshire: a check that rests on them is reviewed at best."""
    remembered = {c for c, r in REGIONS.items() if r.confidence == "memory"}
    assert remembered == {"US-AZ", "US-DE", "US-HI", "US-NH"}


@pytest.mark.parametrize(("code", "day"), [
    ("US-UT", "2017-05-09"), ("US-SD", "2020-02-26"), ("US-OH", "2013-07-01"), ("US-PA", "2008-11-26"),
    ("US-SC", "2008-05-22"), ("US-IL", "2002-01-01"), ("US-CO", "2016-08-10"), ("US-TX", "2026-01-01"),
])
def test_the_day_of_a_dated_text(code: str, day: str) -> None:
    """Days printed on the files of the public rules set."""
    assert REGIONS[code].as_of == day
