"""From a folder to a `Spec`: everything is checked before anything is refused, so that all faults come at once."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from pydantic import ValidationError

from generator.errors import Fault, SpecError
from generator.spec.crosscheck import Parts, crosscheck
from generator.spec.measure import Measure
from generator.spec.models.asbuilt import AsBuilt, Visit
from generator.spec.models.base import Part
from generator.spec.models.costs import Costs
from generator.spec.models.house import House
from generator.spec.models.options import Option
from generator.spec.models.project import Project
from generator.spec.models.quotes import Quote, Received
from generator.spec.models.revisions import Revisions
from generator.spec.models.site import Site
from generator.spec.models.spec import Alternative, Foreign, Note, Spec, Unknown
from generator.spec.models.tickets import Ticket, Weighing
from generator.spec.models.tow import Tow
from generator.spec.models.trailer import Trailer
from generator.spec.models.weights import Weights
from generator.spec.notes import read_note
from generator.spec.options import applied, changed_texts, edits, retold
from generator.spec.parse import Branch, parse
from generator.spec.recorded import recorded_faults
from generator.spec.source import COMPULSORY, FOLDERS, OPTIONAL, Source, collect
from generator.spec.wording import faults_of
from generator.units import KINDS

__all__ = ["FILES", "RECORDS", "Source", "parse_source", "read_source", "read_spec"]

FILES: Mapping[str, type[Part]] = MappingProxyType({
    "project.yaml": Project, "trailer.yaml": Trailer, "house.yaml": House, "weights.yaml": Weights,
    "tow.yaml": Tow, "site.yaml": Site, "costs.yaml": Costs, "revisions.yaml": Revisions,
})
"""The files of a spec folder and the model of each; compulsory ones first."""

RECORDS: Mapping[str, type[Part]] = MappingProxyType(
    {"tickets": Ticket, "asbuilt": AsBuilt, "options": Option, "quotes": Quote}
)
"""The folders of records, and the model of each record."""

Listed = Mapping[str, tuple[tuple[str, str, Measure], ...]]
"""Every measure of each file, as `walk` finds it."""

P = TypeVar("P", bound=Part)


def read_spec(folder: Path) -> Spec:
    """The spec in a folder. Raises SpecError with all faults of all files."""
    return parse_source(read_source(folder))


def read_source(folder: Path) -> Source:
    """The bytes of a folder, read once. Raises SpecError with all faults if a file is missing, strange or no text."""
    source, faults = collect(folder)
    if faults:
        raise SpecError(faults + _parsed(source)[1])
    return source


def parse_source(source: Source) -> Spec:
    """The spec in the bytes of a folder. Raises SpecError with all faults of all files."""
    spec, faults = _parsed(source)
    if spec is None:
        raise SpecError(faults)
    return spec


def trees_of(source: Source) -> Mapping[str, Branch]:
    """The parsed texts of the spec's own files by name, for comparing two sources."""
    texts = ((file, source.text(file)) for file in FILES)
    return {file: tree for file, text in texts if text is not None and (tree := parse(text, file)[0])}


def _parsed(source: Source) -> tuple[Spec | None, list[Fault]]:
    faults: list[Fault] = []
    models: dict[str, Part] = {}
    trees: dict[str, Branch] = {}
    records = tuple(f.path for f in source.files if f.path.partition("/")[0] in FOLDERS)
    for file in (*COMPULSORY, *OPTIONAL, *records):
        if (text := source.text(file)) is not None:
            _read_file(file, text, models, trees, faults)
    notes = tuple(_notes(source, faults))
    faults += crosscheck(Parts(models, trees)) + recorded_faults(Parts(models, trees))
    if faults or any(file not in models for file in COMPULSORY):
        return None, faults
    listed = {file: tuple(walk(model)) for file, model in models.items()}
    options = tuple(_alternatives(models, trees, listed, faults))
    return (None if faults else replace(_joined(models, notes, listed), options=options)), faults


def _read_file(file: str, text: str, models: dict[str, Part], trees: dict[str, Branch], faults: list[Fault]) -> None:
    tree, found = parse(text, file)
    faults += found
    if not tree:
        return
    model = FILES.get(file) or RECORDS[file.partition("/")[0]]
    try:
        models[file] = model.model_validate(tree)
        trees[file] = tree
    except ValidationError as error:
        faults += faults_of(error, model, tree, file)


def _alternatives(
    models: Mapping[str, Part], trees: Mapping[str, Branch], listed: Listed, faults: list[Fault]
) -> Iterator[Alternative]:
    """The spec once for each option; weighings and measurements are those of the base, so no option has any."""
    for file, option in models.items():
        if isinstance(option, Option):
            spec, after = _changed(file, option, Parts(models, trees), listed, faults)
            moved = changed_texts({f: trees[f] for f in FILES if f in trees}, after)
            if spec is not None:
                yield Alternative(_named(file), option.title, option.why, option.to_shop or "", moved, spec)


def _changed(
    file: str, option: Option, base: Parts, listed: Listed, faults: list[Fault]
) -> tuple[Spec | None, dict[str, Branch]]:
    """The spec with an option in it, and its trees; no spec if that has faults."""
    changes = tuple(edits(option, base.trees[file]))
    after, found = applied(changes, {f: t for f, t in base.trees.items() if f in FILES}, file)
    made = {f: m for f, m in base.models.items() if f in FILES}
    touched = [f for f in after if after[f] is not base.trees.get(f)]
    if not found:
        for name in touched:
            try:
                made[name] = FILES[name].model_validate(after[name])
            except ValidationError as error:
                found += faults_of(error, FILES[name], after[name], name)
        found = [retold(f, changes, file, 1) for f in found or crosscheck(Parts(made, after))]
    faults += found
    if found:
        return None, after
    told = {f: tuple(walk(m)) if f in touched else listed[f] for f, m in made.items()}
    return _joined(made, (), told), after


def _notes(source: Source, faults: list[Fault]) -> Iterator[Note]:
    for file in source.files:
        if file.path.startswith("notes/"):
            note, found = read_note(file.path, source.text(file.path) or "")
            faults += found
            yield note


def _joined(models: Mapping[str, Part], notes: tuple[Note, ...], listed: Listed) -> Spec:
    def the(kind: type[P]) -> P:
        return next(m for m in models.values() if isinstance(m, kind))

    def perhaps(kind: type[P]) -> P | None:
        return next((m for m in models.values() if isinstance(m, kind)), None)

    measures = [(file, *found) for file in models for found in listed[file]]
    unknowns = tuple(Unknown(f"{file}: {path}", words, m.origin) for file, path, words, m in measures if not m.known)
    foreign = tuple(Foreign(f"{file}: {path}", m.text, m.nominal, KINDS[m.kind].unit, m.origin)
                    for file, path, _, m in measures if m.foreign)
    tickets = tuple(Weighing(_named(file), m) for file, m in models.items() if isinstance(m, Ticket))
    visits = tuple(Visit(_named(file), m) for file, m in models.items() if isinstance(m, AsBuilt))
    quotes = tuple(Received(_named(file), m) for file, m in models.items() if isinstance(m, Quote))
    return Spec(the(Project), the(Trailer), the(House), the(Weights), perhaps(Tow), perhaps(Site), perhaps(Costs),
                perhaps(Revisions), notes, unknowns, foreign, tickets, visits, quotes)


def _named(file: str) -> str:
    return file.partition("/")[2].removesuffix(".yaml")


def walk(part: Part, path: str = "") -> Iterator[tuple[str, str, Measure]]:
    """Every measure of a part: dotted path (entries by their id), description of its field, value."""
    for name, field in type(part).model_fields.items():
        yield from _walk(getattr(part, name), f"{path}.{name}" if path else name, field.description or "")


def _walk(value: Any, path: str, words: str) -> Iterator[tuple[str, str, Measure]]:
    if isinstance(value, Measure):
        yield path, words, value
    elif isinstance(value, Part):
        yield from walk(value, path)
    elif isinstance(value, tuple):
        for number, entry in enumerate(value, start=1):
            name = getattr(entry, "id", None) or getattr(entry, "mark", None) or number
            yield from _walk(entry, f"{path}.{name}", words)
