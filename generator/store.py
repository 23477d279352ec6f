"""One cache: bytes that are slow to make, by the hash of what they are made from."""

import hashlib
import os
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path


def digest(*parts: bytes | str) -> str:
    """Hash of parts, each length-prefixed so that no two lists of parts look alike."""
    sha = hashlib.sha256()
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        sha.update(len(data).to_bytes(8, "big") + data)
    return sha.hexdigest()


def user_cache() -> Path | None:
    """Where this user's cached bytes live; None if the system names no such place."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA", "")
    elif sys.platform == "darwin":
        base = os.path.expanduser("~/Library/Caches")
    else:
        base = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    return Path(base) / "trailer-packet" if os.path.isabs(base) else None


@dataclass(frozen=True, slots=True)
class Store:
    """Cached bytes under `folder`; None keeps nothing. A short, damaged or unwritable entry is made again."""

    folder: Path | None

    def peek(self, key: str) -> bytes | None:
        """The bytes kept under `key`, if they are whole."""
        if self.folder is None:
            return None
        try:
            entry = (self.folder / key).read_bytes()
        except OSError:
            return None
        mark, data = entry[:64], entry[64:]
        return data if hashlib.sha256(data).hexdigest().encode() == mark else None

    def keep(self, key: str, data: bytes) -> None:
        """Keep `data` under `key`; a cache that cannot be written is only slower."""
        if self.folder is None:
            return
        with suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryDirectory(dir=self.folder, prefix=".part-") as part:
                entry = Path(part) / key
                entry.write_bytes(hashlib.sha256(data).hexdigest().encode() + data)
                os.replace(entry, self.folder / key)

    def get(self, key: str, make: Callable[[], bytes]) -> bytes:
        """The bytes under `key`, made and kept if they are not there."""
        found = self.peek(key)
        if found is None:
            found = make()
            self.keep(key, found)
        return found
