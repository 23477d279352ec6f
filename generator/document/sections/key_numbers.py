"""Four numbers to see first: mass as towed, load on the hitch, highest point, floor to ceiling."""

from generator.calc.record import Reported
from generator.document.blocks import DASH, Block, KeyNumber, KeyNumbers
from generator.document.section import Context, Section
from generator.release.slices import Numbers
from generator.units import Show


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The strip of key numbers."""
    by_id = {q.id: q for q in numbers.quantities}
    show = context.show
    hitch, share = by_id.get("state.travel.hitch"), by_id.get("state.travel.hitch_share")
    rooms = sorted((q for q in numbers.quantities if q.id.startswith("headroom.")), key=lambda q: (q.nominal, q.id))
    return (
        KeyNumbers(
            "Key numbers",
            (
                _key("Mass as towed", by_id.get("state.travel.mass"), show),
                KeyNumber("Load on the hitch", _nominal(hitch, show), f"{_nominal(share, show)} of the mass"),
                _key("Highest point, any towed state",
                     _first(by_id, "height.overall.unladen", "height.overall.laden"), show),
                KeyNumber(
                    "Lowest headroom", _nominal(rooms[0] if rooms else None, show), rooms[0].title if rooms else DASH
                ),
            ),
        ),
    )


def _first(by_id: dict[str, Reported], *ids: str) -> Reported | None:
    return next((by_id[i] for i in ids if i in by_id), None)


def _nominal(quantity: Reported | None, show: Show) -> str:
    return show(quantity.nominal, quantity.unit, quantity.toward) if quantity else DASH


def _key(label: str, quantity: Reported | None, show: Show) -> KeyNumber:
    if quantity is None:
        return KeyNumber(label, DASH, "not worked out")
    low, high = show(quantity.low, quantity.unit, "down"), show(quantity.high, quantity.unit, "up")
    return KeyNumber(label, _nominal(quantity, show), f"9 in 10: {low} to {high}" if low != high else quantity.title)


KEY_NUMBERS = Section("key-numbers", "Key numbers", Numbers, blocks)
