"""How the calculation grows with the number of items, and trials against a bare product. Prints tab-separated lines."""

import dataclasses
import resource
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from generator.calc.run import calculate
from generator.calc.sums import sums
from generator.calc.trials import Trials
from generator.design import design
from generator.model.types import Model


def grown(model: Model, count: int) -> Model:
    """The same house with its movable items cut into pieces until there are `count` items."""
    loose = [i for i in model.items if not i.moves]
    pieces = -(-(count - len(model.items)) // len(loose)) + 1
    small = [
        dataclasses.replace(i, id=f"{i.id}-{k}", mass=i.mass / pieces, low=i.low / pieces, high=i.high / pieces)
        for i in loose
        for k in range(pieces)
    ]
    return dataclasses.replace(model, items=(*(i for i in model.items if i.moves), *small))


def one(folder: str, count: int) -> None:
    """Calculate once with about `count` items in this process; print ms and MB."""
    it = design(Path(folder))
    model = grown(it.model, count) if count > len(it.model.items) else it.model
    start = time.perf_counter()
    calculate(model, it.data)
    wall = time.perf_counter() - start
    size = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"calculate {len(model.items)} items, 10 000 trials\t{1e3 * wall:.0f} ms, {size:.0f} MB\t5 000: < 3 s, 700 MB"
    )


def trials(folder: str) -> None:
    """100 000 trials of all items against a bare product of the same size in blocks."""
    it = design(Path(folder))
    many = Trials(count=100_000)
    start = time.perf_counter()
    sums(it.model, many, it.data)
    ours = time.perf_counter() - start
    towed = sum(s.towed for s in it.model.states) + 1
    masses, matrix = np.ones((2000, len(it.model.items))), np.ones((len(it.model.items), 7 * towed))
    start = time.perf_counter()
    for _ in range(many.count // 2000):
        masses @ matrix
    bare = time.perf_counter() - start
    print(f"sums, 100 000 trials\t{1e3 * ours:.0f} ms = {ours / bare:.2f} bare product\t<= 1.3")


def main(folder: str) -> None:
    """Each size in a process of its own, so that memory is its own."""
    for count in (0, 1000, 5000):
        print(
            subprocess.run(
                [sys.executable, __file__, folder, str(count)], check=True, capture_output=True, text=True
            ).stdout,
            end="",
        )
    trials(folder)


if __name__ == "__main__":
    if len(sys.argv) > 2:
        one(sys.argv[1], int(sys.argv[2]))
    else:
        main(sys.argv[1])
