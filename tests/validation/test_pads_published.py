"""Pads and footings against published tables.

* 24 CFR 3285.312, table of footing capacities (edition of 2015, read): soil times area less the footing's own weight
  at 150 lb/ft3, printed to 100 lb.
* 24 CFR 3285.202(e): 1 500 psf where nothing less is known; practice rows of that rule: 4 000 lb ask for 19.6 in square
  at 1 500 psf, 24.0 in at 1 000 psf, 17.0 in at 2 000 psf (computed for the row).
* Cribbing bulletin (maker withheld, read): 43 800 lb on 24 by 24 in is 76 psi; on soil of 29 psi it needs 1 510 in2,
  38.8 in square. Its layout of ten 3 1/2 in timbers 40 in long gives 1 400 in2, not the 1 600 it prints: 31.3 psi, over
  the soil.
* IRC table R401.4.1, IBC table 1806.2: 4 000, 3 000, 2 000, 1 500 psf.
* Half of 4 420 kg on 71.82 kPa: independent hand program, 0.54933 m.
"""

import pytest

from generator.calc.topics.pads import PAD_PRESSURE, PAD_SIDE, SOILS
from generator.reference.load import reference

PSF, PSI, FT, LB, INCH = 47.88025898, 6894.757293, 0.3048, 0.45359237, 0.0254
CONCRETE = 150.0
"""lb/ft3, as the table's own rows give back."""


@pytest.mark.parametrize(
    ("psf", "side", "thick", "printed", "within"),
    [(1500, 24, 8, 5600, 1), (1500, 24, 6, 5700, 1), (1500, 16, 6, 2500, 50), (1500, 20, 6, 4000, 50),
     (1000, 16, 6, 1600, 60), (1000, 20, 6, 2600, 50), (1000, 24, 6, 3700, 1), (2000, 16, 6, 3400, 50),
     (2000, 20, 6, 5300, 50), (2000, 24, 8, 7600, 1), (3000, 20, 8, 8100, 60), (3000, 24, 10, 11500, 1)],
)
def test_footings_of_the_rule(psf, side, thick, printed, within):
    """The pad that carries table load plus own weight at the soil's bearing is the table's own footing."""
    own = CONCRETE * (side / 12) ** 2 * thick / 12
    pressure = PAD_PRESSURE.of(m_f=(printed + own) * LB, a=side * INCH)
    assert pressure / PSF == pytest.approx(psf, abs=within / (side / 12) ** 2)
    assert PAD_SIDE.of(m_f=pressure * (side * INCH) ** 2 / 9.80665, q_a=pressure) == pytest.approx(side * INCH)


@pytest.mark.parametrize(("psf", "side"), [(1500, 19.6), (1000, 24.0), (2000, 17.0)])
def test_four_thousand_pounds(psf, side):
    assert PAD_SIDE.of(m_f=4000 * LB, q_a=psf * PSF) / INCH == pytest.approx(side, abs=0.05)


def test_cribbing_bulletin():
    assert PAD_PRESSURE.of(m_f=43800 * LB, a=24 * INCH) / PSI == pytest.approx(76.0, abs=0.5)
    side = PAD_SIDE.of(m_f=43800 * LB, q_a=29 * PSI) / INCH
    assert side**2 == pytest.approx(1510, abs=0.5)
    assert int(side * 10) / 10 == 38.8


def test_bulletin_layout_is_over_the_soil():
    """Ten timbers 3.5 in wide are 35 in, not 40."""
    side = (10 * 3.5 * 40) ** 0.5 * INCH
    pressure = PAD_PRESSURE.of(m_f=43800 * LB, a=side) / PSI
    assert pressure == pytest.approx(31.3, abs=0.05)
    assert pressure > 29


def test_half_a_house_on_one_pad():
    assert PAD_SIDE.of(m_f=4420 / 2, q_a=71820.0) == pytest.approx(0.54933, abs=1e-5)


@pytest.mark.parametrize(("soil", "psf"), [("rock", 4000), ("gravel", 3000), ("sand", 2000), ("clay", 1500)])
def test_presumptive_bearing(soil, psf):
    assert reference().defaults[SOILS[soil]].value / PSF == pytest.approx(psf)


def test_nothing_is_presumed_for_fill():
    """IBC 1806.2: mud, organic soil, peat and unprepared fill have no presumptive value."""
    assert {"fill", "organic", "unknown"}.isdisjoint(SOILS)
