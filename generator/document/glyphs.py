"""Which characters the packaged faces hold: named faults instead of empty boxes, and small faces for the screen."""

import html
import io
import re
from collections.abc import Iterable

from generator.document.files import FACES, font_path

_TAG = re.compile(r"<style.*?</style>|<[^>]*>", re.DOTALL)
COMMON = frozenset(map(chr, range(32, 127))) | frozenset("\u00a0·−–—‘’“”•…≤≥√±°²³⁴½¼¾×Ø′″→\u202f")


def missing(markup: str) -> str:
    """The characters of the text that the regular face lacks, named; empty if it has all."""
    from fontTools.ttLib import TTFont

    text = html.unescape(_TAG.sub(" ", markup))
    used = {c for c in text if not c.isspace() and c.isprintable()}
    if used <= COMMON:
        return ""
    with TTFont(font_path("regular.ttf"), lazy=True) as face:
        held = set(face.getBestCmap())
    return ", ".join(f"{c} (U+{ord(c):04X})" for c in sorted(used) if ord(c) not in held)


def small_faces(texts: Iterable[str]) -> dict[str, bytes]:
    """The faces for the screen with the characters used, by file name."""
    used = COMMON.union(*(set(t) for t in texts))
    return {name.replace(".ttf", ".woff"): _small(name, used) for name in FACES}


def _small(name: str, used: Iterable[str]) -> bytes:
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options(layout_features=["kern"], hinting=False, notdef_outline=True)
    with TTFont(font_path(name), recalcTimestamp=False) as face:
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=sorted(map(ord, used)))
        cutter.subset(face)
        face.flavor = "woff"
        out = io.BytesIO()
        face.save(out)
    return out.getvalue()
