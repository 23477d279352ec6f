"""Whose law a design meets: the countries of its route, in the words that `when` uses in the reference texts."""

from collections.abc import Iterable

COUNTRIES = {"US": "us", "CA": "ca", "NZ": "nz", "AU": "au", "EU": "eu", "UK": "uk"}
"""Country of a region code, in the word of the reference texts."""
ABROAD = "abroad"
"""No region of the route lies in the US: texts of US law give way to general ones."""


def countries(codes: Iterable[str]) -> frozenset[str]:
    """Countries of the regions of a route (`US-OR` is `us`), and `abroad` where the US is none of them."""
    found = frozenset(COUNTRIES[country] for country in (code.partition("-")[0] for code in codes)
                      if country in COUNTRIES)
    return found if "us" in found else found | {ABROAD}
