"""Marks of change: a cloud around every text that is other, a delta that covers none, the zone in the revision block.

Zones: ISO 5457, letters from the top down, numbers from the left.
"""

import pytest

from generator.draw.clouds import clouded
from generator.draw.marks import Line, Mark, Text
from generator.draw.pages import inner, zone_of
from generator.draw.sheet import A3, TABLOID, Sheet


def sheet(*marks: Mark, number: str = "G1") -> Sheet:
    return Sheet(number, "General arrangement", TABLOID, "1:48", marks, "", ())


ROW = (Text("revisions.1.0", "B", (250.0, 200.0)), Text("revisions.1.1", "–", (262.0, 200.0)))
SAME = Text("b", "5'-0\"", (100.0, 58.0))
OLD = sheet(Text("a", "10'-0\"", (100.0, 50.0)), SAME, Text("gone", "x", (40.0, 40.0)), *ROW)
NEW = sheet(Text("a", "11'-0\"", (100.0, 50.0)), SAME, Text("new", "y", (300.0, 150.0)), *ROW)


def test_every_text_that_is_other_is_told_with_its_zone() -> None:
    (made,) = clouded([NEW], [OLD], "B")
    assert [(o.was, o.now) for o in made.changed] == [("10'-0\"", "11'-0\""), ("", "y"), ("x", "")]
    places = ((100.0, 50.0), (300.0, 150.0), (40.0, 40.0))
    assert [o.zone for o in made.changed] == [zone_of(TABLOID, at) for at in places]


def test_clouds_surround_their_texts_and_deltas_cover_none() -> None:
    (made,) = clouded([NEW], [OLD], "B")
    texts = {m.id: m for m in made.marks if isinstance(m, Text)}
    clouds = {m.id.removeprefix("cloud."): m for m in made.marks if isinstance(m, Line) and m.id.startswith("cloud.")}
    assert set(clouds) == {"a", "new"}
    for id, cloud in clouds.items():
        xs, ys = zip(*cloud.points, strict=True)
        box = texts[id].box
        assert min(xs) < box.x0
        assert max(xs) > box.x1
        assert min(ys) < box.y0
        assert max(ys) > box.y1
        assert texts[f"delta.{id}.letter"].text == "B"
        triangle = next(m for m in made.marks if isinstance(m, Line) and m.id == f"delta.{id}")
        for t in (texts["a"], texts["b"], texts["new"]):
            assert not any(t.box.x0 < x < t.box.x1 and t.box.y0 < y < t.box.y1 for x, y in triangle.points)


def test_the_zones_stand_in_the_row_of_this_revision() -> None:
    (made,) = clouded([NEW], [OLD], "B")
    cell = next(m for m in made.marks if isinstance(m, Text) and m.id == "revisions.1.1")
    assert cell.text == "see 7", "three zones do not fit"
    (less,) = clouded([sheet(*NEW.marks[:2], *ROW)], [sheet(*OLD.marks[:2], *ROW)], "B")
    cell = next(m for m in less.marks if isinstance(m, Text) and m.id == "revisions.1.1")
    assert cell.text == less.changed[0].zone


def test_the_same_sheet_gets_no_mark_and_a_new_sheet_is_left_alone() -> None:
    (made,) = clouded([OLD], [OLD], "B")
    assert made.changed == ()
    assert len(made.marks) == len(OLD.marks)
    other = sheet(number="F1")
    assert clouded([other], [OLD], "B") == (other,)


@pytest.mark.parametrize("page", [TABLOID, A3])
def test_zones_run_down_and_across(page: object) -> None:
    f = inner(page)  # type: ignore[arg-type]
    assert zone_of(page, (f.x0 + 1.0, f.y0 + 1.0)) == "A1"  # type: ignore[arg-type]
    assert zone_of(page, (f.x1 - 1.0, f.y1 - 1.0)) == "F8"  # type: ignore[arg-type]
    assert zone_of(page, (f.x1 + 9.0, f.y0 - 9.0)) == "A8"  # type: ignore[arg-type]
