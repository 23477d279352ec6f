"""Areas and centres of the flat pieces of an envelope, holes deducted. Metres; heights above the main-deck top."""

import math
from collections.abc import Iterable

from generator.records import dataclass
from generator.spec.models.house import Opening, Surface


@dataclass(frozen=True, slots=True)
class Patch:
    """A flat piece or a hole: area m2, centre, extent along x, width athwart (m)."""

    area: float
    x: float
    y: float
    z: float
    x0: float
    x1: float
    width: float


def whole(s: Surface) -> Patch:
    """A surface without its holes: rectangle, trapezoid, or sloped rectangle."""
    front, left, bottom = s.front.nominal, s.left.nominal, s.bottom.nominal
    rear, right, top = (
        front if s.rear is None else s.rear.nominal,
        left if s.right is None else s.right.nominal,
        bottom if s.top is None else s.top.nominal,
    )
    if s.plane == "flat":
        rise = top - bottom if s.slopes != "level" else 0.0
        along = math.hypot(rear - front, rise if s.slopes == "along" else 0.0)
        across = math.hypot(right - left, rise if s.slopes == "across" else 0.0)
        return Patch(
            along * across, (front + rear) / 2, (left + right) / 2, bottom + rise / 2, front, rear, right - left
        )
    end = top if s.top_end is None else s.top_end.nominal
    run = rear - front if s.plane == "side" else right - left
    area, along, up = trapezoid(run, top - bottom, end - bottom)
    if s.plane == "side":
        return Patch(area, front + along, left, bottom + up, front, rear, 0.0)
    return Patch(area, front, left + along, bottom + up, front, front, right - left)


def trapezoid(run: float, h1: float, h2: float) -> tuple[float, float, float]:
    """Area of an upright trapezoid on a level base, and its centre along the base and up. m.

    Source: centroid of a trapezoid, any statics text (parallel sides h1 at 0 and h2 at `run`).
    """
    both = h1 + h2
    if both == 0.0:
        return 0.0, run / 2, 0.0
    return run * both / 2, run * (h1 + 2 * h2) / (3 * both), (h1 * h1 + h1 * h2 + h2 * h2) / (3 * both)


def hole(o: Opening, s: Surface) -> Patch:
    """An opening as a patch of its surface."""
    wide, high, centre, sill = o.width.nominal, o.height.nominal, o.centre.nominal, o.sill.nominal
    area = wide * high
    if s.plane == "side":
        return Patch(area, centre, s.left.nominal, sill + high / 2, centre - wide / 2, centre + wide / 2, 0.0)
    if s.plane == "cross":
        x = s.front.nominal
        return Patch(area, x, centre, sill + high / 2, x, x, wide)
    return Patch(area, centre, sill, _level(s, centre, sill), centre - wide / 2, centre + wide / 2, high)


def _level(s: Surface, x: float, y: float) -> float:
    """Level of a flat surface at a point of it."""
    if s.top is None or s.slopes == "level":
        return s.bottom.nominal
    start, end = (s.left, s.right) if s.slopes == "across" else (s.front, s.rear)
    if end is None:
        return s.bottom.nominal
    part = ((y if s.slopes == "across" else x) - start.nominal) / (end.nominal - start.nominal)
    return s.bottom.nominal + part * (s.top.nominal - s.bottom.nominal)


def net(surface: Patch, holes: Iterable[Patch]) -> Patch:
    """A surface less its holes, with its own centre. The extent is trimmed so that its middle is that centre."""
    out = tuple(holes)
    area = surface.area - sum(h.area for h in out)
    if not area > 0.0:
        return Patch(area, surface.x, surface.y, surface.z, surface.x0, surface.x1, surface.width)
    x, y, z = (
        (getattr(surface, axis) * surface.area - sum(getattr(h, axis) * h.area for h in out)) / area
        for axis in ("x", "y", "z")
    )
    x0, x1 = centred(x, surface.x0, surface.x1)
    return Patch(area, x, y, z, x0, x1, surface.width)


def centred(x: float, x0: float, x1: float) -> tuple[float, float]:
    """The longest even spread inside x0 to x1 whose middle is x (m): it stays on the trailer and keeps the moment."""
    half = min(x - x0, x1 - x)
    return (x - half, x + half) if half > 0.0 else (x, x)
