"""A section: the one slice it needs and the blocks it makes of it. Nothing here knows who the recipient is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Generic, Protocol, TypeVar

from generator.document.blocks import Block, anchor
from generator.document.codes import Codes
from generator.release.slices import Cover, Desk, Slice
from generator.units import Show

S = TypeVar("S", bound=Slice)


class Paper(Protocol):
    """A sheet size."""

    @property
    def name(self) -> str:
        """What it is called."""
        ...


class ScheduleText(Protocol):
    """A table beside a drawing, as text."""

    @property
    def title(self) -> str:
        """Its caption."""
        ...

    @property
    def head(self) -> tuple[str, ...]:
        """Its column heads."""
        ...

    @property
    def right(self) -> tuple[bool, ...]:
        """Which columns hold numbers."""
        ...

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """Its rows."""
        ...


class Other(Protocol):
    """A text of a sheet that is other than on an earlier one."""

    @property
    def zone(self) -> str:
        """Where it stands on the sheet."""
        ...

    @property
    def was(self) -> str:
        """What stood there; empty for nothing."""
        ...

    @property
    def now(self) -> str:
        """What stands there; empty for nothing."""
        ...


class Drawn(Protocol):
    """What a document needs of a drawing sheet."""

    @property
    def number(self) -> str:
        """Its number, G1."""
        ...

    @property
    def title(self) -> str:
        """Its title."""
        ...

    @property
    def size(self) -> Paper:
        """Its paper."""
        ...

    @property
    def scale(self) -> str:
        """Its scale, 1:48."""
        ...

    @property
    def alt(self) -> str:
        """What it shows, in words."""
        ...

    @property
    def schedule(self) -> Sequence[ScheduleText]:
        """The tables that go with it."""
        ...

    @property
    def tells_money(self) -> bool:
        """Whether it stands with the budget, not among the drawings that are handed on."""
        ...

    @property
    def changed(self) -> Sequence[Other]:
        """What is other than on the sheet of an earlier revision."""
        ...

    def svg(self) -> str:
        """The sheet as SVG at true size."""
        ...


class Lacking(Protocol):
    """A drawing sheet that could not be drawn."""

    @property
    def number(self) -> str:
        """Its number, G1."""
        ...

    @property
    def title(self) -> str:
        """Its title."""
        ...

    @property
    def reason(self) -> str:
        """Why it could not be drawn."""
        ...


@dataclass(frozen=True, slots=True)
class Context:
    """What every section may use besides its slice: units shown, cover, drawings made and not made, codes."""

    show: Show
    cover: Cover
    sheets: tuple[Drawn, ...] = ()
    lacking: tuple[Lacking, ...] = ()
    codes: Codes = field(default_factory=Codes)

    @property
    def drawings(self) -> tuple[Drawn, ...]:
        """The sheets of the set that is handed on: those that tell of no money."""
        return tuple(s for s in self.sheets if not s.tells_money)


@dataclass(frozen=True, slots=True)
class Section(Generic[S]):
    """A section of a document; without its slice, or without blocks, it does not exist."""

    id: str
    title: str
    needs: type[S]
    make: Callable[[S, Context], tuple[Block, ...]]
    new_page: bool = False

    def part(self, desk: Desk, context: Context) -> "Part | None":
        """The section of this desk."""
        held = desk.get(self.needs)
        if not isinstance(held, self.needs):
            return None
        blocks = self.make(held, context)
        return Part(anchor("s", self.id), self.title, blocks, self.new_page) if blocks else None


@dataclass(frozen=True, slots=True)
class Part:
    """A section made: its anchor, its heading and its blocks."""

    anchor: str
    title: str
    blocks: tuple[Block, ...]
    new_page: bool
