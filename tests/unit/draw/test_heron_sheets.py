"""The sheets of the invented example design, through the whole calculation."""

from functools import cache
from pathlib import Path

import lookout
import pytest

from generator.design import design
from generator.draw.pages import inner
from generator.draw.sheet import Sheet
from generator.draw.sheets import sheets_for
from generator.release.cut import cut

HERON = Path(__file__).resolve().parents[3] / "specs" / "heron"
NUMBERS = ("G1", "F1", "F3", "F6", "L1", "L2", "L3", "L4")


@cache
def _sheets(units: str, to: str) -> tuple[Sheet, ...]:
    it = design(HERON)
    return sheets_for(cut(it.model, it.results, it.data, to, "0123456789ab", units))


@pytest.mark.parametrize(("to", "without"), [("owner", ()), ("fabricator", ("L2",))])
def test_every_sheet_of_the_set_is_there(to: str, without: tuple[str, ...]) -> None:
    """The limits of the route, and with them their chain of heights, stay with the owner."""
    assert tuple(s.number for s in _sheets("us", to)) == tuple(n for n in NUMBERS if n not in without)


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_draughtsperson_would_sign_them(units: str) -> None:
    for sheet in _sheets(units, "owner"):
        assert lookout.text_on_text(sheet.marks) == [], sheet.number
        assert lookout.text_on_lines(sheet.marks) == [], sheet.number
        assert lookout.outside(sheet.marks, inner(sheet.size)) == [], sheet.number
        assert len(sheet.svg().encode()) <= 120_000
