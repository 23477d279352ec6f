"""Lamps by the rules held: how many of each a trailer needs.

Source of the counts: 49 CFR 571.108, table I-b, edition of 2015, for trailers: under 80 in wide and 30 ft long 2 tail,
2 stop, 2 turn, 4 side markers and a plate lamp, with 2 rear and 4 side reflectors; from 80 in 7 lamps more (2 front and
2 rear clearance, 3 identification); from 30 ft 2 markers and 2 reflectors more.
"""

import math

import pytest

from generator.reference.lamps import circuits, circuits_of, lamp_rules, lamps_of

IN, FT = 0.0254, 0.3048


def _counts(width: float, length: float) -> tuple[int, int]:
    """Lamps and reflectors asked for."""
    rows = lamps_of(["US-OR", "US-WA"], width, length)
    shining = sum(r.count for r in rows if "reflector" not in r.title)
    return shining, sum(r.count for r in rows) - shining


@pytest.mark.parametrize(("width", "length", "expected"), [
    (79.0, 29.0, (11, 6)), (80.0, 29.0, (18, 6)), (102.0, 30.0, (20, 8)), (79.0, 31.0, (13, 8)),
])
def test_counts_of_the_table(width: float, length: float, expected: tuple[int, int]) -> None:
    assert _counts(width * IN, length * FT) == expected


def test_what_is_unknown_asks_for_all() -> None:
    assert _counts(math.nan, math.nan) >= _counts(3.0, 12.0)


def test_heights_of_the_table() -> None:
    """The same source: tail and stop lamps 15 to 72 in, turn signals to 83 in, reflectors to 60 in."""
    rows = {r.id: (round(r.low / IN, 6), round(r.high / IN, 6)) for r in lamp_rules() if r.id.startswith("us-")}
    assert rows["us-tail"] == rows["us-stop"] == (15.0, 72.0)
    assert rows["us-turn"] == (15.0, 83.0)
    assert {rows[r] for r in rows if r.endswith("reflector")} == {(15.0, 60.0)}
    assert rows["us-rear-marker-wide"] == (15.0, 60.0)


def test_regions_without_a_rule_get_none() -> None:
    assert lamps_of(["CA"], 2.6, 12.0) == ()
    assert {r.source for r in lamps_of(["NZ"], 2.5, 6.0)} == {"un-r48"}
    assert {r.confidence for r in lamps_of(["NZ"], 2.5, 6.0)} == {"memory"}


def test_circuits_are_those_of_the_connector_named() -> None:
    assert len(circuits_of("7-way blade connector, 8 ft of loom")) == 7
    assert circuits_of("a plug of our own") == ()
    assert {c.confidence for c in circuits()} == {"memory"}
