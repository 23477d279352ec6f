"""The rows of the reply form: what a bidder answers, how, and in which unit."""

from collections.abc import Iterator

from generator.release.jacks import stroke_asked
from generator.release.slices import ReplyKind, ReplyRow
from generator.release.wording import Asked, deck_to_neck_window, is_abroad, load_range, shown
from generator.spec.models.trailer import Ball, Leaf, Torsion

Row = tuple[str, str, str]
Part = tuple[str, str, ReplyKind, Iterator[Row]]


def reply_rows(a: Asked) -> tuple[ReplyRow, ...]:
    """Prices, who designs, alternates, critical values, lead times, what is kept, terms; numbered by part."""
    parts: tuple[Part, ...] = (
        ("P", "Prices", "price", _prices(a)), ("D", "Who designs", "price", _design(a)),
        ("A", "Alternates", "price", _alternates(a)), ("C", "Critical values", "value", _critical(a)),
        ("L", "Lead times", "weeks", _lead()), ("Y", "Kept as asked", "choice", _kept()),
        ("W", "How it is made", "words", _made(a)), ("T", "Terms", "words", _terms(a)),
    )
    return tuple(ReplyRow(f"{letter}{n}", *row, kind, part) for letter, part, kind, rows in parts
                 for n, row in enumerate(rows, 1))


def _prices(a: Asked) -> Iterator[Row]:
    money = a.show.currency
    yield "Trailer complete as requested, without the lines below", "clauses Scope to Marks and papers", money
    yield "Coating", a.model.spec.trailer.frame.coating, money
    wired = {jack.title for jack in a.model.spec.trailer.jacks if jack.motor is not None}
    for jack in a.steel.jacks:
        yield jack.title, "complete, fitted and wired" if jack.title in wired else "complete and fitted", money
    yield "Spare wheel and carrier", a.model.spec.trailer.running_gear.spare, money
    plate = "Maker's plate and serial number" if is_abroad(a) else "Label and serial number"
    yield plate, "as clause Marks and papers", money
    yield "Papers and fees", "origin papers, mill and welders' records, weighing, document fees", money
    yield "Freight to the place of delivery", a.model.spec.project.request.delivery_place, money
    yield "Tax", "rate and amount, or why none", money


def _design(a: Asked) -> Iterator[Row]:
    money = a.show.currency
    yield ("Structural and weld design by the shop's licensed engineer", "sealed calculation and drawings before H1",
           money)
    yield ("Fabrication to the sealed calculation of the owner's engineer", "the base price as changed by it, add or "
           "deduct", money)


def _alternates(a: Asked) -> Iterator[Row]:
    show, money = a.show, a.show.currency
    foot = 0.3048 if show.system == "us" else 0.3
    low, high = deck_to_neck_window(a)
    neck = a.model.spec.trailer.neck
    if neck is not None and low < high:
        step = show(neck.shop_step.nominal, "m")
        yield (f"Neck underside higher or lower, each {step}",
               f"add or deduct; only from {show(low, 'm', 'up')} to {show(high, 'm', 'down')} above the main-deck top",
               money)
    yield f"Main deck longer or shorter at the rear, each {show(foot, 'm')}", "add or deduct", money
    yield "One more crossmember", "add", money
    yield "Next higher axle rating, each axle", "add", money
    yield "Next higher tyre and wheel, each", "add", money
    is_zinc = a.model.spec.trailer.frame.galvanised == "yes"
    yield "Paint instead of zinc" if is_zinc else "Zinc instead of paint", "add or deduct", money
    yield "Other sections than scheduled", "add or deduct; name them with S and I", money
    for option in a.model.spec.options:
        if option.to_shop:
            yield option.to_shop, "as stated here, all else as drawn", money
    yield "Your own alternate", "describe", money


def _critical(a: Asked) -> Iterator[Row]:
    show, steel = a.show, a.steel
    mass, length = show.label("kg"), show.label("m")
    gross, axles = ("Gross trailer mass", "Rating") if is_abroad(a) else ("GVWR", "GAWR")
    yield f"{gross} certified", shown(show, a.reported("rating.gvwr.requested")), mass
    for axle in steel.axles:
        asked, least = (shown(show, a.reported(f"rating.gawr.{axle.number}.{id}")) for id in ("requested", "least"))
        yield f"{axles} certified, axle {axle.number}", f"{asked}; least acceptable {least}", mass
    tyre, wheel = a.model.spec.trailer.running_gear.tyre, a.model.spec.trailer.running_gear.wheel
    yield "Tyre load, single, marked", f"{show(tyre.load.nominal, 'kg')} or more", mass
    yield "Wheel load rating", f"{show(wheel.load.nominal, 'kg')} or more", mass
    yield "Coupler rating, gross", f"{show(steel.coupler_rating, 'kg')} or more", mass
    coupler = a.model.spec.trailer.coupling.vertical_rating
    yield "Coupler rating, vertical", f"{show(coupler.nominal, 'kg')} or more", mass
    if steel.has_neck:
        yield "Neck underside above main-deck top", show(steel.neck_underside, "m"), length
    if isinstance(coupling := a.model.spec.trailer.coupling, Ball):
        yield "Ball centre below main-deck top", show(-coupling.height.nominal, "m"), length
    yield "Main-deck top, bare, above ground", show(steel.deck_height_bare, "m"), length
    yield "Ball centre from datum A", show(steel.pin_station, "m"), length
    for axle in steel.axles:
        held = "Torsion tube" if steel.has_arms else "Spindles"
        yield f"{held} of axle {axle.number} from datum A", show(axle.bracket_station, "m"), length
    yield "Track", show(steel.track, "m"), length
    yield from _sprung(a)
    for jack in steel.jacks:
        needed = show(jack.rating_needed, "kg")
        yield (f"{jack.title}: lift rating of a leg", f"{show(jack.lift_rating, 'kg')} as scheduled; {needed} is the "
               "least needed", mass)
        yield f"{jack.title}: standing rating of a leg", f"{show(jack.static_rating, 'kg')} as scheduled", mass
        yield f"{jack.title}: stroke", stroke_asked(show, jack), length
    yield "Bare trailer, mass", f"{shown(show, a.reported('state.bare.mass'))} by the owner's sums", mass
    yield ("Deflection of the main deck under the line load of sheet L1", "what your design expects, down positive",
           length)


def _sprung(a: Asked) -> Iterator[Row]:
    """What only one kind of suspension has."""
    show = a.show
    match a.model.spec.trailer.running_gear.suspension:
        case Torsion(start_angle=angle):
            yield "Start angle of the arms", show(angle.nominal, "rad"), show.label("rad")
        case Leaf(rate=rate, arch=arch, hanger=hanger, drop=drop, tube=tube):
            yield "Drop of the beam below the spindles", show(drop.nominal, "m"), show.label("m")
            yield "Diameter of the beam", show(tube.nominal, "m"), show.label("m")
            yield "Rate of one spring", show(rate.nominal, "N/m:spring"), show.label("N/m:spring")
            yield "Arch of the spring, unloaded", show(arch.nominal, "m"), show.label("m")
            yield "Eye of the springs to rail underside", show(hanger.nominal, "m"), show.label("m")


def _lead() -> Iterator[Row]:
    yield "Axles, after order", "from the axle maker", "weeks"
    yield "Steel and cutting, after H1", "in your shop", "weeks"
    yield "Welding and fitting", "in your shop", "weeks"
    yield "Coating, transport included", "in or out of house", "weeks"
    yield "Whole, order to delivery", "wanted as stated in clause Delivery", "weeks"


def _kept() -> Iterator[Row]:
    yield "Critical dimensions of the acceptance sheet", "all, measured and signed", "yes / no"
    yield "Hold points H1 to R6", "all, with the notice stated", "yes / no"
    yield "Magnets, lines, lamps and breakaway tested from the connector", "with the record", "yes / no"
    yield "Certificate of liability and product insurance with the quote", "limit and last day on it", "yes / no"


def _made(a: Asked) -> Iterator[Row]:
    spec, tyre = a.model.spec.trailer, a.model.spec.trailer.running_gear.tyre
    held = "brackets" if a.steel.has_arms else "hangers"
    joints = f"neck, riser, {held} and coupler" if a.steel.has_neck else f"tongue, {held} and coupler"
    plate = "plate" if is_abroad(a) else "label"
    yield "Who certifies the ratings", f"name of the manufacturer on the {plate}", "words"
    yield f"Who designs the welds of {joints}", spec.welding.designer, "words"
    yield "Weld design basis", "code or rule, fatigue class, load factors", "words"
    yield "Who inspects the welds", spec.welding.visual, "words"
    yield "Closed members", "sealed, or vented and drained", "words"
    if a.steel.has_arms:
        yield "Axle brackets", "type, bolted or welded, packers", "words"
    else:
        yield "Springs, hangers and equalisers", "type, leaves, bolts, gussets, packers", "words"
    yield "Tyre offered", f"{tyre.size}, {load_range(tyre)}", "words"
    yield "General tolerance", f"ISO 13920 class {spec.frame.general_tolerance}", "words"


def _terms(a: Asked) -> Iterator[Row]:
    terms = a.model.spec.project.request
    yield "Payment milestones", "; ".join(terms.payment), "words"
    yield "Warranty: frame, running gear, coating", terms.warranty, "words"
    yield "Price of steel", "fixed, or by which index read on which day", "words"
    yield "Who tows it away, and at whose risk", terms.delivery_place, "words"
    yield "Not included in your quote", "list by name", "words"
    yield "Addenda received", "numbers", "words"
