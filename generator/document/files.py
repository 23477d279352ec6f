"""Files of the installed program: templates, style sheets, font faces; loads nothing else, for rendering processes."""

from importlib import resources
from pathlib import Path

from generator.errors import DataError

FACES = {
    "regular.ttf": "SourceSansPro-Regular.ttf",
    "semibold.ttf": "SourceSansPro-Semibold.ttf",
    "italic.ttf": "SourceSansPro-It.ttf",
}
"""Our file name of a face and its name in the font package."""


def template_folder() -> Path:
    """Templates inside the installed package, else the folder beside it in the source tree."""
    package = Path(str(resources.files("generator")))
    inside, beside = package / "_templates", package.parent / "templates"
    return inside if inside.is_dir() else beside


def style(name: str) -> bytes:
    """A style sheet of the package."""
    return _read(template_folder() / "css" / name)


def font(name: str) -> bytes:
    """A packaged font face by our file name."""
    return _read(font_path(name))


def font_path(name: str) -> Path:
    """Where a packaged font face is, for libraries that want a path."""
    return Path(str(resources.files("font_source_sans_pro"))) / "files" / FACES[name]


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as fault:
        raise DataError(f"{path.name} of the program cannot be read ({fault.strerror}); install it again") from fault
