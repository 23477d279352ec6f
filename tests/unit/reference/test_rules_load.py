"""Loading the rules: a damaged row is a fault of the data that names file and row."""

import pytest

from generator.errors import DataError
from generator.reference import load
from generator.reference import rules as rl

HEAD = "id,regions,path,kinds,key,title,when,must,law,follows,confirm,source,cite,confidence,as_of"
GOOD = {"id": "size-xx-long", "regions": "XX", "path": "", "kinds": "", "key": "", "title": "Long",
        "when": "length.trailer > 12 m", "must": "", "law": "yes", "follows": "A permit.", "confirm": "Office",
        "source": "practice", "cite": "", "confidence": "practice", "as_of": "2026-01-01"}


def held(tmp_path, monkeypatch, *rows):
    (tmp_path / "rules").mkdir()
    lines = [HEAD, *(",".join(row[k] for k in HEAD.split(",")) for row in rows)]
    (tmp_path / "rules" / "made.csv").write_text("\n".join(lines), encoding="utf-8")
    monkeypatch.setattr(load, "FOLDER", tmp_path)
    monkeypatch.setattr(rl, "FOLDER", tmp_path)
    return rl.rules()


def test_a_row_becomes_a_rule(tmp_path, monkeypatch):
    (rule,) = held(tmp_path, monkeypatch, GOOD | {"must": "a.b + c.d <= 26001 lb"})
    assert rule.when == (rl.Bound(("length.trailer",), ">", 12.0),)
    assert rule.must.terms == ("a.b", "c.d")
    assert rule.must.number == pytest.approx(26001 * 0.45359237)
    assert rule.is_law


@pytest.mark.parametrize("change", [
    {"id": "unheard-of"}, {"id": "Size-x"}, {"when": "length.trailer is long"}, {"when": "length.trailer > 12 cubits"},
    {"when": "length trailer > 12 m"}, {"must": "length.trailer <= tall"}, {"law": "perhaps"}, {"as_of": "last year"},
    {"path": "rv"}, {"confidence": "sure"}, {"title": ""}, {"regions": ""},
])
def test_a_damaged_row_names_its_place(tmp_path, monkeypatch, change):
    with pytest.raises(DataError, match=r"rules/made\.csv:2"):
        held(tmp_path, monkeypatch, GOOD | change)


def test_an_id_comes_once(tmp_path, monkeypatch):
    with pytest.raises(DataError, match="twice"):
        held(tmp_path, monkeypatch, GOOD, GOOD)


def test_of_rules_with_one_key_the_nearest_holds():
    def rule(id, *regions):
        return rl.Rule(id, "size", regions, "", frozenset(), "k", "t", (), None, True, "f", "c", "s", "", "read", "")

    both = (rule("a", "XX"), rule("b", "XX-N"), rule("c", "XX-N"))
    assert rl.in_force(both, ["XX-N", "XX-S", "YY"]) == {"a": ("XX-S",), "b": ("XX-N",), "c": ("XX-N",)}

