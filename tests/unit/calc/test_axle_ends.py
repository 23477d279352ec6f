"""The closed form of the window's ends against bisection over the loads themselves, and against the hand calculation.

Hand calculation: the project's own check values for an equalised tandem (states bare, travel, wet; ball at -1.40).
"""

from dataclasses import replace
from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scratch import DATA, LEAF, spec
from test_placement import BARE, TRAVEL, WET, bench

from generator.calc.record import Working
from generator.calc.run import work
from generator.calc.topics import axle_ends
from generator.calc.topics.axle_bench import ratios
from generator.calc.topics.axle_ends import bisected, closed, ends, show_ends
from generator.calc.trials import Trials
from generator.model.resolve import resolve

HALVINGS = 64
"""So many halvings of 12 m leave less than a double can tell."""


def sharing(states, **more):
    b = bench(states, **more)
    return replace(b, sharing=tuple(np.ones((1, 1)) for _ in b.rates))


def test_ends_of_the_three_states_by_hand():
    """u = P/(M_f - s M), P/(A_max - M_r), P/(M_f - H_max); travel P 18000: 5.0590, 4.1880, 5.3941, 5.3254."""
    lows, highs = ends(sharing([BARE, TRAVEL, WET]))
    assert lows[0] + 1.40 == pytest.approx([4.7574, 5.0590, 4.8903], abs=5e-5)
    assert highs[1] + 1.40 == pytest.approx([5.1720, 5.3941, 5.2116], abs=5e-5)
    assert (highs[2] + 1.40)[1:] == pytest.approx([5.3254, 5.0870], abs=5e-5)
    assert (lows[3] + 1.40)[1:] == pytest.approx([4.1880, 4.3555], abs=5e-5)
    assert lows[0, 1] + 1.40 == pytest.approx(18000.0 / (4000.0 - 0.10 * 4420.0), rel=1e-12)
    assert highs[2, 1] + 1.40 == pytest.approx(18000.0 / (4000.0 - 620.0), rel=1e-12)


state = st.tuples(st.floats(1000.0, 9000.0), st.floats(2.0, 5.0), st.floats(50.0, 500.0))


@settings(max_examples=150, deadline=None)
@given(
    states=st.lists(state, min_size=1, max_size=3),
    e=st.sampled_from([0.0, 0.025, 0.06, -0.04]),
    k=st.floats(150e3, 400e3),
    heights=st.tuples(st.floats(0.8, 2.2), st.floats(0.4, 1.2), st.floats(0.3, 0.45)),
    hitch=st.floats(200.0, 3000.0),
    rating=st.floats(800.0, 4000.0),
    tyre=st.floats(400.0, 2000.0),
    unsprung=st.floats(0.0, 250.0),
    y=st.floats(-0.1, 0.1),
    onward=st.booleans(),
)
def test_closed_form_is_what_bisection_finds(states, e, k, heights, hitch, rating, tyre, unsprung, y, onward):
    b = sharing(states, e=e, k=k, heights=heights, hitch=hitch, axles=(rating,) * 2, tyre=tyre,
                unsprung=(unsprung,) * 2)
    b = replace(b, y=np.full(b.y.shape, y), onward=np.full(len(states), onward))
    with patch.object(axle_ends, "HALVINGS", HALVINGS):
        found = bisected(b)
    for by_formula, by_halving in zip(ends(b), found, strict=True):
        inner = np.isfinite(by_halving)
        assert by_formula[inner] == pytest.approx(by_halving[inner], abs=1e-9)


@pytest.mark.parametrize("e", [0.0, 0.05])
def test_an_end_put_back_uses_the_limit_in_full(e):
    b = sharing([TRAVEL, WET], e=e, heights=(1.62, 0.50, 0.36), unsprung=(110.0, 110.0))
    for found in ends(b):
        for row, state in np.argwhere(np.isfinite(found)):
            assert ratios(b, found[row, state].reshape(1, 1))[row, state, 0] == pytest.approx(1.0, abs=1e-9)


def test_limits_nothing_meets_and_limits_nothing_breaks():
    """Axles that do not carry what moves with them: no station. A ball that carries all that is fixed: no end."""
    lows, _ = ends(sharing([TRAVEL], axles=(200.0, 200.0)))
    assert np.isposinf(lows[3:5]).all()
    _, highs = ends(sharing([TRAVEL], hitch=4000.0))
    assert np.isposinf(highs[2]).all()
    for nothing in (0.0, -500.0):
        _, highs = ends(sharing([TRAVEL], hitch=nothing))
        assert np.isneginf(highs[2]).all()


def test_axles_that_do_not_share_are_bisected():
    b = bench([TRAVEL])
    assert [x.tolist() for x in ends(b)] == [x.tolist() for x in bisected(b)]
    w = Working()
    show_ends(b, w)
    assert w.steps == []


def test_the_working_shows_both_ends():
    b = sharing([BARE, TRAVEL, WET], e=0.02, heights=(1.62, 0.50, 0.36))
    w = Working()
    show_ends(b, w)
    found = [s.result.value for s in w.steps if s.what == axle_ends.END.what]
    lows, highs = ends(b)
    assert found == pytest.approx([lows.max(), highs.min()], rel=1e-12)
    assert [s.what for s in w.steps if s.result.symbol == "A_lim"] == [axle_ends.AT_SHARE.what, axle_ends.AT_HITCH.what]


def test_the_window_of_a_leaf_trailer_is_worked_out_in_its_check():
    worked = work(resolve(spec(trailer=LEAF), DATA), DATA, Trials(count=0))
    check = next(c for c in worked.checks if c.id == "axles.window")
    assert [s.what for s in check.outcome.steps].count(axle_ends.END.what) == 2
    assert closed(sharing([TRAVEL])).x.shape == (7, 1)
