"""Every step of every check as printed: its formula with its numbers gives its result, and a symbol means one thing."""

import math
from pathlib import Path

import numpy as np
import pytest

from generator.calc.record import Compared
from generator.design import checks_of
from generator.document.sections.symbols import used
from generator.formulas import is_formula
from generator.spec.new import new_folder

ROOT = Path(__file__).resolve().parents[3]
SPECS = ("heron", "dipper", "wren", "first-sketch")
STARTERS = [(kind, units) for kind in ("gooseneck", "king-pin", "ball") for units in ("us", "si")]
SAFE = {"sqrt": np.sqrt, "sin": np.sin, "cos": np.cos, "tan": np.tan, "atan": np.arctan, "min": min, "max": max}


@pytest.fixture(scope="module", params=[*SPECS, *STARTERS], ids=str)
def checks(request, tmp_path_factory):
    if isinstance(request.param, str):
        return checks_of(ROOT / "specs" / request.param)[1]
    folder = tmp_path_factory.mktemp("-".join(request.param)) / "spec"
    new_folder(folder, *request.param)
    return checks_of(folder)[1]


def steps(checks):
    return [(c.id, s) for c in checks for s in c.outcome.steps]


def test_the_printed_formula_with_its_printed_numbers_gives_the_printed_result(checks):
    worked = [(id, s) for id, s in steps(checks) if is_formula(s.text)]
    assert len(worked) > 100
    for id, s in worked:
        given = {v.symbol: v.value for v in s.inputs}
        assert len(given) == len(s.inputs), (id, s.text)
        with np.errstate(all="ignore"):
            value = float(eval(s.text.partition(" = ")[2], {"__builtins__": {}, **SAFE}, given))
        assert s.result.symbol == s.text.partition(" = ")[0], id
        both = math.isnan(value) and math.isnan(s.result.value)
        assert both or value == pytest.approx(s.result.value, rel=1e-9, abs=1e-12), (id, s.text)


def test_a_formula_takes_a_symbol_as_the_steps_before_gave_it(checks):
    """A step that puts another number in under a symbol worked out above misleads whoever follows it."""
    for check in checks:
        given = {}
        for s in check.outcome.steps:
            for v in s.inputs if is_formula(s.text) else ():
                was = given.get(v.symbol, v.value)
                assert was == v.value or (math.isnan(was) and math.isnan(v.value)), (check.id, v.symbol, s.text)
            given[s.result.symbol] = s.result.value


def test_what_is_compared_is_a_step_or_stated(checks):
    """A reader finds the demand among the numbers of the working, or where it is stated; the limit stands beside it."""
    compared = [c for c in checks if isinstance(c.outcome, Compared) and c.outcome.steps]
    assert len(compared) > 20
    for check in compared:
        o = check.outcome
        seen = {s.result.value for s in o.steps} | {v.value for s in o.steps for v in s.inputs}
        assert o.demand.value in seen or o.demand.origin, (check.id, o.demand)
        assert {o.demand.value, o.limit.value} & seen, check.id


def test_every_symbol_has_words(checks):
    for check in checks:
        for symbol, means, unit, topic in used(check):
            assert not means.startswith("goes into"), (symbol, unit, topic, means)
