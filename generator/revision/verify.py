"""Whether what was issued and received is still what it was: every byte, every line, nothing more, nothing less."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

from generator.revision.log import Broken, Received
from generator.revision.manifest import MANIFEST, MARK, Problem, compared
from generator.revision.trail import FOLDER, INCOMPLETE, LOG, OWN, RECEIVED, REGISTER, Trail, read_trail, register_of


def verified(folder: Path) -> Iterator[Problem]:
    """The problems of a spec folder's `issued`, or of one packet folder; none if all is as it was."""
    if (folder / FOLDER).is_dir():
        yield from _trail(folder / FOLDER)
    elif (folder / MANIFEST).is_file():
        yield from compared(folder, folder.name, {MARK})
    else:
        yield Problem(str(folder), "nothing to verify", f"neither {FOLDER}/ nor {MANIFEST} is in it")


def head_of(folder: Path) -> str:
    """The head of the log of a spec folder whose trail is sound, as words; nothing for a packet folder."""
    if not (folder / FOLDER).is_dir():
        return ""
    trail = read_trail(folder / FOLDER)
    return f"; {len(trail.lines)} entries, head of the log {trail.head}"


def _trail(folder: Path) -> Iterator[Problem]:
    try:
        trail = read_trail(folder)
    except Broken as fault:
        yield Problem(f"{FOLDER}/{LOG}:{fault.line}", "broken log", f"this line {fault.what}")
        return
    frozen = {name: hash for e in trail.issued for name, hash in ((e.folder, e.manifest), (e.revision, e.record))}
    for name, hash in frozen.items():
        yield from _frozen(folder, name, hash)
    for entry in trail.received:
        yield from _kept(folder, entry)
    yield from _strangers(folder, trail)
    if trail.lines and _text(folder / REGISTER) != register_of(trail):
        yield Problem(f"{FOLDER}/{REGISTER}", "other than the log", "it was edited, the last line of the log was, or "
                      "an issue was cut short; compare the head of the log with your last printed transmittal")


def _frozen(folder: Path, name: str, manifest: str) -> Iterator[Problem]:
    place = f"{FOLDER}/{name}"
    if (folder / name).is_symlink() or not (folder / name).is_dir():
        yield Problem(place, "missing", "the log names this folder")
        return
    if _sha256(folder / name / MANIFEST) != manifest:
        yield Problem(f"{place}/{MANIFEST}", "changed", "not the manifest whose hash stands in the log")
    yield from compared(folder / name, place)


def _kept(folder: Path, entry: Received) -> Iterator[Problem]:
    path = folder / entry.file
    if path.is_symlink() or not path.is_file():
        yield Problem(f"{FOLDER}/{entry.file}", "missing", "the log names this file")
    elif _sha256(path) != entry.sha256:
        yield Problem(f"{FOLDER}/{entry.file}", "changed", "its bytes are not those that were received")


def _strangers(folder: Path, trail: Trail) -> Iterator[Problem]:
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.name not in trail.folders and path.name not in OWN:
            yield Problem(f"{FOLDER}/{path.name}", "incomplete", "the log does not know it: left by an issue that was "
                          f"cut short, or put here; the next issue moves it to {INCOMPLETE}/")
    known = {e.file for e in trail.received}
    for path in sorted((folder / RECEIVED).iterdir()) if (folder / RECEIVED).is_dir() else ():
        if f"{RECEIVED}/{path.name}" not in known:
            yield Problem(f"{FOLDER}/{RECEIVED}/{path.name}", "extra", "the log does not know it")


def _sha256(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""
