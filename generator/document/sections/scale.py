"""The scale: what it should read and when to stop, what makes the spread, tickets read, the trailer as measured."""

from generator.calc.measured import BuiltRow, Drivers, ScaleRow, TicketRecord, Weighed
from generator.document.blocks import Block, Head, Line, Points, Prose, Table, table
from generator.document.plots import DRIVERS as PLOT
from generator.document.plots import picture
from generator.document.section import Context, Section
from generator.release.slices import Scale
from generator.units import Show


def card(scale: Scale, context: Context) -> tuple[Block, ...]:
    """Readings to expect stage by stage, and what moving a mass changes."""
    show = context.show
    lb = show.label("kg")
    heads = (
        Head("Reading", width=24),
        Head(f"Expect, {lb}", True, 10),
        Head(f"9 in 10, {lb}", True, 16),
        Head(f"Stop above, {lb}", True, 14),
        Head("because it is", width=22),
        Head(f"Stop below, {lb}", True, 14),
    )
    lines: list[Line] = []
    for stage in scale.card.stages:
        lines += [("group", (stage.title,)), *(("row", _reading(r, show)) for r in stage.rows)]
    note = (
        "Three weighings on one level scale, fuel and people alike: hitched, then the tow vehicle alone; with "
        "weight-distributing bars also hitched with the bars slack. What lies above or below is not on the list, or "
        "over a rating: stop, and find it before towing on. Below counts for what is carried by the hitch."
    )
    return (table("Scale card", heads, lines, note=note, is_titled=True), _moves(scale, show))


def _reading(r: ScaleRow, show: Show) -> tuple[str, ...]:
    below = "" if r.stop_below is None else show.number(r.stop_below, "kg")
    return (
        r.title,
        show.number(r.predicted, "kg"),
        _between(r.low, r.high, show),
        show.number(r.stop_above, "kg"),
        r.above_is,
        below,
    )


def _between(low: float, high: float, show: Show) -> str:
    return f"{show.number(low, 'kg')}–{show.number(high, 'kg')}"


def _moves(scale: Scale, show: Show) -> Table:
    lb, mass = show.label("kg"), show(scale.card.mass, "kg")
    heads = (
        Head(f"{mass} put at", width=34),
        Head("Aft of A", True, 16),
        Head("Behind the hitch", True, 18),
        Head(f"Hitch, {lb}", True, 16),
        Head(f"Axles, {lb}", True, 16),
    )
    rows = [
        (m.title, show(m.station, "m"), show(m.behind, "m"), _signed(m.hitch, show), _signed(m.group, show))
        for m in scale.card.moves
    ]
    note = f"To move {mass} from one place to another: take the rows from each other."
    return table(f"What {mass} changes", heads, rows, note=note)


def _signed(value: float, show: Show) -> str:
    text = show.number(value, "kg")
    return f"+{text}" if value > 0.0 and text.strip("0.") else text


def drivers(scale: Scale, context: Context) -> tuple[Block, ...]:
    """The items and groups whose spread makes that of a result."""
    lines: list[Line] = []
    for of in scale.drivers:
        lines += _driver_lines(of, context.show)
    heads = (Head("Item", width=44), Head("Share of the spread", True, 18), Head("Groups", width=38))
    note = (
        "The shares of all items make 100 %; an item that pulls the other way takes some away. Weigh, or have quoted, "
        "what stands on top: it narrows the spread most."
    )
    if not lines:
        return ()
    return (table("What makes the spread", heads, lines, note=note, is_titled=True), *picture(PLOT, scale, context))


def _driver_lines(of: Drivers, show: Show) -> list[Line]:
    head = f"{of.title}, loaded for the road: standard deviation {show(of.deviation, 'kg')}"
    groups = [f"{g.title} {show.percent(g.share)}" for g in of.groups]
    beside = [*groups, *[""] * (len(of.items) - len(groups))]
    rows = [(i.title, show.percent(i.share), beside[n]) for n, i in enumerate(of.items)]
    return [("group", (head,)), *(("row", row) for row in rows)]


def tickets(scale: Scale, context: Context) -> tuple[Block, ...]:
    """Every ticket against the list, where to look if they disagree, and the masses as they now are."""
    if scale.weighed is None:
        return ()
    show, weighed = context.show, scale.weighed
    looks = [t for t in weighed.tickets if t.look]
    return (
        _read(weighed, show),
        *(_look(t, show) for t in looks),
        *((_states(weighed, show),) if weighed.states else ()),
        *((_items(weighed, show),) if weighed.items else ()),
        Prose(
            (
                "A state that was weighed is as the scale read it; other states follow from the list as corrected. All "
                "checks of this packet rest on the list as corrected by the tickets that count; what makes the spread "
                "is told of the list as written.",
            ),
            "small",
        ),
    )


def _read(weighed: Weighed, show: Show) -> Table:
    lb = show.label("kg")
    heads = (
        Head("Reading", width=30),
        Head(f"Read, {lb}", True, 13),
        Head(f"Scale's error, {lb}", True, 14),
        Head(f"List, {lb}", True, 13),
        Head(f"9 in 10, {lb}", True, 18),
        Head("Read / list", True, 12),
    )
    lines: list[Line] = []
    for t in weighed.tickets:
        lines.append(("group", (_ticket(t, show),)))
        for r in t.rows:
            lines.append(
                (
                    "row",
                    (
                        r.title,
                        show.number(r.read, "kg"),
                        show.number(r.error, "kg"),
                        show.number(r.predicted, "kg"),
                        _between(r.low, r.high, show),
                        show.ratio(r.ratio),
                    ),
                )
            )
    return table("Scale tickets", heads, lines, is_titled=True)


def _ticket(t: TicketRecord, show: Show) -> str:
    counts = "counts for its state" if t.wins else ""
    bars = f"bars move {show(t.moved, 'kg')} to the axles" if t.moved is not None else ""
    back = f"and give the steer axle {show.percent(t.restored)} back" if t.restored is not None else ""
    said = (t.title, t.date, f"revision {t.revision}", t.state.replace("_", " "), t.weighed, t.place, counts, t.remark)
    return "; ".join(filter(None, (*said, f"{bars} {back}".strip())))


def _look(t: TicketRecord, show: Show) -> Points:
    return Points(
        tuple(
            f"{t.title}, look here: {r.title} would have to be off by {_signed(r.off, show)} {show.label('kg')} "
            f"({show.number(abs(r.deviations), '1')} of its standard deviations)."
            for r in t.look
        )
    )


def _states(weighed: Weighed, show: Show) -> Table:
    lb = show.label("kg")
    names = {t.id: t.title for t in weighed.tickets}
    heads = (
        Head("State", width=30),
        Head(f"Mass, {lb}", True, 15),
        Head(f"Hitch, {lb}", True, 15),
        Head(f"Axles, {lb}", True, 15),
        Head("From", width=25),
    )
    rows = [
        (
            s.title,
            *(
                f"{show.number(v, 'kg')} ± {show.number(e, 'kg')}"
                for v, e in ((s.mass, s.mass_error), (s.hitch, s.hitch_error), (s.group, s.group_error))
            ),
            names.get(s.source, "the list, corrected" if weighed.items else "the list"),
        )
        for s in weighed.states
    ]
    return table("States after weighing", heads, rows, note="± is one standard error.")


def _items(weighed: Weighed, show: Show) -> Table:
    lb = show.label("kg")
    heads = (
        Head("Item", width=46),
        Head(f"Listed, {lb}", True, 13),
        Head(f"±, {lb}", True, 9),
        Head(f"As weighed, {lb}", True, 16),
        Head(f"±, {lb}", True, 9),
        Head("Change", True, 7),
    )
    rows = [
        (
            i.title,
            show.number(i.before, "kg"),
            show.number(i.before_error, "kg"),
            show.number(i.after, "kg"),
            show.number(i.after_error, "kg"),
            _signed(i.after - i.before, show),
        )
        for i in weighed.items[:SHOWN]
    ]
    note = "Items that the readings moved most; things of a group err together, so they move together."
    return table("List as corrected", heads, rows, note=note, left_out=max(len(weighed.items) - SHOWN, 0))


def built(scale: Scale, context: Context) -> tuple[Block, ...]:
    """What was measured against its bounds, and what follows."""
    if scale.built is None:
        return ()
    show = context.show
    heads = (
        Head("Dimension", width=24),
        Head("As drawn", True, 13),
        Head("Least", True, 12),
        Head("Most", True, 12),
        Head("Measured", True, 13),
        Head("Within", width=10),
        Head("By whom, with what", width=16),
    )
    rows = [_built_row(r, show) for r in scale.built.rows]
    follows = [(r.title, show(r.designed, r.unit), show(r.built, r.unit)) for r in scale.built.results]
    said = [f"{c.title}: {c.designed} as designed, {c.built} as built." for c in scale.built.checks]
    return (
        table("As built", heads, rows, is_titled=True),
        *(
            (
                table(
                    "What follows from it",
                    (Head("Result", width=60), Head("As designed", True, 20), Head("As built", True, 20)),
                    follows,
                    note="What was measured counts: results and checks of this packet are as built; drawings show "
                    "what was drawn.",
                ),
            )
            if follows
            else ()
        ),
        *((Points(tuple(said)),) if said else ()),
        *((Prose((scale.built.remark,), "small"),) if scale.built.remark else ()),
    )


def _built_row(r: BuiltRow, show: Show) -> tuple[str, ...]:
    within = {True: "yes", False: "NO", None: ""}[r.within]
    return (
        r.title,
        show(r.nominal, "m"),
        show(r.low, "m", "up") if r.low is not None else "",
        show(r.high, "m", "down") if r.high is not None else "",
        show(r.measured, "m"),
        within,
        f"{r.date}, {r.by}, {r.instrument}",
    )


SHOWN = 20
"""So many corrected items are printed."""

CARD = Section("scale-card", "Scale card", Scale, card)
DRIVERS = Section("drivers", "What makes the spread", Scale, drivers)
TICKETS = Section("tickets", "Scale tickets", Scale, tickets)
BUILT = Section("as-built", "As built", Scale, built)
