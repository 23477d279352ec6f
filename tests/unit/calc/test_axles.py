"""Loads of ball, axles and sides, level and with the ball off its height, against hand calculations."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scratch import DATA, item, model, spec

from generator.calc.record import Compared, sure
from generator.calc.sums import sums
from generator.calc.topics import attitude, axles
from generator.calc.topics import suspension as sus
from generator.calc.topics.masses import state_masses
from generator.calc.topics.rides import Ride, rides
from generator.calc.trials import Trials

SURE = Trials(count=0)


def triple(mass=6200.0, x=4.60, y=0.0, hanger=90.0, unsprung=160.0, dx=0.0, of=None):
    """A triple rubber-torsion trailer: sprung mass, hangers moving with the axles, unsprung axles; stations from a
    datum."""
    stations = tuple(s + dx for s in (5.2, 6.1, 7.0))
    rows = [item("house", mass, x + dx, y=y, z=0.94057), item("hangers", hanger, 6.1 + dx, moves=True, z=0.94057, y=y)]
    rows += [item(f"axle.{n}", unsprung, s, moves=True, unsprung=True, y=y) for n, s in enumerate(stations, start=1)]
    return model(rows, of or spec(), stations)


def level(of, trials=SURE, data=DATA):
    return axles.level_loads(of, state_masses(of, sums(of, trials, data)), trials, data)


def number(q):
    return float(np.asarray(q.values)[0])


def ride(load, e, k=260000.0, deck=0.70943, ball=1.10, radius=0.37):
    """The ride of the hand calculation: given heights, stiffness and ball error."""

    def q(symbol, value, unit="m"):
        return sure(symbol, value, unit)

    rates = tuple(q("k_i", k, "N/m:spring") for _ in range(3))
    arms = attitude.arms(model(()), load)
    Q = q(
        "Q",
        sus.PITCH_MASS.of(
            number(load.sprung_mass), deck + number(load.sprung_zeta), ball, number(load.sprung_group), radius
        ),
        "N*m",
    )
    errors = (q("e", e), q("e", -e))
    from generator.calc.record import Working

    pitches = tuple(sus.pitch_about(Working(), x, rates, arms, Q) for x in errors)
    return Ride(
        "travel",
        q("r", radius),
        q("a", 0.1, "rad"),
        q("t", 0.4),
        q("z", deck),
        q("b", ball),
        rates,
        q("j", 0.05),
        errors,
        pitches,
        (),
    )


def test_level_triple():
    """Independent hand calculation, confirmed by an exact nonlinear solve within 0.05 kg."""
    load = level(triple())["travel"]
    assert [number(n) for n in load.axles] == pytest.approx([1887.62] * 3, abs=0.005)
    assert number(load.hitch) == pytest.approx(1107.14, abs=0.005)
    assert number(load.share) == pytest.approx(0.16354, abs=5e-6)


@pytest.mark.parametrize(
    ("high", "theta", "loads", "hitch"),
    [(True, 0.0059147, (1738.1, 1879.2, 2020.4), 1132.3), (False, -0.0059147, (2037.1, 1896.0, 1754.9), 1082.0)],
)
def test_ball_50_mm_off_its_height(high, theta, loads, hitch):
    """The same trailer, centre 1.65 m up, ball 1.10 m, spindles 0.37 m, 260 kN/m an axle."""
    of = triple()
    load = level(of)["travel"]
    found = attitude._pitched(of, load, ride(load, 0.05), high)
    assert [number(n) for n in found.axles] == pytest.approx(loads, abs=0.05)
    assert number(found.hitch) == pytest.approx(hitch, abs=0.05)
    assert number(found.ride.pitches[0 if high else 1]) == pytest.approx(theta, abs=5e-8)


def test_a_wheel_that_would_lift_hangs_on_the_frame():
    """Front axle off the ground: what is left on the ground and the ball still adds up, and nothing pulls the
    ground."""
    of = triple(mass=900.0, hanger=0.0)
    load = level(of)["travel"]
    found = attitude._pitched(of, load, ride(load, 0.3), True)
    on_ground = [number(n) for n in found.axles]
    assert min(on_ground) == pytest.approx(0.0, abs=1e-9)
    assert sum(on_ground) + number(found.hitch) == pytest.approx(number(load.mass))
    assert any("off the ground" in s.what for s in found.steps)


def test_sides_by_stiffness_and_track():
    """Roll: 220 and 300 kN/m, tracks 2.0 and 2.1 m, 4 420 kg 40 mm off centre: 35.312 and 50.560 kg; sum of dR t
    176.80."""
    K_t = 220e3 * 2.0**2 + 300e3 * 2.1**2
    shifts = [float(axles.SIDE_SHIFT.of(4420.0, 0.04, k, t, K_t)) for k, t in ((220e3, 2.0), (300e3, 2.1))]
    assert shifts == pytest.approx([35.312, 50.560], abs=5e-4)
    assert shifts[0] * 2.0 + shifts[1] * 2.1 == pytest.approx(176.80)


def test_sides_of_a_leaf_tandem_by_the_same_rule():
    """4 420 kg 40 mm right of centre on a track of 2.0 m: right less left 176.80, sides 2 029.2 and 1 852.4 kg."""
    shift = axles.SIDE_SHIFT.of(4420.0, 0.04, 1.0, 2.0, 4.0)
    assert float(axles.RIGHT.of(3881.5, shift)) == pytest.approx(2029.2, abs=0.06)
    assert float(axles.LEFT.of(3881.5, shift)) == pytest.approx(1852.4, abs=0.06)


def test_sharing_axles_for_comparison():
    """Rockers share the spring loads: (A - U)/n + U_i of the level triple is what equal springs give it too."""
    load = level(triple())["travel"]
    shared = axles.SHARING_AXLE.of(number(load.group), 480.0, 3.0, 160.0)
    assert [number(n) for n in load.axles] == pytest.approx([shared] * 3)


def test_tandem_on_its_ball_as_a_beam_on_two_supports():
    """Leaf tandem taken at its middle: 4 000 kg at 3.10 m, 420 kg at the axles, ball -1.40, u 5.2: H 538.46, A 3
    881.5 kg;
    50 mm of the moving mass aft of the axles: H 534.42."""
    group = axles.SPRUNG_GROUP.of(4000.0, 3.10, -1.40, 420.0, 3.80, 3.80)
    assert group == pytest.approx(3881.5, abs=0.05)
    assert axles.HITCH.of(4000.0, 420.0, group) == pytest.approx(538.46, abs=0.005)
    group = axles.SPRUNG_GROUP.of(4000.0, 3.10, -1.40, 420.0, 3.85, 3.80)
    assert axles.HITCH.of(4000.0, 420.0, group) == pytest.approx(534.42, abs=0.005)


sizes = st.floats(500.0, 9000.0)
places = st.floats(-1.0, 6.0)


@given(mass=sizes, x=places, y=st.floats(-0.2, 0.2))
def test_reactions_sum_to_the_weight(mass, x, y):
    load = level(triple(mass, x, y))["travel"]
    total = number(load.hitch) + sum(number(n) for n in load.axles)
    assert total == pytest.approx(number(load.mass), rel=1e-9)
    for n, left, right in zip(load.axles, load.left, load.right, strict=True):
        assert number(left) + number(right) == pytest.approx(number(n), rel=1e-9)


@given(dx=st.floats(-5.0, 5.0))
def test_moving_every_station_moves_stations_only(dx):
    there = spec(trailer={"coupling.station": f"{-2.3 + dx:.6f} m"})
    here, moved = level(triple())["travel"], level(triple(dx=dx, of=there))["travel"]
    assert number(moved.hitch) == pytest.approx(number(here.hitch), abs=0.01)
    assert [number(n) for n in moved.axles] == pytest.approx([number(n) for n in here.axles], abs=0.01)


@given(y=st.floats(0.001, 0.3))
def test_mirror_swaps_the_sides(y):
    right, left = level(triple(y=y))["travel"], level(triple(y=-y))["travel"]
    assert [number(n) for n in right.right] == pytest.approx([number(n) for n in left.left])
    assert number(right.right[0]) > number(right.left[0])


@given(mass=sizes, x=st.floats(1.0, 5.0), e=st.floats(-0.06, 0.06))
def test_whatever_the_ball_height_the_weight_is_carried(mass, x, e):
    assume(abs(e) > 1e-4)
    of = triple(mass, x)
    load = level(of)["travel"]
    found = attitude._pitched(of, load, ride(load, e), True)
    assert sum(number(n) for n in found.axles) + number(found.hitch) == pytest.approx(number(load.mass), rel=1e-9)


def test_axle_ahead_of_the_mass_fails_without_a_ratio():
    of = triple(x=8.0)
    load = level(of)
    ridden = rides(of, load, SURE, DATA)
    found = attitude.hitch_and_axles(of, attitude.attitudes(of, load, ridden, SURE), SURE, DATA)
    checks = {c.id: c for c in found.checks}
    assert checks["hitch.positive"].status == "fail"
    assert checks["hitch.positive"].ratio is None
    assert checks["hitch.share_low"].status == "fail"
    assert checks["hitch.share_low"].ratio is None


def test_unknown_mass_is_not_assessed_and_names_itself():
    of = triple()
    of = replace(of, items=(*of.items, item("piano", float("nan"), 2.0, stage="travel", origin="weights.yaml:7")))
    load = level(of)
    found = attitude.hitch_and_axles(of, attitude.attitudes(of, load, rides(of, load, SURE, DATA), SURE), SURE, DATA)
    for check in found.checks:
        assert check.status == "not assessed"
        assert "weights.yaml:7" in check.outcome.inputs


def test_unequal_axles_take_load_by_their_stiffness():
    """A stiffer middle axle takes more; the sum still balances about the ball."""
    of = triple(of=spec(trailer={"running_gear.axles.1.rating": "4500 kg"}))
    load = level(of)["travel"]
    loads = [number(n) for n in load.axles]
    assert loads[1] > loads[0]
    moment = sum(n * (x + 2.3) for n, x in zip(loads, (5.2, 6.1, 7.0), strict=True))
    assert moment == pytest.approx(6200.0 * 6.9 + (90.0 + 480.0) * 8.4, rel=1e-9)


def test_every_rating_check_shows_its_working():
    of = triple()
    load = level(of, Trials(count=50))
    found = attitude.attitudes(of, load, rides(of, load, Trials(count=50), DATA), Trials(count=50))
    for check in attitude.hitch_and_axles(of, found, Trials(count=50), DATA).checks:
        assert isinstance(check.outcome, Compared)
        assert any("A_s = " in s.text for s in check.outcome.steps)
        assert check.state
