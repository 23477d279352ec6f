"""Widths of text from the packaged font file, so that every box is known before anything is drawn."""

import importlib.util
from functools import lru_cache
from pathlib import Path

from fontTools.ttLib import TTFont, TTLibError

from generator.errors import DataError

FAMILY = "Source Sans Pro"
CAP_HEIGHT = 0.660
"""Height of capitals per font size. Source: OS/2 table of the packaged font files."""
DESCENT = 0.30
"""Room below the baseline per text height: tails of g and y, and of a comma."""
KERNING = 1.02
"""Allowance for kerning, which widths from the file leave out."""

Widths = tuple[dict[int, float], float]


def font_path(bold: bool) -> Path:
    """The packaged font file: regular or semibold."""
    spec = importlib.util.find_spec("font_source_sans_pro")
    if spec is None or spec.origin is None:
        raise DataError("the packaged font font-source-sans-pro is not installed; run ./packet once to install it")
    return Path(spec.origin).parent / "files" / f"SourceSansPro-{'Semibold' if bold else 'Regular'}.ttf"


@lru_cache(maxsize=2)
def _widths(bold: bool) -> Widths:
    """Advance of each character per font size, and that of a character the font lacks."""
    path = font_path(bold)
    try:
        with TTFont(path, lazy=True) as font:
            advances, names = dict(font["hmtx"].metrics), font.getBestCmap()
            em = font["head"].unitsPerEm
    except (OSError, KeyError, TTLibError) as fault:
        raise DataError(f"the packaged font {path.name} cannot be read") from fault
    return {code: advances[name][0] / em for code, name in names.items()}, advances[".notdef"][0] / em


def width(text: str, height: float, bold: bool = False) -> float:
    """Width (mm) of a line of text whose capitals stand `height` mm high."""
    table, other = _widths(bold)
    return sum(table.get(ord(c), other) for c in text) * height / CAP_HEIGHT * KERNING


def clean(text: str) -> str:
    """The text with what the font or XML cannot carry replaced by a question mark, on one line."""
    table, _ = _widths(False)
    return "".join(
        c if (ord(c) in table and c.isprintable()) or c in "\u00a0\u202f" else " " if c.isspace() else "?" for c in text
    )


def fit(text: str, height: float, room: float, bold: bool = False) -> str:
    """The text cut to `room` mm, with an ellipsis where something was cut."""
    text = clean(text)[:400]
    if width(text, height, bold) <= room:
        return text
    while text and width(text + "…", height, bold) > room:
        text = text[:-1]
    return text.rstrip() + "…"


def wrap(text: str, height: float, room: float, most: int) -> tuple[str, ...]:
    """The text broken at spaces into at most `most` lines of `room` mm; the last is cut with an ellipsis."""
    lines: list[str] = []
    for word in clean(text).split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, height) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    kept = lines[:most]
    if len(lines) > most:
        kept[-1] += "…"
    return tuple(fit(line, height, room) for line in kept)
