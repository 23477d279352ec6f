"""The transmittal: what is sent to whom, for what, what it takes the place of, and room to acknowledge it."""

from generator.document.blocks import Block, Head, Prose, table
from generator.document.filled import boxes
from generator.document.section import Context, Section
from generator.release.slices import Transmittal

SHOWN = 16
"""Characters of a hash that stand in a row; the whole of it stands in the manifest."""


def sent(t: Transmittal, context: Context) -> tuple[Block, ...]:
    """Number, sender, reader, purpose, day."""
    s, how = t.standing, t.sending
    pairs = (
        ("Transmittal", str(s.number)), ("Revision", s.revision), ("Date", s.date), ("Issued", s.words),
        ("From", t.sender), ("To", f"{context.cover.recipient} {how.addressee}".strip()),
        ("Sent by", how.by), ("Answer due", how.due),
        ("Takes the place of", "; ".join(how.supersedes) or "nothing sent before"),
    )
    return (boxes("Transmittal", pairs),)


def files(t: Transmittal, context: Context) -> tuple[Block, ...]:
    """The documents with their pages and hashes."""
    heads = (Head("File", width=34), Head("Document", width=30), Head("Pages", True, 8), Head("SHA-256", width=28))
    rows = [(f.file, f.title, f.pages, f"{f.sha256[:SHOWN]}…") for f in t.files]
    note = ("Every file of the folder stands with its whole hash in manifest.sha256; `sha256sum -c manifest.sha256` "
            "reads it. Put away what this transmittal takes the place of; do not mix pages of two revisions.")
    return (table("Documents", heads, rows, note=note, is_titled=True),)


def waivers(t: Transmittal, context: Context) -> tuple[Block, ...]:
    """The compulsory checks set aside, if any."""
    heads = (Head("Check", width=38), Head("Set aside by", width=18), Head("Date", width=12), Head("Why", width=32))
    rows = [(f"{w.title} ({w.check})", w.role, w.date, w.reason) for w in t.standing.waivers]
    return (table("Checks set aside for this revision", heads, rows, is_titled=True),) if rows else ()


def log(t: Transmittal, context: Context) -> tuple[Block, ...]:
    """The head of the log before this entry."""
    return (
        Prose((
            *(("The sender's log before this entry ended with the line whose hash is:", t.sending.head)
              if t.sending.head else ("This is the first entry of the sender's log.",)),
            "Keep this page: a log that was changed later no longer leads to this number.",
        ), "small"),
    )


def acknowledged(t: Transmittal, context: Context) -> tuple[Block, ...]:
    """Boxes for the reader's answer."""
    pairs = (("Received on", ""), ("Received by (role)", ""), ("All files open and complete", ""), ("Signed", ""))
    return (boxes("Acknowledgement", pairs),)


SENT = Section("transmittal", "Transmittal", Transmittal, sent)
FILES = Section("sent-files", "Documents", Transmittal, files)
WAIVERS = Section("waivers", "Checks set aside", Transmittal, waivers)
LOG = Section("log-head", "Head of the log", Transmittal, log)
ACKNOWLEDGED = Section("acknowledgement", "Acknowledgement", Transmittal, acknowledged)
