"""One towed state from plain numbers, for tests of the moving trailer."""

from generator.calc.record import sure
from generator.calc.topics.road_inputs import Puller, Towed
from generator.model.states import STATES

TRAVEL = next(s for s in STATES if s.id == "travel")


def towed(mass, x_g, x_h, x_a, z_g, z_h, *, y_g=0.0, track=2.0, inertia=1.0, axles=None, rates=(), deck=0.0):
    """A sure state (kg, m, N/m): ball and axle loads follow from moments about the ball."""
    group = mass * (x_g - x_h) / (x_a - x_h)
    loads = tuple(axles or (group,))
    return Towed(
        state=TRAVEL,
        roofed=True,
        mass=sure("W", mass, "kg"),
        x=sure("x_g", x_g, "m"),
        y=sure("y_g", y_g, "m"),
        height=sure("z_g", z_g, "m"),
        yaw_inertia=sure("I_z", inertia, "kg*m2"),
        x_h=sure("x_h", x_h, "m"),
        x_a=sure("x_a", x_a, "m"),
        hitch=sure("H", mass - group, "kg"),
        share=sure("s_h", 1.0 - group / mass, "%"),
        group=sure("A", group, "kg"),
        axles=tuple(sure("N_i", n, "kg") for n in loads),
        tracks=tuple(sure("t", track, "m") for _ in loads),
        deck=sure("z_d", deck, "m"),
        ball=sure("z_h", z_h, "m"),
        rates=tuple(sure("k_i", k, "N/m:spring") for k in rates),
        steps=(),
    )


def puller(front, rear, wheelbase, behind, cargo=0.0):
    """A tow vehicle of sure values (kg, m)."""
    return Puller(
        sure("F_0", front, "kg"),
        sure("R_0", rear, "kg"),
        sure("C", cargo, "kg"),
        sure("wb", wheelbase, "m"),
        sure("o", behind, "m"),
    )
