"""What the checks of a jack say in words, and why one powered jack would or would not do."""

from generator.calc.record import About
from generator.calc.topics.jack_drive import Effort
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack

MAKER = "The jack maker: lift and static rating of one leg, stroke, duty and current at that load."
MANUAL = "The jack maker's manual; never go under a house that stands on jacks alone."
PRACTICE = "common practice, no source"

_WORDS: dict[str, tuple[str, str, str, tuple[str, ...]]] = {
    "lift": (
        "lifts the nose with reserve",
        PRACTICE,
        "The jack stalls or strips with the house half lifted.",
        ("lift_rating", "station"),
    ),
    "static": (
        "stands under the nose",
        "static rating of the jack's maker",
        "A leg buckles while the house stands on it.",
        ("static_rating", "station"),
    ),
    "rear_axle": (
        "leaves the last axle within its rating",
        "the axle maker's label",
        "Torsion axles do not share: as the nose goes up the last axle takes what the others lose.",
        ("station",),
    ),
    "stroke": (
        "reaches far enough",
        "height chain of foot, ground and ball",
        "The coupler does not come off the ball, or the house cannot be levelled.",
        ("stroke", "block"),
    ),
    "stands": (
        "does not overload the rear stands if they are down",
        PRACTICE,
        "Chock, level, then stands and stabilisers last: lifting the nose later loads the rear stands.",
        ("station",),
    ),
    "hand": (
        "can be cranked by one person",
        PRACTICE,
        "The house cannot be unhitched by hand, or not with a dead battery.",
        ("screw.gear", "screw.crank"),
    ),
    "holds": (
        "holds its load without a brake",
        "power screw with a thrust collar (Shigley, ch. 8)",
        "The jack runs down under load when the crank is let go.",
        ("screw.lead",),
    ),
    "time": (
        "is done within its time",
        "duty stated by the maker, or common practice for a person",
        "The motor overheats, or people tire and skip the levelling.",
        ("motor.speed", "screw.gear"),
    ),
    "fuse": (
        "is fused within what its cable carries",
        PRACTICE,
        "The cable burns before the fuse opens.",
        ("motor.cable_area",),
    ),
    "drop": ("gets enough voltage", PRACTICE, "The motor stalls under load on a low battery.", ("motor.cable_area",)),
}
MANDATORY = frozenset({"lift", "static", "rear_axle"})


def about(what: str, jack: Jack) -> About:
    """The words of one check of a jack."""
    title, source, concern, levers = _WORDS[what]
    return About(
        title=f"{jack.title} {title}",
        topic="jacks",
        source=source,
        concern=concern,
        ask=MAKER,
        defer_to=MANUAL,
        mandatory=what in MANDATORY,
        levers=tuple(f"trailer.jacks.{jack.id}.{lever}" for lever in levers),
    )


def why(jack: Jack, level: float, worst: float, effort: Effort, data: Reference) -> str:
    """Whether one powered jack would be enough at this station, and the reasons if not; loads in kg."""
    reserve, peak = (data.defaults[row].value for row in ("jack.reserve_level", "jack.crank_peak"))
    reasons = []
    if worst > jack.lift_rating.nominal:
        reasons.append("alone it would carry more than one leg of this jack may lift")
    if reserve * level > jack.lift_rating.nominal >= worst:
        reasons.append("alone it would lift without the reserve asked")
    if not effort.crank.values[0] <= peak:
        reasons.append("with a dead battery nobody could crank the whole load")
    reasons.append(
        "in the middle of a wide body it gives no hold against roll, so the house would need stands before "
        "anybody moves about in it"
    )
    count = "The design has two legs" if jack.legs > 1 else "The design has one leg"
    return f"One powered jack is not enough: {'; '.join(reasons)}. {count}."
