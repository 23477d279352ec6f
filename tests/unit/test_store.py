"""The cache: whole bytes or none."""

import hashlib
from pathlib import Path

import pytest

from generator.revision.manifest import manifest
from generator.store import Store, digest


def test_digest_tells_lists_of_parts_apart() -> None:
    assert digest("ab", "c") != digest("a", "bc")
    assert digest("ab") == digest(b"ab")


def test_kept_bytes_come_back(tmp_path: Path) -> None:
    store = Store(tmp_path / "cache")
    assert store.get("k", lambda: b"made") == b"made"
    assert store.get("k", lambda: b"again") == b"made"
    assert [p.name for p in (tmp_path / "cache").iterdir()] == ["k"]


@pytest.mark.parametrize("damage", [b"", b"short", b"0" * 64 + b"made"])
def test_a_damaged_entry_is_made_again(tmp_path: Path, damage: bytes) -> None:
    store = Store(tmp_path)
    store.keep("k", b"made")
    (tmp_path / "k").write_bytes(damage)
    assert store.get("k", lambda: b"again") == b"again"
    assert store.peek("k") == b"again"


def test_an_unwritable_cache_is_only_slower(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    assert Store(tmp_path / "file" / "cache").get("k", lambda: b"made") == b"made"
    assert Store(None).get("k", lambda: b"made") == b"made"


def test_manifest_hashes_as_published() -> None:
    """FIPS 180-4 example: SHA-256 of "abc" (NIST, Cryptographic Standards and Guidelines, example values)."""
    published = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == published
    assert manifest([("b", b"abc"), ("a", b"abc")]) == f"{published}  a\n{published}  b\n"
