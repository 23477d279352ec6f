"""Writing a packet: refusals before any work, and real faults injected while writing."""

import os
import resource
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from generator.errors import OutputError
from generator.write import is_current, refuse_unfit, write_packet

OLD = {"index.html": b"old", "sheets/f1.svg": b"<svg/>"}
NEW = {"index.html": b"new" * 1000, "sheets/f1.svg": b"<svg />" * 1000}
MARK = {"basis": "1", "recipient": "owner"}


@pytest.fixture
def out(tmp_path: Path) -> Path:
    folder = tmp_path / "packet"
    write_packet(folder, OLD, MARK)
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_the_manifest_reads_with_the_systems_own_tool(out: Path) -> None:
    done = subprocess.run(["sha256sum", "-c", "manifest.sha256"], cwd=out, capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert done.stdout == "index.html: OK\nsheets/f1.svg: OK\n"


def test_a_new_packet_replaces_the_old_one_whole(out: Path) -> None:
    write_packet(out, {"results.json": b"{}"}, MARK)
    assert set(contents(out)) == {"results.json", "manifest.sha256", ".packet"}
    assert sorted(p.name for p in out.parent.iterdir()) == ["packet"]


def test_current_means_every_byte(out: Path) -> None:
    assert is_current(out, MARK)
    assert not is_current(out, {**MARK, "basis": "2"})
    (out / "index.html").write_bytes(b"olD")
    assert not is_current(out, MARK)
    write_packet(out, OLD, MARK)
    (out / "more.txt").write_bytes(b"")
    assert not is_current(out, MARK)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda t: (t / "file").write_text("x") and t / "file", "is a file"),
        (lambda t: (t / "link").symlink_to(t) or t / "link", "is a link"),
        (lambda t: Path("/"), "root of the file system"),
        (lambda t: t / "spec", "holds or lies in the spec folder"),
        (lambda t: t / "spec" / "out", "holds or lies in the spec folder"),
        (lambda t: t, "holds or lies in the spec folder"),
        (lambda t: t / "foreign", "holds files that are not a packet"),
    ],
)
def test_unfit_folders_are_refused_with_the_way_out(tmp_path: Path, make: object, says: str) -> None:
    (tmp_path / "spec").mkdir()
    (tmp_path / "foreign").mkdir()
    (tmp_path / "foreign" / "letter.txt").write_text("mine")
    target = make(tmp_path)  # type: ignore[operator]
    with pytest.raises(OutputError, match=says):
        refuse_unfit(target, tmp_path / "spec")
    assert (tmp_path / "foreign" / "letter.txt").read_text() == "mine"


def test_no_space_leaves_the_old_packet_untouched(out: Path) -> None:
    before = contents(out)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (512, hard))
    try:
        with pytest.raises(OutputError, match=r"no space left; the packet needs about 0\.0 MB"):
            write_packet(out, NEW, MARK)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert contents(out) == before
    assert [p.name for p in out.parent.iterdir()] == ["packet"]


KILLED = """
import os, signal, sys
from pathlib import Path
from generator import write
step = int(sys.argv[2])
count = 0
def counted(call):
    def run(*given, **named):
        global count
        count += 1
        if count == step:
            os.kill(os.getpid(), signal.SIGKILL)
        return call(*given, **named)
    return run
os.fsync = counted(os.fsync)
Path.rename = counted(Path.rename)
files = {"index.html": b"new", "sheets/f1.svg": b"new"}
write.write_packet(Path(sys.argv[1]), files, {"basis": "2", "recipient": "owner"})
"""


@pytest.mark.parametrize("step", range(1, 7))
def test_killed_at_any_moment_the_packet_is_old_or_new(out: Path, step: int) -> None:
    old = contents(out)
    done = subprocess.run([sys.executable, "-c", KILLED, str(out), str(step)], check=False)
    assert done.returncode == -signal.SIGKILL
    found = contents(out) or contents(next(out.parent.glob("packet.old-*")))
    assert found == old
    write_packet(out, NEW, MARK)
    assert contents(out)["index.html"] == NEW["index.html"]
    assert [p.name for p in out.parent.iterdir()] == ["packet"]


def test_two_builds_into_one_folder(out: Path) -> None:
    lock = out.with_name("packet.lock")
    lock.write_text(f"{os.getpid()}@{socket.gethostname()}")
    with pytest.raises(OutputError, match=r"another build .* writes here"):
        write_packet(out, NEW, MARK)
    assert is_current(out, MARK)


def test_a_dead_holder_is_taken_over_aloud(out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    dead = subprocess.Popen([sys.executable, "-c", ""])
    dead.wait()
    out.with_name("packet.lock").write_text(f"{dead.pid}@{socket.gethostname()}")
    write_packet(out, NEW, MARK)
    assert "taking over" in capsys.readouterr().err
    assert contents(out)["index.html"] == NEW["index.html"]
