"""Which characters the packaged font can print."""

import importlib.resources
import re
from functools import cache

from generator.errors import DataError

_SURE = re.compile("[\n -~\u00a0-\u00ac\u00ae-\u00ff\u2013\u2014\u2018\u2019\u201c\u201d\u2026\u2032\u2033\u2212]*")
"""Characters in everyday use that the font is known to hold, so that the font need not be opened for them."""


def uncovered(text: str) -> list[str]:
    """Characters of `text` the font lacks, each once, in order."""
    if _SURE.fullmatch(text):
        return []
    return sorted({c for c in text if ord(c) not in covered() and c not in "\n\t"})


@cache
def covered() -> frozenset[int]:
    """Code points of the packaged regular face. Raises DataError if it cannot be read."""
    from fontTools.ttLib import TTFont, TTLibError  # slow to load, and most specs never need it

    face = importlib.resources.files("font_source_sans_pro") / "files" / "SourceSansPro-Regular.ttf"
    try:
        with face.open("rb") as file, TTFont(file, lazy=True) as font:
            return frozenset(font.getBestCmap())
    except (OSError, TTLibError) as error:
        raise DataError(f"the packaged font cannot be read: {error}") from None
