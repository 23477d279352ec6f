"""Reference texts that only a build needs: safety checklist, wording of the request, tolerances, hold points.

A pair `{35 ft|11 m}` in a text is written in the project's units: the first in US units, the second in SI.
"""

from dataclasses import replace
from typing import Any

from generator.errors import DataError
from generator.reference.load import INCH, confidence, csv_rows, in_units, number, read_yaml, records, table, text
from generator.reference.types import (
    ChecklistPage,
    ChecklistRow,
    ClauseRow,
    ClauseText,
    Critical,
    GuideRow,
    Hold,
    Tolerance,
    UsageGuide,
)

MM = 0.001
CLASSES = ("A", "B", "C", "D")


def checklist(units: str = "us") -> tuple[ChecklistPage, ...]:
    """The safety checklist of every kind of design, by phase, in the project's units."""
    whole = read_yaml("checklist.yaml")
    try:
        return tuple(_page(page, units) for page in whole)
    except (KeyError, TypeError) as fault:
        raise DataError(f"reference/checklist.yaml: a page lacks {fault}") from None


def clauses(units: str = "us") -> tuple[ClauseText, ...]:
    """The clauses of the request to the fabricator, in order, in the project's units."""
    whole = read_yaml("clauses.yaml")
    try:
        return tuple(ClauseText(c["title"], _clause_rows(c, units)) for c in whole)
    except (KeyError, TypeError) as fault:
        raise DataError(f"reference/clauses.yaml: a clause lacks {fault}") from None


def usage_guide(units: str = "us") -> UsageGuide:
    """The guide from use to equipment in the project's units; common practice, no source."""
    whole = read_yaml("usage_guide.yaml")
    try:
        classes = tuple((str(c["class"]), in_units(str(c["use"]), units)) for c in whole["classes"])
        rows = tuple(_guide_row(row, units) for row in records(whole["rows"], GuideRow, "usage_guide.yaml"))
        return UsageGuide(classes, rows, tuple(in_units(reason, units) for reason in whole["reasons"]))
    except (KeyError, TypeError) as fault:
        raise DataError(f"reference/usage_guide.yaml: lacks {fault}") from None


def tolerances() -> tuple[Tolerance, ...]:
    """Linear tolerances of welded constructions by nominal length (ISO 13920, 1996 edition), m."""
    return tuple(table("tolerances.csv", csv_rows("tolerances.csv"), _tolerance).values())


def criticals(units: str = "us") -> tuple[Critical, ...]:
    """Critical dimensions with how far they may be off (m), in round figures of the project's units."""
    made = table("critical.csv", csv_rows("critical.csv"), lambda row: _critical(row, units))
    return tuple(made.values())


def holds() -> tuple[Hold, ...]:
    """Hold, witness and record points, in order."""
    return tuple(table("holds.csv", csv_rows("holds.csv"), _hold).values())


def _guide_row(row: GuideRow, units: str) -> GuideRow:
    return GuideRow(row.what, *(in_units(answer, units) for answer in (row.a, row.b, row.c, row.d)))


def _clause_rows(clause: dict[str, Any], units: str) -> tuple[ClauseRow, ...]:
    rows = records(clause["rows"], ClauseRow, f"clauses.yaml: {clause}")
    return tuple(replace(row, text=in_units(row.text, units)) for row in rows)


def _page(page: dict[str, Any], units: str) -> ChecklistPage:
    read = records(page["rows"], ChecklistRow, f"checklist.yaml: {page['id']}")
    rows = tuple(replace(row, item=in_units(row.item, units), do=in_units(row.do, units),
                         evidence=in_units(row.evidence, units), stop_if=in_units(row.stop_if, units)) for row in read)
    return ChecklistPage(page["id"], page["title"], tuple(page["for"]), page["caution"], rows, page.get("when", ""))


def _tolerance(row: dict[str, str]) -> tuple[str, Tolerance]:
    to = number(row, "to_mm") * MM if row["to_mm"] else None
    classes = {letter: number(row, f"{letter}_mm") * MM for letter in CLASSES}
    return row["over_mm"], Tolerance(number(row, "over_mm") * MM, to, classes, text(row, "source"), confidence(row))


def _critical(row: dict[str, str], units: str) -> tuple[str, Critical]:
    step, factor = ("in", INCH) if units == "us" else ("mm", MM)
    plus = number(row, f"plus_{step}") * factor if row[f"plus_{step}"] else None
    what = in_units(text(row, "what"), units)
    return row["id"], Critical(row["id"], what, number(row, f"minus_{step}") * factor, plus, text(row, "how"),
                               text(row, "source"), confidence(row))


def _hold(row: dict[str, str]) -> tuple[str, Hold]:
    return row["id"], Hold(row["id"], text(row, "text"))
