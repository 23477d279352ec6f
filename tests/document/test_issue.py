"""Issuing for real, on a copy of an invented design: what is frozen, refused, told, put away and made again."""

import hashlib
import io
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from pypdf import PdfReader

from generator.errors import OutputError
from generator.issue import Reply, Wish, issue, receive, remade, unpack
from generator.revision.trail import read_trail
from generator.revision.verify import verified
from generator.store import Store

ROOT = Path(__file__).resolve().parents[2]
HAULIER = Wish("haulier", "review", date="2027-01-04")


def quiet(stage: str) -> None:
    """Progress nobody watches."""


def revise(spec: Path, label: str, date: str, more: str = "") -> None:
    """Append a revision, written by us for this test."""
    with (spec / "revisions.yaml").open("a", encoding="utf-8") as file:
        file.write(f"  - label: {label}\n    date: {date}\n    asked_by: owners\n    why: For a test.\n"
                   f"    changes:\n      - Something was decided\n{more}")


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    folder = tmp_path / "dipper"
    shutil.copytree(ROOT / "specs" / "dipper", folder)
    revise(folder, "A", "2027-01-04")
    return folder


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A cache for all tests here, in other processes too: each page is rendered once."""
    base = tmp_path_factory.mktemp("cache")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(base))
        yield Store(base / "trailer-packet")


def tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_an_issue_freezes_packet_and_design_and_verifies(spec: Path, store: Store) -> None:
    entry = issue(spec, HAULIER, store, quiet)
    home = spec / "issued"
    assert (entry.number, entry.revision, entry.folder) == (1, "A", "001-A-haulier")
    assert list(verified(spec)) == []
    source = {name.removeprefix("spec/"): data for name, data in tree(home / "A").items() if name.startswith("spec/")}
    assert source == {name: data for name, data in tree(spec).items() if not name.startswith("issued/")}
    printed = PdfReader(home / entry.folder / "10-haulier-sheet.pdf").pages[0].extract_text()
    assert "ISSUED FOR REVIEW" in printed
    assert "transmittal 1" in printed.replace("\n", " ")
    paper = PdfReader(home / entry.folder / "12-transmittal.pdf").pages[0].extract_text()
    for name in ("10-haulier-sheet.pdf", "packet.pdf"):
        digest = hashlib.sha256((home / entry.folder / name).read_bytes()).hexdigest()
        assert digest[:16] in paper
    run = subprocess.run(["sha256sum", "--quiet", "-c", "manifest.sha256"], cwd=home / entry.folder, check=False)
    assert run.returncode == 0


def test_the_second_issue_prints_the_head_of_the_log_and_supersedes(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    head = read_trail(spec / "issued").head
    before = tree(spec / "issued" / "001-A-haulier")
    text = (spec / "weights.yaml").read_text(encoding="utf-8")
    revise(spec, "B", "2027-02-01")
    entry = issue(spec, Wish("haulier", "review"), store, quiet)
    assert (entry.revision, entry.date, entry.supersedes) == ("B", "2027-02-01", (1,))
    paper = PdfReader(spec / "issued" / entry.folder / "12-transmittal.pdf").pages[0].extract_text()
    assert head in re.sub(r"\s", "", paper)
    assert "001-A-haulier" in paper
    assert tree(spec / "issued" / "001-A-haulier") == before, "nothing issued is ever overwritten"
    assert "SUPERSEDED by transmittal 2" in (spec / "issued" / "register.txt").read_text(encoding="utf-8")
    assert text == (spec / "weights.yaml").read_text(encoding="utf-8")
    assert list(verified(spec)) == []


def test_the_same_design_goes_to_another_reader_under_the_same_letter(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    entry = issue(spec, Wish("engineer", "review", date="2027-01-05"), store, quiet)
    assert (entry.number, entry.revision, entry.supersedes) == (2, "A", ())
    assert list(verified(spec)) == []


@pytest.mark.parametrize(("wish", "says"), [
    (Wish("haulier", "review", date="2027-13-04"), "no day of the calendar"),
    (Wish("haulier", "as-built"), "nothing measured stands in asbuilt"),
])
def test_what_cannot_be_issued_says_why_and_leaves_nothing(spec: Path, store: Store, wish: Wish, says: str) -> None:
    with pytest.raises(OutputError, match=says):
        issue(spec, wish, store, quiet)
    assert tree(spec / "issued") == {}


def test_the_letter_due_must_have_its_reason(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    (spec / "notes" / "more.md").write_text("---\nto: [owner]\n---\n# More\n\nA word.\n", encoding="utf-8")
    with pytest.raises(OutputError, match=r"the revision due is B, and its last one is `A`"):
        issue(spec, HAULIER, store, quiet)
    revise(spec, "C", "2027-02-01")
    with pytest.raises(OutputError, match=r"the revision due is B, and its last one is `C`"):
        issue(spec, HAULIER, store, quiet)


def test_a_log_does_not_run_backward(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    with pytest.raises(OutputError, match="before the last issue"):
        issue(spec, Wish("engineer", "review", date="2027-01-03"), store, quiet)


def test_an_open_compulsory_check_is_issued_for_review_or_waived_in_print(spec: Path, store: Store) -> None:
    text = (spec / "trailer.yaml").read_text(encoding="utf-8")
    (spec / "trailer.yaml").write_text(re.sub(r"breaking: .*", "breaking: 500 kg", text), encoding="utf-8")
    with pytest.raises(OutputError, match=r"compulsory checks? (is|are) open") as fault:
        issue(spec, Wish("haulier", "information"), store, quiet)
    open_ = re.findall(r"^  [a-z ]+: ([\w.-]+):", str(fault.value), re.MULTILINE)
    assert "chain.strength" in open_
    rows = "".join(f"      - check: {id}\n        role: owner\n        date: 2027-02-02\n        reason: Of the test\n"
                   for id in open_)
    revise(spec, "B", "2027-02-02", f"    waivers:\n{rows}")
    text = (spec / "revisions.yaml").read_text(encoding="utf-8")
    (spec / "revisions.yaml").write_text(text.replace("label: A\n", "label: P9\n").replace("label: B\n", "label: A\n"),
                                         encoding="utf-8")
    entry = issue(spec, Wish("haulier", "information"), store, quiet)
    assert len(entry.waivers) == len(open_)
    paper = PdfReader(spec / "issued" / entry.folder / "12-transmittal.pdf").pages[0].extract_text()
    assert "(chain.strength)" in paper.replace("\n", "")
    assert "Of the test" in paper


def test_a_waiver_of_nothing_is_refused(spec: Path, store: Store) -> None:
    revise(spec, "B", "2027-02-02", "    waivers:\n      - check: hitch.nothing\n        role: owner\n"
           "        date: 2027-02-02\n        reason: Of the test\n")
    text = (spec / "revisions.yaml").read_text(encoding="utf-8")
    (spec / "revisions.yaml").write_text(text.replace("label: A\n", "label: P9\n").replace("label: B\n", "label: A\n"),
                                         encoding="utf-8")
    with pytest.raises(OutputError, match=r"a waiver of hitch.nothing sets nothing aside"):
        issue(spec, HAULIER, store, quiet)


def test_what_comes_back_is_kept_unopened(spec: Path, store: Store, tmp_path: Path) -> None:
    issue(spec, HAULIER, store, quiet)
    came = tmp_path / "reply of the Shop (final).pdf"
    came.write_bytes(b"%PDF not opened \xff\x00")
    entry = receive(spec, came, Reply("acknowledgement", "haulier", "2027-01-09 08:15", 1))
    kept = spec / "issued" / entry.file
    assert kept.read_bytes() == came.read_bytes()
    assert entry.sha256 == hashlib.sha256(came.read_bytes()).hexdigest()
    assert list(verified(spec)) == []
    with pytest.raises(OutputError, match="no such transmittal; there are 1"):
        receive(spec, came, Reply("quote", "north", "2027-01-09", 7))
    with pytest.raises(OutputError, match="no day or time"):
        receive(spec, came, Reply("quote", "north", "yesterday", 1))
    (tmp_path / "link").symlink_to(came)
    with pytest.raises(OutputError, match="no plain file"):
        receive(spec, tmp_path / "link", Reply("quote", "north", "2027-01-09", 1))


# The engine leaves its own colour profile open.
@pytest.mark.filterwarnings("ignore::ResourceWarning", "ignore::pytest.PytestUnraisableExceptionWarning")
def test_an_archive_carries_its_sources_and_is_made_again_to_the_byte(
    spec: Path, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """PDF/A-3 (ISO 19005-3): files with AFRelationship, an output intent, XMP part 3; level A: tagged."""
    entry = issue(spec, Wish("owner", "review"), store, quiet)
    archive = spec / "issued" / entry.folder / "packet.pdf"
    root = PdfReader(io.BytesIO(archive.read_bytes())).trailer["/Root"]
    assert b'pdfaid:part="3"' in root["/Metadata"].get_object().get_data()  # type: ignore[index]
    assert root["/MarkInfo"]["/Marked"]  # type: ignore[index]
    assert {"/StructTreeRoot", "/Lang"} <= set(root)  # type: ignore[arg-type]
    assert root["/OutputIntents"][0]["/S"] == "/GTS_PDFA1"  # type: ignore[index]
    relations = {f.get_object()["/UF"]: f.get_object()["/AFRelationship"] for f in root["/AF"]}  # type: ignore[index]
    assert relations["spec/trailer.yaml"] == "/Source"
    assert relations["results.json"] == "/Data"
    unpack(archive, tmp_path / "out")
    assert tree(tmp_path / "out" / "spec") == tree(spec / "issued" / "A" / "spec")
    assert remade(archive, quiet)
    edited = tmp_path / "edited.pdf"
    edited.write_bytes(archive.read_bytes() + b"\n")
    # Making it a third time would tell nothing new: only the comparison is asked here.
    monkeypatch.setattr("generator.issue.one_file", lambda *given: archive.read_bytes())
    assert not remade(edited, quiet)


def command(spec: Path, *more: str) -> list[str]:
    return [sys.executable, "-m", "generator", "issue", str(spec), "--to", "haulier", "--purpose", "review", *more]


@contextmanager
def stopped_at(spec: Path, where: str) -> Iterator[None]:
    """An issue killed as soon as a path appears, the hard way."""
    run = subprocess.Popen(command(spec), cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    deadline = time.monotonic() + 120
    while not list((spec / "issued").glob(where)) and run.poll() is None and time.monotonic() < deadline:
        time.sleep(0.0005)
    os.kill(run.pid, signal.SIGKILL)
    run.wait()
    yield


@pytest.mark.parametrize("where", ["log.lock", "A.part-*", "A", "001-A-haulier.part-*", "001-A-haulier"])
def test_a_kill_at_any_moment_leaves_a_whole_log(spec: Path, store: Store, where: str) -> None:
    with stopped_at(spec, where):
        trail = read_trail(spec / "issued")
        kinds = {p.kind for p in verified(spec)}
        assert kinds <= ({"incomplete"} if not trail.lines else {"other than the log"})
    entry = issue(spec, Wish("haulier", "review"), store, quiet)
    assert entry.revision == "A", "the same design keeps its letter"
    assert list(verified(spec)) == []


def test_a_letter_taken_by_a_cut_short_issue_is_not_used_for_another_design(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    home = spec / "issued"
    for name in ("log.jsonl", "register.txt"):
        (home / name).unlink()
    assert {p.kind for p in verified(spec)} == {"incomplete"}
    (spec / "notes" / "more.md").write_text("---\nto: [owner]\n---\n# More\n\nA word.\n", encoding="utf-8")
    with pytest.raises(OutputError, match="the revision due is B"):
        issue(spec, HAULIER, store, quiet)
    revise(spec, "B", "2027-02-01")
    assert issue(spec, Wish("haulier", "review"), store, quiet).revision == "B"
    assert sorted(p.name for p in (home / "incomplete").iterdir()) == ["001-A-haulier", "A"]
    assert list(verified(spec)) == []


def test_two_at_once_get_two_numbers_and_one_chain(spec: Path, store: Store) -> None:
    runs = [subprocess.Popen(command(spec, "--addressee", name), cwd=ROOT, stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, text=True) for name in ("north", "south")]
    said = [run.communicate(timeout=240) for run in runs]
    codes = sorted(run.returncode for run in runs)
    assert codes in ([0, 0], [0, 1])
    if codes == [0, 1]:
        assert any("another build" in err for _, err in said)
    assert len(read_trail(spec / "issued").issued) == codes.count(0)
    assert list(verified(spec)) == []


def test_a_broken_log_stops_the_next_issue(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    log = spec / "issued" / "log.jsonl"
    log.write_bytes(log.read_bytes()[:-20])
    with pytest.raises(OutputError, match=r"issued/log.jsonl:1: this line is half written"):
        issue(spec, HAULIER, store, quiet)


def test_a_packet_is_not_built_into_what_was_issued(spec: Path, store: Store) -> None:
    issue(spec, HAULIER, store, quiet)
    run = subprocess.run([sys.executable, "-m", "generator", "build", str(spec), "--to", "haulier", "--out",
                          str(spec / "issued" / "001-A-haulier")], cwd=ROOT, capture_output=True, text=True,
                         check=False)
    assert run.returncode == 1
    assert "lies in a folder of what was issued" in run.stderr
    assert list(verified(spec)) == []
