"""Snow, levelling, drains and house anchors against published and independent numbers.

* ASCE 7, flat roof: 0.7 of the ground snow; 30 psf give 21 psf (from memory); a page that leaves out the 0.7 gives 30.
* 204 ft2 under 50 psf: 7 140 lb, computed for the row it stands in.
* Drains: IPC table 704.1 (read in a city code built on it): 1/4 in a ft to 2 1/2 in bore, 1/8 from 3 in; 1/4 in a ft is
  2.083 % or 1.193 degrees, 1/8 is 1.042 % or 0.597 degrees.
* A house of 9 000 lb held against 0.8 g: 7 200 lb; slopes of 3 and 2 %: independent hand programs.
"""

import numpy as np
import pytest

from generator.calc.topics import anchors as an
from generator.calc.topics import levelling as lv
from generator.calc.topics import tyre_change as tc
from generator.calc.topics.stands import SNOW
from generator.reference.load import reference

ROW = reference().defaults
PSF, FT, LB = 47.88025898, 0.3048, 0.45359237
SHARE = ROW["snow.roof_share"].value


def on_roof(psf):
    """Snow on one square foot of roof, psf."""
    return SNOW.of(c_s=SHARE, p_g=psf * PSF, A_r=FT**2) / LB


def test_flat_roof_snow():
    assert on_roof(30) == pytest.approx(21.0, abs=0.05)


def test_ground_snow_is_not_roof_snow():
    """The page's 30 psf would be the ground snow itself."""
    assert on_roof(30) < 0.75 * 30


def test_small_house_under_deep_snow():
    assert SNOW.of(c_s=SHARE, p_g=50 * PSF, A_r=204 * FT**2) / LB == pytest.approx(7140, abs=1)


def test_slope_of_three_and_two_per_cent():
    assert lv.WHEEL_BLOCK.of(s_y=0.02, t=2.0) == pytest.approx(0.040)
    assert lv.NOSE.of(s_x=0.03, x_a=3.8, x_j=-0.6) == pytest.approx(0.132)
    assert lv.FEET_RANGE.of(s_x=0.03, d_x=6.7, s_y=0.02, d_y=1.9) == pytest.approx(0.239)


def test_drain_of_a_quarter_inch_a_foot():
    """4.5 m fall 93.75 mm; half of it is lost at 0.59681 degrees, 54.167 mm at the hitch over 5.2 m."""
    assert 1.0 - lv.OUTLET.of(z_d=1.0, zeta=0.0, i_0=1 / 48, l=4.5) == pytest.approx(0.09375)
    left = lv.FALL_LEFT.of(i_0=1 / 48, phi=np.radians(0.59681))
    assert left == pytest.approx(1 / 96, rel=1e-4)
    assert lv.FALL_KEPT.of(k=0.5, i_n=1 / 48) == pytest.approx(left, rel=1e-4)
    assert np.tan(np.radians(0.59681)) * 5.2 == pytest.approx(0.054167, abs=1e-5)


@pytest.mark.parametrize(("id", "share", "degrees"), [("small", 0.02083, 1.193), ("large", 0.01042, 0.597)])
def test_falls_of_the_code(id, share, degrees):
    fall = ROW[f"drain.fall_{id}"].value
    assert fall == pytest.approx(share, abs=5e-6)
    assert np.degrees(np.arctan(fall)) == pytest.approx(degrees, abs=1e-3)
    assert ROW["drain.small_bore"].value == pytest.approx(2.5 * 0.0254)


def test_eighth_of_an_inch_is_nearly_lost_in_a_level_error():
    """1/8 in a ft on a house 0.3 degrees out keeps half of it and no more."""
    left = lv.FALL_LEFT.of(i_0=ROW["drain.fall_large"].value, phi=ROW["drain.attitude"].value)
    assert left / ROW["drain.fall_large"].value == pytest.approx(0.497, abs=1e-3)


def test_house_of_nine_thousand_pounds_on_its_anchors():
    forward = an.SHARED.of(c=ROW["anchor.forward"].value, m_h=9000 * LB, n=1.0)
    assert forward / LB == pytest.approx(7200)
    assert an.SHARED.of(c=ROW["anchor.sideways"].value, m_h=9000 * LB, n=9.0) / LB == pytest.approx(500)


def test_lift_for_a_tyre_change():
    """Independent hand program of the ride height: arm 152.4 mm, 22.5 degrees unloaded, 7.3277 at 1 887.6 kg; tyre
    782.4 mm, radius 372.69 mm under that load: 0.03888 of arm, 0.01851 of tyre."""
    arm, start, loaded = 0.1524, np.radians(22.5), np.radians(7.3277)
    lift = tc.LIFT.of(R=arm, alpha_0=start, alpha=loaded, D=0.7824, r_t=0.37269, c=0.0)
    assert lift == pytest.approx(0.03888 + 0.01851, abs=2e-5)
