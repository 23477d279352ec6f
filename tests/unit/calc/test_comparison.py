"""Designs side by side: money over the years by hand, break-even by its definition, weights by hand."""

import json
from decimal import Decimal
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from spec_folder import STARTER, write

from generator.calc.abreast import abreast
from generator.calc.compared import Comparison, Contender, Flip, NumberRow, change_of, columns, number_of
from generator.calc.comparison import _even, _score, compare
from generator.calc.run import NO_LEVERS, calculate
from generator.calc.topics.cost_years import break_even, years_of
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.release.results import comparison_json
from generator.spec.measure import Measure
from generator.spec.models.costs import Costs, Running
from generator.spec.models.project import Use, Wish
from generator.spec.read import read_spec
from generator.units import Show

DATA = reference()
WREN = Path(__file__).resolve().parents[3] / "specs" / "wren"


def miles(value: float) -> Measure:
    return Measure(value, value, value, "sure", "distance", text=f"{value / 1609.344:g} mi")


def line(id: str, each: str, likely: str, taxed: str = "no", **more: object) -> Running:
    given = {"title": id, "low": Decimal(likely), "high": Decimal(likely), "years": None, "distance": None} | more
    return Running.model_construct(id=id, each=each, likely=Decimal(likely), taxed=taxed, **given)


def used(far: float, **moves: object) -> Use:
    return Use.model_construct(**{"moves_a_year": None, "moves": None, "distance_a_year": miles(far)} | moves)


USE = used(2000 * 1609.344, moves_a_year=4)
LINES = (
    line("fuel", "move", "150"),
    line("cover", "year", "900"),
    line("tyres", "year", "1000", "yes", years=6.0),
    line("grease", "distance", "300", distance=miles(5000 * 1609.344)),
)


def years(lines: tuple[Running, ...] = LINES, use: object = USE):  # type: ignore[no-untyped-def]
    costs = Costs.model_construct(running=lines)
    return years_of(costs, use, Decimal("0.10"), [("base", 20000.0, 20000.0, 20000.0)], Decimal(20000), 0.4,
                    Trials(count=200), DATA)


def test_ten_years_by_hand() -> None:
    """Forty moves at 150, ten years at 900, tyres once at 1 100 with tax, 20 000 mi at 300 each 5 000 mi."""
    found = years()
    assert [r.total for r in found.rows] == [Decimal(6000), Decimal(9000), Decimal(1100), Decimal(1200)]
    assert [r.each for r in found.rows] == ["each move", "each year", "every 6 years", "every 5000 mi"]
    assert found.running == Decimal(17300)
    assert found.total == Decimal(37300)
    assert found.a_move == Decimal("180.00")  # 150 and a quarter of a year's 2 000 mi
    assert found.a_year == Decimal("1010.00")
    assert found.p80 == Decimal(37300)  # nothing is uncertain


def test_a_house_that_never_moves_pays_by_the_year_alone() -> None:
    found = years(use=used(0.0, moves_a_year=0))
    assert found.running == Decimal(10100)
    assert found.a_move == Decimal("150.00")


def test_no_running_lines_no_years() -> None:
    assert years(lines=()) is None


def test_break_even_is_where_both_cost_the_same() -> None:
    """Own tow vehicle dearer by 12 000 at once and cheaper by 400 a move: 12 000/(10 x 400) = 3 moves a year."""
    hired = years((line("haul", "move", "600"), line("cover", "year", "900")))
    own = years((line("fuel", "move", "200"), line("cover", "year", "900")))
    moves = break_even((Decimal(20000), hired), (Decimal(32000), own))
    assert moves == pytest.approx(3.0)
    totals = [base + y.years * (y.a_year + Decimal(moves) * y.a_move)
              for base, y in ((Decimal(20000), hired), (Decimal(32000), own))]
    assert totals[0] == totals[1]
    assert np.isnan(break_even((Decimal(20000), hired), (Decimal(19000), own)))  # cheaper at any number of moves
    assert np.isnan(break_even((Decimal(20000), hired), (Decimal(21000), hired)))  # a move costs the same


def test_weights_are_the_persons_own() -> None:
    rows = [NumberRow("low", "Low", "g", "m", "less", (2.0, 1.0, 3.0)),
            NumberRow("room", "Room", "g", "m", "more", (10.0, 10.0, 14.0)),
            NumberRow("neither", "Neither", "g", "m", "", (1.0, 2.0, 3.0)),
            NumberRow("part", "Part", "g", "m", "more", (1.0, float("nan"), 3.0))]
    wishes = [Wish.model_construct(what=w, weight=n) for w, n in
              (("low", 3.0), ("room", 1.0), ("neither", 5.0), ("part", 5.0), ("nothing", 1.0))]
    found = _score(rows, wishes)
    assert found is not None
    # low: 0.5, 1, 0 at weight 3; room: 0, 0, 1 at weight 1
    assert found.standings == ((0.5, 1.0, 0.0), (0.0, 0.0, 1.0))
    assert found.sums == pytest.approx((0.375, 0.75, 0.25))
    assert found.unused == ("neither", "part", "nothing")
    assert _score(rows, []) is None


def test_an_option_is_compared_by_its_own_results(tmp_path: Path) -> None:
    """The option's column is what a folder with those texts gives by itself."""
    old = STARTER["trailer.yaml"].partition("tyre:")[2].partition("    load: ")[2].partition("\n")[0]
    option = "title: Stronger tyres\nwhy: w\nreplace:\n  trailer.running_gear.tyre.load: 6000 lb\n"
    spec = read_spec(write(tmp_path / "a", {"options/tyres.yaml": option}))
    text = STARTER["trailer.yaml"]
    at = text.index("    load: " + old, text.index("tyre:"))
    alone = text[:at] + "    load: 6000 lb" + text[at + len("    load: " + old):]
    itself = read_spec(write(tmp_path / "b", {"trailer.yaml": alone}))
    model, other, by_itself = (resolve(s, DATA) for s in (spec, spec.options[0].spec, itself))
    base, option_results, results = (calculate(m, DATA, levers=NO_LEVERS) for m in (model, other, by_itself))
    found = compare((model, base), [(spec.options[0], other, option_results)], DATA)
    told = {q.id: q.nominal for q in results.quantities}
    rows = {r.id: r for r in found.numbers}
    assert {i for i in rows if i in told} > {"height.deck.laden", "state.travel.mass", "state.travel.hitch"}
    for id, row in rows.items():
        if id in told:
            assert row.values[1] == pytest.approx(told[id], nan_ok=True)
    spare = 1.0 - max(2.0 * told[f"tyre.{n}.worst"] / told[f"tyre.{n}.capacity"] for n in (1, 2))
    assert rows["tyre.spare_capacity"].values[1] == pytest.approx(spare)
    assert rows["tyre.spare_capacity"].values[1] > rows["tyre.spare_capacity"].values[0]
    printed = abreast(found, Show("us", "USD"))
    assert "A  Stronger tyres" in printed
    assert "tyre.spare_capacity" in printed


@pytest.mark.parametrize(("statuses", "told", "passing"), [
    (("pass", "fail"), True, False),
    (("pass", "review"), True, False),
    (("pass", ""), False, True),
    (("", "pass"), False, True),
    (("", "review"), True, False),
    (("not assessed", ""), True, False),
    (("pass", "pass"), False, False),
])
def test_a_check_is_listed_where_it_sets_designs_apart(statuses: tuple[str, str], told: bool, passing: bool) -> None:
    flip = Flip("a", "A", statuses)
    assert (flip.tells((0, 1)), flip.comes_or_goes((0, 1))) == (told, passing)


def test_quotes_and_tickets_of_the_base_are_no_difference() -> None:
    """Wren has two quotes, of which no option can have any: none is counted and none is listed."""
    spec = read_spec(WREN)
    model = resolve(spec, DATA)
    base = calculate(model, DATA, levers=NO_LEVERS)
    assert any(c.id.startswith("quote.") for c in base.checks)
    option = next(o for o in spec.options if o.id == "tires-up")
    other = resolve(option.spec, DATA)
    found = compare((model, base), [(option, other, calculate(other, DATA, levers=NO_LEVERS))], DATA)
    assert not any(f.id.startswith("quote.") for f in found.flips)
    counts = {w.title: w.texts[0] for w in found.words}
    own = [c for c in base.checks if not c.id.startswith("quote.")]
    for word in ("fail", "not assessed", "review"):
        assert counts[f"Checks: {word}"] == str(sum(c.status == word for c in own))


def test_a_speed_at_the_end_of_its_search_lies_above_it() -> None:
    row = NumberRow("v", "V", "g", "m/s", "more", (55.0, 40.0, float("nan")), 55.0)
    show = Show("si", "EUR")
    assert [number_of(row, n, show) for n in range(3)] == ["above 198\u00a0km/h", "144\u00a0km/h", "–"]
    assert [change_of(row, n, show) for n in range(3)] == ["", "", ""]


def test_five_options_stand_three_and_two() -> None:
    assert list(columns(5, 4)) == [(0, 1, 2, 3), (0, 4, 5)]
    assert list(columns(4, 4)) == [(0, 1, 2, 3, 4)]
    assert list(columns(7, 3)) == [(0, 1, 2, 3), (0, 4, 5, 6), (0, 7)]
    assert sorted({n for places in columns(23, 4) for n in places}) == list(range(24))


def test_equal_money_is_called_equal() -> None:
    """The same costs in base and option: neither is the cheaper one."""
    budget = SimpleNamespace(base=Decimal(100), years=SimpleNamespace(years=10, a_move=Decimal(5), a_year=Decimal(7)))
    here = SimpleNamespace(title="As designed", results=SimpleNamespace(budget=budget))
    found = _even(here, SimpleNamespace(title="Other", results=SimpleNamespace(budget=budget)))
    assert found is not None
    assert (found.is_same, np.isnan(found.moves)) == (True, True)


def test_json_of_a_comparison_holds_what_the_table_holds() -> None:
    rows = (NumberRow("v", "V", "g", "m/s", "more", (55.0, 40.0), 55.0),)
    designs = (Contender("base", "As designed", "", (), ()), Contender("x", "X", "", (), ()))
    found = Comparison(designs, (), rows, (), (Flip("c", "C", ("pass", "")),), (None,), 1, False, 10, "A", None, False)
    told = json.loads(comparison_json(found))
    assert told["results"]["v"] == {"title": "V", "group": "g", "unit": "m/s", "better": "more", "end": 55.0}
    assert [told["designs"][d]["values"]["v"] for d in ("base", "x")] == [55.0, 40.0]
    assert told["designs"]["base"]["checks"] == {"c": "pass"}
    assert told["designs"]["x"]["checks"] == {}
