"""Who gets which slices. What is not named here reaches nobody but the owner."""

from collections.abc import Mapping
from fnmatch import fnmatchcase
from types import MappingProxyType

from generator.errors import OutputError
from generator.release import allowed
from generator.release.slices import (
    Brief,
    Cover,
    Decision,
    Envelope,
    Haul,
    Hazards,
    Lamps,
    Legal,
    Masses,
    Money,
    Neck,
    Notes,
    Numbers,
    Options,
    Paths,
    Placement,
    Register,
    Request,
    Revisions,
    RoadLoads,
    Scale,
    Sheets,
    Slice,
    Steel,
    SteelLoads,
    Underwriting,
)

OWNER, FABRICATOR, OFFICIAL = "owner", "fabricator", "official"
INSURER, HAULIER, ENGINEER = "insurer", "haulier", "engineer"
RECIPIENTS = (OWNER, FABRICATOR, OFFICIAL, INSURER, HAULIER, ENGINEER)
Ids = tuple[str, ...] | None

GRANTS: Mapping[str, frozenset[type[Slice]]] = MappingProxyType({
    OWNER: frozenset({Cover, Sheets, Revisions, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads, Masses,
                      Numbers, Register, Request, Hazards, Money, Decision, Scale, Options, Legal, Brief, Haul,
                      Underwriting, Lamps, Paths}),
    FABRICATOR: frozenset({Cover, Sheets, Revisions, Notes, Steel, Envelope, Neck, Placement, SteelLoads, RoadLoads,
                           Numbers, Register, Request, Hazards, Legal, Lamps, Paths}),
    OFFICIAL: frozenset({Cover, Sheets, Revisions, Notes, Steel, Envelope, Neck, SteelLoads, RoadLoads, Numbers,
                         Register, Hazards, Legal, Lamps}),
    INSURER: frozenset({Cover, Sheets, Notes, RoadLoads, Numbers, Hazards, Legal, Underwriting}),
    HAULIER: frozenset({Cover, Sheets, Notes, RoadLoads, Numbers, Hazards, Legal, Haul}),
    ENGINEER: frozenset({Cover, Sheets, Revisions, Notes, Steel, Envelope, Neck, SteelLoads, RoadLoads, Numbers,
                         Register, Brief}),
})

FRAME_SHEETS = ("G1", "G2", "F1", "F2", "F3", "F4", "F5", "F6", "F7")
SHEETS: Mapping[str, tuple[str, ...]] = MappingProxyType({
    OWNER: (*FRAME_SHEETS, "E1", "S1", "L1", "L2", "L3", "L4", "A1", "M1"),
    FABRICATOR: (*FRAME_SHEETS, "E1", "S1", "L1", "L3", "L4", "A1"),
    OFFICIAL: (*FRAME_SHEETS, "E1", "S1", "L1", "L2", "L4"),
    INSURER: ("G1",),
    HAULIER: ("G1", "F6", "L2", "A1"),
    ENGINEER: (*FRAME_SHEETS, "S1", "L1", "L4"),
})
"""Numbers of the drawing sheets a recipient holds. L2 tells the route's limit, A1 the tow vehicle, M1 money."""

BEHIND: Mapping[str, frozenset[type[Slice]]] = MappingProxyType({
    INSURER: frozenset({Steel, Envelope}), HAULIER: frozenset({Steel, Envelope, Paths}),
})
"""What their sheets are drawn from, as outlines, and no document of theirs may read."""

SHOP_RULES = (
    "brakes-au-*", "brakes-eu-*", "brakes-us-all-wheels", "brakes-us-breakaway", "brakes-us-operative",
    "brakes-us-standard", "brakes-us-surge-*", "coupling-au-*", "coupling-us-ball-*", "coupling-us-chains",
    "coupling-us-gooseneck-*", "coupling-us-lock", "coupling-us-pin", "coupling-us-raised", "coupling-us-raised-test",
    "coupling-us-tracking", "label-*", "lamps-*", "width-us-permit",
)
"""Rules of what a shop builds; those of single states would tell it the route."""

RULES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: SHOP_RULES,
    OFFICIAL: None,
    INSURER: None,
    HAULIER: ("brakes-*", "class-*", "coupling-*", "lamps-*", "driver-*", "size-*", "weight-*", "width-*"),
})
"""Ids of rules a recipient may see; None: all; not named: none."""

ROUTE_TOLD = frozenset({OWNER, OFFICIAL, INSURER, HAULIER})
"""Who is told the regions of the route, and what is not held for them."""

REPLIES_TOLD = frozenset({OWNER, OFFICIAL, INSURER})
"""Who is told whom the owner asked, and what came back."""

ROOMS_TOLD = frozenset({OWNER, OFFICIAL})
"""Who is told the names of rooms and roof points, and the limits of the route they stand against."""

QUANTITIES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: (
        "axle.*.worst", "axles.group", "axles.spread", "axles.station.*", "coupler.tested.*", "frame.*",
        "height.deck.*", "jack.*.rating_needed", "jack.*.stroke", "neck.coupler_set", "neck.underside",
        "pad.*.side", "pad.*.side_wind", "rating.gawr.*",
        "rating.gvwr.*", "ride.*", "state.bare.axle.?", "state.bare.group", "state.bare.hitch", "state.bare.mass",
        "state.travel.axle.?", "state.travel.group", "state.travel.hitch", "state.travel.hitch_share",
        "state.travel.mass", "tongue.leg_moment", "tyre.rail_gap", "width.track", "width.tyres",
    ),
    OFFICIAL: allowed.OFFICIAL_QUANTITIES,
    INSURER: allowed.INSURER_QUANTITIES,
    HAULIER: allowed.HAUL_QUANTITIES,
    ENGINEER: allowed.ENGINEER_QUANTITIES,
})
"""Ids of quantities a recipient may see; None: all."""

CHECKS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: (
        "axle.*.rating", "axles.window", "box.*", "brake.*.rating", "chain.strength", "coupler.*", "frame.*",
        "hitch.rating", "jack.*.fuse", "jack.*.lift", "jack.*.static", "jack.*.stroke",
        "neck.coupler", "neck.window", "rating.gvwr.carried", "spring.*", "tyre.*.axle_rating", "tyre.gap",
        "tyre.rail_gap", "wheel.*.tyre", "wheel.pressure", *(f"rule.{r}" for r in SHOP_RULES),
    ),
    OFFICIAL: allowed.OFFICIAL_CHECKS,
    INSURER: allowed.INSURER_CHECKS,
    HAULIER: allowed.HAUL_CHECKS,
    ENGINEER: allowed.ENGINEER_CHECKS,
})
"""Ids of checks a recipient may see; None: all."""

WORKINGS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("frame.bearing", "frame.clash", "frame.neck_root", "rating.*", "tyre.*"),
    OFFICIAL: allowed.OFFICIAL_CHECKS,
    INSURER: (),
    HAULIER: (),
    ENGINEER: allowed.ENGINEER_WORKINGS,
})
"""Ids of the checks whose workings a recipient gets too: those of what the recipient can change; None: all."""

WINDOWS: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("axles.window", "neck.window"),
    OFFICIAL: ("axles.window", "neck.window"),
    INSURER: (),
    HAULIER: (),
    ENGINEER: allowed.ENGINEER_WINDOWS,
})
"""Ids of windows a recipient may see; None: all."""

STATES: Mapping[str, Ids] = MappingProxyType({
    OWNER: None,
    FABRICATOR: ("bare", "travel", "travel_wet"),
    OFFICIAL: ("*",),
    INSURER: allowed.INSURER_STATES,
    HAULIER: allowed.HAUL_STATES,
    ENGINEER: ("*",),
})
"""Load states a recipient is told of; None: all."""

READERS: Mapping[str, frozenset[str]] = MappingProxyType({
    OWNER: frozenset({"shop", "road", "dwelling"}),
    FABRICATOR: frozenset({"shop"}),
    OFFICIAL: frozenset({"dwelling"}),
    INSURER: frozenset({"road", "dwelling"}),
    HAULIER: frozenset({"road"}),
    ENGINEER: frozenset(),
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
