"""The frame on the road: line load, shear and moment of both rails together, and what the rails are asked.

Preliminary: static bending of the rails alone. Neck root, riser, brackets, welds, lateral buckling and fatigue are a
licensed engineer's; the house's own stiffness is left out. N, N m, m; stations positive aft of datum A.
"""

import re
from collections.abc import Mapping

import numpy as np

from generator.calc.findings import Beam
from generator.calc.record import (
    About,
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
from generator.calc.topics.frame_beam import (
    STATIONS,
    Rail,
    Road,
    case_of,
    jacked_root,
    rails_of,
    record,
    solve_road,
    unsolved,
)
from generator.calc.topics.rides import DESIGN, Loaded, Ride
from generator.calc.topics.suspension import G, gear
from generator.calc.trials import CONFIDENCES, Trials
from generator.errors import CalcError
from generator.model.types import Model
from generator.reference.types import Default, Reference

ENGINEER = "a licensed engineer; the fabricator's own design and the maker's ratings"
GRADE = re.compile(r"\b(A500|A572|A992|A36|S235|S275|S355)(?:J\w*)?\b.*?\b([BC]|50)?\s*$", re.IGNORECASE)


@formula("Moment of this trial: the nominal diagram grows with the mass", "M = M_0*m_s/m_0", "N*m",
         "statics, shape of the load kept")
def SCALED(M_0: Floats, m_s: Floats, m_0: Floats) -> Floats:
    """Moment N m from the nominal one and both masses kg."""
    return M_0 * m_s / m_0


@formula("Bending stress on the road", "sigma = phi*M/S", "Pa", "elastic bending; road factor on the static moment")
def STRESS(phi: Floats, M: Floats, S: Floats) -> Floats:
    """Stress Pa from road factor, moment N m and section modulus m3."""
    return phi * M / S


@formula("Allowed bending stress", "sigma_a = F_y/Omega", "Pa",
         "AISC 360 (ASD), yielding, from memory; first yield instead of the plastic moment")
def ALLOWED(F_y: Floats, Omega: Floats) -> Floats:
    """Allowed stress Pa from yield Pa and safety factor."""
    return F_y / Omega


@formula("Section modulus needed, both rails together", "S_n = phi*M*Omega/F_y", "m3:section",
         "the same rule solved for the section")
def NEEDED(phi: Floats, M: Floats, Omega: Floats, F_y: Floats) -> Floats:
    """Section modulus m3 at which stress and allowed stress are equal."""
    return phi * M * Omega / F_y


def frame(model: Model, states: Mapping[str, Loaded], rides: Mapping[str, Ride], trials: Trials, data: Reference,
          ) -> tuple[Beam, Findings]:
    """The travel state on hitch and axle brackets: the diagram (SI) and what was found."""
    case = case_of(model)
    try:
        road = None if case is None else solve_road(model, case, rides[DESIGN], rails_of(model, data), data)
    except CalcError as fault:
        return unsolved(), _without((str(fault),))
    if road is None:
        return unsolved(), _without(_unknowns(states[DESIGN]))
    peaks = {"sag": _peak(road, 1.0), "hog": _peak(road, -1.0)}
    w, mass = Working(), states[DESIGN].sprung_mass
    moments = {k: _grown(w, f"M_{k}", v, mass, road) for k, v in peaks.items()}
    root = _grown(w, "M_root", max((float(b.moment(np.zeros(1))[0]) for b in (road.bare, road.stiff)), key=abs), mass,
                  road)
    roots = [report("frame.travel.moment_neck_root", "Moment at the neck root, static, sagging positive", root)]
    hung = jacked_root(model, road)
    if hung is not None:
        hanging = _grown(w, "M_jacked", hung, mass, road)
        roots.append(report("frame.jacked.moment_neck_root",
                            "Moment at the neck root on the nose jacks, static, hogging negative", hanging))
    bending, modulus = _bending(road, mass, trials, data)
    quantities = (
        report("frame.travel.moment_sag", "Greatest sagging moment, both rails, static", moments["sag"]),
        report("frame.travel.moment_hog", "Greatest hogging moment, both rails, static", moments["hog"]),
        report("frame.travel.moment_station", "Station of the greatest moment", _station(road)),
        *roots,
        report("frame.travel.shear", "Greatest shear, both rails, static", _shear(road, mass)),
        report("frame.travel.deflection", "Main deck from its chord, bare frame, static", _deflection(model, road),
               "up"),
        *modulus, *_axles(model, road, data),
    )
    root_steps = Missing((DESIGN_OF_ROOT,), tuple(w.steps[4:]))
    return record(road), Findings(quantities=quantities, checks=(bending, _root(root_steps)))


def _peak(road: Road, sign: float) -> float:
    """Greatest moment of one sense in either frame, as a positive number; 0 if there is none."""
    return max(0.0, *(float((sign * m).max()) for m in road.moments))


def _station(road: Road) -> Quantity:
    """Where the greatest moment acts, m."""
    which = 0 if road.governing is road.bare else 1
    x = float(road.places[which][int(np.abs(road.moments[which]).argmax())])
    return combine("x", np.array([x]), "m", road.springs)


def _grown(w: Working, symbol: str, moment: float, mass: Quantity, road: Road) -> Quantity:
    values = mass.values[:1]
    nominal = Quantity("m_0", values, "kg", mass.basis, mass.rests_on)
    m_0 = w.procedure(
        "Frame on hitch and axle brackets",
        "both rails together under every sprung item spread over its length, on a hitch at level height and one spring "
        "with its trailing arm per axle; the greater of the bare frame and a frame the house makes stiff",
        "direct solution of the beam; checked against AISC Table 3-23 and a general frame program",
        combine("M_0", np.array([moment]), "N*m", [mass, *road.springs]), [nominal])
    return w(SCALED, M_0=m_0, m_s=mass, m_0=nominal).named(symbol)


def _shear(road: Road, mass: Quantity) -> Quantity:
    greatest = max(float(np.abs(b.shear(b.breaks(), after)).max()) for b in (road.bare, road.stiff)
                   for after in (True, False))
    return combine("V", greatest * mass.values / mass.values[0], "N", [mass, *road.springs])


def _deflection(model: Model, road: Road) -> Quantity:
    """Greatest distance from the chord of the main deck, m."""
    length = model.spec.trailer.frame.length.nominal
    x = np.linspace(0.0, length, STATIONS)
    w = road.bare.deflection(x)
    off = np.abs(w - (w[0] + (w[-1] - w[0]) * x / length))
    greatest = float(off.max()) if road.rails else float("nan")
    return combine("w", np.array([greatest]), "m", [road.modulus, *road.springs])


def _axles(model: Model, road: Road, data: Reference) -> tuple[Reported, ...]:
    """What each axle carries at the ground while the bare frame bends, kg."""
    unsprung = gear(model, Trials(count=0), data).unsprung
    forces = road.bare.reactions[1:]
    if len(forces) < len(unsprung):
        forces = np.full(len(unsprung), forces[0] / len(unsprung))
    return tuple(report(f"frame.travel.axle.{n}", f"Axle {n} at the ground if only the bare frame resisted bending",
                        combine("N", np.array([f / G + u.values[0]]), "kg", [u, road.modulus, *road.springs]))
                 for n, (f, u) in enumerate(zip(forces, unsprung, strict=True), start=1))


def _bending(road: Road, mass: Quantity, trials: Trials, data: Reference) -> tuple[Check, tuple[Reported, ...]]:
    """The rails worst off: stress against what their steel allows, and the modulus they would need."""
    made = [m for m in (_rail_bending(road, r, mass, trials, data) for r in road.rails) if m is not None]
    unknown = sorted({r.grade for r in road.rails if _yield(r.grade, data) is None})
    if unknown or not made:
        names = tuple(f"yield strength of steel {g!r}" for g in unknown)
        what = names or ("trailer.yaml frame.members: a lengthwise member at the stated width over the rails",)
        return Check("frame.travel.bending", BENDING, DESIGN, Missing(what)), ()
    w, stress, allowed, needed = max(made, key=lambda m: float(m[1].values[0] / m[2].values[0]))
    check = Check("frame.travel.bending", BENDING, DESIGN, compare(stress, allowed, "<=", w))
    title = "Section modulus the rails worst off need, both together"
    return check, (report("frame.travel.required_modulus", title, needed, "up"),)


def _rail_bending(road: Road, rail: Rail, mass: Quantity, trials: Trials, data: Reference,
                  ) -> tuple[Working, Quantity, Quantity, Quantity] | None:
    grade = _yield(rail.grade, data)
    if grade is None:
        return None
    w = Working()
    moment = _grown(w, f"M_{rail.mark}", _moment_within(road, rail), mass, road)
    phi = trials.assumed("phi", data.defaults["frame.factor_towing"])
    omega = trials.assumed("Omega", data.defaults["frame.omega_bending"])
    strength = trials.assumed("F_y", grade)
    basis = CONFIDENCES[data.sections[rail.section].confidence]
    modulus = sure("S", rail.modulus, "m3:section", basis, origin=f"{rail.title}, {rail.section}")
    stress = w(STRESS, phi=phi, M=moment, S=modulus)
    allowed = w(ALLOWED, F_y=strength, Omega=omega)
    return w, stress, allowed, w(NEEDED, phi=phi, M=moment, Omega=omega, F_y=strength)


def _moment_within(road: Road, rail: Rail) -> float:
    """Greatest moment of either sense in either frame between the ends of a rail, N m."""
    pairs = zip(road.places, road.moments, strict=True)
    return max(float(np.abs(m[(x >= rail.front) & (x <= rail.rear)]).max()) for x, m in pairs)


def _yield(grade: str, data: Reference) -> Default | None:
    """The yield strength of a grade as written on a drawing (`ASTM A500 Gr. C`), or None if it is not in the table."""
    match = GRADE.search(grade)
    if match is None:
        return None
    steel, kind = match.group(1).lower(), (match.group(2) or "").lower()
    return data.defaults.get(f"frame.yield.{steel}-{kind}") or data.defaults.get(f"frame.yield.{steel}")


def _unknowns(load: Loaded) -> tuple[str, ...]:
    """The unknown values that a load state rests on, by file and line."""
    rests_on = load.sprung_mass.rests_on | load.hitch.rests_on
    found = tuple(sorted(r.removeprefix("unknown:") for r in rests_on if r.startswith("unknown:")))
    return found or ("a mass, a station or the running gear is unknown",)


def _without(reasons: tuple[str, ...]) -> Findings:
    """Both checks where the frame could not be solved."""
    return Findings(checks=(Check("frame.travel.bending", BENDING, DESIGN, Missing(reasons)),
                            _root(Missing((DESIGN_OF_ROOT,)))))


def _root(outcome: Missing) -> Check:
    return Check("frame.neck_root", ROOT, DESIGN, outcome)


DESIGN_OF_ROOT = "design of neck root, riser and welds by a licensed engineer"
BENDING = About(
    title="Bending of the rails on the road",
    topic="frame", source="AISC 360 (ASD) as a first look, from memory; lateral buckling, webs and welds are not in it",
    concern="The rails bend for good or crack over the axles or at the neck.",
    ask="The fabricator's engineer, with sheet L1.", defer_to=ENGINEER)
ROOT = About(
    title="Neck root, riser, brackets and welds", topic="frame",
    source="no rule of thumb is safe here: both signs of moment, axial load, fatigue",
    concern="The neck tears off the deck: this joint fails first, without warning, by fatigue.",
    ask="A licensed engineer, before steel is cut: static moment both ways, road factor, fatigue class of each weld.",
    defer_to=ENGINEER)
