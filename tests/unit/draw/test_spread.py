"""`spread`: nearest places by least squares, kept apart, in order, in bounds; and ordinates made from it."""

import itertools

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from generator.draw.marks import Line, texts
from generator.draw.ordinates import SPACING, Station, ordinates, spread

PLACES = st.lists(st.floats(0.0, 300.0), min_size=1, max_size=40).map(sorted)


@settings(max_examples=200, deadline=None)
@given(PLACES, st.floats(0.5, 7.0))
def test_places_keep_gap_order_and_bounds(wanted: list[float], gap: float) -> None:
    low, high = -5.0, 305.0
    got = spread(wanted, gap, low, high)
    assert all(b - a >= gap - 1e-9 for a, b in itertools.pairwise(got))
    if (len(wanted) - 1) * gap <= high - low:
        assert low - 1e-9 <= got[0]
        assert got[-1] <= high + 1e-9


@settings(max_examples=100, deadline=None)
@given(PLACES)
def test_texts_with_room_stay_where_they_are(wanted: list[float]) -> None:
    apart = [w + 5.0 * i for i, w in enumerate(wanted)]
    assert np.allclose(spread(apart, 5.0, -1e3, 1e3), apart)


def test_equals_a_general_optimiser() -> None:
    """Source of the comparison: scipy.optimize.minimize, SLSQP, on the same least-squares problem."""
    wanted, gap, low, high = [3.0, 4.0, 4.5, 20.0, 21.0, 40.0, 41.0, 41.5], 4.5, 0.0, 44.0
    rules = [{"type": "ineq", "fun": lambda y, i=i: y[i + 1] - y[i] - gap} for i in range(len(wanted) - 1)]
    rules += [{"type": "ineq", "fun": lambda y: y[0] - low}, {"type": "ineq", "fun": lambda y: high - y[-1]}]
    best = minimize(
        lambda y: float(np.sum((y - np.array(wanted)) ** 2)), np.linspace(low, high, len(wanted)), constraints=rules
    )
    ours = np.array(spread(wanted, gap, low, high))
    assert float(np.sum((ours - np.array(wanted)) ** 2)) <= best.fun + 1e-3


@settings(max_examples=60, deadline=None)
@given(PLACES)
def test_witness_lines_do_not_cross(along: list[float]) -> None:
    stations = [Station(f"s{i:02}", x, 0.0, f"{i}", x + 1.0) for i, x in enumerate(along)]
    lines = [m for m in ordinates("o", stations, 10.0, True, -50.0, 350.0) if isinstance(m, Line)]
    starts, ends = [m.points[0][0] for m in lines], [m.points[-1][0] for m in lines]
    assert starts == sorted(starts)
    assert ends == sorted(ends)


def test_the_datum_stays_put() -> None:
    stations = [Station("a", -1.0, 0.0, "-1", -1.0), Station("o", 0.0, 0.0, "0", 0.0), Station("b", 0.5, 0.0, "1", 1.0)]
    marks = ordinates("o", stations, 10.0, True, -50.0, 50.0)
    assert next(m for m in marks if isinstance(m, Line) and m.id == "o.o").points[-1][0] == 0.0


def test_stations_that_print_the_same_become_one() -> None:
    stations = [Station("l", 5.0, 3.0, "5", 5.0), Station("r", 5.0, 8.0, "5", 5.0)]
    assert len(texts(ordinates("o", stations, 10.0, True, 0.0, 50.0))) == 1


def test_too_many_stations_drop_the_lowest_rank() -> None:
    stations = [Station(f"s{i}", float(i), 0.0, f"{i}", i + 1.0, rank=0 if i == 3 else 2) for i in range(20)]
    marks = ordinates("o", stations, 10.0, True, 0.0, 4 * SPACING)
    assert len(texts(marks)) == 5
    assert any(t.text == "3" for t in texts(marks))
