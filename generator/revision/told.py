"""What moved between two designs, as lines for a terminal."""

from collections.abc import Iterable, Iterator, Sequence

from generator.draw.sheet import Sheet
from generator.release.standing import Changes, Moved


def told(c: Changes, sheets: Sequence[Sheet]) -> str:
    """The changes as text: what was written, which checks and results moved, which sheets, who is to be told."""
    groups: tuple[tuple[str, Iterable[str]], ...] = (
        ("Texts of the spec", (_row(m.id, m) for m in c.fields)),
        ("Checks that stand otherwise", (f"{m.id}: {m.was} -> {m.now}  ({m.title})" for m in c.flips)),
        ("Results that moved", (_row(m.id, m) for m in c.numbers)),
        ("Sheets", _sheets(sheets)),
        ("They hold an earlier revision", c.holders),
        ("Answers to an earlier revision", c.stale),
        ("Program and reference data", c.data),
    )
    made = [f"Since {c.since}"]
    for title, rows in groups:
        held = list(rows)
        if held:
            made += ["", f"{title}: {len(held)}", *(f"  {row}" for row in held)]
    if c.less:
        made += ["", f"{c.less} more results moved by less than a hundredth."]
    if c.untouched:
        made += ["", f"Worked again, nothing moved: {', '.join(c.untouched)}."]
    return "\n".join(made)


def _row(name: str, m: Moved) -> str:
    by = f"  ({m.percent})" if m.percent else ""
    return f"{name}: {m.was or 'nothing'} -> {m.now or 'nothing'}{by}"


def _sheets(sheets: Iterable[Sheet]) -> Iterator[str]:
    for s in sheets:
        if s.changed:
            zones = ", ".join(sorted({o.zone for o in s.changed}))
            yield f"{s.number} {s.title}: {len(s.changed)} texts in zones {zones}"
