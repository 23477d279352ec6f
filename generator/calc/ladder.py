"""The steel sections that a member may step up to."""

from collections.abc import Mapping

from generator.reference.types import Section


def stronger(sections: Mapping[str, Section], name: str) -> tuple[str, ...]:
    """Sections of one shape by growing modulus: first those of the same outside, then all that beat them."""
    now = sections.get(name)
    if now is None:
        return ()
    series = f"{name.rpartition('x')[0]}x"
    better = [s for s in sections.values() if s.shape == now.shape and s.modulus > now.modulus]
    same = [s for s in better if s.name.startswith(series) and "x" not in s.name[len(series) :]]
    top = max((s.modulus for s in same), default=now.modulus)
    others = [s for s in better if s.modulus > top]
    return tuple(s.name for row in (same, others) for s in sorted(row, key=lambda s: (s.modulus, s.mass, s.name)))
