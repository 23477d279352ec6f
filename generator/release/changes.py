"""What moved between two designs, as one reader may see it: made from two desks of theirs and nothing else."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

from generator.calc.record import Check, Reported
from generator.release.base import Slice
from generator.release.slices import Changes, Cover, Desk, Moved, Numbers, Request
from generator.units import Show

TOLD = 0.01
"""A result that moved by less is counted, not listed, unless welding fixes it."""
SAME = 1e-9
NONE = "–"
Kind = TypeVar("Kind", bound=Slice)


def changed(old: Desk, new: Desk) -> Changes:
    """What moved from one desk to the other, in the units of the new one."""
    cover, before = _the(new, Cover), _the(old, Cover)
    show = Show("si" if cover.units == "si" else "us", cover.currency)
    was, now = _the(old, Numbers), _the(new, Numbers)
    moved = tuple(_numbers(was.quantities, now.quantities, show))
    told = tuple(row for row, counts in moved if counts)
    return Changes(
        f"revision {before.revision} of {before.date}", told, len(moved) - len(told),
        tuple(_flips(was.checks, now.checks)), tuple(_clauses(old, new)), _untouched(was.checks, now.checks),
    )


def percent(was: float, now: float) -> str:
    """By how much a number moved, in percent of what it was; nothing where that has no meaning."""
    if was == 0.0 or not math.isfinite(was) or not math.isfinite(now):
        return ""
    return f"{100.0 * (now - was) / abs(was):+.1f} %".replace("-", "\u2212")


def _the(desk: Desk, kind: type[Kind]) -> Kind:
    found = desk.get(kind)
    if not isinstance(found, kind):
        raise TypeError(f"a desk without {kind.__name__}")
    return found


def _numbers(was: Sequence[Reported], now: Sequence[Reported], show: Show) -> Iterator[tuple[Moved, bool]]:
    """Every result that moved, came or went, and whether it is to be listed: not if it prints as it did."""
    before, after = {q.id: q for q in was}, {q.id: q for q in now}
    for id in dict.fromkeys((*before, *after)):
        a, b = before.get(id), after.get(id)
        if _apart(a, b):
            some = b or a
            assert some is not None
            row = Moved(id, some.title, _shown(a, show), _shown(b, show), percent(_value(a), _value(b)))
            is_small = abs(_value(b) - _value(a)) < TOLD * abs(_value(a))
            yield row, row.was != row.now and (some.fixed_by_welding or not is_small)


def _value(q: Reported | None) -> float:
    return math.nan if q is None else q.nominal


def _apart(a: Reported | None, b: Reported | None) -> bool:
    x, y = _value(a), _value(b)
    if math.isnan(x) and math.isnan(y):
        return (a is None) != (b is None)
    return not abs(x - y) <= SAME * max(abs(x), abs(y))


def _shown(q: Reported | None, show: Show) -> str:
    return NONE if q is None else show(q.nominal, q.unit, q.toward)


def _flips(was: Iterable[Check], now: Iterable[Check]) -> Iterator[Moved]:
    before, after = {c.id: c for c in was}, {c.id: c for c in now}
    for id in dict.fromkeys((*before, *after)):
        a, b = (held.get(id) for held in (before, after))
        x, y = (NONE if c is None else c.status for c in (a, b))
        if x != y:
            yield Moved(id, next(c.about.title for c in (b, a) if c is not None), x, y)


def _untouched(was: Iterable[Check], now: Iterable[Check]) -> tuple[str, ...]:
    """Topics in which every check stands as it stood, ratio and all; each was worked again."""
    before, after = _stands(was), _stands(now)
    return tuple(sorted(topic for topic in after if before.get(topic) == after[topic]))


def _stands(checks: Iterable[Check]) -> Mapping[str, dict[str, tuple[str, str]]]:
    found: dict[str, dict[str, tuple[str, str]]] = {}
    for c in checks:
        ratio = "" if c.ratio is None else f"{c.ratio:.9g}"
        found.setdefault(c.about.topic, {})[c.id] = (c.status, ratio)
    return found


def _clauses(old: Desk, new: Desk) -> Iterator[Moved]:
    """Texts of the request that are other: clause, what, old, new."""
    before, after = _asked(old), _asked(new)
    for title, what in dict.fromkeys((*before, *after)):
        a, b = before.get((title, what), NONE), after.get((title, what), NONE)
        if a != b:
            yield Moved(title, what, a, b)


def _asked(desk: Desk) -> Mapping[tuple[str, str], str]:
    request = desk.get(Request)
    if not isinstance(request, Request):
        return {}
    return {(c.title, what): text for c in request.clauses for what, text in c.rows}
