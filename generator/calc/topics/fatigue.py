"""How often the load on the steel comes and goes in a year: swings on the road, and the nose lifted off and set down.

Counts for the engineer's brief; which weld lives how long, nobody here can say.
"""

from generator.calc.record import Findings, Floats, Working, formula, report, sure
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


@formula("Swings of the load in a year, or in the only move", "N_y = s_y/l_s", "count",
         "distance over the road travelled in one swing")
def SWINGS(s_y: Floats, l_s: Floats) -> Floats:
    """Count from the distance towed in a year m and the road travelled in one swing m."""
    return s_y / l_s


@formula("Times the nose is lifted off and set down, in a year or in all", "N_l = 2*n_y", "count",
         "off the tow vehicle once a move, on to it once")
def LIFTS(n_y: Floats) -> Floats:
    """Count from the moves in a year."""
    return 2 * n_y


def fatigue(model: Model, trials: Trials, data: Reference) -> Findings:
    """`fatigue.swings` and `fatigue.lifts`, counts in an ordinary year of the stated use, or in its only move."""
    use, w = model.spec.project.use, Working()
    swings = w(SWINGS, s_y=trials.given("s_y", use.distance_a_year, "m:far", "estimate",
                                        "project.yaml use.distance_a_year"),
               l_s=trials.assumed("l_s", data.defaults["fatigue.swing_length"]))
    lifts = w(LIFTS, n_y=sure("n_y", float(use.moves_busiest), "count"))
    on_road, by_nose = ("in its only move", "Times in all") if use.moves else ("in a year", "Times a year")
    return Findings((
        report("fatigue.swings", f"Swings of the load on the road {on_road}", swings, "up"),
        report("fatigue.lifts", f"{by_nose} the nose is lifted off and set down", lifts, "up"),
    ))
