"""AISC Steel Construction Manual, Table 3-23 "Shears, moments and deflections" (cases 1, 2, 7, 24 and the two-span
cases; quoted from memory, each also solved independently), and E 29 000 ksi with the table's W8x10 (I 30.8 in4).

Kip, inch. Where the table gives an exact expression the tolerance is 1e-9; where it rounds, half its last digit.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve

EI = 29_000.0 * 30.8
W = 0.05


def bend(length, supports, points=(), lines=(), ei=EI):
    """The one beam of a case, with supports at stations."""
    return solve(Girder(0.0, length, ((0.0, ei),)), [at(f"{x}", x) for x in supports], [loads(points, lines)])[0]


def value(array):
    return float(array[0])


def test_case_1_simple_beam_uniform_load():
    b = bend(240.0, (0.0, 240.0), lines=[(0.0, 240.0, W, W)])
    assert b.reactions == pytest.approx([6.0, 6.0], rel=1e-9)
    assert b.peaks() == pytest.approx([120.0])
    assert value(b.moment(b.peaks())) == pytest.approx(W * 240**2 / 8, rel=1e-9) == pytest.approx(360.0)
    assert value(b.deflection(np.array([120.0]))) == pytest.approx(-5 * W * 240**4 / (384 * EI), rel=1e-9)
    assert value(b.deflection(np.array([120.0]))) == pytest.approx(-2.418, abs=5e-4)


def test_case_2_load_increasing_uniformly_to_one_end():
    length, peak = 10.0, 3.0
    total = peak * length / 2
    b = bend(length, (0.0, length), lines=[(0.0, length, 0.0, peak)])
    assert b.reactions == pytest.approx([total / 3, 2 * total / 3], rel=1e-9)
    assert value(b.peaks()) / length == pytest.approx(0.5774, abs=5e-5)
    assert value(b.moment(b.peaks())) / (total * length) == pytest.approx(0.1283, abs=5e-5)
    assert value(b.deflection(np.array([0.5193 * length]))) == pytest.approx(
        -0.01304 * total * length**3 / EI, rel=5e-6 / 0.01304)


def test_case_7_point_load_at_centre():
    b = bend(240.0, (0.0, 240.0), points=[(120.0, 4.0)])
    assert value(b.moment(np.array([120.0]))) == pytest.approx(240.0, rel=1e-9)
    assert value(b.deflection(np.array([120.0]))) == pytest.approx(-4.0 * 240**3 / (48 * EI), rel=1e-9)
    assert value(b.deflection(np.array([120.0]))) == pytest.approx(-1.290, abs=5e-4)


def test_case_24_beam_overhanging_one_support_uniform_load():
    span, over = 180.0, 60.0
    b = bend(span + over, (0.0, span), lines=[(0.0, span + over, W, W)])
    assert b.reactions == pytest.approx([W * (span**2 - over**2) / (2 * span), W * (span + over)**2 / (2 * span)])
    assert b.reactions == pytest.approx([4.0, 8.0], rel=1e-9)
    sag = value(b.peaks())
    assert sag == pytest.approx(span / 2 * (1 - (over / span)**2), rel=1e-9) == pytest.approx(80.0)
    assert value(b.moment(np.array([sag]))) == pytest.approx(
        W / (8 * span**2) * (span + over)**2 * (span - over)**2, rel=1e-9) == pytest.approx(160.0)
    assert value(b.moment(np.array([span]))) == pytest.approx(-W * over**2 / 2, rel=1e-9) == pytest.approx(-90.0)
    tip = W * over / (24 * EI) * (4 * over**2 * span - span**3 + 3 * over**3)
    assert value(b.deflection(np.array([span + over]))) == pytest.approx(-tip, rel=1e-9)
    assert value(b.deflection(np.array([span + over]))) == pytest.approx(0.3627, abs=5e-5)


def test_two_equal_spans_both_loaded():
    """3/8, 10/8, 3/8 wl; support moment wl2/8; span moment 9wl2/128; wl4/185EI at 0.4215 l is a rounded 185."""
    span = 120.0
    b = bend(2 * span, (0.0, span, 2 * span), lines=[(0.0, 2 * span, W, W)])
    assert b.reactions / (W * span) == pytest.approx([3 / 8, 10 / 8, 3 / 8], rel=1e-9)
    assert value(b.moment(np.array([span]))) == pytest.approx(-W * span**2 / 8, rel=1e-9)
    assert b.moment(b.peaks()) / (W * span**2) == pytest.approx([9 / 128, 9 / 128], rel=1e-9)
    deflection = value(b.deflection(np.array([0.4215 * span])))
    assert W * span**4 / (-deflection * EI) == pytest.approx(185.0, abs=0.5)
    assert deflection == pytest.approx(-0.06287, abs=5e-6)


def test_two_equal_spans_one_loaded_lifts_the_far_support():
    span = 120.0
    b = bend(2 * span, (0.0, span, 2 * span), lines=[(0.0, span, W, W)])
    assert b.reactions / (W * span) == pytest.approx([7 / 16, 5 / 8, -1 / 16], rel=1e-9)
    assert value(b.moment(np.array([span]))) == pytest.approx(-W * span**2 / 16, rel=1e-9)
