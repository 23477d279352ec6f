"""Same inputs, same bytes: whatever the folder, time zone, locale, hash seed, umask and home."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

HERON = Path(__file__).resolve().parents[2] / "specs" / "heron"


def build(folder: Path, umask: int, **environment: str) -> dict[str, bytes]:
    spec = shutil.copytree(HERON, folder / "heron")
    command = [sys.executable, "-m", "generator", "build", spec, "--fresh", "--out", folder / "out"]
    subprocess.run(command, check=True, capture_output=True, cwd=folder, env={**os.environ, **environment}, umask=umask)
    out = folder / "out"
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}


def test_two_builds_are_equal_in_every_file(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "another place").mkdir()
    one = build(tmp_path / "a", 0o022, PYTHONHASHSEED="1", TZ="UTC", LC_ALL="C")
    two = build(
        tmp_path / "another place",
        0o077,
        PYTHONHASHSEED="4242",
        TZ="Pacific/Auckland",
        LC_ALL="C.UTF-8",
        HOME="/nonexistent",
        XDG_CACHE_HOME="/nonexistent",
    )
    assert {n for n in one if n.endswith(".pdf")} >= {"0-decision-sheet.pdf", "3-load-summary.pdf"}
    assert one.keys() == two.keys()
    assert [name for name in one if one[name] != two[name]] == []
