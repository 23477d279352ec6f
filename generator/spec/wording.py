"""Faults of the models in words of our own, each with the line of the text it is about."""

import difflib
import types
import typing
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from generator.errors import Fault, Refusal
from generator.spec.measure import Plain, Reads, Text
from generator.spec.models.options import SPEC_PATH
from generator.spec.parse import Branch, Row

Place = tuple[str | int, ...]

PATTERNS: Mapping[str, str] = MappingProxyType({
    r"^[a-z][a-z0-9-]{0,39}$": "a name: small letters, digits and hyphens, a letter first, at most 40",
    r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$": "a day written as `2026-05-31`",
    r"^[^\n]+$": "one line of text",
    SPEC_PATH: "a path of the spec, file first, entries by their id: `trailer.running_gear.tyre.load`; revisions "
               "and records cannot change",
})
"""What each pattern of the models allows, in words."""


def faults_of(error: ValidationError, model: type[BaseModel], tree: Branch, file: str) -> list[Fault]:
    """Every fault of one file. What only follows from another fault of the file is dropped."""
    details = error.errors(include_url=False)
    places = {tuple(d["loc"]) for d in details}
    misspelt = {_meant(tuple(d["loc"]), model) for d in details if d["type"] == "extra_forbidden"}
    kept = [d for d in details if not _is_prefix(tuple(d["loc"]), places) and tuple(d["loc"]) not in misspelt]
    return [_fault(d, model, tree, file) for d in kept]


def line_of(tree: Branch, place: Place) -> int:
    """Line of the deepest part of `place` that stands in the file: of its key, or of its entry in a list."""
    node: Any = tree
    line = tree.line
    for step in place:
        if isinstance(node, Branch) and isinstance(step, str) and step in node:
            line, node = node.lines[step], node[step]
        elif isinstance(node, Row) and isinstance(step, int) and step < len(node):
            node = node[step]
            line = int(node.origin.rpartition(":")[2]) if isinstance(node, Text) else node.line
        else:
            break
    return line


def path_of(tree: Any, place: Place) -> str:
    """`place` in words: entries of a list by their id, or counted from 1."""
    words: list[str] = []
    node: Any = tree
    for step in place:
        if isinstance(step, int):
            node = node[step] if isinstance(node, Row) and step < len(node) else None
            name = (node.get("id") or node.get("mark")) if isinstance(node, Branch) else None
            words.append(str(name) if isinstance(name, str) and name else str(step + 1))
        else:
            node = node.get(step) if isinstance(node, Branch) else None
            words.append(step)
    return ".".join(words)


def nearest(word: str, known: Sequence[str]) -> str:
    """`did you mean ...? ` or nothing."""
    near = difflib.get_close_matches(word.lower(), known, n=1, cutoff=0.6)
    return f"did you mean `{near[0]}`? " if near else ""


def _is_prefix(place: Place, places: set[Place]) -> bool:
    return any(len(other) > len(place) and other[: len(place)] == place for other in places)


def _meant(place: Place, model: type[BaseModel]) -> Place:
    """The place of the key that an unknown key was probably meant to be; such a key is not told missing as well."""
    near = difflib.get_close_matches(str(place[-1]).lower(), _fields_at(model, place[:-1]), n=1, cutoff=0.6)
    return (*place[:-1], *near)


def _fault(detail: ErrorDetails, model: type[BaseModel], tree: Branch, file: str) -> Fault:
    place = tuple(detail["loc"])
    wrong, allowed = _words(detail, place, model)
    written = _untagged(place, model)
    if detail["type"] == "union_tag_invalid":
        written = (*written, detail["ctx"]["discriminator"].strip("'"))
    # The key of a map that may not stand there is told as the path it is, without a mark of its own.
    named = tuple(step for step in written if step != "[key]")
    return Fault(file, line_of(tree, named), path_of(tree, named), wrong, allowed)


def _words(detail: ErrorDetails, place: Place, model: type[BaseModel]) -> tuple[str, str]:
    context = detail.get("ctx", {})
    shown = f"`{_short(detail['input'])}`"
    match detail["type"]:
        case "value_error" if isinstance(context.get("error"), Refusal):
            return context["error"].wrong, context["error"].allowed
        case "literal_error":
            choices = context["expected"].replace(" or ", ", ").replace("'", "").split(", ")
            hint = nearest(_short(detail["input"]), choices)
            return f"{shown} is not a choice here", f"{hint}write {_either(choices)}"
        case "union_tag_invalid":
            choices = list(choices_of(_annotation_at(model, place)))
            hint = nearest(context["tag"], choices)
            return f"`{context['tag']}` is not a choice here", f"{hint}write {_either(choices)}"
        case "union_tag_not_found":
            choices = list(choices_of(_annotation_at(model, place)))
            return "`type` is missing", f"write `type: ...`: {_either(choices)}"
        case "extra_forbidden":
            fields = _fields_at(model, place[:-1])
            wrong = f"key `{place[-1]}` is not known"
            if detail["input"] == "":
                return wrong, "a comma inside { } ends a value: put such text between quotes"
            return wrong, f"{nearest(str(place[-1]), fields)}keys here: {', '.join(fields)}"
        case "missing":
            return "missing", f"write `{place[-1]}: ...`: {_wanted(model, place)}"
        case "too_short":
            return "nothing stands in this list", f"write at least {context['min_length']}"
        case "too_long":
            return f"{context['actual_length']} entries", f"at most {context['max_length']}"
        case "string_pattern_mismatch":
            return f"{shown} may not stand here", f"write {PATTERNS[context['pattern']]}"
        case "string_too_short":
            return "nothing is written here", "write some text, or leave the key out where it is optional"
        case "string_too_long":
            return f"longer than {context['max_length']} characters", f"at most {context['max_length']}"
        case "string_type":
            return "a map or a list stands here", "write one text"
        case "tuple_type":
            return f"{shown} is not a list", "write a list: one `- ` line for each entry"
        case _:
            here = ", ".join(_fields_at(model, place))
            return f"{shown} is not a map of keys", f"keys here: {here}" if here else "write `key: value` lines"


def _short(value: object) -> str:
    text = value if isinstance(value, str) else "a map" if isinstance(value, Branch) else "a list"
    return text if len(text) <= 40 else text[:39] + "\u2026"


def _either(choices: Sequence[str]) -> str:
    return choices[0] if len(choices) == 1 else f"{', '.join(choices[:-1])} or {choices[-1]}"


def _wanted(model: type[BaseModel], place: Place) -> str:
    owner = _model_at(model, place[:-1])
    if owner is None or place[-1] not in owner.model_fields:
        return "it is compulsory"
    field = owner.model_fields[str(place[-1])]
    reads = next((m for m in field.metadata if isinstance(m, Reads | Plain)), None)
    example = f" For example `{reads.examples[0]}`" if reads else ""
    also = ", or `unknown`" if isinstance(reads, Reads) else ""
    return f"{field.description}{example}{also}"


def _fields_at(model: type[BaseModel], place: Place) -> list[str]:
    owner = _model_at(model, place)
    return sorted(owner.model_fields) if owner else []


def _model_at(model: type[BaseModel], place: Place) -> type[BaseModel] | None:
    """The model that reads the part of the file at `place`."""
    here = inner(_annotation_at(model, place))
    return here if isinstance(here, type) and issubclass(here, BaseModel) else None


def _annotation_at(model: type[BaseModel], place: Place) -> Any:
    """What the models say of the part of a file at `place`; None where they say nothing."""
    here: Any = model
    for step in place:
        if isinstance(step, str):
            choices = choices_of(here)
            here = choices[step] if step in choices else _field_of(inner(here), step)
        elif get_origin(here) is tuple:
            here = get_args(here)[0]
    return here


def _field_of(part: Any, name: str) -> Any:
    if isinstance(part, type) and issubclass(part, BaseModel) and name in part.model_fields:
        return part.model_fields[name].annotation
    return None


def _untagged(place: Place, model: type[BaseModel]) -> Place:
    """The place as it stands in the file: without the `type` that the models put behind a key with choices."""
    return tuple(s for n, s in enumerate(place) if s not in choices_of(_annotation_at(model, place[:n])))


def choices_of(annotation: Any) -> Mapping[str | int, type[BaseModel]]:
    """The models among which `type` chooses, by its word; none where there is no such choice."""
    if get_origin(annotation) is typing.Annotated:
        annotation = get_args(annotation)[0]
    if get_origin(annotation) not in (types.UnionType, typing.Union):
        return {}
    models = [a for a in get_args(annotation) if isinstance(a, type) and issubclass(a, BaseModel)]
    return {get_args(m.model_fields["type"].annotation)[0]: m for m in models} if len(models) > 1 else {}


def inner(annotation: Any) -> Any:
    """What stands in a tuple or an optional annotation; the annotation itself otherwise."""
    origin = get_origin(annotation)
    if origin in (types.UnionType, typing.Union):
        return inner(next(a for a in get_args(annotation) if a is not type(None)))
    if origin is tuple:
        return inner(get_args(annotation)[0])
    return inner(get_args(annotation)[0]) if origin is typing.Annotated else annotation
