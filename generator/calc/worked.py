"""All topics of one design worked once, from sums to checks; or the one part that gives a wanted check."""

from collections.abc import Callable, Mapping

from generator.calc.findings import Beam, GroupRow, JackRecord
from generator.calc.record import Check, Findings, Reported
from generator.calc.sums import AllSums, sums
from generator.calc.topics.access import access
from generator.calc.topics.attitude import Attitudes, attitudes, hitch_and_axles
from generator.calc.topics.axle_bench import Bench
from generator.calc.topics.axles import StateLoads, axles, level_loads
from generator.calc.topics.centres import centres
from generator.calc.topics.dwelling import dwelling
from generator.calc.topics.ends import ends
from generator.calc.topics.fatigue import fatigue
from generator.calc.topics.fit import Fit, fit
from generator.calc.topics.floor import floor
from generator.calc.topics.frame import frame
from generator.calc.topics.frame_drawn import Solved
from generator.calc.topics.heights import Heights, heights
from generator.calc.topics.jacks import jacks
from generator.calc.topics.lateral import Lateral, lateral
from generator.calc.topics.masses import DESIGN, StateMass, group_rows, masses, state_masses
from generator.calc.topics.neck import NeckFound, neck
from generator.calc.topics.parked import parked
from generator.calc.topics.placement import placement
from generator.calc.topics.ratings import NO_HEAVIER, Heavier, Ratings, ratings
from generator.calc.topics.reweighed import Correction, corrected
from generator.calc.topics.rides import Ride, bounce, rides
from generator.calc.topics.road import on_the_road
from generator.calc.topics.road_inputs import towed_states
from generator.calc.topics.tongue import tongue
from generator.calc.topics.tow import tow
from generator.calc.topics.wheel_boxes import wheel_boxes
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.load import Reference
from generator.spec.models.spec import Spec


@dataclass(frozen=True, slots=True, eq=False)
class Worked:
    """All topics of one design worked once, nominal or with trials."""

    at: Mapping[str, StateMass]
    groups: tuple[GroupRow, ...]
    loads: Mapping[str, StateLoads]
    rides: Mapping[str, Ride]
    bench: Bench
    ratings: Ratings
    heights: Heights
    lateral: Lateral
    neck: NeckFound
    jacks: tuple[JackRecord, ...]
    beam: Beam
    solved: Solved | None
    fitted: Fit
    findings: tuple[Findings, ...]
    homes: Mapping[str, str]
    """The part of the calculation each check comes from."""

    @property
    def checks(self) -> tuple[Check, ...]:
        """Checks of all topics, in order."""
        return tuple(c for f in self.findings for c in f.checks)

    @property
    def quantities(self) -> tuple[Reported, ...]:
        """Quantities of all topics, in order."""
        return tuple(q for f in self.findings for q in f.quantities)


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What every topic stands on: the design, sums by state, level loads, rides and attitudes."""

    model: Model
    data: Reference
    trials: Trials
    heavier: Heavier
    at: Mapping[str, StateMass]
    total: AllSums
    loads: Mapping[str, StateLoads]
    ride: Mapping[str, Ride]
    tilted: Attitudes


def ground(
    model: Model, data: Reference, trials: Trials, total: AllSums | None = None, heavier: Heavier = NO_HEAVIER
) -> Ground:
    """The ground of a design; `total` where its sums are not the plain ones of the items."""
    total = total or sums(model, trials, data)
    at = state_masses(model, total)
    loads = level_loads(model, at, trials, data)
    ride = rides(model, loads, trials, data)
    return Ground(model, data, trials, heavier, at, total, loads, ride, attitudes(model, loads, ride, trials))


def _placed(g: Ground) -> tuple[Bench, Findings]:
    return placement(g.model, g.loads, g.ride, g.tilted.seats, g.trials, g.data)


def _rated(g: Ground) -> Ratings:
    return ratings(g.model, g.at, g.loads, g.tilted, g.trials, g.data, g.heavier)


def _framed(g: Ground) -> tuple[Beam, Solved | None, Findings]:
    towed = towed_states(g.model, g.loads, g.ride)
    return frame(g.model, g.loads, g.ride, g.trials, g.data, g.at, towed)


def _tow(g: Ground, rated: Ratings) -> Findings:
    return tow(g.model, g.tilted, g.ride, rated.gvwr, g.trials, g.data)


PARTS: Mapping[str, Callable[[Ground], tuple[Findings, ...]]] = {
    "masses": lambda g: (masses(g.model, g.at, g.trials, g.data),),
    "floor": lambda g: (floor(g.model, g.trials),),
    "axles": lambda g: (axles(g.model, g.loads, g.ride, g.trials, g.data),),
    "hitch and axles": lambda g: (hitch_and_axles(g.model, g.tilted, g.trials, g.data),),
    "centres": lambda g: (centres(g.model, towed_states(g.model, g.loads, g.ride), g.trials, g.data),),
    "placement": lambda g: (_placed(g)[1],),
    "ratings": lambda g: (_rated(g).findings,),
    "heights": lambda g: (heights(g.model, g.ride, g.trials, g.data).findings,),
    "lateral": lambda g: (lateral(g.model, g.trials, g.data).findings,),
    "neck": lambda g: (neck(g.model, g.ride, g.trials, g.data).findings,),
    "tongue": lambda g: (tongue(g.model, g.loads[DESIGN], g.ride[DESIGN], g.trials, g.data),),
    "jacks": lambda g: (jacks(g.model, g.loads, g.ride, g.trials, g.data).findings,),
    "frame": lambda g: (_framed(g)[2],),
    "fit": lambda g: (fit(g.model, g.trials, g.data).findings,),
    "tow": lambda g: (_tow(g, _rated(g)),),
    "road": lambda g: tuple(on_the_road(g.model, g.loads, g.ride, g.trials, g.data)),
    "parked": lambda g: (parked(g.model, g.at, g.loads, g.ride, g.trials, g.data),),
    "ends": lambda g: (ends(g.model, g.ride, g.trials, g.data),),
    "access": lambda g: (access(g.model, g.loads, g.trials, g.data),),
    "dwelling": lambda g: (dwelling(g.model, g.trials, g.data),),
    "wheel boxes": lambda g: (wheel_boxes(g.model, g.loads, g.ride, g.trials, g.data),),
    "bounce": lambda g: (bounce(g.model, g.loads, g.ride, g.trials, g.data),),
    "fatigue": lambda g: (fatigue(g.model, g.trials, g.data),),
}
"""The parts of the calculation that give checks, in the order of print; each needs the ground and no other part."""


def work(
    model: Model, data: Reference, trials: Trials, total: AllSums | None = None, heavier: Heavier = NO_HEAVIER
) -> Worked:
    """Every topic once, from sums to checks; `total` where they are not the plain sums of the items.

    `heavier`: what trials of the base design made of the ratings to ask for, for a nominal run.
    """
    g = ground(model, data, trials, total, heavier)
    (bench, placed), rated, (beam, solved, framed) = _placed(g), _rated(g), _framed(g)
    high, wide = heights(model, g.ride, trials, data), lateral(model, trials, data)
    necked, lifted = neck(model, g.ride, trials, data), jacks(model, g.loads, g.ride, trials, data)
    fitted = fit(model, trials, data)
    ready = {
        "placement": placed,
        "ratings": rated.findings,
        "heights": high.findings,
        "lateral": wide.findings,
        "neck": necked.findings,
        "jacks": lifted.findings,
        "frame": framed,
        "fit": fitted.findings,
        "tow": _tow(g, rated),
    }
    found = {name: (ready[name],) if name in ready else part(g) for name, part in PARTS.items()}
    return Worked(
        at=g.at,
        groups=group_rows(model, g.total),
        loads=g.loads,
        rides=g.ride,
        bench=bench,
        ratings=rated,
        heights=high,
        lateral=wide,
        neck=necked,
        jacks=lifted.records,
        beam=beam,
        solved=solved,
        fitted=fitted,
        findings=tuple(f for part in found.values() for f in part),
        homes={c.id: name for name, part in found.items() for f in part for c in f.checks},
    )


def nominal_checks(
    spec: Spec, data: Reference, part: str, by: Correction | None = None, heavier: Heavier = NO_HEAVIER
) -> tuple[Check, ...]:
    """The checks of one part of a spec at nominal values, of every part for ""; raises SpecError if it makes no sense.

    One part costs a tenth of them all: whoever tries many values of one input asks for the part of the check it mends.
    """
    model, trials = corrected(resolve(spec, data), by), Trials(count=0)
    if not part:
        return work(model, data, trials, heavier=heavier).checks
    return tuple(c for f in PARTS[part](ground(model, data, trials, heavier=heavier)) for c in f.checks)
