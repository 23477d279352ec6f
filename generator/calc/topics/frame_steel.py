"""Steel grades as people write them, and a section in its grade. Pa."""

import re
from collections.abc import Iterable

from generator.calc.topics.strength import Steel, unsupported
from generator.calc.trials import Trials
from generator.reference.types import Default, Reference

GRADE = re.compile(r"\b(A500|A572|A992|A36|S235|S275|S355)(?:J\w*)?\b.*?\b([BC]|50)?\s*$", re.IGNORECASE)


def yield_of(grade: str, data: Reference) -> Default | None:
    """The yield strength of a grade as written on a drawing (`ASTM A500 Gr. C`), or None if it is not in the table."""
    match = GRADE.search(grade)
    if match is None:
        return None
    steel, kind = match.group(1).lower(), (match.group(2) or "").lower()
    return data.defaults.get(f"frame.yield.{steel}-{kind}") or data.defaults.get(f"frame.yield.{steel}")


def section_levers(marks: Iterable[str], part: str = "frame") -> tuple[str, ...]:
    """Levers of a check: the sections of these marks, of the frame or of the tongue."""
    return tuple(f"trailer.{part}.members.{mark}.section" for mark in marks)


def steel_of(section: str, grade: str, trials: Trials, data: Reference) -> Steel | str:
    """A section in its grade, or what is missing to know its strength."""
    strength = yield_of(grade, data)
    if strength is None:
        return f"yield strength of steel {grade!r}"
    modulus = data.defaults["frame.modulus"]
    reason = unsupported(data.sections[section], strength.value, modulus.value)
    if reason is not None:
        return reason
    assumed = trials.assumed
    return Steel(data.sections[section], assumed("F_y", strength), assumed("E", modulus),
                 assumed("Omega", data.defaults["frame.omega_bending"]),
                 assumed("Omega_v", data.defaults["frame.omega_shear_rolled"]))
