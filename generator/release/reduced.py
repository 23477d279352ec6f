"""Records as others than the owner may see them: no files of the spec, no plans of the owner, no names of rooms."""

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from generator.calc.findings import Beam, Chain, StateRow, Sweep
from generator.calc.record import Assumption, Check, Compared, Missing, Reported, Step, Value, Window
from generator.formulas import is_formula
from generator.release.gear import UNKNOWN
from generator.release.slices import Envelope, HouseZone, RevisionRow, Steel

Say = Callable[[str], str]

SPEC_FILE = re.compile(r"\b[\w./-]*\.yaml(:[0-9]+)?(: ?|,? )?")
"""A spec file with or without a line, as origins and missing inputs name it."""

STATED = "as stated by the owner"


def other_names(zones: Iterable[str], roof: Iterable[str]) -> dict[str, str]:
    """Numbers for the rooms and roof points that the owner named."""
    numbered = {title: f"roof point {n}" for n, title in enumerate(roof, 1)}
    return numbered | {title: f"zone {n}" for n, title in enumerate(zones, 1)}


def plainly(names: Mapping[str, str]) -> Say:
    """A function that takes spec files out of a text and puts numbers for names."""
    longest_first = sorted(names, key=lambda name: (-len(name), name))
    given = re.compile("|".join(rf"(?<!\w){re.escape(name)}(?!\w)" for name in longest_first) or r"(?!)")

    def say(text: str) -> str:
        return given.sub(lambda found: names[found[0]], SPEC_FILE.sub("", text).strip(" ,;:"))

    return say


def sourced(check: Check, say: Say) -> Check:
    """A check whose workings, sources and origins are written as `say` writes them."""
    outcome = replace(check.outcome, steps=tuple(_step(step, say) for step in check.outcome.steps))
    if isinstance(outcome, Compared):
        outcome = replace(outcome, demand=_value(outcome.demand, say), limit=_value(outcome.limit, say))
    return replace(check, about=replace(check.about, source=say(check.about.source)), outcome=outcome)


def reduced_check(check: Check, say: Say) -> Check:
    """A check without levers, the owner's ways out, and names of spec files or rooms."""
    about = check.about
    about = replace(about, levers=(), title=say(about.title), source=say(about.source) or STATED,
                    concern=say(about.concern), ask=say(about.ask), defer_to=say(about.defer_to))
    bare = replace(sourced(check, say), about=about, changes=(), pair=())
    match bare.outcome:
        case Missing() as m:
            names = sorted({say(name) or "a value not stated" for name in m.inputs})
            return replace(bare, outcome=replace(m, inputs=tuple(names)))
        case Compared() as c:
            known = frozenset(r for r in c.rests_on if not r.startswith("unknown:"))
            return replace(bare, outcome=replace(c, rests_on=known))


def without_workings(check: Check) -> Check:
    """A check that tells what it compares and nothing of how it was reached."""
    outcome = replace(check.outcome, steps=())
    if isinstance(outcome, Compared):
        outcome = replace(outcome, demand=replace(outcome.demand, origin=""), limit=replace(outcome.limit, origin=""))
    return replace(check, outcome=outcome)


def reduced_state(state: StateRow) -> StateRow:
    """A load state without the height of the house."""
    return replace(state, aboard="", roof=None)


def reduced_quantity(quantity: Reported, say: Say) -> Reported:
    """A quantity whose title names no room, nor what it lacks a spec file."""
    known = frozenset(r for r in quantity.rests_on if not r.startswith("unknown:"))
    return replace(quantity, title=say(quantity.title), rests_on=known)


def reduced_window(window: Window, say: Say) -> Window:
    """A window without the changes that would open it."""
    low, high = say(window.closed_by_low), say(window.closed_by_high)
    return replace(window, changes=(), closed_by_low=low, closed_by_high=high)


def reduced_assumption(assumption: Assumption, say: Say) -> Assumption:
    """An assumption without the names of spec files."""
    return replace(assumption, statement=say(assumption.statement), source=say(assumption.source),
                   value=say(assumption.value))


def reduced_beam(beam: Beam) -> Beam:
    """A beam whose point loads have numbers instead of names."""
    points = tuple(replace(p, title=f"point load {n}") for n, p in enumerate(beam.points, 1))
    return replace(beam, points=points)


def reduced_sweep(sweep: Sweep, coupler: float) -> Sweep:
    """A sweep against the coupler's own rating (kg), not against what is left of the tow vehicle's."""
    return replace(sweep, hitch_limit=coupler if math.isfinite(coupler) else None)


def reduced_envelope(envelope: Envelope, say: Say) -> Envelope:
    """The outline of the house without the names of its rooms, and without the limits of the route."""
    return replace(envelope, zones=tuple(_zone(n, z) for n, z in enumerate(envelope.zones, 1)), roof=(), chains=(),
                   height_limit=math.nan)


def routed_envelope(envelope: Envelope, say: Say) -> Envelope:
    """The outline with heights against the limit of the route, rooms and roof points by their numbers."""
    return replace(envelope, zones=tuple(_zone(n, z) for n, z in enumerate(envelope.zones, 1)),
                   roof=tuple(replace(r, id=f"roof-{n}", title=say(r.title)) for n, r in enumerate(envelope.roof, 1)),
                   chains=tuple(reduced_chain(c, say) for c in envelope.chains))


def outlined(steel: Steel) -> Steel:
    """The trailer as an outline: no sections, grades or titles of members, no loads of jacks or axles, no widths."""
    pieces = tuple(replace(p, mark=f"p{n}", title="", section="", grade="", mass=math.nan)
                   for n, p in enumerate(steel.pieces))
    jacks = tuple(replace(j, load_pair=math.nan, load_leg_level=math.nan, load_leg_worst=math.nan,
                          rating_needed=math.nan, stroke_needed=math.nan, crank_force=None, crank_turns=None,
                          crank_time=None, motor_current=None, motor_time=None, fuse=None) for j in steel.jacks)
    axles = tuple(replace(a, rating=math.nan, hub_face=math.nan, brake="") for a in steel.axles)
    return replace(steel, pieces=pieces, jacks=jacks, axles=axles, lateral=replace(steel.lateral, steps=()), places=(),
                   shapes=(), running=UNKNOWN, jack_pads=(math.nan,) * len(steel.jack_pads), steel_mass=math.nan,
                   frame_mass=math.nan, coupler_rating=math.nan)


def told_revision(label: str, date: str, technical: tuple[str, ...]) -> RevisionRow:
    """A revision as others than the owner read it: what changed on the trailer, in the words written for them."""
    return RevisionRow(label, date, "", "", technical)


def reduced_steel(steel: Steel, say: Say) -> Steel:
    """The trailer without what the owner weighed up when choosing the jacks, nor names of spec files."""
    jacks = tuple(replace(jack, why="") for jack in steel.jacks)
    return replace(steel, lateral=reduced_chain(steel.lateral, say), jacks=jacks)


def reduced_chain(chain: Chain, say: Say) -> Chain:
    """A chain without the names of spec files and roof points."""
    steps = (replace(s, title=say(s.title), source=say(s.source) or STATED) for s in chain.steps)
    return replace(chain, steps=tuple(steps))


def _zone(number: int, zone: HouseZone) -> HouseZone:
    return replace(zone, id=f"zone-{number}", title=f"zone {number}")


def _step(step: Step, say: Say) -> Step:
    inputs = tuple(_value(value, say) for value in step.inputs)
    text = step.text if is_formula(step.text) else say(step.text)
    return replace(step, what=say(step.what), text=text, source=say(step.source) or STATED, inputs=inputs,
                   result=_value(step.result, say))


def _value(value: Value, say: Say) -> Value:
    return replace(value, origin=say(value.origin)) if value.origin else value
