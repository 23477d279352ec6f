"""The side of the house that the wind sees, parked and on the road: upright strips, front to rear. m, m2.

Under each strip the underside of the frame, or of neck or tongue ahead of datum A; above it the highest roof; openings
closed. What the house hangs over its last zone is as high as that zone.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from generator.calc.record import Floats, Formula, Quantity, Step, Working, formula, sure
from generator.model.types import Model
from generator.records import dataclass
from generator.spec.measure import Measure

WHERE = "strips from front to rear, up from frame or neck to the highest roof, openings closed"
Strip = tuple[float, float, float, float]
"""Front, rear, lower and upper edge, m."""


@formula("Centre of the side above ground", "z_c = z_d + zeta", "m", "height chain")
def SIDE_HEIGHT(z_d: Floats, zeta: Floats) -> Floats:
    """Height m of a point `zeta` m above the deck."""
    return z_d + zeta


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """The house from the side: area m2, station of its centre, its centre and its top above the main-deck top, m."""

    area: Quantity
    x: Quantity
    zeta: Quantity
    top: Quantity
    steps: tuple[Step, ...] = ()


def side(model: Model) -> Side:
    """Area, centre and top of the side with the steps that add the strips up; NaN and the names of what is unknown."""
    missing = frozenset(f"unknown:{path}" for path, m in _needed(model).items() if not m.known)
    strips = () if missing else tuple(_joined(_strips(model)))
    if not sum((b - a) * (top - low) for a, b, low, top in strips) > 0.0:
        area, x, zeta, top = (Quantity(symbol, np.array([np.nan]), unit, rests_on=missing) for symbol, unit in (
            ("A_s", "m2"), ("x_c", "m"), ("zeta", "m"), ("zeta_t", "m")))
        return Side(area, x, zeta, top)
    w, given = Working(), _parts(strips)
    each = [f"l_{n}*h_{n}" for n in range(1, len(strips) + 1)]
    area = w(_sum("Side that the wind sees", "A_s", each, "", "m2"), **_named(given, "lh"))
    high = _sum("Centre of the side above the deck", "zeta", [f"{p}*z_{n}" for n, p in enumerate(each, 1)], "A_s", "m")
    zeta = w(high, A_s=area, **_named(given, "lhz"))
    along = _sum("Station of the centre of the side", "x_c", [f"{p}*x_{n}" for n, p in enumerate(each, 1)], "A_s", "m")
    x = Working()(along, A_s=area, **_named(given, "lhx"))
    return Side(area, x, zeta, sure("zeta_t", max(top for *_, top in strips), "m"), tuple(w.steps))


def _parts(strips: Sequence[Strip]) -> dict[str, Quantity]:
    """Length l, height h, middle z and station x of every strip."""
    rows = [(n, {"l": b - a, "h": top - low, "z": (top + low) / 2, "x": (a + b) / 2})
            for n, (a, b, low, top) in enumerate(strips, 1)]
    return {f"{key}_{n}": sure(f"{key}_{n}", value, "m") for n, of in rows for key, value in of.items()}


def _named(given: dict[str, Quantity], letters: str) -> dict[str, Quantity]:
    return {name: q for name, q in given.items() if name[0] in letters}


def _sum(what: str, symbol: str, products: Sequence[str], over: str, unit: str) -> Formula:
    """A formula that adds products of strips, perhaps over their area."""
    text = " + ".join(products)

    def of(**given: Floats) -> Floats:
        total = np.asarray(sum(np.prod([given[name] for name in p.split("*")], axis=0) for p in products))
        return total / given[over] if over else total

    return Formula(what, f"{symbol} = ({text})/{over}" if over else f"{symbol} = {text}", unit, WHERE, of)


def _needed(model: Model) -> dict[str, Measure]:
    house, trailer = model.spec.house, model.spec.trailer
    ends = ("front", "rear", "roof")
    zones = {f"house.yaml zones.{z.id}.{end}": getattr(z, end) for z in house.zones for end in ends}
    return {"house.yaml front": house.front, "house.yaml rear": house.rear,
            "trailer.yaml frame.rail_underside": trailer.frame.rail_underside, trailer.ahead[0]: trailer.ahead[1],
            **zones}


def _strips(model: Model) -> Iterator[Strip]:
    house, trailer = model.spec.house, model.spec.trailer
    zones = sorted((z.front.nominal, z.rear.nominal, z.roof.nominal) for z in house.zones)
    front, rear = house.front.nominal, house.rear.nominal
    ends = sorted({front, rear, 0.0, *(e for z in zones for e in z[:2])})
    for a, b in pairwise(e for e in ends if front <= e <= rear):
        middle = (a + b) / 2
        # An overhang past the last zone is as high as the zone it hangs from.
        over = [z[2] for z in zones if z[0] <= middle <= z[1]] or [min(zones, key=lambda z: _gap(z, middle))[2]]
        low = trailer.ahead[1] if middle < 0.0 else trailer.frame.rail_underside
        yield a, b, low.nominal, max(over)


def _joined(strips: Iterator[Strip]) -> Iterator[Strip]:
    """Neighbours of one height as one strip."""
    last: Strip | None = None
    for strip in strips:
        if last is not None and last[2:] == strip[2:]:
            last = (last[0], *strip[1:])
            continue
        if last is not None:
            yield last
        last = strip
    if last is not None:
        yield last


def _gap(zone: tuple[float, float, float], x: float) -> float:
    return max(zone[0] - x, x - zone[1])
