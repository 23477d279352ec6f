"""Floor of the house within its outer faces, and what the wheel boxes leave of it."""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import Findings, Floats, Quantity, Working, formula, report, sure
from generator.calc.topics.masses import summed
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.spec.measure import Measure
from generator.spec.models.house import Zone
from generator.spec.models.trailer import WheelBox


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


@formula("Room under a floor raised over wheel boxes", "V = t_b*max(A_z - A_b, 0)", "m3:room",
         "between deck and raised floor, boxes out")
def UNDER(t_b: Floats, A_z: Floats, A_b: Floats) -> Floats:
    return t_b * np.maximum(A_z - A_b, 0.0)


def floor(model: Model, trials: Trials) -> Findings:
    """`floor.area` and `floor.free` (m2): all zones, and without the boxes that stand in it; `floor.under` (m3)."""
    house, work = model.spec.house, Working()
    width = trials.given("w", house.width, "m", path="house.yaml width")
    zones = {z.id: _zone(work, z, width, trials) for z in house.zones}
    boxes = [(b, _box(work, n, b, width, trials)) for n, b in enumerate(model.spec.trailer.wheel_boxes, start=1)]
    area = summed("A_f", tuple(zones.values()), work, "Floor of all zones")
    none = sure("A_x", 0.0, "m2")
    standing = tuple(lost for b, lost in boxes if not is_under_floor(model, b))
    taken = summed("A_x", standing, work, "Floor under the wheel boxes") if standing else none
    found = [
        report("floor.area", "Floor within the outer faces of the house", area),
        report("floor.free", "Floor without the wheel boxes", work(LEFT, A_f=area, A_x=taken)),
    ]
    if is_raised(model):
        under = tuple(_under(work, n, b, lost, [zones[z.id] for z in _over(model, b)], trials)
                      for n, (b, lost) in enumerate(boxes, start=1))
        room = summed("V", under, work, "Room under raised floors")
        found.append(report("floor.under", "Room under the raised floor, boxes out", room, "down"))
    return Findings(tuple(found))


def is_under_floor(model: Model, box: WheelBox) -> bool:
    """Whether a wheel box stays below the finished floor of every zone it lies in: the floor is raised over it."""
    over = _over(model, box)
    return bool(over) and all(z.floor.nominal >= box.top.nominal for z in over)


def is_raised(model: Model) -> bool:
    """Whether the floor is raised over all wheel boxes."""
    boxes = model.spec.trailer.wheel_boxes
    return bool(boxes) and all(is_under_floor(model, b) for b in boxes)


def _over(model: Model, box: WheelBox) -> list[Zone]:
    return [z for z in model.spec.house.zones
            if z.front.nominal < box.rear.nominal and z.rear.nominal > box.front.nominal]


def _zone(work: Working, zone: Zone, width: Quantity, trials: Trials) -> Quantity:
    return work(ZONE_FLOOR, l=_length(trials, f"house.yaml zones.{zone.id}", zone.front, zone.rear), w=width)


def _box(work: Working, number: int, box: WheelBox, width: Quantity, trials: Trials) -> Quantity:
    at = f"trailer.yaml wheel_boxes.{number}"
    return work(BOX_FLOOR, l=_length(trials, at, box.front, box.rear), w=width,
                b_i=trials.given("b_i", box.inside, "m", path=f"{at}.inside"))


def _under(work: Working, number: int, box: WheelBox, lost: Quantity, zones: Sequence[Quantity], trials: Trials,
           ) -> Quantity:
    top = trials.given("t_b", box.top, "m", path=f"trailer.yaml wheel_boxes.{number}.top")
    return work(UNDER, t_b=top, A_z=summed("A_z", tuple(zones), work, "Floor of the raised zones"), A_b=lost)


def _length(trials: Trials, path: str, front: Measure, rear: Measure) -> Quantity:
    ends = {s: trials.given(s, m, "m", path=f"{path}.{n}")
            for s, m, n in (("x_0", front, "front"), ("x_1", rear, "rear"))}
    return Working()(STRETCH, **ends)
