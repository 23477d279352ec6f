"""Water and fuel in tanks: 49 CFR 571.120 S10.4.5(d) (label water at 8.3 lb/gal, 1 kg/L), NIST Handbook 44
Appendix C (1 US gallon = 231 in3), US planning weights of diesel, propane at 4.20 to 4.24 lb/gal (60 F).
"""

import pytest

from generator import units
from generator.reference.load import reference

POUND = 0.45359237
GALLON = units.parse("1 US gal", "volume")


def per_gallon(density_id):
    return reference().defaults[density_id].value * GALLON / POUND


def test_us_gallon_is_231_cubic_inches():
    assert units.parse("1 US gal", "volume") == pytest.approx(231 * 0.0254**3, rel=1e-12)


def test_label_water():
    """8.3 lb/gal as printed; the same rule says 1 kg/L, which is 8.345."""
    assert per_gallon("density.fresh_water") == pytest.approx(8.3, abs=0.05)
    assert reference().defaults["density.fresh_water"].value == pytest.approx(1000.0, rel=1e-9)


def test_waste_water_is_not_lighter_than_fresh():
    fresh = per_gallon("density.fresh_water")
    assert per_gallon("density.grey_water") >= fresh
    assert per_gallon("density.black_water") >= fresh


def test_propane_lies_between_the_published_values():
    assert 4.20 - 0.005 <= per_gallon("density.propane") <= 4.24 + 0.005


def test_diesel_lies_in_its_usual_band():
    """Specific gravity 0.83 to 0.85: 6.9 to 7.1 lb/gal."""
    assert 6.9 - 0.05 <= per_gallon("density.diesel") <= 7.1 + 0.05


def test_material_water_against_the_tank_default():
    """62.4 lb/ft3 (HUD guide table 3.3) and 1 kg/L differ by 0.05 %."""
    assert reference().materials["water"].density == pytest.approx(1000.0, rel=6e-4)
