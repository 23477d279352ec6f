"""Jack-knife behind the tow vehicle: the yaw at which its rear end meets tongue, jack, or the front of deck or house.

In plan, whatever the heights: a bumper, a shut tailgate and a spare wheel stand at different ones.
"""

from collections.abc import Iterator

import numpy as np

from generator.calc.record import About, Check, Findings, Floats, Quantity, Working, combine, compare, report, sure
from generator.calc.topics import rides as rd
from generator.calc.topics.optional import towing
from generator.calc.trials import Trials
from generator.model.solids import middle_at
from generator.model.types import Model, Piece
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Tongue

HALF_TURN = float(np.pi)
HAIR = 1e-6
"""Two corners that pass this near (m) meet."""


@dataclass(frozen=True, slots=True, eq=False)
class Rear:
    """Rear end of the tow vehicle seen from the ball, the margin taken off: how far ahead, half its width (m)."""

    ahead: Floats
    half: Floats

    @property
    def corner(self) -> tuple[Floats, Floats]:
        """Ball to the corner (m), and the corner's angle from the line straight aft (rad)."""
        return np.hypot(self.ahead, self.half), HALF_TURN - np.arctan2(self.half, self.ahead)


def point_yaw(rear: Rear, aft: Floats, aside: Floats) -> Floats:
    """Yaw (rad) at which a point `aft` of the ball and `aside` of it (m) meets rear end or side; pi if never."""
    radius, angle = np.hypot(aft, aside), np.arctan2(aside, aft)
    with np.errstate(all="ignore"):
        end = np.arccos(np.clip(-rear.ahead / radius, -1.0, 1.0)) - angle
        side = HALF_TURN - np.arcsin(np.clip(rear.half / radius, -1.0, 1.0)) - angle
        beside = np.sqrt(np.maximum(radius**2 - rear.ahead**2, 0.0))
    yaw = np.where(beside > rear.half + HAIR, side, end)
    return np.where(radius < rear.ahead, HALF_TURN, np.maximum(yaw, 0.0))


def face_yaw(rear: Rear, aft: Floats, half: Floats) -> Floats:
    """Yaw (rad) at which the corner of the rear end meets a front face `aft` of the ball, `half` wide (m)."""
    reach, corner = rear.corner
    with np.errstate(all="ignore"):
        yaw = corner - np.arccos(np.clip(aft / reach, -1.0, 1.0))
        beside = np.sqrt(np.maximum(reach**2 - aft**2, 0.0))
    return np.where((reach < aft) | (beside > half + HAIR), HALF_TURN, np.maximum(yaw, 0.0))


def leg_yaw(rear: Rear, half: Floats, rate: Floats, aft: Floats) -> Floats:
    """Yaw (rad) at which the corner of the rear end meets the outer face of a leg that ends `aft` of the ball.

    `half` (m) is where that face lies off the centre line at the ball, `rate` by how much more per length aft.
    """
    reach, corner = rear.corner
    angle = np.arctan(rate)
    with np.errstate(all="ignore"):
        at = angle + np.arcsin(np.clip(half * np.cos(angle) / reach, -1.0, 1.0))
    return np.where(reach * np.cos(at) > aft, HALF_TURN, np.maximum(corner - at, 0.0))


def tongue_swing(model: Model, part: Tongue, trials: Trials, data: Reference) -> Findings:
    """Yaw (rad) up to which nothing of the trailer meets the rear end of the tow vehicle."""
    w = Working()
    margin = trials.assumed("m", data.defaults["tongue.swing_margin"])
    ahead = towing(model, trials, "ball_to_bumper", "d_b", "m")
    half = towing(model, trials, "bumper_half_width", "w_b", "m")
    rear = Rear(ahead.values - margin.values, half.values + margin.values)
    inputs = [ahead, half, margin, rd.hitch_station(model, trials), *_front(model, trials)]
    met = {}
    for title, yaw, more in _bodies(model, part, rear, inputs[3:], trials):
        inputs += more
        met[title] = yaw
    least = np.minimum.reduce(np.broadcast_arrays(*met.values()))
    known = [title for title, yaw in met.items() if np.isfinite(yaw.flat[0])]
    first = min(known, key=lambda title: float(met[title].flat[0]), default="not known")
    free = w.procedure(
        "Yaw at which the rear end of the tow vehicle meets the trailer",
        "In plan, about the ball: corners of deck or house front and the jack turn toward the rear end, whose corner "
        "sweeps along the front face and the outer faces of the legs; the rear end is taken nearer and wider by m. "
        f"What meets it first: {first}. Half a turn: never.",
        "plane geometry of a body turning about a point",
        combine("psi_free", np.atleast_1d(least), "rad", inputs),
        inputs,
    )
    need = trials.assumed("psi", data.defaults["tongue.yaw_free"])
    title = "Yaw at which the rear end of the tow vehicle meets the trailer"
    return Findings(
        (report("tongue.yaw_free", title, free, "down"),),
        (Check("tongue.swing", SWING, "", compare(free, need, ">=", w)),),
    )


def _front(model: Model, trials: Trials) -> tuple[Quantity, Quantity]:
    """Station of the foremost of deck and house, and the greater width of both, m."""
    house, frame = model.spec.house, model.spec.trailer.frame
    of_house = trials.given("x_f", house.front, "m", path="house.yaml front")
    ahead = not float(of_house.values[0]) > 0.0
    widest = max((house.width, "house.yaml width"), (frame.width, "trailer.yaml frame.width"),
                 key=lambda pair: float(np.nan_to_num(pair[0].nominal, nan=np.inf)))
    return of_house if ahead else sure("x_f", 0.0, "m"), trials.given("w", widest[0], "m", path=widest[1])


def _bodies(
    model: Model, part: Tongue, rear: Rear, given: list[Quantity], trials: Trials
) -> Iterator[tuple[str, Floats, tuple[Quantity, ...]]]:
    """What may be met: its name, the yaw (rad), and what else that rests on."""
    ball, front, width = (q.values for q in given)
    aft, half = front - ball, width / 2
    yield "front corner of deck or house", point_yaw(rear, aft, half), ()
    yield "front face of deck or house", face_yaw(rear, aft, half), ()
    beta = trials.given("beta", part.angle, "rad", path="trailer.yaml tongue.angle")
    marks = {m.mark for m in part.members if m.run == "lengthwise"}
    x_h = float(ball.flat[0])
    legs = [p for p in model.pieces if p.mark in marks and p.y0 + p.y1 >= 0.0]
    outer = max((_outer(p, x_h) for p in legs), default=float("nan"))
    leg = sure("h_l", outer, "m", origin="trailer.yaml tongue.members")
    yield "a leg of the tongue", leg_yaw(rear, leg.values, np.tan(beta.values), aft), (beta, leg)
    for p in legs:
        yield f"front end of {p.mark}", point_yaw(rear, p.x0 - ball, np.array([_outer(p, p.x0)])), ()
    for n, jack in enumerate(model.spec.trailer.jacks):
        station = trials.given("x_j", jack.station, "m", path=f"trailer.yaml jacks.{n}.station")
        aside = trials.given("y_j", jack.y, "m", path=f"trailer.yaml jacks.{n}.y")
        if not float(station.values[0]) >= 0.0:
            yaw = point_yaw(rear, station.values - ball, np.abs(aside.values))
            yield f"leg of the {jack.title.lower()}", yaw, (station, aside)


def _outer(p: Piece, x: float) -> float:
    """Where the outer face of a leg, drawn on to station x, lies off the centre line, m."""
    return middle_at(p, x) + (p.y1 - p.y0) / 2 * p.skew


SWING = About(
    title="Tow vehicle clear of tongue and house in a tight turn",
    topic="hitch",
    source="common practice, no source",
    concern="Backing round a corner, the bumper bends a leg or the jack, or the tailgate breaks the house front.",
    ask="Whoever tows: ball to the rearmost part of the vehicle and half the width there, measured, ball mount fitted.",
    defer_to="A slow trial turn with a spotter before the first tow.",
    levers=("trailer.coupling.station", "tow.vehicle.ball_to_bumper"),
)
