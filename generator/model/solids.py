"""Cut pieces as the plates they are made of: axis-aligned boxes in x, y and height (m), vectorised for whole frames.

A leg at an angle in plan is a stair of short boxes, no step further off its face than steel may be from steel. Both
legs of a pair are taken to be mitred on the centre line and cut across at the ends of their run.

Its depth is upright in what lies down and lengthwise in a post. A spec does not say which way a channel opens; `TOES`
settles that for every drawing and check.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from generator.model.types import Piece
from generator.records import dataclass
from generator.reference.types import Section

TOES = (
    "Channels and angles turn their backs to the ends that stop at their face, and their toes to the ends that run in "
    "between their flanges; where nothing says so, toes lie toward the centre line (lengthwise and upright ones) or "
    "aft (crosswise ones). The lying leg of an angle is its upper one."
)
MOST_STEPS = 2000
"""Steps of all legs at an angle; a frame with more of them is compared more coarsely, not more slowly."""

Part = Literal["whole", "web", "low flange", "high flange"]
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Box = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
"""Extents along x, y and height, m."""


@dataclass(frozen=True, slots=True)
class Axes:
    """Which axis (0 x, 1 y, 2 height) a run, a depth and a width lie along."""

    run: int
    depth: int
    width: int


AXES: Mapping[str, Axes] = {"lengthwise": Axes(0, 2, 1), "crosswise": Axes(1, 2, 0), "upright": Axes(2, 0, 1)}


@dataclass(frozen=True, slots=True, eq=False)
class Solids:
    """All boxes of a frame: low and high corners (m x 3), the piece each belongs to, and which part of it."""

    low: Floats
    high: Floats
    owner: Ints
    parts: tuple[Part, ...]


def extents(piece: Piece) -> Box:
    """The box around a piece, m."""
    return (piece.x0, piece.x1), (piece.y0, piece.y1), (piece.z0, piece.z1)


def slope(piece: Piece) -> float:
    """How far a leg at an angle moves off the centre line per length aft; 0 for a straight piece."""
    return math.sqrt(max(piece.skew**2 - 1.0, 0.0))


def middle_at(piece: Piece, x: float) -> float:
    """Where the middle of a piece lies across the trailer at station x, m."""
    return (piece.y0 + piece.y1) / 2.0 + outward(piece) * slope(piece) * (x - (piece.x0 + piece.x1) / 2.0)


def around(piece: Piece) -> Box:
    """The box around a piece as it lies, at an angle or straight, m."""
    x, (y0, y1), z = extents(piece)
    out = slope(piece) * (piece.x1 - piece.x0) / 2.0 + (piece.skew - 1.0) * (y1 - y0) / 2.0
    return x, (y0 - out, y1 + out), z


def outward(piece: Piece) -> int:
    """Where the back of a piece is turned if nothing says otherwise: away from the centre line, or forward.

    1 is the greater coordinate of its width, -1 the lesser.
    """
    if piece.run == "crosswise":
        return -1
    return 1 if piece.y0 + piece.y1 >= 0.0 else -1


def backs(pieces: Sequence[Piece], sections: Mapping[str, Section], tolerance: float) -> tuple[int, ...]:
    """On which side of its width each piece turns its back (1 the greater coordinate, -1 the lesser), by `TOES`.

    Left and right mirror each other: pieces of a mark at one station decide together, and where nothing meets them
    they follow their mark. `tolerance` in m.
    """
    boxes = np.array([extents(p) for p in pieces], dtype=np.float64).reshape(-1, 3, 2)
    runs = np.array([AXES[p.run].run for p in pieces], dtype=np.int64)
    votes: dict[tuple[str, float], int] = {}
    marks: dict[str, int] = {}
    for n, p in enumerate(pieces):
        if sections[p.section].shape in ("C", "L"):
            vote = outward(p) * _turned(boxes, runs, n, AXES[p.run].width, tolerance)
            votes[_place(p)] = votes.get(_place(p), 0) + vote
            marks[p.mark] = marks.get(p.mark, 0) + vote
    return tuple(outward(p) * (-1 if (votes.get(_place(p)) or marks.get(p.mark, 0)) < 0 else 1) for p in pieces)


def _place(p: Piece) -> tuple[str, float]:
    return p.mark, round(p.x0 + p.x1, 4)


def _turned(boxes: Floats, runs: Ints, n: int, width: int, tolerance: float) -> int:
    """How many ends more ask for the back at the greater coordinate than at the lesser one."""
    (w0, w1), low, high = boxes[n, width], boxes[:, :, 0], boxes[:, :, 1]
    shared = np.minimum(high, high[n]) - np.maximum(low, low[n])
    shared[:, width] = np.inf
    ends = (runs == width) & (shared > tolerance).all(axis=1)
    from_low, from_high = ends & (low[:, width] < w0 - tolerance), ends & (high[:, width] > w1 + tolerance)
    stop_low, stop_high = np.abs(high[:, width] - w0) <= tolerance, np.abs(low[:, width] - w1) <= tolerance
    in_low = from_low & (high[:, width] > w0 + tolerance) & (high[:, width] < w1)
    in_high = from_high & (low[:, width] < w1 - tolerance) & (low[:, width] > w0)
    at_high = (from_high & stop_high) | in_low
    at_low = (from_low & stop_low) | in_high
    return int(at_high.sum()) - int(at_low.sum())


def solids(pieces: Sequence[Piece], sections: Mapping[str, Section], back: Sequence[int], tolerance: float) -> Solids:
    """Every piece as its plates, in the order of the pieces; `back` as `backs` gives it, `tolerance` in m."""
    rise = max(tolerance, sum(slope(p) * (p.x1 - p.x0) for p in pieces) / MOST_STEPS)
    rows = [(n, part, step) for n, p in enumerate(pieces) for part, box in plates(p, sections[p.section], back[n])
            for step in _stair(p, box, rise)]
    corners = np.array([box for _, _, box in rows], dtype=np.float64).reshape(-1, 3, 2)
    owner = np.array([n for n, _, _ in rows], dtype=np.int64)
    return Solids(corners[:, :, 0], corners[:, :, 1], owner, tuple(part for _, part, _ in rows))


def plates(piece: Piece, section: Section, back: int) -> Iterator[tuple[Part, Box]]:
    """Web and flanges of an open section, or the box around a closed one or a plate, m."""
    box, a = extents(piece), AXES[piece.run]
    (d0, d1), (w0, w1), t = box[a.depth], box[a.width], section.flange

    def cut(depth: tuple[float, float], width: tuple[float, float]) -> Box:
        sides = {a.depth: depth, a.width: width}
        x, y, z = (sides.get(n, box[n]) for n in range(3))
        return x, y, z

    middle, half = (w0 + w1) / 2.0, section.web / 2.0
    at_back = (w1 - section.web, w1) if back > 0 else (w0, w0 + section.web)
    match section.shape:
        case "I":
            yield "low flange", cut((d0, d0 + t), (w0, w1))
            yield "high flange", cut((d1 - t, d1), (w0, w1))
            yield "web", cut((d0 + t, d1 - t), (middle - half, middle + half))
        case "C":
            yield "low flange", cut((d0, d0 + t), (w0, w1))
            yield "high flange", cut((d1 - t, d1), (w0, w1))
            yield "web", cut((d0 + t, d1 - t), at_back)
        case "L":
            yield "high flange", cut((d1 - t, d1), (w0, w1))
            yield "web", cut((d0, d1 - t), at_back)
        case _:
            yield "whole", box


def _stair(piece: Piece, box: Box, rise: float) -> Iterator[Box]:
    """A plate of a leg at an angle as boxes that step `rise` m, on its own side of the centre line; a straight one as
    it is.
    """
    rate, side = slope(piece), outward(piece)
    if rate == 0.0:
        yield box
        return
    (x0, x1), (y0, y1), z = box
    middle, wider = (piece.y0 + piece.y1) / 2.0, piece.skew
    steps = max(1, math.ceil((x1 - x0) * rate / rise))
    edges = np.linspace(x0, x1, steps + 1).tolist()
    for a, b in pairwise(edges):
        at = middle_at(piece, (a + b) / 2.0)
        low, high = at + (y0 - middle) * wider, at + (y1 - middle) * wider
        low, high = (max(low, 0.0), high) if side > 0 else (low, min(high, 0.0))
        if high > low:
            yield (a, b), (low, high), z
