"""A document as it goes to the PDF engine, in a module that loads nothing: the rendering processes start from it."""

from dataclasses import dataclass
from typing import Literal

PICTURE_BYTES = 230
"""So many bytes of a picture cost the engine as much as one tag of a page; measured."""


@dataclass(frozen=True, slots=True)
class Attached:
    """A file inside a PDF: its name, what it is, its bytes, how it stands to the document, its day (ISO)."""

    name: str
    words: str
    data: bytes
    relationship: Literal["Source", "Data", "Supplement"]
    day: str


@dataclass(frozen=True, slots=True)
class Composed:
    """A document ready for the PDF engine: standalone HTML, the files it names, the files it carries."""

    number: int
    name: str
    title: str
    html: str
    files: dict[str, bytes]
    kind: Literal["document", "form", "archive"]
    attached: tuple["Attached", ...] = ()

    @property
    def weight(self) -> int:
        """About how long the engine works on it: the tags of its page, and its pictures."""
        pictures = sum(len(data) for name, data in self.files.items() if name.endswith(".svg"))
        return self.html.count("<") + pictures // PICTURE_BYTES
