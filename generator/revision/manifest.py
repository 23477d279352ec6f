"""The list of a packet's files with their hashes."""

import hashlib
from collections.abc import Iterable


def manifest(files: Iterable[tuple[str, bytes]]) -> str:
    """`sha256  path` lines sorted by path, as `sha256sum -c` reads them."""
    return "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(files))
