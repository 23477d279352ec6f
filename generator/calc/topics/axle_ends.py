"""Both ends of the axle group's window, limit by limit and state by state. Loads in kg, stations in m.

On equalisers every limit is a limit of one load, that of all springs, which falls as P/u behind the ball: each end has
a closed form. Axles that do not share have none, and their ends are found by bisection.
"""

from collections.abc import Callable

import numpy as np

from generator.calc.record import Floats, Quantity, Working, formula, sure
from generator.calc.topics import axles as ax
from generator.calc.topics import suspension as sus
from generator.calc.topics.axle_bench import Bench, ratios
from generator.records import dataclass

HALVINGS = 24
"""Steps of a bisection over the reach either way: the station is then known to a micrometre."""

REACH = 6.0
"""How far either way of the chosen station an end of the window is looked for, m."""

SUBSTITUTIONS = 24
"""Rounds in which the ball's error is put in; each leaves less than a hundredth of what the last one left."""

HITCH_ROW = 2
"""Place of the hitch's own limit among the rows: least share, greatest share, hitch, axles, tyres."""

WORDS = ("Foremost station that keeps every limit", "Rearmost station that keeps every limit")

STATICS = "statics: moments about the ball, axles that share evenly"


@formula("Spring load of the group at which the share on the ball is met", "A_lim = W*(1 - s) - U", "kg", STATICS)
def AT_SHARE(W: Floats, s: Floats, U: Floats) -> Floats:
    return W * (1 - s) - U


@formula("Spring load of the group at which the load on the ball is met", "A_lim = W - H_lim - U", "kg", STATICS)
def AT_HITCH(W: Floats, H_lim: Floats, U: Floats) -> Floats:
    return W - H_lim - U


@formula("Spring load of the group at which an axle is at its rating", "A_lim = n*(G_i - U_i)", "kg",
         "rockers make the spring loads equal")
def AT_AXLE(n: Floats, G_i: Floats, U_i: Floats) -> Floats:
    return n * (G_i - U_i)


@formula(
    "Spring load of the group at which the worst tyre is at its rating",
    "A_lim = n*(2*(T - max(D_i, -D_i)) - T_i - U_i)",
    "kg",
    "rockers make the spring loads equal; the heavier side takes what is off the middle",
)
def AT_TYRE(n: Floats, T: Floats, D_i: Floats, T_i: Floats, U_i: Floats) -> Floats:
    return n * (2 * (T - np.maximum(D_i, -D_i)) - T_i - U_i)


@formula("More on the springs, ball off its height", "dA = e*Q/(9.80665*(u**2 - Q/K))", "kg",
         "rigid frame on a ball and one group of springs")
def OFF_LEVEL(e: Floats, Q: Floats, u: Floats, K: Floats) -> Floats:
    return e * Q / (sus.G * (u**2 - Q / K))


@formula("Station of the group that just meets the limit",
         "x = x_h + (M_f*(x_f - x_h) + M_r*r)/(A_lim - dA - M_r)", "m", STATICS)
def END(x_h: Floats, M_f: Floats, x_f: Floats, M_r: Floats, r: Floats, A_lim: Floats, dA: Floats) -> Floats:
    return x_h + (M_f * (x_f - x_h) + M_r * r) / (A_lim - dA - M_r)


@dataclass(frozen=True, slots=True, eq=False)
class Closed:
    """One row of every limit in every state, nominal: spring load that meets it (kg), end (m), what pitch adds (kg)."""

    A_lim: Floats
    e: Floats
    more: Floats
    x: Floats
    never: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]


def ends(b: Bench) -> tuple[Floats, Floats]:
    """Least and greatest station (m) that keeps each limit (rows) in each state (columns), nominal."""
    return _ends_of(b, closed(b)) if b.sharing else bisected(b)


def _ends_of(b: Bench, c: Closed) -> tuple[Floats, Floats]:
    """A load that what moves with the axles makes up alone is kept nowhere by a greatest, everywhere by a least."""
    grows = _grows(b)
    x = np.where(c.A_lim > _few(b.M_r) + c.more, c.x, np.inf)
    onward = np.where(np.arange(len(b.limits))[:, None] == 1, b.onward, True)
    highs = np.where(c.never, -np.inf, np.where(onward, x, np.inf))
    return np.where(grows, -np.inf, np.where(c.never, np.inf, x)), np.where(grows, highs, np.inf)


def closed(b: Bench) -> Closed:
    """Ends of axles that share, each from the load that meets its limit; exact with the ball at its height, and with
    the ball off it once the pitch at the end itself is put in.
    """
    load, errors = _loads(b), [_few(e) for e in b.errors]
    # Of both errors the one that closes first counts: the greater load for what falls aft, the less for what grows.
    (dA_1, x_1), (dA_2, x_2) = (_substituted(b, load, e) for e in errors)
    first = np.where(_grows(b), dA_1 <= dA_2, dA_1 >= dA_2)
    never = np.broadcast_to(np.arange(len(b.limits))[:, None] == HITCH_ROW, load.shape) & (not b.hitch > 0.0)
    return Closed(load, np.where(first, *errors), np.where(first, dA_1, dA_2), np.where(first, x_1, x_2), never)


def _substituted(b: Bench, load: Floats, e: Floats) -> tuple[Floats, Floats]:
    dA, K = np.zeros(load.shape), sum(map(_few, b.rates))
    with np.errstate(all="ignore"):
        for _ in range(SUBSTITUTIONS):
            x = _end(b, load, dA)
            dA = OFF_LEVEL.of(e, _pitch_mass(b, load - dA), x - _few(b.x_h), K)
        return dA, _end(b, load, dA)


def _end(b: Bench, load: Floats, dA: Floats) -> Floats:
    return END.of(_few(b.x_h), _few(b.M_f), _few(b.x_f), _few(b.M_r), _few(b.x_r) - b.middle, load, dA)


def _pitch_mass(b: Bench, A_s: Floats) -> Floats:
    z_s, z_h, z_p = map(_few, b.heights)
    return sus.PITCH_MASS.of(_few(b.m_s), z_s, z_h, A_s, z_p)


def _loads(b: Bench) -> Floats:
    """Spring load of the group (kg) that meets each limit (rows) in each state (columns)."""
    W, U, K = _few(b.W), sum(map(_few, b.unsprung)), sum(map(_few, b.rates))
    counts, own = [K / _few(k) for k in b.rates], [_few(u) for u in b.unsprung]
    rows = [
        np.where(b.onward, AT_SHARE.of(W, b.share[0], U), AT_HITCH.of(W, b.least, U)),
        AT_SHARE.of(W, b.share[1], U),
        AT_HITCH.of(W, b.hitch, U),
        *(AT_AXLE.of(n, g, u) for n, g, u in zip(counts, b.axles, own, strict=True)),
        *(
            AT_TYRE.of(n, b.tyre, _shift(b, i), _few(b.seats[i]), u)
            for i, (n, u) in enumerate(zip(counts, own, strict=True))
        ),
    ]
    return np.array(np.broadcast_arrays(*rows))


def _shift(b: Bench, i: int) -> Floats:
    """More on the heavier side of axle `i` than half its load, kg."""
    K_t = sum(_few(k) * t**2 for k, t in zip(b.rates, b.tracks, strict=True))
    return ax.SIDE_SHIFT.of(_few(b.W), _few(b.y), _few(b.rates[i]), b.tracks[i], K_t)


def _few(values: Floats) -> Floats:
    """Nominal values, one per state."""
    nominal: Floats = values[..., 0]
    return nominal


def _grows(b: Bench) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    return np.array([limit.grows for limit in b.limits])[:, None]


def bisected(b: Bench) -> tuple[Floats, Floats]:
    """The same by bisection within reach of the chosen station, whatever the springs."""
    nominal, rows = b.cut(0), len(b.limits)
    grows = _grows(b)
    shape = (rows, len(b.ids))
    behind = float(b.x_h[0, 0]) + 1.0 + 3.0 * max(b.offsets)
    first, last = max(b.middle - REACH, behind), b.middle + REACH

    def kept(x: Floats) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        use = ratios(nominal, x[..., None])[np.arange(rows), np.arange(rows)]
        return np.asarray(use[..., 0] <= 1.0)

    low, high = np.full(shape, first), np.full(shape, last)
    at_first, at_last = kept(low), kept(high)
    for _ in range(HALVINGS):
        x = (low + high) / 2
        aft = kept(x) == grows
        low, high = np.where(aft, x, low), np.where(aft, high, x)
    lows = np.where(grows, -np.inf, np.where(at_first, -np.inf, np.where(at_last, high, np.inf)))
    highs = np.where(grows, np.where(at_last, np.inf, np.where(at_first, low, -np.inf)), np.inf)
    return lows, highs


def show_ends(b: Bench, w: Working) -> None:
    """Work out, step by step, the end that closes the window ahead and the one behind; nothing for springs apart."""
    if not b.sharing:
        return
    found = closed(b)
    for ends_, pick, what in zip(_ends_of(b, found), (np.argmax, np.argmin), WORDS, strict=True):
        row, state = (int(n) for n in np.unravel_index(int(pick(ends_)), ends_.shape))
        x = _show(b, found, row, state, w)
        w.procedure(what, f"Closed by: {b.limits[row].words}, {b.titles[state]}.", "enveloping", x, (x,))


def _show(b: Bench, c: Closed, row: int, state: int, w: Working) -> Quantity:
    """One end worked out: the load that meets the limit, what the ball's height adds there, the station."""

    def at(symbol: str, values: Floats | float, unit: str = "kg") -> Quantity:
        return sure(symbol, float(np.broadcast_to(values, c.x.shape)[row, state]), unit)

    def few(symbol: str, values: Floats, unit: str = "kg") -> Quantity:
        return at(symbol, _few(values), unit)

    z_s, z_h, z_p = (few(s, z, "m") for s, z in zip(("z_s", "z_h", "z_p"), b.heights, strict=True))
    limit = _limit(b, row, state, at, w)
    x_h, M_r = few("x_h", b.x_h, "m"), few("M_r", b.M_r)
    Q = w(sus.PITCH_MASS, m_s=few("m_s", b.m_s), z_s=z_s, z_h=z_h, A_s=at("A_s", c.A_lim - c.more), z_p=z_p)
    K = at("K", sum(map(_few, b.rates)), "N/m:spring")
    dA = w(OFF_LEVEL, e=at("e", c.e, "m"), Q=Q, u=at("u", c.x - _few(b.x_h), "m"), K=K)
    return w(END, x_h=x_h, M_f=few("M_f", b.M_f), x_f=few("x_f", b.x_f, "m"), M_r=M_r,
             r=at("r", _few(b.x_r) - b.middle, "m"), A_lim=limit, dA=dA)


def _limit(b: Bench, row: int, state: int, at: Callable[..., Quantity], w: Working) -> Quantity:
    W, U = at("W", _few(b.W)), at("U", sum(map(_few, b.unsprung)))
    if row == 0 and not b.onward[state]:
        return w(AT_HITCH, W=W, H_lim=at("H_lim", b.least), U=U)
    if row < HITCH_ROW:
        return w(AT_SHARE, W=W, s=at("s", b.share[row], "1"), U=U)
    if row == HITCH_ROW:
        return w(AT_HITCH, W=W, H_lim=at("H_lim", b.hitch), U=U)
    which, of = divmod(row - HITCH_ROW - 1, len(b.rates))
    n, u = at("n", sum(map(_few, b.rates)) / _few(b.rates[of]), "1"), at("U_i", _few(b.unsprung[of]))
    if which == 0:
        return w(AT_AXLE, n=n, G_i=at("G_i", b.axles[of]), U_i=u)
    return w(AT_TYRE, n=n, T=at("T", b.tyre), D_i=at("D_i", _shift(b, of)), T_i=at("T_i", _few(b.seats[of])), U_i=u)
