"""Ratings: the chain of each axle, the ratings to ask the fabricator for, and what is left for cargo. kg."""

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.calc.findings import RatingRow
from generator.calc.record import (
    Basis,
    Findings,
    Floats,
    Quantity,
    Reported,
    Working,
    combine,
    formula,
    report,
    spread,
    sure,
)
from generator.calc.topics.attitude import Attitudes
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.ball_class import is_ball, proof_loads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.masses import DESIGN, StateMass
from generator.calc.topics.rating_chain import Link, link_of
from generator.calc.topics.rating_checks import axle_checks, running_gear_checks, trailer_checks, tyre_speed
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference


@formula(
    "Least axle rating for the trailer's rating",
    "G_m = (1 - s_min)*GVWR/n",
    "kg",
    "49 CFR 571.110 S9.2, 571.120 S10.2: axle ratings and least ball load together reach the trailer's rating",
)
def MEAN_GAWR(s_min: Floats, GVWR: Floats, n: Floats) -> Floats:
    return (1 - s_min) * GVWR / n


@formula("Left for cargo", "c = GVWR - W_dry", "kg", "requested rating less the finished, empty house")
def CARGO(GVWR: Floats, W_dry: Floats) -> Floats:
    return GVWR - W_dry


@dataclass(frozen=True, slots=True)
class Heavier:
    """What a rating is asked for over the nominal: the high side of gross mass and of each axle's load, as ratios.

    The nominal design alone has no spread; it takes these from the trials, so that both ask for the same ratings.
    """

    gross: float
    axles: tuple[float, ...]


NO_HEAVIER = Heavier(1.0, ())
"""The nominal design by itself."""


@dataclass(frozen=True, slots=True)
class Ratings:
    """What this topic found, with the rows the tables need."""

    findings: Findings
    rows: tuple[RatingRow, ...]
    chain: tuple[Link, ...]
    gvwr: Quantity
    """The trailer rating to ask for, kg."""
    heavier: Heavier


def ratings(
    model: Model,
    at: Mapping[str, StateMass],
    loads: Mapping[str, StateLoads],
    found: Attitudes,
    trials: Trials,
    data: Reference,
    heavier: Heavier = NO_HEAVIER,
) -> Ratings:
    """Chain of ratings per axle, worst tyres and their reserve, requested ratings and cargo left (kg)."""
    chain = tuple(
        link_of(model, n, loads[DESIGN], found, trials, data)
        for n in range(1, len(model.spec.trailer.running_gear.axles) + 1)
    )
    gvwr, asked, requested = _requested(model, at, chain, heavier, trials, data)
    checks = (
        *(c for link in chain for c in axle_checks(model, link, asked[link.axle - 1], trials, data)),
        *running_gear_checks(model, trials, data),
        *trailer_checks(model, gvwr, chain, trials, data),
    )
    quantities = (
        *requested,
        *(proof_loads(gvwr, trials, data) if is_ball(model) else ()),
        *(r for link in chain for r in _reported(link)),
        report("tyre.speed_cap", "Speed the tyres are rated for", tyre_speed(model, trials), "down"),
    )
    return Ratings(Findings(quantities, checks), tuple(_row(link) for link in chain), chain, gvwr,
                   heavier if trials.count == 0 else _heavier(at, chain))


def _heavier(at: Mapping[str, StateMass], chain: Sequence[Link]) -> Heavier:
    towed = [m.mass for m in at.values() if m.state.towed]
    gross = _over(max(_high(q) for q in towed), max(float(q.values[0]) for q in towed))
    return Heavier(gross, tuple(_over(_high(x.load.value), float(x.load.value.values[0])) for x in chain))


def _reported(link: Link) -> Iterator[Reported]:
    words, capacity = link.governing
    yield report(f"rating.{link.axle}.governing", f"Axle {link.axle}, least rating of its chain ({words})", capacity)
    yield report(f"tyre.{link.axle}.capacity", f"Axle {link.axle}, load its tyres may carry", link.pair)
    yield report(
        f"tyre.{link.axle}.worst", f"Axle {link.axle}, worst tyre, everything unfavourable together", link.tyre.value
    )


def _row(link: Link) -> RatingRow:
    words, capacity = link.governing
    return RatingRow(
        link.axle,
        float(link.level.values[0]),
        float(link.load.value.values[0]),
        tuple((name, float(q.values[0])) for name, q in link.parts),
        words,
        float(capacity.values[0]),
    )


def _requested(
    model: Model, at: Mapping[str, StateMass], chain: tuple[Link, ...], heavier: Heavier, trials: Trials,
    data: Reference,
) -> tuple[Quantity, tuple[Quantity, ...], tuple[Reported, ...]]:
    step = data.defaults[f"rating.step_{model.spec.project.units}"].value
    towed = [m.mass for m in at.values() if m.state.towed]
    gross = max(_high(q, heavier.gross) for q in towed)
    gvwr = combine("GVWR", np.array([_up(gross, step)]), "kg", towed)
    s_min = trials.assumed("s_min", data.defaults[coupled(model).share_low])
    mean = Working()(MEAN_GAWR, s_min=s_min, GVWR=gvwr, n=sure("n", float(len(chain)), "1", Basis.MEASURED))
    least = tuple(
        combine(
            "GAWR",
            np.array([_up(max(_high(link.load.value, over), float(mean.values[0])), step)]),
            "kg",
            (link.load.value, mean),
        )
        for link, over in zip(chain, heavier.axles or (1.0,) * len(chain), strict=False)
    )
    asked = tuple(_asked(link, q) for link, q in zip(chain, least, strict=True))
    cargo = Working()(CARGO, GVWR=gvwr, W_dry=at["dry"].mass)
    rows = (
        report("rating.gvwr.requested", "Trailer rating (GVWR) to ask for", gvwr, "up", True),
        *(
            report(f"rating.gawr.{n}.requested", f"Axle {n} rating (GAWR) to ask for", q, "up", True)
            for n, q in enumerate(asked, start=1)
        ),
        *(
            report(f"rating.gawr.{n}.least", f"Axle {n}, least rating (GAWR) that would do", q, "up")
            for n, q in enumerate(least, start=1)
        ),
        report("rating.cargo", "Left for cargo under the rating asked for", cargo),
    )
    return gvwr, asked, rows


def _asked(link: Link, least: Quantity) -> Quantity:
    """The rating of the axle as scheduled, or the least that would do where that is more."""
    axle = link.parts[0][1]
    return combine("GAWR", np.array([np.maximum(axle.values[0], least.values[0])]), "kg", (axle, least))


def _high(q: Quantity, heavier: float = 1.0) -> float:
    """The value that 95 % of the trials stay under; without trials the nominal times what trials made of it."""
    return spread(q.values[1:])[1] if q.values.size > 1 else float(q.values[0]) * heavier


def _over(high: float, nominal: float) -> float:
    return high / nominal if nominal > 0.0 and np.isfinite(high) else 1.0


def _up(value: float, step: float) -> float:
    """Rounded up to the step; a hair of floating-point noise does not cost a step."""
    return math.ceil(value / step - 1e-9) * step if math.isfinite(value) else math.nan
