"""Where the trailer swings and grounds, and the turn and gate on its way: numbers of the calculation for one sheet."""

import math

from generator.calc.findings import Results
from generator.calc.record import Compared
from generator.model.types import Model
from generator.release.slices import Paths, Slope, Swing, Turn
from generator.release.steel import quantity
from generator.spec.measure import Measure

NAN = math.nan
YAWS = (0, 45, 90)
"""Yaws at which the room ahead of the nose is reported, degrees."""


def paths(model: Model, results: Results, with_turn: bool) -> Paths:
    """Swing, angles under the trailer, least ground clearance; the turn and the gate only where asked for."""
    return Paths(
        swing=_swing(model, results), departure=_slope(results, "ends.departure"),
        breakover=_slope(results, "ends.breakover"), clearance=quantity(results, "ends.clearance"),
        clearance_at=_what(results, "ends.clearance"), turn=_turn(model, results) if with_turn else None,
    )


def _swing(model: Model, results: Results) -> Swing:
    trailer, house, tow = model.spec.trailer, model.spec.house, model.spec.tow
    neck, ball = trailer.neck, trailer.coupling.station.nominal
    vehicle = None if tow is None else tow.vehicle

    def of(field: str) -> float:
        value: Measure | None = getattr(vehicle, field, None)
        return NAN if value is None else value.nominal

    free = "cab" if neck is not None else "tongue"
    front = min(house.front.nominal, neck.front.nominal) if neck is not None else house.front.nominal
    wide = max(house.width.nominal, trailer.frame.width.nominal if neck is None else neck.width.nominal)
    return Swing(
        ahead=ball - front, half=wide / 2.0, cab=of("ball_to_cab"), bed_end=of("ball_to_bed_end"),
        bed_half=of("bed_half_width"), rear=of("ball_to_bumper"), rear_half=of("bumper_half_width"),
        free=quantity(results, f"{free}.yaw_free"),
        wanted=_compared(results, "cab.strike" if neck is not None else "tongue.swing")[1],
        rooms=tuple((deg, quantity(results, f"cab.room.{deg}")) for deg in YAWS) if neck is not None else (),
    )


def _slope(results: Results, id: str) -> Slope:
    return Slope(quantity(results, id), _compared(results, id)[1], _what(results, id),
                 quantity(results, f"{id}_station"), quantity(results, f"{id}_height"))


def _what(results: Results, id: str) -> str:
    """What a quantity's title names after its colon."""
    title = next((q.title for q in results.quantities if q.id == id), "")
    return title.partition(": ")[2]


def _compared(results: Results, id: str) -> tuple[float, float]:
    """Demand and limit of a check; NaN for both if it could not be made."""
    outcome = next((c.outcome for c in results.checks if c.id == id), None)
    return (outcome.demand.value, outcome.limit.value) if isinstance(outcome, Compared) else (NAN, NAN)


def _turn(model: Model, results: Results) -> Turn:
    radius, reach = _compared(results, "access.turn")
    cut_in, site = quantity(results, "access.cut_in"), model.spec.site
    gate = NAN if site is None or site.gate_width is None else site.gate_width.nominal
    return Turn(
        radius=radius, reach=reach, yaw=quantity(results, "access.yaw"), path=radius - cut_in, cut_in=cut_in,
        swept=quantity(results, "access.swept"), tail_swing=quantity(results, "access.tail_swing"),
        gate_needed=quantity(results, "access.gate_needed"), gate=gate,
        is_straight=site is not None and site.gate_passed == "straight",
    )
