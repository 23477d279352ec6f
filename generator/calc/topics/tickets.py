"""Scale tickets against the list: do they agree, does the trailer keep its ratings, what are the masses now. kg.

A ticket that counts corrects the list, and the whole design is worked with the list as corrected (see `reweighed`).
Where scale and list disagree beyond chance nothing is corrected: somebody has to find out which of them is wrong.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.calc.lines import Lines, Update, lines_of, update
from generator.calc.measured import LookRow, ReadingRow, TicketRecord, UpdatedItem, UpdatedState, Weighed
from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Reported,
    Status,
    Working,
    combine,
    compare,
    report,
    sure,
)
from generator.calc.sums import sums
from generator.calc.topics.axles import StateLoads, level_loads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.hitch_limits import hitch_limits
from generator.calc.topics.masses import state_masses, summed
from generator.calc.topics.rating_chain import Link
from generator.calc.topics.reweighed import Correction, correction
from generator.calc.topics.weighings import Reading, Solved, gross_row, group_row, solve
from generator.calc.trials import P95, Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference

CHI2 = ("ticket.chi2_1", "ticket.chi2_2", "ticket.chi2_3")
"""Limits by the number of readings."""
LOOK = 5
"""So many lines are named where scale and list disagree."""
WORTH = 0.05
"""A corrected line is named if it moved by this share of its own standard deviation."""


@dataclass(frozen=True, slots=True, eq=False)
class TicketsFound:
    """What this topic found."""

    findings: Findings
    record: Weighed | None


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """Every ticket solved and held against the list as written; `by` corrects the list, if any ticket counts."""

    model: Model
    loads: Mapping[str, StateLoads]
    lines: Lines
    solved: tuple[Solved, ...]
    agree: Mapping[str, Check]
    best: Mapping[str, Solved]
    used: tuple[Solved, ...]
    by: Correction | None


def held(model: Model, trials: Trials, data: Reference) -> Held | None:
    """Every ticket held against the list as it is written; None without tickets."""
    weighings = model.spec.tickets
    if not weighings:
        return None
    loads = level_loads(model, state_masses(model, sums(model, trials, data)), trials, data)
    lines = lines_of(model.items, data)
    solved = tuple(solve(x, model, loads[x.ticket.state], trials, data) for x in weighings)
    agree = {s.weighing.id: _agrees(s, lines, data) for s in solved}
    best = {s.loads.state.id: s for s in sorted(solved, key=lambda s: s.rank)}
    used = tuple(s for s in best.values() if s.sound and agree[s.weighing.id].status == "pass")
    return Held(model, loads, lines, solved, agree, best, used, _corrected(model, lines, used))


def tickets(found: Held | None, chain: Sequence[Link], trials: Trials, data: Reference) -> TicketsFound:
    """What the tickets say of list and ratings; `chain` is that of the design as corrected."""
    if found is None:
        return TicketsFound(Findings(), None)
    model, after = found.model, found.by.update if found.by else None
    records = tuple(_record(found, s) for s in found.solved)
    checks = tuple(
        c for s in found.solved for c in (found.agree[s.weighing.id], *_ratings(s, model, chain, trials, data))
    )
    states = tuple(_state(model, x, after, found.best) for x in found.loads.values())
    weighed = Weighed(records, _items(model, found.lines, after), states if after or found.best else ())
    return TicketsFound(Findings(tuple(q for s in found.solved for q in _reported(s)), checks), weighed)


def _reported(s: Solved) -> Iterator[Reported]:
    id, of = f"ticket.{s.weighing.id}", s.weighing.ticket.title
    for name, title, q in (
        ("gross", "trailer", s.gross),
        ("hitch", "load on the ball", s.hitch),
        ("hitch_share", "share on the ball", s.share),
        ("cg.x", "centre of mass, station", s.x),
        ("group", "load of all axles", s.group),
        ("moved", "load the bars move to the trailer's axles", s.moved),
        ("restored", "share of its lost load the steer axle gets back", s.restored),
    ):
        if q is not None:
            yield report(f"{id}.{name}", f"{of}: {title}, weighed", q)


def _chi2(s: Solved, lines: Lines) -> float:
    """Squared distance of the readings from the list, in the errors of both."""
    rows, values = _stacked(s.readings)
    if not np.isfinite(values).all():
        return float("nan")
    return update(lines, rows, values, s.noise).chi2


def _stacked(readings: Sequence[Reading]) -> tuple[Floats, Floats]:
    return np.array([r.row for r in readings]), np.array([float(r.value.values[0]) for r in readings])


def _agrees(s: Solved, lines: Lines, data: Reference) -> Check:
    w, t = Working(list(s.w.steps)), s.weighing.ticket
    given = tuple(r.value for r in s.readings)
    known = _known(s)
    chi2 = w.procedure(
        "Readings against the list",
        "The readings less what the list predicts, squared, over the errors of list and scale together; items of a "
        "group err together.",
        "least squares with a prior",
        combine("chi2", np.array([_chi2(s, lines) if known else np.nan]), "1", (*given, *_predicted(s))),
        given,
    )
    limit = data.defaults[CHI2[len(s.readings) - 1]]
    about = About(
        f"Scale and list agree: {t.title}",
        "tickets",
        "chi-squared distribution, 95 %",
        "Either the list lacks something, or the scale was read or written down wrongly: the loads this packet works "
        "with are not those of the trailer.",
        "The owner: look at the lines named with the ticket, then weigh again.",
        "The scale operator; the weights and measures authority.",
    )
    bound = sure("chi2_max", limit.value, limit.unit, rests_on=(limit.id,), origin=limit.source)
    return Check(f"ticket.{s.weighing.id}.agrees", about, t.state, compare(chi2, bound, "<=", w))


def _known(s: Solved) -> bool:
    """Whether the list predicts all that was read."""
    return bool(np.isfinite([q.values[0] for q in _predicted(s)]).all())


def _predicted(s: Solved) -> tuple[Quantity, ...]:
    return (s.loads.mass, s.loads.hitch, s.loads.group)


def _ratings(s: Solved, model: Model, chain: Sequence[Link], trials: Trials, data: Reference) -> Iterator[Check]:
    """The weighed trailer against its ratings: with bars, the heavier of both readings counts."""
    t, id = s.weighing.ticket, f"ticket.{s.weighing.id}"
    w = Working()
    capacity = summed("A_max", tuple(link.governing[1] for link in chain), w, "Ratings of all axles, the least of each")
    yield Check(f"{id}.group", _over(f"Axles as weighed: {t.title}"), t.state, compare(s.heaviest, capacity, "<=", w))
    for link, load in zip(chain, s.axles, strict=False):
        words, limit = link.governing
        about = _over(f"Axle {link.axle} as weighed, {words}: {t.title}")
        yield Check(f"{id}.axle.{link.axle}", about, t.state, compare(load, limit, "<=", Working()))
    if s.hitch is None or s.share is None:
        return
    ball = hitch_limits(model)
    limit = sure("H_max", ball.load, "kg")
    about = _over(f"Ball as weighed, {ball.words or 'no limit known'}: {t.title}")
    yield Check(f"{id}.hitch", about, t.state, compare(s.hitch, limit, "<=", Working(list(s.w.steps))))
    about = About(
        f"Share on the ball as weighed: {t.title}",
        "tickets",
        "common practice and owner's guides",
        "A trailer light on the ball sways.",
        "The owner: move load forward before towing on.",
        "The makers of coupler and tow vehicle.",
    )
    low = trials.assumed("s_min", data.defaults[coupled(model).share_low])
    yield Check(f"{id}.share", about, t.state, compare(s.share, low, ">=", Working(list(s.w.steps))))


def _over(title: str) -> About:
    return About(
        title,
        "tickets",
        "the makers' ratings",
        "What was weighed is what the tyres, axles and ball really carry.",
        "The owner: take load off, or move it, before towing on.",
        "The makers of tyres, axles and coupler.",
        mandatory=True,
    )


def _corrected(model: Model, lines: Lines, used: Sequence[Solved]) -> Correction | None:
    """The list after all tickets that count, solved together; their readings are independent of one another."""
    if not used:
        return None
    rows, values = _stacked([r for s in used for r in s.readings])
    noise, start = np.zeros((len(values), len(values))), 0
    for s in used:
        stop = start + len(s.readings)
        noise[start:stop, start:stop] = s.noise
        start = stop
    return correction(model.items, update(lines, rows, values, noise), noise)


def _record(found: Held, s: Solved) -> TicketRecord:
    t, model, status = s.weighing.ticket, found.model, found.agree[s.weighing.id].status
    wins = found.best[t.state] is s
    return TicketRecord(
        s.weighing.id,
        t.title,
        t.date,
        t.place,
        t.by,
        t.revision,
        t.state,
        t.weighed,
        wins,
        any(s is u for u in found.used),
        _remark(model, s, status, wins),
        _number(s.gross),
        _number(s.hitch),
        _number(s.share),
        float(s.group.values[0]),
        _number(s.x),
        _number(s.moved),
        _number(s.restored),
        tuple(_row(r, found.lines) for r in s.readings) if _known(s) else (),
        _look(model, s, found.lines) if status == "fail" else (),
    )


def _number(q: Quantity | None) -> float | None:
    return None if q is None else float(q.values[0])


def _remark(model: Model, s: Solved, status: Status, wins: bool) -> str:
    """Why the list was not corrected by it, or what to know where it was."""
    t, revisions = s.weighing.ticket, model.spec.revisions
    if status == "not assessed":
        return "not held against the list: a reading or a mass of the list is unknown"
    if t.level == "no":
        return "for planning only: the scale was not level"
    if t.same_load == "no":
        return "for planning only: fuel, people or tanks differed between the weighings"
    if t.weighed == "axle by axle":
        return "for planning only: axles weighed one by one and added up are no weighing of the whole"
    if status == "fail":
        return "the list was not corrected by it: they disagree beyond chance"
    if not wins:
        return "another ticket of the same state counts more"
    now = revisions.revisions[-1].label if revisions is not None else t.revision
    if now != t.revision:
        return f"the design stands at revision {now}: lines redefined since then should be weighed anew"
    return ""


def _row(r: Reading, lines: Lines) -> ReadingRow:
    predicted = float(r.row @ lines.mass)
    band = P95 * lines.error(r.row)
    read = float(r.value.values[0])
    ratio = read / predicted if predicted > 0.0 else float("nan")
    return ReadingRow(r.title, read, r.error, predicted, predicted - band, predicted + band, ratio)


def _look(model: Model, s: Solved, lines: Lines) -> tuple[LookRow, ...]:
    """The lines that would have to give most, in their own standard deviations."""
    rows, values = _stacked(s.readings)
    found = update(lines, rows, values, s.noise)
    off = found.mass - lines.mass
    with np.errstate(all="ignore"):
        deviations = np.where(lines.deviation > 0.0, off / lines.deviation, 0.0)
    order = sorted(range(len(off)), key=lambda n: (-abs(deviations[n]), model.items[n].id))[:LOOK]
    return tuple(
        LookRow(model.items[n].id, model.items[n].title, float(off[n]), float(deviations[n])) for n in order
    )


def _items(model: Model, lines: Lines, after: Update | None) -> tuple[UpdatedItem, ...]:
    """The lines that the readings moved, those that moved most first."""
    if after is None:
        return ()
    off = np.abs(after.mass - lines.mass)
    moved = [n for n in range(len(off)) if off[n] > WORTH * lines.deviation[n]]
    return tuple(
        UpdatedItem(
            model.items[n].id,
            model.items[n].title,
            model.items[n].group,
            float(lines.mass[n]),
            float(lines.deviation[n]),
            float(after.mass[n]),
            float(after.deviation[n]),
        )
        for n in sorted(moved, key=lambda n: (-off[n], model.items[n].id))
    )


def _state(model: Model, x: StateLoads, after: Update | None, best: Mapping[str, Solved]) -> UpdatedState:
    """A state that was weighed is as the scale read it; the others follow from the corrected list."""
    id, title = x.state.id, x.state.title
    read = best.get(id)
    if read is not None and read.known and read.gross is not None and read.hitch is not None:
        gross, hitch = read.readings[:2]
        values = (_number(read.gross), gross.error, _number(read.hitch), hitch.error)
        mass, mass_error, ball, ball_error = (float(v or 0.0) for v in values)
        group = float(read.group.values[0])
        error = float(np.sqrt(max(mass_error**2 - ball_error**2, 0.0)))
        return UpdatedState(id, title, mass, mass_error, ball, ball_error, group, error, read.weighing.id)
    n = next(i for i, s in enumerate(model.states) if s.id == id)
    whole = gross_row(model.items, n)
    axles = group_row(model.items, n, float(x.x_h.values[0]), float(x.x_a.values[0]))
    rows = (whole, whole - axles, axles)
    if after is None:
        prior = [float(q.values[0]) for q in _plain(x)]
        errors = [float(np.std(q.values[1:])) if q.values.size > 1 else 0.0 for q in _plain(x)]
    else:
        known = np.isfinite([q.values[0] for q in _plain(x)])
        prior = [after.value(r) if k else float("nan") for r, k in zip(rows, known, strict=True)]
        errors = [after.error(r) for r in rows]
    (mass, ball, group), (mass_error, ball_error, error) = prior, errors
    return UpdatedState(id, title, mass, mass_error, ball, ball_error, group, error, "")


def _plain(x: StateLoads) -> tuple[Quantity, Quantity, Quantity]:
    return x.mass, x.hitch, x.group
