"""A sheet is drawn for whom it was granted, and tells haulier and insurer no size that is not theirs."""

import math
import re
from dataclasses import fields, is_dataclass, replace
from functools import cache

import pytest
from release_sample import HERON, data

from generator.calc.run import NO_LEVERS, calculate
from generator.draw.marks import texts
from generator.draw.sheet import Sheet
from generator.draw.sheets import drawn
from generator.model.resolve import resolve
from generator.release.cut import cut
from generator.release.grants import RECIPIENTS, SHEETS
from generator.release.slices import Desk, Envelope, Sheets, Slice, Steel
from generator.spec.read import read_spec

TOLD = {
    "insurer": {
        "Steel": {"deck_length", "deck_width", "neck_front", "neck_width", "neck_underside", "neck_frame_depth",
                  "pin_station", "ball_height", "deck_height_laden", "deck_height_bare", "axles", "track",
                  "tyre_width", "travel_mass", "bare_mass", "boxes", "coupler_low", "coupler_high", "coupler_set"},
        "Envelope": {"front", "rear", "width", "zones"},
    },
    "haulier": {
        "Steel": {"deck_length", "deck_width", "neck_front", "neck_width", "neck_underside", "neck_frame_depth",
                  "pin_station", "ball_height", "deck_height_laden", "deck_height_bare", "axles", "track",
                  "tyre_width", "travel_mass", "bare_mass", "boxes", "coupler_low", "coupler_high", "coupler_set",
                  "jacks", "stands", "points", "chain_anchor"},
        "Envelope": {"front", "rear", "width", "zones", "roof", "chains", "height_limit"},
    },
}
"""Fields whose numbers a recipient's sheets may print: outer sizes, heights, masses, stations, points."""
JACKS = {"station", "y", "lift_rating", "static_rating", "stroke"}
"""What a haulier may read of a jack: where it stands and what its maker rates it."""


@cache
def desk(to: str) -> Desk:
    """The desk of a recipient of the example, calculated for real."""
    model = resolve(read_spec(HERON), data())
    return cut(model, calculate(model, data(), levers=NO_LEVERS), data(), to, "0123456789ab")


def sheets(of: Desk) -> tuple[Sheet, ...]:
    return drawn(of)[0]


def words(of: Desk) -> list[str]:
    """Every text of the sheets and their schedules."""
    return [*(t.text for s in sheets(of) for t in texts(s.marks)),
            *(cell for s in sheets(of) for t in s.schedule for row in t.rows for cell in row)]


def moved(value: object) -> object:
    """The value with every number in it greater by a thousandth and 4 mm, which no sheet rounds away."""
    if isinstance(value, float):
        return value * 1.001 + 0.004
    if isinstance(value, tuple):
        return tuple(moved(v) for v in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: moved(getattr(value, f.name)) for f in fields(value) if f.init})
    return value


def changed(to: str, kind: type[Slice], names: set[str]) -> Desk:
    """The desk with some fields of what its sheets are drawn from moved."""
    held = desk(to).get(Sheets)
    assert isinstance(held, Sheets)
    behind = tuple(replace(s, **{n: moved(getattr(s, n)) for n in names}) if type(s) is kind else s
                   for s in held.behind)
    return Desk(tuple(replace(held, behind=behind) if s is held else s for s in desk(to).slices))


@pytest.mark.parametrize("to", RECIPIENTS)
def test_a_recipient_holds_the_sheets_granted_and_no_other(to: str) -> None:
    made, without = drawn(desk(to))
    assert [s.number for s in made]
    numbers = {s.number for s in made} | {u.number for u in without}
    # Further pages go with the first: F2.2 with F2, S2 and on with S1.
    firsts = {re.sub(r"^S\d+$", "S1", n.partition(".")[0]) for n in numbers}
    assert firsts <= set(SHEETS[to])


def test_without_the_grant_nothing_is_drawn() -> None:
    bare = Desk(tuple(s for s in desk("owner").slices if not isinstance(s, Sheets)))
    assert drawn(bare) == ((), ())


def test_money_and_the_route_stay_off_the_shops_list() -> None:
    assert not {"M1", "L2"} & set(SHEETS["fabricator"])
    assert [to for to in RECIPIENTS if "M1" in SHEETS[to]] == ["owner"]


@pytest.mark.parametrize("to", ["insurer", "haulier"])
@pytest.mark.parametrize("kind", [Steel, Envelope])
def test_no_size_stands_on_a_sheet_that_was_not_granted_with_it(to: str, kind: type[Slice]) -> None:
    """Whatever is not granted may change without a word of the sheets changing; what is granted may not."""
    before, granted = words(desk(to)), TOLD[to][kind.__name__]
    assert words(changed(to, kind, {f.name for f in fields(kind)} - granted)) == before
    assert words(changed(to, kind, granted)) != before


@pytest.mark.parametrize("to", ["insurer", "haulier"])
def test_an_outline_names_no_section_and_no_member(to: str) -> None:
    frame = read_spec(HERON).trailer.frame.members
    said = "\n".join(words(desk(to)))
    for text in {*(m.section for m in frame), *(m.grade for m in frame), *(m.title for m in frame)}:
        assert not re.search(rf"(?<!\w){re.escape(text)}(?!\w)", said), text


def test_a_haulier_reads_no_computed_load_of_a_jack() -> None:
    held = desk("haulier").get(Sheets)
    assert isinstance(held, Sheets)
    steel = next(s for s in held.behind if isinstance(s, Steel))
    for jack in steel.jacks:
        known = {f.name for f in fields(jack) if isinstance(v := getattr(jack, f.name), float) and math.isfinite(v)}
        assert known == JACKS


def test_the_pens_slices_reach_no_document() -> None:
    """What a sheet is drawn from is no slice of the desk: documents cannot read it."""
    for to in ("insurer", "haulier"):
        assert desk(to).get(Steel) is None
        assert desk(to).get(Envelope) is None
