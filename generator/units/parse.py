"""Text with a unit becomes a float in SI, by a strict grammar of our own; everything else is refused with a reason."""

import difflib
import math
import re
import unicodedata
from fractions import Fraction
from functools import lru_cache

from generator.errors import Refusal
from generator.records import dataclass
from generator.units.table import AMBIGUOUS, KINDS, MISREAD, names, units

LONGEST = 60
NUMBER = r"[0-9]+(?:\.[0-9]+)?"
FRACTION = r"(?:[0-9]+ )?[0-9]+/[0-9]+"
_VALUE = re.compile(rf"(-?)({FRACTION}|{NUMBER}) ?([^0-9 .'\"-][^'\"]*)")
_MARK = re.compile(rf"(-?)({FRACTION}|{NUMBER}) ?(['\"])")
_FEET_INCHES = re.compile(rf"(-?)([0-9]+) ?('-?|ft|foot|feet) ?({FRACTION}|{NUMBER}) ?(\"|in|inch|inches|)")
_BARE = re.compile(rf"-?(?:{FRACTION}|{NUMBER})")
_PINT_TOKEN = re.compile(r"[A-Za-z]{3,24}[23]?(?:[*/][A-Za-z]{3,24}[23]?){0,2}")
_ALIKE = str.maketrans({
    "\u2018": "'", "\u2019": "'", "\u2032": "'", "\u02b9": "'", "\u201c": '"', "\u201d": '"', "\u2033": '"',
    "\u2212": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2007": " ", "\u2044": "/", "\u00b0": " deg",
    "\u00b2": "2", "\u00b3": "3", "\u00b7": "*", "\u22c5": "*",
})


class UnitError(Refusal):
    """Text that is no value of its kind."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A value in SI, and whether its unit came from outside the table of the trade."""

    value: float
    foreign: bool = False


def parse(text: str, kind: str) -> float:
    """The value of `text` in the SI unit of `kind`. Raises UnitError, a ValueError, with a full message."""
    return read(text, kind).value


@lru_cache(maxsize=4096)
def read(text: str, kind: str) -> Reading:
    """As `parse`, saying also whether a unit outside the table was used. Raises UnitError.

    Three in four values of a spec and its options are written more than once.
    """
    plain = normalised(text, kind)
    exact, foreign = _exact(plain, kind)
    value = float(exact) + 0.0 if exact else 0.0
    limits = KINDS[kind]
    if not limits.low <= value <= limits.high:
        raise UnitError(f"`{text}` is {value:.6g} in SI, not plausible for {limits.name}",
                        f"{limits.low:g} to {limits.high:g} in SI is read, for example {example(kind)}")
    return Reading(value, foreign)


def example(kind: str) -> str:
    """Two ways of writing a value of the kind, as words of a message."""
    first, second = KINDS[kind].examples
    return f"`{first}` or `{second}`"


def normalised(text: str, kind: str) -> str:
    """Typographic quotes, primes, minus and spaces as plain ones; refuses what no value may hold."""
    if len(text) > LONGEST:
        raise UnitError(f"longer than {LONGEST} characters", f"write {example(kind)}")
    plain = " ".join(text.translate(_ALIKE).replace("''", '"').split())
    for char in plain:
        if not char.isascii():
            raise UnitError(f"character {char!r} ({unicodedata.name(char, 'unnamed')})", _ascii_hint(char, kind))
    if re.search("[0-9],", plain) or re.search(",[0-9]", plain):
        raise UnitError(*_comma(plain, kind))
    return plain


def _exact(plain: str, kind: str) -> tuple[Fraction, bool]:
    if kind in ("length", "distance"):
        if m := _FEET_INCHES.fullmatch(plain):
            return _feet_inches(m, plain), False
        if m := _MARK.fullmatch(plain):
            return _number(m[1], m[2], plain) * units()["ft" if m[3] == "'" else "in"].factor, False
    if kind == "coefficient" and (m := re.fullmatch(rf"({NUMBER})", plain)):
        return Fraction(m[1]), False
    if re.match(r"-?[0-9.]+[eE][-+]?[0-9]", plain):
        raise UnitError(f"`{plain}` has an exponent", "write the number out in digits")
    if m := _VALUE.fullmatch(plain):
        number, token = _number(m[1], m[2], plain), m[3].strip()
        return _in_unit(number, token, kind, plain)
    raise _no_value(plain, kind)


def _in_unit(number: Fraction, token: str, kind: str, plain: str) -> tuple[Fraction, bool]:
    hint = MISREAD.get((kind, token)) or AMBIGUOUS.get(token)
    if hint:
        raise UnitError(f"`{plain}` is read more than one way or means something else", hint)
    unit = units().get(token)
    if unit is None:
        return _foreign(number, token, kind, plain), True
    if kind not in unit.kinds:
        meant = KINDS[unit.kinds[0]].name
        raise UnitError(f"`{plain}` is {meant}, not {KINDS[kind].name}", f"write {KINDS[kind].name}, {_like(kind)}")
    return number * unit.factor, False


def _feet_inches(found: re.Match[str], plain: str) -> Fraction:
    sign, feet, mark, inches, closing = found.groups()
    if not closing and not mark.startswith("'"):
        raise UnitError(f"`{plain}`: the inches have no unit", "write `8 ft 6 in` or `8'-6\"`")
    rest = _number("", inches, plain)
    if rest >= 12:
        raise UnitError(f"`{plain}` has 12 inches or more beside its feet", "write inches under 12, or inches alone")
    total = (int(feet) * 12 + rest) * units()["in"].factor
    return -total if sign else total


def _number(sign: str, text: str, plain: str) -> Fraction:
    whole, _, part = text.rpartition(" ")
    _, slash, bottom = part.partition("/")
    if slash and int(bottom) == 0:
        raise UnitError(f"`{plain}` divides by zero", "write a fraction such as 1/2")
    value = (Fraction(int(whole)) if whole else 0) + Fraction(part)
    return Fraction(-value if sign else value)


def _no_value(plain: str, kind: str) -> UnitError:
    want = f"write {KINDS[kind].name}, {_like(kind)}"
    if _BARE.fullmatch(plain):
        return UnitError(f"`{plain}` has no unit", want)
    if kind == "length" and re.fullmatch("-?[0-9]+ ?- ?[0-9].*", plain):
        return UnitError(f"`{plain}` has no unit on its feet", "write `8'-6\"` or `8 ft 6 in`")
    if re.match(r"-?[0-9]{1,3}( [0-9]{3})+", plain):
        return UnitError(f"`{plain}` has a space in its number", "write the digits without spaces")
    if re.match("-?[.][0-9]", plain):
        return UnitError(f"`{plain}` has no digit before the point", "write `0.5`, not `.5`")
    if plain.lower().lstrip("+-.").startswith(("nan", "inf")):
        return UnitError(f"`{plain}` is no number", f"{want}, or `unknown`")
    return UnitError(f"`{plain}` is not a number with a unit", want)


def _like(kind: str) -> str:
    return f"for example {example(kind)}"


def _comma(plain: str, kind: str) -> tuple[str, str]:
    number = re.sub("[^0-9.,]", "", re.split("[A-Za-z%'\"]", plain)[0])
    rest = plain[len(re.match("[-0-9., ]*", plain)[0]):]  # type: ignore[index]  # the pattern always matches
    wrong = f"`{plain}` has a comma, which is read two ways"
    if number.count(",") == 1 and number.count(".") <= 1:
        point_first = "." in number and number.index(".") < number.index(",")
        thousands = number.replace(",", "")
        decimal = number.replace(".", "").replace(",", ".")
        if point_first:
            return wrong, f"write `{decimal} {rest}` if the comma is decimal, `{thousands} {rest}` if the point is"
        return wrong, f"write `{thousands} {rest}` if it parts thousands, `{decimal} {rest}` if it is a decimal comma"
    return wrong, f"write the digits without commas, a point before decimals, {_like(kind)}"


def _ascii_hint(char: str, kind: str) -> str:
    digit = unicodedata.digit(char, None)
    if digit is not None:
        return f"write it as the plain digit {digit}"
    folded = unicodedata.normalize("NFKC", char).replace("\u2044", "/")
    if folded.isascii() and folded.strip():
        return f"write `{folded}` in plain characters"
    return f"write {KINDS[kind].name}, {_like(kind)}"


def _foreign(number: Fraction, token: str, kind: str, plain: str) -> Fraction:
    """A unit outside the table, by the units library: it sees a checked token alone, never the text."""
    factor = _library_factor(token, kind) if _PINT_TOKEN.fullmatch(token) else None
    if factor is None:
        folded = {name.lower(): name for name in names(kind)}
        near = difflib.get_close_matches(token.lower(), folded, n=1, cutoff=0.5)
        hint = f"did you mean `{folded[near[0]]}`? " if near else ""
        raise UnitError(f"`{plain}`: unit `{token}` is not known for {KINDS[kind].name}",
                        f"{hint}units here: {', '.join(names(kind))}")
    return number * factor


def _library_factor(token: str, kind: str) -> Fraction | None:
    """Factor of `token` to the SI unit of `kind`; None if unknown, of another dimension, or not a plain factor."""
    import pint  # slow to load and rarely needed

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    spelled = re.sub("([23])", r"**\1", token)
    target = KINDS[kind].unit.split(":")[0].replace("%", "dimensionless")
    target = re.sub("([23])", r"**\1", target)
    try:
        factor = float(registry.Quantity(1.0, spelled).to(target).magnitude)
    except Exception:  # the library raises many kinds of error, all of which mean "not this unit"
        return None
    return Fraction(f"{factor:.12g}") if math.isfinite(factor) and factor > 0.0 else None
