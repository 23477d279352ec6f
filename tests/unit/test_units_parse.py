"""Reading text with units: what is accepted, and every refusal word for word."""

import contextlib
import math
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator import units
from generator.units import KINDS, UnitError, parse

IN, FT, LB = 0.0254, 0.3048, 0.45359237


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("8'6", "length", 102 * IN),
        ("8'-6\"", "length", 102 * IN),
        ("8ft 6in", "length", 102 * IN),
        ("102in", "length", 102 * IN),
        ("102 in", "length", 102 * IN),
        ("2591mm", "length", 2.591),
        ("8.5ft", "length", 102 * IN),
        ("5'-1/2\"", "length", 60.5 * IN),
        ("8 ft 6 1/2 in", "length", 102.5 * IN),
        ("8 ft 6.25 in", "length", 102.25 * IN),
        ("3/4 in", "length", 0.75 * IN),
        ("6 1/2 in", "length", 6.5 * IN),
        ("-4'-2 1/4\"", "length", -50.25 * IN),
        ("8'", "length", 8 * FT),
        ('6"', "length", 6 * IN),
        ("-63 in", "length", -63 * IN),
        ("-0 ft", "length", 0.0),
        ("3 mi", "distance", 4828.032),
        ("40 US gal", "volume", 40 * 0.003785411784),
        ("10 imp gal", "volume", 0.0454609),
        ("15 %", "ratio", 0.15),
        ("1/4 in/ft", "ratio", 1 / 48),
        ("0.12", "coefficient", 0.12),
        ("85 %", "coefficient", 0.85),
        ("90 lbf ft", "torque", 90 * LB * 9.80665 * FT),
        ("90 ft lbf", "torque", 90 * LB * 9.80665 * FT),
        ("120 N m", "torque", 120.0),
        ("22.5 deg", "angle", math.pi / 8),
        ("22.5\u00b0", "angle", math.pi / 8),
        ("7 lbs", "mass", 7 * LB),
    ],
)
def test_accepted(text: str, kind: str, value: float) -> None:
    """Formats the trade writes (list of `8'6` to `5'-1/2"`: common practice, no source)."""
    assert parse(text, kind) == pytest.approx(value, rel=1e-15, abs=0.0)


@pytest.mark.parametrize(
    "text", ["8\u2019-6 1/2\u201d", "8\u2032-6 1/2\u2033", "8\u00a0ft\u202f6 1/2\u00a0in", "8'-6 1/2''"]
)
def test_typographic_marks_are_normalised(text: str) -> None:
    assert parse(text, "length") == pytest.approx(102.5 * IN, rel=1e-15)


def test_typographic_minus_is_normalised() -> None:
    assert parse("\u22124'-2 1/4\u2033", "length") == pytest.approx(-50.25 * IN, rel=1e-15)


def test_exact_to_the_last_bit() -> None:
    """8 ft is 2.4384 m by definition; a float product gives 2.4383999999999996 or worse in some orders."""
    assert parse("8 ft", "length") == 2.4384
    assert parse("13 ft 6 in", "length") == 4.1148
    assert math.copysign(1.0, parse("-0 in", "length")) == 1.0


LENGTH = "for example `8 ft 6 in` or `2590 mm`"


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("102", "length", f"`102` has no unit; write a length, {LENGTH}"),
        ("8-6", "length", "`8-6` has no unit on its feet; write `8'-6\"` or `8 ft 6 in`"),
        ("90 kg", "length", f"`90 kg` is a mass, not a length; write a length, {LENGTH}"),
        ("8 ft 6", "length", "`8 ft 6`: the inches have no unit; write `8 ft 6 in` or `8'-6\"`"),
        (
            "8 ft 14 in",
            "length",
            "`8 ft 14 in` has 12 inches or more beside its feet; write inches under 12, or inches alone",
        ),
        ("1/0 in", "length", "`1/0 in` divides by zero; write a fraction such as 1/2"),
        (
            "14,000 lb",
            "mass",
            "`14,000 lb` has a comma, which is read two ways; write `14000 lb` if it parts thousands, "
            "`14.000 lb` if it is a decimal comma",
        ),
        (
            "2,4 m",
            "length",
            "`2,4 m` has a comma, which is read two ways; write `24 m` if it parts thousands, `2.4 m` if "
            "it is a decimal comma",
        ),
        (
            "1.234,5 m",
            "length",
            "`1.234,5 m` has a comma, which is read two ways; write `1234.5 m` if the comma is "
            "decimal, `1.2345 m` if the point is",
        ),
        ("1 234 kg", "mass", "`1 234 kg` has a space in its number; write the digits without spaces"),
        ("1e400 m", "length", "`1e400 m` has an exponent; write the number out in digits"),
        ("1e-300 kg", "mass", "`1e-300 kg` has an exponent; write the number out in digits"),
        (".5 in", "length", "`.5 in` has no digit before the point; write `0.5`, not `.5`"),
        ("nan kg", "mass", "`nan kg` is no number; write a mass, for example `7000 lb` or `3175 kg`, or `unknown`"),
        ("inf m", "length", f"`inf m` is no number; write a length, {LENGTH}, or `unknown`"),
        ("\u0663 m", "length", "character '\u0663' (ARABIC-INDIC DIGIT THREE); write it as the plain digit 3"),
        ("\uff13 m", "length", "character '\uff13' (FULLWIDTH DIGIT THREE); write it as the plain digit 3"),
        ("8\u00bd in", "length", "character '\u00bd' (VULGAR FRACTION ONE HALF); write `1/2` in plain characters"),
        (
            "5 Kg",
            "mass",
            "`5 Kg`: unit `Kg` is not known for a mass; did you mean `kg`? units here: kg, g, t, lb, US ton, UK ton",
        ),
        ("150 m", "length", "`150 m` is 150 in SI, not plausible for a length; -100 to 100 in SI is read, " + LENGTH),
        (
            "12000 in",
            "length",
            "`12000 in` is 304.8 in SI, not plausible for a length; -100 to 100 in SI is read, " + LENGTH,
        ),
        (
            "200 t",
            "mass",
            "`200 t` is 200000 in SI, not plausible for a mass; 0 to 100000 in SI is read, for example "
            "`7000 lb` or `3175 kg`",
        ),
    ],
)
def test_refused_word_for_word(text: str, kind: str, message: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse(text, kind)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("text", "kind", "choice"),
    [
        ("5 ton", "mass", "US ton"),
        ("5 ton", "mass", "`t` (1000 kg)"),
        ("40 gal", "volume", "US gal"),
        ("40 gallons", "volume", "imp gal"),
        ("8 oz", "mass", "`g`"),
        ("8 oz", "volume", "`L`"),
        ("3 pt", "volume", "US gal"),
        ("3 pt", "length", "`mm`"),
        ("6 mil", "length", "`mm`"),
        ("25 lb", "force", "lbf"),
        ("25 psi", "areaload", "psf"),
        ("25 psf", "pressure", "psi"),
        ("3 psf", "arealmass", "lb/ft2"),
        ("90 lb ft", "torque", "lbf*ft"),
        ("90 ft-lb", "torque", "lbf*ft"),
        ("2850 lb/in", "stiffness", "lbf/in"),
        ("2 deg", "ratio", "2 %"),
        ("4 AWG", "area", "21.2 mm2"),
    ],
)
def test_ambiguous_units_name_the_choices(text: str, kind: str, choice: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse(text, kind)
    assert choice in caught.value.allowed


def test_long_text_is_refused_before_it_is_looked_at() -> None:
    with pytest.raises(UnitError, match="longer than 60 characters"):
        parse("9" * 5000 + " kg", "mass")


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=70), st.sampled_from(sorted(KINDS)))
def test_any_text_gives_a_value_within_bounds_or_a_refusal(text: str, kind: str) -> None:
    with contextlib.suppress(UnitError):
        assert KINDS[kind].low <= parse(text, kind) <= KINDS[kind].high


@settings(max_examples=200, deadline=None)
@given(st.integers(-1600, 1600), st.sampled_from(["us", "si"]))
def test_a_length_shown_is_read_back(sixteenths: int, system: str) -> None:
    """Round trip through text, to half of the last shown place (1/32 in; 0.5 mm)."""
    value = sixteenths / 16 * IN
    shown = units.Show("us" if system == "us" else "si")(value, "m").replace(",", "")
    assert parse(shown, "length") == pytest.approx(value, abs=0.5e-3 + 1e-12)


def test_a_foreign_unit_is_read_by_the_library_and_marked() -> None:
    """Stone: 14 lb (UK Weights and Measures Act 1985, schedule 1)."""
    reading = units.read("3 stone", "mass")
    assert reading.foreign
    assert reading.value == pytest.approx(42 * LB, rel=1e-11)
    assert not units.read("42 lb", "mass").foreign


@pytest.mark.parametrize(
    "token", ["os.system('x')", "__import__", "(2)", "a**9**9", "kilogram**2", "second", "degC", "foo"]
)
def test_what_is_no_plain_unit_never_reads(token: str) -> None:
    with pytest.raises(UnitError):
        parse(f"3 {token}", "mass")


def test_the_usual_path_does_not_load_the_units_library() -> None:
    code = (
        "import sys; from generator.units import parse; parse('8 ft 6 in', 'length'); sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
