"""The sheet around a drawing: frame, zones, title block, revision block, notes, scale bar, projection symbol."""

import math
from dataclasses import dataclass

from generator.draw.marks import MARK, SMALL, TEXT, TITLE, Area, Circle, Line, Mark, Rect, Text, rectangle
from generator.draw.sheet import A3, TABLOID, Paper, Schedule, Sheet
from generator.draw.text import clean, fit, width, wrap
from generator.errors import RenderError
from generator.release.slices import Cover, Desk, Revisions, Steel
from generator.units import Show, Toward

LEFT, OTHER, BAND = 20.0, 10.0, 5.0
"""Frame to edge of paper at the binding side and elsewhere, and the band of zones outside the frame, mm."""
BLOCK = (180.0, 54.0)
"""Title block, mm. Source: ISO 7200 allows 180 mm."""
REVISIONS, REVISION_ROW = 2, 6.0
"""Rows of the revision block and their height, mm."""
ZONES = ("12345678", "ABCDEF")
MOST_LINES = 12
"""Lines after which a single note is cut with an ellipsis: no note of ours has half as many."""
ADMITTED, HEADING = 5.0, 12.4
"""Kept free inside the frame, and height of a view title with the room above it, mm."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """What one sheet shows, already on its paper; the frame comes with `framed`."""

    number: str
    title: str
    subtitle: str
    state: str
    ratio: float | None
    marks: tuple[Mark, ...]
    notes: tuple[str, ...]
    alt: str
    schedule: tuple[Schedule, ...]

    @property
    def scale(self) -> str:
        """The scale as printed."""
        return f"1:{self.ratio:g}" if self.ratio else "as noted"


class Lettering(Show):
    """Values as lettered on a sheet: metric lengths always in mm, as the units cell says."""

    def __call__(self, value: float | None, unit: str, toward: Toward = "near") -> str:
        """The value with its unit, rounded `toward` the safe side."""
        if unit == "m" and self.system == "si" and value is not None and math.isfinite(value):
            return f"{self.number(value, unit, toward)}\u00a0{self.label(unit)}"
        return Show.__call__(self, value, unit, toward)


def lettering(cover: Cover) -> Lettering:
    """The formatter of a project's sheets."""
    return Lettering("us" if cover.units == "us" else "si", cover.currency)


def paper(cover: Cover) -> Paper:
    """11x17 in for US units, A3 for SI."""
    return TABLOID if cover.units == "us" else A3


def inner(page: Paper) -> Rect:
    """The frame."""
    return Rect(LEFT, OTHER, page.width - OTHER, page.height - OTHER)


def field(page: Paper) -> Rect:
    """Where views may stand: above title and revision blocks."""
    f = inner(page)
    blocks = BLOCK[1] + REVISION_ROW * (REVISIONS + 1)
    return Rect(f.x0 + ADMITTED, f.y0 + ADMITTED, f.x1 - ADMITTED, f.y1 - blocks - ADMITTED / 2.0)


def zone_of(page: Paper, at: tuple[float, float]) -> str:
    """The zone of a place on the paper: letter down, number across. Source: ISO 5457."""
    f = inner(page)
    down = int((at[1] - f.y0) / (f.y1 - f.y0) * len(ZONES[1]))
    across = int((at[0] - f.x0) / (f.x1 - f.x0) * len(ZONES[0]))
    return (ZONES[1][min(max(down, 0), len(ZONES[1]) - 1)] + ZONES[0][min(max(across, 0), len(ZONES[0]) - 1)])


def margin(page: Paper) -> Rect:
    """Where notes stand: left of title and revision blocks, below room for a view title that reaches down here."""
    f = inner(page)
    return Rect(f.x0 + ADMITTED, field(page).y1 + HEADING + 2.0, f.x1 - BLOCK[0] - ADMITTED, f.y1 - ADMITTED)


def framed(drawing: Drawing, desk: Desk, cover: Cover, place: tuple[int, int]) -> Sheet:
    """The finished sheet: `place` is its number and the count of all."""
    page = paper(cover)
    show = lettering(cover)
    marks = (
        *_frame(page),
        *_block(page, drawing, desk, cover, place),
        *_revisions(page, desk, cover),
        *_notes(page, drawing.notes),
        *_scale_bar(page, drawing, show),
        *drawing.marks,
    )
    return Sheet(drawing.number, drawing.title, page, drawing.scale, marks, drawing.alt, drawing.schedule)


def brief(text: str, height: float, room: float) -> str:
    """The text if it fits, else its first sentence or clause, else cut with an ellipsis."""
    for mark in ("", ". ", "; ", ", "):
        part = text.split(mark)[0] if mark else text
        if width(clean(part), height) <= room:
            return clean(part)
    return fit(text.split(", ")[0], height, room)


def _frame(page: Paper) -> list[Mark]:
    f = inner(page)
    b = f.grown(BAND)
    marks: list[Mark] = [
        rectangle("frame", "frame", f.x0, f.y0, f.x1, f.y1),
        rectangle("frame.band", "thin", b.x0, b.y0, b.x1, b.y1),
    ]
    for i, name in enumerate(ZONES[0]):
        x, step = f.x0 + (f.x1 - f.x0) * i / 8.0, (f.x1 - f.x0) / 8.0
        for key, y0, y1 in (("t", b.y0, f.y0), ("b", f.y1, b.y1)):
            if i:
                marks.append(Line(f"zone.{key}{name}", "thin", ((x, y0), (x, y1))))
            marks.append(
                Text(f"zone.{key}{name}.name", name, (x + step / 2.0, (y0 + y1 + SMALL) / 2.0), SMALL, "middle")
            )
    for i, name in enumerate(ZONES[1]):
        y, step = f.y0 + (f.y1 - f.y0) * i / 6.0, (f.y1 - f.y0) / 6.0
        for key, x0, x1 in (("l", b.x0, f.x0), ("r", f.x1, b.x1)):
            if i:
                marks.append(Line(f"zone.{key}{name}", "thin", ((x0, y), (x1, y))))
            at = ((x0 + x1) / 2.0, y + (step + SMALL) / 2.0)
            marks.append(Text(f"zone.{key}{name}.name", name, at, SMALL, "middle"))
    return marks


@dataclass(frozen=True, slots=True)
class _Cell:
    width: float
    name: str
    value: str
    height: float = TEXT
    bold: bool = False


def _block(page: Paper, d: Drawing, desk: Desk, cover: Cover, place: tuple[int, int]) -> list[Mark]:
    f = inner(page)
    x0, y = f.x1 - BLOCK[0], f.y1 - BLOCK[1]
    steel = desk.get(Steel)
    tolerance = f"ISO 13920 class {steel.tolerance_class}" if isinstance(steel, Steel) else "as stated"
    units = "feet-inches to 1/16″" if cover.units == "us" else "mm, to 1 mm"
    rows = (
        (
            8.0,
            (
                _Cell(120.0, "", f"Do not scale. Written dimensions govern.\u00a0 To: {cover.recipient}"),
                _Cell(60.0, "basis", cover.basis_hash[:12]),
            ),
        ),
        (
            10.0,
            (
                _Cell(45.0, "units", units),
                _Cell(60.0, "general tolerance", tolerance),
                _Cell(45.0, "load state", d.state),
                _Cell(30.0, "", ""),
            ),
        ),
        (
            10.0,
            (
                _Cell(36.0, "drawn", cover.designer),
                _Cell(36.0, "checked", ""),
                _Cell(36.0, "approved", ""),
                _Cell(36.0, "date of issue", cover.date),
                _Cell(36.0, "scale", d.scale),
            ),
        ),
        (14.0, (_Cell(110.0, d.subtitle, d.title, TITLE, True), _Cell(70.0, "status", cover.status, TITLE, True))),
        (
            12.0,
            (
                _Cell(60.0, cover.owner, cover.title),
                _Cell(50.0, "drawing number", f"{cover.id}-{d.number}"),
                _Cell(14.0, "rev", cover.revision),
                _Cell(26.0, "sheet", f"{place[0]} of {place[1]}"),
                _Cell(14.0, "size", page.name.split()[0], SMALL),
                _Cell(16.0, "lang.", "en"),
            ),
        ),
    )
    marks: list[Mark] = [rectangle("block", "outline", x0, y, f.x1, f.y1)]
    for r, (height, cells) in enumerate(rows):
        x = x0
        if r:
            marks.append(Line(f"block.{r}", "thin", ((x0, y), (f.x1, y))))
        for c, cell in enumerate(cells):
            marks += _cell(f"block.{r}.{c}", x, y, height, cell)
            x += cell.width
        y += height
    return marks + _projection(f.x1 - 30.0, f.y1 - BLOCK[1] + 8.0)


def _cell(id: str, x: float, y: float, height: float, cell: _Cell) -> list[Mark]:
    marks: list[Mark] = []
    room = cell.width - 3.0
    if not id.endswith(".0"):
        marks.append(Line(f"{id}.edge", "thin", ((x, y), (x, y + height))))
    if height == 8.0:
        words = "  ".join(w for w in (cell.name, cell.value) if w)
        return [*marks, Text(id, fit(words, cell.height, room), (x + 1.5, y + 5.5), cell.height)]
    if cell.height == TITLE:
        big, small, letters = (6.6, 12.2, MARK) if id.endswith(".0") else (12.2, 3.8, SMALL)
        return [
            *marks,
            Text(id, fit(cell.value, TITLE, room, True), (x + 1.5, y + big), TITLE, bold=True),
            Text(f"{id}.name", fit(cell.name, letters, room), (x + 1.5, y + small), letters),
        ]
    if cell.name:
        marks.append(Text(f"{id}.name", brief(cell.name, SMALL, room), (x + 1.5, y + 3.6), SMALL))
    if cell.value:
        tall = SMALL if brief(cell.value, cell.height, room).endswith("…") else cell.height
        marks.append(Text(id, brief(cell.value, tall, room), (x + 1.5, y + height - 1.8), tall, bold=cell.bold))
    return marks


def _projection(x: float, y: float) -> list[Mark]:
    """Third-angle symbol: the small end of the cone is seen to the left of its side view. Source: ISO 128-3."""
    cx, cy = x + 5.5, y + 5.0
    return [
        Circle("projection.small", "thin", (cx, cy), 1.1),
        Circle("projection.large", "thin", (cx, cy), 2.2),
        Line(
            "projection.cone",
            "thin",
            ((cx + 4.5, cy - 1.1), (cx + 9.5, cy - 2.2), (cx + 9.5, cy + 2.2), (cx + 4.5, cy + 1.1)),
            closed=True,
        ),
        Line("projection.axis", "grid", ((cx - 3.4, cy), (cx + 10.8, cy))),
        Line("projection.axis.up", "grid", ((cx, cy - 3.4), (cx, cy + 3.4))),
        Text("projection.words", "third", (x + 17.0, y + 4.6), SMALL),
        Text("projection.words.2", "angle", (x + 17.0, y + 8.2), SMALL),
    ]


def _revisions(page: Paper, desk: Desk, cover: Cover) -> list[Mark]:
    f = inner(page)
    x0, top = f.x1 - BLOCK[0], f.y1 - BLOCK[1] - REVISION_ROW * (REVISIONS + 1)
    widths = (12.0, 16.0, 104.0, 24.0, 24.0)
    known = desk.get(Revisions)
    rows = [("rev", "zone", "description", "date", "by")]
    if isinstance(known, Revisions):
        rows += [(r.label, "–", r.why or r.changes[0], r.date, r.asked_by) for r in known.rows[-REVISIONS:]]
    else:
        rows.append((cover.revision, "–", cover.purpose, cover.date, "–"))
    rows += [("", "", "", "", "")] * (REVISIONS + 1 - len(rows))
    marks: list[Mark] = [rectangle("revisions", "thin", x0, top, f.x1, top + REVISION_ROW * len(rows))]
    for r, row in enumerate(rows):
        y, x = top + r * REVISION_ROW, x0
        if r:
            marks.append(Line(f"revisions.{r}", "thin", ((x0, y), (f.x1, y))))
        for c, (text, w) in enumerate(zip(row, widths, strict=False)):
            if c and not r:
                marks.append(Line(f"revisions.col.{c}", "thin", ((x, top), (x, top + REVISION_ROW * len(rows)))))
            if text:
                words = brief(text, SMALL, w - 3.0)
                marks.append(Text(f"revisions.{r}.{c}", words, (x + 1.5, y + 4.2), SMALL))
            x += w
    return marks


def _notes(page: Paper, notes: tuple[str, ...]) -> list[Mark]:
    """The notes in full, in the least height of letters allowed where they need it."""
    m = margin(page)
    tall, pitch, laid = note_lines(page, notes)
    marks: list[Mark] = [Text("notes", "NOTES", (m.x0, m.y0 + TEXT), TEXT, bold=True)]
    y = m.y0 + TEXT + pitch
    for i, lines in enumerate(laid, 1):
        marks.append(Text(f"notes.{i}", f"{i}", (m.x0, y), tall))
        for j, line in enumerate(lines):
            marks.append(Text(f"notes.{i}.{j}", line, (m.x0 + 7.0, y), tall))
            y += pitch
    return marks


def note_lines(page: Paper, notes: tuple[str, ...]) -> tuple[float, float, tuple[tuple[str, ...], ...]]:
    """Height of letters and pitch of lines (mm) at which all notes fit, and their lines.

    Raises RenderError where none does: a note that is left out would not be missed.
    """
    m = margin(page)
    for tall, pitch in ((TEXT, 5.2), (SMALL, 4.2)):
        laid = tuple(wrap(note, tall, m.x1 - m.x0 - 7.0, MOST_LINES) for note in notes)
        if m.y0 + TEXT + pitch * sum(map(len, laid)) <= m.y1 - 12.0:
            return tall, pitch, laid
    raise RenderError("has no room for its notes; use shorter names")


def _scale_bar(page: Paper, d: Drawing, show: Show) -> list[Mark]:
    """A bar of round length in the project's units; on a US sheet its end in mm too."""
    if d.ratio is None:
        return []
    m = margin(page)
    unit = 0.3048 if page is TABLOID else 1.0
    length = max(
        (n * unit for n in (0.25, 0.5, 1, 2, 5, 10, 20) if n * unit * 1000.0 / d.ratio <= 90.0), default=0.25 * unit
    )
    step, x, y = length * 1000.0 / d.ratio / 4.0, m.x0, m.y1 - 6.0
    marks: list[Mark] = [rectangle("scale", "thin", x, y, x + 4 * step, y + 2.0)]
    for i in (0, 2):
        marks.append(_black(f"scale.{i}", x + i * step, y, step))
    words = show(length, "m")
    if page is TABLOID:
        words += f" ({Lettering('si', 'USD')(length, 'm')})"
    marks += [
        Text("scale.zero", "0", (x, y - 1.4), SMALL),
        Text("scale.end", words, (x + 4 * step + 2.0, y + 2.2), SMALL),
        Text("scale.words", f"scale 1:{d.ratio:g}", (x + 4.0, y - 1.4), SMALL),
    ]
    return marks


def _black(id: str, x: float, y: float, width: float) -> Mark:
    return Area(id, "ink", ((x, y), (x + width, y), (x + width, y + 2.0), (x, y + 2.0)))
