"""The rows of the reply form: what a bidder answers, and in which unit."""

from collections.abc import Iterator

from generator.release.slices import ReplyRow
from generator.release.wording import Asked, shown

Row = tuple[str, str, str]
YES_NO, WORDS, WEEKS = "yes / no", "words", "weeks"


def reply_rows(a: Asked) -> tuple[ReplyRow, ...]:
    """Prices, critical values, who designs, alternates, lead times, terms; numbered by part."""
    parts = (("P", _prices(a)), ("C", _critical(a)), ("D", _design(a)), ("A", _alternates(a)), ("L", _lead()),
             ("T", _terms(a)))
    return tuple(ReplyRow(f"{letter}{n}", *row) for letter, rows in parts for n, row in enumerate(rows, 1))


def _prices(a: Asked) -> Iterator[Row]:
    money = a.show.currency
    yield "Trailer complete as requested, without the lines below", "1", money
    yield "Coating", a.model.spec.trailer.frame.coating, money
    for jack in a.steel.jacks:
        yield jack.title, "complete, fitted and wired", money
    yield "Spare wheel and carrier", a.model.spec.trailer.running_gear.spare, money
    yield "Label, serial number, certificate of origin", "as clause Marks and papers", money
    yield "Freight to the place of delivery", a.model.spec.project.request.delivery_place, money
    yield "Tax", "rate and amount", money
    yield "Total", "sum of the lines offered", money


def _critical(a: Asked) -> Iterator[Row]:
    show, steel = a.show, a.steel
    mass, length = show.label("kg"), show.label("m")
    yield "GVWR certified", shown(show, a.reported("rating.gvwr.requested")), mass
    for axle in steel.axles:
        yield (f"GAWR certified, axle {axle.number}",
               f"{shown(show, a.reported(f'rating.gawr.{axle.number}.requested'))} or more", mass)
    tyre, wheel = a.model.spec.trailer.running_gear.tyre, a.model.spec.trailer.running_gear.wheel
    yield "Tyre offered: size, range", f"{tyre.size}, load range {tyre.load_range}", WORDS
    yield "Tyre load, single, marked", show(tyre.load.nominal, "kg", "up"), mass
    yield "Wheel load rating", show(wheel.load.nominal, "kg", "up"), mass
    yield "Coupler rating", show(steel.coupler_rating, "kg"), mass
    yield "Neck underside above main-deck top", show(steel.neck_underside, "m"), length
    yield "Main-deck top, bare, above ground", show(steel.deck_height_bare, "m"), length
    yield "Ball centre from datum A", show(steel.pin_station, "m"), length
    for axle in steel.axles:
        yield f"Torsion tube of axle {axle.number} from datum A", show(axle.bracket_station, "m"), length
    yield "Track", show(steel.track, "m"), length
    angle = a.model.spec.trailer.running_gear.suspension.start_angle.nominal
    yield "Start angle of the arms", show(angle, "rad"), show.label("rad")
    for jack in steel.jacks:
        yield f"{jack.title}: lift rating of a leg", f"{show(jack.rating_needed, 'kg', 'up')} or more", mass
        yield f"{jack.title}: stroke", f"{show(jack.stroke_needed, 'm', 'up')} or more", length
    yield "Bare trailer, mass", shown(show, a.reported("state.bare.mass")), mass
    yield "General tolerance", f"ISO 13920 class {steel.tolerance_class}", WORDS
    yield "Critical dimensions of the acceptance sheet", "all, measured and signed", YES_NO


def _design(a: Asked) -> Iterator[Row]:
    money = a.show.currency
    yield "Structural design by the shop's engineer, sealed", "price if you do it", money
    yield "Structural design by the owner's engineer", "price for building to it", money
    yield "Built as drawn, no structural design", "say if you would", YES_NO
    yield "Who certifies the ratings", "name of the manufacturer on the label", WORDS
    yield "Who designs and inspects the welds", a.model.spec.trailer.welding.designer, WORDS


def _alternates(a: Asked) -> Iterator[Row]:
    show, money = a.show, a.show.currency
    inch, foot = (0.0254, 0.3048) if show.system == "us" else (0.025, 0.3)
    yield f"Neck higher or lower, each {show(2 * inch, 'm')}", "add or deduct", money
    yield f"Main deck longer or shorter, each {show(foot, 'm')}", "add or deduct", money
    yield "One more crossmember", "add", money
    yield "Next higher axle rating, each axle", "add", money
    yield "Next higher tyre and wheel, each", "add", money
    yield "Other coating (zinc instead of paint, or paint instead of zinc)", "add or deduct", money
    yield "Other sections than scheduled", "name them with S and I", money
    yield "Your own alternate", "describe", money


def _lead() -> Iterator[Row]:
    yield "Axles, after order", "from the axle maker", WEEKS
    yield "Steel and cutting, after H1", "in your shop", WEEKS
    yield "Welding and fitting", "in your shop", WEEKS
    yield "Coating, transport included", "in or out of house", WEEKS
    yield "Whole, order to delivery", "wanted as stated in clause Delivery", WEEKS


def _terms(a: Asked) -> Iterator[Row]:
    terms = a.model.spec.project.request
    yield "Quote valid", f"{terms.quote_valid_days} days", "days"
    yield "Payment milestones", "; ".join(terms.payment), WORDS
    yield "Warranty: frame, running gear, coating", terms.warranty, WORDS
    yield "Hold points H1 to R6", "all, with the notice stated", YES_NO
    yield "Not included in your quote", "list by name", WORDS
    yield "Addenda received", "numbers", WORDS
    yield "Liability and product insurance", "limit and last day", WORDS
