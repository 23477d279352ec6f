"""Sentences about a check or a window in plain words, for the check blocks and the owner's sheet."""

import re
from collections.abc import Mapping

from generator.calc.record import SHARE_FOR_REVIEW, Basis, Change, Check, Compared, Missing, Value
from generator.units import Show

BASES = {
    Basis.MEASURED: "measured",
    Basis.QUOTED: "quoted",
    Basis.TABLE: "from a table",
    Basis.ESTIMATE: "estimated",
    Basis.MEMORY: "from memory",
    Basis.PLACEHOLDER: "placeholder",
}
"""How a value is known, in words."""

UNKNOWN = "unknown:"
FIELD = re.compile(r"\b([\w-]+\.yaml) ([a-z][\w.]*)")
"""A field of the spec as missing inputs name it: the file first."""
SHORT = 60
"""Most characters of a text about asking that is printed whole on the one-page sheet."""
ARTICLES = ("The", "A", "An", "Whoever")
"""First words that lose their capital inside a sentence."""
SIGNS = {"<=": "≤", ">=": "≥"}


def over_years(years: int, moves: int, once: bool) -> str:
    """How often it moves over the years of a sum: `10 years at 1 move a year`, `10 years with one move in all`."""
    if once:
        return f"{years} years with one move in all"
    return f"{years} years at {moves or 'no'} move{'' if moves in (0, 1) else 's'} a year"


def shown(value: Value, show: Show) -> str:
    """A value with its unit."""
    return show(value.value, value.unit)


def demanded(outcome: Compared, show: Show) -> str:
    """The demand with its unit, rounded to the safe side."""
    return show.demand(outcome.demand.value, outcome.limit.value, outcome.demand.unit, outcome.sense)


def margin(outcome: Compared, show: Show) -> str:
    """How far the demand is from its limit: `280 lb over`, `1 in short`, `640 lb to spare`."""
    gap = outcome.limit.value - outcome.demand.value
    left = gap if outcome.sense == "<=" else -gap
    text = show(abs(left), outcome.demand.unit, "down" if left >= 0.0 else "up")
    if left >= 0.0:
        return f"{text} to spare"
    return f"{text} over" if outcome.sense == "<=" else f"{text} short"


def against(outcome: Compared, show: Show) -> str:
    """The limit with its sense: `≤ 14,000 lb`."""
    return f"{SIGNS[outcome.sense]} {shown(outcome.limit, show)}"


def changed(change: Change, show: Show) -> str:
    """A change in words, with what it upsets."""
    upsets = f"; look again at {', '.join(change.upsets)}" if change.upsets else ""
    return f"{change.title}: {instead(change, show)}{upsets}"


def instead(change: Change, show: Show) -> str:
    """The new value instead of the old one; a station says on which side of datum A it lies."""
    if change.names is not None:
        now, then = change.names
    elif change.lever.endswith(".station"):
        now, then = (_station(v.value, show) for v in (change.now, change.then))
    else:
        now, then = (shown(v, show) for v in (change.now, change.then))
    return f"{then} instead of {now}"


def _station(value: float, show: Show) -> str:
    return f"{show(abs(value), 'm')} {'ahead' if value < 0.0 else 'aft'} of datum A"


def has_needs(outcome: Compared, show: Show) -> str:
    """What the design has and what it needs, in words: `has 19.8 deg, needs at least 60.0 deg`."""
    bound = "at most" if outcome.sense == "<=" else "at least"
    return f"has {demanded(outcome, show)}, needs {bound} {shown(outcome.limit, show)}"


def clears(check: Check, show: Show, most: int = 2) -> str:
    """The smallest changes that clear a failing check, alone or as a pair, or that none was found."""
    if check.pair:
        both = " and ".join(changed(c, show) for c in check.pair)
        return f"No single change clears it; two together do: {both}."
    if not check.changes:
        return "No single change within its bounds clears it."
    return "Clears with " + "; or ".join(changed(c, show) for c in check.changes[:most]) + "."


def reasons(outcome: Compared, show: Show) -> str:
    """Why a check that holds is only `review`."""
    found = []
    if outcome.fail_share > SHARE_FOR_REVIEW:
        found.append(f"{show.percent(outcome.fail_share)} of the trials break the limit")
    if outcome.basis >= Basis.MEMORY:
        found.append(f"it rests on a value that is {BASES[outcome.basis]}")
    return " and ".join(found)


def verdict(check: Check, show: Show) -> str:
    """One sentence beside the bar of a check."""
    match check.outcome:
        case Missing(inputs=inputs):
            return f"Not assessed. Needed: {', '.join(inputs)}."
        case Compared() as c if check.status == "fail":
            return f"{margin(c, show)}. {clears(check, show)}"
        case Compared() as c if check.status == "review":
            return f"{margin(c, show)}, but {reasons(c, show)}."
        case Compared() as c:
            return f"{margin(c, show)}."


def way_of(check: Check, show: Show, titles: Mapping[str, str]) -> str:
    """The change that breaks least, or the pair, in words for a person who knows no ids."""
    if check.pair:
        return f"Two changes together: {' and '.join(f'{c.title}: {instead(c, show)}' for c in check.pair)}."
    if not check.changes:
        return "No single change clears it: mend what stands above it first." if check.about.levers \
            else "Nothing to work out: ask."
    best = min(check.changes, key=lambda c: len(c.upsets))
    named = [titles.get(i, "another limit") for i in best.upsets]
    more = f"; and {len(named) - 1} more" if named[1:] else ""
    breaks = f" It then breaks: {named[0]}{more}." if named else ""
    return f"{best.title}: {instead(best, show)}.{breaks}"


def opening(text: str, most: int) -> str:
    """The sentences, or the clauses, of a text that fit in `most` characters, ended well; never cut in one.

    For the one-page sheet: the whole text stands in another document. The first clause is kept whole if it is at most
    half as long again; a longer one is cut at a word.
    """
    if len(text) <= most:
        return text
    ends = [m.start() for m in re.finditer(r"[.;:] ", text)]
    fitting = [at for at in ends if at < most]
    at = max(fitting) if fitting else min(ends, default=len(text))
    if at > 1.5 * most:
        return clipped(text, most)
    return text[:at].rstrip(" ,;:.") + "." if at < len(text) else text


def first_look(title: str) -> str:
    """A title with the long word for a borrowed rule made short: the workings name the rule."""
    return title.replace(" (first look, by the tiny-house appendix)", " (first look)")


def next_step(check: Check, show: Show) -> str:
    """What to do about a check that is not a clear pass."""
    match check.outcome:
        case Missing(inputs=inputs):
            return f"Find out: {', '.join(inputs)}."
        case Compared() if check.status == "fail":
            return clears(check, show, 1)
        case Compared() as c if check.status == "review":
            return f"Firm up what it rests on: {reasons(c, show)}."
        case _:
            return "Little is left: work it out again at each change."


def clipped(text: str, most: int) -> str:
    """A text cut between two clauses, for the one-page sheet alone; the whole text stands in another document.

    Where no clause ends in the second half it is cut at a word.
    """
    if len(text) <= most:
        return text
    cut = text[: most - 1]
    clause = max(cut.rfind(end) for end in (". ", "; ", ": ", ", "))
    at = clause if 2 * clause >= most else cut.rfind(" ")
    return (cut[:at] if at > 0 else cut).rstrip(" ,;:.") + "…"


def in_its_file(what: str) -> str:
    """What is missing, with `seismic in site.yaml` for `site.yaml seismic`."""
    return FIELD.sub(r"\2 in \1", what)


def asked_of(ask: str) -> str:
    """Whom to ask, to stand behind `Ask`: the whole of it where it is short, else the people alone."""
    who = ask if len(ask) <= SHORT else ask.partition(": ")[0].partition("; ")[0]
    first, _, rest = clipped(who, 2 * SHORT).partition(" ")
    text = f"{first.lower() if first in ARTICLES else first} {rest}".strip()
    return text if text.endswith((".", "?", "…")) or not text else f"{text}."


def begun(text: str) -> str:
    """The text as the beginning of a sentence."""
    return text[:1].upper() + text[1:]
