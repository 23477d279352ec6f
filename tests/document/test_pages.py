"""The pages for the screen, parsed: no script, only our elements, unique ids, links that resolve, nothing outside."""

import re
import sys
from dataclasses import dataclass
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import packet_sample

from generator.document.documents import assemble, compose, reply_csv
from generator.document.page import site
from generator.draw.sheets import sheets_for
from generator.units import Show

SHOW = Show("us", "USD")
KNOWN = set(
    [
        "html",
        "head",
        "meta",
        "title",
        "link",
        "body",
        "header",
        "nav",
        "main",
        "section",
        "div",
        "p",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "ul",
        "ol",
        "li",
        "a",
        "img",
        "br",
        "table",
        "caption",
        "colgroup",
        "col",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "strong",
        "em",
        "i",
        "sub",
        "sup",
        "span",
        "details",
        "summary",
        "blockquote",
        "code",
        "pre",
        "hr",
    ]
)


class Seen(HTMLParser):
    """Everything a page holds: elements, ids, links, text."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.ids: list[str] = []
        self.targets: list[str] = []
        self.text: list[str] = []
        self.heads: list[str] = []
        self.open: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        if tag not in ("meta", "link", "img", "br", "col", "hr"):
            self.open.append(tag)
        if re.fullmatch(r"h[1-6]", tag):
            self.heads.append(tag)
        for name, value in attrs:
            self.attributes.add(name)
            if name == "id":
                self.ids.append(value)
            if name in ("href", "src"):
                self.targets.append(value)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


def seen(data: bytes) -> Seen:
    found = Seen()
    found.feed(data.decode())
    found.close()
    assert found.open == []
    return found


def packet(desk) -> dict[str, bytes]:
    made = assemble(desk, sheets_for(desk), SHOW)
    return {
        "results.json": b"{}",
        **site(made),
        **reply_csv(desk),
        **{f"{c.name}.pdf": b"" for c in compose(made)},
    }


@pytest.fixture(scope="module", params=["desk", "fabricator", "hostile"])
def files(request) -> dict[str, bytes]:
    return packet(getattr(packet_sample, request.param)())


def pages(files):
    return {name: seen(data) for name, data in files.items() if name.endswith(".html")}


def test_only_elements_of_ours_and_no_handlers(files):
    for name, page in pages(files).items():
        assert page.tags <= KNOWN, (name, page.tags - KNOWN)
        assert not [a for a in page.attributes if a.startswith("on")], name


def test_ids_are_unique(files):
    for name, page in pages(files).items():
        assert len(page.ids) == len(set(page.ids)), name


def test_every_link_resolves_inside_the_folder(files):
    held = pages(files)
    for name, page in held.items():
        for target in page.targets:
            file, _, fragment = target.partition("#")
            assert (file or name) in files, (name, target)
            if fragment:
                assert fragment in held[file or name].ids, (name, target)


def test_headings_skip_no_level(files):
    for name, page in pages(files).items():
        levels = [int(h[1]) for h in page.heads]
        assert levels[0] == 1, name
        assert levels.count(1) == 1, name
        assert all(b - a <= 1 for a, b in pairwise(levels)), (name, levels)


def test_style_and_pictures_reach_nothing_outside(files):
    for name, data in files.items():
        if name.endswith((".css", ".svg")):
            for target in re.findall(r"(?:url\(|href=\")([^)\"]+)", data.decode()):
                assert target.startswith(("data:font/woff;base64,", "#")) or target in files, (name, target)


def test_every_page_says_whose_it_is():
    for name, page in pages(packet(packet_sample.desk())).items():
        text = " ".join(page.text)
        for said in ("Sample gooseneck, 27 ft", "revision P2 of 2026-11-20", "for owner", "Preliminary sizing aid"):
            assert said in text, (name, said)


def test_hostile_text_stays_text():
    page = pages(packet(packet_sample.hostile()))["8-notes.html"]
    assert packet_sample.HOSTILE.replace('"', "").split("{%")[0] in "".join(page.text).replace('"', "")
    assert not any(t.startswith("javascript:") for t in page.targets)
    assert "{{ 7*7 }}" in "".join(page.text)


def test_a_shop_gets_what_its_slices_give():
    files = packet(packet_sample.fabricator())
    assert sorted(n for n in files if n.endswith(".pdf")) == [
        "1-fabrication-request.pdf",
        "1-reply-form.pdf",
        "2-drawings.pdf",
        "3-load-summary.pdf",
        "4-safety-checklist.pdf",
        "8-notes.pdf",
    ]
    text = b"".join(v for n, v in files.items() if n.endswith(".html")).decode()
    for secret in ("Budget", "Take-off", "Even chance", "$"):
        assert secret not in text, secret


def test_us_projects_print_tire_but_ids_stay():
    page = pages(packet(packet_sample.desk()))["3-load-summary.html"]
    text = " ".join(page.text)
    assert "Tires of axle 1 carry its rating" in text
    assert "tyre.1.axle_rating" in text
    assert "check-tyre.1.axle_rating" in page.ids


def test_si_projects_print_tyre():
    desk = packet_sample.desk("si")
    made = site(assemble(desk, (), Show("si", "USD")))
    assert "Tyres of axle 1 carry its rating" in made["3-load-summary.html"].decode()


def test_a_check_folds_its_working_only(files):
    page = files.get("3-load-summary.html", b"").decode()
    blocks = page.split('<div class="check ')[1:]
    assert blocks
    for block in blocks:
        before, _, folded = block.partition("<details>")
        assert 'class="verdict' in before
        assert "Source" in folded


def test_without_pdfs_the_index_names_none():
    desk = packet_sample.desk()
    made = site(assemble(desk, (), SHOW), with_pdf=False)
    assert ".pdf" not in made["index.html"].decode()
    assert "1-reply-form.csv" in made["index.html"].decode()


@dataclass(frozen=True)
class Lacking:
    number: str
    title: str
    reason: str


def test_sheets_that_cannot_be_drawn_are_listed_with_the_reason():
    desk = packet_sample.desk()
    lacking = (Lacking("L9", "Wind", "the wind is unknown"),)
    page = seen(site(assemble(desk, sheets_for(desk), SHOW, lacking))["2-drawings.html"])
    text = " ".join(page.text)
    assert "Sheets not drawn" in text
    assert "the wind is unknown" in text
    alone = site(assemble(desk, (), SHOW, lacking))
    assert "the wind is unknown" in alone["2-drawings.html"].decode()
    assert "2-drawings.html" not in site(assemble(desk, (), SHOW))


def test_pictures_are_written_once_and_are_the_same_in_pdf_and_page():
    desk = packet_sample.desk()
    made = assemble(desk, sheets_for(desk), SHOW)
    held = {name: data for c in compose(made) for name, data in c.files.items() if name.endswith(".svg")}
    assert held.keys() == made.pictures.keys()
    assert all(data is made.pictures[name] for name, data in held.items())
    pages = site(made)
    for name, data in held.items():
        assert re.sub(rb"<style>@font-face.*?</style>", b"", pages[name], flags=re.DOTALL) == data


def test_the_codes_of_assumptions_are_those_of_the_register(files):
    page = files.get("3-load-summary.html", b"").decode()
    listed = re.findall(r">A(\d+)<", page)
    assert [int(n) for n in listed] == list(range(1, len(listed) + 1))
    used = {int(n) for line in re.findall(r"Rests on <a[^>]*>([^<]*)", page) for n in re.findall(r"A(\d+)", line)}
    assert used <= {int(n) for n in listed}
