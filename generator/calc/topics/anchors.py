"""What holds the house on its frame: demand per anchor from wind, road and earthquake. Capacity is an engineer's.

Loads in kg as the ratings of the points are stated; the house is everything that is not on the delivered trailer.
"""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.record import (
    About,
    Basis,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics.masses import StateMass
from generator.calc.topics.parked_bounds import LIGHT, Parked, house_items, site, unknown
from generator.calc.topics.parked_wind import COMBINED, Wind
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference

ROAD = "common practice, no source"


@formula("Load of one anchor along or across the road", "P = c*m_h/n", "kg", "share of the weight, anchors alike")
def SHARED(c: Floats, m_h: Floats, n: Floats) -> Floats:
    return c * m_h / n


@formula("Sideways wind at one anchor", "P_v = 0.6*F/(9.80665*n)", "kg", COMBINED)
def WIND_SHEAR(F: Floats, n: Floats) -> Floats:
    return 0.6 * F / (G * n)


@formula("Height of the wind above the anchors", "h = z_c - z_d", "m", "centre of the side above the deck")
def ABOVE_DECK(z_c: Floats, z_d: Floats) -> Floats:
    return z_c - z_d


@formula(
    "Uplift at one windward anchor",
    "P_u = max(0, 0.6*(F*h + U*b/2)/9.80665 - 0.6*m_h*(b/2 - max(y_h, -y_h)))/(b*n/2)",
    "kg",
    COMBINED + ", about the leeward line of anchors",
)
def WIND_UPLIFT(F: Floats, h: Floats, U: Floats, b: Floats, m_h: Floats, y_h: Floats, n: Floats) -> Floats:
    held = 0.6 * m_h * (b / 2 - np.maximum(y_h, -y_h))
    return np.maximum(0, 0.6 * (F * h + U * b / 2) / G - held) / (b * n / 2)


@formula("Pull of the wind on one anchor", "P_w = sqrt(P_v**2 + P_u**2)", "kg", "sideways and upward together")
def WIND_PULL(P_v: Floats, P_u: Floats) -> Floats:
    return np.sqrt(P_v**2 + P_u**2)


@dataclass(frozen=True, slots=True, eq=False)
class _Points:
    """Anchors of the frame: how many, distance of the two lines (m), least rating (kg)."""

    n: Quantity
    apart: Quantity
    rating: Quantity


def anchors(
    model: Model, at: Mapping[str, StateMass], parked: Parked, wind: Wind, trials: Trials, data: Reference
) -> Findings:
    """Demand on each house-to-frame anchor (kg), and the points of the frame against their ratings."""
    points = _points(model)
    if points is None:
        missing = Missing(("trailer.yaml points (kind: anchor)",))
        return Findings(checks=(Check("anchor.road", ON_THE_ROAD, "travel", missing), _capacity(missing)))
    heavy = max((s.id for s in model.states if s.towed), key=lambda s: float(at[s].mass.values[0]))
    road, loaded = Working(), _house(model, at, heavy, "high")
    forward, sideways = (
        road(SHARED, c=trials.assumed("c", data.defaults[id]), m_h=loaded, n=points.n)
        for id in ("anchor.forward", "anchor.sideways")
    )
    w = Working(list(wind.blown))
    shear, uplift, pull = _windy(w, model, at, parked, wind, points)
    quake = Working()
    shaken = quake(SHARED, c=site(model, trials, "seismic", "c", "%"), m_h=loaded, n=points.n)
    along = Working(road.steps[:1])
    checks = (
        Check("anchor.road", ON_THE_ROAD, heavy, compare(forward, points.rating, "<=", along)),
        Check("anchor.wind", IN_THE_WIND, LIGHT, compare(pull, points.rating, "<=", w)),
        Check("anchor.seismic", SHAKEN, heavy, compare(shaken, points.rating, "<=", quake)),
        _capacity(Missing((CAPACITY,), tuple(road.steps))),
    )
    return Findings(tuple(_rows(loaded, forward, sideways, shear, uplift, shaken)), checks)


def _windy(
    w: Working, model: Model, at: Mapping[str, StateMass], parked: Parked, wind: Wind, points: _Points
) -> tuple[Quantity, Quantity, Quantity]:
    light = _house(model, at, LIGHT, "low")
    w.procedure(
        "Mass of the house on the frame, empty",
        "Every item that is not on the delivered trailer, at its low bound.",
        "take-off",
        light,
        (),
    )
    shear = w(WIND_SHEAR, F=wind.force, n=points.n)
    uplift = w(
        WIND_UPLIFT,
        F=wind.force,
        h=w(ABOVE_DECK, z_c=parked.centre, z_d=parked.deck),
        U=wind.uplift,
        b=points.apart,
        m_h=light,
        y_h=_offset(model, at),
        n=points.n,
    )
    return shear, uplift, w(WIND_PULL, P_v=shear, P_u=uplift)


def _house(model: Model, at: Mapping[str, StateMass], state: str, which: str) -> Quantity:
    """Mass of the house without the delivered trailer, kg."""
    total = sum(getattr(i, which) * share for i, share in house_items(model, state))
    return combine("m_h", np.array([float(total)]), "kg", (at[state].mass,))


def _offset(model: Model, at: Mapping[str, StateMass]) -> Quantity:
    """Centre of the empty house right of the centre line, m."""
    rows = house_items(model, LIGHT)
    mass = sum(i.mass * share for i, share in rows)
    moment = sum(i.mass * share * i.y for i, share in rows)
    return combine("y_h", np.array([moment / mass if mass else np.nan]), "m", (at[LIGHT].mass,))


def _points(model: Model) -> _Points | None:
    found = [p for p in model.spec.trailer.points if p.kind == "anchor"]
    if not found:
        return None
    at = "trailer.yaml points"
    missing = unknown({f"{at}.{p.id}.y": p.y for p in found} | {f"{at}.{p.id}.rating": p.rating for p in found})
    apart = np.nan if missing else 2 * min(abs(p.y.nominal) for p in found)
    rating = np.nan if missing else min(p.rating.nominal for p in found)
    origin = found[0].rating.origin
    return _Points(
        sure("n", 2.0 * len(found), "count"),
        Quantity("b", np.array([apart]), "m", Basis.QUOTED, missing, origin),
        Quantity("P_r", np.array([rating]), "kg", Basis.QUOTED, missing, origin),
    )


def _rows(
    loaded: Quantity, forward: Quantity, sideways: Quantity, shear: Quantity, uplift: Quantity, shaken: Quantity
) -> Iterator[Reported]:
    yield report("anchor.house", "House on its anchors, heaviest towed state, high side", loaded, "up")
    yield report("anchor.forward", "One anchor, forward, hard braking", forward, "up")
    yield report("anchor.sideways", "One anchor, sideways, on the road", sideways, "up")
    yield report("anchor.wind_shear", "One anchor, sideways, wind on the parked house", shear, "up")
    yield report("anchor.wind_uplift", "One windward anchor, upward, wind on the parked house", uplift, "up")
    yield report("anchor.seismic", "One anchor, sideways, earthquake", shaken, "up")


def _capacity(outcome: Missing) -> Check:
    return Check("anchor.capacity", HELD_BY, "travel", outcome)


CAPACITY = "capacity of bolts, sill and frame at each anchor, with edge distances, by a licensed engineer"
DEFER = "a licensed engineer; the maker of anchors and bolts; local code"
ON_THE_ROAD = About(
    "Points of the house anchors, hard braking",
    "anchors",
    ROAD,
    "The house slides on its frame when the trailer stops hard.",
    "The fabricator: rated points; the engineer: what the house side holds.",
    DEFER,
)
IN_THE_WIND = About(
    "Points of the house anchors, wind on the parked house",
    "anchors",
    COMBINED,
    "The wind lifts the house off its own frame while the frame stays tied down.",
    "The building official: design wind and exposure; the engineer: what the house side holds.",
    DEFER,
)
SHAKEN = About(
    "Points of the house anchors, earthquake",
    "anchors",
    "the share of the weight that the local code states",
    "The house shears off its anchors.",
    "The building official: seismic load where the house stands.",
    DEFER,
)
HELD_BY = About(
    "Bolts and timber at the house anchors",
    "anchors",
    "no rule of thumb is safe here: edge distance, shrinkage, fatigue",
    "The bolt tears out of the sill long before the steel point gives.",
    "A licensed engineer, with the demands of this topic.",
    DEFER,
)
