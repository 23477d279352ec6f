"""The trailer as measured: each dimension against its tolerance, and the heights that follow from what was built. m.

Measured wins: the dimensions of the spec that were measured are put in its place, and all results are those of that
design; what they were as drawn is kept beside them.
"""

import math
from collections.abc import Callable, Iterator, Mapping

import numpy as np

from generator.calc.levers import changed
from generator.calc.measured import Built, BuiltRow, Recomputed, Turnabout
from generator.calc.record import About, Check, Findings, Floats, Reported, Status, Working, compare, formula, sure
from generator.calc.trials import Trials
from generator.errors import PacketError
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.content import criticals
from generator.reference.types import Critical
from generator.spec.models.asbuilt import Measurement, Visit
from generator.spec.models.spec import Spec
from generator.spec.models.trailer import Leaf, Torsion

CRITICAL: Mapping[str, str] = {
    "deck width": "width",
    "neck deck width": "width",
    "diagonals": "diagonals",
    "flatness": "flatness",
    "coupler off centre": "coupler-centre",
    "deck height, bare": "deck-bare",
    "neck underside": "neck-underside",
    "ball station": "pin-station",
    "bracket station": "axle-station",
    "spindle station": "spindle-station",
    "axle square": "axle-square",
    "axle parallel": "axle-parallel",
    "axle off centre": "axle-centre",
    "seats": "seats",
    "track": "track",
    "jack station": "jack-station",
}
"""Which tolerance of the acceptance sheet holds for each; the others have none."""
ZERO = ("diagonals", "flatness", "coupler off centre", "axle square", "axle parallel", "axle off centre", "seats")
"""What should be nothing."""
SIXTEENTH, MILLIMETRE = 0.0254 / 16.0, 0.001
FELT = {"m": 0.0005, "kg": 0.5}
"""Lengths and loads that move by less than this (SI) are as designed."""


@formula("Beyond the nearer of its bounds", "d = max(x - x_2, x_1 - x)", "m", "acceptance sheet")
def BEYOND(x: Floats, x_1: Floats, x_2: Floats) -> Floats:
    return np.maximum(x - x_2, x_1 - x)


@dataclass(frozen=True, slots=True)
class Outcome:
    """Results and statuses of a design worked at nominal values."""

    quantities: tuple[Reported, ...]
    statuses: Mapping[str, Status]
    titles: Mapping[str, str]


@dataclass(frozen=True, slots=True, eq=False)
class AsBuiltFound:
    """What this topic found; `spec` is the trailer as measured, on which everything else rests."""

    findings: Findings
    record: Built | None
    spec: Spec | None = None


Key = tuple[str, str | None]
"""What was measured, and which of several."""


def asbuilt(model: Model, rework: Callable[[Spec], Outcome], trials: Trials) -> AsBuiltFound:
    """Every measurement against its bounds; of one dimension measured twice the later visit counts for the rest."""
    visits = sorted(model.spec.asbuilt, key=lambda v: (v.sheet.date, v.id))
    if not visits:
        return AsBuiltFound(Findings(), None)
    designed = rework(model.spec)
    nominals = {key: n for key, n in _nominals(model, {q.id: q for q in designed.quantities})}
    bounds = {c.id: c for c in criticals(model.spec.project.units)}
    pairs = [(visit, m) for visit in visits for m in visit.sheet.measurements]
    rows, checks = [], []
    for visit, m in pairs:
        nominal = nominals.get((m.what, m.which), math.nan)
        low, high = _bounds(model, bounds.get(CRITICAL.get(m.what, "")), nominal)
        check = _check(visit, m, low, high, trials)
        checks += [check] if check else []
        within = None if check is None or check.status == "not assessed" else check.status != "fail"
        rows.append(_row(visit, m, nominal, (low, high), within))
    last: dict[Key, Measurement] = {(m.what, m.which): m for _, m in pairs if m.measured.known}
    found = Findings((), tuple(checks))
    try:
        spec = _as_measured(model.spec, last, nominals)
        built = rework(spec)
    except PacketError as error:
        remark = f"The design cannot be worked with what was measured, and stays as drawn: {error}"
        return AsBuiltFound(found, Built(tuple(rows), (), (), remark))
    return AsBuiltFound(found, _built(tuple(rows), designed, built), spec)


def _nominals(model: Model, quantities: Mapping[str, Reported]) -> Iterator[tuple[Key, float]]:
    """What the design says, by dimension and which."""
    trailer = model.spec.trailer
    gear = trailer.running_gear

    def told(id: str) -> float:
        return quantities[id].nominal if id in quantities else math.nan

    for what in ZERO:
        yield (what, None), 0.0
    yield ("deck width", None), trailer.frame.width.nominal
    yield ("deck height, bare", None), told("height.deck.unladen")
    yield ("ball station", None), trailer.coupling.station.nominal
    yield ("track", None), told("width.track")
    yield ("tyre diameter", None), gear.tyre.diameter.nominal
    if trailer.neck is not None:
        yield ("neck deck width", None), trailer.neck.width.nominal
        yield ("neck underside", None), trailer.neck.underside.nominal
    ahead = math.nan
    if isinstance(gear.suspension, Torsion):
        ahead = gear.suspension.arm.nominal * math.cos(told("ride.arm_angle"))
    for n, x in enumerate(model.axle_stations, 1):
        yield ("spindle station", f"axle-{n}"), x
        yield ("bracket station", f"axle-{n}"), x - ahead
    for jack in trailer.jacks:
        yield ("jack station", jack.id), jack.station.nominal


def _bounds(model: Model, tolerance: Critical | None, nominal: float) -> tuple[float, float] | tuple[None, None]:
    """Bounds about the dimension as written, because written dimensions govern; none without a stated tolerance."""
    if tolerance is None or not math.isfinite(nominal):
        return None, None
    seats = model.spec.trailer.running_gear.suspension.seat_tolerance.nominal
    grid = SIXTEENTH if model.spec.project.units == "us" else MILLIMETRE
    written = round(nominal / grid) * grid
    return written - tolerance.minus, written + (seats if tolerance.plus is None else tolerance.plus)


def _id(visit: Visit, m: Measurement) -> str:
    words = m.what.replace(",", "").replace(" ", "-")
    return ".".join(filter(None, ("asbuilt", visit.id, words, m.which)))


def _title(m: Measurement) -> str:
    what = m.what[:1].upper() + m.what[1:]
    return what if m.which is None else f"{what}, {m.which.replace('-', ' ')}"


def _check(visit: Visit, m: Measurement, low: float | None, high: float | None, trials: Trials) -> Check | None:
    if low is None or high is None:
        return None
    w, id = Working(), _id(visit, m)
    x = trials.given("x", m.measured, "m", "measured", f"asbuilt/{visit.id}.yaml {m.what} {m.which or ''}".strip())
    hair = 1e-9  # a reading on the very bound keeps it, whatever its unit became in metres
    d = w(BEYOND, x=x, x_1=sure("x_1", low - hair, "m"), x_2=sure("x_2", high + hair, "m"))
    about = About(
        f"As built: {_title(m)}",
        "as built",
        "acceptance sheet",
        "What was drawn is not what was built: what follows from this dimension has to be looked at again.",
        "The fabricator, before the last payment.",
        mandatory=True,
    )
    return Check(id, about, "", compare(d, sure("d_max", 0.0, "m"), "<=", w))


def _row(
    visit: Visit, m: Measurement, nominal: float, bounds: tuple[float | None, float | None], within: bool | None
) -> BuiltRow:
    sheet = visit.sheet
    low, high = bounds
    return BuiltRow(
        _id(visit, m), _title(m), nominal, low, high, m.measured.nominal, within, sheet.date, sheet.by, m.instrument
    )


def _built(rows: tuple[BuiltRow, ...], designed: Outcome, built: Outcome) -> Built:
    """Results and checks as designed beside those of the trailer as measured, where they differ."""
    now = {q.id: q.nominal for q in built.quantities}
    results = tuple(
        Recomputed(q.id, q.title, q.nominal, now[q.id], q.unit)
        for q in designed.quantities
        if q.unit in FELT and abs(now.get(q.id, math.nan) - q.nominal) > FELT[q.unit]
    )
    turned = tuple(
        Turnabout(id, designed.titles[id], status, built.statuses[id])
        for id, status in designed.statuses.items()
        if built.statuses.get(id, status) != status
    )
    return Built(rows, results, turned, "")


def _as_measured(
    spec: Spec, last: Mapping[Key, Measurement], nominals: Mapping[Key, float]
) -> Spec:
    """The spec with measured dimensions in place of its own.

    A bare deck that stands higher or lower is read as seats of another height, stations of the axles as their mean,
    what seats differ by as the tolerance they use up.
    """
    stations = []
    for (what, which), m in last.items():
        value, off = m.measured.nominal, m.measured.nominal - nominals.get((what, which), math.nan)
        path = {
            "deck width": "trailer.frame.width",
            "neck deck width": "trailer.neck.width",
            "ball station": "trailer.coupling.station",
            "neck underside": "trailer.neck.underside",
            "tyre diameter": "trailer.running_gear.tyre.diameter",
            "jack station": f"trailer.jacks.{which}.station",
            "seats": "trailer.running_gear.suspension.seat_tolerance",
        }.get(what)
        if path is not None and math.isfinite(off):
            spec = changed(spec, path, value)
        if what == "deck height, bare" and math.isfinite(off):
            spec = _raised(spec, off)
        if what == "track" and math.isfinite(off):
            spec = _wider(spec, off)
        if what in ("bracket station", "spindle station") and math.isfinite(off):
            stations.append(off)
    if stations:
        middle = spec.trailer.running_gear.station.nominal + sum(stations) / len(stations)
        spec = changed(spec, "trailer.running_gear.station", middle)
    return spec


def _wider(spec: Spec, off: float) -> Spec:
    """The spec with the hub faces of all axles so much further apart, m."""
    for n, axle in enumerate(spec.trailer.running_gear.axles):
        spec = changed(spec, f"trailer.running_gear.axles.{n}.hub_face", axle.hub_face.nominal + off)
    return spec


def _raised(spec: Spec, off: float) -> Spec:
    """The spec with its spring seats so much lower under the deck (m), which then stands so much higher."""
    match spec.trailer.running_gear.suspension:
        case Torsion(tube_to_deck=seat):
            return changed(spec, "trailer.running_gear.suspension.tube_to_deck", seat.nominal + off)
        case Leaf(hanger=seat):
            return changed(spec, "trailer.running_gear.suspension.hanger", seat.nominal + off)
