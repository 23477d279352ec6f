"""Scale tickets and visits with the tape, made of plain values."""

from generator.spec.models.asbuilt import AsBuilt, Visit
from generator.spec.models.tickets import Ticket, Weighing

PLAIN = {
    "title": "First weighing",
    "date": "2026-06-01",
    "place": "Public scale, ticket 1",
    "by": "Owner",
    "revision": "A",
    "state": "travel",
    "weighed": "one draft",
    "level": "yes",
    "same_load": "yes",
    "graduation": "20 kg",
}


def weighing(id="one", **more):
    """A ticket; axle readings as text."""
    return Weighing(id, Ticket.model_validate(PLAIN | more))


def three(steer, drive, trailer, alone):
    """Hitched and alone, readings in kg."""
    kg = "{:.6f} kg".format
    hitched = {"steer": kg(steer), "drive": kg(drive), "trailer": kg(trailer)}
    return {"hitched": hitched, "alone": {"steer": kg(alone[0]), "drive": kg(alone[1])}}


def visit(id, date, *measurements):
    """A visit; each measurement is (what, which, text)."""
    rows = [
        {"what": what, "measured": text, "instrument": "tape"} | ({} if which is None else {"which": which})
        for what, which, text in measurements
    ]
    return Visit(id, AsBuilt.model_validate({"title": id, "date": date, "by": "Shop", "measurements": rows}))
