"""How formulas are printed."""

from generator.formulas import bracketed, is_formula, printed, put_in


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
