"""results.json: the public contract of one recipient's packet, made from their desk and nothing else."""

import json
import math
from collections.abc import Mapping
from decimal import Decimal
from typing import TypeVar

from generator.calc.compared import Comparison
from generator.calc.findings import Budget
from generator.calc.record import Check, Compared, Missing, Reported, Window
from generator.release.slices import Cover, Desk, ItemRow, Masses, Money, Numbers, Options, Register, Slice
from generator.units import Show

SCHEMA = 1
DIGITS = 12
Kind = TypeVar("Kind", bound=Slice)


def results_json(desk: Desk) -> str:
    """Canonical JSON: SI values, sorted keys, 12 significant digits, null for what has no number, a final newline."""
    return json.dumps(_results(desk), sort_keys=True, allow_nan=False, ensure_ascii=False, indent=1) + "\n"


def _results(desk: Desk) -> dict[str, object]:
    cover, numbers = _slice(desk, Cover), _slice(desk, Numbers)
    masses, money, register = _slice(desk, Masses), _slice(desk, Money), _slice(desk, Register)
    options = _slice(desk, Options)
    if cover is None or numbers is None:
        return {"schema": SCHEMA}
    show = Show("si" if cover.units == "si" else "us", cover.currency)
    return {
        "schema": SCHEMA,
        "project": _project(cover),
        "quantities": {q.id: _quantity(q, show) for q in numbers.quantities},
        "checks": {c.id: _check(c) for c in numbers.checks},
        "windows": {w.id: _window(w) for w in numbers.windows},
        "items": [] if masses is None else [_item(i) for i in masses.items],
        "options": {} if options is None else _options(options.comparison),
        "cost": {} if money is None else _cost(money.budget),
        "assumptions": [] if register is None else [
            {"id": a.id, "statement": a.statement, "value": a.value, "source": a.source, "if_wrong": a.if_wrong}
            for a in register.assumptions],
        "tasks": [] if register is None else [
            {"id": t.id, "what": t.what, "who": t.who, "blocks": t.blocks} for t in register.tasks],
    }


def _slice(desk: Desk, kind: type[Kind]) -> Kind | None:
    found = desk.get(kind)
    return found if isinstance(found, kind) else None


def number(value: float | None) -> float | None:
    """A finite number to 12 significant digits, or None."""
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.{DIGITS}g}")


def _project(cover: Cover) -> Mapping[str, object]:
    return {"id": cover.id, "title": cover.title, "revision": cover.revision, "date": cover.date,
            "recipient": cover.recipient, "purpose": cover.purpose, "status": cover.status, "units": cover.units,
            "currency": cover.currency, "basis": cover.basis_hash, "tool": cover.tool}


def _quantity(q: Reported, show: Show) -> Mapping[str, object]:
    return {"title": q.title, "value": number(q.nominal), "unit": q.unit, "shown": show(q.nominal, q.unit, q.toward),
            "low": number(q.low), "high": number(q.high), "basis": q.basis.name.lower(),
            "fixed_by_welding": q.fixed_by_welding}


def _check(check: Check) -> Mapping[str, object]:
    about = {"title": check.about.title, "topic": check.about.topic, "state": check.state, "status": check.status,
             "mandatory": check.about.mandatory, "ratio": number(check.ratio)}
    match check.outcome:
        case Compared() as c:
            return about | {"demand": number(c.demand.value), "limit": number(c.limit.value), "unit": c.demand.unit,
                            "sense": c.sense, "fail_share": number(c.fail_share), "basis": c.basis.name.lower(),
                            "rests_on": sorted(c.rests_on), "needs": []}
        case Missing(inputs=inputs):
            return about | {"demand": None, "limit": None, "unit": None, "sense": None, "fail_share": None,
                            "basis": None, "rests_on": [], "needs": sorted(inputs)}


def _window(w: Window) -> Mapping[str, object]:
    return {"title": w.title, "low": number(w.low), "high": number(w.high), "chosen": number(w.chosen),
            "best": number(w.best), "unit": w.unit, "closed_by_low": w.closed_by_low,
            "closed_by_high": w.closed_by_high}


def _item(i: ItemRow) -> Mapping[str, object]:
    return {"id": i.id, "title": i.title, "group": i.group, "mass": number(i.mass), "low": number(i.low),
            "high": number(i.high), "x": number(i.x), "y": number(i.y), "zeta": number(i.z), "basis": i.basis}


def comparison_json(found: Comparison) -> str:
    """The designs side by side as canonical JSON: of each result what it is, of each design its values in SI."""
    told = {
        "schema": SCHEMA,
        "results": {r.id: {"title": r.title, "group": r.group, "unit": r.unit, "better": r.better,
                           "end": number(r.end)} for r in found.numbers},
        "designs": _options(found),
    }
    return json.dumps(told, sort_keys=True, allow_nan=False, ensure_ascii=False, indent=1)


def _options(found: Comparison) -> Mapping[str, object]:
    """Every option with its results and amounts under the ids of the comparison, the base among them."""
    return {
        c.id: {
            "title": c.title,
            "values": {r.id: number(r.values[n]) for r in found.numbers},
            "money": {r.id: None if (v := r.values[n]) is None else _money(v) for r in found.money},
            "changes": [{"path": m.path, "was": m.was, "now": m.now} for m in c.moved],
            "checks": {f.id: f.statuses[n] for f in found.flips if f.statuses[n]},
        }
        for n, c in enumerate(found.designs)
    }


def _cost(budget: Budget) -> Mapping[str, object]:
    return {
        "currency": budget.currency, "base": _money(budget.base), "p50": _money(budget.p50), "p80": _money(budget.p80),
        "contingency": _money(budget.contingency), "below_base": number(budget.below_base),
        "lines": {r.id: {"title": r.title, "section": r.section, "status": r.status, "total": _money(r.total),
                         "due": r.due} for r in budget.lines},
        "not_priced": [p.id for p in budget.not_priced],
        "years": {} if budget.years is None else {
            "years": budget.years.years, "moves": budget.years.moves, "moved_once": budget.years.once,
            "move": _money(budget.years.a_move),
            "year": _money(budget.years.a_year), "total": _money(budget.years.total), "p80": _money(budget.years.p80)},
    }


def _money(amount: Decimal) -> str:
    """Money as a decimal text with cents, so that no reader rounds it."""
    return f"{amount:.2f}"
