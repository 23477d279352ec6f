"""Wind on the parked house: pressure, overturning and sliding against its own weight and its ties.

Allowable stress design: 0.6 of the dead load and 0.6 of the wind. N, N m; ties in kg as their ratings are stated.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from generator.calc.record import (
    About,
    Basis,
    Check,
    Findings,
    Floats,
    Missing,
    Quantity,
    Reported,
    Step,
    Working,
    compare,
    formula,
    report,
    sure,
)
from generator.calc.topics.optional import absent
from generator.calc.topics.parked_bounds import ENGINEER, LIGHT, Parked, site, unknown
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference

COMBINED = "ASCE 7, allowable stress design: 0.6 D + 0.6 W"
EXPOSURES = {
    "B": ("wind.zg_b", "wind.alpha_b"),
    "C": ("wind.zg_c", "wind.alpha_c"),
    "D": ("wind.zg_d", "wind.alpha_d"),
}


@formula(
    "Height factor of the wind",
    "K_z = max(k_min, 2.01*(max(z_t, z_min)/z_g)**(2/alpha))",
    "1",
    "ASCE 7, wind profile; taken at the top of the house",
)
def KZ(k_min: Floats, z_t: Floats, z_min: Floats, z_g: Floats, alpha: Floats) -> Floats:
    return np.maximum(k_min, 2.01 * (np.maximum(z_t, z_min) / z_g) ** (2 / alpha))


@formula("Wind pressure", "q = q_r*(V/V_r)**2*K_z*K_zt*K_d", "N/m2", "ASCE 7, velocity pressure")
def PRESSURE(q_r: Floats, V: Floats, V_r: Floats, K_z: Floats, K_zt: Floats, K_d: Floats) -> Floats:
    return q_r * (V / V_r) ** 2 * K_z * K_zt * K_d


@formula("Wind on the side", "F = q*G_f*C*A_s", "N", "pressure, gust factor, both walls together, area")
def FORCE(q: Floats, G_f: Floats, C: Floats, A_s: Floats) -> Floats:
    return q * G_f * C * A_s


@formula("Uplift of the roof", "U = q*G_f*C_r*A_r", "N", "pressure, gust factor, share on a low roof, plan area")
def UPLIFT(q: Floats, G_f: Floats, C_r: Floats, A_r: Floats) -> Floats:
    return q * G_f * C_r * A_r


@formula("Overturning moment about the leeward feet", "M_o = 0.6*(F*z_c + U*w_h)", "N*m", COMBINED)
def OVERTURNING(F: Floats, z_c: Floats, U: Floats, w_h: Floats) -> Floats:
    return 0.6 * (F * z_c + U * w_h)


@formula(
    "Moment of its own weight about the leeward feet", "M_r = 0.6*9.80665*W*(w_h - max(y_g, -y_g))", "N*m", COMBINED
)
def RESISTING(W: Floats, w_h: Floats, y_g: Floats) -> Floats:
    return 0.6 * G * W * (w_h - np.maximum(y_g, -y_g))


@formula("Overturning over weight", "r = M_o/M_r", "1", "above 1 the house must be tied down")
def RATIO(M_o: Floats, M_r: Floats) -> Floats:
    return M_o / M_r


@formula(
    "Wind at which the untied house starts to tip",
    "V_1 = V_r*sqrt(M_r/(0.6*q_r*K_z*K_zt*K_d*G_f*(C*A_s*z_c + C_r*A_r*w_h)))",
    "m/s",
    "overturning and weight set equal, same factors",
)
def SPEED_ONE(
    V_r: Floats, M_r: Floats, q_r: Floats, K_z: Floats, K_zt: Floats, K_d: Floats, G_f: Floats, C: Floats,
    A_s: Floats, z_c: Floats, C_r: Floats, A_r: Floats, w_h: Floats,
) -> Floats:
    return V_r * np.sqrt(M_r / (0.6 * q_r * K_z * K_zt * K_d * G_f * (C * A_s * z_c + C_r * A_r * w_h)))


@formula(
    "Arm of a tie about the leeward feet",
    "a_t = sin(alpha)*(w_h + y_s) + cos(alpha)*z_s",
    "m",
    "statics: strap from the windward edge of the frame, outward and down",
)
def TIE_ARM(alpha: Floats, w_h: Floats, y_s: Floats, z_s: Floats) -> Floats:
    return np.sin(alpha) * (w_h + y_s) + np.cos(alpha) * z_s


@formula("What one tie may carry", "T_c = min(T_a, T_p)", "kg", "the lesser of ground anchor and point on the frame")
def TIE_CAPACITY(T_a: Floats, T_p: Floats) -> Floats:
    return np.minimum(T_a, T_p)


@formula("Weight and ties against overturning", "M_h = M_r + n*9.80665*T_c*a_t", "N*m", "statics, windward ties alone")
def HELD(M_r: Floats, n: Floats, T_c: Floats, a_t: Floats) -> Floats:
    return M_r + n * G * T_c * a_t


@formula(
    "Pull of one windward tie, against overturning", "T_o = max(0, M_o - M_r)/(n*9.80665*a_t)", "kg", "statics"
)
def TENSION(M_o: Floats, M_r: Floats, n: Floats, a_t: Floats) -> Floats:
    return np.maximum(0, M_o - M_r) / (n * G * a_t)


@formula("Sideways push", "S = 0.6*F", "N", COMBINED)
def PUSH(F: Floats) -> Floats:
    return 0.6 * F


@formula(
    "Friction of the feet", "R_f = mu*max(0, 0.6*(9.80665*W - U))", "N", "friction of what weight the uplift leaves"
)
def FRICTION(mu: Floats, W: Floats, U: Floats) -> Floats:
    return mu * np.maximum(0, 0.6 * (G * W - U))


@formula("Push over friction", "r = S/R_f", "1", "above 1 the house must be tied down")
def PUSH_RATIO(S: Floats, R_f: Floats) -> Floats:
    return S / R_f


@formula(
    "Pull of one windward tie, against sliding",
    "T_s = max(0, S - R_f)/(n*9.80665*(mu*sin(alpha) + cos(alpha)))",
    "kg",
    "statics: the tie pulls sideways and presses the feet down",
)
def SLIDE_TENSION(S: Floats, R_f: Floats, n: Floats, mu: Floats, alpha: Floats) -> Floats:
    return np.maximum(0, S - R_f) / (n * G * (mu * np.sin(alpha) + np.cos(alpha)))


@formula(
    "Friction and ties against sliding",
    "R_h = R_f + n*9.80665*T_c*(mu*sin(alpha) + cos(alpha))",
    "N",
    "statics, windward ties alone",
)
def SLIDE_HELD(R_f: Floats, n: Floats, T_c: Floats, mu: Floats, alpha: Floats) -> Floats:
    return R_f + n * G * T_c * (mu * np.sin(alpha) + np.cos(alpha))


@formula("Pull of one windward tie", "T = max(T_o, T_s)", "kg", "the worse of overturning and sliding")
def TIE(T_o: Floats, T_s: Floats) -> Floats:
    return np.maximum(T_o, T_s)


@dataclass(frozen=True, slots=True, eq=False)
class Wind:
    """Wind on the parked house: pressure N/m2, force and uplift N, moments N m, with the working so far: to the uplift
    (`blown`), to the overturning moment (`turned`), whole (`w`).
    """

    w: Working
    pressure: Quantity
    force: Quantity
    uplift: Quantity
    overturning: Quantity
    resisting: Quantity
    blown: tuple[Step, ...]
    turned: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Ties:
    """Ties of one side: how many, arm m, angle rad, capacity kg, friction of the feet."""

    n: Quantity
    arm: Quantity
    alpha: Quantity
    capacity: Quantity
    mu: Quantity


def wind_of(model: Model, parked: Parked, trials: Trials, data: Reference) -> Wind:
    """Wind of the site on the lightest parked house."""
    w, row, how = Working([*parked.steps["side"], *parked.steps["top"]]), data.defaults, parked.steps
    V = site(model, trials, "wind", "V", "m/s")
    k_z = _height_factor(w, model, parked, trials, data, _exposure(model))
    q = w(PRESSURE, K_z=k_z, V=V, **_factors(trials, data))
    gust = trials.assumed("G_f", row["wind.gust"])
    F = w(FORCE, q=q, G_f=gust, C=trials.assumed("C", row["wind.side"]), A_s=parked.side)
    w.steps += how["roof"]
    U = w(UPLIFT, q=q, G_f=gust, C_r=trials.assumed("C_r", row["wind.roof"]), A_r=parked.roof)
    blown = tuple(w.steps)
    w.steps += [*how["centre"], *how["half"]]
    M_o = w(OVERTURNING, F=F, z_c=parked.centre, U=U, w_h=parked.half)
    turned = tuple(w.steps)
    w.procedure(
        "Mass of the house parked and empty",
        "Every item aboard at its low bound: weight that may not be there holds nothing down.",
        "take-off",
        parked.low,
        (),
    )
    M_r = w(RESISTING, W=parked.low, w_h=parked.half, y_g=parked.y)
    return Wind(w, q, F, U, M_o, M_r, blown, turned)


def wind(model: Model, parked: Parked, found: Wind, trials: Trials, data: Reference) -> Findings:
    """Overturning and sliding in the design wind, the ties they ask for, and the wind that tips the untied house."""
    w = Working(list(found.w.steps))
    ties = _ties(w, model, parked, trials, data)
    held = w(HELD, M_r=found.resisting, n=ties.n, T_c=ties.capacity, a_t=ties.arm)
    told = _tied(ties)
    upright = Check("parked.overturning", replace(UPRIGHT, title=f"{UPRIGHT.title}, {told}"), LIGHT,
                    compare(found.overturning, held, "<=", w))
    slide = Working([*found.blown, *w.steps[len(found.w.steps) : -1]])
    push = slide(PUSH, F=found.force)
    friction = slide(FRICTION, mu=ties.mu, W=parked.low, U=found.uplift)
    kept = slide(SLIDE_HELD, R_f=friction, n=ties.n, T_c=ties.capacity, mu=ties.mu, alpha=ties.alpha)
    still = Check("parked.sliding", replace(STILL, title=f"{STILL.title}, {told}"), LIGHT,
                  compare(push, kept, "<=", slide))
    untied = Working()(PUSH_RATIO, S=push, R_f=friction)
    numbers = [
        *_pressures(found),
        report("parked.wind.slide_ratio", "Sideways push in the design wind over the friction against it, untied",
               untied, "up"),
        *_tipping(model, parked, found, trials, data),
    ]
    if float(ties.n.values[0]) > 0.0:
        over = w(TENSION, M_o=found.overturning, M_r=found.resisting, n=ties.n, a_t=ties.arm)
        along = w(SLIDE_TENSION, S=push, R_f=friction, n=ties.n, mu=ties.mu, alpha=ties.alpha)
        pull = w(TIE, T_o=over, T_s=along)
        numbers.append(report("parked.tie.tension", "One tie in the design wind, from either side", pull, "up"))
    return Findings(tuple(numbers), (upright, still, _designed(model, trials, data)))


def _tied(ties: _Ties) -> str:
    """What the checks count on, in words; whether the anchors hold it is never worked out here."""
    count = int(ties.n.values[0])
    return f"counting on {count} ties a side whose anchors nobody has assessed" if count else "without ties"


def _exposure(model: Model) -> str | None:
    return None if model.spec.site is None else model.spec.site.exposure


def _height_factor(
    w: Working, model: Model, parked: Parked, trials: Trials, data: Reference, exposure: str | None
) -> Quantity:
    row = data.defaults
    if exposure is None:
        return absent("K_z", "1", "site.yaml" if model.spec.site is None else "site.yaml exposure")
    height, power = EXPOSURES[exposure]
    return w(
        KZ,
        k_min=trials.assumed("k_min", row["wind.kz_least"]),
        z_t=parked.top,
        z_min=trials.assumed("z_min", row["wind.kz_height"]),
        z_g=trials.assumed("z_g", row[height]),
        alpha=trials.assumed("alpha", row[power]),
    )


def _factors(trials: Trials, data: Reference) -> dict[str, Quantity]:
    row = data.defaults
    return {
        "q_r": trials.assumed("q_r", row["wind.pressure_reference"]),
        "V_r": trials.assumed("V_r", row["wind.speed_reference"]),
        "K_zt": trials.assumed("K_zt", row["wind.kzt"]),
        "K_d": trials.assumed("K_d", row["wind.kd"]),
    }


def _ties(w: Working, model: Model, parked: Parked, trials: Trials, data: Reference) -> _Ties:
    """The ties on one side of the frame; without any, none holds."""
    row, points = data.defaults, [p for p in model.spec.trailer.points if p.kind == "tie"]
    n = sure("n", float(len(points)), "count")
    alpha, mu = trials.assumed("alpha", row["tie.angle"]), trials.assumed("mu", row["tie.friction"])
    if not points:
        none = sure("T_c", 0.0, "kg")
        return _Ties(n, sure("a_t", 0.0, "m"), alpha, none, mu)
    at = "trailer.yaml points"
    missing = unknown({f"{at}.{p.id}.y": p.y for p in points} | {f"{at}.{p.id}.rating": p.rating for p in points})

    def least(symbol: str, field: str, unit: str) -> Quantity:
        value = np.nan if missing else min(abs(getattr(p, field).nominal) for p in points)
        return Quantity(symbol, np.array([value]), unit, Basis.QUOTED, missing, points[0].rating.origin)

    w.steps += parked.steps["underside"]
    arm = w(TIE_ARM, alpha=alpha, w_h=parked.half, y_s=least("y_s", "y", "m"), z_s=parked.underside)
    anchor = trials.assumed("T_a", row["tie.anchor_working"])
    return _Ties(n, arm, alpha, w(TIE_CAPACITY, T_a=anchor, T_p=least("T_p", "rating", "kg")), mu)


def _pressures(found: Wind) -> Iterator[Reported]:
    yield report("parked.wind.pressure", "Wind pressure at the house", found.pressure)
    yield report("parked.wind.force", "Wind on the long side", found.force, "up")
    yield report("parked.wind.uplift", "Uplift of the roof in the wind", found.uplift, "up")
    ratio = Working()(RATIO, M_o=found.overturning, M_r=found.resisting)
    yield report("parked.wind.ratio", "Overturning in the design wind over the weight against it, untied", ratio, "up")


def _tipping(model: Model, parked: Parked, found: Wind, trials: Trials, data: Reference) -> Iterator[Reported]:
    """The wind that tips the untied house; open country where the site does not say what lies upwind."""
    w, row = Working(), data.defaults
    k_z = _height_factor(w, model, parked, trials, data, _exposure(model) or "C")
    speed = w(
        SPEED_ONE,
        M_r=found.resisting,
        K_z=k_z,
        G_f=trials.assumed("G_f", row["wind.gust"]),
        C=trials.assumed("C", row["wind.side"]),
        A_s=parked.side,
        z_c=parked.centre,
        C_r=trials.assumed("C_r", row["wind.roof"]),
        A_r=parked.roof,
        w_h=parked.half,
        **_factors(trials, data),
    )
    ground = "" if _exposure(model) else ", open country taken"
    yield report("parked.wind.tips_at", f"Gust at which the empty, untied house may tip{ground}", speed, "down")


def _designed(model: Model, trials: Trials, data: Reference) -> Check:
    """Spacing of ties is never worked out here; why not."""
    least = float(trials.assumed("b", data.defaults["tie.table_width"]).values[0])
    width = model.spec.house.width.nominal
    narrow = "the house is narrower than any in the published tables of tie spacing"
    wide = "the published tables of tie spacing are for manufactured homes"
    why = narrow if width < least else wide
    reason = f"design of ties and ground anchors by a licensed engineer: {why}"
    return Check("parked.ties", TIES, LIGHT, Missing((reason,)))


UPRIGHT = About(
    "House stays upright in the design wind",
    "parked",
    COMBINED + "; coefficients of the register",
    "An empty house on narrow feet is blown over; the lightest state governs.",
    "The building official: design wind, exposure, and whether ties are asked for.",
    ENGINEER,
)
STILL = About(
    "House stays on its pads in the design wind",
    "parked",
    COMBINED + "; coefficients of the register",
    "The house slides off its stands before it tips.",
    "The building official: design wind, exposure, and whether ties are asked for.",
    ENGINEER,
)
TIES = About(
    "Ties and ground anchors",
    "parked",
    "24 CFR 3285.402 and its tables 1 to 3 do not cover this house",
    "An anchor in soil nobody tested holds less than it is sold for.",
    "A licensed engineer: number, place and angle of ties, anchor for this soil, pull test.",
    ENGINEER,
)
