"""The reference page of the spec folder in Markdown, from the same models that read it."""

from collections.abc import Iterator, Mapping
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from generator import units
from generator.spec.measure import Plain, Reads
from generator.spec.models.base import Part
from generator.spec.notes import READERS
from generator.spec.read import FILES, RECORDS
from generator.spec.source import COMPULSORY
from generator.spec.wording import PATTERNS, choices_of, inner

_HEAD = """\
# Reference of the spec folder

Made from the models that read the folder; do not edit it. `packet schema` prints the same as JSON Schema.

## How values are written

- Every physical value is text with a unit: `8 ft 6 in`, `8'-6 1/2"`, `2590 mm`, `3/4 in`, `7000 lb`, `12.5 kg`. A
  number without a unit is refused, and so is a unit of another kind. Write plain digits: no comma, no exponent.
- A spread follows the value: `640 lb +/- 10 %` or `640 lb +/- 30 lb` gives the values that 5 % and 95 % of cases stay
  below; `600 lb to 700 lb` gives both ends, with the middle as the likeliest value.
- `unknown` may stand for any physical value. What rests on it is then *not assessed*, and a task is raised.
- Units that are read more than one way (`ton`, `gal`, `oz`, `lb` for a force ...) are refused with the choices.
- Stations are measured aft from datum A, the front face of the main deck's front crossmember, and are negative ahead of
  it. Heights are above the main-deck top, `y` is to the right looking forward.
- Every key is compulsory unless it is marked *optional*. Unknown keys and repeated keys are refused.

| kind | units of the table | example |
|---|---|---|
"""

_NOTES = """\
## notes/*.md

Pages of prose in Markdown, without pictures. Each begins with a head between two lines `---`:

| key | what | how it is written |
|---|---|---|
| `title` | Title of the page; optional, the name of the file stands in for it. | one line |
| `to` | Who gets it; optional, without it the owner alone. | list of {readers} |
"""


def reference_page() -> str:
    """The whole page; `docs/reference.md` holds it."""
    rows = [f"| {kind.name} | {_units(name)} | `{kind.examples[0]}` |" for name, kind in sorted(units.KINDS.items())]
    parts = [_HEAD + "\n".join(rows) + "\n"]
    seen: dict[type[BaseModel], str] = {}
    for file, model in FILES.items():
        must = "compulsory" if file in COMPULSORY else "optional"
        parts.append(f"## {file} ({must})\n")
        parts += _tables(model, file.removesuffix(".yaml"), seen)
    for folder, model in RECORDS.items():
        parts.append(f"## {folder}/*.yaml (optional)\n\n{model.__doc__}; the name of the file is its name.\n")
        parts += _tables(model, folder, seen)
    parts.append(_NOTES.format(readers=", ".join(f"`{r}`" for r in READERS)))
    return "\n".join(parts)


def _units(kind: str) -> str:
    return ", ".join(f"`{name}`" for name in units.names(kind)) + (" or none" if kind == "coefficient" else "")


def _tables(model: type[BaseModel], path: str, seen: dict[type[BaseModel], str]) -> Iterator[str]:
    """The table of a model, then those of the models in it, depth first, each once."""
    if "." in path:
        yield f"### `{path}`{_chosen(model)}\n\n{model.__doc__}\n"
    new: dict[type[BaseModel], str] = {}
    for name, field in model.model_fields.items():
        for within in choices_of(field.annotation).values() or (inner(field.annotation),):
            if _is_part(within) and within not in seen:
                new[within] = seen[within] = f"{path}.{name}"
    rows = [f"| `{name}` | {_what(field)} | {_how(field, path, name, seen)} |"
            for name, field in model.model_fields.items()]
    yield "\n".join(["| key | what | how it is written |", "|---|---|---|", *rows]) + "\n"
    for within, place in new.items():
        yield from _tables(within, place, seen)


def _chosen(model: type[BaseModel]) -> str:
    """The word of `type` under which a model is read, if there is one."""
    kind = model.model_fields.get("type")
    choices = get_args(kind.annotation) if kind is not None else ()
    return f" ({choices[0]})" if len(choices) == 1 else ""


def _is_part(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, Part)


def _what(field: FieldInfo) -> str:
    words = (field.description or "").replace("|", "\\|")
    return words if field.is_required() else f"{words} *Optional.*"


def _how(field: FieldInfo, path: str, name: str, seen: Mapping[type[BaseModel], str]) -> str:
    within = inner(field.annotation)
    here = _one(field, within, seen[within] if _is_part(within) else f"{path}.{name}")
    match get_origin(field.annotation):
        case built if built is tuple:
            return f"list of: {here}"
        case built if built is dict:
            added = get_origin(get_args(field.annotation)[1]) is tuple
            return f"map: {here}, then its {'new entries as a list' if added else 'text, map or list'}"
        case _:
            return here


def _one(field: FieldInfo, annotation: Any, path: str) -> str:
    if choices := list(choices_of(field.annotation)):
        links = (f"[`{choice}`](#{path.replace('.', '')}-{str(choice).replace(' ', '-')})" for choice in choices)
        return f"keys by its `type`: {' or '.join(links)}"
    if _is_part(annotation):
        return f"keys of [`{path}`](#{path.replace('.', '')})"
    if get_origin(annotation) is Literal:
        return " or ".join(f"`{choice}`" for choice in get_args(annotation))
    reads = _reads(field)
    if reads is None:
        return _text(field)
    examples = ", ".join(f"`{example}`" for example in reads.examples)
    if isinstance(reads, Plain):
        return f"{reads.wanted()}: {examples}"
    sign = {"any": "", "not negative": ", zero or more", "positive": ", above zero"}[reads.sign]
    return f"{units.KINDS[reads.kind].name}{sign}: {examples}"


def marks(field: FieldInfo) -> Iterator[Any]:
    """Everything annotated on a field, also inside an optional or a list."""
    waiting: list[Any] = [*field.metadata, field.annotation]
    while waiting:
        here = waiting.pop(0)
        yield here
        waiting += [*getattr(here, "__metadata__", ()), *get_args(here)]


def _reads(field: FieldInfo) -> Reads | Plain | None:
    return next((mark for mark in marks(field) if isinstance(mark, Reads | Plain)), None)


def _text(field: FieldInfo) -> str:
    patterns = [str(getattr(mark, "pattern", None)) for mark in marks(field)]
    return next((PATTERNS[pattern] for pattern in patterns if pattern in PATTERNS), "text")


if __name__ == "__main__":
    print(reference_page(), end="")
