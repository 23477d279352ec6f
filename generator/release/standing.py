"""How a packet stands: a draft, or issued under a revision, for a purpose, with a transmittal."""

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
class Transmittal(Slice):
    """What goes with an issue: who sends what to whom, what it takes the place of, the head of the log before it."""

    number: int
    sender: str
    standing: Standing
    by: str
    due: str
    supersedes: tuple[str, ...]
    files: tuple[SentRow, ...]
    head: str
