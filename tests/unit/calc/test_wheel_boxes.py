"""Three ways over the wheels on the scratch design."""

import pytest
import scratch
from underway_sample import STILL, found, worked

from generator.calc.topics import rides
from generator.calc.topics.clearances import box_checks
from generator.calc.topics.floor import floor
from generator.calc.trials import Trials

GAP, SKIN, STEEL, SHEET = 0.0254, 0.01905, 0.1016, 0.018


def values(**changes):
    quantities, _ = found(scratch.spec(**changes))
    return {i: q.nominal for i, q in quantities.items() if i.startswith("box.")}


def test_size_of_the_box_by_hand():
    of = values()
    _, _, ride = worked(scratch.spec())
    r = ride["travel"]
    stop = float(r.radius.values[0] + r.jounce.values[0]) + 0.7824 / 2
    assert of["box.needed.top"] == pytest.approx(stop + GAP + SKIN - float(r.deck.values[0]))
    assert of["box.needed.length"] == pytest.approx(2 * 0.9 + 0.7824 + 2 * 0.0508 + 2 * SKIN)
    assert of["box.needed.inside"] == pytest.approx((2.1 - 0.235) / 2 - GAP - SKIN)
    assert of["box.boxed.clear_width"] == pytest.approx(2 * of["box.needed.inside"])


def test_a_box_of_the_needed_top_just_keeps_its_gap():
    """The same chain as the check of the box as drawn: put back, its ratio is 1."""
    top = values()["box.needed.top"]
    model, _, ride = worked(scratch.spec(trailer={"wheel_boxes.0.top": f"{top:.9f} m"}))
    check = next(iter(box_checks(model, ride["travel"], STILL, scratch.DATA)))
    assert check.ratio == pytest.approx(1.0, abs=1e-6)


def test_ways_beside_each_other():
    of = values()
    top, lost = of["box.needed.top"], of["box.boxed.floor_lost"]
    over = top - SKIN + STEEL + SHEET
    for way, rise in (("boxed", 0.0), ("raised", top), ("over", over)):
        assert of[f"box.{way}.headroom"] == pytest.approx(2.2 - 0.06 - rise)
        assert of[f"box.{way}.floor"] - of["box.boxed.floor"] == pytest.approx(rise, abs=1e-12)
        assert of[f"box.{way}.height"] - of["box.boxed.height"] == pytest.approx(rise, abs=1e-12)
    assert lost == pytest.approx(2 * of["box.needed.length"] * (1.25 - of["box.needed.inside"]))
    assert of["box.raised.floor_lost"] == of["box.over.floor_lost"] == of["box.boxed.storage"] == 0.0
    assert of["box.raised.storage"] == pytest.approx(top * (9.0 * 2.5 - lost))
    assert of["box.over.storage"] == pytest.approx(over * (2.5 - 1.702) * (9.0 - of["box.needed.length"]))
    side = 1.25 - of["box.needed.inside"]
    skins = lost + 2 * of["box.needed.length"] * top + 4 * top * side
    assert of["box.boxed.mass"] == pytest.approx(15 * skins)
    assert of["box.raised.mass"] == pytest.approx(15 * skins + 14 * (22.5 - lost))
    assert of["box.over.mass"] == pytest.approx(14 * 9.0 * (2.5 - 1.702))


def test_a_deck_drawn_over_the_wheels_is_the_one_called_so():
    changes = {"deck": "over the wheels", "wheel_boxes": [], "running_gear.suspension.tube_to_deck": "600 mm"}
    quantities, _ = found(scratch.spec(trailer=changes))
    assert quantities["box.over.floor"].title.endswith("as drawn")
    assert not quantities["box.boxed.floor"].title.endswith("as drawn")
    assert quantities["box.boxed.floor"].nominal < quantities["box.over.floor"].nominal


def test_rubber_and_tyre_do_not_spread_the_box():
    """The stop is a place of the arm in the frame: how stiff rubber or tyre are moves only the floor above ground."""
    quantities, _ = found(scratch.spec(), Trials(count=500))
    assert quantities["box.needed.top"].high - quantities["box.needed.top"].low < 1e-9
    assert quantities["box.boxed.floor"].high - quantities["box.boxed.floor"].low > 1e-4


RAISED = {"zones.0.floor": "0.3 m"}
"""The floor of the one zone over the scratch boxes, higher than their tops."""


def raised():
    return found(scratch.spec(house=RAISED, trailer={"wheel_boxes.0.top": "0.25 m"}))[0]


def floors(spec):
    return {q.id: q.nominal for q in floor(worked(spec)[0], STILL).quantities}


def test_a_floor_above_the_boxes_loses_nothing_to_them():
    """By hand: room under it is the height of the boxes over the floor of the zone, boxes out."""
    spec = scratch.spec(house=RAISED, trailer={"wheel_boxes.0.top": "0.25 m"})
    zone, box, width = spec.house.zones[0], spec.trailer.wheel_boxes[0], spec.house.width.nominal
    of = floors(spec)
    assert of["floor.free"] == of["floor.area"]
    boxes = 2 * (box.rear.nominal - box.front.nominal) * (width / 2 - box.inside.nominal)
    whole = (zone.rear.nominal - zone.front.nominal) * width
    assert of["floor.under"] == pytest.approx(0.25 * (whole - boxes))
    standing = floors(scratch.spec(house=RAISED, trailer={"wheel_boxes.0.top": "0.35 m"}))
    assert standing["floor.area"] - standing["floor.free"] == pytest.approx(boxes)
    assert "floor.under" not in standing


def test_ways_of_a_raised_floor_start_from_its_deck():
    """The same trailer with the floor raised by 0.24 m: the ways over the wheels stand where they stood."""
    drawn = raised()
    assert drawn["box.raised.floor"].title.endswith("as drawn")
    flat = found(scratch.spec(house={"zones.0.floor": "0.05 m"}, trailer={"wheel_boxes.0.top": "0.25 m"}))[0]
    for way in ("boxed", "raised", "over"):
        assert drawn[f"box.{way}.floor"].nominal == pytest.approx(flat[f"box.{way}.floor"].nominal)
        assert drawn[f"box.{way}.headroom"].nominal == pytest.approx(flat[f"box.{way}.headroom"].nominal)
        # the roof as drawn already stands over the raised floor
        assert drawn[f"box.{way}.height"].nominal == pytest.approx(flat[f"box.{way}.height"].nominal - 0.25)


def test_foam_and_belly_sheet_lie_over_the_tyres_too():
    """Every millimetre below steel or decking is a millimetre less over the tyre at the stop; above it, none."""
    over = {"deck": "over the wheels", "wheel_boxes": [], "running_gear.suspension.tube_to_deck": "700 mm"}

    def gap(**more):
        model, _, ride = worked(scratch.spec(trailer=over | more))
        return next(iter(box_checks(model, ride["travel"], STILL, scratch.DATA))).outcome.demand.value

    bare = gap()
    deep, flat = gap(**{"frame.belly": "200 mm"}), gap(**{"frame.belly": "1 mm"})
    assert flat == bare
    deeper = gap(**{"frame.belly": "230 mm"})
    assert deep < bare
    assert deep - deeper == pytest.approx(0.030)
    model, _, ride = worked(scratch.spec(trailer=over | {"frame.belly": "unknown"}))
    assert next(iter(box_checks(model, ride["travel"], STILL, scratch.DATA))).status == "not assessed"


def test_bounces_a_second_by_hand():
    """Textbook: a mass on a spring swings sqrt(k/m)/(2 pi) times a second; 60 kN/m under 1 500 kg: 1.0066."""
    assert rides.BOUNCE.of(k=60000.0, m=1500.0, pi=3.141592654) == pytest.approx(1.0066, abs=1e-4)
    spec = scratch.spec()
    model, loads, ride = worked(spec)
    (told,) = rides.bounce(model, loads, ride, STILL, scratch.DATA).quantities
    unsprung = sum(a.unsprung.nominal for a in spec.trailer.running_gear.axles)
    rate = sum(float(k.values[0]) for k in ride["travel"].rates)
    carried = float(loads["travel"].group.values[0]) - unsprung
    assert told.nominal == pytest.approx((rate / carried) ** 0.5 / 6.283185307, rel=1e-6)
