"""Sheets as printed: known points of the drawing measured in the PDF, in mm of its paper.

Source of the rule: a scale of 1:n draws 1 m as 1000/n mm (ISO 5455); a PDF unit is 1/72 in (ISO 32000-1, 8.3.2.3);
sheets are 11 x 17 in (ASME Y14.1, size B) and A3 (ISO 216).
"""

import io
import re
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf._page import PageObject
from pypdf.generic import ContentStream

sys.path.insert(0, str(Path(__file__).parents[1] / "unit" / "draw"))

import desk_sample
import lookout

from generator.document.documents import assemble, compose
from generator.document.pdf import render_pdf
from generator.draw.marks import Area, Line, texts
from generator.draw.sheet import Sheet
from generator.draw.sheets import sheets_for
from generator.units import Show

POINT = 25.4 / 72.0
PAPER = {"us": (431.8, 279.4), "si": (420.0, 297.0)}
Matrix = tuple[float, float, float, float, float, float]
Place = tuple[float, float]
RIGHT = 0.1
"""Greatest error of a point on paper, mm."""


def _times(m: Matrix, n: Matrix) -> Matrix:
    """m after n, as `cm` puts one matrix before the other."""
    a, b, c, d, e, f = m
    g, h, i, j, k, o = n
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + o


def _at(m: Matrix, x: float, y: float, tall: float) -> Place:
    """A point of the stream on paper, mm from the upper left corner."""
    return (m[0] * x + m[2] * y + m[4]) * POINT, tall - (m[1] * x + m[3] * y + m[5]) * POINT


def _corners(page: PageObject, reader: PdfReader) -> list[Place]:
    """Ends of all strokes of a page and of the forms drawn on it, as the page's own matrices place them."""
    found: list[Place] = []
    tall = float(page.mediabox.height) * POINT

    def walk(content: ContentStream, resources: dict, start: Matrix) -> None:
        now, kept = start, []
        for operands, operator in content.operations:
            if operator == b"q":
                kept.append(now)
            elif operator == b"Q":
                now = kept.pop()
            elif operator == b"cm":
                now = _times(tuple(float(v) for v in operands), now)  # type: ignore[arg-type]
            elif operator in (b"m", b"l"):
                found.append(_at(now, float(operands[0]), float(operands[1]), tall))
            elif operator == b"Do":
                form = resources["/XObject"][operands[0]].get_object()
                if form.get("/Subtype") == "/Form":
                    own = tuple(float(v) for v in form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                    walk(ContentStream(form, reader), form.get("/Resources", resources).get_object(),
                         _times(own, now))  # type: ignore[arg-type]

    contents = page.get_contents()
    assert contents is not None
    walk(ContentStream(contents, reader), page["/Resources"].get_object(), (1.0, 0.0, 0.0, 1.0, 0.0, 0.0))
    return found


def _nearest(points: list[Place], to: Place) -> float:
    return min(max(abs(x - to[0]), abs(y - to[1])) for x, y in points)


@pytest.fixture(scope="module", params=["us", "si"])
def printed(request: pytest.FixtureRequest) -> tuple[str, tuple[Sheet, ...], PdfReader]:
    units = request.param
    desk = desk_sample.desk(units)
    sheets = sheets_for(desk)
    packet = assemble(desk, sheets, Show("si" if units == "si" else "us", "USD"))
    drawings = next(c for c in compose(packet) if c.name == "2-drawings")
    return units, sheets, PdfReader(io.BytesIO(render_pdf(drawings)))


def _pages(units: str, reader: PdfReader) -> list[PageObject]:
    wide, tall = PAPER[units]
    return [p for p in reader.pages if abs(float(p.mediabox.width) * POINT - wide) < RIGHT
            and abs(float(p.mediabox.height) * POINT - tall) < RIGHT]


def test_every_sheet_is_printed_on_its_own_page_of_its_own_size(printed) -> None:
    units, sheets, reader = printed
    assert len(_pages(units, reader)) == len(sheets)


def test_points_of_the_drawing_stand_on_paper_where_they_were_drawn(printed) -> None:
    """Frame, scale bar and every dimension of every sheet, as the PDF's own matrices place them, to 0.1 mm."""
    units, sheets, reader = printed
    for sheet, page in zip(sheets, _pages(units, reader), strict=True):
        points = _corners(page, reader)
        drawn = {m.id: m for m in sheet.marks if isinstance(m, Line)}
        wanted = [q for id in ("frame", "scale") if id in drawn for q in drawn[id].points]
        wanted += [q for id, *_ in lookout.spans(sheet.marks) for q in drawn[id].points]
        assert len(wanted) >= 4
        for place in wanted:
            assert _nearest(points, place) <= RIGHT, (sheet.number, place)


def test_two_known_points_are_as_far_apart_as_the_scale_says(printed) -> None:
    """Dimensions and scale bars measured on paper against the model's metres."""
    units, sheets, reader = printed
    measured = 0
    for sheet, page in zip(sheets, _pages(units, reader), strict=True):
        points = _corners(page, reader)
        assert lookout.untrue(sheet) == []
        lines = {m.id: m for m in sheet.marks if isinstance(m, Line)}
        for id, level, a, b, value in lookout.spans(sheet.marks):
            ends = []
            for along in (a, b):
                across = lines[f"{id}.a" if along == a else f"{id}.b"].points[-1][1 if level else 0]
                wanted = (along, across) if level else (across, along)
                ends.append(min(points, key=lambda p: max(abs(p[0] - wanted[0]), abs(p[1] - wanted[1]))))
            apart = abs(ends[0][0] - ends[1][0]) if level else abs(ends[0][1] - ends[1][1])
            error = min(abs(apart - abs(value) * 1000.0 / r) for r in lookout.ratios(sheet))
            assert error <= RIGHT + 1e-6, (sheet.number, id, apart, value)
            measured += 1
    assert measured > 50


def test_scale_bars_are_as_long_as_they_say(printed) -> None:
    """Text of the bar's end in metres, read back, against its black and white boxes on paper."""
    units, sheets, _ = printed
    for sheet in sheets:
        bars = [m for m in sheet.marks if isinstance(m, Line) and m.id == "scale"]
        if not bars:
            continue
        said = next(t.text for t in texts(sheet.marks) if t.id == "scale.end")
        mm = float(re.search(r"([\d,]+)\u00a0mm", said)[1].replace(",", ""))  # type: ignore[index]
        xs = [x for x, _ in bars[0].points]
        ratio = float(sheet.scale.removeprefix("1:"))
        assert max(xs) - min(xs) == pytest.approx(mm / ratio, abs=RIGHT if units == "si" else 0.5 / ratio + 1e-3)
        blacks = [m for m in sheet.marks if isinstance(m, Area) and m.id.startswith("scale.")]
        assert len(blacks) == 2
