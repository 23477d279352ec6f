"""The welded frame: members become cut pieces, pieces become one item per mark, plates and zinc come on top."""

import math
from collections.abc import Iterable, Iterator, Sequence

from generator.model.geometry import centred
from generator.model.notebook import Notebook
from generator.model.states import aboard
from generator.model.types import Item, Piece
from generator.records import dataclass
from generator.reference.types import Section
from generator.spec.models.trailer import Frame, Member, Tongue

FILE = "trailer.yaml"


@dataclass(frozen=True, slots=True)
class Marked:
    """A member of the spec with its section and its cut pieces."""

    member: Member
    section: Section
    pieces: tuple[Piece, ...]


def marked(frame: Frame, tongue: Tongue | None, book: Notebook) -> tuple[Marked, ...]:
    """All members of frame and tongue whose section is known and whose geometry is complete."""
    skew = 1.0 / math.cos(tongue.angle.nominal) if tongue is not None else 1.0
    listed = [("frame", m, 1.0) for m in frame.members]
    listed += [("tongue", m, skew if m.run == "lengthwise" else 1.0) for m in (tongue.members if tongue else ())]
    found = []
    for part, m, longer in listed:
        section = book.section(m.section, FILE, f"{part}.members.{m.mark}.section")
        if section is not None and _complete(m, f"{part}.members.{m.mark}", book):
            found.append(Marked(m, section, tuple(_pieces(m, section, longer))))
    return tuple(found)


def _complete(m: Member, path: str, book: Notebook) -> bool:
    if m.run != "lengthwise" and not m.stations:
        book.fault(FILE, f"{path}.stations", f"a {m.run} member needs its stations", "list every station", m.start)
        return False
    if m.run != "upright" and m.top is None:
        book.fault(
            FILE,
            f"{path}.top",
            f"a {m.run} member needs the height of its top face",
            "give it from the deck top",
            m.start,
        )
        return False
    if m.end.nominal <= m.start.nominal:
        book.fault(
            FILE, f"{path}.end", "does not lie beyond `start`", "stations grow to the rear, y to the right", m.end
        )
        return False
    return True


def _pieces(m: Member, section: Section, skew: float) -> Iterator[Piece]:
    start, end = m.start.nominal, m.end.nominal
    y, top = (m.y.nominal if m.y is not None else 0.0), (m.top.nominal if m.top is not None else 0.0)
    half, depth, kg = section.width / 2, section.depth, section.mass * (end - start) * skew

    def piece(x0: float, x1: float, y0: float, y1: float, z0: float, z1: float) -> Piece:
        return Piece(m.mark, m.title, m.section, m.grade, m.run, x0, x1, y0, y1, z0, z1, kg, skew)

    for sign in _signs(m):
        match m.run:
            case "lengthwise":
                yield piece(start, end, sign * y - half, sign * y + half, top - depth, top)
            case "crosswise":
                left, right = (start, end) if sign > 0 else (-end, -start)
                yield from (
                    piece(x.nominal - half, x.nominal + half, left, right, top - depth, top) for x in m.stations
                )
            case "upright":
                yield from (
                    piece(x.nominal - depth / 2, x.nominal + depth / 2, sign * y - half, sign * y + half, start, end)
                    for x in m.stations
                )


def _signs(m: Member) -> tuple[float, ...]:
    return {"both": (-1.0, 1.0), "left": (-1.0,), "right": (1.0,), "centre": (1.0,)}[m.sides]


def frame_items(frame: Frame, members: Sequence[Marked], book: Notebook) -> list[Item]:
    """One item per mark, one for plates and weld metal, one for zinc if the frame is galvanised."""
    items = [_mark_item(m, book) for m in members]
    steel = sum(i.mass for i in items)
    share = frame.plates_share
    low, high = (share.low, share.high) if share.shape != "sure" else (0.75 * share.nominal, 1.25 * share.nominal)
    plates = _spread_out(
        "frame.plates",
        "Plates, gussets and weld metal",
        items,
        (steel * share.nominal, steel * low, steel * high),
        share.origin,
    )
    if frame.galvanised == "no":
        return [*items, plates]
    zinc = book.default("mass.galvanising")
    coated = steel + plates.mass
    return [
        *items,
        plates,
        _spread_out(
            "frame.zinc",
            "Zinc of hot-dip galvanising",
            items,
            (coated * zinc.value, coated * zinc.low, coated * zinc.high),
            "",
        ),
    ]


def _mark_item(m: Marked, book: Notebook) -> Item:
    rolled = book.default("mass.rolling_tolerance").value
    kg = sum(p.mass for p in m.pieces)
    x0, x1, y, z, width = even(m.pieces)
    return Item(
        f"frame.{m.member.mark}",
        m.member.title,
        "frame",
        kg,
        kg * (1 - rolled),
        kg * (1 + rolled),
        "normal",
        "table",
        x0,
        x1,
        y,
        z,
        aboard("bare"),
        width,
        origin=m.member.start.origin,
        memory=m.section.confidence == "memory",
    )


def even(pieces: Iterable[Piece]) -> tuple[float, float, float, float, float]:
    """Even spread of pieces: extent along x with their own centre, y, height, and width of like inertia (m)."""
    all_of = tuple(pieces)
    kg = sum(p.mass for p in all_of)
    x, y, z = (sum(p.mass * (getattr(p, f"{a}0") + getattr(p, f"{a}1")) / 2 for p in all_of) / kg for a in "xyz")
    about = sum(p.mass * (((p.y0 + p.y1) / 2 - y) ** 2 + (p.y1 - p.y0) ** 2 / 12) for p in all_of) / kg
    x0, x1 = centred(x, min(p.x0 for p in all_of), max(p.x1 for p in all_of))
    return x0, x1, y, z, math.sqrt(12 * about)


def _spread_out(id: str, title: str, over: Sequence[Item], mass: tuple[float, float, float], origin: str) -> Item:
    kg = sum(i.mass for i in over) or 1.0
    x, y, z, width = (sum(i.mass * getattr(i, name) for i in over) / kg for name in ("x", "y", "z", "width"))
    ends = [e for i in over for e in (i.x0, i.x1)] or [0.0]
    x0, x1 = centred(x, min(ends), max(ends))
    return Item(id, title, "frame", *mass, "normal", "estimate", x0, x1, y, z, aboard("bare"), width, origin=origin)
