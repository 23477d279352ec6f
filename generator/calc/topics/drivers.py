"""Which items make the spread of hitch load, heaviest axle and total mass. Shares of the variance, no trials needed."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.calc.lines import Lines, lines_of
from generator.calc.measured import Driver, Drivers
from generator.calc.record import Floats
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.coupled import coupled
from generator.calc.topics.masses import DESIGN
from generator.calc.topics.weighings import gross_row, group_row
from generator.model.types import Model
from generator.reference.load import Reference

TOP = 5
"""So many items are named."""


def drivers(model: Model, loads: Mapping[str, StateLoads], data: Reference) -> tuple[Drivers, ...]:
    """What drives the spread of the travel state; a result with an unknown in it has no drivers."""
    lines, x = lines_of(model.items, data), loads[DESIGN]
    named = ((id, title, row) for id, title, row, known in _results(model, x) if known)
    return tuple(_drivers(model, lines, id, title, row) for id, title, row in named)


def _results(model: Model, x: StateLoads) -> Iterator[tuple[str, str, Floats, bool]]:
    state = next(n for n, s in enumerate(model.states) if s.id == x.state.id)
    whole = gross_row(model.items, state)
    axles = group_row(model.items, state, float(x.x_h.values[0]), float(x.x_a.values[0]))
    loads = [float(q.values[0]) for q in x.axles]
    heaviest = int(np.argmax(np.nan_to_num(loads, nan=-np.inf)))
    known = [bool(np.isfinite(q.values[0])) for q in (x.mass, x.hitch, x.axles[heaviest])]
    of, part = f"state.{x.state.id}", coupled(model).on
    yield f"{of}.hitch", f"Load on the {part}", whole - axles, known[1]
    one = _axle_row(model, x, axles, heaviest)
    yield f"{of}.axle.{heaviest + 1}", f"Axle {heaviest + 1}, the heaviest", one, known[2]
    yield f"{of}.mass", "Mass", whole, known[0]


def _axle_row(model: Model, x: StateLoads, axles: Floats, n: int) -> Floats:
    """Weights with which the items load one axle: its share of what the springs carry, and what hangs on its tyres."""
    unsprung = np.array([i.unsprung for i in model.items])
    own = np.zeros(len(model.items))
    own[np.flatnonzero(unsprung)[n]] = 1.0
    with np.errstate(all="ignore"):
        share = float((x.axles[n].values[0] - x.at.unsprung[n].values[0]) / x.sprung_group.values[0])
    row: Floats = np.where(unsprung, own, share * axles)
    return row


def _drivers(model: Model, lines: Lines, id: str, title: str, row: Floats) -> Drivers:
    shares = np.nan_to_num(lines.shares(row))
    order = sorted(range(len(shares)), key=lambda n: (-shares[n], model.items[n].id))[:TOP]
    groups: dict[str, float] = {}
    for item, share in zip(model.items, shares, strict=True):
        groups[item.group] = groups.get(item.group, 0.0) + float(share)
    return Drivers(
        id,
        title,
        lines.error(row),
        tuple(Driver(model.items[n].id, model.items[n].title, float(shares[n])) for n in order if shares[n] > 0.0),
        tuple(Driver(g, g, s) for g, s in sorted(groups.items(), key=lambda pair: (-pair[1], pair[0])) if s != 0.0),
    )
