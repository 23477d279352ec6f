"""A straight beam on rigid, spring or compound supports: reactions, shear, moment, deflection.

Stations m along the beam, loads downward positive (N, N/m), deflection upward positive, slope dw/dx, moment positive
where it sags; bending alone (Euler-Bernoulli). Every load and reaction adds Macaulay terms to the moment; deflection
is their double integral over E I. The unknowns are the reactions and the movement of the front end, the equations both
balances and one line per support: balance then holds to the last digit, however close two stations lie, where a
stiffness matrix of the same beam loses it.
"""

from collections.abc import Iterable, Sequence
from math import factorial

import numpy as np

from generator.calc.beam_nodes import Nodes, Terms, nodes
from generator.calc.record import Floats
from generator.errors import CalcError
from generator.records import dataclass

RESIDUAL = 1e-9
"""Greatest shear left at the free end as a share of the load (at least 1 N), and moment as one of load times length."""

SAME = 1e-9
"""Stations closer than this (m) are one."""


@dataclass(frozen=True, slots=True)
class Support:
    """One support as a linear form of the beam's movement: the sum over `terms` of share w + lever dw/dx.

    `terms` are (station m, share, lever m). `stiffness` None holds the form at `imposed` (m, upward); otherwise a
    spring (N/m) carries stiffness x (imposed - form). Its force (N, upward) acts on each term as share x force and
    as a couple lever x force.
    """

    title: str
    terms: tuple[tuple[float, float, float], ...]
    stiffness: float | None = None
    imposed: float = 0.0


def at(title: str, station: float, lever: float = 0.0, stiffness: float | None = None,
       imposed: float = 0.0) -> Support:
    """A support at one station (m); `lever` (m) carries the force that far aft of it, as a trailing arm does."""
    return Support(title, ((station, 1.0, lever),), stiffness, imposed)


@dataclass(frozen=True, slots=True, eq=False)
class Loads:
    """Point loads (n, 2): station m, N downward. Line loads (n, 4): front and rear station m, N/m at each. Couples:
    station m, N m that push the front end down.
    """

    points: Floats
    lines: Floats
    couples: tuple[tuple[float, float], ...] = ()

    @property
    def total(self) -> float:
        """Sum of all loads, N."""
        x0, x1, w0, w1 = self.lines.T
        return float(self.points[:, 1].sum() + ((w0 + w1) / 2.0 * (x1 - x0)).sum())


def loads(points: Iterable[Sequence[float]] = (), lines: Iterable[Sequence[float]] = ()) -> Loads:
    """Loads from rows (see `Loads`); raises CalcError for a line load that does not run aft."""
    p = np.array(list(points), dtype=np.float64).reshape(-1, 2)
    q = np.array(list(lines), dtype=np.float64).reshape(-1, 4)
    if not (np.isfinite(p).all() and np.isfinite(q).all()):
        raise CalcError("a load of the beam is not a finite number")
    if not (q[:, 1] > q[:, 0]).all():
        raise CalcError("a line load of the beam ends ahead of where it starts")
    return Loads(p, q)


@dataclass(frozen=True, slots=True)
class Girder:
    """The beam: front and rear end (m), and its stiffness E I (N m2) from each station of `runs` on, front first."""

    front: float
    rear: float
    runs: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Bent:
    """The solved beam under one set of loads: `reactions` (N, upward) in the order of `supports`."""

    girder: Girder
    supports: tuple[Support, ...]
    loads: Loads
    reactions: Floats
    front_movement: float
    front_slope: float
    terms: list[Terms]

    def shear(self, x: Floats, after: bool = True) -> Floats:
        """Shear N (sum of upward forces in front) just behind or just ahead of each station."""
        return _sum(self.terms, x, -1, after)

    def moment(self, x: Floats, after: bool = True) -> Floats:
        """Bending moment N m, positive where it sags, just behind or just ahead of each station."""
        return _sum(self.terms, x, 0, after)

    def deflection(self, x: Floats) -> Floats:
        """Movement m at each station, upward positive."""
        turned = self.front_movement + self.front_slope * (x - self.girder.front)
        return turned + nodes(self.girder.front, self.girder.rear, self.girder.runs, self.terms).bent(x)[0]

    def breaks(self) -> Floats:
        """Stations m at which a load or a reaction starts, ends or acts, and both ends."""
        ends = [np.array([self.girder.front, self.girder.rear])]
        x = np.sort(np.concatenate([*ends, *(stations for stations, _, _ in self.terms)]))
        return x[np.concatenate(([True], np.diff(x) > SAME))]

    def peaks(self) -> Floats:
        """Stations m between breaks at which the shear is nil: the moment is greatest or least there."""
        x = self.breaks()
        a, b = x[:-1], x[1:]
        v0, v1, middle = self.shear(a), self.shear(b, after=False), self.shear((a + b) / 2.0)
        # Between breaks the shear is a parabola p t^2 + q t + v0 of t = 0 .. 1.
        p, q = 2.0 * v0 + 2.0 * v1 - 4.0 * middle, 4.0 * middle - 3.0 * v0 - v1
        shares = [_roots(*row) for row in np.stack([p, q, v0], axis=1)]
        found = [ai + t * (bi - ai) for ai, bi, ts in zip(a, b, shares, strict=True) for t in ts if 0.0 < t < 1.0]
        return np.array(found, dtype=np.float64)


def solve(girder: Girder, supports: Sequence[Support], cases: Sequence[Loads],
          imposed: Sequence[Sequence[float]] | None = None) -> tuple[Bent, ...]:
    """Solve one support scheme under several sets of loads; raises CalcError if it does not stand.

    `imposed` (m, upward; one row per case, one number per support) takes the place of the supports' own.
    """
    end, length, ei = np.array([girder.rear]), girder.rear - girder.front, girder.runs[0][1]
    # Unknowns: reactions (N), then front movement x E I / L^3 and front slope x E I / L^2, all of one size.
    soft = length**3 / ei
    system, right, loaded = _equations(girder, supports, cases, imposed)
    try:
        found: Floats = np.linalg.solve(system, right).astype(np.float64)
    except np.linalg.LinAlgError as error:
        raise CalcError("the beam does not stand on its supports") from error
    bent = tuple(_bent(girder, tuple(supports), case, terms, found[:, j], length, soft)
                 for j, (case, terms) in enumerate(zip(cases, loaded, strict=True)))
    for b in bent:
        _require_balance(b, end, length)
    return bent


def one_way(girder: Girder, supports: Sequence[Support], cases: Sequence[Loads],
            imposed: Sequence[Sequence[float]]) -> Floats:
    """Reactions (cases, supports; N) of supports that only push: one in tension is let go, the greatest pull first.

    Raises CalcError if fewer than two are left or the beam tips off them.
    """
    return np.array([b.reactions for b in pushed(girder, supports, cases, imposed)])


def pushed(girder: Girder, supports: Sequence[Support], cases: Sequence[Loads],
           imposed: Sequence[Sequence[float]]) -> tuple[Bent, ...]:
    """The beam on supports that only push, as `one_way`: a support let go has no force.

    Raises CalcError if fewer than two are left or the beam tips off them.
    """
    length = girder.rear - girder.front
    soft = length**3 / girder.runs[0][1]
    system, right, loaded = _equations(girder, supports, cases, imposed)
    found = [_pushing(system, right[:, j], case.total) for j, case in enumerate(cases)]
    return tuple(_bent(girder, tuple(supports), case, terms, vector, length, soft)
                 for case, terms, vector in zip(cases, loaded, found, strict=True))


def _pushing(system: Floats, right: Floats, load: float) -> Floats:
    """Reactions and movement that solve the equations with every reaction pushing; nil where a support is let go."""
    n = len(right) - 2
    held = list(range(n))
    while True:
        if len(held) < 2:
            raise CalcError("the beam tips off its supports")
        rows = [*held, n, n + 1]
        try:
            found = np.linalg.solve(system[np.ix_(rows, rows)], right[rows])
        except np.linalg.LinAlgError as error:
            raise CalcError("the beam does not stand on its supports") from error
        if found[:-2].min() >= -RESIDUAL * max(abs(load), 1.0):
            out: Floats = np.zeros(n + 2)
            out[rows] = found
            return out
        held.pop(int(found[:-2].argmin()))


def _equations(girder: Girder, supports: Sequence[Support], cases: Sequence[Loads],
               imposed: Sequence[Sequence[float]] | None) -> tuple[Floats, Floats, list[list[Terms]]]:
    """Matrix and right-hand sides of `solve`, and the terms of each set of loads."""
    _require_on_beam(girder, supports, cases)
    end, length = np.array([girder.rear]), girder.rear - girder.front
    soft, n = length**3 / girder.runs[0][1], len(supports)
    system, right = np.zeros((n + 2, n + 2)), np.zeros((n + 2, len(cases)))
    units = [_support_terms(s, 1.0) for s in supports]
    known = {id(case): _load_terms(case) for case in cases}
    rows = np.array([(i, *term) for i, s in enumerate(supports) for term in s.terms], dtype=np.float64).reshape(-1, 4)
    system[:n, :n] = np.array([_forms(girder, rows, unit, n) / soft for unit in units]).reshape(n, n).T
    system[:n, n] = _by_support(rows, rows[:, 2], n)
    system[:n, n + 1] = _by_support(rows, rows[:, 2] * (rows[:, 1] - girder.front) + rows[:, 3], n) / length
    system[range(n), range(n)] += [0.0 if s.stiffness is None else 1.0 / (s.stiffness * soft) for s in supports]
    forms = {key: _forms(girder, rows, terms, n) for key, terms in known.items()}
    held = [[s.imposed for s in supports]] * len(cases) if imposed is None else imposed
    right[:n] = np.array([(np.array(h, dtype=np.float64) - forms[id(case)]) / soft
                          for h, case in zip(held, cases, strict=True)]).T
    for row, up in ((n, -1), (n + 1, 0)):
        size = 1.0 if up else length
        system[row, :n] = [_sum(unit, end, up, True)[0] / size for unit in units]
        ends = {key: -_sum(terms, end, up, True)[0] / size for key, terms in known.items()}
        right[row] = [ends[id(case)] for case in cases]
    return system, right, [known[id(case)] for case in cases]


@dataclass(frozen=True, slots=True, eq=False)
class Diagram:
    """Shear N and moment N m along the beam: each break twice (just ahead, just behind), and where shear is nil."""

    x: Floats
    shear: Floats
    moment: Floats
    nodes: Nodes
    front_movement: float
    front_slope: float

    def moment_ahead(self, x: Floats) -> Floats:
        """Moment N m just ahead of each station."""
        return self.nodes.moment(x, "left")

    def shear_ahead(self, x: Floats) -> Floats:
        """Shear N just ahead of each station."""
        return self.nodes.shear(x, "left")

    def deflection(self, x: Floats) -> Floats:
        """Movement m at each station, upward positive."""
        out: Floats = self.front_movement + self.front_slope * (x - self.nodes.x[0]) + self.nodes.bent(x)[0]
        return out


def diagram(b: Bent) -> Diagram:
    """The whole diagram by statics from break to break: every place where shear or moment can be greatest."""
    n = nodes(b.girder.front, b.girder.rear, b.girder.runs, b.terms)
    nil = _nil_shear(n.v[:-1], n.q[:-1], n.g[:-1], np.diff(n.x))
    at_x = np.array([n.x[i] + t for i, t in nil])
    xs = np.concatenate([n.x, n.x, at_x])
    order = np.lexsort((np.repeat([0, 1, 2], [len(n.x), len(n.x), len(at_x)]), xs))
    shears = np.concatenate([n.v - n.force, n.v, np.zeros(len(at_x))])
    moments = np.concatenate([n.m - n.couple, n.m, n.moment(at_x, "right")])
    return Diagram(xs[order], shears[order], moments[order], n, b.front_movement, b.front_slope)


def _nil_shear(v: Floats, q: Floats, bend: Floats, step: Floats) -> list[tuple[int, float]]:
    """Interval and distance into it (m) at which v + q t + bend t^2 / 2 is nil."""
    found = []
    ends = v + q * step + bend * step**2 / 2.0
    for i in np.flatnonzero((v * ends < 0.0) | (bend != 0.0)):
        for t in _roots(float(bend[i]) * float(step[i]) ** 2 / 2.0, float(q[i] * step[i]), float(v[i])):
            if 0.0 < t < 1.0:
                found.append((int(i), t * float(step[i])))
    return found


def _bent(girder: Girder, supports: tuple[Support, ...], case: Loads, terms: list[Terms], found: Floats,
          length: float, soft: float) -> Bent:
    reactions = found[:-2]
    held = [part for s, r in zip(supports, reactions, strict=True) for part in _support_terms(s, float(r))]
    return Bent(girder, supports, case, reactions, float(found[-2] * soft), float(found[-1] * soft / length),
                terms + held)


def _forms(girder: Girder, rows: Floats, terms: list[Terms], n: int) -> Floats:
    """Each support's form of the bending that `terms` cause, m; `rows` are (support, station, share, lever)."""
    w, slope = nodes(girder.front, girder.rear, girder.runs, terms).bent(rows[:, 1])
    return _by_support(rows, rows[:, 2] * w + rows[:, 3] * slope, n)


def _by_support(rows: Floats, values: Floats, n: int) -> Floats:
    """Values of rows added up for each of `n` supports."""
    return np.bincount(rows[:, 0].astype(np.int64), weights=values, minlength=n).astype(np.float64)


def _load_terms(case: Loads) -> list[Terms]:
    """The loads as terms, those of one station added up and nil ones left out."""
    x0, x1, w0, w1 = case.lines.T
    rate = (w1 - w0) / (x1 - x0)
    ends = np.concatenate([x0, x1])
    turned: Floats = np.array(case.couples, dtype=np.float64).reshape(-1, 2)
    parts = [(turned[:, 0], -turned[:, 1], 0), (case.points[:, 0], -case.points[:, 1], 1),
             (ends, np.concatenate([-w0, w1]), 2),
             (ends, np.concatenate([-rate, rate]), 3)]
    found: list[Terms] = []
    for stations, sizes, power in parts:
        at_x, index = np.unique(stations, return_inverse=True)
        total = np.bincount(index, weights=sizes, minlength=len(at_x))
        on = total != 0.0
        found.append((at_x[on], total[on], power))
    return found


def _support_terms(support: Support, force: float) -> list[Terms]:
    x, share, lever = np.array(support.terms, dtype=np.float64).T
    return [(x, share * force, 1), (x, -lever * force, 0)]


def _sum(terms: list[Terms], x: Floats, up: int, after: bool) -> Floats:
    """The moment (up 0), its derivative (-1) or integrals (1, 2); a step counts only behind its own station."""
    out = np.zeros(len(x))
    for stations, sizes, power in terms:
        n = power + up
        if n < 0:
            continue
        s = x[:, None] - stations[None, :]
        if n == 0:
            out += np.where(s >= -SAME if after else s > SAME, 1.0, 0.0) @ sizes
            continue
        np.maximum(s, 0.0, out=s)
        # Products: a power of an array is many times slower.
        raised = s.copy()
        for _ in range(n - 1):
            raised *= s
        out += raised @ sizes / factorial(n)
    return out


def _require_on_beam(girder: Girder, supports: Sequence[Support], cases: Sequence[Loads]) -> None:
    stations = np.concatenate([np.array([x for s in supports for x, _, _ in s.terms]),
                               np.array([x for c in cases for x, _ in c.couples]),
                               *(np.concatenate([c.points[:, 0], c.lines[:, 0], c.lines[:, 1]])
                                 for c in {id(c): c for c in cases}.values())])
    if not ((stations >= girder.front - SAME) & (stations <= girder.rear + SAME)).all():
        raise CalcError("a load or a support stands off the beam")


def _require_balance(b: Bent, end: Floats, length: float) -> None:
    x0, x1, w0, w1 = b.loads.lines.T
    turned = sum(abs(couple) for _, couple in b.loads.couples) / length
    carried = np.abs(b.loads.points[:, 1]).sum() + (np.maximum(np.abs(w0), np.abs(w1)) * (x1 - x0)).sum() + turned
    size = max(float(np.abs(b.reactions).max()), float(carried), 1.0)
    if not (abs(b.shear(end)[0]) <= RESIDUAL * size and abs(b.moment(end)[0]) <= RESIDUAL * size * length):
        raise CalcError("the beam does not stand on its supports: forces do not balance")


def _roots(p: float, q: float, r: float) -> list[float]:
    """Real roots of p t^2 + q t + r, without loss when p is small."""
    size = max(abs(p), abs(q), abs(r))
    if abs(p) <= 1e-12 * size:
        return [-r / q] if abs(q) > 1e-12 * size else []
    inside = q * q - 4.0 * p * r
    if inside < 0.0:
        return []
    k = -0.5 * (q + (1.0 if q >= 0.0 else -1.0) * float(np.sqrt(inside)))
    return [k / p] + ([r / k] if k != 0.0 else [])
