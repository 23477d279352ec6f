"""The request of a light trailer of New Zealand: no law of the US, round metric figures, words of leaf and tongue."""

import re
from functools import cache
from pathlib import Path

import pytest

from generator.calc.run import calculate
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.content import criticals
from generator.reference.load import reference
from generator.release.cut import cut
from generator.release.slices import Desk, Numbers, Request, Steel
from generator.spec.read import read_spec

SPECS = Path(__file__).parents[3] / "specs"
US_LAW = re.compile(r"CFR|FMVSS|\bDOT\b|GVWR|GAWR|J684|COMAR|\bRSA\b|state law|title office")
INCHES = re.compile(r"[0-9] ?(?:in|lb|ft|lbf|psi|mph|miles?)\b(?!.*coned)|[\u2032\u2033]")


@cache
def desk(name: str, to: str = "fabricator", units: str | None = None) -> Desk:
    """What a recipient gets of a design of this repository, nominal alone."""
    data = reference()
    model = resolve(read_spec(SPECS / name), data)
    return cut(model, calculate(model, data, Trials(count=0)), data, to, "", units)


def request(name: str, units: str | None = None) -> Request:
    made = desk(name, "fabricator", units).get(Request)
    assert isinstance(made, Request)
    return made


def texts(made: Request) -> list[str]:
    """Every text of the request: clauses, reply form, acceptance sheet."""
    clauses = [text for c in made.clauses for row in c.rows for text in row]
    reply = [text for r in made.reply for text in (r.item, r.requested)]
    return [*clauses, *reply, *(t for r in made.acceptance for t in (r.what, r.nominal, r.low, r.high))]


def clause(made: Request, title: str) -> dict[str, str]:
    return dict(next(c.rows for c in made.clauses if c.title == title))


def test_no_us_law_reaches_a_shop_abroad() -> None:
    assert [t for t in texts(request("dipper")) if US_LAW.search(t)] == []


def test_us_law_reaches_a_shop_in_the_us() -> None:
    """The same search finds it there, so the test above can fail."""
    assert len([t for t in texts(request("wren")) if US_LAW.search(t)]) > 5


def test_the_law_of_the_place_is_named_by_its_region() -> None:
    made = request("dipper")
    assert "New Zealand" in clause(made, "Basis of the design")["Gross trailer mass asked for"]
    assert "New Zealand" in clause(made, "Lamps and wiring")["Lamps and reflectors"]
    assert "Maker's plate" in clause(made, "Marks and papers")
    assert [r.item for r in made.reply if "certified" in r.item] == [
        "Gross trailer mass certified", "Rating certified, axle 1", "Rating certified, axle 2"]


def test_a_metric_sheet_knows_no_inches() -> None:
    assert [(r.what, r.high) for r in request("dipper").acceptance if INCHES.search(f"{r.what} {r.high}")] == []


def test_metric_tolerances_are_round_and_none_is_wider() -> None:
    """1/4 in is 6.35 mm and becomes 6 mm; 1/16 in is 1.59 mm and becomes 1.5 mm."""
    for us, si in zip(criticals("us"), criticals("si"), strict=True):
        for wide, narrow in ((us.minus, si.minus), (us.plus or 0.0, si.plus or 0.0)):
            assert wide * 0.8 <= narrow <= wide, us.id
            assert (2000.0 * narrow) == pytest.approx(round(2000.0 * narrow))


def test_whole_millimetres_have_no_decimal() -> None:
    shown = {t for r in request("dipper").acceptance for t in (r.nominal, r.low, r.high) if "mm" in t}
    assert "0\N{NO-BREAK SPACE}mm" in shown
    assert not [t for t in shown if ".0\N{NO-BREAK SPACE}" in t]


@pytest.mark.parametrize("name", ["dipper", "wren"])
def test_leaf_springs_are_told_as_hangers(name: str) -> None:
    made = request(name)
    measured = [r.what for r in made.acceptance]
    assert "Bolts of the hangers of one side out of one line" in measured
    assert not [w for w in measured if "racket" in w]
    assert "Springs, hangers and equalisers" in {r.item for r in made.reply}
    assert "Axle brackets" not in {r.item for r in made.reply}


def test_hangers_stand_half_a_spring_from_the_outer_spindles() -> None:
    """By hand for wren: spindles 157 and 191 in, springs 26 in: 144 in, the middle 174 in, 204 in."""
    gear = read_spec(SPECS / "wren").trailer.running_gear
    eye = gear.suspension.eye_length.nominal / 0.0254
    low, high = (gear.station.nominal / 0.0254 + s * gear.spacing.nominal / 0.0254 / 2.0 for s in (-1.0, 1.0))
    assert (low - eye / 2.0, (low + high) / 2.0, high + eye / 2.0) == pytest.approx((144.0, 174.0, 204.0))
    assert clause(request("wren"), "Running gear")["Hanger stations"].startswith(
        "From datum A: front hanger 12\u2032-0\u2033, equaliser 14\u2032-6\u2033, rear hanger 17\u2032-0\u2033")


@pytest.mark.parametrize("name", ["dipper", "wren"])
def test_the_height_of_a_welded_coupler_is_asked_and_measured(name: str) -> None:
    coupling, steel = read_spec(SPECS / name).trailer.coupling, desk(name).get(Steel)
    assert isinstance(steel, Steel)
    assert steel.hitched.ball_above_deck == coupling.height.nominal < 0.0
    said = [r.nominal for r in request(name).acceptance if r.what == "Ball centre below main-deck top"]
    assert said == [r.requested for r in request(name).reply if r.item == "Ball centre below main-deck top"]
    assert len(said) == 1


def test_zinc_is_touched_up_with_zinc_and_priced_against_paint() -> None:
    made = request("dipper")
    assert "zinc" in clause(made, "Coating")["Touch-up"]
    assert "Paint instead of zinc" in {r.item for r in made.reply}
    assert "Zinc instead of paint" in {r.item for r in request("heron").reply}


def test_states_of_checks_are_told_by_their_titles() -> None:
    numbers = desk("dipper", "owner").get(Numbers)
    assert isinstance(numbers, Numbers)
    told = {c.state for c in numbers.checks if c.state}
    assert told
    assert not {"travel", "travel_wet", "shell", "dry", "bare"} & told
