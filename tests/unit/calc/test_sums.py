"""Sums over items: against brute force, and their spread against an independent calculation."""

from dataclasses import replace

import numpy as np
import pytest
import scratch
from hypothesis import given
from hypothesis import strategies as st
from scratch import DATA, item, model

from generator.calc.record import Basis
from generator.calc.sums import basis, sums, unknowns
from generator.calc.trials import Trials

SURE = Trials(count=0)


def travel(items, trials=SURE, data=DATA, **more):
    return sums(model(items, **more), trials, data).states["travel"]


def test_moments_against_points():
    """An even spread of length L has its own L2/12 (any mechanics text): checked against 2000 points."""
    bar = item("bar", 120.0, 3.0, x0=1.0, x1=5.0, y=0.5, z=2.0, width=1.0)
    found = travel([bar]).fixed
    x = np.linspace(1.0, 5.0, 4001)[1::2]
    y = 0.5 + np.linspace(-0.5, 0.5, 4001)[1::2]
    assert (found.m[0], found.mx[0], found.my[0], found.mz[0]) == pytest.approx((120.0, 360.0, 60.0, 240.0))
    assert found.mxx[0] == pytest.approx(120.0 * np.mean(x**2), rel=1e-6)
    assert found.myy[0] == pytest.approx(120.0 * np.mean(y**2), rel=1e-6)


stations = st.floats(-5.0, 12.0)


@given(st.lists(st.tuples(st.floats(0.0, 500.0), stations, stations, stations), min_size=1, max_size=12))
def test_sums_are_the_sums(rows):
    items = [item(f"i{n}", m, x, y=y, z=z) for n, (m, x, y, z) in enumerate(rows)]
    found = travel(items).fixed
    assert found.m[0] == pytest.approx(sum(m for m, *_ in rows))
    assert found.mx[0] == pytest.approx(sum(m * x for m, x, *_ in rows), abs=1e-6)
    assert found.my[0] == pytest.approx(sum(m * y for m, _, y, _ in rows), abs=1e-6)
    assert found.mz[0] == pytest.approx(sum(m * z for m, _, _, z in rows), abs=1e-6)


@given(stations)
def test_moving_sums_moves_their_stations_only(dx):
    found = travel([item("a", 100.0, 2.0, x1=4.0), item("b", 50.0, -1.0)]).fixed
    there = found.moved(dx)
    again = travel([item("a", 100.0, 2.0 + dx, x1=4.0 + dx, x0=2.0 + dx), item("b", 50.0, -1.0 + dx)]).fixed
    for name in ("m", "mx", "my", "mz", "mxx", "myy"):
        assert getattr(there, name)[0] == pytest.approx(getattr(again, name)[0], rel=1e-9, abs=1e-9)


def test_what_moves_and_what_is_unsprung_are_kept_apart():
    found = travel(
        [
            item("house", 1000.0, 3.0),
            item("hanger", 90.0, 6.1, moves=True),
            item("axle", 160.0, 7.0, moves=True, unsprung=True),
        ]
    )
    assert (found.fixed.m[0], found.moving.m[0], found.unsprung.m[0]) == (1000.0, 90.0, 160.0)
    assert found.moving.mx[0] == pytest.approx(0.0)
    assert found.unsprung.mx[0] == pytest.approx(160.0 * 0.9)


def test_only_what_is_aboard_counts():
    of = sums(model([item("trailer", 1000.0, 0.0), item("bed", 200.0, 1.0, stage="dry")]), SURE, DATA)
    assert [float(of.states[s].fixed.m[0]) for s in ("bare", "shell", "dry", "travel", "parked_light")] == [
        1000.0,
        1000.0,
        1200.0,
        1200.0,
        1200.0,
    ]


def test_unknown_mass_makes_only_its_states_unknown():
    of = sums(
        model(
            [item("trailer", 1000.0, 0.0), item("piano", float("nan"), 1.0, stage="travel", origin="weights.yaml:9")]
        ),
        Trials(count=100),
        DATA,
    )
    assert np.isfinite(of.states["dry"].fixed.m).all()
    assert np.isnan(of.states["travel"].fixed.m).all()
    assert "unknown:weights.yaml:9" in of.states["travel"].fixed.rests_on
    assert "unknown:weights.yaml:9" not in of.states["dry"].fixed.rests_on


def test_unknown_place_leaves_the_mass_known():
    of = travel([item("stove", 50.0, float("nan"))]).fixed
    assert of.m[0] == 50.0
    assert np.isnan(of.mx[0])
    assert unknowns([item("stove", 50.0, float("nan"))]) == {"unknown:stove"}


def test_same_seed_same_draws_and_a_new_item_leaves_the_others_alone():
    items = [item(f"i{n}", 100.0, n, spread=0.1) for n in range(5)]
    trials = Trials(count=500)
    once, again = travel(items, trials).fixed.m, travel(items, trials).fixed.m
    assert (once == again).all()
    more = travel([*items, item("late", 70.0, 1.0)], trials).fixed.m
    np.testing.assert_allclose(more, once + 70.0, rtol=1e-12)


def test_blocks_do_not_change_the_draws(monkeypatch):
    items = [item(f"i{n}", 100.0, n, spread=0.1) for n in range(5)]
    whole = travel(items, Trials(count=3000)).fixed.m
    monkeypatch.setattr("generator.calc.sums.BLOCK", 700)
    np.testing.assert_allclose(travel(items, Trials(count=3000)).fixed.m, whole, rtol=1e-12)


def test_trials_stay_in_their_bounds():
    """A normal is cut at three deviations, a triangle at its ends; nothing weighs less than nothing."""
    of = travel([item("a", 100.0, 0.0, spread=0.1)], Trials(count=5000)).fixed.m
    assert np.abs(of - 100.0).max() <= 3 * 10.0 / 1.6448536 + 1e-9
    of = travel([replace(item("b", 100.0, 0.0), low=0.0, high=200.0, shape="triangular")], Trials(count=5000)).fixed.m
    assert of.min() >= 0.0
    assert of.max() <= 200.0
    assert travel([item("c", 1.0, 0.0, spread=3.0)], Trials(count=5000)).fixed.m.min() == 0.0


MASSES = [
    (1200.0, 3.6, 10, "frame"),
    (900.0, 3.4, 15, "frame"),
    (700.0, 1.2, 20, "shell"),
    (780.0, 3.0, 10, "shell"),
    (420.0, 3.8, 2, "interior"),
]
"""Five lines with P5 to P95 in per cent, in three groups."""


@pytest.mark.parametrize(
    ("together", "common", "sd_mass", "sd_hitch"),
    [(0.5, 0.0, 177.76, 47.330), (0.6, 0.2, 205.94, 49.876), (1e-12, 0.0, 146.89, 43.726)],
)
def test_spread_of_mass_and_hitch_with_group_correlation(together, common, sd_mass, sd_hitch):
    """Standard deviations by covariance algebra, worked independently: sum of c_i c_j sd_i sd_j r_ij."""
    rows = {
        **DATA.defaults,
        "mass.correlation_group": replace(DATA.defaults["mass.correlation_group"], value=together),
        "mass.correlation_common": replace(DATA.defaults["mass.correlation_common"], value=common),
    }
    items = [item(f"l{n}", m, x, spread=p / 100, group=g) for n, (m, x, p, g) in enumerate(MASSES)]
    of = travel(items, Trials(), replace(DATA, defaults=rows)).fixed
    hitch = (of.m * 3.8 - of.mx) / 5.2
    assert hitch[0] == pytest.approx(585.38, abs=0.005)
    four_errors = 4 / np.sqrt(2 * 10_000)
    assert of.m[1:].std() == pytest.approx(sd_mass, rel=four_errors)
    assert hitch[1:].std() == pytest.approx(sd_hitch, rel=four_errors)


def test_measured_lines_err_alone():
    """Two measured lines: variances add (any statistics text)."""
    items = [
        item("a", 1000.0, 0.0, spread=0.05, basis="measured"),
        item("b", 1000.0, 0.0, spread=0.05, basis="measured"),
    ]
    of = travel(items, Trials()).fixed.m
    assert of[1:].std() == pytest.approx(np.sqrt(2) * 50.0 / 1.6448536, rel=0.03)


@pytest.mark.parametrize(("kg", "expected"), [(10.0, Basis.ESTIMATE), (100.0, Basis.PLACEHOLDER)])
def test_a_light_placeholder_does_not_colour_the_total(kg, expected):
    rows = [
        item("a", 900.0, 0.0, basis="estimate"),
        item("b", 91.0, 0.0, basis="measured"),
        item("c", kg, 0.0, basis="placeholder"),
    ]
    assert basis(rows, 3, 0.02) == expected


def test_a_heavy_density_from_memory_colours_the_total():
    rows = [item("a", 900.0, 0.0, basis="table"), item("b", 100.0, 0.0, basis="table", memory=True)]
    assert basis(rows, 3, 0.02) == Basis.MEMORY


def test_groups_add_up_to_the_state():
    of = sums(
        scratch.model([item("a", 10.0, 0.0, group="frame"), item("b", 20.0, 0.0, group="systems", stage="travel")]),
        SURE,
        DATA,
    )
    assert {g: float(q.values[0]) for g, q in of.groups.items()} == {"frame": 10.0, "systems": 20.0}
