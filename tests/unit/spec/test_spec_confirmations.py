"""Confirmations name a rule that exists, once; a slip is a fault with its line."""

import pytest
from spec_folder import edited, faults, line

HEAD = "\nuse:"
ROW = "  - {rule: %s, asked: Vehicle office, reply: As listed, date: %s}\n"


def project(*rows):
    return edited("project.yaml", (HEAD, "\nconfirmations:\n" + "".join(ROW % row for row in rows) + HEAD[1:]))


def test_a_confirmation_of_a_rule_is_read(tmp_path):
    assert faults(tmp_path, project(("lamps-us-wide", "2026-02-20"))) == []


def test_an_unheard_of_rule_is_a_fault_with_its_line(tmp_path):
    (fault,) = faults(tmp_path, project(("lamps-us-long", "2026-02-20"), ("lamps-us-wdie", "2026-02-20")))
    at = line("project.yaml", HEAD.strip()) + 2
    assert fault.startswith(f"project.yaml:{at}: ")
    assert "no rule is called `lamps-us-wdie`" in fault
    assert "did you mean `lamps-us-wide`" in fault


def test_a_rule_is_answered_once(tmp_path):
    (fault,) = faults(tmp_path, project(("lamps-us-wide", "2026-02-20"), ("lamps-us-wide", "2026-02-21")))
    assert "already" in fault


@pytest.mark.parametrize("day", ["2026-02-30", "soon"])
def test_the_day_is_a_day(tmp_path, day):
    assert len(faults(tmp_path, project(("lamps-us-wide", day)))) == 1
