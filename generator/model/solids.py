"""Cut pieces as the plates they are made of: axis-aligned boxes in x, y and height (m), vectorised for whole frames.

A section stands on its depth: upright axis of what lies down, lengthwise axis of a post. What it does not say is which
way a channel opens; `TOES` settles that for every drawing and check.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from generator.model.types import Piece
from generator.reference.types import Section

TOES = (
    "Channels and angles turn their backs outward and their toes inward: lengthwise and upright ones toward the centre "
    "line, crosswise ones toward datum A. The lying leg of an angle is its lower one."
)
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


def back(piece: Piece) -> int:
    """On which side of its width the back of a channel or angle stands: 1 the greater coordinate, -1 the lesser."""
    low, high = extents(piece)[AXES[piece.run].width]
    return 1 if low + high >= 0.0 else -1


def solids(pieces: Sequence[Piece], sections: Mapping[str, Section]) -> Solids:
    """Every piece as its plates, in the order of the pieces."""
    rows = [(n, part, box) for n, p in enumerate(pieces) for part, box in plates(p, sections[p.section])]
    corners = np.array([box for _, _, box in rows], dtype=np.float64).reshape(-1, 3, 2)
    owner = np.array([n for n, _, _ in rows], dtype=np.int64)
    return Solids(corners[:, :, 0], corners[:, :, 1], owner, tuple(part for _, part, _ in rows))


def plates(piece: Piece, section: Section) -> Iterator[tuple[Part, Box]]:
    """Web and flanges of an open section, or the box around a closed one or a plate, m."""
    box, a = extents(piece), AXES[piece.run]
    (d0, d1), (w0, w1), t = box[a.depth], box[a.width], section.flange

    def cut(depth: tuple[float, float], width: tuple[float, float]) -> Box:
        sides = {a.depth: depth, a.width: width}
        x, y, z = (sides.get(n, box[n]) for n in range(3))
        return x, y, z

    middle, half = (w0 + w1) / 2.0, section.web / 2.0
    at_back = (w1 - section.web, w1) if back(piece) > 0 else (w0, w0 + section.web)
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
            yield "low flange", cut((d0, d0 + t), (w0, w1))
            yield "web", cut((d0 + t, d1), at_back)
        case _:
            yield "whole", box
