"""The only writer of packets: beside the old one, flushed, then swapped; the old packet or the new, never a mixture."""

import errno
import json
import os
import shutil
import socket
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from generator.errors import OutputError
from generator.revision.manifest import MANIFEST, MARK, manifest


def write_packet(out: Path, files: Mapping[str, bytes], mark: Mapping[str, str]) -> None:
    """Replace folder `out` by `files` (relative name to bytes) and their manifest, all or nothing.

    Raises OutputError when the folder is not ours, held by another build, or cannot be written.
    """
    everything = dict(files)
    everything[MANIFEST] = manifest(files.items()).encode()
    everything[MARK] = (json.dumps(dict(mark), sort_keys=True, indent=1) + "\n").encode()
    with locked(out):
        _clear_leftovers(out)
        part = out.with_name(f"{out.name}.part-{os.getpid()}")
        try:
            _fill(part, everything)
            _swap(out, part)
        except OSError as fault:
            raise OutputError(_explain(fault, out, everything)) from fault
        finally:
            shutil.rmtree(part, ignore_errors=True)


def freeze(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder that is never written again, whole or not at all; raises OutputError, also if it is there."""
    part = folder.with_name(f"{folder.name}.part-{os.getpid()}")
    try:
        if folder.exists() or folder.is_symlink():
            raise OutputError(f"{folder}: is there already; nothing issued is ever overwritten")
        _fill(part, files)
        part.rename(folder)
        _settle(folder.parent)
    except OSError as fault:
        raise OutputError(_explain(fault, folder, files)) from fault
    finally:
        shutil.rmtree(part, ignore_errors=True)


def replace_file(path: Path, data: bytes) -> None:
    """Replace a file by new bytes, whole or not at all; raises OutputError."""
    part = path.with_name(f"{path.name}.part-{os.getpid()}")
    try:
        _fill(path.parent, {part.name: data})
        part.replace(path)
        _settle(path.parent)
    except OSError as fault:
        raise OutputError(_explain(fault, path, {path.name: data})) from fault
    finally:
        part.unlink(missing_ok=True)


def _settle(folder: Path) -> None:
    """Have the names in a folder on the disk before anything that relies on them is written."""
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def refuse_unfit(out: Path, spec: Path) -> None:
    """Raise OutputError, before any work, if `out` may not become a packet folder."""
    target, source = Path(os.path.abspath(out)), spec.resolve()
    problem = ""
    if target.is_symlink():
        problem = "is a link; name the folder itself"
    elif target.parent == target:
        problem = "is the root of the file system; name a new folder"
    elif target.exists() and not target.is_dir():
        problem = "is a file; name a folder"
    elif any(p.name == "issued" and (p / "log.jsonl").exists() for p in (target, *target.parents)):
        problem = "lies in a folder of what was issued; name a folder elsewhere, such as packets/NAME"
    elif source in (target, *target.parents) or target in source.parents:
        problem = "holds or lies in the spec folder; name a folder elsewhere, such as packets/NAME"
    elif target.is_dir() and any(target.iterdir()) and not (target / MARK).is_file():
        problem = "holds files that are not a packet; name an empty or new folder"
    elif not os.access(_nearest_folder(target), os.W_OK):
        problem = "cannot be written; name another folder with --out"
    if problem:
        raise OutputError(f"{out}: {problem}")


def is_current(out: Path, mark: Mapping[str, str]) -> bool:
    """Whether `out` holds, byte for byte, the packet that `mark` stands for."""
    try:
        if json.loads((out / MARK).read_bytes()) != dict(mark):
            return False
        listed = (out / MANIFEST).read_bytes()
        found = {str(p.relative_to(out).as_posix()): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}
    except (OSError, ValueError):
        return False
    rest = {name: data for name, data in found.items() if name not in (MARK, MANIFEST)}
    return manifest(rest.items()).encode() == listed


def _nearest_folder(path: Path) -> Path:
    return next(p for p in path.parents if p.is_dir())


def _fill(part: Path, files: Mapping[str, bytes]) -> None:
    for name, data in sorted(files.items()):
        path = part / name
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())


def _swap(out: Path, part: Path) -> None:
    """No single step replaces a full folder: the old one steps aside, and comes back if the new one cannot come in."""
    old = out.with_name(f"{out.name}.old-{os.getpid()}")
    if not out.exists():
        part.rename(out)
        return
    out.rename(old)
    try:
        part.rename(out)
    except OSError:
        old.rename(out)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _clear_leftovers(out: Path) -> None:
    """Remove what a killed build left; an old packet whose place is empty goes back to it."""
    for old in sorted(out.parent.glob(f"{out.name}.old-*")):
        if out.exists():
            shutil.rmtree(old, ignore_errors=True)
        else:
            old.rename(out)
    for part in out.parent.glob(f"{out.name}.part-*"):
        shutil.rmtree(part, ignore_errors=True)
    for lock in out.parent.glob(f"{out.name}.lock.*"):
        lock.unlink(missing_ok=True)


def _explain(fault: OSError, out: Path, files: Mapping[str, bytes]) -> str:
    if fault.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        need = sum(map(len, files.values())) / 1e6
        return f"{out}: no space left; the packet needs about {need:.1f} MB; what was there before is untouched"
    return f"{out}: {fault.strerror or fault}; what was there before is untouched"


@contextmanager
def locked(out: Path) -> Iterator[None]:
    """Hold `<out>.lock` by exclusive creation; a holder that died on this machine is taken over, said aloud."""
    path = out.with_name(f"{out.name}.lock")
    holder = f"{os.getpid()}@{socket.gethostname()}"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _take(path, holder)
    except OSError as fault:
        raise OutputError(f"{out}: {fault.strerror or fault}") from fault
    try:
        yield
    finally:
        with suppress(OSError):
            path.unlink()


def _take(path: Path, holder: str) -> None:
    try:
        _create(path, holder)
    except FileExistsError:
        held_by = path.read_text(errors="replace")
        if not _died(held_by):
            raise OutputError(
                f"{path}: another build ({held_by}) writes here; wait for it, or remove the file"
            ) from None
        print(f"{path}: its holder {held_by} is gone; taking over", file=sys.stderr)
        path.unlink(missing_ok=True)
        _create(path, holder)


def _create(path: Path, holder: str) -> None:
    """A lock that names its holder from its first moment: an empty one, left by a kill, would stay for ever."""
    part = path.with_name(f"{path.name}.{os.getpid()}")
    part.write_text(holder)
    try:
        os.link(part, path)
    except FileExistsError:
        raise
    except OSError:
        # A file system without links: exclusive creation is the next best.
        with path.open("x") as stream:
            stream.write(holder)
    finally:
        part.unlink(missing_ok=True)


def _died(held_by: str) -> bool:
    pid, _, host = held_by.partition("@")
    if host != socket.gethostname() or not pid.isdigit():
        return False
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return True
    except OSError:
        return False
    return False
