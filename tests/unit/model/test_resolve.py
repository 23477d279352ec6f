"""From the spec to items, pieces, states and stations, on the scratch design."""

from itertools import pairwise
from math import isnan

import pytest
import scratch
from scratch import DATA, spec

from generator.errors import SpecError
from generator.model.frame import even
from generator.model.resolve import resolve
from generator.model.states import STATES, aboard, filling
from generator.model.types import Piece
from generator.spec.models.weights import Tank

FOOT, POUND = 0.3048, 0.45359237


def items(model):
    return {i.id: i for i in model.items}


def at(state):
    return next(n for n, s in enumerate(STATES) if s.id == state)


def test_states_carry_ever_more_on_the_road():
    towed = [s for s in STATES if s.towed]
    assert [s.id for s in towed] == ["bare", "shell", "dry", "travel", "travel_wet"]
    for lighter, heavier in pairwise(towed):
        assert set(lighter.stages) <= set(heavier.stages)


def test_share_aboard_by_stage_and_filling():
    assert dict(zip([s.id for s in STATES], aboard("dry"), strict=True)) == {
        "bare": 0,
        "shell": 0,
        "dry": 1,
        "travel": 1,
        "travel_wet": 1,
        "unhitched": 1,
        "parked_light": 1,
        "parked_heavy": 1,
    }
    assert [s.id for s, a in zip(STATES, aboard("parked"), strict=True) if a] == ["parked_heavy"]
    tank = Tank.model_validate(scratch.WEIGHTS["tanks"][0])
    assert filling(tank) == pytest.approx((0, 0, 0, 0.1, 1.0, 0.1, 0, 1.0))


def test_layer_masses_against_published_dead_loads():
    """ASCE 7 commentary table C3.1-1a: gypsum board 1.1 lb/ft2 for each 1/4 in; ours from the same table by
    density."""
    model = resolve(spec(house={"buildups.0.layers.2.thickness": "1/2 in"}), DATA)
    area = 9.0 * 2.4
    assert items(model)["left.3"].mass / area == pytest.approx(2.2 * POUND / FOOT**2, rel=1e-3)


def test_framing_is_evened_out_over_its_spacing():
    mass = items(resolve(spec(), DATA))["left.2"].mass
    density = DATA.materials["spruce-pine-fir"].density
    assert mass == pytest.approx(density * 0.09 * 0.04 / 0.4 * 1.15 * 9.0 * 2.4)


def test_opening_is_deducted_and_weighs_itself():
    window = {
        "id": "window",
        "title": "Window",
        "surface": "left",
        "width": "1.2 m",
        "height": "1 m",
        "centre": "2 m",
        "sill": "1 m",
        "mass": "40 kg",
        "basis": "quoted",
    }
    plain, pierced = items(resolve(spec(), DATA)), items(resolve(spec(house={"openings": [window]}), DATA))
    assert pierced["left.1"].mass == pytest.approx(plain["left.1"].mass * (21.6 - 1.2) / 21.6)
    assert pierced["left.1"].x > plain["left.1"].x
    assert (pierced["window"].mass, pierced["window"].x, pierced["window"].z) == pytest.approx((40.0, 2.0, 1.5))


def test_interior_layers_come_aboard_later():
    left = items(resolve(spec(), DATA))
    assert left["left.1"].aboard[at("shell")] == 1.0
    assert left["left.3"].aboard[at("shell")] == 0.0
    assert left["left.3"].aboard[at("dry")] == 1.0


def test_pieces_are_cut_from_members_and_weigh_length_times_section():
    """W8x18 is 18 lb/ft by its name (AISC designation)."""
    model = resolve(spec(), DATA)
    rails = [p for p in model.pieces if p.mark == "r1"]
    assert len(rails) == 2
    assert rails[0].y1 == pytest.approx(-rails[1].y0)
    assert rails[0].cut_length == pytest.approx(9.0)
    assert rails[0].mass == pytest.approx(18.0 * POUND / FOOT * 9.0)
    assert items(model)["frame.r1"].mass == pytest.approx(2 * rails[0].mass)
    assert len([p for p in model.pieces if p.mark == "c1"]) == 3
    posts = [p for p in model.pieces if p.mark == "u1"]
    assert [p.cut_length for p in posts] == pytest.approx([1.23, 1.23])


def test_plates_come_on_top_and_zinc_on_top_of_that():
    plain, zinc = resolve(spec(), DATA), resolve(spec(trailer={"frame.galvanised": "yes"}), DATA)
    steel = sum(p.mass for p in plain.pieces)
    assert items(plain)["frame.plates"].mass == pytest.approx(0.08 * steel)
    assert items(zinc)["frame.zinc"].mass == pytest.approx(DATA.defaults["mass.galvanising"].value * 1.08 * steel)
    assert "frame.zinc" not in items(plain)


def test_two_rails_have_the_inertia_of_their_distance():
    pieces = [Piece("r", "R", "s", "g", "lengthwise", 0, 4, y - 0.1, y + 0.1, -0.2, 0, 50.0) for y in (-0.9, 0.9)]
    x0, x1, y, z, width = even(pieces)
    assert (x0, x1, y, z) == pytest.approx((0.0, 4.0, 0.0, -0.1))
    assert 100.0 * width**2 / 12 == pytest.approx(2 * 50.0 * (0.9**2 + 0.2**2 / 12))


def test_axles_stand_about_their_middle():
    model = resolve(spec(trailer={"running_gear.station": "6 m"}), DATA)
    assert model.axle_stations == pytest.approx((5.1, 6.0, 6.9))
    axle = items(model)["axle.2"]
    assert (axle.unsprung, axle.moves, axle.x) == (True, True, pytest.approx(6.0))
    assert items(model)["hangers"].moves
    spare = resolve(spec(weights={"items.0.front": "-2 m", "items.0.rear": "-1 m"}), DATA)
    assert not items(spare)["hangers"].moves
    assert not items(model)["hangers"].unsprung


@pytest.mark.parametrize(("stage", "share"), [("sketch", 0.12), ("specified", 0.08), ("quoted", 0.04)])
def test_what_nobody_listed_is_a_one_sided_share_of_the_house(stage, share):
    model = resolve(spec(project={"stage": stage}), DATA)
    house = [
        i
        for i in model.items
        if i.group not in ("frame", "running gear", "contents") and not i.id.startswith("unlisted")
    ]
    extra = [i for i in model.items if i.id.startswith("unlisted")]
    assert sum(i.mass for i in extra) == pytest.approx(share * sum(i.mass for i in house))
    assert all(i.low == 0.0 and i.high == pytest.approx(2 * i.mass) for i in extra)


def test_weighed_design_has_no_allowance():
    assert not [i for i in resolve(spec(project={"stage": "weighed"}), DATA).items if i.id.startswith("unlisted")]


def test_tank_weighs_its_filling():
    """Water 1 kg/L (49 CFR 571.110 S9.3.5(d))."""
    fresh = items(resolve(spec(), DATA))["fresh.contents"]
    assert fresh.mass == pytest.approx(200.0)
    assert fresh.aboard[at("travel")] == pytest.approx(0.1)


def test_mass_without_spread_takes_that_of_its_basis():
    decking = items(resolve(spec(), DATA))["deck"]
    assert (decking.low, decking.high) == pytest.approx((475.0, 525.0))
    assert "mass.spread_quoted" in resolve(spec(), DATA).assumed


def test_unknown_mass_stays_unknown():
    model = resolve(spec(weights={"items.3.mass": "unknown"}), DATA)
    assert isnan(items(model)["fit-out"].mass)


def test_all_faults_at_once_each_with_its_way_out():
    bad = spec(
        trailer={"frame.members.0.section": "W8x19", "frame.members.1.stations": [], "frame.members.3.end": "-300 mm"},
        house={
            "buildups.0.layers.0.material": "plywod",
            "surfaces.0.top": None,
            "openings": [
                {
                    "id": "hatch",
                    "title": "Hatch",
                    "surface": "right",
                    "width": "2 m",
                    "height": "1 m",
                    "centre": "8.5 m",
                    "sill": "1 m",
                    "mass": "5 kg",
                    "basis": "quoted",
                }
            ],
        },
    )
    with pytest.raises(SpecError) as raised:
        resolve(bad, DATA)
    lines = [str(f) for f in raised.value.faults]
    assert len(lines) == 6, lines
    for path in (
        "members.r1.section",
        "members.c1.stations",
        "members.u1.end",
        "layers.1",
        "surfaces.left.top",
        "openings.hatch",
    ):
        assert any(path in line for line in lines), path
    assert any("W8x18" in line for line in lines)
    assert any("nearest: plywood" in line for line in lines)


def test_hole_larger_than_its_surface_is_a_fault():
    huge = {
        "id": "gap",
        "title": "Gap",
        "surface": "left",
        "width": "9 m",
        "height": "2.4 m",
        "centre": "4.5 m",
        "sill": "60 mm",
        "mass": "5 kg",
        "basis": "quoted",
    }
    with pytest.raises(SpecError, match="larger than the surface"):
        resolve(spec(house={"openings": [huge]}), DATA)
