"""The designs side by side: every result that tells them apart, with no winner unless the person gave weights."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fnmatch import fnmatchcase

from generator.calc.compared import (
    Better,
    Comparison,
    Contender,
    Even,
    Flip,
    MoneyRow,
    NumberRow,
    Score,
    WordRow,
)
from generator.calc.findings import Results
from generator.calc.record import Check
from generator.calc.topics.cost import features
from generator.calc.topics.cost_years import break_even
from generator.calc.topics.rating_checks import use_class
from generator.calc.topics.wheel_boxes import way_drawn
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import prompts
from generator.reference.types import Reference
from generator.spec.models.project import Wish
from generator.spec.models.spec import Alternative

Row = tuple[str, Better]
RECORDED = ("quote.*", "ticket.*")
"""Checks of what came in on paper for the base alone: no option can have them, so none is counted or compared."""

SEARCHED = {
    "stability.critical_speed": "Speed at which damping of swaying is gone",
    "stability.reference_speed": "Speed at which damping of swaying is gone, behind the reference pickup",
}
"""Speeds looked for up to `yaw.speed_high`, and how they are called whether one was found or not."""

WANTED: Mapping[str, tuple[Row, ...]] = {
    "Height and room": (
        ("height.deck.laden", "less"), ("height.overall.unladen", "less"), ("headroom.*", "more"),
        ("floor.free", "more"), ("storage", "more"), ("clearance.frame", "more"), ("neck.underside", ""),
    ),
    "Mass and hitch": (
        ("state.bare.mass", "less"), ("state.travel.mass", "less"), ("rating.gvwr.requested", "less"),
        ("rating.cargo", "more"), ("state.travel.hitch", ""), ("state.travel.hitch_share", ""),
        ("tow.payload_used", "less"), ("tow.rear_axle", "less"), ("tow.combination", "less"),
    ),
    "Axles and tyres": (("sharing", "less"), ("tyre.spare_capacity", "more"), ("tyre.speed_cap", "more")),
    "On the road": (
        ("stability.tilt", "more"), ("stability.yaw_index", "less"), ("stability.damping", "more"),
        ("stability.critical_speed", "more"), ("stability.reference_damping", "more"),
        ("stability.reference_speed", "more"), ("wind.lift_speed", "more"), ("braking.deceleration", "more"),
        ("bounce.travel", "less"), ("grade.power", "less"), ("access.swept", "less"), ("cab.room.90", "more"),
        ("ends.departure", "more"), ("ends.breakover", "more"),
    ),
    "What the tow vehicle must be": (
        ("tow.required.tow_rating", "less"), ("tow.required.payload", "less"), ("tow.required.gcwr", "less"),
        ("tow.required.hitch", "less"), ("tow.required.ball_low", ""), ("tow.required.ball_high", ""),
        ("tow.required.bed_rail", ""),
    ),
    "Jacks": (
        ("jack.*.load", "less"), ("jack.*.stroke", "less"), ("jack.*.force", "less"), ("jack.*.hand_time", "less"),
        ("jack.*.year", "less"),
    ),
    "Parked": (("parked.wind.tips_at", "more"),),
}
"""What is compared, by group: id or pattern, and which way is better (empty: neither)."""

MONEY = (
    ("cost.base", "Base estimate"), ("cost.p80", "Kept in four trials of five (P80)"),
    ("cost.move", "Each move"), ("cost.year", "Each year standing still"),
    ("cost.years", "All years together"), ("cost.years.p80", "All years, four in five"),
)


@dataclass(frozen=True, slots=True)
class Worked:
    """One design with its results."""

    id: str
    title: str
    model: Model
    results: Results

    @property
    def numbers(self) -> dict[str, tuple[str, str, float]]:
        """Title, unit and value of every result by id, with those worked out for the comparison."""
        told = {q.id: (q.title, q.unit, q.nominal) for q in self.results.quantities}
        return told | dict(_derived(self.model, {i: v for i, (_, _, v) in told.items()}))


def compare(base: tuple[Model, Results], others: Sequence[tuple[Alternative, Model, Results]],
            data: Reference) -> Comparison:
    """All designs side by side, base first; `others` in the order to print."""
    model, results = base
    worked = (Worked("base", "As designed", model, results),
              *(Worked(a.id, a.title, m, r) for a, m, r in others))
    numbers = tuple(_numbers(worked, data.defaults["yaw.speed_high"].value))
    years = results.budget.years if results.budget is not None else None
    return Comparison(
        designs=(Contender("base", "As designed", model.spec.project.summary, (), ()),
                 *(Contender(a.id, a.title, a.why, a.moved, _asks(model, m)) for a, m, _ in others)),
        words=tuple(_words(worked)), numbers=numbers, money=tuple(_money(worked)), flips=tuple(_flips(worked)),
        evens=tuple(_even(worked[0], w) for w in worked[1:]), moves=model.spec.project.use.moves_ordinary,
        moved_once=bool(model.spec.project.use.moves),
        years=years.years if years is not None else 0, use_class=use_class(model, data).upper(),
        score=_score(numbers, model.spec.project.wishes), base_weighed=bool(model.spec.tickets),
    )


def _derived(model: Model, told: Mapping[str, float]) -> Iterator[tuple[str, tuple[str, str, float]]]:
    """Results that only a comparison needs: how evenly the axles share, tyre capacity to spare, storage won."""
    count = len(model.spec.trailer.running_gear.axles)
    worst = [told.get(f"axle.{n}.worst", math.nan) for n in range(1, count + 1)]
    even = told.get("state.travel.group", math.nan) / count
    yield "sharing", ("Heaviest axle, everything against it, over an even share", "1", _most(worst) / even)
    spare = [1.0 - 2.0 * told.get(f"tyre.{n}.worst", math.nan) / told.get(f"tyre.{n}.capacity", math.nan)
             for n in range(1, count + 1)]
    yield "tyre.spare_capacity", ("Worst tyre: capacity to spare", "%", -_most([-s for s in spare]))
    won = told.get("floor.under", told.get(f"box.{way_drawn(model) or 'boxed'}.storage"))
    if won is not None:
        yield "storage", ("Storage won by the height of floor or deck", "m3:room", won)


def _most(values: Sequence[float]) -> float:
    return math.nan if any(math.isnan(v) for v in values) else max(values)


def _numbers(worked: Sequence[Worked], fastest: float) -> Iterator[NumberRow]:
    found = [w.numbers for w in worked]
    known = dict.fromkeys(id for numbers in found for id in numbers)
    for group, rows in WANTED.items():
        for pattern, better in rows:
            for id in (i for i in known if fnmatchcase(i, pattern)):
                title, unit = next(n[id][:2] for n in found if id in n)
                values = tuple(n[id][2] if id in n else math.nan for n in found)
                if not all(map(math.isnan, values)):
                    end = fastest if id in SEARCHED else math.inf
                    yield NumberRow(id, SEARCHED.get(id, title), group, unit, better, values, end)


def _words(worked: Sequence[Worked]) -> Iterator[WordRow]:
    trailers = [w.model.spec.trailer for w in worked]
    gears = [t.running_gear for t in trailers]
    yield WordRow("Coupling", tuple(t.coupling.type for t in trailers))
    yield WordRow("Deck", tuple(t.deck for t in trailers))
    yield WordRow("Suspension", tuple(SPRUNG[g.suspension.type] for g in gears))
    yield WordRow("Axles", tuple(str(len(g.axles)) for g in gears))
    yield WordRow("Tyres", tuple(f"{g.tyre.size}, range {g.tyre.load_range}" for g in gears))
    yield WordRow("Jacks", tuple(", ".join(_jack(j.drive, j.motor is not None) for j in t.jacks) for t in trailers))
    yield WordRow("Wheel boxes", tuple(BOXES.get(way_drawn(w.model), "none") for w in worked))
    for word in ("fail", "not assessed", "review"):
        counts = [sum(c.status == word for c in _compared(w)) for w in worked]
        yield WordRow(f"Checks: {word}", tuple(map(str, counts)))


BOXES = {"boxed": "in the floor", "raised": "under a raised floor"}
SPRUNG = {"torsion": "rubber torsion; axles do not share", "leaf": "leaf springs with equalisers; axles share"}


def _jack(drive: str, powered: bool) -> str:
    return f"{drive}, {'powered' if powered else 'by hand'}"


def _money(worked: Sequence[Worked]) -> Iterator[MoneyRow]:
    budgets = [w.results.budget for w in worked]
    columns = []
    for b in budgets:
        y = b.years if b is not None else None
        columns.append({
            "cost.base": b.base if b is not None else None, "cost.p80": b.p80 if b is not None else None,
            "cost.move": y.a_move if y is not None else None, "cost.year": y.a_year if y is not None else None,
            "cost.years": y.total if y is not None else None, "cost.years.p80": y.p80 if y is not None else None,
        })
    for id, title in MONEY:
        values = tuple(c[id] for c in columns)
        if any(v is not None for v in values):
            yield MoneyRow(id, title, values)


def _compared(of: Worked) -> Iterator[Check]:
    """The checks of a design that rest on the design itself."""
    return (c for c in of.results.checks if not any(fnmatchcase(c.id, r) for r in RECORDED))


def _flips(worked: Sequence[Worked]) -> Iterator[Flip]:
    """Every check that is not alike in all designs, those that merely come or go among them."""
    told = [{c.id: c for c in _compared(w)} for w in worked]
    for id in dict.fromkeys(i for t in told for i in t):
        statuses = tuple(str(t[id].status) if id in t else "" for t in told)
        if len(set(statuses)) > 1:
            yield Flip(id, next(t[id].about.title for t in told if id in t), statuses)


def _asks(base: Model, model: Model) -> tuple[str, ...]:
    """What people forget to price that this option brings and the base does not."""
    new = features(model.spec) - features(base.spec)
    return tuple(p.title for p in prompts() if p.when in new)


def _even(base: Worked, other: Worked) -> Even | None:
    here, there = base.results.budget, other.results.budget
    if here is None or there is None or here.years is None or there.years is None:
        return None
    moves = break_even((here.base, here.years), (there.base, there.years))
    at_none = here.base + here.years.years * here.years.a_year, there.base + there.years.years * there.years.a_year
    cheap = base.title if here.years.a_move <= there.years.a_move else other.title
    is_same = at_none[0] == at_none[1] and here.years.a_move == there.years.a_move
    return Even(moves, cheap, base.title if at_none[0] <= at_none[1] else other.title, is_same)


def _score(rows: Iterable[NumberRow], wishes: Iterable[Wish]) -> Score | None:
    """Weighted sums by the person's weights: of each result the worst design counts 0, the best 1."""
    by_id, given = {r.id: r for r in rows}, tuple(wishes)
    if not given:
        return None
    used = [(w, by_id[w.what]) for w in given if w.what in by_id and _can_rank(by_id[w.what]) and w.weight > 0.0]
    whole, standings = sum(w.weight for w, _ in used), tuple(_standing(row) for _, row in used)
    sums = tuple(sum(w.weight * s for (w, _), s in zip(used, of, strict=True)) / whole
                 for of in zip(*standings, strict=True))
    unused = tuple(w.what for w in given if w.what not in {r.id for _, r in used})
    return Score(tuple((w.what, w.weight) for w, _ in used), unused, standings, sums)


def _can_rank(row: NumberRow) -> bool:
    return bool(row.better) and all(map(math.isfinite, row.values))


def _standing(row: NumberRow) -> tuple[float, ...]:
    low, high = min(row.values), max(row.values)
    if low == high:
        return (1.0,) * len(row.values)
    return tuple((v - low if row.better == "more" else high - v) / (high - low) for v in row.values)
