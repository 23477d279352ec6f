"""Who holds what, which letter is due, and what `verify` says of every way a frozen folder can be touched."""

import subprocess
from hashlib import sha256
from pathlib import Path

import pytest

from generator.revision.log import Issued, Received, log_of, read_log
from generator.revision.manifest import MANIFEST, listed, manifest
from generator.revision.trail import Trail, read_trail, register_of, supersedes
from generator.revision.verify import verified

FILES = {"1-request.pdf": b"%PDF one", "index.html": b"<p>", "pages/a.svg": b"<svg/>"}
RECORD = {"spec/project.yaml": b"id: x\n", "results.json": b"{}\n"}


def frozen(folder: Path, files: dict[str, bytes]) -> str:
    for name, data in {**files, MANIFEST: manifest(files.items()).encode()}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return sha256((folder / MANIFEST).read_bytes()).hexdigest()


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    """A spec folder from which one packet went out and one quote came back."""
    home = tmp_path / "issued"
    sent, kept = frozen(home / "001-A-fabricator", FILES), frozen(home / "A", RECORD)
    (home / "received").mkdir()
    (home / "received" / "001-q.pdf").write_bytes(b"quote")
    entries = (
        Issued(1, "A", "fabricator", "quote", "2026-11-16", "001-A-fabricator", sent, kept, "b", "d", "1", 7),
        Received(1, 1, "quote", "north", "2026-12-20", "received/001-q.pdf", sha256(b"quote").hexdigest(), 5),
    )
    (home / "log.jsonl").write_bytes(log_of(entries))
    (home / "register.txt").write_text(register_of(read_trail(home)), encoding="utf-8")
    return tmp_path


def told(spec: Path) -> list[tuple[str, str]]:
    return [(p.where.removeprefix("issued/"), p.kind) for p in verified(spec)]


def test_what_was_not_touched_has_no_problem(spec: Path) -> None:
    assert told(spec) == []


def test_the_frozen_folder_reads_with_the_systems_own_tool(spec: Path) -> None:
    run = subprocess.run(["sha256sum", "-c", MANIFEST], cwd=spec / "issued" / "001-A-fabricator", check=False,
                         capture_output=True, text=True)
    assert run.returncode == 0
    assert run.stdout.count(": OK") == len(FILES)


@pytest.mark.parametrize(("touch", "says"), [
    (lambda h: (h / "001-A-fabricator/index.html").write_bytes(b"<P>"), ("001-A-fabricator/index.html", "changed")),
    (lambda h: (h / "001-A-fabricator/more.txt").write_bytes(b""), ("001-A-fabricator/more.txt", "extra")),
    (lambda h: (h / "001-A-fabricator/pages/a.svg").unlink(), ("001-A-fabricator/pages/a.svg", "missing")),
    (lambda h: (h / "A/spec/project.yaml").write_bytes(b"id: y\n"), ("A/spec/project.yaml", "changed")),
    (lambda h: (h / "received/001-q.pdf").write_bytes(b"Quote"), ("received/001-q.pdf", "changed")),
    (lambda h: (h / "received/001-q.pdf").unlink(), ("received/001-q.pdf", "missing")),
    (lambda h: (h / "received/x").write_bytes(b""), ("received/x", "extra")),
    (lambda h: (h / "002-B-owner").mkdir(), ("002-B-owner", "incomplete")),
    (lambda h: (h / "register.txt").write_text("x"), ("register.txt", "other than the log")),
    (lambda h: (h / "register.txt").unlink(), ("register.txt", "other than the log")),
])
def test_every_touch_is_named(spec: Path, touch: object, says: tuple[str, str]) -> None:
    touch(spec / "issued")  # type: ignore[operator]
    assert told(spec) == [says]


def test_a_file_in_the_place_of_a_link_is_not_followed(spec: Path, tmp_path: Path) -> None:
    page = spec / "issued/001-A-fabricator/index.html"
    outside = tmp_path / "same.html"
    outside.write_bytes(page.read_bytes())
    page.unlink()
    page.symlink_to(outside)
    assert told(spec) == [("001-A-fabricator/index.html", "no plain file")]


def test_a_manifest_written_again_is_found_by_the_log(spec: Path) -> None:
    folder = spec / "issued/001-A-fabricator"
    frozen(folder, {**FILES, "index.html": b"other"})
    assert told(spec) == [("001-A-fabricator/manifest.sha256", "changed")]


def test_a_last_line_cut_off_leaves_folder_and_register_behind(spec: Path) -> None:
    home = spec / "issued"
    first = (home / "log.jsonl").read_bytes().splitlines(keepends=True)[0]
    (home / "log.jsonl").write_bytes(first)
    assert told(spec) == [("received/001-q.pdf", "extra"), ("register.txt", "other than the log")]


def test_a_last_line_edited_no_longer_fits_the_register(spec: Path) -> None:
    home = spec / "issued"
    log = (home / "log.jsonl").read_bytes()
    (home / "log.jsonl").write_bytes(log.replace(b'"sender": "north"', b'"sender": "south"'))
    assert told(spec) == [("register.txt", "other than the log")]


@pytest.mark.parametrize("path", ["../x", "/etc/passwd", "a/../../x", "a\\b", "./a", "a//b"])
def test_no_path_of_a_manifest_is_followed_outside(spec: Path, path: str) -> None:
    text = (spec / "issued/001-A-fabricator" / MANIFEST).read_text() + f"{'0' * 64}  {path}\n"
    (spec / "issued/001-A-fabricator" / MANIFEST).write_text(text)
    assert [kind for _, kind in told(spec)] == ["changed", "strange path"]


def test_a_path_listed_twice_and_a_strange_line_are_named() -> None:
    found, problems = listed(f"{'0' * 64}  a\n{'1' * 64}  a\nnonsense\n", "x")
    assert found == {"a": "0" * 64}
    assert [(p.where, p.kind) for p in problems] == [
        ("x/manifest.sha256:2", "listed twice"), ("x/manifest.sha256:3", "strange line")]


def test_a_packet_folder_alone_can_be_verified(spec: Path) -> None:
    folder = spec / "issued/001-A-fabricator"
    assert list(verified(folder)) == []
    (folder / "index.html").write_bytes(b"")
    assert [str(p) for p in verified(folder)] == [
        "001-A-fabricator/index.html: changed: its bytes are not those that were frozen"]


def test_a_folder_with_nothing_issued_says_so(tmp_path: Path) -> None:
    assert [p.kind for p in verified(tmp_path)] == ["nothing to verify"]


def sent(number: int, revision: str, to: str = "fabricator", addressee: str = "", gone: tuple[int, ...] = ()) -> Issued:
    return Issued(number, revision, to, "quote", "2026-11-16", f"{number}-{to}", "", "", revision, "", "1",
                  7, addressee, supersedes=gone)


def trail(*entries: Issued) -> Trail:
    log = log_of(entries)
    return Trail(log, tuple(read_log(log)))


TRAIL = Trail(b"", ())


def test_the_same_design_keeps_its_letter_another_takes_the_next() -> None:
    it = trail(sent(1, "A"), sent(2, "A", addressee="south"))
    assert it.letter_due("A") == "A"
    assert it.letter_due("other") == "B"
    assert it.letter_due("other", spoilt=["B"]) == "C"
    assert TRAIL.letter_due("any") == "A"


def test_a_design_gone_back_to_gets_a_new_letter() -> None:
    """What was A before B is not A again: two sheets of one letter must never differ in what stands between."""
    it = trail(sent(1, "A"), sent(2, "B"))
    assert it.letter_due("A") == "C"


def test_only_the_same_reader_is_superseded() -> None:
    it = trail(sent(1, "A", addressee="north"), sent(2, "A", addressee="south"), sent(3, "A", "haulier"))
    assert supersedes(it, "fabricator", "north", "B") == (1,)
    assert supersedes(it, "fabricator", "north", "A") == ()
    assert supersedes(it, "fabricator", "", "B") == ()
    later = trail(sent(1, "A", addressee="north"), sent(2, "B", addressee="north", gone=(1,)))
    assert [e.number for e in later.current()] == [2]
    assert later.superseded_by(1) == later.issued[1]
    assert "SUPERSEDED by transmittal 2, revision B" in register_of(later)
