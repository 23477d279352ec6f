"""Size limits of the route: the least over all regions passed, with where each is written."""

from collections.abc import Iterable, Mapping

from generator.calc.record import Basis, Quantity, Working, sure
from generator.calc.trials import CONFIDENCES
from generator.model.types import Model
from generator.reference.types import Reference, Region


def height_limit(w: Working, model: Model, data: Reference) -> Quantity:
    """The least height limit (m) of the route's regions; a region not held makes it unknown and names itself."""
    codes = model.spec.project.use.regions
    return least_limit(w, codes, data, "height")


def least_limit(w: Working, codes: tuple[str, ...], data: Reference, what: str) -> Quantity:
    """The least limit (m) of `what` (height or width) over regions; without a figure everywhere it is unknown."""
    held = {c: data.regions[c] for c in sorted(set(codes)) if c in data.regions}
    rows = {c: r.height if what == "height" else r.width for c, r in held.items()}
    known = {c: v for c, v in rows.items() if v is not None}
    absent = [c for c in sorted(set(codes)) if c not in held]
    basis = max((CONFIDENCES[held[c].confidence] for c in known), default=Basis.TABLE)
    if absent or not known:
        reason = ", ".join(absent) or ", ".join(sorted(rows))
        return sure(
            "z_lim", float("nan"), "m", basis, [f"unknown:project.yaml use.regions: no {what} limit held for {reason}"]
        )
    least = min(known.values())
    governing = [c for c, v in known.items() if v == least]
    source = "; ".join(f"{held[c].title}: {data.cite(held[c].source)}, {held[c].note}".removesuffix(", ")
                       for c in governing)
    none = [held[c].title for c, v in rows.items() if v is None]
    all_of, one = _named(known, held), _named(governing, held)
    sentence = f"The least of the limits of {all_of}; {one} governs." if len(known) > 1 else f"The limit of {one}."
    return w.procedure(
        f"Least {what} limit of the route",
        sentence + (f" None is stated for {', '.join(none)}." if none else ""),
        source,
        sure("z_lim", least, "m", basis, origin=source),
        [sure(c, v, "m", basis, origin=held[c].title) for c, v in known.items()],
    )


def _named(codes: Iterable[str], held: Mapping[str, Region]) -> str:
    return ", ".join(held[c].title for c in codes)
