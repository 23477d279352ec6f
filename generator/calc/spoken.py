"""What is written for a ball under a neck, said in the words of the design's own coupling.

Only our own sentences and titles pass here: ids, paths of the spec and places in its files stay as they are.
"""

import re
from collections.abc import Callable
from dataclasses import replace

from generator.calc.findings import Budget, Chain, Results, Task
from generator.calc.legal import Bounded, Rulings
from generator.calc.record import About, Change, Check, Reported, Step, Window

Say = Callable[[str], str]
Says = tuple[tuple[str, str], ...]
"""Phrases and what is said for each, the longer before the shorter ones it holds."""


def saying(says: Says) -> Say:
    """What puts a text in other words; a `{name}` still to be filled stays."""
    if not says:
        return lambda text: text
    listed = "|".join(re.escape(a) for a, _ in says)
    found = re.compile(rf"(?<![\w{{.])(?:{listed})(?![\w}}]|\.\w)", re.IGNORECASE)
    instead = dict(says)

    def said(match: re.Match[str]) -> str:
        new = instead[match[0].lower()]
        return new[:1].upper() + new[1:] if match[0][0].isupper() else new

    return lambda text: found.sub(said, text)


def spoken(results: Results, says: Says) -> Results:
    """The results of a design in the words of its coupling."""
    if not says:
        return results
    say = saying(says)
    return replace(
        results,
        quantities=tuple(_quantity(q, say) for q in results.quantities),
        checks=tuple(_check(c, say) for c in results.checks),
        windows=tuple(_window(w, say) for w in results.windows),
        assumptions=tuple(replace(a, statement=say(a.statement), if_wrong=say(a.if_wrong))
                          for a in results.assumptions),
        chains=tuple(_chain(c, say) for c in results.chains),
        budget=None if results.budget is None else _budget(results.budget, say),
        tasks=tuple(_task(t, say) for t in results.tasks),
        out=replace(results.out, steps=tuple(replace(m, changes=_changes(m.changes, say)) for m in results.out.steps)),
        rulings=None if results.rulings is None else _rulings(results.rulings, say),
    )


def spoken_checks(checks: tuple[Check, ...], says: Says) -> tuple[Check, ...]:
    """Checks alone in the words of the design's coupling."""
    say = saying(says)
    return tuple(_check(c, say) for c in checks) if says else checks


def _task(t: Task, say: Say) -> Task:
    return replace(t, what=say(t.what), who=say(t.who)) if t.id.startswith("check-") else t


def _budget(budget: Budget, say: Say) -> Budget:
    """Only what is often forgotten is told in our words; a line is in the owner's."""
    prompts = (replace(p, title=say(p.title), why=say(p.why)) for p in budget.prompts)
    return replace(budget, prompts=tuple(prompts))


def _rulings(rulings: Rulings, say: Say) -> Rulings:
    """Rules in the words of the law stay as they are; what is compared with them is ours."""
    return replace(rulings, triggers=tuple(
        replace(t, tests=tuple(_bounded(b, say) for b in t.tests), must=t.must and _bounded(t.must, say))
        for t in rulings.triggers))


def _bounded(b: Bounded, say: Say) -> Bounded:
    return replace(b, what=say(b.what))


def _chain(chain: Chain, say: Say) -> Chain:
    steps = tuple(replace(s, title=say(s.title), source=say(s.source)) for s in chain.steps)
    return replace(chain, title=say(chain.title), steps=steps)


def _window(w: Window, say: Say) -> Window:
    return replace(w, title=say(w.title), closed_by_low=say(w.closed_by_low), closed_by_high=say(w.closed_by_high),
                   changes=_changes(w.changes, say))


def _changes(changes: tuple[Change, ...], say: Say) -> tuple[Change, ...]:
    return tuple(replace(c, title=say(c.title)) for c in changes)


def _quantity(q: Reported, say: Say) -> Reported:
    return replace(q, title=say(q.title))


def _check(c: Check, say: Say) -> Check:
    steps = tuple(_step(s, say) for s in c.outcome.steps)
    return replace(c, about=_about(c.about, say), outcome=replace(c.outcome, steps=steps),
                   changes=_changes(c.changes, say), pair=_changes(c.pair, say))


def _about(a: About, say: Say) -> About:
    return replace(
        a, title=say(a.title), source=say(a.source), concern=say(a.concern), ask=say(a.ask), defer_to=say(a.defer_to)
    )


def _step(s: Step, say: Say) -> Step:
    return replace(s, what=say(s.what), text=say(s.text), source=say(s.source))
