"""`check` starts quickly: it loads neither the PDF engine nor matplotlib nor jinja2 nor pint."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HEAVY = ("weasyprint", "matplotlib", "jinja2", "pint", "pypdf", "markdown", "scipy", "PIL", "fontTools")
SCRIPT = """
import contextlib, io, json, sys
from generator.__main__ import main
with contextlib.redirect_stdout(io.StringIO()):
    code = main(sys.argv[1:])
print(json.dumps([code, sorted({m.partition('.')[0] for m in sys.modules})]))
"""


def loaded(*arguments: str) -> tuple[int, set[str]]:
    """Exit code of a command, and the libraries its process has loaded."""
    command = [sys.executable, "-c", SCRIPT, *arguments]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    code, modules = json.loads(run.stdout)
    return code, set(modules)


@pytest.mark.parametrize("arguments", [
    ("check", "specs/heron"), ("explain", "axle.1.rating", "specs/heron"), ("schema",),
])
def test_quick_commands_load_no_heavy_library(arguments):
    code, modules = loaded(*arguments)
    assert code in (0, 3)
    assert sorted(modules & set(HEAVY)) == []
    assert "generator" in modules


def test_a_folder_that_is_not_there_loads_no_heavy_library():
    code, modules = loaded("check", "no/such/folder")
    assert code == 2
    assert sorted(modules & set(HEAVY)) == []
