"""The log of what left the house and what came back: a line an entry, each carrying the hash of the line before it."""

import hashlib
import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, fields
from typing import Any, Literal

FIRST = "0" * 64
"""What the first line carries in place of a hash."""
KEPT_IN = "received/"
"""Where what came back is kept, within the folder of what was issued."""
_NAME = re.compile(r"[0-9A-Za-z][0-9A-Za-z._-]{0,119}")


@dataclass(frozen=True, slots=True)
class Issued:
    """A transmittal: number, revision, reader, purpose, day, frozen folder with its manifest, and what it was made of.

    `addressee`: which of several readers of a kind; `record`: hash of the manifest of the revision's own folder;
    `basis`: hash of spec, program and data; `reference`: hash of the reference data; `supersedes`: numbers of the
    transmittals that this reader should no longer use.
    """

    number: int
    revision: str
    to: str
    purpose: str
    date: str
    folder: str
    manifest: str
    record: str
    basis: str
    reference: str
    tool: str
    seed: int
    addressee: str = ""
    by: str = ""
    due: str = ""
    supersedes: tuple[int, ...] = ()
    waivers: tuple[str, ...] = ()
    kind: Literal["issue"] = "issue"


@dataclass(frozen=True, slots=True)
class Received:
    """Something that came back, kept unopened: which transmittal it answers, from whom, when, the file and its hash."""

    number: int
    answers: int
    what: str
    sender: str
    at: str
    file: str
    sha256: str
    size: int
    kind: Literal["receive"] = "receive"


Entry = Issued | Received


@dataclass(frozen=True, slots=True)
class Logged:
    """An entry with the hash of the line before it and of its own line."""

    entry: Entry
    previous: str
    hash: str


class Broken(ValueError):
    """A line of the log that cannot be read or does not follow from the one before it; `line` counts from 1."""

    def __init__(self, line: int, what: str) -> None:
        self.line = line
        self.what = what
        super().__init__(what)


def line_of(entry: Entry, previous: str) -> bytes:
    """The line of an entry, without its end."""
    return json.dumps({"entry": asdict(entry), "previous": previous}, sort_keys=True, ensure_ascii=False).encode()


def hash_of(line: bytes) -> str:
    """The hash the next line carries."""
    return hashlib.sha256(line).hexdigest()


def log_of(entries: Iterable[Entry]) -> bytes:
    """The whole log of these entries."""
    previous, lines = FIRST, []
    for entry in entries:
        lines.append(line_of(entry, previous))
        previous = hash_of(lines[-1])
    return b"".join(line + b"\n" for line in lines)


def appended(log: bytes, entry: Entry) -> bytes:
    """The log with one more line; what stands in it stays byte for byte."""
    return log + line_of(entry, head(log)) + b"\n"


def head(log: bytes) -> str:
    """The hash of the last line: what a print of it proves about all lines before."""
    lines = log.split(b"\n")[:-1]
    return hash_of(lines[-1]) if lines else FIRST


def read_log(log: bytes) -> Iterator[Logged]:
    """The entries in order; raises Broken at the first line that is torn, is no entry, or does not follow."""
    previous = FIRST
    *lines, rest = log.split(b"\n")
    for number, line in enumerate(lines, 1):
        entry, carried = _read(line, number)
        if carried != previous:
            raise Broken(number, "does not carry the hash of the line before it: one of the two was edited, "
                                 "added or taken away")
        previous = hash_of(line)
        yield Logged(entry, carried, previous)
    if rest:
        raise Broken(len(lines) + 1, "is half written")


def _read(line: bytes, number: int) -> tuple[Entry, str]:
    try:
        held = json.loads(line)
        given = dict(held["entry"])
        made = {"issue": Issued, "receive": Received}[given["kind"]]
        entry = made(**{k: tuple(v) if isinstance(v, list) else v for k, v in given.items()})
        carried = str(held["previous"])
    except (ValueError, KeyError, TypeError, RecursionError):
        raise Broken(number, "is no entry of a log") from None
    if not _is_sound(entry) or line_of(entry, carried) != line:
        raise Broken(number, "is not written as an entry is")
    return entry, carried


def _is_sound(entry: Any) -> bool:
    """Whether every plain field holds the type its record promises, and no name leads out of the folder."""
    typed = all(f.type not in (int, str) or type(getattr(entry, f.name)) is f.type for f in fields(entry))
    names = (entry.folder, entry.revision) if isinstance(entry, Issued) else (entry.file.removeprefix(KEPT_IN),)
    return typed and all(_NAME.fullmatch(name) for name in names)
