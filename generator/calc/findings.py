"""Typed records of the topics that a drawing or table needs whole. SI; loads at the ground in kg as scales read."""

from decimal import Decimal

from generator.calc.compared import Comparison
from generator.calc.legal import Rulings
from generator.calc.measured import Built, Drivers, ScaleCard, Weighed
from generator.calc.mending import WayOut
from generator.calc.quoted import Quotes
from generator.calc.record import Assumption, Check, Reported, Window
from generator.model.types import Item
from generator.records import dataclass


@dataclass(frozen=True, slots=True)
class StateRow:
    """One load state: mass, centre, and what hitch, axles and sides carry. kg and m; None where it does not apply."""

    id: str
    title: str
    towed: bool
    mass: float
    mass_low: float
    mass_high: float
    x: float
    y: float
    z: float
    hitch: float | None
    share: float | None
    group: float | None
    axles: tuple[float, ...]
    left: tuple[float, ...]
    right: tuple[float, ...]
    deck: float | None
    roof: float | None
    aboard: str = ""
    """What is aboard and how the tanks are filled, in words."""


@dataclass(frozen=True, slots=True)
class GroupRow:
    """Mass of one group in the travel state, kg, with P5 and P95 and its centre."""

    group: str
    mass: float
    low: float
    high: float
    x: float
    z: float
    lines: int


@dataclass(frozen=True, slots=True)
class ChainStep:
    """One step of a height or width chain, m."""

    title: str
    value: float
    source: str


@dataclass(frozen=True, slots=True)
class Chain:
    """A chain of dimensions: steps that add up to `total`, against a limit if there is one. m."""

    id: str
    title: str
    state: str
    steps: tuple[ChainStep, ...]
    total: float
    limit: float | None


@dataclass(frozen=True, slots=True)
class RoofRow:
    """A roof point: station, height above deck, and height above ground laden, lightest and with the hitch error. m."""

    id: str
    title: str
    station: float
    zeta: float
    laden: float
    highest: float
    highest_state: str


@dataclass(frozen=True, slots=True)
class NeckRecord:
    """The neck window in numbers, heights above ground at the ball, travel state. m."""

    low_rail: float
    low_coupler: float
    high_coupler: float
    high_limit: float
    low: float
    high: float
    chosen: float
    deck_top: float
    headroom: float
    gap_level: float
    gap_pitched: float
    gap_rolled: float
    bed_rail: float
    ball: float
    coupler_set: float
    step_between_floors: float


@dataclass(frozen=True, slots=True)
class JackRecord:
    """One jack or pair: loads per leg and for the pair (kg as scales read), travel (m), effort."""

    id: str
    title: str
    station: float
    y: float
    legs: int
    drive: str
    load_pair: float
    load_leg_level: float
    load_leg_worst: float
    rating_needed: float
    lift_rating: float
    static_rating: float
    stroke_needed: float
    stroke: float
    crank_force: float | None
    crank_turns: float | None
    crank_time: float | None
    motor_current: float | None
    motor_time: float | None
    fuse: float | None
    why: str


@dataclass(frozen=True, slots=True)
class SupportForce:
    """A support of the beam: station m, force N (up positive), name; a trailing arm adds a couple (N m): its force
    acts that far aft of the bracket.
    """

    title: str
    station: float
    force: float
    couple: float = 0.0


@dataclass(frozen=True, slots=True)
class Beam:
    """Line load, shear and moment of the whole frame (both rails) in one case: stations m, N/m, N, N m, m."""

    id: str
    title: str
    state: str
    mass: float
    x: tuple[float, ...]
    line_load: tuple[float, ...]
    shear: tuple[float, ...]
    moment: tuple[float, ...]
    supports: tuple[SupportForce, ...]
    points: tuple[SupportForce, ...]
    centre: float = float("nan")
    """Station of the centre of all loads, m."""
    deflection: tuple[float, ...] = ()
    """How far the frame stands above the chord of the main deck, m; the bare frame, whatever governs the rest."""

    @property
    def weight(self) -> float:
        """All loads together, N: what the supports carry."""
        return sum(s.force for s in self.supports)


@dataclass(frozen=True, slots=True)
class Sweep:
    """Hitch share, hitch load, heaviest axle and probability of a good station, against the group station. m, kg."""

    station: tuple[float, ...]
    share: tuple[float, ...]
    hitch: tuple[float, ...]
    axle: tuple[float, ...]
    ok: tuple[float, ...]
    share_low: float
    share_high: float
    hitch_limit: float | None
    axle_limit: float
    stop_front: float
    stop_rear: float


@dataclass(frozen=True, slots=True)
class RatingRow:
    """One axle's chain of ratings against its load, kg for the axle; the least governs."""

    axle: int
    load: float
    load_worst: float
    parts: tuple[tuple[str, float], ...]
    governing: str
    capacity: float


@dataclass(frozen=True, slots=True)
class CostRow:
    """A budget line worked out: quantity times price with tax, money of the project."""

    id: str
    title: str
    section: str
    status: str
    quantity: Decimal
    low: Decimal
    likely: Decimal
    high: Decimal
    tax: Decimal
    total: Decimal
    due: str


@dataclass(frozen=True, slots=True)
class SumRow:
    """A subtotal: its name, how many lines, and the likely amount with tax."""

    title: str
    lines: int
    total: Decimal


@dataclass(frozen=True, slots=True)
class Prompt:
    """Something often forgotten: how the budget answers it."""

    id: str
    title: str
    answer: str
    why: str
    typical: str


@dataclass(frozen=True, slots=True)
class RunningRow:
    """Something paid again and again: how often over the years of comparison, once and in all, with tax."""

    id: str
    title: str
    each: str
    times: Decimal
    once: Decimal
    total: Decimal


@dataclass(frozen=True, slots=True)
class Years:
    """Cost of moving and keeping over so many years: one move, one year standing still, all running, all with base.

    `moves` in an ordinary year; `once`: one move in all the years, none in an ordinary one.
    """

    years: int
    moves: int
    once: bool
    rows: tuple[RunningRow, ...]
    a_move: Decimal
    a_year: Decimal
    running: Decimal
    total: Decimal
    p80: Decimal


@dataclass(frozen=True, slots=True)
class Budget:
    """The budget worked out."""

    currency: str
    lines: tuple[CostRow, ...]
    sections: tuple[SumRow, ...]
    statuses: tuple[SumRow, ...]
    milestones: tuple[SumRow, ...]
    base: Decimal
    p50: Decimal
    p80: Decimal
    contingency: Decimal
    below_base: float
    prompts: tuple[Prompt, ...]
    curve: tuple[Decimal, ...]
    notes: tuple[str, ...] = ()
    years: Years | None = None

    @property
    def not_priced(self) -> tuple[Prompt, ...]:
        """Prompts nobody answered."""
        return tuple(p for p in self.prompts if p.answer == "not priced")


@dataclass(frozen=True, slots=True)
class Task:
    """Something to find out: what, who, and what it holds up."""

    id: str
    what: str
    who: str
    blocks: str


@dataclass(frozen=True, slots=True)
class Cope:
    """Ends of a mark cut away for a flange of another: which end, which flange, length back and depth (m), how many."""

    mark: str
    end: str
    into: str
    flange: str
    length: float
    depth: float
    count: int


@dataclass(frozen=True, slots=True)
class Turned:
    """Which way the toes of a mark's channels or angles point: inward, outward, forward, aft; at which stations (m)."""

    mark: str
    toes: str
    stations: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Results:
    """Everything computed for one design."""

    quantities: tuple[Reported, ...]
    checks: tuple[Check, ...]
    windows: tuple[Window, ...]
    assumptions: tuple[Assumption, ...]
    tasks: tuple[Task, ...]
    states: tuple[StateRow, ...]
    groups: tuple[GroupRow, ...]
    chains: tuple[Chain, ...]
    roof: tuple[RoofRow, ...]
    neck: NeckRecord | None
    jacks: tuple[JackRecord, ...]
    beam: Beam
    sweep: Sweep
    ratings: tuple[RatingRow, ...]
    budget: Budget | None
    copes: tuple[Cope, ...] = ()
    turned: tuple[Turned, ...] = ()
    scale_card: ScaleCard | None = None
    drivers: tuple[Drivers, ...] = ()
    weighed: Weighed | None = None
    built: Built | None = None
    comparison: Comparison | None = None
    items: tuple[Item, ...] = ()
    quotes: Quotes | None = None
    rulings: Rulings | None = None
    out: WayOut = WayOut()
    cases: tuple[Beam, ...] = ()
    """The frame as in `beam`, carried in the other ways it has: braking, on its jacks, parked."""
