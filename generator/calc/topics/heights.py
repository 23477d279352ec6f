"""Heights: deck, every roof point in every roofed towed state, the limit of the route, headroom, jounce, clearance."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import numpy as np

from generator.calc.findings import Chain, ChainStep, RoofRow
from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import rides as rd
from generator.calc.topics import suspension as sus
from generator.calc.topics.clearances import box_checks, bump_checks, end_checks, headroom_checks, headroom_rows
from generator.calc.topics.coupled import raised
from generator.calc.topics.limits import height_limit
from generator.calc.topics.rides import ABOVE_GROUND, Ride
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Leaf, Torsion

LEVERS = (
    "trailer.running_gear.suspension.tube_to_deck",
    "trailer.running_gear.suspension.hitch_height_tolerance",
    "house.roof_points",
    "trailer.running_gear.tyre.diameter",
)


@formula(
    "Roof point above ground",
    "z = z_d + e - (x - x_h)*theta + zeta",
    "m",
    "frame line through the ball, pitched by the ball's height error",
)
def ROOF_HEIGHT(z_d: Floats, e: Floats, x: Floats, x_h: Floats, theta: Floats, zeta: Floats) -> Floats:
    return z_d + e - (x - x_h) * theta + zeta


@formula(
    "Roof point with the springs at full rebound",
    "z_r = z + (d_r - z_d)*(x - x_h)/(x_a - x_h)",
    "m",
    "the frame turns about the ball as the axles let it rise",
)
def REBOUND(z: Floats, d_r: Floats, z_d: Floats, x: Floats, x_h: Floats, x_a: Floats) -> Floats:
    return z + (d_r - z_d) * (x - x_h) / (x_a - x_h)


@formula("Limit less the margin kept", "z_m = z_lim - margin", "m", "the owner's margin under the rule")
def LESS_MARGIN(z_lim: Floats, margin: Floats) -> Floats:
    return z_lim - margin


@dataclass(frozen=True, slots=True)
class Point:
    """Something that may be the highest: station and height above deck, m."""

    id: str
    title: str
    station: Quantity
    zeta: Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Rise:
    """One roof point in one towed state with the ball high or low: its height above ground, m, and the working."""

    point: Point
    ride: Ride
    high: bool
    height: Quantity
    steps: tuple[Step, ...]

    @property
    def nominal(self) -> float:
        """Nominal height, m; NaN sorts lowest."""
        value = float(self.height.values[0])
        return value if np.isfinite(value) else -np.inf


@dataclass(frozen=True, slots=True)
class Heights:
    """What this topic found, with the chains and roof rows the sheets draw."""

    findings: Findings
    chains: tuple[Chain, ...]
    roof: tuple[RoofRow, ...]


def heights(model: Model, rides: Mapping[str, Ride], trials: Trials, data: Reference) -> Heights:
    """Heights above ground of every towed state against the least limit of the route (m)."""
    limit_working = Working()
    limit = height_limit(limit_working, model, data)
    points = roof_points(model, trials)
    outermost = outer(points)
    laden = _laden(rides[rd.DESIGN], points)
    highest = _highest("z_max", _rises(model, rides, outermost, trials))
    checks = (
        _overall(highest, limit, limit_working.steps),
        _margin(model, highest, limit, trials, limit_working.steps),
        *headroom_checks(model, trials, data),
        *box_checks(model, rides[rd.DESIGN], trials, data),
        *end_checks(model, trials, data),
        *bump_checks(model, rides[rd.DESIGN], trials, data),
    )
    quantities = (
        report("height.deck.laden", "Main deck, travel load", rides[rd.DESIGN].deck, fixed_by_welding=True),
        report("height.deck.unladen", "Main deck, bare trailer", rides["bare"].deck, fixed_by_welding=True),
        report("height.overall.laden", "Highest point, travel load, level", laden.height, "up"),
        report(
            "height.overall.unladen",
            "Highest point, any towed state with its roof on, ball off its height",
            highest.height,
            "up",
        ),
        report(
            "height.overall.rebound",
            "Highest point at full rebound (advisory)",
            _rebound(model, _rises(model, rides, outermost, trials), trials, data),
            "up",
        ),
        report("height.limit", "Least height limit of the route", limit, "down"),
        report(
            "clearance.frame", "Main rails above ground, lowest towed state", _clearance(model, rides, trials), "down"
        ),
        report("height.jounce", "Travel left to the stop, travel load", rides[rd.DESIGN].jounce, "down"),
        report("ride.tyre_radius", "Tyre radius under the travel load", rides[rd.DESIGN].radius),
        _spring(model, rides[rd.DESIGN]),
        *_ball_heights(model, rides[rd.DESIGN], trials),
        *headroom_rows(model, trials),
    )
    chains = (
        _chain(model, "height-laden", "Height chain, travel load", laden, limit),
        _chain(model, "height-light", "Height chain, highest towed state", highest.rise, limit),
    )
    return Heights(Findings(quantities, checks), chains, tuple(_roof_rows(model, points, rides, trials)))


def roof_points(model: Model, trials: Trials) -> tuple[Point, ...]:
    """The points of the spec, and both ends of each zone's highest roof surface."""
    house = model.spec.house
    stated = [
        Point(
            p.id,
            p.title,
            trials.given("x", p.station, "m", path=f"house.yaml roof_points.{p.id}.station"),
            trials.given("zeta", p.height, "m", path=f"house.yaml roof_points.{p.id}.height"),
        )
        for p in house.roof_points
    ]
    ends = [
        Point(
            f"{z.id}-roof-{end}",
            f"{z.title}, roof, {end} end",
            trials.given("x", at, "m", path=f"house.yaml zones.{z.id}.{end}"),
            trials.given("zeta", z.roof, "m", path=f"house.yaml zones.{z.id}.roof"),
        )
        for z in house.zones
        for end, at in (("front", z.front), ("rear", z.rear))
    ]
    return (*stated, *ends)


def outer(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The points one of which is highest whatever the pitch: the upper hull, and any whose place is not certain."""
    certain = [
        p
        for p in points
        if p.station.values.size == p.zeta.values.size == 1 and np.isfinite(p.station.values[0] + p.zeta.values[0])
    ]
    hull: list[Point] = []
    for point in sorted(certain, key=lambda p: (p.station.values[0], -p.zeta.values[0])):
        while len(hull) > 1 and not _turns_down(hull[-2], hull[-1], point):
            hull.pop()
        if not hull or point.station.values[0] > hull[-1].station.values[0]:
            hull.append(point)
    return (*hull, *(p for p in points if p not in certain))


def _turns_down(a: Point, b: Point, c: Point) -> bool:
    """Whether b stands above the line from a to c."""
    (xa, za), (xb, zb), (xc, zc) = ((float(p.station.values[0]), float(p.zeta.values[0])) for p in (a, b, c))
    return (zb - za) * (xc - xa) > (zc - za) * (xb - xa)


def point_height(w: Working, ride: Ride, point: Point, x_h: Quantity, high: bool) -> Quantity:
    """Height above ground (m) of a point of the frame with the ball high or low by its error."""
    side = 0 if high else 1
    return w(
        ROOF_HEIGHT,
        z_d=ride.deck,
        e=ride.errors[side],
        x=point.station,
        x_h=x_h,
        theta=ride.pitches[side],
        zeta=point.zeta,
    )


def roofed(model: Model) -> tuple[str, ...]:
    """Towed states with the roof on."""
    return tuple(s.id for s in model.states if s.towed and "shell" in s.stages)


@dataclass(frozen=True, slots=True, eq=False)
class _Highest:
    height: Quantity
    rise: Rise


def _rises(model: Model, rides: Mapping[str, Ride], points: tuple[Point, ...], trials: Trials) -> Iterator[Rise]:
    x_h = rd.hitch_station(model, trials)
    for id in roofed(model):
        for point in points:
            for high in (True, False):
                w = Working(list(rides[id].steps))
                yield Rise(point, rides[id], high, point_height(w, rides[id], point, x_h, high), tuple(w.steps))


def _highest(symbol: str, rises: Iterable[Rise]) -> _Highest:
    """The highest of all, trial by trial, with the working of the one that governs at nominal; others keep none."""
    following = iter(rises)
    governing = next(following)
    values, seen = governing.height.values, [governing.height]
    for rise in following:
        values = np.maximum(values, rise.height.values)
        governing = rise if rise.nominal > governing.nominal else governing
        seen.append(replace(rise.height, values=rise.height.values[:1].copy()))
    w = Working(list(governing.steps))
    everything = combine(symbol, values, "m", seen)
    ball, state = "high" if governing.high else "low", governing.ride.state.replace("_", " ")
    w.procedure(
        "Highest of all roof points, towed states and ball errors",
        f"Governed by {governing.point.title}, state {state}, ball {ball} by its error.",
        "static heights point by point",
        everything,
        (governing.height,),
    )
    return _Highest(everything, Rise(governing.point, governing.ride, governing.high, governing.height, tuple(w.steps)))


def _laden(ride: Ride, points: tuple[Point, ...]) -> Rise:
    top = max(points, key=lambda p: float(np.nan_to_num(p.zeta.values[0], nan=-np.inf)))
    w = Working(list(ride.steps))
    return Rise(top, ride, True, w(ABOVE_GROUND, z_d=ride.deck, zeta=top.zeta), tuple(w.steps))


def _rebound(model: Model, rises: Iterable[Rise], trials: Trials, data: Reference) -> Quantity:
    gear, w = sus.gear(model, trials, data), Working()
    radius = w(sus.TYRE_RADIUS, D=gear.diameter, N_m=sus.mean("N_m", gear.unsprung), k_t=gear.tyre_rate)
    deck = sus.rebound(w, gear, radius).deck
    x_a = sure("x_a", float(np.mean(model.axle_stations)), "m")
    x_h = rd.hitch_station(model, trials)
    risen = (
        Rise(
            r.point,
            r.ride,
            r.high,
            w(REBOUND, z=r.height, d_r=deck, z_d=r.ride.deck, x=r.point.station, x_h=x_h, x_a=x_a),
            (),
        )
        for r in rises
    )
    return _highest("z_r", risen).height


def _clearance(model: Model, rides: Mapping[str, Ride], trials: Trials) -> Quantity:
    frame, x_h, w = model.spec.trailer.frame, rd.hitch_station(model, trials), Working()
    under = trials.given("zeta", frame.rail_underside, "m", path="trailer.yaml frame.rail_underside")
    ends = (
        Point("front", "Front of the rails", sure("x", 0.0, "m"), under),
        Point(
            "rear", "Rear of the rails", trials.given("x", frame.length, "m", path="trailer.yaml frame.length"), under
        ),
    )
    found = [point_height(w, ride, end, x_h, high) for ride in rides.values() for end in ends for high in (True, False)]
    return combine("z_c", np.minimum.reduce(np.broadcast_arrays(*[q.values for q in found])), "m", found)


def _overall(highest: _Highest, limit: Quantity, limit_steps: list[Step]) -> Check:
    about = About(
        title="Highest point under the limit of the route",
        topic="heights",
        source=limit.origin or "size limits of the route",
        concern="A house above the limit is refused on the road, or meets a bridge.",
        ask="The permit office of each region; a haulier for the route's posted clearances.",
        defer_to="The law in force in each region and every posted clearance, which may be lower.",
        mandatory=True,
        levers=LEVERS,
    )
    w = Working([*highest.rise.steps, *limit_steps])
    return Check("height.overall", about, highest.rise.ride.state, compare(highest.height, limit, "<=", w))


def _margin(model: Model, highest: _Highest, limit: Quantity, trials: Trials, limit_steps: list[Step]) -> Check:
    w = Working([*highest.rise.steps, *limit_steps])
    margin = trials.given("margin", model.spec.project.margins.height, "m", path="project.yaml margins.height")
    about = About(
        title="Margin kept under the height limit",
        topic="heights",
        source="the owner's margin, project.yaml",
        concern="Snow, a new roof fan or a pumped-up tyre eats what is left under the limit.",
        ask="The owner: is the margin still wanted, and what may come off the roof?",
        levers=LEVERS,
    )
    return Check(
        "height.margin",
        about,
        highest.rise.ride.state,
        compare(highest.height, w(LESS_MARGIN, z_lim=limit, margin=margin), "<=", w),
    )


def _spring(model: Model, ride: Ride) -> Reported:
    match model.spec.trailer.running_gear.suspension:
        case Torsion():
            return report("ride.arm_angle", "Arm below level under the travel load", ride.give)
        case Leaf():
            return report("ride.spring_pressed", "Leaf spring pressed under the travel load", ride.give)


def _ball_heights(model: Model, ride: Ride, trials: Trials) -> Iterator[Reported]:
    of = raised(model)
    if of is None:
        yield report("hitch.ball_level", "Ball that makes the trailer level, travel load", ride.ball)
        return
    underside = rd.neck_underside(model, trials)
    low, high = rd.coupler_ends(of.coupling, trials)
    for id, title, c in (
        ("hitch.ball_high", "Highest ball the coupler takes with the trailer level", low),
        ("hitch.ball_low", "Lowest ball the coupler takes with the trailer level", high),
    ):
        yield report(id, title, Working()(rd.LEVEL_BALL, z_d=ride.deck, h_u=underside, c=c))


def _chain(model: Model, id: str, title: str, rise: Rise, limit: Quantity) -> Chain:
    ride, point = rise.ride, rise.point
    values = [float(q.values[0]) for q in (ride.radius, ride.tube, ride.deck, point.zeta, rise.height)]
    radius, tube, deck, zeta, top = values
    pitched, (to_tube, to_deck, why) = top - deck - zeta, sus.chain_words(model)
    steps = [
        ChainStep("Tyre radius under load", radius, "tyre data"),
        ChainStep(to_tube, tube - radius, why),
        ChainStep(to_deck, deck - tube, "trailer.yaml"),
        ChainStep(f"Deck top to {point.title}", zeta, "house.yaml"),
    ]
    if abs(pitched) > 1e-9:
        steps.insert(
            3, ChainStep(f"Ball {'high' if rise.high else 'low'} by its error, here", pitched, "hitch-height error")
        )
    bound = float(limit.values[0])
    return Chain(id, title, ride.state, tuple(steps), top, bound if np.isfinite(bound) else None)


def _roof_rows(model: Model, points: tuple[Point, ...], rides: Mapping[str, Ride], trials: Trials) -> Iterator[RoofRow]:
    """Every point at nominal: level in the travel state, and at its highest over towed states and ball errors."""
    x, zeta = (np.array([float(getattr(p, name).values[0]) for p in points]) for name in ("station", "zeta"))
    x_h = rd.hitch_station(model, trials).values[0]
    cases = [(id, rides[id], side) for id in roofed(model) for side in (0, 1)]
    z = np.array(
        [
            ROOF_HEIGHT.of(
                z_d=ride.deck.values[0],
                e=ride.errors[side].values[0],
                x=x,
                x_h=x_h,
                theta=ride.pitches[side].values[0],
                zeta=zeta,
            )
            for _, ride, side in cases
        ]
    )
    deck = float(rides[rd.DESIGN].deck.values[0])
    for n, point in enumerate(points):
        worst = int(np.argmax(np.nan_to_num(z[:, n], nan=np.inf)))
        yield RoofRow(
            point.id,
            point.title,
            float(x[n]),
            float(zeta[n]),
            deck + float(zeta[n]),
            float(z[worst, n]),
            cases[worst][0],
        )
