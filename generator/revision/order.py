"""Whose packet is to be made, under what it is issued, what goes with it, since when changes are told."""

from dataclasses import dataclass

from generator.release.standing import Sending, Standing
from generator.spec.source import Source
from generator.units import System


@dataclass(frozen=True, slots=True)
class Since:
    """An earlier design: its source, and what the owner alone is told of the way from there to here."""

    source: Source
    data: tuple[str, ...] = ()
    holders: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Order:
    """Whose packet is made, in which units, under what it is issued (None: a draft), what is sent with it, since when.

    `since`: an earlier design, against which changes are told and marked; `one_file`: all documents as one too.
    """

    to: str
    units: System | None = None
    standing: Standing | None = None
    sending: Sending | None = None
    since: Since | None = None
    one_file: bool = False
