"""The engineer's brief: geometry, loads both ways, counts of a year, and what this program leaves open."""

from collections.abc import Iterator

from generator.calc.record import Compared, Missing, Reported
from generator.model.types import Piece
from generator.release.sheets import Brief, CaseRow, Given
from generator.release.wording import Asked, hangers
from generator.spec.models.trailer import Leaf, Torsion

CASES = (("towing", "On the road"), ("jacked", "On the nose jacks"), ("parked", "Parked on its stands"),
         ("parked_snow", "Parked, snow on the roof"))
"""Cases of the frame by their word in the ids, as printed."""
ROOT = ("frame.neck_root.moment_towing", "frame.neck_root.moment_jacked", "frame.neck_root.axial",
        "frame.neck_root.push", "frame.neck_root.moment_push", "frame.neck_root.sideways",
        "frame.axial_bending.use", "tongue.leg_moment")
HOUSE = ("anchor.house", "anchor.forward", "anchor.sideways", "anchor.wind_uplift", "anchor.wind_shear",
         "anchor.seismic")
GROUND = ("parked.tie.tension", "parked.wind.force", "parked.wind.uplift", "parked.wind.pressure",
          "parked.wind.ratio", "parked.mass_low", "parked.mass_high", "parked.snow")
FATIGUE = ("frame.neck_root.moment_range", "frame.neck_root.stress_range", "fatigue.swings", "fatigue.lifts")
AHEAD = -0.3
"""A station ahead of datum A and behind every coupling, m."""
WIDE = 0.01
"""A spread narrower than this share of the value is not worth a reader's time."""
ENGINEER = "engineer"
"""A missing input that is an engineer's to give says so."""


def brief(a: Asked) -> Brief:
    """The whole brief of one design."""
    return Brief(
        geometry=tuple(_geometry(a)), cases=tuple(_cases(a)),
        root=_given(a, ROOT), gear=_gear(a), house=_given(a, HOUSE), ground=_given(a, GROUND),
        fatigue=_given(a, FATIGUE), points=tuple(_points(a)), open=tuple(_open(a)),
    )


def _given(a: Asked, ids: tuple[str, ...]) -> tuple[Given, ...]:
    found = (a.reported(id) for id in ids)
    return tuple(_as_given(a, q) for q in found if q is not None)


def _as_given(a: Asked, q: Reported) -> Given:
    spread = f"{a.show(q.low, q.unit, 'down')} to {a.show(q.high, q.unit, 'up')}"
    return Given(q.title, a.show(q.nominal, q.unit, q.toward), spread if q.high - q.low > WIDE * abs(q.nominal) else "")


def _geometry(a: Asked) -> Iterator[tuple[str, str]]:
    show, s, trailer = a.show, a.steel, a.model.spec.trailer
    yield "Main deck", f"{show(s.deck_length, 'm')} long, {show(s.deck_width, 'm')} wide"
    yield "Rails", f"{_deepest(s.pieces, 0.5 * s.deck_length)}; {show(s.rails_outside, 'm')} outside"
    yield "Coupling", (f"{trailer.coupling.type}, station {show(s.pin_station, 'm')}, "
                       f"{show(s.ball_height, 'm')} above ground as towed")
    if s.has_neck:
        yield "Neck", (f"from station {show(s.neck_front, 'm')}, underside {show(s.neck_underside, 'm')} over the main "
                       f"deck, {show(s.neck_rails_outside, 'm')} outside; {_deepest(s.pieces, AHEAD)}")
    else:
        yield "Tongue", _deepest(s.pieces, AHEAD)
    yield "Axles", f"stations {', '.join(show(x.station, 'm') for x in s.axles)}"
    yield _hung(a)
    yield "Suspension", _suspension(a)
    travel = next((s for s in a.results.states if s.id == "travel"), None)
    if travel is not None:
        yield "Mass as towed", (f"{show(travel.mass, 'kg')}, its high side {show(travel.mass_high, 'kg', 'up')}; "
                                f"{show(travel.hitch, 'kg')} on the coupling")
    yield "Welding asked for", f"{trailer.welding.code}; {trailer.welding.visual}"


def _hung(a: Asked) -> tuple[str, str]:
    """Stations of what the axles hang from, front to rear: brackets of torsion axles, hangers of leaf springs."""
    show, s = a.show, a.steel
    match a.model.spec.trailer.running_gear.suspension:
        case Torsion():
            stations = ", ".join(show(x.bracket_station, "m") for x in s.axles)
            return "Brackets", f"stations {stations}; {show(s.bracket_spacing, 'm')} across"
        case Leaf():
            return "Hangers, equalisers", f"{hangers(a)}; {show(s.bracket_spacing, 'm')} across"


def _deepest(pieces: tuple[Piece, ...], x: float) -> str:
    """Section and grade of the deepest lengthwise member that passes a station (m)."""
    passing = [p for p in pieces if p.run == "lengthwise" and p.x0 <= x <= p.x1]
    if not passing:
        return "see the member schedule"
    p = max(passing, key=lambda p: (p.z1 - p.z0, p.mark))
    return f"{p.mark}, {p.section}, {p.grade}"


def _suspension(a: Asked) -> str:
    show = a.show
    match a.model.spec.trailer.running_gear.suspension:
        case Torsion(arm=arm, start_angle=angle):
            return f"rubber torsion, arm {show(arm.nominal, 'm')}, {show(angle.nominal, 'rad')} below level unloaded"
        case Leaf(mounting=mounting, eye_length=eyes, rate=rate):
            return (f"leaf springs {mounting}, {show(eyes.nominal, 'm')} from eye to eye, "
                    f"{show(rate.nominal, 'N/m:spring')} a spring")


def _cases(a: Asked) -> Iterator[CaseRow]:
    show = a.show
    checks = {c.id: c.outcome for c in a.results.checks}
    for word, title in CASES:
        sag, hog, shear = (a.reported(f"frame.{word}.{k}") for k in ("moment_sag", "moment_hog", "shear"))
        if sag is None or hog is None or shear is None:
            continue
        bent = checks.get(f"frame.{word}.bending")
        both = (show(v.value, v.unit) for v in (bent.demand, bent.limit)) if isinstance(bent, Compared) else ("", "")
        yield CaseRow(title, show(sag.nominal, "N*m"), show(-hog.nominal, "N*m"),
                      f"±{show(shear.nominal, shear.unit)}", *both)


def _gear(a: Asked) -> tuple[Given, ...]:
    """Vertical load and braking force of every axle."""
    show, rows = a.show, []
    for axle in a.steel.axles:
        worst = a.reported(f"axle.{axle.number}.worst")
        if worst is not None:
            rows.append(_as_given(a, worst))
    rated = ", ".join(dict.fromkeys(show(axle.rating, "kg") for axle in a.steel.axles))
    braked = ", ".join(dict.fromkeys(axle.brake for axle in a.steel.axles))
    rows.append(Given(f"Rating of an axle asked for; brakes {braked}", rated, ""))
    return (*rows, *_given(a, ("axle.1.tolerance_load", "tyre_change.load")))


def _points(a: Asked) -> Iterator[tuple[str, str]]:
    show = a.show
    for kind, title in (("lift", "Lift points"), ("tie", "Tie points"), ("anchor", "House anchors")):
        held = [p for p in a.steel.points if p.kind == kind]
        if held:
            places = ", ".join(show(p.station, "m") for p in held)
            ratings = ", ".join(sorted({show(p.rating, "kg") for p in held}))
            yield title, f"both sides at stations {places}; {ratings} each asked for"
    for jack in a.steel.jacks:
        yield jack.title, f"station {show(jack.station, 'm')}; {show(jack.load_leg_worst, 'kg', 'up')} a leg at worst"
    if a.steel.stands:
        yield "Stands", f"both sides at stations {', '.join(show(s.station, 'm') for s in a.steel.stands)}"


def _open(a: Asked) -> Iterator[str]:
    """Checks that wait for an engineer."""
    for check in a.results.checks:
        match check.outcome:
            case Missing(inputs=inputs) if any(ENGINEER in i for i in inputs):
                yield check.about.title
            case _:
                pass


