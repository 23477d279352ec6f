"""Crossmembers on a scratch deck: hand program's numbers, what lies on which, and what is refused."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from generator.calc.record import Quantity, Working, sure
from generator.calc.topics.crossmembers import MIDWAY, ON_RAIL, OVER_RAIL, crossmembers, members
from generator.calc.topics.frame_beam import Rail
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.states import STATES
from generator.model.types import Item, Model, Piece
from generator.reference.load import reference

DATA, BASE, NOMINAL = reference(), 1.06, Trials(count=0)
RAILS = (Rail("r", "rail", "W8x15", "ASTM A992", 0.0, 4.0, 4e-5, 4e-4),)
EVERY = (1.0,) * len(STATES)


@pytest.mark.parametrize(("floor", "over", "midway", "on_rail"), [
    (1000.0 * 0.4064 * 2, -877.82, -763.67, 2137.7), ((1000.0 + 1915.0) * 0.4064, -579.00, -412.61, 1948.3),
])
def test_hand_program(floor, over, midway, on_rail):
    """b 1.06, a 0.60, spacing 0.4064 m, floor 1 000 Pa (live 1 915 Pa parked), wall 1 500 N/m; on the road twice."""
    wall = sure("P_w", 1500.0 * 0.4064 * (2 if midway < -500 else 1), "N")
    w = Working()
    line, a, b = sure("w", floor, "N/m"), sure("a", 0.60, "m"), sure("b", BASE, "m")
    m_s = w(OVER_RAIL, P_w=wall, a=a, w_a=line)
    assert m_s.values[0] == pytest.approx(over, abs=0.006)
    assert w(MIDWAY, M_s=m_s, w_b=line, b=b).values[0] == pytest.approx(midway, abs=0.006)
    assert w(ON_RAIL, w_b=line, b=b, w_a=line, a=a, P_w=wall).values[0] == pytest.approx(on_rail, abs=0.06)


def item(id, newtons, x0, x1, y=0.0, z=0.5, group="interior"):
    kg = newtons / G
    return Item(id, id, group, kg, kg, kg, "sure", "table", x0, x1, y, z, EVERY)


def lengthwise(y):
    return Piece("r", "rail", "W8x15", "ASTM A992", "lengthwise", 0.0, 4.0, y - 0.05, y + 0.05, -0.2, 0.0, 60.0)


def cross(mark, x, y0, y1, section="C4x5.4", grade="ASTM A36"):
    return Piece(mark, mark, section, grade, "crosswise", x - 0.02, x + 0.02, y0, y1, -0.1, 0.0, 8.0)


def deck(items, stations=(1.0, 2.0, 3.0), arms=(2.0,), grade="ASTM A36"):
    pieces = [lengthwise(-BASE / 2), lengthwise(BASE / 2)]
    pieces += [cross("c", x, -0.52, 0.52, grade=grade) for x in stations]
    pieces += [cross("o", x, *ends) for x in arms for ends in ((0.53, 1.13), (-1.13, -0.53))]
    trailer = SimpleNamespace(frame=SimpleNamespace(width=SimpleNamespace(nominal=2.26)))
    return Model(SimpleNamespace(trailer=trailer), STATES, tuple(items), tuple(pieces), (2.0,))


FLOOR = item("floor", 2.26 * 4.0 * 1000.0, 0.0, 4.0)


def test_each_crossmember_carries_half_way_to_its_neighbours():
    wall = item("wall", 4000.0, 0.0, 4.0, y=1.2)
    roof = item("roof", 2000.0, 0.0, 4.0, z=2.5)
    found = list(members(deck((FLOOR, wall, roof)), RAILS, BASE, "travel", DATA))
    assert [m.station for m in found] == [1.0, 2.0, 3.0]
    assert [m.inside for m in found] == pytest.approx([1.5, 1.0, 1.5])
    assert sum(m.floor_inside for m in found) == pytest.approx(2.26 * 4.0 * 1000.0)
    # One outrigger on each side takes the walls and the roof of the whole deck.
    assert [m.walls for m in found] == pytest.approx([0.0, 6000.0, 0.0])
    assert [m.overhang for m in found] == pytest.approx([0.0, 0.60, 0.0])


def test_a_stove_lies_on_the_nearest_crossmember_alone():
    found = list(members(deck((item("stove", 500.0, 1.1, 1.1),)), RAILS, BASE, "travel", DATA))
    assert [m.floor_inside for m in found] == pytest.approx([500.0, 0.0, 0.0])


def outcomes(model, mass=None):
    masses = {} if mass is None else {"travel": mass, "parked_light": mass}
    found = crossmembers(model, RAILS, BASE, masses, NOMINAL, DATA)
    return {c.id.rpartition(".")[2]: c for c in found.checks}, {q.id.rpartition(".")[2]: q for q in found.quantities}


def test_checks_by_hand():
    checks, quantities = outcomes(deck((FLOOR,), arms=()))
    # The outer ones carry 1.5 m: 1 500 N/m on 1.06 m, twice on the road; live load comes on top parked.
    assert checks["travel"].outcome.demand.value == pytest.approx(2.0 * 1500.0 * BASE**2 / 8)
    live = DATA.defaults["stand.live"].value
    assert checks["parked"].outcome.demand.value == pytest.approx((1000.0 + live) * 1.5 * BASE**2 / 8)
    assert quantities["travel"].nominal == pytest.approx(1500.0 * BASE / 2)
    assert checks["travel"].status == "review"


def test_the_outrigger_governs_under_heavy_walls():
    heavy = item("wall", 40000.0, 0.0, 4.0, y=1.2)
    checks, _ = outcomes(deck((FLOOR, heavy)))
    assert checks["travel"].outcome.demand.value == pytest.approx(2.0 * (20000.0 * 0.6 + 4000.0 * 0.6**2 / 2), rel=1e-9)
    assert checks["travel"].status == "fail"


def test_moments_grow_with_the_mass_of_a_trial():
    mass = Quantity("m", np.array([900.0, 900.0, 1800.0]), "kg")
    checks, quantities = outcomes(deck((FLOOR,), arms=()), mass)
    assert quantities["travel"].high > 1.8 * quantities["travel"].nominal
    assert checks["travel"].outcome.fail_share in (0.0, 0.5)


@pytest.mark.parametrize("grade", ["mild steel", "unknown"])
def test_an_unknown_grade_is_named(grade):
    checks, _ = outcomes(deck((FLOOR,), grade=grade))
    assert checks["travel"].outcome.inputs == (f"yield strength of steel {grade!r}",)


def test_without_crossmembers_or_masses_nothing_is_assessed():
    none, _ = outcomes(deck((FLOOR,), stations=(), arms=()))
    assert {c.status for c in none.values()} == {"not assessed"}
    unknown, _ = outcomes(deck((replace(FLOOR, mass=float("nan")),)))
    assert {c.status for c in unknown.values()} == {"not assessed"}
