"""How a formula is printed: its text, and its text with numbers put in (a leaf; no engineering here)."""

import re
from collections.abc import Mapping

NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
SIGNS = (("**", "^"), ("*", "\N{MIDDLE DOT}"), (" - ", " \N{MINUS SIGN} "), ("(-", "(\N{MINUS SIGN}"))
FUNCTIONS = frozenset({"sqrt", "sin", "cos", "tan", "atan", "min", "max", "abs"})


def printed(formula: str) -> str:
    """A formula as printed: middle dot for times, ^ for powers, a real minus."""
    for code, sign in SIGNS:
        formula = formula.replace(code, sign)
    return formula


def put_in(formula: str, numbers: Mapping[str, str]) -> str:
    """The right side of `symbol = expression` as printed, each symbol replaced by its number's text."""
    right = formula.partition(" = ")[2]
    pieces = NAME.split(right)
    names = NAME.findall(right)
    shown = [n if n in FUNCTIONS else numbers.get(n, n) for n in names]
    signs = [printed(p) for p in pieces]
    return "".join(s + n for s, n in zip(signs, [*shown, ""], strict=True))


def is_formula(text: str) -> bool:
    """Whether a step's text is a formula; a procedure has a sentence instead."""
    symbol, equals, _ = text.partition(" = ")
    return bool(equals) and NAME.fullmatch(symbol) is not None


def bracketed(number: str) -> str:
    """A negative number in brackets, so that it can follow a sign."""
    return f"({number})" if number.startswith(("-", "\N{MINUS SIGN}")) else number
