"""The window of axle stations against hand calculations, and its properties."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scratch import DATA, item, model, spec

from generator.calc.sums import sums
from generator.calc.topics import placement as pl
from generator.calc.topics.axle_bench import Bench, Limit, loads_at, ratios
from generator.calc.topics.axle_ends import ends
from generator.calc.topics.hitch_limits import hitch_limits, room
from generator.calc.topics.masses import state_masses
from generator.calc.trials import Trials

FREE = 1e9


def bench(
    states,
    x_h=-1.40,
    unsprung=(0.0, 0.0),
    offsets=(0.0, 0.0),
    share=(0.10, 0.15),
    hitch=620.0,
    axles=(2359.0, 2359.0),
    tyre=FREE,
    k=260e3,
    e=0.0,
    heights=(0.0, 0.0, 0.0),
    middle=4.0,
    count=0,
):
    """A bench of states (fixed mass, its centre, mass moving with the axles, sprung share of it)."""

    def col(values):
        return np.tile(np.array(values, dtype=float)[:, None], (1, 1 + count))

    n, ones = len(states), np.ones(len(states))
    M_f, x_f, M_r = ([s[i] for s in states] for i in range(3))
    total = np.array(M_f) + M_r + sum(unsprung)
    words = ("share low", "share high", "hitch", *("axle" for _ in axles), *("tyre" for _ in axles))
    return Bench(
        tuple(f"s{i}" for i in range(n)),
        tuple(f"state {i}" for i in range(n)),
        middle,
        col([x_h]),
        col(M_f),
        col(x_f),
        col(M_r),
        col(ones * middle),
        col(total),
        col(ones * 0.0),
        col(np.array(M_f) + M_r),
        tuple(col(ones * h) for h in heights),
        (col(ones * e), col(-ones * e)),
        tuple(col(ones * k) for _ in axles),
        tuple(col([u]) for u in unsprung),
        tuple(col([0.0]) for _ in axles),
        offsets,
        tuple(2.0 for _ in axles),
        np.ones(n, dtype=bool),
        share,
        1.0,
        hitch,
        axles,
        tyre,
        tuple(Limit(w, w in ("share high", "hitch")) for w in words),
    )


BARE, TRAVEL, WET = (1100.0, 2.70, 420.0), (4000.0, 3.10, 420.0), (4300.0, 2.9534884, 420.0)
"""Three states of a tandem: all closed forms worked by hand (u is the distance behind the ball at -1.40)."""


def test_ends_of_every_state_and_limit():
    lows, highs = ends(bench([BARE, TRAVEL, WET]))
    u_low, u_high = lows + 1.40, highs + 1.40
    assert u_low[0] == pytest.approx([4.7574, 5.0590, 4.8903], abs=6e-5)
    assert u_low[3][1:] == pytest.approx([4.1880, 4.3555], abs=6e-5)
    assert u_high[1] == pytest.approx([5.1720, 5.3941, 5.2116], abs=6e-5)
    assert u_high[2][1:] == pytest.approx([5.3254, 5.0870], abs=6e-5)


def test_window_of_the_three_states():
    b = bench([BARE, TRAVEL, WET])
    found = pl._window(b, (-100.0, 100.0), 0.0, "nothing")
    assert (found.low, found.high) == pytest.approx((3.6590, 3.6870), abs=6e-5)
    assert found.closed_by_low == "share low, state 1"
    assert found.closed_by_high == "hitch, state 2"
    assert found.best == pytest.approx(3.6710, abs=6e-5)
    assert float(ratios(b, np.array([[3.6710]])).max()) == pytest.approx(0.98133, abs=6e-5)
    hitch = loads_at(b, np.array([[3.6710]])).hitch[0][1, 0]
    assert hitch == pytest.approx(450.41, abs=0.05)


TRIPLE = {
    "states": [(6200.0, 4.60, 90.0)],
    "x_h": -2.30,
    "unsprung": (160.0,) * 3,
    "offsets": (-0.9, 0.0, 0.9),
    "share": (0.15, 0.25),
    "hitch": FREE,
    "axles": (2722.0,) * 3,
    "heights": (1.65, 1.10, 0.37),
    "middle": 6.10,
}


@pytest.mark.parametrize(("e", "axle", "low", "high"), [(0.0, 5.6319, 8.2515, 9.4908), (0.05, 6.1342, 8.2927, 9.4487)])
def test_triple_with_and_without_the_ball_off_its_height(e, axle, low, high):
    """Triple torsion trailer of the hand calculation: least station for the axles, and the share's two ends."""
    lows, highs = ends(bench(e=e, **TRIPLE))
    assert lows[0, 0] + 2.30 == pytest.approx(low, abs=6e-5)
    assert highs[1, 0] + 2.30 == pytest.approx(high, abs=6e-5)
    assert lows[3:6, 0].max() + 2.30 == pytest.approx(axle, abs=6e-5)


def test_stops_close_the_window():
    b = bench([TRAVEL])
    found = pl._window(b, (3.70, 3.75), 0.0, "door ahead, tank behind")
    assert (found.low, found.high) == (3.70, 3.75)
    assert found.closed_by_low == "foremost place: door ahead, tank behind"
    assert found.closed_by_high == "rearmost place: door ahead, tank behind"


def test_no_station_works():
    """Nothing fits: both ends stay finite and cross, and there is no best station."""
    found = pl._window(bench([BARE, TRAVEL, WET], hitch=100.0), (-100.0, 100.0), 0.01, "nothing")
    assert found.slack < 0.0
    assert found.best is None
    assert np.isfinite([found.low, found.high]).all()


def test_limit_nothing_can_meet():
    """Axles that do not even carry what moves with them: no station."""
    lows, _ = ends(bench([TRAVEL], axles=(200.0, 200.0)))
    assert np.isinf(lows[3]).all()


@pytest.mark.parametrize("load", [0.0, -500.0])
def test_no_room_left_on_the_tow_vehicle_is_never_a_pass(load):
    assert np.isinf(ratios(bench([TRAVEL], hitch=load), np.array([[4.0]]))[2]).all()


def test_best_station_stands_on_the_shops_step_and_inside():
    b = bench([BARE, TRAVEL, WET])
    found = pl._window(b, (-100.0, 100.0), 0.005, "nothing")
    assert found.best == pytest.approx(3.670)
    assert found.low <= found.best <= found.high


masses = st.tuples(st.floats(3000.0, 9000.0), st.floats(2.5, 5.0), st.floats(50.0, 300.0))


@settings(max_examples=40, deadline=None)
@given(state=masses, e=st.sampled_from([0.0, 0.03]))
def test_substituting_an_end_gives_a_ratio_of_one(state, e):
    b = bench(**TRIPLE | {"states": [state], "e": e, "axles": (2500.0,) * 3})
    lows, highs = ends(b)
    for found in (lows, highs):
        for row, x in enumerate(found[:, 0]):
            if np.isfinite(x):
                assert ratios(b, np.array([[x]]))[row, 0, 0] == pytest.approx(1.0, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(state=masses, e=st.sampled_from([0.0, 0.02, 0.05]))
def test_every_limit_is_monotone_behind_three_half_spreads(state, e):
    """u > 3 max|b|: what grows as the group moves aft keeps growing, what falls keeps falling."""
    b = bench(**TRIPLE | {"states": [state], "e": e})
    x = np.linspace(-2.30 + 2.8, 10.0, 60)[:, None, None]
    use = ratios(b, x)[..., 0, 0]
    for row, limit in zip(use, b.limits, strict=True):
        change = np.diff(row[np.isfinite(row)])
        assert (change >= -1e-9).all() if limit.grows else (change <= 1e-9).all()


def test_sure_stations_by_trials():
    """Five lines, P5 to P95 +/-10 15 20 10 2 %, three groups, correlation 0.6 and 0.2, axles weightless: with shares
    0.10 to
    0.15 and 650 kg on the ball, 99.8 % at u 5.06 and 68.1 % at u 5.20, which lies inside the nominal window
    (independent
    trial of 400 000)."""
    rows = [
        (1200.0, 3.6, 10, "frame"),
        (900.0, 3.4, 15, "frame"),
        (700.0, 1.2, 20, "shell"),
        (780.0, 3.0, 10, "shell"),
        (420.0, 3.8, 2, "interior"),
    ]
    items = [item(f"l{n}", m, x, spread=p / 100, group=g) for n, (m, x, p, g) in enumerate(rows)]
    of = state_masses(model(items), sums(model(items), Trials(), DATA))["travel"]
    b = bench([(0.0, 0.0, 0.0)], hitch=650.0, axles=(FREE, FREE))
    b = replace(
        b,
        M_f=of.fixed_mass.values[None],
        x_f=of.fixed_x.values[None],
        W=of.mass.values[None],
        m_s=of.sprung_mass.values[None],
    )
    for u, expected in ((5.06, 0.998), (5.20, 0.681)):
        ok = np.mean((ratios(b, np.array([[u - 1.40]])) <= 1.0).all(axis=(0, 1))[1:])
        assert ok == pytest.approx(expected, abs=4 * np.sqrt(expected * (1 - expected) / 10_000) + 0.004)


def test_least_limit_of_the_ball_load():
    of = model([], spec())
    assert hitch_limits(of).words == "tow vehicle at its rated mass"
    assert hitch_limits(of).load == pytest.approx(6350 - 2250 - 1650 - 150)
    assert hitch_limits(model([], spec(with_tow=False))).words == "coupler at its vertical rating"
    weak = spec(tow={"vehicle.rear_gawr": "3500 kg"})
    assert hitch_limits(model([], weak)).load == pytest.approx((3500 - 1650 - 150) * 4400 / 4350)


def test_unknown_limits_are_left_to_their_own_checks():
    of = model([], spec(tow={"vehicle.gvwr": "unknown", "vehicle.hitch_rating": "unknown"}))
    assert hitch_limits(of).words == "tow vehicle's rear axle at its rating"


def test_ball_ahead_of_the_rear_axle_leaves_more_room():
    assert room(1000.0, 4.0, 0.0) == pytest.approx(1000.0)
    assert room(1000.0, 4.0, 1.0) == pytest.approx(800.0)
    assert room(1000.0, 4.0, -0.2) > 1000.0
