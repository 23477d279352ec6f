"""What welding fixes for ever, the next decision, and what waiting costs; for the owner's sheet."""

import math
import re

from generator.calc.findings import Results
from generator.calc.record import Check, Reported, Window, mending_order
from generator.calc.said import says
from generator.calc.spoken import saying
from generator.model.types import Model
from generator.reference.glossary import glossary
from generator.release.slices import Decision, FixedRow, LeftRow, MendRow
from generator.release.wording import DASH
from generator.units import Show

STEEL_CUT, AXLE_ORDER, BRACKETS = "steel cut", "axle order", "brackets welded"
FREEZES = {"height.deck.unladen": AXLE_ORDER, "height.deck.laden": AXLE_ORDER, "axles.group": BRACKETS,
           "axles.spread": BRACKETS, "width.track": AXLE_ORDER, "width.tyres": AXLE_ORDER}
FIRST_WORD = {"rating": AXLE_ORDER, "neck": STEEL_CUT, "jack": STEEL_CUT, "axles": BRACKETS, "axle": BRACKETS}
RANK = ("neck.underside", "axles.group", "rating.gvwr.requested", "height.deck.unladen", "jack.", "width.track",
        "rating.gawr", "axles.station", "height.deck.laden")
"""What a person must look at first: the start of its id."""
WINDOWS = {"neck.underside": "neck.window", "axles.group": "axles.window"}
JACK_STATION = re.compile(r"(jack\.[a-z0-9-]+)\.station")


def decision(model: Model, results: Results, show: Show) -> Decision:
    """The owner's table of what freezes, and the next step."""
    windows = {w.id: w for w in results.windows}
    fixed = sorted((q for q in results.quantities if q.fixed_by_welding and math.isfinite(q.nominal)), key=_order)
    say = saying(says(model))
    rows = tuple(FixedRow(q.title, show(q.nominal, q.unit, q.toward), _window(q, windows, show), say(freezes(q.id)))
                 for q in fixed)
    words = tuple((say(word), say(meaning)) for word, meaning in glossary())
    return Decision(rows, next_step(model, results), _waiting(model), _mends(results), _left(results), words)


def _mends(results: Results) -> tuple[MendRow, ...]:
    """The steps of the way out, checks by their titles."""
    titles = {c.id: c.about.title for c in results.checks}
    return tuple(
        MendRow(titles[m.aim], m.changes, tuple(titles.get(i, i) for i in m.cleared),
                tuple(titles.get(i, i) for i in m.broken), m.left)
        for m in results.out.steps
    )


def _left(results: Results) -> tuple[LeftRow, ...]:
    """What the way out leaves broken, in the order to mend it, and whom to ask."""
    by_id = {c.id: c for c in results.checks}
    return tuple(LeftRow(by_id[i].about.title, by_id[i].about.ask) for i in results.out.left if i in by_id)


def freezes(id: str) -> str:
    """The moment from which a fixed quantity can no longer be changed cheaply."""
    return FREEZES.get(id) or FIRST_WORD.get(id.split(".")[0], STEEL_CUT)


def _order(q: Reported) -> tuple[int, str]:
    rank = next((n for n, start in enumerate(RANK) if q.id.startswith(start)), len(RANK))
    return rank, q.id


def _window(q: Reported, windows: dict[str, Window], show: Show) -> str:
    jack = JACK_STATION.fullmatch(q.id)
    window = windows.get(f"{jack[1]}.window" if jack else WINDOWS.get(q.id, ""))
    if window is None or not math.isfinite(window.low + window.high):
        return DASH
    if window.slack < 0.0:
        return "nothing works as the design stands"
    return f"{show(window.low, window.unit, 'up')} to {show(window.high, window.unit, 'down')}"


def next_step(model: Model, results: Results) -> str:
    """What to decide next: the first broken limit, a mandatory check not settled, an open question, else the quotes."""
    request = model.spec.project.request
    for status, verb in (("fail", "Change the design until this holds"),
                         ("not assessed", "Find out what is missing for"),
                         ("review", "Have this confirmed before you order")):
        check = min((c for c in results.checks if c.status == "fail"), key=mending_order, default=None) \
            if status == "fail" else _first(results, status)
        if check is not None:
            return f"{verb}: {check.about.title}. Ask: {check.about.ask}"
    if results.tasks:
        first = results.tasks[0]
        held = held_up(first.blocks, results)
        what, who = first.what.removeprefix(f"{held}: needs "), first.who.partition(": ")[0]
        return f"Find out: {what}. It holds up: {held}. Ask: {who.rstrip('.')}."
    return f"Send request {request.number}; questions until {request.questions_until}, quotes by {request.quotes_due}."


def held_up(blocks: str, results: Results) -> str:
    """What an open question holds up, checks by their titles."""
    titles = {c.id: c.about.title for c in results.checks}
    return "; ".join(titles.get(id, id) for id in blocks.split(", "))


def _first(results: Results, status: str) -> Check | None:
    return next((c for c in results.checks if c.about.mandatory and c.status == status), None)


def _waiting(model: Model) -> str:
    """What runs out if nothing is decided: the quotes still valid on the project's date, soonest first."""
    costs, today = model.spec.costs, model.spec.project.date
    lines = () if costs is None else costs.lines
    ends = sorted((line.valid_to, line.title) for line in lines
                  if line.valid_to is not None and line.status == "quote" and line.valid_to >= today)
    if not ends:
        return "No price in the budget has a last day; prices of steel and axles move all the same."
    first = f"{ends[0][1]} on {ends[0][0]}"
    more = f", {len(ends) - 1} more by {ends[-1][0]}" if len(ends) > 1 else ""
    return f"Quotes run out: {first}{more}. After that they are estimates again."
