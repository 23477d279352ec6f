"""Every row of the reference tables says where it comes from, and none lies about unused."""

import re
from pathlib import Path

import pytest

from generator.reference import load
from generator.reference.content import criticals, tolerances
from generator.reference.lamps import circuits, lamp_rules
from generator.reference.load import prompts, reference
from generator.reference.rules import rules
from generator.units import DISPLAY

DATA = reference()
ROWS = [
    *((f"default {r.id}", r.source, r.confidence) for r in DATA.defaults.values()),
    *((f"material {r.id}", r.source, r.confidence) for r in DATA.materials.values()),
    *((f"section {r.name}", r.source, r.confidence) for r in DATA.sections.values()),
    *((f"region {r.code}", r.source, r.confidence) for r in DATA.regions.values()),
    *((f"tolerance {r.over}", r.source, r.confidence) for r in tolerances()),
    *((f"critical {r.id}", r.source, r.confidence) for r in criticals()),
    *((f"lamp {r.id}", r.source, r.confidence) for r in lamp_rules()),
    *((f"circuit {r.id}", r.source, r.confidence) for r in circuits()),
    *((f"rule {r.id}", r.source, r.confidence) for r in rules()),
]
GENERATOR = Path(load.__file__).parents[1]


def test_every_row_names_a_source_that_exists() -> None:
    assert [what for what, source, _ in ROWS if source not in DATA.sources] == []


def test_every_source_is_used() -> None:
    assert sorted(set(DATA.sources) - {source for _, source, _ in ROWS}) == []


def test_what_is_from_memory_is_marked_memory() -> None:
    """READ beats memory: a source that is itself memory never carries a row called read."""
    remembered = {id for id, s in DATA.sources.items() if s.id == "memory"}
    assert [what for what, source, sure in ROWS if source in remembered and sure != "memory"] == []


def test_common_practice_is_called_so() -> None:
    wrong = [what for what, source, sure in ROWS if source == "practice" and sure not in ("practice", "computed")]
    assert wrong == []


def test_units_of_defaults_can_be_shown() -> None:
    assert [d.id for d in DATA.defaults.values() if d.unit not in DISPLAY] == []


def test_ids_keep_their_patterns() -> None:
    kebab = re.compile(r"[a-z][a-z0-9-]{0,39}")
    assert [m for m in DATA.materials if not kebab.fullmatch(m)] == []
    assert [p.id for p in prompts() if not kebab.fullmatch(p.id)] == []
    assert [d for d in DATA.defaults if not re.fullmatch(r"[a-z]+(\.[a-z0-9_-]+)+", d)] == []


def test_every_default_is_used_by_the_code() -> None:
    """A row nobody reads is a promise nobody keeps. Ids put together in code are known by their stem."""
    code = "\n".join(p.read_text(encoding="utf-8") for p in GENERATOR.rglob("*.py"))
    built = ("use.", "tyre.reserve_", "mass.unlisted_", "mass.spread_", "density.", "rating.step_", "frame.yield.",
             "ball.", "dwelling.")
    assert [d for d in DATA.defaults if f'"{d}"' not in code and f"'{d}'" not in code and not d.startswith(built)] == []


@pytest.mark.parametrize("path", sorted(load.FOLDER.rglob("*.*ml")) + sorted(load.FOLDER.rglob("*.csv")),
                         ids=lambda p: p.name)
def test_tables_speak_no_paths_and_british_english(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"/work|/tmp|\bTODO\b|\bequalizer|\bcolor\b|\btire\b|\bgray\b", text)
