"""The underwriter's sheet: what it is and is worth, weighed against rated, fire, use, ties, and who signs for what."""

from generator.document.blocks import Block, Head, Prose, Signature, table
from generator.document.filled import boxes
from generator.document.section import Context, Section
from generator.release.slices import Underwriting

STAGES = (
    "Frame before coating", "Trailer delivered, label readable", "Floor and anchors before covering",
    "Walls open: wiring, pipes, insulation", "Roof from above", "Panels, disconnects, battery",
    "Gas locker and regulator", "Heater with its clearances", "Alarms and extinguishers",
    "Every bed's second way out", "Parked, tied down", "Scale ticket beside the house",
)
"""Photographs by stage, to be numbered by the owner."""


def identity(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """What it is."""
    return (boxes("Identity", sheet.identity),)


def value(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """What it is worth."""
    return (boxes("Value and cover", sheet.value),)


def weighed(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """Ratings asked for against loads predicted and read."""
    heads = (Head("Part", width=22), Head("Rating", True, 18), Head("Predicted, loaded", True, 20),
             Head("At worst", True, 18), Head("Read on a scale", True, 22))
    rows = [(r.what, r.rating, r.predicted, r.worst, r.read or "____________") for r in sheet.weighed]
    note = ("Ratings as asked for; the maker's label counts. A line without a reading is to be filled in from the "
            "scale ticket.")
    return (table("Weighed against rated", heads, rows, note=note, is_titled=True),) if rows else ()


def build(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """To which standard it is built, and who signed."""
    return (boxes("Build and sign-offs", sheet.build),)


def fire(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """Heat, gas, battery, alarms."""
    return (boxes("Fire and gas", sheet.fire),)


def use(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """How it is used and moved."""
    return (boxes("Use and moves", sheet.use),)


def ties(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """How it is held in wind."""
    return (boxes("Tie-down", sheet.ties),)


def photographs(sheet: Underwriting, context: Context) -> tuple[Block, ...]:
    """Index of photographs, to be filled in."""
    return (boxes("Photographs by stage: number, date", tuple((s, "") for s in STAGES)),
            Prose(("Nothing on this sheet certifies anything. Policies, licences and local rules decide what is "
                   "covered; a box left empty means that nobody has answered yet.",), "small"),
            Signature(("Filled in by", "Date", "Signature")))


IDENTITY = Section("identity", "What it is", Underwriting, identity)
VALUE = Section("value", "Value and cover", Underwriting, value)
WEIGHED = Section("weighed", "Weighed against rated", Underwriting, weighed)
BUILD = Section("build", "Build and sign-offs", Underwriting, build)
FIRE = Section("fire", "Fire, gas, battery", Underwriting, fire)
USE = Section("use", "Use, moves, occupancy", Underwriting, use)
TIES = Section("ties", "Tie-down", Underwriting, ties)
PHOTOGRAPHS = Section("photographs", "Photographs by stage", Underwriting, photographs)
