"""The lateral chain and the width limits."""

import pytest
import scratch

from generator.calc.record import Missing
from generator.calc.topics.lateral import lateral
from generator.calc.trials import Trials
from generator.model.resolve import resolve


def found(**changes):
    return lateral(resolve(scratch.spec(**changes), scratch.DATA), Trials(count=0), scratch.DATA)


def check(of, id):
    return next(c for c in of.findings.checks if c.id == id)


def test_track_is_hub_faces_less_twice_an_outboard_offset():
    """Common practice, no source: a mounting face outboard of the rim's middle brings the tyres together."""
    of = found(trailer={"running_gear.wheel.offset": "10 mm"})
    values = {q.id: q.nominal for q in of.findings.quantities}
    assert values["width.track"] == pytest.approx(2.08)
    assert values["width.tyres"] == pytest.approx(2.08 + 0.235)
    assert values["tyre.rail_gap"] == pytest.approx((2.08 - 0.235 - 1.702) / 2)


def test_the_chain_adds_up_across_the_widest_axle():
    of = found(trailer={"running_gear.axles.1": scratch.axle(hub_face="2.2 m")})
    assert sum(s.value for s in of.chain.steps) == pytest.approx(of.chain.total)
    assert of.chain.total == pytest.approx(2.435)


def test_the_narrowest_axle_sets_the_gap_to_the_rail():
    of = found(trailer={"running_gear.axles.1": scratch.axle(hub_face="2.2 m")})
    assert check(of, "tyre.rail_gap").outcome.demand.value == pytest.approx((2.1 - 0.235 - 1.702) / 2)


def test_a_house_wider_than_the_route_allows_fails():
    assert check(found(), "width.house").status != "fail"
    assert check(found(house={"width": "2700 mm"}), "width.house").status == "fail"


def test_tyres_of_neighbouring_axles_need_room():
    assert check(found(), "tyre.gap").status == "pass"
    assert check(found(trailer={"running_gear.spacing": "800 mm"}), "tyre.gap").status == "fail"


def test_one_axle_has_no_neighbour():
    of = found(trailer={"running_gear.axles": [scratch.axle()]})
    assert "tyre.gap" not in {c.id for c in of.findings.checks}


def test_a_diameter_that_does_not_fit_the_size_mark_is_found():
    assert check(found(), "tyre.diameter").status == "pass"
    assert check(found(trailer={"running_gear.tyre.diameter": "720 mm"}), "tyre.diameter").status == "fail"
    unmarked = found(trailer={"running_gear.tyre.size": "7.50-16LT"})
    assert isinstance(check(unmarked, "tyre.diameter").outcome, Missing)


def test_unknown_section_width_passes_nothing():
    of = found(trailer={"running_gear.tyre.section_width": "unknown"})
    assert {check(of, id).status for id in ("width.tyres", "tyre.rail_gap", "box.1.side")} == {"not assessed"}
