"""The underwriter's sheet: what it is, what it is worth, what it weighs against its ratings, fire, use, ties."""

import math
from collections.abc import Iterator

from generator.calc.record import Compared, Reported
from generator.release.asked import Pair
from generator.release.haul import heaviest
from generator.release.sheets import Pairs, Underwriting, WeighedRow
from generator.release.wording import Asked
from generator.spec.models.project import Insurance

TRAVEL = "travel"
UNASKED = Insurance()
"""What a design says that leaves all of it to the owner's pen."""
PATHS = {"rv": "recreational vehicle", "park_model": "park model", "manufactured": "manufactured home",
         "foundation_dwelling": "dwelling on a foundation", "caravan": "caravan",
         "vehicle": "vehicle that is lived in", "undecided": "not decided"}


def underwriting(a: Asked) -> Underwriting:
    """The whole sheet of one design."""
    asked = a.model.spec.project.insurance or UNASKED
    return Underwriting(
        identity=_identity(a), value=_value(a, asked), weighed=tuple(_weighed(a)), build=_build(a),
        fire=_fire(a, asked), use=tuple(_use(a, asked)), ties=tuple(_ties(a)),
    )


def _identity(a: Asked) -> Pairs:
    spec, show = a.model.spec, a.show
    area = a.reported("floor.area")
    return (
        ("Kind", f"house on its own trailer, coupling: {spec.trailer.coupling.type}"),
        ("Declared to be", PATHS[spec.project.legal_path]),
        ("Length, width over all", f"{show(a.envelope.length, 'm', 'up')}, {show(a.envelope.width, 'm', 'up')}"),
        ("Floor", "" if area is None else show(area.nominal, area.unit)),
        ("Serial number (VIN)", ""),
        ("Title or registration", ""),
        ("Maker of the trailer", ""),
        ("Year finished", ""),
    )


def _value(a: Asked, asked: Insurance) -> Pairs:
    value = asked.replacement_value
    return (
        ("Replacement value", "" if value is None else a.show.money(value)),
        ("Found by", asked.value_basis or ""),
        ("Cover while being built", asked.cover_while_building or ""),
        ("Contents, listed apart", ""),
    )


def _weighed(a: Asked) -> Iterator[WeighedRow]:
    """Gross and axle loads against the ratings asked for, with what a scale read where there is a ticket."""
    show = a.show
    travel = next((s for s in a.results.states if s.id == TRAVEL), None)
    read = None if a.results.weighed is None else next(
        (s for s in a.results.weighed.states if s.id == TRAVEL and s.source), None)
    if travel is None:
        return
    gross, ball = a.reported("rating.gvwr.requested"), a.model.spec.trailer.coupling.vertical_rating.nominal
    yield WeighedRow("Trailer", _rating(a, gross), show(travel.mass, "kg"), heaviest(a),
                     "" if read is None else show(read.mass, "kg"))
    yield WeighedRow(a.cover.say("On the ball"), show(ball, "kg"), show(travel.hitch, "kg"), _worst_hitch(a),
                     "" if read is None else show(read.hitch, "kg"))
    for row in a.results.ratings:
        asked = a.reported(f"rating.gawr.{row.axle}.requested")
        worst = a.reported(f"axle.{row.axle}.worst")
        yield WeighedRow(f"Axle {row.axle}", _rating(a, asked), show(row.load, "kg"),
                         "" if worst is None else show(worst.nominal, worst.unit), "")


def _rating(a: Asked, q: Reported | None) -> str:
    return "" if q is None else a.show(q.nominal, q.unit)


def _worst_hitch(a: Asked) -> str:
    """The greatest load on the coupler over all towed states with the ball off its height, as its rating is checked."""
    outcome = next((c.outcome for c in a.results.checks if c.id == "hitch.rating"), None)
    return a.show(outcome.demand.value, "kg", "up") if isinstance(outcome, Compared) else ""


def _build(a: Asked) -> Pairs:
    """Who stood for what; an inspection or sign-off is a box until somebody has made it."""
    frame = a.model.spec.trailer
    return (
        ("Frame welded to", frame.welding.code),
        ("Frame inspected", frame.welding.visual),
        ("Built to, inspected by", ""),
        ("Electrical signed by", ""),
        ("Gas signed by", ""),
        ("Ties designed by", ""),
    )


def _fire(a: Asked, asked: Insurance) -> Pairs:
    alarms = a.model.spec.house.alarms
    kinds = sorted({x.kind for x in alarms}) if alarms else []
    propane = any(t.holds == "propane" for t in a.model.spec.weights.tanks)
    return (
        ("Heated and cooked with", "" if asked.heat is None else ", ".join(asked.heat)),
        ("Heater, listing, clearances", asked.heater or ""),
        ("Propane aboard", "yes" if propane else "no tank is listed"),
        ("House battery", asked.battery or ""),
        ("Battery stands", asked.battery_place or ""),
        ("Alarms", "; ".join(f"{sum(x.kind == k for x in alarms or ())} {k}" for k in kinds)),
        ("Extinguishers, places", ""),
        ("Two ways out of every bed", ""),
    )


def _use(a: Asked, asked: Insurance) -> Iterator[Pair]:
    use, spec = a.model.spec.project.use, a.model.spec
    words = ("Moves", "Distance of the move") if use.moves else ("Moves in a year", "Distance in a year")
    yield words[0], "one in all; then it stands" if use.moves else str(use.moves_ordinary)
    yield words[1], a.show(use.distance_a_year.nominal, "m:far")
    yield "Towed by", spec.project.roles.tows
    yield "Sleep aboard, parked", str(spec.house.people.count)
    yield "Aboard while it is towed", "nobody, ever"
    yield "Stands between moves", asked.storage or ""
    yield "Tow vehicle, its insurer", ""
    yield "Losses in five years", ""


def _ties(a: Asked) -> Iterator[Pair]:
    show = a.show
    for id, words in (("parked.wind.tips_at", "Gust that may tip it"),
                      ("parked.tie.tension", "One tie, design wind"),
                      ("parked.wind.force", "Wind on the long side")):
        q = a.reported(id)
        if q is not None and math.isfinite(q.nominal):
            yield words, show(q.nominal, q.unit, q.toward)
    held = [p for p in a.steel.points if p.kind == "tie"]
    yield "Tie points on the frame", f"{2 * len(held)}" if held else "none drawn"
    yield "Ground anchors", ""
    yield "Ties checked, date", ""
