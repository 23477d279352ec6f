"""Every printed formula says what its code does: the text is evaluated against the code."""

import ast
import importlib
import pkgutil
import zlib

import numpy as np
import pytest

import generator.calc
from generator.calc.record import Formula
from generator.units.show import DISPLAY

SAFE = {
    "sqrt": np.sqrt,
    "sin": np.sin,
    "cos": np.cos,
    "tan": np.tan,
    "atan": np.arctan,
    "min": np.minimum,
    "max": np.maximum,
    "asin": np.arcsin,
    "acos": np.arccos,
}
ALLOWED = {"sqrt", "sin", "cos", "tan", "atan", "min", "max"}
VIOLATIONS = (ast.Attribute, ast.Subscript, ast.Compare, ast.BoolOp, ast.Lambda)


def formulas():
    found = {}
    for info in pkgutil.walk_packages(generator.calc.__path__, "generator.calc."):
        module = importlib.import_module(info.name)
        for name, value in vars(module).items():
            for n, f in enumerate(value if isinstance(value, tuple) else (value,)):
                if isinstance(f, Formula):
                    found[id(f)] = (f"{info.name}.{name}.{n}", f)
    return sorted(found.values(), key=lambda pair: pair[0])


ALL = formulas()


def names(f):
    return sorted({n.id for n in ast.walk(ast.parse(f.text.split(" = ")[1], mode="eval")) if isinstance(n, ast.Name)})


def test_there_are_formulas_to_check():
    assert len(ALL) > 40


@pytest.mark.parametrize("f", [f for _, f in ALL], ids=[name for name, _ in ALL])
def test_text_is_the_code(f):
    random = np.random.Generator(np.random.PCG64(zlib.crc32(f.text.encode())))
    symbols = [n for n in names(f) if n not in SAFE]
    given = {n: random.uniform(0.1, 1.4, 40) for n in symbols}
    with np.errstate(all="ignore"):
        printed = eval(f.text.split(" = ")[1], {"__builtins__": {}, **SAFE}, given)
        coded = f.of(**given)
    both = np.isfinite(printed) & np.isfinite(coded)
    assert both.any()
    assert np.isfinite(printed).tolist() == np.isfinite(coded).tolist()
    np.testing.assert_allclose(np.asarray(coded)[both], np.asarray(printed)[both], rtol=1e-9, atol=1e-12)


@pytest.mark.parametrize("f", [f for _, f in ALL], ids=[name for name, _ in ALL])
def test_text_can_be_printed(f):
    tree = ast.parse(f.text.split(" = ")[1], mode="eval")
    assert not [n for n in ast.walk(tree) if isinstance(n, VIOLATIONS)]
    assert {n.func.id for n in ast.walk(tree) if isinstance(n, ast.Call)} <= ALLOWED
    assert f.unit in DISPLAY, "a unit nobody can show"
    assert f.what
    assert f.source
