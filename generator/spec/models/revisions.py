"""revisions.yaml: why each revision was made and who asked; never what was issued."""

from pydantic import Field

from generator.spec.models.base import Day, Line, Part, Prose, Title


class Revision(Part):
    """One revision of the design."""

    label: Title = Field(description="Revision letter, or a draft's number before the first issue (P1, P2).")
    date: Day = Field(description="Day of the revision.")
    asked_by: Line = Field(description="Role that asked.")
    why: Prose = Field(description="Reason.")
    changes: tuple[Line, ...] = Field(min_length=1, description="What was decided, one decision each.")
    technical: tuple[Line, ...] = Field(
        default=(), description="What shop, official and engineer read of it; no money.")


class Revisions(Part):
    """revisions.yaml"""

    revisions: tuple[Revision, ...] = Field(min_length=1, description="Revisions, oldest first.")
