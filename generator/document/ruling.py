"""Rules as printed: what each compares, whether it is woken, what follows, whom to ask, and a box for the answer."""

from dataclasses import dataclass
from typing import ClassVar

from generator.document.blocks import Block


@dataclass(frozen=True, slots=True)
class RuleLine:
    """A rule, or the name of a group of rules; `is_open`: nobody has answered yet, a box is left to write in."""

    title: str
    id: str = ""
    compared: tuple[str, ...] = ()
    word: str = ""
    mark: str = ""
    note: str = ""
    follows: str = ""
    source: str = ""
    confirm: str = ""
    answer: str = ""
    is_open: bool = False
    is_group: bool = False


@dataclass(frozen=True, slots=True)
class RuleTable(Block):
    """Rules with room to write who was asked, what was answered, and when."""

    template: ClassVar[str] = "rules"
    caption: str
    lines: tuple[RuleLine, ...]
