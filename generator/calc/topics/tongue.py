"""The tongue of a trailer on a ball behind the tow vehicle: the height of its ball, the bending of its legs. m, N m."""

import numpy as np

from generator.calc.record import About, Check, Findings, Floats, Quantity, Working, compare, formula, report
from generator.calc.topics import rides as rd
from generator.calc.topics.leaf import G
from generator.calc.topics.optional import towing
from generator.calc.topics.rides import Loaded, Ride
from generator.calc.topics.tongue_swing import tongue_swing
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference
from generator.spec.models.trailer import Ball, Tongue


@formula("Ball off its level height", "off = max(z_ball - z_h, z_h - z_ball)", "m", "height chain, either way")
def OFF(z_ball: Floats, z_h: Floats) -> Floats:
    off: Floats = np.maximum(z_ball - z_h, z_h - z_ball)
    return off


@formula(
    "Moment of one leg at the root of the tongue",
    "M_l = 9.80665*H*a/(2*cos(beta))",
    "N*m",
    "statics of two legs that meet at the ball; what the tongue itself weighs works against it and is left out",
)
def LEG(H: Floats, a: Floats, beta: Floats) -> Floats:
    moment: Floats = G * H * a / (2 * np.cos(beta))
    return moment


def tongue(model: Model, load: Loaded, ride: Ride, trials: Trials, data: Reference) -> Findings:
    """Tow ball against the level height, moment of one tongue leg in the travel state, yaw free of the tow vehicle;
    nothing without a tongue.
    """
    part = model.spec.trailer.tongue
    match model.spec.trailer.coupling:
        case Ball() if part is not None:
            return _found(model, part, load, ride, trials, data)
        case _:
            return Findings()


def _found(
    model: Model, part: Tongue, load: Loaded, ride: Ride, trials: Trials, data: Reference
) -> Findings:
    w, legs = Working(list(ride.steps)), Working()
    ball = towing(model, trials, "ball_height", "z_ball", "m")
    off = w(OFF, z_ball=ball, z_h=rd.level_ball(w, model, ride.deck, rd.setting_of(model, ride.deck, trials), trials))
    tolerance = model.spec.trailer.running_gear.suspension.hitch_height_tolerance
    allowed = trials.given("e_set", tolerance, "m", path="trailer.yaml running_gear.suspension.hitch_height_tolerance")
    ahead = rd.hitch_station(model, trials)
    arm = Quantity("a", -ahead.values, "m", ahead.basis, ahead.rests_on, ahead.origin)
    beta = trials.given("beta", part.angle, "rad", path="trailer.yaml tongue.angle")
    moment = legs(LEG, H=load.hitch, a=arm, beta=beta)
    turning = tongue_swing(model, part, trials, data)
    return Findings(
        (
            report("tongue.leg_moment", "Moment of one tongue leg at datum A, static", moment, "up"),
            *turning.quantities,
        ),
        (Check("hitch.level", LEVEL, rd.DESIGN, compare(off, allowed, "<=", w)), *turning.checks),
    )


LEVEL = About(
    title="Ball of the tow vehicle holds the trailer level",
    topic="hitch",
    source="height chain of tongue and coupler",
    concern="The trailer rides nose high or nose low: brakes, tyres and the road under its tail suffer.",
    ask="Whoever tows: ball height, measured loaded and level, and the drop of the ball mount.",
    defer_to="The coupler maker's instructions.",
    levers=("tow.vehicle.ball_height", "trailer.coupling.height"),
)
