"""One spec file as plain maps, lists and text with their places; what YAML could turn into something else is refused.

The file is read as events: depth and size are known before anything is built, and no scalar changes its type.
"""

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Any

import yaml

from generator.errors import DataError, Fault
from generator.spec.glyphs import uncovered
from generator.spec.measure import Text

DEEPEST = 12
MOST_NODES = 200_000
_HIDDEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\xad\u061c\u115f\u1160\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff0-\uffff"
    "\ud800-\udfff\U000e0000-\U000e0fff]"
)
TOO_DEEP = "a spec is never that deep; look for a stray bracket"
_INDENT = "indent with spaces, `key: value`, and put text with `: `, `#` or quotes in it between quotes"


class Branch(dict[str, Any]):
    """A map of the file, with the line of each key, and its keys by their folded spelling."""

    __slots__ = ("folded", "line", "lines")
    folded: dict[str, str]
    line: int
    lines: dict[str, int]

    def __init__(self, line: int) -> None:
        super().__init__()
        self.folded = {}
        self.line = line
        self.lines = {}


class Row(list[Any]):
    """A list of the file, with its line."""

    __slots__ = ("line",)
    line: int

    def __init__(self, line: int) -> None:
        super().__init__()
        self.line = line


Node = Branch | Row | Text


class _StopError(Exception):
    """Nothing after this fault can be read."""


@dataclass(slots=True)
class _Builder:
    """Composes events into nodes: `open` holds the maps and lists not yet closed, `names` the keys they stand under.

    `keys` holds, for each of them, the key that waits for its value.
    """

    file: str
    shift: int
    faults: list[Fault] = field(default_factory=list)
    open: list[Branch | Row] = field(default_factory=list)
    keys: list[str | None] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    root: Node | None = None
    nodes: int = 0
    documents: int = 0

    def take(self, event: Any) -> None:
        """One event of the parser."""
        line = event.start_mark.line + 1 + self.shift
        match event:
            case yaml.ScalarEvent():
                self._check(event, line)
                self._scalar(event.value, line)
            case yaml.MappingStartEvent():
                self._check(event, line)
                self._begin(Branch(line), line)
            case yaml.SequenceStartEvent():
                self._check(event, line)
                self._begin(Row(line), line)
            case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
                self.open.pop()
                self.keys.pop()
                self.names.pop()
            case yaml.AliasEvent():
                self._stop(line, f"alias `*{event.anchor}`", "write the text out; anchors and aliases are not read")
            case yaml.DocumentStartEvent():
                self.documents += 1
                if self.documents > 1:
                    self._stop(line, "a second document begins (`---`)", "one document in each file")

    def _check(self, event: Any, line: int) -> None:
        self.nodes += 1
        if event.anchor is not None:
            self._stop(line, f"anchor `&{event.anchor}`", "write the text out; anchors and aliases are not read")
        if event.tag is not None:
            self._stop(line, f"tag `{event.tag}`", "write the text alone; tags are not read")
        if self.nodes > MOST_NODES:
            self._stop(line, f"more than {MOST_NODES} entries", "a file of this size is no spec")

    def _begin(self, node: Branch | Row, line: int) -> None:
        if len(self.open) >= DEEPEST:
            self._stop(line, f"deeper than {DEEPEST} levels", TOO_DEEP)
        self.names.append((self.keys and self.keys[-1]) or "")
        self._add(node, line)
        self.open.append(node)
        self.keys.append(None)

    def _scalar(self, value: str, line: int) -> None:
        if self.open and isinstance(self.open[-1], Branch) and self.keys[-1] is None:
            self._key(self.open[-1], value, line)
            return
        self.faults += text_faults(value, self.file, line)
        self._add(Text(value, f"{self.file}:{line}"), line)

    def _key(self, branch: Branch, key: str, line: int) -> None:
        if key == "<<":
            self._stop(line, "merge key `<<`", "write the keys out; merging is not read")
        self.faults += text_faults(key, self.file, line)
        first = branch.folded.setdefault(key.casefold(), key)
        if first in branch.lines:
            self.faults.append(Fault(self.file, line, self._path(), f"key `{key}` stands here and in line "
                                     f"{branch.lines[first]} as `{first}`", "each key once"))
        branch.lines.setdefault(key, line)
        self.keys[-1] = key

    def _add(self, node: Node, line: int) -> None:
        if not self.open:
            self.root = node
            return
        parent, key = self.open[-1], self.keys[-1]
        if isinstance(parent, Row):
            parent.append(node)
        elif key is None:
            self._stop(line, "a key that is a map or a list", "a key is a plain word")
        else:
            parent[key] = node
            self.keys[-1] = None

    def _path(self) -> str:
        return ".".join(name for name in (*self.names, self.keys[-1] if self.keys else "") if name)

    def _stop(self, line: int, wrong: str, allowed: str) -> None:
        self.faults.append(Fault(self.file, line, self._path(), wrong, allowed))
        raise _StopError


def parse(text: str, file: str, shift: int = 0) -> tuple[Branch, list[Fault]]:
    """The map a file holds and its faults; an unreadable file gives an empty map. `shift` is added to line numbers."""
    if not hasattr(yaml, "CLoader"):
        raise DataError("the YAML library lacks its C parser: install PyYAML from a wheel")
    builder = _Builder(file, shift)
    try:
        for event in yaml.parse(text, Loader=yaml.CLoader):  # the C parser, event by event
            builder.take(event)
    except _StopError:
        return Branch(0), builder.faults
    except yaml.YAMLError as error:
        return Branch(0), [*builder.faults, _unreadable(error, text, file, shift)]
    if isinstance(builder.root, Branch):
        return builder.root, builder.faults
    wrong = "empty" if builder.root is None else "not a map of keys and values"
    return Branch(0), [*builder.faults, Fault(file, 1 + shift, "", wrong, "begin with `key: value` lines")]


def text_faults(text: str, file: str, line: int) -> list[Fault]:
    """Characters that would print as nothing, as a box, or as something other than what was typed."""
    if text.isascii() and not _HIDDEN.search(text):
        return []
    hidden = {c: "it would not be seen" for c in _HIDDEN.findall(text)}
    missing = {} if hidden else {c: "the packet's font cannot print it" for c in uncovered(text)}
    return [
        Fault(file, line, "", f"character U+{ord(c):04X} ({unicodedata.name(c, 'unnamed')})", f"{why}: leave it out")
        for c, why in sorted((hidden | missing).items())
    ]


def _unreadable(error: yaml.YAMLError, text: str, file: str, shift: int) -> Fault:
    if "nesting depth" in str(error):
        return Fault(file, 1 + shift, "", f"deeper than {DEEPEST} levels", TOO_DEEP)
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = getattr(error, "problem", None) or getattr(error, "reason", None) or "not YAML"
    if mark is None:
        position = min(getattr(error, "position", 0) or 0, len(text))
        return Fault(file, text.count("\n", 0, position) + 1 + shift, "", f"cannot be read: {problem}", _INDENT)
    return Fault(file, mark.line + 1 + shift, "", f"cannot be read: {problem} (column {mark.column + 1})", _INDENT)
