"""What each recipient's desk holds."""

import math
from dataclasses import replace
from typing import TypeVar

import pytest
from release_sample import check, data, missing, model, quantity, results, spec

from generator.calc.record import Compared, Missing, Window
from generator.errors import OutputError
from generator.model.types import Model
from generator.release.cut import cut
from generator.release.decision import next_step
from generator.release.features import features
from generator.release.grants import GRANTS, RECIPIENTS
from generator.release.slices import (
    Cover,
    Decision,
    Desk,
    Envelope,
    Hazards,
    Masses,
    Money,
    Neck,
    Notes,
    Numbers,
    Options,
    Placement,
    Register,
    Revisions,
    RoadLoads,
    Scale,
    Slice,
    Steel,
    SteelLoads,
)

Kind = TypeVar("Kind", bound=Slice)


def got(desk: Desk, kind: type[Kind]) -> Kind:
    found = desk.get(kind)
    assert isinstance(found, kind)
    return found


def desk(to: str = "owner", of: Model | None = None, units: str | None = None, **changed: object) -> Desk:
    return cut(of or model(), results(**changed), data(), to, "0123456789ab", units)


@pytest.mark.parametrize("to", RECIPIENTS)
def test_a_desk_holds_exactly_what_was_granted(to: str) -> None:
    """All of it but what this design has none of: options, and notes addressed to whom nobody wrote."""
    unwritten = set() if to == "owner" or any(to in n.to for n in spec().notes) else {Notes}
    assert {type(s) for s in desk(to).slices} == GRANTS[to] - {Options} - unwritten


@pytest.mark.parametrize("to", [to for to in RECIPIENTS if to != "owner"])
def test_money_and_masses_are_the_owners_alone(to: str) -> None:
    assert not GRANTS[to] & {Money, Masses, Decision, Options, Scale}


@pytest.mark.parametrize("to", ["fabricator", "official", "engineer"])
def test_others_read_of_a_revision_what_was_written_for_them(to: str) -> None:
    told, whole = got(desk(to), Revisions).rows, got(desk(), Revisions).rows
    written = spec().revisions.revisions  # type: ignore[union-attr]
    assert [r.changes for r in told] == [r.technical for r in written if r.technical]
    assert {(r.asked_by, r.why) for r in told} == {("", "")}
    assert [r.changes for r in whole] == [r.changes for r in written]


@pytest.mark.parametrize("to", ["official", "fabricator"])
def test_without_technical_words_others_get_no_record(to: str) -> None:
    revisions = spec().revisions
    assert revisions is not None
    bare = tuple(r.model_copy(update={"technical": ()}) for r in revisions.revisions)
    of = replace(model(), spec=replace(spec(), revisions=revisions.model_copy(update={"revisions": bare})))
    assert desk(to, of=of).get(Revisions) is None


@pytest.mark.parametrize("to", ["burglar", "", "Owner", "lender"])
def test_a_stranger_gets_nothing(to: str) -> None:
    with pytest.raises(OutputError, match=r"no recipient is called .*; there are owner, fabricator, official"):
        desk(to)


def test_the_cover_says_draft_until_it_is_issued() -> None:
    cover = got(desk(), Cover)
    assert cover.revision == spec().revisions.revisions[-1].label  # type: ignore[union-attr]
    assert cover.purpose == f"for quotation; not issued: draft {cover.revision}"
    assert cover.status == "FOR QUOTATION"
    assert (cover.recipient, cover.basis_hash) == ("owner", "0123456789ab")


def test_one_mandatory_check_not_passed_makes_it_for_review() -> None:
    for open_check in (check("neck.window", 2.0, 1.0, True), check("neck.window", 1.0, 2.0, True, share=0.2)):
        assert got(desk(checks=(open_check,)), Cover).status == "FOR REVIEW"
    broken = missing("neck.window", "tow.yaml")
    broken = replace(broken, about=replace(broken.about, mandatory=True))
    assert got(desk(checks=(broken,)), Cover).status == "FOR REVIEW"
    assert got(desk(checks=(check("jack.nose.time", 2.0, 1.0),)), Cover).status == "FOR QUOTATION"


def test_without_a_record_of_revisions_it_is_a_draft_of_the_projects_date() -> None:
    plain = replace(model(), spec=replace(spec(), revisions=None))
    cover = got(desk(of=plain), Cover)
    assert (cover.revision, cover.date) == ("draft", spec().project.date)
    assert cover.purpose == "for quotation; not issued: draft"
    assert desk(of=plain).get(Revisions) is None


def test_units_may_be_overridden() -> None:
    assert got(desk(), Cover).units == "us"
    assert got(desk(units="si"), Cover).units == "si"


def test_notes_go_to_whom_they_are_addressed() -> None:
    addressed = [n.title for n in spec().notes if "fabricator" in n.to]
    assert addressed
    assert [p.title for p in got(desk("fabricator"), Notes).pages] == addressed
    assert len(got(desk(), Notes).pages) == len(spec().notes)


def test_numbers_keep_to_the_shops_topics() -> None:
    numbers = got(desk("fabricator"), Numbers)
    assert {c.id for c in numbers.checks} == {"axle.1.rating", "frame.neck_root"}
    assert not [q.id for q in numbers.quantities
                if q.id.startswith(("tow.", "headroom.", "cost.", "mass.", "height.limit", "neck.rail_gap"))]
    assert {"rating.gawr.1.requested", "rating.gawr.1.least", "state.travel.mass"} <= {q.id for q in numbers.quantities}
    assert {w.id for w in numbers.windows} == {"neck.window", "axles.window"}
    assert len(got(desk(), Numbers).checks) == 5


def test_a_shops_check_names_no_line_of_the_spec_and_no_way_out() -> None:
    failing = check("tyre.1.axle_rating", 4000.0, 3175.0)
    shops, owners = (got(desk(to, checks=(failing,)), Numbers).checks[0] for to in ("fabricator", "owner"))
    assert isinstance(shops.outcome, Compared)
    assert (shops.changes, shops.about.levers, shops.about.source) == ((), (), "as stated")
    assert [v.origin for v in shops.outcome.steps[0].inputs] == ["", "common practice, no source"]
    assert shops.status == owners.status == "fail"
    assert owners.changes
    assert isinstance(owners.outcome, Compared)
    assert owners.outcome.steps[0].inputs[0].origin == "trailer.yaml:12"


def test_the_shop_sees_the_workings_of_what_it_can_change_and_no_others() -> None:
    held = (check("tyre.1.axle_rating", 2.0, 3.0), check("axle.1.rating", 2.0, 3.0), check("jack.nose.lift", 2.0, 3.0))
    steps = {c.id: len(c.outcome.steps) for c in got(desk("fabricator", checks=held), Numbers).checks}
    assert steps == {"tyre.1.axle_rating": 1, "axle.1.rating": 0, "jack.nose.lift": 0}
    assert all(c.outcome.steps for c in got(desk(checks=held), Numbers).checks)
    for told in got(desk("fabricator", checks=held), Numbers).checks[1:]:
        assert isinstance(told.outcome, Compared)
        assert (told.outcome.limit.origin, told.outcome.limit.value) == ("", 3.0)


@pytest.mark.parametrize("id", [
    "height.overall", "height.margin", "width.house", "width.tyres", "tyre.1.reserve", "jack.nose.year",
    "jack.nose.time", "cab.strike", "neck.rail_gap.rolled", "side.balance", "tow.payload", "mass.plausible",
    "headroom.bath"])
def test_what_only_the_owner_decides_is_no_check_of_the_shops(id: str) -> None:
    assert got(desk("fabricator", checks=(check(id, 1.0, 2.0),)), Numbers).checks == ()
    assert len(got(desk(checks=(check(id, 1.0, 2.0),)), Numbers).checks) == 1


def test_the_shop_is_told_of_the_states_it_builds_for() -> None:
    row = results().states[1]
    states = (*results().states, replace(row, id="shell"), replace(row, id="parked_heavy"))
    told = got(desk("fabricator", states=states), RoadLoads).states
    assert [(s.id, s.roof) for s in told] == [("bare", None), ("travel", None)]
    assert [s.roof for s in got(desk(states=states), RoadLoads).states] == [4.0] * 4


def test_a_missing_input_is_named_without_its_file() -> None:
    shops = next(c for c in got(desk("fabricator"), Numbers).checks if c.id == "frame.neck_root")
    assert isinstance(shops.outcome, Missing)
    assert shops.outcome.inputs == ("a value not stated", "vehicle.bed_rail")


def test_the_register_of_the_shop_holds_what_its_checks_rest_on() -> None:
    register = got(desk("fabricator"), Register)
    assert [a.id for a in register.assumptions] == ["torsion.stiffness_factor"]
    assert register.tasks == ()
    assert [a.source for a in got(desk(), Register).assumptions] == ["common practice, no source"] * 2


def test_point_loads_and_rooms_lose_their_names() -> None:
    assert [p.title for p in got(desk("fabricator"), SteelLoads).beam.points] == ["point load 1"]
    assert [p.title for p in got(desk(), SteelLoads).beam.points] == ["stove in the parlour"]
    envelope = got(desk("fabricator"), Envelope)
    assert [z.title for z in envelope.zones] == [f"zone {n}" for n in range(1, len(envelope.zones) + 1)]
    assert (envelope.roof, envelope.chains, math.isnan(envelope.height_limit)) == ((), (), True)


def test_a_room_whose_name_is_a_symbol_spoils_no_formula() -> None:
    house = spec().house
    zones = (house.zones[0].model_copy(update={"title": "W"}), *house.zones[1:])
    odd = replace(spec(), house=house.model_copy(update={"zones": zones}))
    held = (check("tyre.1.axle_rating", 2.0, 3.0),)
    outcome = got(desk("fabricator", of=replace(model(), spec=odd), checks=held), Numbers).checks[0].outcome
    assert outcome.steps[0].text == "D = W*f"


def test_the_steel_is_the_models() -> None:
    steel, trailer = got(desk("fabricator"), Steel), spec().trailer
    assert steel.pieces == model().pieces
    assert steel.steel_mass == pytest.approx(sum(p.mass for p in model().pieces))
    assert steel.track == pytest.approx(
        trailer.running_gear.axles[0].hub_face.nominal - 2 * trailer.running_gear.wheel.offset.nominal)
    assert [a.station for a in steel.axles] == list(model().axle_stations)


def test_why_a_jack_was_chosen_stays_with_the_owner() -> None:
    assert [j.why for j in got(desk("fabricator"), Steel).jacks] == [""]
    assert [j.why for j in got(desk(), Steel).jacks] == ["one motor lifts both"]


def test_a_trailing_arm_puts_the_tube_ahead_of_the_spindle() -> None:
    """Computation of the trade: bracket station = spindle station - R cos(alpha)."""
    steel = got(desk(), Steel)
    for axle in steel.axles:
        assert axle.station - axle.bracket_station == pytest.approx(steel.arm * 0.9987502603949663)  # cos 0.05


def test_without_a_hole_for_level_the_coupler_stands_at_mid_travel() -> None:
    steel = got(desk(), Steel)
    assert steel.coupler_set == pytest.approx((steel.coupler_low + steel.coupler_high) / 2)


def test_without_tow_vehicle_the_ball_stands_where_the_trailer_is_level() -> None:
    alone = replace(model(), spec=replace(spec(), tow=None))
    steel, envelope = got(desk(of=alone, neck=None), Steel), got(desk(of=alone, neck=None), Envelope)
    assert steel.ball_height == pytest.approx(0.70 + steel.neck_underside - steel.coupler_set)
    assert envelope.vehicle_bed_rail is None
    assert desk(of=alone, neck=None).get(Neck) is None


def test_road_loads_carry_the_requested_ratings() -> None:
    ids = [q.id for q in got(desk("fabricator"), RoadLoads).requested]
    assert ids == ["rating.gvwr.requested", *(f"rating.gawr.{n}.requested" for n in (1, 2, 3))]


def test_what_is_left_of_the_tow_vehicles_ratings_stays_with_the_owner() -> None:
    sweep = replace(results().sweep, hitch_limit=2345.0)
    assert got(desk(sweep=sweep), Placement).sweep.hitch_limit == 2345.0
    shops = got(desk("fabricator", sweep=sweep), Placement).sweep
    assert shops.hitch_limit == pytest.approx(spec().trailer.coupling.vertical_rating.nominal)


def test_no_windows_no_placement() -> None:
    bare = desk(windows=())
    assert bare.get(Placement) is None
    assert bare.get(Neck) is None


def test_no_costs_no_money() -> None:
    assert desk(budget=None).get(Money) is None


def test_hazards_follow_the_design_and_the_reader() -> None:
    owners = {p.id for p in got(desk(), Hazards).pages}
    assert {p.id for p in got(desk("fabricator"), Hazards).pages} == {
        "lifting", "shop", "shop-hot-work", "harness", "delivery", "wheels"}
    assert owners >= {"occupancy", "wind", "hitching"}
    assert ("propane" in owners) == any(t.holds == "propane" for t in spec().weights.tanks)


def test_no_propane_no_propane_page_and_no_propane_row() -> None:
    weights = spec().weights
    dry = weights.model_copy(update={"tanks": tuple(t for t in weights.tanks if t.holds != "propane")})
    bare = spec().project.model_copy(update={"insurance": None})
    pages = got(desk(of=replace(model(), spec=replace(spec(), weights=dry, project=bare))), Hazards).pages
    assert "propane" not in {p.id for p in pages}
    assert "Fuel away" not in {r.item for p in pages for r in p.rows}


def test_features_of_the_example() -> None:
    assert {"gooseneck", "torsion", "tow vehicle"} <= features(spec())
    assert "no tow vehicle" in features(replace(spec(), tow=None))


def test_what_freezes_is_ranked_and_shows_its_own_window() -> None:
    extra = (quantity("jack.nose.station", 0.25, "m", True), quantity("axles.spread", 1.7, "m", True),
             quantity("width.track", 2.3, "m", True))
    window = Window("jack.nose.window", "Nose jack", 0.0, 0.5, 0.25, None, "m", "neck", "tyre")
    decision = got(desk(quantities=(*results().quantities, *extra), windows=(*results().windows, window)), Decision)
    rows = {r.what.removeprefix("Title of "): r for r in decision.fixed}
    assert list(rows)[:3] == ["neck.underside", "rating.gvwr.requested", "jack.nose.station"]
    assert rows["jack.nose.station"].window.startswith("0\N{DOUBLE PRIME} to 1")
    assert rows["axles.spread"].window == "\N{EN DASH}"
    assert (rows["jack.nose.station"].freezes, rows["width.track"].freezes) == ("steel cut", "axle order")


def test_the_next_step_is_the_worst_thing_first() -> None:
    fail, review = check("neck.window", 2.0, 1.0, True), check("hitch.rating", 1.0, 2.0, True, share=0.1)
    first = next_step(model(), results(checks=(review, fail)))
    assert first.startswith("Change the design until this holds: Title of neck.window")
    assert next_step(model(), results(checks=(review,))).startswith("Have this confirmed")
    assert next_step(model(), results(checks=())).startswith("Find out: Measure the bed rail")
    assert next_step(model(), results(checks=(), tasks=())).startswith("Send request")


def test_quotes_that_have_run_out_are_not_waited_for() -> None:
    costs = spec().costs
    assert costs is not None
    old = costs.lines[0].model_copy(update={"valid_to": "2000-01-01", "status": "quote", "title": "Old"})
    new = costs.lines[0].model_copy(update={"valid_to": "2099-01-01", "status": "quote", "title": "New"})
    for lines, said in (((old, new), "Quotes run out: New on 2099-01-01. After"), ((old,), "No price in the budget")):
        changed = replace(model(), spec=replace(spec(), costs=costs.model_copy(update={"lines": lines})))
        assert got(desk(of=changed), Decision).costs_of_waiting.startswith(said)
