"""Jacks against an independent hand program, and what the topic makes of a design without tow vehicle or site."""

import numpy as np
import pytest
import scratch

from generator.calc.record import Missing
from generator.calc.sums import sums
from generator.calc.topics import jack_drive as jd
from generator.calc.topics import jack_loads as jl
from generator.calc.topics import jacks as jk
from generator.calc.topics.axles import level_loads
from generator.calc.topics.jack_rig import Rig
from generator.calc.topics.masses import state_masses
from generator.calc.topics.rides import rides
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.resolve import resolve

STILL = Trials(count=0)
SCREW = {
    "lead": "5 mm",
    "pitch_diameter": "26.2 mm",
    "collar_diameter": "36 mm",
    "thread_friction": "0.15",
    "collar_friction": "0.10",
    "gear": "4",
    "gear_efficiency": "0.9",
    "crank": "250 mm",
}
MOTOR = {
    "voltage": "12 V",
    "current": "60 A",
    "speed": "3 mm/s",
    "duty": "4 min",
    "cable_length": "6 m",
    "cable_area": "25 mm2",
    "cable_ampacity": "120 A",
}
NOSE = {
    "id": "nose",
    "title": "Nose jacks",
    "station": "300 mm",
    "y": "950 mm",
    "legs": "2",
    "drive": "shared shaft",
    "lift_rating": "3000 kg",
    "static_rating": "4500 kg",
    "stroke": "450 mm",
    "foot_clearance": "250 mm",
    "block": "90 mm",
    "screw": SCREW,
}


def column(*values):
    return np.array(values)[:, None]


def triple():
    """6 200 kg at 4.60 m and 90 kg moving with three axles at 5.2, 6.1, 7.0 m of 260 kN/m and 160 kg; sprung centre
    0.90 m above the spindles; ball at -2.30 m, level."""
    mass, centre = 6290.0, (6200.0 * 4.60 + 90.0 * 6.10) / 6290.0
    sunk = (6200.0 * 6.90 + 90.0 * 8.40) / 8.40 * G / 780e3
    return Rig(
        np.array([5.2, 6.1, 7.0]),
        column(*[260e3] * 3),
        column(*[160 * G] * 3),
        np.array([sunk]),
        np.array([mass * G]),
        np.array([centre]),
        np.array([0.90]),
    )


def single(rate=1e9):
    """4 420 kg at 3.1665 m on one stiff axle at 3.80 m; ball at -1.40 m; centre 1.19 m above the spindles."""
    carried = 4420.0 * (3.1665 + 1.4) / 5.2
    return Rig(
        np.array([3.8]),
        column(rate),
        column(0.0),
        np.array([carried * G / rate]),
        np.array([4420.0 * G]),
        np.array([3.1665]),
        np.array([1.19]),
    )


@pytest.mark.parametrize(
    ("rise", "load", "axles"),
    [
        (0.0, 1471.9, None),
        (0.10, 1564.7, (1378.1, 1735.1, 2092.1)),
        (0.30, 1750.4, (567.56, 1673.2, 2778.8)),
        (0.45, 1881.6, (0.0, 1611.7, 3276.7)),
    ],
)
def test_jack_load_grows_as_torsion_axles_are_lifted(rise, load, axles):
    """Independent hand program, jack at -0.20 m; at 0.45 m the first wheel hangs."""
    held = triple().held(-0.20, np.array([rise]))
    assert held.jack[0] / G == pytest.approx(load, abs=0.06)
    assert axles is None or held.axles[:, 0] / G == pytest.approx(axles, abs=0.06)


def test_pitch_and_rise_at_the_ball_while_lifting():
    """Independent hand program: 2.6548 degrees at a rise of 0.30 m; the ball comes up 0.13142 m for 0.10 m."""
    rig = triple()
    assert np.degrees(rig.held(-0.20, np.array([0.30])).pitch[0]) == pytest.approx(2.6548, abs=6e-5)
    assert rig.rise_for(-0.20, -2.30, np.array([0.13142]))[0] == pytest.approx(0.10, abs=1e-5)


def test_bisection_agrees_with_the_closed_form_while_all_wheels_stand():
    rig, rise = triple(), np.array([0.17])
    assert rig._bisect(-0.20, rise)[0] == pytest.approx(rig._pitch(-0.20, rise)[0], abs=1e-13)


def test_moments_about_the_jack_vanish_with_a_wheel_hanging():
    rig, x = triple(), -0.20
    held = rig.held(x, np.array([0.45]))
    spring = held.axles[:, 0] - rig.hung[:, 0]
    left = (spring * (rig.stations - x)).sum()
    assert left == pytest.approx((rig.weight * (rig.centre - x + rig.above * held.pitch))[0], rel=1e-12)
    assert held.jack[0] + spring.sum() == pytest.approx(rig.weight[0])


def test_rise_to_a_slope_gives_that_pitch():
    rig = triple()
    assert rig.held(-0.20, rig.rise_to_pitch(-0.20, np.array([0.02]))).pitch[0] == pytest.approx(0.02)


def test_one_stiff_axle_is_plain_statics():
    """Independent hand program, jack at -0.60 m: 636.36 kg level, 554.67 nose up 0.30 m, 677.14 down 0.15 m."""
    rig = single()
    level, up, down = (rig.held(-0.60, np.array([y])).jack[0] / G for y in (0.0, 0.30, -0.15))
    assert level == pytest.approx(636.36, abs=0.02)
    assert up == pytest.approx(554.67, rel=5e-4)
    assert down == pytest.approx(677.14, rel=5e-4)
    assert rig.rise_for(-0.60, -1.40, np.array([0.13367]))[0] == pytest.approx(0.11311, abs=1e-5)


def test_legs_of_a_pair():
    """Independent hand program: J 636.36 kg, mass 4 420 kg 40 mm off, legs 1.9 m apart: 411.23 kg, 0.64623 of J."""
    assert jl.LEG_LEVEL.of(J_0=636.36, W=4420.0, y_g=-0.04, w_j=1.9) == pytest.approx(411.23, abs=0.01)
    assert jl.LEG_SHARED.of(J=636.36, W=4420.0, y_g=0.04, w_j=1.9, share=0.65) == pytest.approx(0.65 * 636.36)
    assert jl.LEG_ALONE.of(J=636.36, A=3881.5, t=2.0, w_j=1.9) == pytest.approx(636.36)
    assert jl.RATING.of(c_j=1.5, m_l=411.23, m_w=500.0) == pytest.approx(616.845)


def test_rise_and_stroke():
    """Independent hand program: engagement 75 mm, hitch spring 90 kN/m under 538.46 kg, foot 0.28, block 0.089 m."""
    rise = jl.HITCH_RISE.of(d_b=0.060, free=0.015, c_t=1 / 90e3, H=538.46)
    assert rise == pytest.approx(0.13367, abs=6e-6)
    assert jl.STROKE.of(clear=0.28, fall=0.06, y=0.11311, block=0.089) == pytest.approx(0.36411)


def test_load_bound_of_a_triple():
    """Independent hand program: all the rest on the last axle, 2 137.9 kg."""
    mass = 6200.0 + 90.0 + 480.0
    centre = (6200.0 * 4.60 + 570.0 * 6.10) / mass
    assert jl.BOUND.of(W=mass, x_n=7.0, x_g=centre, x_j=-0.20) == pytest.approx(2137.9, abs=0.06)


def test_rear_stands_if_the_nose_is_lifted_with_them_down():
    """Independent hand program: stabilisers at 8.8 m take up to 3 705.7 kg, the pair."""
    mass = 6200.0 + 570.0
    centre = (6200.0 * 4.60 + 570.0 * 6.10) / mass
    assert 2 * jl.STAND.of(W=mass, x_g=centre, x_j=-0.20, x_r=8.8) == pytest.approx(3705.7, abs=0.06)
    weak = {"stands": [{"id": "tail", "station": "8500 mm", "y": "900 mm", "rating": "500 kg"}]}
    assert status(found(trailer=weak), "stands") == "fail"
    assert "jack.nose.stands" not in {c.id for c in found().findings.checks}


def found(jack=None, motor=None, **changes):
    trailer = {"jacks": [NOSE | (jack or {}) | ({"motor": motor} if motor else {})]} | changes.pop("trailer", {})
    model = resolve(scratch.spec(trailer=trailer, **changes), scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, STILL, scratch.DATA)), STILL, scratch.DATA)
    return jk.jacks(model, loads, rides(model, loads, STILL, scratch.DATA), STILL, scratch.DATA)


def status(of, id):
    return next(c.status for c in of.findings.checks if c.id == f"jack.nose.{id}")


def quantity(of, id):
    return next(q.nominal for q in of.findings.quantities if q.id == f"jack.nose.{id}")


def test_the_printed_steps_lead_to_the_load_on_the_jacks():
    """Statics by the sentences of the steps: springs, pitch, what is left for the jack, level and nose up."""
    outcome = next(c.outcome for c in found().findings.checks if c.id == "jack.nose.lift")
    steps = {s.result.symbol: s for s in outcome.steps}
    at = {v.symbol: v.value for v in steps["theta_0"].inputs}
    k = np.array([v for s, v in at.items() if s.startswith("k_")])
    u = np.array([v for s, v in at.items() if s.startswith("u_") and s != "u_g"])
    d_0, S = steps["d_0"].result.value, at["S"]
    for symbol, y in (("theta_0", 0.0), ("theta", steps["y"].result.value)):
        theta = steps[symbol].result.value
        force = k * (d_0 - y + u * theta)
        assert (force * u).sum() == pytest.approx(G * S * (at["u_g"] + at["h"] * theta), rel=1e-9)
        load = S - force.sum() / G
        if symbol == "theta_0":
            assert steps["J_0"].result.value == pytest.approx(load, rel=1e-9)
        else:
            assert steps["J"].result.value == pytest.approx(max(load, steps["J_0"].result.value), rel=1e-6)
            own = {v.symbol: v.value for v in steps["N_n"].inputs}["U_n"]
            assert steps["N_n"].result.value == pytest.approx(force[-1] / G + own, rel=1e-9)


def test_each_check_of_a_jack_ends_in_the_number_it_compares():
    of = found(motor=MOTOR).findings
    compared = [c for c in of.checks if c.id != "jack.nose.place"]
    assert len(compared) >= 9
    for check in compared:
        assert check.outcome.steps[-1].result.value == check.outcome.demand.value, check.id


def test_a_sound_pair_passes_and_its_window_holds_it():
    of = found(motor=MOTOR)
    assert {status(of, id) for id in ("lift", "static", "rear_axle", "holds", "fuse")} == {"pass"}
    window = of.findings.windows[0]
    assert window.low <= window.chosen <= window.high
    record = of.records[0]
    assert record.rating_needed == pytest.approx(quantity(of, "rating_needed"))
    assert record.fuse in jd.FUSES


def test_the_rating_needed_at_the_rear_end_of_the_window_is_the_rating():
    of = found({"lift_rating": "1500 kg"})
    window = of.findings.windows[0]
    assert window.closed_by_high == "the lift rating of one leg"
    moved = found({"lift_rating": "1500 kg", "station": f"{1000 * window.high:.6f} mm"})
    assert quantity(moved, "rating_needed") == pytest.approx(1500.0, rel=1e-5)


def test_a_single_leg_carries_it_all():
    one = found({"legs": "1", "drive": "single", "y": "0 m"})
    pair = found()
    assert quantity(one, "leg_worst") == pytest.approx(quantity(one, "load_worst"))
    assert quantity(pair, "leg_worst") < quantity(one, "leg_worst")
    assert "no hold against roll" in one.records[0].why


def test_a_weak_jack_a_short_stroke_and_a_thin_cable_fail():
    assert status(found({"lift_rating": "600 kg"}), "lift") == "fail"
    assert status(found({"stroke": "150 mm"}), "stroke") == "fail"
    of = found(motor=MOTOR | {"cable_area": "2.5 mm2", "cable_ampacity": "20 A", "duty": "10 s"})
    assert {status(of, id) for id in ("fuse", "time", "drop")} == {"fail"}


def test_a_drop_leg_leaves_only_rise_pin_step_and_ground_to_the_screw():
    of = found({"pin_step": "50 mm"})
    assert quantity(of, "stroke") < quantity(found(), "stroke")
    assert quantity(of, "stroke") > 0.050 + 0.020


def test_a_fast_screw_runs_down():
    assert (
        status(
            found({"screw": SCREW | {"lead": "60 mm", "thread_friction": "0.05", "collar_friction": "0.001"}}), "holds"
        )
        == "fail"
    )


def test_without_site_or_tow_vehicle_the_stroke_is_not_assessed_and_says_why():
    no_site = found(site=None)
    outcome = next(c.outcome for c in no_site.findings.checks if c.id == "jack.nose.stroke")
    assert isinstance(outcome, Missing)
    assert outcome.inputs == ("site.yaml",)
    assert status(no_site, "lift") == "pass"
    no_tow = found(with_tow=False)
    assert status(no_tow, "stroke") == "not assessed"
    assert no_tow.findings.windows[0].closed_by_low.startswith("the front of the main deck")


def test_a_jack_behind_the_axles_is_no_nose_jack():
    of = found({"station": "8500 mm"})
    assert [c.status for c in of.findings.checks] == ["not assessed"]
    assert of.findings.windows == ()
    assert np.isnan(of.records[0].rating_needed)
    assert "never lift" in of.records[0].why


def test_no_jacks_no_findings():
    model = resolve(scratch.spec(trailer={"jacks": []}), scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, STILL, scratch.DATA)), STILL, scratch.DATA)
    of = jk.jacks(model, loads, rides(model, loads, STILL, scratch.DATA), STILL, scratch.DATA)
    assert of.records == ()
    assert of.findings.checks == ()


def test_unknown_mass_leaves_every_load_check_open():
    of = found(weights={"items.0.mass": "unknown"})
    assert status(of, "lift") == "not assessed"
