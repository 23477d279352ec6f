"""The neck: where its underside stands in the window, the gaps over the bed, the coupler's hole, headroom and steps."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.findings import NeckRecord
from generator.calc.record import (
    About,
    Change,
    Check,
    Findings,
    Floats,
    Quantity,
    Value,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import neck_inputs as given
from generator.calc.topics import neck_window as nw
from generator.calc.topics import rides as rd
from generator.calc.topics.coupled import Raised, raised
from generator.calc.topics.rides import ABOVE_GROUND, Ride
from generator.calc.topics.swing import swing
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.measure import Measure
from generator.spec.models.trailer import Neck as NeckPart

UNDERSIDE = "trailer.neck.underside"
NOTHING = sure("0", 0.0, "m")


@formula("Room in the window", "room = min(z_u - low, high - z_u)", "m", "distance to the nearer end")
def ROOM(z_u: Floats, low: Floats, high: Floats) -> Floats:
    return np.minimum(z_u - low, high - z_u)


@formula("Gap over the bed rails, level", "g = z_u - z_b", "m", "height chain")
def GAP_LEVEL(z_u: Floats, z_b: Floats) -> Floats:
    return z_u - z_b


@formula("Gap over the bed rails, pitched", "g = z_u - z_b - d*tan(phi)", "m", "neck turning about the ball")
def GAP_PITCHED(z_u: Floats, z_b: Floats, d: Floats, phi: Floats) -> Floats:
    return z_u - z_b - d * np.tan(phi)


@formula(
    "Gap over the bed rails, pitched and rolled",
    "g = z_u - z_b - d*tan(phi) - w_r*tan(rho)",
    "m",
    "neck turning about the ball",
)
def GAP_ROLLED(z_u: Floats, z_b: Floats, d: Floats, phi: Floats, w_r: Floats, rho: Floats) -> Floats:
    return z_u - z_b - d * np.tan(phi) - w_r * np.tan(rho)


@formula(
    "Headroom the height limit leaves over the neck",
    "room = z_lim - margin - rise - roof - z_u - depth - floor",
    "m",
    "height chain from the limit down",
)
def ROOM_LEFT(
    z_lim: Floats, margin: Floats, rise: Floats, roof: Floats, z_u: Floats, depth: Floats, floor: Floats
) -> Floats:
    return z_lim - margin - rise - roof - z_u - depth - floor


@formula("Coupler extension that makes the trailer level", "c = z_u - z_ball", "m", "height chain")
def EXTENSION(z_u: Floats, z_ball: Floats) -> Floats:
    return z_u - z_ball


@formula(
    "Ball off its level height with the coupler in the nearest hole",
    "off = max(c_set - c, c - c_set)",
    "m",
    "height chain, either way",
)
def OFF_LEVEL(c_set: Floats, c: Floats) -> Floats:
    return np.maximum(c_set - c, c - c_set)


@dataclass(frozen=True, slots=True)
class NeckFound:
    """What this topic found; no record without a tow vehicle, because two of the three intervals hang on it."""

    findings: Findings
    record: NeckRecord | None


@dataclass(frozen=True, slots=True, eq=False)
class _Neck:
    """All that the checks of the neck look at; the workings hold how underside and ends were worked out."""

    w: Working
    z_u: Quantity
    under: nw.Under
    overs: tuple[nw.Over, ...]
    reach: Quantity
    ends: nw.Ends
    ends_w: Working


@dataclass(frozen=True, slots=True, eq=False)
class _Gap:
    """A gap over the bed rails in one attitude, m, with its working and least value."""

    name: str
    w: Working
    gap: Quantity
    least: Quantity


def neck(model: Model, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> NeckFound:
    """The neck window, gaps, headroom and coupler setting at the travel state (m above ground, trailer level)."""
    of, ride = raised(model), rides[rd.DESIGN]
    if of is None:
        return NeckFound(Findings(), None)
    part, n = of.neck, _neck(model, of, rides, trials, data)
    changes = nw.opening_changes(n.under, n.overs, given.levers(model, n.under, n.overs, data)) or tuple(
        _into_window(part, n, ride)
    )
    window = nw.window(n.ends, _number(n.z_u), _number(ride.deck), part.shop_step.nominal, changes)
    gaps, coupler_w = tuple(_gaps(n, trials, data)), Working(list(n.w.steps))
    hole = _hole(coupler_w, of.coupling.adjust_step, n)
    turning = swing(model, n.z_u, n.under.pitch, trials, data)
    depth = trials.given("zeta", part.frame_depth, "m", path="trailer.yaml neck.frame_depth")
    top, headroom, step = Working()(ABOVE_GROUND, z_d=n.z_u, zeta=depth), _headroom(n), _step(model)
    checks = (
        _window_check(n, changes),
        *(
            Check(f"neck.rail_gap.{g.name}", _about_gap(g.name), rd.DESIGN, compare(g.gap, g.least, ">=", g.w))
            for g in gaps
        ),
        _coupler_check(n),
        _step_check(coupler_w, model, hole, trials),
        *turning.checks,
    )
    quantities = (
        report("neck.underside", "Underside of the neck above ground, travel load", n.z_u, fixed_by_welding=True),
        report("neck.deck_top", "Neck deck above ground, travel load", top, fixed_by_welding=True),
        report("neck.headroom", "Headroom the height limit leaves over the neck", headroom, "down"),
        report("neck.step", "Step from main floor up to neck floor", step),
        *(report(f"neck.rail_gap.{g.name}", f"Gap over the bed rails, {_SAID[g.name]}", g.gap, "down") for g in gaps),
        report("neck.coupler_set", "Coupler extension, nearest hole", hole),
        *turning.quantities,
    )
    record = None if model.spec.tow is None else _record(n, gaps, top, headroom, hole, step)
    return NeckFound(Findings(quantities, checks, (window,)), record)


def _neck(model: Model, of: Raised, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> _Neck:
    ride = rides[rd.DESIGN]
    w, ends_w = Working(list(ride.steps)), Working()
    z_u = w(
        ABOVE_GROUND,
        z_d=ride.deck,
        zeta=rd.neck_underside(model, trials),
    ).named("z_u")
    under, overs = given.under(model, of, trials, data), tuple(given.overs(model, of.neck, rides, trials, data))
    reach = Working()(nw.REACH, d_f=under.ahead, d_a=under.behind)
    return _Neck(w, z_u, under, overs, reach, nw.ends(ends_w, under, overs), ends_w)


def _into_window(part: NeckPart, n: _Neck, ride: Ride) -> Iterator[Change]:
    """The nearest height inside an open window, in steps of the shop."""
    low, high, z_u, deck = (_number(q) for q in (n.ends.low, n.ends.high, n.z_u, ride.deck))
    step = part.shop_step.nominal
    if not (low <= high and np.isfinite(z_u)) or low <= z_u <= high or not step > 0.0:
        return
    then = float(np.ceil((low - deck) / step) * step if z_u < low else np.floor((high - deck) / step) * step)
    if low <= deck + then <= high:
        yield Change(
            UNDERSIDE,
            "Height of the neck above the main deck",
            Value("h_u", z_u - deck, "m"),
            Value("h_u", then, "m"),
            ("height.overall", "neck.coupler"),
        )


def _window_check(n: _Neck, changes: tuple[Change, ...]) -> Check:
    w = Working([*n.w.steps, *n.ends_w.steps])
    room = w(ROOM, z_u=n.z_u, low=n.ends.low, high=n.ends.high)
    return Check("neck.window", WINDOW, rd.DESIGN, compare(room, NOTHING, ">=", w), changes)


def _gaps(n: _Neck, trials: Trials, data: Reference) -> Iterator[_Gap]:
    """The gap level, pitched on a road, pitched and rolled, and pitched on a ramp."""
    base: dict[str, Quantity] = {"z_u": n.z_u, "z_b": n.under.rail}
    pitched = {**base, "d": n.reach, "phi": n.under.pitch}
    ramp = {**base, "d": n.reach, "phi": trials.assumed("phi", data.defaults["neck.pitch_ramp"])}
    rolled = {**pitched, "w_r": n.under.half, "rho": n.under.roll}
    for name, f, inputs, least in (
        ("level", GAP_LEVEL, base, n.under.gap),
        ("pitched", GAP_PITCHED, pitched, n.under.kept),
        ("rolled", GAP_ROLLED, rolled, n.under.kept),
        ("ramp", GAP_PITCHED, ramp, NOTHING),
    ):
        w = Working(list(n.w.steps))
        yield _Gap(name, w, w(f, **inputs), least)


def _coupler_check(n: _Neck) -> Check:
    w = Working(list(n.w.steps))
    low, high = (w(nw.COUPLER_END, z_ball=n.under.ball, c=c) for c in (n.under.shortest, n.under.longest))
    return Check("neck.coupler", COUPLER, rd.DESIGN, compare(w(ROOM, z_u=n.z_u, low=low, high=high), NOTHING, ">=", w))


def _step_check(w: Working, model: Model, hole: Quantity, trials: Trials) -> Check:
    allowed = trials.given(
        "e_set",
        model.spec.trailer.running_gear.suspension.hitch_height_tolerance,
        "m",
        path="trailer.yaml running_gear.suspension.hitch_height_tolerance",
    )
    wanted = w.steps[-2].result
    off = w(OFF_LEVEL, c_set=hole, c=sure("c", wanted.value, "m"))
    return Check("neck.coupler_step", HOLE, rd.DESIGN, compare(off, allowed, "<=", w))


def _hole(w: Working, step: Measure, n: _Neck) -> Quantity:
    """The hole is chosen once, for the nominal design; trials do not choose another."""
    wanted = w(EXTENSION, z_u=n.z_u, z_ball=n.under.ball)
    shortest, longest = _number(n.under.shortest), _number(n.under.longest)
    found = combine("c_set", rd.nearest_hole(wanted.values[:1], shortest, longest, step.nominal), "m", (wanted,))
    return w.procedure(
        "Coupler extension, nearest hole",
        "The pin hole nearest to the level extension.",
        "holes as the coupler's maker drills them",
        found,
        (wanted, n.under.shortest, n.under.longest),
    )


def _headroom(n: _Neck) -> Quantity:
    rooms = [
        Working()(
            ROOM_LEFT, z_lim=o.limit, margin=o.margin, rise=o.rise, roof=o.roof, z_u=n.z_u, depth=o.depth, floor=o.floor
        )
        for o in n.overs
    ]
    if not rooms:
        return sure("room", float("nan"), "m", rests_on=["unknown:house.yaml zones: no zone over the neck"])
    return combine("room", np.minimum.reduce(np.broadcast_arrays(*[q.values for q in rooms])), "m", rooms)


def _step(model: Model) -> Quantity:
    """Floor of the rearmost zone over the neck above the floor of the foremost zone on the main deck, m."""
    over = given.neck_zones(model)
    behind = [z for z in model.spec.house.zones if z not in over]
    if not over or not behind:
        return sure("step", float("nan"), "m")
    upper, lower = max(over, key=lambda z: z.rear.nominal), min(behind, key=lambda z: z.front.nominal)
    return sure("step", upper.floor.nominal - lower.floor.nominal, "m")


def _record(
    n: _Neck, gaps: tuple[_Gap, ...], top: Quantity, headroom: Quantity, hole: Quantity, step: Quantity
) -> NeckRecord:
    gap = {g.name: _number(g.gap) for g in gaps}
    return NeckRecord(
        low_rail=max(_number(n.ends.level), _number(n.ends.moving)),
        low_coupler=_number(n.ends.coupler_low),
        high_coupler=_number(n.ends.coupler_high),
        high_limit=_number(n.ends.limit) if n.overs else float("nan"),
        low=_number(n.ends.low),
        high=_number(n.ends.high),
        chosen=_number(n.z_u),
        deck_top=_number(top),
        headroom=_number(headroom),
        gap_level=gap["level"],
        gap_pitched=gap["pitched"],
        gap_rolled=gap["rolled"],
        bed_rail=_number(n.under.rail),
        ball=_number(n.under.ball),
        coupler_set=_number(hole),
        step_between_floors=_number(step),
    )


def _number(q: Quantity) -> float:
    return float(q.values[0])


def _about_gap(name: str) -> About:
    return About(
        title=f"Room over the bed rails, {_SAID[name]}",
        topic="neck",
        source="published owner guides of tow vehicles" if name == "level" else "common practice, no source",
        concern="The neck comes down on the bed sides and bends both.",
        ask="Whoever tows: bed rail and ball height, measured loaded and level.",
        defer_to="The tow vehicle's manual and the coupler's instructions.",
        mandatory=name == "level",
        levers=(UNDERSIDE, "tow.vehicle.bed_rail"),
    )


_SAID = {
    "level": "level",
    "pitched": "pitched on the road",
    "rolled": "pitched and rolled",
    "ramp": "pitched on a ramp",
}
WINDOW = About(
    title="Neck height inside its window",
    topic="neck",
    source="height chain of bed rail, coupler and height limit",
    concern="The neck height is welded: too low, it strikes the bed; too high, the house passes the height limit.",
    ask="Whoever tows for the bed rail and ball; the fabricator before the riser is cut.",
    defer_to="A licensed engineer for the neck itself.",
    mandatory=True,
    levers=(UNDERSIDE, "tow.vehicle.bed_rail", "tow.vehicle.ball_height", "trailer.neck.frame_depth"),
)
COUPLER = About(
    title="Coupler reaches the ball with the trailer level",
    topic="neck",
    source="travel of the coupler as its maker states it",
    concern="The trailer rides nose high or nose low: one axle carries too much.",
    ask="The coupler's maker: least and greatest extension under load.",
    defer_to="The coupler maker's instructions.",
    mandatory=True,
    levers=("trailer.coupling.adjust_low", "trailer.coupling.adjust_high", UNDERSIDE),
)
HOLE = About(
    title="Nearest hole of the coupler keeps the trailer level",
    topic="neck",
    source="travel of the coupler as its maker states it",
    concern="Between two holes the trailer rides off level and the axles do not share.",
    ask="The coupler's maker: a finer step, or a screw adjustment.",
    levers=("trailer.coupling.adjust_step",),
)
