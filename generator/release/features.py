"""What a design has, in the words that `when` uses in the reference texts."""

from generator.model.region import countries
from generator.reference.types import ChecklistRow
from generator.spec.models.project import Insurance
from generator.spec.models.spec import Spec


def features(spec: Spec) -> frozenset[str]:
    """Features of the design: they decide which checklist pages and clause rows it gets."""
    trailer = spec.trailer
    insured = spec.project.insurance or Insurance()
    heat = insured.heat or ()
    has = {
        trailer.coupling.type: True,
        trailer.running_gear.suspension.type: True,
        "neck": trailer.neck is not None,
        "tongue": trailer.tongue is not None,
        "galvanised": trailer.frame.galvanised == "yes",
        "painted": trailer.frame.galvanised == "no",
        "spring bars": trailer.coupling.type == "ball" and (
            spec.tow is None or spec.tow.vehicle.front_restoration is not None),
        "over-run brakes": any(axle.brake.type == "over-run" for axle in trailer.running_gear.axles),
        "powered jacks": any(jack.motor is not None for jack in trailer.jacks),
        "stands": bool(trailer.stands),
        "points": bool(trailer.points),
        trailer.deck: True,
        "wheel boxes": bool(trailer.wheel_boxes),
        "propane": "propane" in heat or any(tank.holds == "propane" for tank in spec.weights.tanks),
        "solid fuel": "solid fuel" in heat,
        "diesel": "diesel" in heat,
        "sleeping loft": any(loft.sleeps for loft in spec.house.lofts),
        "heat not stated": insured.heat is None,
        insured.battery or "no battery stated": True,
        "battery": insured.battery in ("lithium", "lead acid"),
        "tow vehicle": spec.tow is not None,
        "tow vehicle and neck": spec.tow is not None and trailer.neck is not None,
        "tow vehicle and tongue": spec.tow is not None and trailer.tongue is not None,
        "no tow vehicle": spec.tow is None,
    }
    return frozenset(word for word, present in has.items() if present) | countries(spec.project.use.regions)


def deferred(row: ChecklistRow, has: frozenset[str]) -> str:
    """Whose word counts on a row of the checklist: the same people everywhere, and the law of the route."""
    return "; ".join(filter(None, (row.defer_to, row.us if "us" in has else row.abroad)))
