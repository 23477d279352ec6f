"""The jacks in the words of the request: what is asked for, what the owner's sums need, and how they are driven."""

from collections.abc import Mapping

from generator.calc.findings import JackRecord
from generator.spec.models.trailer import Jack
from generator.units import Show, wire_gauge


def stroke_asked(show: Show, jack: JackRecord) -> str:
    """The stroke of a jack as scheduled, and the least that would do."""
    return f"{show(jack.stroke, 'm')} as scheduled; {show(jack.stroke_needed, 'm', 'up')} is the least needed"


def jack_words(show: Show, jack: JackRecord, spec: Jack | None) -> dict[str, str]:
    """Every {name} of a jack: the record's numbers and, where the spec lists it, leg, screw and motor."""
    return {
        "title": jack.title, "legs": "one leg" if jack.legs == 1 else f"{jack.legs} legs", "drive": jack.drive,
        "lift_rating": show(jack.lift_rating, "kg"), "static_rating": show(jack.static_rating, "kg"),
        "rating_needed": show(jack.rating_needed, "kg"), "stroke_asked": stroke_asked(show, jack),
        "y": f"{show(jack.y, 'm')} from the centre line" if jack.y else "on the centre line",
        "force": show(jack.crank_force, "N:force"),
        "turns": show(jack.crank_turns, "turns"), "fuse": show(jack.fuse, "A"), **_leg(show, spec),
        **_motor(show, spec),
    }


def _leg(show: Show, spec: Jack | None) -> Mapping[str, str]:
    if spec is None:
        return dict.fromkeys(("foot", "block", "lead", "crank", "drop_leg"), show(None, "m"))
    step = spec.pin_step
    return {
        "foot": show(spec.foot_clearance.nominal, "m"), "block": show(spec.block.nominal, "m"),
        "lead": show(spec.screw.lead.nominal, "m:work"), "crank": show(spec.screw.crank.nominal, "m"),
        "drop_leg": "none" if step is None else f"pinned in steps of {show(step.nominal, 'm')}",
    }


def _cable(show: Show, area: float) -> str:
    """The copper of a cable, in the US with its gauge first: nobody there buys it by the square millimetre."""
    gauge, said = wire_gauge(area) if show.system == "us" else "", show(area, "m2:copper")
    return f"{gauge} ({said})" if gauge else said


def _motor(show: Show, spec: Jack | None) -> Mapping[str, str]:
    motor = None if spec is None else spec.motor
    if motor is None:
        return dict.fromkeys(("voltage", "current", "speed", "duty", "run", "area", "ampacity"), show(None, "m"))
    return {
        "voltage": show(motor.voltage.nominal, "V"), "current": show(motor.current.nominal, "A"),
        "speed": show(motor.speed.nominal, "m/s:slow"), "duty": show(motor.duty.nominal, "s"),
        "run": show(motor.cable_length.nominal, "m"), "area": _cable(show, motor.cable_area.nominal),
        "ampacity": show(motor.cable_ampacity.nominal, "A"),
    }
