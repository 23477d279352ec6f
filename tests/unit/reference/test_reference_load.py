"""The reference tables read, and what happens when one of them is damaged."""

import shutil
from pathlib import Path

import pytest

from generator.errors import DataError
from generator.reference import load
from generator.reference.load import prompts, reference


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the reference folder that a test may damage."""
    copy = tmp_path / "reference"
    shutil.copytree(load.FOLDER, copy, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(load, "FOLDER", copy)
    return copy


def damage(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_all_tables_have_rows() -> None:
    data = reference()
    assert all((data.sources, data.defaults, data.materials, data.sections, data.regions))
    assert len(data.regions) == 51 + 10  # 50 states and the District of Columbia, and ten codes elsewhere


def test_a_row_that_is_not_there_names_its_table() -> None:
    with pytest.raises(DataError, match=r"^reference/materials.csv: no row 'unobtainium'$"):
        reference().materials["unobtainium"]


def test_asking_whether_a_row_is_there_raises_nothing() -> None:
    assert "unobtainium" not in reference().materials
    assert reference().materials.get("unobtainium") is None


@pytest.mark.parametrize(("file", "old", "new", "said"), [
    ("materials.csv", "granite,Granite,", "granite,Granite", r"materials.csv:\d+: 5 fields, the head has 6"),
    ("materials.csv", ",157,lb/ft3", ",heavy,lb/ft3", r"materials.csv:\d+: could not convert .*heavy"),
    ("materials.csv", ",157,lb/ft3", ",nan,lb/ft3", r"materials.csv:\d+: stated must be a finite number"),
    ("materials.csv", ",157,lb/ft3", ",157,stone", r"materials.csv:\d+: no column 'stone'"),
    ("materials.csv", "concrete,", "copper,", r"materials.csv:\d+: 'copper' stands here twice"),
    ("materials.csv", "id,title", "name,title", r"materials.csv:2: no column 'id'"),
    ("sections.csv", "C3x4.1,C,", "C3x4.1,T,", r"sections.csv:\d+: shape 'T' is not known"),
    ("defaults.csv", ",practice,practice,", ",practice,rumour,", r"defaults.csv:2: confidence 'rumour' is not one of"),
    ("defaults.csv", ",1,1,0.8,1.2,", ",1,1,0.8,0.9,", r"torsion.stiffness_factor: low, value, high must stand in"),
    ("regions.csv", "AU,Australia,", "AU,,", r"regions.csv:2: title is empty"),
    ("sources.yaml", "practice: {", "practice: [", r"sources.yaml: "),
    ("sources.yaml", 'practice: {title: "common', 'practice: {name: "common', r"sources.yaml: practice: no column"),
])
def test_damage_is_named_with_file_and_row(folder: Path, file: str, old: str, new: str, said: str) -> None:
    damage(folder / file, old, new)
    with pytest.raises(DataError, match=said):
        reference()


@pytest.mark.parametrize("file", ["sources.yaml", "defaults.csv", "materials.csv", "sections.csv", "regions.csv"])
def test_a_missing_table_is_named(folder: Path, file: str) -> None:
    (folder / file).unlink()
    with pytest.raises(DataError, match=f"reference/{file}: cannot be read"):
        reference()


def test_bytes_that_are_not_text_are_named(folder: Path) -> None:
    (folder / "regions.csv").write_bytes(b"code,\xff\xfe")
    with pytest.raises(DataError, match=r"reference/regions.csv: cannot be read"):
        reference()


def test_an_empty_table_is_empty_not_a_crash(folder: Path) -> None:
    (folder / "regions.csv").write_text("", encoding="utf-8")
    assert reference().regions == {}


def test_defaults_of_every_topic_file_are_read_in_order(folder: Path) -> None:
    (folder / "defaults.d" / "zz.csv").write_text(
        "id,value,unit,low,high,statement,source,confidence,if_wrong\nzz.one,1,1,,,One,practice,practice,Nothing\n",
        encoding="utf-8")
    row = reference().defaults["zz.one"]
    assert (row.value, row.low, row.high) == (1.0, 1.0, 1.0)


def test_a_default_that_stands_in_two_files_is_refused(folder: Path) -> None:
    shutil.copy(folder / "defaults.csv", folder / "defaults.d" / "again.csv")
    with pytest.raises(DataError, match=r"defaults.d/again.csv:2: 'height.margin' stands here twice"):
        reference()


def test_prompts_come_in_the_order_of_their_file() -> None:
    ids = [p.id for p in prompts()]
    assert ids[0] == "sales-tax"
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(("old", "new", "said"), [
    ("id: sales-tax, ", "", r"prompts.yaml: row 1: .*id"),
    ("typical: ask the office that registers trailers", "typical: 7", r"prompts.yaml: row 2: every field must be text"),
    ("id: origin-papers", "id: sales-tax", r"prompts.yaml: sales-tax: 'sales-tax' stands here twice"),
])
def test_a_damaged_prompt_is_named(folder: Path, old: str, new: str, said: str) -> None:
    damage(folder / "prompts.yaml", old, new)
    with pytest.raises(DataError, match=said):
        prompts()


def test_a_source_is_cited_by_title_and_edition_and_free_text_stays() -> None:
    data = reference()
    assert data.cite("aisc-v16") == "AISC shapes database, v16.0"
    assert data.cite("practice") == "common practice, no source"
    assert data.cite("the maker's letter") == "the maker's letter"
