"""The code keeps the house rules a tool can see: lint, types, module size."""

import subprocess
import sys
from pathlib import Path

HOME = Path(__file__).resolve().parents[2]
LONGEST = 400


def run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", *command], cwd=HOME, capture_output=True, text=True, check=False)


def test_lint() -> None:
    done = run("ruff", "check", "--no-cache", "--output-format", "concise", "generator", "tests")
    assert done.returncode == 0, done.stdout


def test_types(tmp_path: Path) -> None:
    done = run("mypy", "--cache-dir", str(tmp_path))
    assert done.returncode == 0, done.stdout


def test_modules_are_rooms_with_one_job() -> None:
    lines = {p: len(p.read_text().splitlines()) for p in sorted((HOME / "generator").rglob("*.py"))}
    assert [f"{p.relative_to(HOME)}: {n} lines" for p, n in lines.items() if n > LONGEST] == []
