"""The log: a chain of lines in which no change, cut or addition goes unseen.

Hashes: FIPS 180-4, SHA-256 of "abc" and of the empty message (NIST example values).
"""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.revision.log import FIRST, Broken, Issued, Received, appended, hash_of, head, line_of, log_of, read_log

SENT = Issued(1, "A", "fabricator", "quote", "2026-11-16", "001-A-fabricator", "m" * 64, "r" * 64, "b" * 64, "d" * 64,
              "1", 7, "north", "e-mail", "2027-01-15", (), ("x, by owner on 2026-11-16: why",))
CAME = Received(1, 1, "quote", "north", "2026-12-20 10:00", "received/001-q.pdf", "0" * 64, 6)
ENTRIES = (SENT, CAME, replace(SENT, number=2, revision="B", folder="002-B-fabricator", supersedes=(1,)))


@pytest.mark.parametrize(("message", "digest"), [
    (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
    (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
])
def test_the_hash_is_sha_256(message: bytes, digest: str) -> None:
    assert hash_of(message) == digest


def test_what_is_written_is_read() -> None:
    read = tuple(read_log(log_of(ENTRIES)))
    assert tuple(r.entry for r in read) == ENTRIES
    assert read[0].previous == FIRST
    assert [r.previous for r in read[1:]] == [r.hash for r in read[:-1]]
    assert head(log_of(ENTRIES)) == read[-1].hash
    assert head(b"") == FIRST


def test_appending_leaves_what_stands() -> None:
    log = log_of(ENTRIES[:2])
    assert appended(log, ENTRIES[2]) == log_of(ENTRIES)
    assert log_of(ENTRIES).startswith(log)


@given(st.integers(0, len(log_of(ENTRIES)) - 1), st.integers(1, 255))
def test_any_byte_changed_before_the_last_line_is_found(at: int, by: int) -> None:
    log = bytearray(log_of(ENTRIES))
    last = bytes(log).rindex(b"\n", 0, -1)
    log[at] = (log[at] + by) % 256
    if at <= last:
        with pytest.raises(Broken):
            tuple(read_log(bytes(log)))
    else:
        try:
            read = tuple(read_log(bytes(log)))
        except Broken:
            return
        assert read[-1].hash != head(log_of(ENTRIES))


@pytest.mark.parametrize("gone", [0, 1])
def test_a_line_taken_away_is_found_at_the_next(gone: int) -> None:
    lines = log_of(ENTRIES).splitlines(keepends=True)
    del lines[gone]
    with pytest.raises(Broken) as fault:
        tuple(read_log(b"".join(lines)))
    assert fault.value.line == gone + 1


def test_lines_changed_about_are_found() -> None:
    a, b, c = log_of(ENTRIES).splitlines(keepends=True)
    with pytest.raises(Broken):
        tuple(read_log(b + a + c))


def test_a_half_written_last_line_is_found() -> None:
    with pytest.raises(Broken, match="half written") as fault:
        tuple(read_log(log_of(ENTRIES)[:-9]))
    assert fault.value.line == 3


@pytest.mark.parametrize("line", [
    b"", b"{}", b"[]", b"null", b"\xff\xfe", b'{"entry": {"kind": "other"}, "previous": ""}', b"[" * 100_000,
    json.dumps({"entry": {"kind": "issue"}, "previous": FIRST}).encode(),
])
def test_what_is_no_entry_is_refused(line: bytes) -> None:
    with pytest.raises(Broken) as fault:
        tuple(read_log(line + b"\n"))
    assert fault.value.line == 1


@pytest.mark.parametrize("bad", [
    replace(SENT, folder="../../etc"), replace(SENT, folder="a/b"), replace(SENT, revision="/"),
    replace(SENT, folder=".hidden"), replace(CAME, file="received/../../x"), replace(CAME, file="/etc/passwd"),
])
def test_no_name_in_a_log_leads_out_of_its_folder(bad: Issued | Received) -> None:
    with pytest.raises(Broken):
        tuple(read_log(line_of(bad, FIRST) + b"\n"))


def test_a_number_written_as_text_is_refused() -> None:
    line = line_of(SENT, FIRST).replace(b'"number": 1', b'"number": "1"')
    with pytest.raises(Broken):
        tuple(read_log(line + b"\n"))
