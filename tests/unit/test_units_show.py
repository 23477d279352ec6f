"""Writing values: rounding, direction, marks, both systems."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import CalcError
from generator.spec.glyphs import covered
from generator.units import DISPLAY, KINDS, Show, parse, wire_gauge
from generator.units.show import CURRENCIES

US, SI = Show("us", "USD"), Show("si", "EUR")
IN, LB = 0.0254, 0.45359237


@pytest.mark.parametrize(
    ("inches", "shown"),
    [
        (0.5, "1/2\u2033"),
        (11.96, "11 15/16\u2033"),
        (11.97, "1\u2032-0\u2033"),
        (12.0, "1\u2032-0\u2033"),
        (12.5, "1\u2032-0 1/2\u2033"),
        (95.9688, "8\u2032-0\u2033"),
        (101.97, "8\u2032-6\u2033"),
        (161.99, "13\u2032-6\u2033"),
        (162.03, "13\u2032-6\u2033"),
        (162.04, "13\u2032-6 1/16\u2033"),
        (-50.25, "\u22124\u2032-2 1/4\u2033"),
        (384.0, "32\u2032-0\u2033"),
        (0.03, "0\u2033"),
        (0.0, "0\u2033"),
        (-0.001, "0\u2033"),
    ],
)
def test_feet_inches(inches: float, shown: str) -> None:
    """The total is rounded once to 1/16, then carried, then reduced (common practice, no source)."""
    assert US(inches * IN, "m").replace("\u00a0", " ") == shown


@pytest.mark.parametrize(
    ("inches", "toward", "shown"),
    [
        (162.01, "up", "13\u2032-6\u00a01/16\u2033"),
        (161.99, "down", "13\u2032-5\u00a015/16\u2033"),
        (102.0, "up", "8\u2032-6\u2033"),
        (102.0, "down", "8\u2032-6\u2033"),
    ],
)
def test_direction_is_the_safe_side(inches: float, toward: str, shown: str) -> None:
    assert US(inches * IN, "m", toward) == shown  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("show", "value", "unit", "shown"),
    [
        (US, 6350 * LB, "kg", "6,350 lb"),
        (SI, 2880.4, "kg", "2,880 kg"),
        (SI, 2.59, "m", "2,590 mm"),
        (SI, 10.363, "m", "10.363 m"),
        (SI, 0.0043, "m", "4.3 mm"),
        (US, 0.146, "%", "14.6 %"),
        (SI, 0.15, "%", "15.0 %"),
        (US, 0.12, "1", "0.120"),
        (US, 551580.6, "Pa", "80 psi"),
        (SI, 551580.6, "Pa", "552 kPa"),
        (SI, 2.5e8, "Pa", "250 MPa"),
        (US, 29.0576, "m/s", "65 mph"),
        (SI, 29.0576, "m/s", "105 km/h"),
        (US, 0.39269908, "rad", "22.5\u00b0"),
        (US, 95.0, "s", "95 s"),
        (US, 240.0, "s", "4.0 min"),
        (US, 6758.19, "m:far", "4 mi"),
        (SI, 12.0, "turns", "12 turns"),
    ],
)
def test_both_systems(show: Show, value: float, unit: str, shown: str) -> None:
    assert show(value, unit) == shown.replace(" ", "\u00a0")


def test_rounding_up_ignores_float_noise() -> None:
    assert US(7000 * LB, "kg", "up") == "7,000\u00a0lb"
    assert US(3 * 2.4384 / 3 + 1e-14, "m", "up") == "8\u2032-0\u2033"


@pytest.mark.parametrize("bad", [None, float("nan"), float("inf")])
def test_nothing_known_is_a_dash(bad: float | None) -> None:
    assert US(bad, "kg") == "\u2013"
    assert US.number(bad, "m") == "\u2013"
    assert US.ratio(bad) == "\u2013"
    assert US.percent(bad) == "\u2013"
    assert US.money(None) == "\u2013"


@pytest.mark.parametrize(
    ("ratio", "shown"),
    [
        (1.0, "1.000"),
        (1.0004, "1.001"),
        (0.99996, "0.999"),
        (0.9994, "0.999"),
        (1.0006, "1.001"),
        (0.5, "0.500"),
        (-0.2, "\u22120.200"),
        (0.0, "0.000"),
    ],
)
def test_a_ratio_is_never_rounded_across_one(ratio: float, shown: str) -> None:
    assert US.ratio(ratio) == shown


@settings(max_examples=200)
@given(st.floats(0.0, 3.0))
def test_a_shown_ratio_says_the_same_as_the_raw_one(ratio: float) -> None:
    shown = float(US.ratio(ratio))
    assert (shown <= 1.0) == (ratio <= 1.0)
    assert (shown >= 1.0) == (ratio >= 1.0)


@pytest.mark.parametrize(
    ("amount", "shown"),
    [("12340", "$12,340"), ("12340.50", "$12,341"), ("84.50", "$84.50"), ("84", "$84"), ("-250", "\u2212$250")],
)
def test_money(amount: str, shown: str) -> None:
    assert US.money(Decimal(amount)) == shown


def test_every_currency_and_label_can_be_printed() -> None:
    """Every character of every label stands in the packaged font."""
    labels = [look.label for pair in DISPLAY.values() for look in pair]
    text = "".join([*labels, *CURRENCIES.values(), "\u2032\u2033\u2212\u2013\u00a0"])
    assert {c for c in text if ord(c) not in covered()} == set()


def test_every_kind_has_a_look() -> None:
    assert {kind.unit for kind in KINDS.values()} <= set(DISPLAY)


def test_an_unknown_unit_key_is_named() -> None:
    with pytest.raises(CalcError, match="no unit is called 'furlong'"):
        US(1.0, "furlong")
    with pytest.raises(CalcError, match="no unit is called 'furlong'"):
        US.label("furlong")


@settings(max_examples=200)
@given(st.floats(-50.0, 50.0), st.sampled_from(["us", "si"]))
def test_up_is_never_below_and_down_never_above(value: float, system: str) -> None:
    """A height shown upward, read as a number, is at least the raw one; a clearance at most (noise 1e-6 of a step)."""
    show = Show("us" if system == "us" else "si")
    up, down = (parse(show(value, "m", to).replace(",", ""), "length") for to in ("up", "down"))
    assert down - 1e-7 <= value <= up + 1e-7


@pytest.mark.parametrize(("mm2", "gauge"), [
    (107.2, "4/0 AWG"), (53.5, "1/0 AWG"), (33.6, "2 AWG"), (21.2, "4 AWG"), (13.3, "6 AWG"), (2.08, "14 AWG"),
    (35.0, ""), (0.0, ""), (float("nan"), ""), (5000.0, ""),
])
def test_copper_by_the_american_gauge(mm2: float, gauge: str) -> None:
    """ASTM B258 sizes in mm2, as wire tables print them (from memory)."""
    assert wire_gauge(mm2 * 1e-6) == gauge
