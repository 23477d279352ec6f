"""The haulier's sheet, one page, and a card to cut out on the next: what somebody who moves the house must know."""

from generator.document.blocks import Block, Head, table
from generator.document.filled import boxes, card
from generator.document.section import Context, Section
from generator.release.slices import Haul


def sizes(haul: Haul, context: Context) -> tuple[Block, ...]:
    """Outer sizes and centre of mass."""
    return (boxes("Sizes", haul.sizes),)


def masses(haul: Haul, context: Context) -> tuple[Block, ...]:
    """Masses state by state."""
    lb = context.show.label("kg")
    heads = (Head("State", width=36), Head(f"Mass, {lb}", True, 12), Head(f"At most, {lb}", True, 14),
             Head(f"Hitch, {lb}", True, 13), Head("Share", True, 11), Head(f"Axles, {lb}", True, 14))
    rows = [(s.title, s.mass, s.most, s.hitch, s.share, s.axles) for s in haul.states]
    return (table("Masses", heads, rows, "tight", "Computed, not weighed, unless a ticket is with this sheet. Nobody "
                  "and no animal is inside while it moves.", is_titled=True),)


def coupling(haul: Haul, context: Context) -> tuple[Block, ...]:
    """How it is hitched, plugged and held."""
    return (boxes("Coupling", haul.coupling),)


def wheels(haul: Haul, context: Context) -> tuple[Block, ...]:
    """Tyres, wheels, brakes."""
    return (boxes("Wheels and brakes", haul.wheels),)


def way(haul: Haul, context: Context) -> tuple[Block, ...]:
    """What binds the route, and where it may be tied, lifted, pulled."""
    return (boxes("Way, tie-down, recovery", (*haul.points, *haul.limits)),)


def move(haul: Haul, context: Context) -> tuple[Block, ...]:
    """What is written on the day."""
    return (boxes("This move", haul.move),)


def dash(haul: Haul, context: Context) -> tuple[Block, ...]:
    """The card for the dashboard."""
    note = "Measure the height where it stands loaded, and write it in: it counts. The makers' labels go before all."
    return (card(f"{context.cover.title}: dash card", haul.card, note),)


SIZES = Section("sizes", "Sizes", Haul, sizes)
MASSES = Section("masses", "Masses", Haul, masses)
COUPLING = Section("coupling", "Coupling, chains, plug", Haul, coupling)
WHEELS = Section("wheels", "Tyres, wheels, brakes", Haul, wheels)
WAY = Section("way", "Way, tie-down, recovery", Haul, way)
MOVE = Section("move", "This move", Haul, move)
DASH = Section("dash-card", "Dash card, to be cut out", Haul, dash, new_page=True)
