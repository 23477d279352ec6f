"""The haulier's sheet: sizes, masses, coupling, tyres, points, limits of the way, and the card for the dashboard."""

import math
from collections.abc import Iterator

from generator.model.types import Model
from generator.release.asked import Pair
from generator.release.sheets import Haul, HaulRow, Pairs
from generator.release.wording import Asked, load_range
from generator.spec.models.trailer import Ball, Coupling, Gooseneck, KingPin

HIGHEST = ("height.overall.unladen", "height.overall.laden", "height.overall.rebound")
STEP = {"us": 0.0254, "si": 0.01}
"""Heights for a driver are whole inches or centimetres, always up (m)."""
TRAVEL = "travel"
LIMITS = (
    ("access.swept", "Width swept in a turn"), ("access.tail_swing", "Tail swings out by"),
    ("ends.departure", "Departure angle"), ("ends.breakover", "Breakover angle"),
    ("tongue.yaw_free", "Turns free to"), ("ends.clearance", "Ground clearance"),
    ("ends.roof_ramp", "Height on a ramp"), ("tyre.speed_cap", "Tyres rated to"),
    ("wind.half_speed", "Not in gusts from"),
)
"""Quantities that bind the route, with the words of this sheet."""
MOVE = (
    "Pick-up place, access", "Contact there", "Drop place, access", "Contact at the drop", "Way measured by",
    "Permits, escort", "Weight ticket, date", "Serial number, plate", "Brakes tried, date", "Loose things stowed by",
    "Insured by, proof", "Damage before",
)
"""What only owner and haulier can write, on the day."""


def haul(a: Asked) -> Haul:
    """The whole sheet of one design."""
    return Haul(
        sizes=tuple(_sizes(a)), states=tuple(_states(a)),
        coupling=tuple((a.cover.say(what), text) for what, text in _coupling(a)),
        wheels=tuple(_wheels(a)), points=tuple(_points(a)), limits=tuple(_limits(a)),
        move=tuple((what, "") for what in MOVE), card=_card(a),
    )


def highest(a: Asked) -> str:
    """The highest point at the high side of its spread, rounded up for a driver."""
    found = [q.high for id in HIGHEST if (q := a.reported(id)) is not None]
    if not found or not all(map(math.isfinite, found)):
        return ""
    step = STEP[a.show.system]
    return a.show(math.ceil(round(max(found) / step, 6)) * step, "m", "up")


def _of(a: Asked, id: str, words: str) -> Iterator[Pair]:
    q = a.reported(id)
    if q is not None and math.isfinite(q.nominal):
        yield words, a.show(q.nominal, q.unit, q.toward)


def _sizes(a: Asked) -> Iterator[Pair]:
    show = a.show
    yield "Length over all", show(a.envelope.length, "m", "up")
    yield from _of(a, "width.overall", "Width over all")
    yield "Height, rounded up", highest(a)
    yield "Height measured, date", ""
    yield "Deck above ground", show(a.steel.deck_height_laden, "m")
    yield from _of(a, "length.hitch_to_axles", "Coupling to axles")
    yield from _of(a, "ends.overhang", "Behind the axles")
    travel = next((s for s in a.results.states if s.id == TRAVEL), None)
    if travel is not None:
        yield "Centre of mass", f"{show(travel.x - a.steel.pin_station, 'm')} aft of coupling, {show(travel.z, 'm')} up"


def _states(a: Asked) -> Iterator[HaulRow]:
    show = a.show
    for s in a.results.states:
        if s.towed:
            yield HaulRow(s.title, show.number(s.mass, "kg"), show.number(s.mass_high, "kg", "up"),
                          show.number(s.hitch, "kg"), show.percent(s.share), show.number(s.group, "kg"))


def _coupling(a: Asked) -> Iterator[Pair]:
    show, trailer = a.show, a.model.spec.trailer
    yield "Coupling", _couples(trailer.coupling, a)
    yield "Rated", (f"{show(trailer.coupling.rating.nominal, 'kg')} trailer, "
                    f"{show(trailer.coupling.vertical_rating.nominal, 'kg')} down")
    yield "Ball height, level", show(a.steel.ball_height, "m")
    low, high = a.reported("hitch.ball_low"), a.reported("hitch.ball_high")
    if low is not None and high is not None:
        yield "Ball heights it takes", f"{show(low.nominal, 'm', 'up')} to {show(high.nominal, 'm', 'down')}"
    yield from _of(a, "tow.required.bed_rail", "Bed rail at most")
    yield from _of(a, "tow.required.ball_to_cab", "Ball to cab at least")
    yield from _of(a, "tow.required.tow_rating", "Tow rating at least")
    yield from _of(a, "tow.required.payload", "Payload at least")
    yield "Safety chains", f"{trailer.chains.count}, {trailer.chains.grade}"
    yield "Breakaway", trailer.chains.breakaway
    yield "Lights plug", trailer.wiring.connector


def _couples(coupling: Coupling, a: Asked) -> str:
    match coupling:
        case Gooseneck(ball_diameter=size):
            return f"gooseneck, ball of {a.show(size.nominal, 'm')} in the bed"
        case Ball(ball_diameter=size):
            return f"coupler on a tongue, ball of {a.show(size.nominal, 'm')}"
        case KingPin(pin_diameter=size):
            return f"king pin of {a.show(size.nominal, 'm')}, plate in the bed"


def _wheels(a: Asked) -> Iterator[Pair]:
    show, gear = a.show, a.model.spec.trailer.running_gear
    tyre = gear.tyre
    yield "Tyres", f"{2 * len(gear.axles)} of {tyre.size}, {load_range(tyre)}"
    yield "Cold pressure", show(tyre.pressure.nominal, "Pa")
    yield "Load of one tyre", show(tyre.load.nominal, "kg")
    yield "Oldest tyre, week, year", ""
    yield "Wheels", f"{gear.wheel.size}, {gear.wheel.studs}"
    yield "Wheel torque, maker's", ""
    yield "Axles", f"{len(gear.axles)}, rated {', '.join(sorted({show(x.rating.nominal, 'kg') for x in gear.axles}))}"
    yield "Brakes", _brakes(a.model)
    yield "Spare", gear.spare


def _brakes(model: Model) -> str:
    kinds = [x.brake.type for x in model.spec.trailer.running_gear.axles]
    braked = [k for k in kinds if k != "none"]
    return f"{', '.join(sorted(set(braked)))} on {len(braked)} of {len(kinds)} axles" if braked else "none"


def _points(a: Asked) -> Iterator[Pair]:
    show = a.show
    for kind, title in (("tie", "Tie-down and recovery"), ("lift", "Lift and tyre change")):
        held = [p for p in a.steel.points if p.kind == kind]
        if held:
            ratings = ", ".join(sorted({show(p.rating, "kg") for p in held}))
            yield title, f"{', '.join(show(p.station, 'm') for p in held)} aft of datum A, both sides, {ratings} each"
        else:
            yield title, "no point is drawn: ask the owner before a strap or jack touches it"
    yield from _of(a, "tyre_change.load", "Lift, one side, load")
    yield from _of(a, "tyre_change.lift", "Lift, one side, height")


def _limits(a: Asked) -> Iterator[Pair]:
    for id, words in LIMITS:
        yield from _of(a, id, words)


def heaviest(a: Asked) -> str:
    """The high side of the heaviest state towed, tanks as wet as they may be; a bridge asks for no less."""
    found = [s.mass_high for s in a.results.states if s.towed]
    return a.show(max(found), "kg", "up") if found and all(map(math.isfinite, found)) else ""


def _card(a: Asked) -> Pairs:
    show, gear = a.show, a.model.spec.trailer.running_gear
    return (
        ("Height, rounded up", highest(a)),
        ("Height measured", ""),
        ("Length", show(a.envelope.length, "m", "up")),
        *_of(a, "width.overall", "Width"),
        ("Mass at most", heaviest(a)),
        ("Mass weighed", ""),
        ("Tyres, cold", show(gear.tyre.pressure.nominal, "Pa")),
        ("Wheel torque", ""),
    )
