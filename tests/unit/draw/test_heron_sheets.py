"""The sheets of the invented example design, through the whole calculation."""

from functools import cache
from pathlib import Path

import lookout
import pytest

from generator.design import design
from generator.draw.marks import Text, texts
from generator.draw.pages import inner
from generator.draw.sheet import Sheet
from generator.draw.sheets import sheets_for
from generator.release.cut import cut

HERON = Path(__file__).resolve().parents[3] / "specs" / "heron"
NUMBERS = (
    "G1", "G2", "F1", "F2", "F2.2", "F3", "F4", "F5", "F6", "F7", "E1", "S1", "L1", "L1.2", "L1.3", "L1.4", "L2", "L3",
    "L4", "A1", "M1",
)


@cache
def _sheets(units: str, to: str) -> tuple[Sheet, ...]:
    it = design(HERON)
    return sheets_for(cut(it.model, it.results, it.data, to, "0123456789ab", units))


@pytest.mark.parametrize(("to", "without"), [("owner", ()), ("fabricator", ("L2", "M1"))])
def test_every_sheet_of_the_set_is_there(to: str, without: tuple[str, ...]) -> None:
    """The limits of the route, and with them their chain of heights, stay with the owner; and money does."""
    assert lookout.once(s.number for s in _sheets("us", to)) == tuple(n for n in NUMBERS if n not in without)


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_draughtsperson_would_sign_them(units: str) -> None:
    for sheet in _sheets(units, "owner"):
        assert lookout.text_on_text(sheet.marks) == [], sheet.number
        assert lookout.text_on_lines(sheet.marks) == [], sheet.number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], sheet.number
        assert len(sheet.svg().encode()) <= 120_000


@pytest.mark.parametrize("units", ["us", "si"])
def test_every_mark_is_lettered_and_no_text_is_cut(units: str) -> None:
    """Every member of the schedule on the frame plan, those of neck and riser on the neck detail too."""
    by_number = {s.number: s for s in _sheets(units, "fabricator")}
    words = {w for t in texts(by_number["F1"].marks) for w in t.text.split()}
    marks = {p.mark for p in design(HERON).model.pieces}
    assert marks <= words
    neck = {w for t in texts(by_number["F3"].marks) for w in t.text.split()}
    assert {p.mark for p in design(HERON).model.pieces if p.z0 > 0.0 and p.x1 < 0.0} <= neck
    for sheet in by_number.values():
        assert not [t.text for t in texts(sheet.marks) if "…" in t.text]
        last = max((t for t in texts(sheet.marks) if t.id.startswith("notes.") and t.id.count(".") == 2), key=_line)
        assert last.text.endswith("."), sheet.number


def _line(t: Text) -> float:
    return t.at[1]
