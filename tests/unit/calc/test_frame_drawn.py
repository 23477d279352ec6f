"""The frame as drawn in a hard stop, on its jacks and parked: against statics of the whole body, worked again here."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from generator.calc.beam import Girder, Loads, at, solve
from generator.calc.findings import Beam, Results
from generator.design import Design, design

SPECS = Path(__file__).resolve().parents[3] / "specs"
G = 9.80665
NAMES = ("heron", "wren", "dipper")


@cache
def _design(name: str) -> Design:
    return design(SPECS / name)


def _results(name: str) -> Results:
    return _design(name).results


def _case(name: str, id: str) -> Beam:
    return next(b for b in _results(name).cases if b.id == id)


def test_a_couple_turns_a_beam_as_the_textbook_says() -> None:
    """A couple M in the middle of a simple span L: reactions M/L, moment steps by M from -M/2 to M/2.

    Source: statics of a simply supported beam under an applied moment (any handbook, as in AISC Manual Table 3-23's
    "simple beam, moment"); nose-down positive, so the front support takes more.
    """
    none = np.zeros((0, 2)), np.zeros((0, 4))
    girder, supports = Girder(0.0, 4.0, ((0.0, 1e6),)), [at("a", 0.0), at("b", 4.0)]
    bent, = solve(girder, supports, [Loads(*none, couples=((2.0, 1000.0),))])
    assert bent.reactions == pytest.approx([250.0, -250.0])
    middle = np.array([2.0])
    assert bent.moment(middle, after=False) == pytest.approx(500.0)
    assert bent.moment(middle) == pytest.approx(-500.0)


@pytest.mark.parametrize("name", NAMES)
def test_a_hard_stop_loads_the_hitch_as_the_whole_body_does(name: str) -> None:
    """Moments of the whole trailer about the ground under its axles: H = W ((x_a - x_g) + a z_g) / (x_a - x_h).

    Exact with equalised leaf springs; torsion axles shift their middle as the nose dips, by less than 1 %.
    """
    it = _design(name)
    row = next(s for s in it.results.states if s.id == "travel")
    x_h = it.model.spec.trailer.coupling.station.nominal
    assert row.hitch is not None
    assert row.group is not None
    x_a = (row.mass * row.x - row.hitch * x_h) / row.group
    share = it.data.defaults["brake.hard"].value
    wanted = row.mass * ((x_a - row.x) + share * row.z) / (x_a - x_h)
    hitch = next(s for s in _case(name, "braking").supports if s.title == "hitch")
    assert hitch.force / G == pytest.approx(wanted, rel=0.01 if name == "heron" else 1e-3)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("id", ["braking", "jacked", "parked"])
def test_diagrams_close_and_carry_what_they_say(name: str, id: str) -> None:
    """Supports carry the mass named; shear and moment end at nought; the deck's ends lie on their chord."""
    b = _case(name, id)
    assert b.weight == pytest.approx(b.mass * G, rel=1e-9)
    size = b.mass * G
    assert abs(b.shear[-1]) < 1e-6 * size
    assert abs(b.moment[-1]) < 1e-6 * size
    length = _design(name).model.spec.trailer.frame.length.nominal
    assert np.interp([0.0, length], b.x, b.deflection) == pytest.approx([0.0, 0.0], abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_moment_is_the_area_of_the_shear_but_for_couples(name: str) -> None:
    """dM/dx = V between stations: trapezium sums on the jacks, where nothing turns the frame but its supports."""
    b = _case(name, "parked")
    area = sum((v + w) / 2.0 * (q - p) for (p, q), (v, w) in zip(pairwise(b.x), pairwise(b.shear), strict=True))
    assert area == pytest.approx(0.0, abs=1e-3 * max(map(abs, b.moment)))


def test_masses_of_the_cases_are_those_of_their_states() -> None:
    """Sprung mass as towed on the jacks; all of it, wheels hanging, when parked."""
    heavy = next(s for s in _results("heron").states if s.id == "parked_heavy")
    assert _case("heron", "parked").mass == pytest.approx(heavy.mass, rel=1e-9)
    assert _case("heron", "jacked").mass == pytest.approx(_results("heron").beam.mass, rel=1e-9)
