"""The decisions and what bounds them: windows, neck, heights, loads on the steel; and every reported quantity."""

from generator.calc.findings import Beam
from generator.calc.record import Basis, Reported, Window
from generator.document.blocks import Block, Facts, Head, Prose, table
from generator.document.section import Context, Section
from generator.document.sections.steel import chain
from generator.document.sentences import BASES, changed
from generator.release.slices import Envelope, Neck, Numbers, SteelLoads
from generator.units import Show


def windows(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """For each decision, the values that work and where the choice sits."""
    show = context.show
    heads = (
        Head("Decision", width=20),
        Head("Least", True, 11),
        Head("closed by", width=21),
        Head("Most", True, 11),
        Head("closed by", width=21),
        Head("Chosen", True, 16),
    )
    rows = [
        (
            w.title,
            show(w.low, w.unit, "up"),
            w.closed_by_low,
            show(w.high, w.unit, "down"),
            w.closed_by_high,
            _chosen(w, show),
        )
        for w in numbers.windows
    ]
    notes = tuple(
        f"{w.title}: nothing works. Opens with {'; or '.join(changed(c, show) for c in w.changes)}."
        for w in numbers.windows
        if w.changes
    )
    return (table("Windows", heads, rows, is_titled=True), *((Prose(notes, "small"),) if notes else ())) if rows else ()


def _chosen(w: Window, show: Show) -> str:
    best = f"; best {show(w.best, w.unit)}" if w.best is not None else ""
    inside = w.low <= w.chosen <= w.high
    return f"{show(w.chosen, w.unit)}{best}" if inside else f"{show(w.chosen, w.unit)}, OUTSIDE{best}"


THREE_WAYS = "Over the wheels: three ways"


def ways(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """The ways over the wheels beside one another: what each costs in height, floor and mass, and what it gives."""
    heads = (
        Head("Way over the wheels", width=22),
        Head("Floor above ground", True, 13),
        Head("Headroom, roof as drawn", True, 14),
        Head("Highest point, headroom as drawn", True, 15),
        Head("Floor lost", True, 11),
        Head("Storage gained", True, 12),
        Head("Mass added", True, 13),
    )
    rows = [
        (f"{w.title.capitalize()}{', as drawn' if w.is_drawn else ''}",
         *(context.show(q.nominal, q.unit, q.toward)
           for q in (w.floor, w.headroom, w.height, w.floor_lost, w.storage, w.mass)))
        for w in numbers.ways
    ]
    note = (
        "Headroom is that of the lowest room on the main deck. Sizes follow from tyre, travel and gaps; mass is box "
        "skins, second floor or deck strips alone, by assumed areal masses. Money is in none of them."
    )
    return (table(THREE_WAYS, heads, rows, note=note, is_titled=True),) if rows else ()


def neck(neck: Neck, context: Context) -> tuple[Block, ...]:
    """The neck window in numbers, from level ground at the ball."""
    n, show, say = neck.record, context.show, context.cover.say
    return (
        Facts(
            say("Neck, heights above level ground at the ball, as towed"),
            tuple((say(what), value) for what, value in (
                ("Underside must be over: bed rail with its gap", show(n.low_rail, "m", "up")),
                ("Underside must be over: coupler at its shortest", show(n.low_coupler, "m", "up")),
                ("Underside must be under: coupler at its longest", show(n.high_coupler, "m", "down")),
                ("Underside must be under: height limit with headroom", show(n.high_limit, "m", "down")),
                ("Window", f"{show(n.low, 'm', 'up')} to {show(n.high, 'm', 'down')}"),
                ("Chosen underside", show(n.chosen, "m")),
                ("Coupler setting, ball to underside", show(n.coupler_set, "m")),
                ("Neck deck top", show(n.deck_top, "m")),
                ("Headroom the height limit leaves over the neck", show(n.headroom, "m", "down")),
                ("Step between floors", show(n.step_between_floors, "m")),
                (
                    "Gap to the bed rail: level, pitched, rolled",
                    ", ".join(show(v, "m", "down") for v in (n.gap_level, n.gap_pitched, n.gap_rolled)),
                ),
                ("Bed rail and ball, loaded", f"{show(n.bed_rail, 'm')} and {show(n.ball, 'm')}"),
            )),
        ),
    )


def heights(envelope: Envelope, context: Context) -> tuple[Block, ...]:
    """Roof points and height chains against the limit."""
    show = context.show
    heads = (
        Head("Roof point", width=34),
        Head("Station", True, 14),
        Head("As towed", True, 14),
        Head("Highest", True, 14),
        Head("Highest in", width=24),
    )
    rows = [
        (r.title, show(r.station, "m"), show(r.laden, "m", "up"), show(r.highest, "m", "up"), r.highest_state)
        for r in envelope.roof
    ]
    limit = show(envelope.height_limit, "m", "down")
    note = f"Height limit of the route: {limit}. Measure with a stick before the first move."
    return (
        *((table("Roof points above level ground", heads, rows, note=note),) if rows else ()),
        *(chain(c, show) for c in envelope.chains),
    )


COUPLE = (
    "Couple: the wheel stands behind its bracket, so the trailing arm twists the bracket and the frame by force times "
    "arm, tail up; a bracket must carry both. Force times station plus couple, added up over the supports, is the load "
    "times its centre."
)
SUMMED = "Force times station, added up over the supports, is the load times its centre."


def steel_loads(loads: SteelLoads, context: Context) -> tuple[Block, ...]:
    """Supports, extremes of shear and moment; the diagrams stand on sheet L1."""
    b, show = loads.beam, context.show
    rows = [(s.title, show(s.station, "m:work"), show(s.force, "N"), show(s.couple, "N*m") if s.couple else "")
            for s in b.supports]
    if b.x:
        rows.append(("all loads, downward, at their centre", show(b.centre, "m:work"), show(b.weight, "N"), ""))
    points = [(s.title, show(s.station, "m"), show(s.force, "N")) for s in b.points]
    heads = (Head("What", width=50), Head("Station", True, 25), Head("Force", True, 25))
    held = (Head("What", width=40), Head("Station", True, 20), Head("Force", True, 20), Head("Couple", True, 20))
    turned = any(s.couple for s in b.supports)
    return (
        Facts(f"{b.title}, both rails together, {b.state}", _extremes(b, show)),
        *((table("Point loads, both rails together", heads, points),) if points else ()),
        table(
            "Supports, both rails together",
            held if turned else heads,
            rows if turned else [row[:3] for row in rows],
            note=(COUPLE if turned else SUMMED) + " Shear, moment and line load over the length are drawn on sheet L1. "
            "They are for static loads; what the road adds, and fatigue, is the engineer's.",
        ),
    )


def _extremes(b: Beam, show: Show) -> tuple[tuple[str, str], ...]:
    if not b.x:
        return (("Not assessed", "a mass, a station or the running gear is unknown"),)

    def at(values: tuple[float, ...], pick: float, unit: str) -> str:
        return f"{show(pick, unit)} at station {show(b.x[values.index(pick)], 'm')}"

    return (
        ("What is solved", f"{b.title}; both rails together. Each rail, and the other model: reported quantities"),
        ("Mass carried", show(b.mass, "kg")),
        ("Greatest sagging moment", at(b.moment, max(b.moment), "N*m")),
        ("Greatest hogging moment", at(b.moment, min(b.moment), "N*m")),
        ("Greatest shear", at(b.shear, max(b.shear, key=abs), "N")),
    )


IN_STATES = "state."
"""Quantities of the load states stand in their own tables."""


def results(numbers: Numbers, context: Context) -> tuple[Block, ...]:
    """Every reported quantity with its spread, but those of the load states."""
    show = context.show
    heads = (Head("Quantity", width=44), Head("Value", True, 16), Head("9 in 10", True, 26), Head("Basis", width=14))
    rows = [
        (q.title, show(q.nominal, q.unit, q.toward), _spread(q, show), BASES[Basis(q.basis)])
        for q in numbers.quantities
        if not q.id.startswith(IN_STATES)
    ]
    return (table("Reported quantities", heads, rows, is_titled=True),) if rows else ()


def _spread(q: Reported, show: Show) -> str:
    low, high = show(q.low, q.unit, "down"), show(q.high, q.unit, "up")
    return "" if low == high or q.low == q.high else f"{low} to {high}"


WINDOWS = Section("windows", "Windows", Numbers, windows)
WAYS = Section("ways", THREE_WAYS, Numbers, ways)
NECK = Section("neck", "Neck", Neck, neck)
HEIGHTS = Section("heights", "Heights", Envelope, heights)
STEEL_LOADS = Section("steel-loads", "Loads on the steel", SteelLoads, steel_loads)
RESULTS = Section("results", "Reported quantities", Numbers, results)
