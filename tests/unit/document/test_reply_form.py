"""The reply form: each kind of row has the boxes that mean something for it, and no others."""

from dataclasses import replace

import pytest

from generator.document.reply import BOXES, ReplyForm, form_blocks
from generator.document.templates import environment, rendered
from generator.release.slices import Cover, ReplyRow, Request

COVER = Cover(
    "a", "A", "", "o", "d", "fabricator", "quote", "P1", "2026-01-01", "for quote", "us", "USD", "0" * 12, "tool"
)
ROWS = (
    ReplyRow("P1", "Trailer", "1", "USD", "price", "Prices"),
    ReplyRow("P2", "Coating", "paint", "USD", "price", "Prices"),
    ReplyRow("C1", "GVWR", "18,700 lb", "lb", "value", "Critical values"),
    ReplyRow("L1", "Axles", "from their maker", "weeks", "weeks", "Lead times"),
    ReplyRow("Y1", "Hold points", "all", "yes / no", "choice", "Kept as asked"),
    ReplyRow("W1", "Weld design basis", "code", "words", "words", "How it is made"),
)
REQUEST = Request("R-1", "d", "q", "w", 30, (), ROWS, ())


def tables(request: Request = REQUEST) -> list[ReplyForm]:
    rows = next(part for part in form_blocks(request, COVER) if part.anchor == "s-rows")
    return [b for b in rows.blocks if isinstance(b, ReplyForm)]


def test_each_part_of_one_kind_is_a_table_of_its_own() -> None:
    made = tables()
    assert [(t.caption, len(t.rows)) for t in made] == [
        ("Prices", 2), ("Critical values", 1), ("Lead times", 1), ("Kept as asked", 1), ("How it is made", 1)]
    assert [h.text for h in made[0].heads][2:] == ["Offered", "Price each", "Qty", "Extension", "Note"]
    assert [h.text for h in made[1].heads][2:] == ["Offered", "Value offered", "Deviation or note"]
    assert [h.text for h in made[2].heads][2:] == ["Weeks", "Deviation or note"]


def test_no_price_is_asked_of_a_value_and_no_value_of_words() -> None:
    names = {t.caption: [f.name.split("-")[1] for f in t.rows[0].fields] for t in tables()}
    assert "price" not in names["Critical values"] + names["Lead times"] + names["How it is made"]
    assert names["How it is made"] == ["value"]
    assert tables()[-1].rows[0].fields[0].is_long


@pytest.mark.parametrize("kind", sorted(BOXES))
def test_columns_fill_the_width_and_leave_room_for_the_item(kind: str) -> None:
    row = replace(ROWS[0], kind=kind)
    (made,) = tables(replace(REQUEST, reply=(row,)))
    assert sum(h.width for h in made.heads) == 100
    assert made.heads[1].width >= 30


def test_names_of_fields_are_unique_and_all_are_spoken() -> None:
    fields = [f for t in tables() for r in t.rows for f in r.fields]
    assert len({f.name for f in fields}) == len(fields)
    assert all(f.label for f in fields)


def test_words_get_a_box_of_several_lines_and_choices_their_choices() -> None:
    html = rendered(tables(), environment(web=False))
    assert html.count("<textarea") == 1
    assert html.count("<option>not offered</option>") == 3
    assert html.count("<option>yes</option>") == 1


def test_the_total_is_asked_once() -> None:
    html = rendered([b for part in form_blocks(REQUEST, COVER) for b in part.blocks], environment(web=False))
    assert html.lower().count("total of") == 1
    assert "Total" not in {r.item for r in ROWS}
