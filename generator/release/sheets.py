"""Slices of the sheets for one reader each: engineer, haulier, insurer. All values are texts in the units shown.

An empty value is a box to be filled in by hand. `slices` hands them on.
"""

from dataclasses import dataclass

from generator.release.asked import Pair
from generator.release.base import Slice

Pairs = tuple[Pair, ...]


@dataclass(frozen=True, slots=True)
class Given:
    """A value an engineer is given: what, nominal, between which bounds nine times in ten."""

    what: str
    value: str
    spread: str


@dataclass(frozen=True, slots=True)
class CaseRow:
    """The worse rail in one case, static: moments of both senses and shear; moment with the case's factor; capacity."""

    title: str
    sag: str
    hog: str
    shear: str
    factored: str
    capacity: str


@dataclass(frozen=True, slots=True)
class Brief(Slice):
    """What an engineer needs to design what this program must not decide."""

    geometry: Pairs
    cases: tuple[CaseRow, ...]
    root: tuple[Given, ...]
    gear: tuple[Given, ...]
    house: tuple[Given, ...]
    ground: tuple[Given, ...]
    fatigue: tuple[Given, ...]
    points: Pairs
    open: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HaulRow:
    """One towed state as a haulier needs it: mass, at most nine times in ten, on the hitch, share, on the axles."""

    title: str
    mass: str
    most: str
    hitch: str
    share: str
    axles: str


@dataclass(frozen=True, slots=True)
class Haul(Slice):
    """What somebody who moves the house must know, and the card for the dashboard."""

    sizes: Pairs
    states: tuple[HaulRow, ...]
    coupling: Pairs
    wheels: Pairs
    points: Pairs
    limits: Pairs
    move: Pairs
    card: Pairs


@dataclass(frozen=True, slots=True)
class WeighedRow:
    """A rating against what is predicted and what a scale read: what, rating, predicted, at worst, read."""

    what: str
    rating: str
    predicted: str
    worst: str
    read: str


@dataclass(frozen=True, slots=True)
class Underwriting(Slice):
    """What an insurer asks; boxes where only the owner or a licensed person can answer."""

    identity: Pairs
    value: Pairs
    weighed: tuple[WeighedRow, ...]
    build: Pairs
    fire: Pairs
    use: Pairs
    ties: Pairs
