"""A second rail under the main rail: what each takes of the moment both carry.

Textbook (any course in strength of materials, two planks one on the other): loose, they bend alike, so each takes of
the moment by its E I, two equal ones half each; glued they are one section and stronger still. Nothing is counted on
glue or weld here.
"""

from dataclasses import replace

import numpy as np
import pytest
from test_frame import DATA, found, model, piece, rails

from generator.calc.topics.frame_beam import rails_of
from generator.calc.topics.frame_strength import SHARED, SHARED_FORCE

FRONT, REAR = 4.5, 7.5


def hanger(section="test", top=-0.2):
    return tuple(replace(p, z0=top - 0.2, z1=top) for p in piece("s1", FRONT, REAR, 0.05, section=section))


def by_mark(pieces, data=DATA):
    return {r.mark: r for r in rails_of(model(pieces=(*rails(), *pieces)), data)}


def test_two_equal_rails_take_half_each():
    of = by_mark(hanger())
    x = np.array([0.0, FRONT, 5.0, 7.0, REAR, 9.0])
    assert of["r1"].parts(x) == pytest.approx([1.0, 1.0, 0.5, 0.5, 1.0, 1.0])  # beside the other's end it is alone
    assert of["s1"].parts(x[1:5]) == pytest.approx([0.5] * 4)


def test_each_takes_by_its_inertia():
    """Two thirds and one third where one is twice as stiff as the other."""
    soft = replace(DATA.sections["test"], name="soft", inertia=DATA.sections["test"].inertia / 2)
    of = by_mark(hanger("soft"), replace(DATA, sections={**DATA.sections, "soft": soft}))
    x = np.array([6.0])
    assert of["r1"].parts(x) == pytest.approx([2 / 3])
    assert of["s1"].parts(x) == pytest.approx([1 / 3])
    assert SHARED.of(M=9000.0, I_r=2e-5, I_s=3e-5) == pytest.approx(6000.0)
    assert SHARED_FORCE.of(V=900.0, I_r=1e-5, I_s=3e-5) == pytest.approx(300.0)


def test_rails_apart_do_not_share():
    of = by_mark(hanger(top=-0.25))
    assert not of["r1"].stacked
    assert not of["s1"].stacked


@pytest.mark.parametrize("section", ["HSS3x3x1/8", "HSS6x3x3/16", "test"])
def test_a_rail_more_makes_no_check_worse(section):
    """Held against the whole moment, a light second rail failed where the main rail alone passed."""
    grade = "ASTM A992" if section == "test" else "ASTM A500 C"
    second = tuple(replace(p, grade=grade) for p in hanger(section))
    alone, both = (found(model(pieces=of))[2] for of in (rails(), (*rails(), *second)))
    for id in ("frame.towing.bending", "frame.shear"):
        assert both[id].ratio <= alone[id].ratio * 1.02
