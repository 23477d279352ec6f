"""Heights: formulas against an independent hand program (to its printed digits), and what the topic does with them."""

import numpy as np
import pytest
import scratch

from generator.calc.record import Basis, Compared, Missing, Quantity, Working, sure
from generator.calc.sums import sums
from generator.calc.topics import rides as rd
from generator.calc.topics import suspension as sus
from generator.calc.topics.axles import level_loads
from generator.calc.topics.clearances import BOX_GAP
from generator.calc.topics.heights import ROOF_HEIGHT, Point, heights, outer
from generator.calc.topics.limits import least_limit
from generator.calc.topics.masses import state_masses
from generator.calc.trials import Trials
from generator.model.resolve import resolve

RATED, STOP, START = np.radians(22.5), np.radians(32.5), np.radians(22.5)
TYRE = {"D": 0.7824, "k_t": 500e3}
FEW = Trials(count=500)


def worked(trials=FEW, **changes):
    model = resolve(scratch.spec(**changes), scratch.DATA)
    loads = level_loads(model, state_masses(model, sums(model, trials, scratch.DATA)), trials, scratch.DATA)
    return model, loads, rd.rides(model, loads, trials, scratch.DATA)


def found(trials=FEW, **changes):
    model, _, rides = worked(trials, **changes)
    return heights(model, rides, trials, scratch.DATA)


def check(of, id):
    return next(c for c in of.findings.checks if c.id == id)


def quantity(of, id):
    return next(q for q in of.findings.quantities if q.id == id)


def chain(load, s=1.0):
    """Radius, angle, tube, deck for an axle load (kg): tyre 0.7824 m, 500 kN/m, arm 152.4 mm, tube 317.3 mm low."""
    r = sus.TYRE_RADIUS.of(N_m=load, **TYRE)
    alpha = sus.ARM_ANGLE.of(alpha_0=START, stop=STOP, turn=RATED, s=s, N_m=load, U_m=160.0, G_m=2722.0)
    tube = sus.TUBE_HEIGHT.of(r_t=r, R=0.1524, alpha=alpha)
    return r, alpha, tube, sus.DECK_HEIGHT.of(z_t=tube, h_td=0.3173)


@pytest.mark.parametrize(
    ("load", "radius", "degrees", "deck"),
    [
        (1887.62, 0.37269, 7.3277, 0.70943),
        (1300.0, 0.37845, 12.488, 0.72871),
        (2722.0, None, 0.0, 0.68181),
        (160.0, None, 22.5, 0.76525),
    ],
)
def test_height_chain_of_a_torsion_axle(load, radius, degrees, deck):
    """Independent hand program, at travel load, light, rated and at full rebound (printed to five digits)."""
    r, alpha, _, z = chain(load)
    assert np.degrees(alpha) == pytest.approx(degrees, abs=5e-4)
    assert z == pytest.approx(deck, abs=6e-6)
    assert radius is None or r == pytest.approx(radius, abs=6e-6)


def test_rates_jounce_and_spindle_at_the_travel_load():
    """Independent hand program, same axle at 1 887.62 kg."""
    _, alpha, tube, _ = chain(1887.62)
    wheel = sus.WHEEL_RATE.of(s=1.0, G_i=2722.0, U_i=160.0, turn=RATED, R=0.1524, alpha=alpha)
    assert wheel == pytest.approx(211.63e3, rel=3e-5)
    assert sus.AXLE_RATE.of(k_w=wheel, k_t=500e3) == pytest.approx(297.39e3, rel=3e-5)
    assert sus.JOUNCE_LEFT.of(R=0.1524, alpha=alpha, alpha_0=START, stop=STOP) == pytest.approx(0.045902, abs=1e-6)
    assert sus.SPINDLE_AFT.of(R=0.1524, alpha=alpha) == pytest.approx(0.15116, abs=1e-5)
    assert sus.SPINDLE_AFT.of(R=0.1524, alpha=START) == pytest.approx(0.14080, abs=1e-5)
    assert tube == pytest.approx(0.39213, abs=6e-6)
    assert chain(1887.62, 0.8)[2] == pytest.approx(0.38208, abs=6e-6)
    assert chain(1887.62, 1.2)[2] == pytest.approx(0.39878, abs=6e-6)


@pytest.mark.parametrize(("x", "rise"), [(-3.2, 0.025613), (6.1, 0.019280), (9.0, 0.017306)])
def test_rise_between_states_along_the_frame(x, rise):
    """Independent hand program: the group rises 19.280 mm, the ball 25 mm; group at 6.10, ball at -2.30."""
    e = 0.025 - 0.019280
    theta = sus.PITCH.of(e=e, K=3 * 260e3, u=8.4, J=0.0, Q=0.0)
    z = ROOF_HEIGHT.of(z_d=0.019280, e=e, x=x, x_h=-2.3, theta=theta, zeta=0.0)
    assert z == pytest.approx(rise, abs=1e-6)


@pytest.mark.parametrize(("x", "rise"), [(-3.2, 0.055357), (9.0, -0.017262)])
def test_pitch_alone_lifts_the_nose_and_drops_the_tail(x, rise):
    """Independent hand program: ball 50 mm high, 8.4 m ahead of the group."""
    theta = sus.PITCH.of(e=0.05, K=1.0, u=8.4, J=0.0, Q=0.0)
    assert ROOF_HEIGHT.of(z_d=0.0, e=0.05, x=x, x_h=-2.3, theta=theta, zeta=0.0) == pytest.approx(rise, abs=6e-7)


def test_pitch_of_a_triple_counts_spread_and_height_of_the_mass():
    """Independent hand program (exact nonlinear within 0.05 kg): 6 290 kg at 1.65 m, ball 1.10, spindles 0.37 m."""
    sprung, u = 6290.0, 8.4
    carried = (6200.0 * 6.9 + 90.0 * 8.4) / u
    q = sus.PITCH_MASS.of(m_s=sprung, z_s=1.65, z_h=1.10, A_s=carried, z_p=0.37)
    rates = [sure("k", 260e3, "N/m:spring")] * 3
    arms = [sure("u", a, "m") for a in (7.5, 8.4, 9.3)]
    theta = sus.pitch_about(Working(), sure("e", 0.05, "m"), rates, arms, sure("Q", float(q), "N*m"))
    assert theta.values[0] == pytest.approx(0.0059147, abs=6e-8)


def test_a_lighter_state_leaves_the_ball_low_and_a_soft_tow_vehicle_lifts_it():
    level = {"e_set": 0.0, "z_design": 0.70, "z_s": 0.72, "H_design": 1100.0, "H_s": 700.0}
    assert sus.HITCH_ERROR.of(c_t=0.0, **level) == pytest.approx(-0.02)
    assert sus.HITCH_ERROR.of(c_t=2e-6, **level) == pytest.approx(-0.02 + 2e-6 * 400 * 9.80665)


def test_the_highest_point_counts_every_state_with_a_roof_and_both_ball_errors():
    model, _, rides = worked(Trials(count=0))
    of = heights(model, rides, Trials(count=0), scratch.DATA)
    house = model.spec.house
    points = [(p.station.nominal, p.height.nominal) for p in house.roof_points]
    points += [(end.nominal, z.roof.nominal) for z in house.zones for end in (z.front, z.rear)]
    brute = max(
        float(r.deck.values[0] + r.errors[i].values[0] - (x + 2.3) * r.pitches[i].values[0] + z)
        for id, r in rides.items()
        if id != "bare"
        for i in (0, 1)
        for x, z in points
    )
    assert quantity(of, "height.overall.unladen").nominal == pytest.approx(brute, abs=1e-12)
    level = float(rides["travel"].deck.values[0]) + max(z for _, z in points)
    assert quantity(of, "height.overall.laden").nominal == pytest.approx(level)
    assert check(of, "height.overall").outcome.demand.value == pytest.approx(brute, abs=1e-12)


def test_deck_stands_higher_bare_than_laden_and_highest_at_rebound():
    of = found()
    laden, bare = (quantity(of, f"height.deck.{s}").nominal for s in ("laden", "unladen"))
    assert laden < bare < 0.76525
    assert quantity(of, "height.overall.rebound").nominal > quantity(of, "height.overall.unladen").nominal


def test_chains_add_up_to_their_totals():
    of = found()
    for c in of.chains:
        assert sum(s.value for s in c.steps) == pytest.approx(c.total, abs=1e-12)
    light = next(c for c in of.chains if c.id == "height-light")
    assert light.total == pytest.approx(quantity(of, "height.overall.unladen").nominal, abs=1e-12)


def test_a_roof_over_the_limit_fails_and_one_inside_the_margin_only_misses_the_margin():
    assert check(found(house={"roof_points.0.height": "3800 mm"}), "height.overall").status == "fail"
    limit = scratch.DATA.regions["US-CA"].height
    near = f"{1000 * (limit - 0.80):.0f} mm"
    of = found(project={"use.regions": ["US-CA"]}, house={"roof_points.0.height": near})
    assert check(of, "height.overall").status == "pass"
    assert check(of, "height.margin").status == "fail"


def test_a_region_not_held_is_named_and_nothing_is_passed():
    outcome = check(found(project={"use.regions": ["US-CA", "ATLANTIS"]}), "height.overall").outcome
    assert isinstance(outcome, Missing)
    assert "ATLANTIS" in outcome.inputs[0]


def test_the_least_limit_of_the_route_governs_and_a_remembered_one_stays_under_review():
    rows = scratch.DATA.regions
    remembered = next(c for c, r in rows.items() if r.confidence == "memory" and r.height is not None)
    read = next(c for c, r in rows.items() if r.confidence == "read" and r.height is not None)
    both = least_limit(Working(), (read, remembered), scratch.DATA, "height")
    assert both.values[0] == min(rows[read].height, rows[remembered].height)
    assert both.basis is Basis.MEMORY
    assert least_limit(Working(), (read,), scratch.DATA, "height").basis is Basis.TABLE


def test_a_limit_names_the_regions_that_govern_and_those_that_state_none():
    w = Working()
    limit = least_limit(w, ("US-CA", "US-MN", "UK"), scratch.DATA, "height")
    assert limit.values[0] == pytest.approx(13.5 * 0.3048)
    assert limit.origin.startswith("Minnesota: ")
    assert "US-CA" not in limit.origin
    assert "None is stated for United Kingdom" in w.steps[0].text


def test_an_unknown_roof_point_is_not_assessed():
    outcome = check(found(house={"roof_points.0.height": "unknown"}), "height.overall").outcome
    assert isinstance(outcome, Missing)


def test_only_the_upper_hull_can_be_highest_whatever_the_pitch():
    rng = np.random.default_rng(3)
    points = tuple(
        Point(str(i), "", sure("x", x, "m"), sure("z", z, "m")) for i, (x, z) in enumerate(rng.uniform(0, 9, (40, 2)))
    )
    kept = outer(points)
    assert len(kept) < len(points)
    for slope in (-2.0, -0.05, 0.0, 0.03, 1.5):

        def top(of, slope=slope):
            return max(p.zeta.values[0] - slope * p.station.values[0] for p in of)

        assert top(kept) == pytest.approx(top(points))


def test_a_point_of_uncertain_height_is_never_left_out():
    spread = Point("s", "", sure("x", 1.0, "m"), Quantity("z", np.array([0.1, 9.0]), "m"))
    assert spread in outer((spread, Point("a", "", sure("x", 0.0, "m"), sure("z", 5.0, "m"))))


def test_headroom_where_everybody_must_stand_allows_for_the_tallest_in_shoes():
    outcome = check(found(house={"people.tallest": "1990 mm"}), "headroom.main").outcome
    assert isinstance(outcome, Compared)
    assert outcome.demand.value == pytest.approx(2.14)
    assert outcome.limit.value == pytest.approx(1.990 + 0.0508)


def test_a_box_too_low_for_the_risen_wheel_fails():
    assert BOX_GAP.of(z_d=0.7, top=0.25, skin=0.02, r_t=0.37, D=0.78, j=0.05) == pytest.approx(0.12)
    assert check(found(), "box.1.jounce").status == "pass"
    assert check(found(trailer={"wheel_boxes.0.top": "120 mm"}), "box.1.jounce").status == "fail"
