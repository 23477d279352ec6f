"""How formulas are printed."""

from dataclasses import dataclass

from generator.formulas import bracketed, is_formula, numbers, printed, put_in
from generator.units import Show


@dataclass(frozen=True)
class Given:
    symbol: str
    value: float
    unit: str


def test_signs_of_print() -> None:
    assert printed("H = W*(x_a - x_g)**2") == "H = W·(x_a − x_g)^2"


def test_numbers_are_put_in_once_and_functions_kept() -> None:
    text = "T = max(a, b)*tan(phi) - a"
    assert put_in(text, {"a": "2 in", "b": "b", "phi": "5°"}) == "max(2 in, b)·tan(5°) − 2 in"


def test_negative_numbers_stand_in_brackets() -> None:
    assert bracketed("−72 in") == "(−72 in)"
    assert bracketed("72 in") == "72 in"


def test_a_sentence_is_not_a_formula() -> None:
    assert is_formula("H = W*s")
    assert not is_formula("Bisection over the station until H = H_max")


def test_gravity_is_one_in_pounds_and_angles_in_sums_are_radians() -> None:
    text = "F = 9.80665*m*cos(phi) + k*(phi + sin(theta))"
    given = [Given("m", 0.45359237, "kg"), Given("phi", 0.1, "rad"), Given("k", 1.0, "1"), Given("theta", 0.1, "rad")]
    us = put_in(text, numbers(text, given, Show("us")))
    assert us.replace("\u00a0", " ") == "1.000 lbf/lb·1.0 lb·cos(0.10000 rad) + 1·(0.10000 rad + sin(5.730°))"
    assert numbers(text, given, Show("si"))["9.80665"].replace("\u00a0", " ") == "9.80665 N/kg"
