"""The whole spec: four compulsory files, four optional ones, the notes, records of scale and tape, options, quotes."""

from generator.records import dataclass
from generator.spec.models.asbuilt import Visit
from generator.spec.models.costs import Costs
from generator.spec.models.house import House
from generator.spec.models.options import Moved
from generator.spec.models.project import Project
from generator.spec.models.quotes import Received
from generator.spec.models.revisions import Revisions
from generator.spec.models.site import Site
from generator.spec.models.tickets import Weighing
from generator.spec.models.tow import Tow
from generator.spec.models.trailer import Trailer
from generator.spec.models.weights import Weights


@dataclass(frozen=True, slots=True)
class Note:
    """A page of prose: to whom it goes (role words; none: the owner alone), its title and Markdown text."""

    name: str
    title: str
    to: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Unknown:
    """A value the person wrote as `unknown`: a task."""

    path: str
    description: str
    origin: str


@dataclass(frozen=True, slots=True)
class Foreign:
    """A value in a unit outside the table of the trade: its SI value is echoed among the assumptions."""

    path: str
    text: str
    value: float
    unit: str
    origin: str


@dataclass(frozen=True, slots=True)
class Spec:
    """A spec folder, read and checked."""

    project: Project
    trailer: Trailer
    house: House
    weights: Weights
    tow: Tow | None
    site: Site | None
    costs: Costs | None
    revisions: Revisions | None
    notes: tuple[Note, ...]
    unknowns: tuple[Unknown, ...]
    foreign: tuple[Foreign, ...] = ()
    tickets: tuple[Weighing, ...] = ()
    asbuilt: tuple[Visit, ...] = ()
    quotes: tuple[Received, ...] = ()
    options: "tuple[Alternative, ...]" = ()


@dataclass(frozen=True, slots=True)
class Alternative:
    """An option: its name, title and reason, the texts it changes, words for the shop, and the whole spec with it."""

    id: str
    title: str
    why: str
    to_shop: str
    moved: tuple[Moved, ...]
    spec: Spec
