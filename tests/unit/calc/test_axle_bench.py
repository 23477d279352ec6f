"""The curve of sure stations, found by halving, against every limit looked at in every trial at every station."""

from pathlib import Path

import numpy as np
import pytest

from generator.calc.record import spread
from generator.calc.sums import sums
from generator.calc.topics.attitude import attitudes
from generator.calc.topics.axle_bench import Bench, greatest, kept_at, ratios
from generator.calc.topics.axles import level_loads
from generator.calc.topics.hitch_limits import hitch_limits
from generator.calc.topics.masses import state_masses
from generator.calc.topics.placement import bench
from generator.calc.topics.rides import rides
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.spec.read import read_spec

SPECS = Path(__file__).resolve().parents[3] / "specs"


def of(name: str, count: int) -> Bench:
    data, trials = reference(), Trials(count=count)
    model = resolve(read_spec(SPECS / name), data)
    with np.errstate(all="ignore"):
        loads = level_loads(model, state_masses(model, sums(model, trials, data)), trials, data)
        ride = rides(model, loads, trials, data)
        seats = attitudes(model, loads, ride, trials).seats
        return bench(model, loads, ride, trials, data, hitch_limits(model), seats)


@pytest.mark.parametrize("name", ["heron", "wren", "dipper", "first-sketch"])
@pytest.mark.parametrize(("count", "reach"), [(2500, 0.6), (300, 3.0)])
def test_halving_finds_what_looking_everywhere_finds(name, count, reach):
    b = of(name, count)
    for number in (1, 2, 61):
        stations = np.linspace(b.middle - reach, b.middle + reach, number)
        everywhere = [np.mean(ratios(b, np.array([[x]])).max(axis=(0, 1)) <= 1.0) for x in stations]
        assert kept_at(b, stations).tolist() == everywhere


def test_blocks_of_trials_change_nothing():
    b = of("heron", 4321)
    assert (greatest(b) == ratios(b, np.array([[b.middle]])).max(axis=(0, 1))).all()


@pytest.mark.parametrize("count", [1, 2, 3, 19, 20, 21, 100, 9999, 10000])
def test_percentiles_are_those_of_numpy(count):
    values = np.random.Generator(np.random.PCG64(count)).normal(size=count)
    assert spread(values) == pytest.approx(np.percentile(values, [5.0, 95.0]), rel=1e-12)
