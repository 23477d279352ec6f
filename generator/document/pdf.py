"""From composed HTML to PDF: tagged, packaged fonts only, nothing fetched from anywhere, every message a fault."""

import gc
import io
import logging
import os
import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from typing import Any

from generator.document.composed import Attached, Composed
from generator.document.files import template_folder
from generator.document.glyphs import missing
from generator.errors import RenderError

HOME = "http://document.invalid/"
"""The base address of a document: a name no network has; the fetcher below looks only into the file map."""
VARIANTS = {"document": "pdf/ua-1", "form": "pdf/ua-1", "archive": "pdf/a-3a"}
"""What is kept for years is PDF/A-3 with its sources inside; what is worked with is PDF/UA-1."""
TYPES = {"css": "text/css", "svg": "image/svg+xml", "ttf": "font/ttf", "png": "image/png", "jpg": "image/jpeg"}


def render_pdf(composed: Composed) -> bytes:
    """One document as PDF/UA-1; raises RenderError for any message of the engine."""
    lacking = missing(composed.html)
    if lacking:
        raise RenderError(f"{composed.name}: the packaged font lacks {lacking}; write it another way")
    engine = start_engine()
    heard = _Heard()
    logger = logging.getLogger("weasyprint")
    logger.addHandler(heard)
    try:
        with _without_collecting():
            page = engine.HTML(string=composed.html, base_url=HOME, url_fetcher=_fetcher(engine, composed.files))
            data = page.write_pdf(
                font_config=engine.text.fonts.FontConfiguration(),
                pdf_variant=VARIANTS[composed.kind],
                pdf_forms=composed.kind == "form",
                pdf_tags=True,
                attachments=[_attachment(engine, a) for a in composed.attached],
                pdf_identifier=composed.name.encode(),
            )
    except engine.urls.FatalURLFetchingError as fault:
        raise RenderError(f"{composed.name}: {fault}") from fault
    finally:
        logger.removeHandler(heard)
    if heard.messages:
        raise RenderError(f"{composed.name}: " + "; ".join(heard.messages[:5]))
    return bytes(data)


def start_engine() -> Any:
    """Load the PDF engine with its fonts pinned; raises RenderError where its libraries are missing."""
    # Another font configuration changes the bytes even when every font is embedded, so the packaged one is pinned.
    os.environ["FONTCONFIG_FILE"] = str(template_folder() / "fonts.conf")
    try:
        with _no_machine_fonts():
            import weasyprint
            import weasyprint.text.fonts
            import weasyprint.urls
    except (ImportError, OSError) as fault:
        raise RenderError(f"the PDF engine cannot start ({fault}); the HTML pages are complete without it") from fault
    return weasyprint


@contextmanager
def _no_machine_fonts() -> Iterator[None]:
    # That the machine offers no font is what we want: the style sheets bring their own.
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "No fonts configured", UserWarning)
        yield


@contextmanager
def _without_collecting() -> Iterator[None]:
    # The engine makes a million objects and drops them all at the end: looking for garbage meanwhile finds none and
    # takes a quarter of the time. What an earlier document left is collected first.
    gc.collect()
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _attachment(engine: Any, a: Attached) -> Any:
    # The engine would take the hour from the clock; the day of the revision is the day of its files.
    day = datetime.fromisoformat(a.day)
    return engine.Attachment(string=a.data, name=a.name, description=a.words, relationship=a.relationship,
                             created=day, modified=day)


class _Heard(logging.Handler):
    """Keeps every message from WARNING up."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(record.getMessage())


def _fetcher(engine: Any, files: Mapping[str, bytes]) -> Any:
    class Fetcher(engine.urls.URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: Any = None) -> Any:
            name = url.removeprefix(HOME)
            if not url.startswith(HOME) or name not in files:
                raise engine.urls.FatalURLFetchingError(f"{url} is not part of this document")
            kind = TYPES.get(name.rsplit(".", 1)[-1], "application/octet-stream")
            return engine.urls.URLFetcherResponse(url, files[name], {"Content-Type": kind})

    return Fetcher()


def attached_in(pdf: bytes) -> dict[str, bytes]:
    """The files a PDF carries, by name; raises RenderError for bytes that are no PDF."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        return {name: found[0] for name, found in PdfReader(io.BytesIO(pdf)).attachments.items()}
    except (PyPdfError, ValueError, KeyError, RecursionError) as fault:
        raise RenderError(f"not a PDF that can be read: {fault}") from None


def pages_in(pdf: bytes) -> int:
    """How many pages a PDF has."""
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(pdf)).pages)
