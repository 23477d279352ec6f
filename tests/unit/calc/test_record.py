"""Quantities, comparisons and spreads: the few rules every check rests on."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.record import About, Basis, Check, Compared, Missing, Working, compare, holds, report, sure
from generator.errors import CalcError

ABOUT = About("t", "topic", "source", "concern", "ask")
NAN = float("nan")


def check(demand: float, limit: float, sense: str = "<=", basis: Basis = Basis.TABLE) -> Check:
    found = compare(sure("d", demand, "kg", basis), sure("l", limit, "kg"), sense, Working())  # type: ignore[arg-type]
    return Check("a.b", ABOUT, "travel", found)


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=300))
def test_spread_is_the_general_librarys(trials: list[float]) -> None:
    """numpy.percentile, linear interpolation (the general-purpose reference)."""
    q = report("a", "A", sure("a", 0.0, "kg").__class__("a", np.array([0.0, *trials]), "kg"))
    assert [q.low, q.high] == pytest.approx(np.percentile(trials, [5.0, 95.0]), rel=1e-12, abs=1e-9)


def test_a_trial_without_a_number_leaves_no_spread() -> None:
    q = report("a", "A", sure("a", 0.0, "kg").__class__("a", np.array([0.0, 1.0, NAN, 2.0]), "kg"))
    assert np.isnan(q.low)
    assert np.isnan(q.high)


@pytest.mark.parametrize(
    ("demand", "limit", "sense", "status"),
    [
        (1.0, 1.0, "<=", "pass"),
        (1.0 + 1e-12, 1.0, "<=", "fail"),
        (162.03 * 0.0254, 162.0 * 0.0254, "<=", "fail"),
        (1.0, 1.0, ">=", "pass"),
        (0.0, 0.0, "<=", "pass"),
        (1.0, 0.0, "<=", "fail"),
        (NAN, 1.0, "<=", "not assessed"),
        (1.0, NAN, ">=", "not assessed"),
        (float("inf"), 1.0, "<=", "not assessed"),
    ],
)
def test_raw_values_decide(demand: float, limit: float, sense: str, status: str) -> None:
    assert check(demand, limit, sense).status == status


def test_ratio_has_no_meaning_without_like_signs() -> None:
    assert check(0.0, 0.0).ratio == 0.0
    assert check(-5.0, 10.0).ratio is None
    assert check(1.0, 0.0).ratio is None
    assert check(2.0, 4.0).ratio == 0.5
    assert check(2.0, 1.0, ">=").ratio == 0.5


def test_a_limit_from_memory_gives_review_at_best() -> None:
    assert check(0.5, 1.0, basis=Basis.MEMORY).status == "review"
    assert check(0.5, 1.0, basis=Basis.PLACEHOLDER).status == "review"
    assert check(1.5, 1.0, basis=Basis.MEMORY).status == "fail"


def test_more_than_one_trial_in_twenty_gives_review() -> None:
    trials = np.array([0.5, *([0.5] * 94), *([1.5] * 6)])
    found = compare(sure("d", 0.0, "kg").__class__("d", trials, "kg"), sure("l", 1.0, "kg"), "<=", Working())
    assert isinstance(found, Compared)
    assert found.fail_share == pytest.approx(0.06)
    assert Check("a", ABOUT, "", found).status == "review"


def test_an_unknown_value_is_named() -> None:
    found = compare(sure("d", NAN, "kg", rests_on=["unknown:tow.yaml x"]), sure("l", 1.0, "kg"), "<=", Working())
    assert found == Missing(("tow.yaml x",))


def test_unlike_units_are_refused_and_nan_never_holds() -> None:
    with pytest.raises(CalcError, match="cannot be compared"):
        compare(sure("d", 1.0, "kg"), sure("l", 1.0, "m"), "<=", Working())
    assert not holds(NAN, 1.0, "<=")
    assert not holds(NAN, 1.0, ">=")
