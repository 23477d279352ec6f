"""J. M. Gere and S. P. Timoshenko, Mechanics of Materials: problems 2.7-8 (five springs; answers from memory), 4.3-5,
4.5-30 (moment from memory), 5.6-7, and a propped cantilever of the same family (W12x35 under its own weight).
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, Support, at, loads, solve


def simple(length, points=(), lines=()):
    return solve(Girder(0.0, length, ((0.0, 1.0),)), [at("A", 0.0), at("B", length)], [loads(points, lines)])[0]


def test_4_3_5_overhang_with_partial_loads():
    """RA 2 460, RB 2 740 lb; 16 ft from A: V -1 540 lb, M -4 640 lb-ft."""
    case = loads(lines=[(0.0, 10.0, 400.0, 400.0), (26.0, 32.0, 200.0, 200.0)])
    b = solve(Girder(0.0, 32.0, ((0.0, 1.0),)), [at("A", 0.0), at("B", 20.0)], [case])[0]
    assert b.reactions == pytest.approx([2460.0, 2740.0], abs=0.5)
    assert b.shear(np.array([16.0]))[0] == pytest.approx(-1540.0, abs=0.5)
    assert b.moment(np.array([16.0]))[0] == pytest.approx(-4640.0, abs=0.5)


def test_4_5_30_two_wheels_on_a_crane_beam():
    """Wheels 10 and 20 kN, 2.4 m apart, span 12 m: greatest shear 28 kN, greatest moment 78.4 kN m."""
    places = np.arange(0.0, 9.6001, 0.025)
    pairs = [loads([(p, light), (p + 2.4, heavy)]) for p in places for light, heavy in ((10.0, 20.0), (20.0, 10.0))]
    bent = solve(Girder(0.0, 12.0, ((0.0, 1.0),)), [at("A", 0.0), at("B", 12.0)], pairs)
    assert max(np.abs(b.reactions).max() for b in bent) == pytest.approx(28.0, abs=0.05)
    assert max(b.moment(b.loads.points[:, 0]).max() for b in bent) == pytest.approx(78.4, abs=0.05)


def test_5_6_7_floor_joist():
    """Joists 16 in apart, 10 ft 6 in, 120 psf, 1 350 psi: 13.333 lb/in, 26 460 lb-in, S 19.6 in3."""
    load = 120.0 / 144.0 * 16.0
    assert load == pytest.approx(13.333, abs=5e-4)
    moment = float(simple(126.0, lines=[(0.0, 126.0, load, load)]).moment(np.array([63.0]))[0])
    assert moment == pytest.approx(26_460.0, abs=5.0)
    assert moment / 1350.0 == pytest.approx(19.6, abs=0.05)


def test_propped_cantilever_under_its_own_weight():
    """W12x35, 11.5 ft, E 30 000 ksi, I 285 in4: 0.252 and 0.151 kip, 0.579 kip-ft, nil at 2.88 ft, 6.7e-4 in,
    slope at the prop 1.868e-5."""
    weight, length = 0.035, 11.5
    clamp = Support("turning", ((0.0, 0.0, 1.0),))
    case = loads(lines=[(0.0, length, weight, weight)])
    ei = 30_000.0 * 285.0 / 144.0
    b = solve(Girder(0.0, length, ((0.0, ei),)), [at("wall", 0.0), clamp, at("prop", length)], [case])[0]
    assert b.reactions[[0, 2]] == pytest.approx([0.252, 0.151], abs=5e-4)
    assert b.moment(np.array([0.0]))[0] == pytest.approx(-0.579, abs=5e-4)
    assert b.moment(np.array([2.875]))[0] == pytest.approx(0.0, abs=1e-9)
    x = np.linspace(0.0, length, 2001)
    assert b.deflection(x).min() * 12.0 == pytest.approx(-6.7e-4, abs=5e-6)
    slope = float((b.deflection(x[-1:]) - b.deflection(x[-1:] - 1e-4))[0]) / 1e-4
    assert slope == pytest.approx(1.868e-5, abs=5e-9)


def test_2_7_8_rigid_bar_on_five_springs():
    """Springs 3k, 1.5k, k, 1.5k, 3k equally spaced, 600 N at the middle, k 7.5 N/mm: 8.0 mm; 180, 90, 60 N."""
    k = 7.5
    springs = [at(f"{i}", float(i), stiffness=f * k) for i, f in enumerate((3.0, 1.5, 1.0, 1.5, 3.0))]
    b = solve(Girder(0.0, 4.0, ((0.0, 1e9),)), springs, [loads(points=[(2.0, 600.0)])])[0]
    assert b.reactions == pytest.approx([180.0, 90.0, 60.0, 90.0, 180.0], abs=0.05)
    assert b.deflection(np.array([2.0]))[0] == pytest.approx(-8.0, abs=0.05)


def test_uniform_bar_on_springs_k_2k_3k():
    """Same book: a uniform bar on springs k, 2k, 3k at end, middle, end: 0.3, 0.4, 0.3 of its weight."""
    springs = [at(f"{i}", float(i), stiffness=float(i + 1)) for i in range(3)]
    b = solve(Girder(0.0, 2.0, ((0.0, 1e9),)), springs, [loads(lines=[(0.0, 2.0, 0.5, 0.5)])])[0]
    assert b.reactions == pytest.approx([0.3, 0.4, 0.3], abs=1e-6)
