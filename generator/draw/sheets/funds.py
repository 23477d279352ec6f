"""M1 money, for the owner alone: cost by section, cash by milestone against the base and P50 and P80 of the whole."""

from collections.abc import Sequence
from decimal import Decimal

from generator.calc.findings import Budget, SumRow
from generator.draw.marks import TEXT, Line, Mark, Point, Rect, Text, hatched, rectangle
from generator.draw.marks import TITLE as HEAD
from generator.draw.pages import Drawing
from generator.draw.sheet import Schedule
from generator.draw.sheets.charts import Tag, tags
from generator.draw.sheets.kit import Kit, Views, kit, need
from generator.draw.sheets.tabular import lettered
from generator.draw.text import clean, fit, width
from generator.errors import RenderError
from generator.release.slices import Desk, Money

NUMBER, TITLE, NEEDS = "M1", "Money", Money
PITCH, BAR, AFTER, APART, TAGS = 6.6, 4.0, 2.0, 12.0, 18.0
"""Distance of two bars, their depth, room before a sum, between the charts, and below a chart for its limits, mm."""
ROWS, NAMED = 14, 76.0
"""Most bars in a chart, and most room of a name, mm."""


def draw(desk: Desk) -> Drawing:
    """The sheet; raises RenderError when something it needs is missing or unknown."""
    k, b = kit(desk), need(desk, Money).budget
    if not b.sections or not b.milestones:
        raise RenderError("cannot be drawn without a line in the budget")
    notes = (
        "All sums with tax, likely amounts; the base is their total. The milestones add up to it.",
        "P50 and P80: half and four in five of the trials end at or below; the base in "
        f"{k.show.percent(b.below_base)}. "
        f"Contingency to P80: {k.show.money(b.contingency)}.",
        f"Not priced: {len(b.not_priced)} questions nobody has answered; no sum here holds them.",
        "For the owner alone: take this sheet out before the set is passed on.",
    )
    alt = (
        f"Bars of cost by section and of cash by milestone. Base {k.show.money(b.base)}, P50 {k.show.money(b.p50)}, "
        f"P80 {k.show.money(b.p80)}. All sums stand in the schedules."
    )
    return Drawing(NUMBER, TITLE, "cost by section, cash by milestone", "all sums with tax", None,
                   _sheet(k, b), notes, alt, tuple(_schedules(k, b)))


def few(rows: Sequence[SumRow], most: int = ROWS) -> list[SumRow]:
    """The rows in order; of more than `most` the last ones as one row that says how many it holds."""
    if len(rows) <= most:
        return list(rows)
    rest = rows[most - 1:]
    total = sum((r.total for r in rest), Decimal(0))
    return [*rows[:most - 1], SumRow(f"{len(rest)} more", sum(r.lines for r in rest), total)]


def _schedules(k: Kit, b: Budget) -> list[Schedule]:
    due, rows = Decimal(0), []
    for m in b.milestones:
        due += m.total
        rows.append((m.title, str(m.lines), k.show.money(m.total), k.show.money(due)))
    return [
        _sums(k, "Cost by section", "Section", b.sections),
        Schedule("Cash by milestone", ("Milestone", "Lines", "Due", "In all"), (False, True, True, True), tuple(rows)),
        _sums(k, "How sure", "Status", b.statuses),
        Schedule("Not priced", ("What", "Typical"), (False, False),
                 tuple((k.say(p.title), k.say(p.typical)) for p in b.not_priced)),
    ]


def _sums(k: Kit, title: str, what: str, rows: Sequence[SumRow]) -> Schedule:
    listed = tuple((r.title.capitalize(), str(r.lines), k.show.money(r.total)) for r in rows)
    return Schedule(title, (what, "Lines", "Sum"), (False, True, True), listed)


def _sheet(k: Kit, b: Budget) -> Views:
    room = k.room
    half = (room.x1 - room.x0 - APART) / 2.0
    left, right = (Rect(x, room.y0, x + half, room.y1) for x in (room.x0, room.x1 - half))
    sections, milestones = few(b.sections), few(b.milestones)
    marks = [
        *_bars(k, "section", "COST BY SECTION", sections, [Decimal(0)] * len(sections), left,
               max(r.total for r in sections)),
        *_bars(k, "milestone", "CASH BY MILESTONE", milestones, _starts(milestones), right, max(b.base, b.p80)),
    ]
    foot = room.y0 + HEAD + 4.0 + PITCH * len(milestones)
    marks += _limits(k, b, milestones, right, foot)
    return (*marks, *_tables(k, b, left, room.y0 + HEAD + 4.0 + PITCH * len(sections) + 6.0, right, foot + TAGS))


def _starts(rows: Sequence[SumRow]) -> list[Decimal]:
    """What is due before each row."""
    return [sum((r.total for r in rows[:n]), Decimal(0)) for n in range(len(rows))]


def _names(rows: Sequence[SumRow]) -> float:
    return min(max(width(clean(r.title), TEXT) for r in rows), NAMED) + 3.0


def _scale(k: Kit, rows: Sequence[SumRow], box: Rect, most: Decimal) -> tuple[float, float]:
    """Where the bars begin, and mm for one unit of money."""
    x = box.x0 + _names(rows)
    sums = max(width(k.show.money(r.total), TEXT) for r in rows) + AFTER
    return x, (box.x1 - x - sums) / float(max(most, Decimal(1)))


def _bars(k: Kit, id: str, title: str, rows: Sequence[SumRow], starts: Sequence[Decimal], box: Rect,
          most: Decimal) -> list[Mark]:
    x, mm = _scale(k, rows, box, most)
    y = box.y0 + HEAD + 4.0
    marks: list[Mark] = [Text(f"{id}.title", title, (box.x0, box.y0 + HEAD), HEAD, bold=True)]
    marks.append(Line(f"{id}.zero", "thin", ((x, y), (x, y + PITCH * len(rows)))))
    for n, (r, start) in enumerate(zip(rows, starts, strict=True)):
        top, a = y + PITCH * n + (PITCH - BAR) / 2.0, x + float(start) * mm
        end, base = a + float(r.total) * mm, top + (BAR + TEXT) / 2.0
        name = fit(r.title[:1].upper() + r.title[1:], TEXT, NAMED)
        marks += [Text(f"{id}.{n}.name", name, (box.x0, base)),
                  rectangle(f"{id}.{n}", "outline", a, top, end, top + BAR),
                  *hatched(f"{id}.{n}.hatch", Rect(a, top, end, top + BAR)),
                  Text(f"{id}.{n}.sum", k.show.money(r.total), (end + AFTER, base))]
    return marks


def _limits(k: Kit, b: Budget, rows: Sequence[SumRow], box: Rect, foot: float) -> Views:
    """Base, P50 and P80 below the chart of cash."""
    x, mm = _scale(k, rows, box, max(b.base, b.p80))
    named = (("base", b.base), ("P50", b.p50), ("P80", b.p80))
    listed = [Tag(f"limit.{id}", x + float(value) * mm, f"{id} {k.show.money(value)}") for id, value in named]
    return (Line("limit.axis", "thin", ((x, foot), (x + float(max(v for _, v in named)) * mm, foot))),
            *tags(listed, foot, True, box.x0, box.x1 + 5.0))


def _tables(k: Kit, b: Budget, left: Rect, low: float, right: Rect, beside: float) -> Views:
    """How sure the sums are, and what is not priced, as far as it has room."""
    sure = _sums(k, "How sure", "Status", b.statuses)
    marks = lettered("status", sure, (left.x0, low))
    at: Point = (right.x0, beside)
    count = int((right.y1 - beside) / 5.3) - 3
    open_, titles = b.not_priced, []
    for n, p in enumerate(open_):
        if n == count - 1 and len(open_) > count:
            titles.append(f"{len(open_) - n} more: see the schedule")
            break
        titles.append(k.say(p.title))
    table = Schedule(f"Not priced, {len(open_)} in all", ("What",), (False,),
                     tuple((fit(t, TEXT, right.x1 - right.x0 - 6.0),) for t in titles))
    return (*marks, *lettered("open", table, at)) if titles and count > 1 else marks
