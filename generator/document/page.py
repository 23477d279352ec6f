"""The packet as pages for the screen: one folder, no script, readable on a phone and on a desk."""

import base64
from collections.abc import Mapping
from dataclasses import dataclass

from generator.document import documents as d
from generator.document.files import style
from generator.document.glyphs import small_faces
from generator.document.reply import FORM
from generator.document.templates import environment
from generator.release.slices import Desk, Request


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the index: number, title, its page, its other files."""

    number: int
    title: str
    page: str
    files: tuple[str, ...]


def site(packet: d.Packet, with_pdf: bool = True) -> dict[str, bytes]:
    """The folder of pages by file name; without PDFs the index names none."""
    cover = packet.context.cover
    env = environment(web=True)
    made: dict[str, str] = {}
    entries = []
    for document in packet.documents:
        parts = d.parts_of(document, env)
        page = d.page_of(document.number, document.name, document.title, cover, document.parts)
        made[f"{document.stem}.html"] = env.get_template("page.html").render(page=page, parts=parts)
        files = _files(document, packet.desk, with_pdf)
        entries.append(Entry(document.number, document.title, f"{document.stem}.html", files))
    index = d.page_of(None, "index", "Packet", cover, ())
    made["index.html"] = env.get_template("index.html").render(page=index, documents=entries)
    pages = {name: d.spelt(html, cover) for name, html in made.items()}
    faces = small_faces([*pages.values(), *(p.decode() for p in packet.pictures.values())])
    return {
        **{n: html.encode() for n, html in pages.items()},
        **_with_faces(packet.pictures, faces),
        **faces,
        "shared.css": style("shared.css"),
        "screen.css": style("screen.css"),
    }


def _files(document: d.Assembled, desk: Desk, with_pdf: bool) -> tuple[str, ...]:
    own = (f"{document.stem}.pdf",) if with_pdf else ()
    if document.number != FORM.number or desk.get(Request) is None:
        return own
    form = f"{FORM.number}-{FORM.name}"
    return (*own, *((f"{form}.pdf",) if with_pdf else ()), f"{form}.csv")


def _with_faces(pictures: Mapping[str, bytes], faces: Mapping[str, bytes]) -> dict[str, bytes]:
    """Pictures that carry their faces: an SVG shown as an image can reach no other file."""
    rules = "".join(
        f'@font-face {{ font-family: "Source Sans Pro"; font-weight: {weight}; '
        f"src: url(data:font/woff;base64,{base64.b64encode(faces[name]).decode()}); }}\n"
        for name, weight in (("regular.woff", 400), ("semibold.woff", 600))
    )
    head = f"<style>{rules}</style>".encode()
    return {name: _after_root(svg, head) for name, svg in pictures.items()}


def _after_root(svg: bytes, head: bytes) -> bytes:
    end = svg.index(b">", svg.index(b"<svg")) + 1
    return svg[:end] + head + svg[end:]
