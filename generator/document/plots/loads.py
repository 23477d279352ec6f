"""Plots of masses and loads: groups, centres, ratings, tyres, jacks, and what makes the spread."""

import math
from collections.abc import Iterator
from itertools import groupby

from generator.calc.findings import JackRecord, RatingRow, StateRow
from generator.calc.record import Check, Compared
from generator.document.plots.chart import Axis, Bar, Bars, Curves, Rule, Spot, factor, steps
from generator.document.section import Context
from generator.release.slices import Masses, Numbers, RoadLoads, Scale, Steel
from generator.units import Show

FEW = 2
"""Fewer rows than this need no plot."""


def groups(masses: Masses, context: Context) -> Bars | None:
    """Mass of each group as towed with its spread, kg, heaviest first."""
    show = context.show
    known = [g for g in masses.groups if math.isfinite(g.mass)]
    if len(known) < FEW:
        return None
    rows = tuple(Bar(_named(g.group), g.mass, show(g.mass, "kg"), g.low, g.high)
                 for g in sorted(known, key=lambda g: (-g.mass, g.group)))
    return Bars("Mass by group, as towed", rows, key="Thin line: nine in ten lie within.")


def centres(loads: RoadLoads, context: Context) -> Curves | None:
    """Mass (kg) over the station of the centre of mass (m) in every load state; towed states are filled."""
    known = [s for s in loads.states if math.isfinite(s.mass) and math.isfinite(s.x)]
    if len(known) < FEW:
        return None
    show, ends = context.show, [q for q in loads.centres if math.isfinite(q.nominal)]
    stations = steps([*(s.x for s in known), *(q.nominal for q in ends)], factor(show, "m"), 5)
    masses = steps([v for s in known for v in (s.mass, s.mass_low, s.mass_high)], factor(show, "kg"), 5)
    return Curves(
        "Where the centre of mass stands, state by state",
        Axis("station of the centre, aft of datum A; filled: states that are towed",
             tuple((x, show(x, "m")) for x in stations)),
        Axis("mass, with nine in ten", tuple((m, show(m, "kg")) for m in masses)),
        spots=tuple(Spot(s.x, s.mass, _state(s, show), s.mass_low, s.mass_high, is_open=not s.towed) for s in known),
        bounds=tuple((q.nominal, f"{_END[q.id]} {show(q.nominal, 'm')}") for q in ends if q.id in _END),
    )


_END = {"centre.foremost": "most on the hitch", "centre.rearmost": "least on the hitch"}
"""What closes the stations of the centre of mass, towed."""


def _state(s: StateRow, show: Show) -> str:
    return f"{s.title}, {show.percent(s.share)} on the hitch" if s.towed and s.share is not None else s.title


def ratings(loads: RoadLoads, context: Context) -> Bars | None:
    """What each part of an axle may carry (kg) against its load; axles with the same parts share their bars."""
    known = [r for r in loads.ratings if all(math.isfinite(v) for v in (r.load, r.load_worst, *dict(r.parts).values()))]
    if not known or len(known) < len(loads.ratings):
        return None
    rows: list[Bar] = []
    rules: list[Rule] = []
    for _, held in groupby(known, key=lambda r: r.parts):
        alike = list(held)
        worst = max(alike, key=lambda r: r.load_worst)
        rows.append(Bar(f"{_axles(alike)}, worst {context.show(worst.load_worst, 'kg')}"))
        first = len(rows)
        rows += [Bar(_named(name), value, context.show(value, "kg")) for name, value in worst.parts]
        rules += [Rule(worst.load_worst, first, len(rows) - 1),
                  Rule(max(r.load for r in alike), first, len(rows) - 1, is_soft=True)]
    return Bars("What each part may carry, axle by axle", tuple(rows), tuple(rules),
                "Line: load in the worst state. Dashed: loaded for the road.")


def _axles(rows: list[RatingRow]) -> str:
    numbers = [str(r.axle) for r in rows]
    return f"Axle {numbers[0]}" if len(numbers) == 1 else f"Axles {', '.join(numbers[:-1])} and {numbers[-1]}"


def tyres(numbers: Numbers, context: Context) -> Bars | None:
    """Share of its rated load that the worst tyre of each axle keeps, against the reserve asked for."""
    rows = tuple(_reserve(c, context.show) for c in numbers.checks if _is_reserve(c))
    if not rows:
        return None
    return Bars("Reserve of the worst tyre", rows, key="Heavy tick: least reserve asked for by the use class.")


def _is_reserve(check: Check) -> bool:
    topic, _, rest = check.id.partition(".")
    return topic == "tyre" and rest.endswith(".reserve") and isinstance(check.outcome, Compared)


def _reserve(check: Check, show: Show) -> Bar:
    outcome = check.outcome
    assert isinstance(outcome, Compared)
    kept, least = outcome.demand.value, outcome.limit.value
    return Bar(f"Axle {check.id.split('.')[1]}", kept, f"{show.percent(kept)} of {show.percent(least)}", tick=least)


def jacks(steel: Steel, context: Context) -> Bars | None:
    """Worst leg, what one leg must be rated to lift, and what it is rated for (kg); effort in the headings."""
    rows = tuple(row for j in steel.jacks for row in _jack(j, context.show))
    if not rows or not all(math.isfinite(r.value) or r.is_heading for r in rows):
        return None
    return Bars("Jacks: load of one leg and its rating", rows, key="Heavy tick: what the leg is rated for.")


def _jack(j: JackRecord, show: Show) -> Iterator[Bar]:
    effort = "" if j.crank_force is None else f": {show(j.crank_force, 'N:force')} at the crank"
    yield Bar(f"{j.title}{effort}")
    for name, load, rating in (("Lifting, with reserve", j.rating_needed, j.lift_rating),
                               ("Standing, worst leg", j.load_leg_worst, j.static_rating)):
        if math.isfinite(load):
            yield Bar(name, load, f"{show(load, 'kg')} of {show(rating, 'kg')}", tick=rating)


def drivers(scale: Scale, context: Context) -> Bars | None:
    """Share of each item in the spread of the results; what pulls the other way stands left of nought."""
    rows: list[Bar] = []
    for of in scale.drivers:
        rows.append(Bar(f"{of.title}, ±{context.show(of.deviation, 'kg')}"))
        rows += [Bar(i.title, i.share, context.show.percent(i.share)) for i in of.items if math.isfinite(i.share)]
    return Bars("What makes the spread", tuple(rows)) if len(rows) > FEW else None


def _named(word: str) -> str:
    return word[:1].upper() + word[1:].replace("_", " ")
