"""What `resolve` collects on its way: faults of the spec, and the defaults its items rest on."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

from generator.errors import Fault
from generator.reference.load import Reference, in_units
from generator.reference.types import Default, Material, Section
from generator.spec.measure import Measure
from generator.spec.models.base import BasisWord


@dataclass(slots=True)
class Notebook:
    """Looks things up in the reference data for `resolve`; what is not there becomes a fault, not an exception."""

    data: Reference
    units: str = "us"
    faults: list[Fault] = field(default_factory=list)
    assumed: set[str] = field(default_factory=set)

    def default(self, id: str) -> Default:
        """A default; the model rests on it from now on."""
        self.assumed.add(id)
        return self.data.defaults[id]

    def material(self, id: str, file: str, path: str) -> Material | None:
        """A material of the reference table, or None and a fault."""
        if id in self.data.materials:
            found = self.data.materials[id]
            return replace(found, title=in_units(found.title, self.units))
        self.fault(file, path, f"no material {id!r} in the reference table", nearest(id, self.data.materials))
        return None

    def section(self, name: str, file: str, path: str) -> Section | None:
        """A steel section of the reference table, or None and a fault."""
        if name in self.data.sections:
            return self.data.sections[name]
        self.fault(file, path, f"no section {name!r} in the reference table", nearest(name, self.data.sections))
        return None

    def fault(self, file: str, path: str, wrong: str, allowed: str, at: Measure | None = None) -> None:
        """Note a fault, at the line of a measure if there is one."""
        line = at.origin.rpartition(":")[2] if at is not None else ""
        self.faults.append(Fault(file, int(line) if line.isdigit() else 0, path, wrong, allowed))

    def spread(self, mass: Measure, basis: BasisWord, times: float = 1.0) -> tuple[float, float, float, str]:
        """Mass, low and high (kg) and shape; a mass stated without spread takes that of its basis from the defaults."""
        if mass.shape != "sure":
            return times * mass.nominal, times * mass.low, times * mass.high, mass.shape
        share = self.default(f"mass.spread_{basis}").value
        kg = times * mass.nominal
        return kg, kg * (1.0 - share), kg * (1.0 + share), "normal"


def nearest(wanted: str, among: Iterable[str]) -> str:
    """The entries of a reference table most like the one asked for, as a sentence."""
    close = get_close_matches(wanted, list(among), n=3, cutoff=0.4)
    return f"nearest: {', '.join(close)}" if close else "see docs/reference.md for what there is"
