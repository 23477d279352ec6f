"""Values of the optional files as quantities: a file that is not there gives unknown values that name it."""

from generator.calc.record import Basis, Quantity, sure
from generator.calc.trials import Trials
from generator.model.types import Model
from generator.spec.measure import Measure


def towing(model: Model, trials: Trials, field: str, symbol: str, unit: str) -> Quantity:
    """A value of the tow vehicle; where it is not stated it is unknown and says so."""
    tow = model.spec.tow
    if tow is None:
        return absent(symbol, unit, "tow.yaml")
    value: Measure | None = getattr(tow.vehicle, field)
    if value is None:
        return absent(symbol, unit, f"tow.yaml vehicle.{field}")
    return trials.given(symbol, value, unit, tow.vehicle.basis, f"tow.yaml vehicle.{field}")


def standing(model: Model, trials: Trials, field: str, symbol: str, unit: str) -> Quantity:
    """A value of the site; without site.yaml it is unknown and says so."""
    site = model.spec.site
    if site is None:
        return absent(symbol, unit, "site.yaml")
    value: Measure = getattr(site, field)
    return trials.given(symbol, value, unit, "estimate", f"site.yaml {field}")


def absent(symbol: str, unit: str, file: str) -> Quantity:
    """A value nobody stated, because it or its whole file is missing."""
    return sure(symbol, float("nan"), unit, Basis.TABLE, [f"unknown:{file}"])
