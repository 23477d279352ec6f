"""Two hundred trailers nobody wrote: every sheet of each is looked at as a draughtsperson would, in numbers.

Couplings, decks, running gear, numbers of axles, sizes and papers are mixed at random, always the same way. Source of
the rules of dimensioning: ISO 129-1 (texts clear of lines, chains that close); of scale: ISO 5455.
"""

from collections.abc import Iterable
from dataclasses import replace

import generated
import lookout
import pytest
from generated import Recipe
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from generator.draw.marks import Line, Mark, texts
from generator.draw.pages import lettering
from generator.draw.sheet import Sheet
from generator.draw.sheets import drawn, outlines
from generator.draw.views import View
from generator.model.types import Piece
from generator.release.slices import Cover, Desk, Placement, Steel

EACH = 34
"""Trailers made of each of the six bases."""
CALM = settings(
    max_examples=EACH, deadline=None, derandomize=True, database=None, phases=(Phase.explicit, Phase.generate),
    suppress_health_check=list(HealthCheck),
)


def _slice(desk: Desk, kind: type) -> object:
    found = desk.get(kind)
    assert found is not None
    return found


def _named(sheet: Sheet) -> set[str]:
    """Every word on a sheet and in the tables beside it."""
    words = {w for t in texts(sheet.marks) for w in t.text.split()}
    return words | {w for table in sheet.schedule for row in table.rows for cell in row for w in cell.split()}


def _places(marks: Iterable[Mark], pen: str, sign: float) -> tuple[list[float], list[float]]:
    """Where the strokes of a pen begin and end along and across, in order."""
    points = [q for m in marks if isinstance(m, Line) and m.pen == pen for q in m.points]
    return sorted(x for x, _ in points), sorted(sign * y for _, y in points)


def _mirrored(p: Piece) -> Piece:
    return replace(p, y0=-p.y1, y1=-p.y0)


@pytest.mark.parametrize("base", generated.BASES)
def test_sheets_of_any_trailer_can_be_signed(base: str) -> None:
    seen = []

    @CALM
    @given(st.builds(lambda r: replace(r, base=base), generated.RECIPES))
    def signed(recipe: Recipe) -> None:
        desk = generated.desk_of(recipe)
        cover, steel = _slice(desk, Cover), _slice(desk, Steel)
        assert isinstance(cover, Cover)
        assert isinstance(steel, Steel)
        sheets, without = drawn(desk)
        assert {u.number for u in without} <= ({"L3"} if desk.get(Placement) is None else set())
        seen.append(recipe)
        found = [(s.number, *f) for s in sheets for f in lookout.faults(s, lettering(cover))]
        assert found == []
        assert {p.mark for p in steel.pieces} <= _named(next(s for s in sheets if s.number == "F1"))
        # One side alone, so that a mirror image differs.
        odd = replace(steel, pieces=tuple(p for p in steel.pieces if p.y0 + p.y1 > -1e-6))
        turned = replace(odd, pieces=tuple(map(_mirrored, odd.pieces)))
        right, left = (outlines.steel_plan(s, View(32.0)) for s in (odd, turned))
        for pen in ("outline", "hidden"):
            for here, there in zip(_places(left, pen, 1.0), _places(right, pen, -1.0), strict=True):
                assert here == pytest.approx(there, abs=1e-3)
        assert _places(right, "outline", 1.0)[1] != pytest.approx(_places(right, "outline", -1.0)[1], abs=1e-3)

    signed()
    assert len(seen) >= EACH
    assert len({r.gear for r in seen}) > 3
    assert {r.units for r in seen} == {"us", "si"}
