"""Where the lamps stand that the rules of the route ask for, and the wiring as the spec words it. m."""

import math
from collections.abc import Iterator, Sequence

from generator.calc.findings import Results
from generator.model.types import Model, Piece
from generator.reference.lamps import LampRule, circuits_of, lamps_of
from generator.release.jacks import jack_words
from generator.release.slices import CircuitRow, LampRow, Lamps, Steel
from generator.release.steel import quantity
from generator.units import Show

NAN = math.nan
EDGE, OVER_WHEELS = 0.8, 0.6
"""Steel further out than this share of half the deck lies at its edge; that of a wheel box reaches no higher, m."""
LAWS = {"cfr-2015": "49 CFR 571.108, table I-b, edition of 2015", "un-r48": "UN Regulation 48, from memory"}
"""Rules by their source, in words."""


def lamps(model: Model, results: Results, steel: Steel, show: Show) -> Lamps:
    """The lamps of the design with their places, and what the spec says of wiring, breakaway and powered jacks."""
    wiring, trailer = model.spec.trailer.wiring, model.spec.trailer
    width, length = quantity(results, "width.overall"), quantity(results, "length.trailer")
    found = lamps_of(model.spec.project.use.regions, width, length)
    laws = dict.fromkeys(LAWS[r.source] for r in found)
    return Lamps(
        rows=tuple(_row(r, model, steel) for r in found), law="; ".join(laws), asked=wiring.lamps,
        connector=wiring.connector, harness=wiring.harness, bonding=wiring.bonding, breakaway=trailer.chains.breakaway,
        circuits=tuple(CircuitRow(c.contact, c.circuit, c.colour, c.confidence == "memory")
                       for c in circuits_of(wiring.connector)),
        motors=tuple(_motors(model, results, show)),
    )


def _motors(model: Model, results: Results, show: Show) -> Iterator[str]:
    stated = {jack.id: jack for jack in model.spec.trailer.jacks}
    for record in results.jacks:
        jack = stated.get(record.id)
        if jack is not None and jack.motor is not None:
            words = jack_words(show, record, jack)
            yield (f"{record.title}: {words['voltage']}, {words['current']} at the rated lift; fuse for the load here "
                   f"{words['fuse']}; cable {words['area']}, good for {words['ampacity']}, {words['run']} one way")


def _row(rule: LampRule, model: Model, steel: Steel) -> LampRow:
    station, y, zeta = _spot(rule, model, steel)
    return LampRow(rule.title, rule.count, rule.colour, rule.face, rule.place, rule.level, station, y,
                   _within(zeta, rule, steel), rule.low, rule.high, rule.edge, rule.source, rule.confidence == "memory")


def _within(zeta: float, rule: LampRule, steel: Steel) -> float:
    """The height (above the deck top) moved until the lamp keeps its limits with the bare and the full trailer."""
    decks = [d for d in (steel.deck_height_laden, steel.deck_height_bare) if math.isfinite(d)]
    if not decks or not math.isfinite(zeta):
        return zeta
    least = rule.low - min(decks) if math.isfinite(rule.low) else zeta
    most = rule.high - max(decks) if math.isfinite(rule.high) else zeta
    return max(min(zeta, most), least)


def _spot(rule: LampRule, model: Model, steel: Steel) -> tuple[float, float, float]:
    """Station, distance off the centre line and height above the deck of the right-hand lamp, before its limits."""
    half, rear, front = steel.deck_width / 2.0, steel.deck_length, _front(rule, steel)
    match rule.face, rule.level:
        case "side", _:
            if steel.has_neck and rule.place == "foremost":
                return front, steel.neck_width / 2.0, _nose(steel)
            station = {"rear": rear, "middle": (front + rear) / 2.0}.get(rule.place, front)
            found = _edge(steel, station)
            if not found:
                station = max((b.front for b in steel.boxes if b.front <= station), default=station)
                found = _ends(steel, station)
            return station, half, _middle(found)
        case "rear", "top":
            zones = sorted(model.spec.house.zones, key=lambda z: z.rear.nominal)
            return model.spec.house.rear.nominal, steel.deck_width / 2.0, zones[-1].roof.nominal if zones else NAN
        case "rear", _:
            return rear, half, _middle(_ends(steel, rear))
        case "front", "top":
            zones = sorted(model.spec.house.zones, key=lambda z: z.front.nominal)
            return model.spec.house.front.nominal, steel.deck_width / 2.0, zones[0].roof.nominal if zones else NAN
        case "front", "nose":
            at_nose = steel.has_neck
            level = _nose(steel) if at_nose else _middle(_ends(steel, 0.0))
            return (steel.neck_front if at_nose else 0.0), (steel.neck_width / 2.0 if at_nose else half), level
        case _:
            return 0.0, half, _middle(_ends(steel, 0.0))


def _front(rule: LampRule, steel: Steel) -> float:
    """Station the foremost side lamp belongs to: the nose of a neck for a marker, else the front of the main deck."""
    return steel.neck_front if steel.has_neck and rule.place == "foremost" else 0.0


def _nose(steel: Steel) -> float:
    """Middle of the neck frame above the deck, m."""
    return steel.neck_underside + steel.neck_frame_depth / 2.0


def _ends(steel: Steel, station: float) -> list[Piece]:
    """Pieces across the main deck at a station, those that reach furthest first."""
    near = [p for p in steel.pieces if p.run == "crosswise" and p.x0 - 0.02 <= station <= p.x1 + 0.02 and p.z1 <= 0.01]
    return sorted(near, key=lambda p: (-max(p.y1, -p.y0), p.mark))


def _edge(steel: Steel, station: float) -> list[Piece]:
    """Pieces along the edge of the main deck there, the outermost and lowest first; at its ends those across it."""
    at_end = min(abs(station), abs(station - steel.deck_length)) < 0.05
    near = [p for p in steel.pieces if p.run == "lengthwise" and p.x0 - 0.05 <= station <= p.x1 + 0.05
            and p.z0 < OVER_WHEELS and p.y1 > EDGE * steel.deck_width / 2.0]
    return sorted(near, key=lambda p: (-round(p.y1, 2), p.z0, p.mark)) or (_ends(steel, station) if at_end else [])


def _middle(pieces: Sequence[Piece]) -> float:
    """Middle of the first piece above the deck, m; half the depth of the rails where there is none."""
    return (pieces[0].z0 + pieces[0].z1) / 2.0 if pieces else NAN
