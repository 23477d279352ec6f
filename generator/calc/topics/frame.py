"""The frame: line load, shear and moment on the road, what each rail is asked and allowed, camber, crossmembers.

Preliminary: static bending with load factors. Neck root, riser, brackets, welds and fatigue are a licensed engineer's;
the house's own stiffness is left out. N, N m, m; stations positive aft of datum A.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from generator.calc.beam import Bent, Diagram
from generator.calc.findings import Beam
from generator.calc.record import (
    About,
    Check,
    Compared,
    Findings,
    Floats,
    Missing,
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
from generator.calc.topics.coupled import coupled
from generator.calc.topics.crossmembers import KINDS, crossmembers, unassessed
from generator.calc.topics.frame_ahead import ahead
from generator.calc.topics.frame_ahead import unassessed as unassessed_ahead
from generator.calc.topics.frame_beam import (
    STATIONS,
    Rail,
    Road,
    case_of,
    rails_of,
    record,
    solve_road,
    unsolved,
)
from generator.calc.topics.frame_braces import braces
from generator.calc.topics.frame_cases import WORDS, Cases, Frame, case_ids, cases, deviation, house_span, reported
from generator.calc.topics.frame_drawn import Solved
from generator.calc.topics.frame_neck import neck_root
from generator.calc.topics.frame_sides import base_of
from generator.calc.topics.frame_steel import section_levers
from generator.calc.topics.frame_strength import (
    SCALED,
    Case,
    Strength,
    bending_of,
    shear_of,
    steels_of,
    stretches,
    web_of,
    worst_stretch,
)
from generator.calc.topics.masses import StateMass
from generator.calc.topics.rides import DESIGN, Loaded, Ride
from generator.calc.topics.road_inputs import Towed
from generator.calc.topics.strength import Steel
from generator.calc.topics.suspension import G, gear
from generator.calc.trials import Trials
from generator.errors import CalcError
from generator.model.types import Model
from generator.reference.types import Reference

ENGINEER = "a licensed engineer; the fabricator's own design and the maker's ratings"


@formula("Section modulus needed, both rails together", "S_n = 2*phi*M*Omega/F_y", "m3:section",
         "first yield: 0.6 of the yield, one rail as the worse, twice")
def NEEDED(phi: Floats, M: Floats, Omega: Floats, F_y: Floats) -> Floats:
    """Section modulus m3 of both rails at which the worse one reaches the allowed stress."""
    return 2 * phi * M * Omega / F_y


@formula("Moment of inertia wanted, both rails together", "I_n = I*w*n_w/L", "m4", "deflection falls as inertia grows")
def WANTED(I: Floats, w: Floats, n_w: Floats, L: Floats) -> Floats:
    """Inertia m4 at which the deviation w (m) from the chord is L/n_w."""
    return I * w * n_w / L


@formula("Deviation from the chord allowed", "w_a = L/n_f", "m", "common practice, no source")
def CHORD(L: Floats, n_f: Floats) -> Floats:
    """Deviation m of a length m."""
    return L / n_f


def frame(model: Model, states: Mapping[str, Loaded], rides: Mapping[str, Ride], trials: Trials, data: Reference,
          at: Mapping[str, StateMass], towed: Sequence[Towed]) -> tuple[Beam, Solved | None, Findings]:
    """The travel state on hitch and axle brackets as a diagram (SI), the cases solved, what was found of all."""
    case, rails = case_of(model), rails_of(model, data)
    try:
        road = None if case is None else solve_road(model, case, rides[DESIGN], rails, data)
    except CalcError as fault:
        return unsolved(), None, _without(model, (str(fault),))
    if road is None:
        return unsolved(), None, _without(model, _unknowns(states[DESIGN]))
    masses = {id: s.mass for id, s in at.items()}
    ride = rides[DESIGN]
    ball = combine("zeta_h", ride.ball.values - ride.deck.values, "m", (ride.ball, ride.deck))
    of = Frame(model, road, rails, base_of(rails, model.pieces), states[DESIGN].sprung_mass, masses, ball)
    found, standing = cases(of, trials, data)
    off = {id: deviation(of, c) for id, c in found.items() if isinstance(c, Case)}
    rooted, steps = neck_root(of, found, trials, data)
    checks, needed = _strength(of, found, off, trials, data)
    pressed, use = ahead(of, found, towed, trials, data)
    crossed = crossmembers(model, rails, of.base, masses, trials, data)
    quantities = (*_whole(of, found, data), *reported(of, found, off, standing), *needed, *rooted, *use,
                  *crossed.quantities)
    root = _root(model, steps)
    drawn = record(road, model.spec.trailer.frame.length.nominal)
    return drawn, Solved(of, found), Findings(quantities=quantities, checks=(*checks, pressed, *crossed.checks, root))


def _whole(f: Frame, found: Cases, data: Reference) -> tuple[Reported, ...]:
    """Both rails together on the road, as on sheet L1."""
    road, mass, w, ahead = f.road, f.sprung, Working(), coupled(f.model).root.lower()
    hung, frame = max(((float(b.moment(np.zeros(1))[0]), model) for b, model in _models(road)),
                      key=lambda row: abs(row[0]))
    root = _grown(w, "M_root", hung, mass, road)
    rows = [report("frame.travel.moment_neck_root", f"Moment at the {ahead} root, both rails, as towed, static, "
                   f"{frame}, sagging positive", root)]
    jacked = found.get("jacked")
    if isinstance(jacked, Case):
        hung = sum(float(s.diagram.moment_ahead(np.zeros(1))[0]) for s in jacked.sides)
        rows.append(report("frame.jacked.moment_neck_root",
                           f"Moment at the {ahead} root, both rails, on the nose jacks, static, hogging negative",
                           _grown(w, "M_jacked", hung, mass, road)))
    return (
        *_peaks(w, road, mass),
        report("frame.travel.moment_station", "Station of the greatest moment, both rails, of either sense",
               _station(road)),
        *rows,
        report("frame.travel.shear", "Greatest shear, both rails, as towed, static", _shear(road, mass)),
        report("frame.travel.deflection", "Main deck from its chord, bare frame, static", _deflection(f.model, road),
               "up"),
        *_axles(f.model, road, data),
    )


def _models(road: Road) -> tuple[tuple[Bent, str], ...]:
    return (road.bare, "bare frame"), (road.stiff, "frame stiffened by the house")


def _peaks(w: Working, road: Road, mass: Quantity) -> Iterator[Reported]:
    """Greatest moment of each sense in either frame, which frame it is, and where."""
    for key, sense, sign in (("sag", "sagging", 1.0), ("hog", "hogging", -1.0)):
        values = [sign * m for m in road.moments]
        n = max((0, 1), key=lambda i: float(values[i].max()))
        k = int(values[n].argmax())
        most = _grown(w, f"M_{key}", max(0.0, float(values[n][k])), mass, road)
        model = _models(road)[n][1]
        yield report(f"frame.travel.moment_{key}", f"Greatest {sense} moment, both rails, as towed, static: {model}",
                     most)
        place = combine("x", np.array([float(road.places[n][k])]), "m", road.springs)
        yield report(f"frame.travel.moment_{key}_station", f"Station of the greatest {sense} moment, both rails", place)


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


def _strength(f: Frame, found: Cases, off: Mapping[str, float], trials: Trials, data: Reference,
              ) -> tuple[tuple[Check, ...], list[Reported]]:
    """Bending in each case, shear and webs in all, deviation from the chord; and what section would do."""
    steels, missing = steels_of(f.rails, trials, data)
    if missing or not steels:
        lacking = Missing(missing or ("trailer.yaml frame.members: a lengthwise member at the stated width over the "
                                      "rails",))
        known = {id: lacking for id in found}
        return tuple(_checks(known, *[(lacking, DESIGN)] * 3)), []
    brackets = [x for s in f.road.bare.supports[1:] for x, _, _ in s.terms]
    held = {r.mark: braces(f.model, r, brackets, data) for r in f.rails}
    strengths = {r.mark: Strength(steels[r.mark]) for r in f.rails}
    bending: dict[str, Compared | Missing] = {}
    marks = {}
    for id, case in found.items():
        if isinstance(case, Missing):
            bending[id] = case
            continue
        worst = worst_stretch([s for r in f.rails for s in stretches(case, r, held[r.mark])], strengths)
        if worst is None:
            bending[id] = Missing(("no rail carries a moment",))
            continue
        w, asked, allowed = bending_of(worst, steels[worst.rail.mark])
        marks[id] = (worst.rail.mark,)
        bending[id] = compare(asked, allowed, "<=", w)
    solved = [c for c in found.values() if isinstance(c, Case)]
    shear, web = shear_of(solved, f.rails, steels), web_of(solved, f.rails, steels, trials, data)
    none = Missing(("no rail is solved",))
    sheared, borne = ((none, DESIGN) if m is None else (compare(m[1], m[2], "<=", m[0]), m[3]) for m in (shear, web))
    straight, wanted = _straight(f, solved, off, trials, data)
    rows = _checks(bending, sheared, borne, straight)
    every = tuple(r.mark for r in f.rails)
    stronger = [replace(c, about=replace(c.about, levers=section_levers(marks.get(_case(c.id), every)))) for c in rows]
    return tuple(stronger), [*_modulus(f, found, steels, trials, data), *wanted]


def _case(id: str) -> str:
    """The case of a bending check: `towing` of `frame.towing.bending`."""
    return id.split(".")[1]


Outcome = tuple[Compared | Missing, str]
"""What came of a check, and the load state it came of."""


def _checks(bending: Mapping[str, Compared | Missing], shear: Outcome, web: Outcome, straight: Outcome) -> list[Check]:
    rows = [Check(f"frame.{id}.bending", _bending(WORDS[id]), STATE[id], outcome) for id, outcome in bending.items()]
    return [*rows, Check("frame.shear", SHEAR, shear[1], shear[0]), Check("frame.web", WEB, web[1], web[0]),
            Check("frame.chord", STRAIGHT, straight[1], straight[0])]


def _straight(f: Frame, solved: Sequence[Case], apart: Mapping[str, float], trials: Trials, data: Reference,
              ) -> tuple[Outcome, list[Reported]]:
    """The case in which a rail leaves its chord most, and the inertia that would keep it."""
    bent = [(apart[c.id], c) for c in solved if c.id != "parked_snow"]
    if not bent:
        return (Missing(("no rail is solved",)), DESIGN), []
    off, case = max(bent, key=lambda row: row[0])
    front, rear = house_span(f)
    length, w = rear - front, Working()
    rests = [f.road.modulus, *case.rests]
    what = w.procedure(case.title, f"bare frame {WORDS[case.id]}, static: the rail's greatest distance from the "
                       "straight line between its points under both ends of the house",
                       "double integral of the moment over E I",
                       combine("w", np.array([off]), "m", rests), ())
    span = sure("L", length, "m", origin="length of the house on the frame")
    allowed = w(CHORD, L=span, n_f=trials.assumed("n_f", data.defaults["frame.chord_fail"]))
    held = [r for r in f.rails if r.rear > length / 2]
    inertia = sure("I", sum(r.inertia for r in held), "m4", origin=", ".join(f"{r.mark} {r.section}" for r in held))
    has = report("frame.travel.inertia", "Moment of inertia the main rails have, both together", inertia, "down")
    share = trials.assumed("n_w", data.defaults["frame.chord_wanted"])
    needed = Working()(WANTED, I=inertia, w=what, n_w=share, L=span)
    title = "Moment of inertia that keeps the main rails to the deviation worth asking for, both together"
    return ((compare(what, allowed, "<=", w), case.state),
            [has, report("frame.travel.required_inertia", title, needed, "up")])


def _modulus(f: Frame, found: Cases, steels: Mapping[str, Steel], trials: Trials, data: Reference) -> list[Reported]:
    """Section modulus that the rails worst off need on the road, both together, whatever section is chosen."""
    case = found["towing"]
    if not isinstance(case, Case):
        return []
    made = []
    for rail in f.rails:
        moment = max(_greatest(rail, s.diagram) for s in case.sides)
        w = Working()
        M = _grown(w, "M", moment, f.sprung, f.road)
        needed = w(NEEDED, phi=case.factor, M=M, Omega=steels[rail.mark].omega, F_y=steels[rail.mark].strength)
        made.append((float(needed.values[0]) / rail.modulus, needed))
    title = "Section modulus the rails worst off need, both together"
    return [report("frame.travel.required_modulus", title, max(made, key=lambda m: m[0])[1], "up")]


def _greatest(rail: Rail, of: Diagram) -> float:
    """The greatest moment this rail takes, either sense, N m."""
    on = (of.x >= rail.front) & (of.x <= rail.rear)
    return float((np.abs(of.moment[on]) * rail.parts(of.x[on])).max())


def _unknowns(load: Loaded) -> tuple[str, ...]:
    """The unknown values that a load state rests on, by file and line."""
    rests_on = load.sprung_mass.rests_on | load.hitch.rests_on
    found = tuple(sorted(r.removeprefix("unknown:") for r in rests_on if r.startswith("unknown:")))
    return found or ("a mass, a station or the running gear is unknown",)


def _without(model: Model, reasons: tuple[str, ...]) -> Findings:
    """The checks where the frame could not be solved."""
    lacking = Missing(reasons)
    root = _root(model, ())
    bending = dict.fromkeys(case_ids(model), lacking)
    crossed = tuple(unassessed(kind, lacking) for kind in KINDS)
    pressed = unassessed_ahead(model, lacking)
    return Findings(checks=(*_checks(bending, *[(lacking, DESIGN)] * 3), pressed, *crossed, root))


def _root(model: Model, steps: tuple[Step, ...]) -> Check:
    """The check that stays an engineer's: the root of neck or tongue."""
    words = coupled(model)
    more = [words.carries.lower()] if words.carries != words.root else []
    parts = " and ".join([f"{words.root.lower()} root", *more])
    about = replace(ROOT, title=f"{parts.capitalize()}, brackets and welds",
                    concern=f"The {words.root.lower()} tears off the deck: this joint fails first, without warning, by "
                            "fatigue.")
    lacking = Missing((f"design of {parts} and welds by a licensed engineer",), steps)
    return Check("frame.neck_root", about, DESIGN, lacking)


FIRST_LOOK = "AISC 360 (ASD) as a first look, from memory"
STATE = {"towing": DESIGN, "jacked": DESIGN, "parked": "parked_heavy", "parked_snow": "parked_heavy"}


def _bending(words: str) -> About:
    return About(
        title=f"Bending of the rails {words}", topic="frame", source=f"{FIRST_LOOK}; C_b = 1, welds are not in it",
        concern="The rails bend for good, twist sideways or crack over their supports.",
        ask="The fabricator's engineer, with sheet L1: what holds the flange in compression sideways.",
        defer_to=ENGINEER)


SHEAR = About(
    title="Shear of the rails, all cases", topic="frame", source=FIRST_LOOK,
    concern="The web of a rail buckles beside a support.", ask="The fabricator's engineer, with sheet L1.",
    defer_to=ENGINEER)
WEB = About(
    title="Web of the rails over brackets, jacks and stands", topic="frame", source=f"{FIRST_LOOK}; no stiffeners",
    concern="The rail crushes over its support.",
    ask="The fabricator: stiffeners or a doubler at brackets, jacks and stands.", defer_to=ENGINEER)
STRAIGHT = About(
    title="Rails straight under the house", topic="frame",
    source="common practice, no source: length over 240 fails, length over 360 is worth asking for",
    concern="Cladding cracks, doors and windows bind each time the house is set down.",
    ask="The fabricator: camber, deeper rails, or a wall that stiffens the deck.", defer_to=ENGINEER)
ROOT = About(
    title="Neck root, riser, brackets and welds", topic="frame",
    source="no rule of thumb is safe here: both signs of moment, axial load, fatigue",
    concern="The neck tears off the deck: this joint fails first, without warning, by fatigue.",
    ask="A licensed engineer, before steel is cut: static moment both ways, road factor, fatigue class of each weld.",
    defer_to=ENGINEER)
