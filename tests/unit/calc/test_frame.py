"""The frame on the road, on a scratch trailer whose answers are known: triple torsion axles, E I 1.72e7 N m2, loads of
5 500 N/m on 9.2 m, 2 400 N/m on a 3.2 m neck and 2 500 N at 2.0 m (independent hand program, confirmed by PyNite)."""

from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest

from generator.calc.beam import Girder, Support, at, diagram, loads, solve
from generator.calc.record import Compared, Missing, Quantity, sure
from generator.calc.topics.frame import frame
from generator.calc.topics.frame_beam import averaged, case_of, rails_of
from generator.calc.topics.frame_braces import RESTS, braces, stretches_of
from generator.calc.topics.frame_sides import chord, in_step, on_stands, sides_of
from generator.calc.topics.leaf import equalised
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.states import STATES
from generator.model.types import Item, Model, Piece
from generator.reference.load import reference
from generator.spec.measure import Measure
from generator.spec.models.trailer import Gooseneck, Leaf, Torsion

DATA = reference()
MODULUS = DATA.defaults["frame.modulus"].value
RAIL = replace(DATA.sections["W8x18"], name="test", inertia=1.72e7 / MODULUS / 2, modulus=2e-4)
DATA = replace(DATA, sections={**DATA.sections, "test": RAIL})
TRAVEL = tuple(float(s.id == "travel") for s in STATES)
RIDE = SimpleNamespace(ball=sure("z_h", 1.0, "m"), deck=sure("z_d", 0.6, "m"), give=sure("alpha", 0.0, "rad"),
                       rates=tuple(sure("k", 260000.0, "N/m:spring") for _ in range(3)))


def m(value, kind="length"):
    return Measure(value, value, value, "sure", kind)


def item(id, newtons, x0, x1, **more):
    kg = newtons / G
    return Item(id, id, "shell", kg, kg, kg, "sure", "table", x0, x1, 0.0, 1.0, TRAVEL, **more)


LOADS = (item("deck", 5500.0 * 9.2, 0.0, 9.2), item("neck", 2400.0 * 3.2, -3.2, 0.0), item("stove", 2500.0, 2.0, 2.0))


def across(mark, stations, top=0.0, depth=0.1, width=0.9, braces=None):
    return [Piece(mark, mark, "C4x5.4", "ASTM A36", "crosswise", x - 0.02, x + 0.02, -width, width, top - depth, top,
                  10.0) for x in stations]


def piece(mark, x0, x1, half, grade="ASTM A992", section="test", y=0.95):
    return [Piece(mark, mark, section, grade, "lengthwise", x0, x1, s * y - half, s * y + half, -0.2, 0.0, 100.0)
            for s in (-1, 1)]


def rails(grade="ASTM A992"):
    return tuple(piece("r1", -3.2, 9.2, 0.05, grade) + piece("edge", 0.0, 9.2, 0.02, y=1.2))


def model(items=LOADS, pieces=None, stations=(5.2, 6.1, 7.0), jack=None, hitch=-2.3, stands=(), snow=None,
          members=(), spacing=1.9):
    axle = SimpleNamespace(rating=m(2722.0, "mass"), unsprung=m(160.0, "mass"))
    suspension = Torsion.model_construct(arm=m(0.15115), start_angle=m(0.0, "angle"), tube_to_deck=m(0.3),
                                         bracket_spacing=m(spacing))
    tyre = SimpleNamespace(diameter=m(0.78), stiffness=m(5e5, "stiffness"), basis="table")
    gear = SimpleNamespace(suspension=suspension, tyre=tyre, axles=[axle] * 3)
    trailer = SimpleNamespace(
        jacks=[] if jack is None else [SimpleNamespace(station=m(jack), id="front")], running_gear=gear,
        stands=[SimpleNamespace(station=m(x), id=f"stand {x}") for x in stands],
        coupling=Gooseneck.model_construct(station=m(hitch), adjust_low=m(0.5), adjust_high=m(0.7)),
        neck=SimpleNamespace(rails_outside=m(2.0), underside=m(1.0)),
        frame=SimpleNamespace(rails_outside=m(2.0), length=m(9.2), width=m(2.4), members=members))
    zones = [SimpleNamespace(front=m(0.0), rear=m(9.2))]
    house = SimpleNamespace(front=m(-3.2), rear=m(9.2), width=m(2.4), zones=zones)
    site = None if snow is None else SimpleNamespace(snow=m(snow, "areaload"))
    spec = SimpleNamespace(trailer=trailer, house=house, site=site)
    return Model(spec, STATES, tuple(items), rails() if pieces is None else pieces, stations)


def found(of, trials=(1.0,), rests_on=frozenset()):
    mass = sum(i.mass for i in of.items)
    sprung = Quantity("m_s", np.array([1.0, *trials]) * mass, "kg", rests_on=rests_on)
    states = {"travel": SimpleNamespace(sprung_mass=sprung, hitch=sure("H", 1.0, "kg"))}
    at = {name: SimpleNamespace(mass=sprung) for name in ("travel", "parked_light", "parked_heavy")}
    beam, _, findings = frame(of, states, {"travel": RIDE}, Trials(), DATA, at, ())
    return beam, {q.id: q for q in findings.quantities}, {c.id: c for c in findings.checks}


def test_bare_frame_shifts_load_between_the_axles():
    _, quantities, _ = found(model())
    axles = [quantities[f"frame.travel.axle.{n}"].nominal - 160.0 for n in (1, 2, 3)]
    assert [a * G for a in axles] == pytest.approx([15417.0, 14503.0, 13743.0], abs=0.5)


def test_neck_root_takes_the_worse_of_bare_and_stiff():
    """Bare 27 080 N m; stiff: hitch 17 296 N x 2.3 m less 7 680 N x 1.6 m of neck."""
    _, quantities, _ = found(model())
    assert quantities["frame.travel.moment_neck_root"].nominal == pytest.approx(17296.0 * 2.3 - 7680.0 * 1.6, abs=2.0)


@pytest.mark.parametrize(("jack", "root"), [(0.3, -12288.0), (-0.6, None)])
def test_neck_root_on_the_jacks_has_the_other_sign(jack, root):
    """Neck alone hangs from the root: 2 400 N/m on 3.2 m; a jack ahead of it carries part of it."""
    _, quantities, checks = found(model(jack=jack))
    hanging = quantities["frame.jacked.moment_neck_root"].nominal
    if root is None:
        weight, middle = sum(i.mass for i in LOADS) * G, (5500 * 9.2 * 4.6 - 2400 * 3.2 * 1.6 + 2500 * 2.0)
        on_jack = (weight * 6.1 - middle) / 6.7
        root = on_jack * 0.6 - 12288.0
    assert hanging == pytest.approx(root, rel=1e-6)
    # One rail carries half, with the jacking factor.
    assert quantities["frame.neck_root.moment_jacked"].nominal == pytest.approx(1.25 * root / 2, rel=1e-6)
    assert checks["frame.neck_root"].outcome.steps


def test_without_a_jack_the_neck_root_has_one_sign():
    _, quantities, checks = found(model())
    assert "frame.jacked.moment_neck_root" not in quantities
    assert "frame.neck_root.moment_jacked" not in quantities
    assert "frame.jacked.bending" not in checks


def test_diagram_closes_and_carries_the_mass():
    beam, quantities, _ = found(model())
    weight = sum(i.mass for i in LOADS) * G
    assert beam.mass * G == pytest.approx(weight, rel=1e-12)
    assert sum(s.force for s in beam.supports) == pytest.approx(weight, rel=1e-9)
    assert [s.title for s in beam.supports] == ["hitch", "axle 1 bracket", "axle 2 bracket", "axle 3 bracket"]
    assert beam.supports[1].station == pytest.approx(5.2 - 0.15115)
    # Moments about datum A: supports with the couples of their arms against the loads at their centre.
    assert [s.couple for s in beam.supports] == pytest.approx([0.0, *(s.force * 0.15115 for s in beam.supports[1:])])
    held = sum(s.force * s.station + s.couple for s in beam.supports)
    loads_at = (5500 * 9.2 * 4.6 - 2400 * 3.2 * 1.6 + 2500 * 2.0)
    assert held == pytest.approx(loads_at, rel=1e-9)
    assert beam.weight * beam.centre == pytest.approx(loads_at, rel=1e-9)
    assert [(p.station, p.force) for p in beam.points] == [(2.0, pytest.approx(2500.0))]
    assert (beam.shear[-1], beam.moment[-1]) == (pytest.approx(0.0, abs=1e-3), pytest.approx(0.0, abs=1e-3))
    assert 150 <= len(beam.x) <= 250
    assert max(beam.moment) <= quantities["frame.travel.moment_sag"].nominal + 1e-6
    assert -min(beam.moment) <= quantities["frame.travel.moment_hog"].nominal + 1e-6
    greatest = max(*beam.moment, *(-v for v in beam.moment))
    reported = max(quantities[f"frame.travel.moment_{k}"].nominal for k in ("sag", "hog"))
    assert greatest == pytest.approx(reported, rel=1e-9)


def test_averaged_line_load_loses_nothing():
    small = item("lamp", 20.0, 8.0, 8.0)
    case = case_of(model((*LOADS, small)))
    edges = np.linspace(-3.2, 9.2, 41)
    line = averaged(case, edges)
    assert (line * np.diff(edges)).sum() + 2500.0 == pytest.approx(case.total, rel=1e-12)
    assert line[0] == pytest.approx(2400.0)


def test_what_stands_on_its_own_tyres_is_not_on_the_frame():
    axle = item("axle", 3000.0, 6.0, 6.2, unsprung=True)
    assert case_of(model((*LOADS, axle))).total == pytest.approx(case_of(model()).total)


def test_only_members_at_the_stated_width_are_rails():
    found_rails = rails_of(model(), DATA)
    assert [(r.mark, r.inertia * MODULUS) for r in found_rails] == [("r1", pytest.approx(1.72e7))]


def test_bending_needs_an_engineer_even_when_it_is_low():
    _, quantities, checks = found(model())
    check = checks["frame.towing.bending"]
    moment = max(quantities[f"frame.towing.moment_{k}"].nominal for k in ("sag", "hog"))
    assert check.outcome.demand.value == pytest.approx(2.0 * moment)
    assert check.status == ("review" if check.ratio <= 1.0 else "fail")
    assert "engineer" in check.about.defer_to
    assert quantities["frame.travel.required_modulus"].nominal == pytest.approx(
        2 * 2 * moment * 1.67 / (50 * 6894757.293), rel=1e-6)


def test_even_loads_ask_both_rails_alike():
    _, quantities, _ = found(model(jack=0.3))
    for case, whole in (("towing", "travel"),):
        for k in ("moment_sag", "moment_hog", "shear"):
            assert quantities[f"frame.{case}.{k}"].nominal * 2 == pytest.approx(
                quantities[f"frame.{whole}.{k}"].nominal, rel=1e-6)
    assert quantities["frame.towing.front_torque"].nominal == pytest.approx(0.0, abs=1e-3)


def test_a_load_on_one_side_goes_by_the_lever():
    """0.59434 to the right rail for y 0.10 m on rails 1.06 m apart: hand program."""
    right, left = sides_of(model((replace(LOADS[2], y=0.10),)), "travel", 1.06)
    total = right.total + left.total
    assert right.total / total == pytest.approx(0.59434, abs=5e-6)
    outside, other = sides_of(model((replace(LOADS[2], y=0.80),)), "travel", 1.06)
    assert outside.total > outside.total + other.total
    assert other.total < 0.0


def test_mirroring_the_load_swaps_the_rails():
    moved = tuple(replace(i, y=0.2) for i in LOADS), tuple(replace(i, y=-0.2) for i in LOADS)
    one, other = (found(model(of))[1] for of in moved)
    for id in ("frame.towing.moment_hog", "frame.towing.shear", "frame.towing.front_torque"):
        assert one[id].nominal == pytest.approx(other[id].nominal, rel=1e-9)
    assert one["frame.towing.front_torque"].nominal > 100.0
    # The hitch of each stiff rail follows its share: (0.2/1.9) x 17 296 N twice, times half the distance.
    assert one["frame.towing.front_torque"].nominal == pytest.approx(17296.0 * 2 * (0.2 / 1.9) * 1.9 / 2, rel=1e-3)


EI = 200e9 * 2.56e-5
ROWS = [(0.0, 7.2, 4500.0, 4500.0), (-1.4, 0.0, 300.0, 300.0), (5.2, 7.2, 0.0, 1500.0)]
CASE = loads([(1.0, 2500.0), (-0.9, 600.0)], ROWS)
GIRDER = Girder(-1.4, 7.2, ((-1.4, EI),))


def test_equalised_hangers_of_a_leaf_tandem_and_triple():
    """Tandem at 3.8 with 0.84 m spread and springs of 0.66 m: hangers 3.05, 3.80, 4.55; hand program, PyNite."""
    terms = equalised((3.38, 4.22), 0.66)
    assert [(round(x, 9), share) for x, share, _ in terms] == [(3.05, 0.25), (3.80, 0.5), (4.55, 0.25)]
    assert [share for _, share, _ in equalised((3.0, 3.9, 4.8), 0.7)] == pytest.approx([1 / 6, 1 / 3, 1 / 3, 1 / 6])
    b = solve(GIRDER, [at("hitch", -1.4), Support("group", terms)], [CASE])[0]
    d = diagram(b)
    assert d.moment_ahead(np.array([3.05, 3.80, 4.55])) == pytest.approx([-17943.0, -23602.0, -18776.0], abs=0.5)
    # Between datum A and the point load the shear is nil: 2 959.5 + 1 689.6^2/(2 x 4 500) by hand.
    assert d.moment.max() == pytest.approx(2959.5 + 1689.6**2 / 9000.0, abs=0.2)
    x, off = chord(d, 0.0, 7.2, 721)
    assert np.abs(off).max() == pytest.approx(0.016195, abs=1e-6)
    assert x[np.abs(off).argmax()] == pytest.approx(3.8, abs=0.06)
    assert d.deflection(np.array([7.2, 1.0])) == pytest.approx([-0.029947, 0.0013391], abs=5e-7)


def test_a_low_stand_lifts_off_and_its_neighbours_carry():
    """Stands 0.3, 2.6, 5.0, 7.0; the second 10 mm low: one-way 13 320, 0, 22 296, 1 804 N (hand program)."""
    stands = [at(str(x), x) for x in (0.3, 2.6, 5.0, 7.0)]
    standing = on_stands(GIRDER, stands, (CASE,), 0.010)
    assert standing.sides[0].bent.reactions == pytest.approx([8730.7, 12073.0, 11109.0, 5507.4], abs=0.5)
    assert "2.6" in standing.lifted
    only = on_stands(GIRDER, [stands[0], at("2.6", 2.6, imposed=0.0), *stands[2:]], (CASE,), 0.010)
    assert only.low[0] >= 13320.0 - 0.5
    assert only.low[2] >= 22296.0 - 1.0


def test_axles_in_step_are_one_support():
    springs = [at(f"{x}", x, 0.15, 260000.0) for x in (5.0, 6.0, 7.0)]
    group = in_step(springs)
    assert sum(share for _, share, _ in group.terms) == pytest.approx(1.0)
    assert sum(share * x + lever for x, share, lever in group.terms) == pytest.approx(6.15)


def test_parked_and_under_snow():
    both = tuple(replace(i, aboard=(1.0,) * len(STATES)) for i in LOADS)
    pieces = (*rails(), *across("c", tuple(0.5 * n for n in range(-6, 19)), depth=0.2))
    dry = found(model(both, pieces, jack=0.3, stands=(2.2, 4.1, 6.0, 8.5)))
    _, quantities, checks = found(model(both, pieces, jack=0.3, stands=(2.2, 4.1, 6.0, 8.5), snow=600.0))
    assert "frame.parked_snow.bending" not in dry[2]
    for id in ("frame.parked.bending", "frame.parked_snow.bending"):
        assert checks[id].status == "review"
    assert checks["frame.parked_snow.bending"].ratio > checks["frame.parked.bending"].ratio
    names = ("moment_sag", "moment_hog", "shear", "deflection", "camber")
    assert {f"frame.parked.{k}" for k in names} <= set(quantities)
    assert quantities["frame.towing_parked.difference"].nominal > 0.0
    low = [q.title for id, q in quantities.items() if id.startswith("frame.parked") and "foot" in q.title]
    assert any(" low" in title for title in low)
    live = 1915.21036 * 2.4 * 9.2
    assert quantities["frame.parked.low_reaction"].nominal * G * 10 > sum(i.mass for i in LOADS) * G + live


def test_what_acts_parked_is_what_the_feet_carry():
    """Both rails' reactions add up to the mass printed beside the moment: statics."""
    both = tuple(replace(i, aboard=(1.0,) * len(STATES)) for i in LOADS)
    axle = replace(item("axle", 4000.0, 6.0, 6.2, unsprung=True), aboard=(1.0,) * len(STATES))
    of = model((*both, axle), jack=0.3, stands=(2.2, 4.1, 6.0, 8.5), snow=600.0)
    outcome = found(of)[2]["frame.parked_snow.bending"].outcome
    acting = next(s for s in outcome.steps if s.result.symbol == "m_s")
    given = {v.symbol: v.value for v in acting.inputs}
    by_hand = given["W"] + (1915.21036 * 2.4 * 9.2 + 0.7 * 600.0 * 2.4 * 12.4) / G
    assert acting.result.value == pytest.approx(by_hand, rel=1e-12)
    assert next(v.value for s in outcome.steps for v in s.inputs if v.symbol == "m_0") == acting.result.value
    live = [(0.0, 9.2, 1915.21036 * 2.4 * 9.2), (-3.2, 9.2, 0.7 * 600.0 * 2.4 * 12.4)]
    rail = sides_of(of, "parked_light", 1.9, live, hanging=True)
    assert sum(r.total for r in rail) / G == pytest.approx(acting.result.value, rel=1e-12)


def test_a_low_foot_bends_the_rails_and_presses_the_webs():
    """Stands 0.3, 2.6, 5.0, 7.0, as above: the greatest reaction with a foot low is that of `pushed` alone."""
    stands = [at(str(x), x) for x in (0.3, 2.6, 5.0, 7.0)]
    standing = on_stands(GIRDER, stands, (CASE,), 0.010)
    assert [s.is_low for s in standing.sides] == [False, True, True, True, True]
    assert max(float(s.bent.reactions.max()) for s in standing.sides) == pytest.approx(max(standing.low))
    for s in standing.sides:
        assert float(s.bent.reactions.sum()) == pytest.approx(CASE.total, rel=1e-9)
        assert s.bent.reactions.min() >= -1e-6
    # A beam let down at one stand: its deflection there is the drop, where it still stands on it.
    for n, s in enumerate(standing.sides[1:]):
        w = s.diagram.deflection(np.array([0.3, 2.6, 5.0, 7.0]))
        for k in range(4):
            if s.bent.reactions[k] > 0.0:
                assert w[k] == pytest.approx(-0.010 if k == n else 0.0, abs=1e-9)


def test_unknown_snow_is_named_and_the_rest_stands():
    both = tuple(replace(i, aboard=(1.0,) * len(STATES)) for i in LOADS)
    pieces = (*rails(), *across("c", tuple(0.5 * n for n in range(-6, 19)), depth=0.2))
    _, _, checks = found(model(both, pieces, jack=0.3, stands=(2.2, 4.1, 6.0, 8.5), snow=float("nan")))
    assert checks["frame.parked_snow.bending"].status == "not assessed"
    assert checks["frame.parked.bending"].status == "review"


def test_stands_that_do_not_hold_the_house_are_said():
    both = tuple(replace(i, aboard=(1.0,) * len(STATES)) for i in LOADS)
    _, _, checks = found(model(both, stands=(7.0, 8.5)))
    assert checks["frame.parked.bending"].outcome == Missing(("the beam tips off its supports",))


def stations(held):
    return [h.station for h in held]


def test_a_crossmember_holds_the_flange_it_touches():
    deep, high = across("deep", (1.0, 8.0), depth=0.2), across("high", (3.0, 5.05))
    held = braces(model(pieces=(*rails(), *deep, *high)), rails_of(model(), DATA)[0], (5.05, 5.95), DATA)
    assert stations(held.top) == pytest.approx((1.0, 3.0, 5.05, 8.0))
    # The bracket at 5.05 stands under a crossmember, the one at 5.95 does not.
    assert [(h.station, h.what) for h in held.bottom] == [
        (1.0, "deep"), (5.05, "axle bracket with its tube, under high"), (8.0, "deep")]


@pytest.mark.parametrize(("spacing", "count"), [(1.9, 1), (1.82, 1), (1.6, 0), (2.2, 0), (float("nan"), 0)])
def test_a_bracket_that_is_not_under_the_rail_does_not_hold_its_flange(spacing, count):
    """The rail runs from 0.90 to 1.00 m off the centre line; 10 mm are allowed."""
    of = model(pieces=(*rails(), *across("high", (5.05,))), spacing=spacing)
    assert len(braces(of, rails_of(of, DATA)[0], (5.05,), DATA).bottom) == count


def test_a_spring_hanger_is_tied_to_nothing():
    of = model(pieces=(*rails(), *across("high", (5.05,))))
    of.spec.trailer.running_gear.suspension = Leaf.model_construct(bracket_spacing=m(1.9))
    assert braces(of, rails_of(of, DATA)[0], (5.05,), DATA).bottom == ()


def test_a_member_that_is_said_to_brace_does():
    told = [SimpleNamespace(mark="high", braces="both"), SimpleNamespace(mark="deep", braces="none")]
    pieces = (*rails(), *across("deep", (1.0,), depth=0.2), *across("high", (3.0,)))
    held = braces(model(pieces=pieces, members=told), rails_of(model(), DATA)[0], (), DATA)
    assert stations(held.top) == stations(held.bottom) == pytest.approx([3.0])


def test_a_flange_is_free_between_holds_and_not_between_changes_of_sense():
    """AISC 360 (commentary to F1, from memory): an inflection point is no brace."""
    of = model(pieces=(*rails(), *across("deep", (1.0, 8.0), depth=0.2)))
    held = braces(of, rails_of(of, DATA)[0], (), DATA)
    free = stretches_of(held.bottom, -3.2, 9.2)
    assert [f.length for f in free] == pytest.approx([4.2, 7.0, 1.2])
    assert [f.front.what for f in free] == ["end of the rail", "deep", "deep"]


def test_the_step_says_where_the_flange_is_held_and_the_check_rests_on_it():
    high = tuple(0.5 * n for n in range(-6, 19))
    items = (*LOADS, item("tail", 12000.0, 9.0, 9.0))
    of = model(items, pieces=(*rails(), *across("high", high), *across("deep", (0.25, 8.75), depth=0.2)))
    outcome = found(of)[2]["frame.towing.bending"].outcome
    (step,) = [s for s in outcome.steps if s.result.symbol == "L_b"]
    places = {v.symbol: v.value for v in step.inputs}
    assert step.result.value == pytest.approx(places["s_2"] - places["s_1"])
    for words in ("s_1 (", "s_2 (", "deep", "axle bracket with its tube, under high"):
        assert words in step.text
    assert outcome.rests_on >= RESTS
    # Free length of the worst stretch, worked without the product: brackets at 5.04885, 5.94885, 6.84885 m.
    ends = [-3.2, 0.25, 5.04885, 5.94885, 6.84885, 8.75, 9.2]
    assert min(abs(step.result.value - (b - a)) for a, b in pairwise(ends)) < 1e-9


def test_bracing_the_bottom_flange_clears_a_rail_that_buckles():
    """The bottom flange is in compression over the axles: members under the deck alone do not help it."""
    stations = tuple(0.5 * n for n in range(-6, 19))
    items = (*LOADS, item("tail", 12000.0, 9.0, 9.0))
    high = found(model(items, pieces=(*rails(), *across("c", stations))))[2]["frame.towing.bending"]
    deep = found(model(items, pieces=(*rails(), *across("c", stations, depth=0.2))))[2]["frame.towing.bending"]
    assert "bottom flange" in high.outcome.steps[0].text
    assert high.outcome.steps[0].inputs[0].symbol == "x"
    assert high.ratio > 1.2 * deep.ratio


def test_required_inertia_put_in_gives_length_over_360():
    _, quantities, checks = found(model())
    needed, now = quantities["frame.travel.required_inertia"].nominal, 1.72e7 / MODULUS
    chord_now = checks["frame.chord"].outcome.demand.value
    assert chord_now * now / needed == pytest.approx(12.4 / 360, rel=1e-9)


def test_brief_of_the_neck_root():
    _, quantities, checks = found(model(jack=0.3))
    mass = sum(i.mass for i in LOADS)
    root = quantities["frame.travel.moment_neck_root"].nominal
    assert quantities["frame.neck_root.moment_towing"].nominal == pytest.approx(2.0 * root / 2, rel=1e-4)
    assert quantities["frame.neck_root.moment_jacked"].nominal < 0.0
    assert quantities["frame.neck_root.axial"].nominal == pytest.approx((17296.0 - 7680.0) / 2, abs=1.0)
    assert quantities["frame.neck_root.push"].nominal == pytest.approx(0.8 * mass * G)
    assert quantities["frame.neck_root.stress_range"].nominal == pytest.approx(root / 2 / 2e-4, rel=1e-4)
    assert checks["frame.neck_root"].status == "not assessed"


def test_the_neck_root_is_never_assessed_here():
    _, _, checks = found(model())
    check = checks["frame.neck_root"]
    assert check.status == "not assessed"
    assert check.outcome.steps
    assert "engineer" in check.outcome.inputs[0]


def test_moments_grow_with_the_mass_of_a_trial():
    _, quantities, _ = found(model(), trials=(1.0, 1.2))
    q = quantities["frame.travel.moment_hog"]
    assert q.high == pytest.approx(q.nominal * 1.19, rel=1e-9)


@pytest.mark.parametrize(("grade", "mpa"), [
    ("ASTM A36", 248.2), ("A500 Gr. C", 344.7), ("ASTM A500 Grade B", 317.2), ("A572-50", 344.7), ("ASTM A992", 344.7),
    ("S355J2", 355.0), ("EN 10025 S275", 275.0), ("astm a572 gr 50", 344.7), ("ASTM A992 Gr. 50", 344.7),
])
def test_grades_as_people_write_them(grade, mpa):
    _, quantities, checks = found(model(pieces=rails(grade)))
    assert isinstance(checks["frame.towing.bending"].outcome, Compared)
    moment = max(quantities[f"frame.towing.moment_{k}"].nominal for k in ("sag", "hog"))
    needed = quantities["frame.travel.required_modulus"].nominal
    assert 4 * moment * 1.67 / needed == pytest.approx(mpa * 1e6, rel=2e-4)


@pytest.mark.parametrize("grade", ["mild steel", "A500", "A572", "A5000 C", "Gr. 50", "unknown"])
def test_a_grade_that_is_not_in_the_table_is_named(grade):
    _, quantities, checks = found(model(pieces=rails(grade)))
    assert checks["frame.towing.bending"].outcome == Missing((f"yield strength of steel {grade!r}",))
    assert "frame.travel.required_modulus" not in quantities


def test_without_rails_the_stress_is_not_assessed_but_the_moments_are():
    _, quantities, checks = found(model(pieces=()))
    assert checks["frame.towing.bending"].status == "not assessed"
    assert np.isnan(quantities["frame.travel.deflection"].nominal)
    assert quantities["frame.travel.moment_hog"].nominal > 0.0


@pytest.mark.parametrize("field", ["mass", "x0"])
def test_an_unknown_item_leaves_the_diagram_empty(field):
    unknown = replace(LOADS[0], **{field: float("nan")})
    beam, quantities, checks = found(model((unknown, *LOADS[1:])), rests_on=frozenset({"unknown:weights.yaml:4"}))
    assert checks["frame.towing.bending"].outcome == Missing(("weights.yaml:4",))
    assert beam.x == () == beam.supports
    assert quantities == {}
    assert {c.status for c in checks.values()} == {"not assessed"}


@pytest.mark.parametrize("more", [{"hitch": float("nan")}, {"hitch": 9.0}, {"stations": (-2.3, -2.3, -2.3)},
                                  {"stations": (float("nan"), 6.1, 7.0)}])
def test_a_trailer_nobody_can_solve_is_not_assessed(more):
    beam, quantities, checks = found(model(**more))
    assert (beam.x, quantities) == ((), {})
    assert {c.status for c in checks.values()} == {"not assessed"}


def test_a_house_longer_than_its_frame_still_balances():
    beam, _, _ = found(model((*LOADS, item("porch", 4000.0, 9.2, 10.4))))
    assert beam.x[-1] == pytest.approx(10.4)
    assert sum(s.force for s in beam.supports) == pytest.approx(beam.mass * G, rel=1e-9)
