"""Where the centre of mass may stand: stations at which the hitch takes the most and the least of it. m."""

from collections.abc import Sequence

from generator.calc.record import Findings, Floats, Working, formula, report
from generator.calc.topics.coupled import coupled
from generator.calc.topics.rides import DESIGN
from generator.calc.topics.road_inputs import Towed
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference


@formula("Station of the centre at a share on the hitch", "x_s = x_a - s*(x_a - x_h)", "m",
         "statics: a level trailer on its hitch and axles")
def CENTRE(x_a: Floats, s: Floats, x_h: Floats) -> Floats:
    """Station m of the centre of mass that puts the share s on the hitch."""
    return x_a - s * (x_a - x_h)


def centres(model: Model, towed: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Foremost and rearmost station of the centre of mass, towed level."""
    travel, words, rows = next(t for t in towed if t.state.id == DESIGN), coupled(model), []
    for id, title, share in (
        ("centre.foremost", f"Foremost station of the centre of mass, towed: most on the {words.on}", words.share_high),
        ("centre.rearmost", f"Rearmost station of the centre of mass, towed: least on the {words.on}", words.share_low),
    ):
        at = Working()(CENTRE, x_a=travel.x_a, s=trials.assumed("s", data.defaults[share]), x_h=travel.x_h)
        rows.append(report(id, title, at))
    return Findings(tuple(rows))
