"""Which documents there are, the slice each needs and its sections in order."""

from dataclasses import dataclass
from typing import Any

from generator.document.section import Section
from generator.document.sections import (
    attention,
    basis,
    changes,
    checks,
    drawings,
    engineer,
    failures,
    fixed,
    haulage,
    hazards,
    key_numbers,
    legal,
    masses,
    money,
    open_points,
    options,
    request,
    revisions,
    route,
    scale,
    steel,
    symbols,
    transmittal,
    tyres,
    underwriter,
    way_out,
    windows,
)
from generator.release.slices import (
    Brief,
    Cover,
    Decision,
    Haul,
    Hazards,
    Money,
    Notes,
    Numbers,
    Options,
    Request,
    Sheets,
    Slice,
    Steel,
    Transmittal,
    Underwriting,
)


@dataclass(frozen=True, slots=True)
class Document:
    """A document: number, name, title, the slice without which it does not exist, its sections in order."""

    number: int
    name: str
    title: str
    needs: type[Slice]
    sections: tuple[Section[Any], ...]


DOCUMENTS = (
    Document(
        0,
        "decision-sheet",
        "Decision sheet",
        Decision,
        (
            key_numbers.KEY_NUMBERS,
            attention.ATTENTION,
            fixed.FIXED_BRIEF,
            open_points.OPEN_BRIEF,
            money.MONEY_BRIEF,
            fixed.NEXT_DECISION,
            failures.FAILURES,
            way_out.WAY_OUT,
        ),
    ),
    Document(
        1,
        "fabrication-request",
        "Fabrication request",
        Request,
        (
            request.REQUEST_COVER,
            request.REQUESTED,
            request.READING,
            request.DRAWING_LIST,
            request.CLAUSES,
            request.REPLY,
            steel.DIMENSIONS,
            steel.MEMBERS,
            steel.RUNNING_GEAR,
            steel.SUPPORTS,
            request.ACCEPTANCE,
        ),
    ),
    Document(2, "drawings", "Drawings", Sheets, (drawings.SHEETS, drawings.SCHEDULES)),
    Document(
        3,
        "load-summary",
        "Load summary",
        Numbers,
        (
            basis.LIMITS,
            basis.BASIS,
            checks.SUMMARY,
            legal.RULES,
            masses.STATES,
            masses.RATINGS,
            tyres.TYRES,
            windows.WINDOWS,
            fixed.FIXED,
            windows.NECK,
            windows.HEIGHTS,
            windows.WAYS,
            route.ROUTE,
            masses.GROUPS,
            scale.DRIVERS,
            scale.CARD,
            scale.TICKETS,
            scale.BUILT,
            windows.STEEL_LOADS,
            open_points.OPEN,
            basis.ENGINEER,
            windows.RESULTS,
            masses.TAKE_OFF,
        ),
    ),
    # Workings go to whoever gets the frame; others get the outcome of each check alone.
    Document(3, "workings", "Workings", Steel, (checks.CHECKS, basis.ASSUMPTIONS, symbols.SYMBOLS)),
    Document(4, "safety-checklist", "Safety checklist", Hazards, (hazards.USING, hazards.PHASES, hazards.PAGES)),
    Document(
        5,
        "budget",
        "Budget",
        Money,
        (money.TOTALS, money.READING, money.SPLITS, money.QUOTES, money.YEARS, money.LINES, money.PROMPTS,
         drawings.MONEY),
    ),
    Document(
        6,
        "options",
        "Options",
        Options,
        (
            options.OPTIONS,
            options.SIDE_BY_SIDE,
            options.OPTION_MONEY,
            options.FLIPS,
            options.WEIGHTS,
            options.GUIDE,
            options.CHANGES,
        ),
    ),
    # Whoever holds an earlier revision is told what moved; the reasons are the owner's.
    Document(
        7,
        "revision-record",
        "Revision record",
        Cover,
        (changes.SUMMARY, changes.HOLDERS, revisions.RECORD, changes.FLIPS, changes.NUMBERS, changes.CLAUSES,
         changes.SHEETS, changes.FIELDS, changes.DATA),
    ),
    Document(8, "notes", "Notes", Notes, (revisions.NOTES,)),
    Document(
        9,
        "engineers-brief",
        "Engineer's brief",
        Brief,
        (engineer.TASK, engineer.ENVELOPE, engineer.ROOT, engineer.GEAR, engineer.FIXINGS, engineer.FATIGUE,
         engineer.REPLY),
    ),
    Document(
        10,
        "haulier-sheet",
        "Haulier's sheet",
        Haul,
        (haulage.SIZES, haulage.MASSES, haulage.COUPLING, haulage.WHEELS, haulage.WAY, haulage.MOVE, haulage.DASH),
    ),
    Document(
        11,
        "underwriters-sheet",
        "Underwriter's sheet",
        Underwriting,
        (underwriter.IDENTITY, underwriter.VALUE, underwriter.WEIGHED, underwriter.BUILD, underwriter.FIRE,
         underwriter.USE, underwriter.TIES, underwriter.PHOTOGRAPHS),
    ),
    Document(
        12,
        "transmittal",
        "Transmittal",
        Transmittal,
        (transmittal.SENT, transmittal.FILES, transmittal.WAIVERS, transmittal.LOG, transmittal.ACKNOWLEDGED),
    ),
)
"""Every document there is; a desk gets those whose slice it holds."""
