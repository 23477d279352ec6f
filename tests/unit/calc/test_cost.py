"""Budget: exact money, what is fixed, what has expired, what nobody priced."""

from dataclasses import replace
from decimal import Decimal
from types import SimpleNamespace

import pytest

from generator.calc.topics.cost import STATUSES, budget, features
from generator.calc.trials import Trials
from generator.reference.load import prompts, reference
from generator.reference.types import AskedPrompt
from generator.spec.measure import Measure
from generator.spec.models.costs import Answer, BudgetLine, Costs, Milestone

DATA = reference()
NAN = float("nan")
ASKED = (AskedPrompt("sales-tax", "Sales tax", "common", "ask"),
         AskedPrompt("bed-ball", "Bed ball", "gooseneck", "ask"),
         AskedPrompt("jack-motors", "Jack motors", "powered jacks", "ask"),
         AskedPrompt("hire-permits", "Permits", "hired haul", "ask"))


def ratio(value):
    return Measure(value, value, value, "unknown" if value != value else "sure", "ratio")


def line(id, likely, low=None, high=None, status="estimate", **more):
    given = {"title": id.title(), "section": "trailer", "quantity": 1.0, "taxed": "no", "due": "order",
             "valid_to": None, "covers": ()} | more
    return BudgetLine.model_construct(id=id, status=status, low=Decimal(low or likely), likely=Decimal(likely),
                                      high=Decimal(high or likely), **given)


def model(lines, tax=0.085, correlation=0.4, answers=(), motor=False, tow=None):
    costs = Costs.model_construct(
        tax=ratio(tax), correlation=ratio(correlation), lines=tuple(lines), answers=tuple(answers),
        milestones=(Milestone(id="order", title="Order"), Milestone(id="end", title="Finished")))
    trailer = SimpleNamespace(
        coupling=SimpleNamespace(type="gooseneck"), deck="between the wheels", wheel_boxes=(),
        running_gear=SimpleNamespace(suspension=SimpleNamespace(type="torsion")),
        jacks=[SimpleNamespace(motor=object() if motor else None)])
    project = SimpleNamespace(currency="USD", date="2026-11-25", use=None)
    return SimpleNamespace(spec=SimpleNamespace(costs=costs, project=project, trailer=trailer, tow=tow, site=None))


def made(*lines, trials=None, asked=ASKED, **more):
    return budget(model(lines, **more), DATA, asked, trials or Trials())


def test_without_costs_there_is_no_budget():
    bare = SimpleNamespace(spec=SimpleNamespace(costs=None))
    assert budget(bare, DATA, ASKED, Trials()) is None


def test_a_line_is_quantity_times_price_with_tax_to_the_cent():
    b = made(line("steel", "19.99", quantity=3.0, taxed="yes"), line("papers", "120"))
    steel, papers = b.lines
    assert (steel.likely, steel.tax, steel.total) == (Decimal("59.97"), Decimal("5.10"), Decimal("65.07"))
    assert (papers.tax, papers.total) == (0, Decimal("120.00"))
    assert b.base == Decimal("185.07")


def test_every_split_adds_up_to_the_base():
    b = made(line("a", "100", "90", "150"), line("b", "250", status="paid", section="shell", due="end"),
             line("c", "70", status="quote", section="insurance"), line("d", "30", status="ordered", taxed="yes"))
    for rows in (b.sections, b.statuses, b.milestones):
        assert sum(r.total for r in rows) == b.base
        assert sum(r.lines for r in rows) == len(b.lines)
    assert [r.title for r in b.statuses] == [s for s in STATUSES if s != "invoiced"]
    assert [(r.title, r.lines) for r in b.milestones] == [("Order", 3), ("Finished", 1)]


def test_a_milestone_without_lines_stays_in_the_plan():
    b = made(line("a", "100"))
    assert [(r.title, r.total) for r in b.milestones] == [("Order", Decimal("100.00")), ("Finished", Decimal(0))]


@pytest.mark.parametrize("status", ["ordered", "invoiced", "paid"])
def test_a_settled_price_has_no_spread(status):
    b = made(line("axles", "5000", "3000", "9000", status=status))
    assert (b.lines[0].low, b.lines[0].high) == (Decimal("5000.00"), Decimal("5000.00"))
    assert b.p50 == b.p80 == b.base == 5000
    assert (b.contingency, b.below_base) == (0, 1.0)


def test_an_expired_quote_is_an_estimate_again_and_says_so():
    b = made(line("jacks", "1000", status="quote", valid_to="2026-11-24"))
    assert b.lines[0].status == "estimate"
    assert b.lines[0].high == Decimal("1100.00")
    assert any("good until 2026-11-24" in n for n in b.notes)
    assert b.p80 > 1000


def test_a_quote_is_good_on_its_last_day():
    b = made(line("jacks", "1000", status="quote", valid_to="2026-11-25"))
    assert b.lines[0].status == "quote"
    assert (b.p80, b.notes) == (1000, ())


def test_contingency_is_p80_less_base_and_percentiles_rise():
    b = made(*(line(f"l{n}", "1000", "900", "1600") for n in range(12)))
    assert b.contingency == b.p80 - b.base
    assert b.base < b.p50 < b.p80
    assert b.below_base < 0.5
    assert len(b.curve) == 21
    assert list(b.curve) == sorted(b.curve)
    assert b.curve[10] == b.p50
    assert all(v % 10 == 0 for v in (b.p50, b.p80, *b.curve))


def test_lines_that_err_together_need_a_greater_reserve():
    rows = [line(f"l{n}", "1000", "900", "1600") for n in range(12)]
    assert made(*rows, correlation=0.8).p80 > made(*rows, correlation=0.0).p80


def test_a_new_line_leaves_the_draws_of_the_others_alone():
    first = made(line("a", "1000", "900", "1600"))
    second = made(line("fixed", "500"), line("a", "1000", "900", "1600"))
    assert second.p50 - first.p50 == 500


def test_an_unknown_tax_rate_is_said_and_leaves_its_prompt_open():
    b = made(line("a", "100", taxed="yes", covers=("sales-tax",)), tax=NAN)
    assert b.base == 100
    assert any("no total here includes tax" in n for n in b.notes)
    assert "sales-tax" in {p.id for p in b.not_priced}


def test_an_unknown_correlation_takes_the_default_and_says_so():
    rows = [line("a", "100", "90", "150")]
    assert made(*rows, correlation=NAN).p80 == made(*rows, correlation=DATA.defaults["cost.correlation"].value).p80
    assert any("0.4" in n for n in made(*rows, correlation=NAN).notes)


def test_prompts_are_answered_by_lines_by_words_or_not_at_all():
    answers = (Answer(prompt="sales-tax", answer="included", why="in every line"),)
    b = made(line("ball", "600", covers=("bed-ball",)), answers=answers, motor=True)
    found = {p.id: p.answer for p in b.prompts}
    assert found == {"sales-tax": "included: in every line", "bed-ball": "priced in line: Ball",
                     "jack-motors": "not priced", "hire-permits": "not priced"}
    assert [p.id for p in b.not_priced] == ["jack-motors", "hire-permits"]


def test_a_prompt_of_another_kind_of_design_is_not_asked():
    b = made(line("a", "100"), tow=object())
    assert {p.id for p in b.prompts} == {"sales-tax", "bed-ball"}


def test_an_answer_to_a_prompt_that_does_not_exist_is_noted():
    b = made(line("a", "100", covers=("moon-landing",)))
    assert any("moon-landing" in n for n in b.notes)


def test_nominal_alone_gives_the_base():
    b = made(line("a", "100", "90", "150"), trials=replace(Trials(), count=0))
    assert b.p50 == b.base == 100


def test_every_feature_a_design_can_have_is_asked_about():
    every = model([line("a", "1")], motor=True, tow=object()).spec
    assert {"common", "gooseneck", "torsion", "powered jacks", "own tow vehicle"} <= features(every)
    known = {"common", "gooseneck", "torsion", "powered jacks", "own tow vehicle", "hired haul", "parked",
             "king pin", "ball", "wheel boxes", "over the wheels", "leaf"}
    assert {p.when for p in prompts()} <= known
