"""What a recipient may be given, one frozen record per kind of information. `draw` and `document` see only these.

A slice holds plain values and records of `calc.findings` and `calc.record`; never the spec, the model or the results.
"""

from dataclasses import dataclass

from generator.calc.compared import Comparison
from generator.calc.findings import (
    Budget,
    GroupRow,
    RatingRow,
    StateRow,
    Task,
)
from generator.calc.legal import Rulings
from generator.calc.measured import Built, Drivers, ScaleCard, Weighed
from generator.calc.quoted import Quotes
from generator.calc.record import Assumption, Check, Reported, Window
from generator.calc.spoken import Says, saying
from generator.release.asked import AcceptanceRow as AcceptanceRow
from generator.release.asked import Clause as Clause
from generator.release.asked import Pair as Pair
from generator.release.asked import ReplyKind as ReplyKind
from generator.release.asked import ReplyRow as ReplyRow
from generator.release.base import Slice as Slice
from generator.release.drawn import Sheets as Sheets
from generator.release.gear import Hanger as Hanger
from generator.release.gear import Running as Running
from generator.release.gear import Shape as Shape
from generator.release.gear import Within as Within
from generator.release.rows import AxlePlace as AxlePlace
from generator.release.rows import Box as Box
from generator.release.rows import CircuitRow as CircuitRow
from generator.release.rows import Hitched as Hitched
from generator.release.rows import LampRow as LampRow
from generator.release.rows import LeftRow as LeftRow
from generator.release.rows import MendRow as MendRow
from generator.release.rows import PlaceRow as PlaceRow
from generator.release.rows import Sprung as Sprung
from generator.release.rows import StandPair as StandPair
from generator.release.rows import SteelPoint as SteelPoint
from generator.release.rows import WallLine as WallLine
from generator.release.rows import WayRow as WayRow
from generator.release.shape import Envelope as Envelope
from generator.release.shape import HouseZone as HouseZone
from generator.release.shape import Lamps as Lamps
from generator.release.shape import Neck as Neck
from generator.release.shape import Paths as Paths
from generator.release.shape import Placement as Placement
from generator.release.shape import Slope as Slope
from generator.release.shape import Steel as Steel
from generator.release.shape import SteelLoads as SteelLoads
from generator.release.shape import Swing as Swing
from generator.release.shape import Turn as Turn
from generator.release.sheets import Brief as Brief
from generator.release.sheets import CaseRow as CaseRow
from generator.release.sheets import Given as Given
from generator.release.sheets import Haul as Haul
from generator.release.sheets import HaulRow as HaulRow
from generator.release.sheets import Underwriting as Underwriting
from generator.release.sheets import WeighedRow as WeighedRow
from generator.release.standing import Changes as Changes
from generator.release.standing import Moved as Moved
from generator.release.standing import Sending as Sending
from generator.release.standing import SentRow as SentRow
from generator.release.standing import Standing as Standing
from generator.release.standing import Transmittal as Transmittal
from generator.release.standing import Waived as Waived


@dataclass(frozen=True, slots=True)
class Cover(Slice):
    """Stands on every document."""

    id: str
    title: str
    summary: str
    owner: str
    designer: str
    recipient: str
    purpose: str
    revision: str
    date: str
    status: str
    units: str
    currency: str
    basis_hash: str
    tool: str
    says: Says = ()
    waivers: tuple[Waived, ...] = ()

    def say(self, text: str) -> str:
        """A text of our own, written for a ball under a neck, in the words of the design's coupling."""
        return saying(self.says)(text)


@dataclass(frozen=True, slots=True)
class RevisionRow:
    """One revision: label, day, who asked, why, what was decided."""

    label: str
    date: str
    asked_by: str
    why: str
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Revisions(Slice):
    """The record of decisions, oldest first."""

    rows: tuple[RevisionRow, ...]


@dataclass(frozen=True, slots=True)
class NotePage:
    """A page of prose in Markdown."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Notes(Slice):
    """Prose addressed to this recipient."""

    pages: tuple[NotePage, ...]


@dataclass(frozen=True, slots=True)
class RoadLoads(Slice):
    """What hitch, axles, sides carry in each towed state, and the chain of ratings."""

    states: tuple[StateRow, ...]
    ratings: tuple[RatingRow, ...]
    requested: tuple[Reported, ...]
    centres: tuple[Reported, ...] = ()
    """Foremost and rearmost station of the centre of mass with which it may be towed."""


@dataclass(frozen=True, slots=True)
class ItemRow:
    """An item as listed: kg and m."""

    id: str
    title: str
    group: str
    mass: float
    low: float
    high: float
    x: float
    y: float
    z: float
    basis: str
    origin: str


@dataclass(frozen=True, slots=True)
class Masses(Slice):
    """The take-off: every item, every group."""

    items: tuple[ItemRow, ...]
    groups: tuple[GroupRow, ...]


@dataclass(frozen=True, slots=True)
class Scale(Slice):
    """What the scale should read and has read, what drives the spread, and the trailer as measured; the owner alone."""

    card: ScaleCard
    drivers: tuple[Drivers, ...]
    weighed: Weighed | None
    built: Built | None


@dataclass(frozen=True, slots=True)
class Numbers(Slice):
    """Quantities, checks and windows this recipient may see; for a deck between the wheels, the ways over them."""

    quantities: tuple[Reported, ...]
    checks: tuple[Check, ...]
    windows: tuple[Window, ...]
    ways: tuple[WayRow, ...] = ()

    @property
    def technical(self) -> tuple[Check, ...]:
        """The checks without those of quotes: documents that are forwarded speak of no money."""
        return tuple(c for c in self.checks if c.about.topic != "money")


@dataclass(frozen=True, slots=True)
class Register(Slice):
    """Assumptions behind those numbers, and what is still open."""

    assumptions: tuple[Assumption, ...]
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class Request(Slice):
    """The request to the fabricator."""

    number: str
    due: str
    questions_until: str
    questions_to: str
    valid_days: int
    clauses: tuple[Clause, ...]
    reply: tuple[ReplyRow, ...]
    acceptance: tuple[AcceptanceRow, ...]


@dataclass(frozen=True, slots=True)
class TodoRow:
    """A row of a checklist."""

    item: str
    do: str
    evidence: str
    stop_if: str
    defer_to: str


@dataclass(frozen=True, slots=True)
class TodoPage:
    """One phase of the work, for one design."""

    id: str
    title: str
    caution: str
    rows: tuple[TodoRow, ...]


@dataclass(frozen=True, slots=True)
class Hazards(Slice):
    """The checklist of this design, by phase."""

    pages: tuple[TodoPage, ...]


@dataclass(frozen=True, slots=True)
class Money(Slice):
    """The budget and the quotes; the owner alone."""

    budget: Budget
    quotes: Quotes | None = None


@dataclass(frozen=True, slots=True)
class GuideRow:
    """A question of the usage guide with what common practice answers for use classes A to D."""

    what: str
    a: str
    b: str
    c: str
    d: str


@dataclass(frozen=True, slots=True)
class Options(Slice):
    """The designs side by side, and the guide to use classes with its reasons; the owner alone."""

    comparison: Comparison
    classes: tuple[tuple[str, str], ...]
    guide: tuple[GuideRow, ...]
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FixedRow:
    """Something welding fixes: what, value and window as text, when it freezes."""

    what: str
    value: str
    window: str
    freezes: str


@dataclass(frozen=True, slots=True)
class Decision(Slice):
    """What the owner's sheet adds: what is fixed for ever, the next decision, one way out, words explained."""

    fixed: tuple[FixedRow, ...]
    next: str
    costs_of_waiting: str
    way_out: tuple[MendRow, ...] = ()
    left: tuple[LeftRow, ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    """Every word of the trade that may be explained, with its meaning."""


@dataclass(frozen=True, slots=True)
class Legal(Slice):
    """The rules this recipient needs: what wakes each, what it asks, whom to ask and what came back."""

    rulings: Rulings
    keeps_replies: bool = False
    """Whether replies can be written into the spec: it is this recipient's own."""


@dataclass(frozen=True, slots=True)
class Desk:
    """The slices one recipient was granted, by kind."""

    slices: tuple[Slice, ...]

    def get(self, kind: type[Slice]) -> Slice | None:
        """The slice of this kind, or None if it was not granted or does not exist."""
        return next((s for s in self.slices if type(s) is kind), None)

    def plus(self, more: Slice) -> "Desk":
        """The desk with one more slice, in the place of the one of its kind."""
        return Desk((*(s for s in self.slices if type(s) is not type(more)), more))
