"""The units table: complete, cited, and refused when damaged."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.errors import DataError
from generator.units import KINDS, names, parse, table, units


@pytest.fixture
def other_table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A table of our own in place of the packaged one."""
    path = tmp_path / "units.csv"
    monkeypatch.setattr(table, "TABLE", path)
    units.cache_clear()
    yield path
    units.cache_clear()


HEAD = "unit,kinds,factor,also,source\n"


@pytest.mark.parametrize(
    "text",
    [
        None,
        HEAD + "lb,mass,0.45359237,,\n",
        HEAD + "lb,weight,0.45359237,,a source\n",
        HEAD + "lb,mass,a lot,,a source\n",
        HEAD + "lb,mass\n",
        "unit,kinds\nlb,mass\n",
        HEAD + "lb,mass,1/0,,a source\n",
    ],
)
def test_a_damaged_table_is_named(other_table: Path, text: str | None) -> None:
    if text is not None:
        other_table.write_text(text, encoding="utf-8")
    with pytest.raises(DataError, match=r"^units\.csv: missing or damaged: "):
        units()


def test_every_kind_has_units_and_examples_that_read() -> None:
    for kind, about in KINDS.items():
        assert names(kind)
        for example in about.examples:
            assert about.low <= parse(example, kind) <= about.high


def test_every_unit_names_a_source() -> None:
    assert all(len(unit.source) > 10 for unit in units().values())


def test_no_spelling_stands_twice() -> None:
    rows = table.TABLE.read_text(encoding="utf-8").splitlines()[1:]
    spellings = [name for row in rows for name in (row.split(",")[0], *filter(None, row.split(",")[3].split("|")))]
    assert len(spellings) == len(set(spellings)) == len(units())
