"""One file as maps, lists and text; everything that YAML turns into something else is refused by name."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.spec.glyphs import _SURE, covered, uncovered
from generator.spec.measure import Text
from generator.spec.parse import parse


def faults(text: str) -> list[str]:
    return [str(fault) for fault in parse(text, "x.yaml")[1]]


def test_scalars_stay_text_with_their_place() -> None:
    tree, found = parse("a: yes\nb:\n- 010\n- 1_000\n- 0x1F\n- 1:30\n- .inf\n- 2026-01-01\n- ~\nc:\n", "x.yaml")
    assert not found
    assert tree == {"a": "yes", "b": ["010", "1_000", "0x1F", "1:30", ".inf", "2026-01-01", "~"], "c": ""}
    assert isinstance(tree["b"][1], Text)
    assert tree["b"][1].origin == "x.yaml:4"
    assert tree.lines == {"a": 1, "b": 2, "c": 10}


WRITE_OUT = "write the text out; anchors and aliases are not read"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("a: 1\nb: &x 2", f"x.yaml:2: b: anchor `&x`; {WRITE_OUT}"),
        ("a:\n  - *x", f"x.yaml:2: a: alias `*x`; {WRITE_OUT}"),
        (
            "a: !!python/object:os.system 1",
            "x.yaml:1: a: tag `tag:yaml.org,2002:python/object:os.system`; write the text alone; tags are not read",
        ),
        ("a: !mine 1", "x.yaml:1: a: tag `!mine`; write the text alone; tags are not read"),
        ("b: 1\n<<: {a: 1}", "x.yaml:2: merge key `<<`; write the keys out; merging is not read"),
        ("a: 1\n---\nb: 2", "x.yaml:2: a second document begins (`---`); one document in each file"),
        ("mass: 1\nMass: 2", "x.yaml:2: key `Mass` stands here and in line 1 as `mass`; each key once"),
        ("a: {b: 1, c: 2, b: 3}", "x.yaml:1: a: key `b` stands here and in line 1 as `b`; each key once"),
        ("{[1]: 2}", "x.yaml:1: a key that is a map or a list; a key is a plain word"),
        ("- 1", "x.yaml:1: not a map of keys and values; begin with `key: value` lines"),
        ("", "x.yaml:1: empty; begin with `key: value` lines"),
        ("a: " + "[" * 100_000, "x.yaml:1: deeper than 12 levels; a spec is never that deep; look for a stray bracket"),
        (
            "a: " + "[" * 13 + "]" * 13,
            "x.yaml:1: a: deeper than 12 levels; a spec is never that deep; look for a stray bracket",
        ),
        ('a: "\\u202e"', "x.yaml:1: character U+202E (RIGHT-TO-LEFT OVERRIDE); it would not be seen: leave it out"),
        (
            'a: "\\U000e0041"',
            "x.yaml:1: character U+E0041 (TAG LATIN CAPITAL LETTER A); it would not be seen: leave it out",
        ),
        ('a: "x\\x1b[31m"', "x.yaml:1: character U+001B (unnamed); it would not be seen: leave it out"),
        (
            "a: \u6f22",
            "x.yaml:1: character U+6F22 (CJK UNIFIED IDEOGRAPH-6F22); the packet's font cannot print it: leave it out",
        ),
        (
            "a: \U0001f600",
            "x.yaml:1: character U+1F600 (GRINNING FACE); the packet's font cannot print it: leave it out",
        ),
    ],
)
def test_refused_word_for_word(text: str, fault: str) -> None:
    assert faults(text) == [fault]


def test_a_broken_file_names_line_and_column() -> None:
    assert faults("a: 1\nb: [1, 2\nc: 3\n")[0].startswith("x.yaml:3: cannot be read: did not find expected ',' or ']'")
    assert faults("a:\n\t- b")[0].startswith("x.yaml:2: cannot be read: found character that cannot start any token")


def test_repeated_keys_are_all_found() -> None:
    assert len(faults("a: 1\na: 2\nb: 1\nB: 2\nc: {d: 1, d: 2}\n")) == 3


def test_too_many_entries_stop_the_reading() -> None:
    found = faults("a: [" + "x," * 200_001 + "]")
    assert found == ["x.yaml:1: a: more than 200000 entries; a file of this size is no spec"]


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet=st.characters(codec="utf-8"), max_size=80))
def test_any_text_gives_a_map_or_faults(text: str) -> None:
    tree, found = parse(text, "x.yaml")
    assert isinstance(tree, dict)
    assert tree or found or text.strip().startswith(("{", "%", "-", "#"))
    assert all("\n" not in str(fault) and "\x1b" not in str(fault) for fault in found)


def test_characters_taken_as_known_are_in_the_font() -> None:
    """The short list that spares opening the font, against the packaged font itself."""
    known = {chr(c) for c in range(32, 0x2300) if _SURE.fullmatch(chr(c))}
    assert len(known) > 190
    assert {c for c in known if ord(c) not in covered()} == set()
    assert uncovered("plain \u2013 8\u2032-6\u2033 caf\u00e9") == []
