"""Items that the spec lists one by one, tank contents, axles, and the allowance for what nobody listed."""

import math
from collections.abc import Sequence

from generator.model.geometry import centred
from generator.model.notebook import Notebook
from generator.model.states import STATES, aboard, filling
from generator.model.types import Item
from generator.reference.types import Default
from generator.spec.measure import Measure
from generator.spec.models.house import House
from generator.spec.models.project import Project
from generator.spec.models.trailer import Leaf, RunningGear, Torsion, Trailer
from generator.spec.models.weights import Group, Stage, Tank, WeightItem, Weights

SHELL, DRY = (next(i for i, s in enumerate(STATES) if s.id == name) for name in ("shell", "dry"))

ARM_LENGTH = 1.0
"""Running gear (m) this near the axles moves with them: hangers and fenders do, a spare under the neck does not."""


def listed_items(weights: Weights, stations: Sequence[float], book: Notebook) -> list[Item]:
    """The items of weights.yaml and the contents of its tanks; running gear near the axles moves with them."""
    return [*(_listed(i, stations, book) for i in weights.items), *(_contents(t, book) for t in weights.tanks)]


def _listed(i: WeightItem, stations: Sequence[float], book: Notebook) -> Item:
    mass, low, high, shape = book.spread(i.mass, i.basis, float(i.quantity))
    middle = (i.front.nominal + i.rear.nominal) / 2
    near = stations[0] - ARM_LENGTH < middle < stations[-1] + ARM_LENGTH
    return Item(
        i.id,
        i.title,
        i.group,
        mass,
        low,
        high,
        shape,
        i.basis,
        *_extent(i.front, i.rear, i.id, book),
        i.y.nominal,
        i.height.nominal,
        aboard(i.stage),
        moves=near and i.group == "running gear",
        origin=_first_unknown(i.mass, i.front, i.rear, i.y, i.height).origin,
    )


def _contents(t: Tank, book: Notebook) -> Item:
    density = book.default(f"density.{t.holds.replace(' ', '_')}")
    mass = t.capacity.nominal * density.value
    sure = t.capacity.shape == "sure"
    low, high = (density.low, density.high) if sure else (density.value, density.value)
    volumes = (t.capacity.nominal, t.capacity.nominal) if sure else (t.capacity.low, t.capacity.high)
    shape = "sure" if sure and low == high else "triangular" if sure else t.capacity.shape
    return Item(
        f"{t.id}.contents",
        f"{t.title}: {t.holds}",
        "contents",
        mass,
        volumes[0] * low,
        volumes[1] * high,
        shape,
        "table",
        *_extent(t.front, t.rear, t.id, book),
        t.y.nominal,
        t.height.nominal,
        filling(t),
        origin=_first_unknown(t.capacity, t.front, t.rear, t.y, t.height, t.travel, t.wet).origin,
        memory=density.confidence == "memory",
    )


def _extent(front: Measure, rear: Measure, id: str, book: Notebook) -> tuple[float, float]:
    if rear.nominal < front.nominal:
        book.fault("weights.yaml", f"{id}.rear", "does not lie behind `front`", "stations grow to the rear", rear)
    return front.nominal, rear.nominal


def axle_stations(gear: RunningGear) -> tuple[float, ...]:
    """Stations of the spindles at the travel load, front to rear, m."""
    middle, last = gear.station.nominal, len(gear.axles) - 1
    return tuple(middle + (i - last / 2) * gear.spacing.nominal for i in range(last + 1))


def below_deck(trailer: Trailer) -> float:
    """How far the axles lie below the main-deck top (m): the torsion tube, or the eyes of leaf springs.

    Arms droop and beams lie a few centimetres below or above that.
    """
    match trailer.running_gear.suspension:
        case Torsion() as torsion:
            return torsion.tube_to_deck.nominal
        case Leaf() as leaf:
            return leaf.hanger.nominal - trailer.frame.rail_underside.nominal


def axle_items(trailer: Trailer, stations: Sequence[float], book: Notebook) -> list[Item]:
    """One unsprung item per axle."""
    gear, height = trailer.running_gear, -below_deck(trailer)
    items = []
    for n, (axle, x) in enumerate(zip(gear.axles, stations, strict=True), start=1):
        mass, low, high, shape = book.spread(axle.unsprung, "quoted")
        items.append(
            Item(
                f"axle.{n}",
                f"Axle {n} with hubs, brakes, wheels and tyres",
                "running gear",
                mass,
                low,
                high,
                shape,
                "quoted",
                x,
                x,
                0.0,
                height,
                aboard("bare"),
                axle.hub_face.nominal,
                True,
                True,
                _first_unknown(axle.unsprung, gear.station).origin,
            )
        )
    return items


def unlisted_items(project: Project, house: House, listed: Sequence[Item], book: Notebook) -> list[Item]:
    """Allowance for what nobody listed: a share of the house, never less than nothing, spread where the list lies."""
    share = book.default(f"mass.unlisted_{project.stage}")
    if share.high == 0.0:
        return []
    shell = [i for i in listed if i.group not in ("frame", "running gear") and i.aboard[SHELL] > 0.0]
    later = [i for i in listed if i.aboard[SHELL] == 0.0 and i.aboard[DRY] > 0.0]
    rest = [i for i in later if i.group not in ("frame", "running gear", "contents")]
    shell_title = "Not listed: fasteners, sealant, offcuts in the shell"
    made = (
        _allowance("unlisted.shell", shell_title, "shell", "shell", shell, share, house),
        _allowance(
            "unlisted.interior", "Not listed: wire, pipe, trim, paint inside", "interior", "dry", rest, share, house
        ),
    )
    return [i for i in made if i is not None]


def _allowance(
    id: str, title: str, group: Group, stage: Stage, over: Sequence[Item], share: Default, house: House
) -> Item | None:
    """A share of the items whose mass and place are known, or None if there are none."""
    known = [i for i in over if not math.isnan(i.mass + i.x + i.y + i.z)]
    kg = sum(i.mass for i in known)
    if not kg > 0.0:
        return None
    x, y, z = (sum(i.mass * getattr(i, axis) for i in known) / kg for axis in ("x", "y", "z"))
    x0, x1 = centred(x, house.front.nominal, house.rear.nominal)
    low, mode, high = kg * share.low, kg * share.value, kg * share.high
    width = house.width.nominal
    return Item(id, title, group, mode, low, high, "triangular", "estimate", x0, x1, y, z, aboard(stage), width)


def _first_unknown(*measures: Measure) -> Measure:
    """The first measure nobody knows, else the first."""
    return next((m for m in measures if not m.known), measures[0])
