"""What a scale ticket tells about the trailer: three weighings become gross, hitch and axle loads. kg and m.

Three weighings tell two things about the trailer, not three: gross less hitch is the axle load itself.
"""

from dataclasses import replace

import numpy as np

from generator.calc.record import Basis, Floats, Quantity, Working, formula, sure
from generator.calc.topics.axles import SHARE, StateLoads
from generator.calc.topics.coupled import coupled
from generator.calc.trials import Trials
from generator.model.types import Item, Model
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.measure import Measure
from generator.spec.models.tickets import Weighing

THREE = "statics: the tow vehicle hitched less the tow vehicle alone; S, D, T: steer, drive, trailer axles"
RESTS_ON = frozenset({"ticket.reading_share", "ticket.hitch_floor"})
"""Defaults that the error of every reading rests on."""


@formula("Load on the ball as weighed", "H = S_2 + D_2 - S_3 - D_3 + e_H", "kg", THREE)
def WEIGHED_HITCH(S_2: Floats, D_2: Floats, S_3: Floats, D_3: Floats, e_H: Floats) -> Floats:
    return S_2 + D_2 - S_3 - D_3 + e_H


@formula("Trailer as weighed", "W = H + T_2", "kg", "sum of what the ball and its own axles carry")
def WEIGHED_GROSS(H: Floats, T_2: Floats) -> Floats:
    return H + T_2


@formula("Centre of mass as weighed", "x_g = x_h + T_2*(x_a - x_h)/W", "m", "statics: moments about the ball")
def WEIGHED_CENTRE(x_h: Floats, T_2: Floats, x_a: Floats, W: Floats) -> Floats:
    return x_h + T_2 * (x_a - x_h) / W


@formula("Load moved to the trailer's axles by the bars", "dT = T_1 - T_2", "kg", "bars set less bars slack")
def MOVED(T_1: Floats, T_2: Floats) -> Floats:
    return T_1 - T_2


@formula("Share of its lost load the steer axle gets back", "r = (S_1 - S_2)/(S_3 - S_2)", "%", "set, slack, alone")
def RESTORED(S_1: Floats, S_2: Floats, S_3: Floats) -> Floats:
    return (S_1 - S_2) / (S_3 - S_2)


@formula("Right wheels less left wheels", "d = R - L", "kg", "difference")
def SIDEWAYS(R: Floats, L: Floats) -> Floats:
    return R - L


@dataclass(frozen=True, slots=True, eq=False)
class Reading:
    """A thing a ticket tells about the trailer: words, value, standard error (kg), weights with which it adds
    items.
    """

    title: str
    value: Quantity
    error: float
    row: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """A ticket worked out: what it tells, what of that can be held against the list (with covariance), the working."""

    weighing: Weighing
    loads: StateLoads
    gross: Quantity | None
    hitch: Quantity | None
    share: Quantity | None
    x: Quantity | None
    group: Quantity
    heaviest: Quantity
    axles: tuple[Quantity, ...]
    moved: Quantity | None
    restored: Quantity | None
    readings: tuple[Reading, ...]
    noise: Floats
    w: Working

    @property
    def sound(self) -> bool:
        """Whether the list may be corrected by it: not added up axle by axle, level, all weighings alike."""
        t = self.weighing.ticket
        return t.weighed != "axle by axle" and t.level == "yes" and t.same_load == "yes"

    @property
    def rank(self) -> tuple[int, str, str]:
        """Which of two tickets of one state counts: the one that ranks higher, then the later one."""
        words = ("axle by axle", "several readings", "one draft")
        t = self.weighing.ticket
        step = 1 + words.index(t.weighed) if self.sound else 0
        return (step if self.known else -1), t.date, self.weighing.id

    @property
    def known(self) -> bool:
        """Whether all it should tell was read, and the step of the scale is known."""
        return all(np.isfinite([r.value.values[0], r.error]).all() for r in self.readings)


def solve(weighing: Weighing, model: Model, loads: StateLoads, trials: Trials, data: Reference) -> Solved:
    """Everything one ticket tells about the trailer."""
    t, w, read = weighing.ticket, Working(), _Reader(weighing, trials, data)
    still, floor = t.slack or t.hitched, data.defaults["ticket.hitch_floor"].value
    S_2, D_2, T_2 = read("S_2", still.steer), read("D_2", still.drive), read("T_2", still.trailer)
    T_1 = read("T_1", t.hitched.trailer)
    group = read.spread(T_2)
    gross = hitch = share = x = restored = None
    off = 0.0
    if t.alone is not None:
        S_3, D_3 = read("S_3", t.alone.steer), read("D_3", t.alone.drive)
        off = max(float(np.sqrt(sum(read.error(q) ** 2 for q in (S_2, D_2, S_3, D_3)))), floor)
        hitch = w(WEIGHED_HITCH, S_2=S_2, D_2=D_2, S_3=S_3, D_3=D_3, e_H=read.nothing("e_H", off))
        gross = w(WEIGHED_GROSS, H=hitch, T_2=group)
        share = w(SHARE, H=hitch, W=gross)
        x = w(WEIGHED_CENTRE, x_h=loads.x_h, T_2=group, x_a=loads.x_a, W=gross)
        if t.slack is not None:
            restored = w(RESTORED, S_1=read("S_1", t.hitched.steer), S_2=S_2, S_3=S_3)
    readings, noise = _readings(weighing, model, loads, read, (gross, hitch, group, off), w)
    return Solved(
        weighing,
        loads,
        gross,
        hitch,
        share,
        x,
        group,
        T_1 if float(T_1.values[0]) > float(T_2.values[0]) else T_2,
        tuple(read(f"N_{n}", m) for n, m in enumerate(t.axles, 1)),
        None if t.slack is None else w(MOVED, T_1=T_1, T_2=T_2),
        restored,
        readings,
        noise,
        w,
    )


class _Reader:
    """Makes quantities of the readings of one ticket, and of their errors."""

    def __init__(self, weighing: Weighing, trials: Trials, data: Reference) -> None:
        t = weighing.ticket
        self._id, self._trials, self._step = weighing.id, trials, t.graduation.nominal
        self._share = data.defaults["ticket.reading_share"].value
        trusted = t.level == "yes" and t.same_load == "yes"
        self._basis = Basis.MEASURED if trusted else Basis.PLACEHOLDER

    def __call__(self, symbol: str, measure: Measure) -> Quantity:
        rests_on = () if measure.known else (f"unknown:{measure.origin}",)
        return sure(symbol, measure.nominal, "kg", self._basis, rests_on, measure.origin)

    def error(self, reading: Quantity) -> float:
        """Standard error of one reading, kg: rounding to the scale's step, or a share of the reading if more."""
        return float(max(self._step / np.sqrt(12.0), self._share * float(reading.values[0])))

    def nothing(self, symbol: str, error: float) -> Quantity:
        """Nothing at nominal, give or take this standard error, kg."""
        values = np.zeros(1)
        if self._trials.count:
            values = np.concatenate((values, error * self._trials.normals(f"ticket {self._id} {symbol}")))
        return Quantity(symbol, values, "kg", self._basis, RESTS_ON)

    def spread(self, reading: Quantity) -> Quantity:
        """A reading with its error."""
        off = self.nothing(reading.symbol, self.error(reading))
        return replace(reading, values=reading.values + off.values, rests_on=reading.rests_on | RESTS_ON)


def gross_row(items: tuple[Item, ...], state: int) -> Floats:
    """Weights with which the items make the mass of a state."""
    row: Floats = np.nan_to_num(np.array([i.aboard[state] for i in items]))
    return row


def group_row(items: tuple[Item, ...], state: int, x_h: float, x_a: float) -> Floats:
    """Weights for the load of all axles: levers about the ball, unsprung mass on its own tyres. Source: statics."""
    lever = np.array([1.0 if i.unsprung else (i.x - x_h) / (x_a - x_h) for i in items])
    row: Floats = np.nan_to_num(gross_row(items, state) * lever)
    return row


def _readings(
    weighing: Weighing,
    model: Model,
    loads: StateLoads,
    read: _Reader,
    told: tuple[Quantity | None, Quantity | None, Quantity, float],
    w: Working,
) -> tuple[tuple[Reading, ...], Floats]:
    """What can be held against the list, with the covariance of the readings: gross and hitch share four of them."""
    gross, hitch, group, off = told
    state = next(n for n, s in enumerate(model.states) if s.id == loads.state.id)
    whole = gross_row(model.items, state)
    axles = group_row(model.items, state, float(loads.x_h.values[0]), float(loads.x_a.values[0]))
    on_axles = read.error(group)
    found = [Reading("On the trailer's axles", group, on_axles, axles)]
    noise = np.array([[on_axles**2]])
    if gross is not None and hitch is not None:
        found = [
            Reading("Trailer", gross, float(np.hypot(on_axles, off)), whole),
            Reading(f"On the {coupled(model).on}", hitch, off, whole - axles),
        ]
        noise = np.array([[on_axles**2 + off**2, off**2], [off**2, off**2]])
    sides = weighing.ticket.sides
    if sides is not None:
        left, right = read("L", sides.left), read("R", sides.right)
        error = float(np.hypot(read.error(left), read.error(right)))
        track = float(np.mean([t.values[0] for t in loads.tracks]))
        row = np.nan_to_num(2.0 * whole * np.array([i.y for i in model.items]) / track)
        found.append(Reading("Right wheels more than left", w(SIDEWAYS, R=right, L=left), error, row))
        noise = np.pad(noise, ((0, 1), (0, 1)))
        noise[-1, -1] = error**2
    return tuple(found), noise
