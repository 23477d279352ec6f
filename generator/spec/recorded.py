"""What must hold between the records of scale and tape and the trailer they were made on, and within a quote."""

from collections.abc import Iterator

from generator.errors import Fault
from generator.spec.crosscheck import Parts
from generator.spec.models.asbuilt import AsBuilt, Measurement
from generator.spec.models.quotes import Quote
from generator.spec.models.tickets import Ticket
from generator.spec.models.trailer import Trailer
from generator.spec.wording import nearest

BY_AXLE, BY_JACK = ("bracket station", "spindle station"), "jack station"


def recorded_faults(parts: Parts) -> list[Fault]:
    """All faults of tickets and measurements that their own file does not show."""
    trailer = next((m for m in parts.models.values() if isinstance(m, Trailer)), None)
    found: list[Fault] = []
    for file, model in parts.models.items():
        match model:
            case Ticket():
                found += _ticket(parts, file, model, trailer)
            case AsBuilt():
                found += _visit(parts, file, model, trailer)
            case Quote():
                found += _quote(parts, file, model)
    return found


def _ticket(parts: Parts, file: str, ticket: Ticket, trailer: Trailer | None) -> Iterator[Fault]:
    if ticket.graduation.nominal <= 0.0:
        yield parts.fault(file, ("graduation",), "a scale without a step", "write the step of its reading, `20 lb`")
    count = len(trailer.running_gear.axles) if trailer is not None else len(ticket.axles)
    if ticket.axles and len(ticket.axles) != count:
        yield parts.fault(file, ("axles",), f"{len(ticket.axles)} readings for {count} axles",
                          "write one for each axle of trailer.yaml, front to rear, or leave them out")


def _quote(parts: Parts, file: str, quote: Quote) -> Iterator[Fault]:
    if quote.valid_to < quote.received:
        yield parts.fault(file, ("valid_to",), "before the day it came", "the last day on which the quote holds")
    seen: set[str] = set()
    for number, answer in enumerate(quote.answers):
        if (answer.said == "priced") == (answer.price is None):
            yield parts.fault(file, ("answers", number, "price"), f"`said: {answer.said}` with" + (
                "out a price" if answer.price is None else " a price"), "a price with `said: priced`, and only there")
        if answer.what in seen:
            yield parts.fault(file, ("answers", number, "what"), f"`{answer.what}` is answered twice", "each once")
        seen.add(answer.what)


def _visit(parts: Parts, file: str, sheet: AsBuilt, trailer: Trailer | None) -> Iterator[Fault]:
    seen: set[tuple[str, str | None]] = set()
    for number, m in enumerate(sheet.measurements):
        place = ("measurements", number)
        if (m.what, m.which) in seen:
            yield parts.fault(file, (*place, "what"), "measured twice in one visit", "each dimension once a visit")
        seen.add((m.what, m.which))
        if trailer is not None and (allowed := _which(m, trailer)) is not None:
            yield parts.fault(file, (*place, "which" if m.which else "what"), *allowed)


def _which(m: Measurement, trailer: Trailer) -> tuple[str, str] | None:
    """What is wrong with `which`, and what is allowed."""
    axles = [f"axle-{n}" for n in range(1, len(trailer.running_gear.axles) + 1)]
    names = {**dict.fromkeys(BY_AXLE, axles), BY_JACK: [j.id for j in trailer.jacks]}.get(m.what)
    if names is None:
        return None if m.which is None else (f"there is only one {m.what}", "leave `which` out")
    if m.which in names:
        return None
    wrong = "`which` is missing" if m.which is None else f"`{m.which}` is not there"
    return wrong, f"{nearest(m.which or '', names)}write one of {', '.join(names) or 'none: there are no such parts'}"
