"""Mistakes about law and use at the command line: two paths, a path or a region nobody knows, moves said twice."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

WREN = Path(__file__).resolve().parents[2] / "specs" / "wren"


def run(spec: Path, *words: str) -> subprocess.CompletedProcess[str]:
    done = subprocess.run([sys.executable, "-m", "generator", *words], capture_output=True, text=True, cwd=spec,
                          check=False)
    assert "Traceback" not in done.stderr + done.stdout
    return done


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    return Path(shutil.copytree(WREN, tmp_path / "wren", ignore=shutil.ignore_patterns("options", "quotes")))


def change(spec: Path, pattern: str, replacement: str) -> None:
    file = spec / "project.yaml"
    text, count = re.subn(pattern, replacement, file.read_text(), count=1, flags=re.MULTILINE)
    assert count == 1
    file.write_text(text)


PATH = r"^legal_path: .*$"
ALLOWED = "rv, park_model, manufactured, foundation_dwelling, caravan, vehicle"


@pytest.mark.parametrize(("pattern", "replacement", "said"), [
    (PATH, "legal_path: rv\nlegal_path: park_model", ("legal_path", "each key once")),
    (PATH, "legal_path: [rv, park_model]", ("`a list` is not a choice here", ALLOWED)),
    (PATH, "legal_path: rv and park_model", ("`rv and park_model` is not a choice here", ALLOWED)),
    (PATH, "legal_path: houseboat", ("`houseboat` is not a choice here", ALLOWED)),
    (r"^  moves: once$", "  moves: twice", ("use.moves", "`twice`", "once")),
    (r"^  moves: once$", "  moves: once\n  moves_a_year: 3", ("use.moves", "stands beside", "moves: once")),
    (r"^  moves: once\n", "", ("use", "how often it is moved is missing", "moves: once")),
    (r"^  moves: once$", "  moves_a_year: 0", ("no move, yet 140 mi towed", "moves: once")),
])
def test_a_contradiction_in_the_file_is_a_fault_with_what_is_allowed(
    spec: Path, pattern: str, replacement: str, said: tuple[str, ...]
) -> None:
    change(spec, pattern, replacement)
    done = run(spec, "check", str(spec))
    assert done.returncode == 2
    assert all(words in done.stderr for words in said), done.stderr


@pytest.mark.parametrize("code", ["US-ZZ", "US", "EU-DE", "Atlantis"])
def test_a_region_no_table_holds_is_not_assessed_with_what_is_held(spec: Path, code: str) -> None:
    change(spec, r"regions: .*$", f"regions: [US-NY, {code}]")
    done = run(spec, "explain", "rule.regions", str(spec))
    assert done.returncode in (0, 3), done.stderr
    assert "not assessed" in done.stdout.lower()
    for words in (f"not in the tables: {code}", "EU, NZ, UK", "US-OR"):
        assert words in done.stdout


def test_a_path_of_other_law_is_not_assessed_with_the_paths_of_the_route(spec: Path) -> None:
    change(spec, PATH, "legal_path: park_model")
    change(spec, r"regions: .*$", "regions: [NZ]")
    done = run(spec, "explain", "rule.path", str(spec))
    assert "no claim of `park_model` is held for New Zealand" in done.stdout
    assert "foundation_dwelling, caravan, vehicle" in done.stdout
