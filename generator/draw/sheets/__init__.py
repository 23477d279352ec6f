"""The sheets of a packet: those whose slices were granted and whose numbers are known."""

from collections.abc import Callable
from dataclasses import dataclass

from generator.draw.pages import Drawing, framed
from generator.draw.sheet import Sheet
from generator.draw.sheets import (
    access,
    arrangement,
    frame,
    funds,
    heights,
    interface,
    lamps,
    loads,
    neck,
    neck_window,
    support_plan,
    supports,
    wheels,
    window,
)
from generator.errors import RenderError
from generator.release.slices import Cover, Desk, Slice, Steel

_SHEETS: tuple[tuple[str, str, Callable[[Desk], Drawing]], ...] = tuple(
    (m.NUMBER, m.TITLE, m.draw)
    for m in (
        arrangement, support_plan, frame, neck, wheels, supports, interface, lamps, loads, heights, window, neck_window,
        access, funds,
    )
)
_ONLY_WITH: dict[str, type[Slice]] = {m.NUMBER: m.NEEDS for m in (support_plan, lamps, access, funds)}
"""Sheets that do not exist for a recipient without that slice: they are not even named as missing."""


@dataclass(frozen=True, slots=True)
class Unavailable:
    """A sheet that cannot be drawn, and why."""

    number: str
    title: str
    reason: str


def _drawn(desk: Desk) -> tuple[tuple[Drawing, ...], tuple[Unavailable, ...]]:
    drawings, without = [], []
    cover, steel = desk.get(Cover), desk.get(Steel)
    say = cover.say if isinstance(cover, Cover) else str
    for number, title, draw in _SHEETS:
        if number == neck_window.NUMBER and isinstance(steel, Steel) and not steel.has_neck:
            continue
        if number in _ONLY_WITH and desk.get(_ONLY_WITH[number]) is None:
            continue
        try:
            drawings.append(draw(desk))
        except RenderError as fault:
            without.append(Unavailable(number, title, say(str(fault))))
    return tuple(drawings), tuple(without)


def drawn(desk: Desk) -> tuple[tuple[Sheet, ...], tuple[Unavailable, ...]]:
    """The finished sheets, in order, and those that cannot be drawn for this desk, each with the reason."""
    cover = desk.get(Cover)
    drawings, without = _drawn(desk)
    if not isinstance(cover, Cover):
        return (), without
    return tuple(framed(d, desk, cover, (i, len(drawings))) for i, d in enumerate(drawings, 1)), without


def sheets_for(desk: Desk) -> tuple[Sheet, ...]:
    """The finished sheets, in order."""
    return drawn(desk)[0]


def unavailable(desk: Desk) -> tuple[Unavailable, ...]:
    """Sheets that cannot be drawn for this desk, each with the reason."""
    return _drawn(desk)[1]
