"""The parts of the drawing engine one by one."""

import math
import random
from dataclasses import replace

import desk_sample
import lookout
import pytest

from generator.calc.findings import Beam
from generator.draw import text
from generator.draw.dimensions import FIRST, STEP, Span, band
from generator.draw.marks import Area, Line, Mark, Rect, Text, arrow, hatched, moved, rectangle, texts
from generator.draw.pages import brief, lettering, note_lines
from generator.draw.place import Label, crosses, place
from generator.draw.sheet import TABLOID
from generator.draw.sheets.charts import curve
from generator.draw.sheets.kit import kit, largest
from generator.draw.sheets.loads import extremes
from generator.draw.sheets.outlines import skyline, steel_plan
from generator.draw.svg import write
from generator.draw.views import TRIMMED, Solid, View, edges
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.slices import HouseZone


def test_widths_come_from_the_font_file() -> None:
    """Digit advance 497 (regular) and 513 (semibold), capitals 660 thousandths: hmtx and OS/2 of the packaged font."""
    assert text.width("0", 0.660) == pytest.approx(0.497 * text.KERNING)
    assert text.width("0", 0.660, bold=True) == pytest.approx(0.513 * text.KERNING)


def test_text_is_cut_to_its_cell() -> None:
    cut = text.fit("a very long title of a very long sheet", 5.0, 40.0, bold=True)
    assert cut.endswith("…")
    assert text.width(cut, 5.0, True) <= 40.0
    assert text.fit("short", 3.0, 40.0) == "short"
    assert text.clean("a\x00b\nc\u25a1") == "a?b c?"


def test_notes_wrap_within_their_column() -> None:
    lines = text.wrap("one two three four five six seven eight nine ten " * 4, 3.0, 50.0, 3)
    assert len(lines) == 3
    assert all(text.width(line, 3.0) <= 50.0 for line in lines)
    assert lines[-1].endswith("…")


def test_long_entries_shorten_to_their_first_sentence() -> None:
    assert (
        brief("First draft. It came from a long evening with tape on the floor of the barn.", 2.5, 40.0)
        == "First draft"
    )


def test_metric_sheets_speak_mm_throughout() -> None:
    """The units cell says mm, so a length over 10 m stays in mm too."""
    show = lettering(replace(desk_sample.COVER, units="si"))
    assert show(10.566, "m") == "10,566\u00a0mm"


def _span(id: str, a: float, b: float) -> Span:
    return Span(id, a, b, f"{b - a:.0f}", b - a, 0.0, 0.0)


def _level(marks: tuple[Mark, ...], id: str) -> float:
    return next(m for m in marks if isinstance(m, Line) and m.id == id).points[0][1]


def test_shortest_dimension_lies_nearest_and_a_chain_shares_its_tier() -> None:
    """10 mm off the outline, then every 7 mm. Source: drawing practice after ISO 129-1."""
    marks = band((_span("all", 0.0, 100.0), _span("one", 0.0, 40.0), _span("two", 40.0, 100.0)), "below", 50.0)
    assert _level(marks, "one") == _level(marks, "two") == 50.0 + FIRST
    assert _level(marks, "all") == 50.0 + FIRST + STEP


def test_dimension_text_keeps_clear_of_witness_lines() -> None:
    spans = (*tuple(_span(f"s{i}", 0.0, 100.0 - 7.0 * i) for i in range(10)), _span("tiny", 30.0, 32.0))
    for side in ("above", "below", "left", "right"):
        marks = band(spans, side, 50.0)  # type: ignore[arg-type]
        assert len(texts(marks)) == len(spans)
        assert lookout.text_on_text(marks) == []
        assert lookout.text_on_lines(marks) == []


def test_short_spans_have_their_arrows_outside() -> None:
    marks = band((_span("tiny", 30.0, 32.0),), "below", 0.0)
    line = next(m for m in marks if isinstance(m, Line) and m.id == "tiny")
    assert line.points[0][0] < 30.0
    assert line.points[-1][0] > 32.0


def test_hidden_edges_are_dashed_and_drawn_once() -> None:
    """A bar under another, 1 m to 1 mm: where it passes below it is dashed, short of the full lines beside it."""
    low, high = Solid("low", Rect(0.0, 0.0, 10.0, 1.0), 0.0), Solid("high", Rect(4.0, -2.0, 6.0, 3.0), 1.0)
    marks = [m for m in edges((low, high), View(1000.0)) if isinstance(m, Line)]
    level = sorted(
        (m.pen, min(p[0] for p in m.points), max(p[0] for p in m.points))
        for m in marks
        if m.points[0][1] == m.points[1][1] == -1.0
    )
    assert level == [("hidden", 4.0 + TRIMMED, 6.0 - TRIMMED), ("outline", 0.0, 4.0), ("outline", 6.0, 10.0)]
    twice = [m for m in edges((low, Solid("same", low.face, 0.0)), View(1000.0)) if isinstance(m, Line)]
    assert len(twice) == 4


def test_a_thin_plate_is_one_line_and_near_edges_are_one() -> None:
    """At 1:32 a plate of 9.5 mm is 0.3 mm on paper: less than the two lines that would draw it."""
    plate = Solid("plate", Rect(0.0, 0.0, 0.3, 0.0095), 0.0)
    assert [m.points for m in edges((plate,), View(32.0)) if isinstance(m, Line)] == [
        ((0.0, View(32.0).up(0.00475)), (View(32.0).across(0.3), View(32.0).up(0.00475)))
    ]
    beside = Solid("beside", Rect(0.302, -1.0, 1.0, 1.0), 0.0)
    upright = [m for m in edges((Solid("a", Rect(0.0, -1.0, 0.3, 1.0), 0.0), beside), View(32.0)) if ".v." in m.id]
    assert len(upright) == 3


def test_an_end_coped_under_a_flange_is_hidden_there() -> None:
    """Crossmember level with the rail, its end inside the rail's flange: full outside the flange, dashed under it."""
    rail = Piece("r", "", "", "", "lengthwise", -1.0, 1.0, 0.9, 1.0, -0.2, 0.0, 1.0)
    cross = Piece("c", "", "", "", "crosswise", -0.1, 0.1, 0.0, 0.95, -0.1, 0.0, 1.0)
    view = View(10.0)
    marks = [m for m in steel_plan(replace(desk_sample.STEEL, pieces=(rail, cross)), view) if isinstance(m, Line)]
    flange = view.up(0.9)
    side = [m for m in marks if all(p[0] == pytest.approx(view.across(0.1)) for p in m.points)]
    assert {m.pen for m in side if max(p[1] for p in m.points) <= flange} == {"hidden"}
    assert {m.pen for m in side if min(p[1] for p in m.points) >= flange} == {"outline"}


def test_views_map_metres_to_paper() -> None:
    """1:48 draws a foot as a quarter of an inch, 6.35 mm (practice of US sheets)."""
    assert View(48.0).mm(0.3048) == pytest.approx(6.35)
    assert View(50.0, -1, 100.0, 80.0).p(1.0, 2.0) == (80.0, 40.0)


def test_skyline_takes_the_highest_roof_and_lowest_floor() -> None:
    zones = (HouseZone("main", "", 0.0, 4.0, 0.1, 2.4, 2.7), HouseZone("loft", "", 2.0, 4.0, 1.5, 2.8, 3.0))
    assert skyline(zones) == [(0.0, 2.0, 0.1, 2.7), (2.0, 4.0, 0.1, 3.0)]


def test_labels_find_room_among_lines() -> None:
    """120 labels among 25 long lines, seed fixed: none on a text, none on a line."""
    dice = random.Random(7)
    lines: list[Mark] = [
        Line(
            f"l{i}",
            "outline",
            ((dice.uniform(0, 380), dice.uniform(0, 250)), (dice.uniform(0, 380), dice.uniform(0, 250))),
        )
        for i in range(25)
    ]
    labels = [
        Label(f"n{i:03}", f"m{i}", (dice.uniform(20, 360), dice.uniform(20, 230)), height=2.5) for i in range(120)
    ]
    marks = place(labels, lines, Rect(0.0, 0.0, 380.0, 250.0), Rect(384.0, 0.0, 420.0, 250.0))
    inside = [t for t in texts(marks) if t.box.x0 < 384.0]
    assert len(texts(marks)) == 120
    assert len(inside) >= 100
    assert lookout.text_on_text(marks) == []
    boxes = [m for m in lines if isinstance(m, Line)]
    assert not [t for t in inside for m in boxes if crosses(*m.points, t.box)]


def test_a_full_margin_is_a_named_fault() -> None:
    wall = tuple(rectangle(f"w{i}", "outline", 0.0, float(i), 50.0, i + 1.0) for i in range(50))
    labels = [Label(f"n{i}", "label", (25.0, 25.0)) for i in range(30)]
    with pytest.raises(RenderError, match="no place for 30 labels"):
        place(labels, wall, Rect(0.0, 0.0, 50.0, 50.0), Rect(52.0, 0.0, 80.0, 50.0))


def test_leaders_to_the_margin_do_not_cross() -> None:
    dice = random.Random(3)
    wall = tuple(rectangle(f"w{i}", "outline", 0.0, 2.0 * i, 100.0, 2.0 * i + 1.0) for i in range(50))
    labels = [Label(f"n{i}", "a rather long label", (dice.uniform(5, 95), dice.uniform(5, 95))) for i in range(12)]
    marks = place(labels, wall, Rect(0.0, 0.0, 100.0, 100.0), Rect(104.0, 0.0, 150.0, 100.0))
    ends = [m.points[:2] for m in marks if isinstance(m, Line)]
    assert not [(a, b) for i, a in enumerate(ends) for b in ends[i + 1 :] if _meet(a, b)]


def _meet(p: tuple[tuple[float, float], ...], q: tuple[tuple[float, float], ...]) -> bool:
    def side(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = p, q
    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0


def test_hatching_stays_in_its_box() -> None:
    box = Rect(10.0, 20.0, 47.0, 31.0)
    lines = hatched("h", box)
    assert len(lines) > 10
    for m in lines:
        (x0, y0), (x1, y1) = m.points
        assert abs(abs(x1 - x0) - abs(y1 - y0)) < 1e-9
        assert all(10.0 - 1e-9 <= x <= 47.0 + 1e-9 and 20.0 - 1e-9 <= y <= 31.0 + 1e-9 for x, y in m.points)


def test_arrow_heads_are_three_by_one() -> None:
    """Source: ISO 129-1 allows a filled arrow of about 3:1."""
    head = arrow("a", (10.0, 0.0), (0.0, 0.0))
    tip, left, right = head.points
    assert tip[0] - left[0] == pytest.approx(3.0)
    assert math.dist(left, right) == pytest.approx(1.0)


def test_curves_keep_their_shape_with_fewer_points() -> None:
    points = [(float(i), 0.0) for i in range(50)] + [(50.0, 10.0), (50.0, 20.0)]
    assert curve("c", points).points == ((0.0, 0.0), (49.0, 0.0), (50.0, 10.0), (50.0, 20.0))


def test_extremes_of_a_beam() -> None:
    beam = Beam("t", "t", "travel", 1.0, (0.0, 1.0, 2.0), (5.0, 7.0, 6.0), (3.0, -4.0, 0.0), (0.0, 9.0, -2.0), (), (),
                deflection=(0.0, -0.01, 0.02))
    e = extremes(beam)
    assert (e.load.value, e.shear_up.value, e.shear_down.value, e.sag.value, e.hog.value) == (7.0, 3.0, -4.0, 9.0, -2.0)
    assert (e.sag.station, e.hog.station) == (1.0, 2.0)
    assert (e.rise.value, e.drop.value, e.rise.station) == (0.02, -0.01, 2.0)


def test_marks_move_together() -> None:
    marks: tuple[Mark, ...] = (
        Text("t", "a", (1.0, 1.0)),
        Line("l", "thin", ((0.0, 0.0), (1.0, 0.0))),
        Area("a", "ink", ((0.0, 0.0),)),
    )
    shifted = [moved(m, 2.0, 3.0) for m in marks]
    assert isinstance(shifted[0], Text)
    assert shifted[0].at == (3.0, 4.0)
    assert isinstance(shifted[2], Area)
    assert shifted[2].points == ((2.0, 3.0),)


def test_writer_escapes_and_joins_lines_of_a_pen() -> None:
    marks: tuple[Mark, ...] = (
        Text("t", "a < b & c", (1.0, 1.0)),
        Line("a", "thin", ((0.0, 0.0), (1.0, 0.0))),
        Line("b", "thin", ((0.0, 1.0), (1.0, 1.0))),
    )
    out = write("X1", "t", (100.0, 50.0), marks)
    assert out.count("<path") == 1
    assert 'd="M0 0L1 0M0 1L1 1"' in out
    assert "a &lt; b &amp; c" in out


def test_the_largest_standard_scale_that_holds_all_views_is_taken() -> None:
    """Source of the scales: inch-to-the-foot scales of US practice; ISO 5455 for metric sheets."""
    for units, wanted, larger in (("us", 48.0, [1, 2, 4, 8, 12, 16, 24, 32]), ("si", 50.0, [1, 2, 5, 10, 20, 25, 40])):
        tried: list[float] = []

        def build(ratio: float, tried: list[float] = tried) -> tuple[Mark, ...] | None:
            tried.append(ratio)
            return () if ratio >= 48.0 else None

        assert largest(kit(desk_sample.desk(units)), 0.01, build) == (wanted, ())
        assert tried == [*larger, wanted]
    with pytest.raises(RenderError, match="too large"):
        largest(kit(desk_sample.desk()), 500.0, lambda ratio: ())


def test_notes_are_never_cut() -> None:
    """Longer notes get smaller letters, down to 2.5 mm (ISO 3098); what does not fit even then is refused."""
    few, many, too_many = (("A note of a sheet that is a line long, more or less.",) * n for n in (4, 9, 60))
    assert note_lines(TABLOID, few)[0] == 3.0
    assert note_lines(TABLOID, many)[0] == 2.5
    assert len(note_lines(TABLOID, many)[2]) == 9
    with pytest.raises(RenderError, match="no room for its notes"):
        note_lines(TABLOID, too_many)
