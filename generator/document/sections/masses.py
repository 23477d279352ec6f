"""What stands on the road: load states, axles, chain of ratings, groups, and the take-off of every item."""

from itertools import groupby

from generator.calc.findings import StateRow
from generator.document import plots
from generator.document.blocks import Block, Head, Line, table
from generator.document.section import Context, Section
from generator.release.slices import ItemRow, Masses, RoadLoads
from generator.units import Show

HEADS_ABOARD = (Head("State", width=28), Head("Aboard", width=72))


def states(loads: RoadLoads, context: Context) -> tuple[Block, ...]:
    """Mass, centre, hitch and axles in each load state."""
    show = context.show
    lb = show.label("kg")
    heads = (
        Head("State", width=24),
        Head(f"Mass, {lb}", True, 10),
        Head(f"9 in 10, {lb}", True, 17),
        Head("Centre aft of A", True, 15),
        Head(f"Hitch, {lb}", True, 10),
        Head("Share", True, 9),
        Head("Deck height", True, 15),
    )
    rows = [
        (
            s.title,
            show.number(s.mass, "kg"),
            _between(s.mass_low, s.mass_high, show),
            show(s.x, "m"),
            show.number(s.hitch, "kg"),
            show.percent(s.share),
            show(s.deck, "m"),
        )
        for s in loads.states
    ]
    towed = [s for s in loads.states if s.axles]
    aboard = [(s.title, s.aboard) for s in loads.states if s.aboard]
    return (table("Load states", heads, rows, is_titled=True),
            *((table("What is aboard", HEADS_ABOARD, aboard),) if aboard else ()),
            *plots.picture(plots.CENTRES, loads, context),
            *((_axles(towed, show),) if towed else ()))


def _between(low: float, high: float, show: Show) -> str:
    return f"{show.number(low, 'kg')}–{show.number(high, 'kg')}"


def _axles(states: list[StateRow], show: Show) -> Block:
    count = max(len(s.axles) for s in states)
    lb = show.label("kg")
    heads = (
        Head("State", width=25),
        Head(f"Axles together, {lb}", True),
        *(h for n in range(1, count + 1) for h in (Head(f"Axle {n}, {lb}", True), Head("left | right", True))),
    )
    rows = [
        (s.title, show.number(s.group, "kg"), *(t for n in range(count) for t in _axle(s, n, show))) for s in states
    ]
    return table("On the axles, front to rear", heads, rows)


def _axle(state: StateRow, n: int, show: Show) -> tuple[str, str]:
    if n >= len(state.axles):
        return "", ""
    sides = f"{show.number(state.left[n], 'kg')} | {show.number(state.right[n], 'kg')}" if n < len(state.left) else ""
    return show.number(state.axles[n], "kg"), sides


def ratings(loads: RoadLoads, context: Context) -> tuple[Block, ...]:
    """Axle by axle, what each part may carry; the least governs."""
    if not loads.ratings:
        return ()
    show = context.show
    lb = show.label("kg")
    names = dict.fromkeys(name for r in loads.ratings for name, _ in r.parts)
    heads = (
        Head("Axle", width=7),
        Head(f"Load, {lb}", True),
        Head(f"Worst, {lb}", True),
        *(Head(n, True) for n in names),
        Head("Governs", width=13),
    )
    rows = [
        (
            str(r.axle),
            show.number(r.load, "kg"),
            show.number(r.load_worst, "kg"),
            *(show.number(dict(r.parts).get(name), "kg") for name in names),
            r.governing,
        )
        for r in loads.ratings
    ]
    return (
        table(
            "Chain of ratings",
            heads,
            rows,
            is_titled=True,
            note=f"All in {lb}, for the axle. The least rating in a row is what the axle may carry, whatever "
            f"its label says.",
        ),
        *plots.picture(plots.RATINGS, loads, context),
    )


def groups(masses: Masses, context: Context) -> tuple[Block, ...]:
    """Mass by group in the travel state."""
    show = context.show
    lb = show.label("kg")
    lines: list[Line] = [
        (
            "row",
            (
                _named(g.group),
                str(g.lines),
                show.number(g.mass, "kg"),
                _between(g.low, g.high, show),
                show(g.x, "m"),
                show(g.z, "m"),
            ),
        )
        for g in masses.groups
    ]
    lines.append(
        (
            "total",
            (
                "Together",
                str(sum(g.lines for g in masses.groups)),
                show.number(sum(g.mass for g in masses.groups), "kg"),
                "",
                "",
                "",
            ),
        )
    )
    heads = (
        Head("Group", width=30),
        Head("Lines", True, 9),
        Head(f"Mass, {lb}", True, 14),
        Head(f"9 in 10, {lb}", True, 19),
        Head("Centre aft of A", True, 15),
        Head("Height", True, 13),
    )
    return (table("Mass by group, as towed", heads, lines), *plots.picture(plots.GROUPS, masses, context))


def take_off(masses: Masses, context: Context) -> tuple[Block, ...]:
    """Every item by group with subtotals."""
    show = context.show
    lb, length = show.label("kg"), show.label("m")
    heads = (
        Head("Item", width=38),
        Head(f"Mass, {lb}", True, 10),
        Head(f"9 in 10, {lb}", True, 16),
        Head(f"Aft of A, {length}", True, 13),
        Head(f"Right, {length}", True, 11),
        Head(f"Height, {length}", True, 12),
    )
    lines: list[Line] = []
    for group, held in groupby(sorted(masses.items, key=lambda i: (i.group, i.id)), key=lambda i: i.group):
        rows = list(held)
        lines += [("group", (_named(group),)), *(_item(i, show) for i in rows)]
        lines.append(
            (
                "total",
                (f"{_named(group)}, {len(rows)} items", show.number(sum(i.mass for i in rows), "kg"), "", "", "", ""),
            )
        )
    note = "Centres: aft of datum A, to the right of the centreline looking forward, height above the main-deck top."
    return (table("Take-off", heads, lines, note=note, is_titled=True),) if lines else ()


def _item(i: ItemRow, show: Show) -> Line:
    return (
        "row",
        (
            i.title,
            show.number(i.mass, "kg"),
            _between(i.low, i.high, show) if i.low != i.high else "",
            show.number(i.x, "m"),
            show.number(i.y, "m"),
            show.number(i.z, "m"),
        ),
    )


def _named(word: str) -> str:
    return word[:1].upper() + word[1:].replace("_", " ")


STATES = Section("states", "Load states", RoadLoads, states)
RATINGS = Section("ratings", "Chain of ratings", RoadLoads, ratings)
GROUPS = Section("groups", "Mass by group", Masses, groups)
TAKE_OFF = Section("take-off", "Take-off", Masses, take_off)
