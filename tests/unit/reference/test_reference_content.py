"""Texts that only a build needs: checklist, clauses, tolerances, critical dimensions, hold points."""

import re
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from generator.errors import DataError
from generator.reference import load
from generator.reference.content import checklist, clauses, criticals, holds, tolerances, usage_guide
from generator.reference.load import PAIR, in_units

FEATURES = {"gooseneck", "torsion", "leaf", "neck", "tongue", "tow vehicle and neck", "tow vehicle and tongue",
             "galvanised", "powered jacks", "stands", "points", "propane", "tow vehicle",
            "no tow vehicle", "painted", "us", "abroad", "ball", "king pin", "wheel boxes", "over the wheels",
             "battery", "lithium", "lead acid", "solid fuel", "heat not stated", "diesel", "spring bars",
             "sleeping loft", "over-run brakes"}
US_LAW = re.compile(r"CFR|NFPA|\bNEC\b|ASCE|AWS|NIST|\b[Ss]tate (?!of\b)")
US_UNITS = re.compile(r"[0-9] ?(?:in|ft|miles|mph|yards|lb|psi|psf|ksi)\b")
SI_UNITS = re.compile(r"[0-9] ?(?:mm|m|km|km/h|kg)\b")
INTO = {"in": 0.0254, "ft": 0.3048, "yards": 0.9144, "miles": 1609.344, "mph": 1609.344 / 3600.0, "mm": 0.001, "m": 1.0,
        "km": 1000.0, "km/h": 1000.0 / 3600.0}
"""Metres, or metres a second."""
AT_LEAST = ("35 ft", "2/32 in")
"""Figures that say how much to keep; all others say how much at most."""
KINDS = {"axles", "axle_kinds", "jacks", "powered_jacks", "point_kinds", "boxes", "access", "house_notes", "holds"}


def test_the_checklist_covers_every_phase() -> None:
    assert [p.id for p in checklist()] == [
        "lifting", "hot-work", "shop", "shop-hot-work", "wheels", "harness", "delivery", "tyres",
        "hitching", "weighing", "before-trip", "service", "occupancy", "transport", "parking", "wind", "propane",
        "solid-fuel", "electrical", "life-safety"]


def test_every_row_says_when_to_stop_and_to_whom_it_defers() -> None:
    for page in checklist():
        assert page.caution
        assert page.rows
        for row in page.rows:
            assert all((row.item, row.do, row.evidence, row.stop_if, row.defer_to)), (page.id, row.item)


def test_a_law_of_the_us_stands_where_a_route_without_it_does_not_read_it() -> None:
    """Only the field `us` may name a rule or an office of the US; elsewhere another word or none takes its place."""
    rows = [row for page in checklist() for row in page.rows]
    elsewhere = [text for r in rows for text in (r.item, r.do, r.evidence, r.stop_if, r.defer_to, r.abroad)]
    assert [text for text in elsewhere if US_LAW.search(text)] == []
    assert len([r for r in rows if US_LAW.search(r.us)]) > 30


def test_a_figure_is_told_in_one_system() -> None:
    told = {u: [t for p in checklist(u) for r in p.rows for t in (r.item, r.do, r.evidence, r.stop_if)]
            for u in ("us", "si")}
    for units, texts in told.items():
        guide = usage_guide(units)
        texts += [*(use for _, use in guide.classes), *guide.reasons,
                  *(t for r in guide.rows for t in (r.a, r.b, r.c, r.d))]
    assert [t for t in told["si"] if US_UNITS.search(t)] == []
    assert [t for t in told["us"] if SI_UNITS.search(t)] == []
    assert len([t for t in told["us"] if US_UNITS.search(t)]) > 8
    assert not [t for ts in told.values() for t in ts if "{" in t or "|" in t]


def test_a_metric_figure_lies_on_the_safe_side_of_the_one_in_us_units() -> None:
    """By the exact units: a distance to keep is no less in SI, a speed or an interval no more; within 7 %."""
    pairs = [p for p in PAIR.findall(load.read("checklist.yaml")) if SI_UNITS.search(p[1])]
    assert len(pairs) > 8
    for us, si in pairs:
        factor = INTO[us.split()[-1]] / INTO[si.split()[-1]]
        ones, others = ([float(Fraction(n.replace(",", ""))) for n in re.findall(r"[\d,./]*\d", t)] for t in (us, si))
        for one, other in zip(ones, others, strict=True):
            assert (other >= one * factor) if us in AT_LEAST else (other <= one * factor), (us, si)
            assert other == pytest.approx(one * factor, rel=0.07), (us, si)


def test_what_is_assumed_is_said_without_its_figure() -> None:
    """The figure stands beside it in the project's units. Grades and rules that are metric by name keep theirs."""
    metric = {"ends.clearance_au", "frame.yield.s235", "frame.yield.s275", "frame.yield.s355"}
    told = [d for d in load.reference().defaults.values() if d.id not in metric]
    assert [d.id for d in told if US_UNITS.search(d.statement) or SI_UNITS.search(d.statement)] == []
    materials = [m.title for m in load.reference().materials.values()]
    assert [t for t in materials if SI_UNITS.search(in_units(t, "us")) or US_UNITS.search(in_units(t, "si"))] == []
    prompts = [t for p in load.prompts() for t in (p.title, p.typical)]
    assert [t for t in prompts if US_UNITS.search(t) or SI_UNITS.search(t) or US_LAW.search(t)] == []


def test_a_pair_is_two_and_a_name_stays() -> None:
    assert in_units("at {3 in|75 mm} of {name}", "us") == "at 3 in of {name}"
    assert in_units("at {3 in|75 mm} of {name}", "si") == "at 75 mm of {name}"


def test_features_readers_and_kinds_are_known() -> None:
    for page in checklist():
        assert set(page.readers) <= {"shop", "road", "dwelling"}
        assert page.readers
        assert {page.when, *(r.when for r in page.rows)} <= FEATURES | {""}
    for clause in clauses():
        assert {r.when for r in clause.rows} <= FEATURES | {""}
        assert {r.each for r in clause.rows} <= KINDS | {""}


def test_nobody_rides_and_nobody_goes_under_jacks_alone() -> None:
    """The two cautions that must never be lost."""
    cautions = {p.id: p.caution for p in checklist()}
    assert "jacks alone" in cautions["lifting"]
    assert "No person" in cautions["occupancy"]


def test_no_text_certifies() -> None:
    texts = [row.do + row.evidence for page in checklist() for row in page.rows]
    texts += [row.text for clause in clauses() for row in clause.rows]
    assert not [t for t in texts if re.search(r"\b(guarantee|we certify|is safe|complies with the law)\b", t)]


def test_tolerance_rows_join_without_gap_and_grow_by_class() -> None:
    rows = tolerances()
    assert [r.to for r in rows[:-1]] == [r.over for r in rows[1:]]
    assert rows[-1].to is None
    for row in rows:
        assert row.classes["A"] <= row.classes["B"] <= row.classes["C"] <= row.classes["D"]


def test_critical_dimensions_leave_room_somewhere() -> None:
    assert all(c.minus > 0.0 or c.plus is None or c.plus > 0.0 for c in criticals())


def test_hold_points_begin_with_a_stop_and_end_with_a_record() -> None:
    assert [h.id for h in holds()] == ["H1", "W2", "H3", "W4", "H5", "R6"]
    words = {"H": "Stop.", "W": "Witness.", "R": "Record."}
    assert all(h.text.startswith(words[h.id[0]]) for h in holds())


@pytest.mark.parametrize(("file", "old", "new", "call", "said"), [
    ("checklist.yaml", "  caution: A trailer", "  warning: A trailer", checklist, "a page lacks 'caution'"),
    ("checklist.yaml", "      stop_if: Soft, sloping", "      halt: Soft, sloping", checklist,
     "checklist.yaml: lifting: row 1"),
    ("clauses.yaml", "- title: Scope", "- name: Scope", clauses, "a clause lacks 'title'"),
    ("tolerances.csv", "2,30,1", "2,30,x", tolerances, "tolerances.csv:2: could not convert"),
    ("critical.csv", ",practice,practice", ",practice,hearsay", criticals, "critical.csv:2: confidence 'hearsay'"),
    ("holds.csv", "H1,", "H1,,", holds, "holds.csv:2: 3 fields, the head has 2"),
])
def test_damage_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, file: str, old: str, new: str,
                         call: object, said: str) -> None:
    copy = tmp_path / "reference"
    shutil.copytree(load.FOLDER, copy, ignore=shutil.ignore_patterns("__pycache__"))
    text = (copy / file).read_text(encoding="utf-8")
    assert old in text
    (copy / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    monkeypatch.setattr(load, "FOLDER", copy)
    assert callable(call)
    with pytest.raises(DataError, match=re.escape(said)):
        call()
