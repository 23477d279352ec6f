"""What a jack carries: level, nose up and nose low, per leg, and the stroke it needs. Loads in kg as scales read."""

import numpy as np

from generator.calc.record import Floats, Quantity, Working, combine, formula, sure
from generator.calc.topics import rides as rd
from generator.calc.topics import suspension as sus
from generator.calc.topics.axles import StateLoads
from generator.calc.topics.coupled import engaged
from generator.calc.topics.jack_rig import Held, Rig, as_mass, rig
from generator.calc.topics.optional import standing, towing
from generator.calc.topics.rides import Ride
from generator.calc.topics.suspension import G
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.records import dataclass
from generator.reference.types import Reference
from generator.spec.models.trailer import Jack

STATICS = "statics: the jack imposes the height, the axle springs answer"


@formula("Springs compressed, trailer level", "d_0 = 9.80665*A_s/K", "m", "springs in parallel")
def SUNK(A_s: Floats, K: Floats) -> Floats:
    return G * A_s / K


@formula(
    "Rise at the hitch to come free",
    "y_h = d_b + free + c_t*9.80665*H",
    "m",
    "depth of ball or pin in what holds it, room, and the tow vehicle rising as it unloads",
)
def HITCH_RISE(d_b: Floats, free: Floats, c_t: Floats, H: Floats) -> Floats:
    return d_b + free + c_t * G * H


@formula("One leg of a pair, level", "m_l = J_0/2 + W*max(y_g, -y_g)/w_j", "kg", "statics: two legs, mass off centre")
def LEG_LEVEL(J_0: Floats, W: Floats, y_g: Floats, w_j: Floats) -> Floats:
    return J_0 / 2 + W * np.maximum(y_g, -y_g) / w_j


@formula(
    "Worst leg on a shared shaft",
    "m_w = max(J/2 + W*max(y_g, -y_g)/w_j, share*J)",
    "kg",
    "common practice, no source: pin steps and ground never match",
)
def LEG_SHARED(J: Floats, W: Floats, y_g: Floats, w_j: Floats, share: Floats) -> Floats:
    return np.maximum(J / 2 + W * np.maximum(y_g, -y_g) / w_j, share * J)


@formula(
    "Worst leg driven alone",
    "m_w = min(J, J/2 + A*t/(2*w_j))",
    "kg",
    "statics: the other leg lags until the axles take the roll, or it carries nothing",
)
def LEG_ALONE(J: Floats, A: Floats, t: Floats, w_j: Floats) -> Floats:
    return np.minimum(J, J / 2 + A * t / (2 * w_j))


@formula(
    "Lift rating needed, one leg", "m_n = max(c_j*m_l, m_w)", "kg", "reserve over the level share, or the worst share"
)
def RATING(c_j: Floats, m_l: Floats, m_w: Floats) -> Floats:
    return np.maximum(c_j * m_l, m_w)


@formula("Stroke needed", "s = clear + fall + y - block", "m", "foot to ground, then the rise")
def STROKE(clear: Floats, fall: Floats, y: Floats, block: Floats) -> Floats:
    return clear + fall + y - block


@formula(
    "Stroke needed below a drop leg", "s = y + step + give", "m", "the drop leg comes within one pin step of the ground"
)
def STROKE_DROP(y: Floats, step: Floats, give: Floats) -> Floats:
    return y + step + give


@formula(
    "Greatest load a jack can ever see",
    "J_ub = W*(x_n - x_g)/(x_n - x_j)",
    "kg",
    "statics: all the rest on the last axle",
)
def BOUND(W: Floats, x_n: Floats, x_g: Floats, x_j: Floats) -> Floats:
    return W * (x_n - x_g) / (x_n - x_j)


@formula(
    "Load one rear stand takes if the nose is lifted with the stands down",
    "R_s = W*(x_g - x_j)/(x_r - x_j)/2",
    "kg",
    "statics: the axles unload and the rear pair carries",
)
def STAND(W: Floats, x_g: Floats, x_j: Floats, x_r: Floats) -> Floats:
    return W * (x_g - x_j) / (x_r - x_j) / 2


@dataclass(frozen=True, slots=True, eq=False)
class JackLoads:
    """One jack station in one load state: loads level and at worst attitude, legs, rear axle (kg), rises (m)."""

    w: Working
    state: str
    rig: Rig
    level: Quantity
    worst: Quantity
    leg_level: Quantity
    leg_worst: Quantity
    needed: Quantity
    rear: Quantity
    free: Quantity
    rise: Quantity
    bound: Quantity


def _rig(model: Model, load: StateLoads, ride: Ride, w: Working) -> tuple[Rig, tuple[Quantity, ...]]:
    stiffness = sus.total("K", ride.rates)
    sunk = w(SUNK, A_s=load.sprung_group, K=stiffness)
    above = combine(
        "h",
        ride.deck.values + load.sprung_zeta.values - ride.radius.values,
        "m",
        (ride.deck, load.sprung_zeta, ride.radius),
    )
    given = (*ride.rates, *load.at.unsprung, sunk, load.sprung_mass, load.sprung_x, above)
    return rig(
        sus.acting(model), ride.rates, load.at.unsprung, sunk, load.sprung_mass, load.sprung_x, above, G
    ), given


def loads_at(model: Model, jack: Jack, load: StateLoads, ride: Ride, trials: Trials, data: Reference) -> JackLoads:
    """Loads of the jack in one load state (kg), level and at the worst attitude it needs."""
    w = Working()
    of, given = _rig(model, load, ride, w)
    station = jack_station(jack, trials)
    x_j = float(station.values[0])
    free = w(
        HITCH_RISE,
        d_b=engaged(model, trials),
        free=trials.assumed("free", data.defaults["hitch.engagement"]),
        c_t=rd.compliance(model, trials, data),
        H=load.hitch,
    )
    high, low = _attitudes(model, of, x_j, free.values, trials)
    held = {name: of.held(x_j, y) for name, y in (("level", np.zeros(1)), ("high", high), ("low", low))}
    still = _pitch(w, of, x_j, held["level"], "theta_0", "hitch at its level height: y is 0")
    level = w.procedure(
        "Load on the jacks, level",
        "The axle springs carry what their compression gives, the jack the rest: J_0 is S less the sum of "
        "k_i · (d_0 + u_i · theta_0) over g_n.",
        STATICS,
        as_mass("J_0", held["level"].jack, G, given),
        (still,),
    )
    rise = w.procedure(
        "Rise at the jack",
        "What lifts the ball free, y + theta · (x_j − x_h) = y_h, or levels the trailer on its site, whichever is "
        "more; the axles let the tail down as the nose goes up.",
        STATICS,
        combine("y", high, "m", (*given, free)),
        (free, station, rd.hitch_station(model, trials)),
    )
    raised = _pitch(w, of, x_j, held["high"], "theta", "nose at the top of the rise", rise)
    most = np.maximum.reduce(np.broadcast_arrays(*(h.jack for h in held.values())))
    worst = w.procedure(
        "Load on the jacks, worst attitude",
        "The greatest of level, nose at the top of the rise (S less the sum of k_i · (d_0 − y + u_i · theta) over "
        "g_n), and nose low on the slope.",
        STATICS,
        as_mass("J", most, G, given),
        (level, rise, raised),
    )
    rear = w.procedure(
        f"Load of axle {len(of.stations)}, nose at the top of the rise",
        "Its spring at that pitch, k_n · (d_0 − y + u_n · theta) over g_n, and its own mass U_n.",
        STATICS,
        as_mass("N_n", held["high"].axles[-1], G, given),
        (rise, raised, load.at.unsprung[-1].named("U_n")),
    )
    leg_level, leg_worst, needed = _legs(w, model, jack, load, level, worst, trials, data)
    bound = w(BOUND, W=load.mass, x_n=sure("x_n", max(sus.acting(model)), "m"), x_g=load.at.x, x_j=station)
    return JackLoads(w, load.state.id, of, level, worst, leg_level, leg_worst, needed, rear, free, rise, bound)


def _pitch(w: Working, of: Rig, x_j: float, held: Held, symbol: str, where: str, *given: Quantity) -> Quantity:
    """Pitch of the trailer on its jack and axle springs as a step (rad), with all that goes into it."""
    springs = [
        sure(f"{name}_{n}", float(value), unit)
        for n, (rate, x) in enumerate(zip(of.rates[:, 0], of.stations, strict=True), start=1)
        for name, value, unit in (("k", rate, "N/m:spring"), ("u", x - x_j, "m"))
    ]
    mass = sure("S", float(of.weight[0]) / G, "kg")
    centre, above = sure("u_g", float(of.centre[0]) - x_j, "m"), sure("h", float(of.above[0]), "m")
    sentence = (
        f"Moments about the jack: the sum of k_i · (d_0 − y + u_i · {symbol}) · u_i is g_n · S · (u_g + h · {symbol}); "
        "u from the jack aft, S the sprung mass, h its height over the spindles; no spring pulls more than hangs on "
        f"it; {where}."
    )
    angle = sure(symbol, float(np.atleast_1d(held.pitch)[0]), "rad")
    inputs = given or (*springs, mass, centre, above)
    return w.procedure(f"Pitch on the jack, {where.partition(':')[0]}", sentence, STATICS, angle, inputs)


def _attitudes(model: Model, of: Rig, x_j: float, free: Floats, trials: Trials) -> tuple[Floats, Floats]:
    """Highest and lowest rise at the jack (m): to come free of the ball, and to stand level on a known site."""
    x_h = float(rd.hitch_station(model, trials).values[0])
    uncouple = of.rise_for(x_j, x_h, free)
    slope = standing(model, trials, "slope_along", "slope", "%").values
    level = of.rise_to_pitch(x_j, np.arctan(np.nan_to_num(slope)))
    return np.maximum(uncouple, level), np.minimum(0.0, level)


def _legs(
    w: Working,
    model: Model,
    jack: Jack,
    load: StateLoads,
    level: Quantity,
    worst: Quantity,
    trials: Trials,
    data: Reference,
) -> tuple[Quantity, Quantity, Quantity]:
    """One leg level, one leg at worst, and the lift rating it needs, kg."""
    reserve = trials.assumed("c_j", data.defaults["jack.reserve_level"])
    if jack.legs == 1 or jack.drive == "single":
        return level, worst, w(RATING, c_j=reserve, m_l=level, m_w=worst)
    spacing = _spacing(jack, trials)
    leg = w(LEG_LEVEL, J_0=level, W=load.mass, y_g=load.at.y, w_j=spacing)
    if jack.drive == "shared shaft":
        share = trials.assumed("share", data.defaults["jack.share_shared_shaft"])
        most = w(LEG_SHARED, J=worst, W=load.mass, y_g=load.at.y, w_j=spacing, share=share)
    else:
        most = w(LEG_ALONE, J=worst, A=load.group, t=load.tracks[0], w_j=spacing)
    return leg, most, w(RATING, c_j=reserve, m_l=leg, m_w=most)


def needed_at(
    model: Model, jack: Jack, of: JackLoads, load: StateLoads, station: float, trials: Trials, data: Reference
) -> float:
    """Lift rating one leg would need with the jack at another station, nominal, kg."""
    w, still, bare = Working(), Trials(trials.seed, 0), of.rig.nominal
    high, low = _attitudes(model, bare, station, of.free.values[:1], still)
    held = [bare.held(station, y).jack / G for y in (np.zeros(1), high, low)]
    level, worst = Quantity("J_0", held[0], "kg"), Quantity("J", np.maximum.reduce(held), "kg")
    return _number(_legs(w, model, jack, load, level, worst, still, data)[2])


def stroke_needed(
    model: Model, jack: Jack, of: JackLoads, load: StateLoads, trials: Trials, data: Reference
) -> tuple[Working, Quantity, Quantity]:
    """Stroke needed and the rise in it (m), from the tow vehicle and the site; unknown without them."""
    w, at = Working(), f"trailer.yaml jacks.{jack.id}"
    free = w(
        HITCH_RISE,
        d_b=engaged(model, trials),
        free=trials.assumed("free", data.defaults["hitch.engagement"]),
        c_t=towing(model, trials, "compliance", "c_t", "m/N"),
        H=load.hitch,
    )
    slope, station = standing(model, trials, "slope_along", "slope", "%"), jack_station(jack, trials)
    x_j, x_h = float(station.values[0]), float(rd.hitch_station(model, trials).values[0])
    values = np.maximum(of.rig.rise_for(x_j, x_h, free.values), of.rig.rise_to_pitch(x_j, np.arctan(slope.values)))
    rise = w.procedure(
        "Rise at the jack",
        "What lifts the ball free, or levels the trailer on its site, whichever is more.",
        STATICS,
        combine("y", np.atleast_1d(values), "m", (of.rise, free, slope)),
        (free, slope),
    )
    if jack.pin_step is not None:
        return (
            w,
            w(
                STROKE_DROP,
                y=rise,
                step=trials.given("step", jack.pin_step, "m", path=f"{at}.pin_step"),
                give=trials.assumed("give", data.defaults["jack.ground_give"]),
            ),
            rise,
        )
    return (
        w,
        w(
            STROKE,
            clear=trials.given("clear", jack.foot_clearance, "m", path=f"{at}.foot_clearance"),
            fall=standing(model, trials, "ground_fall_at_jack", "fall", "m"),
            y=rise,
            block=trials.given("block", jack.block, "m", path=f"{at}.block"),
        ),
        rise,
    )


def jack_station(jack: Jack, trials: Trials) -> Quantity:
    """Station of the jack, m."""
    return trials.given("x_j", jack.station, "m", path=f"trailer.yaml jacks.{jack.id}.station")


def _spacing(jack: Jack, trials: Trials) -> Quantity:
    y = trials.given("y", jack.y, "m", path=f"trailer.yaml jacks.{jack.id}.y")
    return combine("w_j", 2 * y.values, "m", (y,))


def _number(q: Quantity) -> float:
    return float(q.values[0])
