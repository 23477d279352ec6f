"""Sheets of trailers on a tongue and on a king pin, decks over the wheels and between them, in both unit systems."""

import math
import re
from collections.abc import Iterator
from dataclasses import fields, replace
from functools import cache
from pathlib import Path

import lookout
import pytest

from generator.calc.run import NO_LEVERS
from generator.design import Design, design
from generator.draw.marks import Line, Text, texts
from generator.draw.pages import inner
from generator.draw.sheet import Sheet
from generator.draw.sheets import drawn, outlines
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.cut import cut
from generator.release.slices import Desk, Steel
from generator.spec.new import new_folder

SPECS = Path(__file__).resolve().parents[3] / "specs"
TONGUE = (
    "G1", "G2", "F1", "F2", "F2.2", "F3", "F4", "F5", "F6", "F7", "E1", "S1", "L1", "L1.2", "L1.3", "L1.4", "L2", "L3",
    "A1", "M1",
)
NECK = (*TONGUE[:-2], "L4", *TONGUE[-2:])
EXAMPLES = (("dipper", TONGUE), ("wren", TONGUE))
STARTERS = (("ball", TONGUE), ("king-pin", NECK), ("gooseneck", NECK))


@pytest.fixture(scope="module")
def starters(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("starters")
    for kind, _ in STARTERS:
        for units in ("us", "si"):
            new_folder(folder / f"{kind}-{units}", kind, units)
    return folder


@cache
def _design(folder: Path) -> Design:
    return design(folder, NO_LEVERS)


@cache
def _desk(folder: Path, units: str, to: str = "owner") -> Desk:
    it = _design(folder)
    return cut(it.model, it.results, it.data, to, "0123456789ab", units)


@cache
def _sheets(folder: Path, units: str) -> tuple[Sheet, ...]:
    sheets, without = drawn(_desk(folder, units))
    assert without == ()
    return sheets


def _sheet(folder: Path, units: str, number: str) -> Sheet:
    return next(s for s in _sheets(folder, units) if s.number == number)


def _steel(folder: Path, units: str = "us") -> Steel:
    found = _desk(folder, units).get(Steel)
    assert isinstance(found, Steel)
    return found


def _signed(sheets: tuple[Sheet, ...], numbers: tuple[str, ...]) -> None:
    """What a draughtsperson would look for."""
    assert lookout.once(s.number for s in sheets) == numbers
    for sheet in sheets:
        assert lookout.text_on_text(sheet.marks) == [], sheet.number
        assert lookout.text_on_lines(sheet.marks) == [], sheet.number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], sheet.number
        assert len(sheet.svg().encode()) <= 120_000
        last = max((t for t in texts(sheet.marks) if re.fullmatch(r"notes\.\d+\.\d+", t.id)), key=lambda t: t.at[1])
        assert last.text.endswith("."), sheet.number


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("name", "numbers"), EXAMPLES)
def test_examples_are_drawn_in_full(name: str, numbers: tuple[str, ...], units: str) -> None:
    _signed(_sheets(SPECS / name, units), numbers)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("kind", "numbers"), STARTERS)
def test_starters_are_drawn_in_full(starters: Path, kind: str, numbers: tuple[str, ...], units: str) -> None:
    _signed(_sheets(starters / f"{kind}-{units}", units), numbers)


def _said(sheets: tuple[Sheet, ...]) -> Iterator[str]:
    """Our own words on sheets and beside them: names from the spec stand in no cell of these."""
    for s in sheets:
        yield from (t.text for t in texts(s.marks) if not t.id.startswith(("block", "revisions", "zone-name")))
        yield s.alt
        yield from (cell for table in s.schedule if table.title != "Members" for row in table.rows for cell in row)


@pytest.mark.parametrize(
    ("kind", "foreign"), [("ball", r"\b(neck|king pin|riser)"), ("king-pin", r"\b(ball|coupler|tongue)\b")]
)
def test_each_coupling_has_its_own_words(starters: Path, kind: str, foreign: str) -> None:
    said = _said(_sheets(starters / f"{kind}-us", "us"))
    assert [w for w in said if re.search(foreign, w, re.IGNORECASE)] == []


def test_every_member_of_a_tongue_is_named_where_it_is_drawn() -> None:
    steel = _steel(SPECS / "wren")
    marks = {p.mark for p in steel.pieces}
    assert marks <= {w for t in texts(_sheet(SPECS / "wren", "us", "F1").marks) for w in t.text.split()}
    ahead = {p.mark for p in steel.pieces if p.x0 < 0.0}
    assert ahead <= {w for t in texts(_sheet(SPECS / "wren", "us", "F3").marks) for w in t.text.split()}


def _angles(sheet: Sheet) -> set[float]:
    """Angles of slanted outlines to the level, degrees."""
    strokes = [s for m in sheet.marks if isinstance(m, Line) and m.id.startswith("slant.") for s in m.segments()]
    turns = [math.degrees(math.atan2(abs(b[1] - a[1]), abs(b[0] - a[0]))) for a, b in strokes if math.dist(a, b) > 4.0]
    return {round(t, 1) for t in turns if 1.0 < t < 89.0}


@pytest.mark.parametrize(("name", "degrees"), [("dipper", 22.9), ("wren", 25.0)])
@pytest.mark.parametrize("number", ["F1", "F3"])
def test_legs_are_drawn_at_the_angle_of_the_spec(name: str, degrees: float, number: str) -> None:
    """Source of the angle: tongue.angle in specs/*/trailer.yaml."""
    sheet = _sheet(SPECS / name, "us", number)
    assert _angles(sheet) == {degrees}
    assert any(t.text == f"{degrees:.1f}°" for t in texts(sheet.marks))


def test_height_chain_of_the_tongue_is_true_to_scale() -> None:
    """Source of the rule: a scale of 1:n draws 1 m as 1000/n mm (ISO 5455)."""
    sheet = _sheet(SPECS / "dipper", "si", "F3")
    title = next(t.text for t in texts(sheet.marks) if t.id == "section.title")
    ratio = float(title.split("1:")[1])
    lines = {m.id: m for m in sheet.marks if isinstance(m, Line)}
    ground = lines["section.ground"].points[0][1]
    for id in ("ball", "under", "top", "deck"):
        text = next(t for t in texts(sheet.marks) if t.id == f"levels.{id}.text")
        assert text.value is not None
        assert ground - lines[f"levels.{id}"].points[0][1] == pytest.approx(text.value * 1000.0 / ratio, abs=0.02), id


def test_lateral_chain_closes() -> None:
    """Tyre, gap, rails, gap, tyre make up the width over the tyres, on paper and in numbers."""
    for name, units in (("dipper", "si"), ("wren", "us"), ("heron", "us")):
        sheet = _sheet(SPECS / name, units, "F5")
        found = {m.id.removesuffix(".text"): m for m in texts(sheet.marks) if m.id.startswith("dim.") and m.value}
        chain = [_value(found[id]) for id in (*(f"dim.lateral.{i}" for i in (0, 1, 3, 4)), "dim.rails")]
        assert sum(chain) == pytest.approx(_value(found["dim.tyres"]), abs=1e-9)
        steel = _steel(SPECS / name, units)
        assert _value(found["dim.tyres"]) == pytest.approx(steel.track + steel.tyre_width, abs=1e-9)


def _value(t: Text) -> float:
    assert t.value is not None
    return t.value


def test_room_over_the_tyre_ends_at_the_steel_above_it() -> None:
    """Worked out again: lowest of steel right over a tyre, decking and belly sheet, less the top of the tyre."""
    s = _steel(SPECS / "dipper", "si")
    reach, y, wide = s.tyre_diameter / 2.0, s.track / 2.0, s.tyre_width / 2.0
    over = [p.z0 for p in s.pieces for a in s.axles
            if p.x0 < a.station + reach and p.x1 > a.station - reach and p.y0 < y + wide and p.y1 > y - wide]
    belly = _design(SPECS / "dipper").model.spec.trailer.frame.belly
    assert belly is not None
    room = s.deck_height_laden + min([-s.deck_thickness, -belly.nominal, *over]) - (s.tyre_radius_laden + reach)
    assert room == pytest.approx(s.sprung.travel_left + s.sprung.over_tyre, abs=1e-6)


def test_leaf_springs_stand_between_beam_and_eyes() -> None:
    """The chain of trailer.yaml: pack on its seat over the beam, eyes above the pack by what is left of the arch."""
    s = _steel(SPECS / "wren")
    inch = 0.0254
    assert s.sprung.pack_low - s.sprung.beam_height == pytest.approx((1.5 + 0.25) * inch)
    assert s.sprung.pack_high - s.sprung.pack_low == pytest.approx(1.5 * inch)
    assert s.tyre_radius_laden - s.sprung.beam_height == pytest.approx(4.0 * inch)
    eyes = s.deck_height_laden - s.tube_to_deck
    assert 0.0 < eyes - s.sprung.pack_high < 3.5 * inch


def test_scale_bars_of_metric_sheets_are_metric() -> None:
    for units, also in (("si", False), ("us", True)):
        for sheet in _sheets(SPECS / "dipper", units):
            end = [t.text for t in texts(sheet.marks) if t.id == "scale.end"]
            assert all(("″" in t or "′" in t) == also and "mm" in t for t in end), (sheet.number, end)


def test_height_chain_shows_the_steel_over_the_tyre() -> None:
    """L2 of a deck over the wheels draws the outriggers: steel between tyre and decking, over the tyre."""
    s = _steel(SPECS / "dipper", "si")
    right = [f.face for _, f in outlines.at_wheels(s, right_only=True)]
    y, top = s.track / 2.0, s.tyre_radius_laden + s.tyre_diameter / 2.0
    over = [f.y0 for f in right if f.x0 < y < f.x1]
    assert top < min(over) < s.deck_height_laden - s.deck_thickness
    assert all(f.x0 >= 0.0 for f in right)


def _unknown(steel: Steel) -> Iterator[tuple[str, Steel]]:
    """The trailer with one number unknown, or without some of its parts."""
    for name in ("tube_to_deck", "arm", "bracket_spacing", "track", "deck_thickness", "coupler_low", "neck_underside"):
        yield name, replace(steel, **{name: math.nan})
    for part in ("hitched", "sprung"):
        record = getattr(steel, part)
        for f in fields(record):
            if isinstance(getattr(record, f.name), float):
                yield f"{part}.{f.name}", replace(steel, **{part: replace(record, **{f.name: math.nan})})
    yield "boxes", replace(steel, boxes=tuple(replace(b, top=math.nan) for b in steel.boxes))
    yield "hub faces", replace(steel, axles=tuple(replace(a, hub_face=math.nan) for a in steel.axles))
    yield "one axle", replace(steel, axles=steel.axles[:1])
    yield "nothing ahead", replace(steel, pieces=tuple(p for p in steel.pieces if p.x0 >= 0.0))
    yield "no steel", replace(steel, pieces=())
    yield "no chain", replace(steel, lateral=replace(steel.lateral, steps=(), total=math.nan))


@pytest.mark.parametrize("name", ["dipper", "wren", "heron"])
def test_unknown_numbers_keep_sheets_back_without_a_traceback(name: str) -> None:
    desk = _desk(SPECS / name, "us")
    for what, steel in _unknown(_steel(SPECS / name)):
        sheets, without = drawn(Desk(tuple(steel if isinstance(s, Steel) else s for s in desk.slices)))
        numbers = {*lookout.once(s.number for s in sheets), *(u.number for u in without)}
        assert numbers == set(lookout.once(s.number for s in _sheets(SPECS / name, "us"))), what
        assert not any("nan" in (t.text or "").lower().split() for s in sheets for t in texts(s.marks)), what


LEG = Piece("t1", "leg", "HSS5x3x1/4", "A500 C", "lengthwise", -1.3, 0.5, 0.38, 0.46, -0.2, -0.1, 20.0,
            1.0 / math.cos(math.radians(25.0)))


def test_a_leg_in_plan_keeps_the_width_of_its_section() -> None:
    """Distance of its two long sides, by the cross product of plane geometry."""
    lines = [m for m in outlines.steel_plan(replace(_steel(SPECS / "wren"), pieces=(LEG,)), View(1000.0))
             if isinstance(m, Line)]
    long = [m.points for m in lines if abs(m.points[0][0] - m.points[1][0]) > 1.0]
    (a, b), (c, _) = long[0], long[1]
    apart = abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / math.dist(a, b)
    assert apart == pytest.approx(LEG.y1 - LEG.y0, abs=1e-6)


def test_what_a_box_covers_of_a_leg_is_dashed() -> None:
    """Seen and dashed strokes together are the whole outline; the dashed ones lie under the box."""
    over = Piece("x1", "front", "HSS3x3x3/16", "A500 C", "crosswise", 0.0, 0.1, -1.0, 1.0, -0.1, 0.0, 20.0)
    bare = replace(_steel(SPECS / "wren"), pieces=(LEG,))
    alone = [m for m in outlines.steel_plan(bare, View(1000.0)) if isinstance(m, Line)]
    both = [m for m in outlines.steel_plan(replace(bare, pieces=(LEG, over)), View(1000.0)) if isinstance(m, Line)]
    slanted = [m for m in both if m.id.startswith("slant.")]
    whole = sum(math.dist(*m.points) for m in alone)
    assert sum(math.dist(*m.points) for m in slanted) == pytest.approx(whole, abs=1e-6)
    dashed = [m for m in slanted if m.pen == "hidden"]
    assert len(dashed) == 2
    assert all(-1e-6 <= x <= 0.1 + 1e-6 for m in dashed for x, _ in m.points)
