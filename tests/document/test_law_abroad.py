"""A design whose route has no region of the US: no document of the packet speaks of US law or a US office.

A figure of a US rule may serve as a first look where the place has none in the tables; its source then says `US rule`,
`US code` or `US state rule`, so that nobody takes it for the law of the place.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from html import unescape
from pathlib import Path

import pytest

from generator.calc.run import calculate
from generator.calc.trials import Trials
from generator.document.documents import assemble, compose, reply_csv
from generator.draw.sheets import drawn
from generator.model.resolve import resolve
from generator.reference.load import reference
from generator.release.cut import cut
from generator.release.grants import RECIPIENTS
from generator.release.slices import Desk
from generator.spec.read import read_spec
from generator.units import Show

DIPPER = Path(__file__).parents[2] / "specs" / "dipper"
US_WORDS = re.compile(
    r"\bCFR\b|FMVSS|\bDOT\b|NHTSA|FMCSA|OSHA|NFPA|\bNEC\b|ANSI|\bAWS\b|NIST|\bHUD\b|\bASCE\b|\bIRC\b|\bIBC\b|\bIPC\b|J684|COMAR"
    r"|\bRSA\b|GVWR|GAWR|\b[Ss]tate (?:and|authority|agency|law|office|rule|title|vehicle|weights)\b|[Tt]itle office"
    r"|\b[Ff]ederal (?:agency|law|programme|rules?)\b|for a state\b|\b[Ss]ales or use tax\b|\bby the mile\b")
"""Laws, standards bodies and offices of the US, and words that only its law coined."""
LABELLED = re.compile(r"US (?:state rule|rule|code|federal rules),? ?")
"""What a source of the US is marked with abroad."""
SYMBOL = re.compile(r"(?:\N{MIDDLE DOT} ?)?G[VA]WR")
"""A symbol of a formula, which stands alone in its text and is explained beside it."""
ABROAD = ("NZ", "EU", "AU", "UK", "CA")


@cache
def desk(regions: tuple[str, ...], to: str = "owner") -> Desk:
    """What a recipient holds of the light metric example on another route, a few trials."""
    spec, data = read_spec(DIPPER), reference()
    use = spec.project.use.model_copy(update={"regions": regions})
    moved = replace(spec, project=spec.project.model_copy(update={"use": use}))
    model = resolve(moved, data)
    return cut(model, calculate(model, data, Trials(count=200)), data, to, "0123456789ab")


def told(held: Desk, with_sheets: bool = False) -> Iterator[str]:
    """Every text of every document, of the drawings and of the table twin."""
    sheets, lacking = drawn(held) if with_sheets else ((), ())
    packet = assemble(held, sheets, Show("si", "NZD"), lacking)
    pages = [c.html for c in compose(packet)]
    pages += [sheet.svg() for sheet in sheets]
    pages += [data.decode("utf-8-sig") for data in reply_csv(held).values()]
    for page in pages:
        bare = re.sub(r"<(style|head)\b.*?</\1>", "", page, flags=re.DOTALL)
        yield from (text for part in re.split(r"<[^>]*>", bare) if (text := unescape(part).strip()))


def of_us_law(texts: Iterator[str]) -> list[str]:
    """Texts with a word of US law that nothing marks as one of the US."""
    return [t for t in texts if US_WORDS.search(t) and not LABELLED.search(t) and not SYMBOL.fullmatch(t)]


@pytest.mark.parametrize("region", ABROAD)
def test_no_document_abroad_speaks_of_us_law(region: str) -> None:
    assert of_us_law(told(desk((region,)), with_sheets=region == "NZ")) == []


@pytest.mark.parametrize("to", [r for r in RECIPIENTS if r != "owner"])
def test_no_recipient_abroad_reads_us_law(to: str) -> None:
    assert of_us_law(told(desk(("NZ",), to))) == []


def test_the_same_search_finds_us_law_on_a_route_of_the_us() -> None:
    assert len(of_us_law(told(desk(("US-OR",))))) > 40


def test_a_route_that_only_touches_the_us_reads_its_law() -> None:
    assert len(of_us_law(told(desk(("CA", "US-WA"))))) > 40
