"""Rows of the reference data: each with its source and how sure it is. SI."""

from collections.abc import Mapping
from typing import Literal

from generator.records import dataclass

Confidence = Literal["read", "computed", "memory", "practice"]
"""`read` in the source named; `computed` from it; `memory`: not read, gives `review` at best; `practice`: common
practice or the project's own choice, no source."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a row comes from: title, edition or date, how it was read."""

    id: str
    title: str
    edition: str
    note: str


@dataclass(frozen=True, slots=True)
class Default:
    """A number used where the spec states none, or a rule's limit; printed in the register if a result rests on it."""

    id: str
    value: float
    unit: str
    low: float
    high: float
    statement: str
    source: str
    confidence: Confidence
    if_wrong: str


@dataclass(frozen=True, slots=True)
class Material:
    """A building material: density kg/m3 (NaN if it is sold by area), and kg/m2 as laid where it is sold by area."""

    id: str
    title: str
    density: float
    source: str
    confidence: Confidence
    areal: float | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A steel section as rolled: m, m2, m3, m4, kg/m."""

    name: str
    shape: Literal["I", "C", "HSS", "L", "plate"]
    depth: float
    width: float
    web: float
    flange: float
    area: float
    inertia: float
    modulus: float
    plastic: float
    radius_y: float
    mass: float
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Region:
    """Size limits of a region: height and width in m (None: none stated); `as_of`: the day to which they were read."""

    code: str
    title: str
    height: float | None
    width: float | None
    source: str
    confidence: Confidence
    as_of: str
    note: str


@dataclass(frozen=True, slots=True)
class Reference:
    """All reference data a calculation may use; an id that is not there raises DataError."""

    sources: Mapping[str, Source]
    defaults: Mapping[str, Default]
    materials: Mapping[str, Material]
    sections: Mapping[str, Section]
    regions: Mapping[str, Region]

    def cite(self, source: str) -> str:
        """The printed form of a source: title and edition of an id, or the text itself."""
        row = self.sources.get(source)
        return source if row is None else ", ".join(filter(None, (row.title, row.edition)))


@dataclass(frozen=True, slots=True)
class AskedPrompt:
    """Something budgets forget: which feature makes it worth asking, its usual range or whom to ask."""

    id: str
    title: str
    when: str
    typical: str


@dataclass(frozen=True, slots=True)
class ChecklistRow:
    """A row of the safety checklist; `when` names the feature it belongs to, empty for every design.

    `us` and `abroad` name the law of a route with and without a region of the US, beside those it defers to everywhere.
    """

    item: str
    do: str
    evidence: str
    stop_if: str
    defer_to: str
    when: str = ""
    us: str = ""
    abroad: str = ""


@dataclass(frozen=True, slots=True)
class ChecklistPage:
    """A phase of the work: who works by it (shop, road, dwelling), its caution and rows."""

    id: str
    title: str
    readers: tuple[str, ...]
    caution: str
    rows: tuple[ChecklistRow, ...]
    when: str = ""


@dataclass(frozen=True, slots=True)
class ClauseRow:
    """A row of the request with {names} to fill; `each` repeats it for every record of that kind."""

    what: str
    text: str
    each: str = ""
    when: str = ""


@dataclass(frozen=True, slots=True)
class ClauseText:
    """A clause of the request."""

    title: str
    rows: tuple[ClauseRow, ...]


@dataclass(frozen=True, slots=True)
class GuideRow:
    """A question of the usage guide: what common practice answers for each use class."""

    what: str
    a: str
    b: str
    c: str
    d: str


@dataclass(frozen=True, slots=True)
class UsageGuide:
    """Guide from use to equipment: the classes (name, bounds), the answers, and why."""

    classes: tuple[tuple[str, str], ...]
    rows: tuple[GuideRow, ...]
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Welded lengths over `over` up to `to` (m, None: no end), plus or minus by class A to D of ISO 13920 (m)."""

    over: float
    to: float | None
    classes: Mapping[str, float]
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Critical:
    """A critical dimension: how far it may lie below and above nominal (m; None: the design says), how measured.

    In SI the figures are round ones that allow no more than those in inches.
    """

    id: str
    what: str
    minus: float
    plus: float | None
    how: str
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Hold:
    """A point at which work stops (H), is witnessed (W) or is recorded (R)."""

    id: str
    text: str
