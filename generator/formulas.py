"""How a formula is printed: its text, and its text with numbers put in (a leaf; no engineering here)."""

import re
from collections.abc import Iterable, Mapping
from typing import Protocol

from generator.units import Show

NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
SIGNS = (("**", "^"), ("*", "\N{MIDDLE DOT}"), (" - ", " \N{MINUS SIGN} "), ("(-", "(\N{MINUS SIGN}"))
ANGLE_FUNCTIONS = frozenset({"sin", "cos", "tan"})
G = "9.80665"
"""Standard gravity as formulas write it; put in with its unit, since in pounds and pounds-force it is 1."""
GRAVITY = "g_n"
"""Standard gravity as formulas print it."""
FUNCTIONS = frozenset({"sqrt", "sin", "cos", "tan", "atan", "min", "max", "abs"})


def printed(formula: str) -> str:
    """A formula as printed: middle dot for times, ^ for powers, a real minus, a symbol for standard gravity."""
    formula = formula.replace(G, GRAVITY)
    for code, sign in SIGNS:
        formula = formula.replace(code, sign)
    return formula


WORK = {"m": "m:work", "rad": "rad:work", "N/m2": "N/m2:work"}
"""Unit keys of a working: plain inches or millimetres and more digits, so that a reader can follow by hand."""


class Valued(Protocol):
    """A symbol with its number."""

    @property
    def symbol(self) -> str:
        """The symbol as the formula writes it."""

    @property
    def value(self) -> float:
        """Its SI value."""

    @property
    def unit(self) -> str:
        """Its unit key."""


def numbers(formula: str, values: Iterable[Valued], show: Show) -> dict[str, str]:
    """Text of each symbol's number, and of gravity; an angle that is no argument of sin, cos or tan is in radians."""
    linear = _outside_angle_functions(formula)
    shown = {
        v.symbol: show(v.value, "rad:linear") if v.unit == "rad" and v.symbol in linear else in_work(v, show)
        for v in values
    }
    return {G: show(float(G), "N/kg"), **{symbol: bracketed(text) for symbol, text in shown.items()}}


def in_work(value: Valued, show: Show) -> str:
    """A number of a working with its unit; a whole plain number without decimals."""
    if value.unit == "1" and value.value.is_integer():
        return f"{value.value:,.0f}".replace("-", "\N{MINUS SIGN}")
    return show(value.value, WORK.get(value.unit, value.unit))


def _outside_angle_functions(formula: str) -> frozenset[str]:
    """Names that stand at least once outside the brackets of sin, cos and tan."""
    found, depth, opened = set(), 0, [0]
    for token in re.findall(r"[A-Za-z_][A-Za-z_0-9]*|[()]", formula.partition(" = ")[2]):
        if token == ")":
            depth -= 1
            if depth < opened[-1]:
                opened.pop()
        elif token == "(":
            depth += 1
        elif token in ANGLE_FUNCTIONS:
            opened.append(depth + 1)
        elif len(opened) == 1:
            found.add(token)
    return frozenset(found)


def put_in(formula: str, numbers: Mapping[str, str]) -> str:
    """The right side of `symbol = expression` as printed, each symbol replaced by its number's text."""
    right = formula.partition(" = ")[2].replace(G, GRAVITY)
    pieces = NAME.split(right)
    names = NAME.findall(right)
    known = {**numbers, GRAVITY: numbers.get(G, GRAVITY)}
    follows = zip(names, pieces[1:], strict=True)
    shown = [n if n in FUNCTIONS else raised(known.get(n, n), after) for n, after in follows]
    signs = [printed(p) for p in pieces]
    return "".join(s + n for s, n in zip(signs, [*shown, ""], strict=True))


def raised(number: str, after: str) -> str:
    """A number with its unit in brackets where a power follows, so that the power is not read as its unit's."""
    return f"({number})" if after.startswith("**") and not number.startswith("(") and not number.isdecimal() else number


def is_formula(text: str) -> bool:
    """Whether a step's text is a formula; a procedure has a sentence instead."""
    symbol, equals, _ = text.partition(" = ")
    return bool(equals) and NAME.fullmatch(symbol) is not None


def bracketed(number: str) -> str:
    """A negative number in brackets, so that it can follow a sign."""
    return f"({number})" if number.startswith(("-", "\N{MINUS SIGN}")) else number
