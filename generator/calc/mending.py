"""Pairs of changes where no single one clears a check, and one way out of all that fails, change by change."""

from collections.abc import Container, Iterator, Mapping
from dataclasses import replace

from generator.calc.levers import Bench, changes_of, each_change, made, paths_of, steps_of, upsets_of, ways_of
from generator.calc.record import Change, Check, mending_order
from generator.records import dataclass

MOST_CHANGES = 40
"""A way out of more changes than this is another design."""
SHARES = (0.5, 0.125)
"""Shares of its reach at which the first of a pair is tried; one that only gets better is tried at its end."""


@dataclass(frozen=True, slots=True)
class Mend:
    """One step of a way out: the check it is for, its change (or two), what it clears, what it breaks, what is left."""

    aim: str
    changes: tuple[Change, ...]
    cleared: tuple[str, ...]
    broken: tuple[str, ...]
    left: int


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way out, not the best: changes one after the other, and the ids of what still fails after the last."""

    steps: tuple[Mend, ...] = ()
    left: tuple[str, ...] = ()


def with_ways(bench: Bench, checks: tuple[Check, ...], only: str = "") -> tuple[Check, ...]:
    """The checks, each failing one (or the one called `only`) with what clears it: single changes, else a pair."""
    return tuple(
        _with_way(bench, c) if c.status == "fail" and not c.changes and only in ("", c.id) else c for c in checks
    )


def _with_way(bench: Bench, check: Check) -> Check:
    changes = changes_of(bench, check)
    if changes:
        return replace(check, changes=changes)
    return replace(check, pair=tuple(change for change, _ in pair_of(bench, check)))


def pair_of(bench: Bench, check: Check) -> tuple[tuple[Change, int], ...]:
    """Two changes that clear a check together, neither of which can be smaller, with their steps; () if none found."""
    paths = paths_of(bench, check)
    for a, b in ((a, b) for a in paths for b in paths if a != b):
        for start in _starts(bench, a):
            second = steps_of(_moved(bench, a, start, check), b, check.id)
            first = steps_of(_moved(bench, b, second, check), a, check.id) if second else 0
            if first:
                upset = upsets_of(bench, _moved(bench, a, first).at(b, second))
                return (made(bench, a, first, ()), first), (made(bench, b, second, upset), second)
    return ()


def _starts(bench: Bench, path: str) -> Iterator[int]:
    ways, most = ways_of(bench, path)
    shares = SHARES if len(ways) > 1 else (1.0,)
    return (way * int(most * share) for share in shares for way in ways if int(most * share))


def _moved(bench: Bench, path: str, steps: int, check: Check | None = None) -> Bench:
    """The bench with one lever moved; of its checks only that one is worked again, in its own part."""
    again = {} if check is None else bench.at(path, steps, bench.homes[check.id])
    return Bench(bench.changed(path, steps), bench.evaluate, {**bench.now, **again}, bench.homes, bench.sections)


def way_out(bench: Bench, paired: Container[str] = ()) -> WayOut:
    """One way out: the first broken limit, its easiest change that breaks nothing new, then again from there.

    Where no such change is left, the first that leaves fewer limits broken than before. `paired`: checks that a pair
    of changes clears. Each change leaves fewer broken than the one before it, so it ends.
    """
    steps: list[Mend] = []
    waiting: set[str] = set()
    while len(steps) < MOST_CHANGES:
        found = _clean(bench, paired, waiting) or _fewer(bench, paired)
        if found is None:
            break
        mend, bench = found
        steps.append(mend)
    left = sorted(_broken(bench.now), key=mending_order)
    return WayOut(tuple(steps), tuple(c.id for c in left) if steps else ())


def _clean(bench: Bench, paired: Container[str], waiting: set[str]) -> tuple[Mend, Bench] | None:
    """The first change that breaks nothing new; a check that has none is not asked again, it waits."""
    for check in sorted(_broken(bench.now), key=mending_order):
        if check.id in waiting:
            continue
        for changes, then in _tries(bench, check, check.id in paired):
            mend = _mend(bench, check, changes, then)
            if mend.cleared and not mend.broken:
                return mend, then
        waiting.add(check.id)
    return None


def _fewer(bench: Bench, paired: Container[str]) -> tuple[Mend, Bench] | None:
    """The first change that leaves fewer limits broken, whatever it breaks."""
    for check in sorted(_broken(bench.now), key=mending_order):
        for changes, then in _tries(bench, check, check.id in paired):
            mend = _mend(bench, check, changes, then)
            if len(mend.cleared) > len(mend.broken):
                return mend, then
    return None


def _mend(bench: Bench, check: Check, changes: tuple[Change, ...], then: Bench) -> Mend:
    before, after = ({c.id for c in _broken(b.now)} for b in (bench, then))
    return Mend(check.id, changes, tuple(sorted(before - after)), tuple(sorted(after - before)), len(after))


def _tries(bench: Bench, check: Check, is_paired: bool) -> Iterator[tuple[tuple[Change, ...], Bench]]:
    """What may be changed for a check, easiest first, each with the bench after it; a pair where nothing else works."""
    for change, steps in each_change(bench, check):
        yield (change,), _after(bench, change.lever, steps)
    pair = pair_of(bench, check) if is_paired else ()
    if pair:
        (first, there), (second, on) = pair
        yield (first, second), _after(_moved(bench, first.lever, there), second.lever, on)


def _after(bench: Bench, path: str, steps: int) -> Bench:
    """The bench after a change; what is not worked from the spec stays as it was."""
    outside = {i: c for i, c in bench.now.items() if i not in bench.homes}
    now = {**outside, **bench.at(path, steps)}
    return Bench(bench.changed(path, steps), bench.evaluate, now, bench.homes, bench.sections)


def _broken(now: Mapping[str, Check]) -> list[Check]:
    return [c for c in now.values() if c.status == "fail"]
