"""The PDFs as pypdf reads them: title, language, tags, bookmarks, fonts, forms, one page, equal bytes."""

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

sys.path.insert(0, str(Path(__file__).parent))

import packet_sample

from generator.document.documents import Composed, assemble, compose
from generator.document.pdf import render_pdf
from generator.document.reply import BOXES
from generator.draw.sheets import sheets_for
from generator.errors import RenderError
from generator.release.slices import Request
from generator.units import Show

HERE = Path(__file__).parent


def composed(desk, system: str = "us") -> dict[str, Composed]:
    return {c.name: c for c in compose(assemble(desk, sheets_for(desk), Show(system, "USD")))}


@pytest.fixture(scope="module")
def documents() -> dict[str, Composed]:
    return composed(packet_sample.desk())


@pytest.fixture(scope="module")
def readers(documents) -> dict[str, PdfReader]:
    return {name: PdfReader(io.BytesIO(render_pdf(c))) for name, c in documents.items() if name != "3-load-summary"}


def kids(node):
    found = node.get("/K", [])
    found = found if isinstance(found, list) else [found]
    return [k for k in (f.get_object() for f in found) if isinstance(k, dict)]


def tags(node):
    for kid in kids(node):
        if "/S" in kid:
            yield kid["/S"]
            yield from tags(kid)


def test_every_document_of_the_owner_is_there(documents):
    assert list(documents) == [
        "0-decision-sheet",
        "1-fabrication-request",
        "1-reply-form",
        "2-drawings",
        "3-load-summary",
        "3-workings",
        "4-safety-checklist",
        "5-budget",
        "7-revision-record",
        "8-notes",
    ]


def test_title_language_and_tags_as_pdf_ua_asks(readers):
    # ISO 14289-1:2014, 7.1: document title shown, natural language set, content tagged.
    for name, reader in readers.items():
        root = reader.trailer["/Root"]
        assert "Sample gooseneck, 27 ft, revision P2" in reader.metadata.title, name
        assert root["/Lang"] == "en-US", name
        assert root["/MarkInfo"]["/Marked"], name
        assert root["/ViewerPreferences"]["/DisplayDocTitle"], name
        assert {"/H1", "/H2", "/Table", "/TH"} <= set(tags(root["/StructTreeRoot"])), name


def test_bookmarks_follow_the_headings(readers):
    def titles(outline):
        return [t for o in outline for t in (titles(o) if isinstance(o, list) else [o.title])]

    found = titles(readers["1-fabrication-request"].outline)
    assert found[:2] == ["1 Fabrication request", "Request for a price"]
    assert "1 Scope" in found
    assert "Acceptance sheet" in found


def test_only_the_packaged_faces_and_all_embedded(readers):
    for name, reader in readers.items():
        for page in reader.pages:
            for font in page["/Resources"].get("/Font", {}).values():
                font = font.get_object()
                assert "Source-Sans-Pro" in font["/BaseFont"].replace("SourceSansPro", "Source-Sans-Pro"), (
                    name,
                    font["/BaseFont"],
                )
                inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
                descriptor = inner["/FontDescriptor"]
                assert any(k in descriptor for k in ("/FontFile", "/FontFile2", "/FontFile3")), name


def test_every_page_names_project_revision_recipient_and_its_number(readers):
    for name, reader in readers.items():
        count = len(reader.pages)
        for n, page in enumerate(reader.pages, 1):
            text = page.extract_text()
            assert f"page {n} of {count}" in text, (name, n)
            assert "revision P2 of 2026-11-20" in text, (name, n)
            assert "for owner" in text, (name, n)
            assert "Sample gooseneck" in text, (name, n)


def test_no_clock_in_the_file(readers):
    for reader in readers.values():
        assert reader.metadata.creation_date is None
        assert reader.metadata.modification_date is None


def test_paper_follows_the_units(readers):
    # ISO 216 and ANSI Y14.1: A4 210 x 297 mm, Letter 8.5 x 11 in.
    box = readers["4-safety-checklist"].pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((612.0, 792.0), abs=0.5)
    made = composed(packet_sample.desk("si"), "si")["4-safety-checklist"]
    box = PdfReader(io.BytesIO(render_pdf(made))).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((595.3, 841.9), abs=0.5)


def test_sheets_keep_their_own_paper(readers):
    pages = readers["2-drawings"].pages
    sizes = [(round(float(p.mediabox.width)), round(float(p.mediabox.height))) for p in pages]
    drawn = sum(not s.tells_money for s in sheets_for(packet_sample.desk()))
    assert (1224, 792) in {(round(float(p.mediabox.width)), round(float(p.mediabox.height)))
                           for p in readers["5-budget"].pages}, "the sheet of money stands with the budget"
    assert sizes.count((1224, 792)) == drawn  # 17 x 11 in
    assert sizes[1 : 1 + drawn] == [(1224, 792)] * drawn


def test_sheets_have_words_for_what_they_show(readers):
    def figures(node):
        for kid in kids(node):
            if kid.get("/S") == "/Figure":
                yield kid
            yield from figures(kid)

    found = list(figures(readers["2-drawings"].trailer["/Root"]["/StructTreeRoot"]))
    assert len(found) == sum(not s.tells_money for s in sheets_for(packet_sample.desk()))
    assert all(len(str(f["/Alt"])) > 20 for f in found)


def test_the_form_can_be_filled_and_every_field_speaks(readers):
    fields = readers["1-reply-form"].get_fields()
    asked = packet_sample.desk().get(Request).reply
    assert len(asked) == 28
    assert len(fields) == 4 + sum(len(BOXES[row.kind]) for row in asked) + 3
    for page in readers["1-reply-form"].pages:
        for note in page.get("/Annots", []):
            note = note.get_object()
            if note.get("/Subtype") == "/Widget":
                assert len(str(note.get("/TU", ""))) >= 3, note.get("/T")
    offered = fields["r1-offered"]
    assert "/Ch" in str(offered.get("/FT"))
    assert not any(f.get_fields() for name, f in readers.items() if name != "1-reply-form")


def test_the_decision_sheet_is_one_page_whatever_stands_in_it(readers):
    assert len(readers["0-decision-sheet"].pages) == 1
    for system, paper in (("us", packet_sample.hostile()), ("si", packet_sample.hostile())):
        made = compose(assemble(paper, (), Show(system, "USD")))[0]
        assert made.name == "0-decision-sheet"
        assert len(PdfReader(io.BytesIO(render_pdf(made))).pages) == 1
    si = composed(packet_sample.desk("si"), "si")["0-decision-sheet"]
    assert len(PdfReader(io.BytesIO(render_pdf(si))).pages) == 1


def test_hostile_text_is_printed_as_text():
    made = {c.name: c for c in compose(assemble(packet_sample.hostile(), (), Show("us", "USD")))}
    text = "".join(p.extract_text() for p in PdfReader(io.BytesIO(render_pdf(made["8-notes"]))).pages)
    assert "<script>alert(1)</script> {{ 7*7 }} {% raw %}" in text.replace("\n", " ")
    assert "javascript:alert(1)" in text.replace("\n", "")
    reader = PdfReader(io.BytesIO(render_pdf(made["8-notes"])))
    assert all(n.get_object().get("/Subtype") != "/Link" for p in reader.pages for n in p.get("/Annots", []))


def test_two_processes_with_other_hash_seeds_make_equal_bytes():
    code = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1])\n"
        "import packet_sample\n"
        "from generator.document.documents import assemble, compose\n"
        "from generator.document.pdf import render_pdf\n"
        "from generator.draw.sheets import sheets_for\n"
        "from generator.units import Show\n"
        "d = packet_sample.desk()\n"
        "made = {c.name: c for c in compose(assemble(d, sheets_for(d), Show('us', 'USD')))}\n"
        "for n in ('0-decision-sheet', '1-reply-form', '2-drawings', '5-budget'):\n"
        "    print(hashlib.sha256(render_pdf(made[n])).hexdigest())\n"
    )
    outputs = [
        subprocess.run(
            [sys.executable, "-c", code, str(HERE)],
            capture_output=True,
            text=True,
            check=True,
            cwd=HERE.parent.parent,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]
    assert outputs[0] == outputs[1]
    assert len(set(outputs[0].split())) == 4
    assert all(len(h) == len(hashlib.sha256().hexdigest()) for h in outputs[0].split())


@pytest.mark.parametrize(
    ("bad", "said"),
    [
        ('<img src="http://127.0.0.1:9/x.png" alt="x">', "not part of this document"),
        ('<img src="file:///etc/hostname" alt="x">', "not part of this document"),
        ('<a href="#nowhere">x</a>', "nowhere"),
        ("<p>\u6f22</p>", "U+6F22"),
    ],
)
def test_what_the_engine_only_logs_is_a_fault_here(documents, bad, said):
    held = documents["8-notes"]
    broken = Composed(
        held.number, held.name, held.title, held.html.replace("</body>", bad + "</body>"), held.files, held.kind
    )
    with pytest.raises(RenderError, match="8-notes") as fault:
        render_pdf(broken)
    assert said in str(fault.value)
