"""Feet of the parked house against published pier loads, a general frame program and plain statics.

* 24 CFR 3285.303, table 1 (edition of 2015, read): piers under the frame alone, spacing 4, 6, 8, 10 ft, roof 20, 30,
  40 psf; section 16 ft nominal (15 ft actual), eaves 12 in, roof 10 and floor 6 psf, wall 35 plf, chassis 10 plf, pier
  300 lb; printed up to 100 lb.
* Four stands under a beam, all level and one 10 mm low: general frame program (PyNiteFEA), and removing what pulls.
* A four-legged rigid table on uneven ground stands on a diagonal: 12 000 lb give 6 000 lb on a foot, not 3 000.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve
from generator.calc.topics.stands import ONE_FOOT, WORST_OF_FOUR, held, rest

LB, FT = 0.45359237, 0.3048
G = 9.80665
PIERS = {20: (2900, 4200, 5500, 6800), 30: (3300, 4700, 6200, 7600), 40: (3600, 5200, 6900, 8500)}
SPACINGS = (4, 6, 8, 10)


def line(roof):
    """Load of both rails together per foot: 15 ft of floor with 40 psf live, 17 ft of roof, two walls, chassis."""
    return 15 * (40 + 6) + 17 * (roof + 10) + 2 * 35 + 10 * 2


@pytest.mark.parametrize("roof", PIERS)
@pytest.mark.parametrize("spacing", SPACINGS)
def test_piers_of_the_rule(roof, spacing):
    """One pier carries its tributary length of one rail and its own 300 lb: within the table's rounding and a step."""
    stations = [n * spacing * FT for n in range(9)]
    w = line(roof) * LB * G / FT
    case = loads((), [(-spacing / 2 * FT, 8.5 * spacing * FT, w, w)])
    bench = rest(Girder(-spacing / 2 * FT, 8.5 * spacing * FT, ((-spacing / 2 * FT, 4e7),)), stations, [case])
    inner = held(bench, 0)[4]
    pier = ONE_FOOT.of(R=inner, y_g=0.0, y_f=1.0) / LB + 300
    printed = PIERS[roof][SPACINGS.index(spacing)]
    assert pier == pytest.approx(printed, rel=0.03)


def frame():
    """Line loads N/m on a beam of E I 200 GPa x 2.56e-5 m4, feet at 0.3, 2.6, 5.0 and 7.0 m."""
    case = loads([(1.0, 2500.0), (-0.9, 600.0)],
                 [(0.0, 7.2, 4500.0, 4500.0), (-1.4, 0.0, 300.0, 300.0), (5.2, 7.2, 0.0, 1500.0)])
    return Girder(-1.4, 7.2, ((-1.4, 200e9 * 2.56e-5),)), (0.3, 2.6, 5.0, 7.0), case


def test_four_feet_all_level():
    beam, x, case = frame()
    found = held(rest(beam, x, [case]), 0)
    assert found == pytest.approx([8730.7, 12073, 11109, 5507.4], rel=5e-5)


def test_one_foot_low_pulls_nothing():
    """Two-way: 23 470, -26 705, 47 043, -6 388 N; feet that only push: 13 320, 0, 22 296, 1 804 N."""
    beam, x, case = frame()
    two_way = solve(beam, [at(str(s), s, imposed=-0.010 if s == 2.6 else 0.0) for s in x], [case])[0].reactions
    assert two_way == pytest.approx([23470, -26705, 47043, -6388.1], rel=5e-5)
    assert held(rest(beam, x, [case]), 0, 1, 0.010) == pytest.approx([13320, 0, 22296, 1804.0], rel=5e-5)


@pytest.mark.parametrize("dropped", [None, 0, 1, 2, 3])
def test_same_as_the_beam_solved_whole(dropped):
    """Two routes: the outer feet with unit forces, and the beam on all its feet at once; 2 mm lift nothing."""
    beam, x, case = frame()
    stiff = Girder(beam.front, beam.rear, ((beam.front, 1e6),))
    supports = [at(str(n), s, imposed=-0.002 if n == dropped else 0.0) for n, s in enumerate(x)]
    whole = solve(stiff, supports, [case])[0].reactions
    assert (whole > 0.0).all()
    assert held(rest(stiff, x, [case]), 0, dropped, 0.002) == pytest.approx(whole, rel=1e-8)


def test_reactions_make_up_the_weight():
    beam, x, case = frame()
    bench = rest(beam, x, [case])
    for dropped in (None, 0, 1, 2, 3):
        found = held(bench, 0, dropped, 0.010)
        assert found.sum() == pytest.approx(case.total, rel=1e-9)
        assert (found >= 0.0).all()
        assert found @ np.array(x) == pytest.approx(float(bench.moments[0]), rel=1e-9)


def test_rigid_house_on_four_feet_stands_on_a_diagonal():
    worst = WORST_OF_FOUR.of(m_f=3000 * LB, W=12000 * LB, m_s=0.0)
    assert worst / LB == pytest.approx(6000)
