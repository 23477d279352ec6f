"""Checks as plain text: the table of `check` and the working of `explain`."""

from collections import Counter
from collections.abc import Iterable

from generator.calc.findings import Results
from generator.calc.record import Change, Check, Compared, Missing, Reported, Status, Step, Window
from generator.formulas import in_work, is_formula, numbers, printed, put_in
from generator.units import Show

ORDER: dict[Status, int] = {"fail": 0, "not assessed": 1, "review": 2, "pass": 3}


def table(checks: Iterable[Check], show: Show) -> str:
    """All checks, worst first, one line each."""
    rows = [_row(c, show) for c in sorted(checks, key=lambda c: (ORDER[c.status], -(c.ratio or 9.0), c.id))]
    widths = [max(len(r[i]) for r in rows) for i in range(4)] if rows else []
    return "\n".join("  ".join(cell.ljust(w) for cell, w in zip(r, [*widths, 0], strict=False)).rstrip() for r in rows)


def tally(checks: Iterable[Check]) -> str:
    """How many checks have which status."""
    counted = Counter(c.status for c in checks)
    return ", ".join(f"{counted[s]} {s}" for s in ORDER if counted[s])


def _against(c: Compared, show: Show) -> str:
    demand = show.demand(c.demand.value, c.limit.value, c.demand.unit, c.sense)
    return f"{demand} {c.sense} {show(c.limit.value, c.limit.unit)}"


def _row(check: Check, show: Show) -> tuple[str, ...]:
    match check.outcome:
        case Compared() as c:
            return (check.status, check.id, show.ratio(check.ratio), check.about.title, _against(c, show))
        case Missing(inputs=inputs):
            return (check.status, check.id, "", check.about.title, f"needs {', '.join(inputs)}")


def explanation(id: str, results: Results, show: Show) -> str | None:
    """The working of one check, or the value of one quantity or window; None if there is none of that id."""
    for check in results.checks:
        if check.id == id:
            return _check(check, results, show)
    for quantity in results.quantities:
        if quantity.id == id:
            return _quantity(quantity, show)
    for window in results.windows:
        if window.id == id:
            return _window(window, show)
    return None


def _check(check: Check, results: Results, show: Show) -> str:
    lines = [f"{check.id}: {check.about.title}", f"{check.status.upper()}, {check.state}", ""]
    for step in check.outcome.steps:
        lines += [f"  {line}" for line in _step(step, show)]
    lines.append("")
    match check.outcome:
        case Compared() as c:
            lines.append(
                f"{_against(c, show)}; "
                f"ratio {show.ratio(check.ratio)}; {show.percent(c.fail_share)} of trials break it"
            )
            lines += _rests_on(c.rests_on, results)
        case Missing(inputs=inputs):
            lines.append(f"needs {', '.join(inputs)}")
    lines += [f"clears with: {_change(c, show)}" for c in check.changes]
    lines += [f"if it does not hold: {check.about.concern}", f"ask: {check.about.ask}", f"source: {check.about.source}"]
    if check.about.defer_to:
        lines.append(f"defer to: {check.about.defer_to}")
    return "\n".join(lines)


def _step(step: Step, show: Show) -> list[str]:
    result = in_work(step.result, show)
    origins = sorted({f"{v.symbol} from {v.origin}" for v in step.inputs if v.origin})
    where = [f"    {'; '.join(origins)}"] if origins else []
    if not is_formula(step.text):
        given = ", ".join(f"{v.symbol} = {in_work(v, show)}" for v in step.inputs)
        after = f"; with {given}" if given else ""
        return [f"{step.what}: {step.text}", f"    {step.result.symbol} = {result}{after}", *where]
    put = put_in(step.text, numbers(step.text, step.inputs, show))
    return [f"{step.what}: {printed(step.text)}", f"    = {put} = {result}", *where]


def _rests_on(ids: Iterable[str], results: Results) -> list[str]:
    wanted = set(ids)
    return [f"rests on {a.id}: {a.statement} ({a.value}; {a.source})" for a in results.assumptions if a.id in wanted]


def _change(change: Change, show: Show) -> str:
    upsets = f"; then also look at {', '.join(change.upsets)}" if change.upsets else ""
    now, then = change.names or (show(v.value, v.unit) for v in (change.now, change.then))
    return f"{change.title}: {then} instead of {now}{upsets}"


def _quantity(q: Reported, show: Show) -> str:
    text = f"{q.id}: {q.title}\n{show(q.nominal, q.unit, q.toward)}"
    if q.low == q.high:
        return text
    return f"{text}; in nine trials of ten between {show(q.low, q.unit, 'down')} and {show(q.high, q.unit, 'up')}"


def _window(w: Window, show: Show) -> str:
    best = "" if w.best is None else f"; best {show(w.best, w.unit)}"
    lines = [
        f"{w.id}: {w.title}",
        f"from {show(w.low, w.unit, 'up')} (closed by {w.closed_by_low}) to {show(w.high, w.unit, 'down')} "
        f"(closed by {w.closed_by_high})",
        f"chosen {show(w.chosen, w.unit)}{best}; slack {show(w.slack, w.unit, 'down')}",
    ]
    return "\n".join([*lines, *(f"opens with: {_change(c, show)}" for c in w.changes)])
