"""The list of a folder's files with their hashes, written, read and compared."""

import hashlib
import re
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

MANIFEST = "manifest.sha256"
MARK = ".packet"
"""What `build` leaves in a folder to know it again; in no manifest."""
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


@dataclass(frozen=True, slots=True)
class Problem:
    """Something that is not as it was written: where, what kind, in words."""

    where: str
    kind: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.kind}: {self.what}"


def manifest(files: Iterable[tuple[str, bytes]]) -> str:
    """`sha256  path` lines sorted by path, as `sha256sum -c` reads them."""
    return "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(files))


def listed(text: str, where: str) -> tuple[dict[str, str], list[Problem]]:
    """The hashes of a manifest by path, and its own faults: no line may leave the folder or stand twice."""
    found: dict[str, str] = {}
    problems: list[Problem] = []
    for number, line in enumerate(text.splitlines(), 1):
        place = f"{where}/{MANIFEST}:{number}"
        match = _LINE.fullmatch(line)
        if match is None:
            problems.append(Problem(place, "strange line", "not a hash, two spaces and a path"))
        elif leaves(match[2]):
            problems.append(Problem(place, "strange path", f"{match[2]!r} leads out of the folder; not followed"))
        elif match[2] in found:
            problems.append(Problem(place, "listed twice", match[2]))
        else:
            found[match[2]] = match[1]
    return found, problems


def compared(folder: Path, where: str, beside: Collection[str] = ()) -> Iterator[Problem]:
    """What of a folder is not as its manifest lists it: changed, missing, extra, no plain file.

    `beside`: names that may lie there unlisted.
    """
    try:
        text = (folder / MANIFEST).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        yield Problem(where, "no manifest", f"{MANIFEST} is missing or cannot be read")
        return
    wanted, problems = listed(text, where)
    yield from problems
    there = {p.relative_to(folder).as_posix(): p for p in sorted(folder.rglob("*")) if p.is_symlink() or not p.is_dir()}
    for name in sorted(wanted):
        path = there.get(name)
        if path is None:
            yield Problem(f"{where}/{name}", "missing", "listed in the manifest, not in the folder")
        elif path.is_symlink() or not path.is_file():
            yield Problem(f"{where}/{name}", "no plain file", "a link or device stands in its place; not followed")
        elif _hash(path) != wanted[name]:
            yield Problem(f"{where}/{name}", "changed", "its bytes are not those that were frozen")
    for name in sorted(set(there) - set(wanted) - {MANIFEST, *beside}):
        yield Problem(f"{where}/{name}", "extra", "not listed in the manifest")


def _hash(path: Path) -> str:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def leaves(name: str) -> bool:
    """Whether a path is absolute, leads up, or is not written plainly."""
    path = PurePosixPath(name)
    return path.is_absolute() or ".." in path.parts or "\\" in name or path.as_posix() != name
