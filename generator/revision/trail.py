"""The folder of what was issued: where everything lies in it, and what its log says.

`issued/log.jsonl` the log; `issued/register.txt` the same for people, with the head of the log; `issued/A/` the design
as it was at revision A (`spec/`, `results.json`, `made-with.json`); `issued/001-A-fabricator/` what that reader got;
`issued/received/` what came back, unopened; `issued/incomplete/` what a killed issue left.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.revision.letters import after
from generator.revision.log import Entry, Issued, Logged, Received, head, read_log

FOLDER, LOG, REGISTER, LOCK = "issued", "log.jsonl", "register.txt", "log.lock"
RECEIVED, INCOMPLETE = "received", "incomplete"
OWN = (LOG, REGISTER, LOCK, RECEIVED, INCOMPLETE)
"""What lies in the folder besides frozen ones."""


@dataclass(frozen=True, slots=True)
class Trail:
    """The log as read: its bytes and its entries."""

    log: bytes
    lines: tuple[Logged, ...]

    @property
    def head(self) -> str:
        """The hash of its last line."""
        return head(self.log)

    @property
    def issued(self) -> tuple[Issued, ...]:
        """The transmittals, oldest first."""
        return tuple(e for line in self.lines if isinstance(e := line.entry, Issued))

    @property
    def received(self) -> tuple[Received, ...]:
        """What came back, oldest first."""
        return tuple(e for line in self.lines if isinstance(e := line.entry, Received))

    @property
    def folders(self) -> frozenset[str]:
        """The frozen folders the log knows."""
        return frozenset(name for e in self.issued for name in (e.folder, e.revision))

    def last(self) -> Issued | None:
        """The last transmittal."""
        return self.issued[-1] if self.issued else None

    def current(self) -> tuple[Issued, ...]:
        """The transmittals their readers should be working by: those no later one supersedes."""
        gone = {n for e in self.issued for n in e.supersedes}
        return tuple(e for e in self.issued if e.number not in gone)

    def superseded_by(self, number: int) -> Issued | None:
        """The transmittal that took the place of this one."""
        return next((e for e in self.issued if number in e.supersedes), None)

    def letter_due(self, basis: str, spoilt: Iterable[str] = ()) -> str:
        """The revision a design of this basis is issued under: the last one if it is the same design, else the next.

        `spoilt`: letters an issue that was cut short had taken for another design.
        """
        last = self.last()
        if last is not None and last.basis == basis:
            return last.revision
        return after((*(e.revision for e in self.issued), *spoilt))


def read_trail(folder: Path) -> Trail:
    """The log of a folder `issued`; empty if there is none. Raises `Broken` as `read_log` does."""
    try:
        data = (folder / LOG).read_bytes()
    except FileNotFoundError:
        data = b""
    return Trail(data, tuple(read_log(data)))


def folder_of(number: int, revision: str, to: str, addressee: str = "") -> str:
    """The name of a transmittal's frozen folder."""
    return "-".join(filter(None, (f"{number:03d}", revision, to, addressee)))


def reader(entry: Issued) -> str:
    """Whom a transmittal went to, in words."""
    return f"{entry.to} {entry.addressee}".strip()


def register_of(trail: Trail) -> str:
    """The log for people: every entry, where each transmittal stands, the head of the log."""
    rows = "".join(f"{line}\n" for logged in trail.lines for line in _told(logged.entry, trail))
    return (
        "Register of what was issued and received. Written from log.jsonl; the log governs.\n\n"
        f"{rows}\nHead of the log after {len(trail.lines)} entries:\n{trail.head}\n"
    )


def _told(entry: Entry, trail: Trail) -> Iterator[str]:
    match entry:
        case Issued():
            what = f"transmittal {entry.number}, revision {entry.revision}, to {reader(entry)}, {entry.purpose}"
            yield f"{entry.date}  {what}"
            later = trail.superseded_by(entry.number)
            if later is not None:
                yield f"    SUPERSEDED by transmittal {later.number}, revision {later.revision}, on {later.date}"
            for waiver in entry.waivers:
                yield f"    waived: {waiver}"
            yield f"    {entry.folder}, manifest {entry.manifest}"
        case Received():
            what = f", answering transmittal {entry.answers}" if entry.answers else ""
            yield f"{entry.at}  received {entry.number}: {entry.what} from {entry.sender}{what}"
            yield f"    {entry.file}, {entry.size} bytes, SHA-256 {entry.sha256}"


def supersedes(trail: Trail, to: str, addressee: str, revision: str) -> tuple[int, ...]:
    """Numbers of the transmittals of an earlier revision that this reader holds and should put away."""
    return tuple(e.number for e in trail.current()
                 if (e.to, e.addressee) == (to, addressee) and e.revision != revision)
