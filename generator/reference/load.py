"""Reads the reference tables; a damaged or missing row is a DataError that names file and row."""

import csv
import hashlib
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, TypeVar, cast, get_args

import yaml

from generator.errors import DataError
from generator.reference.types import AskedPrompt, Confidence, Default, Material, Reference, Region, Section, Source

__all__ = ["Reference", "prompts", "reference"]

FOLDER = Path(__file__).parent
INCH, FOOT, POUND = 0.0254, 0.3048, 0.45359237
"""Exact by definition (NIST SP 811, B.8). The tables keep the numbers as their sources print them."""

PAIR = re.compile(r"\{([^{}|]+)\|([^{}|]+)\}")
"""A figure of our own texts in US units and in SI, each round: `{35 ft|11 m}`."""

PER = {"kg/m3": 1.0, "lb/ft3": POUND / FOOT**3, "kg/m2": 1.0, "lb/ft2": POUND / FOOT**2}
Record = TypeVar("Record")
Row = TypeVar("Row")


class Rows(dict[str, Record]):
    """Rows by id; asking for one that is not there is a fault of the data, named with its table."""

    def __init__(self, file: str, rows: Mapping[str, Record]) -> None:
        super().__init__(rows)
        self.file = file

    def __missing__(self, key: str) -> Record:
        raise DataError(f"reference/{self.file}: no row {key!r}")


def reference() -> Reference:
    """All reference data, read afresh from the package's own tables."""
    return Reference(
        sources=table("sources.yaml", _yaml_rows("sources.yaml"), _source),
        defaults=table("defaults.csv", _default_rows(), _default),
        materials=table("materials.csv", csv_rows("materials.csv"), _material),
        sections=table("sections.csv", csv_rows("sections.csv"), _section),
        regions=table("regions.csv", csv_rows("regions.csv"), _region),
    )


def hashes() -> Mapping[str, str]:
    """SHA-256 of every reference table, by its path within the package."""
    files = sorted(p for p in FOLDER.rglob("*") if p.suffix in (".csv", ".yaml"))
    return {p.relative_to(FOLDER).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest() for p in files}


def prompts() -> tuple[AskedPrompt, ...]:
    """The *not priced* prompts, in the order of their file."""
    rows = records(read_yaml("prompts.yaml"), AskedPrompt, "prompts.yaml")
    return tuple(table("prompts.yaml", ((f"prompts.yaml: {r.id}", r) for r in rows), lambda r: (r.id, r)).values())


def in_units(text: str, units: str) -> str:
    """A text with every pair of figures told in one system: `{35 ft|11 m}` as `35 ft` or `11 m`."""
    return PAIR.sub(lambda pair: pair[1] if units == "us" else pair[2], text)


def records(rows: Any, kind: type[Record], file: str) -> tuple[Record, ...]:
    """Rows of a YAML list as records of this kind; a missing, unknown or non-text field raises DataError."""
    if not isinstance(rows, list):
        raise DataError(f"reference/{file}: must be a list")
    return tuple(_record(row, kind, f"{file}: row {i}") for i, row in enumerate(rows, 1))


def _record(row: Any, kind: type[Record], place: str) -> Record:
    if not isinstance(row, dict) or not all(isinstance(v, str) for v in row.values()):
        raise DataError(f"reference/{place}: every field must be text")
    try:
        return kind(**row)
    except TypeError as fault:
        raise DataError(f"reference/{place}: {fault}") from None


def table(file: str, rows: Iterable[tuple[str, Row]],
          make: Callable[[Row], tuple[str, Record]]) -> Mapping[str, Record]:
    """Rows made into records by id; an id that comes twice or a row that cannot be read raises DataError."""
    found: dict[str, Record] = {}
    for place, row in rows:
        try:
            id, record = make(row)
        except (KeyError, ValueError, TypeError) as fault:
            raise DataError(f"reference/{place}: {_said(fault)}") from None
        if id in found:
            raise DataError(f"reference/{place}: {id!r} stands here twice")
        found[id] = record
    return Rows(file, found)


def read(file: str) -> str:
    """Text of a file of the reference folder."""
    try:
        return (FOLDER / file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise DataError(f"reference/{file}: cannot be read: {fault}") from None


def read_yaml(file: str) -> Any:
    """A YAML file of the reference folder, by the C parser."""
    try:
        return yaml.load(read(file), Loader=yaml.CSafeLoader)
    except yaml.YAMLError as fault:
        raise DataError(f"reference/{file}: {fault}") from None


def _said(fault: Exception) -> str:
    return f"no column {fault}" if isinstance(fault, KeyError) else str(fault)


def _yaml_rows(file: str) -> Iterator[tuple[str, dict[str, str]]]:
    rows = read_yaml(file)
    if not isinstance(rows, dict) or not all(isinstance(row, dict) for row in rows.values()):
        raise DataError(f"reference/{file}: must be records by id")
    for id, row in rows.items():
        yield f"{file}: {id}", {"id": id, **row}


def csv_rows(file: str) -> Iterator[tuple[str, dict[str, str]]]:
    lines = csv.reader(read(file).splitlines())
    head = next(lines, [])
    for row in lines:
        place = f"{file}:{lines.line_num}"
        if len(row) != len(head):
            raise DataError(f"reference/{place}: {len(row)} fields, the head has {len(head)}")
        yield place, dict(zip(head, row, strict=True))


def _default_rows() -> Iterator[tuple[str, dict[str, str]]]:
    yield from csv_rows("defaults.csv")
    for path in sorted((FOLDER / "defaults.d").glob("*.csv")):
        yield from csv_rows(f"defaults.d/{path.name}")


def _source(row: dict[str, str]) -> tuple[str, Source]:
    return row["id"], Source(row["id"], text(row, "title"), row.get("edition", ""), row.get("note", ""))


def _default(row: dict[str, str]) -> tuple[str, Default]:
    value = number(row, "value")
    low, high = (number(row, key) if row[key] else value for key in ("low", "high"))
    if not low <= value <= high:
        raise ValueError(f"{row['id']}: low, value, high must stand in order")
    return row["id"], Default(row["id"], value, text(row, "unit"), low, high, text(row, "statement"),
                              text(row, "source"), confidence(row), text(row, "if_wrong"))


def _material(row: dict[str, str]) -> tuple[str, Material]:
    stated = number(row, "stated") * PER[row["per"]]
    by_area = row["per"].endswith("2")
    return row["id"], Material(row["id"], text(row, "title"), math.nan if by_area else stated, text(row, "source"),
                               confidence(row), stated if by_area else None)


def _section(row: dict[str, str]) -> tuple[str, Section]:
    def inches(key: str, power: int = 1) -> float:
        return number(row, key) * INCH**power

    shape = row["shape"]
    if shape not in get_args(Section.__annotations__["shape"]):
        raise ValueError(f"shape {shape!r} is not known")
    return row["name"], Section(
        name=row["name"], shape=cast(Any, shape), depth=inches("d_in"), width=inches("b_in"), web=inches("tw_in"),
        flange=inches("tf_in"), area=inches("A_in2", 2), inertia=inches("Ix_in4", 4), modulus=inches("Sx_in3", 3),
        plastic=inches("Zx_in3", 3), radius_y=inches("ry_in"), mass=number(row, "lb_ft") * POUND / FOOT,
        source=text(row, "source"), confidence=confidence(row))


def _region(row: dict[str, str]) -> tuple[str, Region]:
    height, width = (number(row, key) if row[key] else None for key in ("height_m", "width_m"))
    return row["code"], Region(row["code"], text(row, "title"), height, width, text(row, "source"),
                               confidence(row), date.fromisoformat(row["as_of"]).isoformat(), row["note"])


def number(row: dict[str, str], key: str) -> float:
    value = float(row[key])
    if not math.isfinite(value):
        raise ValueError(f"{key} must be a finite number")
    return value


def text(row: dict[str, str], key: str) -> str:
    if not row[key]:
        raise ValueError(f"{key} is empty")
    return row[key]


def confidence(row: dict[str, str]) -> Confidence:
    word = row["confidence"]
    if word not in get_args(Confidence):
        raise ValueError(f"confidence {word!r} is not one of {', '.join(get_args(Confidence))}")
    return cast(Confidence, word)
