"""Ground clearance, departure, breakover, tail and roof on a ramp, on the scratch design."""

from math import atan, degrees, radians, sin, tan

import pytest
import scratch
from underway_sample import found, worked

LAST, GROUP = 6.6, 5.7


def low(id, station, height, wears="no"):
    return {"id": id, "title": id.title(), "station": station, "height": height, "wears": wears}


def lowest_by_hand(model, ride, x, zeta):
    """Least height over all towed states and both ball errors, by a loop of plain arithmetic."""
    x_h = model.spec.trailer.coupling.station.nominal
    return min(
        float(r.deck.values[0] + r.errors[s].values[0] - (x - x_h) * r.pitches[s].values[0] + zeta)
        for r in ride.values()
        for s in (0, 1)
    )


def test_departure_by_hand():
    """The lowest thing behind the last tyre that is also furthest back is the end of the rail."""
    quantities, checks = found(scratch.spec())
    model, _, ride = worked(scratch.spec())
    rail = next(p for p in model.pieces if p.mark == "r1")
    height = lowest_by_hand(model, ride, 9.0, rail.z0)
    assert quantities["ends.departure"].nominal == pytest.approx(atan(height / (9.0 - LAST)))
    assert "Main rail" in quantities["ends.departure"].title
    assert quantities["ends.tail_room"].nominal == pytest.approx(height - 2.4 * tan(radians(7.0)))
    assert checks["ends.departure"].outcome.limit.value == pytest.approx(radians(7.0))


def test_what_hangs_lower_is_named_and_governs():
    quantities, checks = found(scratch.spec(trailer={"low_points": [low("dump", "8 m", "-620 mm")]}))
    model, _, ride = worked(scratch.spec())
    height = lowest_by_hand(model, ride, 8.0, -0.62)
    assert quantities["ends.departure"].title.endswith("Dump")
    assert quantities["ends.clearance"].title.endswith("Dump")
    assert quantities["ends.clearance"].nominal == pytest.approx(height)
    assert checks["ends.clearance"].status == "fail"
    assert checks["ends.departure"].outcome.demand.value == pytest.approx(atan(height / (8.0 - LAST)))


def test_a_skid_may_touch_and_lifts_what_is_behind_it():
    steep = {"use.ramp_break": "14 deg"}
    assert found(scratch.spec(project=steep))[1]["ends.departure"].status == "fail"
    skid = low("skid", "8950 mm", "-500 mm", "yes")
    quantities, checks = found(scratch.spec(project=steep, trailer={"low_points": [skid]}))
    assert checks["ends.departure"].status == "pass"
    assert "Skid" not in quantities["ends.clearance"].title
    short = low("skid", "7 m", "-230 mm", "yes")
    assert found(scratch.spec(project=steep, trailer={"low_points": [short]}))[1]["ends.departure"].status == "fail"


def test_breakover_by_hand():
    quantities, _ = found(scratch.spec(trailer={"low_points": [low("step", "1 m", "-500 mm")]}))
    model, _, ride = worked(scratch.spec())
    height = lowest_by_hand(model, ride, 1.0, -0.5)
    tow_axle = -2.3 + 0.05
    expected = atan(height / (1.0 - tow_axle)) + atan(height / (GROUP - 1.0))
    assert quantities["ends.breakover"].title.endswith("Step")
    assert quantities["ends.breakover"].nominal == pytest.approx(expected)


def test_a_long_rail_grounds_between_its_ends():
    """Nothing but the rail: the crest that touches it stands near the middle between the wheels."""
    quantities, _ = found(scratch.spec())
    model, _, ride = worked(scratch.spec())
    rail = next(p for p in model.pieces if p.mark == "r1")
    middle = (-2.25 + GROUP) / 2
    height = lowest_by_hand(model, ride, middle, rail.z0)
    assert quantities["ends.breakover"].nominal == pytest.approx(2 * atan(height / (GROUP - middle)), rel=5e-3)


def test_without_a_tow_vehicle_breakover_names_the_file():
    outcome = found(scratch.spec(with_tow=False))[1]["ends.breakover"].outcome
    assert outcome.inputs == ("tow.yaml",)


def test_nothing_behind_the_last_tyre_departs_freely():
    members = [m | ({"end": "6 m"} if m["mark"] == "r1" else {}) for m in scratch.TRAILER["frame"]["members"]]
    members[1] = members[1] | {"stations": ["1 m", "3 m"]}
    _, checks = found(scratch.spec(trailer={"frame.members": members}))
    assert degrees(checks["ends.departure"].outcome.demand.value) == pytest.approx(90.0)


def test_an_unknown_low_point_is_never_passed_over():
    point = low("tank", "8 m", "unknown")
    _, checks = found(scratch.spec(trailer={"low_points": [point]}))
    for id in ("ends.clearance", "ends.departure"):
        assert checks[id].status == "not assessed"
        assert checks[id].outcome.inputs == ("trailer.yaml low_points.tank.height",)


def test_unknown_steel_is_named_by_its_mark():
    members = [m | ({"end": "unknown"} if m["mark"] == "r1" else {}) for m in scratch.TRAILER["frame"]["members"]]
    _, checks = found(scratch.spec(trailer={"frame.members": members}))
    assert "trailer.yaml frame.members.r1" in checks["ends.departure"].outcome.inputs


def test_jack_foot_and_drain_outlet_count():
    from parked_sample import DRAIN, NOSE

    nose = NOSE | {"foot_clearance": "60 mm"}
    assert "Nose jack" in found(scratch.spec(trailer={"jacks": [nose]}))[0]["ends.clearance"].title
    drain = DRAIN | {"height": "-560 mm"}
    quantities, _ = found(scratch.spec(house={"drains": [drain]}))
    model, _, ride = worked(scratch.spec())
    outlet = lowest_by_hand(model, ride, 8.5, -0.56 - 4.5 / 48)
    assert quantities["ends.clearance"].nominal == pytest.approx(outlet)


def test_ferries_ask_for_a_sharper_break():
    _, checks = found(scratch.spec(project={"use.roads": ["paved", "ferry"]}))
    assert checks["ends.departure"].outcome.limit.value == pytest.approx(radians(10.0))


def test_roof_on_a_ramp_is_the_corner_furthest_from_the_axles():
    quantities, checks = found(scratch.spec(project={"use.ramp_break": "8 deg"}))
    assert "Loft, roof, front end" in quantities["ends.roof_ramp"].title
    assert "ends.roof_ramp" not in checks
    level = found(scratch.spec(project={"use.ramp_break": "0.001 deg"}))[0]["ends.roof_ramp"].nominal
    raised = quantities["ends.roof_ramp"].nominal
    assert raised == pytest.approx(level + 8.4 * sin(radians(8.0)), abs=0.05)
    _, checks = found(scratch.spec(project={"use.ramp_break": "8 deg", "use.lowest_clearance": f"{raised - 0.01} m"}))
    assert checks["ends.roof_ramp"].status == "fail"


def test_rules_of_two_regions():
    """Rear overhang 3.7 m in Australia and 4 m in New Zealand, 100 mm under the frame near the axles in Australia."""
    assert "ends.overhang" not in found(scratch.spec())[1]
    _, au = found(scratch.spec(project={"use.regions": ["AU"]}, house={"rear": "9450 mm"}))
    assert (au["ends.overhang"].status, au["ends.overhang"].outcome.limit.value) == ("fail", 3.7)
    assert au["ends.clearance_axles"].outcome.limit.value == 0.1
    _, nz = found(scratch.spec(project={"use.regions": ["NZ"]}, house={"rear": "9450 mm"}))
    assert (nz["ends.overhang"].status, nz["ends.overhang"].outcome.limit.value) == ("pass", 4.0)
