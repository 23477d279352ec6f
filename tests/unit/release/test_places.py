"""The schedule of places: stations drawn together, distances, heights, copes and toes in words."""

import re
from pathlib import Path

import pytest
import scratch

from generator.calc.run import calculate
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.release.places import places, stations_text
from generator.spec.read import read_spec
from generator.units import Show

SI, US = Show("si"), Show("us")
SPECS = Path(__file__).resolve().parents[3] / "specs"


def plain(text):
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("stations", "text"),
    [
        ((2.0, 1.0), "1,000 mm; 2,000 mm"),
        ((1.0, 1.0, 2.0, 3.0), "1,000 mm; 2,000 mm; 3,000 mm"),
        ((1.0, 2.0, 3.0, 4.0), "1,000 mm to 4,000 mm, 4 places 1,000 mm apart"),
        ((0.5, 1.0, 2.0, 3.0, 4.0, 4.5), "500 mm; 1,000 mm to 4,000 mm, 4 places 1,000 mm apart; 4,500 mm"),
        ((-1.5,), "−1,500 mm"),
    ],
)
def test_even_runs_of_stations_are_told_as_one(stations, text):
    assert plain(stations_text(stations, SI)) == text


def test_every_station_can_be_read_back_from_a_run():
    """What a shop does with `9 places 2'-0" apart`: the first, the step and the count give every station."""
    told = plain(stations_text([0.6096 * n for n in range(1, 10)], US))
    first, last, count, step = re.fullmatch(r"(\d+)′-0″ to (\d+)′-0″, (\d+) places (\d+)′-0″ apart", told).groups()
    assert int(first) + (int(count) - 1) * int(step) == int(last) == 18


def rows(**members):
    changes = {f"frame.members.{n}": m for n, m in members.items()}
    model = resolve(scratch.spec(trailer=changes), scratch.DATA)
    return {r.mark: r for r in places(model, calculate(model, scratch.DATA, Trials(count=0)), SI)}


def test_a_row_says_where_a_mark_goes():
    of = rows()
    assert set(of) == {"r1", "c1", "n1", "u1"}
    rail, post = of["r1"], of["u1"]
    assert plain(rail.where) == "0.0 mm to 9,000 mm"
    assert plain(rail.across) == "800 mm each side"
    assert plain(rail.top) == "−18 mm"
    assert plain(post.where) == "50 mm"
    assert plain(post.top) == "1,000 mm, foot −230 mm"
    assert plain(of["c1"].across) == "750 mm each way"


def test_a_cope_is_told_with_sizes_that_clear_the_flange():
    """W8x18: flange 5.25 in wide, 0.330 in thick (AISC Manual, table 1-1): tip at 733.3 mm, 16.7 mm inside the end."""
    ends = plain(rows()["c1"].ends)
    length, depth = map(
        float, re.match(r"each end coped ([\d.]+) mm x ([\d.]+) mm for the top flange of r1", ends).groups()
    )
    assert 16.7 <= length <= 17.7
    assert 8.38 <= depth <= 9.4
    assert ends.endswith("toes aft")


def test_a_mark_on_one_side_says_which():
    single = dict(scratch.TRAILER["frame"]["members"][3], sides="left")
    assert plain(rows(**{"3": single})["u1"].across) == "800 mm left"


def test_a_leg_at_an_angle_is_told_by_both_its_ends():
    """By the tangent: 25 deg over half of 67.5 in is 15.74 in either way from 16.56 in (specs/wren, t1)."""
    model = resolve(read_spec(SPECS / "wren"), scratch.DATA)
    leg = next(r for r in places(model, calculate(model, scratch.DATA, Trials(count=0)), US) if r.mark == "t1")
    assert plain(leg.across) == "middle 13/16″ at its front to 2′-8 5/16″ at its rear, 25.0°, each side"
    assert plain(leg.ends) == "cut across the trailer, 25.0° off square"
