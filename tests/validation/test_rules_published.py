"""Rule tables against the figures of their sources, in the units the sources print.

US federal rules, annual edition of 2015: 23 CFR 658.5, 658.15, 658.17 (axles, gross, width), 24 CFR 3280.2, 3280.904,
3282.8(g) (manufactured home, exemption of recreational vehicles), 49 CFR 383.91, 393.70, 571.108 table I-b, S6.1.1.1,
571.110, 571.120, 571.224. International Residential Code, tiny-house appendix AQ102.1. Size limits of the EU, UK,
Australia, New Zealand and Canada as named in the rows. State heights: statutes named in the table of regions.
"""

import math

import pytest

from generator.reference.load import reference
from generator.reference.rules import in_force, nearest, paths, rules

POUND, FOOT, INCH = 0.45359237, 0.3048, 0.0254
LB, FT, IN, M, KG, SHARE = POUND, FOOT, INCH, 1.0, 1.0, 1.0
ALL = {r.id: r for r in rules()}


@pytest.mark.parametrize(("id", "quantity", "sign", "number", "unit"), [
    # 49 CFR 383.91(a)(1)
    ("driver-us-cdl-a", "combination.rating", ">=", 26_001, LB),
    ("driver-us-cdl-a", "rating.gvwr.requested", ">", 10_000, LB),
    # 49 CFR 390.3, 390.5
    ("driver-us-carrier", "combination.rating", ">=", 10_001, LB),
    # 49 CFR 571.108 table I-b: 2,032 mm and 9.144 m are the metric figures it prints
    ("lamps-us-wide", "width.overall", ">=", 2.032, M),
    ("lamps-us-long", "length.trailer", ">=", 9.144, M),
    ("lamps-us-all", "length.trailer", ">=", 6, FT),
    # 49 CFR 571.108 S6.1.1.1
    ("lamps-us-tape", "width.overall", ">=", 2.032, M),
    ("lamps-us-tape", "rating.gvwr.requested", ">", 10_000, LB),
    # 49 CFR 571.224 S3: exactly 10,000 lb counts
    ("lamps-us-guard", "rating.gvwr.requested", ">=", 10_000, LB),
    # 49 CFR 571.110 S2, 571.120 S3
    ("label-us-placard", "rating.gvwr.requested", "<=", 10_000, LB),
    ("label-us-rims", "rating.gvwr.requested", ">", 10_000, LB),
    # 24 CFR 3280.2
    ("dwelling-us-wide", "width.house", ">=", 8, FT),
    ("dwelling-us-long", "length.body", ">=", 40, FT),
    ("dwelling-us-area", "floor.area", ">=", 320, FT**2),
    # 24 CFR 3282.8(g)(2); AQ102.1
    ("dwelling-us-rv-lost", "floor.area", ">", 400, FT**2),
    ("dwelling-us-tiny", "floor.area", "<=", 400, FT**2),
    # 23 CFR 658.5: 40 in and 96 in
    ("weight-us-group-close", "axles.spread", "<=", 40, IN),
    ("weight-us-group-tandem", "axles.spread", ">", 40, IN),
    ("weight-us-group-tandem", "axles.spread", "<=", 96, IN),
    ("weight-us-group-bridge", "axles.spread", ">", 96, IN),
    # 23 CFR 658.15
    ("width-us-permit", "width.overall", ">", 102, IN),
    # VSB 1; vehicle classes of New Zealand
    ("class-au-light", "rating.gvwr.requested", ">", 4_500, KG),
    ("class-nz-tb", "rating.gvwr.requested", "<=", 3_500, KG),
    ("class-nz-td", "rating.gvwr.requested", ">", 10_000, KG),
])
def test_what_wakes_a_rule(id, quantity, sign, number, unit):
    limits = {(t.terms, t.sign): t.number for t in ALL[id].when}
    assert limits[((quantity,), sign)] == pytest.approx(number * unit, rel=1e-9)


@pytest.mark.parametrize(("id", "quantity", "sign", "number", "unit"), [
    # 23 CFR 658.17(b)-(d)
    ("weight-us-axle", "axles.heaviest", "<=", 20_000, LB),
    ("weight-us-group-close", "axles.group_heaviest", "<=", 20_000, LB),
    ("weight-us-group-tandem", "axles.group_heaviest", "<=", 34_000, LB),
    ("weight-us-gross", "combination.mass", "<=", 80_000, LB),
    # 24 CFR 3282.8(g)(2), 3280.904(b)(4)(ii)
    ("path-rv-area", "floor.area", "<=", 400, FT**2),
    ("path-manufactured-share-low", "state.travel.hitch_share", ">=", 0.12, SHARE),
    ("path-manufactured-share-high", "state.travel.hitch_share", "<=", 0.25, SHARE),
    # Construction and Use Regulations 1986, regulation 7
    ("size-uk-trailer-light", "length.without_tongue", "<=", 7, M),
    ("size-uk-trailer-heavy", "length.without_tongue", "<=", 12, M),
    ("size-uk-combination", "length.combination", "<=", 18, M),
    # Directive 96/53/EC annex I
    ("size-eu-trailer", "length.trailer", "<=", 12, M),
    ("size-eu-combination", "length.combination", "<=", 18.75, M),
    # ADR 43; Vehicle Dimensions and Mass 2016; Quebec C-24.2 r.31
    ("size-au-trailer", "length.trailer", "<=", 12.5, M),
    ("size-au-combination", "length.combination", "<=", 19, M),
    ("size-au-drawbar", "length.hitch_to_axles", "<=", 8.5, M),
    ("size-nz-trailer", "length.trailer", "<=", 12.5, M),
    ("size-ca-trailer", "length.trailer", "<=", 12.5, M),
    # COMAR 11.13.08.10 table 1
    ("coupling-us-ball-1", "ball.diameter", ">=", 1.875, IN),
    ("coupling-us-ball-2", "ball.diameter", ">=", 2, IN),
])
def test_what_a_rule_then_asks(id, quantity, sign, number, unit):
    must = ALL[id].must
    assert (must.terms, must.sign) == ((quantity,), sign)
    assert must.number == pytest.approx(number * unit, rel=1e-9)


def test_chains_together_hold_the_whole_trailer():
    """49 CFR 393.70(d)(3), (5): the set; RSA 266:63: each chain."""
    assert (ALL["coupling-us-chains"].must.terms, ALL["coupling-us-chains"].must.against) == (
        ("chains.together",), "rating.gvwr.requested")
    assert ALL["coupling-us-chain-nh"].must.terms == ("chains.each",)


@pytest.mark.parametrize(("state", "pounds"), [
    ("CA", 1_500), ("ID", 1_500), ("NH", 1_500), ("MS", 2_000), ("OH", 2_000), ("DE", 4_000), ("RI", 4_000),
    ("TX", 4_500), ("AK", 5_000), ("MA", 10_000), ("WA", 3_000), ("MN", 3_000), ("NC", 1_000),
])
def test_state_brake_thresholds(state, pounds):
    """Public tables of state thresholds; 3,000 lb where a state is not listed, house trailers in NC from 1,000 lb."""
    force = in_force(rules(), [f"US-{state}"])
    held = [ALL[i] for i in force if ALL[i].key == "brakes-us"]
    assert [round(r.when[0].number / POUND) for r in held] == [pounds]


def test_stopping_rules_are_the_mean_deceleration_of_their_distance():
    """20 mph within 40 ft: v2/2d = 0.334 g; 14 ft/s2 over the rule's own 32.2 ft/s2 is 43.5 %."""
    speed = 20 * 5280 / 3600
    mean = speed**2 / (2 * 40) / 32.174
    assert ALL["brakes-us-stopping"].must.number == pytest.approx(mean, abs=5e-4)
    assert ALL["brakes-us-nj"].must.number == pytest.approx(14 / 32.2, abs=5e-4)


@pytest.mark.parametrize(("code", "feet", "inches"), [
    ("US-CO", 14, 6), ("US-IN", 13, 6), ("US-TX", 14, 0), ("US-WA", 14, 0), ("US-NV", 14, 0), ("US-AK", 15, 0),
    ("US-FL", 13, 6), ("US-PA", 13, 6), ("US-NE", 14, 6),
])
def test_state_heights(code, feet, inches):
    """C.R.S. 42-4-504, IC 9-20-3-3, Transp. Code 621.207, RCW 46.44.020, NRS 484D.605, 17 AAC 25.012, F.S. 316.515,
    75 Pa.C.S. 4922, Neb. 60-6,289."""
    assert reference().regions[code].height == pytest.approx(feet * FOOT + inches * INCH, abs=1e-4)


@pytest.mark.parametrize(("code", "height", "width"), [
    ("EU", 4.0, 2.55), ("UK", None, 2.55), ("AU", 4.3, 2.5), ("NZ", 4.3, 2.55), ("CA", 4.15, 2.6),
])
def test_sizes_abroad(code, height, width):
    """Directive 96/53/EC annex I, C&U regulation 8, ADR 43, VDAM 2016, national agreement of Canada."""
    row = reference().regions[code]
    assert (row.height, row.width) == (height, width)


def test_what_is_from_memory_says_so():
    """The O classes, the scope of NFPA 1192 and ANSI A119.5 and state licence classes were not read."""
    remembered = {id for id, r in ALL.items() if r.confidence == "memory"}
    assert {"class-eu-o1", "class-eu-o2", "class-eu-o3", "dwelling-us-rv-scope", "path-park-area",
            "driver-us-state"} <= remembered


def test_the_edition_of_the_federal_rules_is_told_by_day():
    """Annual editions: titles 23 and 24 as of 1 April, title 49 as of 1 October."""
    for rule in ALL.values():
        if rule.source == "cfr-2015":
            assert rule.as_of == ("2015-10-01" if rule.cite.startswith("49 CFR") else "2015-04-01"), rule.id


def test_california_is_not_canada():
    """`CA` is Canada, `US-CA` California: a row of one never holds in the other."""
    assert nearest(ALL["size-ca-trailer"], "US-CA") == ""
    assert nearest(ALL["size-ca-high"], "CA") == ""
    assert nearest(ALL["size-ca-trailer"], "CA-NT") == "CA"


def test_every_path_answers_every_question():
    asked = {p.id: [q for q, _ in p.answers] for p in paths()}
    assert len({tuple(a) for a in asked.values()}) == 1
    assert not any(math.isnan(r.when[0].number) and not r.when[0].against for r in ALL.values() if r.when)
