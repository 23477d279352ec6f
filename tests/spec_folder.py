"""Spec folders for tests: the starter, with pieces of its text replaced."""

from collections.abc import Mapping
from pathlib import Path

from generator.errors import SpecError
from generator.spec.read import read_spec
from generator.spec.starting import starter

STARTER = starter("us")


def write(folder: Path, changes: Mapping[str, str | bytes | None] | None = None) -> Path:
    """The starter in `folder`; a file of `changes` is replaced by its text, or left out where that is None."""
    files: dict[str, str | bytes | None] = {**STARTER, **(changes or {})}
    for name, text in files.items():
        if text is None:
            continue
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def edited(file: str, *pairs: tuple[str, str]) -> dict[str, str | bytes | None]:
    """One file of the starter with pieces of its text replaced; each must stand there."""
    text = STARTER[file]
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return {file: text}


def faults(folder: Path, changes: Mapping[str, str | bytes | None] | None = None) -> list[str]:
    """The faults of the changed starter, one line each; none if it reads."""
    try:
        read_spec(write(folder, changes))
    except SpecError as error:
        return [str(fault) for fault in error.faults]
    return []


def line(file: str, piece: str) -> int:
    """The line of the starter's file on which `piece` first stands."""
    return next(n for n, text in enumerate(STARTER[file].split("\n"), start=1) if piece in text)
