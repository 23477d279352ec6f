"""Turning and gates on the scratch design: hitch at -2.3 m, axle group at 5.7 m, 8 m between them."""

from math import asin, atan, hypot, sqrt

import pytest
import scratch
from underway_sample import found

RADIUS = {"use.tightest_turn": "10 m"}
PATH = 6.0


def site(**more):
    return scratch.SITE | more


def test_a_six_eight_ten_triangle():
    quantities, checks = found(scratch.spec(project=RADIUS))
    value = {i: q.nominal for i, q in quantities.items()}
    assert value["access.cut_in"] == pytest.approx(4.0)
    assert value["access.yaw"] == pytest.approx(asin(0.8))
    assert value["access.scrub"] == pytest.approx(atan(0.9 / PATH))
    assert value["access.tail_swing"] == pytest.approx(hypot(PATH + 1.275, 3.3) - PATH - 1.275)
    assert value["access.swept"] == pytest.approx(hypot(PATH + 1.275, 8.4) - (PATH - 1.275))
    assert value["access.off_tracking"] == pytest.approx(10.0 - sqrt(100.0 - 4.4**2 + 0.05**2 - 64.0))
    assert checks["access.turn"].status == "pass"


def test_default_turn_stands_in_the_register():
    _, checks = found(scratch.spec())
    assert "access.turn" in checks["access.gate"].outcome.rests_on
    assert checks["access.turn"].outcome.demand.value == pytest.approx(40 * 0.3048)


def test_a_turn_shorter_than_the_trailer_fails():
    quantities, checks = found(scratch.spec(project={"use.tightest_turn": "7 m"}))
    assert checks["access.turn"].status == "fail"
    assert quantities["access.cut_in"].nominal == pytest.approx(7.0)
    assert checks["access.gate"].status == "fail"


def test_gate_turning_and_straight():
    need = 2.55 + 4.0 + 0.6096
    _, turning = found(scratch.spec(project=RADIUS, site=site(gate_width="4 m")))
    assert turning["access.gate"].outcome.limit.value == pytest.approx(need)
    assert turning["access.gate"].status == "fail"
    _, straight = found(scratch.spec(project=RADIUS, site=site(gate_width="4 m", gate_passed="straight")))
    assert straight["access.gate"].status == "pass"
    assert straight["access.gate"].outcome.limit.value == pytest.approx(2.55 + 0.6096)


def test_named_changes_clear_the_gate_and_a_step_less_does_not():
    narrow = site(gate_width="4 m")
    gate = found(scratch.spec(project=RADIUS, site=narrow))[1]["access.gate"]
    changes = {c.lever: c.then.value for c in gate.changes}
    assert set(changes) == {"site.gate_width", "project.use.tightest_turn"}

    def status(radius, gate):
        spec = scratch.spec(project={"use.tightest_turn": f"{radius} m"}, site=site(gate_width=f"{gate} m"))
        return found(spec)[1]["access.gate"].status

    wide, easy = changes["site.gate_width"], changes["project.use.tightest_turn"]
    assert (status(10.0, round(wide, 6)), status(10.0, round(wide - 0.1, 6))) == ("pass", "fail")
    assert (status(round(easy, 6), 4.0), status(round(easy - 0.1, 6), 4.0)) == ("pass", "fail")


def test_a_gate_narrower_than_the_house_needs_a_wider_gate_only():
    _, checks = found(scratch.spec(project=RADIUS, site=site(gate_width="2.5 m")))
    assert [c.lever for c in checks["access.gate"].changes] == ["site.gate_width"]


def test_without_a_site_the_gate_is_not_assessed():
    _, checks = found(scratch.spec(site=None))
    assert checks["access.gate"].outcome.inputs == ("site.yaml",)


def test_one_axle_does_not_scrub():
    quantities, _ = found(scratch.spec(trailer={"running_gear.axles": [scratch.axle(rating="9000 kg")]}))
    assert quantities["access.scrub"].nominal == 0.0
