"""Issue a packet, keep what comes back: frozen folders first, the line of the log last, nothing ever overwritten."""

import json
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256
from pathlib import Path

from generator import __version__
from generator.build import basis, made, one_file, versions
from generator.calc.record import Check
from generator.calc.trials import SEED
from generator.design import Design, designed
from generator.errors import OutputError
from generator.reference.load import hashes
from generator.release.cut import owner_results_json, unsettled
from generator.release.grants import OWNER, known
from generator.release.standing import PURPOSES, UNSETTLED, Sending, Standing, Waived
from generator.revision.archive import order_in
from generator.revision.difference import data_moved, holders, stale
from generator.revision.log import KEPT_IN, Broken, Entry, Issued, Received, appended, read_log
from generator.revision.manifest import MANIFEST, leaves, manifest
from generator.revision.order import Order, Since
from generator.revision.trail import (
    FOLDER,
    INCOMPLETE,
    LOG,
    OWN,
    REGISTER,
    Trail,
    folder_of,
    read_trail,
    register_of,
    supersedes,
)
from generator.spec.models.revisions import Revision, Waiver
from generator.spec.read import read_source
from generator.spec.source import Source
from generator.store import Store, digest
from generator.units import System
from generator.write import freeze, locked, replace_file

MOST_BYTES = 200_000_000
"""A file that came back may be no larger."""
SPEC, MADE_WITH = "spec/", "made-with.json"


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be issued: reader, which of several, purpose, day, how it is sent, till when an answer is due."""

    to: str
    purpose: str
    addressee: str = ""
    date: str = ""
    by: str = ""
    due: str = ""
    units: System | None = None


@dataclass(frozen=True, slots=True)
class Reply:
    """What came back: its kind, from whom, when, which transmittal it answers (0: none)."""

    what: str
    sender: str
    at: str
    answers: int = 0


def issue(folder: Path, wish: Wish, store: Store, progress: Callable[[str], None]) -> Issued:
    """Freeze a packet under the revision due and write it into the log.

    Raises OutputError when the log is not sound, the revision has no reason, a compulsory check is open, or the packet
    cannot be made whole.
    """
    home = folder / FOLDER
    progress("reading")
    source = read_source(folder)
    with locked(home / "log"):
        trail = _sound(home)
        it = designed(source)
        entry, standing = _entry(it, source, wish, trail, home)
        before = tuple(folder_of(e.number, e.revision, e.to, e.addressee) for e in trail.issued
                       if e.number in entry.supersedes)
        sending = Sending(wish.addressee, wish.by, wish.due, before, trail.head if trail.lines else "")
        order = Order(wish.to, wish.units, standing, sending, _since(home, trail, entry), one_file=True)
        files, fault = made(source, order, store, progress)
        if fault:
            raise OutputError(f"{folder}: not issued: {fault}")
        progress("writing")
        _put_aside(home, trail)
        if entry.revision not in trail.folders:
            freeze(home / entry.revision, _with_manifest(_record(it, source)))
        freeze(home / entry.folder, _with_manifest(files))
        entry = replace(entry, manifest=_hash(home / entry.folder / MANIFEST),
                        record=_hash(home / entry.revision / MANIFEST))
        _append(home, trail, entry)
    return entry


def receive(folder: Path, file: Path, reply: Reply) -> Received:
    """Keep a file that came back, unopened, with its hash and the time given; raises OutputError."""
    home = folder / FOLDER
    if file.is_symlink() or not file.is_file():
        raise OutputError(f"{file}: is no plain file; name the file as it came")
    if file.stat().st_size > MOST_BYTES:
        raise OutputError(f"{file}: larger than {MOST_BYTES:,} bytes")
    _refuse_time(reply.at)
    with locked(home / "log"):
        trail = _sound(home)
        if reply.answers and reply.answers not in {e.number for e in trail.issued}:
            raise OutputError(f"--answers {reply.answers}: no such transmittal; there are "
                              f"{', '.join(str(e.number) for e in trail.issued) or 'none'}")
        data = file.read_bytes()
        number = len(trail.received) + 1
        kept = f"{KEPT_IN}{number:03d}-{_plain(file.name)}"
        entry = Received(number, reply.answers, reply.what, reply.sender, reply.at, kept, sha256(data).hexdigest(),
                         len(data))
        (home / KEPT_IN).mkdir(exist_ok=True)
        replace_file(home / kept, data)
        _append(home, trail, entry)
    return entry


def since(folder: Path, revision: str) -> Since:
    """An earlier design to compare one of this revision with: a spec folder, or the frozen folder of a revision.

    Raises OutputError for a folder that is neither.
    """
    if not (folder / MADE_WITH).is_file():
        return Since(read_source(folder))
    return _frozen(folder, _sound(folder.parent), revision)


def opened(folder: Path) -> tuple[Source, str]:
    """The source of a spec folder or of a frozen revision, and the revision it is or would be issued under."""
    if (folder / MADE_WITH).is_file():
        return read_source(folder / SPEC), folder.name
    source = read_source(folder)
    return source, _sound(folder / FOLDER).letter_due(basis(source))


def _frozen(folder: Path, trail: Trail, revision: str) -> Since:
    try:
        then = json.loads((folder / MADE_WITH).read_bytes())
    except (OSError, ValueError):
        raise OutputError(f"{folder / MADE_WITH}: cannot be read; `packet verify` tells what is wrong") from None
    return Since(read_source(folder / SPEC), data_moved(then, _made_with()), holders(trail, revision),
                 stale(trail, revision))


def _since(home: Path, trail: Trail, entry: Issued) -> Since | None:
    """The design this reader was sent last under another revision; for the owner, the last one issued to anybody."""
    mine = [e for e in trail.issued if e.revision != entry.revision
            and (entry.to == OWNER or (e.to, e.addressee) == (entry.to, entry.addressee))]
    if not mine:
        return None
    return _frozen(home / mine[-1].revision, trail, entry.revision)


def _sound(home: Path) -> Trail:
    """The trail, if its log reads line by line."""
    try:
        return read_trail(home)
    except Broken as fault:
        raise OutputError(f"{FOLDER}/{LOG}:{fault.line}: this line {fault.what}; `packet verify` lists all there is; "
                          "bring back the log as it was before going on") from None


def _entry(it: Design, source: Source, wish: Wish, trail: Trail, home: Path) -> tuple[Issued, Standing]:
    """The line to come, its manifests still empty, and how the packet stands."""
    revisions = it.model.spec.revisions
    last = revisions.revisions[-1] if revisions else None
    hash = basis(source)
    due = trail.letter_due(hash, _spoilt(home, trail, source))
    if last is None or last.label != due:
        was = "there is none" if last is None else f"its last one is `{last.label}`"
        raise OutputError(f"revisions.yaml: the revision due is {due}, and {was}; append an entry with "
                          f"`label: {due}` that says why and who asked")
    date = wish.date or last.date
    _refuse_day(date, trail)
    standing = Standing(due, date, wish.purpose, len(trail.issued) + 1, _waived(it, last, wish.purpose))
    folder = folder_of(standing.number, due, known(wish.to), wish.addressee)
    waivers = tuple(f"{w.check}, by {w.role} on {w.date}: {w.reason}" for w in standing.waivers)
    return Issued(standing.number, due, wish.to, wish.purpose, date, folder, "", "", hash,
                  digest(*(f"{n} {h}" for n, h in hashes().items())), __version__, SEED, wish.addressee, wish.by,
                  wish.due, supersedes(trail, wish.to, wish.addressee, due), waivers), standing


def _waived(it: Design, last: Revision, purpose: str) -> tuple[Waived, ...]:
    """The waivers that are needed; raises OutputError for an open check without one, and for a waiver of nothing."""
    wanted = {w.check: w for w in last.waivers}
    open_ = {c.id: c for c in unsettled(it.results)}
    idle = sorted(set(wanted) - set(open_))
    if idle:
        raise OutputError(f"revisions.yaml: a waiver of {', '.join(idle)} sets nothing aside: no compulsory check of "
                          "that id is open; take it out")
    left = [c for id, c in sorted(open_.items()) if id not in wanted]
    if left and purpose != UNSETTLED:
        raise OutputError(_blocked(left, purpose))
    if purpose == "as-built" and not it.model.spec.asbuilt:
        raise OutputError("not issued as built: nothing measured stands in asbuilt/*.yaml")
    return tuple(_waiver(w, open_[w.check]) for w in last.waivers)


def _waiver(w: Waiver, check: Check) -> Waived:
    return Waived(w.check, check.about.title, w.role, w.date, w.reason)


def _blocked(left: Sequence[Check], purpose: str) -> str:
    rows = "".join(f"\n  {c.status}: {c.id}: {c.about.title}" for c in left)
    count = f"{len(left)} compulsory check{' is' if len(left) == 1 else 's are'} open"
    return (f"not issued {PURPOSES[purpose]}: {count}; settle them, issue it with --purpose {UNSETTLED}, or write a "
            f"waiver for each into the last entry of revisions.yaml:{rows}")


def _refuse_day(date: str, trail: Trail) -> None:
    try:
        datetime.fromisoformat(date)
    except ValueError:
        raise OutputError(f"--date {date}: no day of the calendar; write it as 2026-05-31") from None
    last = trail.last()
    if last is not None and date < last.date:
        raise OutputError(f"--date {date}: before the last issue, which was on {last.date}; a log runs forward")


def _refuse_time(at: str) -> None:
    try:
        datetime.fromisoformat(at)
    except ValueError:
        raise OutputError(f"--at {at}: no day or time; write 2026-05-31 or '2026-05-31 14:30'") from None


def _plain(name: str) -> str:
    """A file name of letters, digits, dots and hyphens, its ending kept."""
    return "".join(c if c.isascii() and (c.isalnum() or c in "._-") else "-" for c in name)[-80:].lstrip(".-") or "file"


def _record(it: Design, source: Source) -> dict[str, bytes]:
    """The design of a revision as it is frozen: its spec byte for byte, its results, what they were made with."""
    return {
        **{SPEC + f.path: f.data for f in source.files},
        "results.json": owner_results_json(it.model, it.results, it.data).encode(),
        MADE_WITH: (json.dumps(_made_with(), sort_keys=True, indent=1) + "\n").encode(),
    }


def _made_with() -> dict[str, object]:
    return {"tool": __version__, "seed": SEED, "packages": dict(versions()), "reference": dict(hashes())}


def _with_manifest(files: Mapping[str, bytes]) -> dict[str, bytes]:
    return {**files, MANIFEST: manifest(files.items()).encode()}


def _strangers(home: Path, trail: Trail) -> Iterator[Path]:
    """Folders and files the log does not know: what an issue that was cut short left."""
    for path in sorted(home.iterdir()) if home.is_dir() else ():
        if path.name not in trail.folders and path.name not in OWN:
            yield path


def _put_aside(home: Path, trail: Trail) -> None:
    """Move what a cut-short issue left out of the way; nothing is deleted."""
    for path in _strangers(home, trail):
        aside = home / INCOMPLETE
        aside.mkdir(exist_ok=True)
        names = (f"{path.name}{n}" for n in ("", *(f"-{i}" for i in range(2, 1000))))
        os.rename(path, next(p for name in names if not (p := aside / name).exists()))


def _spoilt(home: Path, trail: Trail, source: Source) -> Iterator[str]:
    """Revisions a cut-short issue had frozen for another design than this one: never used again."""
    mine = {f.path: f.data for f in source.files}
    aside = home / INCOMPLETE
    for path in (*_strangers(home, trail), *(sorted(aside.iterdir()) if aside.is_dir() else ())):
        spec = path / SPEC
        if spec.is_dir():
            held = {p.relative_to(spec).as_posix(): p.read_bytes() for p in spec.rglob("*") if p.is_file()}
            if held != mine:
                yield path.name.partition("-")[0]


def _append(home: Path, trail: Trail, entry: Entry) -> None:
    """The line of the log, then the register made from it."""
    log = appended(trail.log, entry)
    replace_file(home / LOG, log)
    replace_file(home / REGISTER, register_of(Trail(log, tuple(read_log(log)))).encode())


def _hash(path: Path) -> str:
    return sha256(path.read_bytes()).hexdigest()


def unpack(file: Path, folder: Path) -> tuple[str, ...]:
    """Write the files an archive carries into a new folder and return their names; raises OutputError."""
    from generator.document.pdf import attached_in

    files = attached_in(_bytes(file))
    if strange := [name for name in files if leaves(name)]:
        raise OutputError(f"{file}: carries {strange[0]!r}, which leads out of the folder; nothing was written")
    order_in(files)
    freeze(folder, files)
    return tuple(sorted(files))


def remade(file: Path, progress: Callable[[str], None]) -> bool:
    """Whether an archive, made again from the files it carries, is the same to the byte; raises OutputError."""
    from generator.document.pdf import attached_in

    data = _bytes(file)
    source, order = order_in(attached_in(data))
    return one_file(source, order, progress) == data


def _bytes(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as fault:
        raise OutputError(f"{file}: {fault.strerror}") from None
