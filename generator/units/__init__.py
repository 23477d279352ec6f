"""Units at the edge: text to SI floats by a strict grammar, SI floats to text in the project's units."""

from generator.units.parse import LONGEST, Reading, UnitError, parse, read
from generator.units.show import DISPLAY, Show, System, Toward, wire_gauge
from generator.units.table import KINDS, Kind, Unit, names, units

__all__ = [
    "DISPLAY",
    "KINDS",
    "LONGEST",
    "Kind",
    "Reading",
    "Show",
    "System",
    "Toward",
    "Unit",
    "UnitError",
    "names",
    "parse",
    "read",
    "units",
    "wire_gauge",
]
