"""Pads under the parked house: size and pressure against what the ground bears, wind included. N/m2, m, kg."""

from collections.abc import Iterator

import numpy as np

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
from generator.calc.topics.optional import absent
from generator.calc.topics.parked_bounds import HEAVY, Parked, larger, site, stated
from generator.calc.topics.parked_wind import COMBINED, Wind
from generator.calc.topics.stands import FootLoad, Stood, titled
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference

SOILS = {
    "rock": "pad.soil_rock",
    "gravel": "pad.soil_gravel",
    "sand": "pad.soil_sand",
    "clay": "pad.soil_clay",
}
"""Presumptive bearing by soil; fill, organic and unknown soil have none."""


@formula("Side of a square pad", "a = sqrt(9.80665*m_f/q_a)", "m", "load over bearing, pad's own weight left out")
def PAD_SIDE(m_f: Floats, q_a: Floats) -> Floats:
    return np.sqrt(G * m_f / q_a)


@formula("Pressure under a pad", "p = 9.80665*m_f/a**2", "N/m2", "load over area, pad's own weight left out")
def PAD_PRESSURE(m_f: Floats, a: Floats) -> Floats:
    return G * m_f / a**2


@formula("Side of a square pad, with the wind", "a = sqrt(9.80665*m_v/q_a)", "m", "load over bearing")
def WINDY_SIDE(m_v: Floats, q_a: Floats) -> Floats:
    return np.sqrt(G * m_v / q_a)


@formula("Pressure under the pad of a leeward foot", "p = 9.80665*m_v/a**2", "N/m2", "load over area")
def WINDY_PRESSURE(m_v: Floats, a: Floats) -> Floats:
    return G * m_v / a**2


@formula("Leeward foot in the wind", "m_v = m_f + M_o/(9.80665*2*w_h*n)", "kg", "statics, leeward feet alike")
def WIND_ADDED(m_f: Floats, M_o: Floats, w_h: Floats, n: Floats) -> Floats:
    return m_f + M_o / (G * 2 * w_h * n)


def pads(model: Model, parked: Parked, found: Stood, wind: Wind, trials: Trials, data: Reference) -> Findings:
    """Each pad against the ground, the worst one with the wind added, and the bearing against its table."""
    bearing = _bearing(model, trials)
    rows = [
        row
        for x in found.feet
        for row in (
            report(f"pad.{x.foot.id}.side", f"{x.foot.title}, side of a square pad under one foot, without wind",
                   Working()(PAD_SIDE, m_f=x.worst, q_a=bearing), "up"),
            report(f"pad.{x.foot.id}.side_wind",
                   f"{x.foot.title}, side of a square pad under one foot, in the design wind: the one to order",
                   Working()(WINDY_SIDE, m_v=_leeward(Working(), x, parked, found, wind), q_a=bearing), "up"),
        )
    ]
    step = STEPS[0 if model.spec.project.units == "us" else 1]
    checks = [_pad(x, bearing, step, trials) for x in found.feet]
    if found.feet:
        checks.append(_windy(parked, found, wind, bearing, step, trials))
    elif len(parked.feet) > 1:
        why = Missing((found.why_not,))
        checks += [Check(f"pad.{f.id}", titled(PADS, f), HEAVY, why) for f in parked.feet]
        checks.append(Check("pad.wind", WINDY, HEAVY, why))
    return Findings(tuple(rows), (*checks, *_soil(model, trials, data)))


def _leeward(w: Working, load: FootLoad, parked: Parked, found: Stood, wind: Wind) -> Quantity:
    """A foot with its share of the overturning moment, kg."""
    n = sure("n", float(len(found.feet)), "count")
    return w(WIND_ADDED, m_f=load.worst, M_o=wind.overturning, w_h=parked.half, n=n)


def _bearing(model: Model, trials: Trials) -> Quantity:
    """Bearing allowed at the site; on fill, organic or unknown soil no stated figure counts."""
    spec = model.spec.site
    if spec is not None and spec.soil not in SOILS:
        return absent("q_a", "N/m2", f"{UNFIT}: site.yaml soil is {spec.soil}")
    return site(model, trials, "bearing", "q_a", "N/m2")


def _side(load: FootLoad, trials: Trials) -> Quantity:
    return stated(trials, "a", load.foot.pad, "m", f"{load.foot.path}.pad")


def _pad(load: FootLoad, bearing: Quantity, step: float, trials: Trials) -> Check:
    w, side = Working(list(load.steps)), _side(load, trials)
    pressure = w(PAD_PRESSURE, m_f=load.worst, a=side)
    check = Check(f"pad.{load.foot.id}", titled(PADS, load.foot), HEAVY, compare(pressure, bearing, "<=", w))
    return _larger(check, load, side, load.worst, bearing, step)


def _larger(
    check: Check, load: FootLoad, side: Quantity, mass: Quantity, bearing: Quantity, step: float
) -> Check:
    least = Working()(PAD_SIDE, m_f=mass, q_a=bearing)
    return larger(check, f"{load.foot.path}.pad", "A larger pad", side, float(least.values[0]), step)


def _windy(
    parked: Parked, found: Stood, wind: Wind, bearing: Quantity, step: float, trials: Trials
) -> Check:
    """The pad under most pressure, with the leeward share of the overturning moment added."""
    w = Working(list(wind.turned))
    pressures = []
    for load in found.feet:
        own = Working()
        blown = _leeward(own, load, parked, found, wind)
        pressures.append((own(WINDY_PRESSURE, m_v=blown, a=_side(load, trials)), own.steps, load, blown))
    # An unknown pad is the worst: it keeps the check open.
    most, steps, load, blown = max(pressures, key=lambda p: np.nan_to_num(float(p[0].values[0]), nan=np.inf))
    everything = combine(most.symbol, most.values, most.unit, (most, *(p[0] for p in pressures)))
    w.steps.extend([*load.steps, *steps])
    check = Check("pad.wind", WINDY, HEAVY, compare(everything, bearing, "<=", w))
    return _larger(check, load, _side(load, trials), blown, bearing, step)


def _soil(model: Model, trials: Trials, data: Reference) -> Iterator[Check]:
    """The stated bearing against the presumptive one of its soil."""
    spec = model.spec.site
    if spec is None:
        yield Check("site.bearing", SOIL, HEAVY, Missing(("site.yaml",)))
    elif spec.soil not in SOILS:
        yield Check("site.bearing", SOIL, HEAVY, Missing((f"{UNFIT}: site.yaml soil is {spec.soil}",)))
    else:
        table = trials.assumed("q_t", data.defaults[SOILS[spec.soil]])
        yield Check("site.bearing", SOIL, HEAVY, compare(_bearing(model, trials), table, "<=", Working()))


STEPS = (0.0254, 0.025)
"""Steps of the side of a pad: 1 in or 25 mm. Common practice, no source."""

UNFIT = "a soil report: fill, organic or unknown soil has no presumptive bearing"
PADS = About(
    "Pad spreads its load on the ground",
    "parked",
    "load over area",
    "The pad sinks, the next foot takes its load, and the house goes out of level.",
    "Whoever knows the ground: soil, bearing, drainage. A larger pad costs little.",
    "a licensed engineer or the local building official for bearing",
)
WINDY = About(
    "Worst pad with the wind on the house",
    "parked",
    COMBINED + ", with all of live load and snow at once, on the safe side; ties pull at the windward feet, which the "
    "wind unloads; how tight they are drawn is not in it",
    "The leeward feet sink in the gust that matters.",
    "The building official: design wind; whoever knows the ground: bearing.",
    "a licensed engineer",
)
SOIL = About(
    "Bearing stated is no more than the table of its soil gives",
    "parked",
    "IRC table R401.4.1 and IBC table 1806.2",
    "A bearing nobody measured is a hope.",
    "Whoever stated the bearing: a soil report, or the table value.",
    "a licensed engineer or the local building official",
)
