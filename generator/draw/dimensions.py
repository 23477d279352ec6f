"""Dimension lines in bands beside a view: shortest nearest, first 10 mm off, then every 7 mm."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.draw.marks import TEXT, Area, Line, Mark, Point, Text, arrow
from generator.draw.text import width
from generator.errors import RenderError

Side = Literal["above", "below", "left", "right"]
FIRST, STEP = 10.0, 7.0
"""First dimension line off the outline, and the next ones, mm."""
GAP, OVERRUN, RAISED = 1.0, 1.5, 1.2
"""Witness line off the feature, beyond the dimension line, and text off its line, mm."""
INSIDE, STUB = 7.0, 5.0
"""Shortest span with its arrows inside, and the tail of an outside arrow, mm."""


@dataclass(frozen=True, slots=True)
class Span:
    """What one dimension says: from `a` to `b` along the band (paper mm), its text and the model's value.

    `from_a`, `from_b`: where its features stand across the band.
    """

    id: str
    a: float
    b: float
    text: str
    value: float
    from_a: float
    from_b: float
    unit: str = "m"

    @property
    def low(self) -> float:
        """Lesser place along the band, paper mm."""
        return min(self.a, self.b)

    @property
    def high(self) -> float:
        """Greater place along the band, paper mm."""
        return max(self.a, self.b)


@dataclass(frozen=True, slots=True)
class _Laid:
    span: Span
    tier: int
    low: float
    high: float
    centre: float


def band(
    spans: Sequence[Span], side: Side, edge: float, first: float = FIRST, last: float = math.inf
) -> tuple[Mark, ...]:
    """The marks of a band of dimensions on one side of a view whose outline ends at `edge`; no text beyond `last`."""
    out = 1.0 if side in ("below", "right") else -1.0
    flat = side in ("above", "below")
    marks: list[Mark] = []
    for laid in _tiers([s for s in spans if s.high - s.low > 0.05], flat, last):
        across = edge + out * (first + STEP * laid.tier)
        marks += _draw(laid, across, out, flat)
    return tuple(marks)


def _tiers(spans: list[Span], flat: bool, last: float) -> list[_Laid]:
    """Each span in its tier; text that finds no room stands outside its span, in upright bands above it."""
    middle = sum(s.low + s.high for s in spans) / (2.0 * len(spans)) if spans else 0.0
    middle = middle if flat else math.inf
    witnesses = sorted({x for s in spans for x in (s.a, s.b)})
    laid: list[_Laid] = []
    for span in sorted(spans, key=lambda s: (round(s.high - s.low, 3), s.low, s.id)):
        first = max(
            (o.tier + 1 for o in laid if o.span.low < span.high - 0.05 and span.low < o.span.high - 0.05), default=0
        )
        tiers = (_lay(span, first + k, laid, witnesses, middle, last) for k in range(len(spans) + 1))
        found = next((t for t in tiers if t is not None), None)
        if found is None:
            raise RenderError(f"has no room for the dimension {span.text}")
        laid.append(found)
    return laid


def _lay(
    span: Span, tier: int, laid: list[_Laid], witnesses: list[float], middle: float, last: float
) -> _Laid | None:
    """The span in this tier with its text clear of all witness lines of the band, or None if the tier is taken."""
    w, stub = width(span.text, TEXT) + 1.0, STUB if span.high - span.low < INSIDE else 0.0
    for c in _centres(span, w, (span.low + span.high) / 2.0 < middle):
        if c + w / 2.0 > last or any(c - w / 2.0 < x < c + w / 2.0 for x in witnesses):
            continue
        low, high = min(span.low - stub, c - w / 2.0), max(span.high + stub, c + w / 2.0)
        if all(o.tier != tier or o.high <= low + 0.05 or high <= o.low + 0.05 for o in laid):
            return _Laid(span, tier, low, high, c)
    return None


def _centres(span: Span, w: float, first_below: bool) -> Iterator[float]:
    """Where the middle of the text may stand: inside the span from its middle outward, else beyond either end."""
    room, middle = span.high - span.low, (span.low + span.high) / 2.0
    for k in range(9):
        c = middle + (k + 1) // 2 * (1 if k % 2 else -1) * room / 16.0
        if span.low <= c - w / 2.0 and c + w / 2.0 <= span.high:
            yield c
    for beyond in range(60):
        ends = (span.low - STUB - beyond - w / 2.0, span.high + STUB + beyond + w / 2.0)
        yield from ends if first_below else ends[::-1]


def _draw(laid: _Laid, across: float, out: float, flat: bool) -> list[Mark]:
    s = laid.span

    def at(along: float, off: float) -> Point:
        return (along, off) if flat else (off, along)

    marks: list[Mark] = []
    for end, along, start in (("a", s.a, s.from_a), ("b", s.b, s.from_b)):
        marks.append(
            Line(f"{s.id}.{end}", "dimension", (at(along, start + out * GAP), at(along, across + out * OVERRUN)))
        )
    inside = s.high - s.low >= INSIDE
    low, high = (s.low, s.high) if inside else (s.low - STUB, s.high + STUB)
    low, high = min(low, laid.low), max(high, laid.high)
    marks.append(Line(s.id, "dimension", (at(low, across), at(high, across))))
    marks += _heads(s, across, inside, flat)
    middle = at(laid.centre, across - RAISED)
    marks.append(Text(f"{s.id}.text", s.text, middle, TEXT, "middle", turned=not flat, value=s.value, unit=s.unit))
    return marks


def _heads(s: Span, across: float, inside: bool, flat: bool) -> list[Area]:
    def at(along: float) -> Point:
        return (along, across) if flat else (across, along)

    inward, beyond = (s.high, s.low) if inside else (s.low - 1.0, s.high + 1.0)
    return [arrow(f"{s.id}.low", at(s.low), at(inward)), arrow(f"{s.id}.high", at(s.high), at(beyond))]
