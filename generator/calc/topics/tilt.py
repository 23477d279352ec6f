"""Side pull that lifts a side of the trailer: about the line from ball to leeward tyres, with the give of the springs.

Half the track over the height of the centre of mass is too kind: the ball carries no roll, so only what stands on the
wheels resists. That figure is printed too, as uncorrected.
"""

from collections.abc import Sequence

import numpy as np

from generator.calc.record import About, Check, Findings, Floats, Quantity, Working, combine, compare, formula, report
from generator.calc.topics import road_inputs as ri
from generator.calc.topics.road_inputs import Towed
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference

BALL_LINE = "statics: moments about the line from the ball to the leeward tyres"


@formula("Half the track over the height", "R_0 = t/(2*z_g)", "%", "static stability factor, rigid, ball left out")
def UNCORRECTED(t: Floats, z_g: Floats) -> Floats:
    return t / (2 * z_g)


@formula(
    "Side pull that lifts a side, rigid, share of gravity",
    "R_r = (t/2*(1 - s_h) - max(y_g, -y_g))/(z_g - z_h*s_h)",
    "%",
    BALL_LINE,
)
def RIGID(t: Floats, s_h: Floats, y_g: Floats, z_g: Floats, z_h: Floats) -> Floats:
    return (t / 2 * (1 - s_h) - np.maximum(y_g, -y_g)) / (z_g - z_h * s_h)


@formula(
    "The same with springs and tyres giving",
    "R_s = R_r*(1 - 9.80665*W*(z_g - z_h*s_h)/K_r)",
    "%",
    "the lean moves the mass outward; linear springs, small angles",
)
def SPRUNG(R_r: Floats, W: Floats, z_g: Floats, z_h: Floats, s_h: Floats, K_r: Floats) -> Floats:
    return R_r * (1 - G * W * (z_g - z_h * s_h) / K_r)


def tilt(model: Model, states: Sequence[Towed], trials: Trials, data: Reference) -> Findings:
    """Side pull that lifts a side, as a share of gravity, in the towed state that stands least."""
    least = ri.extreme(states, sprung_ratio, least=True)
    rigid = ri.extreme(states, rigid_ratio, least=True)
    plain = ri.extreme(states, lambda w, t: w(UNCORRECTED, t=t.track, z_g=t.height), least=True)
    limit = trials.assumed("R_min", data.defaults["tilt.least"])
    outcome = compare(least.value, limit, ">=", Working(list(least.steps)))
    quantities = (
        report("stability.tilt", "Side pull that lifts a side, springs giving, share of gravity", least.value, "down"),
        report("stability.tilt_rigid", "The same, springs blocked", rigid.value, "down"),
        report(
            "stability.tilt_uncorrected",
            "Half the track over the height of the centre of mass (too kind; for comparison)",
            plain.value,
            "down",
        ),
    )
    return Findings(quantities, (Check("stability.tilt", _ABOUT, least.towed.state.id, outcome),))


def rigid_ratio(w: Working, t: Towed) -> Quantity:
    """Side pull that lifts a side with the springs blocked, share of gravity."""
    return w(RIGID, t=t.track, s_h=t.share, y_g=t.y, z_g=t.height, z_h=t.ball)


def sprung_ratio(w: Working, t: Towed) -> Quantity:
    """Side pull that lifts a side with the springs giving, share of gravity."""
    rigid = rigid_ratio(w, t)
    stiffness = roll_stiffness(w, t.rates, t.tracks)
    return w(SPRUNG, R_r=rigid, W=t.mass, z_g=t.height, z_h=t.ball, s_h=t.share, K_r=stiffness)


def roll_stiffness(w: Working, rates: Sequence[Quantity], tracks: Sequence[Quantity]) -> Quantity:
    """Moment per radian of lean, N m/rad: each wheel's spring and tyre stand at the track (trailing arms are stiff)."""
    pairs = list(zip(rates, tracks, strict=True))
    values = np.sum(np.broadcast_arrays(*[k.values * t.values**2 / 4 for k, t in pairs]), axis=0)
    return w.procedure(
        "Stiffness against roll",
        "The sum over the axles of the axle's rate (springs and tyres in series) times a quarter of its track squared.",
        "mechanics of springs in parallel",
        combine("K_r", np.atleast_1d(values), "N*m/rad", (*rates, *tracks)),
        (*rates, *tracks[:1]),
    )


_ABOUT = About(
    "Trailer stands the side pull asked of heavy vehicles",
    "stability",
    "static roll threshold, New Zealand rule for trailers over 10 t (guidance elsewhere)",
    "The trailer rolls over in a bend or a swerve that the tow vehicle alone would pass. Bends of the body, load that "
    "shifts and a moving tow vehicle come on top; a driver feels nothing before a wheel is in the air.",
    "The designer: a wider track, heavy things lower, a lighter roof.",
    "The rule of each region; a tilt test where one is asked for.",
    False,
    ("trailer.running_gear.wheel.offset", "trailer.running_gear.suspension.tube_to_deck"),
)
