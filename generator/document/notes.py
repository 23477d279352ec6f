"""Markdown prose to HTML through an allow-list of elements; anything else is shown as the text it is."""

import re
from xml.etree.ElementTree import Element

import markdown
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

ALLOWED = frozenset(
    {
        "p",
        "h3",
        "h4",
        "h5",
        "ul",
        "ol",
        "li",
        "strong",
        "em",
        "code",
        "pre",
        "blockquote",
        "hr",
        "br",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "div",
    }
)
_LEVELS = {"h1": "h4", "h2": "h5", "h3": "h5", "h4": "h5", "h5": "h5", "h6": "h5"}
_LINK = re.compile(r"(?:https?://|mailto:)[^\s\"'<>]+\Z", re.IGNORECASE)


class _Allow(Treeprocessor):
    """Rewrites the element tree: headings one level under their section, links and images as text."""

    def run(self, root: Element) -> None:
        for parent in list(root.iter()):
            for child in list(parent):
                self._tame(child)

    def _tame(self, element: Element) -> None:
        tag = element.tag if isinstance(element.tag, str) else "p"
        target = element.get("href") or element.get("src") or ""
        words = element.get("alt", "")
        element.attrib.clear()
        element.tag = _LEVELS.get(tag, tag)
        if tag == "a":
            self._link(element, target)
        elif tag == "img":
            element.tag, element.text = "em", f"[picture not shown: {words or target}]"
        elif element.tag not in ALLOWED:
            element.tag = "span"

    def _link(self, element: Element, target: str) -> None:
        if _LINK.match(target):
            element.tag = "a"
            element.set("href", target)
        else:
            element.tag = "span"
        shown = target.removeprefix("mailto:")
        if shown and shown not in "".join(element.itertext()):
            last = element[-1] if len(element) else None
            if last is None:
                element.text = f"{element.text or ''} ({shown})"
            else:
                last.tail = f"{last.tail or ''} ({shown})"


def html_of(text: str) -> Markup:
    """Prose in Markdown as HTML of the allowed elements; raw HTML is shown as text."""
    made = _markdown().convert(text)
    return Markup(made)


def _markdown() -> markdown.Markdown:
    engine = markdown.Markdown(extensions=["tables", "sane_lists"], output_format="html")
    engine.preprocessors.deregister("html_block")
    for name in ("html", "autolink", "automail"):
        engine.inlinePatterns.deregister(name)
    engine.treeprocessors.register(_Allow(engine), "allow", 1)
    return engine
