"""Times within one build: drawing, writing of sheets, composing. Prints `what<TAB>measured<TAB>budget` lines."""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from generator.build import Order, draft, pages
from generator.calc.run import calculate
from generator.calc.trials import Trials
from generator.design import design
from generator.document.plots import made
from generator.draw.marks import texts
from generator.draw.sheets import sheets_for
from generator.spec.read import parse_source, read_source

T = TypeVar("T")


def timed(what: Callable[[], T], repeat: int = 5) -> tuple[T, float]:
    """The result and the median time in ms."""
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        result = what()
        times.append(1e3 * (time.perf_counter() - start))
    return result, statistics.median(times)


def main(folder: str) -> None:
    """Measure each stage on its own."""
    source, reading = timed(lambda: read_source(Path(folder)))
    _, parsing = timed(lambda: parse_source(source))
    print(f"read and check the spec\t{reading + parsing:.0f} ms\t")
    it = design(Path(folder))
    _, full = timed(lambda: calculate(it.model, it.data))
    print(f"calculate, {Trials().count} trials, {len(it.model.items)} items\t{full:.0f} ms\t")
    _, nominal = timed(lambda: calculate(it.model, it.data, Trials(count=0)))
    print(f"calculate, nominal alone\t{nominal:.0f} ms\t")
    drafted = draft(source, Order("owner"), lambda stage: None)
    sheets, drawing = timed(lambda: sheets_for(drafted.desk))
    svgs, writing = timed(lambda: [s.svg() for s in sheets])
    print(f"place the marks of {len(sheets)} sheets and write them\t{drawing + writing:.0f} ms\t<= 300 ms")
    slowest = max((timed(s.svg)[1], s.number) for s in sheets)
    print(f"write {len(sheets)} sheets, slowest {slowest[1]}\t{writing:.0f} ms, {slowest[0]:.1f} ms\t<= 10 ms a sheet")
    largest = max((len(svg.encode()), s.number) for svg, s in zip(svgs, sheets, strict=True))
    print(f"largest sheet, {largest[1]}\t{largest[0] / 1e3:.0f} kB\t<= 120 kB")
    wordy = max((len(texts(s.marks)), s.number) for s in sheets)
    lettered = sum(len(texts(s.marks)) for s in sheets)
    print(f"text elements, all sheets; most, {wordy[1]}\t{lettered}; {wordy[0]}\tfew: 0.6 ms each in the PDF engine")
    named = tuple(n for n in drafted.packet.pictures if not n[1].isdigit())
    plots, plotting = timed(lambda: made(drafted.desk, drafted.packet.context, named))
    print(f"plots, matplotlib loaded\t{plotting:.0f} ms for {len(plots)}\t")
    _, paging = timed(lambda: pages(drafted, with_pdf=True), 3)
    print(f"HTML pages\t{paging:.0f} ms\t")


if __name__ == "__main__":
    main(sys.argv[1])
