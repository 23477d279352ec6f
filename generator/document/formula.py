"""Formulas as people read them: symbols set with subscripts, numbers put in with their units."""

import re
from collections.abc import Callable, Mapping
from itertools import pairwise

from markupsafe import Markup

from generator.calc.record import Step, Value
from generator.formulas import FUNCTIONS, is_formula
from generator.units import Show

_TOKEN = re.compile(r"\*\*|[A-Za-z_]\w*|[0-9]+\.?[0-9]*(?:[eE][-+]?[0-9]+)?|<=|>=|[^\s]")
_SIGNS = {"*": "·", "-": "−", "<=": "≤", ">=": "≥"}
_BEFORE_A_SIGN = frozenset({"", "(", "*", "/", "=", ",", "**"})
NameWriter = Callable[[str], Markup]


def symbol(name: str) -> Markup:
    """A symbol in italic with what follows the first underscore as subscript."""
    base, _, below = name.partition("_")
    return (
        Markup("<i>{}</i><sub>{}</sub>").format(base, below.replace("_", ","))
        if below
        else Markup("<i>{}</i>").format(base)
    )


def in_symbols(text: str) -> Markup:
    """A formula in symbols: dots, real minus signs, subscripts; the sentence of a procedure stays as it is."""
    return _set(text, symbol) if is_formula(text) else Markup("{}").format(text)


def in_numbers(step: Step, show: Show) -> Markup:
    """The right-hand side of a formula with its numbers put in; for a procedure, the numbers that went in."""
    given = {v.symbol: v for v in step.inputs}
    if is_formula(step.text):
        return _set(step.text.partition(" = ")[2], lambda name: _put_in(name, given, show))
    return Markup(", ").join(Markup("{} = {}").format(symbol(v.symbol), shown(v, show)) for v in step.inputs)


def shown(value: Value, show: Show) -> str:
    """A value with its unit; a plain whole number is a count and has no decimals."""
    if value.unit == "1" and value.value.is_integer():
        return f"{value.value:.0f}".replace("-", "−")
    return show(value.value, value.unit)


def _put_in(name: str, given: Mapping[str, Value], show: Show) -> Markup:
    if name not in given:
        return symbol(name)
    text = shown(given[name], show)
    return Markup("({})" if given[name].value < 0.0 else "{}").format(text)


def _set(text: str, write: NameWriter) -> Markup:
    tokens = ["", *_TOKEN.findall(text)]
    out = []
    for before, token in pairwise(tokens):
        piece = _piece(token, before, write)
        out.append(Markup("<sup>{}</sup>").format(piece) if before == "**" else piece)
    return Markup("").join(out)


def _piece(token: str, before: str, write: NameWriter) -> Markup:
    if token[0].isalpha() or token[0] == "_":
        return Markup("{}").format(token) if token in FUNCTIONS else write(token)
    if token == "**":
        return Markup("")
    if token in "+-" and before in _BEFORE_A_SIGN:
        return Markup("{}").format(_SIGNS.get(token, token))
    if token in ("*", "/", "=", "<=", ">=", "+", "-"):
        return Markup(" {} ").format(_SIGNS.get(token, token))
    return Markup(", ") if token == "," else Markup("{}").format(token)
