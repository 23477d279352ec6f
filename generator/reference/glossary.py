"""Words of the trade that an owner may not know, explained in our own words; `words.csv` holds them."""

from generator.reference.load import csv_rows


def glossary() -> tuple[tuple[str, str], ...]:
    """Every word with its meaning, in the order of the alphabet."""
    return tuple(sorted(((r["word"], r["meaning"]) for _, r in csv_rows("words.csv")), key=lambda r: r[0].lower()))
