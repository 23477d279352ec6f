"""What the sums are not, how they are made, what they rest on, and what is left to an engineer."""

from generator.calc.record import Assumption
from generator.document.blocks import Block, Facts, Head, Line, Points, table
from generator.document.section import Context, Section
from generator.release.slices import Cover, Register, SteelLoads

TAKE_OFF = "Of the take-off, which every mass rests on; named together as \"take-off\""


def limits(cover: Cover, context: Context) -> tuple[Block, ...]:
    """What these sums are not."""
    return (
        Points(
            (
                "This is a preliminary sizing aid. It is not sealed by an engineer and not approved by any authority.",
                cover.say("The maker of the trailer alone assigns and certifies its ratings; the makers' manuals of "
                          "axles, tyres, coupler and jacks govern."),
                cover.say("Welds, fatigue, the root of the neck, brackets and anchors are an engineer's to decide; "
                          "nothing here clears them."),
                "Local code, the official in charge and licensed people decide whatever is lived in, wired, "
                "piped, anchored or driven.",
                "Where an input is not known, the check says not assessed; it never counts as passed.",
            )
        ),
    )


def basis(cover: Cover, context: Context) -> tuple[Block, ...]:
    """How the numbers are made and read."""
    return (
        Facts(
            "Basis of these sums",
            (
                ("Computed by", cover.tool),
                ("Basis", f"hash {cover.basis_hash}: same inputs and reference data, same numbers"),
                (
                    "Stations",
                    "measured aft from datum A, the front face of the main deck's front crossmember; forward is "
                    "negative",
                ),
                (
                    "Heights",
                    "from the top of the main deck in the take-off; from level ground in results, in the load "
                    "state named",
                ),
                ("Loads at the ground", "as a scale reads them; forces in the frame as forces"),
                (
                    "Spread",
                    "a value with +/- lies between its bounds in nine cases of ten; 10 000 trials from one "
                    "recorded seed",
                ),
                (
                    "Rounding",
                    "limits are compared before rounding; loads and heights are shown rounded to the safe side "
                    "where it matters",
                ),
            ),
        ),
        Facts(
            "What the words mean",
            (
                ("PASS", "the limit is kept, with few trials against it, on values measured, quoted, read or common"),
                (
                    "REVIEW",
                    "kept, but more than 5 % of the trials break it, or it rests on a value from memory or a "
                    "placeholder",
                ),
                ("FAIL", "the limit is broken by the design as it stands"),
                ("NOT ASSESSED", "an input is missing; a task is raised"),
                (
                    "Zone",
                    "a length of the house with one floor and one ceiling height; where rooms are not named, zones are "
                    "numbered from the front",
                ),
                ("Ratio", "demand / limit, or limit / demand where at least a value is asked; at most 1 is kept"),
            ),
        ),
    )


def assumptions(register: Register, context: Context) -> tuple[Block, ...]:
    """Values nobody stated, with their code, their source and what changes if they are wrong."""
    codes = context.codes
    heads = (
        Head("No.", width=7),
        Head("Assumed", width=33),
        Head("Value", True, 15),
        Head("Source", width=22),
        Head("If it is wrong", width=23),
    )

    def rows(title: str, held: tuple[Assumption, ...]) -> list[Line]:
        made: list[Line] = [("row", (codes.code(a.id), a.statement, a.value, a.source, a.if_wrong)) for a in held]
        return [("group", (title,)), *made] if held else []

    lines = [*rows(TAKE_OFF, codes.take_off), *rows("All others", codes.others)]
    return (table("Assumptions", heads, lines, is_titled=True),) if lines else ()


def engineer(loads: SteelLoads, context: Context) -> tuple[Block, ...]:
    """What is left to a licensed engineer."""
    return (
        Points(
            (
                context.cover.say("The root of the neck: section, gussets and welds, in both directions of bending, "
                                  "with cycles over the years of moving."),
                context.cover.say("Hanger and bracket welds, crossmember connections, and any opening cut into a "
                                  "rail."),
                "Anchors of house to frame and frame to ground: capacity against wind, braking and cornering.",
                "Whatever the place requires to be sealed: ask the building and the vehicle official first, in "
                "writing.",
            )
        ),
    )


LIMITS = Section("limits", "What these sums are not", Cover, limits)
BASIS = Section("basis", "Basis", Cover, basis)
ASSUMPTIONS = Section("assumptions", "Assumptions", Register, assumptions)
ENGINEER = Section("engineer", "Left to a licensed engineer", SteelLoads, engineer)
