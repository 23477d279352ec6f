"""Nothing of the owner's own reaches anybody else: not in slices, results.json, pages, tables, PDFs or their data."""

import html
import io
import re
from dataclasses import asdict
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader
from release_canary import Marker, marked, texts
from release_sample import HERON, data

from generator.calc.run import calculate
from generator.document.documents import Packet, assemble, compose, reply_csv
from generator.document.page import site
from generator.document.pdf import render_pdf
from generator.draw.sheets import drawn
from generator.model.resolve import resolve
from generator.release.cut import cut, results_json
from generator.release.grants import RECIPIENTS
from generator.release.slices import Desk
from generator.spec.read import read_spec
from generator.units import Show

COVER = ("project.id", "project.title", "project.summary", "project.roles.owner", "project.roles.designer",
         "revisions.revisions.label")
"""Stands on every document of everybody."""
PARTS = ("trailer.frame.members.", "trailer.jacks.", "trailer.low_points.", "trailer.stands.", "trailer.points.")
OUTLINE = ("trailer.jacks.", "trailer.stands.", "trailer.points.")
"""Names on an outline: a member has no name there."""
HITCHED = ("trailer.chains.", "trailer.wiring.connector", "trailer.running_gear.")
TECHNICAL = ("revisions.revisions.technical", "revisions.revisions.date")
"""What shop, official and engineer read of a revision."""
GRANTED = {
    "fabricator": (*COVER, *TECHNICAL, "project.roles.questions_to", "project.request.", "trailer.",
                   "house.notes"),
    "official": (*COVER, *TECHNICAL, *PARTS, *HITCHED, "trailer.wiring.", "house.zones.", "house.roof_points.",
                 "house.lofts.", "house.climbs.", "house.drains.", "house.openings.", "site.",
                 "project.confirmations."),
    "insurer": (*COVER, *OUTLINE, "trailer.welding.", "project.roles.tows", "project.insurance.",
                "project.confirmations."),
    "haulier": (*COVER, *PARTS, *HITCHED),
    "engineer": (*COVER, *TECHNICAL, *PARTS, "trailer.running_gear.", "trailer.welding."),
}
"""Where the words in a recipient's packet may come from; all else is the owner's."""
OTHERS = tuple(to for to in RECIPIENTS if to != "owner")
MONEY = {"insurer": {"project.insurance.replacement_value"}}
"""The only sums of money anybody else is told, where the owner wrote them for that."""


@cache
def desks() -> tuple[dict[str, Desk], Marker]:
    """The desks of all recipients of a design full of tokens, calculated for real."""
    spec, marker = marked(read_spec(HERON))
    model = resolve(spec, data())
    results = calculate(model, data())
    return {to: cut(model, results, data(), to, "0123456789ab") for to in RECIPIENTS}, marker


@cache
def packet(to: str) -> Packet:
    """Documents and sheets of a recipient."""
    desk = desks()[0][to]
    sheets, lacking = drawn(desk)
    return assemble(desk, sheets, Show("us", "USD"), lacking)


@cache
def files(to: str) -> str:
    """The text of every file of a packet but its PDFs, and of what the PDFs are made from; names too."""
    made = packet(to)
    web = site(made) | reply_csv(made.desk)
    read = [f"{name}\n{body.decode('utf-8', 'ignore')}" for name, body in web.items() if not name.endswith(".woff")]
    printed = [f"{c.name}\n{c.title}\n{c.html}" for c in compose(made)]
    return html.unescape("\n".join([*read, *printed, results_json(made.desk)]))


@cache
def printed(to: str) -> str:
    """The text of the small PDFs of a packet, their metadata, bookmarks and names of attachments."""
    found = []
    for c in compose(packet(to)):
        if c.number >= 8 or c.number == 4:
            reader = PdfReader(io.BytesIO(render_pdf(c)))
            found += [page.extract_text() for page in reader.pages]
            found += [str(reader.metadata), str(reader.xmp_metadata and reader.xmp_metadata.dc_title)]
            found += [*reader.attachments, str(reader.outline)]
    return "\n".join(found)


def granted(to: str, path: str) -> bool:
    if path.startswith("notes."):
        return to in path
    return not path.startswith("origin:") and path.startswith(GRANTED[to])


def leaked(to: str, got: str) -> dict[str, list[str]]:
    paths = desks()[1].paths
    return {t: sorted(p) for t, p in paths.items() if t in got and not any(granted(to, one) for one in p)}


def sums_in(got: str) -> set[str]:
    plain = re.sub(r"[,\u202f\u00a0]", "", got)
    return {path for path, amount in desks()[1].amounts.items() if f"{amount:f}" in plain}


def test_the_walk_reaches_every_file_of_the_spec() -> None:
    _, marker = desks()
    reached = {re.split(r"[.:]", path.removeprefix("origin:"))[0] for paths in marker.paths.values() for path in paths}
    assert reached - {"quotes", "tickets", "asbuilt"} == {
        "project", "trailer", "house", "weights", "tow", "site", "costs", "revisions", "notes"}
    assert ("quotes" in reached) == bool(read_spec(HERON).quotes)
    assert len(marker.tokens) > 500
    assert len(marker.amounts) >= 3
    assert "project.insurance.replacement_value" in marker.amounts


def test_the_owner_gets_their_own_words_back() -> None:
    """The tokens do travel: otherwise the next tests could not fail."""
    got = "\n".join(texts(desks()[0]["owner"]))
    for kind in ("costs.lines.title", "weights.items.title", "project.roles.owner", "trailer.frame.members.title",
                 "project.insurance.heater", "trailer.wiring.connector"):
        tokens = [t for t, paths in desks()[1].paths.items() if kind in paths]
        assert any(t in got for t in tokens), kind


@pytest.mark.parametrize("to", OTHERS)
def test_no_withheld_word_reaches_anybody_else(to: str) -> None:
    desk = desks()[0][to]
    assert leaked(to, "\n".join(texts(desk))) == {}
    assert leaked(to, results_json(desk)) == {}


@pytest.mark.parametrize("to", OTHERS)
def test_no_withheld_word_stands_in_a_file(to: str) -> None:
    assert leaked(to, files(to)) == {}


@pytest.mark.parametrize("to", ["insurer", "haulier", "engineer"])
def test_no_withheld_word_stands_in_a_pdf(to: str) -> None:
    got = printed(to)
    assert len(got) > 3000
    assert leaked(to, got) == {}
    assert sums_in(got) == MONEY.get(to, set())


@pytest.mark.parametrize(("to", "path"), [
    ("haulier", "trailer.wiring.connector"), ("haulier", "trailer.chains.breakaway"),
    ("insurer", "project.insurance.heater"), ("insurer", "project.roles.tows"), ("engineer", "trailer.welding.code"),
    ("official", "house.zones.title"),
])
def test_what_is_declared_does_arrive(to: str, path: str) -> None:
    """A grant that carries nothing would make the search for leaks look better than it is."""
    assert any(path in paths and token in files(to) for token, paths in desks()[1].paths.items())


@pytest.mark.parametrize("to", OTHERS)
def test_no_sum_of_money_reaches_anybody_else(to: str) -> None:
    desk = desks()[0][to]
    assert sums_in(repr(asdict(desk)) + files(to)) == MONEY.get(to, set())
    assert "Decimal" not in repr(asdict(desk))


def test_amounts_are_found_where_they_are_allowed() -> None:
    """The search for money can fail."""
    assert "Decimal" in repr(asdict(desks()[0]["owner"]))
    assert any(isinstance(a, Decimal) for a in desks()[1].amounts.values())
    assert len(sums_in(files("owner"))) >= 4


def test_the_route_and_the_use_of_the_house_stay_with_the_owner() -> None:
    """Regions, their names and the law they cite, the use class, cranking in a year, the owner's margin of height."""
    regions = [data().regions[code] for code in read_spec(HERON).project.use.regions]
    words = [*(r.code for r in regions), *(r.title for r in regions), *(data().cite(r.source) for r in regions),
             "use class", "in a year", "height limit of the route", "regions of the route", "Margin kept", "reserve of"]
    shops, owners = (set(texts(desks()[0][to])) for to in ("fabricator", "owner"))
    assert [w for w in words if any(re.search(rf"(?<!\w){re.escape(w)}(?!\w)", t, re.IGNORECASE) for t in shops)] == []
    assert [w for w in ("use class D", regions[0].code) if not any(w in t for t in owners)] == []


@pytest.mark.parametrize("to", OTHERS)
def test_no_file_of_the_spec_is_named_to_anybody_else(to: str) -> None:
    got = "\n".join(texts(desks()[0][to])) + files(to)
    assert re.findall(r"[\w/-]+\.(?:yaml|md)\b", got) == []
    assert f"{Path.home()}/" not in got
