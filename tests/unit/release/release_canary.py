"""A design whose every text and every sum of money can be recognised wherever it turns up."""

import types
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from generator.spec.measure import Measure
from generator.spec.models.spec import Note, Spec

KEPT = {"material", "section", "regions", "grade", "date", "valid_to", "quotes_due", "questions_until", "to"}
"""Names of the reference data, days and role words: they are not the owner's secrets, and a token would break them."""


@dataclass
class Marker:
    """Gives the same token for the same text, another for another, and remembers under which path each stood."""

    tokens: dict[str, str]
    paths: dict[str, set[str]]
    amounts: dict[str, Decimal]

    def token(self, path: str, text: str) -> str:
        token = self.tokens.setdefault(text, f"zq{len(self.tokens):04d}x")
        self.paths.setdefault(token, set()).add(path)
        return token

    def amount(self, path: str) -> Decimal:
        return self.amounts.setdefault(path, Decimal(1_000_003 + 7919 * len(self.amounts)))


def marked(spec: Spec) -> tuple[Spec, Marker]:
    """The spec with a token in every text and a large odd amount in every sum of money."""
    marker = Marker({}, {}, {})
    parts = {name: _of(getattr(spec, name), name, marker)
             for name in ("project", "trailer", "house", "weights", "tow", "site", "costs", "revisions")}
    notes = tuple(replace(n, title=marker.token(_note(n), n.title), text=marker.token(_note(n), n.text))
                  for n in spec.notes)
    kept = {name: tuple(_record(r, name, marker) for r in getattr(spec, name))
            for name in ("quotes", "tickets", "asbuilt")}
    return replace(spec, notes=notes, **parts, **kept), marker


def _record(record: Any, path: str, marker: Marker) -> Any:
    """A quote, ticket or visit with tokens; the name of its file stays, for it is what the record is told apart by."""
    return replace(record, **{name: _of(getattr(record, name), f"{path}.{name}", marker)
                              for name in record.__dataclass_fields__
                              if isinstance(getattr(record, name), BaseModel)})


def _note(note: Note) -> str:
    return f"notes.{'+'.join(note.to) or 'owner'}"


def _of(value: Any, path: str, marker: Marker) -> Any:
    """The value with tokens, whatever it is."""
    if isinstance(value, BaseModel):
        fields = type(value).model_fields
        new = {name: getattr(value, name) if name in KEPT or _literal(field.annotation)
               else _of(getattr(value, name), f"{path}.{name}", marker) for name, field in fields.items()}
        return value.model_copy(update=new)
    if isinstance(value, tuple):
        return tuple(_of(v, path, marker) for v in value)
    if isinstance(value, Measure):
        return replace(value, origin=marker.token(f"origin:{path}", value.origin or path) + ".yaml:7")
    if isinstance(value, Decimal):
        return marker.amount(path)
    return marker.token(path, value) if isinstance(value, str) else value


def _literal(annotation: Any) -> bool:
    """Whether a field takes one of a few words, which say nothing about anybody."""
    if get_origin(annotation) is Literal:
        return True
    if get_origin(annotation) in (Union, types.UnionType, tuple):
        return any(_literal(a) for a in get_args(annotation))
    return False


def texts(value: object) -> Iterator[str]:
    """Every text inside a record of records."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, (tuple, list, frozenset, set)):
        for v in value:
            yield from texts(v)
    elif isinstance(value, dict):
        for k, v in value.items():
            yield from texts(k)
            yield from texts(v)
    elif hasattr(value, "__dataclass_fields__"):
        for name in value.__dataclass_fields__:
            yield from texts(getattr(value, name))
