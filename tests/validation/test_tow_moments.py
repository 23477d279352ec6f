"""Axle loads by moments: NCERT Physics Part I, class XI, chapter 7 (read): a car of 1 800 kg, axles 1.8 m apart, centre
of mass 1.05 m behind the front axle, g 9.8: each front wheel 3 675 N, each rear wheel 5 145 N."""

import pytest

from generator.calc.topics.tow import FRONT_ADDED, REAR_ADDED


def test_published_car_on_two_axles():
    """A mass between the axles is a hitch load ahead of the rear axle (o negative)."""
    weight, wheelbase, ahead = 1800 * 9.8, 1.8, -(1.8 - 1.05)
    assert FRONT_ADDED.of(H=weight, wb=wheelbase, o=ahead) / 2 == pytest.approx(3675.0)
    assert REAR_ADDED.of(H=weight, wb=wheelbase, o=ahead) / 2 == pytest.approx(5145.0)
