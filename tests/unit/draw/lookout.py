"""What must hold for the marks of any sheet, as functions that return what is wrong."""

import itertools
import math
import re
from collections.abc import Iterable, Iterator

from generator.draw.marks import Circle, Line, Mark, Rect, Text, texts
from generator.draw.pages import Lettering, inner
from generator.draw.pens import PENS
from generator.draw.place import circle_points, crosses
from generator.draw.sheet import Sheet

BUCKET = 10.0
"""Grid over the paper, mm."""


def _shrunk(box: Rect) -> Rect:
    return box.grown(-0.1)


def faults(sheet: Sheet, show: Lettering) -> list[tuple[str, ...]]:
    """Everything a draughtsperson would send back, of a finished sheet of any number."""
    marks = sheet.marks
    return [
        *(("text on text", *pair) for pair in text_on_text(marks)),
        *(("text on line", *pair) for pair in text_on_lines(marks)),
        *(("outside the frame", id) for id in outside(marks, inner(sheet.size))),
        *(("not the number of the model", *pair) for pair in misprinted(marks, show)),
        *(("not true to scale", id) for id in untrue(sheet)),
        *(("chain does not close", id) for id in unclosed(marks)),
        *(("cut short", text) for text in cut_short(marks)),
    ]


def text_on_text(marks: Iterable[Mark]) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes meet."""
    listed = sorted(texts(marks), key=lambda t: t.box.x0)
    found = []
    for i, a in enumerate(listed):
        for b in listed[i + 1 :]:
            if b.box.x0 > a.box.x1:
                break
            if _shrunk(a.box).meets(_shrunk(b.box)):
                found.append((f"{a.id}: {a.text}", f"{b.id}: {b.text}"))
    return found


def _keys(box: Rect) -> Iterator[tuple[int, int]]:
    for i in range(math.floor(box.x0 / BUCKET), math.floor(box.x1 / BUCKET) + 1):
        for j in range(math.floor(box.y0 / BUCKET), math.floor(box.y1 / BUCKET) + 1):
            yield i, j


def text_on_lines(marks: tuple[Mark, ...]) -> list[tuple[str, str]]:
    """Texts that stand on a line of any pen."""
    grid: dict[tuple[int, int], list[tuple[Text, Rect]]] = {}
    for t in texts(marks):
        box = _shrunk(t.box)
        for key in _keys(box):
            grid.setdefault(key, []).append((t, box))
    strokes = [(m.id, s) for m in marks if isinstance(m, Line) and m.pen in PENS for s in m.segments()]
    strokes += [(m.id, s) for m in marks if isinstance(m, Circle) and m.pen in PENS
                for s in itertools.pairwise(circle_points(m))]
    found = {}
    for id, (a, b) in strokes:
        around = Rect(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        for t, box in (pair for key in _keys(around) for pair in grid.get(key, ())):
            if crosses(a, b, box):
                found[f"{t.id}: {t.text}", id] = None
    return list(found)


def outside(marks: Iterable[Mark], frame: Rect) -> list[str]:
    """Marks that leave the frame, apart from the frame's own band of zones."""
    found = []
    for m in marks:
        if m.id.startswith(("frame", "zone.")):
            continue
        match m:
            case Text():
                ok = m.box.inside(frame)
            case Circle():
                (x, y), r = m.centre, m.radius
                ok = Rect(x - r, y - r, x + r, y + r).inside(frame)
            case _:
                ok = all(
                    frame.x0 - 1e-6 <= x <= frame.x1 + 1e-6 and frame.y0 - 1e-6 <= y <= frame.y1 + 1e-6
                    for x, y in m.points
                )
        if not ok:
            found.append(m.id)
    return found


def once(numbers: Iterable[str]) -> tuple[str, ...]:
    """Numbers of sheets with the schedules, which are as many as their rows need, told once as S1."""
    listed = tuple(numbers)
    schedules = [n for n in listed if n.startswith("S")]
    assert schedules == [f"S{i}" for i in range(1, len(schedules) + 1)]
    return tuple(n for n in listed if n == "S1" or n not in schedules)
def misprinted(marks: Iterable[Mark], show: Lettering) -> list[tuple[str, str]]:
    """Texts that do not say what the formatter makes of the model's number, rounded either way."""
    wrong = []
    for t in texts(marks):
        if t.value is None:
            continue
        forms = {show(t.value, t.unit, toward) for toward in ("near", "up", "down")} | ({"0"} if not t.value else set())
        if not any(form in t.text for form in forms):
            wrong.append((t.id, t.text))
    return wrong


def ratios(sheet: Sheet) -> frozenset[float]:
    """Every scale printed on a sheet."""
    said = [sheet.scale, *(t.text for t in texts(sheet.marks) if ".title" in t.id)]
    return frozenset(float(n) for text in said for n in re.findall(r"\b1:(\d+(?:\.\d+)?)", text))


def spans(marks: Iterable[Mark]) -> list[tuple[str, bool, float, float, float]]:
    """Dimensions between two witness lines: id, whether level, both places along it (mm), the value they show (m)."""
    listed = tuple(marks)
    lines = {m.id: m for m in listed if isinstance(m, Line) and m.pen == "dimension"}
    found = []
    for t in texts(listed):
        id = t.id.removesuffix(".text")
        if t.value is None or t.unit != "m" or not {id, f"{id}.a", f"{id}.b"} <= lines.keys():
            continue
        first, last = lines[id].points
        level = abs(first[1] - last[1]) < 1e-9
        a, b = (lines[f"{id}.{end}"].points[0][0 if level else 1] for end in "ab")
        found.append((id, level, min(a, b), max(a, b), t.value))
    return found


def untrue(sheet: Sheet) -> list[str]:
    """Dimensions whose drawn length is at none of the sheet's scales what they say, to 0.1 mm on paper."""
    known = ratios(sheet)
    return [f"{id}: {b - a:.2f} mm for {value:.4f} m" for id, _, a, b, value in spans(sheet.marks)
            if not any(abs(b - a - abs(value) * 1000.0 / r) <= 0.1 for r in known)]


def unclosed(marks: Iterable[Mark]) -> list[str]:
    """Dimensions that two others make up end to end on paper, but not in numbers."""
    listed = [s for s in spans(marks) if s[4] > 0.0]
    wrong = []
    for one, two in itertools.permutations(listed, 2):
        if one[1] != two[1] or abs(one[3] - two[2]) > 1e-6 or one[3] - one[2] < 0.1 or two[3] - two[2] < 0.1:
            continue
        for whole in listed:
            same = whole[1] == one[1] and abs(whole[2] - one[2]) < 1e-6 and abs(whole[3] - two[3]) < 1e-6
            if same and abs(one[4] + two[4] - whole[4]) > 1e-6:
                wrong.append(f"{one[0]} + {two[0]} = {one[4] + two[4]:.5f}, {whole[0]} = {whole[4]:.5f}")
    return wrong


def cut_short(marks: Iterable[Mark]) -> list[str]:
    """Texts of our own that end in an ellipsis, and a last note that does not end as a sentence."""
    listed = texts(marks)
    cut = [t.text for t in listed if t.text.endswith("…") and not t.id.startswith(("block", "revisions"))]
    notes = [t for t in listed if re.fullmatch(r"notes\.\d+\.\d+", t.id)]
    last = max(notes, key=lambda t: t.at[1]).text if notes else "."
    return cut if last.endswith(".") else [*cut, last]
