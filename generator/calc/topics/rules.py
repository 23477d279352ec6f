"""The rules of the route on this design: one engine for every row, which wakes it, checks what then must hold."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date

import numpy as np

from generator.calc.findings import Task
from generator.calc.legal import Asked, Bounded, NotHeld, PathColumn, Rulings, Trigger
from generator.calc.record import (
    About,
    Check,
    Compared,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    compare,
    sure,
)
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.rules_inputs import Given, given, reported
from generator.calc.trials import CONFIDENCES, Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.rules import PATHS, TOPICS, Bound, PathText, Rule, in_force, paths, rules
from generator.reference.types import Reference

NOISE = 1e-9
"""Share of a limit within which a value counts as equal to it: 10,000 lb is not over 10,000 lb by its last bit."""

DAY = 86_400.0
ROUTE = "project.yaml use.regions"
SECTION = "section Rules and papers"
ELSEWHERE = frozenset({"path", "width", "class"})
"""Topics not missed: the path has a check of its own, widths stand in the limits of the route, classes are names."""
UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class Ruled:
    """What this topic found: quantities and checks, all rules in order, and the tasks they raise."""

    findings: Findings
    rulings: Rulings
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Weighed:
    """One test worked: what it compares, whether it holds per trial (1, 0, NaN), and what it rests on."""

    shown: Bounded
    holds: Floats
    demand: Quantity
    limit: Quantity
    steps: tuple[Step, ...]


def ruled(
    model: Model, loads: Mapping[str, StateLoads], told: Mapping[str, Reported], trials: Trials, data: Reference
) -> Ruled:
    """Every rule of the route's regions on this design, the declared legal path, what is not held and what is old."""
    project = model.spec.project
    held, found = rules(), given(model, loads, told, trials, data)
    route = tuple(sorted(set(project.use.regions)))
    unknown = tuple(c for c in route if not _is_known(c, held, data))
    names = {c: data.regions[c].title if c in data.regions else c for c in route}
    force = _force(held, project.use.regions, unknown)
    fitting = tuple(r for r in held if r.id in force and (not r.kinds or not r.kinds.isdisjoint(_kinds(model))))
    worked = {r.id: _judged(r, force[r.id], found, data) for r in fitting}
    old = _old(fitting, project.date, data)
    replies = {c.rule: Asked(c.asked, c.reply, c.date) for c in project.confirmations}
    triggers = tuple(
        replace(worked[r.id][0], asked=replies.get(r.id, Asked()), old=old.get(r.id, ""))
        for topic in TOPICS for r in fitting if r.topic == topic and r.path in ("", project.legal_path)
    )
    checks = tuple(c for t in triggers if (c := worked[t.id][1]) is not None)
    lacking = tuple(_not_held(fitting, force, names, unknown))
    texts = paths()
    possible = {c: _possible(texts, c) for c in route if c not in unknown}
    rulings = Rulings(
        project.legal_path, route, project.date, tuple(TOPICS.items()), triggers,
        tuple(PathColumn(p.id, p.title, p.answers, _against(p.id, fitting, worked)) for p in texts
              if p.id == project.legal_path or any(p.id in ids for ids in possible.values())),
        lacking, unknown, tuple(names.items()), tuple(_old_limits(route, project.date, data)),
    )
    extra = (*_route_check(unknown, data), *_path_check(project.legal_path, possible, names),
             *_held_check(triggers, lacking, names))
    return Ruled(Findings(reported(found), (*checks, *extra)), rulings, tuple(_tasks(rulings)))


def _force(held: Iterable[Rule], regions: Iterable[str], unknown: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Rules in force by id, with their regions; a row that stands in for others does so only where the tables look."""
    rows, known = tuple(held), set(regions) - set(unknown)
    return in_force((r for r in rows if not r.key), regions) | in_force((r for r in rows if r.key), known)


def _kinds(model: Model) -> frozenset[str]:
    """The words of a design by which a rule is for it or not: its coupling, its brakes and its declared path."""
    trailer = model.spec.trailer
    words = (trailer.coupling.type, *(a.brake.type for a in trailer.running_gear.axles), model.spec.project.legal_path)
    return frozenset(w.replace(" ", "-") for w in words)


def _judged(rule: Rule, regions: tuple[str, ...], found: Given, data: Reference) -> tuple[Trigger, Check | None]:
    tests = tuple(_weighed(t, rule, found, data) for t in rule.when)
    must = None if rule.must is None else _weighed(rule.must, rule, found, data)
    holds = _all(tests)
    woken = None if np.isnan(holds[0]) else bool(holds[0])
    check = None if must is None or woken is False else _check(rule, tests, must, woken, data)
    # A rule without a test is asked about by what must hold; an unknown there is what it needs.
    needs = _needs(tests) if woken is None else _needs((must,)) if must is not None and woken else ()
    status = "not assessed" if not rule.is_held and woken is not False else "" if check is None else check.status
    return Trigger(
        id=rule.id, topic=rule.topic, title=rule.title, regions=regions, path=rule.path, is_held=rule.is_held,
        tests=tuple(t.shown for t in tests), woken=woken, share=_share(holds), needs=needs,
        must=None if must is None or woken is False else must.shown, status=status,
        follows=rule.follows, confirm=rule.confirm, source=_named(rule, data), edition=_edition(rule, data),
        confidence=rule.confidence, as_of=rule.as_of,
    ), check


def _weighed(test: Bound, rule: Rule, found: Given, data: Reference) -> _Weighed:
    parts = [found.of(id) for id in test.terms]
    quantities = [p.quantity for p in parts]
    total = quantities[0] if len(parts) == 1 else combine(
        "q", np.sum(np.broadcast_arrays(*[q.values for q in quantities]), axis=0), quantities[0].unit, quantities)
    steps = tuple(s for p in parts for s in p.steps)
    if test.against:
        other = found.of(test.against)
        limit, steps = other.quantity, (*steps, *other.steps)
    else:
        limit = sure("limit", test.number, total.unit, CONFIDENCES[rule.confidence], origin=_cited(rule, data))
    what = " + ".join(p.title for p in parts)
    shown = Bounded(what, float(total.values[0]), test.sign, float(limit.values[0]), total.unit)
    return _Weighed(shown, _holds(total.values, limit.values, test.sign), total, limit, steps)


def _holds(values: Floats, limits: Floats, sign: str) -> Floats:
    """Whether a test holds: 1 or 0, and NaN where a value is unknown."""
    v, limit = np.broadcast_arrays(values, limits)
    equal = np.isclose(v, limit, rtol=NOISE, atol=0.0)
    beyond = v > limit if sign.startswith(">") else v < limit
    held = (beyond & ~equal) | (equal if sign.endswith("=") else np.zeros_like(equal))
    return np.where(np.isnan(v) | np.isnan(limit), np.nan, held.astype(np.float64))


def _all(tests: Iterable[_Weighed]) -> Floats:
    """All tests together: 0 where one does not hold, whatever is unknown of the others; 1 without any test."""
    held = [t.holds for t in tests]
    if not held:
        return np.ones(1)
    together = np.array(np.broadcast_arrays(*held))
    return np.where((together == 0.0).any(axis=0), 0.0, np.where(np.isnan(together).any(axis=0), np.nan, 1.0))


def _share(holds: Floats) -> float:
    """The share of trials in which a rule is woken; of a sure one 0 or 1, NaN if unknown."""
    return float(np.mean(holds[1:])) if holds.size > 1 else float(holds[0])


def _needs(tests: Iterable[_Weighed]) -> tuple[str, ...]:
    names = {r.removeprefix("unknown:") for t in tests for r in t.demand.rests_on | t.limit.rests_on
             if r.startswith("unknown:") and np.isnan(t.holds[0])}
    return tuple(sorted(names))


def _check(rule: Rule, tests: tuple[_Weighed, ...], must: _Weighed, woken: bool | None, data: Reference) -> Check:
    about = About(
        title=rule.title, topic="rules", source=_cited(rule, data), concern=rule.follows, ask=rule.confirm + ".",
        defer_to="The law in force, and the authority that applies it.", mandatory=rule.is_law,
    )
    outcome: Compared | Missing
    if woken is None:
        outcome = Missing(_needs(tests) or ("a finite value to compare",), must.steps)
    else:
        level = np.isclose(must.demand.values, must.limit.values, rtol=NOISE, atol=0.0)
        demand = replace(must.demand, values=np.where(level, must.limit.values, must.demand.values))
        outcome = compare(demand, must.limit, "<=" if must.shown.sign == "<=" else ">=", Working(list(must.steps)))
    return Check(f"rule.{rule.id}", about, "", outcome)


def _cited(rule: Rule, data: Reference) -> str:
    """Where a rule is written, in full: paragraph, title, edition."""
    return ", ".join(filter(None, (_named(rule, data), _edition(rule, data))))


def _named(rule: Rule, data: Reference) -> str:
    row = data.sources.get(rule.source)
    return "; ".join(filter(None, (rule.cite, rule.source if row is None else row.title)))


def _edition(rule: Rule, data: Reference) -> str:
    row = data.sources.get(rule.source)
    return "" if row is None else row.edition


def _is_known(code: str, held: Iterable[Rule], data: Reference) -> bool:
    """Whether a region stands in the tables; the US does only by a state whose own row is there."""
    if code.partition("-")[0] == "US":
        return code in data.regions
    return code in data.regions or any(code in r.regions for r in held)


def _not_held(
    fitting: Iterable[Rule], force: Mapping[str, tuple[str, ...]], names: Mapping[str, str], unknown: Iterable[str]
) -> Iterator[NotHeld]:
    by_topics: dict[tuple[str, ...], list[str]] = {}
    for code in sorted(set(names) - set(unknown)):
        there = {r.topic for r in fitting if code in force[r.id]} | ELSEWHERE
        by_topics.setdefault(tuple(words for topic, words in TOPICS.items() if topic not in there), []).append(code)
    for topics, codes in by_topics.items():
        if topics:
            yield NotHeld(tuple(names[c] for c in codes), topics)


def _against(path: str, fitting: Iterable[Rule], worked: Mapping[str, tuple[Trigger, Check | None]]) -> tuple[str, ...]:
    """Titles of the claims of a path that this design contradicts: woken by a test, or a limit broken."""
    made = (worked[r.id][0] for r in fitting if r.path == path)
    return tuple(t.title for t in made if _contradicts(t))


def _contradicts(t: Trigger) -> bool:
    """Whether a claim of a path is contradicted: woken by a test, or its limit broken."""
    return t.status == "fail" or bool(t.is_held and t.tests and t.woken and t.must is None)


def _possible(texts: Iterable[PathText], code: str) -> tuple[str, ...]:
    """The legal paths that can be declared in a region."""
    return tuple(p.id for p in texts if any(code == r or code.startswith(f"{r}-") for r in p.regions))


def _old_limits(route: Iterable[str], today: str, data: Reference) -> Iterator[tuple[str, str]]:
    """Source with region, and day of the text, of the size limits of the route that are older than rules may be."""
    for region in (data.regions[c] for c in route if c in data.regions):
        if _is_old(region.as_of, today, data):
            yield f"{data.cite(region.source)} (height, {region.title})", region.as_of


def _is_old(as_of: str, today: str, data: Reference) -> bool:
    """Whether a text of this day is older on the project's day than a rule may be."""
    days = (date.fromisoformat(today) - date.fromisoformat(as_of)).days
    return days > data.defaults["rules.stale_after"].value / DAY


def _old(fitting: Iterable[Rule], today: str, data: Reference) -> dict[str, str]:
    """The names of the sources of rules whose text is older at the project's date than rules may be, by rule."""
    return {r.id: data.cite(r.source) for r in fitting if _is_old(r.as_of, today, data)}


def _tasks(rulings: Rulings) -> Iterator[Task]:
    """What is to be settled: contradictions of the declared path nobody has asked about, and texts that are old."""
    against = [t for t in rulings.triggers if t.path and t.must is None and _contradicts(t) and not t.asked.asked]
    if against:
        named = "; ".join(t.title for t in against)
        what = f"The declared legal path is contradicted by: {named}. Ask, in writing, before the trailer is ordered"
        yield Task("path-contradicted", what, "owner", SECTION)
    if rulings.stale:
        named = "; ".join(f"{s.source} (text of {s.as_of})" for s in rulings.stale)
        what = f"The text of these rules is more than a year old: {named}. Look each up in the law in force"
        yield Task("rules-old", what, "owner", SECTION)


def _route_check(unknown: tuple[str, ...], data: Reference) -> Iterator[Check]:
    if unknown:
        about = About(
            "Rules of every region of the route", "rules", "the project's tables of rules",
            "Nobody has looked up what this region asks.", "The road and vehicle authority of the region.",
            "The law in force there.", mandatory=True)
        held = ", ".join(c for c in data.regions if not c.startswith("US-"))
        lacks = f"not in the tables: {', '.join(unknown)}; held are {held}, and each state of the US as US-OR"
        yield Check("rule.regions", about, "", Missing((f"{ROUTE}: {lacks}",)))


def _path_check(path: str, possible: Mapping[str, tuple[str, ...]], names: Mapping[str, str]) -> Iterator[Check]:
    """A path that nobody has declared, or of which no claim is held in a region of the route, is not assessed."""
    foreign = [code for code, ids in possible.items() if path not in ids]
    if possible and not foreign:
        return
    allowed = ", ".join(p for p in PATHS if any(p in possible[c] for c in foreign)) or ", ".join(PATHS)
    where = ", ".join(names[c] for c in foreign) or ", ".join(names.values())
    lacks = (f"undecided: declare one of {allowed}" if path == UNDECIDED else
             f"no claim of `{path}` is held for {where}; paths there: {allowed}")
    about = About(
        "Legal path declared and free of contradictions", "rules", "the project's tables of rules",
        "The house is built to one law and judged by another.",
        "The title office, the insurer and the building official of the place, before the trailer is ordered.",
        "The authority that registers or permits it.")
    yield Check("rule.path", about, "", Missing((f"project.yaml legal_path: {lacks}",)))


def _held_check(
    triggers: Iterable[Trigger], lacking: Iterable[NotHeld], names: Mapping[str, str]
) -> Iterator[Check]:
    """Topics of which no rule is held in a region of the route: one check for all, never assessed."""
    unheld = (t for t in triggers if not t.is_held and t.woken is not False)
    gaps = [(", ".join(names[c] for c in t.regions), t.title) for t in unheld]
    gaps += [(", ".join(n.regions), topic) for n in lacking for topic in n.topics]
    by_region: dict[str, list[str]] = {}
    for where, what in gaps:
        by_region.setdefault(where, []).append(what.partition(":")[0].lower())
    if by_region:
        about = About(
            "A rule held for every topic and every region of the route", "rules", "the project's tables of rules",
            "What was not found may ask for more than the rows that were.",
            "Whoever is named beside each row of Rules and papers.", "The law in force there.")
        missing = (f"the rules of {where} on {', '.join(what)}" for where, what in by_region.items())
        yield Check("rule.held", about, "", Missing(tuple(missing)))
