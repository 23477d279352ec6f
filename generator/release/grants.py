"""Who gets which slices. What is not named here reaches nobody but the owner."""

from collections.abc import Mapping
from types import MappingProxyType

from generator.errors import OutputError
from generator.release.slices import (
    Cover,
    Decision,
    Envelope,
    Hazards,
    Masses,
    Money,
    Neck,
    Notes,
    Numbers,
    Placement,
    Register,
    Request,
    Revisions,
    RoadLoads,
    Slice,
    Steel,
    SteelLoads,
)

OWNER, FABRICATOR = "owner", "fabricator"
RECIPIENTS = (OWNER, FABRICATOR)

GRANTS: Mapping[str, frozenset[type[Slice]]] = MappingProxyType({
    OWNER: frozenset({Cover, Revisions, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads, Masses, Numbers,
                      Register, Request, Hazards, Money, Decision}),
    FABRICATOR: frozenset({Cover, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads, Numbers, Register,
                           Request, Hazards}),
})

NUMBERS: Mapping[str, frozenset[str] | None] = MappingProxyType({
    OWNER: None,
    FABRICATOR: frozenset({
        "axle", "axles", "box", "brake", "cab", "chain", "chains", "clearance", "frame", "height", "hitch", "hub",
        "jack", "neck", "rating", "ride", "side", "state", "tyre", "wheel", "width",
    }),
})
"""First words of the ids of quantities, checks and windows a recipient may see; None: all."""

READERS: Mapping[str, frozenset[str]] = MappingProxyType({
    OWNER: frozenset({"shop", "road", "dwelling"}),
    FABRICATOR: frozenset({"shop"}),
})
"""Whose pages of the safety checklist a recipient gets."""


def known(to: str) -> str:
    """The recipient, if there is one of that name; raises OutputError."""
    if to not in GRANTS:
        raise OutputError(f"no recipient is called {to!r}; there are {', '.join(RECIPIENTS)}")
    return to


def may_see(to: str, id: str) -> bool:
    """Whether a quantity, check or window may be given to this recipient."""
    words = NUMBERS[to]
    return words is None or id.split(".")[0] in words
