"""Weight-and-balance examples, each through the product's own sums (pounds and inches as plain numbers).

Sources: FAA AC 43.13-1B chapter 10 (figures named beside each); FAA-H-8083-25 and FAA-H-8083-1 (copies, page numbers
missing);
US Army TM 55-1510-215-10 table 6-1; TM 55-1500-342-23 para 2-7; a mechanic's practice test; a pilot-licence
question; a flight
school's problem sheet. Values marked MEM in a comment were not read, only recomputed.
"""

import numpy as np
import pytest

from generator.calc.sums import sums
from generator.calc.topics.masses import centre, state_masses
from generator.calc.trials import Trials
from generator.model.states import STATES, aboard
from generator.model.types import Item, Model
from generator.reference.load import reference

DATA = reference()


def items(rows):
    return tuple(
        Item(f"i{n}", "line", "shell", float(m), m, m, "sure", "measured", float(x), float(x), 0.0, 0.0, aboard("bare"))
        for n, (m, x) in enumerate(rows)
    )


def balance(rows):
    """Weight, moment and centre of a loading, from the product's sums of the travel state."""
    model = Model(None, STATES, items(rows), (), (0.0,))
    total = sums(model, Trials(count=0), DATA)
    fixed = total.states["travel"].fixed
    found = state_masses(model, total)["travel"]
    x = float(found.x.values[0])
    assert x == pytest.approx(float(centre("x", fixed, "mx").values[0]))
    return float(fixed.m[0]), float(fixed.mx[0]), x


EMPTY = [(1169, 10.6), (17, -49)]
"""Empty weight and oil ahead of the datum (a negative arm)."""

FIGURES = [
    ("AC 43.13-1B fig. 10-10", [*EMPTY, (170, 16), (83, 22)], 1439, 16104, 11.2),
    (
        "AC 43.13-1B fig. 10-11 (quotient recomputed)",
        [*EMPTY, (170, 16), (340, 48), (240, 22), (100, 75.5)],
        2036,
        43428,
        21.3,
    ),
    ("AC 43.13-1B fig. 10-14", [*EMPTY, (170, 16), (170, 48), (170, 16), (240, 22), (100, 75.5)], 2036, 37988, 18.7),
]


@pytest.mark.parametrize(("rows", "weight", "moment", "arm"), [f[1:] for f in FIGURES], ids=[f[0] for f in FIGURES])
def test_loading_examples(rows, weight, moment, arm):
    found = balance(rows)
    assert found[0] == weight
    assert found[1] == pytest.approx(moment, abs=0.5)
    assert found[2] == pytest.approx(arm, abs=0.05)


def test_fig_10_10_moments_line_by_line():
    rows = [*EMPTY, (170, 16), (83, 22)]
    assert [round(balance([r])[1]) for r in rows] == [12391, -833, 2720, 1826]


def test_a_print_that_is_wrong_is_not_followed():
    """AC 43.13-1B fig. 10-13 prints 2 100 lb, 38 466 lb-in (right) and CG +18.6 (wrong: 18.32)."""
    weight, moment, arm = balance([*EMPTY, (170, 16), (170, 16), (340, 48), (234, 22)])
    assert (weight, round(moment)) == (2100, 38466)
    assert arm == pytest.approx(18.32, abs=0.005)
    assert abs(arm - 18.6) > 0.2


def test_a_shift_of_load():
    """FAA-H-8083-25: 8 000 lb at 77.0; 100 lb from 30 to 150: moment +12 000 to 628 000, CG 78.5."""
    rest = (7900, (616_000 - 100 * 30) / 7900)
    before, after = balance([rest, (100, 30)]), balance([rest, (100, 150)])
    assert before[2] == pytest.approx(77.0)
    assert after[1] == pytest.approx(628_000)
    assert after[2] == pytest.approx(78.5)


def test_how_much_to_move():
    """FAA-H-8083-25: 7 800 lb at 81.5, limit 80.5, from 150 to 30: 65 lb."""
    rest = (7735, (7800 * 81.5 - 65 * 150) / 7735)
    assert balance([rest, (65, 30)])[2] == pytest.approx(80.5)


def test_added_load_divides_by_the_new_weight():
    """FAA-H-8083-25: 6 860 lb at 80.0, 140 lb at 150: 1.4 in aft, 81.4. Dividing by the old weight gives 1.43: the
    trap."""
    x = balance([(6860, 80.0), (140, 150)])[2]
    assert x == pytest.approx(81.4)
    assert x - 80.0 != pytest.approx(140 * 70 / 6860, abs=0.01)


def test_removed_load():
    """Same source (answer MEM): 6 100 lb at 80.0, 100 lb at 150 out: 1.2 in forward, 78.8."""
    rest = (6000, (6100 * 80.0 - 100 * 150) / 6000)
    assert balance([rest])[2] == pytest.approx(78.8, abs=0.05)


def test_two_scales():
    """FAA-H-8083-1: far support 340 lb at -78 in from the main axle, total 2 006 lb: CG -13.2; axle 128 aft of
    datum: 114.8 (MEM).
    The same task as a hitch scale and an axle scale."""
    x = balance([(1666, 0.0), (340, -78.0)])[2]
    assert x == pytest.approx(-13.2, abs=0.05)
    assert x + 128 == pytest.approx(114.8, abs=0.05)


@pytest.mark.parametrize(
    ("weight", "arm", "ballast", "at", "limit"),
    [
        (1876, 32.2, 7.7, 228, 33.0),  # FAA-H-8083-1, permanent ballast (answer MEM)
        (4954, 30.5, 57.16, 162, 32.0),  # mechanic's practice test
        (2222, 6.13, 136, 8.73, 6.28),  # pilot-licence question, kg and m: place of the ballast
    ],
)
def test_ballast_brings_the_centre_to_its_limit(weight, arm, ballast, at, limit):
    assert balance([(weight, arm), (ballast, at)])[2] == pytest.approx(limit, abs=0.0055)


def test_cargo_and_fuel():
    """TM 55-1510-215-10 table 6-1: operating 5 701 lb (830 132), cargo CG 184.0, gross 9 625 lb, 1 494 132 lb-in, CG
    155.2."""
    empty = (5701, 830_132 / 5701)
    cargo = [(600, 160), (600, 180), (600, 200), (200, 220)]
    fuel = [(741, 97_000 / 741), (1183, 199_000 / 1183)]
    assert balance([empty])[2] == pytest.approx(145.6, abs=0.05)
    assert balance(cargo)[2] == pytest.approx(184.0, abs=0.05)
    weight, moment, arm = balance([empty, *cargo, *fuel])
    assert (weight, round(moment)) == (9625, 1_494_132)
    assert arm == pytest.approx(155.2, abs=0.05)


def test_equal_moments():
    """TM 55-1500-342-23 para 2-7: 200 lb at 50 in against 100 lb at 100 in: 10 000 lb-in each."""
    assert balance([(200, 50)])[1] == balance([(100, 100)])[1] == pytest.approx(10_000)


@pytest.mark.parametrize(
    ("weight", "moved", "by", "shift"), [(2450, 100, 50, 2.04), (2700, 180, 32, 2.13), (3200, 192, 25, 1.5)]
)
def test_flight_school_shifts(weight, moved, by, shift):
    """Problem sheet: d = w d/W."""
    before = balance([(weight - moved, 10.0), (moved, 20.0)])[2]
    assert balance([(weight - moved, 10.0), (moved, 20.0 + by)])[2] - before == pytest.approx(shift, abs=0.005)


def test_weight_shift_answer_on_the_web_is_wrong():
    """4 700 lb at 97, 80 lb from 142 to 44: printed 94.77, right is 95.33."""
    rest = (4620, (4700 * 97 - 80 * 142) / 4620)
    assert balance([rest, (80, 44)])[2] == pytest.approx(95.33, abs=0.005)


def test_centre_of_balance_for_air_transport():
    """Military air-shipment marking (procedure read, quotients MEM): 250 lb at 15 and 2 250 at 102 over 2 500 lb: 93
    in; three axles
    70/222/276 in: 7 244 000 lb-in, 190 in."""
    assert round(balance([(250, 15), (2250, 102)])[2]) == 93
    weight, moment, x = balance([(12_500, 70), (12_900, 222), (12_700, 276)])
    assert (weight, moment) == (38_100, pytest.approx(7_244_000, abs=5000))
    assert round(x) == 190


def test_lateral_centre_of_a_cart_on_three_wheels():
    """103 kg cart, wheels 541.52, 128.50 and 339.38 N (g 9.8; question with solution): the readings give back the
    centre that the
    product finds from them along and across."""
    readings = [(541.52, 0.0, 0.0), (128.50, -0.540, 1.165), (339.38, 0.515, 1.165)]
    rows = tuple(
        Item(f"w{n}", "wheel", "shell", f / 9.8, 0, 0, "sure", "measured", x, x, y, 0.0, aboard("bare"))
        for n, (f, y, x) in enumerate(readings)
    )
    found = state_masses(
        Model(None, STATES, rows, (), (0.0,)), sums(Model(None, STATES, rows, (), (0.0,)), Trials(count=0), DATA)
    )
    at = found["travel"]
    assert float(at.mass.values[0]) == pytest.approx(103.0, abs=0.01)
    assert float(at.x.values[0]) == pytest.approx(np.dot([128.50, 339.38], [1.165, 1.165]) / 1009.4, rel=1e-3)
    assert float(at.y.values[0]) == pytest.approx((339.38 * 0.515 - 128.50 * 0.540) / 1009.4, rel=1e-3)
