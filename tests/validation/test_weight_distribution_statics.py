"""F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, problems 6.95 and 6.96: trailer of 2 400 lb
behind a truck of 2 900 lb, without and with a load-spreading hitch (weights and text read, lengths and answers from
memory; all printed answers come out). Feet and pounds.
Pickup of 3 000 kg with 538.46 kg on a ball 1.30 m behind its rear axle: independent hand program.
"""

import pytest
from road_sample import puller, towed

from generator.calc.record import Working, sure
from generator.calc.topics import weight_distribution as wd
from generator.calc.topics.suspension import G

TRAILER = towed(2400.0, 9.0, 0.0, 11.0, 1.0, 1.0)
"""Centre 9 ft behind the ball, axle 2 ft further."""
TRUCK = puller(2900.0 * 5 / 9, 2900.0 * 4 / 9, 9.0, 3.0)
"""Centre 5 ft ahead of the rear axle, front axle 4 ft further, ball 3 ft behind the rear axle."""


def shared(r):
    found = wd.shared(
        Working(), sure("r", r, "%"), TRAILER.hitch, sure("u", 11.0, "m"), TRAILER.group, TRUCK
    )
    return [float(q.values[0]) for q in found]


def test_without_the_bars():
    """Problem 6.95: 982 lb a trailer wheel, 935 a rear and 733 a front wheel of the truck; change +291 and -72.7."""
    front, rear, group = shared(0.0)
    assert [group / 2, rear / 2, front / 2] == pytest.approx([982, 935, 733], abs=0.5)
    assert rear / 2 - 2900 * 4 / 18 == pytest.approx(291, abs=0.5)
    assert front / 2 - 2900 * 5 / 18 == pytest.approx(-72.7, abs=0.05)


def test_bars_that_load_all_wheels_of_the_truck_alike():
    """Problem 6.96: chains 1.7 ft behind the ball, 572 lb in each of two; wheels 1 070, 709 and 870 lb.

    The moment of the chains about the ball is the moment of the bars.
    """
    moment = 2 * 572.3 * 1.7
    H = float(TRAILER.hitch.values[0])
    r = moment * (1 + 3.0 / 11.0) / (H * 3.0)
    front, rear, group = shared(r)
    assert [group / 2, rear / 2, front / 2] == pytest.approx([1070, 709, 870], abs=0.6)
    assert front / 2 - 2900 * 5 / 18 == pytest.approx(64.9, abs=0.1)
    assert rear / 2 - 2900 * 4 / 18 == pytest.approx(64.9, abs=0.1)


@pytest.mark.parametrize("r", [0.0, 0.3, 1.0])
def test_nothing_is_lost(r):
    assert sum(shared(r)) == pytest.approx(2400.0 + 2900.0, abs=1e-9)


def test_all_of_it_given_back_leaves_the_front_axle_as_it_was():
    assert shared(1.0)[0] == pytest.approx(2900 * 5 / 9, abs=1e-9)


@pytest.mark.parametrize(
    ("r", "front", "rear", "moved"), [(0.5, 1562.3, 1922.3, 53.846), (1.0, 1650.0, 1780.8, 107.69)]
)
def test_pickup(r, front, rear, moved):
    H, u, o, wb = 538.46, 5.2, 1.30, 3.99
    M_d = wd.BAR_MOMENT.of(r=r, H=H, o=o, u=u)
    dA = wd.TO_TRAILER.of(M_d=M_d, u=u)
    assert dA == pytest.approx(moved, abs=0.006)
    assert wd.FRONT_ON.of(F_0=1650.0, H=H, dA=dA, o=o, wb=wb, M_d=M_d) == pytest.approx(front, abs=0.06)
    assert wd.REAR_ON.of(R_0=1350.0, C=0.0, H=H, dA=dA, o=o, wb=wb, M_d=M_d) == pytest.approx(rear, abs=0.06)
    assert pytest.approx(280.0 * r / 0.5, abs=0.01) == M_d / G
