"""Money under uncertainty: lines that share one factor, and the step to which totals are rounded."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

import numpy as np

from generator.calc.record import Floats
from generator.calc.trials import Trials, spread_of

CENT, STEP = Decimal("0.01"), Decimal("10")
"""Lines are kept to the cent; P50, P80 and the curve to ten units of money."""


def sample(rows: Sequence[tuple[str, float, float, float]], rho: float, trials: Trials) -> Floats:
    """Totals of triangular lines (name, low, likely, high) that share one factor: z = sqrt(rho) Z + sqrt(1 - rho) e.

    `rho` is the correlation of the normal scores of any two lines, 0 to 1.
    """
    common = trials.normals("cost.common")
    total = np.zeros(trials.count)
    for name, low, likely, high in rows:
        if high <= low:
            total += likely
            continue
        own = trials.normals(f"cost.{name}") if rho < 1.0 else np.zeros(trials.count)
        total += spread_of(np.sqrt(rho) * common + np.sqrt(1.0 - rho) * own, likely, low, high, "triangular")
    return total


def rounded(amount: float, rounding: str) -> Decimal:
    """An amount to the money step, after dropping float noise below a cent."""
    return (Decimal(amount).quantize(CENT, ROUND_HALF_UP) / STEP).quantize(Decimal(1), rounding) * STEP
