"""A person's mistakes at the command line: a clear line, the right exit code, no traceback, nothing half-written."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HERON = Path(__file__).resolve().parents[2] / "specs" / "heron"


def run(*words: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "generator", *map(str, words)]
    done = subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)
    assert "Traceback" not in done.stderr + done.stdout
    return done


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    return Path(shutil.copytree(HERON, tmp_path / "heron"))


@pytest.fixture
def light(tmp_path: Path) -> Path:
    """The smallest of the designs, without its options: for what has to be built whole."""
    folder = Path(shutil.copytree(HERON.parent / "dipper", tmp_path / "dipper"))
    shutil.rmtree(folder / "options")
    return folder


def change(file: Path, pattern: str, replacement: str) -> int:
    """Replace the first match of `pattern`; the line it stands on."""
    text = file.read_text()
    match = re.search(pattern, text, re.MULTILINE)
    assert match is not None
    file.write_text(text[: match.start()] + match.expand(replacement) + text[match.end() :])
    return text[: match.start()].count("\n") + 1


@pytest.mark.parametrize("file", ["project.yaml", "trailer.yaml", "house.yaml", "weights.yaml"])
def test_a_missing_compulsory_file_is_named(spec: Path, file: str) -> None:
    (spec / file).unlink()
    done = run("check", spec, cwd=spec)
    assert done.returncode == 2
    assert file in done.stderr


@pytest.mark.parametrize("file", ["tow.yaml", "site.yaml", "costs.yaml", "revisions.yaml"])
def test_a_missing_optional_file_costs_sections_not_the_packet(light: Path, file: str) -> None:
    (light / file).unlink()
    done = run("build", light, "--out", light.parent / "out", cwd=light.parent)
    assert done.returncode == 0, done.stderr
    assert (light.parent / "out" / "0-decision-sheet.pdf").is_file()
    if file == "tow.yaml":
        assert "tow.yaml" in run("check", light, cwd=light).stdout


WRONG = [
    ("trailer.yaml", r"^(\s+pressure:) .*$", r"\1 80 psf", "psf"),
    ("trailer.yaml", r"^(\s+arm:) .*$", r"\1 6 lb", "6 lb"),
    ("trailer.yaml", r"^(\s+arm:) .*$", r"\1 6", "6"),
    ("trailer.yaml", r"^(\s+arm:) .*$", r"\1 -6 in", "-6 in"),
    ("trailer.yaml", r"^(\s+arm:) .*$", r"\1 nan in", "nan"),
    ("trailer.yaml", r"^(\s+)arm:", r"\1arms:", "arms"),
    ("trailer.yaml", r"^(\s+)arm: (.*)$", r"\1arm: \2\n\1arm: \2", "arm"),
    ("project.yaml", r"^units: .*$", r"units: cubits", "cubits"),
]


@pytest.mark.parametrize(("file", "pattern", "replacement", "found"), WRONG)
def test_a_wrong_value_is_named_with_its_line(
    spec: Path, file: str, pattern: str, replacement: str, found: str
) -> None:
    line = change(spec / file, pattern, replacement)
    done = run("build", spec, "--out", spec.parent / "out", cwd=spec.parent)
    assert done.returncode == 2
    lines = [x for x in done.stderr.splitlines() if re.search(rf"{file}:({line}|{line + 1}): ", x)]
    assert lines
    assert found in lines[0]
    assert not (spec.parent / "out").exists()


def test_all_faults_of_all_files_in_one_run(spec: Path) -> None:
    change(spec / "trailer.yaml", r"^(\s+arm:) .*$", r"\1 6")
    change(spec / "project.yaml", r"^units: .*$", r"units: cubits")
    change(spec / "tow.yaml", r"^(\s+bed_rail:) .*$", r"\1 58 lb")
    done = run("check", spec, cwd=spec)
    assert done.returncode == 2
    assert {x.split(":")[0] for x in done.stderr.splitlines()} >= {"trailer.yaml", "project.yaml", "tow.yaml"}


def test_zero_axles_is_a_fault(spec: Path) -> None:
    text = (spec / "trailer.yaml").read_text()
    start = text.index("\n  axles:") + 1
    end = re.compile(r"^  [a-z]", re.MULTILINE).search(text, start + 3)
    assert end is not None
    (spec / "trailer.yaml").write_text(text[:start] + "  axles: []\n" + text[end.start() :])
    done = run("check", spec, cwd=spec)
    assert done.returncode == 2
    assert "axles" in done.stderr


def test_axles_ahead_of_the_centre_of_mass_fail_honestly(spec: Path) -> None:
    text = (spec / "trailer.yaml").read_text()
    group = text.index("\nrunning_gear:")
    head, tail = text[:group], text[group:]
    tail = re.sub(r"^(  station:) .*$", r"\1 6 ft", tail, count=1, flags=re.MULTILINE)
    tail = re.sub(r"^(  foremost:) .*$", r"\1 5 ft", tail, count=1, flags=re.MULTILINE)
    (spec / "trailer.yaml").write_text(head + tail)
    done = run("check", spec, cwd=spec)
    assert done.returncode == 3, done.stderr
    assert any(x.startswith("fail") and "hitch" in x for x in done.stdout.splitlines())


@pytest.mark.parametrize(
    "text", ["<script>alert(1)</script>", "{{ 7*7 }}", "{% include 'x' %}", "]]></text><image href='x'/>"]
)
def test_markup_in_a_text_field_comes_out_as_text(light: Path, text: str) -> None:
    change(light / "project.yaml", r"^title: .*$", "title: '" + text.replace("'", "''").replace("\\", "\\\\") + "'")
    done = run("build", light, "--out", light.parent / "out", cwd=light.parent)
    assert done.returncode == 0, done.stderr
    pages = [p.read_text() for p in (light.parent / "out").rglob("*.html")]
    assert pages
    for page in pages:
        assert "<script" not in page
        assert "<image" not in page
        assert "49" not in re.findall(r"<title>(.*?)</title>", page)[0] or "7" in text


def test_unknown_ids_and_folders_are_met_with_the_nearest(spec: Path) -> None:
    done = run("explain", "axle.1.ratin", spec, cwd=spec)
    assert done.returncode == 1
    assert "axle.1.rating" in done.stderr
    done = run("check", spec / "nowhere", cwd=spec)
    assert done.returncode == 2
