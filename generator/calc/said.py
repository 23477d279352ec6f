"""How a design is spoken of: one list of phrases for its law, its springs and its coupling, and where it is chosen.

Texts are written for a ball under a neck and axles on brackets; `spoken` puts results, and `Cover.say` what documents
and drawings add, into the words chosen here. Nothing else in the program asks which words a kind has.
"""

from collections.abc import Mapping
from types import MappingProxyType

from generator.calc.spoken import Says
from generator.model.region import ABROAD, countries
from generator.model.types import Model

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
    ("hangers and brackets", "hangers"),
    ("axle brackets", "hangers"),
    ("brackets or hangers", "hangers"),
    ("hanger and bracket welds", "hanger welds"),
    ("brackets and welds", "hangers and welds"),
    ("brackets and anchors", "hangers and anchors"),
    ("brackets are welded", "hangers are welded"),
    ("brackets welded", "hangers welded"),
    ("brackets, jacks and stands", "hangers, jacks and stands"),
    ("a bracket, jack or stand", "a hanger, jack or stand"),
    ("the brackets can be set", "the hangers can be set"),
    ("the rail or bracket beside it", "the rail or spring beside it"),
    ("bracket or spring centres", "spring centres"),
    ("spring eyes or torsion tube", "spring eyes"),
    ("axle tubes, torsion arms and springs", "axle beams and springs"),
    ("under a torsion tube", "under an axle beam"),
)
TORSION: Says = (
    ("hangers and brackets", "brackets"),
    ("brackets or hangers", "brackets"),
    ("hanger and bracket welds", "bracket welds"),
    ("hangers", "brackets"),
    ("bracket or spring centres", "bracket centres"),
    ("spring eyes or torsion tube", "torsion tube"),
    ("torsion arms and springs", "torsion arms"),
)
SPRINGS: Mapping[str, Says] = MappingProxyType({"leaf": LEAF, "torsion": TORSION})
"""Phrases written for both kinds of springs or for axles on brackets, and what is said for each with this kind."""

NECK: Says = (
    ("neck or tongue", "neck"),
    ("tongue or neck", "neck"),
    ("deck and house, without tongue", "deck and house"),
)
ON_BALL: Says = (
    ("ball, pin or jaws", "ball and socket"),
    ("ball or king pin", "ball"),
)
BALL: Says = (
    *ON_BALL,
    ("coupler, risers and", "coupler and"),
    ("neck or tongue, risers", "tongue"),
    ("neck or tongue", "tongue"),
    ("tongue or neck", "tongue"),
    ("frame or neck", "frame or tongue"),
    ("side with neck and frame", "side with tongue and frame"),
    ("the neck", "the tongue"),
    ("neck height", "tongue height"),
    ("ball and frame kit", "ball and receiver"),
    ("tears out of the bed", "tears off the tow vehicle"),
)
KING_PIN: Says = (
    *NECK,
    ("ball, pin or jaws", "pin and jaws"),
    ("ball or king pin", "king pin"),
    ("closes over the ball", "carries the king pin"),
    ("above ball centre", "above the pin plate"),
    ("underside to ball centre", "underside to the pin plate"),
    ("ball centre above ground", "plate above ground"),
    ("ball centre {ball} above ground", "plate {ball} above ground"),
    ("ball height, loaded", "plate height, loaded"),
    ("ball to underside", "plate to underside"),
    ("a ball ahead", "a king pin ahead"),
    ("bed rail and ball height", "bed rail and plate height"),
    ("bed rail and ball", "bed rail and plate"),
    ("ball and frame kit", "plate and frame kit"),
    ("the ball tears", "the plate tears"),
    ("reaches the ball", "reaches the plate"),
    ("an offset ball", "an offset plate"),
    ("foot, ground and ball", "foot, ground and king pin"),
    ("highest ball", "highest plate"),
    ("lowest ball", "lowest plate"),
    ("ball in its socket", "pin in its jaws"),
    ("drags on the ball", "drags on the plate"),
    ("lifts off the ball", "lifts in the jaws"),
    ("come off the ball", "come off the plate"),
    ("coupler knocks up against its latch", "pin knocks up in its jaws"),
    # The one sentence that compares both.
    ("a ball would", "a ball would"),
    ("coupler", "pin box"),
    ("ball", "king pin"),
)
COUPLINGS: Mapping[str, Says] = MappingProxyType({"gooseneck": (*ON_BALL, *NECK), "ball": BALL, "king pin": KING_PIN})
"""Phrases written for a ball under a neck, and what is said for each with this coupling."""


def says(model: Model) -> Says:
    """Phrases of our texts and what this design says for each."""
    trailer = model.spec.trailer
    return (*law_says(model), *SPRINGS[trailer.running_gear.suspension.type], *COUPLINGS[trailer.coupling.type])


def law_says(model: Model) -> Says:
    """What a design of no US region says for phrases of US law; nothing where the US is on the route."""
    return OUTSIDE_US if ABROAD in countries(model.spec.project.use.regions) else ()
