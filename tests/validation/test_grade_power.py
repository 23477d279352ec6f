"""Power on a grade, and air with height.

Rule of the trade (arithmetic of it, no source): hp = (W grade + 0.012 W + drag) v/375; 22 000 lb, 6 %, 45 mph, 97.75
ft2, drag coefficient 1.0, pressure 0.00256 V2: 251 hp at the wheels.
US Standard Atmosphere 1976: 1.2250 kg/m3 at sea level, 1.0556 at 5 000 ft, 0.9093 at 3 000 m; and the open library
`fluids`, which holds that standard.
J. L. Meriam, L. G. Kraige, Engineering Mechanics: Dynamics: truck of 10 Mg and trailer of 20 Mg pulled with 20 kN:
0.667 m/s2, drawbar 13.33 kN (statement read, answers from memory).
"""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from generator.calc.record import Working, sure
from generator.calc.topics import braking as br
from generator.calc.topics import grade as gr
from generator.reference.load import reference

DATA = reference()
FOOT, POUND, MPH, HP = 0.3048, 0.45359237, 0.44704, 745.6998715822702


def density(height):
    row = DATA.defaults
    return 1.225 * gr.DENSITY_RATIO.of(h=height, h_a=row["air.scale"].value, n=row["air.exponent"].value)


@pytest.mark.parametrize(("height", "rho"), [(0.0, 1.2250), (5000 * FOOT, 1.0556), (3000.0, 0.9093)])
def test_standard_air(height, rho):
    assert density(height) == pytest.approx(rho, abs=6e-4 if height == 3000.0 else 6e-5)


@pytest.mark.parametrize("height", [0.0, 500.0, 1500.0, 2500.0, 3500.0])
def test_standard_air_of_an_open_library(height):
    """It takes geometric height; the linear lapse runs over geopotential height, 0.05 % less at these heights."""
    assert density(height) == pytest.approx(ATMOSPHERE_1976(height).rho, rel=8e-4)


def test_power_of_a_rule():
    mass, speed = 22_000 * POUND, 45 * MPH
    w = Working()
    power = w(
        gr.POWER,
        P_g=sure("P_g", br.DOWNHILL.of(W=mass, G=0.06), "kg"),
        P_r=sure("P_r", gr.ROLLING.of(c_r=DATA.defaults["grade.rolling"].value, M=mass), "kg"),
        D=sure(
            "D",
            gr.DRAG.of(
                q_1=DATA.defaults["air.reference_pressure"].value,
                v=speed,
                v_1=DATA.defaults["air.reference_speed"].value,
                sigma=1.0,
                C_d=1.0,
                A_f=97.75 * FOOT**2,
            ),
            "N",
        ),
        v=sure("v", speed, "m/s"),
    )
    assert power.values[0] / HP == pytest.approx(251.0, abs=0.6)


def test_a_frontal_area_in_feet():
    assert gr.FRONTAL.of(w_h=8.5 * FOOT, z_r=11.5 * FOOT, z_b=0.0) / FOOT**2 == pytest.approx(97.75)


def test_pull_of_a_drawbar():
    """A trailer that is pushed with nothing of its own takes its share of the force: mass times acceleration."""
    share = 20_000.0 / (30_000.0 * 9.80665)
    assert share * 9.80665 == pytest.approx(0.667, abs=0.0005)
    assert br.PUSH.of(a=share, W=20_000.0, beta=0.0) * 9.80665 == pytest.approx(13_330.0, abs=5.0)
