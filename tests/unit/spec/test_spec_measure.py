"""Measures with their spread, and the plain numbers."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import Refusal
from generator.spec.measure import Measure, Plain, Text, measure

LB = 0.45359237
MASS = measure("mass", "640 lb +/- 10 %")
STATION = measure("length", sign="any")
SIZE = measure("length", sign="positive")
SHARE = measure("ratio", "15 %", most=1.0)


def test_a_sure_value_keeps_its_text_and_place() -> None:
    found = MASS.read(Text("7000 lb", "trailer.yaml:12"))
    assert found == Measure(3175.14659, 3175.14659, 3175.14659, "sure", "mass", "7000 lb", "trailer.yaml:12")
    assert found.known


@pytest.mark.parametrize(
    ("text", "half"),
    [
        ("640 lb +/- 10 %", 64 * LB),
        ("640 lb+/-10%", 64 * LB),
        ("640 lb \u00b1 10 %", 64 * LB),
        ("640 lb +/- 30 lb", 30 * LB),
        ("640 lb +/- 10 kg", 10.0),
        ("640 lb +/- 2.5 %", 16 * LB),
    ],
)
def test_plus_minus_is_the_fifth_and_ninety_fifth_percentile(text: str, half: float) -> None:
    found = MASS.read(text)
    assert found.shape == "normal"
    assert (found.low, found.high) == pytest.approx((640 * LB - half, 640 * LB + half), rel=1e-14)


@pytest.mark.parametrize("text", ["600 lb to 700 lb", "600 to 700 lb"])
def test_a_range_has_its_mode_in_the_middle(text: str) -> None:
    found = MASS.read(text)
    assert found.shape == "triangular"
    assert (found.low, found.nominal, found.high) == pytest.approx((600 * LB, 650 * LB, 700 * LB), rel=1e-14)


def test_a_negative_station_may_have_a_spread() -> None:
    found = STATION.read("-63 in +/- 1/2 in")
    assert (found.low, found.nominal, found.high) == pytest.approx((-1.6129, -1.6002, -1.5875))
    share = STATION.read("-100 in +/- 10 %")
    assert share.low < share.nominal < share.high


def test_unknown_is_legal_and_is_not_a_number() -> None:
    for reads in (MASS, STATION, SIZE, SHARE):
        found = reads.read(Text("unknown", "a:1"))
        assert math.isnan(found.nominal)
        assert not found.known
        assert (found.shape, found.origin) == ("unknown", "a:1")


@pytest.mark.parametrize(
    ("reads", "text", "message"),
    [
        (
            MASS,
            "640 lb +/- 120 %",
            "`640 lb +/- 120 %`: the spread is not between zero and the value itself; write for "
            "example `+/- 10 %`, more than 0 % and less than 100 %",
        ),
        (
            MASS,
            "640 lb +/- 0 %",
            "`640 lb +/- 0 %`: the spread is not between zero and the value itself; write for example "
            "`+/- 10 %`, more than 0 % and less than 100 %",
        ),
        (MASS, "640 lb +/- 10", "`640 lb +/- 10`: the spread has no unit; write `640 lb +/- 10 %`, or give its unit"),
        (MASS, "640 +/- 10 %", "`640` has no unit; write a mass, for example `7000 lb` or `3175 kg`"),
        (
            MASS,
            "700 lb to 600 lb",
            "`700 lb to 600 lb`: the first value is not below the second; write the lower one first",
        ),
        (
            MASS,
            "600 lb to 600 lb",
            "`600 lb to 600 lb`: the first value is not below the second; write the lower one first",
        ),
        (
            MASS,
            "-5 lb",
            "`-5 lb` is -2.26796 in SI, not plausible for a mass; 0 to 100000 in SI is read, for example "
            "`7000 lb` or `3175 kg`",
        ),
        (SIZE, "0 in", "`0 in` is not more than zero; write a value above zero, or `unknown`"),
        (SIZE, "-3 in", "`-3 in` is not more than zero; write a value above zero, or `unknown`"),
        (SIZE, "-1 in to 4 in", "`-1 in to 4 in` is not more than zero; write a value above zero, or `unknown`"),
        (measure("length"), "-1 in", "`-1 in` is negative; write zero or more, or `unknown`"),
        (SHARE, "120 %", "`120 %` is too much here; at most 100 %"),
        (SHARE, "15 % +/- 5 %", "`15 % +/- 5 %` is read two ways; write both ends, for example `10 % to 20 %`"),
    ],
)
def test_refused_word_for_word(reads: object, text: str, message: str) -> None:
    with pytest.raises(Refusal) as caught:
        reads.read(text)  # type: ignore[attr-defined]
    assert str(caught.value) == message


@pytest.mark.parametrize("value", [["7000 lb"], {"a": "b"}, 7000, None])
def test_only_text_is_read(value: object) -> None:
    with pytest.raises(Refusal, match="a single value is wanted here"):
        MASS.read(value)


@pytest.mark.parametrize(
    ("plain", "text", "value"),
    [
        (Plain("count", ("1",)), "12", 12),
        (Plain("number", ("1",)), "2.5", 2.5),
        (Plain("money", ("1",)), "84.50", Decimal("84.50")),
    ],
)
def test_plain_numbers(plain: Plain, text: str, value: object) -> None:
    assert plain.read(Text(text, "a:1")) == value


@pytest.mark.parametrize(
    "text", ["1,250", "$1250", "1e3", "-5", "12.345", "\u0663", "", "unknown", "1_000", "0x1F", "1:30", ".inf"]
)
def test_money_refuses_everything_else(text: str) -> None:
    with pytest.raises(Refusal, match="is not an amount of money"):
        Plain("money", ("1250",)).read(text)


@pytest.mark.parametrize("text", ["1.5", "-1", "yes", "010x", "12 kg", "unknown"])
def test_a_count_refuses_everything_else(text: str) -> None:
    with pytest.raises(Refusal, match="is not a whole number; write digits alone"):
        Plain("count", ("12",)).read(text)


def test_a_quantity_of_zero_is_refused() -> None:
    with pytest.raises(Refusal, match="a quantity of zero"):
        Plain("number", ("1",)).read("0.0")


@given(st.integers(1, 9000), st.integers(1, 99))
def test_both_systems_read_the_same_thing(kilograms: int, percent: int) -> None:
    """Property: one mass written in kg and in lb (exact definition, 0.45359237 kg) is the same measure."""
    metric = MASS.read(f"{kilograms} kg +/- {percent} %")
    pounds = f"{kilograms / LB:.9f}"
    imperial = MASS.read(f"{pounds} lb +/- {percent} %")
    assert imperial.nominal == pytest.approx(metric.nominal, rel=1e-8, abs=1e-8)
    assert imperial.high == pytest.approx(metric.high, rel=1e-8, abs=1e-8)
