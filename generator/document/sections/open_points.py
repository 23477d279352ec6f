"""What is still open: what, who, what it holds up."""

from generator.calc.findings import Task
from generator.document.blocks import Block, Head, table
from generator.document.section import Context, Section
from generator.document.sentences import in_its_file, opening
from generator.release.slices import Register

MOST = 5
HEADS = (Head("What to find out", width=54), Head("Who", width=18), Head("What waits for it", width=28))


def brief(register: Register, context: Context) -> tuple[Block, ...]:
    """The first five, for the one-page sheet."""
    rows = [(opening(_wanted(t), 110), _who(t.who), opening(t.blocks, 80)) for t in register.tasks[:MOST]]
    return (
        (table("Still open", HEADS, rows, "tight", is_titled=True, left_out=len(register.tasks) - len(rows)),)
        if rows
        else ()
    )


def _wanted(task: Task) -> str:
    """What is wanted, without the name of what waits for it: that stands in a column of its own."""
    what = in_its_file(task.what.removeprefix(f"{task.blocks}: needs "))
    return what if "_" in what.partition(" ")[0] else what[:1].upper() + what[1:]


def _who(who: str) -> str:
    """The people alone: what is asked of them stands in the whole list."""
    return opening(who.partition(": ")[0], 50)


def whole(register: Register, context: Context) -> tuple[Block, ...]:
    """All of them."""
    rows = [(_wanted(t), t.who, t.blocks) for t in register.tasks]
    return (table("What is still open", HEADS, rows, is_titled=True),) if rows else ()


OPEN_BRIEF = Section("open", "Still open", Register, brief)
OPEN = Section("open", "Still open", Register, whole)
