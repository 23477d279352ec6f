"""Trailers nobody wrote: the examples and starters with other couplings, decks, running gear, axles and sizes."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import strategies as st
from pydantic import BaseModel

from generator.calc.run import NO_LEVERS, calculate
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.release.cut import cut
from generator.release.slices import Desk
from generator.spec.measure import Measure
from generator.spec.models.spec import Spec
from generator.spec.read import parse_source, read_spec
from generator.spec.starting import TYPES, _source

SPECS = Path(__file__).resolve().parents[3] / "specs"
BASES = ("heron", "wren", "dipper", *TYPES)
ALONG = frozenset({"station", "stations", "front", "rear", "spacing", "rearmost", "foremost", "anchor_station", "from_",
                   "x", "ball_to_rear"})
ACROSS = frozenset({"y", "width", "rails_outside", "hub_face", "bracket_spacing", "inside"})
"""Fields that are measured along and across the trailer, wherever they stand."""
OWN = {"Frame": {"length": "along"}, "Tyre": {"diameter": "tyre", "section_width": "tyre"},
       "Zone": {"headroom": "up"}, "RoofPoint": {"height": "up"}}
"""Fields whose name alone does not tell."""
SIZES = frozenset({"Opening", "Surface", "WeightItem", "Tank", "Drain", "Loft", "Climb", "Alarm", "Layer", "Buildup"})
"""Parts of house and load that stay as they are: the sheets do not show them."""


@dataclass(frozen=True)
class Recipe:
    """What one trailer is made of: base, running gear of which base, how many axles fewer, factors of size, paper."""

    base: str
    gear: str
    fewer: int
    along: float
    across: float
    up: float
    tyre: float
    units: str


def _rounded(low: float, high: float) -> st.SearchStrategy[float]:
    return st.integers(round(low * 200), round(high * 200)).map(lambda n: n / 200)


RECIPES = st.builds(
    Recipe, st.sampled_from(BASES), st.sampled_from(BASES), st.integers(0, 2), _rounded(0.6, 1.15), _rounded(0.9, 1.05),
    _rounded(0.85, 1.05), _rounded(0.9, 1.05), st.sampled_from(("us", "si")),
)


@cache
def spec_of(base: str) -> Spec:
    """A design as written: an example or a starter."""
    return parse_source(_source(base)) if base in TYPES else read_spec(SPECS / base)


def desk_of(recipe: Recipe) -> Desk:
    """The owner's slices of the trailer of a recipe, at nominal values."""
    model = resolve(spec_made(recipe), reference())
    results = calculate(model, reference(), Trials(count=0), levers=NO_LEVERS)
    return cut(model, results, reference(), "owner", "0123456789ab", recipe.units)


def spec_made(recipe: Recipe) -> Spec:
    """The spec of a recipe: running gear of the other base at the station of this one, everything then resized."""
    spec, other = spec_of(recipe.base), spec_of(recipe.gear)
    own, theirs = spec.trailer.running_gear, other.trailer.running_gear
    kept = {n: getattr(own, n) for n in ("station", "rearmost", "foremost", "stops", "station_step")}
    axles = theirs.axles[: max(1, len(theirs.axles) - recipe.fewer)]
    gear = theirs.model_copy(update={**kept, "axles": axles})
    factors = {"along": recipe.along, "across": recipe.across, "up": recipe.up, "tyre": recipe.tyre}
    trailer = _resized(spec.trailer.model_copy(update={"running_gear": gear}), factors)
    if spec.trailer.tongue is not None:
        # A leg at an angle keeps its place: resized one way only, it would not meet its fellow.
        trailer = trailer.model_copy(update={"tongue": spec.trailer.tongue, "coupling": spec.trailer.coupling})
    return replace(spec, trailer=trailer, house=_resized(spec.house, factors))


def _resized(part: Any, factors: Mapping[str, float]) -> Any:
    if type(part).__name__ in SIZES:
        return part
    changed = {}
    for name in type(part).model_fields:
        value = getattr(part, name)
        made = _field(part, name, value, factors)
        if made is not value:
            changed[name] = made
    return part.model_copy(update=changed) if changed else part


def _field(part: Any, name: str, value: Any, factors: Mapping[str, float]) -> Any:
    if isinstance(value, Measure):
        way = _way(part, name)
        return value if way is None else _times(value, factors[way])
    if isinstance(value, BaseModel):
        return _resized(value, factors)
    if isinstance(value, tuple):
        return tuple(_field(part, name, v, factors) if isinstance(v, Measure) else
                     _resized(v, factors) if isinstance(v, BaseModel) else v for v in value)
    return value


def _way(part: Any, name: str) -> str | None:
    kind = type(part).__name__
    if name in OWN.get(kind, {}):
        return OWN[kind][name]
    if kind == "Member" and name in ("start", "end"):
        return {"lengthwise": "along", "crosswise": "across"}.get(part.run)
    return "along" if name in ALONG else "across" if name in ACROSS else None


def _times(m: Measure, by: float) -> Measure:
    return m if math.isnan(m.nominal) else replace(m, nominal=m.nominal * by, low=m.low * by, high=m.high * by)
