"""What must hold for any trailer on the road: a moved datum moves nothing, left is like right, half is half."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from road_sample import towed

from generator.calc.record import Working, sure
from generator.calc.topics import braking as br
from generator.calc.topics import tilt as ti
from generator.calc.topics import wind_on_road as wr
from generator.calc.topics import yaw as yw

trailers = st.fixed_dictionaries({
    "mass": st.floats(500.0, 12_000.0),
    "x_h": st.floats(-4.0, -1.0),
    "x_a": st.floats(3.0, 8.0),
    "part": st.floats(0.6, 0.95),
    "z_g": st.floats(1.0, 2.5),
    "z_h": st.floats(0.3, 1.2),
})
shifts = st.floats(-10.0, 10.0)


def made(of, shift=0.0, y_g=0.0):
    x_g = of["x_h"] + of["part"] * (of["x_a"] - of["x_h"])
    return towed(of["mass"], x_g + shift, of["x_h"] + shift, of["x_a"] + shift, of["z_g"], of["z_h"], y_g=y_g,
                 inertia=30_000.0)


def share(symbol, value):
    return sure(symbol, value, "%")


def results(t):
    a, beta = share("a", 0.4), share("beta", 0.7)
    yield br.hitch_braking(Working(), t, a, beta).values[0]
    yield br.grip_used(Working(), t, a, beta).values[0]
    yield br.hitch_pulling(Working(), t, a).values[0]
    yield ti.rigid_ratio(Working(), t).values[0]
    yield Working()(yw.YAW_INDEX, I_z=t.yaw_inertia, W=t.mass, x_g=t.x, x_h=t.x_h, x_a=t.x_a).values[0]


@settings(max_examples=60, deadline=None)
@given(trailers, shifts)
def test_a_moved_datum_moves_nothing(of, shift):
    assert list(results(made(of, shift))) == pytest.approx(list(results(made(of))), rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(trailers, st.floats(0.0, 0.2))
def test_left_is_like_right(of, y_g):
    left, right = (ti.rigid_ratio(Working(), made(of, y_g=y)).values[0] for y in (-y_g, y_g))
    assert left == right


@settings(max_examples=60, deadline=None)
@given(trailers)
def test_without_pull_or_brake_the_ball_carries_its_static_load(of):
    t, none = made(of), share("a", 0.0)
    for load in (br.hitch_braking(Working(), t, none, share("beta", 1.0)), br.hitch_pulling(Working(), t, none)):
        assert load.values[0] == pytest.approx(float(t.hitch.values[0]), rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.0, 45.0), st.floats(5.0, 60.0), st.floats(0.1, 1.0))
def test_a_gust_put_back_gives_its_share_of_the_lifting_force(V, v_c, q):
    gust = float(wr.GUST.of(V=V, q=q, v_c=v_c))
    assert gust * (gust**2 + V**2) ** 0.5 == pytest.approx(q * v_c**2, rel=1e-6)
