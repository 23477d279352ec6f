"""Pages of prose: a head that says to whom they go, then Markdown text."""

import re

from generator.errors import Fault
from generator.spec.measure import Text
from generator.spec.models.spec import Note
from generator.spec.parse import Branch, Row, parse, text_faults
from generator.spec.wording import nearest

LONGEST = 20_000
READERS = ("owner", "fabricator", "official", "insurer", "haulier", "engineer")
KEYS = ("title", "to")
_HEAD = re.compile(r"\A---\n(.*?)^---[ \t]*(?:\n|\Z)", re.DOTALL | re.MULTILINE)
_PICTURE = re.compile(r"!\[")


def read_note(path: str, text: str) -> tuple[Note, list[Fault]]:
    """A note and its faults. A page without a head goes to the owner alone, under the name of its file."""
    head = _HEAD.match(text)
    if text.startswith("---\n") and head is None:
        return Note(path, path, (), ""), [Fault(path, 1, "", "the head has no end", "close it with a line `---`")]
    tree, faults = parse(head[1], path, shift=1) if head and head[1].strip() else (Branch(1), [])
    body = text[head.end():] if head else text
    first = text.count("\n", 0, head.end()) + 1 if head else 1
    faults += _body_faults(path, body, first)
    faults += [Fault(path, tree.lines[key], key, "not a key of a note", f"{nearest(key, KEYS)}keys here: title, to")
               for key in tree if key not in KEYS]
    title = tree.get("title", Text(path.removeprefix("notes/").removesuffix(".md").replace("-", " ").capitalize()))
    if not isinstance(title, Text) or not 0 < len(title.strip()) <= 80 or "\n" in title.strip():
        faults.append(Fault(path, tree.lines.get("title", 1), "title", "not one line of text", "at most 80 characters"))
    return Note(path, str(title).strip(), _readers(path, tree, faults), body.strip() + "\n"), faults


def _readers(path: str, tree: Branch, faults: list[Fault]) -> tuple[str, ...]:
    if "to" not in tree:
        return ()
    value, line = tree["to"], tree.lines["to"]
    wanted = "write a list of " + ", ".join(READERS)
    if not isinstance(value, Row):
        faults.append(Fault(path, line, "to", "not a list", f"{wanted}, for example `to: [owner]`"))
        return ()
    for word in value:
        if word not in READERS:
            shown = word if isinstance(word, Text) else "..."
            faults.append(Fault(path, line, "to", f"`{shown}` is not a reader", f"{nearest(shown, READERS)}{wanted}"))
    return tuple(word for word in READERS if word in value)


def _body_faults(path: str, body: str, first: int) -> list[Fault]:
    faults = []
    if len(body) > LONGEST:
        faults.append(Fault(path, first, "", f"longer than {LONGEST} characters", "split it into two notes"))
    if not body.strip():
        faults.append(Fault(path, first, "", "no text under the head", "write the note, or remove the file"))
    for number, line in enumerate(body[:LONGEST].split("\n"), start=first):
        faults += text_faults(line, path, number)
        if _PICTURE.search(line):
            faults.append(Fault(path, number, "", "a picture", "notes hold text alone; pictures are not read"))
    return faults
