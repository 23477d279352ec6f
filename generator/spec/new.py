"""`packet new`: a commented folder to start from, which reads without faults, in either unit system."""

from pathlib import Path
from typing import Literal

from generator.errors import OutputError
from generator.spec.starting import TYPES, starter


def new_folder(folder: Path, type: str = "gooseneck", system: Literal["us", "si"] = "us") -> tuple[str, ...]:
    """Write a commented spec folder and return its file names. Raises OutputError if the folder holds anything."""
    if type not in TYPES:
        raise OutputError(f"no starter of type `{type}`; write --type {', '.join(TYPES[:-1])} or {TYPES[-1]}")
    files = starter(system, type)
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise OutputError(f"{folder}: not an empty folder; name one that does not exist yet")
        for path, text in files.items():
            target = folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise OutputError(f"{folder}: cannot be written: {error.strerror}") from None
    return tuple(files)
