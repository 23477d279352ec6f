"""The sheets of a packet: those whose slices were granted and whose numbers are known."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from generator.draw.pages import Drawing, framed, note_lines, paper
from generator.draw.sheet import Sheet, tells_money
from generator.draw.sheets import (
    access,
    arrangement,
    elevation,
    frame,
    funds,
    heights,
    interface,
    lamps,
    loads,
    neck,
    neck_window,
    running,
    schedules,
    sections,
    support_plan,
    supports,
    wheels,
    window,
)
from generator.errors import RenderError
from generator.release.slices import Cover, Desk, Sheets, Slice, Steel

_SHEETS: tuple[tuple[str, str, Callable[[Desk], Drawing | tuple[Drawing, ...]]], ...] = tuple(
    (m.NUMBER, m.TITLE, m.draw)
    for m in (arrangement, support_plan, frame, elevation, sections, neck, running, wheels, supports, interface, lamps,
              schedules, loads, heights, window, neck_window, access, funds)
)
_ONLY_WITH: dict[str, type[Slice]] = {m.NUMBER: m.NEEDS for m in (support_plan, lamps, access, funds)}
"""Sheets that do not exist for a recipient without that slice: they are not even named as missing."""


@dataclass(frozen=True, slots=True)
class Unavailable:
    """A sheet that cannot be drawn, and why."""

    number: str
    title: str
    reason: str


def _listed(desk: Desk) -> Iterator[tuple[str, str, Callable[[Desk], Drawing | tuple[Drawing, ...]]]]:
    """Number, title and maker of every sheet, load diagrams of every way the frame is carried among them."""
    for row in _SHEETS:
        yield row
        if row[0] == loads.NUMBER:
            yield from ((w.number, w.title, partial(loads.draw_way, way=w)) for w in loads.ways(desk))


def _drawn(desk: Desk) -> tuple[tuple[Drawing, ...], tuple[Unavailable, ...]]:
    drawings, without = list[Drawing](), []
    granted, cover, steel = desk.get(Sheets), desk.get(Cover), desk.get(Steel)
    say = cover.say if isinstance(cover, Cover) else str
    for number, title, draw in _listed(desk):
        # F2.2 goes with F2: whoever may hold a sheet may hold its further pages.
        if not isinstance(granted, Sheets) or number.partition(".")[0] not in granted.numbers:
            continue
        if number == neck_window.NUMBER and isinstance(steel, Steel) and not steel.has_neck:
            continue
        if number in _ONLY_WITH and desk.get(_ONLY_WITH[number]) is None:
            continue
        try:
            made = draw(desk)
            for d in made if isinstance(made, tuple) else (made,):
                notes = tuple(map(say, d.notes))
                if isinstance(cover, Cover):
                    note_lines(paper(cover), notes)
                drawings.append(replace(d, notes=notes, alt=say(d.alt)))
        except RenderError as fault:
            without.append(Unavailable(number, title, say(str(fault))))
    return tuple(drawings), tuple(without)


def drawn(desk: Desk) -> tuple[tuple[Sheet, ...], tuple[Unavailable, ...]]:
    """The finished sheets, in order, and those that cannot be drawn for this desk, each with the reason."""
    desk = _behind(desk)
    cover = desk.get(Cover)
    drawings, without = _drawn(desk)
    if not isinstance(cover, Cover):
        return (), without
    handed_on = [d.number for d in drawings if not tells_money(d.number)]
    places = {n: (i, len(handed_on)) for i, n in enumerate(handed_on, 1)}
    return tuple(framed(d, desk, cover, places.get(d.number, (1, 1))) for d in drawings), without


def sheets_for(desk: Desk) -> tuple[Sheet, ...]:
    """The finished sheets, in order."""
    return drawn(desk)[0]


def unavailable(desk: Desk) -> tuple[Unavailable, ...]:
    """Sheets that cannot be drawn for this desk, each with the reason."""
    return _drawn(_behind(desk))[1]


def _behind(desk: Desk) -> Desk:
    """The desk as the pens see it: with the slices that only they may use."""
    granted = desk.get(Sheets)
    return Desk((*desk.slices, *granted.behind)) if isinstance(granted, Sheets) else desk
