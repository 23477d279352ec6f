"""How a design is spoken of: in the words of its coupling, and outside the US in words that no US law coined."""

from generator.calc.spoken import Says
from generator.calc.topics.coupled import coupled
from generator.model.region import ABROAD, countries
from generator.model.types import Model

OUTSIDE_US: Says = (
    ("the rating asked for (gvwr)", "the gross mass asked for"),
    ("trailer rating (gvwr)", "gross trailer mass"),
    ("rating (gawr)", "rating"),
    ("the title office", "the registration authority"),
    # A figure of US law may serve as a first look, but must not pass for the law of the place.
    ("49 cfr", "US rule, 49 CFR"),
    ("24 cfr", "US rule, 24 CFR"),
    ("23 cfr", "US rule, 23 CFR"),
    ("asce 7", "US code, ASCE 7"),
)
"""Phrases of the US trade and of its law, and what is said for each abroad."""


def says(model: Model) -> Says:
    """Phrases of our texts and what this design says for each."""
    abroad = ABROAD in countries(model.spec.project.use.regions)
    return (*(OUTSIDE_US if abroad else ()), *coupled(model).says)
