"""What must hold for the marks of any sheet, as functions that return what is wrong."""

import itertools
from collections.abc import Iterable

from generator.draw.marks import Circle, Line, Mark, Rect, Text, texts
from generator.draw.pens import PENS
from generator.draw.place import cells, circle_points


def _shrunk(box: Rect) -> Rect:
    return box.grown(-0.1)


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


def text_on_lines(marks: tuple[Mark, ...]) -> list[tuple[str, str]]:
    """Texts that stand on a line of any pen."""
    strokes = [(m.id, s) for m in marks if isinstance(m, Line) and m.pen in PENS for s in m.segments()]
    strokes += [(m.id, s) for m in marks if isinstance(m, Circle) and m.pen in PENS
                for s in itertools.pairwise(circle_points(m))]
    near = [(id, a, b, Rect(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(0.1))
            for id, (a, b) in strokes]
    return [(f"{t.id}: {t.text}", id) for t in texts(marks) for id, a, b, around in near
            if _shrunk(t.box).meets(around) and any(_shrunk(t.box).meets(cell) for cell in cells(a, b))]


def outside(marks: Iterable[Mark], frame: Rect) -> list[str]:
    """Marks that leave the frame, apart from the frame's own band of zones."""
    found = []
    for m in marks:
        if m.id.startswith(("frame", "zone")):
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
