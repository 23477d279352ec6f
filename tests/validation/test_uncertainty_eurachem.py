"""EURACHEM/CITAC Guide, Quantifying Uncertainty in Analytical Measurement, example A1 (calibration standard), and a
resistance worked in the documentation of a measurement-uncertainty library (0.1 V +/- 0.001, 15 +/- 0.5 mA).

Rectangular, triangular and normal inputs through our own trials and `Working`. Four standard errors of a standard
deviation are 2.8 % at 10 000 trials.
"""

import numpy as np
import pytest

from generator.calc.record import Working, formula
from generator.calc.trials import P95, Trials
from generator.reference.types import Default
from generator.spec.measure import Measure

N = 10_000
TRIALS = Trials()


def rectangular(symbol, value, half):
    row = Default(f"test.{symbol}", value, "1", value - half, value + half, "", "", "read", "")
    return TRIALS.assumed(symbol, row)


def stated(symbol, value, low, high, shape):
    return TRIALS.given(symbol, Measure(value, low, high, shape, "ratio", origin=f"test:{symbol}"), "1")


@formula("Concentration", "c = 1000*m*P/(V*r*t)", "1", "EURACHEM A1, with factors for repeatability and temperature")
def CONCENTRATION(m, P, V, r, t):
    return 1000 * m * P / (V * r * t)


@formula("Resistance", "R = V/I", "1", "Ohm's law")
def RESISTANCE(V, I):
    return V / I


def inputs():
    u_m, u_r = 0.05, 0.02 / 100.0
    return {
        "m": stated("m", 100.28, 100.28 - P95 * u_m, 100.28 + P95 * u_m, "normal"),
        "P": rectangular("P", 0.9999, 0.0001),
        "V": stated("V", 100.0, 99.9, 100.1, "triangular"),
        "r": stated("r", 1.0, 1.0 - P95 * u_r, 1.0 + P95 * u_r, "normal"),
        "t": rectangular("t", 1.0, 0.00084),
    }


def test_a1_standard_uncertainty():
    """c 1002.7 mg/L, u 0.8352 printed 0.9 in some editions and 0.835 before rounding."""
    c = Working()(CONCENTRATION, **inputs())
    assert c.values[0] == pytest.approx(1002.7, abs=0.05)
    assert c.values[1:].std() == pytest.approx(0.8352, rel=0.028)


@pytest.mark.parametrize(("symbol", "sensitivity", "printed"), [
    ("V", 10.027, 0.40935), ("r", 1002.7, 0.20054), ("t", 1002.7, 0.48628), ("P", 1002.8, 0.0578967),
    ("m", 9.999, 0.49995),
])
def test_a1_parts_of_the_uncertainty(symbol, sensitivity, printed):
    """Triangular over sqrt 6, rectangular over sqrt 3, normal by its standard deviation, each times its slope."""
    assert inputs()[symbol].values[1:].std() * sensitivity == pytest.approx(printed, rel=0.028)


def test_taking_a_triangle_for_a_rectangle_would_show():
    """Negative test: the same half-width over sqrt 3 is 41 % more."""
    found = inputs()["V"].values[1:].std()
    assert abs(found - 0.1 / np.sqrt(3)) > 0.3 * found


def test_resistance_of_two_readings():
    """6.67(23) ohm."""
    V = stated("V", 0.1, 0.1 - P95 * 0.001, 0.1 + P95 * 0.001, "normal")
    I = stated("I", 0.015, 0.015 - P95 * 0.0005, 0.015 + P95 * 0.0005, "normal")
    R = Working()(RESISTANCE, V=V, I=I)
    assert R.values[0] == pytest.approx(6.67, abs=0.005)
    assert R.values[1:].std() == pytest.approx(0.23, abs=0.005 + 0.0066)
