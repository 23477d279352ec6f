"""Rails ahead of datum A under force and moment together, followed by hand on whole designs."""

import numpy as np
import pytest
import scratch

from generator.calc.record import Missing
from generator.calc.run import work
from generator.calc.trials import Trials
from generator.model.resolve import resolve

SURE = Trials(count=0)
G = 9.80665
STEEL_LEG = {"section": "HSS6x4x1/4", "grade": "ASTM A500 C"}


def on_tongue(angle="25 deg", **leg):
    tongue = scratch.BALL["tongue"]
    member = tongue["members"][0] | STEEL_LEG | leg
    return scratch.BALL | {"tongue": tongue | {"angle": angle, "members": [member]}}


def checked(trailer=None):
    model = resolve(scratch.spec(trailer=trailer or {}), scratch.DATA)
    with np.errstate(all="ignore"):
        found = work(model, scratch.DATA, SURE)
    return next(c for c in found.checks if c.id == "frame.axial_bending"), {q.id: q for q in found.quantities}


def step(check, what):
    return next(s for s in check.outcome.steps if s.what.startswith(what))


def given(check, what):
    return {v.symbol: v.value for v in step(check, what).inputs}


def test_use_of_a_leg_by_hand():
    """HSS6x4x1/4 in 50 ksi: A 4.30 in2, Z 8.53 in3 (AISC Manual, table 1-11); interaction as H1-1 has it."""
    check, told = checked(on_tongue())
    mass, hitch = told["state.travel.mass"].nominal, told["state.travel.hitch"].nominal
    cos = np.cos(np.radians(25.0))
    push = 0.8 * G * mass / (2 * cos)
    assert step(check, "Force along one leg").result.value == pytest.approx(push, rel=1e-9)
    whole = given(check, "Moment at the root in a hard stop")
    assert whole["a"] == pytest.approx(1.4)
    assert whole["H"] == pytest.approx(hitch)
    moment = abs(2 * whole["M_s"] + G * (whole["H_b"] - hitch) * 1.4 + 2 * cos * push * whole["h_x"]) / (2 * cos)
    radius = min(given(check, "Elastic buckling stress")["r"], 0.1)
    elastic = np.pi**2 * 199.948e9 / (2 * 1.4 / cos / radius) ** 2
    strength = 344.738e6 * 0.658 ** (344.738e6 / elastic) if elastic > 0.445 * 344.738e6 else 0.877 * elastic
    area, plastic = 4.30 * 0.0254**2, 8.53 * 0.0254**3
    grown = step(check, "Moment with what the push adds").result.value
    assert grown == pytest.approx(moment, rel=0.1)
    assert grown > moment
    a, b = push / (strength * area / 1.67), grown / (344.738e6 * plastic / 1.67)
    use = a + 8 / 9 * b if a >= 0.2 else a / 2 + b
    assert check.outcome.demand.value == pytest.approx(use, rel=5e-3)


def test_it_is_never_more_than_a_review():
    """Every rule in it comes from memory."""
    assert checked(on_tongue())[0].status in ("review", "fail")


def test_a_thinner_leg_is_used_more_and_a_wider_angle_too():
    use = [checked(on_tongue(**leg))[0].outcome.demand.value
           for leg in ({}, {"section": "HSS6x4x3/16"}, {"section": "HSS4x4x1/4"})]
    assert use == sorted(use)
    assert checked(on_tongue("35 deg"))[0].outcome.demand.value > use[0]


def test_three_legs_share():
    """A straight one on the centre line beside the pair takes a third."""
    pair = on_tongue("0 deg")
    more = pair["tongue"]["members"][0] | {"mark": "t2", "sides": "centre", "y": "0 m"}
    three = pair | {"tongue": pair["tongue"] | {"members": [*pair["tongue"]["members"], more]}}
    alone, shared = (step(checked(t)[0], "Force along one leg").result.value for t in (pair, three))
    assert shared / alone == pytest.approx(2 / 3, rel=0.05)


def test_without_legs_at_datum_a_it_says_so():
    check, _ = checked(on_tongue(start="-1300 mm", end="-400 mm"))
    assert isinstance(check.outcome, Missing)
    assert "reaches datum A" in check.outcome.inputs[0]


def test_an_unknown_angle_names_itself():
    check, _ = checked(on_tongue("unknown"))
    assert isinstance(check.outcome, Missing)
