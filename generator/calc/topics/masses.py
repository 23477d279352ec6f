"""Mass, centre and yaw inertia of every load state and group; whether the list is plausible. kg and m."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.findings import GroupRow
from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Reported,
    Step,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.sums import AllSums, StateSums, Sums
from generator.calc.trials import Trials
from generator.model.types import Model, State
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.measure import Measure

DESIGN = "travel"
"""The load state for which the trailer is designed."""

SUMMED = "Sum over all items aboard; every item with its mass, place and spread is listed in the take-off."


@formula("Mass per deck area", "q = W/(L*B)", "kg/m2", "plausibility of a take-off")
def DECK_DENSITY(W: Floats, L: Floats, B: Floats) -> Floats:
    return W / (L * B)


@formula("Stated total and list apart", "d = max(M - W, W - M)", "kg", "difference")
def APART(M: Floats, W: Floats) -> Floats:
    return np.maximum(M - W, W - M)


@formula("How far they may be apart", "d_max = r*min(M, W)", "kg", "a share of the lesser")
def ALLOWED_APART(r: Floats, M: Floats, W: Floats) -> Floats:
    return r * np.minimum(M, W)


@dataclass(frozen=True, slots=True, eq=False)
class StateMass:
    """Mass and centre of one load state, and its three parts: fixed, moving with the axles but sprung, unsprung.

    Stations are absolute; `zeta` counts from the main-deck top. `steps` say where the totals come from.
    """

    state: State
    mass: Quantity
    x: Quantity
    y: Quantity
    zeta: Quantity
    yaw_inertia: Quantity
    fixed_mass: Quantity
    fixed_x: Quantity
    moving_mass: Quantity
    moving_x: Quantity
    sprung_mass: Quantity
    sprung_x: Quantity
    sprung_zeta: Quantity
    unsprung: tuple[Quantity, ...]
    steps: tuple[Step, ...]


def state_masses(model: Model, sums: AllSums) -> dict[str, StateMass]:
    """Mass (kg), centre (m) and yaw inertia (kg m2) of every load state."""
    middle = sum(model.axle_stations) / len(model.axle_stations)
    return {s.id: _state_mass(s, sums.states[s.id], sums.unsprung, middle) for s in model.states}


def _state_mass(state: State, of: StateSums, unsprung: tuple[Quantity, ...], middle: float) -> StateMass:
    moving = of.moving.moved(middle)
    sprung = of.fixed + moving
    everything = sprung + of.unsprung.moved(middle)
    w = Working()
    mass = w.procedure("Mass", SUMMED, "take-off", everything.quantity("W", "m", "kg"), ())
    fixed_mass = w.procedure(
        "Mass that does not move with the axles", SUMMED, "take-off", of.fixed.quantity("M_f", "m", "kg"), ()
    )
    fixed_x = w.procedure("Its centre", SUMMED, "take-off", centre("x_f", of.fixed, "mx"), ())
    moving_mass = w.procedure(
        "Sprung mass that moves with the axles", SUMMED, "take-off", moving.quantity("M_r", "m", "kg"), ()
    )
    return StateMass(
        state,
        mass,
        centre("x_g", everything, "mx"),
        centre("y_g", everything, "my"),
        centre("zeta", everything, "mz"),
        _yaw_inertia(everything),
        fixed_mass,
        fixed_x,
        moving_mass,
        centre("x_r", moving, "mx", middle),
        sprung.quantity("m_s", "m", "kg"),
        centre("x_s", sprung, "mx"),
        centre("zeta", sprung, "mz"),
        unsprung,
        tuple(w.steps),
    )


def centre(symbol: str, of: Sums, moment: str, empty: float = 0.0) -> Quantity:
    """Centre of a sum along one axis, m: moment over mass. Source: statics; nothing has its centre at `empty`."""
    with np.errstate(all="ignore"):
        values = np.where(of.m == 0.0, empty, getattr(of, moment) / of.m)
    return Quantity(symbol, values, "m", of.basis, of.rests_on)


def _yaw_inertia(of: Sums) -> Quantity:
    """Second moment of mass about the upright axis through the centre, own-length terms included, kg m2."""
    with np.errstate(all="ignore"):
        values = of.mxx + of.myy - (of.mx**2 + of.my**2) / of.m
    return Quantity("I_z", values, "kg*m2", of.basis, of.rests_on)


def masses(model: Model, at: Mapping[str, StateMass], trials: Trials, data: Reference) -> Findings:
    """Mass, centre, yaw inertia of every state, and the checks of the list as a whole."""
    checks = [_plausible(model, at[DESIGN], trials, data)]
    stated = model.spec.weights.stated_total
    if stated is not None:
        checks.append(_stated(stated, at[DESIGN], trials, data))
    return Findings(tuple(r for m in at.values() for r in _reported(m)), tuple(checks))


def _reported(m: StateMass) -> Iterator[Reported]:
    id, title = f"state.{m.state.id}", m.state.title.lower()
    yield report(f"{id}.mass", f"Mass, {title}", m.mass)
    yield report(f"{id}.cg.x", f"Centre of mass, station, {title}", m.x)
    yield report(f"{id}.cg.y", f"Centre of mass, right of the centre line, {title}", m.y)
    yield report(f"{id}.yaw_inertia", f"Yaw inertia, {title}", m.yaw_inertia)


def group_rows(model: Model, sums: AllSums) -> tuple[GroupRow, ...]:
    """Mass of each group in the travel state with its spread (kg) and its centre (m)."""
    travel = next(n for n, s in enumerate(model.states) if s.id == DESIGN)
    rows = []
    for group, mass in sums.groups.items():
        aboard = [i for i in model.items if i.group == group and i.aboard[travel] != 0.0]
        if aboard:
            kg = sum(i.mass * i.aboard[travel] for i in aboard)
            x, z = (
                sum(i.mass * i.aboard[travel] * getattr(i, axis) for i in aboard) / kg if kg else 0.0 for axis in "xz"
            )
            spread = report("", "", mass)
            rows.append(GroupRow(group, kg, spread.low, spread.high, x, z, len(aboard)))
    return tuple(rows)


def _plausible(model: Model, travel: StateMass, trials: Trials, data: Reference) -> Check:
    w, frame = Working(list(travel.steps[:1])), model.spec.trailer.frame
    length = trials.given("L", frame.length, "m", path="trailer.yaml frame.length")
    width = trials.given("B", frame.width, "m", path="trailer.yaml frame.width")
    floor = trials.assumed("q_min", data.defaults["mass.plausible_floor"])
    density = w(DECK_DENSITY, W=travel.mass, L=length, B=width)
    about = About(
        "Is the list long enough?",
        "masses",
        "common practice, no source",
        "A finished house lighter than this for its deck has usually been left off the list, or a mass was read in the "
        "wrong unit; the trailer is then ordered too weak.",
        "Whoever made the list: walk through the house room by room; weigh what you can.",
    )
    return Check("mass.plausible", about, DESIGN, compare(density, floor, ">=", w))


def _stated(stated: Measure, travel: StateMass, trials: Trials, data: Reference) -> Check:
    w = Working(list(travel.steps[:1]))
    total = trials.given("M", stated, "kg", path="weights.yaml stated_total")
    band = trials.assumed("r", data.defaults["mass.stated_band"])
    apart, allowed = w(APART, M=total, W=travel.mass), w(ALLOWED_APART, r=band, M=total, W=travel.mass)
    about = About(
        "Stated total and the list, how far apart",
        "masses",
        "the project's own rule",
        "Two totals that disagree mean that one of them is wrong."
        + _confused(stated.nominal, float(travel.mass.values[0])),
        "Whoever stated the total: which trailer, which load, weighed or guessed?",
    )
    return Check(
        "mass.stated",
        about,
        DESIGN,
        compare(apart, allowed, "<=", w),
    )


def _confused(stated: float, listed: float) -> str:
    """A sentence if the two differ by about the factor between pounds and kilograms."""
    for factor, written, meant in ((0.45359237, "kilograms", "pounds"), (1 / 0.45359237, "pounds", "kilograms")):
        if abs(stated * factor / listed - 1.0) < 0.1:
            return (
                f" They differ by the factor between pound and kilogram: was the total meant in {meant}, not {written}?"
            )
    return ""


def summed(symbol: str, given: tuple[Quantity, ...], w: Working, what: str) -> Quantity:
    """Sum of like quantities as a recorded step."""
    with np.errstate(all="ignore"):
        values = np.sum(np.broadcast_arrays(*[q.values for q in given]), axis=0)
    total = combine(symbol, np.atleast_1d(values), given[0].unit, given)
    return w.procedure(what, "The sum of these.", "arithmetic", total, given) if given else sure(symbol, 0.0, "kg")
