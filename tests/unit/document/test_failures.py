"""The list of all that fails: one row a cause, nothing cut, in the order to think of it."""

from generator.calc.record import About, Basis, Change, Check, Compared, Missing, Value
from generator.document.blocks import Prose, Table
from generator.document.section import Context
from generator.document.sections.failures import FEW, blocks
from generator.release.slices import Cover, Numbers
from generator.units import Show

COVER = Cover("id", "T", "s", "o", "d", "owner", "p", "P1", "2026-11-25", "FOR REVIEW", "us", "USD", "0", "packet")
CONTEXT = Context(Show("us", "USD"), COVER)


def check(id: str, topic: str, demand: float, limit: float = 1.0) -> Check:
    about = About(f"Title of {id}", topic, "source", f"Concern of {id}. " * 8, f"Ask about {id}. " * 8)
    outcome = Compared(Value("a", demand, "kg"), Value("b", limit, "kg"), "<=", 1.0, Basis.TABLE, frozenset(), ())
    return Check(id, about, "", outcome)


def test_few_failures_need_no_page_of_their_own() -> None:
    few = tuple(check(f"a.{n}x", "tow", 2.0) for n in range(FEW))
    assert blocks(Numbers((), few, ()), CONTEXT) == ()
    fine = tuple(check(f"b.{n}x", "tow", 0.5) for n in range(9))
    assert blocks(Numbers((), few + fine, ()), CONTEXT) == ()


def test_one_row_for_each_cause_with_its_worst_check() -> None:
    checks = (
        check("tyre.1.load", "ratings", 2.0), check("tyre.2.load", "ratings", 3.0),
        check("tyre.1.reserve", "ratings", 2.0),
        check("neck.rail_gap.level", "neck", 2.0), check("neck.rail_gap.rolled", "neck", 4.0),
        check("tow.payload", "tow", 2.0), check("wind.odd", "weather", 2.0), check("fine.one", "tow", 0.5),
        Check("gap.one", About("Gap", "tow", "s", "c", "a"), "", Missing(("x",))),
    )
    prose, found = blocks(Numbers((), checks, ()), CONTEXT)
    assert isinstance(prose, Prose)
    assert isinstance(found, Table)
    rows = [[c.text for c in r.cells] for r in found.rows]
    assert [r[0] for r in rows if len(r) == 1] == ["Tow vehicle", "Axles, tyres, wheels, chains", "Neck", "Weather"]
    full = [r for r in rows if len(r) > 1]
    assert len(full) == 5
    tyre = next(r for r in full if "tyre.2.load" in r[0])
    assert "1 more like it" in tyre[0]
    assert tyre[1] == checks[1].about.concern  # whole, not clipped
    assert tyre[3] == checks[1].about.ask
    assert "Nothing to work out" in tyre[2]  # no lever is named
    assert "7 limits are broken, for 5 reasons" in prose.paragraphs[0]


def test_the_smallest_change_stands_beside_it() -> None:
    cured = check("jack.nose.lift", "jacks", 2.0)
    change = Change("trailer.jacks.nose.lift_rating", "Jacks that lift more", Value("r", 453.59237, "kg"),
                    Value("r", 907.18474, "kg"))
    cured = Check(cured.id, cured.about, "", cured.outcome, (change,))
    checks = (cured, *(check(f"a.x{n}y", "tow", 2.0) for n in range(FEW)))
    _, found = blocks(Numbers((), checks, ()), CONTEXT)
    assert isinstance(found, Table)
    texts = [c.text.replace("\N{NO-BREAK SPACE}", " ") for r in found.rows for c in r.cells]
    assert any("Jacks that lift more: 2,000 lb instead of 1,000 lb" in t for t in texts)
