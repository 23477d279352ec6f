"""Does the steel go together: pieces in the same place, ends coped into flanges, ends that meet nothing. m."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from generator.calc.findings import Cope, Turned
from generator.calc.record import About, Basis, Check, Findings, Missing, Quantity, Working, compare, sure
from generator.calc.trials import CONFIDENCES, Trials
from generator.model.joints import End, Joints, joints
from generator.model.solids import AXES, TOES, extents, middle_at, outward
from generator.model.types import Model, Piece
from generator.records import dataclass
from generator.reference.types import Reference

SOURCE = "geometry of the member schedule"
SHOP = "The fabricator, before steel is cut: the joint as the shop would make it."
WHERE = {
    "lengthwise": ("where it ends at station x", ""),
    "crosswise": ("at the stations x, where it ends at y off centre", "y"),
    "upright": ("at the stations x, where it ends at height z", "z"),
}
"""How the place of an end is told, and the symbol of what is told beside its station."""
PLATES = f"every piece as the plates it is made of, compared with all others, shared by more than t each way. {TOES}"
HELD = (
    "an end is held by what it meets within t over the share b of the narrower of the two, or by what its side lies on "
    "near it; free are ends at the outline of a deck and of a tube round the coupler or a jack leg; a flat bar need "
    "only touch"
)
COUNTED = {
    "frame.clash": ("Places in which steel clashes", PLATES),
    "frame.bearing": ("Ends and pieces that nothing holds", HELD),
}
"""What each check counts, and how."""
END_WORDS = {"lengthwise": ("front end", "rear end"), "upright": ("foot", "top")}

COUPLED = 0.15
"""A tongue member that ends this near the ball (m) is held by the coupler."""


@dataclass(frozen=True, slots=True)
class Fit:
    """What this topic found, with the copes and the sides the channels turn, for the schedules."""

    findings: Findings
    copes: tuple[Cope, ...] = ()
    turned: tuple[Turned, ...] = ()


@dataclass(frozen=True, slots=True)
class Fault:
    """Places where two marks clash, or ends of a mark that are loose: words, stations, sizes (symbol, m)."""

    title: str
    text: str
    stations: tuple[float, ...]
    sizes: tuple[tuple[str, float], ...]
    count: int


def fit(model: Model, trials: Trials, data: Reference) -> Fit:
    """Clashes, copes and loose ends of the frame (counts, m)."""
    unknown = tuple(sorted(_unknown(model)))
    if unknown:
        return Fit(Findings(checks=tuple(Check(i, a, "", Missing(unknown)) for i, a in _CHECKS)))
    pieces, tolerance = model.pieces, data.defaults["fit.tolerance"].value
    found = joints(pieces, data.sections, tolerance)
    basis = max((CONFIDENCES[data.sections[p.section].confidence] for p in pieces), default=Basis.TABLE)
    slack = trials.assumed("t", data.defaults["fit.tolerance"])
    least = trials.assumed("b", data.defaults["fit.bearing"])
    clashes = [*_clashes(pieces, found), *_legs(model, tolerance)]
    copes = tuple(_copes(pieces, found))
    flat = frozenset(n for n, p in enumerate(pieces) if data.sections[p.section].shape == "plate")
    loose = list(_loose(model, found, flat, float(least.values[0]), tolerance))
    checks = (
        _counted("frame.clash", clashes, copes, (slack,), basis),
        _counted("frame.bearing", loose, (), (slack, least), basis),
    )
    turned = tuple(_turned(pieces, found, data))
    return Fit(Findings(checks=checks), copes, turned)


def _unknown(model: Model) -> Iterator[str]:
    trailer = model.spec.trailer
    if trailer.tongue is not None and not trailer.tongue.angle.known:
        yield trailer.tongue.angle.origin
    for m in (*trailer.frame.members, *(trailer.tongue.members if trailer.tongue is not None else ())):
        values = (m.start, m.end, m.y, m.top, *m.stations)
        yield from (v.origin for v in values if v is not None and not v.known)


def _counted(
    id: str, faults: Sequence[Fault], copes: Iterable[Cope], given: tuple[Quantity, ...], basis: Basis
) -> Check:
    """No fault may be left; each is a step of its own, and so is each kind of cope."""
    w = Working()
    for c in copes:
        inputs = [sure("l", c.length, "m"), sure("d", c.depth, "m")]
        text = f"{c.end} cut back by l, to a depth d, for the {c.flange} flange of {c.into} and stopped at its web"
        w.procedure(f"Cope: {c.mark} into {c.into}", text, SOURCE, sure("n", c.count, "count"), inputs)
    for f in faults:
        inputs = [sure(f"x_{n}", x, "m") for n, x in enumerate(f.stations, 1)]
        inputs += [sure(symbol, value, "m") for symbol, value in f.sizes]
        w.procedure(f.title, f.text, SOURCE, sure("n", f.count, "count"), inputs)
    rests_on = frozenset().union(*(q.rests_on for q in given))
    total = sure("n", float(sum(f.count for f in faults)), "count", basis, sorted(rests_on))
    w.procedure(*COUNTED[id], SOURCE, total, given)
    return Check(id, dict(_CHECKS)[id], "", compare(total, sure("n_max", 0.0, "count"), "<=", w))


def _clashes(pieces: Sequence[Piece], found: Joints) -> Iterator[Fault]:
    """One fault for each pair of marks, with the worst of its places."""

    def marks(o: tuple[int, int]) -> tuple[str, str]:
        return pieces[o[0]].mark, pieces[o[1]].mark

    listed = sorted(found.overlaps, key=lambda o: (marks((o.first, o.second)), o.at))
    for pair, held in groupby(listed, key=lambda o: marks((o.first, o.second))):
        places = list(held)
        worst = max(places, key=lambda o: min(o.by))
        first, second = pieces[worst.first].title, pieces[worst.second].title.lower()
        sides = _sides(o.at[1] for o in places)
        yield Fault(
            f"Clash: {pair[0]} and {pair[1]}",
            f"{first} and {second} stand in the same place, {sides}, around the stations x, at worst by a along the "
            "trailer, b across it and h in height",
            tuple(sorted({round(o.at[0], 4) for o in places})),
            tuple(zip(("a", "b", "h"), worst.by, strict=True)),
            len(places),
        )


def _legs(model: Model, tolerance: float) -> Iterator[Fault]:
    """Jack legs whose middle passes through steel that is no sleeve."""
    for jack in model.spec.trailer.jacks:
        x, y = jack.station.nominal, jack.y.nominal
        legs = (-y, y) if jack.legs == 2 else (y,)
        hit = [(p, leg) for p in model.pieces for leg in legs if _stops(p, x, leg, tolerance)]
        for mark in sorted({p.mark for p, _ in hit}):
            of = [(p, leg) for p, leg in hit if p.mark == mark]
            where, title = _sides(leg for _, leg in of), of[0][0].title.lower()
            text = f"the middle of the leg passes through the {title}, {where}, at station x and y off centre"
            yield Fault(f"Clash: leg of jack {jack.id} and {mark}", text, (x,), (("y", abs(y)),), len(of))


def _stops(p: Piece, x: float, y: float, tolerance: float) -> bool:
    """Whether a jack leg cannot pass: it meets steel of the main deck that is no sleeve around it."""
    return p.run != "upright" and p.z0 < 0.0 and _holds(p, x, y, tolerance)


def _holds(p: Piece, x: float, y: float, tolerance: float) -> bool:
    """Whether an upright line passes through a piece."""
    half = (p.y1 - p.y0) / 2.0 * p.skew - tolerance
    return p.x0 + tolerance < x < p.x1 - tolerance and abs(y - middle_at(p, x)) < half


def _copes(pieces: Sequence[Piece], found: Joints) -> Iterator[Cope]:
    """Copes alike in mark, end, flange and size, as one row each."""
    rows = [
        (
            pieces[n.piece].mark,
            _end_word(pieces[n.piece], n.end),
            pieces[n.into].mark,
            _flange_word(pieces[n.into], n.flange),
            round(n.length, 4),
            round(n.depth, 4),
        )
        for n in found.notches
    ]
    for row, held in groupby(sorted(rows)):
        yield Cope(*row, count=len(list(held)))


def _turned(pieces: Sequence[Piece], found: Joints, data: Reference) -> Iterator[Turned]:
    """Toes by mark, each way with the stations of the pieces turned so."""
    ways: dict[tuple[str, str], set[float]] = {}
    for p, back in zip(pieces, found.backs, strict=True):
        if data.sections[p.section].shape in ("C", "L"):
            lengthwise, crosswise = ("inward", "outward"), ("aft", "forward")
            words = crosswise if p.run == "crosswise" else lengthwise
            ways.setdefault((p.mark, words[0 if back == outward(p) else 1]), set()).add(round((p.x0 + p.x1) / 2.0, 4))
    yield from (Turned(mark, toes, tuple(sorted(at))) for (mark, toes), at in sorted(ways.items()))


def _loose(model: Model, found: Joints, flat: frozenset[int], least: float, tolerance: float) -> Iterator[Fault]:
    """Loose ends by mark and end, pieces that touch nothing, and groups of pieces apart from the rest."""
    pieces = model.pieces
    loose = [e for e in found.ends if _is_loose(model, e, found, flat, least, tolerance)]

    def named(e: End) -> tuple[str, str]:
        return pieces[e.piece].mark, _end_word(pieces[e.piece], e.end)

    for (mark, word), held in groupby(sorted(loose, key=named), key=named):
        yield _loose_fault(pieces, mark, word, list(held))
    alone = [n for n in range(len(pieces)) if n not in found.touched]
    for mark in sorted({pieces[n].mark for n in alone}):
        of = [pieces[n] for n in alone if pieces[n].mark == mark]
        yield Fault(
            f"Loose piece: {mark}",
            f"{of[0].title} touches no other piece at the stations x",
            _stations(of),
            (),
            len(of),
        )
    for group in found.groups[1:]:
        if len(group) > 1:
            of = [pieces[n] for n in group]
            marks = ", ".join(sorted({p.mark for p in of}))
            yield Fault(
                f"Apart from the rest: {marks}",
                "these pieces touch one another but not the frame, around the stations x",
                _stations(of),
                (),
                1,
            )


def _is_loose(model: Model, e: End, found: Joints, flat: frozenset[int], least: float, tolerance: float) -> bool:
    """Whether an end should be held and is not; what clashes there or touches nothing at all is told of otherwise."""
    if e.piece in flat or e.piece not in found.touched or e.is_held or e.share >= least:
        return False
    p = model.pieces[e.piece]
    axis, at = _axis(p), _edge(p, e.end)
    clashing = [o for o in found.overlaps if e.piece in (o.first, o.second)]
    if any(abs(o.at[axis] - at) <= o.by[axis] / 2.0 + tolerance for o in clashing):
        return False
    return not _may_be_free(model, p, e.end, tolerance)


def _loose_fault(pieces: Sequence[Piece], mark: str, word: str, ends: Sequence[End]) -> Fault:
    of, end = [pieces[e.piece] for e in ends], ends[0].end
    bears = "bears on too little of its breadth" if max(e.share for e in ends) > 0.0 else "meets nothing"
    lies, symbol = WHERE[of[0].run]
    return Fault(
        f"Loose end: {mark}, {word}",
        f"the {word} of {of[0].title.lower()} {bears} and nothing holds its side there, "
        f"{_sides(_middle(p) for p in of)}, {lies}",
        tuple(sorted({_place(p, end) for p in of})) if not symbol else _stations(of),
        ((symbol, _place(of[0], end)),) if symbol else (),
        len(ends),
    )


def _axis(p: Piece) -> int:
    return AXES[p.run].run


def _edge(p: Piece, end: int) -> float:
    """The coordinate of an end along its run, m."""
    return extents(p)[_axis(p)][1 if end > 0 else 0]


def _place(p: Piece, end: int) -> float:
    """Where an end lies along its run; across the trailer as distance from the centre line, m."""
    value = round(_edge(p, end), 4)
    return abs(value) if p.run == "crosswise" else value


def _may_be_free(model: Model, p: Piece, end: int, tolerance: float) -> bool:
    """Ends meant to be free: at the outline of a deck, or of a tube round the coupler or a jack leg."""
    trailer = model.spec.trailer
    at = _edge(p, end)
    if p.run == "upright":
        axes = [(trailer.coupling.station.nominal, 0.0)]
        axes += [(j.station.nominal, side * j.y.nominal) for j in trailer.jacks for side in (-1.0, 1.0)]
        return any(_holds(p, x, y, tolerance) for x, y in axes)
    if p.run == "crosswise":
        edges = [trailer.frame.width.nominal / 2.0]
        edges += [trailer.neck.width.nominal / 2.0] if trailer.neck is not None else []
        return any(abs(abs(at) - edge) <= tolerance for edge in edges)
    foremost = trailer.neck.front.nominal if trailer.neck is not None else None
    if foremost is None and end < 0 and at <= trailer.coupling.station.nominal + COUPLED:
        return True
    return any(abs(at - edge) <= tolerance for edge in (foremost, trailer.frame.length.nominal) if edge is not None)


def _end_word(p: Piece, end: int) -> str:
    """An end in words: front, rear, foot, top; across the trailer inner and outer, or left and right if it spans."""
    if p.run in END_WORDS:
        return END_WORDS[p.run][0 if end < 0 else 1]
    if p.y0 < 0.0 < p.y1:
        return "each end" if abs(p.y0 + p.y1) < 1e-9 else ("left end" if end < 0 else "right end")
    return "outer end" if end * _outside(p) > 0 else "inner end"


def _outside(p: Piece) -> int:
    """Which way is away from the centre line: 1 right, -1 left."""
    return 1 if p.y0 + p.y1 >= 0.0 else -1


def _flange_word(p: Piece, flange: int) -> str:
    if p.run == "upright":
        return "front" if flange < 0 else "rear"
    return "bottom" if flange < 0 else "top"


def _sides(ys: Iterable[float]) -> str:
    signs = {0 if abs(y) < 1e-6 else (1 if y > 0 else -1) for y in ys}
    if signs == {-1}:
        return "left"
    if signs == {1}:
        return "right"
    return "on the centre line" if signs == {0} else "left and right"


def _middle(p: Piece) -> float:
    return (p.y0 + p.y1) / 2.0


def _stations(of: Iterable[Piece]) -> tuple[float, ...]:
    return tuple(sorted({round((p.x0 + p.x1) / 2.0, 4) for p in of}))


_CHECKS = (
    (
        "frame.clash",
        About(
            title="No two pieces of steel in the same place",
            topic="frame fit",
            source=SOURCE,
            concern="Steel is cut that does not go together: the shop stops, asks, and cuts again at your cost.",
            ask=SHOP,
            defer_to="The fabricator's shop drawings.",
            mandatory=True,
        ),
    ),
    (
        "frame.bearing",
        About(
            title="Every piece of steel held at its ends",
            topic="frame fit",
            source=SOURCE,
            concern="A post carries nothing, or an edge of the deck hangs in the air; welds bridge gaps.",
            ask=SHOP,
            defer_to="The fabricator's shop drawings.",
        ),
    ),
)
