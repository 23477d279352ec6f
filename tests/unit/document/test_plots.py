"""Plots of data: what they show against the numbers they are made of, where their texts stand, who gets them."""

import dataclasses
import itertools
import re
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from generator.calc.compared import Even, MoneyRow
from generator.calc.findings import Budget
from generator.calc.run import NO_LEVERS
from generator.design import compared, design
from generator.document.documents import assemble
from generator.document.plots import CURVE, EVENS, GROUPS, PLOTS, RATINGS, YEARS, canvas
from generator.document.plots.chart import WIDTH, Bar, Bars, Curves, alt_of, steps
from generator.document.plots.money import share_under
from generator.document.section import Context
from generator.release.cut import cut
from generator.release.slices import Cover, Desk, Money, Options
from generator.units import Show

SPECS = Path(__file__).resolve().parents[3] / "specs"
SHOW = Show("us", "USD")


@cache
def _desk(name: str, to: str, units: str) -> Desk:
    it = design(SPECS / name, NO_LEVERS)
    if to == "owner" and name == "heron":
        it = compared(it)
    return cut(it.model, it.results, it.data, to, "0", units)


def _context(desk: Desk) -> Context:
    cover = desk.get(Cover)
    assert isinstance(cover, Cover)
    return Context(Show("si" if cover.units == "si" else "us", cover.currency), cover)


def _charts(desk: Desk) -> dict[str, Bars | Curves]:
    context = _context(desk)
    found = {p.file: p.make(held, context) for p in PLOTS if (held := desk.get(p.needs)) is not None}
    return {file: chart for file, chart in found.items() if chart is not None}


def budget() -> Budget:
    curve = tuple(Decimal(90_000 + 1000 * n) for n in range(21))
    return Budget(
        "USD", (), (), (), (), Decimal(95_000), Decimal(100_000), Decimal(106_000), Decimal(11_000), 0.25, (), curve
    )


def test_the_curve_is_read_off_between_its_points():
    amounts = [float(a) for a in budget().curve]
    assert share_under(amounts, 90_000.0) == 0.0
    assert share_under(amounts, 100_000.0) == pytest.approx(0.5)
    assert share_under(amounts, 100_500.0) == pytest.approx(0.525)
    assert share_under(amounts, 1.0) == 0.0
    assert share_under(amounts, 1e9) == 1.0


def test_a_plot_is_text_in_our_font_and_the_same_each_time():
    chart = CURVE.make(Money(budget()), _context(_desk("wren", "owner", "us")))
    assert chart is not None
    first = canvas.written(CURVE.file, chart).decode()
    assert first == canvas.written(CURVE.file, chart).decode()
    assert "Source Sans Pro" in first
    for said in ("Base $95,000", "P50 $100,000", "P80 $106,000"):
        assert said in first
        assert said in alt_of(chart)
    assert "<dc:date>" not in first
    shown = re.search(r'width="([\d.]+)pt"', first)
    assert shown is not None
    assert float(shown[1]) == pytest.approx(WIDTH / 25.4 * 72.0, abs=1e-3)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", ["heron", "wren", "dipper", "first-sketch"])
def test_no_text_of_a_plot_meets_another_or_leaves_the_paper(name: str, units: str):
    """Boxes as matplotlib itself measures them with its own renderer."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    charts = _charts(_desk(name, "owner", units))
    assert len(charts) >= 6
    for file, chart in charts.items():
        ink = canvas.Ink()
        ink.text(0.0, 2.0, chart.title, bold=True)
        high = canvas._bars(ink, chart) if isinstance(chart, Bars) else canvas._curves(ink, chart)
        canvas.written(file, chart)
        import matplotlib

        with matplotlib.rc_context({"font.family": "Source Sans Pro", "font.size": canvas.SIZE}):
            figure = canvas.figure_of(ink, high)
            renderer = FigureCanvasAgg(figure).get_renderer()
            boxes = [(t.get_text(), t.get_window_extent(renderer)) for t in figure.axes[0].texts]
        page = figure.bbox
        for words, b in boxes:
            assert page.x0 - 0.5 <= b.x0, (file, words)
            assert b.x1 <= page.x1 + 0.5, (file, words)
            assert page.y0 - 0.5 <= b.y0, (file, words)
            assert b.y1 <= page.y1 + 0.5, (file, words)
        for (one, a), (other, b) in itertools.combinations(boxes, 2):
            meet = min(a.x1, b.x1) - max(a.x0, b.x0) > 0.5 and min(a.y1, b.y1) - max(a.y0, b.y0) > 1.0
            assert not meet, (file, one, other)


def test_bars_are_as_long_as_their_numbers():
    """Lengths in mm stand to one another as the numbers do; a negative one stands left of nought."""
    chart = Bars("t", (Bar("a", 100.0, "100"), Bar("b", 50.0, "50"), Bar("c", -25.0, "-25")))
    ink = canvas.Ink()
    canvas._bars(ink, chart)
    a, b, c = (x1 - x0 for x0, _, x1, _ in ink.boxes[canvas.BAR])
    assert (b / a, c / a) == pytest.approx((0.5, -0.25))


def test_groups_add_up_to_the_mass_as_towed():
    desk = _desk("heron", "owner", "us")
    chart = _charts(desk)[GROUPS.file]
    assert isinstance(chart, Bars)
    travel = next(s for s in design(SPECS / "heron").results.states if s.id == "travel")
    assert sum(b.value for b in chart.rows) == pytest.approx(travel.mass, rel=1e-9)


def test_ratings_are_those_of_the_table_and_loads_lie_across_them():
    desk = _desk("heron", "fabricator", "us")
    chart = _charts(desk)[RATINGS.file]
    assert isinstance(chart, Bars)
    it = design(SPECS / "heron").results.ratings
    assert {b.value for b in chart.rows if not b.is_heading} == {v for r in it for _, v in r.parts}
    assert max(r.value for r in chart.rules) == pytest.approx(max(r.load_worst for r in it))


def test_years_start_at_what_standing_still_costs():
    """At no move: base and the years standing still; at the project's moves: the total of the table."""
    money = _desk("heron", "owner", "us").get(Money)
    assert isinstance(money, Money)
    y = money.budget.years
    assert y is not None
    chart = _charts(_desk("heron", "owner", "us"))[YEARS.file]
    assert isinstance(chart, Curves)
    line = dict(chart.lines[0].points)
    assert line[0.0] == pytest.approx(float(money.budget.base + y.years * y.a_year), abs=1.0)
    assert chart.spots[0].y == float(y.total)
    low, high = chart.lines[0].points[0], chart.lines[0].points[-1]
    between = low[1] + (high[1] - low[1]) * y.moves / high[0]
    assert between == pytest.approx(float(y.total), rel=1e-4)


def test_break_even_stands_where_the_lines_cross():
    """Worked by hand: 110,000 is 10,000 dearer and saves 500 a move; over 10 years that is 2 moves a year."""
    desk = _desk("heron", "owner", "us")
    held = desk.get(Options)
    assert isinstance(held, Options)
    amounts = {"cost.base": (100_000, 110_000), "cost.move": (1000, 500), "cost.year": (300, 300)}
    found = dataclasses.replace(
        held.comparison, designs=held.comparison.designs[:2], years=10, moves=3,
        money=tuple(MoneyRow(id, id, tuple(map(Decimal, both))) for id, both in amounts.items()),
        evens=(Even(2.0, "option", "base", False),),
    )
    chart = EVENS.make(dataclasses.replace(held, comparison=found), _context(desk))
    assert chart is not None
    spot = chart.spots[0]
    assert spot.x == 2.0
    for line in chart.lines:
        (x0, y0), (x1, y1) = line.points
        assert y0 + (y1 - y0) * (spot.x - x0) / (x1 - x0) == pytest.approx(spot.y) == pytest.approx(123_000.0)
    bare = dataclasses.replace(held, comparison=dataclasses.replace(found, money=()))
    assert EVENS.make(bare, _context(desk)) is None


@pytest.mark.parametrize("to", ["fabricator", "official", "insurer", "haulier", "engineer"])
def test_plots_of_money_and_belongings_reach_the_owner_alone(to: str):
    desk = _desk("heron", to, "us")
    packet = assemble(desk, (), _context(desk).show)
    assert {"mass-by-group.svg", "spread.svg"}.isdisjoint(packet.pictures)
    assert not [n for n in packet.pictures if re.search("cost|options", n)]
    assert not [n for n, svg in packet.pictures.items() if b"$" in svg]


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_owners_documents_show_every_plot_with_words_for_it(units: str):
    desk = _desk("heron", "owner", units)
    packet = assemble(desk, (), _context(desk).show)
    assert set(packet.pictures) == {p.file for p in PLOTS}
    for svg in packet.pictures.values():
        assert len(svg) < 20_000


@pytest.mark.parametrize(
    ("values", "one", "most"), [((0.0, 7.3), 1.0, 5), ((2.0, 2.0), 0.3048, 5), ((-3.0, 900.0), 0.45, 4)]
)
def test_numbers_of_an_axis_are_round_and_hold_the_values(values: tuple[float, float], one: float, most: int):
    found = steps(values, one, most)
    assert found[0] <= min(values) <= max(values) <= found[-1]
    gaps = [(b - a) / one for a, b in itertools.pairwise(found)]
    assert max(gaps) == pytest.approx(min(gaps))
    assert float(f"{gaps[0]:e}".partition("e")[0]) in (1.0, 2.0, 5.0)
    assert len(found) <= most + 2
