"""results.json is canonical, and made from the desk alone."""

import json
import math
from typing import Any

import pytest
from release_sample import data, model, quantity, results

from generator.release.cut import cut, owner_results_json, results_json
from generator.release.results import number
from generator.release.slices import Desk


def parsed(to: str = "owner", **changed: object) -> dict[str, Any]:
    loaded = json.loads(results_json(cut(model(), results(**changed), data(), to)))
    assert isinstance(loaded, dict)
    return loaded


def test_the_keys_of_the_contract() -> None:
    for to in ("owner", "fabricator"):
        assert sorted(parsed(to)) == [
            "assumptions", "checks", "cost", "items", "options", "project", "quantities", "schema", "tasks", "windows"]


def test_canonical_text() -> None:
    text = owner_results_json(model(), results(), data())
    assert text.endswith("}\n")
    assert not text.endswith("\n\n")
    assert text == json.dumps(json.loads(text), sort_keys=True, allow_nan=False, ensure_ascii=False, indent=1) + "\n"
    assert "NaN" not in text
    assert "Infinity" not in text


def test_twelve_significant_digits_and_the_shown_text() -> None:
    row = parsed()["quantities"]["state.travel.mass"]
    assert row["value"] == 7700.12345679
    assert row["shown"] == "16,976\N{NO-BREAK SPACE}lb"
    assert (row["unit"], row["basis"]) == ("kg", "estimate")


def test_what_has_no_number_is_null() -> None:
    row = parsed()["quantities"]["neck.coupler_set"]
    assert (row["value"], row["low"], row["shown"]) == (None, None, "\N{EN DASH}")
    missing = parsed()["checks"]["neck.rail_gap.level"]
    assert (missing["status"], missing["demand"], missing["ratio"]) == ("not assessed", None, None)
    assert missing["needs"] == ["tow.yaml vehicle.bed_rail", "tow.yaml:33"]


@pytest.mark.parametrize(("value", "is_number"), [
    (math.nan, False), (math.inf, False), (-math.inf, False), (None, False), (0.0, True), (1.5, True)])
def test_only_finite_numbers_are_numbers(value: float | None, is_number: bool) -> None:
    assert (number(value) == value) if is_number else (number(value) is None)


def test_a_check_and_a_window() -> None:
    row = parsed()["checks"]["axle.1.rating"]
    assert (row["demand"], row["limit"], row["sense"]) == (2000.0, 3175.0, "<=")
    assert (row["unit"], row["status"]) == ("kg", "pass")
    assert row["ratio"] == pytest.approx(2000 / 3175)
    window = parsed()["windows"]["axles.window"]
    assert (window["low"], window["high"], window["chosen"], window["best"]) == (4.2, 4.6, 4.4, 4.45)


def test_items_and_cost_are_the_owners() -> None:
    assert len(parsed()["items"]) == len(model().items)
    assert parsed()["cost"]["base"] == "3000.50"
    assert parsed()["cost"]["not_priced"] == ["alarms"]
    assert (parsed("fabricator")["items"], parsed("fabricator")["cost"]) == ([], {})


def test_an_infinite_quantity_does_not_break_the_file() -> None:
    assert parsed(quantities=(quantity("height.limit", math.inf, "m"),))["quantities"]["height.limit"]["value"] is None


def test_an_empty_desk_gives_the_schema_alone() -> None:
    assert json.loads(results_json(Desk(()))) == {"schema": 1}
