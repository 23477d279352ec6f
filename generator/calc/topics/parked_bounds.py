"""The trailer parked: how light and how heavy it may be, what the wind sees of it, and the feet it stands on.

Overturning takes every item at its low bound, stands and pads take every item at its high bound. kg, m, m2.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np

from generator.calc.record import Change, Check, Quantity, Value, combine
from generator.calc.topics.masses import StateMass
from generator.calc.topics.optional import absent
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.trials import Trials
from generator.model.types import Item, Model
from generator.records import dataclass
from generator.spec.measure import Measure

LIGHT, HEAVY, BARE = "parked_light", "parked_heavy", "bare"
ENGINEER = "a licensed engineer, the anchor maker's tests and the local building official"


@dataclass(frozen=True, slots=True)
class Foot:
    """A mirrored pair of feet, stands or jack legs, as the spec states it."""

    id: str
    title: str
    path: str
    station: Measure
    y: Measure
    rating: Measure
    pad: Measure | None

    @property
    def rated(self) -> str:
        """Path of its rating while standing."""
        return f"{self.path}.{'rating' if self.id.startswith('stand.') else 'static_rating'}"


@dataclass(frozen=True, slots=True, eq=False)
class Parked:
    """The house parked: low and high mass (kg), offset of the light one, deck and underside above ground, the side the
    wind sees (m2) and its centre above ground, plan of the roof (m2), its top above ground, half width of the feet (m).
    """

    low: Quantity
    high: Quantity
    y: Quantity
    deck: Quantity
    underside: Quantity
    side: Quantity
    centre: Quantity
    top: Quantity
    roof: Quantity
    half: Quantity
    feet: tuple[Foot, ...]


def parked_of(model: Model, at: Mapping[str, StateMass], rides: Mapping[str, Ride], trials: Trials) -> Parked:
    """The parked house, its deck as high as in the travel state."""
    deck, feet = rides[DESIGN].deck, feet_of(model)
    frame = model.spec.trailer.frame
    rail = trials.given("zeta", frame.rail_underside, "m", path="trailer.yaml frame.rail_underside")
    area, middle, top, plan = silhouette(model)
    return Parked(
        low=bound(model, at, LIGHT, "low"),
        high=bound(model, at, HEAVY, "high"),
        y=at[LIGHT].y,
        deck=deck,
        underside=_over(deck, rail, "z_r"),
        side=area,
        centre=_over(deck, middle, "z_c"),
        top=_over(deck, top, "z_t"),
        roof=plan,
        half=_half_width(feet, at),
        feet=feet,
    )


def bound(model: Model, at: Mapping[str, StateMass], state: str, which: Literal["low", "high"]) -> Quantity:
    """Mass of a state with every item at its low or its high bound, kg."""
    n = place(model, state)
    total = sum(getattr(i, which) * i.aboard[n] for i in model.items if i.aboard[n] != 0.0)
    return combine("W", np.array([float(total)]), "kg", (at[state].mass,))


def place(model: Model, state: str) -> int:
    """Place of a state in `Model.states`."""
    return next(n for n, s in enumerate(model.states) if s.id == state)


def house_items(model: Model, state: str) -> tuple[tuple[Item, float], ...]:
    """What stands on the delivered trailer in a state, with its share aboard."""
    n, bare = place(model, state), place(model, BARE)
    return tuple((i, i.aboard[n] - i.aboard[bare]) for i in model.items if i.aboard[n] != i.aboard[bare])


def feet_of(model: Model) -> tuple[Foot, ...]:
    """Pairs of feet: jacks with two legs (a single leg does not steady a house), and stands."""
    trailer = model.spec.trailer
    stands = [
        Foot(f"stand.{s.id}", f"Stands {s.id}", f"trailer.yaml stands.{s.id}", s.station, s.y, s.rating, s.pad)
        for s in trailer.stands
    ]
    jacks = [
        Foot(f"jack.{j.id}", j.title, f"trailer.yaml jacks.{j.id}", j.station, j.y, j.static_rating, j.pad)
        for j in trailer.jacks
        if j.legs == 2
    ]
    return (*jacks, *stands)


def silhouette(model: Model) -> tuple[Quantity, Quantity, Quantity, Quantity]:
    """Side area (m2), its centre and its top above the main-deck top (m), plan of the roof (m2).

    The side reaches from the underside of the frame to the highest roof surface of each zone, openings closed.
    """
    house, trailer = model.spec.house, model.spec.trailer
    needed = {
        "house.yaml front": house.front,
        "house.yaml rear": house.rear,
        "house.yaml width": house.width,
        "trailer.yaml frame.rail_underside": trailer.frame.rail_underside,
        trailer.ahead[0]: trailer.ahead[1],
    }
    for zone in house.zones:
        at = f"house.yaml zones.{zone.id}"
        needed |= {f"{at}.front": zone.front, f"{at}.rear": zone.rear, f"{at}.roof": zone.roof}
    missing = unknown(needed)
    strips = () if missing else tuple(_strips(model))
    area = sum(length * (top - low) for length, low, top in strips)
    first = sum(length * (top - low) * (top + low) / 2 for length, low, top in strips)
    highest = max((top for _, _, top in strips), default=np.nan)
    plan = (house.rear.nominal - house.front.nominal) * house.width.nominal

    def made(symbol: str, value: float, unit: str) -> Quantity:
        return Quantity(symbol, np.array([np.nan if missing else value]), unit, rests_on=missing)

    centre = first / area if area else np.nan
    return made("A_s", area, "m2"), made("zeta", centre, "m"), made("zeta", highest, "m"), made("A_r", plan, "m2")


def _strips(model: Model) -> Iterable[tuple[float, float, float]]:
    """Length, lower and upper edge (m above the main-deck top) of the side, front to rear."""
    house, trailer = model.spec.house, model.spec.trailer
    zones = sorted((z.front.nominal, z.rear.nominal, z.roof.nominal) for z in house.zones)
    front, rear = house.front.nominal, house.rear.nominal
    ends = sorted({front, rear, 0.0, *(e for z in zones for e in z[:2])})
    for a, b in pairwise(e for e in ends if front <= e <= rear):
        middle = (a + b) / 2
        # An overhang past the last zone is as high as the zone it hangs from.
        over = [z[2] for z in zones if z[0] <= middle <= z[1]] or [min(zones, key=lambda z: _gap(z, middle))[2]]
        low = trailer.ahead[1] if middle < 0.0 else trailer.frame.rail_underside
        yield b - a, low.nominal, max(over)


def _gap(zone: tuple[float, float, float], x: float) -> float:
    return max(zone[0] - x, x - zone[1])


def _half_width(feet: tuple[Foot, ...], at: Mapping[str, StateMass]) -> Quantity:
    """Half the width of the narrowest pair of feet, m."""
    if not feet:
        return absent("w_h", "m", "trailer.yaml stands")
    missing = unknown({f"{f.path}.y": f.y for f in feet})
    value = np.nan if missing else min(abs(f.y.nominal) for f in feet)
    return Quantity("w_h", np.array([value]), "m", rests_on=missing, origin=feet[0].y.origin)


def larger(check: Check, path: str, title: str, now: Quantity, least: float, step: float) -> Check:
    """A failing check with the smallest larger value of one input (SI, in steps) that clears it."""
    if check.status != "fail" or not math.isfinite(least):
        return check
    then = Value(now.symbol, math.ceil(least / step - 1e-9) * step, now.unit)
    return replace(check, changes=(Change(path.replace(".yaml ", "."), title, now.nominal, then),))


def unknown(measures: Mapping[str, Measure]) -> frozenset[str]:
    """What a value made of these measures rests on: those nobody knows, by path."""
    return frozenset(f"unknown:{path}" for path, m in measures.items() if not m.known)


def stated(trials: Trials, symbol: str, measure: Measure | None, unit: str, path: str) -> Quantity:
    """A value of the spec; one left out is unknown and names its path."""
    return absent(symbol, unit, path) if measure is None else trials.given(symbol, measure, unit, path=path)


def site(model: Model, trials: Trials, field: str, symbol: str, unit: str) -> Quantity:
    """A value of the site; unknown without site.yaml or where site.yaml leaves it out."""
    if model.spec.site is None:
        return absent(symbol, unit, "site.yaml")
    value: Measure | None = getattr(model.spec.site, field)
    if value is None:
        return absent(symbol, unit, f"site.yaml {field}")
    return trials.given(symbol, value, unit, "estimate", f"site.yaml {field}")


def _over(deck: Quantity, zeta: Quantity, symbol: str) -> Quantity:
    return combine(symbol, deck.values + zeta.values, "m", (deck, zeta))
