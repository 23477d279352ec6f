"""Four numbers to see first, each with its limit: mass as towed, load on the hitch, highest point, floor to ceiling."""

from collections.abc import Mapping

from generator.calc.record import Check, Compared, Reported
from generator.document.blocks import DASH, Block, KeyNumber, KeyNumbers
from generator.document.section import Context, Section
from generator.document.sentences import margin, shown
from generator.release.slices import Numbers
from generator.units import Show

HITCH = ("hitch.share_low", "hitch.share_high", "hitch.rating")
HEIGHT = ("height.overall",)
ASKED = "rating.gvwr.requested"
CARRIED = "rating.gvwr.carried"


def blocks(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The strip of key numbers."""
    by_id, checks = {q.id: q for q in numbers.quantities}, {c.id: c for c in numbers.checks}
    show = context.show
    hitch, share = by_id.get("state.travel.hitch"), by_id.get("state.travel.hitch_share")
    high = _first(by_id, "height.overall.unladen", "height.overall.laden")
    rooms = sorted((q for q in numbers.quantities if q.id.startswith("headroom.")), key=lambda q: (q.nominal, q.id))
    room = rooms[0] if rooms else None
    return (
        KeyNumbers(
            "Key numbers",
            (
                _key("Mass as towed", by_id.get("state.travel.mass"), show, _mass(by_id, checks, show)),
                KeyNumber("Load on the hitch", _nominal(hitch, show), f"{_nominal(share, show)} of the mass",
                          *_limit(checks, HITCH, show)),
                _key("Highest point, any towed state", high, show, _limit(checks, HEIGHT, show)),
                KeyNumber("Lowest headroom", _nominal(room, show), room.title if room else DASH,
                          *_limit(checks, (room.id,) if room else (), show)),
            ),
        ),
    )


def _mass(by_id: Mapping[str, Reported], checks: Mapping[str, Check], show: Show) -> tuple[str, str]:
    """The rating asked for the whole trailer, and whether its parts carry that."""
    asked, carried = by_id.get(ASKED), checks.get(CARRIED)
    if asked is None or carried is None:
        return "not known:", "no rating was worked out"
    words = {"fail": "broken:", "not assessed": "not known:"}
    what = f"rating to ask for {_nominal(asked, show)}"
    if carried.status == "fail":
        what += ", more than its parts carry"
    return words.get(carried.status, "holds:"), what


def _limit(checks: Mapping[str, Check], ids: tuple[str, ...], show: Show) -> tuple[str, str]:
    """The broken or narrowest of some limits: a plain word, and the limit with what is left of it."""
    found = [(c, o) for i in ids for c in [checks.get(i)] if c is not None for o in [c.outcome]
             if isinstance(o, Compared)]
    if not found:
        return "not known:", "no limit to set it against"
    check, outcome = min(found, key=lambda f: (f[0].status != "fail", -(f[0].ratio or 0.0)))
    bound = "at most" if outcome.sense == "<=" else "at least"
    word = "broken:" if check.status == "fail" else "holds:"
    left = f"in the worst state {shown(outcome.demand, show)}" if outcome.demand.unit == "%" else margin(outcome, show)
    return word, f"{bound} {shown(outcome.limit, show)}, {left}"


def _first(by_id: Mapping[str, Reported], *ids: str) -> Reported | None:
    return next((by_id[i] for i in ids if i in by_id), None)


def _nominal(quantity: Reported | None, show: Show) -> str:
    return show(quantity.nominal, quantity.unit, quantity.toward) if quantity else DASH


def _key(label: str, quantity: Reported | None, show: Show, limit: tuple[str, str]) -> KeyNumber:
    if quantity is None:
        return KeyNumber(label, DASH, "not worked out", *limit)
    low, high = show(quantity.low, quantity.unit, "down"), show(quantity.high, quantity.unit, "up")
    note = f"9 in 10: {low} to {high}" if low != high else quantity.title
    return KeyNumber(label, _nominal(quantity, show), note, *limit)


KEY_NUMBERS = Section("key-numbers", "Key numbers", Numbers, blocks)
