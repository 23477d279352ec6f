"""Stations of steel along the trailer: what stands at each, in words and as the text of an ordinate."""

from collections.abc import Iterable
from dataclasses import dataclass

from generator.draw.sheets.kit import Kit

LETTERS = (22, 14, 8)
"""Letters beside a station, tried in turn until the view has room; marks left out stand in the schedule."""


@dataclass(frozen=True, slots=True)
class Place:
    """A station (m): the rank by which it keeps its ordinate, its name, the marks centred and ending there."""

    x: float
    rank: int
    name: str = ""
    centres: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """Name of its ordinate."""
        return f"{self.x:.4f}"

    @property
    def words(self) -> str:
        """What stands at the station."""
        parts = [self.name] if self.name else []
        parts += [f"centre line of {', '.join(self.centres)}"] if self.centres else []
        parts += [f"end of {', '.join(self.ends)}"] if self.ends else []
        return "; ".join(parts)

    def short(self, letters: int) -> str:
        """Beside the station on the drawing: a name and the marks that fit into so many letters, `+2` for two more.

        Marks that end there stand after `end`: their middle is elsewhere.
        """
        said = [w for w in (self.name.split(",")[0].split(" of ")[0],) if w]
        centred = sorted(self.centres)
        marks = [*centred, *sorted({*self.ends} - {*centred})]
        for n in range(len(marks), -1, -1):
            left = [f"+{len(marks) - n}"] if n < len(marks) else []
            ends = ["end", *marks[len(centred):n]] if n > len(centred) else []
            text = " ".join([*said, *marks[:min(n, len(centred))], *ends, *left])
            if len(text) <= letters:
                return text
        return said[0] if said else ""


def places(
    named: Iterable[tuple[float, str]], centres: Iterable[tuple[str, float]], ends: Iterable[tuple[str, float]]
) -> list[Place]:
    """Places in order, those within half a millimetre of each other as one."""
    listed = [Place(x, 0, words) for x, words in named]
    listed += [Place(x, 1, centres=(mark,)) for mark, x in centres]
    listed += [Place(x, 2, ends=(mark,)) for mark, x in ends]
    found: dict[int, list[Place]] = {}
    for place in listed:
        found.setdefault(round(place.x * 2000.0), []).append(place)
    return [
        Place(
            g[0].x,
            min(p.rank for p in g),
            "; ".join(p.name for p in g if p.name),
            tuple(sorted({m for p in g for m in p.centres})),
            tuple(sorted({m for p in g for m in p.ends})),
        )
        for _, g in sorted(found.items())
    ]


def said(k: Kit, x: float, words: str) -> str:
    """A station as printed, with what stands there."""
    text = k.show(x, "m") if x else "0"
    return f"{text} {words}" if words else text
