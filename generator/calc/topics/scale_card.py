"""What the scale should read at each stage, when to stop and ask, and what moving a mass changes. kg, m."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

from generator.calc.measured import MoveRow, ScaleCard, ScaleRow, ScaleStage
from generator.calc.record import Floats, Quantity, Reported, Working, combine, formula, report, sure
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.hitch_limits import hitch_limits
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.optional import towing
from generator.calc.topics.rating_chain import Link
from generator.calc.topics.road_inputs import Puller, puller
from generator.calc.topics.tow import COMBINATION, FRONT, FRONT_ADDED, REAR, REAR_ADDED, VEHICLE
from generator.calc.topics.weight_distribution import shared
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.models.tow import Vehicle

STAGES = ("bare", "shell", "dry", "travel")
FROM_LIST = "more than listed"
MOVES = {"us": "scale.move_us", "si": "scale.move_si"}


Line = tuple[str, str, Reported, float, str, float | None]
"""A reading: id, title, prediction, limit with its words, least value (kg)."""


@formula("Change on the ball", "dH = m*(1 - s/u)", "kg", "moments about the axles; s behind the ball, u ball to axles")
def MOVE(m: Floats, s: Floats, u: Floats) -> Floats:
    return m * (1 - s / u)


def scale_card(
    model: Model,
    loads: Mapping[str, StateLoads],
    chain: Sequence[Link],
    quantities: Mapping[str, Reported],
    trials: Trials,
    data: Reference,
) -> ScaleCard:
    """The card; readings that rest on something unknown are left out."""
    vehicle = _vehicle(model, trials)
    stages = [
        ScaleStage(s, loads[s].state.title, tuple(_rows(model, loads[s], chain, quantities, vehicle, data)))
        for s in STAGES
    ]
    if vehicle is not None:
        stages.append(ScaleStage("alone", "Tow vehicle alone", tuple(_shown(_alone(vehicle)))))
    mass = data.defaults[MOVES[model.spec.project.units]].value
    return ScaleCard(tuple(stages), mass, tuple(_moves(model, loads[DESIGN], mass)))


def _rows(
    model: Model,
    x: StateLoads,
    chain: Sequence[Link],
    quantities: Mapping[str, Reported],
    vehicle: "_Vehicle | None",
    data: Reference,
) -> Iterator[ScaleRow]:
    of, words = f"state.{x.state.id}", coupled(model)
    gvwr = quantities["rating.gvwr.requested"].nominal
    axles = sum(float(link.governing[1].values[0]) for link in chain)
    ball = hitch_limits(model)
    least = data.defaults[words.share_low].value * quantities[f"{of}.mass"].nominal
    towed = [
        ("gross", "Trailer", quantities[f"{of}.mass"], gvwr, "the rating asked for (GVWR)", None),
        ("hitch", f"On the {words.on}", quantities[f"{of}.hitch"], ball.load, ball.words, least),
        ("group", "Trailer's axles together", quantities[f"{of}.group"], axles, "ratings of its axles and tyres", None),
    ]
    yield from _shown((*towed, *(() if vehicle is None else _hitched(vehicle, x, axles))))


def _shown(lines: Iterable[Line]) -> Iterator[ScaleRow]:
    return (_row(*line) for line in lines if math.isfinite(line[2].nominal))


def _row(id: str, title: str, q: Reported, limit: float, is_limit: str, below: float | None) -> ScaleRow:
    """Above what 95 of 100 trailers of this list weigh something is not on the list, rated for or not."""
    above, above_is = (limit, is_limit) if limit < q.high else (q.high, FROM_LIST)
    if below is None:
        return ScaleRow(id, title, q.nominal, q.low, q.high, above, above_is)
    low, low_is = (below, "the least share on it") if below > q.low else (q.low, "less than listed")
    return ScaleRow(id, title, q.nominal, q.low, q.high, above, above_is, low, low_is)


@dataclass(frozen=True, slots=True, eq=False)
class _Vehicle:
    """The tow vehicle alone: axles, people and cargo (kg), wheelbase and ball (m), ratings in kg with their words."""

    front: Quantity
    rear: Quantity
    cargo: Quantity
    wheelbase: Quantity
    behind: Quantity
    rated: tuple[tuple[float, str], ...]
    bars: tuple[Quantity, Puller] | None
    """Share of the front axle's loss the spring bars give back, with what the sums of the bars need."""


def _vehicle(model: Model, trials: Trials) -> _Vehicle | None:
    if model.spec.tow is None:
        return None
    v = model.spec.tow.vehicle

    def known(field: str, symbol: str, unit: str = "kg") -> Quantity:
        return towing(model, trials, field, symbol, unit)

    return _Vehicle(
        known("front_axle", "F_0"),
        known("rear_axle", "R_0"),
        known("people_and_cargo", "C"),
        known("wheelbase", "wb", "m"),
        known("hitch_behind_rear_axle", "o", "m"),
        (
            (v.front_gawr.nominal, "tow vehicle's front axle rating"),
            (v.rear_gawr.nominal, "tow vehicle's rear axle rating"),
            (v.gcwr.nominal, "tow vehicle's combined rating"),
        ),
        _bars(model, v, trials),
    )


def _bars(model: Model, v: Vehicle, trials: Trials) -> tuple[Quantity, Puller] | None:
    if v.front_restoration is None or not v.hitch_behind_rear_axle.nominal > 0.0:
        return None
    r = trials.given("r", v.front_restoration, "%", v.basis, "tow.yaml vehicle.front_restoration")
    return r, puller(model, trials)


def _alone(v: _Vehicle) -> Iterator[Line]:
    """People and cargo are taken on the drive axle, the safe side."""
    drive = Working()(REAR, R_0=v.rear, dR=sure("dR", 0.0, "kg"), C=v.cargo)
    for id, title, q, rated in (
        ("steer", "Steer axle", v.front, v.rated[0]),
        ("drive", "Drive axle", drive, v.rated[1]),
    ):
        yield id, title, report(id, title, q), *rated, None


def _hitched(v: _Vehicle, x: StateLoads, axles: float) -> Iterator[Line]:
    w = Working()
    added = w(FRONT_ADDED, H=x.hitch, wb=v.wheelbase, o=v.behind)
    rear = w(REAR_ADDED, H=x.hitch, wb=v.wheelbase, o=v.behind)
    alone = w(VEHICLE, F_0=v.front, R_0=v.rear, C=v.cargo)
    slack = ", bars slack" if v.bars is not None else ""
    lines = [
        ("steer", f"Steer axle, hitched{slack}", w(FRONT, F_0=v.front, dF=added), v.rated[0]),
        ("drive", f"Drive axle, hitched{slack}", w(REAR, R_0=v.rear, dR=rear, C=v.cargo), v.rated[1]),
    ]
    if v.bars is not None:
        share, behind = v.bars
        reach = combine("u", x.x_a.values - x.x_h.values, "m", (x.x_a, x.x_h))
        steer, drive, group = shared(Working(), share, x.hitch, reach, x.group, behind)
        lines += [
            ("steer_set", "Steer axle, hitched, bars set", steer, v.rated[0]),
            ("drive_set", "Drive axle, hitched, bars set", drive, v.rated[1]),
            ("group_set", "Trailer's axles together, bars set", group, (axles, "ratings of its axles and tyres")),
        ]
    lines.append(("combination", "All axles together, hitched", w(COMBINATION, V=alone, W=x.mass), v.rated[2]))
    for id, title, q, rated in lines:
        yield id, title, report(id, title, q), *rated, None


def _moves(model: Model, x: StateLoads, mass: float) -> Iterator[MoveRow]:
    """What a mass at places along the trailer changes on ball and axles."""
    trailer, w = model.spec.trailer, Working()
    ball, axles = float(x.x_h.values[0]), float(x.x_a.values[0])
    length = trailer.frame.length.nominal
    neck = () if trailer.neck is None else (("Front of the neck deck", trailer.neck.front.nominal),)
    places = (
        *neck,
        ("Front of the main deck (A)", 0.0),
        ("A quarter aft on the main deck", length / 4.0),
        ("Middle of the main deck", length / 2.0),
        ("Over the axles", axles),
        ("Rear end of the main deck", length),
    )
    for title, station in sorted(places, key=lambda p: p[1]):
        behind = station - ball
        m, s, u = sure("m", mass, "kg"), sure("s", behind, "m"), sure("u", axles - ball, "m")
        hitch = float(w(MOVE, m=m, s=s, u=u).values[0])
        if math.isfinite(hitch):
            yield MoveRow(title, station, behind, hitch, mass - hitch)
