"""Which sheets a recipient holds, and what those are drawn from that no document of theirs may read."""

from dataclasses import dataclass

from generator.release.base import Slice


@dataclass(frozen=True, slots=True)
class Sheets(Slice):
    """Numbers of the sheets granted, and slices for the pens alone, cut to what those sheets show."""

    numbers: tuple[str, ...]
    behind: tuple[Slice, ...] = ()
