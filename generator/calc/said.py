"""How a design is spoken of: in the words of its coupling and springs, outside the US in words no US law coined."""

from generator.calc.spoken import Says
from generator.calc.topics.coupled import coupled
from generator.model.region import ABROAD, countries
from generator.model.types import Model
from generator.spec.models.trailer import Leaf

TITLES = (23, 24, 29, 49)
"""Titles of the US federal rules that sources name."""
CODES = ("ASCE 7", "IRC", "IBC", "IPC")
"""Codes of the US that sources name."""
STATE_RULES = ("COMAR", "NH RSA")
"""Rules of single states that sources name."""
OUTSIDE_US: Says = (
    ("the rating asked for (gvwr)", "the gross mass asked for"),
    ("trailer rating (gvwr)", "gross trailer mass"),
    ("rating (gawr)", "rating"),
    ("the title office", "the registration authority"),
    # A figure of US law may serve as a first look, but must not pass for the law of the place. Said twice it stays.
    *((f"us rule, {title} cfr", f"US rule, {title} CFR") for title in TITLES),
    *((f"{title} cfr", f"US rule, {title} CFR") for title in TITLES),
    *((f"us code, {code.lower()}", f"US code, {code}") for code in CODES),
    *((code.lower(), f"US code, {code}") for code in CODES),
    *((f"us state rule, {rule.lower()}", f"US state rule, {rule}") for rule in STATE_RULES),
    *((rule.lower(), f"US state rule, {rule}") for rule in STATE_RULES),
)
"""Phrases of the US trade and of its law, and what is said for each abroad."""


LEAF: Says = (
    ("axle brackets", "hangers"),
    ("brackets and welds", "hangers and welds"),
    ("brackets and anchors", "hangers and anchors"),
    ("brackets are welded", "hangers are welded"),
    ("brackets welded", "hangers welded"),
    ("brackets, jacks and stands", "hangers, jacks and stands"),
    ("the brackets can be set", "the hangers can be set"),
)
"""Phrases written for axles on brackets, and what is said where leaf springs hang from hangers."""


def says(model: Model) -> Says:
    """Phrases of our texts and what this design says for each."""
    leaf = isinstance(model.spec.trailer.running_gear.suspension, Leaf)
    return (*law_says(model), *(LEAF if leaf else ()), *coupled(model).says)


def law_says(model: Model) -> Says:
    """What a design of no US region says for phrases of US law; nothing where the US is on the route."""
    return OUTSIDE_US if ABROAD in countries(model.spec.project.use.regions) else ()
