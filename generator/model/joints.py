"""How cut pieces meet: which stand in the same place, which ends are coped into a flange, which ends meet nothing.

Pure geometry of boxes, m. Two pieces touch if they come within the tolerance over more than a line; they overlap if
they share more than the tolerance in all three directions.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from generator.model.solids import AXES, Axes, Floats, Ints, Solids, around, backs, extents, solids
from generator.model.types import Piece
from generator.records import dataclass
from generator.reference.types import Section


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two pieces (by place in the list) in the same place: how far along x, y and height, and its middle, m."""

    first: int
    second: int
    by: tuple[float, float, float]
    at: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Notch:
    """An end (-1 the lesser coordinate, 1 the greater) cut away for a flange of the piece it runs into.

    `flange`: -1 the lower (or forward) one, 1 the upper. `length` back from the end and `depth` from the edge, m.
    """

    piece: int
    end: int
    into: int
    flange: int
    length: float
    depth: float


@dataclass(frozen=True, slots=True)
class End:
    """An end of a piece: the share of its breadth that bears on others, whether its side is held near it."""

    piece: int
    end: int
    share: float
    is_held: bool


@dataclass(frozen=True, slots=True)
class Joints:
    """All there is to say about how the pieces of a frame meet.

    `groups`: lists of pieces that touch none of another list. `backs`: on which side each piece turns its back.
    """

    overlaps: tuple[Overlap, ...]
    notches: tuple[Notch, ...]
    ends: tuple[End, ...]
    touched: frozenset[int]
    groups: tuple[tuple[int, ...], ...]
    backs: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Pairs:
    """Near pairs of boxes, each both ways round: places in `Solids`, their pieces, common extent (k x 3), m."""

    a: Ints
    b: Ints
    i: Ints
    j: Ints
    low: Floats
    high: Floats

    @property
    def deep(self) -> Floats:
        """How far the two share each direction; negative where there is a gap, m."""
        return self.high - self.low


def joints(pieces: Sequence[Piece], sections: Mapping[str, Section], tolerance: float) -> Joints:
    """All joints of a frame; coordinates must be finite. `tolerance` in m."""
    back = backs(pieces, sections, tolerance)
    of = solids(pieces, sections, back, tolerance)
    boxes = np.array([extents(p) for p in pieces], dtype=np.float64).reshape(-1, 3, 2)
    pairs = _near(of, np.array([around(p) for p in pieces], dtype=np.float64).reshape(-1, 3, 2), tolerance)
    overlaps, notches = _overlaps(pieces, of, pairs, tolerance)
    deep = np.sort(pairs.deep, axis=1)
    touching = (deep[:, 0] >= -tolerance) & (deep[:, 1] > tolerance)
    i, j = pairs.i[touching], pairs.j[touching]
    ends = tuple(_ends(pieces, boxes, of, pairs, tolerance))
    return Joints(overlaps, notches, ends, frozenset(i.tolist()), _groups(len(pieces), i, j), back)


def _near(of: Solids, boxes: Floats, tolerance: float) -> Pairs:
    low, high = boxes[:, :, 0], boxes[:, :, 1]
    gap = np.maximum(low[:, None], low[None]) - np.minimum(high[:, None], high[None])
    near: NDArray[np.bool_] = np.logical_and.reduce(gap <= tolerance, axis=2)
    np.fill_diagonal(near, False)
    a, b = np.nonzero(near[of.owner[:, None], of.owner[None]])
    return Pairs(a, b, of.owner[a], of.owner[b], np.maximum(of.low[a], of.low[b]), np.minimum(of.high[a], of.high[b]))


def _overlaps(
    pieces: Sequence[Piece], of: Solids, pairs: Pairs, tolerance: float
) -> tuple[tuple[Overlap, ...], tuple[Notch, ...]]:
    deep = pairs.deep
    rows = np.nonzero((deep > tolerance).all(axis=1) & (pairs.i < pairs.j))[0].tolist()
    clashing: dict[tuple[int, int], Overlap] = {}
    notched: dict[tuple[int, int, int, int], Notch] = {}
    for k in rows:
        a, b, i, j = (int(v[k]) for v in (pairs.a, pairs.b, pairs.i, pairs.j))
        notch = _notch(pieces, of, i, b, deep[k], tolerance) or _notch(pieces, of, j, a, deep[k], tolerance)
        if notch is not None:
            key = (notch.piece, notch.end, notch.into, notch.flange)
            notched[key] = _larger(notch, notched.get(key, notch))
            continue
        by, middle = deep[k].tolist(), ((pairs.low[k] + pairs.high[k]) / 2.0).tolist()
        found = Overlap(i, j, (by[0], by[1], by[2]), (middle[0], middle[1], middle[2]))
        together = _joined if max(pieces[i].skew, pieces[j].skew) > 1.0 else _deeper
        clashing[i, j] = together(clashing.get((i, j), found), found)
    apart = tuple(n for _, n in sorted(notched.items()) if _ordered(n) not in clashing)
    return tuple(o for _, o in sorted(clashing.items())), apart


def _deeper(a: Overlap, b: Overlap) -> Overlap:
    return max(a, b, key=lambda o: min(o.by))


def _joined(a: Overlap, b: Overlap) -> Overlap:
    """The box around two places, for the steps of a leg at an angle."""
    low = [min(o.at[n] - o.by[n] / 2.0 for o in (a, b)) for n in range(3)]
    high = [max(o.at[n] + o.by[n] / 2.0 for o in (a, b)) for n in range(3)]
    by, at = ([h - l for l, h in zip(low, high, strict=True)], [(l + h) / 2.0 for l, h in zip(low, high, strict=True)])
    return Overlap(a.first, a.second, (by[0], by[1], by[2]), (at[0], at[1], at[2]))


def _ordered(n: Notch) -> tuple[int, int]:
    return min(n.piece, n.into), max(n.piece, n.into)


def _larger(a: Notch, b: Notch) -> Notch:
    return Notch(a.piece, a.end, a.into, a.flange, max(a.length, b.length), max(a.depth, b.depth))


def _notch(pieces: Sequence[Piece], of: Solids, i: int, flange: int, deep: Floats, tolerance: float) -> Notch | None:
    """The notch that lets piece `i` end inside a flange of another piece, short of its web; None if it cannot."""
    part, j = of.parts[flange], int(of.owner[flange])
    if not part.endswith("flange"):
        return None
    into, axes = pieces[j], AXES[pieces[j].run]
    if AXES[pieces[i].run].run != axes.width:
        return None
    own, (w0, w1), web = extents(pieces[i])[axes.width], extents(into)[axes.width], _web(of, j, axes)
    (d0, d1), sign = extents(pieces[i])[axes.depth], -1 if part == "low flange" else 1
    deepest = d1 - float(of.low[flange, axes.depth]) if sign > 0 else float(of.high[flange, axes.depth]) - d0
    if deepest > d1 - d0 - tolerance:
        return None
    if own[0] < w0 and w0 < own[1] <= web[0] + tolerance:
        return Notch(i, 1, j, sign, float(deep[axes.width]), deepest)
    if own[1] > w1 and w1 > own[0] >= web[1] - tolerance:
        return Notch(i, -1, j, sign, float(deep[axes.width]), deepest)
    return None


def _web(of: Solids, piece: int, axes: Axes) -> tuple[float, float]:
    """Extent of a piece's web along its width, m."""
    first, last = np.searchsorted(of.owner, [piece, piece + 1]).tolist()
    k = first + of.parts[first:last].index("web")
    return float(of.low[k, axes.width]), float(of.high[k, axes.width])


def _ends(pieces: Sequence[Piece], boxes: Floats, of: Solids, pairs: Pairs, tolerance: float) -> Iterator[End]:
    """Both ends of every piece, in order."""
    run = np.array([AXES[p.run].run for p in pieces], dtype=np.int64)
    across = np.array([[n for n in range(3) if n != r] for r in run], dtype=np.int64).reshape(-1, 2)
    i, k = pairs.i, np.arange(len(pairs.i))
    own_low, own_high = boxes[i, run[i], 0], boxes[i, run[i], 1]
    wide = np.take_along_axis(pairs.deep, across[i], axis=1)
    least, most = wide.min(axis=1), wide.max(axis=1)
    # A coped end lies against what is left of the flange it was cut for; that holds nothing.
    pair = pairs.i * len(pieces) + pairs.j
    entered = np.isin(pair, pair[(pairs.deep > tolerance).all(axis=1)])
    beside = (
        ~entered
        & (least >= -tolerance)
        & (least <= tolerance)
        & (most > tolerance)
        & (pairs.deep[k, run[i]] > tolerance)
    )
    size = boxes[:, :, 1] - boxes[:, :, 0]
    reach = np.take_along_axis(size, across, axis=1).max(axis=1)[i] + tolerance
    for end in (-1, 1):
        edge, face = (own_high, of.low[pairs.b, run[i]]) if end > 0 else (own_low, of.high[pairs.b, run[i]])
        last = of.high[pairs.a, run[i]] if end > 0 else of.low[pairs.a, run[i]]
        meets = (np.abs(face - edge) <= tolerance) & (np.abs(last - edge) <= tolerance) & (least > tolerance)
        near = pairs.high[k, run[i]] >= edge - reach if end > 0 else pairs.low[k, run[i]] <= edge + reach
        held = set(i[beside & near].tolist())
        shares = _shares(pairs, np.nonzero(meets)[0], boxes, across)
        yield from (End(n, end, shares.get(n, 0.0), n in held) for n in range(len(pieces)))


def _shares(pairs: Pairs, rows: Ints, boxes: Floats, across: Ints) -> dict[int, float]:
    """Per piece: how much of the breadth of the narrower of the two meets, both ways across, the lesser."""
    if not rows.size:
        return {}
    i, first = np.unique(pairs.i[rows], return_index=True)
    n, row = across[pairs.i[rows]], rows[:, None]
    other = boxes[pairs.j[rows]]

    def span(low: Floats, high: Floats) -> Floats:
        return np.maximum.reduceat(high, first) - np.minimum.reduceat(low, first)

    met = span(pairs.low[row, n], pairs.high[row, n])
    theirs = span(*(np.take_along_axis(other[:, :, side], n, axis=1) for side in (0, 1)))
    own = np.take_along_axis(boxes[i, :, 1] - boxes[i, :, 0], across[i], axis=1)
    return dict(zip(i.tolist(), (met / np.minimum(own, theirs)).min(axis=1).tolist(), strict=True))


def _groups(count: int, i: Ints, j: Ints) -> tuple[tuple[int, ...], ...]:
    """Pieces that hang together, largest group first."""
    label = list(range(count))

    def root(n: int) -> int:
        while label[n] != n:
            label[n] = label[label[n]]
            n = label[n]
        return n

    for key in sorted(set((i[i < j] * count + j[i < j]).tolist())):
        a, b = divmod(key, count)
        label[root(a)] = root(b)
    found: dict[int, list[int]] = {}
    for n in range(count):
        found.setdefault(root(n), []).append(n)
    return tuple(sorted((tuple(g) for g in found.values()), key=lambda g: (-len(g), g)))
