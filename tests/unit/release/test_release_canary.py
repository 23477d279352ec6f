"""Nothing of the owner's own reaches a fabricator: not in their slices, not in their results.json."""

import re
from dataclasses import asdict
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from release_canary import Marker, marked, texts
from release_sample import HERON, data

from generator.calc.run import calculate
from generator.model.resolve import resolve
from generator.release.cut import cut, results_json
from generator.release.grants import RECIPIENTS
from generator.release.slices import Desk
from generator.spec.read import read_spec

GRANTED = (
    "project.id", "project.title", "project.summary", "project.roles.owner", "project.roles.designer",
    "project.roles.questions_to", "project.request.", "trailer.", "house.notes", "revisions.revisions.label",
    "notes.fabricator", "notes.owner+fabricator",
)
"""Where the words in a fabricator's packet may come from; all else is the owner's."""


@cache
def desks() -> tuple[dict[str, Desk], Marker]:
    """The desks of all recipients of a design full of tokens, calculated for real."""
    spec, marker = marked(read_spec(HERON))
    model = resolve(spec, data())
    results = calculate(model, data())
    return {to: cut(model, results, data(), to, "0123456789ab") for to in RECIPIENTS}, marker


def granted(path: str) -> bool:
    if path.startswith("notes."):
        return "fabricator" in path
    return not path.startswith("origin:") and path.startswith(GRANTED)


def test_the_walk_reaches_every_file_of_the_spec() -> None:
    _, marker = desks()
    reached = {re.split(r"[.:]", path.removeprefix("origin:"))[0] for paths in marker.paths.values() for path in paths}
    assert reached == {"project", "trailer", "house", "weights", "tow", "site", "costs", "revisions", "notes"}
    assert len(marker.tokens) > 500
    assert len(marker.amounts) >= 3


def test_the_owner_gets_their_own_words_back() -> None:
    """The tokens do travel: otherwise the next test could not fail."""
    got = "\n".join(texts(desks()[0]["owner"]))
    for kind in ("costs.lines.title", "weights.items.title", "project.roles.owner", "trailer.frame.members.title"):
        tokens = [t for t, paths in desks()[1].paths.items() if kind in paths]
        assert any(t in got for t in tokens), kind


@pytest.mark.parametrize("made", [lambda d: "\n".join(texts(d)), results_json], ids=["slices", "results.json"])
def test_no_withheld_word_reaches_the_fabricator(made: object) -> None:
    desk, marker = desks()[0]["fabricator"], desks()[1]
    assert callable(made)
    got = made(desk)
    leaked = {t: sorted(paths) for t, paths in marker.paths.items() if t in got and not any(granted(p) for p in paths)}
    assert leaked == {}


def test_no_sum_of_money_reaches_the_fabricator() -> None:
    desk, marker = desks()[0]["fabricator"], desks()[1]
    got = re.sub(r"[,\u202f\u00a0]", "", repr(asdict(desk)) + results_json(desk))
    assert [path for path, amount in marker.amounts.items() if f"{amount:f}" in got] == []
    assert "Decimal" not in repr(asdict(desk))


def test_amounts_are_found_where_they_are_allowed() -> None:
    """The search for money can fail."""
    assert "Decimal" in repr(asdict(desks()[0]["owner"]))
    assert any(isinstance(a, Decimal) for a in desks()[1].amounts.values())


def test_the_route_and_the_use_of_the_house_stay_with_the_owner() -> None:
    """Regions, their names and the law they cite, the use class, cranking in a year, the owner's margin of height."""
    regions = [data().regions[code] for code in read_spec(HERON).project.use.regions]
    words = [*(r.code for r in regions), *(r.title for r in regions), *(data().cite(r.source) for r in regions),
             "use class", "in a year", "height limit of the route", "regions of the route", "Margin kept", "reserve of"]
    shops, owners = (set(texts(desks()[0][to])) for to in ("fabricator", "owner"))
    assert [w for w in words if any(re.search(rf"(?<!\w){re.escape(w)}(?!\w)", t, re.IGNORECASE) for t in shops)] == []
    assert [w for w in ("use class D", regions[0].code) if not any(w in t for t in owners)] == []


def test_no_file_of_the_spec_is_named_to_the_fabricator() -> None:
    got = "\n".join(texts(desks()[0]["fabricator"]))
    assert re.findall(r"[\w/-]+\.(?:yaml|md)\b", got) == []
    assert f"{Path.home()}/" not in got
