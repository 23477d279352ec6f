"""What sheets of frame and running gear need besides the steel's outlines: shapes of sections, axles, wheels. m, kg."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.calc.findings import Results
from generator.calc.topics.leaf import equalised
from generator.model.types import Model
from generator.reference.content import criticals
from generator.reference.types import Critical, Section
from generator.spec.models.trailer import Leaf, RunningGear, Torsion
from generator.units import Show

NAN = math.nan
ALIGNED = ("axle-square", "axle-parallel", "axle-centre", "track", "diagonals", "crossmember")
"""Critical dimensions of every frame and axle group, each alike up and down; stations and seats come by suspension."""


@dataclass(frozen=True, slots=True)
class Shape:
    """How the section of a mark looks when cut: I, C, L, HSS or plate, its plates (m), where its toes point.

    `toes`: inward, outward, forward or aft, with the stations of the pieces turned so (m).
    """

    mark: str
    shape: str
    web: float
    flange: float
    toes: tuple[tuple[str, tuple[float, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Hanger:
    """A hanger or equaliser of leaf springs, both sides (m)."""

    what: str
    station: float


@dataclass(frozen=True, slots=True)
class Within:
    """How far a critical dimension may be off, as text (`±1/16″`, `within 1/8″`), and how it is measured."""

    id: str
    what: str
    text: str
    how: str


@dataclass(frozen=True, slots=True)
class Running:
    """Axles, springs, wheels and tyres as ordered, and what is measured when they are set. NaN for what there is not.

    `to_spindle`: centre of ball or pin to the middle of each hub face in plan; `diagonal`: of the main deck (m).
    """

    suspension: str = "rubber torsion"
    hangers: tuple[Hanger, ...] = ()
    eye_length: float = NAN
    drop: float = NAN
    seat: float = NAN
    pack: float = NAN
    arch: float = NAN
    rate: float = NAN
    spring_rating: float = NAN
    start_angle: float = NAN
    seat_tolerance: float = NAN
    offset: float = NAN
    hub_ratings: tuple[float, ...] = ()
    tyre: str = ""
    tyre_load: float = NAN
    tyre_pressure: float = NAN
    wheel: str = ""
    wheel_load: float = NAN
    studs: str = ""
    spare: str = ""
    to_spindle: tuple[float, ...] = ()
    diagonal: float = NAN
    within: tuple[Within, ...] = ()

    def allowed(self, id: str) -> Within | None:
        """How far a critical dimension may be off, if the design has it."""
        return next((w for w in self.within if w.id == id), None)


UNKNOWN = Running()
"""Running gear of which nothing is known."""


def shapes(model: Model, results: Results, sections: Mapping[str, Section]) -> tuple[Shape, ...]:
    """The shape of every mark, in order."""
    of = {p.mark: sections[p.section] for p in model.pieces if p.section in sections}
    toes: dict[str, list[tuple[str, tuple[float, ...]]]] = {}
    for t in results.turned:
        toes.setdefault(t.mark, []).append((t.toes, t.stations))
    return tuple(Shape(m, s.shape, s.web, s.flange, tuple(toes.get(m, ()))) for m, s in sorted(of.items()))


def running(model: Model, show: Show) -> Running:
    """The running gear with the tolerances it is set to, in round figures of the units shown."""
    gear, trailer = model.spec.trailer.running_gear, model.spec.trailer
    tyre, wheel, at = gear.tyre, gear.wheel, trailer.coupling.station.nominal
    kind, hangers, sizes = _suspension(gear, model.axle_stations)
    faces = zip(model.axle_stations, gear.axles, strict=True)
    return Running(
        kind, hangers, **sizes,
        seat_tolerance=gear.suspension.seat_tolerance.nominal, offset=wheel.offset.nominal,
        hub_ratings=tuple(a.hub_rating.nominal for a in gear.axles),
        tyre=f"{tyre.size}, {tyre.kind}, {tyre.load_range}", tyre_load=tyre.load.nominal,
        tyre_pressure=tyre.pressure.nominal, wheel=wheel.size, wheel_load=wheel.load.nominal, studs=wheel.studs,
        spare=gear.spare, to_spindle=tuple(math.hypot(x - at, a.hub_face.nominal / 2.0) for x, a in faces),
        diagonal=math.hypot(trailer.frame.length.nominal, trailer.frame.width.nominal),
        within=tuple(_within(gear, show)),
    )


def _suspension(gear: RunningGear, stations: Iterable[float]) -> tuple[str, tuple[Hanger, ...], dict[str, float]]:
    """Kind of suspension in words, its hangers, and the sizes only that kind has."""
    match gear.suspension:
        case Torsion(start_angle=angle):
            return "rubber torsion", (), {"start_angle": angle.nominal}
        case Leaf() as leaf:
            sizes = {"eye_length": leaf.eye_length, "drop": leaf.drop, "seat": leaf.seat, "pack": leaf.pack,
                     "arch": leaf.arch, "rate": leaf.rate, "spring_rating": leaf.spring_rating}
            found = [x for x, *_ in equalised(tuple(stations), leaf.eye_length.nominal)]
            named = ["front hanger", *["equaliser"] * (len(found) - 2), "rear hanger"]
            hangers = tuple(Hanger(what, x) for what, x in zip(named, found, strict=True))
            return f"leaf springs {leaf.mounting}", hangers, {name: m.nominal for name, m in sizes.items()}


def _within(gear: RunningGear, show: Show) -> Iterator[Within]:
    """The critical dimensions of frame and axles; a seat's own tolerance stands in the spec."""
    is_torsion = isinstance(gear.suspension, Torsion)
    wanted = (*ALIGNED, "axle-station" if is_torsion else "spindle-station", "seats" if is_torsion else "hangers")
    of: dict[str, Critical] = {c.id: c for c in criticals(show.system)}
    for c in (of[id] for id in wanted):
        plus = gear.suspension.seat_tolerance.nominal if c.plus is None else c.plus
        sign = "±" if c.minus else "within "
        # Whole millimetres have no decimal, as a shop writes them.
        by = show(plus, "m", "down").replace(".0\N{NO-BREAK SPACE}mm", "\N{NO-BREAK SPACE}mm")
        yield Within(c.id, c.what, sign + by, c.how)
