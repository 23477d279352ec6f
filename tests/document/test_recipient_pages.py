"""The sheets for one reader and the checklist as printed: pages they take, phases kept whole, boxes left to fill in."""

import io
import re
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader

from generator.design import Design, design
from generator.document.documents import Packet, assemble, compose
from generator.document.page import site
from generator.document.pdf import render_pdf
from generator.document.sections.hazards import new_pages
from generator.release.cut import cut
from generator.release.slices import Desk, Hazards
from generator.units import Show

SPECS = Path(__file__).parents[2] / "specs"
PAGES = {"9-engineers-brief": 2, "10-haulier-sheet": 2, "11-underwriters-sheet": 2}


@cache
def calculated(name: str) -> Design:
    return design(SPECS / name)


@cache
def desk(name: str, to: str = "owner", units: str = "us") -> Desk:
    it = calculated(name)
    return cut(it.model, it.results, it.data, to, "0123456789ab", units)


@cache
def packet(name: str, to: str = "owner", units: str = "us") -> Packet:
    return assemble(desk(name, to, units), (), Show(units, "USD"))


@cache
def pages(name: str, document: str, to: str = "owner", units: str = "us") -> tuple[str, ...]:
    made = next(c for c in compose(packet(name, to, units)) if c.name == document)
    return tuple(p.extract_text() for p in PdfReader(io.BytesIO(render_pdf(made))).pages)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", ["heron", "wren", "dipper"])
@pytest.mark.parametrize("document", sorted(PAGES))
def test_a_sheet_takes_the_pages_it_is_named_for(name: str, document: str, units: str) -> None:
    assert len(pages(name, document, "owner", units)) <= PAGES[document]


@pytest.mark.parametrize(("name", "units"), [("heron", "us"), ("wren", "si"), ("dipper", "si")])
def test_no_phase_of_the_checklist_is_split(name: str, units: str) -> None:
    """A page to tick holds each of its phases whole: heading, caution, rows and signature."""
    held = desk(name, "owner", units).get(Hazards)
    assert isinstance(held, Hazards)
    printed = [" ".join(text.split()) for text in pages(name, "4-safety-checklist", "owner", units)][1:]
    assert sum(text.count("Done by") for text in printed) == len(held.pages)
    assert all(text.count("Done by") == text.count("CAUTION") for text in printed)
    assert len(printed) < len(held.pages)


def test_short_phases_share_a_page_and_long_ones_do_not() -> None:
    assert new_pages([300.0, 300.0, 300.0], 700.0) == (False, False, True)
    assert new_pages([500.0, 500.0, 100.0], 700.0) == (False, True, False)
    assert new_pages([900.0, 10.0], 700.0) == (False, True)


@pytest.mark.parametrize(("to", "document"), [
    ("engineer", "9-engineers-brief"), ("haulier", "10-haulier-sheet"), ("insurer", "11-underwriters-sheet")])
def test_a_recipients_packet_holds_their_sheet_and_no_other_readers(to: str, document: str) -> None:
    names = {d.stem for d in packet("heron", to).documents}
    assert names & set(PAGES) == {document}
    assert not names & {"0-decision-sheet", "5-budget", "6-options", "1-fabrication-request"}
    assert f"for {to}" in "".join(pages("heron", document, to)).replace("hauler", "haulier")


def test_the_official_reads_loads_workings_and_the_dwelling_part_of_the_checklist() -> None:
    names = {d.stem for d in packet("heron", "official").documents}
    assert {"3-load-summary", "3-workings", "4-safety-checklist"} <= names
    assert not names & {*PAGES, "0-decision-sheet", "1-fabrication-request", "5-budget", "6-options"}


def test_blanks_are_boxes_on_paper_and_on_the_screen() -> None:
    web = site(packet("heron"))
    for stem in PAGES:
        html = web[f"{stem}.html"].decode()
        assert html.count('class="write"') >= 4, stem
        assert "<script" not in html
    card = web["10-haulier-sheet.html"].decode()
    card = card[card.index('class="card"'):]
    assert len(re.findall(r'Height, rounded up</th><td>\d+', card)) == 1
    assert re.search(r'Height measured</th><td><span class="write">', card)
