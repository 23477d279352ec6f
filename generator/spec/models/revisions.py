"""revisions.yaml: why each revision was made and who asked; never what was issued."""

from pydantic import Field

from generator.spec.models.base import Day, Line, Part, Prose, Title


class Waiver(Part):
    """A compulsory check set aside for this revision alone; printed on everything issued under it."""

    check: Line = Field(description="Id of the check, as `packet check` prints it.")
    role: Line = Field(description="Role that set it aside.")
    date: Day = Field(description="Day on which it was set aside.")
    reason: Line = Field(description="Why it may be.")


class Revision(Part):
    """One revision of the design."""

    label: Title = Field(description="Revision letter, or a draft's number before the first issue (P1, P2).")
    date: Day = Field(description="Day of the revision.")
    asked_by: Line = Field(description="Role that asked.")
    why: Prose = Field(description="Reason.")
    changes: tuple[Line, ...] = Field(min_length=1, description="What was decided, one decision each.")
    technical: tuple[Line, ...] = Field(
        default=(), description="What shop, official and engineer read of it; no money.")
    waivers: tuple[Waiver, ...] = Field(default=(), description="Compulsory checks set aside, for this revision.")


class Revisions(Part):
    """revisions.yaml"""

    revisions: tuple[Revision, ...] = Field(min_length=1, description="Revisions, oldest first.")
