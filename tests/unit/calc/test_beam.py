"""The beam on trailer supports: equaliser, trailing arms, stands, and what it refuses. Figures without a source are of
an independent hand program, confirmed by a general frame program (see tests/validation/test_pynite.py)."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calc.beam import Girder, Support, at, loads, solve
from generator.errors import CalcError

EI = 200e9 * 2.56e-5
TRAILER = [(0.0, 7.2, 4500.0, 4500.0), (-1.4, 0.0, 300.0, 300.0), (5.2, 7.2, 0.0, 1500.0)]
POINTS = [(1.0, 2500.0), (-0.9, 600.0)]
GIRDER = Girder(-1.4, 7.2, ((-1.4, EI),))
HANGERS = ((3.05, 0.25, 0.0), (3.80, 0.5, 0.0), (4.55, 0.25, 0.0))


def tandem(terms):
    return solve(GIRDER, [at("hitch", -1.4), Support("group", terms)], [loads(POINTS, TRAILER)])[0]


def test_equalised_tandem_carries_on_three_hangers():
    b = tandem(HANGERS)
    assert b.reactions == pytest.approx([2709.6, 34710.0], abs=0.5)
    stations = np.array([0.0, 0.40, 3.05, 3.80, 4.55])
    assert b.moment(stations) == pytest.approx([2959.5, 3275.3, -17943.0, -23602.0, -18776.0], abs=0.5)
    assert b.deflection(np.array([7.2, 1.0])) == pytest.approx([-0.029947, 0.0013391], abs=5e-7)
    x = np.linspace(0.0, 7.2, 721)
    w = b.deflection(x)
    chord = w[0] + (w[-1] - w[0]) * x / 7.2
    assert np.abs(w - chord).max() == pytest.approx(0.016195, abs=1e-6)
    assert x[np.abs(w - chord).argmax()] == pytest.approx(3.8, abs=0.06)


@pytest.mark.parametrize(("terms", "moment"), [
    (((3.80, 1.0, 0.0),), -30110.0), (((3.05, 0.5, 0.0), (4.55, 0.5, 0.0)), -17094.0),
])
def test_a_leaf_tandem_is_not_one_force_nor_two(terms, moment):
    """Negative test: one force at the middle overstates the moment by 28 %, two at the outer hangers understate it."""
    found = tandem(terms).moment(np.array([3.8]))[0]
    assert found == pytest.approx(moment, abs=0.5)
    assert abs(found / tandem(HANGERS).moment(np.array([3.8]))[0] - 1.0) > 0.27


def test_jacked_tandem():
    supports = [at("jack", -0.6), Support("group", HANGERS)]
    b = solve(GIRDER, supports, [loads(POINTS, TRAILER)])[0]
    assert b.reactions == pytest.approx([3202.3, 34218.0], abs=0.5)
    assert b.moment(np.array([-0.6]))[0] == pytest.approx(-276.0, abs=0.005)


def test_a_low_stand_takes_less_and_its_neighbours_more():
    stands = [at("1", 0.3), at("2", 2.6, imposed=-0.010), at("3", 5.0), at("4", 7.0)]
    b = solve(GIRDER, stands, [loads(POINTS, TRAILER)])[0]
    assert b.reactions == pytest.approx([23470.0, -26705.0, 47043.0, -6388.1], abs=0.5)


ARM, K, LEVEL = 0.15115, 260000.0, 0.055749
ROAD = loads([(2.0, 2500.0)], [(0.0, 9.2, 5500.0, 5500.0), (-3.2, 0.0, 2400.0, 2400.0)])


def torsion(ei, raised):
    axles = [at(f"axle {x}", x - ARM, ARM, K) for x in (5.2, 6.1, 7.0)]
    supports = [at("hitch", -2.3, imposed=raised - LEVEL), *axles]
    return solve(Girder(-3.2, 9.2, ((-3.2, ei),)), supports, [ROAD])[0]


@pytest.mark.parametrize(("ei", "raised", "hitch", "axles", "tolerance"), [
    (1e13, 0.0, 17296.0, (14495.0, 14495.0, 14495.0), 0.6), (1e13, 0.05, 17592.0, (13014.0, 14396.0, 15778.0), 0.6),
    (1.72e7, 0.0, 17117.0, (15417.0, 14503.0, 13743.0), 0.5), (1.72e7, 0.05, 17396.0, (14019.0, 14415.0, 14951.0), 0.5),
])
def test_triple_on_trailing_arms(ei, raised, hitch, axles, tolerance):
    """A frame that bends moves 6 % between the axles; a stiff one is the rigid closed form."""
    b = torsion(ei, raised)
    assert b.reactions == pytest.approx([hitch, *axles], abs=tolerance)
    assert b.reactions.sum() == pytest.approx(ROAD.total, rel=1e-12)


def test_an_arm_makes_the_sagging_moment_drop_at_its_bracket():
    b = torsion(1.72e7, 0.0)
    x = np.array([5.2 - ARM])
    drop = b.moment(x, after=False) - b.moment(x)
    assert drop[0] == pytest.approx(b.reactions[1] * ARM, rel=1e-9)
    assert b.moment(np.array([0.0]))[0] == pytest.approx(27080.0, abs=0.5)


def test_stations_a_hair_apart_cost_no_accuracy():
    """A change of section a tenth of a millimetre from a bracket: a stiffness matrix loses the balance there."""
    near = Girder(-3.2, 9.2, ((-3.2, 1.72e7), (5.2 - ARM + 1e-4, 2.0e7)))
    same = Girder(-3.2, 9.2, ((-3.2, 1.72e7), (5.2 - ARM, 2.0e7)))
    axles = [at(f"{x}", x - ARM, ARM, K) for x in (5.2, 6.1, 7.0)]
    a, b = (solve(g, [at("hitch", -2.3), *axles], [ROAD])[0] for g in (near, same))
    assert a.reactions == pytest.approx(b.reactions, rel=1e-5)


@pytest.mark.parametrize("supports", [
    [], [at("one", 0.0)], [at("a", 1.0), at("b", 1.0)], [at("spring", 0.0, stiffness=5.0)],
])
def test_a_beam_that_does_not_stand_is_refused(supports):
    with pytest.raises(CalcError, match=r"does not stand|stands off"):
        solve(GIRDER, supports, [loads(POINTS, TRAILER)])


@pytest.mark.parametrize(("points", "lines"), [
    ([(float("nan"), 1.0)], []), ([], [(0.0, 1.0, float("inf"), 1.0)]), ([], [(1.0, 1.0, 5.0, 5.0)]),
    ([], [(2.0, 1.0, 5.0, 5.0)]),
])
def test_loads_that_mean_nothing_are_refused(points, lines):
    with pytest.raises(CalcError):
        loads(points, lines)


def test_a_load_off_the_beam_is_refused():
    with pytest.raises(CalcError, match="off the beam"):
        solve(GIRDER, [at("a", 0.0), at("b", 5.0)], [loads(points=[(9.0, 1.0)])])


def test_cases_are_solved_together_and_add_up():
    supports = [at("a", -1.0), at("b", 3.0), at("c", 7.0)]
    one, two = loads(POINTS), loads(lines=TRAILER)
    a, b, both = solve(GIRDER, supports, [one, two, loads(POINTS, TRAILER)])
    assert both.reactions == pytest.approx(a.reactions + b.reactions, rel=1e-9)
    x = np.linspace(-1.4, 7.2, 50)
    assert both.deflection(x) == pytest.approx(a.deflection(x) + b.deflection(x), rel=1e-9, abs=1e-12)


POSITION = st.floats(-1.0, 6.0)
FORCE = st.floats(-2000.0, 9000.0)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(POSITION, st.floats(0.05, 1.0), FORCE), min_size=1, max_size=6), st.floats(-3.0, 3.0))
def test_balance_shift_and_peaks(rows, shift):
    """Reactions carry the load; moving everything moves nothing else; no station shows a moment beyond the peaks."""
    lines = [(x, x + length, w, w) for x, length, w in rows]
    supports = [at("a", -1.0), at("b", 2.5), at("c", 6.5, stiffness=3e5)]
    b = solve(GIRDER, supports, [loads(lines=lines)])[0]
    size = sum(abs(w) * length for _, length, w in rows) + 1.0
    assert b.reactions.sum() == pytest.approx(b.loads.total, abs=1e-9 * size)
    moved = solve(Girder(-1.4 + shift, 7.2 + shift, ((-1.4 + shift, EI),)),
                  [at(s.title, s.terms[0][0] + shift, stiffness=s.stiffness) for s in supports],
                  [loads(lines=[(x0 + shift, x1 + shift, w, w) for x0, x1, w, _ in lines])])[0]
    assert moved.reactions == pytest.approx(b.reactions, abs=1e-8 * size)
    spots = np.concatenate([b.breaks(), b.peaks()])
    most = b.moment(spots).max()
    assert b.moment(np.linspace(-1.4, 7.2, 997)).max() <= most + 1e-6 * size
