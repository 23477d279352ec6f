"""Every part of an axle against its load and its label, and the trailer as a whole against its rating. kg, Pa, m/s."""

from collections.abc import Iterator

import numpy as np

from generator.calc.record import About, Basis, Check, Floats, Quantity, Working, combine, compare, formula, sure
from generator.calc.topics.attitude import STATION, TOLERANCE
from generator.calc.topics.ball_class import chain_least, class_check, is_ball
from generator.calc.topics.coupled import coupled
from generator.calc.topics.rating_chain import AT, TYRE_PAIR, TYRE_RULE, Link, divisor
from generator.calc.topics.road_inputs import top_speed
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.load import Reference

TYRE, WHEEL, AXLES = "trailer.running_gear.tyre.load", "trailer.running_gear.wheel.load", "trailer.running_gear.axles"


@formula("Reserve of the worst tyre", "r = 1 - 2*T_w/T_2", "%", "definition")
def RESERVE(T_w: Floats, T_2: Floats) -> Floats:
    return 1 - 2 * T_w / T_2


@formula(
    "What axles and ball carry together",
    "S = C + s_min*GVWR",
    "kg",
    "49 CFR 571.110 S9.2, 571.120 S10.2: axle ratings and least ball load together reach the trailer's rating",
)
def CARRIED(C: Floats, s_min: Floats, GVWR: Floats) -> Floats:
    return C + s_min * GVWR


def axle_checks(model: Model, link: Link, asked: Quantity, trials: Trials, data: Reference) -> Iterator[Check]:
    """Axle, tyres, wheels, hubs and brakes of one axle."""
    n, state = link.axle, link.tyre.case.loads.state.id
    words, capacity = link.governing
    gear, one = model.spec.trailer.running_gear, link.axle - 1
    w = Working()
    w(
        TYRE_PAIR,
        T=trials.given("T", gear.tyre.load, "kg", gear.tyre.basis, f"{AT}.tyre.load"),
        f=sure("f", divisor(model, data), "1", Basis.MEASURED),
    )
    yield Check(
        f"tyre.{n}.axle_rating",
        About(
            f"Tyres of axle {n} together reach its rating",
            "ratings",
            TYRE_RULE,
            "The label would be unlawful: the tyres give out before the axle does.",
            "The fabricator: which tyre and rating will stand on the label?",
            "The maker who certifies the trailer.",
            True,
            (TYRE,),
        ),
        "",
        compare(link.pair, link.parts[0][1], ">=", w),
    )
    half = combine("T", link.pair.values / 2, "kg", (link.pair,))
    yield Check(
        f"tyre.{n}.load",
        About(
            f"Worst tyre of axle {n} within its rated load",
            "ratings",
            "the load on the sidewall",
            "An overloaded tyre runs hot and bursts, often the one nobody can see.",
            "The tyre maker's load table at the cold pressure to be run.",
            "The load and pressure marked on the sidewall.",
            True,
            (TYRE, STATION, TOLERANCE),
        ),
        state,
        compare(link.tyre.value, half, "<=", Working(list(link.tyre.steps))),
    )
    yield _reserve(model, link, trials, data)
    wheel = trials.given("T", gear.wheel.load, "kg", path=f"{AT}.wheel.load")
    yield Check(
        f"wheel.{n}.tyre",
        About(
            f"Wheels of axle {n} carry the worst tyre's load",
            "ratings",
            "the wheel maker's rating",
            "A wheel over its rating cracks between the studs.",
            "The wheel maker: rated load and pressure.",
            "The wheel maker's rating.",
            True,
            (WHEEL,),
        ),
        state,
        compare(wheel, link.tyre.value, ">=", Working(list(link.tyre.steps))),
    )
    yield Check(
        f"rating.{n}.governing",
        About(
            f"Weakest part of axle {n} carries its load",
            "ratings",
            "makers' ratings; the least of a chain governs",
            f"The {words} give out first, whatever the axle's label says.",
            "The fabricator: ratings of axle, hubs, brakes, wheels and tyres as one set.",
            "The makers' ratings.",
            True,
            (f"{AXLES}.{one}.rating", f"{AXLES}.{one}.hub_rating", TYRE, WHEEL, STATION),
        ),
        link.load.case.loads.state.id,
        compare(link.load.value, capacity, "<=", Working(list(link.load.steps))),
    )
    yield Check(
        f"rating.{n}.requested",
        About(
            f"Axle {n} can be given the rating asked for",
            "ratings",
            "the project's own rule",
            f"The rating asked for cannot be certified: the {words} carry less.",
            "The fabricator: the next axle or tyre that does.",
            "The maker who certifies the trailer.",
            False,
            (f"{AXLES}.{one}.rating", f"{AXLES}.{one}.hub_rating", TYRE, WHEEL),
        ),
        "",
        compare(capacity, asked, ">=", Working()),
    )
    if gear.axles[one].brake.type != "none":
        brake = trials.given("G_b", gear.axles[one].brake.rating, "kg", path=f"{AT}.axles.{n}.brake.rating")
        yield Check(
            f"brake.{n}.rating",
            About(
                f"Brakes of axle {n} reach its rating",
                "ratings",
                "common practice, no source",
                "Brakes smaller than the axle fade on the first long hill.",
                "The axle maker: brake rating for the pair.",
                "The axle and brake maker.",
                levers=(f"{AXLES}.{one}.brake.rating",),
            ),
            "",
            compare(brake, link.parts[0][1], ">=", Working()),
        )


def _reserve(model: Model, link: Link, trials: Trials, data: Reference) -> Check:
    w, letter = Working(list(link.tyre.steps)), use_class(model, data)
    r = w(RESERVE, T_w=link.tyre.value, T_2=link.pair)
    about = About(
        f"Worst tyre of axle {link.axle} keeps the reserve of use class {letter.upper()}",
        "ratings",
        "common practice, no source",
        "The rating is met, the reserve is not: heat, speed and belongings eat the rest and tyres wear out early.",
        "The fabricator: price of the next tyre up.",
        levers=(TYRE, STATION, TOLERANCE),
    )
    return Check(
        f"tyre.{link.axle}.reserve",
        about,
        link.tyre.case.loads.state.id,
        compare(r, trials.assumed("r_min", data.defaults[f"tyre.reserve_{letter}"]), ">=", w),
    )


def use_class(model: Model, data: Reference) -> str:
    """Use class a (parked) to d (touring) by moves and distance a year, one up for gravel. Common practice."""
    use, letters = model.spec.project.use, "abcd"
    by = [
        next((i for i, c in enumerate("abc") if value <= data.defaults[f"use.{c}_{what}"].value), 3)
        for what, value in (("moves", float(use.moves_busiest)), ("distance", use.distance_a_year.nominal))
    ]
    return letters[min(max(by) + ("gravel" in use.roads), 3)]


def running_gear_checks(model: Model, trials: Trials, data: Reference) -> Iterator[Check]:
    """What all wheels and tyres share: pressure and speed."""
    gear = model.spec.trailer.running_gear
    inflated = trials.given("p", gear.tyre.pressure, "Pa", gear.tyre.basis, f"{AT}.tyre.pressure")
    yield Check(
        "wheel.pressure",
        About(
            "Wheels take the tyres' pressure",
            "ratings",
            "the wheel maker's rating",
            "A rim over its pressure fails while somebody kneels beside it.",
            "The wheel maker: rated cold pressure.",
            "The wheel maker's rating.",
            True,
            ("trailer.running_gear.wheel.pressure",),
        ),
        "",
        compare(trials.given("p_w", gear.wheel.pressure, "Pa", path=f"{AT}.wheel.pressure"), inflated, ">=", Working()),
    )
    use = model.spec.project.use
    if "highway" in use.roads or use.top_speed is not None:
        yield Check(
            "tyre.speed",
            About(
                f"Tyres are rated for {'highway speed' if use.top_speed is None else 'the top speed stated'}",
                "ratings",
                "tyre makers' guides",
                "Special-trailer tyres overheat above the speed they are made for.",
                "Whoever tows: keep below the speed of the tyre, always.",
                "The speed marked on the sidewall.",
            ),
            "",
            compare(
                tyre_speed(model, trials), top_speed(model, trials, data).named("v_min"), ">=", Working()
            ),
        )


def trailer_checks(
    model: Model, gvwr: Quantity, chain: tuple[Link, ...], trials: Trials, data: Reference
) -> Iterator[Check]:
    """The trailer rating asked for against axles, coupler and chains."""
    w, coupling, chains = Working(), model.spec.trailer.coupling, model.spec.trailer.chains
    words, chain_w = coupled(model), Working()
    chain_limit = chain_least(chain_w, gvwr, trials, data) if is_ball(model) else gvwr
    least = [link.governing[1] for link in chain]
    together = combine("C", np.sum(np.broadcast_arrays(*[q.values for q in least]), axis=0), "kg", least)
    S = w(CARRIED, C=together, s_min=trials.assumed("s_min", data.defaults[words.share_low]), GVWR=gvwr)
    yield Check(
        "rating.gvwr.carried",
        About(
            f"Axles and {words.on} together reach the trailer rating asked for",
            "ratings",
            CARRIED.source,
            "The trailer cannot lawfully be given the rating it needs.",
            "The fabricator: the axle and tyre set that reaches it.",
            "The maker who certifies the trailer.",
            True,
            (f"{AXLES}.*.rating", TYRE),
        ),
        "",
        compare(S, gvwr, ">=", w),
    )
    yield Check(
        "coupler.rating",
        About(
            f"{words.part.capitalize()} is rated for the trailer",
            "ratings",
            f"the {words.part} maker's rating",
            f"The {words.part} is the first part that must not fail.",
            f"The {words.part} maker: gross rating with this {words.on}.",
            f"The {words.part} maker's rating.",
            True,
            ("trailer.coupling.rating",),
        ),
        "",
        compare(trials.given("C_r", coupling.rating, "kg", path="trailer.yaml coupling.rating"), gvwr, ">=", Working()),
    )
    yield Check(
        "chain.strength",
        About(
            "Each safety chain holds the whole trailer",
            "ratings",
            "the stricter of the rules read: NH RSA 266:63 asks it of each chain, 49 CFR 393.70(d) of the set",
            "If the coupler lets go, the chains are what is left.",
            "The law of each state on the route.",
            "The law in force on the route; the chain maker's mark.",
            True,
            ("trailer.chains.breaking",),
        ),
        "",
        compare(trials.given("B_c", chains.breaking, "kg", path="trailer.yaml chains.breaking"), chain_limit, ">=",
                chain_w),
    )
    if is_ball(model):
        yield class_check(gvwr, trials, data)


def tyre_speed(model: Model, trials: Trials) -> Quantity:
    """Speed the tyres are made for, m/s."""
    tyre = model.spec.trailer.running_gear.tyre
    return trials.given("v", tyre.speed, "m/s", tyre.basis, f"{AT}.tyre.speed")
