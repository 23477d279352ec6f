"""Records of the quotes side by side; money of the project."""

from decimal import Decimal

from generator.records import dataclass


@dataclass(frozen=True, slots=True)
class QuotedRow:
    """One thing asked for: what each quote says of it, in words or money."""

    what: str
    said: tuple[Decimal | str, ...]


@dataclass(frozen=True, slots=True)
class QuoteHead:
    """One quote: title, days, what it leaves open, its sum as it stands, and levelled (None: a hole nobody prices)."""

    id: str
    title: str
    received: str
    valid_to: str
    weeks: int | None
    holes: tuple[str, ...]
    differs: tuple[str, ...]
    stated: Decimal
    levelled: Decimal | None


@dataclass(frozen=True, slots=True)
class Quotes:
    """All quotes, in the order of their names."""

    heads: tuple[QuoteHead, ...]
    rows: tuple[QuotedRow, ...]
