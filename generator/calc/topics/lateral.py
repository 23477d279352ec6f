"""The lateral chain from hub faces to the outside of the tyres, gaps beside and between tyres, and the width limits."""

import re
from collections.abc import Iterator

import numpy as np

from generator.calc.findings import Chain, ChainStep
from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics.limits import least_limit
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference

ASK_SHOP = "The fabricator and the axle maker, before the axles are ordered."


MARK = re.compile(r"([0-9]{3})/([0-9]{2,3}) ?[RBD-]? ?([0-9]{2}(?:\.5)?)")
"""A size mark: section width in mm, height as a percentage of it, rim in inches."""


@formula("Stated diameter against the size mark", "b = max(D, D_m)/min(D, D_m) - 1", "%", "plausibility")
def MISMATCH(D: Floats, D_m: Floats) -> Floats:
    return np.maximum(D, D_m) / np.minimum(D, D_m) - 1


@formula(
    "Track, middle of tyre to middle of tyre", "t = h_f - 2*o", "m", "wheel offset, mounting face outboard positive"
)
def TRACK(h_f: Floats, o: Floats) -> Floats:
    return h_f - 2 * o


@formula("Outside of the tyres", "w_o = t + w_t", "m", "lateral chain")
def OUTSIDE(t: Floats, w_t: Floats) -> Floats:
    return t + w_t


@formula("Tyre to rail, each side", "g = (t - w_t - w_r)/2", "m", "lateral chain")
def RAIL_GAP(t: Floats, w_t: Floats, w_r: Floats) -> Floats:
    return (t - w_t - w_r) / 2


@formula("Tyre to wheel box, each side", "g = (t - w_t)/2 - b_i", "m", "lateral chain")
def BOX_SIDE_GAP(t: Floats, w_t: Floats, b_i: Floats) -> Floats:
    return (t - w_t) / 2 - b_i


@formula("Tyre to tyre, along the trailer", "g_t = s_a - D", "m", "axle spacing less the tyre's diameter")
def TYRE_GAP(s_a: Floats, D: Floats) -> Floats:
    return s_a - D


@dataclass(frozen=True, slots=True)
class Lateral:
    """What this topic found, with the chain the sheets draw."""

    findings: Findings
    chain: Chain


def lateral(model: Model, trials: Trials, data: Reference) -> Lateral:
    """Track, outside of tyres and gaps (m), against the route's least width limit."""
    tyre = model.spec.trailer.running_gear.tyre
    w = Working()
    tracks = _tracks(w, model, trials)
    width = trials.given("w_t", tyre.section_width, "m", tyre.basis, "trailer.yaml running_gear.tyre.section_width")
    wide, narrow = _extreme(tracks, np.maximum), _extreme(tracks, np.minimum)
    outside = w(OUTSIDE, t=wide, w_t=width)
    rails = trials.given("w_r", model.spec.trailer.frame.rails_outside, "m", path="trailer.yaml frame.rails_outside")
    rail_gap = w(RAIL_GAP, t=narrow, w_t=width, w_r=rails)
    limit_working = Working()
    limit = least_limit(limit_working, model.spec.project.use.regions, data, "width")
    house = trials.given("w_h", model.spec.house.width, "m", path="house.yaml width")
    widths = Working([*w.steps, *limit_working.steps])
    checks = (
        Check(
            "width.tyres",
            _width("Outside of the tyres within the width limit", limit),
            "",
            compare(outside, limit, "<=", widths),
        ),
        Check(
            "width.house",
            _width("Widest part of the house within the width limit", limit),
            "",
            compare(house, limit, "<=", Working(list(limit_working.steps))),
        ),
        Check(
            "tyre.rail_gap",
            _RAIL,
            "",
            compare(rail_gap, trials.assumed("g_min", data.defaults["tyre.rail_gap"]), ">=", w),
        ),
        *_box_checks(model, narrow, width, trials, data),
        *_spacing_checks(model, trials, data),
        _diameter_check(model, trials, data),
    )
    quantities = (
        report("width.track", "Track", wide, fixed_by_welding=True),
        report("width.tyres", "Outside of the tyres", outside, "up", fixed_by_welding=True),
        report("width.house", "Widest part of the house", house, "up"),
        report("width.limit", "Least width limit of the route", limit, "down"),
        report("tyre.rail_gap", "Tyre to rail, each side", rail_gap, "down"),
    )
    return Lateral(Findings(quantities, checks), _chain(rails, width, outside, limit))


def marked_diameter(size: str) -> float | None:
    """Outside diameter (m) by the size mark of a tyre: rim and twice the section height; None without such a mark."""
    mark = MARK.search(size)
    if mark is None:
        return None
    width, aspect, rim = map(float, mark.groups())
    return rim * 0.0254 + 2 * width / 1000 * aspect / 100


def _diameter_check(model: Model, trials: Trials, data: Reference) -> Check:
    tyre, w = model.spec.trailer.running_gear.tyre, Working()
    marked = marked_diameter(tyre.size)
    if marked is None:
        return Check(
            "tyre.diameter", _SIZE, "", Missing(("trailer.yaml running_gear.tyre.size: no mark like 235/80R16",))
        )
    stated = trials.given("D", tyre.diameter, "m", tyre.basis, "trailer.yaml running_gear.tyre.diameter")
    off = w(MISMATCH, D=stated, D_m=sure("D_m", marked, "m"))
    return Check(
        "tyre.diameter", _SIZE, "", compare(off, trials.assumed("b_max", data.defaults["tyre.diameter_band"]), "<=", w)
    )


def _tracks(w: Working, model: Model, trials: Trials) -> tuple[Quantity, ...]:
    gear, at = model.spec.trailer.running_gear, "trailer.yaml running_gear"
    offset = trials.given("o", gear.wheel.offset, "m", path=f"{at}.wheel.offset")
    faces = (trials.given("h_f", a.hub_face, "m", path=f"{at}.axles.{n}.hub_face") for n, a in enumerate(gear.axles, 1))
    return tuple(w(TRACK, h_f=face, o=offset) for face in faces)


def _extreme(tracks: tuple[Quantity, ...], pick: np.ufunc) -> Quantity:
    return combine("t", pick.reduce(np.broadcast_arrays(*[t.values for t in tracks])), "m", tracks)


def _spacing_checks(model: Model, trials: Trials, data: Reference) -> Iterator[Check]:
    gear = model.spec.trailer.running_gear
    if len(gear.axles) < 2:
        return
    w = Working()
    diameter = trials.given("D", gear.tyre.diameter, "m", gear.tyre.basis, "trailer.yaml running_gear.tyre.diameter")
    gap = w(TYRE_GAP, s_a=trials.given("s_a", gear.spacing, "m", path="trailer.yaml running_gear.spacing"), D=diameter)
    yield Check("tyre.gap", _BETWEEN, "", compare(gap, trials.assumed("g_min", data.defaults["tyre.gap"]), ">=", w))


def _box_checks(model: Model, track: Quantity, width: Quantity, trials: Trials, data: Reference) -> Iterator[Check]:
    for n, box in enumerate(model.spec.trailer.wheel_boxes, start=1):
        w = Working()
        inside = trials.given("b_i", box.inside, "m", path=f"trailer.yaml wheel_boxes.{n}.inside")
        gap = w(BOX_SIDE_GAP, t=track, w_t=width, b_i=inside)
        least = trials.assumed("g_min", data.defaults["tyre.box_gap"])
        yield Check(f"box.{n}.side", _BESIDE, "", compare(gap, least, ">=", w))


def _chain(rails: Quantity, width: Quantity, outside: Quantity, limit: Quantity) -> Chain:
    """Across the widest axle, from outside to outside, m."""
    rail, tyre, total, bound = (float(q.values[0]) for q in (rails, width, outside, limit))
    g = (total - rail) / 2 - tyre
    steps = (
        ChainStep("Left tyre", tyre, "tyre data"),
        ChainStep("Tyre to rail, left", g, "worked out"),
        ChainStep("Rails, outside to outside", rail, "as stated"),
        ChainStep("Tyre to rail, right", g, "worked out"),
        ChainStep("Right tyre", tyre, "tyre data"),
    )
    return Chain("lateral", "Lateral chain at the axles", "", steps, total, bound if np.isfinite(bound) else None)


def _width(title: str, limit: Quantity) -> About:
    return About(
        title=title,
        topic="lateral",
        source=limit.origin or "width limits of the route",
        concern="A vehicle wider than the limit needs a permit for every move.",
        ask="The permit office of each region, and what it leaves out of the width (lamps, gutters, awnings).",
        defer_to="The law in force in each region.",
        mandatory=True,
        levers=("trailer.running_gear.wheel.offset", "house.width"),
    )


_RAIL = About(
    title="Tyre clear of the rail",
    topic="lateral",
    source="common practice, no source",
    concern="A tyre that bulges under load or carries mud rubs the frame.",
    ask=ASK_SHOP,
    defer_to="The tyre maker's section width and the axle maker's drawing.",
    levers=("trailer.frame.rails_outside", "trailer.running_gear.wheel.offset"),
)
_BESIDE = About(
    title="Tyre clear of the inner face of its box",
    topic="lateral",
    source="common practice, no source",
    concern="The tyre rubs through the box in a turn.",
    ask=ASK_SHOP,
    defer_to="The axle maker's drawing.",
    levers=("trailer.wheel_boxes.inside",),
)
_BETWEEN = About(
    title="Room between the tyres of neighbouring axles",
    topic="lateral",
    source="common practice, no source",
    concern="Hot tyres grow, and a stone or chain between two tyres destroys both.",
    ask=ASK_SHOP,
    defer_to="The tyre maker's growth allowance.",
    levers=("trailer.running_gear.spacing",),
)
_SIZE = About(
    title="Stated tyre diameter fits its size mark",
    topic="lateral",
    source="size mark: rim plus twice width times aspect",
    concern="A tyre of another size is drawn, and every height and gap with it.",
    ask="The tyre maker's data sheet.",
    levers=("trailer.running_gear.tyre.diameter",),
)
