"""What the checks of a jack say in words, and what one leg in the middle would or would not do."""

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
        "As the nose goes up, axles that do not share evenly give their load to the last one.",
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
NO_ROLL = (
    "in the middle of a wide body it gives no hold against roll, so the house needs its stands before anybody moves "
    "about in it"
)
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
    """What one leg in the middle would or would not do at this station, in the words of the rig; loads in kg."""
    short = _short(jack, level, worst, effort, data)
    if jack.legs > 1:
        return f"One powered jack is not enough: {'; '.join((*short, NO_ROLL))}. The design has two legs."
    if short:
        return f"This one leg is not enough: {'; '.join((*short, NO_ROLL))}."
    driven = "worked by a motor" if jack.motor is not None else "worked by hand"
    return f"One leg, {driven}, lifts the nose and no more: {NO_ROLL}. Level from side to side before it is used."


def _short(jack: Jack, level: float, worst: float, effort: Effort, data: Reference) -> tuple[str, ...]:
    """Where one leg of this jack falls short if it lifts the nose alone."""
    reserve, peak = (data.defaults[row].value for row in ("jack.reserve_level", "jack.crank_peak"))
    found = (
        (worst > jack.lift_rating.nominal, "alone it would carry more than one leg of this jack may lift"),
        (reserve * level > jack.lift_rating.nominal >= worst, "alone it would lift without the reserve asked"),
        (not effort.crank.values[0] <= peak, "nobody could crank the whole load by hand" if jack.motor is None
         else "with a dead battery nobody could crank the whole load"),
    )
    return tuple(words for is_so, words in found if is_so)
