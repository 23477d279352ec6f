"""The neck window against an independent hand program, its changes, gaps, coupler holes and turning room."""

from dataclasses import replace

import numpy as np
import pytest
import scratch

from generator.calc.record import Missing, Working, sure
from generator.calc.sums import sums
from generator.calc.topics import neck_window as nw
from generator.calc.topics.axles import level_loads
from generator.calc.topics.heights import heights
from generator.calc.topics.masses import state_masses
from generator.calc.topics.neck import neck
from generator.calc.topics.rides import nearest_hole, rides
from generator.calc.trials import Trials
from generator.model.resolve import resolve

STILL = Trials(count=0)


def under(**more):
    """Rail 1.4732 m, gap 0.1524 m kept while pitching 5 and rolling 2 degrees, rails 0.95 m ahead and 1.30 m behind."""
    given = {
        "rail": 1.4732,
        "gap": 0.0,
        "kept": 0.1524,
        "ahead": 0.95,
        "behind": 1.30,
        "pitch": np.radians(5.0),
        "half": 0.80,
        "roll": np.radians(2.0),
        "ball": 1.0,
        "shortest": 0.0,
        "longest": 2.0,
    } | more
    return nw.Under(
        **{name: sure(name, value, "rad" if name in ("pitch", "roll") else "m") for name, value in given.items()}
    )


def over(**more):
    """Limit 4.1148 m, margin 2 in, rise 30 mm, roof 6 in, headroom 1.93 m, floor 60 mm, frame 120 mm."""
    given = {
        "limit": 4.1148,
        "margin": 0.0508,
        "rise": 0.030,
        "roof": 0.1524,
        "room": 1.93,
        "floor": 0.06,
        "depth": 0.12,
    } | more
    return nw.Over("loft", "Loft", **{name: sure(name, value, "m") for name, value in given.items()})


def lever(field, bound, zone=""):
    return nw.Lever(field, field, "rad" if field in ("pitch", "roll") else "m", field, bound, zone)


def opened(lever, **more):
    changes = nw.opening_changes(under(), (over(**more),), (lever,))
    return changes[0] if changes else None


def test_window_of_three_intervals():
    """Independent hand program: low 1.7673, high 1.7716, slack +0.0043281."""
    found = nw.ends(Working(), under(), (over(),))
    low, high = found.low.values[0], found.high.values[0]
    assert low == pytest.approx(1.7673, abs=5e-5)
    assert high == pytest.approx(1.7716, abs=5e-5)
    assert high - low == pytest.approx(0.0043281, abs=5e-8)
    assert found.closed_by_low == "the gap kept over the bed rails when the trailer pitches and rolls"
    assert found.closed_by_high == "the height limit over Loft"
    assert nw.opening_changes(under(), (over(),), (lever("kept", 0.0),)) == ()


@pytest.mark.parametrize(
    ("field", "bound", "zone", "by"),
    [
        ("rail", 1.2, "", -0.015672),
        ("kept", 0.0, "", -0.015672),
        ("limit", 4.5, "*", 0.015672),
        ("margin", 0.0, "*", -0.015672),
        ("rise", 0.0, "loft", -0.015672),
        ("roof", 0.05, "loft", -0.015672),
        ("room", 1.5, "loft", -0.015672),
        ("floor", 0.0, "loft", -0.015672),
        ("depth", 0.05, "*", -0.015672),
        ("behind", 0.0, "", 1.1209 - 1.30),
    ],
)
def test_each_input_alone_that_opens_an_empty_window(field, bound, zone, by):
    """Independent hand program: headroom 1.95 m leaves -0.015672 m; any length alone, or 1.1209 m of rail behind."""
    change = opened(lever(field, bound, zone), room=1.95)
    assert change.then.value - change.now.value == pytest.approx(by, abs=5e-5 if field == "behind" else 6e-7)
    assert change.upsets == ()


def test_the_pitch_that_opens_an_empty_window():
    """Independent hand program: 4.3138 degrees at headroom 1.95 m, 0.70794 degrees at 2.032 m."""
    assert np.degrees(opened(lever("pitch", 0.0), room=1.95).then.value) == pytest.approx(4.3138, abs=6e-5)
    assert np.degrees(opened(lever("pitch", 0.0), room=2.032).then.value) == pytest.approx(0.70794, abs=6e-6)


@pytest.mark.parametrize("field", ["roll", "behind"])
def test_what_cannot_open_it_alone_says_so(field):
    """Independent hand program: slack -0.097672 m; roll would need -4.98 degrees, the rail gains 0.030621 m at most."""
    change = opened(lever(field, 0.0), room=2.032)
    assert change.upsets == ("not enough alone",)
    gain = nw.Inputs(replace(under(), behind=sure("d_a", 0.0, "m")), (over(room=2.032),)).slack + 0.097672
    assert field != "behind" or gain == pytest.approx(0.030621, abs=1e-6)


def test_a_change_put_back_leaves_no_slack():
    for one in (lever("rail", 1.2), lever("pitch", 0.0), lever("room", 1.5, "loft")):
        shut = nw.Inputs(under(), (over(room=1.95),))
        change = nw.opening_changes(shut.under, shut.overs, (one,))[0]
        assert shut.put(one, change.then.value).slack == pytest.approx(0.0, abs=1e-12)


def test_an_input_that_closes_nothing_is_not_offered():
    assert opened(lever("longest", 5.0), room=1.95) is None


def test_changes_are_ranked_by_the_share_of_their_range():
    changes = nw.opening_changes(
        under(), (over(room=1.95),), (lever("roll", 0.0), lever("rail", 1.0), lever("kept", 0.0))
    )
    shares = [
        abs(c.then.value - c.now.value) / {"roll": c.now.value, "rail": 0.4732, "kept": 0.1524}[c.lever]
        for c in changes
    ]
    assert shares == sorted(shares)


def test_tangent_loss_is_on_the_safe_side_of_the_exact_turn():
    """Exact rotation about the pin, rail 1.30 m away, underside 0.25 m above the pin, 5 degrees: 0.11278 m."""
    phi, d, v = np.radians(5.0), 1.30, 0.25
    exact = d * np.tan(phi) - v * (1 / np.cos(phi) - 1)
    assert exact == pytest.approx(0.11278, abs=5e-6)
    tangent = nw.LOW_MOVING.of(z_b=0.0, kept=0.0, d=d, phi=phi, w_r=0.0, rho=0.0)
    assert tangent == pytest.approx(0.11374, abs=5e-6)
    assert tangent > exact


def test_coupler_interval():
    """Independent hand program: ball 1.245 m, extension 0.42 to 0.56 m."""
    assert nw.COUPLER_END.of(z_ball=1.245, c=np.array([0.42, 0.56])) == pytest.approx([1.665, 1.805])


@pytest.mark.parametrize(
    ("wanted", "hole"), [(0.50, 0.50), (0.512, 0.50), (0.513, 0.525), (0.2, 0.50), (0.9, 0.80), (0.79, 0.80)]
)
def test_nearest_hole(wanted, hole):
    assert nearest_hole(np.array([wanted]), 0.50, 0.80, 0.025)[0] == pytest.approx(hole)


def found(**changes):
    model = resolve(scratch.spec(**changes), scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, STILL, scratch.DATA)), STILL, scratch.DATA)
    ride = rides(model, loads, STILL, scratch.DATA)
    return neck(model, ride, STILL, scratch.DATA), heights(model, ride, STILL, scratch.DATA)


def status(of, id):
    return next(c.status for c in of.findings.checks if c.id == id)


def test_a_neck_that_passes_its_window_passes_gaps_and_coupler():
    of, _ = found()
    assert {
        status(of, f"neck.{id}") for id in ("rail_gap.level", "rail_gap.pitched", "rail_gap.rolled", "coupler")
    } == {"pass"}
    window = of.findings.windows[0]
    assert window.low <= window.chosen <= window.high
    assert of.record.chosen == window.chosen


def test_a_neck_on_the_upper_end_of_its_window_puts_the_roof_on_the_limit_less_the_margin():
    """Substituting the end back: what the window promises the height check must find."""
    long = {"coupling.adjust_high": "2 m"}
    of, _ = found(trailer=long)
    window = of.findings.windows[0]
    assert "height limit" in window.closed_by_high
    raise_by = window.high - window.chosen - 1e-6
    neck_up = {"neck.underside": f"{1000 + 1000 * raise_by:.6f} mm"}
    zone = next(z for z in scratch.HOUSE["zones"] if z["front"].startswith("-"))
    n = scratch.HOUSE["zones"].index(zone)
    up = {
        f"zones.{n}.{key}": f"{float(zone[key].split()[0]) + 1000 * raise_by:.6f} mm"
        for key in ("floor", "ceiling", "roof")
    }
    lifted, high = found(trailer=long | neck_up, house=up)
    assert status(lifted, "neck.window") == "pass"
    spare = next(c for c in high.findings.checks if c.id == "height.margin").outcome
    wanted = float(zone["headroom"].split()[0]) - (float(zone["ceiling"].split()[0]) - float(zone["floor"].split()[0]))
    assert spare.limit.value - spare.demand.value == pytest.approx(wanted / 1000, abs=2e-5)


def test_a_low_neck_fails_and_is_told_the_height_that_works():
    of, _ = found(trailer={"neck.underside": "800 mm"})
    check = next(c for c in of.findings.checks if c.id == "neck.window")
    assert check.status == "fail"
    window = of.findings.windows[0]
    step = (check.changes[0].then.value - 0.8) + window.chosen
    assert window.low <= step <= window.high
    assert status(of, "neck.rail_gap.level") == "fail"


def test_without_a_tow_vehicle_every_check_is_there_and_none_is_assessed():
    with_tow, _ = found()
    of, _ = found(with_tow=False)
    assert [c.id for c in of.findings.checks] == [c.id for c in with_tow.findings.checks]
    assert {c.status for c in of.findings.checks} == {"not assessed"}
    assert all("tow.yaml" in c.outcome.inputs for c in of.findings.checks if isinstance(c.outcome, Missing))
    assert of.record is None
    assert "tow.yaml" in of.findings.windows[0].closed_by_low


def test_an_unknown_bed_rail_names_itself():
    of, _ = found(tow={"vehicle.bed_rail": "unknown"})
    outcome = next(c for c in of.findings.checks if c.id == "neck.rail_gap.level").outcome
    assert outcome.inputs == ("tow.yaml vehicle.bed_rail",)
    assert status(of, "neck.coupler") == "pass"


def test_a_nose_over_the_cab_roof_never_strikes_and_a_bed_end_past_the_riser_does():
    of, _ = found(
        tow={"vehicle.cab_height": "1500 mm", "vehicle.ball_to_cab": "700 mm", "vehicle.ball_to_bed_end": "2250 mm"}
    )
    assert status(of, "cab.strike") == "pass"
    assert status(of, "neck.tailgate") == "fail"
    blocked, _ = found(tow={"vehicle.ball_to_cab": "700 mm"})
    assert status(blocked, "cab.strike") == "fail"


def test_a_bare_neck_is_closed_by_rail_and_coupler_alone():
    main = [z for z in scratch.HOUSE["zones"] if not z["front"].startswith("-")]
    of, _ = found(house={"zones": main})
    window = of.findings.windows[0]
    assert window.closed_by_high == "the coupler, fully extended"
    assert np.isnan(of.record.high_limit)
    short, _ = found(house={"zones": main}, tow={"vehicle.bed_rail": "1900 mm"})
    assert status(short, "neck.window") == "fail"
    assert short.findings.windows[0].changes


def test_a_zone_whose_front_is_unknown_may_stand_on_the_neck():
    loft = next(n for n, z in enumerate(scratch.HOUSE["zones"]) if z["front"].startswith("-"))
    of, _ = found(house={f"zones.{loft}.front": "unknown"})
    assert status(of, "neck.window") == "not assessed"
