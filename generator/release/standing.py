"""How a packet stands: issued under a revision, for a purpose, with a transmittal; and what moved since another."""

from dataclasses import dataclass

from generator.release.base import Slice

PURPOSES = {
    "review": "for review",
    "quote": "for quotation",
    "approval": "for approval",
    "fabrication": "for fabrication",
    "information": "for information",
    "as-built": "as built",
}
"""What a packet may be issued for, and how that prints."""
UNSETTLED = "review"
"""The one purpose a design may be issued for while a compulsory check is not settled."""


@dataclass(frozen=True, slots=True)
class Waived:
    """A check set aside for one revision: its id and title, by which role, when, why."""

    check: str
    title: str
    role: str
    date: str
    reason: str


@dataclass(frozen=True, slots=True)
class Standing:
    """What an issue prints on every page: revision, day, purpose, number of the transmittal, waivers."""

    revision: str
    date: str
    purpose: str
    number: int
    waivers: tuple[Waived, ...] = ()

    @property
    def words(self) -> str:
        """The purpose as printed."""
        return PURPOSES[self.purpose]


@dataclass(frozen=True, slots=True)
class SentRow:
    """A document of a transmittal: file, title, pages as text (empty for a table), SHA-256 of its bytes."""

    file: str
    title: str
    pages: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Sending:
    """What a transmittal says besides its files: to which of several readers, how, till when an answer is due, more.

    `supersedes`: folders of what it takes the place of; `head`: the hash the log ended with before, empty if it had no
    entry.
    """

    addressee: str
    by: str
    due: str
    supersedes: tuple[str, ...]
    head: str


@dataclass(frozen=True, slots=True)
class Transmittal(Slice):
    """What goes with an issue: who sends what to whom, and the files with their hashes."""

    sender: str
    standing: Standing
    sending: Sending
    files: tuple[SentRow, ...]


@dataclass(frozen=True, slots=True)
class Moved:
    """Something that is other than it was: its id or path, title, old and new text, by how much in percent."""

    id: str
    title: str
    was: str
    now: str
    percent: str = ""


@dataclass(frozen=True, slots=True)
class Changes(Slice):
    """What moved since an earlier revision.

    `fields`: texts of the spec, for the owner alone; `numbers`: results; `less`: how many more moved by less than a
    hundredth; `flips`: checks; `clauses`: texts of the request; `data`: what of program and reference data is other;
    `untouched`: topics of checks none of whose results moved; `holders` and `stale`: who holds what is out of date.
    """

    since: str
    numbers: tuple[Moved, ...]
    less: int
    flips: tuple[Moved, ...]
    clauses: tuple[Moved, ...]
    untouched: tuple[str, ...]
    fields: tuple[Moved, ...] = ()
    data: tuple[str, ...] = ()
    holders: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()
