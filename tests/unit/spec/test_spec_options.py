"""Options: changes applied to a copy of the spec, and their faults told where they were written."""

from pathlib import Path

import pytest
from spec_folder import faults, write

from generator.spec.models.options import Moved
from generator.spec.read import read_spec

HEAD = "title: Another trailer\nwhy: To see what it does.\n"
TYRES = HEAD + "replace:\n  trailer.running_gear.tyre.load: 4500 lb\n"


def test_an_option_is_the_spec_with_its_changes(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path, {"options/tyres.yaml": TYRES}))
    (option,) = spec.options
    assert (option.id, option.title, option.to_shop) == ("tyres", "Another trailer", "")
    assert option.spec.trailer.running_gear.tyre.load.nominal == pytest.approx(4500 * 0.45359237)
    assert option.spec.trailer.running_gear.tyre.load.origin == "options/tyres.yaml:4"
    assert option.spec.house == spec.house
    assert spec.trailer.running_gear.tyre.load.nominal != option.spec.trailer.running_gear.tyre.load.nominal
    assert option.moved == (Moved("trailer.running_gear.tyre.load", spec.trailer.running_gear.tyre.load.text,
                                  "4500 lb"),)


def test_entries_leave_and_join_a_list(tmp_path: Path) -> None:
    base = read_spec(write(tmp_path / "base"))
    gone = base.weights.items[0].id
    text = HEAD + f"remove:\n  - weights.items.{gone}\nadd:\n  house.roof_points:\n" + (
        "    - {id: mast, title: Mast, station: 10 ft, height: 9 ft}\n")
    (option,) = read_spec(write(tmp_path / "with", {"options/mast.yaml": text})).options
    assert gone not in {i.id for i in option.spec.weights.items}
    assert [p.id for p in option.spec.house.roof_points] == [*(p.id for p in base.house.roof_points), "mast"]
    assert (option.moved[0].path, option.moved[0].now) == ("house.roof_points.mast", "Mast")
    assert option.moved[1] == Moved(f"weights.items.{gone}", base.weights.items[0].title, "")


@pytest.mark.parametrize(("body", "told"), [
    ("replace:\n  trailer.running_gear.tire.load: 4500 lb\n",
     "options/x.yaml:4: replace.trailer.running_gear.tire.load: `tire` is not there; did you mean `tyre`?"),
    ("remove:\n  - weights.items.grand-piano\n",
     "options/x.yaml:4: remove.weights.items.grand-piano: `grand-piano` is not there; names there:"),
    ("replace:\n  trailer.running_gear.tyre.load: 4500\n",
     "options/x.yaml:4: replace.trailer.running_gear.tyre.load: `4500` has no unit"),
    ("replace:\n  trailer.deck: on the roof\n", "options/x.yaml:4: replace.trailer.deck: `on the roof` is"),
    ("add:\n  trailer.deck:\n    - two\n", "options/x.yaml:4: add.trailer.deck: not a list; add to a list"),
    ("replace:\n  revisions.revisions: none\n", "options/x.yaml:4: replace.revisions.revisions"),
    ("replace:\n  trailer.running_gear.tyre.weight: 40 lb\n",
     "options/x.yaml:4: replace.trailer.running_gear.tyre.weight: key `weight` is not known"),
    ("remove:\n  - trailer.chains\n", "options/x.yaml:1: with these changes trailer.chains: missing"),
    ("replace:\n  trailer.coupling.station: 300 in\n",
     "options/x.yaml:1: with these changes trailer.running_gear.station: the first axle stands at or ahead"),
])
def test_a_fault_of_an_option_is_told_where_it_was_written(tmp_path: Path, body: str, told: str) -> None:
    found = faults(tmp_path, {"options/x.yaml": HEAD + body})
    assert len(found) == 1
    assert found[0].startswith(told)


def test_options_wait_until_the_design_itself_reads(tmp_path: Path) -> None:
    found = faults(tmp_path, {"options/x.yaml": TYRES, "weights.yaml": "items: none\n"})
    assert found
    assert not any(f.startswith("options/") for f in found)


def moved(folder: Path, body: str) -> tuple[Moved, ...]:
    (option,) = read_spec(write(folder, {"options/x.yaml": HEAD + body})).options
    return option.moved


def test_a_text_that_leaves_a_list_is_the_only_one_told(tmp_path: Path) -> None:
    """The second of the texts goes; those behind it stay what they were."""
    texts = read_spec(write(tmp_path / "base")).project.request.excluded
    assert len(texts) > 2
    told = moved(tmp_path / "with", "remove:\n  - project.request.excluded.2\n")
    assert told == (Moved("project.request.excluded.2", texts[1], ""),)
    told = moved(tmp_path / "new", "add:\n  project.request.excluded:\n    - A flag of many colours\n")
    assert told == (Moved(f"project.request.excluded.{len(texts) + 1}", "", "A flag of many colours"),)


def test_a_list_of_stations_is_told_whole(tmp_path: Path) -> None:
    tree = read_spec(write(tmp_path / "base")).trailer.frame.members
    member = next(m for m in tree if len(m.stations) > 1)
    path = f"trailer.frame.members.{member.mark}.stations"
    (told,) = moved(tmp_path / "with", f"replace:\n  {path}: [11 in, 22 in]\n")
    assert (told.path, told.now) == (path, "11 in, 22 in")
    assert told.was.count(",") == len(member.stations) - 1

