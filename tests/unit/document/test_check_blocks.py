"""Check blocks and the one-page sheet: steps printed once, the last always; rows cut by rank and counted."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "document"))

import packet_sample

from generator.calc.record import About, Check, Compared, Missing, Step, Value
from generator.document.blocks import AttentionList, CheckBlock, Heading, Table
from generator.document.documents import assemble, context_of
from generator.document.fit import ROOM, WIDTH, height, one_page, rows_of
from generator.document.sections.attention import MOST
from generator.document.sections.checks import blocks, summary
from generator.release.slices import Numbers
from generator.units import Show

SHOW = Show("us", "USD")
CONTEXT = context_of(packet_sample.desk(), (), SHOW)


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
    assert [r.what for r in second.steps] == ["2 steps", "what w"]
    assert (second.steps[0].above, second.steps[0].above_title) == ("#check-a.b", "Title of a.b")
    assert first.anchor == "check-a.b"
    assert second.steps[0].result == SHOW(3.0, "kg")


def test_the_last_step_of_a_check_is_always_printed():
    _, second = made(check("a.b", step("x")), check("c.d", step("x")))
    assert [(r.what, r.above) for r in second.steps] == [("what x", "")]


def test_a_step_repeated_within_a_check_is_printed_once():
    (only,) = made(check("a.b", step("x"), step("x"), step("y")))
    assert [r.what for r in only.steps] == ["what x", "what y"]


def test_a_long_list_of_assumptions_is_named_by_its_first_check():
    first, second = made(check("a.b", step("x")), check("c.d", step("y")))
    assert dict(first.small)["Rests on"] == "p, q, r, s, t"
    assert dict(second.small)["Rests on"] == "the same 5 assumptions as Title of a.b"


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
    assert only.has_steps is False


def test_topics_head_their_checks():
    found = blocks(Numbers((), packet_sample.checks(), ()), CONTEXT)
    heads = [b.text for b in found if isinstance(b, Heading)]
    assert heads == ["Hitch", "Tyres", "Neck", "Tow vehicle", "Frame", "Heights", "Stability", "Jacks"]
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
    context = context_of(desk, (), SHOW)
    parts = one_page(assemble(desk, context)[0].parts, paper)
    blocks_ = [b for p in parts for b in p.blocks]
    assert 19.0 * len(parts) + sum(height(b, WIDTH[paper]) for b in blocks_) <= ROOM[paper]
    attention = next(b for b in blocks_ if isinstance(b, AttentionList))
    close = [c for c in desk.get(Numbers).checks if c.status != "pass" or (c.ratio or 0.0) >= 0.9]
    assert rows_of(attention) + attention.left_out == len(close)
    assert 1 <= rows_of(attention) <= MOST
    tables = [b for b in blocks_ if isinstance(b, Table) and b.caption in ("Fixed by welding", "Still open")]
    assert [rows_of(t) + t.left_out for t in tables] == [7 if which == "desk" else 9, 9]


def test_fails_come_first_and_are_called_stop():
    parts = assemble(packet_sample.desk(), CONTEXT)[0].parts
    attention = next(b for p in parts for b in p.blocks if isinstance(b, AttentionList))
    word, _, rows = attention.groups[0]
    assert word == "Stop"
    assert {r.status for r in rows} == {"FAIL"}
    assert rows[0].title == "Tyres of axle 1 carry its rating"
    assert "Ask" in [g[0] for g in attention.groups]
