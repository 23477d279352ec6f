"""All documents of a packet as one: for the shelf, or to be sent as a single file."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from generator.document.composed import Attached, Composed
from generator.document.documents import Packet, page_of, parts_of, print_files, spelt
from generator.document.templates import environment

NAME, TITLE = "packet", "Packet"
_NAMED = re.compile(r'(\b(?:id|for|headers)="|\bhref="#)')


@dataclass(frozen=True, slots=True)
class Bound:
    """A document within the whole: the name its style goes by, its body."""

    name: str
    html: Markup


def whole(packet: Packet, attached: Sequence[Attached] = ()) -> Composed:
    """The packet as one document; with files to carry it becomes an archive."""
    env, cover = environment(web=False), packet.context.cover
    bound = []
    for document in packet.documents:
        page = page_of(document.number, document.name, document.title, cover, document.parts)
        html = env.get_template("body.html").render(page=page, parts=parts_of(document, env))
        bound.append(Bound(document.name, Markup(_renamed(html, document.number, document.name))))
    page = page_of(None, NAME, TITLE, cover, ())
    html = env.get_template("whole.html").render(page=page, documents=bound)
    kind: Literal["archive", "document"] = "archive" if attached else "document"
    return Composed(0, NAME, TITLE, spelt(html, cover), print_files(packet, html), kind, tuple(attached))


def _renamed(html: str, number: int, name: str) -> str:
    """The markup with every anchor and every link to one put under its document: two may have sections alike."""
    return _NAMED.sub(rf"\g<1>{number}-{name}-", html)
