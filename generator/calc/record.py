"""Quantities, formulas, workings and checks: made once here, rendered everywhere else."""

import math
from collections.abc import Callable, Iterable
from dataclasses import field
from enum import IntEnum
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from generator.errors import CalcError
from generator.records import dataclass

Floats = NDArray[np.float64]
Sense = Literal["<=", ">="]
Status = Literal["pass", "review", "fail", "not assessed"]

SHARE_FOR_REVIEW = 0.05
"""Above this share of failing trials a check is `review`. Source: the project's own rule, docs/decisions.md."""


class Basis(IntEnum):
    """How a value is known; the worst input decides."""

    MEASURED = 0
    QUOTED = 1
    TABLE = 2
    ESTIMATE = 3
    MEMORY = 4
    PLACEHOLDER = 5


@dataclass(frozen=True, slots=True)
class Value:
    """A number as it stands in a working: symbol, SI value, unit key of `units`, where it was written."""

    symbol: str
    value: float
    unit: str
    origin: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """`values[0]` is nominal, the rest are trials; a sure number has length 1 and broadcasts. SI."""

    symbol: str
    values: Floats
    unit: str
    basis: Basis = Basis.TABLE
    rests_on: frozenset[str] = frozenset()
    origin: str = ""

    @property
    def nominal(self) -> Value:
        """The nominal number with its symbol and unit."""
        return Value(self.symbol, float(self.values[0]), self.unit, self.origin)

    def named(self, symbol: str) -> "Quantity":
        """The same quantity under the symbol another formula gives it."""
        return Quantity(symbol, self.values, self.unit, self.basis, self.rests_on, self.origin)


def sure(
    symbol: str, value: float, unit: str, basis: Basis = Basis.TABLE, rests_on: Iterable[str] = (), origin: str = ""
) -> Quantity:
    """A quantity without spread."""
    return Quantity(symbol, np.array([value], dtype=np.float64), unit, basis, frozenset(rests_on), origin)


@dataclass(frozen=True, slots=True)
class Formula:
    """One formula of the trade: what it gives, its text, the unit of its result, its source, and its code.

    The text uses `+ - * / **`, names and `sqrt sin cos tan atan min max` only; a test evaluates it against `of`.
    """

    what: str
    text: str
    unit: str
    source: str
    of: Callable[..., Floats]


def formula(what: str, text: str, unit: str, source: str) -> Callable[[Callable[..., Floats]], Formula]:
    """Decorator: the function becomes a `Formula`; its argument names are the symbols of the text."""
    return lambda of: Formula(what, text, unit, source, of)


@dataclass(frozen=True, slots=True)
class Step:
    """One applied formula or procedure, with its numbers."""

    what: str
    text: str
    source: str
    inputs: tuple[Value, ...]
    result: Value


@dataclass(slots=True)
class Working:
    """The only place a formula is applied: returns the result, keeps the step."""

    steps: list[Step] = field(default_factory=list)

    def __call__(self, f: Formula, /, **given: Quantity) -> Quantity:
        """Apply `f` to quantities named as in its text; the worst basis and all assumptions travel on."""
        with np.errstate(all="ignore"):
            values = np.atleast_1d(np.asarray(f.of(**{k: q.values for k, q in given.items()}), dtype=np.float64))
        out = combine(f.text.partition(" = ")[0], values, f.unit, given.values())
        inputs = tuple([Value(k, float(q.values[0]), q.unit, q.origin) for k, q in given.items()])
        self.steps.append(Step(f.what, f.text, f.source, inputs, out.nominal))
        return out

    def procedure(
        self, what: str, sentence: str, source: str, result: Quantity, inputs: Iterable[Quantity]
    ) -> Quantity:
        """Record an algorithm (a solver, a bisection) with a sentence instead of a formula."""
        self.steps.append(Step(what, sentence, source, tuple(q.nominal for q in inputs), result.nominal))
        return result


def combine(symbol: str, values: Floats, unit: str, given: Iterable[Quantity]) -> Quantity:
    """A quantity that rests on `given`: worst basis, all assumptions."""
    inputs = tuple(given)
    basis = max([q.basis for q in inputs], default=Basis.TABLE)
    kinds = {q.rests_on for q in inputs if q.rests_on}
    rests_on = next(iter(kinds)) if len(kinds) == 1 else frozenset().union(*kinds)
    return Quantity(symbol, values, unit, basis, rests_on)


@dataclass(frozen=True, slots=True)
class Compared:
    """A demand against a limit."""

    demand: Value
    limit: Value
    sense: Sense
    fail_share: float
    basis: Basis
    rests_on: frozenset[str]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Missing:
    """Why a check could not be made: the inputs that are missing, and what was worked out before."""

    inputs: tuple[str, ...]
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class About:
    """What a check says in words, whatever its numbers."""

    title: str
    topic: str
    source: str
    concern: str
    ask: str
    defer_to: str = ""
    mandatory: bool = False
    levers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """The smallest change of one input that clears a failing check, and what it upsets.

    `names` are what stands there now and then where that is a name, not a number.
    """

    lever: str
    title: str
    now: Value
    then: Value
    upsets: tuple[str, ...] = ()
    names: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Check:
    """One check, made once: id, words, load state, outcome, and the changes that would clear a failure.

    `pair`: two changes that clear it together where no single one does.
    """

    id: str
    about: About
    state: str
    outcome: Compared | Missing
    changes: tuple[Change, ...] = ()
    pair: tuple[Change, ...] = ()

    @property
    def status(self) -> Status:
        """What the outcome means."""
        match self.outcome:
            case Missing():
                return "not assessed"
            case Compared() as c if not bool(holds(c.demand.value, c.limit.value, c.sense)):
                return "fail"
            case Compared() as c if c.fail_share > SHARE_FOR_REVIEW or c.basis >= Basis.MEMORY:
                return "review"
            case _:
                return "pass"

    @property
    def ratio(self) -> float | None:
        """Use of the limit: at most 1 passes. None when it has no meaning (not assessed, limit 0, unlike signs)."""
        if isinstance(self.outcome, Missing):
            return None
        demand, limit = self.outcome.demand.value, self.outcome.limit.value
        top, bottom = (demand, limit) if self.outcome.sense == "<=" else (limit, demand)
        if top == 0.0 and bottom == 0.0:
            return 0.0
        return top / bottom if bottom > 0.0 and top >= 0.0 else None


TOPIC_ORDER = (
    "masses", "tow", "hitch", "axles", "ratings", "braking", "stability", "neck", "heights", "lateral", "ends", "jacks",
    "frame", "frame fit", "parked", "dwelling", "rules", "money",
)
"""Topics in the order to mend them: what stands first often clears what stands after it."""


def mending_order(check: Check) -> tuple[bool, bool, int, float, str]:
    """Where a broken limit stands among the broken ones: masses, what must hold, what has a ratio, then by topic.

    A list of masses that cannot be true comes before all: every other number hangs on it.
    """
    topic = check.about.topic
    place = TOPIC_ORDER.index(topic) if topic in TOPIC_ORDER else len(TOPIC_ORDER)
    return bool(place) and not check.about.mandatory, check.ratio is None, place, -(check.ratio or 0.0), check.id


def holds(demand: float | Floats, limit: float | Floats, sense: Sense) -> bool | NDArray[np.bool_]:
    """Whether the limit is kept; NaN never holds."""
    return demand <= limit if sense == "<=" else demand >= limit


def compare(demand: Quantity, limit: Quantity, sense: Sense, w: Working) -> Compared | Missing:
    """Compare raw values of like unit, nominal and trials; a result without a finite number is `Missing`.

    Raises CalcError for unlike units.
    """
    if demand.unit != limit.unit:
        raise CalcError(f"{demand.symbol} in {demand.unit} cannot be compared with {limit.symbol} in {limit.unit}")
    rests_on = demand.rests_on | limit.rests_on
    if not np.isfinite([demand.values[0], limit.values[0]]).all():
        unknown = tuple(sorted(r.removeprefix("unknown:") for r in rests_on if r.startswith("unknown:")))
        return Missing(unknown or ("the working gave no finite number",), tuple(w.steps))
    d, limits = np.broadcast_arrays(demand.values, limit.values)
    share = float(np.mean(~np.asarray(holds(d[1:], limits[1:], sense)))) if d.size > 1 else 0.0
    return Compared(
        demand.nominal, limit.nominal, sense, share, max(demand.basis, limit.basis), rests_on, tuple(w.steps)
    )


@dataclass(frozen=True, slots=True)
class Reported:
    """A quantity as reported: P5 and P95 of the trials beside the nominal."""

    id: str
    title: str
    nominal: float
    low: float
    high: float
    unit: str
    basis: Basis
    toward: Literal["near", "up", "down"] = "near"
    fixed_by_welding: bool = False
    rests_on: frozenset[str] = frozenset()


def spread(trials: Floats) -> tuple[float, float]:
    """P5 and P95 between the neighbouring trials; NaN if any trial is. SI.

    Two ranks picked one after the other: five times quicker than four at once, which numpy does one by one.
    """
    if math.isnan(float(trials.sum())):
        return math.nan, math.nan
    last = trials.size - 1
    below, above = int(0.05 * last), int(0.95 * last)
    upper = np.partition(trials, above)
    p95, p95_next = float(upper[above]), float(upper[above + 1 :].min(initial=math.inf))
    lower = np.partition(upper, below)
    p05, p05_next = float(lower[below]), float(lower[below + 1 :].min(initial=math.inf))
    return _between(p05, p05_next, 0.05 * last - below), _between(p95, p95_next, 0.95 * last - above)


def _between(value: float, following: float, share: float) -> float:
    """Part of the way from one rank to the following; there may be none after the last."""
    return value + share * (following - value) if share > 0.0 else value


def report(
    id: str, title: str, q: Quantity, toward: Literal["near", "up", "down"] = "near", fixed_by_welding: bool = False
) -> Reported:
    """A quantity with its P5 and P95; `toward` is the safe way to round it for print."""
    nominal = float(q.values[0])
    low, high = spread(q.values[1:]) if q.values.size > 1 else (nominal, nominal)
    return Reported(id, title, nominal, float(low), float(high), q.unit, q.basis, toward, fixed_by_welding, q.rests_on)


@dataclass(frozen=True, slots=True)
class Window:
    """The values of a decision that work: both ends, what closes each, the choice and the best value. SI."""

    id: str
    title: str
    low: float
    high: float
    chosen: float
    best: float | None
    unit: str
    closed_by_low: str
    closed_by_high: str
    changes: tuple[Change, ...] = ()

    @property
    def slack(self) -> float:
        """Upper end less lower end; negative: nothing works."""
        return self.high - self.low


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value nobody stated: default or rule of thumb, printed in the register with its source."""

    id: str
    statement: str
    value: str
    source: str
    if_wrong: str


@dataclass(frozen=True, slots=True)
class Findings:
    """What one topic found."""

    quantities: tuple[Reported, ...] = ()
    checks: tuple[Check, ...] = ()
    windows: tuple[Window, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
