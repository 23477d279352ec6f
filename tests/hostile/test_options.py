"""Options written wrong, through the command line: file and line, what is allowed, exit code 2, no traceback."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

WREN = Path(__file__).resolve().parents[2] / "specs" / "wren"
HEAD = "title: Another\nwhy: To see what it does.\n"
ITEM = ("    - {id: refrigerator, title: A second one, group: interior, stage: dry, mass: 20 lb, quantity: 1, "
        "basis: estimate, front: 10 in, rear: 20 in, y: 0 in, height: 8 in}\n")


def run(*words: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "generator", *map(str, words)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr + done.stdout
    return done


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    folder = Path(shutil.copytree(WREN, tmp_path / "wren"))
    shutil.rmtree(folder / "options")
    (folder / "options").mkdir()
    return folder


@pytest.mark.parametrize(("body", "told", "allowed"), [
    ("replace:\n  trailer.running_gear.tire.load: 4500 lb\n",
     "options/x.yaml:4: replace.trailer.running_gear.tire.load: `tire` is not there", "did you mean `tyre`?"),
    ("replace:\n  nothing.here: x\n",
     "options/x.yaml:4: replace.nothing.here: `nothing.here` may not stand here", "write a path of the spec"),
    ("remove:\n  - weights.items.grand-piano\n",
     "options/x.yaml:4: remove.weights.items.grand-piano: `grand-piano` is not there", "names there: coupler,"),
    ("remove:\n  - weights.items.oven\n  - weights.items.oven\n",
     "options/x.yaml:5: remove.weights.items.oven: `oven` is not there", "names there:"),
    (f"add:\n  weights.items:\n{ITEM}",
     "options/x.yaml:5: add.weights.items.refrigerator.id: `refrigerator` is already the name of another entry",
     "each name once"),
    ("replace:\n  trailer.deck: on the roof\n",
     "options/x.yaml:4: replace.trailer.deck: `on the roof` is not a choice", "between the wheels or over the wheels"),
    ("replace:\n  trailer.coupling.station: 300 in\n",
     "options/x.yaml:1: with these changes trailer.running_gear.station: the first axle stands at or ahead",
     "stations grow to the rear"),
    ("replace:\n  trailer.deck: over the wheels\nremove:\n  - trailer.deck\n",
     "options/x.yaml:4: replace.trailer.deck: missing", "write `deck: ...`"),
    ("remove:\n  - trailer\n", "options/x.yaml:4: remove.trailer: not a whole file", "name a key of trailer.yaml"),
    ("replace: 5\n", "options/x.yaml:3: replace: `5` is not a map of keys", "write `key: value` lines"),
])
@pytest.mark.parametrize("command", ["check", "compare"])
def test_a_wrong_option_is_a_fault_of_its_line(spec: Path, command: str, body: str, told: str, allowed: str) -> None:
    (spec / "options" / "x.yaml").write_text(HEAD + body)
    done = run(command, spec)
    assert done.returncode == 2
    first = done.stderr.splitlines()[0]
    assert first.startswith(told)
    assert allowed in first


@pytest.mark.parametrize("name", ["X.yaml", "x.yml", "a x.yaml"])
def test_a_second_spelling_of_an_id_is_no_file_of_an_option(spec: Path, name: str) -> None:
    """The id of an option is the name of its file, so that two options cannot have one."""
    (spec / "options" / "x.yaml").write_text(HEAD)
    (spec / "options" / name).write_text(HEAD)
    done = run("check", spec)
    assert done.returncode == 2
    assert f"options/{name}: not a name for a record; options/ holds `*.yaml` files alone" in done.stderr


def test_of_many_names_the_first_are_told(spec: Path) -> None:
    (spec / "options" / "x.yaml").write_text(HEAD + "remove:\n  - weights.items.grand-piano\n")
    told = run("check", spec).stderr.splitlines()[0]
    count = len(re.findall(r"^  - \{id:", (spec / "weights.yaml").read_text().split("\ntanks:")[0], re.MULTILINE))
    assert told.endswith(f" and {count - 30} more")
    assert told.partition("names there: ")[2].count(",") == 29


def test_nothing_to_compare_is_said(spec: Path) -> None:
    done = run("compare", spec)
    assert done.returncode != 0
    assert "no options/*.yaml to compare" in done.stderr


def test_the_table_of_compare_fits_a_terminal() -> None:
    done = run("compare", WREN)
    lines = done.stdout.splitlines()
    assert done.returncode == 0
    assert max(map(len, lines)) <= 80
    assert sum(bool(re.match(r" +base +[A-Z] +[A-Z]$", line)) for line in lines) == 2  # four options: two tables of two
    assert lines[0].startswith("A  ")
