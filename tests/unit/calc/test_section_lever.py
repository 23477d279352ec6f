"""A stronger section as the smallest change of a failing frame check: it clears it, the one before does not."""

from pathlib import Path

import pytest

from generator.calc.levers import is_steel, members_at, stronger, with_section
from generator.calc.run import calculate, statuses
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.read import read_spec

HERON = Path(__file__).resolve().parents[3] / "specs" / "heron"
DATA = reference()
RAIL = "trailer.frame.members.r1.section"


@pytest.fixture(scope="module")
def weak():
    """Heron on rails two sizes too light, and its failing frame checks."""
    spec = with_section(read_spec(HERON), RAIL, "W8x10", DATA.sections)
    found = calculate(resolve(spec, DATA), DATA, Trials(count=0)).checks
    return spec, {c.id: c for c in found if c.status == "fail" and c.id.startswith("frame.")}


def test_the_section_offered_clears_the_check_and_the_one_before_does_not(weak):
    spec, checks = weak
    offered = [(id, m) for id, c in checks.items() for m in c.changes if is_steel(m.lever)]
    assert {id for id, _ in offered} >= {"frame.towing.bending", "frame.chord"}
    for id, change in offered:
        ladder = stronger(DATA.sections, change.names[0])
        at = ladder.index(change.names[1])
        assert statuses(with_section(spec, change.lever, ladder[at], DATA.sections), DATA)[id] in ("pass", "review")
        if at:
            before = statuses(with_section(spec, change.lever, ladder[at - 1], DATA.sections), DATA)[id]
            assert before not in ("pass", "review")


def test_a_change_of_steel_is_named_and_has_its_modulus(weak):
    _, checks = weak
    change = next(m for m in checks["frame.towing.bending"].changes if is_steel(m.lever))
    assert change.names[0] == "W8x10"
    assert change.then.value == DATA.sections[change.names[1]].modulus > change.now.value


@pytest.mark.parametrize(("name", "first"), [("W8x15", "W8x18"), ("HSS6x4x3/16", "HSS6x4x1/4"), ("C6x8.2", "C6x10.5")])
def test_the_same_outside_comes_first(name, first):
    assert stronger(DATA.sections, name)[0] == first


@pytest.mark.parametrize("name", sorted(DATA.sections))
def test_a_ladder_stays_in_its_shape_and_climbs(name):
    rows = [DATA.sections[n] for n in stronger(DATA.sections, name)]
    assert {s.shape for s in rows} <= {DATA.sections[name].shape}
    moduli = [s.modulus for s in rows]
    assert moduli == sorted(moduli)
    assert all(m > DATA.sections[name].modulus for m in moduli)


def test_a_rail_keeps_its_outer_face():
    spec = read_spec(HERON)
    faces = [members_at(s, RAIL)[0].y.nominal + DATA.sections[members_at(s, RAIL)[0].section].width / 2
             for s in (spec, with_section(spec, RAIL, "W8x18", DATA.sections))]
    assert faces[0] == pytest.approx(faces[1], abs=1e-12)


def test_an_unknown_section_has_no_ladder():
    assert stronger(DATA.sections, "W99x1") == ()
