"""Values of the tables typed a second time from their sources, so that one slip of the hand shows."""

import math

import pytest

from generator.reference.content import tolerances
from generator.reference.load import reference

DATA = reference()
LB, IN, FT = 0.45359237, 0.0254, 0.3048
PSF = LB / FT**2


@pytest.mark.parametrize(("nominal", "a", "b", "c", "d"), [
    (20, 1, 1, 1, 1), (100, 1, 2, 3, 4), (300, 1, 2, 4, 7), (800, 2, 3, 6, 9), (1500, 3, 4, 8, 12),
    (3000, 4, 6, 11, 16), (6000, 5, 8, 14, 21), (10000, 6, 10, 18, 27), (14000, 7, 12, 21, 32), (18000, 8, 14, 24, 36),
    (25000, 9, 16, 27, 40),
])
def test_iso_13920_linear_tolerances(nominal: float, a: float, b: float, c: float, d: float) -> None:
    """ISO 13920:1996, table 1, mm, as read on one secondary page."""
    row = next(r for r in tolerances() if r.over * 1000 < nominal and (r.to is None or nominal <= r.to * 1000))
    assert [round(row.classes[k] * 1000, 6) for k in "ABCD"] == [a, b, c, d]


@pytest.mark.parametrize(("name", "lb_ft", "area", "depth", "width", "inertia", "modulus", "plastic"), [
    ("W8x10", 10.0, 2.96, 7.89, 3.94, 30.8, 7.81, 8.87), ("W6x9", 9.0, 2.68, 5.90, 3.94, 16.4, 5.56, 6.23),
    ("W12x14", 14.0, 4.16, 11.9, 3.97, 88.6, 14.9, 17.4), ("C4x5.4", 5.4, 1.58, 4.0, 1.58, 3.85, 1.92, 2.29),
    ("C3x4.1", 4.1, 1.20, 3.0, 1.41, 1.65, 1.10, 1.32), ("MC6x6.5", 6.5, 1.95, 6.0, 1.85, 11.0, 3.66, 4.28),
    ("M8x6.5", 6.5, 1.92, 8.0, 2.28, 18.5, 4.63, 5.43), ("HSS6x2x3/16", 9.42, 2.58, 6.0, 2.0, 10.5, 3.49, 4.58),
    ("HSS8x3x3/16", 13.25, 3.63, 8.0, 3.0, 27.8, 6.94, 8.87), ("HSS4x2x3/16", 6.87, 1.89, 4.0, 2.0, 3.66, 1.83, 2.34),
    ("HSS2x2x3/16", 4.32, 1.19, 2.0, 2.0, 0.641, 0.641, 0.797),
])
def test_steel_sections(name: str, lb_ft: float, area: float, depth: float, width: float, inertia: float,
                        modulus: float, plastic: float) -> None:
    """AISC shapes database v16.0: inches, lb/ft."""
    s = DATA.sections[name]
    assert s.mass == pytest.approx(lb_ft * LB / FT, rel=1e-12)
    assert [s.area / IN**2, s.depth / IN, s.width / IN] == pytest.approx([area, depth, width], rel=1e-12)
    bending = [s.inertia / IN**4, s.modulus / IN**3, s.plastic / IN**3]
    assert bending == pytest.approx([inertia, modulus, plastic], rel=1e-12)


def test_angles_stand_on_their_long_leg() -> None:
    """AISC v16.0: L3x2x3/16, Ix 0.847 in4 about the axis parallel to the short leg."""
    angle = DATA.sections["L3x2x3/16"]
    assert (angle.depth / IN, angle.width / IN) == pytest.approx((3.0, 2.0))
    assert angle.inertia / IN**4 == pytest.approx(0.847)


def test_symmetric_sections_keep_s_equal_to_i_over_half_depth() -> None:
    """Identity for shapes symmetric about x, channels too; the table rounds to three figures."""
    for s in DATA.sections.values():
        if s.shape in ("I", "C", "HSS", "plate"):
            assert s.modulus == pytest.approx(s.inertia / (s.depth / 2.0), rel=0.02), s.name


def test_plates_weigh_40_83_psf_an_inch() -> None:
    """490 lb/ft3 / 12 = 40.83 lb/ft2 per inch of thickness: trade figure for steel plate."""
    plate = DATA.sections["PL1/4x6"]
    assert plate.mass / (6 * IN) / PSF / 0.25 == pytest.approx(40.83, abs=0.005)


@pytest.mark.parametrize(("material", "inches", "psf"), [
    ("gypsum-board", 1 / 2, 2.2), ("gypsum-board", 5 / 8, 2.75), ("fibreboard", 1 / 2, 0.75), ("glass", 1 / 4, 3.27),
    ("glass", 1 / 8, 1.635), ("hardwood-floor", 7 / 8, 4.0), ("plywood", 1.0, 3.0), ("osb", 1.0, 3.0),
    ("linoleum", 1 / 4, 1.0),
])
def test_sheets_per_area(material: str, inches: float, psf: float) -> None:
    """ASCE 7 commentary table C3.1-1a (gypsum, fibreboard, flooring, wood sheathing); trade table of flat glass."""
    assert DATA.materials[material].density * inches * IN / PSF == pytest.approx(psf, abs=0.005)


def test_three_square_feet_of_half_inch_gypsum() -> None:
    """ASCE 7 table C3.1-1a: 2.2 lb/ft2 for 1/2 in, so 6.6 lb for 3 ft2."""
    assert DATA.materials["gypsum-board"].density * 0.5 * IN * 3 * FT**2 / LB == pytest.approx(6.6, abs=1e-9)


@pytest.mark.parametrize(("material", "lb_ft"), [
    ("spruce-pine-fir", 1.021), ("douglas-fir", 1.224), ("southern-pine", 1.323),
])
def test_two_by_four_per_foot(material: str, lb_ft: float) -> None:
    """2x4, dressed 1-1/2 x 3-1/2 in (PS 20): lb/ft from Wood Handbook and NDS densities at 12 % moisture."""
    assert DATA.materials[material].density * 1.5 * IN * 3.5 * IN * FT / LB == pytest.approx(lb_ft, rel=0.005)


def test_wood_handbook_worked_example() -> None:
    """Wood Handbook (FPL-GTR-190) ch. 4: gravity 0.40 at 12 % moisture gives 448 kg/m3 (27.968 lb/ft3)."""
    assert DATA.materials["white-spruce"].density == pytest.approx(448.0, abs=0.5)  # gravity 0.40 in NRS-38


@pytest.mark.parametrize(("material", "pcf"), [
    ("eps-1", 0.90), ("eps-2", 1.35), ("eps-9", 1.80), ("xps-4", 1.55), ("xps-10", 1.30),
])
def test_polystyrene_boards(material: str, pcf: float) -> None:
    """ASTM C578-10, table 1: least densities by type."""
    assert DATA.materials[material].density == pytest.approx(pcf * LB / FT**3)


def test_what_is_sold_by_area_has_no_density() -> None:
    """ASCE 7 C3.1-1a: single-ply sheet 0.7 lb/ft2, asphalt shingles 2 lb/ft2."""
    for material, psf in (("single-ply-membrane", 0.7), ("asphalt-shingle", 2.0)):
        row = DATA.materials[material]
        assert row.areal == pytest.approx(psf * PSF)
        assert math.isnan(row.density)


@pytest.mark.parametrize(("code", "feet", "inches"), [
    ("US-CA", 14, 0), ("US-CO", 14, 6), ("US-IN", 13, 6), ("US-TX", 14, 0), ("US-WA", 14, 0), ("US-OR", 14, 0),
    ("US-ID", 14, 0), ("US-MT", 14, 0), ("US-IL", 13, 6), ("US-NY", 13, 6), ("US-NE", 14, 6), ("US-AK", 15, 0),
    ("US-MO", 13, 6), ("US-VT", 13, 6),
])
def test_state_heights(code: str, feet: int, inches: int) -> None:
    """Cal. Veh. Code 35250; C.R.S. 42-4-504; IC 9-20-3-3; Tex. Transp. Code 621.207; RCW 46.44.020; trade list."""
    assert DATA.regions[code].height == pytest.approx(feet * FT + inches * IN, abs=1e-12)


@pytest.mark.parametrize(("code", "height", "width"), [
    ("EU", 4.0, 2.55), ("UK", None, 2.55), ("AU", 4.3, 2.5), ("NZ", 4.3, 2.55), ("CA", 4.15, 2.6),
])
def test_sizes_elsewhere(code: str, height: float | None, width: float) -> None:
    """96/53/EC annex I; C&U Regulations 1986 reg. 8; ADR 43; VDAM Rule 2016; Canadian MOU."""
    assert (DATA.regions[code].height, DATA.regions[code].width) == (height, width)


def test_the_widest_state_is_hawaii() -> None:
    """23 CFR 658.15(a): 102 in, Hawaii 108 in."""
    widths = {code: r.width for code, r in DATA.regions.items() if code.startswith("US-")}
    assert widths.pop("US-HI") == pytest.approx(108 * IN)
    assert list(widths.values()) == pytest.approx([102 * IN] * 50)


def test_heights_from_memory_are_marked() -> None:
    """Not read anywhere: Arizona, Delaware, Hawaii, New Hampshire."""
    assert {c for c, r in DATA.regions.items() if r.confidence == "memory"} == {"US-AZ", "US-DE", "US-HI", "US-NH"}


@pytest.mark.parametrize(("id", "value"), [
    ("hitch.share_low", 0.15), ("hitch.share_high", 0.25),  # owner guides: 15 to 25 % on a pin or gooseneck ball
    ("neck.rail_gap", 6 * IN),  # owner guide: at least 6 in over the bed sides
    ("tyre.passenger_divisor", 1.10),  # 49 CFR 571.120 S5.1.2
    ("torsion.angle_rated", math.radians(22.5)), ("torsion.angle_stop", math.radians(32.5)),  # articulation table
    ("density.fresh_water", 1000.0),  # 49 CFR 571.120 S10.4.5(d): 1 kg/L
    ("density.propane", 4.24 * LB / (231 * IN**3)),  # 4.24 lb/gal; gallon of 231 in3, NIST Handbook 44
])
def test_defaults(id: str, value: float) -> None:
    assert DATA.defaults[id].value == pytest.approx(value, rel=1e-9)


def test_use_classes_ask_for_more_reserve_as_they_travel_more() -> None:
    """Common practice: 10, 15, 20, 25 % for classes A to D; 1, 3, 8 moves; 300, 1500, 5000 miles."""
    reserves = [DATA.defaults[f"tyre.reserve_{c}"].value for c in "abcd"]
    assert reserves == [0.10, 0.15, 0.20, 0.25]
    assert [DATA.defaults[f"use.{c}_moves"].value for c in "abc"] == [1, 3, 8]
    assert [DATA.defaults[f"use.{c}_distance"].value / 1609.344 for c in "abc"] == pytest.approx([300, 1500, 5000])


def test_unlisted_mass_is_one_sided_with_double_as_bound() -> None:
    """Common practice: 12, 8, 4, 0 % by stage."""
    rows = [DATA.defaults[f"mass.unlisted_{s}"] for s in ("sketch", "specified", "quoted", "weighed")]
    assert [r.value for r in rows] == [0.12, 0.08, 0.04, 0.0]
    assert all(r.low == 0.0 and r.high == 2 * r.value for r in rows)
