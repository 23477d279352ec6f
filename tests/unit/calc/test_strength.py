"""Strength of single members: limits of the rules, what they refuse, how they fall with length."""

import itertools
from dataclasses import replace

import pytest

from generator.calc.record import Working, sure
from generator.calc.topics.frame_steel import steel_of, yield_of
from generator.calc.topics.strength import bearing_allowed, moment_allowed, shear_allowed, unsupported
from generator.calc.trials import Trials
from generator.reference.load import reference

DATA, NOMINAL = reference(), Trials(count=0)
KSI = 6894757.293168361
E = 29000 * KSI


def steel(section, grade="ASTM A992"):
    found = steel_of(section, grade, NOMINAL, DATA)
    assert not isinstance(found, str)
    return found


def moment(section, free, grade="ASTM A992"):
    return float(moment_allowed(Working(), steel(section, grade), sure("L_b", free, "m")).values[0])


@pytest.mark.parametrize(("section", "grade"), [("W8x15", "ASTM A992"), ("C8x11.5", "ASTM A36"), ("W8x10", "A572-50")])
def test_strength_never_grows_with_the_unbraced_length_and_has_no_jump(section, grade):
    lengths = [0.05 * n for n in range(1, 160)]
    found = [moment(section, free, grade) for free in lengths]
    assert all(b <= a * (1 + 1e-12) for a, b in itertools.pairwise(found))
    assert found[0] > 2.0 * found[-1]
    # The branches meet: no step between neighbours is more than 6 % of the strength at hand.
    assert max((a - b) / a for a, b in itertools.pairwise(found)) < 0.06


def test_a_tube_does_not_buckle_sideways():
    assert moment("HSS6x4x1/4", 0.1, "ASTM A500 C") == moment("HSS6x4x1/4", 8.0, "ASTM A500 C")


def test_thin_tube_webs_and_flanges_lose_strength():
    thin = replace(DATA.sections["HSS6x4x1/4"], web=0.0018, flange=0.0026)
    full = steel("HSS6x4x1/4", "ASTM A500 C")
    weak = float(moment_allowed(Working(), replace(full, section=thin), sure("L_b", 1.0, "m")).values[0])
    assert weak < moment("HSS6x4x1/4", 1.0, "ASTM A500 C")


@pytest.mark.parametrize(("section", "reason"), [
    ("L3x3x1/4", "strength rules for section"), ("FB6x1/4", "strength rules for section"),
])
def test_shapes_without_rules_are_named(section, reason):
    assert reason in (unsupported(DATA.sections[section], 50 * KSI, E) or "")


@pytest.mark.parametrize(("shape", "flange"), [("I", 0.0015), ("C", 0.002), ("HSS", 0.0015)])
def test_slender_plates_are_refused(shape, flange):
    section = replace(DATA.sections["W8x15"], shape=shape, flange=flange)
    assert "slender" in (unsupported(section, 50 * KSI, E) or "")


def test_a_slender_web_is_refused_in_bending_and_weaker_in_shear():
    thin = replace(DATA.sections["W8x15"], web=0.0019)
    assert "slender" in (unsupported(thin, 50 * KSI, E) or "")
    stout, weak = (float(shear_allowed(Working(), replace(steel("W8x15"), section=s)).values[0])
                   for s in (DATA.sections["W8x15"], thin))
    assert weak / stout < 0.0019 / DATA.sections["W8x15"].web


def test_a_web_carries_less_near_the_end_of_the_rail():
    bearing = NOMINAL.assumed("l_b", DATA.defaults["frame.bearing_length"])
    inside, end = (float(bearing_allowed(Working(), steel("W8x15"), bearing, is_end)[0].values[0])
                   for is_end in (False, True))
    assert end < inside


@pytest.mark.parametrize("grade", ["mild steel", "A500", "unknown"])
def test_unknown_grades_are_named(grade):
    assert yield_of(grade, DATA) is None
    assert steel_of("W8x15", grade, NOMINAL, DATA) == f"yield strength of steel {grade!r}"
