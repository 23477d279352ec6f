"""Who gets which slices. What is not named here reaches nobody but the owner."""

from collections.abc import Mapping
from fnmatch import fnmatchcase
from types import MappingProxyType

from generator.errors import OutputError
from generator.release.slices import (
    Cover,
    Decision,
    Envelope,
    Hazards,
    Legal,
    Masses,
    Money,
    Neck,
    Notes,
    Numbers,
    Options,
    Placement,
    Register,
    Request,
    Revisions,
    RoadLoads,
    Scale,
    Slice,
    Steel,
    SteelLoads,
)

OWNER, FABRICATOR = "owner", "fabricator"
RECIPIENTS = (OWNER, FABRICATOR)
Ids = tuple[str, ...] | None

GRANTS: Mapping[str, frozenset[type[Slice]]] = MappingProxyType({
    OWNER: frozenset({Cover, Revisions, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads, Masses, Numbers,
                      Register, Request, Hazards, Money, Decision, Scale, Options, Legal}),
    FABRICATOR: frozenset({Cover, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads, Numbers, Register,
                           Request, Hazards, Legal}),
})

SHOP_RULES = (
    "brakes-au-*", "brakes-eu-*", "brakes-us-all-wheels", "brakes-us-breakaway", "coupling-au-*", "coupling-us-ball-*",
    "coupling-us-chains", "coupling-us-lock", "coupling-us-raised", "coupling-us-tracking", "label-*", "lamps-*",
    "width-us-permit",
)
"""Rules of what a shop builds; those of single states would tell it the route."""

RULES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: SHOP_RULES,
    "official": None,
    "insurer": None,
    "haulier": ("brakes-*", "class-*", "coupling-*", "lamps-*", "driver-*", "size-*", "weight-*", "width-*"),
})
"""Ids of rules a recipient may see; None: all; not named: none."""

ROUTE_TOLD = frozenset({OWNER, "official", "insurer", "haulier"})
"""Who is told the regions of the route, and what is not held for them."""

REPLIES_TOLD = frozenset({OWNER, "official", "insurer"})
"""Who is told whom the owner asked, and what came back."""

QUANTITIES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: (
        "axle.*.worst", "axles.group", "axles.spread", "axles.station.*", "frame.*.camber", "frame.crossmembers.*",
        "frame.jacked.moment_*", "frame.neck_root.*", "frame.parked.moment_*", "frame.towing.deflection",
        "frame.towing.moment_*", "frame.travel.required_*", "height.deck.*",
        "jack.*.rating_needed", "jack.*.stroke", "neck.coupler_set", "neck.underside", "rating.gawr.*",
        "rating.gvwr.*", "ride.*", "state.bare.axle.?", "state.bare.group", "state.bare.hitch", "state.bare.mass",
        "state.travel.axle.?", "state.travel.group", "state.travel.hitch", "state.travel.hitch_share",
        "state.travel.mass", "tyre.rail_gap", "width.track", "width.tyres",
    ),
})
"""Ids of quantities a recipient may see; None: all."""

CHECKS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: (
        "axle.*.rating", "axles.window", "box.*", "brake.*.rating", "chain.strength", "coupler.rating", "frame.*",
        "hitch.rating", "jack.*.fuse", "jack.*.lift", "jack.*.static", "jack.*.stroke",
        "neck.coupler", "neck.window", "rating.gvwr.carried", "tyre.*.axle_rating", "tyre.gap", "tyre.rail_gap",
        "wheel.*.tyre", "wheel.pressure", *(f"rule.{r}" for r in SHOP_RULES),
    ),
})
"""Ids of checks a recipient may see; None: all."""

WORKINGS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("frame.bearing", "frame.clash", "frame.neck_root", "rating.*", "tyre.*"),
})
"""Ids of the checks whose workings a recipient gets too: those of what the recipient can change; None: all."""

WINDOWS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("axles.window", "neck.window"),
})
"""Ids of windows a recipient may see; None: all."""

STATES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("bare", "travel", "travel_wet"),
})
"""Load states a recipient is told of; None: all."""

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


def may_see(ids: Ids, id: str) -> bool:
    """Whether an id is one of those granted."""
    return ids is None or any(fnmatchcase(id, pattern) for pattern in ids)
