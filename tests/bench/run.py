"""Benchmarks: what the commands cost on this machine, beside our budgets. Nothing here asserts a time."""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

HOME = Path(__file__).resolve().parent.parent.parent
# A person's machine keeps compiled modules; one that forbids it would be measured compiling them.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
HERON = HOME / "specs" / "heron"
PYTHON = (sys.executable,)
LEVERS = "from pathlib import Path; from generator.design import design; design(Path('specs/first-sketch'))"
PACKET = (sys.executable, "-m", "generator")


def timed(command: Sequence[str], repeat: int = 5) -> tuple[float, float]:
    """Median wall time (s) and greatest resident size (MB) of a command or any of its children."""
    walls, sizes = [], []
    for _ in range(repeat):
        start = time.perf_counter()
        process = subprocess.Popen(command, cwd=HOME, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        walls.append(time.perf_counter() - start)
        sizes.append(usage.ru_maxrss / 1024)
        if os.waitstatus_to_exitcode(status) not in (0, 3):
            raise SystemExit(f"{' '.join(command)}: exit {os.waitstatus_to_exitcode(status)}")
    return statistics.median(walls), max(sizes)


def row(what: str, measured: str, budget: str) -> None:
    """One line of the report."""
    print(f"{what:<58} {measured:>22}   {budget}")


def main() -> None:
    """Measure everything once and print it."""
    row("what", "measured", "budget")
    plain, _ = timed((*PYTHON, "-c", "pass"), 15)
    module, _ = timed((*PACKET, "--version"), 15)
    script, _ = timed((str(HOME / "packet"), "--version"), 15)
    row("start script over the program alone", f"{1e3 * (script - module):.0f} ms", "")
    row("second start over plain python", f"{1e3 * (script - plain):.0f} ms", "< 50 ms")
    check, size = timed((*PACKET, "check", str(HERON)))
    row("check heron", f"{check:.2f} s, {size:.0f} MB", "<= 0.4 s, 60 MB")
    sketch, _ = timed((*PACKET, "check", str(HOME / "specs/first-sketch")))
    row("check first-sketch, 44 limits broken", f"{sketch:.2f} s", "< 1 s")
    levers, _ = timed((*PYTHON, "-c", LEVERS), 1)
    row("first-sketch, smallest changes and a way out", f"{levers - sketch:.2f} s", "about 5 s")
    engine = float(
        subprocess.run(
            (*PYTHON, str(HOME / "tests/bench/engine.py"), str(HERON)),
            cwd=HOME,
            check=True,
            capture_output=True,
            text=True,
        ).stdout
    )
    row("F: PDF engine alone, one process", f"{engine:.2f} s", "")
    with tempfile.TemporaryDirectory() as folder:
        target = ("--out", f"{folder}/packet")
        full, size = timed((*PACKET, "build", str(HERON), "--fresh", *target), 1)
        row("build heron, nothing cached", f"{full:.2f} s = {full / engine:.2f} F, {size:.0f} MB", "<= 0.8 F, 160 MB")
        same, size = timed((*PACKET, "build", str(HERON), *target))
        row("build heron, nothing changed", f"{same:.2f} s = {same / check:.2f} check", "<= 1.3 check")
    for script in ("stages.py", "scale.py"):
        done = subprocess.run(
            (*PYTHON, str(HOME / "tests/bench" / script), str(HERON)),
            cwd=HOME,
            check=True,
            capture_output=True,
            text=True,
        )
        for line in done.stdout.splitlines():
            row(*line.split("\t"))


if __name__ == "__main__":
    main()
