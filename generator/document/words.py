"""One word list: the project writes British words, a project in US units prints the spelling of the US trade."""

import re
from collections.abc import Iterable

US_WORDS = {
    "tyre": "tire",
    "tyres": "tires",
    "equaliser": "equalizer",
    "equalisers": "equalizers",
    "grey": "gray",
    "galvanised": "galvanized",
    "galvanising": "galvanizing",
    "colour": "color",
    "colours": "colors",
    "centre": "center",
    "centres": "centers",
    "centred": "centered",
    "centreline": "centerline",
    "aluminium": "aluminum",
    "levelled": "leveled",
    "levelling": "leveling",
    "labelled": "labeled",
    "labour": "labor",
    "licence": "license",
    "metre": "meter",
    "metres": "meters",
    "millimetre": "millimeter",
    "millimetres": "millimeters",
    "draught": "draft",
    "kerb": "curb",
    "mould": "mold",
    "organised": "organized",
    "neighbour": "neighbor",
    "travelling": "traveling",
    "cancelled": "canceled",
    "stabiliser": "stabilizer",
    "stabilisers": "stabilizers",
    "defence": "defense",
    "judgement": "judgment",
    "authorised": "authorized",
    "recognised": "recognized",
    "storey": "story",
    "programme": "program",
    "unlabelled": "unlabeled",
    "haulier": "hauler",
    "hauliers": "haulers",
    "towards": "toward",
    "fibre": "fiber",
    "fibreglass": "fiberglass",
    "plough": "plow",
    "ageing": "aging",
    "neighbours": "neighbors",
    "neighbouring": "neighboring",
    "neighbourhood": "neighborhood",
    "galvanise": "galvanize",
    "galvaniser": "galvanizer",
    "galvanisers": "galvanizers",
    "unfavourable": "unfavorable",
    "favourable": "favorable",
    "favour": "favor",
    "coloured": "colored",
    "centring": "centering",
    "kilometre": "kilometer",
    "kilometres": "kilometers",
    "litre": "liter",
    "litres": "liters",
    "centimetre": "centimeter",
    "centimetres": "centimeters",
    "moulded": "molded",
    "moulding": "molding",
    "mouldings": "moldings",
    "draughts": "drafts",
    "kerbs": "curbs",
    "labelling": "labeling",
    "travelled": "traveled",
    "traveller": "traveler",
    "modelled": "modeled",
    "modelling": "modeling",
    "signalled": "signaled",
    "signalling": "signaling",
    "channelled": "channeled",
    "cancelling": "canceling",
    "totalled": "totaled",
    "fuelled": "fueled",
    "fuelling": "fueling",
    "dialled": "dialed",
    "organise": "organize",
    "organisation": "organization",
    "recognise": "recognize",
    "authorise": "authorize",
    "stabilise": "stabilize",
    "stabilised": "stabilized",
    "stabilising": "stabilizing",
    "equalise": "equalize",
    "equalising": "equalizing",
    "equalised": "equalized",
    "minimise": "minimize",
    "minimised": "minimized",
    "maximise": "maximize",
    "optimise": "optimize",
    "summarise": "summarize",
    "summarised": "summarized",
    "utilise": "utilize",
    "vulcanised": "vulcanized",
    "anodised": "anodized",
    "itemised": "itemized",
    "standardised": "standardized",
    "finalise": "finalize",
    "specialise": "specialize",
    "specialised": "specialized",
    "pressurised": "pressurized",
    "normalised": "normalized",
    "prioritise": "prioritize",
    "emphasise": "emphasize",
    "oxidised": "oxidized",
    "polarised": "polarized",
    "energised": "energized",
    "realise": "realize",
    "realised": "realized",
    "analyse": "analyze",
    "analysed": "analyzed",
    "analysing": "analyzing",
    "catalogue": "catalog",
    "catalogues": "catalogs",
    "storeys": "stories",
    "licences": "licenses",
    "offence": "offense",
    "practise": "practice",
    "practised": "practiced",
    "behaviour": "behavior",
    "odour": "odor",
    "odours": "odors",
    "rigour": "rigor",
    "vapour": "vapor",
    "vapours": "vapors",
    "armour": "armor",
    "armoured": "armored",
    "labours": "labors",
    "calibre": "caliber",
    "fibres": "fibers",
    "manoeuvre": "maneuver",
    "manoeuvres": "maneuvers",
    "manoeuvring": "maneuvering",
    "sulphur": "sulfur",
    "skilful": "skillful",
    "fulfil": "fulfill",
    "fulfils": "fulfills",
    "instalment": "installment",
    "instalments": "installments",
    "greyish": "grayish",
    "programmes": "programs",
    "judgements": "judgments",
    "acknowledgement": "acknowledgment",
    "ploughs": "plows",
    "spanner": "wrench",
    "spanners": "wrenches",
    "afterwards": "afterward",
    "backwards": "backward",
    "forwards": "forward",
    "upwards": "upward",
    "downwards": "downward",
    "whilst": "while",
    "amongst": "among",
    "learnt": "learned",
    "burnt": "burned",
    "spelt": "spelled",
    "draughty": "drafty",
}
"""British word to US word, lower case."""

# A word beside a dot is part of an id or a file name (`tyre.1.axle_rating`) and stays.
_WORD = re.compile(
    r"(?<![\w.])(" + "|".join(sorted(US_WORDS, key=len, reverse=True)) + r")(?![\w]|\.\w)", re.IGNORECASE
)
_TAG = re.compile(r"(<style.*?</style>|<[^>]*>)", re.DOTALL)
_SPOKEN = re.compile(r'((?:alt|title|aria-label|data-label)=")([^"]*)(")')


def us(text: str) -> str:
    """Plain text in US spelling; capitals are kept."""
    return _WORD.sub(lambda m: _like(m[0], US_WORDS[m[0].lower()]), text)


def us_markup(markup: str, keep: Iterable[str] = ()) -> str:
    """HTML or SVG in US spelling: text and spoken attributes only; the texts in `keep` (proper names) stay."""
    names = sorted({k for k in keep if k.strip()}, key=len, reverse=True)
    held = re.compile("(" + "|".join(re.escape(n) for n in names) + ")") if names else None
    parts = _TAG.split(markup)
    return "".join(
        _SPOKEN.sub(lambda m: m[1] + us(m[2]) + m[3], p) if i % 2 else _but(held, p) for i, p in enumerate(parts)
    )


def _but(held: re.Pattern[str] | None, text: str) -> str:
    if held is None:
        return us(text)
    return "".join(p if i % 2 else us(p) for i, p in enumerate(held.split(text)))


def _like(old: str, new: str) -> str:
    if old.isupper():
        return new.upper()
    return new.capitalize() if old[0].isupper() else new
