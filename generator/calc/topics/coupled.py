"""What differs between the kinds of coupling: its words, the limits of its share, how deep it sits."""

from generator.calc.record import Quantity
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.spec.models.trailer import Ball, Gooseneck, KingPin, Neck


@dataclass(frozen=True, slots=True)
class Words:
    """What carries the front of the trailer and what holds it, what stands ahead of datum A and how it is carried, in
    words; ids of the defaults of the share on it.
    """

    on: str
    part: str
    root: str
    carries: str
    share_low: str
    share_high: str


GOOSENECK = Words("ball", "coupler", "Neck", "Riser", "hitch.share_low", "hitch.share_high")
BALL = Words("ball", "coupler", "Tongue", "Tongue", "hitch.share_low_ball", "hitch.share_high_ball")
KING_PIN = Words("king pin", "pin box", "Neck", "Riser", "hitch.share_low_pin", "hitch.share_high_pin")


@dataclass(frozen=True, slots=True)
class Raised:
    """A coupling over the bed of the tow vehicle, and the neck it hangs from."""

    coupling: Gooseneck | KingPin
    neck: Neck


def coupled(model: Model) -> Words:
    """Words and share limits of the design's coupling."""
    match model.spec.trailer.coupling:
        case Gooseneck():
            return GOOSENECK
        case Ball():
            return BALL
        case KingPin():
            return KING_PIN


def raised(model: Model) -> Raised | None:
    """The coupling over the bed with its neck; None for a ball behind the tow vehicle."""
    trailer = model.spec.trailer
    match trailer.coupling:
        case Gooseneck() | KingPin() as coupling if trailer.neck is not None:
            return Raised(coupling, trailer.neck)
        case _:
            return None


def engaged(model: Model, trials: Trials) -> Quantity:
    """Depth by which ball or pin sits in what holds it, m."""
    at = "trailer.yaml coupling"
    match model.spec.trailer.coupling:
        case Gooseneck(ball_diameter=diameter) | Ball(ball_diameter=diameter):
            return trials.given("d_b", diameter, "m", path=f"{at}.ball_diameter")
        case KingPin(pin_length=length):
            return trials.given("d_b", length, "m", path=f"{at}.pin_length")
