"""From a spec folder to a packet: read, resolve, calculate, cut, draw, compose, render, write."""

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, replace
from importlib import metadata
from multiprocessing import get_context
from pathlib import Path
from typing import TYPE_CHECKING

from generator import __version__
from generator.calc.trials import SEED
from generator.design import Design, compared, designed
from generator.errors import RenderError
from generator.revision.order import Order, Since
from generator.spec.read import read_source
from generator.spec.source import Source
from generator.store import Store, digest
from generator.units import Show, System
from generator.write import is_current, refuse_unfit, write_packet

if TYPE_CHECKING:
    from generator.document.documents import Composed, Packet
    from generator.draw.sheet import Sheet
    from generator.release.slices import Changes, Desk, Sending, Standing

PROCESSES = 2
ENGINE = (
    "weasyprint",
    "pydyf",
    "tinyhtml5",
    "tinycss2",
    "cssselect2",
    "pyphen",
    "fonttools",
    "pillow",
    "jinja2",
    "markdown",
    "matplotlib",
    "numpy",
    "pydantic",
    "pyyaml",
    "font-source-sans-pro",
)
"""Packages on whose versions the bytes of a packet depend."""
HOME = Path(__file__).resolve().parent


@dataclass(frozen=True, slots=True)
class Draft:
    """One recipient's packet before rendering: documents as parts with pictures, documents for the engine."""

    packet: "Packet"
    documents: "tuple[Composed, ...]"


@dataclass(frozen=True, slots=True)
class Built:
    """What `build` did: whether the packet was current already, the statuses of its checks, why PDFs are missing."""

    current: bool
    statuses: frozenset[str]
    without_pdf: str


def build(folder: Path, out: Path, order: Order, store: Store, progress: Callable[[str], None]) -> Built:
    """Build the packet of one recipient into `out`; a packet that is current byte for byte is left alone."""
    refuse_unfit(out, folder)
    progress("reading")
    source = read_source(folder)
    mark = {"recipient": order.to, "units": order.units or "as the project", "basis": basis(source),
            "asked": digest(repr(order))}
    if is_current(out, mark):
        return Built(True, _statuses((out / "results.json").read_bytes()), "")
    files, fault = made(source, order, store, progress)
    progress("writing")
    # A packet without its PDFs is not current: it is built again as soon as the engine can start.
    write_packet(out, files, {**mark, "pdf": "missing"} if fault else mark)
    return Built(False, _statuses(files["results.json"]), fault)


def made(
    source: Source, order: Order, store: Store, progress: Callable[[str], None]
) -> tuple[dict[str, bytes], str]:
    """All files of a packet, and why its PDFs are missing if they are."""
    from generator.document.worker import end_with_parent, engine_fault

    try:
        with ProcessPoolExecutor(PROCESSES, mp_context=get_context("spawn"), initializer=end_with_parent) as pool:
            # The engine takes half a second to load: it does so in both processes while this one calculates and draws.
            engines = [pool.submit(engine_fault) for _ in range(PROCESSES)]
            it = draft(source, order, progress)
            jobs = _rendered(it.documents, store, pool)
            fault = next((f for e in engines if (f := e.result())), "")
            progress("rendering")
            pdfs = {} if fault else {name: job() for name, job in jobs.items()}
            if order.one_file and not fault:
                pdfs |= {name: job() for name, job in _rendered((_whole(source, it, order),), store, pool).items()}
            if order.sending is not None and order.standing is not None:
                it = _with_transmittal(it, order.standing, order.sending, pdfs)
                pdfs |= {} if fault else {name: job() for name, job in _rendered(it.documents, store, pool).items()}
    except BrokenProcessPool:
        raise RenderError("a rendering process was ended from outside, perhaps for want of memory; run again") from None
    return pages(it.packet, with_pdf=not fault) | pdfs, fault


def one_file(source: Source, order: Order, progress: Callable[[str], None]) -> bytes:
    """The packet as one PDF and nothing else; raises RenderError where the engine cannot start."""
    from generator.document.pdf import render_pdf

    it = draft(source, order, progress)
    progress("rendering")
    return render_pdf(_whole(source, it, order))


def _whole(source: Source, it: Draft, order: Order) -> "Composed":
    """All documents as one; the owner's carries what it was made from."""
    from generator.document.documents import cover_of
    from generator.document.whole import whole
    from generator.release.cut import results_json
    from generator.release.grants import OWNER
    from generator.revision.archive import carried

    desk = it.packet.desk
    inside = carried(source, order, results_json(desk), cover_of(desk).date) if order.to == OWNER else ()
    return whole(it.packet, inside)


def draft(source: Source, order: Order, progress: Callable[[str], None]) -> Draft:
    """Calculate, cut, draw and compose."""
    from generator.document.documents import assemble, compose
    from generator.draw.sheets import drawn
    from generator.release.grants import GRANTS, known
    from generator.release.slices import Options

    progress("calculating")
    it = designed(source)
    if Options in GRANTS[known(order.to)]:
        it = compared(it)
    progress("drawing")
    desk = _desk(source, it, order)
    sheets, lacking = drawn(desk)
    if order.since is not None:
        progress("comparing")
        desk, sheets = _marked(source, desk, sheets, order, order.since)
    progress("composing")
    project = it.model.spec.project
    packet = assemble(desk, sheets, Show(order.units or project.units, project.currency), lacking)
    return Draft(packet, compose(packet))


def _desk(source: Source, it: Design, order: Order) -> "Desk":
    """What one recipient is given of a design."""
    from generator.release.cut import cut, with_basis
    from generator.release.grants import OWNER

    desk = cut(it.model, it.results, it.data, order.to, "", order.units, order.standing)
    # What others than the owner see must not hang on what they do not see: not even as a hash of it.
    return with_basis(desk, basis(source) if order.to == OWNER else digest(_program(), repr(desk)))


def _marked(
    source: Source, desk: "Desk", sheets: "tuple[Sheet, ...]", order: Order, since: Since
) -> "tuple[Desk, tuple[Sheet, ...]]":
    """The desk with what moved since an earlier design, and the sheets with its marks."""
    from generator.draw.clouds import clouded
    from generator.draw.sheets import drawn
    from generator.release.changes import changed
    from generator.release.grants import OWNER
    from generator.revision.difference import fields_moved

    it = designed(since.source)
    old = _desk(since.source, it, replace(order, standing=_earlier(order.standing, it)))
    told = changed(old, desk)
    if order.to == OWNER:
        told = replace(told, fields=fields_moved(since.source, source), data=since.data, holders=since.holders,
                       stale=since.stale)
    letter = "" if order.standing is None else order.standing.revision
    return desk.plus(told), clouded(sheets, drawn(old)[0], letter)


def _earlier(standing: "Standing | None", it: Design) -> "Standing | None":
    """The same issue under the revision of an earlier design, so that only what differs is told."""
    revisions = it.model.spec.revisions
    if standing is None or revisions is None:
        return None
    last = revisions.revisions[-1]
    return replace(standing, revision=last.label, date=last.date)


def difference(old: Since, new: Source, to: str, units: System | None) -> "tuple[Changes, tuple[Sheet, ...]]":
    """What moved between two designs as one recipient may see it, and the sheets that carry the marks."""
    from generator.draw.sheets import drawn
    from generator.release.slices import Changes

    order = Order(to, units)
    desk = _desk(new, designed(new), order)
    desk, sheets = _marked(new, desk, drawn(desk)[0], order, old)
    told = desk.get(Changes)
    assert isinstance(told, Changes)
    return told, sheets


def _with_transmittal(it: Draft, standing: "Standing", sending: "Sending", pdfs: Mapping[str, bytes]) -> Draft:
    """The packet with its transmittal, which alone is still to be rendered: it lists the others."""
    from generator.document.documents import assemble, compose, cover_of
    from generator.document.pdf import pages_in
    from generator.release.slices import SentRow, Transmittal

    titles = {f"{d.name}.pdf": d.title for d in it.documents} | {"packet.pdf": "All documents as one"}
    rows = tuple(SentRow(name, titles[name], str(pages_in(data)), hashlib.sha256(data).hexdigest())
                 for name, data in sorted(pdfs.items(), key=_numbered))
    context, desk = it.packet.context, it.packet.desk
    desk = desk.plus(Transmittal(cover_of(desk).owner, standing, sending, rows))
    packet = assemble(desk, context.sheets, context.show, context.lacking)
    return Draft(packet, compose(packet, {d.name for d in it.documents}))


def _numbered(file: tuple[str, bytes]) -> tuple[bool, int, str]:
    """Numbered documents in their order, then the others."""
    number, _, rest = file[0].partition("-")
    return not number.isdigit(), int(number) if number.isdigit() else 0, rest


def pages(packet: "Packet", with_pdf: bool) -> dict[str, bytes]:
    """Every file of a packet but its PDFs."""
    from generator.document.documents import reply_csv
    from generator.document.page import site
    from generator.release.cut import results_json

    return {"results.json": results_json(packet.desk).encode(), **site(packet, with_pdf), **reply_csv(packet.desk)}


def basis(source: Source) -> str:
    """Hash of all a packet is made from: the spec, this program with its data, the versions of the engine, the seed."""
    return digest(_program(), str(SEED), *(part for f in source.files for part in (f.path, f.data)))


def _program() -> str:
    """Hash of this program, its data and templates, and the versions of the engine."""
    own = [HOME, *(p for p in (HOME / "_templates", HOME.parent / "templates") if p.is_dir())]
    files = [p for folder in own for p in sorted(folder.rglob("*")) if p.is_file() and p.suffix != ".pyc"]
    return digest(__version__, *(f"{n} {v}" for n, v in versions().items()), *(p.read_bytes() for p in files))


def versions() -> Mapping[str, str]:
    """The packages on whose versions the bytes of a packet depend, with those versions."""
    return {name: metadata.version(name) for name in ENGINE}


def _rendered(
    documents: "Sequence[Composed]", store: Store, pool: ProcessPoolExecutor
) -> dict[str, Callable[[], bytes]]:
    """A PDF per document, kept or on its way, longest first so that both processes end together."""
    from generator.document.pdf import render_pdf

    found: dict[str, Callable[[], bytes]] = {}
    program = _program()
    for d in sorted(documents, key=lambda d: -d.weight):
        key = digest(
            program, d.kind, d.name, d.html, *(part for name, data in sorted(d.files.items()) for part in (name, data)),
            *(part for a in d.attached for part in (a.name, a.words, a.relationship, a.day, a.data)),
        )
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
