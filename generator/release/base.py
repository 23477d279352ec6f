"""What every slice is: a kind of information that can be granted."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Slice:
    """A kind of information that can be granted."""
