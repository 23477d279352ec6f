"""The example design by two routes: the beam on its stiff frame against the closed form of the axle loads, and its
moment at the neck root against a sum of moments by hand (mechanics: equilibrium of the neck as a free body).
"""

from pathlib import Path

import numpy as np
import pytest

from generator.calc.run import work
from generator.calc.topics.frame_beam import case_of, rails_of, solve_road
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.read import read_spec

HERON = Path(__file__).resolve().parents[2] / "specs" / "heron"


@pytest.fixture(scope="module")
def solved():
    data = reference()
    model = resolve(read_spec(HERON), data)
    worked = work(model, data, Trials(count=0))
    road = solve_road(model, case_of(model), worked.rides["travel"], rails_of(model, data), data)
    return model, worked, road


def test_supports_of_the_stiff_frame_are_the_closed_form(solved):
    _, worked, road = solved
    load = worked.loads["travel"]
    axles = [float(n.values[0] - u.values[0]) * G for n, u in zip(load.axles, load.at.unsprung, strict=True)]
    assert road.stiff.reactions == pytest.approx([float(load.hitch.values[0]) * G, *axles], rel=1e-4)
    assert road.stiff.loads.total / G == pytest.approx(float(load.sprung_mass.values[0]), rel=1e-9)


def test_neck_root_by_hand(solved):
    """Hitch force times its arm less every load ahead of the root times its own."""
    model, worked, road = solved
    index = next(i for i, s in enumerate(model.states) if s.id == "travel")
    moment = float(worked.loads["travel"].hitch.values[0]) * G * -model.spec.trailer.coupling.station.nominal
    for item in model.items:
        if item.unsprung or item.x0 >= 0.0:
            continue
        force, ahead = item.mass * item.aboard[index] * G, min(item.x1, 0.0)
        share = 1.0 if item.x1 <= 0.0 else (ahead - item.x0) / (item.x1 - item.x0)
        moment -= force * share * -(item.x0 + ahead) / 2.0
    assert road.stiff.moment(np.zeros(1), after=False)[0] == pytest.approx(moment, rel=1e-4)


def test_rails_of_the_example_are_found(solved):
    _, _, road = solved
    assert {r.mark for r in road.rails} == {"r1", "n1"}
