"""An option applied: the trees of the spec with its changes in them, and where each change was written."""

import difflib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from generator.errors import Fault, Refusal
from generator.records import dataclass
from generator.spec.models.options import Moved, Option
from generator.spec.parse import Branch, Row
from generator.spec.wording import line_of, nearest

MOST_NAMES = 30
"""So many names of a list are told where a name is not among them."""

Trees = Mapping[str, Branch]
SHORT = 12
"""A list of texts no longer than this, such as stations, is told whole, not entry by entry."""


@dataclass(frozen=True, slots=True)
class Edit:
    """One change as written: replace, remove or add; its path, the new node, the line it is written on."""

    kind: str
    path: str
    node: Any
    line: int


def edits(option: Option, tree: Branch) -> Iterator[Edit]:
    """The changes of an option in the order replace, remove, add, with the nodes as parsed."""
    for kind in ("replace", "add"):
        written = tree.get(kind, {})
        for path in getattr(option, kind):
            yield Edit(kind, path, written[path], line_of(tree, (kind, path)))
    for number, path in enumerate(option.remove):
        yield Edit("remove", path, None, line_of(tree, ("remove", number)))


def applied(changes: Iterable[Edit], trees: Trees, file: str) -> tuple[dict[str, Branch], list[Fault]]:
    """The trees with every change made, those untouched shared; a path that leads nowhere is a fault of the option."""
    made, faults = dict(trees), []
    for edit in changes:
        name, _, rest = edit.path.partition(".")
        try:
            if rest and f"{name}.yaml" not in made:
                raise Refusal(f"there is no {name}.yaml", "write the file, or leave the change out")
            node = _edited(made.get(f"{name}.yaml"), rest.split(".") if rest else [], edit)
        except Refusal as refusal:
            faults.append(Fault(file, edit.line, f"{edit.kind}.{edit.path}", refusal.wrong, refusal.allowed))
            continue
        if not isinstance(node, Branch):
            faults.append(Fault(file, edit.line, f"{edit.kind}.{edit.path}", "not a whole file",
                                f"name a key of {name}.yaml, or write a map"))
            continue
        made[f"{name}.yaml"] = node
    return made, faults


def changed_texts(before: Trees, after: Trees) -> tuple[Moved, ...]:
    """Every text that differs, by path; a part that came or went is one row, under its title."""
    files = sorted({*before, *after})
    return tuple(row for f in files for row in _differences(before.get(f), after.get(f), f.removesuffix(".yaml")))


def retold(fault: Fault, changes: Iterable[Edit], file: str, head: int) -> Fault:
    """A fault of the changed spec as a fault of the option that made it: at the change it lies in, or at its head."""
    path = f"{fault.file.removesuffix('.yaml')}.{fault.path}".rstrip(".")
    within = [e for e in changes if e.kind != "remove" and (path + ".").startswith(e.path + ".")]
    if within:
        edit = max(within, key=lambda e: len(e.path))
        return Fault(file, max(fault.line, edit.line), f"{edit.kind}.{path}", fault.wrong, fault.allowed)
    return Fault(file, head, "", f"with these changes {path}: {fault.wrong}", fault.allowed)


def _edited(node: Any, steps: list[str], edit: Edit) -> Any:
    """A copy of the node in which the change is made, its untouched parts shared. Raises Refusal."""
    if not steps:
        return _end(node, edit)
    if isinstance(node, Row):
        return _entry(node, steps, edit)
    if not isinstance(node, Branch):
        raise Refusal(f"nothing stands at `{steps[0]}`", "name a path of the spec")
    return _key(node, steps, edit)


def _end(node: Any, edit: Edit) -> Any:
    if edit.kind == "add":
        if node is not None and not isinstance(node, Row):
            raise Refusal("not a list", "add to a list; replace anything else")
        grown = Row(edit.line)
        grown += [*(node or []), *edit.node]
        return grown
    return edit.node


def _key(node: Branch, steps: list[str], edit: Edit) -> Branch:
    key, rest = steps[0], steps[1:]
    known = ", ".join(node)
    if key not in node and (rest or edit.kind == "remove"):
        raise Refusal(f"`{key}` is not there", f"{nearest(key, list(node))}keys there: {known}")
    made = Branch(node.line)
    made.update(node)
    made.folded, made.lines = dict(node.folded), dict(node.lines)
    if not rest and edit.kind == "remove":
        del made[key]
        return made
    made[key] = _edited(node.get(key), rest, edit)
    if not rest:
        made.lines[key] = edit.line
    return made


def _entry(node: Row, steps: list[str], edit: Edit) -> Row:
    names = [_name(entry, n) for n, entry in enumerate(node, start=1)]
    if steps[0] not in names:
        raise Refusal(f"`{steps[0]}` is not there", f"{nearest(steps[0], names)}names there: {_some(names)}")
    at = names.index(steps[0])
    made = Row(node.line)
    kept = [] if len(steps) == 1 and edit.kind == "remove" else [_edited(node[at], steps[1:], edit)]
    made += [*node[:at], *kept, *node[at + 1 :]]
    return made


def _some(names: list[str]) -> str:
    """Names of a list, the first of them where there are many."""
    more = f" and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else ""
    return ", ".join(names[:MOST_NAMES]) + more


def _name(entry: Any, number: int) -> str:
    name = (entry.get("id") or entry.get("mark")) if isinstance(entry, Branch) else None
    return name if isinstance(name, str) and name else str(number)


def _differences(old: Any, new: Any, path: str) -> Iterator[Moved]:
    if old is new:
        return
    if isinstance(old, Row) and isinstance(new, Row) and not (_is_named(old) or _is_named(new)):
        yield from _unnamed(old, new, path)
        return
    parts, others = _parts(old), _parts(new)
    if parts is None or others is None:
        was, now = _brief(old), _brief(new)
        if was != now:
            yield Moved(path, was, now)
        return
    for key in dict.fromkeys((*parts, *others)):
        yield from _differences(parts.get(key), others.get(key), f"{path}.{key}")


def _unnamed(old: Row, new: Row, path: str) -> Iterator[Moved]:
    """Differences of lists without names: short texts as one row, others entry by entry."""
    if not all(isinstance(entry, str) and len(entry) <= SHORT for entry in (*old, *new)):
        yield from _in_places(old, new, path)
    elif list(old) != list(new):
        yield Moved(path, ", ".join(old), ", ".join(new))


def _is_named(row: Row) -> bool:
    return any(not _name(entry, n).isdigit() for n, entry in enumerate(row, start=1))


def _in_places(old: Row, new: Row, path: str) -> Iterator[Moved]:
    """Differences of lists whose entries have no names: what stands in both in the same order is left alone."""
    told = [[repr(entry) for entry in row] for row in (old, new)]
    for kind, a, b, c, d in difflib.SequenceMatcher(None, told[0], told[1], autojunk=False).get_opcodes():
        if kind != "equal":
            for n in range(max(b - a, d - c)):
                was, now = (old[a + n] if n < b - a else None), (new[c + n] if n < d - c else None)
                yield from _differences(was, now, f"{path}.{(a if was is not None else c) + n + 1}")


def _parts(node: Any) -> Mapping[str, Any] | None:
    """The parts of a map or list by name; None for a text or nothing."""
    if isinstance(node, Row):
        return {_name(entry, number): entry for number, entry in enumerate(node, start=1)}
    return node if isinstance(node, Branch) else None


def _brief(node: Any) -> str:
    """A text itself, the title or type of a map, the number of entries of a list."""
    if isinstance(node, Branch):
        named = node.get("title") or node.get("type") or ", ".join(node)
        return str(named)
    if isinstance(node, Row):
        return "1 entry" if len(node) == 1 else f"{len(node)} entries"
    return "" if node is None else str(node)
