"""Short codes of the register of assumptions (A7), and lists of them as text."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count

from generator.calc.record import Assumption
from generator.release.slices import Register

TAKE_OFF = ("density.", "mass.")
"""What the take-off rests on: the ids of these assumptions start so."""
WHOLE = 3
"""A check that rests on so many assumptions of the take-off rests on the take-off."""


@dataclass(frozen=True, slots=True)
class Codes:
    """The assumptions of one desk's register in printed order, those of the take-off first, and each one's number."""

    take_off: tuple[Assumption, ...] = ()
    others: tuple[Assumption, ...] = ()
    numbers: Mapping[str, int] = field(default_factory=dict)

    def listed(self, ids: Iterable[str]) -> str:
        """The codes of these assumptions, runs drawn together: `take-off, A12, A14–A17`."""
        held = sorted(self.numbers[i] for i in set(ids) if i in self.numbers)
        common = [n for n in held if n <= len(self.take_off)]
        if len(common) < WHOLE:
            return runs(held)
        return ", ".join(t for t in ("take-off", runs(held[len(common):])) if t)

    def code(self, id: str) -> str:
        """The code of one assumption."""
        return f"A{self.numbers[id]}"


def codes_of(register: Register | None) -> Codes:
    """The codes of a register; without one there are none."""
    held: Sequence[Assumption] = register.assumptions if register else ()
    take_off = tuple(a for a in held if a.id.startswith(TAKE_OFF))
    others = tuple(a for a in held if not a.id.startswith(TAKE_OFF))
    return Codes(take_off, others, dict(zip((a.id for a in (*take_off, *others)), count(1), strict=False)))


def runs(numbers: Sequence[int]) -> str:
    """Ascending numbers as codes, three or more in a row as a range: A1–A3, A5."""
    starts = [i for i, n in enumerate(numbers) if i == 0 or n != numbers[i - 1] + 1]
    parts = [numbers[a:b] for a, b in zip(starts, [*starts[1:], len(numbers)], strict=False)]
    return ", ".join(f"A{p[0]}–A{p[-1]}" if len(p) > 2 else ", ".join(f"A{n}" for n in p) for p in parts)
