"""AISC Steel Construction Manual, table 3-2 (available strengths at 50 ksi; from memory, written down before they were
computed), and strengths of an independent hand program, against our member strengths.

Our torsion constant leaves out the fillets, so the length from which buckling is elastic, and strengths with the
flange free, come out up to 4 % low: that is asserted, with its sign.
"""

import numpy as np
import pytest

from generator.calc.record import Working, sure
from generator.calc.topics.frame import NEEDED
from generator.calc.topics.strength import (
    ALLOWED_MOMENT,
    SIDEWAYS,
    Steel,
    moment_allowed,
    shear_allowed,
)
from generator.reference.load import reference

DATA = reference()
KSI, FOOT, KIP = 6894757.293168361, 0.3048, 4448.2216152605
OMEGA = sure("Omega", DATA.defaults["frame.omega_bending"].value, "1")


def steel(name, ksi):
    return Steel(DATA.sections[name], sure("F_y", ksi * KSI, "Pa"), sure("E", 29000 * KSI, "Pa"), OMEGA,
                 sure("Omega_v", DATA.defaults["frame.omega_shear_rolled"].value, "1"))


def allowed(name, ksi, feet):
    w = Working()
    found = float(moment_allowed(w, steel(name, ksi), sure("L_b", feet * FOOT, "m")).values[0]) / (KIP * FOOT)
    return found, {s.result.symbol: s.result.value / FOOT for s in w.steps if s.result.unit == "m"}


@pytest.mark.parametrize(("name", "moment", "shear"), [
    ("W8x10", 21.9, 26.8), ("W10x12", 31.2, 37.5), ("W12x14", 43.4, 42.8), ("W8x15", 33.9, 39.7), ("W6x9", 15.5, 20.1),
])
def test_available_strengths_of_table_3_2(name, moment, shear):
    """Half a unit in the last printed place."""
    assert allowed(name, 50, 0.0)[0] == pytest.approx(moment, abs=0.05)
    assert float(shear_allowed(Working(), steel(name, 50)).values[0]) / KIP == pytest.approx(shear, abs=0.051)


@pytest.mark.parametrize(("name", "braced", "elastic"), [
    ("W8x15", 3.09, 10.1), ("W6x9", 3.20, 9.75), ("W12x14", 2.66, 7.73),
])
def test_lengths_of_table_3_2(name, braced, elastic):
    """L_p to the printed foot; L_r up to 4 % short, never long (W6x9 L_r of the hand program)."""
    lengths = allowed(name, 50, 6.0)[1]
    assert lengths["L_p"] == pytest.approx(braced, abs=0.0075)
    assert 0.95 * elastic < lengths["L_r"] <= elastic * 1.005


@pytest.mark.parametrize(("name", "plain"), [("W8x10", 22.1), ("W10x12", 31.4)])
def test_slender_flanges_are_not_yield_over_omega(name, plain):
    """Trap: at 50 ksi these two lose strength to their flange; Fy Z/1.67 would be 22.1 and 31.4."""
    assert allowed(name, 50, 0.0)[0] < plain - 0.1


@pytest.mark.parametrize(("ksi", "feet", "moment"), [(36, 0.0, 15.93), (36, 10.0, 10.24), (50, 10.0, 10.55)])
def test_braced_and_free_w8x10(ksi, feet, moment):
    """Hand program with the table's torsion constant; ours leaves the fillets out: to 4 % low when free."""
    found = allowed("W8x10", ksi, feet)[0]
    assert 0.96 * moment <= found <= moment + 0.005


def test_flange_of_a_w8x10_at_50_ksi():
    """262.44 kip-in as nominal over 1.67 (29.652 kN m) for flange local buckling: hand program."""
    assert allowed("W8x10", 50, 0.0)[0] * 12 == pytest.approx(262.44, abs=0.005)


def test_published_lengths_put_in_give_the_hand_program():
    """7 ft between the printed L_p 3.14 and L_r 8.52 ft: 16.039 kip-ft (21.746 kN m)."""
    s = DATA.sections["W8x10"]
    plastic = sure("M_p", 50 * KSI * s.plastic, "N*m")
    w = Working()
    found = w(ALLOWED_MOMENT, M_n=w(
        SIDEWAYS, M_p=plastic, F_y=sure("F_y", 50 * KSI, "Pa"), S=sure("S", s.modulus, "m3:section"),
        L_b=sure("L_b", 7 * FOOT, "m"), L_p=sure("L_p", 3.14 * FOOT, "m"), L_r=sure("L_r", 8.52 * FOOT, "m")),
        Omega=OMEGA)
    assert found.values[0] / 1000 == pytest.approx(21.746, abs=0.0015)


def test_tube_at_46_ksi():
    """HSS6x2x3/16: 14.254 kN m (hand program)."""
    assert allowed("HSS6x2x3/16", 46, 20.0)[0] * KIP * FOOT / 1000 == pytest.approx(14.254, abs=0.0015)


def test_the_same_rail_passes_or_fails_on_the_bracing():
    """Twice 28 039/2 N m on a W8x10: 0.9456 braced, 1.289 with the bottom flange free over 7 ft (hand program);
    with the fillets left out the second is 0.2 to 2 % more."""
    asked = 28039.0 / (KIP * FOOT)
    assert asked / allowed("W8x10", 50, 0.0)[0] == pytest.approx(0.94560, abs=1e-4)
    assert 1.2894 < asked / allowed("W8x10", 50, 7.0)[0] < 1.2894 * 1.02


def test_needed_modulus_of_a_textbook_joist():
    """Gere and Timoshenko, Mechanics of Materials, problem 5.6-7: 26 460 lb-in at 1 350 psi needs 19.6 in3 (we print
    both rails together, twice one)."""
    inch, pound_inch, psi = 0.0254, 0.1129848290276167, 6894.757293168361
    one = sure("phi", 1.0, "1")
    needed = Working()(NEEDED, phi=one, M=sure("M", 26460 * pound_inch, "N*m"), Omega=sure("Omega", 1.0, "1"),
                       F_y=sure("F_y", 1350 * psi, "Pa"))
    assert needed.values[0] / 2 / inch**3 == pytest.approx(19.6, abs=0.05)
    assert np.isnan(Working()(NEEDED, phi=one, M=sure("M", np.nan, "N*m"), Omega=OMEGA, F_y=one).values[0])
