"""Every measure of the design unknown, one after the other: no fault of the program, nothing assessed on a gap."""

from contextlib import suppress
from dataclasses import replace
from math import nan

import numpy as np
import pytest
from scratch import DATA, spec

from generator.calc.run import work
from generator.calc.trials import Trials
from generator.errors import PacketError
from generator.model.resolve import resolve
from generator.spec.measure import Measure

BASE = spec()


def measures(part, path=()):
    """Paths of all measures of a part of the spec."""
    if isinstance(part, Measure):
        yield path
    elif isinstance(part, tuple):
        for n, one in enumerate(part):
            yield from measures(one, (*path, n))
    elif hasattr(type(part), "model_fields"):
        for name in type(part).model_fields:
            yield from measures(getattr(part, name), (*path, name))


def put(part, path, change):
    """The part with one measure changed."""
    if not path:
        return change(part)
    head, rest = path[0], path[1:]
    if isinstance(part, tuple):
        return (*part[:head], put(part[head], rest, change), *part[head + 1 :])
    return part.model_copy(update={head: put(getattr(part, head), rest, change)})


def unknown(m):
    return replace(m, nominal=nan, low=nan, high=nan, shape="unknown", origin="there:1")


def with_value(value):
    return lambda m: replace(m, nominal=value(m), low=value(m), high=value(m), shape="sure")


PLACES = [
    (root, path)
    for root in ("project", "trailer", "house", "weights", "tow", "site")
    for path in measures(getattr(BASE, root))
]


def worked(root, path, change):
    design = replace(BASE, **{root: put(getattr(BASE, root), path, change)})
    with np.errstate(all="ignore"):
        return work(resolve(design, DATA), DATA, Trials(count=0))


def test_unknown_is_never_a_fault_and_never_a_silent_pass():
    ids = [c.id for c in work(resolve(BASE, DATA), DATA, Trials(count=0)).checks]
    assert len(PLACES) > 150
    for root, path in PLACES:
        of = worked(root, path, unknown)
        assert [c.id for c in of.checks] == ids, path
        for check in of.checks:
            if check.status == "not assessed":
                assert check.outcome.inputs, (path, check.id)
            else:
                assert np.isfinite([check.outcome.demand.value, check.outcome.limit.value]).all(), (path, check.id)


@pytest.mark.parametrize(
    "value", [lambda m: 0.0, lambda m: -m.nominal, lambda m: 40 * m.nominal], ids=["zero", "negative", "huge"]
)
def test_absurd_values_are_worked_or_refused(value):
    for root, path in PLACES[::5]:
        with suppress(PacketError):
            assert worked(root, path, with_value(value)).checks
