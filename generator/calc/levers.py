"""The smallest change of one input that clears a failing check, found by working the nominal design again.

A lever is a path into the spec: `trailer.running_gear.station`, `trailer.running_gear.axles.0.rating` (by place),
`house.zones.main.ceiling` (by id), `trailer.wheel_boxes.top` (all of a list alike). The section of a frame member,
`trailer.frame.members.r1.section` (by mark), is a lever too: its steps are the sections of its shape, stronger ones
one by one, those of the same outside first.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from typing import Any

from generator.calc.ladder import stronger as stronger
from generator.calc.record import Change, Check, Compared, Value
from generator.errors import PacketError
from generator.records import dataclass
from generator.reference.types import Section
from generator.spec.measure import Measure
from generator.spec.models.spec import Spec
from generator.spec.models.trailer import Member
from generator.units.table import KINDS

Evaluate = Callable[[Spec, str], Iterable[Check]]
"""A spec worked at nominal values: the checks of one part of the calculation, of every part for ""."""

MOST_STEPS = 4096
"""A change longer than so many of the shop's steps is no small change."""


@dataclass(frozen=True, slots=True)
class Lever:
    """An input somebody can change: words, which ways, how far (share of itself, or SI), in which steps (US, SI)."""

    title: str
    ways: tuple[int, ...]
    share: float
    reach: float
    steps: tuple[float, float]


DEGREE = math.radians(1.0)
LENGTHS, MASSES, PRESSURES = (0.00635, 0.005), (45.359237, 25.0), (34473.78646584, 25000.0)
"""Steps a shop or a catalogue offers: 1/4 in or 5 mm, 100 lb or 25 kg, 5 psi or 25 kPa. Common practice, no source."""


def _up(title: str, steps: tuple[float, float], share: float = 1.5) -> Lever:
    return Lever(title, (1,), share, 0.0, steps)


def _length(title: str, ways: tuple[int, ...], reach: float) -> Lever:
    return Lever(title, ways, 0.0, reach, LENGTHS)


LEVERS: Mapping[str, Lever] = {
    "trailer.running_gear.suspension.hitch_height_tolerance": Lever(
        "Hold the ball nearer to its height, plus or minus", (-1,), 0.9, 0.0, (0.0015875, 0.001)
    ),
    "trailer.running_gear.suspension.tube_to_deck": _length("Brackets of another height", (-1, 1), 0.15),
    "trailer.running_gear.suspension.hanger": _length("Hangers of another height", (-1, 1), 0.15),
    "trailer.running_gear.suspension.spring_rating": _up("Springs that carry more", MASSES),
    "trailer.coupling.height": _length("A coupler at another height of the tongue", (-1, 1), 0.25),
    "trailer.coupling.adjust_low": _length("A coupler that retracts further", (-1,), 0.15),
    "trailer.coupling.adjust_high": _length("A coupler that extends further", (1,), 0.15),
    "trailer.coupling.adjust_step": Lever("A coupler with a finer step", (-1,), 0.9, 0.0, LENGTHS),
    "trailer.neck.underside": _length("Another neck height", (-1, 1), 0.3),
    "trailer.neck.frame_depth": _length("A shallower neck frame", (-1,), 0.1),
    "trailer.running_gear.station": _length("Move the axle group", (-1, 1), 2.0),
    "trailer.running_gear.spacing": _length("Axles further apart", (1,), 0.3),
    "trailer.running_gear.wheel.offset": _length("Wheels with another offset", (-1, 1), 0.08),
    "trailer.running_gear.tyre.load": _up("Tyres that carry more", MASSES),
    "trailer.running_gear.tyre.diameter": _length("Tyres of another diameter", (-1, 1), 0.15),
    "trailer.running_gear.wheel.load": _up("Wheels that carry more", MASSES),
    "trailer.running_gear.wheel.pressure": _up("Wheels rated for more pressure", PRESSURES),
    "trailer.running_gear.axles.*.rating": _up("An axle that carries more", MASSES),
    "trailer.running_gear.axles.*.hub_rating": _up("Hubs that carry more", MASSES),
    "trailer.running_gear.axles.*.brake.rating": _up("Brakes rated for more", MASSES),
    "trailer.coupling.vertical_rating": _up("A coupler that carries more", MASSES),
    "trailer.coupling.rating": _up("A coupler rated for more", MASSES),
    "trailer.coupling.station": _length("Move the ball", (-1, 1), 1.0),
    "trailer.chains.breaking": _up("Stronger chains", MASSES),
    "trailer.jacks.*.lift_rating": _up("Jacks that lift more", MASSES),
    "trailer.jacks.*.static_rating": _up("Jacks that hold more", MASSES),
    "trailer.jacks.*.stroke": _length("Jacks with a longer stroke", (1,), 0.6),
    "trailer.jacks.*.station": _length("Move the jacks", (-1, 1), 1.5),
    "trailer.jacks.*.block": _length("Higher blocks under the feet", (1,), 0.4),
    "trailer.wheel_boxes.*.top": _length("Higher wheel boxes", (1,), 0.3),
    "trailer.wheel_boxes.*.inside": _length("Wheel boxes further in", (-1,), 0.3),
    "trailer.wheel_boxes.*.front": _length("Longer wheel boxes, forward", (-1,), 0.5),
    "trailer.wheel_boxes.*.rear": _length("Longer wheel boxes, aft", (1,), 0.5),
    "trailer.frame.rails_outside": _length("Rails closer together", (-1,), 0.5),
    "trailer.neck.front": _length("A shorter neck", (1,), 1.0),
    "house.roof_points.*.height": _length("Lower roof points", (-1,), 0.5),
    "house.zones.*.ceiling": _length("A higher ceiling", (1,), 0.4),
    "house.zones.*.floor": _length("A lower floor", (-1,), 0.3),
    "house.openings.*.clear_width": _length("A window that opens wider", (1,), 0.6),
    "house.openings.*.clear_height": _length("A window that opens higher", (1,), 0.6),
    "house.climbs.*.tread": _length("Deeper treads", (1,), 0.2),
    "house.climbs.*.rise": _length("Another rise of step or rung", (-1, 1), 0.2),
    "house.climbs.*.width": _length("A wider stair or ladder", (1,), 0.3),
    "house.climbs.*.angle": Lever("A ladder that leans more", (-1,), 0.4, 0.0, (DEGREE, DEGREE)),
    "house.width": _length("A narrower house", (-1,), 0.5),
    "tow.vehicle.bed_rail": _length("A tow vehicle with lower bed rails", (-1,), 0.3),
    "tow.vehicle.ball_height": _length("A ball at another height", (-1, 1), 0.2),
    "tow.vehicle.ball_to_cab": _length("A tow vehicle with the ball further from the cab", (1,), 0.8),
    "tow.vehicle.ball_to_bumper": _length("A longer ball mount", (1,), 0.4),
    "tow.vehicle.ball_to_bed_end": _length("A tow vehicle with the ball nearer the bed's end", (-1,), 0.8),
}
"""What may be changed, in the order to think of it: turn a screw, change a part, change steel, change the house."""

ORDER = {path: n for n, path in enumerate(LEVERS)}
STEEL = Lever("A stronger section for {}", (1,), 0.0, 0.0, (1.0, 1.0))
STEEL_ORDER = ORDER["trailer.frame.rails_outside"]
SHORT = {"house.roof_points": "house.roof_points.*.height"}


@dataclass(slots=True)
class Bench:
    """The design to change, its checks and the part each comes from, and the designs worked (part, lever, steps)."""

    spec: Spec
    evaluate: Evaluate
    now: Mapping[str, Check]
    homes: Mapping[str, str]
    sections: Mapping[str, Section]
    worked: dict[tuple[str, str, int], Mapping[str, Check]] = field(default_factory=dict)

    def at(self, path: str, steps: int, part: str = "") -> Mapping[str, Check]:
        """Checks with this lever moved by so many steps; a spec that cannot be worked has none."""
        key = (part, path, steps)
        if key not in self.worked:
            try:
                self.worked[key] = {c.id: c for c in self.evaluate(self.changed(path, steps), part)}
            except PacketError:
                self.worked[key] = {}
        return self.worked[key]

    def one(self, path: str, steps: int, id: str) -> Check | None:
        """One check with this lever moved by so many steps, from its own part of the calculation alone."""
        return (self.worked.get(("", path, steps)) or self.at(path, steps, self.homes[id])).get(id)

    def ladder(self, path: str) -> tuple[str, ...]:
        """The sections that a member may step up to, in order."""
        return stronger(self.sections, members_at(self.spec, path)[0].section)

    def changed(self, path: str, steps: int) -> Spec:
        """The spec with this lever moved by so many steps."""
        if is_steel(path):
            return with_section(self.spec, path, self.ladder(path)[steps - 1], self.sections)
        return changed(self.spec, path, moved(self.spec, path, steps))


def changes_of(bench: Bench, check: Check) -> tuple[Change, ...]:
    """The smallest single changes that clear a check, easiest first; none where it is not worked from the spec."""
    return tuple(change for change, _ in each_change(bench, check))


def each_change(bench: Bench, check: Check) -> Iterator[tuple[Change, int]]:
    """The smallest change by each lever that clears a check, easiest first, with its steps; worked as it is asked."""
    for path in paths_of(bench, check):
        steps = steps_of(bench, path, check.id)
        if steps:
            yield made(bench, path, steps), steps


def paths_of(bench: Bench, check: Check) -> list[str]:
    """The levers of a check that this spec has, easiest first."""
    if check.id not in bench.homes:
        return []
    paths = dict.fromkeys(SHORT.get(p, p) for p in check.about.levers)
    return sorted((p for p in paths if _is_there(bench.spec, p)), key=lambda p: _order(bench.spec, p))


def _is_there(spec: Spec, path: str) -> bool:
    if is_steel(path):
        return bool(members_at(spec, path))
    return _kind(spec, path) in LEVERS and _first(spec, path) is not None


def _order(spec: Spec, path: str) -> int:
    return STEEL_ORDER if is_steel(path) else ORDER[_kind(spec, path)]


def ways_of(bench: Bench, path: str) -> tuple[tuple[int, ...], int]:
    """Which ways a lever goes, and how many steps at most."""
    if is_steel(path):
        return STEEL.ways, len(bench.ladder(path))
    lever = LEVERS[_kind(bench.spec, path)]
    return lever.ways, _most(bench.spec, path, lever)


def steps_of(bench: Bench, path: str, id: str) -> int:
    """Fewest steps of a lever, either way, that clear a check; 0 if none in reach."""
    ways, most = ways_of(bench, path)
    found = [steps for way in ways for steps in [_fewest(bench, path, way, most, id)] if steps]
    return min(found, key=abs, default=0)


def made(bench: Bench, path: str, steps: int, upsets: tuple[str, ...] | None = None) -> Change:
    """A lever moved by so many steps as a change, with what it upsets."""
    upset = upsets_of(bench, bench.at(path, steps)) if upsets is None else upsets
    if is_steel(path):
        member = members_at(bench.spec, path)[0]
        names = member.section, bench.ladder(path)[steps - 1]
        now, then = (Value("S", bench.sections[name].modulus, "m3:section") for name in names)
        return Change(path, STEEL.title.format(member.mark), now, then, upset, names)
    measure = _first(bench.spec, path)
    unit, symbol = KINDS[measure.kind].unit if measure else "", path.rpartition(".")[2]
    before = Value(symbol, measure.nominal, unit, measure.origin) if measure else Value(symbol, math.nan, unit)
    after = Value(symbol, moved(bench.spec, path, steps), unit)
    return Change(path, LEVERS[_kind(bench.spec, path)].title, before, after, upset)


def upsets_of(bench: Bench, then: Mapping[str, Check]) -> tuple[str, ...]:
    """What fails then and does not fail now."""
    return tuple(sorted(i for i, c in then.items() if c.status == "fail" and not _fails(bench.now.get(i))))


def _fails(check: Check | None) -> bool:
    return check is not None and check.status == "fail"


def _fewest(bench: Bench, path: str, way: int, most: int, id: str) -> int:
    """Fewest steps this way that clear the check, 0 if none in reach: a guess along the slope, else doubling.

    A number with one way only gets better along it: its far end is tried first. A ladder of sections need not: the
    heaviest may be one whose strength nobody here can tell.
    """
    is_one_way = not is_steel(path) and len(ways_of(bench, path)[0]) == 1

    def room(steps: int) -> float:
        return room_of(bench.one(path, way * steps, id) if steps else bench.now[id])

    if most < 1 or (is_one_way and not room(most) >= 0.0):
        return 0
    bad, good = (0, 0) if is_steel(path) else _by_slope(room, most)
    if not good:
        tried = sorted({min(2**n, most) for n in range(most.bit_length() + 1)})
        good = next((s for s in tried if room(s) >= 0.0), 0)
        bad = max((s for s in tried if s < good), default=0)
    while good - bad > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if room(middle) >= 0.0 else (good, middle)
    return way * good


def room_of(check: Check | None) -> float:
    """What is left of a check's limit, in its own unit: at least 0 holds, NaN where it is not assessed."""
    if check is None or not isinstance(check.outcome, Compared):
        return math.nan
    left = check.outcome.limit.value - check.outcome.demand.value
    return left if check.outcome.sense == "<=" else -left


GUESSES = 4
"""So many guesses along the slope; what still is not found is found by halving."""


def _by_slope(room: Callable[[int], float], most: int) -> tuple[int, int]:
    """A count of steps that does not clear and a greater one that does, close together; (0, 0) if the slope tells none.

    Most checks are straight, or nearly, in one input: the second guess stands beside the first.
    """
    bad, good, last = 0, 0, 0
    for guess in range(GUESSES + 1):
        if guess == 0:
            at = 1
        elif good:
            at = min(max(_crossing(bad, room(bad), good, room(good), good), bad + 1), good - 1)
        else:
            at = _crossing(last, room(last), bad, room(bad), most)
        if not bad < at <= most or (good and at >= good):
            break
        if room(at) >= 0.0:
            good = at
        else:
            last, bad = bad, at
        if good - bad == 1:
            break
    return (bad, good) if good else (0, 0)


def _crossing(a: int, left: float, b: int, right: float, most: int) -> int:
    """First whole count where the line through two points is not below zero, at most `most`; 0 if it falls."""
    slope = (right - left) / (b - a) if b != a else math.nan
    return min(math.ceil(b - right / slope - 1e-9), most) if 0.0 < slope < math.inf else 0


def _most(spec: Spec, path: str, lever: Lever) -> int:
    measure = _first(spec, path)
    reach = lever.reach or lever.share * abs(measure.nominal if measure is not None else 0.0)
    return min(int(reach / _step(spec, path)), MOST_STEPS) if math.isfinite(reach) else 0


def _step(spec: Spec, path: str) -> float:
    if path == "trailer.running_gear.station" and spec.trailer.running_gear.station_step.nominal > 0.0:
        return spec.trailer.running_gear.station_step.nominal
    if path == "trailer.neck.underside" and (neck := spec.trailer.neck) is not None and neck.shop_step.nominal > 0.0:
        return neck.shop_step.nominal
    return LEVERS[_kind(spec, path)].steps[0 if spec.project.units == "us" else 1]


def moved(spec: Spec, path: str, steps: int) -> float:
    """The value of a lever (SI) after so many steps on the step's own grid."""
    measure, step = _first(spec, path), _step(spec, path)
    now = measure.nominal if measure is not None else math.nan
    if not math.isfinite(now):
        return now
    grid = math.floor(now / step + 1e-9) if steps > 0 else math.ceil(now / step - 1e-9)
    return (grid + steps) * step


def changed(spec: Spec, path: str, value: float) -> Spec:
    """The spec with every measure of the path at `value` (SI), its spread kept."""
    root, _, rest = path.partition(".")
    return replace(spec, **{root: _set(getattr(spec, root), rest.split("."), value)})


def _set(part: Any, path: Sequence[str], value: float) -> Any:
    if isinstance(part, Measure):
        shift = value - part.nominal
        return replace(part, nominal=value, low=part.low + shift, high=part.high + shift)
    if isinstance(part, tuple):
        wanted, rest = _chosen(part, path)
        return tuple(_set(p, rest, value) if any(p is w for w in wanted) else p for p in part)
    return part.model_copy(update={path[0]: _set(getattr(part, path[0]), path[1:], value)})


def is_steel(path: str) -> bool:
    """Whether a lever is the section of a member."""
    return path.endswith(".section")


def members_at(spec: Spec, path: str) -> list[Member]:
    """The members a lever of steel means: `trailer.frame.members.r1.section`."""
    _, part, _, mark, _ = path.split(".")
    held = getattr(spec.trailer, part)
    return [m for m in (held.members if held is not None else ()) if m.mark == mark]


def with_section(spec: Spec, path: str, name: str, sections: Mapping[str, Section]) -> Spec:
    """The spec with another section for a member; a lengthwise one keeps its outer face where it was."""
    _, part, _, mark, _ = path.split(".")

    def given(m: Member) -> Member:
        if m.mark != mark:
            return m
        wider = (sections[name].width - sections[m.section].width) / 2 if m.run == "lengthwise" else 0.0
        y = m.y if m.y is None or not m.y.nominal else replace(
            m.y, nominal=m.y.nominal - wider, low=m.y.low - wider, high=m.y.high - wider)
        return m.model_copy(update={"section": name, "y": y})

    held = getattr(spec.trailer, part)
    members = tuple(given(m) for m in held.members)
    return replace(spec, trailer=spec.trailer.model_copy(update={part: held.model_copy(update={"members": members})}))


def _first(spec: Spec, path: str) -> Measure | None:
    """The first measure of a path; None where the spec has none."""
    part: Any = spec
    rest: Sequence[str] = path.split(".")
    while rest or isinstance(part, tuple):
        if part is None:
            return None
        if isinstance(part, tuple):
            chosen, rest = _chosen(part, rest)
            part = chosen[0] if chosen else None
        else:
            part, rest = getattr(part, rest[0], None), rest[1:]
    return part if isinstance(part, Measure) else None


def _chosen(parts: tuple[Any, ...], path: Sequence[str]) -> tuple[list[Any], Sequence[str]]:
    """Which of a list a path means (by place, by id, or all), and what is left of the path."""
    head = path[0] if path else ""
    if head.isdigit():
        return list(parts[int(head) : int(head) + 1]), path[1:]
    by_id = [p for p in parts if getattr(p, "id", None) == head]
    if by_id or head == "*":
        return by_id or list(parts), path[1:]
    return list(parts), path


def _kind(spec: Spec, path: str) -> str:
    """The path with every place in a list written `*`."""
    part: Any = spec
    rest: Sequence[str] = path.split(".")
    words: list[str] = []
    while rest and part is not None:
        if isinstance(part, tuple):
            chosen, rest = _chosen(part, rest)
            part = chosen[0] if chosen else None
            words.append("*")
        else:
            words.append(rest[0])
            part, rest = getattr(part, rest[0], None), rest[1:]
    return ".".join([*words, *rest])
