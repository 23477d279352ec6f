"""The documents: which sections each has, composed for one desk as a filter over the slices it holds."""

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from jinja2 import Environment
from markupsafe import Markup

from generator.document import words
from generator.document.blocks import Picture
from generator.document.catalogue import DOCUMENTS, Document
from generator.document.codes import codes_of
from generator.document.composed import Composed as Composed
from generator.document.files import FACES, font, style
from generator.document.fit import one_page
from generator.document.plots import made as plotted
from generator.document.reply import FORM, as_csv, form_blocks
from generator.document.section import Context, Drawn, Lacking, Part
from generator.document.sections import drawings
from generator.document.sections.way_out import with_words
from generator.document.templates import environment, rendered
from generator.errors import RenderError
from generator.release.slices import Cover, Decision, Desk, Register, Request
from generator.units import Show

LIMITS = (
    "Preliminary sizing aid: not sealed, not approved. The maker certifies ratings; "
    "local code and licensed people decide."
)
ONE_PAGE = 0
"""The document whose first page holds all that is needed to decide; parts on a new page are left whole."""
SHEETS = 9
"""From this number on documents are sheets of one or two pages, without a list of contents."""
FEW = 4
"""With fewer parts a document needs no list of contents."""


@dataclass(frozen=True, slots=True)
class Assembled:
    """A document with its parts, before it becomes HTML."""

    number: int
    name: str
    title: str
    parts: tuple[Part, ...]

    @property
    def stem(self) -> str:
        """Its file name without an ending."""
        return f"{self.number}-{self.name}"


@dataclass(frozen=True, slots=True)
class Page:
    """What the frame of a document needs: identity, language, paper, contents."""

    title: str
    heading: str
    lang: str
    author: str
    description: str
    name: str
    project: str
    revision: str
    recipient: str
    purpose: str
    stand: str
    limits: str
    summary: str
    identity: tuple[tuple[str, str, str], ...]
    contents: tuple[Part, ...] = ()
    is_form: bool = False


@dataclass(frozen=True, slots=True)
class Shown:
    """A part as HTML."""

    anchor: str
    title: str
    html: Markup
    new_page: bool


@dataclass(frozen=True, slots=True)
class Packet:
    """What PDFs and pages for the screen share: the documents as parts, and the pictures they name, made once."""

    desk: Desk
    context: Context
    documents: tuple[Assembled, ...]
    pictures: Mapping[str, bytes]


def assemble(desk: Desk, sheets: tuple[Drawn, ...], show: Show, lacking: tuple[Lacking, ...] = ()) -> Packet:
    """The documents of a desk, as parts; one without a part does not exist. `lacking`: sheets that cannot be drawn."""
    register = desk.get(Register)
    codes = codes_of(register if isinstance(register, Register) else None)
    context = Context(show, cover_of(desk), sheets, lacking, codes)
    documents = tuple(a for d in DOCUMENTS if desk.get(d.needs) is not None and (a := _assembled(d, desk, context)))
    return Packet(desk, context, documents, _pictures(desk, context, documents))


def _assembled(d: Document, desk: Desk, context: Context) -> "Assembled | None":
    parts = tuple(p for s in d.sections if (p := s.part(desk, context)) is not None)
    if d.number == ONE_PAGE:
        first, rest = (tuple(p for p in parts if p.new_page is on) for on in (False, True))
        parts = (*one_page(first, "letter" if context.cover.units == "us" else "a4"), *rest)
        held = desk.get(Decision)
        parts = with_words(parts, held.words if isinstance(held, Decision) else ())
    return Assembled(d.number, d.name, d.title, parts) if parts else None


def _pictures(desk: Desk, context: Context, documents: Iterable[Assembled]) -> dict[str, bytes]:
    """The sheets and the plots that stand in documents."""
    sheets = {drawings.file_of(s): spelt(s.svg(), context.cover).encode() for s in context.sheets}
    named = {b.file for d in documents for p in d.parts for b in p.blocks if isinstance(b, Picture)}
    plots = {name: spelt(svg.decode(), context.cover).encode() for name, svg in plotted(desk, context, named).items()}
    return sheets | plots


def compose(packet: Packet, without: Container[str] = ()) -> tuple[Composed, ...]:
    """All documents for the PDF engine but those named, the reply form after the request it belongs to."""
    env = environment(web=False)
    made = []
    for document in packet.documents:
        if document.stem in without:
            continue
        page = page_of(document.number, document.name, document.title, packet.context.cover, document.parts)
        made.append(_composed(document, page, packet, env, "document"))
        if document.number == FORM.number:
            made += _form(packet, env)
    return tuple(made)


def _form(packet: Packet, env: Environment) -> list[Composed]:
    request = packet.desk.get(Request)
    if not isinstance(request, Request):
        return []
    parts = form_blocks(request, packet.context.cover)
    document = Assembled(FORM.number, FORM.name, FORM.title, parts)
    page = page_of(document.number, document.name, document.title, packet.context.cover, parts, is_form=True)
    return [_composed(document, page, packet, env, "form")]


def parts_of(document: Assembled, env: Environment) -> tuple[Shown, ...]:
    """The parts of a document as HTML."""
    return tuple(Shown(p.anchor, p.title, rendered(p.blocks, env), p.new_page) for p in document.parts)


def _composed(
    document: Assembled, page: Page, packet: Packet, env: Environment, kind: Literal["document", "form"]
) -> Composed:
    html = env.get_template("document.html").render(page=page, parts=parts_of(document, env))
    files = print_files(packet, html)
    return Composed(document.number, document.stem, document.title, spelt(html, packet.context.cover), files, kind)


def print_files(packet: Packet, html: str) -> dict[str, bytes]:
    """The files a page for print names: pictures, style sheets for the paper, font faces."""
    paper = "letter.css" if packet.context.cover.units == "us" else "a4.css"
    return {
        **{name: data for name, data in packet.pictures.items() if f'src="{name}"' in html},
        "shared.css": style("shared.css"),
        "print.css": style(paper) + style("print.css"),
        **{name: font(name) for name in FACES},
    }


def spelt(markup: str, cover: Cover) -> str:
    """The markup in the spelling of the units shown; names of people, project and purpose stay as they are."""
    if cover.units != "us":
        return markup
    return words.us_markup(markup, (cover.title, cover.owner, cover.designer, cover.recipient))


def page_of(
    number: int | None, name: str, title: str, cover: Cover, parts: Iterable[Part], is_form: bool = False
) -> Page:
    """The frame of a document."""
    held = tuple(parts)
    heading = title if number is None else f"{number}  {title}"
    revision = f"revision {cover.revision}" + (f" of {cover.date}" if cover.date else "")
    is_long = number is not None and ONE_PAGE < number < SHEETS
    contents = held if len(held) >= FEW and is_long and not is_form else ()
    return Page(
        f"{title}: {cover.title}, {revision}",
        heading,
        "en-US" if cover.units == "us" else "en-GB",
        cover.designer or cover.owner,
        f"{title} for {cover.recipient}, {cover.purpose}",
        name,
        cover.title,
        revision,
        f"for {cover.recipient}",
        cover.purpose,
        cover.status,
        LIMITS,
        cover.summary,
        identity_of(cover, revision),
        contents,
        is_form,
    )


def identity_of(cover: Cover, revision: str) -> tuple[tuple[str, str, str], ...]:
    """What stands on every document: name of the field, label, text."""
    return (
        ("project", "Project", cover.title),
        ("revision", "Revision", revision),
        ("recipient", "For", f"for {cover.recipient}"),
        ("purpose", "Purpose", cover.purpose),
        ("basis", "Basis", cover.basis_hash[:12]),
    )


def cover_of(desk: Desk) -> Cover:
    """The cover every desk holds."""
    cover = desk.get(Cover)
    if not isinstance(cover, Cover):
        raise RenderError("the packet has no cover; every recipient is granted one")
    return cover


def reply_csv(desk: Desk) -> dict[str, bytes]:
    """The table twin of the reply form, by file name; nothing without a request."""
    request, cover = desk.get(Request), cover_of(desk)
    if not isinstance(request, Request):
        return {}
    if cover.units == "us":
        rows = (replace(r, item=words.us(r.item), requested=words.us(r.requested)) for r in request.reply)
        request = replace(request, reply=tuple(rows))
    return {f"{FORM.number}-{FORM.name}.csv": as_csv(request, cover)}
