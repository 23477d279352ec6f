"""Check blocks and the one-page sheet: steps printed once, the last always; rows cut by rank and counted."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "document"))

import packet_sample

from generator.calc.record import About, Assumption, Check, Compared, Missing, Step, Value
from generator.document.blocks import AttentionList, CheckBlock, Heading, Table
from generator.document.codes import codes_of
from generator.document.documents import assemble
from generator.document.fit import ROOM, WIDTH, height, one_page, rows_of
from generator.document.gaps import gaps
from generator.document.sections.attention import MOST
from generator.document.sections.checks import WORKED, blocks, summary
from generator.document.sections.route import limits
from generator.release.slices import Numbers, Register
from generator.units import Show

SHOW = Show("us", "USD")
CONTEXT = assemble(packet_sample.desk(), (), SHOW).context


def step(symbol: str) -> Step:
    return Step(
        f"what {symbol}",
        f"{symbol} = a + b",
        "source",
        (Value("a", 1.0, "kg"), Value("b", 2.0, "kg")),
        Value(symbol, 3.0, "kg"),
    )


def check(id: str, *steps: Step, demand: float = 1.0, limit: float = 2.0) -> Check:
    about = About(f"Title of {id}", "hitch", "s", "c", "k")
    return Check(
        id,
        about,
        "travel",
        Compared(Value("d", demand, "kg"), Value("l", limit, "kg"), "<=", 0.0, 2, frozenset("pqrst"), steps),
    )


def made(*checks: Check) -> list[CheckBlock]:
    return [b for b in blocks(Numbers((), checks, ()), CONTEXT) if isinstance(b, CheckBlock)]


def test_a_step_is_printed_once_and_named_after_that():
    first, second = made(check("a.b", step("x"), step("y"), step("z")), check("c.d", step("x"), step("y"), step("w")))
    assert [r.what for r in first.steps] == ["what x", "what y", "what z"]
    assert [r.what for r in second.steps] == ["", "what w"]
    (above,) = second.steps[0].above
    assert (above.href, above.title, above.steps) == ("#check-a.b", "Title of a.b", "2 steps")
    assert first.anchor == "check-a.b"
    assert (above.symbol, above.result) == ("<i>y</i>", SHOW(3.0, "kg"))


def test_what_is_taken_over_from_several_checks_is_one_row():
    *_, third = made(
        check("a.b", step("x"), step("p")), check("c.d", step("y"), step("q")), check("e.f", *map(step, "xyz"))
    )
    assert [[a.title for a in r.above] for r in third.steps] == [["Title of a.b", "Title of c.d"], []]


def test_the_last_step_of_a_check_is_always_printed():
    _, second = made(check("a.b", step("x")), check("c.d", step("x")))
    assert [(r.what, r.above) for r in second.steps] == [("what x", ())]


def test_a_step_repeated_within_a_check_is_printed_once():
    (only,) = made(check("a.b", step("x"), step("x"), step("y")))
    assert [r.what for r in only.steps] == ["what x", "what y"]


def register(*ids: str) -> Register:
    return Register(tuple(Assumption(i, f"statement {i}", "1", "source", "wrong") for i in ids), ())


def test_assumptions_have_codes_without_gaps_and_those_of_the_take_off_come_first():
    codes = codes_of(register("a.1", "density.a", "b.1", "mass.a", "mass.b", "c.1", "d.1"))
    assert [codes.code(a.id) for a in (*codes.take_off, *codes.others)] == [f"A{n}" for n in range(1, 8)]
    assert [a.id for a in codes.take_off] == ["density.a", "mass.a", "mass.b"]
    assert codes.listed(["d.1", "a.1", "b.1"]) == "A4, A5, A7"
    assert codes.listed(["c.1", "a.1", "b.1", "mass.a"]) == "A2, A4–A6"
    assert codes.listed(["mass.a", "mass.b", "density.a", "d.1", "not in the register"]) == "take-off, A7"
    assert codes.listed(["mass.a", "mass.b", "density.a"]) == "take-off"
    assert codes.listed([]) == ""


def test_a_check_names_what_it_rests_on_by_codes_and_links_to_the_register():
    context = replace(CONTEXT, codes=codes_of(register("q", "s", "t")))
    (only,) = (b for b in blocks(Numbers((), (check("a.b", step("x")),), ()), context) if isinstance(b, CheckBlock))
    assert (only.rests_on, only.register) == ("A1–A3", "#s-assumptions")


def test_without_a_register_nothing_links_to_one():
    context = replace(CONTEXT, codes=codes_of(None))
    (only,) = (b for b in blocks(Numbers((), (check("a.b", step("x")),), ()), context) if isinstance(b, CheckBlock))
    assert (only.rests_on, only.register) == ("", "")


def test_one_id_twice_gives_two_anchors():
    assert [b.anchor for b in made(check("a.b"), check("a.b"))] == ["check-a.b", "check-a.b--2"]


@pytest.mark.parametrize(
    ("demand", "limit", "within", "over"),
    [(1.0, 2.0, "25.0mm", "0.0mm"), (2.2, 2.0, "50.0mm", "5.0mm"), (9.0, 2.0, "50.0mm", "10.0mm")],
)
def test_the_bar_stands_for_0_to_1_2_on_60_mm(demand, limit, within, over):
    (only,) = made(check("a.b", demand=demand, limit=limit))
    assert (only.bar.within, only.bar.over, only.bar.is_over) == (within, over, over != "0.0mm")


def test_no_bar_without_a_ratio():
    (only,) = made(Check("a.b", About("t", "hitch", "s", "c", "k"), "", Missing(("x",))))
    assert only.bar is None
    assert only.steps == ()


def test_topics_head_their_checks():
    found = blocks(Numbers((), packet_sample.checks(), ()), CONTEXT)
    heads = [b.text for b in found if isinstance(b, Heading)]
    assert heads == ["Hitch", "Ratings", "Neck", "Tow vehicle", "Frame", "Heights", "Stability", "Jacks"]
    assert sum(isinstance(b, CheckBlock) for b in found) == len(packet_sample.checks())


def test_the_summary_has_every_check_worst_first():
    (only,) = summary(packet_sample.numbers(), CONTEXT)
    statuses = [r.cells[4].text for r in only.rows]
    assert len(statuses) == len(packet_sample.checks())
    order = ["FAIL", "NOT ASSESSED", "REVIEW", "PASS"]
    assert statuses == sorted(statuses, key=order.index)
    ratios = [r.cells[3].text for r in only.rows if r.cells[4].text == "PASS"]
    assert ratios == sorted(ratios, reverse=True)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("which", ["desk", "hostile"])
def test_the_sheet_fits_its_page_and_counts_what_it_leaves_out(which, paper):
    desk = getattr(packet_sample, which)()
    parts = one_page(assemble(desk, (), SHOW).documents[0].parts, paper)
    blocks_ = [b for p in parts for b in p.blocks]
    assert 19.0 * len(parts) + sum(height(b, WIDTH[paper]) for b in blocks_) <= ROOM[paper]
    attention = next(b for b in blocks_ if isinstance(b, AttentionList))
    checks = desk.get(Numbers).checks
    close = [c for c in checks if c.status in ("fail", "review") or (c.ratio or 0.0) >= 0.9]
    assert rows_of(attention) + attention.left_out == len(close) + len(gaps(checks))
    assert 1 <= rows_of(attention) <= MOST
    tables = [b for b in blocks_ if isinstance(b, Table) and b.caption in ("Fixed by welding", "Still open")]
    assert [rows_of(t) + t.left_out for t in tables] == [7 if which == "desk" else 9, 9]


def test_fails_come_first_and_are_called_stop():
    parts = assemble(packet_sample.desk(), (), SHOW).documents[0].parts
    attention = next(b for p in parts for b in p.blocks if isinstance(b, AttentionList))
    word, _, rows = attention.groups[0]
    assert word == "Stop"
    assert {r.status for r in rows} == {"FAIL"}
    assert rows[0].title == "Tyres of axle 1 carry its rating"
    assert "Ask" in [g[0] for g in attention.groups]


def test_the_limits_of_a_route_are_cited_once_and_referred_to():
    text = "AA: a law, 1.2, over 12 ft only where posted; BB: another law, with a long title of its own, 5.6"
    width = Value("AA", 2.6, "m"), Value("BB", 2.5, "m")
    least = Step("Least width limit of the route", "The least of AA, BB.", text, width, Value("z_lim", 2.5, "m"))
    wide = check("width.limit", least)
    (found,) = limits(Numbers((), (wide,), ()), CONTEXT)
    assert [tuple(c.text for c in r.cells) for r in found.rows] == [
        ("AA", "–", SHOW(2.6, "m"), "a law, 1.2, over 12 ft only where posted"),
        ("BB", "–", SHOW(2.5, "m"), "another law, with a long title of its own, 5.6"),
    ]
    assert made(wide)[0].steps[0].source == "see Limits of the route"
    assert limits(Numbers((), (check("a.b", step("x")),), ()), CONTEXT) == ()


def test_a_procedure_names_its_result():
    sentence = Step("Mass", "Sum over all items.", "take-off", (), Value("W_a", 3.0, "kg"))
    (row,) = made(check("a.b", sentence))[0].steps
    assert (row.formula, row.symbol, row.result) == ("Sum over all items", "<i>W<sub>a</sub></i>", SHOW(3.0, "kg"))


def test_what_a_use_class_is_stands_where_the_word_is_first_used():
    plain = check("a.b")
    spoken = replace(plain, about=replace(plain.about, title="Reserve of use class B"))
    assert summary(Numbers((), (plain,), ()), CONTEXT)[0].note == WORKED
    assert summary(Numbers((), (plain, spoken), ()), CONTEXT)[0].note.startswith(f"{WORKED} Use class:")


def test_checks_that_lack_the_same_wait_in_one_row():
    lacking = [replace(check(f"x.{n}"), outcome=Missing(("site.yaml wind",))) for n in range(3)]
    theirs = [replace(check(f"y.{n}"), outcome=Missing((f"design {n} by a licensed engineer",))) for n in range(2)]
    found = gaps([*lacking, check("a.b"), *theirs])
    assert [(g.what, len(g.checks)) for g in found] == [
        ("site.yaml wind", 3),
        ("what a licensed engineer must design", 2),
    ]


def test_documents_that_are_forwarded_speak_of_no_quote() -> None:
    """The load summary and the workings of the owner may leave the house; a quote of another shop may not."""
    kinds = {}
    for topic in ("ratings", "money"):
        made_up = check(f"{topic}.x", step("x"))
        kinds[topic] = replace(made_up, about=replace(made_up.about, topic=topic, title=f"Title {topic}"))
    numbers = Numbers((), tuple(kinds.values()), ())
    assert [c.id for c in numbers.technical] == ["ratings.x"]
    for made in (summary(numbers, CONTEXT), blocks(numbers, CONTEXT)):
        assert "Title ratings" in repr(made)
        assert "Title money" not in repr(made)
