"""What changed since an earlier revision: results, checks, texts, sheets, who holds what is out of date."""

from collections.abc import Sequence

from generator.document.blocks import Block, Head, Points, Prose, table
from generator.document.section import Context, Section
from generator.release.slices import Changes

BOTH = (Head("Was", True, 22), Head("Is", True, 22))


def summary(c: Changes, context: Context) -> tuple[Block, ...]:
    """Against what this was compared, how much moved, and what nothing moved in."""
    touched = [s.number for s in context.sheets if s.changed]
    less = f" {c.less} more results moved by less than a hundredth." if c.less else ""
    still = f"Worked again and the same to the last digit: {', '.join(c.untouched)}." if c.untouched else ""
    return (
        Prose((
            f"Compared with {c.since}. Both designs were worked by the same program.",
            f"{len(c.numbers)} results are listed below.{less} {len(c.flips)} checks stand otherwise, came or went.",
            f"Sheets with marks of change: {', '.join(touched) or 'none'}.",
            still,
        )),
    )


def holders(c: Changes, context: Context) -> tuple[Block, ...]:
    """Who works by an older revision, and which answers rest on one."""
    made: list[Block] = []
    if c.holders:
        made += [Prose(("They hold an earlier revision and were sent nothing since:",)), Points(c.holders)]
    if c.stale:
        made += [Prose(("These answers were given to an earlier revision; ask again before you rely on one:",)),
                 Points(c.stale)]
    return tuple(made)


def flips(c: Changes, context: Context) -> tuple[Block, ...]:
    """Checks that stand otherwise."""
    heads = (Head("Check", width=60), Head("Was", width=20), Head("Is", width=20))
    rows = [(m.title, m.was, m.now) for m in c.flips]
    return (table("Checks that stand otherwise", heads, rows, is_titled=True),) if rows else ()


def numbers(c: Changes, context: Context) -> tuple[Block, ...]:
    """Results that moved."""
    return _moved("Results that moved", "Result", [(m.title, m.was, m.now, m.percent) for m in c.numbers])


def fields(c: Changes, context: Context) -> tuple[Block, ...]:
    """Texts of the spec that are other."""
    return _moved("Texts of the spec", "Path", [(m.id, m.was, m.now, m.percent) for m in c.fields])


def clauses(c: Changes, context: Context) -> tuple[Block, ...]:
    """Texts of the request that are other."""
    heads = (Head("Clause", width=22), Head("What", width=22), Head("Was", width=28), Head("Is", width=28))
    rows = [(m.id, m.title, m.was, m.now) for m in c.clauses]
    return (table("Clauses of the request", heads, rows, is_titled=True),) if rows else ()


def sheets(c: Changes, context: Context) -> tuple[Block, ...]:
    """Texts of the sheets that are other, by zone."""
    heads = (Head("Sheet", width=12), Head("Zone", width=12), Head("Was", width=38), Head("Is", width=38))
    rows = [(s.number, o.zone, o.was, o.now) for s in context.sheets for o in s.changed]
    return (table("Texts of the drawings", heads, rows, is_titled=True, note="Each stands in a cloud with a delta "
                  "on its sheet."),) if rows else ()


def data(c: Changes, context: Context) -> tuple[Block, ...]:
    """What of program and reference data is other."""
    return (Points(c.data),) if c.data else ()


def _moved(caption: str, what: str, rows: Sequence[tuple[str, str, str, str]]) -> tuple[Block, ...]:
    heads = (Head(what, width=42), *BOTH, Head("By", True, 14))
    return (table(caption, heads, rows, is_titled=True),) if rows else ()


SUMMARY = Section("changes", "What changed", Changes, summary)
HOLDERS = Section("holders", "Who must be told", Changes, holders)
FLIPS = Section("flips", "Checks that stand otherwise", Changes, flips)
NUMBERS = Section("moved-results", "Results that moved", Changes, numbers)
CLAUSES = Section("moved-clauses", "Clauses of the request", Changes, clauses)
SHEETS = Section("moved-sheets", "Texts of the drawings", Changes, sheets)
FIELDS = Section("moved-fields", "Texts of the spec", Changes, fields)
DATA = Section("moved-data", "Program and reference data", Changes, data)
