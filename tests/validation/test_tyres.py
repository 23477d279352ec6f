"""Tyres and axles, facts of the trade (common practice, no source), through the whole calculation on an invented
tandem: two 7 000 lb axles, a 14 000 lb trailer; and axles that do not share, by closed form.
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from generator.calc.record import Working, sure
from generator.calc.run import work
from generator.calc.topics.attitude import SEAT_LOAD
from generator.calc.topics.axles import SHARING_AXLE
from generator.calc.topics.suspension import AXLE_RATE, WHEEL_RATE
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.measure import Measure
from generator.spec.read import read_spec

POUND, INCH = 0.45359237, 0.0254
HERON = Path(__file__).resolve().parents[2] / "specs" / "heron"


def mass(pounds):
    kg = pounds * POUND
    return Measure(kg, kg, kg, "sure", "mass")


@pytest.fixture(scope="module")
def heron():
    return read_spec(HERON)


def tandem(spec, tyre, kind="trailer"):
    """The example design on two 7 000 lb axles with tyres of `tyre` lb, worked at nominal values."""
    gear = spec.trailer.running_gear
    axles = tuple(a.model_copy(update={"rating": mass(7000.0), "hub_rating": mass(7000.0)}) for a in gear.axles[:2])
    tyre = gear.tyre.model_copy(update={"load": mass(tyre), "kind": kind})
    gear = gear.model_copy(update={"axles": axles, "tyre": tyre})
    changed = replace(spec, trailer=spec.trailer.model_copy(update={"running_gear": gear}))
    data = reference()
    worked = work(resolve(changed, data), data, Trials(count=0))
    return {c.id: c for c in worked.checks}, worked.ratings.rows


def test_tyres_of_3250_lb_make_a_6500_lb_axle(heron):
    checks, rows = tandem(heron, 3250.0)
    for n, row in enumerate(rows, start=1):
        assert row.governing == "tyres"
        assert row.capacity / POUND == pytest.approx(6500.0)
        assert checks[f"tyre.{n}.axle_rating"].status == "fail"
    together = sum(r.capacity for r in rows) / POUND
    assert together == pytest.approx(13000.0)
    assert together < 14000.0 == pytest.approx(sum(r.parts[0][1] for r in rows) / POUND)


def test_tyres_of_3750_lb_cure_it(heron):
    checks, rows = tandem(heron, 3750.0)
    for n, row in enumerate(rows, start=1):
        assert row.governing != "tyres"
        assert row.capacity / POUND == pytest.approx(7000.0)
        assert checks[f"tyre.{n}.axle_rating"].status == "pass"


def test_passenger_tyres_count_for_less(heron):
    """49 CFR 571.120 S5.1.2: a passenger-car tyre on a trailer counts for its load divided by 1.10."""
    _, rows = tandem(heron, 3250.0, "passenger")
    assert dict(rows[0].parts)["tyres"] / POUND == pytest.approx(5909.1, abs=0.05)


def rate(rating, unsprung=350.0):
    """Rate of a torsion axle (N/m) with 6 in arms near its rated load, on tyres of 2 600 lb/in."""
    w = Working()
    wheel = w(WHEEL_RATE, s=sure("s", 1.0, "1"), G_i=sure("G_i", rating * POUND, "kg"),
              U_i=sure("U_i", unsprung * POUND, "kg"), turn=sure("turn", np.radians(22.5), "rad"),
              R=sure("R", 6 * INCH, "m"), alpha=sure("alpha", 0.0, "rad"))
    tyre = sure("k_t", 2607 * POUND * 9.80665 / INCH, "N/m:spring")
    return w(AXLE_RATE, k_w=wheel, k_t=tyre)


def test_axles_that_do_not_share_can_put_9000_lb_on_an_8000_lb_axle():
    """A 14 000 lb trailer, 12 000 lb on two 8 000 lb axles: level they carry 6 000 lb each. One axle crossing a hump
    of some 3 in, the other over level ground, carries over 9 000 lb; axles on rockers would still carry 6 000 lb each.
    """
    k, level = rate(8000.0), 6000.0
    arms = [20.0, 20.9]
    turning = sure("S_2", sum(float(k.values[0]) * u**2 for u in arms), "N*m")
    hump, arm = sure("delta", 3.25 * INCH, "m"), sure("u_i", arms[1], "m")
    more = Working()(SEAT_LOAD, k_i=k, delta=hump, u_i=arm, S_2=turning)
    assert level + more.values[0] / POUND > 9000.0
    sharing = Working()(SHARING_AXLE, A=sure("A", 12000.0, "kg"), U=sure("U", 700.0, "kg"), n=sure("n", 2.0, "1"),
                        U_i=sure("U_i", 350.0, "kg"))
    assert sharing.values[0] == pytest.approx(level)


def test_rate_of_a_torsion_axle_against_a_published_arm_table():
    """Published table of 6 in arms (vendor not named): 2.296 in from no load to full at 22.5 degrees, so a 3 500 lb
    axle has a secant rate of 1 524 lb/in; the tangent of the same law at a level arm is sin(22.5)/0.3927 of it.
    """
    w = Working()
    wheel = w(WHEEL_RATE, s=sure("s", 1.0, "1"), G_i=sure("G_i", 3500 * POUND, "kg"), U_i=sure("U_i", 0.0, "kg"),
              turn=sure("turn", np.radians(22.5), "rad"), R=sure("R", 6 * INCH, "m"), alpha=sure("alpha", 0.0, "rad"))
    tangent = 2 * wheel.values[0] * INCH / (POUND * 9.80665)
    assert tangent / (np.sin(np.radians(22.5)) / np.radians(22.5)) == pytest.approx(1524.0, abs=0.5)
