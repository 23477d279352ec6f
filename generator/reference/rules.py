"""The rules of road and dwelling as data: what wakes each, what it then asks, where it is written and as of when."""

import re
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Literal, cast

from generator.errors import DataError
from generator.records import dataclass
from generator.reference.load import FOLDER, confidence, csv_rows, read_yaml, table, text
from generator.reference.types import Confidence
from generator.units.table import units

TOPICS: Mapping[str, str] = {
    "path": "Declared legal path",
    "dwelling": "What kind of dwelling the law sees",
    "size": "Height, length and overhang",
    "width": "Width",
    "weight": "Weights on the road",
    "class": "Vehicle class",
    "driver": "Licence and carrier",
    "brakes": "Brakes",
    "coupling": "Coupling and chains",
    "lamps": "Lamps, reflectors, tape, guard",
    "label": "Labels and papers",
}
"""What rules are about, by the first word of their id, in the order they are printed."""

PATHS = ("rv", "park_model", "manufactured", "foundation_dwelling", "caravan", "vehicle")
"""Legal paths that can be declared."""

NOT_HELD = "not held"
"""What stands in a row's `must` where no figure was found: the row names whom to ask and is never assessed."""

_TEST = re.compile(r"(.+?) (<=|>=|<|>) (.+)")
_NUMBER = re.compile(r"([0-9]+(?:\.[0-9]+)?)(?: (.+))?")
_ID = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z0-9_]+)+")
_RULE = re.compile(r"[a-z][a-z0-9-]{0,39}")
Sign = Literal["<=", ">=", "<", ">"]


@dataclass(frozen=True, slots=True)
class Bound:
    """A sum of quantities, by their ids, against a number (SI) or against another quantity, by its id."""

    terms: tuple[str, ...]
    sign: Sign
    number: float
    against: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: where it holds, for which designs, which tests wake it (none: always), what must then hold.

    `path`: the legal path whose claim it belongs to. `key`: of rules that share one, the nearest to a region holds.
    `is_held` is false for a row that only says that nothing is held, and whom to ask.
    `cite` names the paragraph of the source; `as_of` is the day to which its text was read or dated.
    """

    id: str
    topic: str
    regions: tuple[str, ...]
    path: str
    kinds: frozenset[str]
    key: str
    title: str
    when: tuple[Bound, ...]
    must: Bound | None
    is_law: bool
    follows: str
    confirm: str
    source: str
    cite: str
    confidence: Confidence
    as_of: str
    is_held: bool = True


@dataclass(frozen=True, slots=True)
class PathText:
    """A legal path: its id, its title, where it can be declared, and its answer to each question, in their order."""

    id: str
    title: str
    regions: tuple[str, ...]
    answers: tuple[tuple[str, str], ...]


def rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the files and their rows; a damaged row raises DataError."""
    rows = (r for p in sorted((FOLDER / "rules").glob("*.csv")) for r in csv_rows(f"rules/{p.name}"))
    return tuple(table("rules", rows, _rule).values())


def rule_ids() -> tuple[str, ...]:
    """The ids a confirmation can name."""
    return tuple(r.id for r in rules())


def paths() -> tuple[PathText, ...]:
    """The legal paths side by side, in the order of their file."""
    whole = read_yaml("rules/paths.yaml")
    try:
        return tuple(PathText(id, p["title"], tuple(p["regions"].split()), tuple(_answers(id, p["answers"])))
                     for id, p in whole.items())
    except (AttributeError, KeyError, TypeError) as fault:
        raise DataError(f"reference/rules/paths.yaml: {fault}") from None


def nearest(rule: Rule, code: str) -> str:
    """The region of a rule that holds a region of the route, `US` for `US-OR`; empty if none does."""
    held = (r for r in rule.regions if code == r or code.startswith(f"{r}-"))
    return max(held, key=len, default="")


def in_force(found: Iterable[Rule], codes: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Ids of the rules that hold on a route, each with its regions: of rules with one key only the nearest."""
    held = tuple(found)
    out: dict[str, list[str]] = {}
    for code in sorted(set(codes)):
        here = {r.id: nearest(r, code) for r in held}
        best: dict[str, int] = {}
        for r in held:
            best[r.key] = max(best.get(r.key, 0), len(here[r.id]))
        for r in held:
            if here[r.id] and (not r.key or len(here[r.id]) == best[r.key]):
                out.setdefault(r.id, []).append(code)
    return {id: tuple(codes) for id, codes in out.items()}


def _answers(id: str, rows: object) -> Iterable[tuple[str, str]]:
    if not isinstance(rows, dict) or not all(isinstance(v, str) for v in rows.values()):
        raise TypeError(f"{id}: answers must be text by question")
    return rows.items()


def _rule(row: dict[str, str]) -> tuple[str, Rule]:
    id, topic = row["id"], row["id"].partition("-")[0]
    if not _RULE.fullmatch(id) or topic not in TOPICS:
        raise ValueError(f"id {id!r} does not begin with one of {', '.join(TOPICS)}")
    if (row["path"] not in PATHS) if topic == "path" else row["path"]:
        raise ValueError(f"{id}: path {row['path']!r}")
    if row["law"] not in ("yes", "no"):
        raise ValueError(f"{id}: law is yes or no")
    is_held = row["must"] != NOT_HELD
    must = _test(row["must"]) if row["must"] and is_held else None
    if must is not None and must.sign not in ("<=", ">="):
        raise ValueError(f"{id}: must is kept at its limit, so its sign is <= or >=")
    date.fromisoformat(row["as_of"])
    return id, Rule(
        id=id, topic=topic, regions=tuple(text(row, "regions").split()), path=row["path"],
        kinds=frozenset(row["kinds"].split()), key=row["key"], title=text(row, "title"),
        when=tuple(_test(t) for t in row["when"].split(" & ") if t), must=must,
        is_law=row["law"] == "yes", follows=text(row, "follows"), confirm=text(row, "confirm"),
        source=text(row, "source"), cite=row["cite"], confidence=confidence(row), as_of=row["as_of"],
        is_held=is_held)


def _test(text: str) -> Bound:
    found = _TEST.fullmatch(text)
    if found is None:
        raise ValueError(f"{text!r} is no test: quantity, sign, value")
    terms, sign, limit = tuple(found[1].split(" + ")), cast(Sign, found[2]), found[3]
    if not all(map(_ID.fullmatch, terms)):
        raise ValueError(f"{found[1]!r} is no sum of quantity ids")
    number = _NUMBER.fullmatch(limit)
    if number is None:
        if not _ID.fullmatch(limit):
            raise ValueError(f"{limit!r} is neither a value nor a quantity id")
        return Bound(terms, sign, float("nan"), limit)
    return Bound(terms, sign, float(number[1]) * _factor(number[2]))


def _factor(unit: str | None) -> float:
    """SI value of one of a unit; a bare number counts."""
    if unit is None:
        return 1.0
    if unit not in units():
        raise ValueError(f"unit {unit!r} is not known")
    return float(units()[unit].factor)
