"""Every coupling with every suspension: what shares, what a ball off its height does, classes, heights, jacks.

Expected numbers: an independent hand calculation in SI (its inputs stand in each test), statics alone.
"""

from itertools import product

import numpy as np
import pytest
from scratch import BALL, DATA, KING_PIN, LEAF, TRAILER, item, merged, model, spec

from generator.calc.record import sure
from generator.calc.run import calculate, work
from generator.calc.topics import leaf
from generator.calc.topics import suspension as sus
from generator.calc.topics.attitude import PITCHED_EQUALISED, PITCHED_HITCH
from generator.calc.topics.axle_bench import Bench, Limit, loads_at
from generator.calc.topics.axle_ends import ends
from generator.calc.topics.axles import HITCH, SPRUNG_GROUP
from generator.calc.topics.ball_class import class_of, proof_loads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.hitch_limits import room
from generator.calc.topics.jack_rig import Rig
from generator.calc.topics.placement import best_station
from generator.calc.topics.tongue import LEG
from generator.calc.topics.tow import FRONT_ADDED, REAR_ADDED
from generator.calc.topics.weight_distribution import BAR_MOMENT, FRONT_ON, REAR_ON, TO_TRAILER
from generator.calc.trials import Trials
from generator.draw.sheets import sheets_for, unavailable
from generator.model.resolve import resolve
from generator.release.cut import cut
from generator.spec.models.trailer import Trailer

G = 9.80665
SURE = Trials(count=0)
COUPLINGS = {"gooseneck": {}, "ball": BALL, "king pin": KING_PIN}
SPRINGS = {"torsion": {}, "leaf": LEAF}
BOTH = [pytest.param(c | s, id=f"{n}-{m}") for (n, c), (m, s) in product(COUPLINGS.items(), SPRINGS.items())]


def equalised(states, share=(0.10, 0.15), hitch=620.0, rating=2359.0, e=0.0, Q=(0.0, 0.0), k=1e12):
    """A bench of two equalised axles of this rating, ball at -1.40, from (M_f, x_f, M_r) with the group at 0."""
    n = len(states)

    def column(values):
        return np.array(values, dtype=float).reshape(n, 1)

    M_f, x_f, M_r = zip(*states, strict=True)
    W = column(M_f) + column(M_r)
    one = np.ones((n, 1))
    return Bench(
        tuple(f"s{i}" for i in range(n)), tuple(f"state {i}" for i in range(n)), 3.6, np.full((1, 1), -1.40),
        column(M_f), column(x_f), column(M_r), one * 3.6, W, one * 0.0, one * Q[0], (one * Q[1], one * 0.0, one * 0.0),
        (one * e, one * -e), (one * k, one * k), (one * 0.0, one * 0.0), (one * 0.0, one * 0.0), (0.0, 0.0), (2.0, 2.0),
        np.ones(n, dtype=bool), share, 1.0, hitch, (rating, rating), np.inf,
        (Limit("little", False), Limit("much", True), Limit("hitch", True), Limit("a1", False), Limit("a2", False),
         Limit("t1", False), Limit("t2", False)))


TRAVEL, WET = (4000.0, 3.10, 420.0), (4300.0, 2.9534884, 420.0)


def test_window_of_an_equalised_tandem_in_closed_form():
    """P = M_f f: lows P/(M_f - s_min M) and P/(A_max/g - M_r), highs P/(M_f - s_max M) and P/(M_f - H_max/g)."""
    lows, highs = ends(equalised([TRAVEL, WET]))
    u = np.array([lows[0], lows[3], highs[1], highs[2]]) + 1.40
    assert u[:, 0] == pytest.approx([5.0590, 4.1880, 5.3941, 5.3254], abs=6e-5)
    assert u[:, 1] == pytest.approx([4.8903, 4.3555, 5.2116, 5.0870], abs=6e-5)
    for (M_f, x_f, M_r), column in zip((TRAVEL, WET), u.T, strict=True):
        P, M = M_f * (x_f + 1.40), M_f + M_r
        exact = [P / (M_f - 0.10 * M), P / (2 * 2359.0 - M_r), P / (M_f - 0.15 * M), P / (M_f - 620.0)]
        assert column == pytest.approx(exact, abs=1e-6)
    low, high = lows.max(), highs.min()
    assert (low, high) == pytest.approx((3.6590, 3.6870), abs=6e-5)
    assert best_station(equalised([TRAVEL, WET]), low, high, 0.0) == pytest.approx(3.6710, abs=6e-5)


def test_bare_trailer_of_the_same_tandem():
    """M_f 1100 kg at 2.70: low 4.7574, high 5.1720 behind the ball."""
    lows, highs = ends(equalised([(1100.0, 2.70, 420.0)]))
    assert (lows.max() + 1.40, highs.min() + 1.40) == pytest.approx((4.7574, 5.1720), abs=6e-5)


def test_equalised_hitch_and_group():
    """Travel state at u 5.2: H 538.46, A 3881.5 kg; running gear 0.05 behind the group: H 534.42."""
    for r, H in ((0.0, 538.46), (0.05, 534.42)):
        A = SPRUNG_GROUP.of(4000.0, 3.10, -1.40, 420.0, 3.80 + r, 3.80)
        assert HITCH.of(4000.0, 420.0, A) == pytest.approx(H, abs=0.01)
        assert pytest.approx(A, abs=0.01) == 4420.0 - H


@pytest.mark.parametrize(("e", "H"), [(0.05, 528.30), (-0.05, 548.62), (0.0, 538.46)])
def test_nose_up_sheds_hitch_load_on_equalisers(e, H):
    """z_g 1.62, z_p 0.36, z_h 0.50; against H = W[(x_a-x_g)-(z_g-z_p)th]/[u-(z_h-z_p)th], th = e/u."""
    u, W, x_g = 5.2, 4420.0, (4000.0 * 3.10 + 420.0 * 3.80) / 4420.0
    A = SPRUNG_GROUP.of(4000.0, 3.10, -1.40, 420.0, 3.80, 3.80)
    K = 6e5
    Q = sus.PITCH_MASS.of(m_s=W, z_s=1.62, z_h=0.50, A_s=A, z_p=0.36)
    theta = sus.PITCH.of(e, K, u, 0.0, Q)
    axles = [PITCHED_EQUALISED.of(1.0, A, K, u, theta, e, 2.0, 0.0) for _ in range(2)]
    got = PITCHED_HITCH.of(W, sum(axles))
    th = e / u
    exact = W * ((3.80 - x_g) - (1.62 - 0.36) * th) / (u - (0.50 - 0.36) * th)
    assert got == pytest.approx(H, abs=0.05)
    assert got == pytest.approx(exact, abs=0.1)


def test_the_sweep_agrees_with_the_check_off_level():
    """The bench of the window and the formula of the check are two routes to the same ball load."""
    b = equalised([TRAVEL], e=0.05, Q=(4420.0, 1.62), k=3e5)
    at = loads_at(b, np.array([[3.80]]))
    A = SPRUNG_GROUP.of(4000.0, 3.10, -1.40, 420.0, 3.80, 3.80)
    Q = sus.PITCH_MASS.of(m_s=4420.0, z_s=1.62, z_h=0.0, A_s=A, z_p=0.0)
    theta = sus.PITCH.of(0.05, 6e5, 5.2, 0.0, Q)
    one = PITCHED_EQUALISED.of(1.0, A, 6e5, 5.2, theta, 0.05, 2.0, 0.0)
    assert at.hitch[0].item() == pytest.approx(4420.0 - 2 * one, abs=1e-6)
    assert at.axles[0].item() == pytest.approx(one, abs=1e-6)


def test_over_and_under_the_axle():
    """N 1990.8 kg, U 150; D 0.7185, k_t 457 kN/m, k_s 115 kN/m: rail bottom 0.48090 over, 0.36730 under the axle;
    between them tube, twice the seat and the pack."""
    r = sus.TYRE_RADIUS.of(D=0.7185, N_m=1990.8, k_t=457e3)
    y = leaf.PRESSED.of(N_m=1990.8, U_m=150.0, k_s=115e3)
    assert r == pytest.approx(0.33789, abs=6e-6)
    assert 115e3 * y == pytest.approx(9026.0, abs=0.1)
    assert 0.092 - y == pytest.approx(0.01351, abs=6e-6)
    beam = leaf.BEAM_HEIGHT.of(r, 0.0)
    over = leaf.EYES_OVER.of(beam, 0.0762, 0.006, 0.0254, 0.092, y)
    under = leaf.EYES_UNDER.of(beam, 0.0762, 0.006, 0.092, y)
    rails = [leaf.DECK_ON_HANGERS.of(z, 0.060, 0.0) for z in (over, under)]
    assert rails == pytest.approx([0.48090, 0.36730], abs=6e-6)
    assert over - under == pytest.approx(0.0762 + 2 * 0.006 + 0.0254, abs=1e-12)


def rig(k=1e9):
    """The equalised trailer of the hand calculation: 4420 kg at 3.1665, two axles acting at 3.80, no unsprung mass."""
    return Rig(np.array([3.80, 3.80]), np.full((2, 1), k), np.zeros((2, 1)), np.array([3881.5 * G / (2 * k)]),
               np.array([4420.0 * G]), np.array([3.1665]), np.array([1.55 - 0.36]))


@pytest.mark.parametrize(("y", "J"), [(0.0, 636.36), (0.30, 554.67), (-0.15, 677.14)])
def test_the_jack_of_an_equalised_trailer_carries_less_nose_up(y, J):
    """x_j -0.6: J = W[(x_a-x_g) cos th - (z_g-z_p) sin th]/[(x_a-x_j) cos th], sin th = y/4.4; small angles here."""
    held = rig().held(-0.6, np.array([y]))
    assert held.jack.item() / G == pytest.approx(J, abs=0.35)
    assert held.axles.sum() / G == pytest.approx(4420.0 - held.jack.item() / G, abs=1e-6)
    assert held.axles[0] == pytest.approx(held.axles[1])


def test_rise_at_the_jack_of_an_equalised_trailer():
    """Rise 0.13367 at the hitch is 0.11311 at a jack 0.8 behind it: (x_a-x_j)/(x_a-x_h) = 4.4/5.2."""
    assert rig().rise_for(-0.6, -1.40, np.array([0.13367])).item() == pytest.approx(0.11311, abs=2e-4)


def test_tongue_leg():
    """H 2709.6 N, 1.4 m ahead of the root, legs at 25 deg: 2092.8 N m each."""
    assert LEG.of(2709.6 / G, 1.4, np.radians(25.0)) == pytest.approx(2092.8, abs=0.1)


def test_bumper_and_bed_limits_of_a_rear_axle():
    """900 kg left on the rear axle, wheelbase 3.99: 678.83 kg on a ball 1.30 behind it, 923.14 kg 0.10 ahead."""
    assert room(900.0, 3.99, 1.30) == pytest.approx(678.83, abs=0.01)
    assert room(900.0, 3.99, -0.10) == pytest.approx(923.14, abs=0.01)


@pytest.mark.parametrize(("pounds", "number"), [(2000, 1), (2001, 2), (3500, 2), (5000, 3), (5001, 4), (10000, 4),
                                                (12000, 4)])
def test_classes_of_ball_couplings(pounds, number):
    """COMAR 11.13.08.04 B: to 2 000, 3 500, 5 000 and 10 000 lb."""
    assert class_of(pounds * 0.45359237, DATA) == number


@pytest.mark.parametrize(("pounds", "expected"), [
    (10000, {"pull": 30000, "across": 10000, "up": 13000, "down": 14000}),
    (1900, {"pull": 6000, "across": 2000, "up": 2500, "down": 2500}),
    (3000, {"pull": 10500, "across": 3000, "up": 4500, "down": 4500}),
    (4000, {"pull": 15000, "across": 4000, "up": 7000, "down": 7000}),
])
def test_loads_a_coupler_is_tested_to(pounds, expected):
    """COMAR 11.13.08.10, table 1."""
    found = proof_loads(sure("GVWR", pounds * 0.45359237, "kg"), SURE, DATA)
    assert {r.id.rpartition(".")[2]: round(r.nominal / 0.45359237, 3) for r in found} == expected


def test_shares_by_coupling():
    """Owner guides: 10 to 15 % on a ball behind the vehicle, 15 to 25 % on a gooseneck ball or a king pin."""
    limits = {}
    for name, change in COUPLINGS.items():
        words = coupled(model((), of=spec(trailer=change)))
        limits[name] = tuple(DATA.defaults[i].value for i in (words.share_low, words.share_high))
    assert limits == {"gooseneck": (0.15, 0.25), "ball": (0.10, 0.15), "king pin": (0.15, 0.25)}


def test_friction_of_the_rockers_keeps_the_sum_and_has_its_spread():
    """P5 and P95 of every axle are 5 % from an even share; what one loses the others gain."""
    for n in (2, 3, 4):
        shares = np.array([q.values for q in leaf.sharing(n, Trials(), DATA)])
        assert shares[:, 0] == pytest.approx(np.ones(n))
        assert shares.sum(axis=0) == pytest.approx(n, abs=1e-9)
        assert np.percentile(shares[:, 1:], [5.0, 95.0], axis=1) == pytest.approx(
            np.array([[0.95] * n, [1.05] * n]), abs=0.0015)
    (alone,) = leaf.sharing(1, Trials(), DATA)
    assert alone.values == pytest.approx([1.0])


def test_an_axle_that_friction_alone_overloads_is_for_review():
    """Nominal 4 % under the rating of 2300 kg: it breaks in more than 5 % of trials, so somebody must look."""
    kg = 2300.0 / 1.04 * 2
    axle = {"rating": "2300 kg", "hub_rating": "3000 kg", "unsprung": "1 kg", "hub_face": "2.1 m",
            "brake": {"type": "none", "size": "-", "rating": "1 kg"}}
    of = spec(trailer=LEAF | {"running_gear.axles": [axle] * 2,
                              "running_gear.suspension": merged(LEAF["running_gear.suspension"], {
                                  "hitch_height_tolerance": "0 mm"})})
    u, x = 5.7 + 2.3, 5.0
    items = [item("all", (kg - 2.0) * u / (x + 2.3), x), *(item(f"axle.{i}", 1.0, 5.7, unsprung=True, moves=True)
                                                        for i in (1, 2))]
    results = calculate(model(items, of=of, stations=(5.25, 6.15)), DATA, Trials(count=2000))
    found = next(c for c in results.checks if c.id == "axle.1.rating")
    assert found.ratio == pytest.approx(1 / 1.04, abs=0.002)
    assert found.status == "review"


@pytest.mark.parametrize("change", BOTH)
def test_every_coupling_with_every_suspension_is_worked_out(change):
    """The weight is carried, sides sum to their axle, checks have answers, with a tow vehicle and without."""
    for with_tow in (True, False):
        worked = work(resolve(spec(trailer=change, with_tow=with_tow), DATA), DATA, SURE)
        for x in worked.loads.values():
            total = x.hitch.values[0] + sum(n.values[0] for n in x.axles)
            assert total == pytest.approx(x.mass.values[0], rel=1e-9)
            for n, left, right in zip(x.axles, x.left, x.right, strict=True):
                assert left.values[0] + right.values[0] == pytest.approx(n.values[0], rel=1e-12)
        assert len({c.id for c in worked.checks}) == len(worked.checks)
        assert len({q.id for q in worked.quantities}) == len(worked.quantities)


@pytest.mark.parametrize("coupling", COUPLINGS.values(), ids=COUPLINGS)
def test_axles_of_one_group_share_evenly_whatever_the_ball_does(coupling):
    heavy = {"running_gear.axles.0.unsprung": "200 kg"}
    worked = work(resolve(spec(trailer=coupling | LEAF | heavy), DATA), DATA, SURE)
    axles = [q.nominal for q in worked.quantities if q.id.startswith("axle.") and q.id.endswith(".worst")]
    assert axles[0] - 200.0 == pytest.approx(axles[1] - 160.0, rel=1e-9)
    assert axles[1] == pytest.approx(axles[2], rel=1e-9)


def test_shifting_everything_shifts_the_stations_only():
    """Statics knows no datum: ball, axles and items half a metre aft carry as before."""
    def hitch(dx):
        of = spec(trailer=LEAF | {"coupling.station": f"{-2300 + 1000 * dx} mm"})
        axles = (5.2 + dx, 6.1 + dx, 7.0 + dx)
        running = [item(f"axle.{n}", 160.0, x, unsprung=True, moves=True) for n, x in enumerate(axles, 1)]
        worked = work(model([item("house", 5000.0, 4.0 + dx), *running], of=of, stations=axles), DATA, SURE)
        return worked.loads["travel"].hitch.values[0]

    assert hitch(0.5) == pytest.approx(hitch(0.0), rel=1e-9)


def test_a_ball_trailer_has_no_neck_topic_and_a_level_check():
    worked = work(resolve(spec(trailer=BALL | LEAF), DATA), DATA, SURE)
    ids = {c.id for c in worked.checks}
    assert not [i for i in ids if i.startswith(("neck.", "cab."))]
    assert {"hitch.level", "coupler.class", "spring.bump", "spring.rating"} <= ids
    assert worked.neck.record is None


def test_the_plate_of_a_king_pin_makes_the_sides_an_upper_bound():
    worked = work(resolve(spec(trailer=KING_PIN), DATA), DATA, SURE)
    check = next(c for c in worked.checks if c.id == "side.balance")
    assert "upper bound" in check.outcome.steps[-1].text


def test_hangers_of_a_leaf_trailer_carry_the_sprung_group():
    """Quarter, half, quarter of the group for a tandem; a sixth, two thirds between them, a sixth for a triple."""
    worked = work(resolve(spec(trailer=LEAF), DATA), DATA, SURE)
    hangers = [s for s in worked.beam.supports if s.title == "hangers"]
    group = sum(s.force for s in hangers)
    assert [s.force / group for s in hangers] == pytest.approx([1 / 6, 1 / 3, 1 / 3, 1 / 6])
    assert [s.station for s in hangers] == pytest.approx([4.8 - 0.33, 5.25, 6.15, 6.6 + 0.33])
    assert group / G == pytest.approx(worked.loads["travel"].sprung_group.values[0], rel=0.02)


def test_rear_axle_of_the_tow_vehicle_and_its_front():
    """Base 1650 and 1350 kg, wheelbase 3.99, ball 1.30 behind: 538.46 kg add 713.90 behind and take 175.44 ahead."""
    assert REAR_ADDED.of(538.46, 3.99, 1.30) == pytest.approx(713.90, abs=0.01)
    assert FRONT_ADDED.of(538.46, 3.99, 1.30) == pytest.approx(-175.44, abs=0.01)


@pytest.mark.parametrize(("r", "moved", "front", "rear"), [(0.5, 53.846, 1562.3, 1922.3),
                                                           (1.0, 107.69, 1650.0, 1780.8)])
def test_spring_bars_give_the_front_axle_its_load_back(r, moved, front, rear):
    """The same vehicle with half and all of the front axle's lost load restored; trailer u 5.2 m."""
    M = BAR_MOMENT.of(r, 538.46, 1.30, 5.2)
    if r == 0.5:
        assert pytest.approx(280.00, abs=0.01) == M / G
    dA = TO_TRAILER.of(M, 5.2)
    assert dA == pytest.approx(moved, abs=0.01)
    assert FRONT_ON.of(1650.0, 538.46, dA, 1.30, 3.99, M) == pytest.approx(front, abs=0.05)
    assert REAR_ON.of(1350.0, 0.0, 538.46, dA, 1.30, 3.99, M) == pytest.approx(rear, abs=0.05)


def test_the_models_know_their_kind():
    trailer = Trailer.model_validate(merged(TRAILER, BALL | LEAF))
    assert (trailer.coupling.type, trailer.running_gear.suspension.type) == ("ball", "leaf")


@pytest.mark.parametrize("to", ["owner", "fabricator"])
@pytest.mark.parametrize("change", BOTH)
def test_every_recipient_gets_sheets_or_the_reason_why_not(change, to):
    """Loads, heights and the window are drawn for all; so are arrangement, frame and the detail of neck or tongue."""
    of = resolve(spec(trailer=change), DATA)
    desk = cut(of, calculate(of, DATA, Trials(count=100)), DATA, to)
    drawn, without = {s.number for s in sheets_for(desk)}, {u.number: u.reason for u in unavailable(desk)}
    assert {"L1", "L3"} <= drawn
    assert {"G1", "F1", "F3"} <= drawn
    if of.spec.trailer.neck is None:
        assert "F3" not in without
