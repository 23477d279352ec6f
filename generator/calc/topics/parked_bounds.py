"""The trailer parked: how light and how heavy it may be, what the wind sees of it, and the feet it stands on.

Overturning takes every item at its low bound, stands and pads take every item at its high bound. kg, m, m2.
"""

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

import numpy as np

from generator.calc.record import Change, Check, Floats, Quantity, Step, Value, Working, combine, formula
from generator.calc.topics.masses import StateMass
from generator.calc.topics.optional import absent
from generator.calc.topics.rides import DESIGN, Ride
from generator.calc.topics.side_area import SIDE_HEIGHT, side
from generator.calc.trials import Trials
from generator.model.types import Item, Model
from generator.records import dataclass
from generator.spec.measure import Measure

LIGHT, HEAVY, BARE = "parked_light", "parked_heavy", "bare"
ENGINEER = "a licensed engineer, the anchor maker's tests and the local building official"


@formula("Top of the house above ground", "z_t = z_d + zeta_t", "m", "height chain")
def TOP_HEIGHT(z_d: Floats, zeta_t: Floats) -> Floats:
    return z_d + zeta_t


@formula("Underside of the frame above ground", "z_s = z_d + zeta_r", "m", "height chain")
def UNDER_HEIGHT(z_d: Floats, zeta_r: Floats) -> Floats:
    return z_d + zeta_r


@formula("Roof in plan", "A_r = l_h*w_o", "m2", "length and width of the house")
def ROOF(l_h: Floats, w_o: Floats) -> Floats:
    return l_h * w_o


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
    steps: Mapping[str, tuple[Step, ...]]
    """How side, centre, top, roof, half width and underside were worked out, by these names."""


def parked_of(model: Model, at: Mapping[str, StateMass], rides: Mapping[str, Ride], trials: Trials) -> Parked:
    """The parked house, its deck as high as in the travel state."""
    deck, feet, seen = rides[DESIGN].deck, feet_of(model), side(model)
    under = model.spec.trailer.frame.rail_underside
    rail = trials.given("zeta_r", under, "m", path="trailer.yaml frame.rail_underside")
    made = {name: Working() for name in ("centre", "top", "roof", "half", "underside")}
    return Parked(
        low=bound(model, at, LIGHT, "low"),
        high=bound(model, at, HEAVY, "high"),
        y=at[LIGHT].y,
        deck=deck,
        underside=made["underside"](UNDER_HEIGHT, z_d=deck, zeta_r=rail),
        side=seen.area,
        centre=made["centre"](SIDE_HEIGHT, z_d=deck, zeta=seen.zeta),
        top=made["top"](TOP_HEIGHT, z_d=deck, zeta_t=seen.top),
        roof=_roof(made["roof"], model),
        half=_half_width(made["half"], feet),
        feet=feet,
        steps={"side": seen.steps, **{name: tuple(w.steps) for name, w in made.items()}},
    )


def _roof(w: Working, model: Model) -> Quantity:
    """Plan of the roof, m2."""
    house = model.spec.house
    long = unknown({"house.yaml front": house.front, "house.yaml rear": house.rear})
    wide = unknown({"house.yaml width": house.width})
    length = Quantity("l_h", np.array([np.nan if long else house.rear.nominal - house.front.nominal]), "m",
                      rests_on=long)
    width = Quantity("w_o", np.array([house.width.nominal]), "m", rests_on=wide, origin=house.width.origin)
    return w(ROOF, l_h=length, w_o=width)


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


def _half_width(w: Working, feet: tuple[Foot, ...]) -> Quantity:
    """Half the width of the narrowest pair of feet, m."""
    if not feet:
        return absent("w_h", "m", "trailer.yaml stands")
    missing = unknown({f"{f.path}.y": f.y for f in feet})
    value = np.nan if missing else min(abs(f.y.nominal) for f in feet)
    half = Quantity("w_h", np.array([value]), "m", rests_on=missing, origin=feet[0].y.origin)
    words = ", ".join(f.title.lower() for f in feet)
    narrowest = f"The narrowest pair of {words}."
    return w.procedure("Half the width on which the house stands", narrowest, "stated", half, ())


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
