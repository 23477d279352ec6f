"""What one file alone cannot show: names that must differ or agree, and values that must stand in order."""

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from generator.errors import Fault
from generator.records import dataclass
from generator.reference.rules import rule_ids
from generator.spec.measure import Measure
from generator.spec.models.base import Part
from generator.spec.models.costs import Costs
from generator.spec.models.house import House
from generator.spec.models.project import Project, Use
from generator.spec.models.revisions import Revisions
from generator.spec.models.trailer import Ball, Gooseneck, KingPin, Trailer
from generator.spec.models.weights import Weights
from generator.spec.parse import Branch
from generator.spec.wording import Place, line_of, nearest, path_of

MONEY = re.compile(r"[$\u00a2-\u00a5\u20a0-\u20bf]|\b(?:USD|CAD|AUD|NZD|EUR|GBP|dollars?|euros?|budget|quoted?)\b",
                   re.IGNORECASE)
"""Signs and words that speak of money."""
BEYOND = "stations grow to the rear, y to the right, heights upward"

STEEPEST = math.radians(45.0) + 1e-9
"""A leg of a tongue stands at no more than this to the centre line."""


@dataclass(frozen=True, slots=True)
class Parts:
    """The files that could be read, by name: their models and their text."""

    models: Mapping[str, Part]
    trees: Mapping[str, Branch]

    def fault(self, file: str, place: Place, wrong: str, allowed: str) -> Fault:
        """A fault at a place of a file."""
        tree = self.trees[file]
        return Fault(file, line_of(tree, place), path_of(tree, place), wrong, allowed)


def crosscheck(parts: Parts) -> list[Fault]:
    """All faults between the parts of the files that could be read."""
    found: list[Fault] = []
    for file, model in parts.models.items():
        match model:
            case Project():
                found += _project(parts, file, model)
            case Trailer():
                found += _trailer(parts, file, model)
            case House():
                found += _house(parts, file, model)
            case Weights():
                found += _weights(parts, file, model)
            case Costs():
                found += _costs(parts, file, model)
            case Revisions():
                found += [*_unique(parts, [(file, "revisions", model.revisions)], "label"),
                          *_technical(parts, file, model)]
    return [*found, *_weighing_names(parts)]


def _technical(parts: Parts, file: str, revisions: Revisions) -> Iterator[Fault]:
    """What others read of a revision names no sum and no budget: it is the one text of that file that leaves it."""
    for number, revision in enumerate(revisions.revisions):
        for line, text in enumerate(revision.technical):
            found = MONEY.search(text)
            if found:
                yield parts.fault(file, ("revisions", number, "technical", line), f"`{found[0]}` speaks of money",
                                  "shop, official and engineer read this list; money belongs under `why` or `changes`")


def _project(parts: Parts, file: str, project: Project) -> Iterator[Fault]:
    request = project.request
    if request.questions_until > request.quotes_due:
        yield parts.fault(file, ("request", "questions_until"), "after the day on which quotes are due",
                          "questions end before quotes are due")
    yield from _moves(parts, file, project.use)
    yield from _unique(parts, [(file, "confirmations", project.confirmations)], "rule")
    ids = rule_ids() if project.confirmations else ()
    for number, confirmation in enumerate(project.confirmations):
        if confirmation.rule not in ids:
            yield parts.fault(file, ("confirmations", number, "rule"), f"no rule is called `{confirmation.rule}`",
                              f"{nearest(confirmation.rule, ids)}ids stand in the load summary, Rules and papers")


def _moves(parts: Parts, file: str, use: Use) -> Iterator[Fault]:
    """How often it is moved is said once, and a house that is never moved covers no distance."""
    ways = "write `moves_a_year: 12` for an ordinary year, or `moves: once` for a house that travels a single time"
    if use.moves_a_year is None and use.moves is None:
        yield parts.fault(file, ("use",), "how often it is moved is missing", ways)
    if use.moves_a_year is not None and use.moves is not None:
        yield parts.fault(file, ("use", "moves"), "stands beside `moves_a_year`", ways)
    if use.moves_a_year == 0 and use.distance_a_year.nominal > 0.0:
        yield parts.fault(file, ("use", "moves_a_year"), f"no move, yet {use.distance_a_year.text} towed in a year",
                          "`moves: once` for a single move, or `distance_a_year` of zero")


def _trailer(parts: Parts, file: str, trailer: Trailer) -> Iterator[Fault]:
    for key in ("jacks", "stands", "points"):
        yield from _unique(parts, [(file, key, getattr(trailer, key))])
    yield from _coupled(parts, file, trailer)
    yield from _in_order(parts, file, ("running_gear",), trailer.running_gear, "foremost", "rearmost")
    for number, box in enumerate(trailer.wheel_boxes):
        yield from _in_order(parts, file, ("wheel_boxes", number), box, "front", "rear")
    gear, coupling = trailer.running_gear, trailer.coupling
    ahead = gear.station.nominal - (len(gear.axles) - 1) / 2 * gear.spacing.nominal
    if ahead <= coupling.station.nominal:
        yield parts.fault(file, ("running_gear", "station"), "the first axle stands at or ahead of the coupling",
                          BEYOND)
    for number, jack in enumerate(trailer.jacks):
        wanted = 1 if jack.drive == "single" else 2
        if jack.legs != wanted:
            yield parts.fault(file, ("jacks", number, "legs"), f"{jack.legs} legs with drive `{jack.drive}`",
                              f"write {wanted}, or another drive")


def _coupled(parts: Parts, file: str, trailer: Trailer) -> Iterator[Fault]:
    """What the kind of coupling asks for: a neck over the bed of the tow vehicle, or a tongue behind it."""
    match trailer.coupling:
        case Ball(type=kind):
            wanted, other = "tongue", "neck"
        case Gooseneck(type=kind) | KingPin(type=kind) as raised:
            wanted, other = "neck", "tongue"
            yield from _in_order(parts, file, ("coupling",), raised, "adjust_low", "adjust_high")
    if getattr(trailer, wanted) is None:
        yield parts.fault(file, (), f"`{wanted}` is missing", f"coupling `{kind}` needs it: write `{wanted}:`")
    if getattr(trailer, other) is not None:
        yield parts.fault(file, (other,), f"coupling `{kind}` has none", f"leave `{other}` out, or change the `type`")
    angle = trailer.tongue.angle if trailer.tongue else None
    if angle is not None and angle.known and not 0.0 <= angle.nominal <= STEEPEST:
        yield parts.fault(file, ("tongue", "angle"), f"`{angle.text}` is no angle of a tongue", "0 deg to 45 deg")
    for number, member in enumerate(trailer.tongue.members if trailer.tongue else ()):
        if member.mark in {m.mark for m in trailer.frame.members}:
            yield parts.fault(file, ("tongue", "members", number, "mark"), f"`{member.mark}` is a mark of the frame",
                              "each name once")


def _house(parts: Parts, file: str, house: House) -> Iterator[Fault]:
    for key in ("roof_points", "buildups"):
        yield from _unique(parts, [(file, key, getattr(house, key))])
    yield from _in_order(parts, file, (), house, "front", "rear")
    for number, zone in enumerate(house.zones):
        yield from _in_order(parts, file, ("zones", number), zone, "front", "rear")
        yield from _in_order(parts, file, ("zones", number), zone, "floor", "ceiling")
        yield from _in_order(parts, file, ("zones", number), zone, "ceiling", "roof")
    for number, surface in enumerate(house.surfaces):
        yield from _known(parts, file, ("surfaces", number, "buildup"), surface.buildup, house.buildups)
    for number, opening in enumerate(house.openings):
        yield from _known(parts, file, ("openings", number, "surface"), opening.surface, house.surfaces)
    yield from _places(parts, file, house)
    for number, zone_id in enumerate(house.people.stands_in):
        yield from _known(parts, file, ("people", "stands_in", number), zone_id, house.zones)


def _places(parts: Parts, file: str, house: House) -> Iterator[Fault]:
    """Lofts, ways up, alarms and escapes name places that exist."""
    yield from _unique(parts, [(file, "zones", house.zones), (file, "lofts", house.lofts)])
    yield from _unique(parts, [(file, "climbs", house.climbs)])
    places: tuple[Part, ...] = (*house.zones, *house.lofts)
    for number, loft in enumerate(house.lofts):
        for low, high in (("front", "rear"), ("left", "right"), ("floor", "low")):
            yield from _in_order(parts, file, ("lofts", number), loft, low, high)
        yield from _in_order(parts, file, ("lofts", number), loft, "low", "high", may_meet=True)
    for number, climb in enumerate(house.climbs):
        yield from _known(parts, file, ("climbs", number, "to"), climb.to, places)
    for number, alarm in enumerate(house.alarms or ()):
        yield from _known(parts, file, ("alarms", number, "place"), alarm.place, places)
    for number, opening in enumerate(house.openings):
        if opening.escape_from is not None:
            yield from _known(parts, file, ("openings", number, "escape_from"), opening.escape_from, places)


def _weights(parts: Parts, file: str, weights: Weights) -> Iterator[Fault]:
    for key in ("items", "tanks"):
        for number, entry in enumerate(getattr(weights, key)):
            yield from _in_order(parts, file, (key, number), entry, "front", "rear", may_meet=True)
    for number, tank in enumerate(weights.tanks):
        if tank.travel.nominal > tank.wet.nominal:
            yield parts.fault(file, ("tanks", number, "wet"), "less than the filling of the travel state",
                              "the wet state holds at least as much")


def _costs(parts: Parts, file: str, costs: Costs) -> Iterator[Fault]:
    yield from _unique(parts, [(file, "lines", costs.lines)])
    yield from _unique(parts, [(file, "milestones", costs.milestones)])
    yield from _unique(parts, [(file, "answers", costs.answers)], "prompt")
    for number, line in enumerate(costs.lines):
        yield from _known(parts, file, ("lines", number, "due"), line.due, costs.milestones)
        if not line.low <= line.likely <= line.high:
            yield parts.fault(file, ("lines", number, "likely"), "low, likely and high are not in order",
                              "low at most likely, likely at most high")
    yield from _running(parts, file, costs)


def _running(parts: Parts, file: str, costs: Costs) -> Iterator[Fault]:
    yield from _unique(parts, [(file, "running", costs.running)])
    for number, line in enumerate(costs.running):
        if not line.low <= line.likely <= line.high:
            yield parts.fault(file, ("running", number, "likely"), "low, likely and high are not in order",
                              "low at most likely, likely at most high")
        if line.years is not None and (line.each != "year" or not line.years > 0.0):
            yield parts.fault(file, ("running", number, "years"), f"with `each: {line.each}`",
                              "above zero, and with `each: year` alone")
        if (line.distance is None) == (line.each == "distance") or (
            line.distance is not None and not line.distance.nominal > 0.0
        ):
            yield parts.fault(file, ("running", number, "each"), "needs `distance`, above zero, or none",
                              "`distance: 12000 mi` with `each: distance` alone")


def _weighing_names(parts: Parts) -> Iterator[Fault]:
    """Everything that becomes an item of the take-off has a name of its own, across files."""
    groups: list[tuple[str, str, Sequence[Part]]] = []
    for file, model in parts.models.items():
        if isinstance(model, House):
            groups += [(file, "surfaces", model.surfaces), (file, "openings", model.openings)]
        if isinstance(model, Weights):
            groups += [(file, "items", model.items), (file, "tanks", model.tanks)]
    yield from _unique(parts, groups)
    for file, model in parts.models.items():
        if isinstance(model, Trailer):
            yield from _unique(parts, [(file, "frame", model.frame.members)], "mark")


def _unique(parts: Parts, groups: Iterable[tuple[str, str, Sequence[Part]]], key: str = "id") -> Iterator[Fault]:
    seen: dict[str, str] = {}
    for file, name, entries in groups:
        start: Place = ("frame", "members") if name == "frame" else (name,)
        for number, entry in enumerate(entries):
            id = str(getattr(entry, key))
            place = (*start, number, key)
            here = f"{file}:{line_of(parts.trees[file], place)}"
            if id in seen:
                yield parts.fault(file, place, f"`{id}` is already the name of another entry ({seen[id]})",
                                  "each name once")
            seen.setdefault(id, here)


def _known(parts: Parts, file: str, place: Place, id: str, among: Sequence[Any]) -> Iterator[Fault]:
    ids = [entry.id for entry in among]
    if id not in ids:
        yield parts.fault(file, place, f"`{id}` is not there", f"{nearest(id, ids)}names there: {', '.join(ids)}")


def _in_order(parts: Parts, file: str, place: Place, part: Part, low: str, high: str,
              may_meet: bool = False) -> Iterator[Fault]:
    first: Measure = getattr(part, low)
    second: Measure = getattr(part, high)
    if first.nominal > second.nominal or (first.nominal == second.nominal and not may_meet):
        yield parts.fault(file, (*place, high), f"not beyond `{low}`", BEYOND)
