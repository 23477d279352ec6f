"""Sheets as display lists: what a draughtsperson would look for, checked as numbers; no renderer needed."""

import hashlib
import math
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import desk_sample
import lookout
import pytest

from generator.draw.marks import Line, Text, texts
from generator.draw.pages import inner, lettering
from generator.draw.sheet import Sheet
from generator.draw.sheets import outlines, sheets_for, unavailable
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.slices import Cover, Desk, Envelope

NUMBERS = ("G1", "F1", "F2", "F2.2", "F3", "F4", "F5", "F6", "F7", "S1", "S2", "L1", "L2", "L3", "L4")
DRAWN = tuple(n for n in NUMBERS if not n.startswith("S"))
"""Those with a view; the others are lettered tables."""
SYSTEMS = ("us", "si")


def _sheet(units: str, number: str) -> Sheet:
    return next(s for s in sheets_for(desk_sample.desk(units)) if s.number == number)


def _line(sheet: Sheet, id: str) -> Line:
    return next(m for m in sheet.marks if isinstance(m, Line) and m.id == id)


def _text(sheet: Sheet, id: str) -> Text:
    return next(t for t in texts(sheet.marks) if t.id == id)


def _long(line: Line) -> float:
    return math.dist(line.points[0], line.points[-1])


def test_all_sheets_are_drawn() -> None:
    assert tuple(s.number for s in sheets_for(desk_sample.desk())) == NUMBERS
    assert unavailable(desk_sample.desk()) == ()


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("number", NUMBERS)
def test_nothing_stands_on_text(units: str, number: str) -> None:
    sheet = _sheet(units, number)
    assert lookout.text_on_text(sheet.marks) == []
    assert lookout.text_on_lines(sheet.marks) == []


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("number", NUMBERS)
def test_all_inside_the_frame(units: str, number: str) -> None:
    sheet = _sheet(units, number)
    assert lookout.outside(sheet.marks, inner(sheet.size)) == []


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("number", DRAWN)
def test_each_number_is_the_formatters_on_the_models_float(units: str, number: str) -> None:
    show = lettering(replace(desk_sample.COVER, units=units))
    valued = [t for t in texts(_sheet(units, number).marks) if t.value is not None]
    assert valued
    for t in valued:
        forms = {show(t.value, t.unit, toward) for toward in ("near", "up", "down")} | (
            {"0"} if t.value == 0.0 else set()
        )
        assert any(form in t.text for form in forms), (t.id, t.text, forms)


@pytest.mark.parametrize("units", SYSTEMS)
def test_drawn_lengths_are_true_to_scale(units: str) -> None:
    """Source of the rule: a scale of 1:n draws 1 m as 1000/n mm (ISO 5455)."""
    for number, id in (
        ("G1", "dim.deck"),
        ("G1", "dim.overall"),
        ("F1", "dim.rails"),
        ("F3", "dim.nose"),
        ("F3", "dim.front.deck"),
        ("L4", "dim.nose"),
        ("L2", "0.total"),
    ):
        sheet = _sheet(units, number)
        ratio = float(sheet.scale.removeprefix("1:"))
        value = _text(sheet, f"{id}.text").value
        assert value is not None
        assert abs(_long(_line(sheet, id)) - value * 1000.0 / ratio) < 0.1, (number, id)


def test_written_svg_is_true_to_scale() -> None:
    """The two ends of the deck in the SVG, in mm of a page whose user unit is one mm."""
    sheet = _sheet("us", "G1")
    root = ET.fromstring(sheet.svg())
    assert root.attrib["width"] == "431.8mm"
    assert root.attrib["viewBox"] == "0 0 431.8 279.4"
    path = next(p.attrib["d"] for p in root.iter() if p.attrib.get("id") == "G1-dimension")
    runs = [[float(n) for n in run.replace("L", " ").replace("Z", "").split()] for run in path.split("M")[1:]]
    level = [abs(r[2] - r[0]) for r in runs if len(r) == 4 and r[1] == r[3]]
    wanted = desk_sample.DECK * 1000.0 / float(sheet.scale.removeprefix("1:"))
    assert min(abs(d - wanted) for d in level) < 0.1


def test_chains_close() -> None:
    """Ball to A and A to the rear make ball to rear; the ladder of L2 ends at its total."""
    g1 = _sheet("us", "G1")
    ratio = float(g1.scale.removeprefix("1:"))
    chain = _long(_line(g1, "dim.ball")) + _long(_line(g1, "dim.deck"))
    assert chain == pytest.approx((desk_sample.DECK - desk_sample.PIN) * 1000.0 / ratio, abs=0.02)
    for n, c in enumerate(desk_sample.ENVELOPE.chains):
        shown = [
            t.value
            for t in texts(_sheet("us", "L2").marks)
            if t.id.startswith(f"{n}.name.") and t.id.endswith(".value")
        ]
        assert sum(v for v in shown if v is not None) == pytest.approx(c.limit)


def test_views_line_up_in_third_angle() -> None:
    """Plan above the elevation on the same stations, front and rear on the same ground. Source: ISO 5456-2."""
    sheet = _sheet("us", "G1")
    grounds = [m for m in sheet.marks if isinstance(m, Line) and m.id == "ground"]
    assert len(grounds) == 3
    assert len({round(g.points[0][1], 6) for g in grounds}) == 1
    datum = next(m for m in sheet.marks if m.id == "datum.A")
    assert isinstance(datum, Line)
    middle = (datum.points[0][0] + datum.points[1][0]) / 2.0
    assert middle == pytest.approx(_line(sheet, "dim.deck.a").points[0][0])
    titles = {t.id: t.at for t in texts(sheet.marks) if t.id.endswith(".title")}
    assert titles["front.title"][0] < titles["elevation.title"][0] < titles["rear.title"][0]
    assert titles["plan.title"][1] < titles["elevation.title"][1]


def test_supports_of_the_diagram_stand_under_the_wheels() -> None:
    sheet = _sheet("us", "L1")
    wheels = {m.id: m for m in sheet.marks if m.id in ("axle.1.v", "axle.2.v", "axle.3.v")}
    for n in (1, 2, 3):
        wheel, support = wheels[f"axle.{n}.v"], _line(sheet, f"support.{n}")
        assert isinstance(wheel, Line)
        assert support.points[0][0] == pytest.approx(wheel.points[0][0])


def test_window_of_placement_holds_the_choice() -> None:
    sheet = _sheet("us", "L3")
    chosen = _line(sheet, "chosen").points[0][0]
    assert _line(sheet, "share.low").points[0][0] < chosen < _line(sheet, "share.high").points[0][0]


@pytest.mark.parametrize("units", SYSTEMS)
def test_svg_is_well_formed_and_small(units: str) -> None:
    for sheet in sheets_for(desk_sample.desk(units)):
        text = sheet.svg()
        root = ET.fromstring(text)
        ids = [e.attrib["id"] for e in root.iter() if "id" in e.attrib]
        assert len(ids) == len(set(ids))
        assert all(i.startswith(f"{sheet.number.replace('.', '')}-") for i in ids)
        assert len(text.encode()) <= 120_000
        assert len(texts(sheet.marks)) == sum(e.tag.endswith("}text") for e in root.iter())
        assert sheet.alt
        assert all(len(row) == len(s.head) == len(s.right) for s in sheet.schedule for row in s.rows)


def test_same_bytes_with_any_hash_seed() -> None:
    code = (
        "import hashlib, desk_sample; from generator.draw.sheets import sheets_for\n"
        "print(hashlib.sha256(''.join(s.svg() for s in sheets_for(desk_sample.desk())).encode()).hexdigest())"
    )
    here = Path(__file__).resolve().parent
    sums = set()
    for seed in ("0", "7"):
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": f"{here}:{here.parents[2]}"}
        sums.add(
            subprocess.run(
                [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True
            ).stdout.strip()
        )
    here_sum = hashlib.sha256("".join(s.svg() for s in sheets_for(desk_sample.desk())).encode()).hexdigest()
    assert sums == {here_sum}


def test_text_of_the_spec_comes_out_as_text() -> None:
    hostile = "<script>alert(1)</script> & \x00 {{ 7*7 }} " + "x" * 10_000
    sheets = sheets_for(
        desk_sample.desk(cover=replace(desk_sample.COVER, title=hostile, owner=hostile, status=hostile))
    )
    assert len(sheets) == len(NUMBERS)
    for sheet in sheets:
        root = ET.fromstring(sheet.svg())
        assert not any(e.tag.lower().endswith("script") for e in root.iter())
        assert any("<script>" in (e.text or "") for e in root.iter())
        assert lookout.outside(sheet.marks, inner(sheet.size)) == []


def test_mirrored_frame_gives_mirrored_marks() -> None:
    def mirrored(p: Piece) -> Piece:
        return replace(p, y0=-p.y1, y1=-p.y0)

    odd = replace(desk_sample.STEEL, pieces=desk_sample.STEEL.pieces[:9])
    turned = replace(odd, pieces=tuple(mirrored(p) for p in odd.pieces))

    def strokes(steel: object, sign: float) -> set[tuple[str, frozenset[tuple[float, float]]]]:
        marks = outlines.steel_plan(steel, View(32.0))  # type: ignore[arg-type]
        return {
            (m.pen, frozenset((round(x, 3), round(sign * y, 3) + 0.0) for x, y in m.points))
            for m in marks
            if isinstance(m, Line)
        }

    assert strokes(odd, 1.0) != strokes(odd, -1.0)
    assert strokes(turned, 1.0) == strokes(odd, -1.0)


def test_a_sheet_without_its_slice_is_listed_with_the_reason() -> None:
    desk = Desk(tuple(s for s in desk_sample.desk().slices if not isinstance(s, Envelope)))
    assert [s.number for s in sheets_for(desk)] == ["F1", "F2", "F2.2", "F3", "F4", "F5", "F6", "S1", "S2", "L1", "L3"]
    assert {u.number: u.reason for u in unavailable(desk)}[
        "G1"
    ] == "needs what is not in this packet: the outline of the house"
    assert sheets_for(Desk(tuple(s for s in desk.slices if not isinstance(s, Cover)))) == ()


def test_an_unknown_number_keeps_its_sheet_back_and_names_itself() -> None:
    steel = replace(desk_sample.STEEL, ball_height=math.nan)
    desk = desk_sample.desk(steel=steel)
    assert [s.number for s in sheets_for(desk)] == ["L3"]
    assert all("height of the ball" in u.reason for u in unavailable(desk))


def test_without_a_tow_vehicle_the_arrangement_still_stands() -> None:
    nothing = replace(
        desk_sample.ENVELOPE,
        vehicle_bed_rail=None,
        vehicle_ball=None,
        vehicle_ball_to_cab=None,
        vehicle_ball_to_bed_end=None,
        vehicle_cab_height=None,
        vehicle_wheelbase=None,
        vehicle_ball_behind_axle=None,
    )
    sheet = next(s for s in sheets_for(desk_sample.desk(envelope=nothing)) if s.number == "G1")
    assert not any(m.id.startswith("vehicle") for m in sheet.marks)


def test_a_negative_reserve_is_said() -> None:
    low = replace(desk_sample.ENVELOPE, chains=tuple(replace(c, limit=3.9) for c in desk_sample.ENVELOPE.chains))
    sheet = next(s for s in sheets_for(desk_sample.desk(envelope=low)) if s.number == "L2")
    assert any(t.text == "over the limit" for t in texts(sheet.marks))


def test_members_count_and_add_up() -> None:
    members = _sheet("us", "F1").schedule[1]
    assert sum(int(r[4]) for r in members.rows[:-1]) == len(desk_sample.STEEL.pieces) == int(members.rows[-1][4])


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize(("length", "width", "axles"), [(0.6, 0.75, 1), (0.9, 1.0, 2), (1.3, 1.0, 4)])
def test_other_trailers_are_drawn_as_cleanly(units: str, length: float, width: float, axles: int) -> None:
    s, e = desk_sample.STEEL, desk_sample.ENVELOPE
    steel = replace(
        s,
        deck_length=s.deck_length * length,
        deck_width=s.deck_width * width,
        rails_outside=s.rails_outside * width,
        neck_front=s.neck_front * length,
        pin_station=s.pin_station * length,
        neck_width=s.neck_width * width,
        neck_rails_outside=s.neck_rails_outside * width,
        jacks=(),
        boxes=(),
        pieces=tuple(
            replace(p, x0=p.x0 * length, x1=p.x1 * length, y0=p.y0 * width, y1=p.y1 * width) for p in s.pieces
        ),
        axles=tuple(
            replace(
                s.axles[0],
                number=i + 1,
                station=s.axles[0].station * length + 0.9 * i,
                bracket_station=s.axles[0].station * length + 0.9 * i + 0.15,
            )
            for i in range(axles)
        ),
        stands=tuple(replace(p, station=p.station * length) for p in s.stands),
        points=tuple(replace(p, station=p.station * length) for p in s.points),
    )
    envelope = replace(
        e,
        front=e.front * length,
        rear=e.rear * length,
        width=e.width * width,
        zones=tuple(replace(z, front=z.front * length, rear=z.rear * length) for z in e.zones),
    )
    desk = desk_sample.desk(units, steel=steel, envelope=envelope)
    assert unavailable(desk) == ()
    for sheet in sheets_for(desk):
        assert lookout.text_on_text(sheet.marks) == [], sheet.number
        assert lookout.text_on_lines(sheet.marks) == [], sheet.number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], sheet.number


def test_steel_behind_a_tyre_is_not_drawn() -> None:
    """The tyre is nearer to the eye than rails and decking."""
    s, view = desk_sample.STEEL, View(48.0)
    r = view.mm(s.tyre_diameter / 2.0)
    lines = [
        m for m in (*outlines.steel_elevation(s, view), *outlines.decking_elevation(s, view)) if isinstance(m, Line)
    ]
    for a in s.axles:
        centre = view.p(a.station, s.tyre_radius_laden)
        middles = [((p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0) for m in lines for p, q in m.segments()]
        assert not [m for m in middles if math.dist(m, centre) < r - 1e-6]
    reach = max(p[0] for m in lines for p in m.points)
    assert reach == pytest.approx(view.across(s.deck_length))
