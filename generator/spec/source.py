"""The bytes of a spec folder: read once, limited, hashed; nothing outside the folder and nothing but plain files."""

import difflib
import hashlib
import os
import re
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.errors import Fault, SpecError
from generator.records import dataclass

MOST_FILES = 200
MOST_BYTES = 2_000_000
MOST_BYTES_IN_ALL = 16_000_000

COMPULSORY = ("project.yaml", "trailer.yaml", "house.yaml", "weights.yaml")
OPTIONAL = ("tow.yaml", "site.yaml", "costs.yaml", "revisions.yaml")
FOLDERS = ("tickets", "asbuilt", "options", "quotes")
"""Folders whose `*.yaml` files are each a record of its own, named by its file."""
UNREAD = ("README.md", "issued")
"""What may lie in the folder without being read here."""
_RECORD = re.compile(r"[a-z][a-z0-9-]{0,39}\.yaml")

Found = tuple[str, Path]


@dataclass(frozen=True, slots=True)
class SourceFile:
    """One file as it was read: path within the folder, its bytes, their SHA-256."""

    path: str
    data: bytes
    sha256: str


@dataclass(frozen=True, slots=True)
class Source:
    """The files of a spec folder, sorted by path; everything later comes from these bytes."""

    name: str
    files: tuple[SourceFile, ...]

    def text(self, path: str) -> str | None:
        """Text of a file with plain line ends and without a byte-order mark; None if there is no such file."""
        return next((plain_text(f.data) for f in self.files if f.path == path), None)


def source_of(name: str, files: Mapping[str, bytes]) -> Source:
    """A source from bytes already in memory, such as the files an archive carries."""
    return Source(name, tuple(SourceFile(path, data, hashlib.sha256(data).hexdigest())
                              for path, data in sorted(files.items())))


def collect(folder: Path) -> tuple[Source, list[Fault]]:
    """The files that can be read as text, and the faults of the others. Raises SpecError if there is no folder."""
    name = folder.name or "."
    if not folder.is_dir():
        raise SpecError([Fault(name, 0, "", "no such folder" if not folder.exists() else "not a folder",
                               "name the folder that holds project.yaml")])
    faults: list[Fault] = []
    try:
        found = _listed(folder, faults)
    except OSError as error:
        raise SpecError([Fault(name, 0, "", f"cannot be listed: {error.strerror}", "allow reading it")]) from None
    files = tuple(_read_all(found, faults))
    told = {fault.file for fault in faults}
    faults += [Fault(wanted, 0, "", "missing", "every spec needs it; `packet new` writes one to begin with")
               for wanted in COMPULSORY if wanted not in told and wanted not in {path for path, _ in found}]
    return Source(name, files), faults


def plain_text(data: bytes) -> str:
    """The text of bytes already known to be UTF-8, line ends and byte-order mark removed."""
    return data.decode("utf-8").removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def _listed(folder: Path, faults: list[Fault]) -> list[Found]:
    """Files to read, sorted: the known names, `notes/*.md` and the records; hidden files are passed over."""
    found: list[Found] = []
    for path in _entries(folder):
        if path.name == "notes" and path.is_dir():
            found += [(f"notes/{note.name}", note) for note in _entries(path) if _is_note(note, faults)]
        elif path.name in FOLDERS and path.is_dir():
            found += [(f"{path.name}/{r.name}", r) for r in _entries(path) if _is_record(path.name, r, faults)]
        elif path.name in (*COMPULSORY, *OPTIONAL):
            found.append((path.name, path))
        elif path.name not in UNREAD:
            faults.append(_stranger(path.name))
    if len(found) > MOST_FILES:
        faults.append(Fault("notes", 0, "", f"more than {MOST_FILES} files", "a spec has fewer"))
        return found[:MOST_FILES]
    root = folder.resolve()
    return sorted((name, path) for name, path in found if _is_plain(name, path, root, faults))


def _entries(folder: Path) -> list[Path]:
    """Entries by name, without hidden ones; reading stops soon after the limit."""
    entries: list[Path] = []
    with os.scandir(folder) as scan:
        for entry in scan:
            if not entry.name.startswith("."):
                entries.append(folder / entry.name)
            if len(entries) > 2 * MOST_FILES:
                break
    return sorted(entries, key=lambda path: path.name)


def _is_note(path: Path, faults: list[Fault]) -> bool:
    if path.suffix == ".md":
        return True
    faults.append(Fault(f"notes/{path.name}", 0, "", "not a page of prose", "notes/ holds `*.md` files alone"))
    return False


def _is_record(folder: str, path: Path, faults: list[Fault]) -> bool:
    if _RECORD.fullmatch(path.name):
        return True
    faults.append(Fault(f"{folder}/{path.name}", 0, "", "not a name for a record", f"{folder}/ holds `*.yaml` files "
                        "alone, named with small letters, digits and hyphens, a letter first"))
    return False


def _stranger(name: str) -> Fault:
    known = (*COMPULSORY, *OPTIONAL, "notes", *UNREAD, *FOLDERS)
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
    hint = f"did you mean `{near[0]}`? " if near else ""
    return Fault(name, 0, "", "not a file of a spec", f"{hint}a spec folder holds {', '.join(known)}")


def _is_plain(name: str, path: Path, root: Path, faults: list[Fault]) -> bool:
    try:
        real = path.resolve(strict=True)
        mode = real.stat().st_mode
    except (OSError, RuntimeError):
        faults.append(Fault(name, 0, "", "a link that leads nowhere", "put the file itself into the folder"))
        return False
    if not real.is_relative_to(root):
        faults.append(Fault(name, 0, "", "a link out of the spec folder", "put the file itself into the folder"))
        return False
    if not stat.S_ISREG(mode):
        faults.append(Fault(name, 0, "", "not a plain file", "a spec is made of plain text files"))
        return False
    return True


def _read_all(found: list[Found], faults: list[Fault]) -> Iterator[SourceFile]:
    total = 0
    for name, path in found:
        data = _bytes(name, path, faults)
        if data is None:
            continue
        total += len(data)
        if total > MOST_BYTES_IN_ALL:
            faults.append(Fault(name, 0, "", f"all files together exceed {MOST_BYTES_IN_ALL:,} bytes", "shorten them"))
            return
        if wrong := _not_utf8(name, data):
            faults += wrong
        else:
            yield SourceFile(name, data, hashlib.sha256(data).hexdigest())


def _bytes(name: str, path: Path, faults: list[Fault]) -> bytes | None:
    try:
        if path.stat().st_size > MOST_BYTES:
            faults.append(Fault(name, 0, "", f"larger than {MOST_BYTES:,} bytes", "a spec file is far smaller"))
            return None
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as file:
            return file.read(MOST_BYTES)
    except OSError as error:
        faults.append(Fault(name, 0, "", f"cannot be read: {error.strerror}", "allow reading it"))
        return None


def _not_utf8(name: str, data: bytes) -> list[Fault]:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return [Fault(name, 0, "", "written in UTF-16 (byte 0)", "save it as UTF-8")]
    if (at := data.find(b"\0")) >= 0:
        return [Fault(name, 0, "", f"a NUL byte (byte {at})", "save it as plain text in UTF-8")]
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        return [Fault(name, 0, "", f"not UTF-8 (byte {error.start}, 0x{data[error.start]:02x})", "save it as UTF-8")]
    return []
