"""How the calculation grows with the number of items, and trials against a bare product. Prints tab-separated lines."""

import dataclasses
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from generator.calc.run import calculate
from generator.calc.sums import sums
from generator.calc.topics.attitude import attitudes
from generator.calc.topics.axle_bench import kept_at
from generator.calc.topics.axles import level_loads
from generator.calc.topics.hitch_limits import hitch_limits
from generator.calc.topics.masses import state_masses
from generator.calc.topics.placement import bench
from generator.calc.topics.rides import rides
from generator.calc.trials import Trials
from generator.design import Design, design
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


def median(what: Callable[[], object], repeat: int = 7) -> float:
    """Median wall time (ms): the first run of a process pays for its memory, any run for its neighbours."""
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        what()
        times.append(1e3 * (time.perf_counter() - start))
    return statistics.median(times)


def trials(it: Design) -> None:
    """100 000 trials of all items: against a bare product of ready numbers, and against one that draws its numbers."""
    many, items = Trials(count=100_000), len(it.model.items)
    towed = sum(s.towed for s in it.model.states) + 1
    masses, matrix = np.ones((2000, items)), np.ones((items, 7 * towed))
    out, draws = np.empty((many.count, 7 * towed)), np.random.Generator(np.random.PCG64(1))

    def bare() -> None:
        for n in range(0, many.count, 2000):
            np.matmul(masses, matrix, out=out[n : n + 2000])

    def drawn() -> None:
        for n in range(0, many.count, 2000):
            np.matmul(draws.standard_normal((2000, items)), matrix, out=out[n : n + 2000])

    ours, ready, made = (median(f) for f in (lambda: sums(it.model, many, it.data), bare, drawn))
    print(f"sums, 100 000 trials, draws and all\t{ours:.0f} ms = {ours / ready:.2f} of ready numbers\t<= 1.3")
    print(f"sums, 100 000 trials, draws and all\t{ours / made:.2f} of numbers drawn by numpy\t<= 1.3")


def stations(it: Design) -> None:
    """How sure each of 1 000 stations of the axle group is, by 10 000 trials."""
    model, data, few = it.model, it.data, Trials()
    with np.errstate(all="ignore"):
        loads = level_loads(model, state_masses(model, sums(model, few, data)), few, data)
        ride = rides(model, loads, few, data)
        seats = attitudes(model, loads, ride, few).seats
        b = bench(model, loads, ride, few, data, hitch_limits(model), seats)
        wall = median(lambda: kept_at(b, np.linspace(b.middle - 1.0, b.middle + 1.0, 1000)))
    print(f"sweep, 1 000 stations, 10 000 trials\t{wall:.0f} ms\t< 1 s")


def main(folder: str) -> None:
    """Each size in a process of its own, so that memory is its own."""
    for count in (0, 1000, 2000, 5000):
        print(
            subprocess.run(
                [sys.executable, __file__, folder, str(count)], check=True, capture_output=True, text=True
            ).stdout,
            end="",
        )
    it = design(Path(folder))
    trials(it)
    stations(it)


if __name__ == "__main__":
    if len(sys.argv) > 2:
        one(sys.argv[1], int(sys.argv[2]))
    else:
        main(sys.argv[1])
