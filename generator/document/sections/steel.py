"""Schedules of what is welded and bolted on: members, dimensions, running gear, supports."""

from collections.abc import Iterable
from itertools import groupby

from generator.calc.findings import Chain, JackRecord
from generator.document.blocks import Block, Head, Line, Prose, table
from generator.document.plots import JACKS, picture
from generator.document.section import Context, Section
from generator.model.types import Piece
from generator.release.slices import Steel
from generator.units import Show


def members(steel: Steel, context: Context) -> tuple[Block, ...]:
    """Mark, section, grade, quantity, cut length, mass; total of the steel."""
    show = context.show
    label = show.label("kg")
    heads = (
        Head("Mark", width=7),
        Head("Member", width=29),
        Head("Section", width=16),
        Head("Grade", width=13),
        Head("Qty", True, 6),
        Head("Cut length", True, 13),
        Head(f"Each, {label}", True, 8),
        Head(f"All, {label}", True, 8),
    )
    lines: list[Line] = [_member(list(g), show) for _, g in groupby(sorted(steel.pieces, key=_kind), key=_kind)]
    listed = sum(p.mass for p in steel.pieces)
    lines.append(("total", ("Listed", "", "", "", str(len(steel.pieces)), "", "", show.number(listed, "kg"))))
    note = (
        f"Members alone {show(steel.steel_mass, 'kg')}; with plates, gussets, weld metal and any zinc allowed for, "
        f"{show(steel.frame_mass, 'kg')}. Cut lengths are the finished lengths; the shop adds its own kerf and trim."
    )
    return (table("Member schedule", heads, lines, "schedule", note, is_titled=True), *_places(steel))


def _places(steel: Steel) -> tuple[Block, ...]:
    """Where each mark goes, and how its ends are cut."""
    heads = (
        Head("Mark", width=6),
        Head("Stations, from datum A", width=27),
        Head("Off the centre line", width=24),
        Head("Top, from deck top", width=17),
        Head("Ends and toes", width=26),
    )
    rows = [(p.mark, p.where, p.across, p.top, p.ends) for p in steel.places]
    note = (
        "Stations are of the centre line of crosswise and upright members, of both ends of lengthwise ones; datum A is "
        "the front face of the front crossmember, stations ahead of it are negative. Off the centre line: of the "
        "middle, or of both ends of what runs crosswise. Heights are from the main-deck top, below it negative. Ends "
        "are cut square unless a cope or an angle in plan is given; copes clear the flange, the end stops at the web."
    )
    return (table("Where each mark goes", heads, rows, "schedule", note),) if rows else ()


def _kind(piece: Piece) -> tuple[str, str, str, str, int]:
    return (piece.mark, piece.title, piece.section, piece.grade, round(piece.cut_length * 1e4))


def _member(pieces: list[Piece], show: Show) -> Line:
    p = pieces[0]
    return (
        "row",
        (
            p.mark,
            p.title,
            p.section,
            p.grade,
            str(len(pieces)),
            show(p.cut_length, "m"),
            show.number(p.mass, "kg"),
            show.number(sum(q.mass for q in pieces), "kg"),
        ),
    )


def dimensions(steel: Steel, context: Context) -> tuple[Block, ...]:
    """The governing dimensions, each with where it is measured from."""
    show, say = context.show, context.cover.say
    at = "station, from datum A"
    rows: list[tuple[str, float, str]] = [
        ("Main deck, length", steel.deck_length, "datum A to rear face"),
        ("Main deck, width", steel.deck_width, "over all"),
        ("Main rails, outside to outside", steel.rails_outside, "square to the centreline"),
        ("Deck top above ground, as towed", steel.deck_height_laden, "level ground, travel state"),
        ("Deck top above ground, as delivered", steel.deck_height_bare, "level ground, bare"),
        ("Rail underside", steel.rail_underside, "height, from main-deck top"),
        *(_neck(steel, at) if steel.has_neck else _tongue(steel)),
        ("Coupler centre", steel.pin_station, at),
        ("Ball height, loaded", steel.ball_height, "level ground, tow vehicle loaded"),
        *(_coupler(steel, show) if steel.has_neck else ()),
        ("Safety-chain anchors", steel.chain_anchor, at),
    ]
    for i, box in enumerate(steel.boxes, 1):
        rows.append((f"Wheel box {i}, front end (both sides)", box.front, at))
        rows.append((f"Wheel box {i}, rear end", box.rear, at))
        rows.append((f"Wheel box {i}, inner face", box.inside, "from the centreline"))
        rows.append((f"Wheel box {i}, top", box.top, "height, from main-deck top"))
    heads = (Head("Dimension", width=44), Head("Value", True, 18), Head("Measured", width=38))
    return (
        table(
            "Governing dimensions",
            heads,
            [(say(a), show(v, "m"), say(m)) for a, v, m in rows],
            "schedule",
            f"General tolerance: ISO 13920 class {steel.tolerance_class}. Tighter ones stand in the clauses and on the "
            f"acceptance sheet.",
            True,
        ),
    )


def _neck(steel: Steel, at: str) -> tuple[tuple[str, float, str], ...]:
    return (
        ("Neck, front end", steel.neck_front, at),
        ("Neck, width", steel.neck_width, "over all"),
        ("Neck rails, outside to outside", steel.neck_rails_outside, "square to the centreline"),
        ("Neck underside", steel.neck_underside, "height, from main-deck top"),
        ("Neck frame depth", steel.neck_frame_depth, "underside to neck-deck top"),
    )


def _tongue(steel: Steel) -> tuple[tuple[str, float, str], ...]:
    at = "height, from main-deck top"
    return (
        ("Tongue underside", steel.hitched.tongue_underside, at),
        ("Ball centre, as the coupler is welded", steel.hitched.ball_above_deck, at),
    )


def _coupler(steel: Steel, show: Show) -> tuple[tuple[str, float, str], ...]:
    return (
        ("Coupler setting", steel.coupler_set, "neck underside to ball centre"),
        ("Coupler, shortest and longest", steel.coupler_low, f"longest {show(steel.coupler_high, 'm')}"),
    )


def running_gear(steel: Steel, context: Context) -> tuple[Block, ...]:
    """One row an axle; the lateral chain."""
    show = context.show
    heads = (
        Head("Axle", width=8),
        Head("Spindle station", True, 15),
        Head("Bracket station" if steel.has_arms else "Spring seat station", True, 15),
        Head("Rating", True, 13),
        Head("Hub face to hub face", True, 17),
        Head("Brake", width=32),
    )
    rows = [
        (
            str(a.number),
            show(a.station, "m"),
            show(a.bracket_station, "m"),
            show(a.rating, "kg"),
            show(a.hub_face, "m"),
            a.brake,
        )
        for a in steel.axles
    ]
    more = [
        ("Axle spacing", steel.spacing),
        ("Track, tyre centre to tyre centre", steel.track),
        ("Tyre, outside diameter", steel.tyre_diameter),
        ("Tyre, section width", steel.tyre_width),
        ("Tyre, radius under load", steel.tyre_radius_laden),
        ("Bracket to bracket across" if steel.has_arms else "Spring to spring across", steel.bracket_spacing),
        ("Axle tube centre below deck top" if steel.has_arms else "Eyes of the springs below deck top",
         steel.tube_to_deck),
        *((("Torsion arm, length", steel.arm),) if steel.has_arms else ()),
    ]
    sizes = [(a, show(v, "m")) for a, v in more]
    sizes += [("Torsion arm, angle as towed", show(steel.arm_angle_laden, "rad"))] if steel.has_arms else []
    return (
        table("Running gear, front to rear", heads, rows, "schedule"),
        table("Sizes common to the axles", (Head("What", width=60), Head("Value", True, 40)), sizes, "schedule"),
        chain(steel.lateral, show),
    )


def chain(chain: Chain, show: Show) -> Block:
    """A chain of dimensions with its total and its limit."""
    lines: list[Line] = [("row", (s.title, show(s.value, "m"), s.source)) for s in chain.steps]
    lines.append(("total", ("Together", show(chain.total, "m"), _limit(chain, show))))
    title = f"{chain.title} ({chain.state})" if chain.state else chain.title
    return table(
        title, (Head("Step", width=44), Head("Value", True, 18), Head("Where from", width=38)), lines, "schedule"
    )


def _limit(chain: Chain, show: Show) -> str:
    if chain.limit is None:
        return "no limit stated"
    return f"limit {show(chain.limit, 'm')}, {show(chain.limit - chain.total, 'm', 'down')} left"


def supports(steel: Steel, context: Context) -> tuple[Block, ...]:
    """Jacks, stands, lift, tie and anchor points."""
    show = context.show
    heads = (
        Head("Jack", width=28),
        Head("Station", True, 12),
        Head("Legs", True, 7),
        Head("Load, all legs", True, 12),
        Head("Worst leg", True, 12),
        Head("Rating needed, leg", True, 15),
        Head("Stroke needed", True, 14),
    )
    rows = [
        (
            f"{j.title} ({j.drive})",
            show(j.station, "m"),
            str(j.legs),
            show(j.load_pair, "kg"),
            show(j.load_leg_worst, "kg"),
            show(j.rating_needed, "kg"),
            show(j.stroke_needed, "m", "up"),
        )
        for j in steel.jacks
    ]
    whys = tuple(f"{j.title}: {j.why}" for j in steel.jacks if j.why)
    return (
        *((table("Jacks", heads, rows, "schedule"), effort(steel.jacks, show), *picture(JACKS, steel, context))
          if rows else ()),
        *((Prose(whys, "small"),) if whys else ()),
        *_points(steel, show),
    )


def effort(jacks: Iterable[JackRecord], show: Show) -> Block:
    """What it takes to work each jack."""
    heads = (
        Head("Jack", width=28),
        Head("Crank force", True, 12),
        Head("Turns", True, 10),
        Head("By hand", True, 12),
        Head("Motor", True, 12),
        Head("Time", True, 12),
        Head("Fuse", True, 14),
    )
    rows = [
        (
            j.title,
            show(j.crank_force, "N:force"),
            show.number(j.crank_turns, "turns"),
            show(j.crank_time, "s"),
            show(j.motor_current, "A"),
            show(j.motor_time, "s"),
            show(j.fuse, "A"),
        )
        for j in jacks
    ]
    return table("Working the jacks, full stroke", heads, rows, "schedule")


def _points(steel: Steel, show: Show) -> tuple[Block, ...]:
    rows = [
        (f"Stands {s.id}", "stand, one each side", show(s.station, "m"), show(s.y, "m"), show(s.rating, "kg"))
        for s in steel.stands
    ]
    rows += [
        (p.id, f"{p.kind}, both sides", show(p.station, "m"), show(p.y, "m"), show(p.rating, "kg"))
        for p in steel.points
    ]
    heads = (
        Head("Mark", width=24),
        Head("What", width=30),
        Head("Station", True, 16),
        Head("Off centreline", True, 16),
        Head("Rating, one", True, 14),
    )
    return (table("Stands and points", heads, rows, "schedule"),) if rows else ()


MEMBERS = Section("members", "Member schedule", Steel, members)
DIMENSIONS = Section("dimensions", "Governing dimensions", Steel, dimensions)
RUNNING_GEAR = Section("running-gear", "Running gear", Steel, running_gear)
SUPPORTS = Section("supports", "Jacks, stands and points", Steel, supports)
