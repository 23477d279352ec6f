"""The request: clauses, reply form, acceptance sheet."""

import re
from dataclasses import replace

import pytest
from release_sample import data, model, results, spec

from generator.errors import DataError
from generator.model.types import Model
from generator.reference.content import clauses, criticals, tolerances
from generator.reference.types import ClauseRow, ClauseText
from generator.release.acceptance import welded_tolerance
from generator.release.cut import cut
from generator.release.slices import Cover, Request
from generator.release.steel import envelope, steel
from generator.release.wording import Asked, fill, words
from generator.units import Show


def request(of: Model | None = None, units: str | None = None, **changed: object) -> Request:
    found = cut(of or model(), results(**changed), data(), "fabricator", "", units).get(Request)
    assert isinstance(found, Request)
    return found


def clause(made: Request, title: str) -> dict[str, str]:
    return dict(next(c.rows for c in made.clauses if c.title == title))


def test_clauses_are_numbered_without_gap() -> None:
    made = request().clauses
    assert [c.number for c in made] == list(range(1, 20))
    assert all(what and text for c in made for what, text in c.rows)


def test_no_placeholder_is_left() -> None:
    assert not [text for c in request().clauses for _, text in c.rows if "{" in text or "}" in text]


def test_braces_in_a_design_are_words_not_wording() -> None:
    frame = spec().trailer.frame.model_copy(update={"coating": "{number} {{ 7*7 }} {0.__class__}"})
    odd = replace(spec(), trailer=spec().trailer.model_copy(update={"frame": frame}))
    made = request(replace(model(), spec=odd))
    assert clause(made, "Coating")["Preparation and coating"] == "{number} {{ 7*7 }} {0.__class__}"


def test_a_name_nobody_fills_is_a_fault_of_the_data() -> None:
    text = ClauseText("Scope", (ClauseRow("Colour", "{hue}"),))
    with pytest.raises(DataError, match=r"clauses.yaml: Scope: Colour: nothing is called 'hue'"):
        fill((text,), {}, {}, frozenset())


def test_a_clause_without_rows_drops_out_and_numbers_close_up() -> None:
    zinc = ClauseText("Zinc", (ClauseRow("Zinc", "yes", when="galvanised"),))
    texts = (zinc, ClauseText("Rest", (ClauseRow("a", "b"),)))
    assert [(c.number, c.title) for c in fill(texts, {}, {}, frozenset())] == [(1, "Rest")]
    assert [(c.number, c.title) for c in fill(texts, {}, {}, frozenset({"galvanised"}))] == [(1, "Zinc"), (2, "Rest")]


def test_axles_that_differ_are_told_apart() -> None:
    trailer = spec().trailer
    assert "Axles 1, 2 and 3" in clause(request(), "Running gear")
    gear = trailer.running_gear
    odd = gear.axles[1].model_copy(update={"brake": gear.axles[1].brake.model_copy(update={"size": "10 x 2 in"})})
    changed = gear.model_copy(update={"axles": (gear.axles[0], odd, gear.axles[2])})
    made = request(replace(model(), spec=replace(spec(), trailer=trailer.model_copy(update={"running_gear": changed}))))
    assert {"Axles 1 and 3", "Axle 2"} <= set(clause(made, "Running gear"))


def test_no_tow_vehicle_makes_the_coupler_provisional() -> None:
    made = request(replace(model(), spec=replace(spec(), tow=None)), neck=None)
    assert clause(made, "Basis of the design")["Tow vehicle"].startswith("Not chosen.")


def test_ratings_are_requested_never_certified() -> None:
    basis = clause(request(), "Basis of the design")
    assert basis["Requested GVWR"].startswith("18,000\N{NO-BREAK SPACE}lb. A request: the certifying manufacturer")
    assert basis["Axle 1"].startswith(
        "Requested GAWR 7,000\N{NO-BREAK SPACE}lb; the least acceptable is 5,200\N{NO-BREAK SPACE}lb.")


def test_every_critical_value_has_a_row_of_the_reply_form() -> None:
    items = " | ".join(r.item for r in request().reply)
    for wanted in ("GVWR", "GAWR certified, axle 3", "Tyre load", "Wheel load", "Coupler rating", "Neck underside",
                   "Main-deck top", "Ball centre", "Torsion tube of axle 3", "Track", "lift rating of a leg", "stroke"):
        assert wanted in items


def test_the_reply_form_asks_who_designs_and_splits_the_lead_time() -> None:
    rows = request().reply
    assert len({r.number for r in rows}) == len(rows)
    assert [r.item.split(" ")[0] for r in rows if r.number.startswith("D")] == ["Structural", "Fabrication"]
    assert [r.item.split(",")[0] for r in rows if r.number.startswith("L")][:2] == ["Axles", "Steel and cutting"]
    assert {r.unit for r in rows if r.number.startswith("L")} == {"weeks"}
    assert {r.unit for r in rows if r.number.startswith("P")} == {"USD"}


def test_every_critical_dimension_is_measured() -> None:
    what = [r.what for r in request().acceptance]
    missing = [c.id for c in criticals() if not any(w.startswith(c.what) for w in what)]
    # Those of a tongue and of beam axles on leaf springs; torsion axles are measured at the tube.
    assert missing == ["coupler-height", "spindle-station", "hangers"]


def test_acceptance_numbers_bounds_and_instruments() -> None:
    rows = request().acceptance
    assert [r.number for r in rows] == [str(n) for n in range(1, len(rows) + 1)]
    assert all(r.how and r.nominal for r in rows)
    width = next(r for r in rows if r.what.startswith("Overall width"))
    assert (width.nominal, width.high) == (width.nominal, width.nominal)  # nothing over: the width is a legal limit
    assert width.low != width.nominal


def test_metric_designs_are_told_in_millimetres() -> None:
    rows = request(units="si").acceptance
    deck = next(r for r in rows if r.what == "Main deck, length")
    assert "mm" in deck.nominal
    assert deck.how == "tape, class B"


@pytest.mark.parametrize(("length", "letter", "by"), [
    (8.5344, "A", 0.006), (8.5344, "B", 0.010),  # 28 ft rail
    (2.032, "A", 0.004), (2.032, "B", 0.006),  # 6 ft 8 in box
    (4.0, "B", 0.006), (4.0001, "B", 0.008), (0.4, "C", 0.004), (0.4001, "C", 0.006), (30.0, "D", 0.040),
    (-1.5, "A", 0.003),
])
def test_welded_tolerance_by_row(length: float, letter: str, by: float) -> None:
    """ISO 13920:1996 table 1: 4000 mm is the last of its row; the row is chosen in millimetres."""
    assert welded_tolerance(length, letter, tolerances()) == pytest.approx(by)


@pytest.mark.parametrize("length", [0.0, 0.001, float("nan")])
def test_no_tolerance_below_the_table(length: float) -> None:
    assert welded_tolerance(length, "B", tolerances()) != welded_tolerance(length, "B", tolerances())


def test_bounds_round_inwards() -> None:
    """The shop must not be told a wider band than the class gives: low up, high down, to 1/16 in."""
    deck = next(r for r in request().acceptance if r.what == "Main deck, length")
    assert deck.nominal == "27\N{PRIME}-0\N{DOUBLE PRIME}"  # 8229.6 mm, class B: 10 mm = 6.3 sixteenths
    assert deck.low == "26\N{PRIME}-11\N{NO-BREAK SPACE}5/8\N{DOUBLE PRIME}"
    assert deck.high == "27\N{PRIME}-0\N{NO-BREAK SPACE}3/8\N{DOUBLE PRIME}"


def test_what_is_not_known_prints_a_dash_and_loses_its_row() -> None:
    bare = request(quantities=(), states=(), jacks=(), ratings=(), windows=())
    assert clause(bare, "Dimensions and tolerances")["Neck underside"].endswith("window \N{EN DASH} to \N{EN DASH}")
    assert not [r for r in bare.acceptance if r.what.startswith(("Bare trailer", "Leg of the jack", "Deck top above"))]


def test_bounds_lie_about_the_dimension_as_written() -> None:
    """Written dimensions govern: a tube at 3.5001 m is written 11 ft 5 13/16 in, plus or minus 1/16."""
    rows = [r for r in request().acceptance if r.what.startswith("Torsion tube")]
    for row in rows:
        assert len({row.nominal, row.low, row.high}) == 3


def test_every_name_the_wording_is_offered_is_used() -> None:
    cover = cut(model(), results(), data(), "fabricator").get(Cover)
    steel_, house = steel(model(), results()), envelope(model(), results())
    assert isinstance(cover, Cover)
    offered = set(words(Asked(model(), results(), data(), cover, steel_, house, Show("us", "USD"))))
    used = {name for c in clauses() for r in c.rows for name in re.findall(r"\{([a-z_]+)\}", r.what + r.text)}
    assert sorted(offered - used) == []


def test_axle_ratings_and_ball_close_the_sum_with_the_numbers_printed() -> None:
    """49 CFR 571.120 S10.2 as used: 3 x 7,000 lb and 15 % of 18,000 lb are 23,700 lb, at least 18,000 lb."""
    told = clause(request(), "Basis of the design")["Ratings together"].replace("\N{NO-BREAK SPACE}", " ")
    assert told.startswith("Axles 21,000 lb and the least load on the ball, 15.0 % of the GVWR, 2,700 lb: 23,700 lb "
                           "against a GVWR of 18,000 lb")
    assert told.endswith("with the least acceptable axle ratings 18,300 lb")


def test_one_requirement_a_jack_wherever_it_is_asked() -> None:
    """The rating and the stroke asked for are those scheduled; what the sums need is said to be the least."""
    made = request()
    jack = results().jacks[0]
    show = Show("us", "USD")
    rated, needed = show(jack.lift_rating, "kg"), show(jack.rating_needed, "kg")
    said = clause(made, "Jacks, stands and points")[jack.title]
    row = next(r for r in made.reply if r.item == f"{jack.title}: lift rating of a leg")
    assert f"lifting {rated}" in said
    assert f"{needed} lifting at least" in said
    assert (row.requested, row.kind) == (f"{rated} as scheduled; {needed} is the least needed", "value")
    stroke = next(r for r in made.reply if r.item == f"{jack.title}: stroke")
    assert stroke.requested.startswith(show(jack.stroke, "m"))
    assert stroke.requested in clause(made, "Jacks, stands and points")[f"{jack.title}: leg"]


def test_a_jack_of_the_spec_is_told_with_leg_screw_motor_and_crank() -> None:
    spec_jack = spec().trailer.jacks[0]
    jack = replace(results().jacks[0], id=spec_jack.id, title=spec_jack.title)
    told = clause(request(jacks=(jack,)), "Jacks, stands and points")
    assert {f"{jack.title}{x}" for x in ("", ": leg", ": motor", ": battery", ": by hand")} <= set(told)
    show = Show("us", "USD")
    assert f"screw lead {show(spec_jack.screw.lead.nominal, 'm:work')}" in told[f"{jack.title}: leg"]
    assert f"run {show(spec_jack.motor.cable_length.nominal, 'm')} one way" in told[f"{jack.title}: motor"]
    by_hand = spec().trailer.model_copy(update={"jacks": (spec_jack.model_copy(update={"motor": None}),)})
    plain = clause(request(replace(model(), spec=replace(spec(), trailer=by_hand)), jacks=(jack,)),
                   "Jacks, stands and points")
    assert f"{jack.title}: motor" not in plain


def test_the_neck_alternate_stays_inside_the_window() -> None:
    neck = next(w for w in results().windows if w.id == "neck.window")
    row = next(r for r in request().reply if r.item.startswith("Neck underside higher"))
    assert row.item.endswith(Show("us", "USD")(spec().trailer.neck.shop_step.nominal, "m"))
    assert "only from" in row.requested
    shut = replace(neck, low=neck.high + 0.1)
    rest = tuple(w for w in results().windows if w.id != "neck.window")
    assert not [r for r in request(windows=(*rest, shut)).reply if r.item.startswith("Neck underside higher")]


def test_every_kind_of_row_is_used_and_the_total_is_no_row() -> None:
    rows = request().reply
    assert {r.kind for r in rows} == {"price", "value", "weeks", "choice", "words"}
    assert all(r.part for r in rows)
    assert "Total" not in {r.item for r in rows}
    items = " | ".join(r.item for r in rows)
    for wanted in ("Papers and fees", "Deflection of the main deck", "Weld design basis", "Price of steel",
                   "Who tows it away", "Closed members"):
        assert wanted in items


@pytest.mark.parametrize(("rating", "said"), [
    (9000.0, "carry the trailer loaded for the road"), (3000.0, "carry the trailer bare"),
    (500.0, "do not carry the bare trailer")])
def test_a_lift_point_says_what_it_lifts(rating: float, said: str) -> None:
    """Two points on a diagonal carry a rigid frame on uneven slings; 7 700 kg loaded, 2 695 kg bare."""
    points = tuple(p.model_copy(update={"rating": replace(p.rating, nominal=rating / 2)})
                   for p in spec().trailer.points)
    trailer = spec().trailer.model_copy(update={"points": points})
    of = replace(model(), spec=replace(spec(), trailer=trailer))
    assert said in clause(request(of), "Jacks, stands and points")["Lift points"]


def test_weighing_fixes_the_level_and_each_axle_is_only_recorded() -> None:
    rows = {r.what: r for r in request().acceptance if r.what.startswith(("For weighing", "Bare trailer"))}
    assert next(iter(rows)).startswith("For weighing, bare: neck underside above the floor")
    axle = rows["Bare trailer, axle 1, for the record"]
    assert (axle.low, axle.high) == ("\N{EN DASH}", "\N{EN DASH}")
    assert rows["Bare trailer, mass"].low != "\N{EN DASH}"


def test_no_width_may_exceed_the_width_asked() -> None:
    """The width is a legal limit: nothing over, on the main deck or the neck, and no second row allows more."""
    rows = [r for r in request().acceptance if "width" in r.what.lower()]
    assert [r.what.rsplit(", ", 1)[1] for r in rows] == ["main deck", "neck deck"]
    assert all(r.high == r.nominal for r in rows)
