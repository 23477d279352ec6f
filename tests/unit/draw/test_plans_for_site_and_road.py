"""Loads and supports, house interface, lamps, access and money as sheets: true to the numbers they are drawn from."""

import math
import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import TypeVar

import lookout
import pytest

from generator.calc.run import NO_LEVERS
from generator.design import design
from generator.draw.marks import Circle, Line, Text, texts
from generator.draw.pages import inner, lettering
from generator.draw.sheet import Sheet
from generator.draw.sheets import drawn
from generator.release.cut import cut
from generator.release.grants import RECIPIENTS
from generator.release.slices import Cover, Desk, Envelope, Lamps, Money, Paths, RoadLoads, Sheets, Slice, Steel
from generator.units import Show

SPECS = Path(__file__).resolve().parents[3] / "specs"
NAMES = ("heron", "wren", "dipper", "first-sketch")
NUMBERS = ("G2", "F7", "E1", "A1", "M1")
Some = TypeVar("Some", bound=Slice)
OTHERS = tuple(to for to in RECIPIENTS if to != "owner")


@cache
def _desk(name: str, units: str = "us", to: str = "owner") -> Desk:
    it = design(SPECS / name, NO_LEVERS)
    return cut(it.model, it.results, it.data, to, "0123456789ab", units)


@cache
def _sheets(name: str, units: str = "us", to: str = "owner") -> dict[str, Sheet]:
    return {s.number: s for s in drawn(_desk(name, units, to))[0]}


def _slice(name: str, kind: type[Some], units: str = "us", to: str = "owner") -> Some:
    found = _desk(name, units, to).get(kind)
    assert isinstance(found, kind)
    return found


def _ratio(sheet: Sheet) -> float:
    return float(sheet.scale.removeprefix("1:"))


def _lines(sheet: Sheet, start: str) -> list[Line]:
    return [m for m in sheet.marks if isinstance(m, Line) and m.id.startswith(start)]


def _said(sheet: Sheet) -> str:
    return "\n".join([*(t.text for t in texts(sheet.marks)), *(c for s in sheet.schedule for r in s.rows for c in r)])


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("to", ["owner", "fabricator"])
def test_a_draughtsperson_would_sign_them(name: str, units: str, to: str) -> None:
    sheets = _sheets(name, units, to)
    show = lettering(_slice(name, Cover, units, to))
    for number in NUMBERS if to == "owner" else NUMBERS[:-1]:
        sheet = sheets[number]
        assert lookout.text_on_text(sheet.marks) == [], number
        assert lookout.text_on_lines(sheet.marks) == [], number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], number
        assert len(sheet.svg().encode()) <= 120_000
        assert all(len(row) == len(s.head) == len(s.right) for s in sheet.schedule for row in s.rows)
        own = [t for t in texts(sheet.marks) if not t.id.startswith(("block", "revisions"))]
        assert not [t.text for t in own if "…" in t.text], number
        last = max((t for t in own if re.fullmatch(r"notes\.\d+\.\d+", t.id)), key=lambda t: t.at[1])
        assert last.text.endswith("."), number
        for t in own:
            forms = {show(t.value, t.unit, way) for way in ("near", "up", "down")} if t.value is not None else set()
            assert t.value in (None, 0.0) or any(form in t.text for form in forms), (number, t.id, t.text)


@pytest.mark.parametrize("name", NAMES)
def test_loads_of_each_column_add_up_to_its_mass(name: str) -> None:
    """Statics: what hitch and wheels carry is the mass of the state; the printed kilograms are rounded to one."""
    table = _sheets(name, "si")["G2"].schedule[0]
    columns = list(zip(*[row[1:] for row in table.rows], strict=True))
    towed = [s for s in _slice(name, RoadLoads, "si").states if s.hitch is not None]
    assert len(columns) == len(towed) >= 4
    for state, column in zip(towed, columns, strict=True):
        mass, *carried = (_number(column[i]) for i in (0, *range(3, len(column))))
        assert mass == pytest.approx(state.mass, abs=0.51)
        assert sum(carried) == pytest.approx(mass, abs=0.51 * (len(carried) + 1))


def _number(text: str) -> float:
    return float(re.sub(r"[^\d.\u2212-]", "", text).replace("\u2212", "-"))


@pytest.mark.parametrize("name", NAMES)
def test_supports_stand_at_their_stations_at_true_scale(name: str) -> None:
    """Source of the rule: a scale of 1:n draws 1 m as 1000/n mm (ISO 5455)."""
    sheet, s = _sheets(name)["G2"], _slice(name, Steel)
    origin = next(m for m in _lines(sheet, "load.datum")).points[0][0]
    for p in s.stands:
        foot = next(m for m in _lines(sheet, f"load.stand.{p.id}")).points[0][0]
        assert (foot - origin) * _ratio(sheet) / 1000.0 == pytest.approx(p.station, abs=1e-4 * _ratio(sheet))
    for p in s.stands:
        pads = [m for m in _lines(sheet, f"pad.stand.{p.id}.")]
        wide = {round(_across(m) * _ratio(sheet) / 1000.0, 6) for m in pads}
        assert wide == ({round(p.pad, 6)} if math.isfinite(p.pad) else set())


def _across(line: Line) -> float:
    xs = [p[0] for p in line.points]
    return max(xs) - min(xs)


@pytest.mark.parametrize("name", NAMES)
def test_anchors_and_sills_are_mirrored(name: str) -> None:
    sheet = _sheets(name)["F7"]
    middle = next(m for m in _lines(sheet, "centre")).points[0][1]
    for start in ("plan.anchor.", "sill.", "zone-over."):
        found = [m for m in _lines(sheet, start)]
        heights = sorted(round(y - middle, 3) for m in found for _, y in m.points)
        assert heights
        assert heights == pytest.approx([-h for h in reversed(heights)], abs=2e-3)


@pytest.mark.parametrize("name", NAMES)
def test_lamps_keep_their_limits_bare_and_laden(name: str) -> None:
    s = _slice(name, Steel)
    rows = [r for r in _slice(name, Lamps).rows if r.level != "top"]
    assert rows
    for r in rows:
        for deck in (s.deck_height_laden, s.deck_height_bare):
            assert not deck + r.zeta < r.low - 1e-9, r.title
            assert not deck + r.zeta > r.high + 1e-9, r.title


@pytest.mark.parametrize("name", ["heron", "wren"])
def test_every_kind_of_lamp_is_drawn_and_numbered(name: str) -> None:
    sheet, rows = _sheets(name)["E1"], _slice(name, Lamps).rows
    numbers = {n for t in texts(sheet.marks) if t.id.startswith("number.") for n in t.text.split()}
    assert numbers == {str(n) for n in range(1, len(rows) + 1)}
    rear = [m for m in sheet.marks if isinstance(m, Circle) and m.id.startswith("lamp.rear")]
    assert len(rear) >= 2 + 1 + 2 + 3, "a pair with tail, stop and turn; the plate lamp; clearance; identification"


def test_wires_from_memory_say_so() -> None:
    for name in NAMES:
        sheet = _sheets(name)["E1"]
        assert any("from memory" in t.text or "prove each" in t.text for t in texts(sheet.marks)), name


@pytest.mark.parametrize("name", ["heron", "first-sketch"])
def test_nose_turns_on_a_circle_about_the_ball(name: str) -> None:
    """A rigid nose: its corner is as far from the ball at every yaw; R = sqrt(f2 + (w/2)2), as the trade reckons it."""
    sheet, w = _sheets(name)["A1"], _slice(name, Paths).swing
    ball = next(m for m in sheet.marks if isinstance(m, Circle) and m.id == "ball").centre
    radius = math.hypot(w.ahead, w.half) * 1000.0 / _ratio(sheet)
    for n in range(3):
        nose = next(m for m in _lines(sheet, f"swing.{n}.nose"))
        assert [math.dist(p, ball) for p in nose.points[1:3]] == pytest.approx([radius, radius])
    arc = next(m for m in _lines(sheet, "swing.corner"))
    assert [math.dist(p, ball) for p in arc.points] == pytest.approx([radius] * len(arc.points))


@pytest.mark.parametrize("name", ["heron", "first-sketch"])
def test_room_at_each_yaw_is_what_the_drawing_shows(name: str) -> None:
    """The nose at 45 and 90 degrees, drawn, against the calculation: foremost point so far up to that yaw."""
    sheet, w = _sheets(name)["A1"], _slice(name, Paths).swing
    ball = next(m for m in sheet.marks if isinstance(m, Circle) and m.id == "ball").centre
    mm = 1000.0 / _ratio(sheet)
    for n, (degrees, room) in enumerate(w.rooms):
        nose = next(m for m in _lines(sheet, f"swing.{n}.nose"))
        reach = (ball[0] - min(p[0] for p in nose.points[1:3])) / mm
        assert room <= w.cab - reach + 1e-6, degrees
        if math.radians(degrees) <= math.atan2(w.half, w.ahead):
            assert room == pytest.approx(w.cab - reach, abs=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_the_turn_is_steady(name: str) -> None:
    """Plane geometry: the hitch runs sqrt(path2 + reach2) from the middle of the turn, no corner leaves the strip."""
    sheet, t, e = _sheets(name)["A1"], _slice(name, Paths).turn, _slice(name, Envelope)
    assert t is not None
    assert t.radius == pytest.approx(math.hypot(t.path, t.reach))
    inner_, outer = (next(m for m in _lines(sheet, f"turn.{id}")) for id in ("inner", "outer"))
    wide = math.dist(inner_.points[10], outer.points[10])
    mm = wide / t.swept
    centre = _centre(outer.points)
    far = math.dist(outer.points[0], centre)
    for n in (0, 1):
        house = next(m for m in _lines(sheet, f"house.{n}"))
        reaches = [math.dist(p, centre) for p in house.points]
        assert max(reaches) <= far + 1e-6
        assert max(reaches) == pytest.approx(far, abs=max(1e-6, mm * 0.02)) or e.width < t.swept
        assert min(reaches) >= math.dist(inner_.points[0], centre) - 1e-6


def _centre(points: Iterable[tuple[float, float]]) -> tuple[float, float]:
    """Middle of the circle through the first, middle and last of the points."""
    listed = list(points)
    (ax, ay), (bx, by), (cx, cy) = listed[0], listed[len(listed) // 2], listed[-1]
    d = 2.0 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a, b, c = ax**2 + ay**2, bx**2 + by**2, cx**2 + cy**2
    return (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d, (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d


@pytest.mark.parametrize("name", NAMES)
def test_departure_angle_is_drawn_as_calculated(name: str) -> None:
    sheet, p, s = _sheets(name)["A1"], _slice(name, Paths), _slice(name, Steel)
    (a, b), = (m.points for m in _lines(sheet, "departure") if m.id == "departure")
    assert math.atan2(a[1] - b[1], b[0] - a[0]) == pytest.approx(p.departure.angle)
    run = p.departure.station - s.axles[-1].station
    assert math.atan2(p.departure.height, run) == pytest.approx(p.departure.angle)


def test_the_haulier_is_told_of_the_swing_and_not_of_the_gate() -> None:
    paths = next(s for s in _slice("heron", Sheets, to="haulier").behind if isinstance(s, Paths))
    assert paths.turn is None
    assert (paths.departure.what, paths.breakover.what, paths.clearance_at) == ("", "", "")
    said = _said(_sheets("heron", to="haulier")["A1"])
    assert "45" in said
    assert not re.search(r"\bgate\b|tightest|swept|tail swing", said, re.IGNORECASE)
    assert "Gate" in _said(_sheets("heron")["A1"])


def test_bars_of_money_are_as_long_as_their_sums() -> None:
    for name in NAMES:
        sheet, b = _sheets(name)["M1"], _slice(name, Money).budget
        for key, rows in (("section", b.sections), ("milestone", b.milestones)):
            long = [_across(next(m for m in _lines(sheet, f"{key}.{n}") if m.id == f"{key}.{n}"))
                    for n in range(len(rows))]
            each = {round(x / float(r.total), 6) for x, r in zip(long, rows, strict=True)}
            assert len(each) == 1, (name, key)
        bars = [m for m in _lines(sheet, "milestone.") if re.fullmatch(r"milestone\.\d+", m.id)]
        ends, starts = ([far(p[0] for p in m.points) for m in bars] for far in (max, min))
        assert starts[1:] == pytest.approx(ends[:-1]), "each bar begins where the one before ends"
        assert sum(r.total for r in b.milestones) == sum(r.total for r in b.sections) == b.base


@pytest.mark.parametrize("to", OTHERS)
@pytest.mark.parametrize("name", ["heron", "wren"])
def test_money_is_drawn_for_the_owner_alone(name: str, to: str) -> None:
    """Neither the sheet nor its absence is told; no sum of the budget stands on any other sheet."""
    sheets, without = drawn(_desk(name, "us", to))
    assert "M1" not in {s.number for s in sheets} | {u.number for u in without}
    b, show = _slice(name, Money).budget, Show("us", "USD")
    sums = {show.money(r.total) for r in (*b.sections, *b.milestones)} | {show.money(x) for x in (b.base, b.p50, b.p80)}
    for sheet in sheets:
        said = _said(sheet)
        assert [x for x in sums if x in said] == [], sheet.number
        assert "$" not in said, sheet.number


def test_a_text_of_the_sheets_is_a_text() -> None:
    """Guards the tests above: they read texts at all."""
    assert all(isinstance(t, Text) for t in texts(_sheets("heron")["M1"].marks))
    assert "$" in _said(_sheets("heron")["M1"])
