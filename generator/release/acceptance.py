"""The acceptance sheet: what is measured at delivery, between which bounds, with what."""

import math
from collections.abc import Iterator

from generator.calc.record import Reported
from generator.reference.content import criticals, tolerances
from generator.reference.load import in_units
from generator.reference.types import Critical, Tolerance
from generator.release.slices import AcceptanceRow
from generator.release.wording import DASH, Asked, is_abroad, length
from generator.spec.models.trailer import Ball

Row = tuple[str, str, str, str, str]
AS_DRAWN = "as drawn"
ASIDE = "{3 in|75 mm}"
"""How far the towed path may lie off the tow vehicle's."""
WAY = "{5 miles|8 km}"
"""How far a trailer is towed before its hubs are felt."""
SIXTEENTH, MILLIMETRE = 0.0254 / 16.0, 0.001
"""To these steps sheets write lengths."""


def acceptance_rows(a: Asked) -> tuple[AcceptanceRow, ...]:
    """Critical dimensions, other welded lengths by the general tolerance, masses on the scale, tests; numbered."""
    rows = [*_critical_rows(a), *_welded_rows(a), *_mass_rows(a), *_test_rows(a)]
    return tuple(AcceptanceRow(str(n), *row) for n, row in enumerate(rows, 1))


def welded_tolerance(length: float, letter: str, rows: tuple[Tolerance, ...]) -> float:
    """Plus or minus for a welded length (m) by class of ISO 13920; the row is chosen in mm, before any rounding.

    NaN below the first row. 4000 mm belongs to the row that ends there, 4000.1 mm to the next.
    """
    mm = round(abs(length) * 1000.0, 6)
    for row in rows:
        if mm > row.over * 1000.0 and (row.to is None or mm <= round(row.to * 1000.0, 6)):
            return row.classes[letter]
    return math.nan


def _critical_rows(a: Asked) -> Iterator[Row]:
    nominals = _nominals(a)
    for row in criticals(a.show.system):
        for suffix, nominal in nominals.get(row.id, ()):
            yield _critical(a, row, suffix, nominal)


def _critical(a: Asked, row: Critical, suffix: str, nominal: float | None) -> Row:
    plus = a.model.spec.trailer.running_gear.suspension.seat_tolerance.nominal if row.plus is None else row.plus
    what = f"{row.what}, {suffix}" if suffix else row.what
    if nominal is None:
        low = length(a.show, -row.minus, "up")
        return what, AS_DRAWN, low, f"+{length(a.show, plus, 'down')}", row.how
    return what, *_bounds(a, nominal, row.minus, plus), row.how


def _bounds(a: Asked, nominal: float, minus: float, plus: float) -> tuple[str, str, str]:
    """Nominal and bounds as text: the bounds lie about the dimension as written, because written dimensions govern."""
    grid = SIXTEENTH if a.show.system == "us" else MILLIMETRE
    written = round(nominal / grid) * grid
    show = a.show
    return length(show, written), length(show, written - minus, "up"), length(show, written + plus, "down")


def _nominals(a: Asked) -> dict[str, list[tuple[str, float | None]]]:
    """Nominal values by critical dimension, each with what tells it apart; None: as drawn, at many places."""
    steel = a.steel
    zero: list[tuple[str, float | None]] = [("", 0.0)]
    found: dict[str, list[tuple[str, float | None]]] = {
        "width": [("main deck", steel.deck_width), ("neck deck", steel.neck_width)],
        "diagonals": zero, "flatness": zero, "coupler-centre": zero,
        "deck-bare": [("", steel.deck_height_bare)], "neck-underside": [("", steel.neck_underside)],
        "coupler-height": _coupler_height(a), "pin-station": [("", steel.pin_station)],
        "axle-station": [(f"axle {x.number}", x.bracket_station) for x in steel.axles if steel.has_arms],
        "spindle-station": [(f"axle {x.number}", x.station) for x in steel.axles if not steel.has_arms],
        "axle-square": zero, "axle-parallel": zero, "axle-centre": zero,
        "seats" if steel.has_arms else "hangers": zero, "track": [("", steel.track)],
        "box-opening": [(f"box {n}, both sides", None) for n, _ in enumerate(steel.boxes, 1)],
        "crossmember": [("", None)], "jack-station": [(j.title, j.station) for j in steel.jacks],
        "point": [("", None)] if steel.points else [],
    }
    return {id: [(s, v) for s, v in rows if v is None or math.isfinite(v)] for id, rows in found.items()}


def _coupler_height(a: Asked) -> list[tuple[str, float | None]]:
    """How deep the ball of a tongue lies: a welded coupler cannot be set later."""
    coupling = a.model.spec.trailer.coupling
    return [("", -coupling.height.nominal)] if isinstance(coupling, Ball) else []


def _welded_rows(a: Asked) -> Iterator[Row]:
    steel, letter, rows = a.steel, a.steel.tolerance_class, tolerances()
    for what, nominal in (
        ("Main deck, length", steel.deck_length), ("Neck deck, length", -steel.neck_front),
        ("Main rails, outside to outside", steel.rails_outside),
        ("Neck rails, outside to outside", steel.neck_rails_outside),
        ("Bracket centres across" if steel.has_arms else "Spring centres across", steel.bracket_spacing),
    ):
        by = welded_tolerance(nominal, letter, rows)
        if math.isfinite(by):
            yield what, *_bounds(a, nominal, by, by), f"tape, class {letter}"


def _mass_rows(a: Asked) -> Iterator[Row]:
    """Level first, because axles may share by attitude; for the same reason each axle alone is only recorded."""
    level = next(row for row in criticals(a.show.system) if row.id == "deck-bare")
    underside = a.steel.deck_height_bare + a.steel.neck_underside
    if math.isfinite(underside) and level.plus is not None:
        bounds = _bounds(a, underside, level.minus, level.plus)
        yield "For weighing, bare: neck underside above the floor, deck level", *bounds, level.how
    for what, id in (("mass", "mass"), ("at the coupler", "hitch"), ("all axles", "group")):
        quantity = a.reported(f"state.bare.{id}")
        if quantity is not None and math.isfinite(quantity.nominal):
            yield f"Bare trailer, {what}", *_band(a, quantity), "scale, ticket"
    for axle in a.steel.axles:
        quantity = a.reported(f"state.bare.axle.{axle.number}")
        if quantity is not None and math.isfinite(quantity.nominal):
            nominal = a.show(quantity.nominal, quantity.unit)
            yield f"Bare trailer, axle {axle.number}, for the record", nominal, DASH, DASH, "scale, ticket"


def _band(a: Asked, q: Reported) -> tuple[str, str, str]:
    return a.show(q.nominal, q.unit), a.show(q.low, q.unit), a.show(q.high, q.unit)


def _test_rows(a: Asked) -> Iterator[Row]:
    yield "Breakaway holds the brakes", "15 min", "15 min", DASH, "stopwatch"
    yield "Every lamp and reflector of the list", "works", DASH, DASH, "connector"
    yield "Every brake, from the connector", "works", DASH, DASH, "ammeter or gauge"
    yield "Wheel nuts", "maker's torque", DASH, DASH, "torque wrench"
    law = "" if is_abroad(a) else " (49 CFR 393.70(a) as guidance)"
    aside = in_units(ASIDE, a.show.system)
    yield f"Towed path off the tow vehicle's, straight level road{law}", "0", DASH, aside, "tape"
    for jack in a.steel.jacks:
        yield f"{jack.title}, full stroke up and down, then by hand", "works", DASH, DASH, "watch"
    yield f"Hubs after {in_units(WAY, a.show.system)}", "alike", DASH, DASH, "thermometer"
