"""Typed records of what was weighed and measured, and of what a scale should read. kg and m; spreads are P5 and P95."""

from generator.records import dataclass


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One thing a ticket tells: as read with the scale's own standard error, as the list predicts it, their ratio."""

    title: str
    read: float
    error: float
    predicted: float
    low: float
    high: float
    ratio: float


@dataclass(frozen=True, slots=True)
class LookRow:
    """A line to look at: what the readings would add to it (kg), in its own standard deviations."""

    id: str
    title: str
    off: float
    deviations: float


@dataclass(frozen=True, slots=True)
class TicketRecord:
    """A ticket worked out. `wins`: it is what counts for its state; `used`: the list was corrected by it.

    `remark` says why not, or that the design has moved on since; `look` is filled where list and scale disagree.
    """

    id: str
    title: str
    date: str
    place: str
    by: str
    revision: str
    state: str
    weighed: str
    wins: bool
    used: bool
    remark: str
    gross: float | None
    hitch: float | None
    share: float | None
    group: float
    x: float | None
    moved: float | None
    restored: float | None
    rows: tuple[ReadingRow, ...]
    look: tuple[LookRow, ...]


@dataclass(frozen=True, slots=True)
class UpdatedItem:
    """An item before and after the tickets: mass and standard deviation, kg."""

    id: str
    title: str
    group: str
    before: float
    before_error: float
    after: float
    after_error: float


@dataclass(frozen=True, slots=True)
class UpdatedState:
    """A towed state after the tickets: mass, hitch and axle load with their standard errors (kg).

    `source`: the ticket whose reading it is, word for word, or empty where the corrected list gives it.
    """

    id: str
    title: str
    mass: float
    mass_error: float
    hitch: float
    hitch_error: float
    group: float
    group_error: float
    source: str


@dataclass(frozen=True, slots=True)
class Weighed:
    """What all tickets together say."""

    tickets: tuple[TicketRecord, ...]
    items: tuple[UpdatedItem, ...]
    states: tuple[UpdatedState, ...]


@dataclass(frozen=True, slots=True)
class ScaleRow:
    """What one reading should be (kg); above `stop_above` or below `stop_below`, stop and ask."""

    id: str
    title: str
    predicted: float
    low: float
    high: float
    stop_above: float
    above_is: str
    stop_below: float | None = None
    below_is: str = ""


@dataclass(frozen=True, slots=True)
class ScaleStage:
    """The readings to expect at one stage of the build."""

    id: str
    title: str
    rows: tuple[ScaleRow, ...]


@dataclass(frozen=True, slots=True)
class MoveRow:
    """What `mass` put at a station changes on hitch and axles (kg); `behind` is its distance behind the ball (m)."""

    title: str
    station: float
    behind: float
    hitch: float
    group: float


@dataclass(frozen=True, slots=True)
class ScaleCard:
    """What to expect on the scale, stage by stage, and what a mass put somewhere changes."""

    stages: tuple[ScaleStage, ...]
    mass: float
    moves: tuple[MoveRow, ...]


@dataclass(frozen=True, slots=True)
class Driver:
    """An item or group and its share of the spread of a result (may be negative; all together make 1)."""

    id: str
    title: str
    share: float


@dataclass(frozen=True, slots=True)
class Drivers:
    """What makes the spread of one result: its standard deviation (kg), the items that matter most, the groups."""

    id: str
    title: str
    deviation: float
    items: tuple[Driver, ...]
    groups: tuple[Driver, ...]


@dataclass(frozen=True, slots=True)
class BuiltRow:
    """One dimension as measured (m) against nominal and tolerance; `within` is None where no tolerance is stated."""

    id: str
    title: str
    nominal: float
    low: float | None
    high: float | None
    measured: float
    within: bool | None
    date: str
    by: str
    instrument: str


@dataclass(frozen=True, slots=True)
class Recomputed:
    """A result as designed and as it follows from the trailer as measured (SI, unit key)."""

    id: str
    title: str
    designed: float
    built: float
    unit: str


@dataclass(frozen=True, slots=True)
class Turnabout:
    """A check whose status the measured trailer changes."""

    id: str
    title: str
    designed: str
    built: str


@dataclass(frozen=True, slots=True)
class Built:
    """The trailer as built."""

    rows: tuple[BuiltRow, ...]
    results: tuple[Recomputed, ...]
    checks: tuple[Turnabout, ...]
    remark: str = ""
