"""The one plot of data: the cost curve, in the house style, same font and greys as the sheets."""

import io
from itertools import pairwise
from typing import Any

from generator.calc.findings import Budget
from generator.document.files import FACES, font_path
from generator.units import Show

INK, SECOND, RULE = "#1a1a1a", "#595959", "#c4c4c4"
SIZE = (120.0 / 25.4, 62.0 / 25.4)
"""Inches on paper: 120 x 62 mm."""


def cost_curve(budget: Budget, show: Show) -> bytes:
    """Chance of staying under an amount, as SVG; base, P50 and P80 marked."""
    import matplotlib
    from matplotlib.figure import Figure
    from matplotlib.font_manager import fontManager

    for face in FACES:
        fontManager.addfont(font_path(face))
    style = {
        "svg.fonttype": "none",
        "svg.hashsalt": "cost-curve",
        "font.family": "Source Sans Pro",
        "font.size": 8.0,
        "axes.linewidth": 0.5,
        "axes.edgecolor": INK,
        "xtick.color": INK,
        "ytick.color": INK,
        "text.color": INK,
        "path.simplify": True,
    }
    with matplotlib.rc_context(style):
        figure = Figure(figsize=SIZE)
        axes = figure.add_axes((0.09, 0.17, 0.87, 0.74))
        _draw(axes, budget, show)
        out = io.BytesIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return out.getvalue()


def _draw(axes: Any, budget: Budget, show: Show) -> None:
    amounts = [float(a) for a in budget.curve]
    chances = [i / (len(amounts) - 1) for i in range(len(amounts))]
    axes.plot(amounts, chances, color=INK, linewidth=1.2)
    for text, amount, chance in (
        ("base", budget.base, budget_share(amounts, float(budget.base))),
        ("P50", budget.p50, 0.5),
        ("P80", budget.p80, 0.8),
    ):
        axes.plot([float(amount)] * 2, [0.0, chance], color=SECOND, linewidth=0.7)
        axes.annotate(
            f"{text} {show.money(amount)}",
            (float(amount), chance),
            xytext=(-4, 3),
            textcoords="offset points",
            ha="right",
            color=INK,
        )
    axes.set_ylim(0.0, 1.0)
    axes.set_xlim(amounts[0], amounts[-1])
    axes.set_yticks([0.0, 0.5, 0.8, 1.0], ["0 %", "50 %", "80 %", "100 %"])
    ticks = [amounts[0], amounts[-1]]
    axes.set_xticks(ticks, [show.money(a) for a in (budget.curve[0], budget.curve[-1])])
    for label, side in zip(axes.get_xticklabels(), ("left", "right"), strict=True):
        label.set_horizontalalignment(side)
    axes.grid(axis="y", color=RULE, linewidth=0.5)
    axes.spines[["top", "right"]].set_visible(False)
    axes.tick_params(width=0.5, length=3.0)


def budget_share(amounts: list[float], amount: float) -> float:
    """Share of the trials that stay under an amount, read off the curve."""
    for i, (low, high) in enumerate(pairwise(amounts)):
        if amount < low:
            return i / (len(amounts) - 1)
        if amount <= high:
            return (i + (amount - low) / (high - low if high > low else 1.0)) / (len(amounts) - 1)
    return 1.0
