"""What the spec means: items with mass and place, load states, frame members. SI, heights above the main-deck top."""

from generator.records import dataclass
from generator.spec.models.base import BasisWord
from generator.spec.models.spec import Spec
from generator.spec.models.weights import Group, Stage


@dataclass(frozen=True, slots=True)
class State:
    """A load state: which stages are aboard, which tank filling, what it stands on."""

    id: str
    title: str
    towed: bool
    stages: tuple[Stage, ...]
    tanks: str
    supports: str


@dataclass(frozen=True, slots=True)
class Item:
    """Something that weighs: mass of all of it (kg) with P5 and P95, extent along x, middle in y and height.

    `aboard` is the share of it present in each load state, in the order of `Model.states`. `moves` is true for
    what moves with the axle group; `unsprung` for what the tyres carry directly. `spread` shapes: see `Measure`.
    `x0` to `x1` is the even spread along x that has the item's own centre; `width` is the even spread athwart that
    has its own inertia. `memory` marks a mass whose density nobody has read in a source.
    """

    id: str
    title: str
    group: Group
    mass: float
    low: float
    high: float
    shape: str
    basis: BasisWord
    x0: float
    x1: float
    y: float
    z: float
    aboard: tuple[float, ...]
    width: float = 0.0
    moves: bool = False
    unsprung: bool = False
    origin: str = ""
    memory: bool = False

    @property
    def x(self) -> float:
        """Station of its centre, m."""
        return (self.x0 + self.x1) / 2.0


@dataclass(frozen=True, slots=True)
class Piece:
    """One cut piece of steel under its mark: section size, axis-aligned box in x, y, height, and mass.

    `skew` is the true length of a piece that runs at an angle over the length of its box; 1 for a straight one.
    """

    mark: str
    title: str
    section: str
    grade: str
    run: str
    x0: float
    x1: float
    y0: float
    y1: float
    z0: float
    z1: float
    mass: float
    skew: float = 1.0

    @property
    def cut_length(self) -> float:
        """Length along its run, m."""
        along = {"lengthwise": self.x1 - self.x0, "crosswise": self.y1 - self.y0, "upright": self.z1 - self.z0}
        return along[self.run] * self.skew


@dataclass(frozen=True, slots=True)
class Model:
    """The design as the calculation takes it."""

    spec: Spec
    states: tuple[State, ...]
    items: tuple[Item, ...]
    pieces: tuple[Piece, ...]
    axle_stations: tuple[float, ...]
    assumed: frozenset[str] = frozenset()
    """Defaults that some item rests on."""
