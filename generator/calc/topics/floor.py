"""Floor of the house within its outer faces, and what the wheel boxes leave of it."""

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Working, formula, report, sure
from generator.calc.topics.masses import summed
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.spec.measure import Measure


@formula("Length of a stretch", "l = x_1 - x_0", "m", "difference of stations")
def STRETCH(x_0: Floats, x_1: Floats) -> Floats:
    return x_1 - x_0


@formula("Floor of a zone within the outer faces", "A_z = l*w", "m2", "length times width")
def ZONE_FLOOR(l: Floats, w: Floats) -> Floats:
    return l * w


@formula("Floor a pair of wheel boxes takes", "A_b = 2*l*max(w/2 - b_i, 0)", "m2", "both sides")
def BOX_FLOOR(l: Floats, w: Floats, b_i: Floats) -> Floats:
    return 2 * l * np.maximum(w / 2 - b_i, 0.0)


@formula("Floor that is left", "A = A_f - A_x", "m2", "difference")
def LEFT(A_f: Floats, A_x: Floats) -> Floats:
    return A_f - A_x


def floor(model: Model, trials: Trials) -> Findings:
    """`floor.area` and `floor.free` (m2): all zones, and without the wheel boxes."""
    house, work = model.spec.house, Working()
    width = trials.given("w", house.width, "m", path="house.yaml width")
    zones = [work(ZONE_FLOOR, l=_length(trials, f"house.yaml zones.{z.id}", z.front, z.rear), w=width)
             for z in house.zones]
    boxes = [work(BOX_FLOOR, l=_length(trials, f"trailer.yaml wheel_boxes.{n}", b.front, b.rear), w=width,
                  b_i=trials.given("b_i", b.inside, "m", path=f"trailer.yaml wheel_boxes.{n}.inside"))
             for n, b in enumerate(model.spec.trailer.wheel_boxes, start=1)]
    area = summed("A_f", tuple(zones), work, "Floor of all zones")
    none = sure("A_x", 0.0, "m2")
    taken = summed("A_x", tuple(boxes), work, "Floor under the wheel boxes") if boxes else none
    return Findings((
        report("floor.area", "Floor within the outer faces of the house", area),
        report("floor.free", "Floor without the wheel boxes", work(LEFT, A_f=area, A_x=taken)),
    ))


def _length(trials: Trials, path: str, front: Measure, rear: Measure) -> Quantity:
    ends = {s: trials.given(s, m, "m", path=f"{path}.{n}")
            for s, m, n in (("x_0", front, "front"), ("x_1", rear, "rear"))}
    return Working()(STRETCH, **ends)
