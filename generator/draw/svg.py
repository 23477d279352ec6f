"""Writes a display list as SVG: one compound path per pen, one text element per text, true size in mm."""

import math
import re
from collections.abc import Iterable
from xml.sax.saxutils import escape

from generator.draw.marks import Area, Circle, Line, Mark, Text
from generator.draw.pens import FILLS, INK, PENS
from generator.draw.text import CAP_HEIGHT, FAMILY, clean


def write(number: str, title: str, size: tuple[float, float], marks: Iterable[Mark]) -> str:
    """The SVG of one sheet; ids begin with the sheet's number."""
    w, h = size
    prefix = re.sub(r"[^A-Za-z0-9]", "", number)
    listed = tuple(marks)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(w)}mm" height="{_n(h)}mm" viewBox="0 0 {_n(w)} {_n(h)}">',
        f'<title id="{prefix}-title">{escape(clean(title))}</title>',
        f"<style>{_style(prefix)}</style>",
        *(_stroke(prefix, pen, listed) for pen in PENS),
        *(_fill(prefix, fill, listed) for fill in FILLS),
        f'<g id="{prefix}-text">',
        *(_text(prefix, m) for m in listed if isinstance(m, Text)),
        "</g></svg>\n",
    ]
    return "\n".join(p for p in parts if p)


def _style(prefix: str) -> str:
    pens = [
        f"#{prefix}-{name}{{fill:none;stroke:{pen.ink};stroke-width:{_n(pen.width)}"
        + (f";stroke-dasharray:{' '.join(map(_n, pen.dashes))}" if pen.dashes else "")
        + "}"
        for name, pen in PENS.items()
    ]
    text = f"#{prefix}-text{{fill:{INK};font-family:'{FAMILY}'}}"
    return text + "".join(pens)


def _stroke(prefix: str, pen: str, marks: tuple[Mark, ...]) -> str:
    runs = [_run(m) for m in marks if isinstance(m, Line | Circle) and m.pen == pen]
    return f'<path id="{prefix}-{pen}" d="{"".join(runs)}"/>' if runs else ""


def _run(mark: Line | Circle) -> str:
    if isinstance(mark, Circle):
        return _ring(mark)
    first, *rest = mark.points
    return f"M{_p(first)}" + "".join(f"L{_p(p)}" for p in rest) + ("Z" if mark.closed else "")


def _ring(c: Circle) -> str:
    x, y, r = *c.centre, c.radius
    if c.floor is None or c.floor - y >= r:
        return f"M{_p((x - r, y))}A{_n(r)} {_n(r)} 0 1 1 {_p((x + r, y))}A{_n(r)} {_n(r)} 0 1 1 {_p((x - r, y))}Z"
    half = math.sqrt(r * r - (c.floor - y) ** 2)
    large = 1 if c.floor > y else 0
    return f"M{_p((x - half, c.floor))}A{_n(r)} {_n(r)} 0 {large} 1 {_p((x + half, c.floor))}Z"


def _fill(prefix: str, fill: str, marks: tuple[Mark, ...]) -> str:
    runs = [_run(Line(m.id, fill, m.points, closed=True)) for m in marks if isinstance(m, Area) and m.fill == fill]
    return f'<path id="{prefix}-{fill}" fill="{FILLS[fill]}" d="{"".join(runs)}"/>' if runs else ""


def _text(prefix: str, t: Text) -> str:
    x, y = t.at
    where = f'transform="translate({_p(t.at)})rotate(-90)"' if t.turned else f'x="{_n(x)}" y="{_n(y)}"'
    anchor = "" if t.anchor == "start" else f' text-anchor="{t.anchor}"'
    weight = ' font-weight="600"' if t.bold else ""
    size = _n(t.height / CAP_HEIGHT)
    return f'<text {where} font-size="{size}"{anchor}{weight}>{escape(clean(t.text))}</text>'


def _p(point: tuple[float, float]) -> str:
    return f"{_n(point[0])} {_n(point[1])}"


def _n(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
