"""Power screws and cranks.

Shigley, Mechanical Engineering Design, example 8-1 (inputs and answers from memory, recomputed): square thread, double,
pitch 4 mm, major 32 mm, mean 30 mm, lead 8 mm, friction 0.08 both, collar 40 mm, 6.4 kN.
Human power: Marks' Standard Handbook, 0.1 hp sustained (from memory).
Wire: 10 AWG copper, 0.9989 ohm per 1 000 ft (National Electrical Code chapter 9 table 8, from memory).
"""

import numpy as np
import pytest

from generator.calc.topics import jack_drive as jd

INCH, LBF = 0.0254, 4.4482216152605
SHIGLEY = {"F": 6400.0, "d_m": 0.030, "l": 0.008, "pi": np.pi, "f": 0.08, "a": 0.0, "f_c": 0.08, "d_c": 0.040}
TRAPEZOID = {"d_m": 0.0262, "l": 0.005, "pi": np.pi, "f": 0.15, "a": np.radians(14.5), "f_c": 0.10, "d_c": 0.036}
ACME = {
    "F": 1263.2 * LBF,
    "d_m": (0.75 - 1 / 12) * INCH,
    "l": INCH / 6,
    "pi": np.pi,
    "f": 0.15,
    "a": np.radians(14.5),
    "f_c": 0.10,
    "d_c": INCH,
}


def test_shigley_8_1():
    raising, lowering = jd.RAISE.of(**SHIGLEY), jd.LOWER.of(**SHIGLEY)
    assert raising == pytest.approx(26.18, abs=0.01)
    assert lowering == pytest.approx(9.77, abs=0.01)
    assert jd.EFFICIENCY.of(F=6400.0, l=0.008, pi=np.pi, T_R=raising) == pytest.approx(0.311, abs=5e-4)


def test_trapezoidal_screw_of_a_jack():
    """Independent hand program: Tr 28x5 at 4 000 N; gear 4 to 1 at 0.9, crank 0.25 m, 0.3 m of travel."""
    raising = jd.RAISE.of(F=4000.0, **TRAPEZOID)
    assert raising == pytest.approx(18.609, abs=1e-3)
    assert jd.LOWER.of(F=4000.0, **TRAPEZOID) == pytest.approx(12.089, abs=1e-3)
    assert jd.EFFICIENCY.of(F=4000.0, l=0.005, pi=np.pi, T_R=raising) == pytest.approx(0.17105, abs=1e-5)
    assert jd.CRANK.of(T_d=jd.DRIVE.of(T_R=raising, i=4.0, eta_g=0.9), R=0.25) == pytest.approx(20.677, abs=1e-3)
    assert jd.TURNS.of(i=4.0, x=0.3, l=0.005) == pytest.approx(240.0)
    assert jd.RAISE.of(F=6240.0, **TRAPEZOID) == pytest.approx(29.030, abs=1e-3)


def test_hand_crank_of_a_quarter_inch_acme_jack():
    """Independent hand program: 1 263.2 lbf on 3/4-6 Acme: 163.1 lbf in, efficiency 0.2054, 94.5 lbf in to lower."""
    raising = jd.RAISE.of(**ACME)
    assert raising / (LBF * INCH) == pytest.approx(163.1, abs=0.05)
    assert jd.LOWER.of(**ACME) / (LBF * INCH) == pytest.approx(94.5, abs=0.05)
    eta = jd.EFFICIENCY.of(F=ACME["F"], l=ACME["l"], pi=np.pi, T_R=raising)
    assert eta == pytest.approx(0.2054, abs=5e-5)
    direct = jd.CRANK.of(T_d=jd.DRIVE.of(T_R=raising, i=1.0, eta_g=1.0), R=7 * INCH)
    geared = jd.CRANK.of(T_d=jd.DRIVE.of(T_R=raising, i=2.0, eta_g=0.95), R=7 * INCH)
    assert (direct / LBF, geared / LBF) == (pytest.approx(23.3, abs=0.05), pytest.approx(12.3, abs=0.05))
    assert jd.TURNS.of(i=1.0, x=12 * INCH, l=ACME["l"]) == pytest.approx(72.0)


@pytest.mark.parametrize(("gear", "eta_g", "minutes"), [(1.0, 1.0, 2.40), (2.0, 0.95, 4.80)])
def test_time_at_thirty_turns_a_minute(gear, eta_g, minutes):
    """Independent hand program: at 30 rpm the pace governs, not 0.1 hp (74.57 W)."""
    turns = jd.TURNS.of(i=gear, x=12 * INCH, l=ACME["l"])
    time = jd.CRANK_TIME.of(n=turns, t_n=2.0, F=ACME["F"], x_l=12 * INCH, eta=0.2054, eta_g=eta_g, P=74.57)
    assert time == pytest.approx(60 * minutes, abs=0.5)


def test_time_at_a_tenth_of_a_horsepower():
    """Independent hand program: 1.86 minutes direct when pace does not limit; energy over efficiency and power."""
    time = jd.CRANK_TIME.of(n=72.0, t_n=0.0, F=ACME["F"], x_l=12 * INCH, eta=0.2054, eta_g=1.0, P=74.57)
    assert time / 60 == pytest.approx(1.86, abs=0.01)


def test_motor_power_current_and_fuse():
    """Independent hand program: 12 in in 60 s, screw and gear 0.1951, motor 0.60: 243.8 W, 20.32 A at 12 V, 30 A."""
    power = jd.POWER.of(F=ACME["F"], v=12 * INCH / 60, eta=0.1951, eta_g=1.0, eta_m=0.60)
    assert power == pytest.approx(243.8, abs=0.1)
    assert jd.next_fuse(1.25 * power / 12.0) == 30.0


def test_constant_power_behind_a_cable():
    """Independent hand program: 243.8 W through 0.029967 ohm at 12 V draws 21.468 A."""
    cable = {"rho": 0.029967 / 2, "hot": 1.0, "L": 1.0, "A": 1.0}
    assert jd.CURRENT.of(V_b=12.0, P_e=243.8, **cable) == pytest.approx(21.468, abs=1e-3)


def test_voltage_lost_in_10_awg():
    """Code table resistance: 15 ft each way at 20.32 A loses 0.609 V; resistivity gives the same within 2 %."""
    drop = jd.DROP.of(rho=1.75e-8, hot=1.0, L=15 * 0.3048, A=5.261e-6, I=20.32, V_b=12.0)
    assert drop * 12.0 == pytest.approx(0.609, rel=0.02)


def test_a_cable_too_thin_for_the_power_loses_half_the_voltage():
    """Greatest power through a resistance: the load drops as much as the cable (maximum power theorem)."""
    cable = {"rho": 1.75e-8, "hot": 1.2, "L": 20.0, "A": 1e-6, "V_b": 12.0}
    assert jd.DROP.of(I=jd.CURRENT.of(P_e=400.0, **cable), **cable) == pytest.approx(0.5)


@pytest.mark.parametrize(("least", "fuse"), [(21.11, 25.0), (29.4, 30.0), (30.0, 30.0), (50.1, 60.0)])
def test_next_fuse(least, fuse):
    assert jd.next_fuse(least) == fuse


def test_no_fuse_beyond_the_list_or_for_an_unknown_current():
    assert np.isnan(jd.next_fuse(1e4))
    assert np.isnan(jd.next_fuse(float("nan")))
