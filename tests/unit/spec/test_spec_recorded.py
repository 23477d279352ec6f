"""Records of scale and tape in the folder: read, named by their file, and their faults."""

from pathlib import Path

import pytest
from spec_folder import faults, write

from generator.errors import SpecError
from generator.spec.read import read_spec
from generator.spec.schema import schema

TICKET = """\
title: First weighing
date: 2026-06-01
place: Public scale, ticket 1
by: Owner
revision: A
state: bare
weighed: one draft
level: yes
same_load: yes
graduation: 20 lb
hitched: {steer: 4000 lb, drive: 4500 lb, trailer: 4400 lb}
alone: {steer: 4100 lb, drive: 3400 lb}
"""
VISIT = """\
title: Delivery
date: 2026-06-02
by: Shop
measurements:
  - what: deck width
    measured: 8 ft 6 in
    instrument: tape, 3 places
  - what: bracket station
    which: axle-1
    measured: 12 ft
    instrument: tape from A
"""


def test_records_are_named_by_their_files(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path, {"tickets/b-2.yaml": TICKET, "tickets/a-1.yaml": TICKET, "asbuilt/d.yaml": VISIT}))
    assert [w.id for w in spec.tickets] == ["a-1", "b-2"]
    assert spec.tickets[0].ticket.hitched.trailer.nominal == pytest.approx(4400 * 0.45359237)
    assert spec.tickets[0].ticket.hitched.trailer.origin == "tickets/a-1.yaml:11"
    assert [v.id for v in spec.asbuilt] == ["d"]
    assert spec.asbuilt[0].sheet.measurements[1].which == "axle-1"


def test_an_unknown_reading_is_a_task(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path, {"tickets/a.yaml": TICKET.replace("drive: 4500 lb", "drive: unknown")}))
    assert [u.path for u in spec.unknowns] == ["tickets/a.yaml: hitched.drive"]


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("tickets/a.yaml", TICKET.replace("4400 lb", "4400"), "tickets/a.yaml:11: hitched.trailer: "),
        ("tickets/a.yaml", TICKET.replace("4400 lb", "4400 ft"), "tickets/a.yaml:11: hitched.trailer: "),
        ("tickets/a.yaml", TICKET.replace("20 lb", "0 lb"), "tickets/a.yaml:10: graduation: a scale without a step; "),
        ("tickets/a.yaml", TICKET + "axles: [900 lb]\n", "tickets/a.yaml:13: axles: 1 readings for 2 axles; "),
        ("tickets/a.yaml", TICKET.replace("state: bare", "state: parked"), "tickets/a.yaml:6: state: `parked` is not"),
        ("tickets/A.yaml", TICKET, "tickets/A.yaml: not a name for a record; tickets/ holds `*.yaml` files alone"),
        ("tickets/scan.pdf", "x", "tickets/scan.pdf: not a name for a record; "),
        ("tickets/a.yaml", "", "tickets/a.yaml:1: empty; "),
        ("asbuilt/a.yaml", VISIT.replace("axle-1", "axle-7"), ":9: measurements.2.which: `axle-7` is not"),
        ("asbuilt/a.yaml", VISIT.replace("    which: axle-1\n", ""), "measurements.2.what: `which` is missing; write"),
        ("asbuilt/a.yaml", VISIT.replace("bracket station", "deck width"), "there is only one deck width; leave"),
    ],
)
def test_faults_have_their_place(tmp_path: Path, name: str, text: str, fault: str) -> None:
    found = faults(tmp_path, {name: text})
    assert any(fault in f for f in found), found


def test_a_dimension_is_measured_once_a_visit(tmp_path: Path) -> None:
    twice = VISIT + VISIT.partition("measurements:\n")[2]
    assert sum("measured twice in one visit" in f for f in faults(tmp_path, {"asbuilt/a.yaml": twice})) == 2


def test_all_faults_of_all_records_come_at_once(tmp_path: Path) -> None:
    write(tmp_path, {"tickets/a.yaml": TICKET.replace("20 lb", "20"), "asbuilt/a.yaml": VISIT.replace("12 ft", "12")})
    with pytest.raises(SpecError) as caught:
        read_spec(tmp_path)
    assert {f.file for f in caught.value.faults} == {"tickets/a.yaml", "asbuilt/a.yaml"}


def test_the_schema_holds_the_records() -> None:
    found = schema()
    assert any(pattern.startswith("^tickets/") for pattern in found["patternProperties"])
