"""The frame on the road, on a scratch trailer whose answers are known: triple torsion axles, E I 1.72e7 N m2, loads of
5 500 N/m on 9.2 m, 2 400 N/m on a 3.2 m neck and 2 500 N at 2.0 m (independent hand program, confirmed by PyNite)."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from generator.calc.record import Compared, Missing, Quantity, sure
from generator.calc.topics.frame import frame
from generator.calc.topics.frame_beam import averaged, case_of, rails_of
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.states import STATES
from generator.model.types import Item, Model, Piece
from generator.reference.load import reference
from generator.spec.measure import Measure
from generator.spec.models.trailer import Torsion

DATA = reference()
MODULUS = DATA.defaults["frame.modulus"].value
RAIL = replace(DATA.sections["W8x18"], name="test", inertia=1.72e7 / MODULUS / 2, modulus=2e-4)
DATA = replace(DATA, sections={**DATA.sections, "test": RAIL})
TRAVEL = tuple(float(s.id == "travel") for s in STATES)
RIDE = SimpleNamespace(give=sure("alpha", 0.0, "rad"),
                       rates=tuple(sure("k", 260000.0, "N/m:spring") for _ in range(3)))


def m(value, kind="length"):
    return Measure(value, value, value, "sure", kind)


def item(id, newtons, x0, x1, **more):
    kg = newtons / G
    return Item(id, id, "shell", kg, kg, kg, "sure", "table", x0, x1, 0.0, 1.0, TRAVEL, **more)


LOADS = (item("deck", 5500.0 * 9.2, 0.0, 9.2), item("neck", 2400.0 * 3.2, -3.2, 0.0), item("stove", 2500.0, 2.0, 2.0))


def piece(mark, x0, x1, half, grade="ASTM A992", section="test", y=0.95):
    return [Piece(mark, mark, section, grade, "lengthwise", x0, x1, s * y - half, s * y + half, -0.2, 0.0, 100.0)
            for s in (-1, 1)]


def rails(grade="ASTM A992"):
    return tuple(piece("r1", -3.2, 9.2, 0.05, grade) + piece("edge", 0.0, 9.2, 0.02, y=1.2))


def model(items=LOADS, pieces=None, stations=(5.2, 6.1, 7.0), jack=None, hitch=-2.3):
    axle = SimpleNamespace(rating=m(2722.0, "mass"), unsprung=m(160.0, "mass"))
    suspension = Torsion.model_construct(arm=m(0.15115), start_angle=m(0.0, "angle"), tube_to_deck=m(0.3))
    tyre = SimpleNamespace(diameter=m(0.78), stiffness=m(5e5, "stiffness"), basis="table")
    gear = SimpleNamespace(suspension=suspension, tyre=tyre, axles=[axle] * 3)
    trailer = SimpleNamespace(
        jacks=[] if jack is None else [SimpleNamespace(station=m(jack))], running_gear=gear,
        coupling=SimpleNamespace(station=m(hitch)), neck=SimpleNamespace(rails_outside=m(2.0)),
        frame=SimpleNamespace(rails_outside=m(2.0), length=m(9.2)))
    spec = SimpleNamespace(trailer=trailer)
    return Model(spec, STATES, tuple(items), rails() if pieces is None else pieces, stations)


def found(of, trials=(1.0,), rests_on=frozenset()):
    mass = sum(i.mass for i in of.items)
    sprung = Quantity("m_s", np.array([1.0, *trials]) * mass, "kg", rests_on=rests_on)
    states = {"travel": SimpleNamespace(sprung_mass=sprung, hitch=sure("H", 1.0, "kg"))}
    beam, findings = frame(of, states, {"travel": RIDE}, Trials(), DATA)
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
    assert len(checks["frame.neck_root"].outcome.steps) == 4


def test_without_a_jack_the_neck_root_has_one_sign():
    _, quantities, checks = found(model())
    assert "frame.jacked.moment_neck_root" not in quantities
    assert len(checks["frame.neck_root"].outcome.steps) == 2


def test_diagram_closes_and_carries_the_mass():
    beam, quantities, _ = found(model())
    weight = sum(i.mass for i in LOADS) * G
    assert beam.mass * G == pytest.approx(weight, rel=1e-12)
    assert sum(s.force for s in beam.supports) == pytest.approx(weight, rel=1e-9)
    assert [s.title for s in beam.supports] == ["hitch", "axle 1 bracket", "axle 2 bracket", "axle 3 bracket"]
    assert beam.supports[1].station == pytest.approx(5.2 - 0.15115)
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


def test_bending_needs_an_engineer_even_when_the_stress_is_low():
    _, quantities, checks = found(model())
    check = checks["frame.travel.bending"]
    moment = max(quantities[f"frame.travel.moment_{k}"].nominal for k in ("sag", "hog"))
    assert check.outcome.demand.value == pytest.approx(2.0 * moment / 4e-4)
    assert check.outcome.limit.value == pytest.approx(50 * 6894757.293 / 1.67)
    assert check.ratio == pytest.approx(quantities["frame.travel.required_modulus"].nominal / 4e-4)
    assert check.status == ("review" if check.ratio <= 1.0 else "fail")
    assert "engineer" in check.about.defer_to


def test_a_required_modulus_put_in_gives_a_ratio_of_one():
    _, quantities, _ = found(model())
    needed = quantities["frame.travel.required_modulus"].nominal
    data = replace(DATA, sections={**DATA.sections, "test": replace(RAIL, modulus=needed / 2)})
    states = {"travel": SimpleNamespace(sprung_mass=sure("m_s", sum(i.mass for i in LOADS), "kg"))}
    _, findings = frame(model(), states, {"travel": RIDE}, Trials(), data)
    assert findings.checks[0].ratio == pytest.approx(1.0, rel=1e-9)


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
    _, _, checks = found(model(pieces=rails(grade)))
    assert isinstance(checks["frame.travel.bending"].outcome, Compared)
    assert checks["frame.travel.bending"].outcome.limit.value == pytest.approx(mpa * 1e6 / 1.67, rel=2e-4)


@pytest.mark.parametrize("grade", ["mild steel", "A500", "A572", "A5000 C", "Gr. 50", "unknown"])
def test_a_grade_that_is_not_in_the_table_is_named(grade):
    _, quantities, checks = found(model(pieces=rails(grade)))
    assert checks["frame.travel.bending"].outcome == Missing((f"yield strength of steel {grade!r}",))
    assert "frame.travel.required_modulus" not in quantities


def test_without_rails_the_stress_is_not_assessed_but_the_moments_are():
    _, quantities, checks = found(model(pieces=()))
    assert checks["frame.travel.bending"].status == "not assessed"
    assert np.isnan(quantities["frame.travel.deflection"].nominal)
    assert quantities["frame.travel.moment_hog"].nominal > 0.0


@pytest.mark.parametrize("field", ["mass", "x0"])
def test_an_unknown_item_leaves_the_diagram_empty(field):
    unknown = replace(LOADS[0], **{field: float("nan")})
    beam, quantities, checks = found(model((unknown, *LOADS[1:])), rests_on=frozenset({"unknown:weights.yaml:4"}))
    assert checks["frame.travel.bending"].outcome == Missing(("weights.yaml:4",))
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
