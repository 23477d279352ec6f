"""Tickets and measurements are the owner's alone, and are printed whole for the owner."""

from dataclasses import replace

import pytest
from release_canary import texts
from release_sample import HERON, data
from ticket_sample import three, visit, weighing

from generator.calc.findings import Results
from generator.calc.run import calculate
from generator.calc.trials import Trials
from generator.document.blocks import Table
from generator.document.section import Context
from generator.document.sections.scale import BUILT, CARD, DRIVERS, TICKETS
from generator.model.resolve import resolve
from generator.model.types import Model
from generator.release.cut import cut
from generator.release.slices import Cover, Desk
from generator.spec.read import read_spec
from generator.units import Show

TOKENS = ("Zanzibar scale", "Quince ticket", "quince-one", "Tamarind visit")


@pytest.fixture(scope="module")
def made() -> tuple[Model, Results]:
    spec = read_spec(HERON)
    ticket = weighing("quince-one", **three(2260, 2450, 9000, (2250, 1755)), title="Quince ticket",
                      place="Zanzibar scale", state="bare")
    sheet = visit("tamarind-visit", "2026-06-01", ("neck underside", None, "3 ft 4 in"))
    named = replace(sheet, sheet=sheet.sheet.model_copy(update={"title": "Tamarind visit", "by": "Tamarind visit"}))
    model = resolve(replace(spec, tickets=(ticket,), asbuilt=(named,)), data())
    return model, calculate(model, data(), Trials(count=200))


def desk(made: tuple[Model, Results], to: str) -> Desk:
    return cut(*made, data(), to)


def test_the_fabricator_hears_nothing_of_a_scale(made: tuple[Model, Results]) -> None:
    told = list(texts(desk(made, "fabricator").slices))
    assert not [t for t in told if any(token.lower() in t.lower() for token in TOKENS)]
    assert not [t for t in told if t.startswith(("ticket.", "asbuilt."))]


def test_the_owner_is_told_all(made: tuple[Model, Results]) -> None:
    told = list(texts(desk(made, "owner").slices))
    assert all(any(token in t for t in told) for token in TOKENS)


def test_sections_for_the_owner(made: tuple[Model, Results]) -> None:
    held = desk(made, "owner")
    cover = held.get(Cover)
    assert isinstance(cover, Cover)
    context = Context(Show("us"), cover)
    parts = {s.id: s.part(held, context) for s in (CARD, DRIVERS, TICKETS, BUILT)}
    cells = {
        id: [c.text for b in part.blocks if isinstance(b, Table) for r in b.rows for c in r.cells]
        for id, part in parts.items() if part is not None
    }
    assert set(cells) == {"scale-card", "drivers", "tickets", "as-built"}
    assert "Over the axles" in cells["scale-card"]
    assert any("disagree beyond chance" in text for text in cells["tickets"])
    assert "NO" in cells["as-built"]


def test_no_tickets_no_section() -> None:
    model = resolve(read_spec(HERON), data())
    held = cut(model, calculate(model, data(), Trials(count=0)), data(), "owner")
    cover = held.get(Cover)
    assert isinstance(cover, Cover)
    context = Context(Show("us"), cover)
    assert TICKETS.part(held, context) is None
    assert BUILT.part(held, context) is None
