"""Whose law a design meets."""

import pytest

from generator.model.region import countries


@pytest.mark.parametrize(("codes", "words"), [
    (("US-OR", "US-WA"), {"us"}), (("US",), {"us"}), (("US-OR", "CA"), {"us", "ca"}),
    (("CA-NT",), {"ca", "abroad"}), (("NZ",), {"nz", "abroad"}), (("AU", "NZ"), {"au", "nz", "abroad"}),
    (("EU", "UK"), {"eu", "uk", "abroad"}), (("neck",), {"abroad"}), ((), {"abroad"}),
])
def test_us_law_is_told_only_where_the_us_is_on_the_route(codes: tuple[str, ...], words: set[str]) -> None:
    """A code of ours that is no region can never switch on a feature of the same name."""
    assert countries(codes) == words
