"""Engineer's brief, haulier's and underwriter's sheet as slices; features and pages of the safety checklist."""

import math
from dataclasses import replace

import pytest
from release_sample import HERON, data, model, quantity, results, spec

from generator.calc.measured import UpdatedState, Weighed
from generator.reference.content import checklist
from generator.reference.types import ChecklistRow
from generator.release.cut import cut
from generator.release.features import deferred, features
from generator.release.grants import OWNER, READERS, RECIPIENTS
from generator.release.slices import Brief, Desk, Haul, Hazards, Slice, Underwriting
from generator.spec.models.project import Insurance
from generator.spec.models.spec import Spec
from generator.spec.read import read_spec

LB, IN = 0.45359237, 0.0254
KINDS = {"haulier": Haul, "insurer": Underwriting, "engineer": Brief}


def insured(**said: object) -> Spec:
    """The example with an insurance block of its own."""
    block = Insurance.model_validate(said) if said else None
    return replace(spec(), project=spec().project.model_copy(update={"insurance": block}))


def desk(to: str, of: Spec | None = None, units: str | None = None, **changed: object) -> Desk:
    return cut(model(of), results(**changed), data(), to, "0123456789ab", units)


def sheet(kind: type[Slice], of: Spec | None = None, units: str | None = None, **changed: object) -> object:
    found = desk(OWNER, of, units, **changed).get(kind)
    assert found is not None
    return found


@pytest.mark.parametrize("to", RECIPIENTS)
def test_everybody_gets_their_own_sheet_and_the_owner_all(to: str) -> None:
    held = {k for k in KINDS.values() if desk(to).get(k) is not None}
    assert held == (set(KINDS.values()) if to == "owner" else {KINDS[to]} if to in KINDS else set())


@pytest.mark.parametrize(("inches", "units", "shown"), [
    (158.01, "us", "13\u2032-3\u2033"), (159.0, "us", "13\u2032-3\u2033"), (157.5, "us", "13\u2032-2\u2033"),
    (4000.1 / 25.4, "si", "4,010\u00a0mm"), (4000.0 / 25.4, "si", "4,000\u00a0mm")])
def test_a_drivers_height_is_rounded_up_never_down(inches: float, units: str, shown: str) -> None:
    """13 ft is 156 in: 158.01 in is over 13 ft 2 in and must read 13 ft 3 in."""
    high = replace(quantity("height.overall.unladen", 150.0 * IN, "m"), high=inches * IN)
    card = dict(sheet(Haul, units=units, quantities=(high,)).card)  # type: ignore[attr-defined]
    assert card["Height, rounded up"].replace("\u202f", "\u00a0") == shown
    assert card["Height measured"] == ""


def test_an_unknown_height_is_a_box_not_a_number() -> None:
    unknown = replace(quantity("height.overall.unladen", math.nan, "m"), low=math.nan, high=math.nan)
    assert dict(sheet(Haul, quantities=(unknown,)).card)["Height, rounded up"] == ""  # type: ignore[attr-defined]


def test_the_haulier_reads_sizes_masses_and_pressures_of_the_design() -> None:
    haul = sheet(Haul)
    assert isinstance(haul, Haul)
    tyre = spec().trailer.running_gear.tyre
    assert dict(haul.wheels)["Cold pressure"].startswith("110")
    assert tyre.size in dict(haul.wheels)["Tyres"]
    assert [s.title for s in haul.states] == ["bare", "travel"]
    assert dict(haul.coupling)["Lights plug"] == spec().trailer.wiring.connector
    assert dict(haul.wheels)["Wheel torque, maker's"] == ""


def test_what_the_owner_wrote_is_not_put_in_other_words() -> None:
    """Our labels follow the kind of coupling; the owner's words about chains and breakaway stay as written."""
    haul = sheet(Haul)
    assert isinstance(haul, Haul)
    assert dict(haul.coupling)["Breakaway"] == spec().trailer.chains.breakaway


def test_no_point_no_promise() -> None:
    bare = replace(spec(), trailer=spec().trailer.model_copy(update={"points": ()}))
    haul = sheet(Haul, bare)
    assert "no point is drawn" in dict(haul.points)["Tie-down and recovery"]  # type: ignore[attr-defined]


def test_a_value_is_printed_only_where_the_owner_wrote_one() -> None:
    told = sheet(Underwriting, insured(replacement_value="91234.50", battery="lead acid"))
    silent = sheet(Underwriting, insured())
    assert isinstance(told, Underwriting)
    assert isinstance(silent, Underwriting)
    assert dict(told.value)["Replacement value"] == "$91,235"
    assert dict(told.fire)["House battery"] == "lead acid"
    assert dict(silent.value)["Replacement value"] == dict(silent.fire)["House battery"] == ""
    assert dict(silent.identity)["Serial number (VIN)"] == ""
    assert {v for w, v in silent.build if "signed" in w} == {""}


def test_a_scale_reading_stands_beside_its_rating() -> None:
    read = UpdatedState("travel", "Travel", 7800.0, 9.0, 1490.0, 9.0, 6310.0, 9.0, "ticket-1")
    rows = {r.what: r for r in sheet(Underwriting, weighed=Weighed((), (), (read,))).weighed}  # type: ignore[attr-defined]
    assert rows["Trailer"].read.startswith("17,196")
    assert {r.read for r in sheet(Underwriting).weighed} == {""}  # type: ignore[attr-defined]
    listed = replace(read, source="")
    assert sheet(Underwriting, weighed=Weighed((), (), (listed,))).weighed[0].read == ""  # type: ignore[attr-defined]


def test_the_brief_gives_both_senses_and_names_what_is_open() -> None:
    forces = (quantity("frame.towing.moment_sag", 6000.0, "N*m"), quantity("frame.towing.moment_hog", 9000.0, "N*m"),
              quantity("frame.towing.shear", 5000.0, "N:force"), quantity("fatigue.swings", 500_000.0, "count"))
    brief = sheet(Brief, quantities=(*results().quantities, *forces))
    assert isinstance(brief, Brief)
    [row] = brief.cases
    assert (row.title, row.hog[0], row.shear[0]) == ("On the road", "\u2212", "\u00b1")
    assert [g.value for g in brief.fatigue] == ["500,000"]
    assert "r1, W8x15" in dict(brief.geometry)["Rails"]


@pytest.mark.parametrize(("said", "has", "hasnt"), [
    ({"heat": ["solid fuel"], "battery": "lithium"}, {"solid fuel", "lithium", "battery"}, {"heat not stated"}),
    ({"heat": ["electric"], "battery": "none"}, {"none"}, {"solid fuel", "battery", "heat not stated"}),
    ({}, {"heat not stated", "no battery stated"}, {"solid fuel", "battery", "lithium"})])
def test_features_follow_heat_and_battery(said: dict[str, object], has: set[str], hasnt: set[str]) -> None:
    found = features(insured(**said))
    assert has <= found
    assert not hasnt & found


def test_a_stove_brings_its_page_and_nothing_else_does() -> None:
    pages = {p.id for p in sheet(Hazards, insured(heat=["solid fuel"])).pages}  # type: ignore[attr-defined]
    assert "solid-fuel" in pages
    assert "solid-fuel" not in {p.id for p in sheet(Hazards).pages}  # type: ignore[attr-defined]


def test_every_phase_of_the_work_has_its_page() -> None:
    """The phases of the brief for the checklist, in the words of its pages."""
    asked = {"lifting", "hot-work", "wheels", "hitching", "weighing", "before-trip", "parking", "wind", "propane",
             "electrical", "life-safety", "occupancy", "tyres", "transport", "shop"}
    pages = checklist()
    assert asked <= {p.id for p in pages}
    assert [r.item for p in pages for r in p.rows if not all((r.do, r.evidence, r.stop_if, r.defer_to))] == []
    assert all(p.caution and p.rows for p in pages)


@pytest.mark.parametrize("kind", ["gooseneck", "ball", "king pin"])
def test_every_coupling_is_hitched_by_one_row_of_its_own(kind: str) -> None:
    [page] = [p for p in checklist() if p.id == "hitching"]
    assert len([r for r in page.rows if r.when == kind and ("coupler" in r.item or "pin" in r.item)]) == 1


def test_every_word_of_when_is_a_feature_some_design_can_have() -> None:
    words = {w for p in checklist() for w in (p.when, *(r.when for r in p.rows)) if w}
    known = {"gooseneck", "ball", "king pin", "torsion", "leaf", "neck", "over the wheels", "between the wheels",
             "wheel boxes", "powered jacks", "stands", "points", "propane", "solid fuel", "heat not stated", "lithium",
             "lead acid", "battery", "diesel", "spring bars", "sleeping loft",
             "over-run brakes"}
    assert words <= known
    assert {"over the wheels", "leaf", "ball", "king pin", "solid fuel"} <= words


def test_everybody_reads_the_phases_they_work_in() -> None:
    read = {to: {p.id for p in desk(to).get(Hazards).pages} for to in RECIPIENTS if READERS[to]}  # type: ignore[union-attr]
    assert "hot-work" in read["official"]
    assert "hitching" not in read["official"]
    assert "hitching" in read["haulier"]
    assert not {"hot-work", "electrical", "shop"} & read["haulier"]
    assert {"hitching", "electrical"} <= read["insurer"]
    assert "shop" not in read["insurer"]


def test_the_dash_card_tells_the_heaviest_state_not_the_loaded_one() -> None:
    """A bridge and a scale see the tanks as wet as they are: the high side of the heaviest state towed."""
    states = results().states
    wet = replace(states[-1], id="travel_wet", mass=8000.0, mass_high=8200.0)
    card = dict(
        sheet(Haul, units="si", states=(*states, wet)).card)  # type: ignore[attr-defined]
    assert card["Mass at most"].replace("\u00a0", " ") == "8,200 kg"
    standing = replace(wet, towed=False, mass_high=9000.0)
    card = dict(sheet(Haul, units="si", states=(*states, wet, standing)).card)  # type: ignore[attr-defined]
    assert card["Mass at most"].replace("\u00a0", " ") == "8,200 kg"


def test_the_day_of_the_move_is_left_to_the_pen() -> None:
    """What a haulier is asked for before a move: places, contacts, ticket, brakes, loose things, insurance."""
    move = dict(sheet(Haul).move)  # type: ignore[attr-defined]
    assert set(move.values()) == {""}
    assert {"Pick-up place, access", "Contact there", "Weight ticket, date", "Loose things stowed by",
            "Insured by, proof", "Brakes tried, date"} <= set(move)


ROAD = {"lifting", "wheels", "delivery", "tyres", "hitching", "weighing", "before-trip", "service", "occupancy",
        "transport", "parking", "propane"}
DWELLING = {"lifting", "hot-work", "weighing", "service", "occupancy", "parking", "wind", "propane", "electrical",
            "life-safety"}
SHOP = {"lifting", "shop", "shop-hot-work", "wheels", "harness", "delivery"}


@pytest.mark.parametrize(("to", "phases"), [
    ("owner", ROAD | DWELLING | SHOP), ("fabricator", SHOP), ("official", DWELLING), ("haulier", ROAD),
    ("insurer", ROAD | DWELLING), ("engineer", set())])
def test_each_recipient_gets_the_phases_that_concern_them_and_no_other(to: str, phases: set[str]) -> None:
    """A design with propane and without a stove for wood."""
    held = desk(to, insured(heat=["propane"])).get(Hazards)
    assert {p.id for p in held.pages} == phases if isinstance(held, Hazards) else not phases


def test_spring_bars_are_asked_about_only_where_there_are_any() -> None:
    """wren tows with them; dipper's vehicle says nothing of them; without a vehicle they may come."""
    wren, dipper = (read_spec(HERON.parent / name) for name in ("wren", "dipper"))
    assert "spring bars" in features(wren)
    assert "spring bars" not in features(dipper)
    assert "spring bars" in features(replace(dipper, tow=None))
    assert "spring bars" not in features(spec())


def test_whose_word_counts_follows_the_route() -> None:
    row = ChecklistRow("Bonding", "do", "seen", "not", "Electrician", us="a US code", abroad="the local code")
    assert deferred(row, frozenset({"us"})) == "Electrician; a US code"
    assert deferred(row, frozenset({"us", "ca"})) == "Electrician; a US code"
    assert deferred(row, frozenset({"nz", "abroad"})) == "Electrician; the local code"
    assert deferred(replace(row, abroad=""), frozenset({"abroad"})) == "Electrician"
    assert {r.defer_to for p in desk(OWNER).get(Hazards).pages for r in p.rows if r.item == "Bonding"} >= {  # type: ignore[union-attr]
        "Licensed electrician; NEC 250, 551, 552 as adopted"}
