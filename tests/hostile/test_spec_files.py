"""Files that are no spec: sizes, links, devices, encodings. Never a traceback, never a hang, always a fault."""

import os
import re
from pathlib import Path

import pytest
from spec_folder import STARTER, faults, write

from generator.errors import SpecError
from generator.spec.read import read_spec


def test_a_pipe_named_as_a_spec_file_does_not_hang(tmp_path: Path) -> None:
    write(tmp_path, {"house.yaml": None})
    os.mkfifo(tmp_path / "house.yaml")
    with pytest.raises(SpecError, match=r"house.yaml: not a plain file; a spec is made of plain text files"):
        read_spec(tmp_path)


def test_a_folder_named_as_a_spec_file(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").mkdir()
    assert "house.yaml: not a plain file; a spec is made of plain text files" in faults(tmp_path, {"house.yaml": None})


def test_a_link_to_a_device(tmp_path: Path) -> None:
    write(tmp_path, {"house.yaml": None})
    (tmp_path / "house.yaml").symlink_to("/dev/zero")
    with pytest.raises(
        SpecError, match=r"house.yaml: a link out of the spec folder; put the file itself into the folder"
    ):
        read_spec(tmp_path)


def test_a_link_out_of_the_folder(tmp_path: Path) -> None:
    outside = tmp_path / "outside.yaml"
    outside.write_text(STARTER["house.yaml"], encoding="utf-8")
    folder = write(tmp_path / "spec", {"house.yaml": None})
    (folder / "house.yaml").symlink_to(outside)
    with pytest.raises(SpecError, match=r"house.yaml: a link out of the spec folder"):
        read_spec(folder)


def test_a_linked_notes_folder_out_of_the_spec(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "secret.md").write_text("secret", encoding="utf-8")
    folder = write(tmp_path / "spec", {"notes/questions.md": None, "notes/measuring-sheet.md": None})
    (folder / "notes").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(SpecError, match=r"notes/secret.md: a link out of the spec folder"):
        read_spec(folder)


def test_a_link_that_leads_in_a_circle(tmp_path: Path) -> None:
    folder = write(tmp_path, {"house.yaml": None})
    (folder / "house.yaml").symlink_to("house.yaml")
    with pytest.raises(SpecError, match=r"house.yaml: a link that leads nowhere"):
        read_spec(folder)


def test_a_link_within_the_folder_is_followed(tmp_path: Path) -> None:
    plain = read_spec(write(tmp_path / "plain"))
    folder = write(tmp_path / "linked", {"house.yaml": None, "notes/house.md": STARTER["house.yaml"]})
    (folder / "notes" / "house.md").rename(folder / ".house")
    (folder / "house.yaml").symlink_to(".house")
    assert read_spec(folder).house == plain.house


def test_a_large_file_is_refused_before_it_is_read(tmp_path: Path) -> None:
    folder = write(tmp_path)
    with (folder / "house.yaml").open("r+b") as file:
        file.truncate(50_000_000_000)
    with pytest.raises(SpecError, match=r"house.yaml: larger than 2,000,000 bytes; a spec file is far smaller"):
        read_spec(folder)


def test_many_files_are_refused(tmp_path: Path) -> None:
    folder = write(tmp_path)
    for number in range(450):
        (folder / "notes" / f"n{number}.md").write_text("x", encoding="utf-8")
    with pytest.raises(SpecError, match=r"notes: more than 200 files; a spec has fewer"):
        read_spec(folder)


def test_many_large_files_are_refused(tmp_path: Path) -> None:
    folder = write(tmp_path)
    for number in range(12):
        (folder / "notes" / f"n{number}.md").write_bytes(b"x\n" * 900_000)
    with pytest.raises(SpecError, match=r"all files together exceed 16,000,000 bytes"):
        read_spec(folder)


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (STARTER["site.yaml"].encode("utf-16"), "site.yaml: written in UTF-16 (byte 0); save it as UTF-8"),
        (b"title: caf\xe9\n", "site.yaml: not UTF-8 (byte 10, 0xe9); save it as UTF-8"),
        (b"title: a\0b\n", "site.yaml: a NUL byte (byte 8); save it as plain text in UTF-8"),
        (b"title: a\xed\xa0\x80\n", "site.yaml: not UTF-8 (byte 8, 0xed); save it as UTF-8"),
    ],
)
def test_other_encodings_are_named_with_their_byte(tmp_path: Path, data: bytes, fault: str) -> None:
    assert faults(tmp_path, {"site.yaml": data}) == [fault]


KNOWN = (
    "a spec folder holds project.yaml, trailer.yaml, house.yaml, weights.yaml, tow.yaml, site.yaml, costs.yaml, "
    "revisions.yaml, notes, README.md, issued, tickets, asbuilt, options, quotes"
)


def test_a_stranger_is_named_with_its_nearest(tmp_path: Path) -> None:
    write(tmp_path, {"hosue.yaml": "x: 1", "README.md": "mine", ".hidden": "x"})
    with pytest.raises(SpecError) as caught:
        read_spec(tmp_path)
    assert str(caught.value) == f"hosue.yaml: not a file of a spec; did you mean `house.yaml`? {KNOWN}"


def test_something_else_among_the_notes(tmp_path: Path) -> None:
    found = faults(tmp_path, {"notes/plan.docx": b"PK"})
    assert found == ["notes/plan.docx: not a page of prose; notes/ holds `*.md` files alone"]


def test_an_unreadable_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write(tmp_path)

    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(SpecError) as caught:
        read_spec(folder)
    assert "house.yaml: cannot be read: Permission denied; allow reading it" in str(caught.value)


def test_an_empty_folder_names_all_four_files(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as caught:
        read_spec(tmp_path)
    assert re.findall(r"^(\w+\.yaml): missing", str(caught.value), re.MULTILINE) == [
        "house.yaml",
        "project.yaml",
        "trailer.yaml",
        "weights.yaml",
    ]
