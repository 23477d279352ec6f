"""Ordinate dimensions: stations from one datum along an edge, texts standing across it, kept apart by `spread`."""

from collections.abc import Sequence
from dataclasses import dataclass

from generator.draw.marks import TEXT, Line, Mark, Text
from generator.draw.text import width

JOG, STRAIGHT, FIRST = 7.0, 1.5, 3.0
"""Depth of the slanted run of a witness line, the straight run under its text, and the first straight run, mm."""
SPACING = 1.5 * TEXT
"""Least distance of two texts standing side by side, mm."""


@dataclass(frozen=True, slots=True)
class Station:
    """One station: place along the edge (paper mm), where its feature ends across it, text, the model's value."""

    id: str
    along: float
    across: float
    text: str
    value: float
    rank: int = 0


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Positions nearest to `wanted` (sorted) by least squares, at least `gap` apart, within low..high, order kept.

    Pool adjacent violators on z_i = y_i - i gap. Source: Barlow et al., Statistical Inference under Order
    Restrictions, isotonic regression.
    """
    pools: list[tuple[float, int]] = []
    for i, w in enumerate(wanted):
        mean, n = w - i * gap, 1
        while pools and pools[-1][0] > mean:
            m, k = pools.pop()
            mean, n = (m * k + mean * n) / (k + n), k + n
        pools.append((mean, n))
    top = high - (len(wanted) - 1) * gap
    z = [min(max(m, low), top) for m, n in pools for _ in range(n)]
    return [v + i * gap for i, v in enumerate(z)]


def merged(stations: Sequence[Station]) -> list[Station]:
    """Stations in order along the edge; those that print the same at the same place become one, `2x` in front."""
    groups: dict[tuple[float, str], list[Station]] = {}
    for s in sorted(stations, key=lambda s: (s.along, s.text, s.id)):
        groups.setdefault((round(s.along, 1), s.text), []).append(s)
    return [
        Station(g[0].id, g[0].along, max((s.across for s in g), key=abs), g[0].text, g[0].value, min(s.rank for s in g))
        for g in groups.values()
    ]


def ordinates(
    id: str, stations: Sequence[Station], edge: float, down: bool, low: float, high: float
) -> tuple[Mark, ...]:
    """Witness lines and texts below (`down`) or above an edge; the datum's `0` stays on its station.

    Where more stations stand than texts fit between `low` and `high`, those of the lowest rank go to the schedule.
    """
    kept = merged(stations)
    room = int((high - low) / SPACING) + 1
    while len(kept) > room:
        kept.remove(max(kept, key=lambda s: (s.rank, s.along)))
    out = 1.0 if down else -1.0
    marks: list[Mark] = []
    for s, place in zip(kept, _places(kept, low, high), strict=False):
        y1, y2 = edge + out * FIRST, edge + out * (FIRST + JOG)
        y3 = y2 + out * STRAIGHT
        points = ((s.along, s.across + out), (s.along, y1), (place, y2), (place, y3))
        marks.append(Line(f"{id}.{s.id}", "dimension", points))
        long = width(s.text, TEXT)
        base = y3 + out + (long if down else 0.0)
        marks.append(
            Text(f"{id}.{s.id}.text", s.text, (place + TEXT / 2.0, base), turned=True, value=s.value, unit="m")
        )
    return tuple(marks)


def levels(id: str, stations: Sequence[Station], edge: float, low: float, high: float) -> tuple[Mark, ...]:
    """Heights left of an edge as level texts, each with a jogged witness line; kept apart between paper `low` and `high`.

    `along` of a station is its paper y, `across` where its feature ends, paper x.
    """
    kept = sorted(stations, key=lambda s: (s.along, s.text))
    marks: list[Mark] = []
    x1, x2 = edge - FIRST, edge - FIRST - JOG
    x3 = x2 - STRAIGHT
    for s, place in zip(kept, spread([s.along for s in kept], SPACING, low, high), strict=True):
        points = ((s.across - 1.0, s.along), (x1, s.along), (x2, place), (x3, place))
        marks.append(Line(f"{id}.{s.id}", "dimension", points))
        marks.append(
            Text(f"{id}.{s.id}.text", s.text, (x3 - 1.0, place + TEXT / 2.0), anchor="end", value=s.value, unit="m")
        )
    return tuple(marks)


def _places(kept: Sequence[Station], low: float, high: float) -> list[float]:
    at = [s.along for s in kept]
    datum = next((i for i, s in enumerate(kept) if s.value == 0.0), None)
    fits_left = datum is not None and at[datum] - low >= datum * SPACING
    if datum is None or not fits_left or high - at[datum] < (len(kept) - 1 - datum) * SPACING:
        return spread(at, SPACING, low, high)
    left = spread(at[:datum], SPACING, low, at[datum] - SPACING)
    right = spread(at[datum + 1 :], SPACING, at[datum] + SPACING, high)
    return [*left, at[datum], *right]


def reach(stations: Sequence[Station]) -> float:
    """How far ordinates stand off the edge, mm."""
    return FIRST + JOG + STRAIGHT + 1.0 + max((width(s.text, TEXT) for s in stations), default=0.0)
