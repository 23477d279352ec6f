"""A house moved once: one lift, one move in ten years, use class A, no move in ordinary years."""

from decimal import Decimal

import pytest
import scratch

from generator.calc.topics.cost_years import years_of
from generator.calc.topics.fatigue import fatigue
from generator.calc.topics.rating_checks import use_class
from generator.calc.trials import Trials
from generator.document.sentences import over_years
from generator.reference.load import reference
from generator.spec.models.costs import Costs, Running
from generator.spec.models.project import Use

ONCE = {"use.moves_a_year": None, "use.moves": "once", "use.distance_a_year": "200 km"}
DATA = reference()


def use(**given: object) -> Use:
    return scratch.spec(project={f"use.{k}": v for k, v in given.items()}).project.use


def test_counts_of_the_only_move() -> None:
    """200 km at 20 m/s last 10 000 s; two swings a second make 20 000. Off the tow vehicle once, on to it once."""
    found = {q.id: q for q in fatigue(scratch.model([], scratch.spec(project=ONCE)), Trials(count=0), DATA).quantities}
    assert found["fatigue.swings"].nominal == pytest.approx(20_000.0)
    assert found["fatigue.lifts"].nominal == 2.0
    assert "in its only move" in found["fatigue.swings"].title
    assert found["fatigue.lifts"].title.startswith("Times in all")


def test_ten_years_hold_one_move() -> None:
    """One move at 900, ten years at 100, tyre wear of 200 km at 300 each 1 000 km: 900 + 1 000 + 60."""
    def line(id: str, each: str, likely: str, **more: object) -> Running:
        amount = Decimal(likely)
        return Running.model_validate({"id": id, "title": id, "each": each, "low": str(amount), "likely": str(amount),
                                       "high": str(amount), "taxed": "no"} | more)

    costs = Costs.model_construct(running=(line("hire", "move", "900"), line("cover", "year", "100"),
                                           line("wear", "distance", "300", distance="1000 km")))
    moved = use(moves_a_year=None, moves="once", distance_a_year="200 km")
    found = years_of(costs, moved, Decimal(0), [], Decimal(0), 0.0, Trials(count=0), DATA)
    assert found is not None
    assert [r.total for r in found.rows] == [Decimal(900), Decimal(1000), Decimal(60)]
    assert (found.moves, found.once, found.running) == (0, True, Decimal(1960))


def test_moves_by_hand() -> None:
    once, often, never = use(moves_a_year=None, moves="once"), use(moves_a_year="4"), use(moves_a_year="0")
    assert [u.moves_over(10.0) for u in (once, often, never)] == [1.0, 40.0, 0.0]
    assert [u.moves_ordinary for u in (once, often, never)] == [0, 4, 0]
    assert [u.moves_busiest for u in (once, often, never)] == [1, 4, 0]


def test_moved_once_on_paved_roads_is_class_a() -> None:
    model = scratch.model([], scratch.spec(project=ONCE))
    assert use_class(model, DATA) == "a"


@pytest.mark.parametrize(("moves", "once", "said"), [
    (0, True, "10 years with one move in all"), (0, False, "10 years at no move a year"),
    (1, False, "10 years at 1 move a year"), (12, False, "10 years at 12 moves a year"),
])
def test_how_often_is_said(moves: int, once: bool, said: str) -> None:
    assert over_years(10, moves, once) == said
