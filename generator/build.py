"""From a spec folder to a packet: read, resolve, calculate, cut, draw, compose, render, write."""

import json
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from dataclasses import dataclass
from importlib import metadata
from multiprocessing import get_context
from pathlib import Path
from typing import TYPE_CHECKING

from generator import __version__
from generator.calc.findings import Results
from generator.calc.run import calculate
from generator.calc.trials import SEED
from generator.errors import RenderError
from generator.model.resolve import resolve
from generator.model.types import Model
from generator.reference.load import Reference, reference
from generator.spec.read import Source, parse_source, read_source
from generator.store import Store, digest
from generator.write import is_current, refuse_unfit, write_packet

if TYPE_CHECKING:
    from generator.document.documents import Composed
    from generator.draw.sheet import Sheet
    from generator.release.slices import Desk
    from generator.units import Show

PROCESSES = 2
ENGINE = ("weasyprint", "pydyf", "tinyhtml5", "tinycss2", "cssselect2", "pyphen", "fonttools", "pillow", "jinja2",
          "markdown", "matplotlib", "numpy", "pydantic", "pyyaml", "font-source-sans-pro")
"""Packages on whose versions the bytes of a packet depend."""
HOME = Path(__file__).resolve().parent


@dataclass(frozen=True, slots=True)
class Design:
    """A spec folder read and calculated."""

    model: Model
    results: Results
    data: Reference


@dataclass(frozen=True, slots=True)
class Draft:
    """One recipient's packet before rendering: slices, drawings, composed documents."""

    desk: "Desk"
    show: "Show"
    sheets: "tuple[Sheet, ...]"
    documents: "tuple[Composed, ...]"


@dataclass(frozen=True, slots=True)
class Built:
    """What `build` did: whether the packet was current already, the statuses of its checks, why PDFs are missing."""

    current: bool
    statuses: frozenset[str]
    without_pdf: str


def design(folder: Path) -> Design:
    """Read, resolve and calculate a spec folder; raises SpecError with all faults."""
    return _design(read_source(folder))


def build(folder: Path, out: Path, to: str, units: str | None, store: Store, progress: Callable[[str], None]) -> Built:
    """Build the packet of one recipient into `out`; a packet that is current byte for byte is left alone."""
    refuse_unfit(out, folder)
    progress("reading")
    source = read_source(folder)
    mark = {"recipient": to, "units": units or "", "basis": basis(source)}
    if is_current(out, mark):
        return Built(True, _statuses((out / "results.json").read_bytes()), "")
    with ProcessPoolExecutor(PROCESSES, mp_context=get_context("spawn")) as pool:
        # The engine takes half a second to load: it does so in both processes while this one calculates and draws.
        engines = [pool.submit(engine_fault) for _ in range(PROCESSES)]
        it = draft(source, to, units, mark["basis"], progress)
        pdfs = _rendered(it.documents, store, pool)
        fault = next((f for e in engines if (f := e.result())), "")
        files = pages(it, with_pdf=not fault)
        progress("rendering")
        files |= {} if fault else {name: job() for name, job in pdfs.items()}
    progress("writing")
    write_packet(out, files, mark)
    return Built(False, _statuses(files["results.json"]), fault)


def draft(source: Source, to: str, units: str | None, basis: str, progress: Callable[[str], None]) -> Draft:
    """Calculate, cut, draw and compose."""
    from generator.document.documents import compose
    from generator.draw.sheets import sheets_for
    from generator.release.cut import cut
    from generator.units import Show

    progress("calculating")
    it = _design(source)
    project = it.model.spec.project
    show = Show(units or project.units, project.currency)
    desk = cut(it.model, it.results, it.data, to, basis[:12], units)
    progress("drawing")
    sheets = sheets_for(desk)
    progress("composing")
    return Draft(desk, show, sheets, compose(desk, sheets, show))


def pages(it: Draft, with_pdf: bool) -> dict[str, bytes]:
    """Every file of a packet but its PDFs."""
    from generator.document.documents import reply_csv
    from generator.document.page import site
    from generator.release.cut import results_json

    web = site(it.desk, it.documents, it.sheets, it.show, with_pdf)
    return {"results.json": results_json(it.desk).encode(), **web, **reply_csv(it.desk)}


def basis(source: Source) -> str:
    """Hash of all a packet is made from: the spec, this program with its data, the versions of the engine, the seed."""
    own = [HOME, *(p for p in (HOME / "_templates", HOME.parent / "templates") if p.is_dir())]
    program = [p.read_bytes() for folder in own for p in sorted(folder.rglob("*")) if p.is_file() and p.suffix != ".pyc"]
    versions = [f"{name} {metadata.version(name)}" for name in ENGINE]
    spec = [part for f in source.files for part in (f.path, f.data)]
    return digest(__version__, str(SEED), *versions, *program, *spec)


def engine_fault() -> str:
    """Load the PDF engine in this process; why it cannot, or an empty text."""
    from generator.document.pdf import start_engine

    try:
        start_engine()
    except RenderError as fault:
        return str(fault)
    return ""


def _design(source: Source) -> Design:
    data = reference()
    model = resolve(parse_source(source), data)
    return Design(model, calculate(model, data), data)


def _rendered(documents: "Sequence[Composed]", store: Store, pool: ProcessPoolExecutor) -> dict[str, Callable[[], bytes]]:
    """A PDF per document, kept or on its way, longest first so that both processes end together."""
    from generator.document.pdf import render_pdf

    found: dict[str, Callable[[], bytes]] = {}
    for d in sorted(documents, key=lambda d: -len(d.html)):
        key = digest(d.name, d.html, *(part for name, data in sorted(d.files.items()) for part in (name, data)),
                     *(metadata.version(name) for name in ENGINE))
        kept = store.peek(key)
        if kept is None:
            found[f"{d.name}.pdf"] = _finish(pool.submit(render_pdf, d), store, key)
        else:
            found[f"{d.name}.pdf"] = lambda kept=kept: kept  # type: ignore[misc]
    return found


def _finish(job: Future[bytes], store: Store, key: str) -> Callable[[], bytes]:
    def result() -> bytes:
        data = job.result()
        store.keep(key, data)
        return data

    return result


def _statuses(results: bytes) -> frozenset[str]:
    return frozenset(c["status"] for c in json.loads(results)["checks"].values())
