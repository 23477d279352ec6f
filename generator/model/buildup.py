"""Surfaces times layers, less openings, as items with area, mass and own centre; openings add their own mass."""

from collections import defaultdict
from collections.abc import Iterator

from generator.model.geometry import Patch, hole, net, whole
from generator.model.notebook import Notebook
from generator.model.states import aboard
from generator.model.types import Item
from generator.reference.types import Material
from generator.spec.measure import Measure
from generator.spec.models.house import Buildup, House, Layer, Opening, Surface
from generator.spec.models.weights import Stage

FILE = "house.yaml"
STAGES: dict[str, Stage] = {"shell": "shell", "interior": "dry"}
CLOSE = 0.002
"""A hole may reach this far over an edge before it is a fault, m: rounding of inches."""


def envelope_items(house: House, book: Notebook) -> list[Item]:
    """Items of all surfaces and openings of the house."""
    buildups = {b.id: b for b in house.buildups}
    openings = defaultdict(list)
    for o in house.openings:
        openings[o.surface].append(o)
    items: list[Item] = []
    for s in house.surfaces:
        if s.buildup in buildups and _complete(s, book):
            items += _surface_items(s, buildups[s.buildup], openings[s.id], book)
    return items


def _complete(s: Surface, book: Notebook) -> bool:
    needed = list({"side": ("rear", "top"), "cross": ("right", "top"), "flat": ("rear", "right")}[s.plane])
    if s.plane == "flat" and s.slopes != "level":
        needed.append("top")
    lacking = [name for name in needed if getattr(s, name) is None]
    for name in lacking:
        book.fault(
            FILE, f"surfaces.{s.id}.{name}", f"a {s.plane} surface needs it", "give its station, y or height", s.front
        )
    for low, high in (("front", "rear"), ("left", "right")):
        start, end = getattr(s, low), getattr(s, high)
        if end is not None and end.nominal <= start.nominal:
            book.fault(
                FILE,
                f"surfaces.{s.id}.{high}",
                f"does not lie beyond `{low}`",
                "stations grow to the rear, y to the right",
                end,
            )
            lacking.append(high)
    if s.plane != "flat" and s.top is not None and s.top.nominal <= s.bottom.nominal:
        book.fault(FILE, f"surfaces.{s.id}.top", "does not lie above `bottom`", "heights grow upward", s.top)
        lacking.append("top")
    return not lacking


def _surface_items(s: Surface, buildup: Buildup, openings: list[Opening], book: Notebook) -> Iterator[Item]:
    full, holes = whole(s), [hole(o, s) for o in openings]
    for o, h in zip(openings, holes, strict=True):
        _inside(s, full, o, h, book)
        yield _opening_item(o, h, book)
    patch = net(full, holes)
    if patch.area <= 0.0:
        book.fault(FILE, f"surfaces.{s.id}", "its openings are larger than the surface", "check their sizes", s.front)
        return
    unknown = next((m for m in _measures(s) if not m.known), None)
    for number, layer in enumerate(buildup.layers, start=1):
        path = f"buildups.{buildup.id}.layers.{number}"
        material = book.material(layer.material, FILE, path)
        if material is not None:
            yield _layer_item(s, buildup, number, layer, material, patch, path, unknown, book)


def _layer_item(
    s: Surface,
    buildup: Buildup,
    number: int,
    layer: Layer,
    material: Material,
    patch: Patch,
    path: str,
    unknown: Measure | None,
    book: Notebook,
) -> Item:
    mass = areal_mass(layer, material, path, book) * patch.area
    unknown = unknown or next((m for m in _measures(layer) if not m.known), None)
    spread = buildup.spread.nominal
    return Item(
        f"{s.id}.{number}",
        f"{s.title}: {material.title}",
        layer.group,
        mass,
        mass * (1 - spread),
        mass * (1 + spread),
        "normal",
        buildup.basis,
        patch.x0,
        patch.x1,
        patch.y,
        patch.z,
        aboard(STAGES[layer.group]),
        patch.width,
        origin=(unknown or s.front).origin,
        memory=material.confidence == "memory" and layer.mass is None,
    )


def areal_mass(layer: Layer, material: Material, path: str, book: Notebook) -> float:
    """Mass of a layer per area, kg/m2: stated, or density times thickness, or framing evened out over its spacing."""
    more = 1.0 + (layer.extra.nominal if layer.extra is not None else 0.0)
    if layer.mass is not None:
        return layer.mass.nominal * more
    if layer.spacing is not None:
        if layer.breadth is None or layer.thickness is None:
            book.fault(
                FILE,
                path,
                "framing needs `thickness` (depth), `breadth` and `spacing`",
                "give all three",
                layer.spacing,
            )
            return 0.0
        solid = layer.breadth.nominal * layer.thickness.nominal / layer.spacing.nominal
        return material.density * solid * more
    if layer.thickness is None:
        if material.areal is None:
            book.fault(FILE, path, f"{material.id} needs a `thickness`, or a `mass` per area", "give one of them")
            return 0.0
        return material.areal * more
    if material.areal is not None:
        book.fault(
            FILE,
            path,
            f"{material.id} is sold by area: its thickness says nothing",
            "leave out `thickness`",
            layer.thickness,
        )
        return 0.0
    return material.density * layer.thickness.nominal * more


def _opening_item(o: Opening, patch: Patch, book: Notebook) -> Item:
    mass, low, high, shape = book.spread(o.mass, o.basis)
    unknown = next((m for m in _measures(o) if not m.known), o.mass)
    return Item(
        o.id,
        o.title,
        "shell",
        mass,
        low,
        high,
        shape,
        o.basis,
        patch.x0,
        patch.x1,
        patch.y,
        patch.z,
        aboard("shell"),
        patch.width,
        origin=unknown.origin,
    )


def _inside(s: Surface, full: Patch, o: Opening, h: Patch, book: Notebook) -> None:
    outside = (
        h.x0 < full.x0 - CLOSE or h.x1 > full.x1 + CLOSE
        if s.plane != "cross"
        else (
            h.y - h.width / 2 < full.y - full.width / 2 - CLOSE or h.y + h.width / 2 > full.y + full.width / 2 + CLOSE
        )
    )
    if outside:
        book.fault(
            FILE,
            f"openings.{o.id}.centre",
            f"reaches beyond surface {s.id}",
            "keep the hole inside its surface",
            o.centre,
        )
    if s.plane != "flat" and s.top is not None:
        top = max(s.top.nominal, s.top_end.nominal if s.top_end is not None else s.top.nominal)
        if o.sill.nominal < s.bottom.nominal - CLOSE or o.sill.nominal + o.height.nominal > top + CLOSE:
            book.fault(
                FILE,
                f"openings.{o.id}.sill",
                f"reaches below or above surface {s.id}",
                "keep the hole inside its surface",
                o.sill,
            )


def _measures(part: object) -> Iterator[Measure]:
    return (value for value in vars(part).values() if isinstance(value, Measure))
