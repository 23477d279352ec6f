"""Sheets a shop cuts and sets out from: frame elevation F2, sections F2.2, running gear F4, schedules S1 and on."""

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import desk_sample
import lookout
import pytest

from generator.calc.run import NO_LEVERS
from generator.design import design
from generator.draw.marks import Line, Mark, Rect, Text, extent, texts
from generator.draw.pages import inner
from generator.draw.sheet import Schedule, Sheet
from generator.draw.sheets import drawn, planes, profiles, tables
from generator.draw.text import clean
from generator.draw.views import View
from generator.errors import RenderError
from generator.model.types import Piece
from generator.release.cut import cut
from generator.release.slices import Desk, Shape, Steel

SPECS = Path(__file__).resolve().parents[3] / "specs"
DESIGNS = ("heron", "wren", "dipper", "first-sketch")
SYSTEMS = ("us", "si")
INCH = 0.0254


@cache
def _desk(name: str, units: str = "us") -> Desk:
    it = design(SPECS / name, NO_LEVERS)
    return cut(it.model, it.results, it.data, "fabricator", "0123456789ab", units)


@cache
def _sheets(name: str, units: str = "us") -> tuple[Sheet, ...]:
    return drawn(_desk(name, units))[0]


def _sheet(name: str, number: str, units: str = "us") -> Sheet:
    return next(s for s in _sheets(name, units) if s.number == number)


def _steel(name: str, units: str = "us") -> Steel:
    found = _desk(name, units).get(Steel)
    assert isinstance(found, Steel)
    return found


def _texts(sheet: Sheet, pattern: str) -> list[Text]:
    return [t for t in texts(sheet.marks) if re.fullmatch(pattern, t.id)]


def _values(sheet: Sheet, pattern: str) -> list[float]:
    return [t.value for t in _texts(sheet, pattern) if t.value is not None]


def _ratio(sheet: Sheet, view: str) -> float:
    return float(_texts(sheet, f"{view}\\.title")[0].text.split("1:")[1])


def _line(sheet: Sheet, id: str) -> Line:
    return next(m for m in sheet.marks if isinstance(m, Line) and m.id == id)


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("name", DESIGNS)
def test_a_draughtsperson_would_sign_them(name: str, units: str) -> None:
    """No text on text or line, all inside the frame, every note there, light enough to send."""
    mine = [s for s in _sheets(name, units) if s.number.startswith(("F2", "F4", "S"))]
    assert lookout.once(s.number for s in mine) == ("F2", "F2.2", "F4", "S1")
    for sheet in mine:
        assert lookout.text_on_text(sheet.marks) == [], sheet.number
        assert lookout.text_on_lines(sheet.marks) == [], sheet.number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], sheet.number
        assert len(sheet.svg().encode()) <= 120_000
        told = _texts(sheet, r"notes\.\d+")
        last = max(_texts(sheet, r"notes\.\d+\.\d+"), key=lambda t: t.at[1])
        assert last.text.endswith("."), sheet.number
        assert len(told) >= (3 if sheet.number.startswith("F") else 2), sheet.number


@pytest.mark.parametrize("name", DESIGNS)
def test_every_member_stands_on_the_elevation_or_the_sections(name: str) -> None:
    said = {w for n in ("F2", "F2.2") for t in texts(_sheet(name, n).marks) for w in t.text.replace(",", " ").split()}
    assert {p.mark for p in _steel(name).pieces} <= said | _behind_the_edge(name)


def _behind_the_edge(name: str) -> set[str]:
    """Marks of cross pieces off the centre line, shown only by plan F1 and the sections they happen to stand in."""
    pieces = _steel(name).pieces
    return {p.mark for p in pieces if p.run == "crosswise" and p.y0 * p.y1 > 0.0}


@pytest.mark.parametrize("name", DESIGNS)
def test_heights_of_the_frame_are_true_to_scale(name: str) -> None:
    """Source of the rule: a scale of 1:n draws 1 m as 1000/n mm (ISO 5455)."""
    sheet = _sheet(name, "F2")
    ratio = _ratio(sheet, "elevation")
    zero = _line(sheet, "levels.deck").points[0][1]
    told = _texts(sheet, r"levels\.[a-z.]+\.text")
    assert len(told) >= 3
    for t in told:
        assert t.value is not None
        y = _line(sheet, t.id.removesuffix(".text")).points[0][1]
        assert zero - y == pytest.approx(t.value * 1000.0 / ratio, abs=0.02), t.id


@pytest.mark.parametrize("name", DESIGNS)
def test_elevation_and_section_stand_on_the_same_stations(name: str) -> None:
    """Deck of both views begins and ends at the same places across the paper. Source: ISO 5456-2, third angle."""
    sheet = _sheet(name, "F2")
    upper, lower = _line(sheet, "decking"), _line(sheet, "section.decking")
    assert [p[0] for p in upper.points] == pytest.approx([p[0] for p in lower.points])


@pytest.mark.parametrize("name", DESIGNS)
def test_each_letter_of_the_elevation_has_its_section_and_station(name: str) -> None:
    """Planes run from A at the front; each stands right behind the member it shows, and its title says where."""
    s, found = _steel(name), planes.chosen(_steel(name))
    assert [p.letter for p in found] == list("ABCD"[:len(found)])
    assert len(found) >= 2
    assert sorted(p.x for p in found) == [p.x for p in found]
    elevation, sections = _sheet(name, "F2"), _sheet(name, "F2.2")
    for p in found:
        assert _texts(elevation, f"plane\\.{p.letter}\\.text")[0].text == p.letter
        assert _texts(sections, f"section\\.{p.letter}\\.title")[0].text.startswith(f"SECTION {p.letter}–{p.letter}")
        assert any(q.run == "crosswise" and abs(q.x1 - p.x) < 0.005 for q in s.pieces)


def test_sections_are_chosen_where_members_stand() -> None:
    """Heron: neck, two unlike bays of the deck and the axle group; wren: tongue, root, deck and axle group."""
    for name, ahead in (("heron", "neck"), ("wren", "tongue")):
        words = [p.words for p in planes.chosen(_steel(name))]
        assert words[0] == ahead
        assert "main deck" in words
        assert "through the wheels" in words


def _strokes(shape: Shape, p: Piece) -> tuple[Mark, ...]:
    """The profile of a lengthwise piece at 1:1, its paper mm being mm of steel."""
    s = replace(desk_sample.STEEL, shapes=(shape,), deck_height_laden=0.0)
    return profiles.across("p", s, p, (p.x0 + p.x1) / 2.0, View(1.0))


RAIL = Piece("r1", "rail", "W8x15", "A992", "lengthwise", 0.0, 3.0, 0.8, 0.8 + 4.015 * INCH, -8.11 * INCH, 0.0, 67.0)


def test_a_wide_flange_beam_is_drawn_as_rolled() -> None:
    """W8x15: depth 8.11 in, flange 4.015 x 0.315 in, web 0.245 in (AISC Steel Construction Manual, table 1-1)."""
    lines = [m for m in _strokes(Shape("r1", "I", 0.245 * INCH, 0.315 * INCH), RAIL) if isinstance(m, Line)]
    flanges = [m for m in lines if m.points[0][1] == m.points[1][1]]
    web = next(m for m in lines if m.points[0][0] == m.points[1][0])
    assert [abs(m.points[1][0] - m.points[0][0]) for m in flanges] == pytest.approx([4.015 * 25.4] * 2)
    apart = abs(flanges[0].points[0][1] - flanges[1].points[0][1])
    assert apart + 0.315 * 25.4 == pytest.approx(8.11 * 25.4)
    assert web.points[0][0] == pytest.approx((0.8 + 4.015 * INCH / 2.0) * 1000.0)


@pytest.mark.parametrize(("toes", "back"), [("inward", 0.8 + 4.015 * INCH), ("outward", 0.8)])
def test_a_channel_turns_its_toes_as_the_schedule_says(toes: str, back: float) -> None:
    """The web stands at the side away from the toes; on the right side inward is toward the lesser y."""
    shape = Shape("r1", "C", 0.2 * INCH, 0.3 * INCH, ((toes, (1.5,)),))
    (line,) = (m for m in _strokes(shape, RAIL) if isinstance(m, Line))
    web = line.points[1][0] / 1000.0
    assert abs(web - back) == pytest.approx(0.1 * INCH)
    (mirrored,) = (m for m in _strokes(shape, replace(RAIL, y0=-RAIL.y1, y1=-RAIL.y0)) if isinstance(m, Line))
    assert mirrored.points[1][0] / 1000.0 == pytest.approx(-web)


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("name", DESIGNS)
def test_the_lateral_chain_closes(name: str, units: str) -> None:
    """Half a tyre, offset, hub face to hub face, offset, half a tyre: outside of the tyres, in numbers and on paper."""
    sheet, s = _sheet(name, "F4", units), _steel(name, units)
    halves, (faces,) = _values(sheet, r"lateral\.tyre\.-?1\.text"), _values(sheet, r"lateral\.hub faces\.text")
    (whole,) = _values(sheet, r"lateral\.tyres\.text")
    assert faces + sum(halves) - 2.0 * s.running.offset == pytest.approx(whole, abs=1e-9)
    line = _line(sheet, "lateral.tyres")
    assert math.dist(*line.points) == pytest.approx(whole * 1000.0 / _ratio(sheet, "across"), abs=0.02)


def test_the_offset_of_a_wheel_stands_between_hub_face_and_tyre() -> None:
    """Positive offset: the mounting face lies outboard of the rim's middle, so the track is narrower (ISO 3911)."""
    s = desk_sample.STEEL
    off = 0.02
    steel = replace(s, track=s.axles[0].hub_face - 2.0 * off, running=replace(s.running, offset=off))
    sheet = next(x for x in drawn(desk_sample.desk(steel=steel))[0] if x.number == "F4")
    halves, offsets = _values(sheet, r"lateral\.tyre\.-?1\.text"), _values(sheet, r"lateral\.offset\.-?1\.text")
    (faces,), (whole,) = _values(sheet, r"lateral\.hub faces\.text"), _values(sheet, r"lateral\.tyres\.text")
    assert offsets == pytest.approx([off, off])
    assert faces - sum(offsets) + sum(halves) == pytest.approx(whole)
    assert lookout.text_on_lines(sheet.marks) == []


@pytest.mark.parametrize("name", DESIGNS)
def test_the_chain_from_ground_to_deck_closes(name: str) -> None:
    sheet = _sheet(name, "F4")
    steps, (deck,) = _values(sheet, r"across\.chain\.\d+\.text"), _values(sheet, r"across\.chain\.deck\.text")
    assert len(steps) >= 3
    assert sum(steps) == pytest.approx(deck, abs=1e-9)
    assert deck == pytest.approx(_steel(name).deck_height_laden)


@pytest.mark.parametrize("name", DESIGNS)
def test_measures_from_coupling_to_hubs_are_equal_and_true(name: str) -> None:
    """Pythagoras on the drawn line, back in metres, is the number beside it; left is right."""
    sheet = _sheet(name, "F4")
    ratio = _ratio(sheet, "plan")
    told = _values(sheet, r"plan\.hub\.\d\.text|plan\.hub\.\d")
    assert len(told) == 2
    for i, value in enumerate(told):
        drawn_at = math.dist(*_line(sheet, f"plan.diagonal.{i}").points) * ratio / 1000.0
        assert drawn_at == pytest.approx(value, abs=0.1 * ratio / 1000.0)
    s = _steel(name)
    by_hand = math.sqrt((s.axles[0].station - s.pin_station) ** 2 + (s.axles[0].hub_face / 2.0) ** 2)
    assert told == pytest.approx([by_hand, by_hand])


def test_hangers_stand_half_a_spring_from_their_axles() -> None:
    """Wren: axles at 157 and 191 in, springs 26 in from eye to eye; the equaliser stands midway (trailer.yaml)."""
    assert [h.station / INCH for h in _steel("wren").running.hangers] == pytest.approx([144.0, 174.0, 204.0])
    assert len(_values(_sheet("wren", "F4"), r"plan\.hanger\.\d\.text")) == 3


def test_alignment_is_told_with_how_far_it_may_be_off() -> None:
    """Coupling to axle ends within 1/8 in, axle to axle within 1/16 in: axle-service literature, as in critical.csv."""
    table = next(t for t in _sheet("heron", "F4").schedule if t.title == "Alignment")
    rows = {what: off for what, off, _ in table.rows}
    assert rows["Coupler centre to axle ends, left against right"] == "within 1/8″"
    assert rows["Axle to axle, left against right"] == "within 1/16″"
    assert rows["Torsion tube (bracket centre) from datum A"] == "±1/16″"
    assert rows["Toe and camber"] == "as the maker's"
    metric = next(t for t in _sheet("heron", "F4", "si").schedule if t.title == "Alignment")
    assert "within 1.5\N{NO-BREAK SPACE}mm" in {off for _, off, _ in metric.rows}


def test_what_is_unknown_keeps_the_running_gear_back_and_names_itself() -> None:
    s = desk_sample.STEEL
    steel = replace(s, running=replace(s.running, offset=math.nan))
    without = drawn(desk_sample.desk(steel=steel))[1]
    assert {u.number: u.reason for u in without}["F4"].endswith("offset of the wheels")


def _lettered(sheets: tuple[Sheet, ...]) -> list[str]:
    """Cells as they stand on the schedule sheets: lines of a cell joined."""
    cells: dict[tuple[str, str], list[str]] = {}
    for sheet in sheets:
        for t in _texts(sheet, r"t\d+\.\d+\.\d+\.\d+\.\d+"):
            cells.setdefault((sheet.number, t.id.rsplit(".", 1)[0]), []).append(t.text)
    return [" ".join(lines) for lines in cells.values()]


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("name", DESIGNS)
def test_no_row_of_a_schedule_is_lost(name: str, units: str) -> None:
    """Every cell of the tables beside S1 stands on the sheets, word for word."""
    listed = tuple(s for s in _sheets(name, units) if s.number.startswith("S"))
    said = _squeezed(_lettered(listed))
    wanted = _squeezed(c for t in listed[0].schedule for row in t.rows for c in row if c)
    assert {c: n for c, n in wanted.items() if said.get(c, 0) < n} == {}


def _squeezed(cells: Iterator[str] | list[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for cell in cells:
        key = "".join(clean(cell).split())
        found[key] = found.get(key, 0) + 1
    return found


@pytest.mark.parametrize("name", DESIGNS)
def test_the_cut_list_adds_up_to_the_frame(name: str) -> None:
    members, s = _sheet(name, "S1").schedule[0], _steel(name)
    assert sum(int(row[4]) for row in members.rows[:-1]) == len(s.pieces) == int(members.rows[-1][4])
    assert {row[0] for row in members.rows[:-1]} == {p.mark for p in s.pieces}


ROOMS = (Rect(0.0, 0.0, 90.0, 60.0), Rect(100.0, 0.0, 190.0, 60.0))


def _table(rows: int, words: str = "cell") -> Schedule:
    return Schedule("Many", ("A", "B"), (False, True), tuple((f"{words} {n}", str(n)) for n in range(rows)))


@pytest.mark.parametrize("rows", [1, 7, 8, 9, 40, 200])
def test_tables_flow_from_room_to_room(rows: int) -> None:
    """Each row once, in order, inside the rooms of as many pages as it takes."""
    pages = list(tables.pages([_table(rows)], ROOMS, ROOMS))
    cells = [t.text for page in pages for t in texts(page) if re.fullmatch(r"t0\.\d+\.[1-9]\d*\.0\.0", t.id)]
    assert cells == [f"cell {n}" for n in range(rows)]
    for page in pages:
        assert all(any(t.box.inside(room) for room in ROOMS) for t in texts(page))
        assert lookout.text_on_text(page) == []
        assert extent(page).y1 <= 60.0


def test_a_word_without_spaces_is_broken_and_not_cut() -> None:
    (page,) = tables.pages([Schedule("Long", ("A", "B"), (False, False), (("x" * 150, "y"),))], ROOMS, ROOMS)
    assert "".join(t.text for t in texts(page) if re.fullmatch(r"t0\.0\.1\.0\.\d+", t.id)) == "x" * 150
    assert all(t.box.inside(ROOMS[0]) for t in texts(page))


def test_a_row_taller_than_the_sheet_is_a_fault_that_names_its_table() -> None:
    with pytest.raises(RenderError, match="Long"):
        list(tables.pages([Schedule("Long", ("A",), (False,), (("word " * 600,),))], ROOMS, ROOMS))
