"""Areas and centres of surfaces less their holes."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.geometry import Patch, centred, hole, net, trapezoid, whole
from generator.spec.models.house import Opening, Surface

SURFACE = {"id": "s", "title": "S", "buildup": "b", "front": "1 m", "left": "-1 m", "bottom": "0.5 m"}
OPENING = {"id": "o", "title": "O", "surface": "s", "mass": "10 kg", "basis": "quoted"}


def surface(**more):
    return Surface.model_validate(SURFACE | more)


def opening(**more):
    return Opening.model_validate(OPENING | more)


def test_side_wall_is_length_times_height():
    p = whole(surface(plane="side", rear="5 m", top="3 m"))
    assert (p.area, p.x, p.y, p.z, p.width) == pytest.approx((10.0, 3.0, -1.0, 1.75, 0.0))


def test_cross_wall_lies_athwart():
    p = whole(surface(plane="cross", right="2 m", top="2.5 m"))
    assert (p.area, p.x, p.y, p.z, p.x0, p.x1, p.width) == pytest.approx((6.0, 1.0, 0.5, 1.5, 1.0, 1.0, 3.0))


def test_trapezoid_against_triangle_and_rectangle():
    """Centroid of a triangle at a third, of a rectangle at the middle (any statics text)."""
    assert trapezoid(3.0, 0.0, 3.0) == pytest.approx((4.5, 2.0, 1.0))
    assert trapezoid(4.0, 2.0, 2.0) == pytest.approx((8.0, 2.0, 1.0))
    assert trapezoid(4.0, 0.0, 0.0)[0] == 0.0


def test_end_wall_under_a_sloping_roof():
    p = whole(surface(plane="cross", right="1 m", top="2.5 m", top_end="3.5 m"))
    area, along, up = trapezoid(2.0, 2.0, 3.0)
    assert (p.area, p.y, p.z) == pytest.approx((area, -1.0 + along, 0.5 + up))


def test_sloped_roof_has_the_area_of_its_slope():
    """12 in 12 pitch: rafter 16.97 in per ft of run (framing-square table; recomputed sqrt(144 + 144))."""
    p = whole(surface(plane="flat", rear="5 m", right="1 m", top="2.5 m", slopes="across"))
    assert p.area == pytest.approx(4.0 * 2.0 * 16.970563 / 12.0)
    assert p.z == pytest.approx(1.5)
    along = whole(surface(plane="flat", rear="5 m", right="1 m", top="1.5 m", slopes="along"))
    assert along.area == pytest.approx(2.0 * hypot(4.0, 1.0))


def test_level_floor():
    p = whole(surface(plane="flat", rear="5 m", right="1 m"))
    assert (p.area, p.z) == pytest.approx((8.0, 0.5))


def test_hole_in_a_sloped_roof_lies_at_its_own_level():
    s = surface(plane="flat", rear="5 m", right="1 m", top="2.5 m", slopes="across")
    h = hole(opening(width="0.5 m", height="0.4 m", centre="3 m", sill="0.5 m"), s)
    assert (h.area, h.x, h.y, h.z, h.width) == pytest.approx((0.2, 3.0, 0.5, 2.0, 0.4))


def test_door_at_one_end_moves_the_centre_away_from_it():
    s = surface(plane="side", rear="5 m", top="2.5 m")
    p = net(whole(s), [hole(opening(width="1 m", height="2 m", centre="4.5 m", sill="0.5 m"), s)])
    assert p.area == pytest.approx(6.0)
    assert p.x == pytest.approx((8.0 * 3.0 - 2.0 * 4.5) / 6.0)
    assert (p.x0 + p.x1) / 2 == pytest.approx(p.x)
    assert p.x0 == 1.0


numbers = st.floats(0.1, 5.0)


@given(area=numbers, holes=st.lists(st.tuples(st.floats(0.001, 0.02), numbers, numbers, numbers), max_size=4))
def test_what_is_cut_out_and_what_is_left_make_the_whole(area, holes):
    full = Patch(area, 2.0, 1.0, 1.5, 0.0, 4.0, 0.0)
    out = [Patch(a, x, y, z, x, x, 0.0) for a, x, y, z in holes]
    left = net(full, out)
    for axis in "xyz":
        moment = left.area * getattr(left, axis) + sum(h.area * getattr(h, axis) for h in out)
        assert moment == pytest.approx(area * getattr(full, axis), rel=1e-9, abs=1e-12)


@given(x=st.floats(-1.0, 11.0))
def test_even_spread_stays_inside_and_keeps_the_centre(x):
    x0, x1 = centred(x, 0.0, 10.0)
    assert (x0 + x1) / 2 == pytest.approx(x)
    if 0.0 < x < 10.0:
        assert x0 >= -1e-9
        assert x1 <= 10.0 + 1e-9
