"""Ids of quantities, checks, workings and windows that each recipient may see, as patterns. What none matches, stays.

Nobody but the owner sees ids of money, of the owner's reserves and margins, or of the take-off's plausibility.
"""

ROAD = (
    "axle.*.worst", "axles.group", "axles.spread", "axles.station.*", "height.deck.*", "hitch.ball_*",
    "length.hitch_to_axles", "length.trailer", "rating.gawr.*.requested", "rating.gvwr.requested", "state.*.axle.?",
    "state.*.group", "state.*.hitch", "state.*.hitch_share", "state.*.mass", "width.house", "width.overall",
    "width.track", "width.tyres",
)
"""What everybody who weighs, moves or rates it must know."""

RATED = (
    "axle.*.rating", "brake.*.rating", "chain.strength", "coupler.rating", "hitch.positive", "hitch.rating",
    "hitch.share_*", "rating.*.governing", "rating.gvwr.carried", "tyre.*.axle_rating", "tyre.*.load", "tyre.speed",
    "wheel.*.tyre", "wheel.pressure",
)
"""Checks of a load against a rating or a common limit."""

HAUL_QUANTITIES = (
    *ROAD, "access.cut_in", "access.off_tracking", "access.scrub", "access.swept", "access.tail_swing", "bridge.*",
    "ends.*", "height.overall.*", "stability.tilt", "tongue.yaw_free", "tow.required.*", "tyre.*.worst",
    "tyre.speed_cap", "tyre_change.*", "wind.half_speed", "wind.lift_speed", "wind.side_area",
)
HAUL_CHECKS = (*RATED, "brakes.*", "stability.*", "tyre_change.point")
HAUL_STATES = ("bare", "shell", "dry", "travel", "travel_wet")

INSURER_QUANTITIES = (
    *ROAD, "anchor.*", "floor.area", "height.overall.*", "pad.*", "parked.*", "stability.*", "tyre.*.worst",
    "tyre.speed_cap", "wind.*",
)
INSURER_CHECKS = (
    *RATED, "anchor.*", "brakes.*", "pad.*", "parked.*", "rule.*", "site.bearing", "site.flood", "stability.*", "tow.*",
)
INSURER_STATES = ("dry", "travel", "travel_wet", "parked_*")

ENGINEER_QUANTITIES = (
    *ROAD, "anchor.*", "axle.*.tolerance_load", "braking.*", "coupler.tested.*", "fatigue.*", "frame.*",
    "height.jounce", "jack.*.leg_*", "jack.*.load*", "jack.*.rating_needed", "jack.*.station", "neck.coupler_set",
    "neck.underside", "pad.*", "parked.*", "pulling.hitch", "ride.*", "stability.tilt*", "state.*.cg.*",
    "tongue.leg_moment", "tyre_change.load",
)
ENGINEER_CHECKS = (
    "anchor.*", "axle.*.rating", "chain.strength", "coupler.*", "frame.*", "jack.*.lift", "jack.*.static", "pad.*",
    "parked.*", "site.bearing", "site.frost", "spring.*", "tongue.*", "tyre_change.point",
)
ENGINEER_WORKINGS = ("anchor.*", "frame.*", "pad.*", "parked.*", "site.bearing")
ENGINEER_WINDOWS = ("axles.window", "neck.window")

OFFICIAL_QUANTITIES = (
    *ENGINEER_QUANTITIES, "box.needed.*", "bridge.*", "drain.*", "ends.*", "floor.*", "headroom.*", "height.limit",
    "height.overall.*", "length.body", "length.without_tongue", "level.*", "neck.step", "rating.*.governing",
    "stability.*", "tyre.*.capacity", "tyre.*.worst", "width.*", "wind.*",
)
OFFICIAL_CHECKS = (
    *RATED, *ENGINEER_CHECKS, "axles.window", "box.*", "brakes.*", "drain.*", "dwelling.*", "ends.*", "headroom.*",
    "height.overall", "level.*", "rating.*.requested", "rule.*", "side.balance", "site.*", "stability.*", "tyre.gap",
    "tyre.rail_gap", "width.*",
)
