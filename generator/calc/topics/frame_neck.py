"""The neck root for the engineer's brief: moments both ways, axial force, braking, stress range. N, N m, m, Pa.

Nothing here says that the joint holds: that, its welds and its fatigue life are a licensed engineer's.
"""

import numpy as np

from generator.calc.record import Floats, Quantity, Reported, Step, Working, combine, formula, report, sure
from generator.calc.topics.coupled import coupled
from generator.calc.topics.frame_beam import POINT, Rail
from generator.calc.topics.frame_cases import Cases, Frame
from generator.calc.topics.frame_sides import Side
from generator.calc.topics.frame_strength import DEMAND, Case, grown
from generator.calc.topics.rides import DESIGN
from generator.calc.topics.suspension import G
from generator.calc.trials import CONFIDENCES, Trials
from generator.reference.types import Reference

CATEGORIES = ("frame.fatigue_c", "frame.fatigue_d", "frame.fatigue_e", "frame.fatigue_e_prime")


@formula("Moment range on the road", "M_r = c_r*M", "N*m", "plus and minus half the static load, common practice")
def MOMENT_RANGE(c_r: Floats, M: Floats) -> Floats:
    """Range N m of the static moment."""
    return c_r * M


@formula("Stress range on the road", "sigma_r = M_r/S", "Pa", "elastic bending, nominal section, no stress raisers")
def STRESS_RANGE(M_r: Floats, S: Floats) -> Floats:
    """Range Pa from the moment range N m and the section modulus m3."""
    return M_r / S


@formula("Push or pull at the coupler", "F_x = c_x*9.80665*W", "N", "common practice, no source; own brakes do nothing")
def PUSH(c_x: Floats, W: Floats) -> Floats:
    """Force N from a share of the trailer's mass kg."""
    return c_x * G * W


@formula("Moment of that push at the rails", "M_x = F_x*h_x", "N*m", "statics; sagging in a stop, hogging when pulling")
def PUSH_MOMENT(F_x: Floats, h_x: Floats) -> Floats:
    """Moment N m from the force N and the height of the ball over the middle of the rails, m."""
    return F_x * h_x


def neck_root(f: Frame, found: Cases, trials: Trials, data: Reference) -> tuple[tuple[Reported, ...], tuple[Step, ...]]:
    """Quantities of the brief and their working."""
    towing, jacked = found["towing"], found.get("jacked")
    if not isinstance(towing, Case):
        return (), ()
    w, rows, root = Working(), [], coupled(f.model).root
    side, most = max(_at_root(towing), key=lambda row: abs(row[1]))
    sag = grown(w, towing, side, most, 0.0, "one rail, just ahead of datum A; the worse rail and model")
    rows.append(report("frame.neck_root.moment_towing", f"{root} root, one rail on the road, road factor in it, "
                       f"sagging positive: {side.title}", w(DEMAND, phi=towing.factor, M=sag)))
    swing = trials.assumed("c_r", data.defaults["frame.swing"])
    moment = w(MOMENT_RANGE, c_r=swing, M=sag)
    rows.append(report("frame.neck_root.moment_range", f"{root} root, one rail, moment range on the road", moment))
    neck = _neck_rail(f)
    if neck is not None:
        rows += _stresses(w, moment, neck, data, trials)
    if isinstance(jacked, Case):
        lower, least = min(_at_root(jacked), key=lambda row: row[1])
        hung = grown(w, jacked, lower, least, 0.0, "one rail, just ahead of datum A")
        rows.append(report("frame.neck_root.moment_jacked", f"{root} root, one rail on the nose jacks, jacking factor "
                           "in it, sagging positive", w(DEMAND, phi=jacked.factor, M=hung)))
    pulled, axial = max(((s, float(s.diagram.shear_ahead(np.zeros(1))[0])) for s in towing.sides),
                        key=lambda row: abs(row[1]))
    along = grown(w, towing, pulled, axial, 0.0, f"hitch force less what the {root.lower()} carries, one rail",
                  force=True)
    rows.append(report("frame.neck_root.axial", f"{coupled(f.model).carries}, one rail, axial force on the road, "
                       "static, pull positive", along))
    rows += _pushes(f, w, trials, data)
    return tuple(rows), tuple(w.steps)


def _at_root(case: Case) -> list[tuple[Side, float]]:
    return [(s, float(s.diagram.moment_ahead(np.zeros(1))[0])) for s in case.sides]


def _neck_rail(f: Frame) -> Rail | None:
    """The rail that runs from the root forward."""
    return next((r for r in f.rails if r.front < -POINT and r.rear >= -POINT), None)


def _stresses(w: Working, moment: Quantity, rail: Rail, data: Reference, trials: Trials) -> list[Reported]:
    section = data.sections[rail.section]
    modulus = sure("S", section.modulus, "m3:section", CONFIDENCES[section.confidence],
                   origin=f"{rail.title}, {rail.section}")
    stress = w(STRESS_RANGE, M_r=moment, S=modulus)
    limits = [trials.assumed(id.replace("frame.fatigue", "sigma"), data.defaults[id]) for id in CATEGORIES]
    w.procedure("To be compared by the engineer", "A range under the threshold of a weld's detail category has no end "
                "of life; which category each weld is, nobody here can say. Thresholds of categories C, D, E and E' "
                "from memory.", "fatigue design by a licensed engineer", stress, limits)
    return [report("frame.neck_root.stress_range", "Neck rail at its root, stress range on the road, nominal section",
                   combine("sigma_r", stress.values, "Pa", [stress, *limits]), "up")]


def _pushes(f: Frame, w: Working, trials: Trials, data: Reference) -> list[Reported]:
    """Braking and sideways forces at the coupler, and the moment of the first at the rails."""
    mass = f.masses.get(DESIGN)
    if mass is None:
        return []
    braking = w(PUSH, c_x=trials.assumed("c_x", data.defaults["frame.push_braking"]), W=mass)
    rows = [report("frame.neck_root.push", "Push of the tow vehicle in a hard stop, both rails", braking, "up")]
    rail = next((p for r in f.rails if r.rear > POINT for p in f.model.pieces if p.mark == r.mark and r.front >= 0.0),
                None)
    if rail is not None:
        height = combine("h_x", f.ball.values - (rail.z0 + rail.z1) / 2, "m", [f.ball])
        rows.append(report("frame.neck_root.moment_push", "Moment of that push at the middle of the main rails, both "
                           "rails", w(PUSH_MOMENT, F_x=braking, h_x=height)))
    aside = w(PUSH, c_x=trials.assumed("c_x", data.defaults["frame.push_sideways"]), W=mass)
    return [*rows, report("frame.neck_root.sideways", "Sideways force at the coupler, both rails", aside, "up")]
