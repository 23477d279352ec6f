"""Counts of a year for the engineer: swings on the road, lifts of the nose."""

import math

import pytest
import scratch

from generator.calc.topics.fatigue import fatigue
from generator.calc.trials import Trials


def counts(**use: object) -> dict[str, float]:
    """Nominal counts of the scratch design used like this."""
    of = scratch.spec(project={f"use.{name}": value for name, value in use.items()})
    return {q.id: q.nominal for q in fatigue(scratch.model([], of), Trials(count=0), scratch.DATA).quantities}


def test_two_swings_a_second_at_twenty_metres_a_second() -> None:
    """1000 km at 20 m/s last 50 000 s; two swings a second make 100 000."""
    found = counts(distance_a_year="1000 km", moves_a_year="4")
    assert found["fatigue.swings"] == pytest.approx(50_000.0 * 2.0)
    assert found["fatigue.lifts"] == 8.0


def test_a_house_that_is_never_moved_swings_never() -> None:
    assert counts(distance_a_year="0 km", moves_a_year="0") == {"fatigue.swings": 0.0, "fatigue.lifts": 0.0}


def test_an_unknown_distance_is_no_number() -> None:
    assert math.isnan(counts(distance_a_year="unknown")["fatigue.swings"])
