"""Formulas as people read them: symbols set with subscripts, numbers put in with their units."""

import re
from collections.abc import Callable, Sequence

from markupsafe import Markup

from generator.calc.record import Step
from generator.formulas import FUNCTIONS, GRAVITY, G, in_work, is_formula, numbers, raised
from generator.units import Show

_TOKEN = re.compile(r"\*\*|[A-Za-z_]\w*|[0-9]+\.?[0-9]*(?:[eE][-+]?[0-9]+)?|<=|>=|[^\s]")
_SYMBOL = re.compile(r"\b([A-Za-z]{1,6}_[A-Za-z0-9]{1,6})\b")
_SIGNS = {"*": "·", "-": "−", "<=": "≤", ">=": "≥"}
_BEFORE_A_SIGN = frozenset({"", "(", "*", "/", "=", ",", "**"})
Writer = Callable[[str, str], Markup]
"""Writes a symbol, given the token after it."""


def symbol(name: str) -> Markup:
    """A symbol in italic with what follows the first underscore as subscript."""
    return Markup("<i>{}</i>").format(_base(name))


def in_symbols(text: str) -> Markup:
    """A formula in symbols: dots, real minus signs, subscripts; in the sentence of a procedure its symbols alone."""
    return Markup("<i>{}</i>").format(_set(text, _named)) if is_formula(text) else in_sentence(text)


def in_sentence(text: str) -> Markup:
    """A sentence with its symbols (`M_0`) set as symbols."""
    parts = _SYMBOL.split(text)
    return Markup("").join(symbol(p) if n % 2 else Markup("{}").format(p) for n, p in enumerate(parts))


def in_numbers(step: Step, show: Show) -> Markup:
    """The right-hand side of a formula with its numbers put in; for a procedure, the numbers that went in."""
    if is_formula(step.text):
        put = numbers(step.text, step.inputs, show)
        return _set(step.text.partition(" = ")[2], lambda name, after: Markup("{}").format(
            raised(put.get(name, name), after)))
    return Markup(", ").join(Markup("{} = {}").format(_base(v.symbol), in_work(v, show)) for v in step.inputs)


def _named(name: str, after: str) -> Markup:
    return _base(GRAVITY if name == G else name)


def _base(name: str) -> Markup:
    base, _, below = name.partition("_")
    return Markup("{}<sub>{}</sub>").format(base, below.replace("_", ",")) if below else Markup("{}").format(base)


def _set(text: str, write: Writer) -> Markup:
    """The tokens of a formula one by one; what stands after `**`, a whole bracket if it is one, is raised."""
    tokens = ["", *_TOKEN.findall(text), ""]
    out: list[Markup] = []
    n = 1
    while n < len(tokens) - 1:
        if tokens[n] != "**":
            out.append(_piece(tokens[n], tokens[n - 1], tokens[n + 1], write))
            n += 1
            continue
        end = _power(tokens, n + 1)
        inside = [_piece(tokens[i], tokens[i - 1], tokens[i + 1], write) for i in range(n + 1, end)]
        out.append(Markup("<sup>{}</sup>").format(Markup("").join(inside)))
        n = end
    return Markup("").join(out)


def _power(tokens: Sequence[str], start: int) -> int:
    """Where the power that starts at a token ends: after it, or after its closing bracket."""
    depth, end = 0, start
    while True:
        depth += {"(": 1, ")": -1}.get(tokens[end], 0)
        end += 1
        if depth == 0 or end >= len(tokens) - 1:
            return end


def _piece(token: str, before: str, after: str, write: Writer) -> Markup:
    if token == G or ((token[0].isalpha() or token[0] == "_") and token not in FUNCTIONS):
        return write(token, after)
    if token in "+-" and before in _BEFORE_A_SIGN:
        return Markup("{}").format(_SIGNS.get(token, token))
    if token in ("*", "/", "=", "<=", ">=", "+", "-"):
        return Markup(" {} ").format(_SIGNS.get(token, token))
    return Markup(", ") if token == "," else Markup("{}").format(token)
