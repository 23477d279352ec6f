"""The topic of the parked house on the scratch design: what moves what, and what happens when something is missing."""

import math
import re
from contextlib import suppress
from dataclasses import replace

import numpy as np
import pytest
import scratch
from parked_sample import ANCHORS, NOSE, SITE, STANDS, STILL, TIES, check, found, point, spec, stand, value
from road_found import found as found_on_the_road

from generator.calc.record import Compared, Missing
from generator.calc.topics.side_area import side
from generator.calc.topics.wind_on_road import wind_on_road
from generator.calc.trials import Trials
from generator.errors import PacketError
from generator.model.resolve import resolve
from generator.release.grants import CHECKS, QUANTITIES, may_see
from generator.spec.measure import Measure

PLAIN = found()


def inputs(of, id):
    outcome = check(of, id).outcome
    assert isinstance(outcome, Missing), id
    return outcome.inputs


def demand(of, id):
    outcome = check(of, id).outcome
    assert isinstance(outcome, Compared), (id, outcome)
    return outcome.demand.value


def limit(of, id):
    outcome = check(of, id).outcome
    assert isinstance(outcome, Compared), (id, outcome)
    return outcome.limit.value


def test_whole_site_leaves_only_what_others_must_decide_open():
    still_open = {c.id for c in PLAIN.checks if c.status == "not assessed"}
    assert still_open == {"parked.ties", "anchor.capacity", "site.frost", "tyre_change.point"}


def test_without_a_site_everything_names_the_file():
    without = found(spec(site={}))
    assert inputs(without, "parked.overturning") == ("site.yaml",)
    assert inputs(without, "parked.stand.fore") == ("site.yaml",)
    assert inputs(without, "pad.stand.fore") == ("site.yaml",)
    assert inputs(without, "site.flood") == ("site.yaml",)
    assert inputs(without, "level.nose") == ("site.yaml",)
    assert math.isnan(value(without, "parked.snow"))
    assert value(without, "parked.wind.tips_at") == pytest.approx(value(PLAIN, "parked.wind.tips_at"))


@pytest.mark.parametrize(
    ("field", "id"),
    [
        ("exposure", "parked.overturning"),
        ("flood", "site.flood"),
        ("frost", "site.frost"),
        ("seismic", "anchor.seismic"),
        ("sewer_inlet", "drain.grey.outlet"),
    ],
)
def test_a_value_left_out_is_named(field, id):
    short = found(spec(site={k: v for k, v in SITE.items() if k != field}))
    assert inputs(short, id) == (f"site.yaml {field}",)


@pytest.mark.parametrize(("field", "id"), [("pad", "pad.stand.fore"), ("reach", "level.feet")])
def test_a_stand_without_it_is_named(field, id):
    bare = [{k: v for k, v in s.items() if k != field} for s in STANDS]
    assert inputs(found(spec({"stands": bare})), id) == (f"trailer.yaml stands.fore.{field}",)


@pytest.mark.parametrize("soil", ["fill", "organic", "unknown"])
def test_no_figure_counts_on_ground_nobody_knows(soil):
    poor = found(spec(site=SITE | {"soil": soil}))
    for id in ("pad.stand.fore", "pad.wind", "site.bearing"):
        assert "soil report" in " ".join(inputs(poor, id))
    assert math.isnan(value(poor, "pad.stand.fore.side"))


def test_bearing_above_its_table_fails():
    assert check(found(spec(site=SITE | {"soil": "clay", "bearing": "100 kPa"})), "site.bearing").status == "fail"
    assert check(found(spec(site=SITE | {"soil": "clay", "bearing": "70 kPa"})), "site.bearing").status == "pass"


def test_light_state_takes_low_bounds_and_heavy_state_high_ones():
    """Belongings of 300 to 600 kg and the tank are aboard only when lived in."""
    model = resolve(spec(), scratch.DATA)
    light = next(n for n, s in enumerate(model.states) if s.id == "parked_light")
    low = sum(i.low * i.aboard[light] for i in model.items)
    assert value(PLAIN, "parked.mass_low") == pytest.approx(low)
    assert low < sum(i.mass * i.aboard[light] for i in model.items)
    assert value(PLAIN, "parked.mass_high") > sum(i.high * i.aboard[light] for i in model.items)


def test_floor_live_load_counts_where_it_is_more_than_the_list():
    """40 psf on 9.0 + 2.7 m of floor 2.55 m wide against 600 kg and a full tank."""
    model = resolve(spec(), scratch.DATA)
    light = next(n for n, s in enumerate(model.states) if s.id == "parked_light")
    empty = sum(i.high * i.aboard[light] for i in model.items)
    assert value(PLAIN, "parked.mass_high") - empty == pytest.approx(1915.21 / 9.80665 * 11.7 * 2.55, rel=1e-5)
    stuffed = found(spec(weights={"items.4.mass": "9000 kg to 9500 kg"}))
    assert value(stuffed, "parked.mass_high") - empty == pytest.approx(9500 + 200, rel=1e-9)


def test_side_is_closed_from_the_frame_to_the_roof():
    """9 m from -0.23 to 2.6 m, and 2.7 m of neck from 1.0 to 2.65 m."""
    seen = side(resolve(spec(), scratch.DATA))
    area, centre, top = (float(q.values[0]) for q in (seen.area, seen.zeta, seen.top))
    main, neck = 9.0 * 2.83, 2.7 * 1.65
    assert area == pytest.approx(main + neck)
    assert centre == pytest.approx((main * (2.6 - 0.23) / 2 + neck * (2.65 + 1.0) / 2) / area)
    assert top == pytest.approx(2.65)
    # The parts stand in the working of the check that needs them.
    parts = {v.symbol: v.value for v in check(PLAIN, "parked.overturning").outcome.steps[0].inputs}
    assert parts == pytest.approx({"l_1": 2.7, "h_1": 1.65, "l_2": 9.0, "h_2": 2.83})
    plan = next(s for s in check(PLAIN, "parked.overturning").outcome.steps if s.result.symbol == "A_r")
    assert plan.result.value == pytest.approx(11.7 * 2.55)


def test_parked_and_on_the_road_the_wind_sees_one_side():
    """The house hangs 0.1 m over its last zone at either end: 0.1 m times the height there on each."""
    over = {"front": "-2800 mm", "rear": "9100 mm"}
    model = resolve(spec(house=over), scratch.DATA)
    assert float(side(model).area.values[0]) == pytest.approx(9.1 * 2.83 + 2.8 * 1.65)
    road = found_on_the_road(wind_on_road, house=over)
    parked_area = next(s.result.value for s in check(found(spec(house=over)), "parked.overturning").outcome.steps
                       if s.result.symbol == "A_s")
    assert next(q.nominal for q in road.quantities if q.id == "wind.side_area") == pytest.approx(parked_area)


def test_a_loft_over_a_room_is_not_seen_twice():
    loft = scratch.HOUSE["zones"][1] | {"front": "2 m", "rear": "4 m"}
    zones = [scratch.HOUSE["zones"][0] | {"front": "-2700 mm"}, loft]
    seen = side(resolve(spec(house={"zones": zones}), scratch.DATA))
    assert float(seen.area.values[0]) == pytest.approx(9.0 * 2.83 + 2.0 * 0.05 + 2.7 * 1.6)


def test_more_ties_hold_more_and_pull_less():
    fewer = found(spec({"points": TIES[:1]}))
    assert limit(fewer, "parked.overturning") < limit(PLAIN, "parked.overturning")
    assert value(fewer, "parked.tie.tension") > value(PLAIN, "parked.tie.tension") > 0.0


def test_without_ties_weight_and_friction_alone_hold():
    loose = found(spec({"points": []}, site=SITE | {"wind": "60 m/s"}))
    assert check(loose, "parked.overturning").status == "fail"
    assert check(loose, "parked.sliding").status == "fail"
    assert "parked.tie.tension" not in {q.id for q in loose.quantities}
    assert value(loose, "parked.wind.ratio") > 1.0


def test_wind_that_tips_it_gives_ratio_one():
    speed = value(PLAIN, "parked.wind.tips_at")
    assert value(found(spec(site=SITE | {"wind": f"{speed:.9f} m/s"})), "parked.wind.ratio") == pytest.approx(1.0)


def test_what_holds_at_full_pull_holds_exactly():
    """With the tie's pull as its rating, demand and limit of the worse check are equal."""
    pull = value(PLAIN, "parked.tie.tension")
    just = [t | {"rating": f"{pull:.9f} kg"} for t in TIES]
    of = found(spec({"points": just}))
    use = max(demand(of, i) / limit(of, i) for i in ("parked.overturning", "parked.sliding"))
    assert use == pytest.approx(1.0, rel=1e-6)


def test_width_outside_the_published_tables_goes_to_an_engineer():
    assert "narrower than any" in inputs(PLAIN, "parked.ties")[0]
    assert "engineer" in inputs(PLAIN, "parked.ties")[0]


def test_a_foot_low_is_never_kinder_than_all_level():
    for s in STANDS:
        id = f"parked.stand.{s['id']}"
        assert value(PLAIN, f"{id}.worst") > value(PLAIN, f"{id}.level") > 0.0


def test_level_feet_carry_the_house_without_snow():
    """An offset mass adds to one side what it takes from the other: the mean of a pair is half its reaction."""
    design = spec(weights={"items.3.y": "0 m"})
    of = found(design)
    total = 2 * sum(value(of, f"parked.stand.{s['id']}.level") for s in STANDS)
    assert total == pytest.approx(value(of, "parked.mass_high"), rel=1e-3)


def test_two_pairs_stand_on_a_diagonal():
    of = found(spec({"stands": STANDS[::2]}))
    half = (value(of, "parked.mass_high") + value(of, "parked.snow")) / 2
    assert demand(of, "parked.stand.fore") >= half


def test_feet_that_cannot_carry_are_named_not_hidden():
    one = found(spec({"stands": STANDS[:1]}))
    assert "two pairs" in inputs(one, "parked.feet")[0]
    same = found(spec({"stands": [STANDS[0], STANDS[0] | {"id": "twin"}]}))
    assert "one station" in inputs(same, "parked.stand.twin")[0]
    ahead = found(spec({"stands": [stand("a", "0 m"), stand("b", "1 m")]}))
    assert "tips" in inputs(ahead, "parked.stand.a")[0]
    assert "tips" in inputs(ahead, "pad.stand.a")[0]


def test_jack_with_two_legs_is_a_foot_and_one_with_one_leg_is_not():
    pair = NOSE | {"legs": "2", "drive": "shared shaft", "y": "900 mm", "pad": "600 mm"}
    assert {c.id for c in found(spec({"jacks": [pair]})).checks} >= {"parked.jack.nose", "pad.jack.nose"}
    assert "parked.jack.nose" not in {c.id for c in PLAIN.checks}


def test_the_pad_to_order_is_the_one_that_holds_in_the_wind():
    """A pad of the printed side presses as the ground bears: load over area."""
    for s in STANDS:
        still, blown = (value(PLAIN, f"pad.stand.{s['id']}.{name}") for name in ("side", "side_wind"))
        assert blown > still
    side_wind = {s["id"]: value(PLAIN, f"pad.stand.{s['id']}.side_wind") for s in STANDS}
    exact = [s | {"pad": f"{side_wind[s['id']] * 1.0001:.9f} m"} for s in STANDS]
    of = check(found(spec({"stands": exact})), "pad.wind")
    assert of.ratio == pytest.approx(1.0, abs=3e-4)
    assert of.status != "fail"


def test_leeward_pads_take_the_wind_too():
    worst = max(demand(PLAIN, f"pad.stand.{s['id']}") for s in STANDS)
    assert demand(PLAIN, "pad.wind") > worst


def test_nose_goes_down_on_ground_that_rises_ahead():
    up, down = found(), found(spec(site=SITE | {"slope_along": "-1 %"}))
    assert value(up, "level.nose") == pytest.approx(0.01 * (5.7 + 0.5))
    assert value(down, "level.nose") == pytest.approx(-value(up, "level.nose"))
    assert limit(up, "level.nose") == pytest.approx(0.400 - (0.200 + 0.040 - 0.150))
    assert limit(down, "level.nose") == pytest.approx(0.200)


def test_anchors_share_what_they_hold():
    half = found(spec({"points": [*TIES, *ANCHORS[:2]]}))
    assert value(half, "anchor.forward") == pytest.approx(2 * value(PLAIN, "anchor.forward"))
    assert value(PLAIN, "anchor.forward") / value(PLAIN, "anchor.sideways") == pytest.approx(0.8 / 0.5)


def test_house_without_anchors_is_asked_for_them():
    assert inputs(found(spec({"points": TIES})), "anchor.road") == ("trailer.yaml points (kind: anchor)",)


def test_drains_are_asked_for_where_there_is_grey_water():
    tank = scratch.WEIGHTS["tanks"][0] | {"id": "grey", "holds": "grey water"}
    of = found(spec(house={"drains": []}, weights={"tanks": [tank]}))
    assert inputs(of, "drain.fall") == ("house.yaml drains",)
    assert "drain.fall" not in {c.id for c in found(spec(house={"drains": []})).checks}


def test_drain_ends_at_its_fall():
    height = value(PLAIN, "drain.grey.outlet")
    steeper = found(spec(house={"drains.0.fall": "1/2 in/ft"}))
    assert height - value(steeper, "drain.grey.outlet") == pytest.approx(4.5 / 48)
    assert check(found(spec(house={"drains.0.fall": "1/8 in/ft"})), "drain.grey.fall").status == "fail"
    assert check(found(spec(house={"drains.0.fall": "1/8 in/ft", "drains.0.bore": "75 mm"})),
                 "drain.grey.fall").status == "pass"


def test_nothing_from_memory_passes():
    """Snow, direction factor and least height factor are from memory: review at best."""
    for id in ("parked.overturning", "parked.sliding", "parked.stand.fore", "pad.stand.fore", "pad.wind"):
        assert check(PLAIN, id).status in ("review", "fail"), id


def test_trials_leave_the_nominal_alone():
    few = found(trials=Trials(count=200))
    for a, b in zip(PLAIN.quantities, few.quantities, strict=True):
        assert a.id == b.id
        np.testing.assert_allclose(a.nominal, b.nominal, rtol=1e-12)
    assert [c.id for c in few.checks] == [c.id for c in found(trials=STILL).checks]


def test_smallest_change_clears_what_fails():
    """Ratings grow by 25 kg and pads by 25 mm until the check holds; one step less still fails."""
    weak = [s | {"rating": "900 kg", "pad": "300 mm"} for s in STANDS]
    of = found(spec({"stands": weak}))
    for id, part, field, step in (("parked", "rating", 25.0, 25.0), ("pad", "pad", 0.025, 0.025)):
        change = check(of, f"{id}.stand.fore").changes[0]
        assert change.lever == f"trailer.stands.fore.{part}"
        for size, status in ((change.then.value, "review"), (change.then.value - step, "fail")):
            text = f"{size:.6f} {'kg' if part == 'rating' else 'm'}"
            cured = found(spec({"stands": [weak[0] | {part: text}, *weak[1:]]}))
            assert check(cured, f"{id}.stand.fore").status == status, (field, size)


def test_pad_of_the_windy_check_is_cured_by_its_change():
    weak = [s | {"pad": "400 mm"} for s in STANDS]
    change = check(found(spec({"stands": weak})), "pad.wind").changes[0]
    larger = [s | {"pad": f"{change.then.value:.6f} m"} for s in weak]
    assert check(found(spec({"stands": larger})), "pad.wind").status == "review"


def measures(part, path=()):
    """Paths of all measures of a part of the spec."""
    if isinstance(part, Measure):
        yield path
    elif isinstance(part, tuple):
        for n, one in enumerate(part):
            yield from measures(one, (*path, n))
    elif hasattr(type(part), "model_fields"):
        for name in type(part).model_fields:
            yield from measures(getattr(part, name), (*path, name))


def put(part, path, change):
    """The part with one measure changed."""
    if not path:
        return change(part)
    head, rest = path[0], path[1:]
    if isinstance(part, tuple):
        return (*part[:head], put(part[head], rest, change), *part[head + 1 :])
    return part.model_copy(update={head: put(getattr(part, head), rest, change)})


MINE = ("stands", "points", "jacks", "zones", "drains", "front", "rear", "width")
BASE = spec()
PLACES = [
    *(("site", p) for p in measures(BASE.site)),
    *((root, p) for root in ("trailer", "house") for p in measures(getattr(BASE, root)) if p[0] in MINE),
    ("trailer", ("neck", "underside")),
    ("trailer", ("frame", "rail_underside")),
]


def worked(root, path, value):
    def change(m):
        return replace(m, nominal=value(m.nominal), low=value(m.nominal), high=value(m.nominal), shape="sure")

    return found(replace(BASE, **{root: put(getattr(BASE, root), path, change)}))


def test_an_unknown_input_leaves_a_gap_that_names_itself():
    ids = [c.id for c in PLAIN.checks]
    assert len(PLACES) > 70
    for root, path in PLACES:
        of = worked(root, path, lambda _: math.nan)
        assert [c.id for c in of.checks] == ids, path
        for c in of.checks:
            if isinstance(c.outcome, Missing):
                assert c.outcome.inputs, (path, c.id)
            else:
                assert np.isfinite([c.outcome.demand.value, c.outcome.limit.value]).all(), (path, c.id)


@pytest.mark.parametrize("value", [lambda _: 0.0, lambda v: -v, lambda v: 40 * v], ids=["zero", "negative", "huge"])
def test_absurd_inputs_end_in_a_fault_of_the_spec_or_an_answer(value):
    worked_out = 0
    for root, path in PLACES:
        with suppress(PacketError):
            worked(root, path, value)
            worked_out += 1
    assert worked_out > 50


def test_side_of_the_centre_line_does_not_matter_for_a_pair():
    """A pair stands on both sides: its offset written negative is the same pair."""
    mirrored = found(spec({"stands": [s | {"y": "-850 mm"} for s in STANDS]}))
    for a, b in zip(PLAIN.checks, mirrored.checks, strict=True):
        assert (a.id, a.status, a.ratio) == (b.id, b.status, b.ratio)


def test_spread_of_the_wind_reaches_the_check():
    """Somewhere between 30 and 60 m/s one weak tie lets go: some trials break it, not all."""
    weak = [TIES[0] | {"rating": "100 kg"}]
    of = found(spec({"points": weak}, site=SITE | {"wind": "30 m/s to 60 m/s"}), Trials(count=400))
    assert 0.05 < check(of, "parked.overturning").outcome.fail_share < 1.0


def test_nothing_of_it_goes_to_anybody_but_the_owner_unless_granted():
    assert not [c.id for c in PLAIN.checks if may_see(CHECKS["fabricator"], c.id)]
    told = [q.id for q in PLAIN.quantities if may_see(QUANTITIES["fabricator"], q.id)]
    assert [id for id in told if not re.fullmatch(r"pad\..*\.side(_wind)?", id)] == [], "sheet G2 shows the pads"


def test_lift_point_carries_one_side():
    """Half the axle load and more; without a lift point the check asks for one."""
    assert inputs(PLAIN, "tyre_change.point") == ("trailer.yaml points (kind: lift)",)
    lifts = (point("lift", "lift", "2 m", rating=rating) for rating in ("6000 kg", "900 kg"))
    strong, weak = (found(spec({"points": [*TIES, *ANCHORS, lift]})) for lift in lifts)
    assert check(strong, "tyre_change.point").status == "pass"
    assert check(weak, "tyre_change.point").status == "fail"
    assert 0.05 < value(strong, "tyre_change.lift") < 0.2
