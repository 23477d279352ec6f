"""Pressed members. From memory, not read, written down before they were computed: AISC Steel Construction Manual, 15th
edition, table 4-14 (available critical stress of pressed members, ASD column, 50 ksi). From memory, not read: AISC
360-16, section E3 (both rules of the critical stress), section H1 (force and moment together) and appendix 8.
"""

import numpy as np
import pytest

from generator.calc.record import Working, sure
from generator.calc.topics.columns import AMPLIFIED, USE_BY_BENDING, USE_BY_FORCE, push_allowed, used
from generator.calc.topics.strength import Steel
from generator.reference.load import reference

DATA = reference()
KSI, INCH, KIP = 6894757.293168361, 0.0254, 4448.2216152605
OMEGA = sure("Omega", 1.67, "1")


def stress(slender, ksi=50.0, name="HSS6x4x1/4"):
    """Allowed push over the area, ksi, of a member of this slenderness K L / r."""
    section = DATA.sections[name]
    strong = np.sqrt(section.inertia / section.area)
    length = slender * min(strong, section.radius_y)
    steel = Steel(section, sure("F_y", ksi * KSI, "Pa"), sure("E", 29000 * KSI, "Pa"), OMEGA, OMEGA)
    push = push_allowed(Working(), steel, sure("L", length, "m"), sure("K", 1.0, "1"), OMEGA)
    return float(push.values[0]) / section.area / KSI


@pytest.mark.parametrize(("slender", "ksi"), [(1, 29.9), (50, 24.9), (100, 14.4), (150, 6.69), (200, 3.76)])
def test_available_critical_stress_at_50_ksi(slender, ksi):
    """AISC Manual table 4-14, from memory; it gives three figures."""
    assert stress(slender) == pytest.approx(ksi, rel=4e-3)


def test_both_rules_meet_where_one_takes_over():
    """AISC 360-16 E3, from memory: at K L/r = 4.71 sqrt(E/F_y), 113 for 50 ksi, no step of more than 1 %."""
    at = 4.71 * np.sqrt(29000 / 50)
    assert stress(at * 0.9999) == pytest.approx(stress(at * 1.0001), rel=0.01)


def test_a_long_member_tends_to_euler():
    """AISC 360-16 E3, from memory: 0.877 of the elastic stress, over 1.67."""
    assert stress(180.0) == pytest.approx(0.877 * np.pi**2 * 29000 / 180**2 / 1.67, rel=1e-6)


def test_interaction_has_two_branches_that_meet():
    """AISC 360-16 H1, from memory. H1-1a at a fifth of the force: 0.2 + 8/9 m; H1-1b there: 0.1 + m; equal at one."""
    assert USE_BY_FORCE.of(np.array(0.2), 1.0, np.array(0.9), 1.0) == pytest.approx(1.0)
    assert USE_BY_BENDING.of(np.array(0.2), 1.0, np.array(0.9), 1.0) == pytest.approx(1.0)


@pytest.mark.parametrize(("force", "moment", "use"), [(0.1, 0.5, 0.55), (0.4, 0.5, 0.4 + 8 / 9 * 0.5), (0.0, 0.7, 0.7)])
def test_the_share_of_the_force_chooses_the_branch(force, moment, use):
    one, name = sure("one", 1.0, "1"), Working()
    found = used(name, sure("P", force, "N"), one, sure("M", moment, "N*m"), one)
    assert float(found.values[0]) == pytest.approx(use)


def test_a_push_near_the_buckling_load_leaves_no_finite_moment():
    """AISC 360-16 appendix 8, from memory: with 1.6 (ASD) at a quarter of the buckling load 1/(1 - 0.4)."""
    with np.errstate(divide="ignore"):
        assert AMPLIFIED.of(np.array(1.0), np.array(0.25), np.array(1.0)) == pytest.approx(1 / 0.6)
        assert not np.isfinite(AMPLIFIED.of(np.array(1.0), np.array(0.7), np.array(1.0)))
