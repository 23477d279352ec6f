"""What details of neck, tongue and wheels share: pieces cut by a section, stations above a view, labels of marks."""

from collections.abc import Iterable, Sequence

from generator.draw.marks import Mark, Point, Rect, extent
from generator.draw.ordinates import Station, ordinates
from generator.draw.place import Label, place
from generator.draw.sheets.kit import Kit, Views
from generator.draw.sheets.legs import is_slanted
from generator.draw.sheets.stations import LETTERS, Place, said
from generator.draw.views import THIN, Solid, View
from generator.model.types import Piece
from generator.release.slices import Steel


def is_cut(p: Piece) -> bool:
    """Whether a section on the centre line cuts a piece; legs at an angle are mitred there."""
    return not is_slanted(p) and p.y0 < -1e-3 and p.y1 > 1e-3


def ended(face: Rect, low: float, high: float) -> Rect:
    """A face ended at two stations."""
    return Rect(max(face.x0, low), face.y0, min(face.x1, high), face.y1)


def cuts(id: str, pieces: Sequence[Piece], solids: Sequence[Solid], v: View) -> Views:
    """Heavy outlines of pieces cut by the section, where they are thick enough to show one."""
    return tuple(
        v.box(f"{id}.cut.{i}", "cut", s.face.x0, s.face.y0, s.face.x1, s.face.y1)
        for i, (p, s) in enumerate(zip(pieces, solids, strict=True))
        if is_cut(p) and min(v.mm(s.face.x1 - s.face.x0), v.mm(s.face.y1 - s.face.y0)) > THIN
    )


def stations_above(
    id: str, k: Kit, s: Steel, stood: Iterable[Place], pieces: Sequence[Piece], v: View, ends: Point,
    within: Point | None = None,
) -> Views:
    """Stations above a view, their texts between two places on the paper."""
    edge = v.up(s.deck_height_laden + max(p.z1 for p in pieces))
    stations = []
    for p in stood:
        if within is None or within[0] - 1e-6 <= p.x <= within[1] + 1e-6:
            tops = [q.z1 for q in pieces if q.x0 - 1e-3 <= p.x <= q.x1 + 1e-3]
            foot = v.up(s.deck_height_laden + max(tops, default=0.0))
            stations.append(Station(p.id, v.across(p.x), foot, said(k, p.x, p.short(LETTERS[0])), p.x, p.rank))
    return ordinates(id, stations, edge, False, *ends)


def labelled(id: str, pieces: Sequence[Piece], solids: Sequence[Solid], v: View, standing: Iterable[Mark]) -> Views:
    """A label for each mark that is seen; one hidden here stands in another view or in the schedule."""
    spots: dict[str, list[Point]] = {}
    for p, s in zip(pieces, solids, strict=True):
        spots.setdefault(p.mark, []).extend(v.p(*spot) for spot in seen(s.face, before(s, solids)))
    labels = [
        Label(f"{id}.{mark}", mark, at[0], len(at), others=tuple(at[1:24])) for mark, at in sorted(spots.items()) if at
    ]
    marks = tuple(standing)
    return place(labels, marks, extent(marks).grown(2.0), None)


def before(s: Solid, solids: Sequence[Solid]) -> list[Rect]:
    """Faces nearer to the eye."""
    return [q.face for q in solids if q.near > s.near + 1e-6]


def seen(face: Rect, nearer: Sequence[Rect]) -> list[Point]:
    """Points of a face that nothing nearer covers."""
    shares = (0.5, 0.25, 0.75, 0.1, 0.9)
    points = [
        (face.x0 + a * (face.x1 - face.x0), face.y0 + b * (face.y1 - face.y0)) for a in shares for b in shares[:3]
    ]
    return [p for p in points if not any(f.x0 < p[0] < f.x1 and f.y0 < p[1] < f.y1 for f in nearer)]
