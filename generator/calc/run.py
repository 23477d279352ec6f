"""Everything computed for one design, topic by topic."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import numpy as np

from generator.calc.findings import Results, StateRow, Task
from generator.calc.levers import Bench as Lifted
from generator.calc.measured import Drivers
from generator.calc.mending import WayOut, way_out, with_ways
from generator.calc.quoted import Quotes
from generator.calc.record import (
    Assumption,
    Check,
    Missing,
    Quantity,
    Reported,
    Status,
    Value,
    Window,
    report,
)
from generator.calc.said import says
from generator.calc.spoken import spoken, spoken_checks
from generator.calc.topics.asbuilt import AsBuiltFound, Outcome, asbuilt
from generator.calc.topics.cost import budget
from generator.calc.topics.drivers import drivers
from generator.calc.topics.frame_drawn import diagrams
from generator.calc.topics.heights import roof_points, roofed
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.placement import sweep, window
from generator.calc.topics.quotes import quotes
from generator.calc.topics.ratings import NO_HEAVIER, Heavier
from generator.calc.topics.reweighed import Correction, corrected, weighed_sums
from generator.calc.topics.rules import Ruled, ruled
from generator.calc.topics.scale_card import scale_card
from generator.calc.topics.tickets import Held, TicketsFound, held, tickets
from generator.calc.trials import Trials
from generator.calc.worked import Worked, nominal_checks
from generator.calc.worked import work as work
from generator.formulas import in_work
from generator.model.resolve import resolve
from generator.model.states import told
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference, prompts
from generator.spec.models.spec import Spec
from generator.units import Show

OPTIONAL = {
    "tow.yaml": "Measure the tow vehicle, loaded and level, and write tow.yaml",
    "site.yaml": "Describe where the house will stand in site.yaml",
    "costs.yaml": "List what it costs in costs.yaml",
    "revisions.yaml": "Say in revisions.yaml why the design is as it is",
}
"""What fills the gap a missing optional file leaves."""


ALL_LEVERS, NO_LEVERS = "", "-"
"""Whose levers to look for: of every failing check, of none; else the id of one check."""


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """One design worked, with every check as it will be printed, and what scale and tape say of it."""

    model: Model
    worked: Worked
    told: Mapping[str, Reported]
    checks: tuple[Check, ...]
    weighed: TicketsFound
    built: AsBuiltFound
    quotes: Quotes | None
    drivers: tuple[Drivers, ...]
    laws: Ruled
    out: WayOut


def calculate(
    model: Model, data: Reference, trials: Trials = Trials(), levers: str = ALL_LEVERS  # noqa: B008 - frozen
) -> Results:
    """All results of one design, with the smallest changes that clear each failing check, or the one that `levers`
    names.
    """
    with np.errstate(all="ignore"):
        return spoken(_results(data, trials, _judged(model, data, trials, levers)), says(model))


def judge(model: Model, data: Reference, trials: Trials = Trials()) -> tuple[Check, ...]:  # noqa: B008 - frozen
    """The checks of `calculate` without what only paper shows: changes that clear them, sweep, budget, drivers."""
    with np.errstate(all="ignore"):
        return spoken_checks(_judged(model, data, trials, NO_LEVERS).checks, says(model))


def _judged(model: Model, data: Reference, trials: Trials, levers: str) -> Judged:
    built = asbuilt(model, lambda spec: _outcome(spec, data), trials)
    written = model if built.spec is None else resolve(built.spec, data)
    on_scale = held(written, trials, data)
    by = on_scale.by if on_scale else None
    model = corrected(written, by)
    worked = work(model, data, trials, weighed_sums(written, trials, data, by))
    told = {q.id: q for q in worked.quantities}
    weighed = tickets(on_scale, worked.ratings.chain, trials, data)
    levelled, asked = quotes(model)
    laws = ruled(model, worked.loads, told, trials, data)
    worked = replace(worked, findings=(*worked.findings, weighed.findings, built.findings, asked, laws.findings))
    found = tuple(_naming(model.spec, c) for c in worked.checks)
    out = WayOut()
    if levers != NO_LEVERS:
        heavier, now = worked.ratings.heavier, {c.id: c for c in found}
        bench = Lifted(model.spec, lambda spec, part: nominal_checks(spec, data, part, by, heavier), now, worked.homes,
                       data.sections)
        found = with_ways(bench, found, levers)
        out = way_out(bench, {c.id for c in found if c.pair}) if levers == ALL_LEVERS else out
    return Judged(
        model, worked, told, found, weighed, built, levelled, _driven(written, worked, on_scale, data), laws, out)


def _driven(written: Model, worked: Worked, on_scale: Held | None, data: Reference) -> tuple[Drivers, ...]:
    """What makes the spread of the list as written: what is left after the scale is the scale's own."""
    return drivers(written, on_scale.loads if on_scale else worked.loads, data)


def _results(data: Reference, trials: Trials, judged: Judged) -> Results:
    model, worked, told, checks = judged.model, judged.worked, judged.told, judged.checks
    windows = [w for f in worked.findings for w in f.windows] + list(_axle_window(model, worked, checks))
    return Results(
        quantities=worked.quantities,
        checks=checks,
        windows=tuple(windows),
        assumptions=assumptions(model, worked, data),
        tasks=(*tasks(model.spec, checks), *judged.laws.tasks),
        states=tuple(state_rows(model, worked)),
        groups=worked.groups,
        chains=(*worked.heights.chains, worked.lateral.chain),
        roof=worked.heights.roof,
        neck=worked.neck.record,
        jacks=worked.jacks,
        beam=worked.beam,
        cases=diagrams(worked.solved, worked.rides[DESIGN], data),
        sweep=sweep(worked.bench, model),
        ratings=worked.ratings.rows,
        budget=budget(model, data, prompts(), trials),
        copes=worked.fitted.copes,
        turned=worked.fitted.turned,
        scale_card=scale_card(model, worked.loads, worked.ratings.chain, told, trials, data),
        drivers=judged.drivers,
        items=model.items,
        weighed=judged.weighed.record,
        built=judged.built.record,
        quotes=judged.quotes,
        rulings=judged.laws.rulings,
        out=judged.out,
    )


def statuses(
    spec: Spec, data: Reference, by: Correction | None = None, heavier: Heavier = NO_HEAVIER
) -> Mapping[str, Status]:
    """Status of every check of a spec at nominal values; raises SpecError if the spec no longer makes sense."""
    return {c.id: c.status for c in nominal_checks(spec, data, "", by, heavier)}


def _outcome(spec: Spec, data: Reference) -> Outcome:
    """A spec worked at nominal values."""
    worked = work(resolve(spec, data), data, Trials(count=0))
    return Outcome(
        worked.quantities, {c.id: c.status for c in worked.checks}, {c.id: c.about.title for c in worked.checks}
    )


def _axle_window(model: Model, worked: Worked, checks: Iterable[Check]) -> Iterator[Window]:
    """The window of axle stations; an empty one carries the changes that clear its check."""
    found = window(worked.bench, model)
    if found is not None:
        changes = next(c.changes for c in checks if c.id == found.id)
        yield replace(found, changes=changes) if found.slack < 0.0 else found


def _naming(spec: Spec, check: Check) -> Check:
    """A check that misses inputs names them by their path in the spec, not by the line they stand on."""
    if not isinstance(check.outcome, Missing):
        return check
    paths = {u.origin: u.path for u in spec.unknowns if u.origin}
    inputs = tuple(dict.fromkeys(paths.get(i, i) for i in check.outcome.inputs))
    return replace(check, outcome=replace(check.outcome, inputs=inputs))


def state_rows(model: Model, worked: Worked) -> Iterator[StateRow]:
    """One row per load state; states that stand are taken at the deck height of the travel state."""
    tops = [_nominal(p.zeta) for p in roof_points(model, Trials(count=0))]
    for state in model.states:
        at = worked.at[state.id]
        load, ride = worked.loads.get(state.id), worked.rides.get(state.id)
        deck = _nominal((ride or worked.rides[DESIGN]).deck)
        spread = report("", "", at.mass)
        yield StateRow(
            id=state.id,
            title=state.title,
            towed=state.towed,
            mass=spread.nominal,
            mass_low=spread.low,
            mass_high=spread.high,
            x=_nominal(at.x),
            y=_nominal(at.y),
            z=deck + _nominal(at.zeta),
            hitch=_nominal(load.hitch) if load else None,
            share=_nominal(load.share) if load else None,
            group=_nominal(load.group) if load else None,
            axles=tuple(map(_nominal, load.axles)) if load else (),
            left=tuple(map(_nominal, load.left)) if load else (),
            right=tuple(map(_nominal, load.right)) if load else (),
            deck=deck if ride else None,
            roof=deck + max(tops) if state.id in roofed(model) else None,
            aboard=told(state, model.spec.weights.tanks),
        )


def assumptions(model: Model, worked: Worked, data: Reference) -> tuple[Assumption, ...]:
    """Every default that a check or a quantity rests on, with its source."""
    show = Show(model.spec.project.units, model.spec.project.currency)
    ids = set(model.assumed)
    for check in worked.checks:
        ids |= {v for v in _rests_on(check)}
    for quantity in worked.quantities:
        ids |= quantity.rests_on
    stated = {a.id: a for f in worked.findings for a in f.assumptions}
    rows = {i: data.defaults[i] for i in ids if i in data.defaults}
    made = {
        i: Assumption(i, d.statement, _said(d.value, d.low, d.high, d.unit, show), data.cite(d.source), d.if_wrong)
        for i, d in rows.items()
    }
    return tuple(a for _, a in sorted((made | stated | _foreign_units(model.spec, show)).items()))


def _foreign_units(spec: Spec, show: Show) -> dict[str, Assumption]:
    """Values written in a unit outside the trade's table: what they were read as, so that a slip shows."""
    source = "converted by the units library, not by the table of the trade's units"
    return {
        f"unit.{n}": Assumption(
            f"unit.{n}",
            f"{f.path} is written as {f.text}",
            show(f.value, f.unit),
            source,
            "Another reading of the unit would change the value.",
        )
        for n, f in enumerate(spec.foreign, start=1)
    }


def _rests_on(check: Check) -> Iterable[str]:
    return () if isinstance(check.outcome, Missing) else check.outcome.rests_on


def _said(value: float, low: float, high: float, unit: str, show: Show) -> str:
    text, *ends = (in_work(Value("", v, unit), show) for v in (value, low, high))
    return text if low == high else f"{text} ({' to '.join(ends)})"


def tasks(spec: Spec, checks: Iterable[Check]) -> Iterator[Task]:
    """What is still to be found out: each unknown value, each missing file, each check open for another reason."""
    open_checks = {c.id: (c, set(c.outcome.inputs)) for c in checks if isinstance(c.outcome, Missing)}
    files = {"tow.yaml": spec.tow, "site.yaml": spec.site, "costs.yaml": spec.costs, "revisions.yaml": spec.revisions}
    explained: set[str] = set()
    for n, unknown in enumerate(spec.unknowns, start=1):
        names = {unknown.path, unknown.path.replace(": ", " "), unknown.origin}
        blocked = sorted(i for i, (_, inputs) in open_checks.items() if names & inputs)
        explained.update(blocked)
        what = f"{unknown.description.rstrip('.')} ({unknown.path}) is unknown"
        yield Task(f"unknown-{n}", what, "owner", ", ".join(blocked))
    for file in (f for f, part in files.items() if part is None):
        blocked = sorted(i for i, (_, inputs) in open_checks.items() if any(name.startswith(file) for name in inputs))
        explained.update(blocked)
        yield Task(f"file-{file.partition('.')[0]}", OPTIONAL[file], "owner", ", ".join(blocked))
    for id, (check, inputs) in open_checks.items():
        if id not in explained:
            what = f"{check.about.title}: needs {', '.join(sorted(inputs))}"
            yield Task(f"check-{id.replace('.', '-')}", what, check.about.ask, id)


def _nominal(q: Quantity) -> float:
    return float(q.values[0])
