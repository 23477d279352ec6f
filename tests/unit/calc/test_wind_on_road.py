"""Gusts from the side, on the scratch design."""

import math

import pytest
import scratch
from road_found import found, nominal, quantity, states_of

from generator.calc.record import Working
from generator.calc.topics import wind_on_road as wr
from generator.calc.trials import Trials
from generator.model.resolve import resolve

LOFT = {
    "id": "over",
    "title": "Loft over the main room",
    "front": "0 m",
    "rear": "3 m",
    "floor": "1800 mm",
    "ceiling": "2900 mm",
    "roof": "3000 mm",
    "headroom": "1000 mm",
}


def side_of(**changes):
    return wr.side(resolve(scratch.spec(**changes), scratch.DATA))


def test_outline_of_the_side():
    """Main part 9.0 m from -0.23 to 2.60 m, neck part 2.7 m from 1.00 to 2.65 m."""
    seen = side_of()
    main, neck = 9.0 * 2.83, 2.7 * 1.65
    assert seen.area.values[0] == pytest.approx(main + neck)
    assert seen.x.values[0] == pytest.approx((main * 4.5 + neck * -1.35) / (main + neck))
    assert seen.zeta.values[0] == pytest.approx((main * 1.185 + neck * 1.825) / (main + neck))


def test_zones_one_over_the_other_are_not_counted_twice():
    seen = side_of(house={"zones": [*scratch.HOUSE["zones"], LOFT]})
    assert seen.area.values[0] == pytest.approx(side_of().area.values[0] + 3.0 * 0.4)


def test_the_lightest_roofed_state_governs():
    model, states = states_of(scratch.spec())
    seen, none = wr.side(model), Trials(count=0)
    tips = [float(wr.tip_speed(Working(), t, seen, none, scratch.DATA).values[0]) for t in states if t.roofed]
    assert nominal(found(wr.wind_on_road), "wind.tip_speed") == min(tips)
    assert {t.state.id for t in states if not t.roofed} == {"bare"}


def test_a_gust_hits_harder_the_faster_one_drives():
    of, slow = found(wr.wind_on_road), found(wr.wind_on_road, project={"use.top_speed": "60 km/h"})
    assert nominal(of, "wind.half_speed") < nominal(of, "wind.lift_speed") < nominal(of, "wind.tip_speed")
    assert nominal(slow, "wind.half_speed") > nominal(of, "wind.half_speed")
    assert nominal(slow, "wind.tip_speed") == nominal(of, "wind.tip_speed")
    assert "use.highway_speed" in quantity(of, "wind.half_speed").rests_on
    assert "use.highway_speed" not in quantity(slow, "wind.half_speed").rests_on


@pytest.mark.parametrize("change", [{"zones.0.roof": "unknown"}, {"zones.1.front": "unknown"}])
def test_an_unknown_outline_gives_no_number_and_names_itself(change):
    of = found(wr.wind_on_road, house=change)
    assert math.isnan(nominal(of, "wind.half_speed"))
    assert any(r.startswith("unknown:house.yaml zones.") for r in quantity(of, "wind.half_speed").rests_on)


def test_a_house_without_height_has_no_side():
    of = found(wr.wind_on_road, house={"zones.0.roof": "-1 m", "zones.1.roof": "0 m"})
    assert math.isnan(nominal(of, "wind.tip_speed"))
