"""The engineer's brief, two pages: geometry, loads both ways, counts of a year, and the reply that is wanted."""

from generator.document.blocks import Block, Caution, Facts, Head, Points, Prose, Signature, table
from generator.document.filled import boxes
from generator.document.section import Context, Section
from generator.release.slices import Brief, Given

HEADS = (Head("What", width=52), Head("Nominal", True, 18), Head("9 in 10", True, 30))
WANTED = (
    ("Joints calculated", ""),
    ("Codes and editions", ""),
    ("Load factors you use", ""),
    ("Weld categories", ""),
    ("Root: passes, limit", ""),
    ("Axle brackets: passes, limit", ""),
    ("Anchors: kind, capacity", ""),
    ("Ties: kind, capacity", ""),
    ("Life in years at this use", ""),
    ("To be looked at every", ""),
    ("Limits of use you set", ""),
    ("Changes you ask for", ""),
    ("Sealed for (place)", ""),
    ("Calculation no., date", ""),
)
"""What the reply must hold: a calculation, a seal where the law asks for one, and limits."""


def task(brief: Brief, context: Context) -> tuple[Block, ...]:
    """What is asked, and what nobody here decides."""
    say = context.cover.say
    asked = say("Asked of you: design or check the root of the neck, welds, brackets or hangers, anchors of the house "
                "and ties to the ground; say what life the welds have; answer in the boxes at the end.")
    return (
        Prose((asked,)),
        *((Points(brief.open),) if brief.open else ()),
        Caution("Every load below is a preliminary sum from a list of masses. Factors shown are common practice; yours "
                "replace them.", "the engineer's own judgement and the code in force"),
        Facts("Geometry", brief.geometry),
    )


def envelope(brief: Brief, context: Context) -> tuple[Block, ...]:
    """Moments and shears of the worse rail, case by case."""
    heads = (Head("Case", width=22), Head("Sagging +", True, 15), Head("Hogging −", True, 15), Head("Shear", True, 14),
             Head("Governs, factor in", True, 18), Head("Strength there", True, 16))
    rows = [(c.title, c.sag, c.hog, c.shear, c.factored, c.capacity) for c in brief.cases]
    note = ("Worse rail, static, without the stiffness of the house. The moment that governs the rail, its factor in, "
            "stands beside the bending strength of the section there; welds are left out.")
    return (table("Load envelope", heads, rows, note=note, is_titled=True),) if rows else ()


def root(brief: Brief, context: Context) -> tuple[Block, ...]:
    """Forces where neck or tongue meets the main frame."""
    note = "Take pushes, pulls and sideways forces in both senses. Sagging and pull are positive."
    return _given("Forces where it meets the main frame", brief.root, note, True)


def gear(brief: Brief, context: Context) -> tuple[Block, ...]:
    """Loads on brackets or hangers, as scales read them."""
    title = context.cover.say("Axles on their brackets or hangers")
    return _given(title, brief.gear, "At the ground, both sides together.", True)


def fixings(brief: Brief, context: Context) -> tuple[Block, ...]:
    """House on frame, frame on ground, points."""
    made = (*_given("House on its anchors", brief.house, ""), *_given("Parked: wind and ties", brief.ground, ""))
    return (*made, *((Facts("Points on the frame", brief.points),) if brief.points else ()))


def fatigue(brief: Brief, context: Context) -> tuple[Block, ...]:
    """Stress range and counts of a year."""
    note = ("Counts of an ordinary year of the stated moves and miles, or of the only move. The count of swings rests "
            "on a rule of thumb; its bounds are wide on purpose.")
    return _given("Stress range and counts", brief.fatigue, note, True)


def reply(brief: Brief, context: Context) -> tuple[Block, ...]:
    """Boxes for the answer."""
    wanted = tuple((context.cover.say(what), answer) for what, answer in WANTED)
    return (boxes("Reply wanted", wanted), Signature(("Name, licence no.", "Date", "Signature and seal")))


def _given(title: str, rows: tuple[Given, ...], note: str, is_titled: bool = False) -> tuple[Block, ...]:
    is_spread = any(g.spread for g in rows)
    held = [(g.what, g.value, *((g.spread,) if is_spread else ())) for g in rows]
    heads = HEADS if is_spread else (Head("What", width=82), HEADS[1])
    return (table(title, heads, held, note=note, is_titled=is_titled),) if held else ()


TASK = Section("task", "What is asked", Brief, task)
ENVELOPE = Section("envelope", "Load envelope", Brief, envelope)
ROOT = Section("root", "Root ahead of datum A", Brief, root)
GEAR = Section("gear", "Axles and what they hang from", Brief, gear)
FIXINGS = Section("fixings", "Anchors, ties, points", Brief, fixings)
FATIGUE = Section("fatigue", "Fatigue", Brief, fatigue)
REPLY = Section("reply", "Reply wanted", Brief, reply)
