"""Cuts the full record into the slices one recipient was granted. The only place where both are in one hand."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from generator import __version__
from generator.calc.findings import Results
from generator.calc.record import Check, Compared
from generator.calc.said import law_says, says
from generator.calc.spoken import saying
from generator.calc.topics.wheel_boxes import BRINGS, WAYS, way_drawn
from generator.model.types import Item, Model
from generator.reference.content import checklist, usage_guide
from generator.reference.types import ChecklistPage, Reference
from generator.release import slices as sl
from generator.release.cover import underwriting
from generator.release.decision import decision, held_up
from generator.release.engineer import brief
from generator.release.features import deferred, features
from generator.release.gear import running, shapes
from generator.release.grants import (
    BEHIND,
    CHECKS,
    GRANTS,
    OWNER,
    QUANTITIES,
    READERS,
    ROOMS_TOLD,
    ROUTE_TOLD,
    SHEETS,
    STATES,
    WINDOWS,
    WORKINGS,
    known,
    may_see,
)
from generator.release.haul import haul
from generator.release.lamps import lamps
from generator.release.legal import legal
from generator.release.paths import paths
from generator.release.places import places
from generator.release.reduced import (
    Say,
    other_names,
    outlined,
    plainly,
    reduced_assumption,
    reduced_beam,
    reduced_chain,
    reduced_check,
    reduced_envelope,
    reduced_quantity,
    reduced_state,
    reduced_steel,
    reduced_sweep,
    reduced_window,
    routed_envelope,
    sourced,
    told_revision,
    without_workings,
)
from generator.release.request import request
from generator.release.results import results_json
from generator.release.steel import envelope, steel
from generator.release.wording import Asked
from generator.units import Show

__all__ = ["cut", "owner_results_json", "results_json", "with_basis"]


@dataclass(frozen=True, slots=True)
class Full:
    """Everything there is about one design, for whom it is being cut, and how others than the owner are told of it."""

    model: Model
    results: Results
    data: Reference
    to: str
    show: Show
    cover: sl.Cover
    say: Say

    @property
    def is_owner(self) -> bool:
        """Whether nothing needs to be held back."""
        return self.to == OWNER


def cut(model: Model, results: Results, data: Reference, to: str, basis_hash: str = "",
        units: str | None = None, standing: sl.Standing | None = None) -> sl.Desk:
    """The desk of one recipient; raises OutputError for one nobody knows. `units` overrides the project's.

    `standing`: under what it is issued; a draft without.
    """
    project = model.spec.project
    show = Show("si" if (units or project.units) == "si" else "us", project.currency)
    say = plainly({} if to in ROOMS_TOLD else other_names((z.title for z in model.spec.house.zones),
                                                          (r.title for r in results.roof)))
    cover = _cover(model, results, known(to), basis_hash, show.system, standing)
    full = Full(model, results, data, to, show, cover, say)
    made = (make(full) for kind, make in CUT.items() if kind in GRANTS[to])
    return sl.Desk(tuple(s for s in made if s is not None))


def with_basis(desk: sl.Desk, basis: str) -> sl.Desk:
    """The desk whose cover names what the packet was made from: the first twelve signs of a hash."""
    return sl.Desk(tuple(replace(s, basis_hash=basis[:12]) if isinstance(s, sl.Cover) else s for s in desk.slices))


def owner_results_json(model: Model, results: Results, data: Reference, units: str | None = None) -> str:
    """The owner's results.json without building a packet."""
    return results_json(cut(model, results, data, OWNER, "", units))


def _cover(model: Model, results: Results, to: str, basis_hash: str, units: str,
           standing: sl.Standing | None) -> sl.Cover:
    project = model.spec.project
    label, date, purpose, status = _drafted(model, results) if standing is None else _issued(standing)
    return sl.Cover(
        id=project.id, title=project.title, summary=project.summary, owner=project.roles.owner,
        designer=project.roles.designer, recipient=to, purpose=purpose, revision=label, date=date, status=status,
        units=units, currency=project.currency, basis_hash=basis_hash, tool=f"packet {__version__}", says=says(model),
        waivers=() if standing is None else standing.waivers,
    )


def _drafted(model: Model, results: Results) -> tuple[str, str, str, str]:
    """Label, day, purpose and status of what nobody has issued."""
    revisions = model.spec.revisions
    last = None if revisions is None else revisions.revisions[-1]
    label, date = ("draft", model.spec.project.date) if last is None else (last.label, last.date)
    aim = "for review" if unsettled(results) else "for quotation"
    return label, date, f"{aim}; not issued: {label if last is None else f'draft {label}'}", aim.upper()


def _issued(standing: sl.Standing) -> tuple[str, str, str, str]:
    purpose = f"issued {standing.words}, transmittal {standing.number}"
    return standing.revision, standing.date, purpose, f"ISSUED {standing.words.upper()}"


def unsettled(results: Results) -> tuple[Check, ...]:
    """The compulsory checks that do not pass: with one of them a design is for review and nothing else."""
    return tuple(c for c in results.checks if c.about.mandatory and c.status != "pass")


def _revisions(full: Full) -> sl.Revisions | None:
    spec = full.model.spec
    if spec.revisions is None:
        return None
    whole = (sl.RevisionRow(r.label, r.date, r.asked_by, r.why, r.changes) for r in spec.revisions.revisions)
    told = (told_revision(r.label, r.date, r.technical) for r in spec.revisions.revisions if r.technical)
    rows = tuple(whole if full.is_owner else told)
    return sl.Revisions(rows) if rows else None


def _notes(full: Full) -> sl.Notes | None:
    pages = tuple(sl.NotePage(n.title, n.text) for n in full.model.spec.notes if full.is_owner or full.to in n.to)
    return sl.Notes(pages) if pages else None


def _envelope(full: Full) -> sl.Envelope:
    whole = envelope(full.model, full.results)
    if full.is_owner:
        return whole
    if full.to in ROOMS_TOLD:
        return replace(whole, chains=tuple(reduced_chain(c, full.say) for c in whole.chains))
    return reduced_envelope(whole, full.say)


def _sheets(full: Full) -> sl.Sheets:
    """The sheets granted, and for whom reads no frame the outlines those show; heights with the limit of the route."""
    behind: list[sl.Slice] = []
    if sl.Steel in BEHIND.get(full.to, ()):
        behind.append(outlined(_steel(full)))
    if sl.Envelope in BEHIND.get(full.to, ()):
        is_chained = full.to in ROUTE_TOLD and "L2" in SHEETS[full.to]
        behind.append(routed_envelope(envelope(full.model, full.results), full.say) if is_chained else _envelope(full))
    if sl.Paths in BEHIND.get(full.to, ()):
        behind.append(_paths(full))
    return sl.Sheets(SHEETS[full.to], tuple(behind))


def _steel(full: Full) -> sl.Steel:
    whole = replace(steel(full.model, full.results), places=places(full.model, full.results, full.show),
                    shapes=shapes(full.model, full.results, full.data.sections),
                    running=running(full.model, full.show))
    return whole if full.is_owner else reduced_steel(whole, full.say)


def _lamps(full: Full) -> sl.Lamps:
    """Where lamps stand; the wiring in the owner's words only for whoever wires it."""
    whole = lamps(full.model, full.results, _steel(full), full.show)
    if full.is_owner or sl.Request in GRANTS[full.to]:
        return whole
    return replace(whole, asked=(), connector="", harness="", bonding="", breakaway="", circuits=(), motors=())


def _paths(full: Full) -> sl.Paths:
    """The turn and the gate are the owner's way home; what sets an angle may be a part of the house."""
    whole = paths(full.model, full.results, full.is_owner)
    if full.is_owner:
        return whole
    return replace(whole, clearance_at="", departure=replace(whole.departure, what=""),
                   breakover=replace(whole.breakover, what=""))


def _neck(full: Full) -> sl.Neck | None:
    window = next((w for w in full.results.windows if w.id == "neck.window"), None)
    if window is None or full.results.neck is None:
        return None
    return sl.Neck(full.results.neck, window if full.is_owner else reduced_window(window, full.say))


def _placement(full: Full) -> sl.Placement | None:
    window = next((w for w in full.results.windows if w.id == "axles.window"), None)
    if window is None:
        return None
    if full.is_owner:
        return sl.Placement(full.results.sweep, window)
    coupler = full.model.spec.trailer.coupling.vertical_rating
    return sl.Placement(reduced_sweep(full.results.sweep, coupler.nominal), reduced_window(window, full.say))


def _steel_loads(full: Full) -> sl.SteelLoads:
    beam, *cases = (b if full.is_owner else reduced_beam(b) for b in (full.results.beam, *full.results.cases))
    return sl.SteelLoads(beam, tuple(cases))


def _road_loads(full: Full) -> sl.RoadLoads:
    requested = tuple(q for q in full.results.quantities if q.id.startswith("rating.") and q.id.endswith(".requested"))
    states = tuple(s for s in full.results.states if may_see(STATES[full.to], s.id))
    told = states if full.is_owner else tuple(map(reduced_state, states))
    ends = (q for q in full.results.quantities if q.id.startswith("centre."))
    centres = tuple(q if full.is_owner else reduced_quantity(q, full.say) for q in ends)
    return sl.RoadLoads(told, full.results.ratings, requested, centres)


def _masses(full: Full) -> sl.Masses:
    return sl.Masses(tuple(map(_item, full.results.items)), full.results.groups)


def _item(item: Item) -> sl.ItemRow:
    middle = (item.x0 + item.x1) / 2.0
    return sl.ItemRow(item.id, item.title, item.group, item.mass, item.low, item.high, middle, item.y, item.z,
                      item.basis, item.origin)


def _checks(full: Full) -> tuple[Check, ...]:
    titles = {s.id: s.title for s in full.model.states}
    seen = tuple(replace(sourced(c, full.data.cite), state=titles.get(c.state, c.state)) for c in full.results.checks
                 if may_see(CHECKS[full.to], c.id))
    if full.is_owner:
        return seen
    told = (c if may_see(WORKINGS[full.to], c.id) else without_workings(c) for c in seen)
    return tuple(reduced_check(c, full.say) for c in told)


def _numbers(full: Full) -> sl.Numbers:
    windows = tuple(w for w in full.results.windows if may_see(WINDOWS[full.to], w.id))
    quantities = tuple(q for q in full.results.quantities if may_see(QUANTITIES[full.to], q.id))
    if full.is_owner:
        return sl.Numbers(quantities, _checks(full), windows, tuple(_ways(full)))
    return sl.Numbers(tuple(reduced_quantity(q, full.say) for q in quantities), _checks(full),
                      tuple(reduced_window(w, full.say) for w in windows))


def _ways(full: Full) -> Iterator[sl.WayRow]:
    """The ways over the wheels side by side, for a deck between them; what is not computed leaves its way out."""
    told = {q.id: q for q in full.results.quantities}
    drawn = way_drawn(full.model)
    for id, title in WAYS.items() if drawn != "over" else ():
        found = [told.get(f"box.{id}.{what}") for what in BRINGS]
        known = [q for q in found if q is not None]
        if len(known) == len(found):
            yield sl.WayRow(title, id == drawn, *known)


def _register(full: Full) -> sl.Register:
    """All of it for the owner; for others the assumptions their checks rest on, and no tasks."""
    law = saying(law_says(full.model))
    cited = tuple(replace(a, source=law(full.data.cite(a.source))) for a in full.results.assumptions)
    if full.is_owner:
        tasks = (replace(t, blocks=held_up(t.blocks, full.results)) for t in full.results.tasks)
        return sl.Register(cited, tuple(tasks))
    outcomes = (c.outcome for c in full.results.checks if may_see(CHECKS[full.to], c.id))
    wanted = frozenset().union(*(o.rests_on for o in outcomes if isinstance(o, Compared)))
    return sl.Register(tuple(reduced_assumption(a, full.say) for a in cited if a.id in wanted), ())


def _asked(full: Full) -> Asked:
    return Asked(full.model, full.results, full.data, full.cover, _steel(full), _envelope(full), full.show)


def _request(full: Full) -> sl.Request:
    return request(_asked(full))


def _hazards(full: Full) -> sl.Hazards:
    has, readers = features(full.model.spec), READERS[full.to]
    whole = checklist(full.show.system)
    return sl.Hazards(tuple(_page(p, has, full.cover) for p in whole if not readers.isdisjoint(p.readers)
                            and (not p.when or p.when in has)))


def _page(page: ChecklistPage, has: frozenset[str], cover: sl.Cover) -> sl.TodoPage:
    rows = tuple(sl.TodoRow(*map(cover.say, (r.item, r.do, r.evidence, r.stop_if, deferred(r, has)))) for r in page.rows
                 if not r.when or r.when in has)
    return sl.TodoPage(page.id, page.title, cover.say(page.caution), rows)


def _money(full: Full) -> sl.Money | None:
    return None if full.results.budget is None else sl.Money(full.results.budget, full.results.quotes)


def _scale(full: Full) -> sl.Scale | None:
    r = full.results
    return None if r.scale_card is None else sl.Scale(r.scale_card, r.drivers, r.weighed, r.built)


def _options(full: Full) -> sl.Options | None:
    found = full.results.comparison
    if found is None:
        return None
    guide = usage_guide(full.show.system)
    rows = tuple(sl.GuideRow(r.what, r.a, r.b, r.c, r.d) for r in guide.rows)
    return sl.Options(found, guide.classes, rows, guide.reasons)


def _legal(full: Full) -> sl.Legal | None:
    return None if full.results.rulings is None else legal(full.results.rulings, full.to, full.say)


def _decision(full: Full) -> sl.Decision:
    return decision(full.model, full.results, full.show)


CUT: Mapping[type[sl.Slice], Callable[[Full], sl.Slice | None]] = MappingProxyType({
    sl.Cover: lambda full: full.cover, sl.Revisions: _revisions, sl.Notes: _notes, sl.Steel: _steel,
    sl.Envelope: _envelope, sl.Lamps: _lamps, sl.Paths: _paths, sl.Neck: _neck,
    sl.Placement: _placement, sl.SteelLoads: _steel_loads,
    sl.RoadLoads: _road_loads, sl.Masses: _masses, sl.Numbers: _numbers, sl.Register: _register, sl.Request: _request,
    sl.Hazards: _hazards, sl.Money: _money, sl.Decision: _decision, sl.Scale: _scale, sl.Options: _options,
    sl.Brief: lambda full: brief(_asked(full)), sl.Haul: lambda full: haul(_asked(full)),
    sl.Underwriting: lambda full: underwriting(_asked(full)),
    sl.Legal: _legal, sl.Sheets: _sheets,
})
