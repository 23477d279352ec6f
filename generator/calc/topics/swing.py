"""Turning: the nose past the cab, the bed end past the riser, for a neck over the bed of the tow vehicle."""

import numpy as np

from generator.calc.record import (
    About,
    Check,
    Findings,
    Floats,
    Quantity,
    Working,
    combine,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics import rides as rd
from generator.calc.topics.coupled import raised
from generator.calc.topics.optional import towing
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.reference.types import Reference

QUARTER = float(np.pi / 2)


@formula("Ball to the foremost point of the nose", "f = x_h - x_n", "m", "stations")
def NOSE(x_h: Floats, x_n: Floats) -> Floats:
    return x_h - x_n


@formula(
    "Furthest the nose corner comes forward, up to this yaw",
    "r = sqrt(f**2 + w**2/4)*cos(atan(w/(2*f)) - min(psi, atan(w/(2*f))))",
    "m",
    "a rectangle turning about the ball",
)
def NOSE_REACH(f: Floats, w: Floats, psi: Floats) -> Floats:
    corner = np.arctan(w / (2 * f))
    reach: Floats = np.sqrt(f**2 + w**2 / 4) * np.cos(corner - np.minimum(psi, corner))
    return reach


@formula("Room between nose and cab", "c = d_c - r", "m", "ball to cab less the reach")
def CAB_ROOM(d_c: Floats, r: Floats) -> Floats:
    return d_c - r


@formula("Underside of the nose, pitched down", "z_n = z_u - f*tan(phi)", "m", "neck turning about the ball")
def NOSE_UNDERSIDE(z_u: Floats, f: Floats, phi: Floats) -> Floats:
    return z_u - f * np.tan(phi)


@formula("Ball to the corner of the bed end", "r_b = sqrt(d_e**2 + w_b**2)", "m", "radius, so at any yaw")
def BED_CORNER(d_e: Floats, w_b: Floats) -> Floats:
    return np.sqrt(d_e**2 + w_b**2)


@formula("Ball to the riser less the margin", "u_r = x_r - x_h - m", "m", "stations")
def RISER_REACH(x_r: Floats, x_h: Floats, m: Floats) -> Floats:
    return x_r - x_h - m


def swing(model: Model, underside: Quantity, pitch: Quantity, trials: Trials, data: Reference) -> Findings:
    """Yaw at which the nose meets the cab (rad) and room at 0, 45 and 90 degrees (m); the bed end against the riser."""
    w = Working()
    ahead, width = nose(w, model, trials)
    cab = towing(model, trials, "ball_to_cab", "d_c", "m")
    margin = trials.assumed("m", data.defaults["neck.cab_margin"])
    below = w(NOSE_UNDERSIDE, z_u=underside, f=ahead, phi=pitch)
    free = _free_yaw(w, ahead, width, cab, margin, below, towing(model, trials, "cab_height", "z_cab", "m"))
    need = trials.assumed("psi", data.defaults["neck.yaw_free"])
    rooms = {deg: _room(ahead, width, cab, deg) for deg in (0, 45, 90)}
    quantities = (
        report("cab.yaw_free", "Yaw at which the nose meets the cab (90 degrees: never)", free, "down"),
        *(
            report(f"cab.room.{deg}", f"Nose to cab, least up to {deg} degrees of yaw", room, "down")
            for deg, room in rooms.items()
        ),
    )
    return Findings(
        quantities,
        (Check("cab.strike", CAB, rd.DESIGN, compare(free, need, ">=", w)), _tailgate(model, margin, trials)),
    )


def free_yaw(f: Floats, w: Floats, d_c: Floats, m: Floats) -> Floats:
    """Yaw (rad) at which the corner of a rectangular nose comes within `m` of the cab; a right angle if never (m)."""
    radius, corner = np.hypot(f, w / 2), np.arctan2(w / 2, f)
    with np.errstate(invalid="ignore"):
        meets = corner - np.arccos(np.clip((d_c - m) / radius, -1.0, 1.0))
    return np.where(np.isnan(d_c), np.nan, np.where(d_c - m >= radius, QUARTER, np.where(d_c - m < f, 0.0, meets)))


def bed_corner(w: Working, model: Model, trials: Trials) -> Quantity:
    """Ball to the corner of the bed end, m: nothing of the trailer below the bed sides may stand nearer."""
    return w(
        BED_CORNER,
        d_e=towing(model, trials, "ball_to_bed_end", "d_e", "m"),
        w_b=towing(model, trials, "bed_half_width", "w_b", "m"),
    )


def nose(w: Working, model: Model, trials: Trials) -> tuple[Quantity, Quantity]:
    """Ball to the foremost point of neck and house, and the greater width of both, m."""
    house, of = model.spec.house, raised(model)
    fronts = [of.neck.front, house.front] if of is not None else [house.front]
    widths = [of.neck.width, house.width] if of is not None else [house.width]
    foremost = trials.given(
        "x_n", min(fronts, key=lambda m: m.nominal), "m", path="trailer.yaml neck.front"
    )
    widest = trials.given("w", max(widths, key=lambda m: m.nominal), "m", path="house.yaml width")
    return w(NOSE, x_h=rd.hitch_station(model, trials), x_n=foremost), widest


def _free_yaw(
    w: Working, ahead: Quantity, width: Quantity, cab: Quantity, margin: Quantity, below: Quantity, roof: Quantity
) -> Quantity:
    inputs = (ahead, width, cab, margin, below, roof)
    by_corner = free_yaw(ahead.values, width.values, cab.values, margin.values)
    over = below.values >= roof.values
    values = np.where(over, QUARTER, np.where(np.isnan(roof.values), np.nan, by_corner))
    return w.procedure(
        "Yaw at which the nose meets the cab",
        "The corner of the nose turns about the ball; it meets the cab, less the margin, at the yaw where its reach "
        "ahead equals that room. A nose that passes over the cab roof, or never reaches it, counts as a right angle.",
        "plane geometry of a rectangle turning about a point",
        combine("psi_free", np.atleast_1d(values), "rad", inputs),
        inputs,
    )


def _room(ahead: Quantity, width: Quantity, cab: Quantity, degrees: int) -> Quantity:
    w = Working()
    yaw = sure("psi", float(np.radians(degrees)), "rad")
    return w(CAB_ROOM, d_c=cab, r=w(NOSE_REACH, f=ahead, w=width, psi=yaw))


def _tailgate(model: Model, margin: Quantity, trials: Trials) -> Check:
    w = Working()
    corner = bed_corner(w, model, trials)
    riser = w(RISER_REACH, x_r=sure("x_r", 0.0, "m"), x_h=rd.hitch_station(model, trials), m=margin)
    return Check("neck.tailgate", TAILGATE, "", compare(corner, riser, "<=", w))


CAB = About(
    title="Nose clear of the cab in a turn",
    topic="neck",
    source="common practice, no source",
    concern="In a tight turn the front corner of the house breaks the cab's rear window.",
    ask="Whoever tows: ball to cab and cab height, measured; an offset ball, if there is one for this vehicle.",
    defer_to="A slow trial turn with a spotter before the first tow.",
    mandatory=True,
    levers=("trailer.coupling.station", "trailer.neck.front", "tow.vehicle.ball_to_cab"),
)
TAILGATE = About(
    title="Bed end clear of the riser at any yaw",
    topic="neck",
    source="common practice, no source",
    concern="In a turn the corner of the bed or the shut tailgate strikes the riser of the neck.",
    ask="Whoever tows: ball to the end of the bed and half the bed's width, measured.",
    defer_to="A slow trial turn with a spotter before the first tow.",
    mandatory=True,
    levers=("trailer.coupling.station", "tow.vehicle.ball_to_bed_end"),
)
