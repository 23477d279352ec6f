"""Formulas as people read them: symbols set with subscripts, numbers put in with their units."""

import re
from collections.abc import Callable
from itertools import pairwise

from markupsafe import Markup

from generator.calc.record import Step
from generator.formulas import FUNCTIONS, G, in_work, is_formula, numbers
from generator.units import Show

_TOKEN = re.compile(r"\*\*|[A-Za-z_]\w*|[0-9]+\.?[0-9]*(?:[eE][-+]?[0-9]+)?|<=|>=|[^\s]")
_SIGNS = {"*": "·", "-": "−", "<=": "≤", ">=": "≥"}
_BEFORE_A_SIGN = frozenset({"", "(", "*", "/", "=", ",", "**"})
Writer = Callable[[str], Markup]


def symbol(name: str) -> Markup:
    """A symbol in italic with what follows the first underscore as subscript."""
    return Markup("<i>{}</i>").format(_base(name))


def in_symbols(text: str) -> Markup:
    """A formula in symbols: dots, real minus signs, subscripts; the sentence of a procedure stays as it is."""
    return Markup("<i>{}</i>").format(_set(text, _base)) if is_formula(text) else Markup("{}").format(text)


def in_numbers(step: Step, show: Show) -> Markup:
    """The right-hand side of a formula with its numbers put in; for a procedure, the numbers that went in."""
    if is_formula(step.text):
        put = numbers(step.text, step.inputs, show)
        return _set(step.text.partition(" = ")[2], lambda name: Markup("{}").format(put.get(name, name)))
    return Markup(", ").join(Markup("{} = {}").format(_base(v.symbol), in_work(v, show)) for v in step.inputs)


def _base(name: str) -> Markup:
    base, _, below = name.partition("_")
    return Markup("{}<sub>{}</sub>").format(base, below.replace("_", ",")) if below else Markup("{}").format(base)


def _set(text: str, write: Writer) -> Markup:
    tokens = ["", *_TOKEN.findall(text)]
    out = []
    for before, token in pairwise(tokens):
        piece = _piece(token, before, write)
        out.append(Markup("<sup>{}</sup>").format(piece) if before == "**" else piece)
    return Markup("").join(out)


def _piece(token: str, before: str, write: Writer) -> Markup:
    if token == G or ((token[0].isalpha() or token[0] == "_") and token not in FUNCTIONS):
        return write(token)
    if token == "**":
        return Markup("")
    if token in "+-" and before in _BEFORE_A_SIGN:
        return Markup("{}").format(_SIGNS.get(token, token))
    if token in ("*", "/", "=", "<=", ">=", "+", "-"):
        return Markup(" {} ").format(_SIGNS.get(token, token))
    return Markup(", ") if token == "," else Markup("{}").format(token)
