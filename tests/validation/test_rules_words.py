"""Figures that rules only tell, against their sources and against what can be computed from them.

24 CFR 3285.303 to 3285.312, 3280.305, 3280.306, 3285.402, 3280.904 (edition of 2015, read): piers, footings, wind,
ties. COMAR 11.13.08.10 table 1 (read): hitch test forces. N.J.S.A. 39:3-68 (read): stopping. 49 CFR 393.48(d) (edition
of 2015, read): over-run brakes. 49 CFR 571.110 S10, 571.120 S10.5 (edition of 2015, read): weight added before sale.
"""

import re

import pytest

from generator.reference.rules import rules

ALL = {r.id: r for r in rules()}
POUND = 0.45359237


def numbers(id: str) -> list[float]:
    return [float(n.replace(",", "")) for n in re.findall(r"(?<![a-z])\d[\d,]*(?:\.\d+)?", ALL[id].follows)]


def test_footings_told_are_those_of_soil_less_their_own_weight() -> None:
    """Soil times area less concrete at 150 lb/ft3; the table prints to 100 lb, so within 100 lb of it."""
    told = numbers("dwelling-us-hud-footings")
    soil, rows = told[0], ((16, 6, told[3]), (20, 6, told[6]), (24, 8, told[9]))
    assert soil == 1500
    for side, thick, printed in rows:
        area = (side / 12) ** 2
        assert printed == pytest.approx(soil * area - 150 * area * thick / 12, abs=100)


@pytest.mark.parametrize(("id", "told"), [
    ("dwelling-us-hud-piers", {10, 2, 12, 36, 8000, 67, 16000}),  # 3285.303 to 3285.310
    ("dwelling-us-hud-ties", {3150, 4725, 2, 30, 60, 12}),  # 3280.306, 3285.402
    ("dwelling-us-hud-wind", {15, 9, 1.5, 100, 110, 39, 47}),  # 3280.305(c)(1), 3280.306(a)
    ("dwelling-us-hud-loads", {40, 200, 1, 8, 20, 30, 240, 180}),  # 3280.305(c)-(g)
    ("dwelling-us-hud-rooms", {7, 5, 6, 4, 28, 74, 72, 35, 54}),  # 3280.104 to 3280.106
    ("dwelling-us-hud-chassis", {3, 20, 26}),  # 3280.904(b)(2)-(3)
    ("dwelling-us-live", {40, 30, 300, 2, 200, 50}),  # IRC table R301.5
    ("coupling-us-hitch-test", {0.47, 480, 0.15, 0.23, 1530, 0.20, 500}),  # COMAR 11.13.08.10 table 1
    ("dwelling-us-wa-loft", {70, 7, 3, 35}),  # WAC 51-51-0333
    ("label-us-added-light", {1.5, 100}),  # 49 CFR 571.110 S10
])
def test_figures_told(id: str, told: set[float]) -> None:
    assert told <= set(numbers(id))


def test_the_anchor_is_proved_to_one_and_a_half_times_its_working_load() -> None:
    """24 CFR 3280.306(f): 4,725 over 3,150 lb."""
    working, ultimate = numbers("dwelling-us-hud-ties")[:2]
    assert ultimate == pytest.approx(1.5 * working)


def test_new_jersey_asks_less_of_brakes_that_are_not_on_every_wheel() -> None:
    """9.5 ft/s2 over 32.2 ft/s2 is 29.5 %; 20 mph to rest in 45 ft at one rate is 9.56 ft/s2."""
    rule = ALL["brakes-us-nj-part"]
    assert rule.must is not None
    assert rule.must.number == pytest.approx(9.5 / 32.2, abs=5e-4)
    mean = (20 * 5280 / 3600) ** 2 / (2 * 45)
    assert mean == pytest.approx(9.5, abs=0.1)
    assert ALL["brakes-us-nj"].when[0].sign == ">="


def test_over_run_ends() -> None:
    """49 CFR 393.48(d): 1.75 times to 12,000 lb; 1.25 times over that and under 20,001 lb."""
    light, mid = ALL["brakes-us-surge-light"], ALL["brakes-us-surge-mid"]
    assert light.must is not None
    assert mid.must is not None
    assert (light.must.number, mid.must.number) == pytest.approx((1.75, 1.25))
    assert light.when[0].number == pytest.approx(12_000 * POUND)
    assert [t.number / POUND for t in mid.when] == pytest.approx([12_000, 20_001])


def test_what_is_from_memory_says_so() -> None:
    remembered = {id for id, r in ALL.items() if r.confidence == "memory"}
    assert {"coupling-us-gooseneck-ball", "coupling-us-pin", "coupling-us-rated-with", "dwelling-us-guard",
            "dwelling-us-landing", "dwelling-us-roof-window", "brakes-eu-overrun", "width-au-new",
            "path-caravan-heavy-eu", "label-us-rv-reserve"} <= remembered
    assert ALL["brakes-eu-uk-overrun"].confidence == "read"


def test_a_row_that_holds_nothing_names_whom_to_ask_and_makes_no_law() -> None:
    silent = [r for r in ALL.values() if not r.is_held]
    assert len(silent) > 30
    for rule in silent:
        assert (rule.is_law, rule.must, rule.confidence, rule.source) == (False, None, "practice", "practice"), rule.id
        assert rule.confirm
