"""The faults this project raises, each with what a person needs to mend it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault in the text of a spec: where it stands, what is wrong, what is allowed."""

    file: str
    line: int
    path: str
    wrong: str
    allowed: str = ""

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}: " if self.line else f"{self.file}: "
        path = f"{self.path}: " if self.path else ""
        allowed = f"; {self.allowed}" if self.allowed else ""
        return _one_line(f"{where}{path}{self.wrong}{allowed}")


class Refusal(ValueError):
    """Text that may not stand where it stands: what is wrong, what is allowed; becomes a `Fault` with its place."""

    def __init__(self, wrong: str, allowed: str) -> None:
        self.wrong = wrong
        self.allowed = allowed
        super().__init__(f"{wrong}; {allowed}")


class PacketError(Exception):
    """A fault with an exit code, never shown as a traceback."""

    exit_code = 1


class SpecError(PacketError):
    """The spec folder has faults; `faults` holds all of them, of all files."""

    exit_code = 2

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = sorted(set(faults))
        super().__init__("\n".join(map(str, self.faults)))


class DataError(PacketError):
    """The project's own reference data, template or font is missing or damaged."""


class CalcError(PacketError):
    """A calculation was asked for something it cannot mean."""


class RenderError(PacketError):
    """A drawing or document could not be made as asked."""


class OutputError(PacketError):
    """The output folder cannot be written, or is not ours to write."""


def _one_line(text: str) -> str:
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)
