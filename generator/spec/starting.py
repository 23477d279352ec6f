"""The starter designs as commented text: one set of values for each coupling, written in either unit system."""

import json
import re
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType
from typing import Any, Literal

from generator.errors import DataError
from generator.spec.measure import Measure
from generator.spec.models.base import Part
from generator.spec.read import FILES, parse_source, read_source
from generator.spec.source import Source

STARTER = Path(__file__).parent / "starter"
BALL = Path(__file__).parent / "starter_ball"
"""Files of the ball starter; what is not among them is that of `STARTER`."""

TYPES = ("gooseneck", "ball", "king-pin")
WIDTH = 116

_PLAIN = re.compile(r"[A-Za-z0-9.-][A-Za-z0-9 .()/'%+_-]*")
_PLAIN_IN_BLOCK = re.compile(r"[A-Za-z0-9.-][A-Za-z0-9 .,;()/'%+_-]*")
_NOT_TEXT = re.compile(r"(?i)yes|no|on|off|true|false|null|y|n|[0-9]+[.][0-9]+")
"""Words other readers of YAML turn into something else; ours does not."""
_SI: Mapping[str, tuple[str, float, tuple[float, ...]]] = MappingProxyType({
    "length": ("mm", 0.001, (1.0, 1.0, 0.1)),
    "mass": ("kg", 1.0, (1.0, 1.0, 0.5)),
    "distance": ("km", 1000.0, (10.0, 5.0, 1.0)),
    "pressure": ("kPa", 1000.0, (10.0, 5.0, 1.0)),
    "speed": ("km/h", 1.0 / 3.6, (5.0, 1.0, 1.0)),
    "stiffness": ("N/mm", 1000.0, (10.0, 5.0, 1.0)),
    "volume": ("L", 0.001, (5.0, 1.0, 0.5)),
    "arealmass": ("kg/m2", 1.0, (1.0, 0.5, 0.1)),
    "areaload": ("kPa", 1000.0, (10.0, 5.0, 0.1)),
    "compliance": ("mm/kN", 1e-6, (1.0, 1.0, 0.1)),
    "power": ("kW", 1000.0, (10.0, 5.0, 1.0)),
})
"""Unit written in SI, its SI value, and the steps a shop rounds to: from 500, from 50, and below, in that unit.

Lengths are kept to the millimetre, so that steel still meets steel.
"""

_SI_PROJECT = MappingProxyType({"units": "si", "currency": "CAD"})
_SI_REGIONS = ("CA",)
_HEADS: Mapping[str, str] = MappingProxyType({
    "project.yaml": "Who, what for, and the terms on which the numbers are read.",
    "trailer.yaml": "The trailer. Stations run aft from datum A, the front face of the main deck's front crossmember, "
                    "and are negative ahead of it. Heights are above the main-deck top; y is to the right, looking "
                    "forward.",
    "house.yaml": "The house: envelope, build-ups, openings. Heights are above the main-deck top.",
    "weights.yaml": "Everything else that weighs something. Heights are above the main-deck top.",
    "tow.yaml": "The tow vehicle, measured loaded and level. Without this file the packet says what it must be.",
    "site.yaml": "Where the house stands. Without this file nothing about the stand is assessed.",
    "costs.yaml": "The budget, in the project's currency, without tax.",
    "revisions.yaml": "Why each revision was made and who asked.",
})
KING_PIN: Mapping[str, tuple[tuple[str, str], ...]] = MappingProxyType({
    "project.yaml": (("towed on a gooseneck", "towed on a king pin"), ("Ball, frame kit", "Plate, frame kit")),
    "trailer.yaml": (
        ("type: gooseneck", "type: king pin"),
        ("ball_diameter: 2 5/16 in", "pin_diameter: 2 in\n  pin_length: 3 1/4 in"),
        ("adjust_low: 24 in", "adjust_low: 16 in"),
        ("adjust_high: 36 in", "adjust_high: 25 in"),
        ("adjust_step: 1 in", "adjust_step: 1 1/2 in"),
        ("title: Coupler outer tube", "title: Pin box tube"),
        ("title: Coupler crossbeam", "title: Pin box crossbeam"),
        ("no current through the ball", "no current through the pin"),
    ),
    "weights.yaml": (("Coupler inner tube with ball socket", "Pin box with king pin"),),
    "tow.yaml": (("ball_height: 39 3/4 in", "ball_height: 48 in"),),
    "revisions.yaml": (("Gooseneck with two", "King pin with two"),),
})
"""What reads otherwise with a king pin than with a gooseneck, by file."""

_ALWAYS = "The values are invented: replace them by your own, and write `unknown` where you do not know one."


def starter(system: Literal["us", "si"], type: str = "gooseneck") -> dict[str, str]:
    """The files of a starter folder and their text, with a comment at each key the first time it is met."""
    source = _source(type)
    spec = parse_source(source)
    files: dict[str, str] = {}
    for file in FILES:
        part: Part = getattr(spec, file.removesuffix(".yaml"))
        if system == "si" and file == "project.yaml":
            use = spec.project.use.model_copy(update={"regions": _SI_REGIONS})
            part = part.model_copy(update={**_SI_PROJECT, "use": use})
        files[file] = _file(file, part, system)
    for note in source.files:
        if note.path.startswith("notes/"):
            text = source.text(note.path) or ""
            files[note.path] = re.sub(r"\b([Tt])ire", r"\1yre", text) if system == "si" else text
    return files


def _source(type: str) -> Source:
    """The files of the starter of one of `TYPES`."""
    base = read_source(STARTER)
    match type:
        case "ball":
            own = {path.name: path.read_bytes() for path in sorted(BALL.iterdir())}
            return replace(base, files=tuple(replace(f, data=own.get(f.path, f.data)) for f in base.files))
        case "king-pin":
            return replace(base, files=tuple(replace(f, data=_pinned(f.path, f.data)) for f in base.files))
        case _:
            return base


def _pinned(path: str, data: bytes) -> bytes:
    """A file of the gooseneck starter as it reads with a king pin."""
    text = data.decode()
    for old, new in KING_PIN.get(path, ()):
        if old not in text:
            raise DataError(f"spec/starter/{path}: {old!r} is not there for the king pin to take its place")
        text = text.replace(old, new)
    return text.encode()


def _file(file: str, part: Part, system: str) -> str:
    head = [f"# {line}" for line in textwrap.wrap(f"{_HEADS[file]} {_ALWAYS}", WIDTH - 2)]
    return "\n".join([*head, *_parted(_keys(part, "", True, system))]) + "\n"


def _parted(lines: Iterator[str]) -> Iterator[str]:
    """A blank line before the first key and before each key of the file that holds more than one line."""
    all_of = list(lines)
    for number, line in enumerate(all_of):
        following = all_of[number + 1] if number + 1 < len(all_of) else ""
        if number == 0 or (line[0] not in " #" and following.startswith(" ")):
            yield ""
        yield line


def _keys(part: Part, pad: str, comments: bool, system: str) -> Iterator[str]:
    """The lines of a map; with comments, its unused optional keys are named too."""
    for name, field in type(part).model_fields.items():
        value, words = getattr(part, name), (field.description or "") if comments else ""
        if value is None or (value == () and not field.is_required()):
            if comments:
                yield f"{pad}# {name}: (optional) {words}"
        else:
            yield from _entry(name, value, words, pad, system)


def _entry(name: str, value: Any, words: str, pad: str, system: str) -> Iterator[str]:
    if isinstance(value, Part):
        yield from _commented(f"{pad}{name}:", words, pad)
        yield from _keys(value, pad + "  ", bool(words), system)
    elif isinstance(value, tuple):
        yield from _list(name, value, words, pad, system)
    elif isinstance(value, str) and len(pad) + len(name) + len(value) > WIDTH - 4:
        yield from _commented(f"{pad}{name}: >-", words, pad)
        yield from textwrap.wrap(value, WIDTH, initial_indent=pad + "  ", subsequent_indent=pad + "  ",
                                 break_long_words=False, break_on_hyphens=False)
    else:
        yield from _commented(f"{pad}{name}: {_scalar(value, system)}", words, pad)


def _list(name: str, values: tuple[Any, ...], words: str, pad: str, system: str) -> Iterator[str]:
    if not isinstance(values[0], Part):
        flow = f"{pad}{name}: [{', '.join(_scalar(v, system, True) for v in values)}]"
        if len(flow) <= WIDTH:
            yield from _commented(flow, words, pad)
            return
    yield from _commented(f"{pad}{name}:", words, pad)
    for number, value in enumerate(values):
        if not isinstance(value, Part):
            yield f"{pad}  - {_scalar(value, system)}"
        elif number and _is_flat(value):
            yield from _flow(value, pad, system)
        else:
            yield from _dashed(list(_keys(value, pad + "    ", bool(words) and not number, system)), pad)


def _dashed(lines: list[str], pad: str) -> Iterator[str]:
    """The lines of an entry, a dash before its first key."""
    first = next(n for n, line in enumerate(lines) if not line.lstrip().startswith("#"))
    yield from (line if n != first else f"{pad}  - {line.lstrip()}" for n, line in enumerate(lines))


def _is_flat(part: Part) -> bool:
    values = (getattr(part, name) for name in type(part).model_fields)
    return not any(isinstance(v, Part) or (isinstance(v, tuple) and v and isinstance(v[0], Part)) for v in values)


def _flow(part: Part, pad: str, system: str) -> Iterator[str]:
    """An entry on as few lines as fit."""
    pieces = []
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if value is None or value == field.default:
            continue
        if isinstance(value, tuple):
            pieces.append(f"{name}: [{', '.join(_scalar(v, system, True) for v in value)}]")
        else:
            pieces.append(f"{name}: {_scalar(value, system, True)}")
    line = f"{pad}  - {{"
    for number, piece in enumerate(pieces):
        end = "}" if number == len(pieces) - 1 else ","
        if len(line) + len(piece) + 2 > WIDTH:
            yield line.rstrip()
            line = f"{pad}     "
        line += f"{piece}{end} "
    yield line.rstrip()


def _commented(line: str, words: str, pad: str) -> Iterator[str]:
    """A line with its comment beside it, or above it where it does not fit."""
    if not words:
        yield line
    elif len(line) + len(words) + 4 <= WIDTH:
        yield f"{line}  # {words}"
    else:
        yield from textwrap.wrap(words, WIDTH, initial_indent=f"{pad}# ", subsequent_indent=f"{pad}# ")
        yield line


def _scalar(value: Any, system: str, flow: bool = False) -> str:
    if isinstance(value, Measure):
        return _quoted(in_si(value) if system == "si" else value.text, flow)
    if isinstance(value, Decimal):
        return str(value)
    return f"{value:g}" if isinstance(value, (int, float)) else _quoted(value, flow)


def _quoted(text: str, flow: bool) -> str:
    safe = (_PLAIN if flow else _PLAIN_IN_BLOCK).fullmatch(text) and not _NOT_TEXT.fullmatch(text)
    return text if safe else json.dumps(text, ensure_ascii=False)


def in_si(measure: Measure) -> str:
    """The text of a measure in SI, rounded as a shop would; unchanged where both systems write the same unit."""
    if measure.kind not in _SI or not measure.known:
        return measure.text
    unit, factor, steps = _SI[measure.kind]
    value = measure.nominal / factor
    step = steps[0] if abs(value) >= 500.0 else steps[1] if abs(value) >= 50.0 else steps[2]
    spread = measure.text.partition(" +/- ")[2]
    return f"{round(round(value / step) * step, 6):g} {unit}" + (f" +/- {spread}" if spread else "")
