"""Text that attacks or confuses: refused with one line each, or kept as the text it is."""

import resource
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from spec_folder import STARTER, edited, faults, write

from generator.errors import SpecError
from generator.spec.glyphs import covered
from generator.spec.read import parse_source, read_spec
from generator.spec.source import Source, SourceFile


def test_doubling_anchors_are_refused_at_the_first_and_cost_nothing(tmp_path: Path) -> None:
    rows = ["a0: &a0 [x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 31)]
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    found = faults(tmp_path, {"site.yaml": "\n".join(rows)})
    assert found == ["site.yaml:1: a0: anchor `&a0`; write the text out; anchors and aliases are not read"]
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 20_000  # kB


@pytest.mark.parametrize("opening", ["[", "{a: ", "- "])
def test_deep_nesting_does_not_end_the_process(tmp_path: Path, opening: str) -> None:
    found = faults(tmp_path, {"site.yaml": "x: " + opening * 100_000 if opening != "- " else opening * 100_000})
    assert len(found) == 1
    assert "deeper than 12 levels" in found[0]


@pytest.mark.parametrize("value", ["yes", "010", "1_000", "0x1F", "1:30", ".inf", "2026-01-01", "~", "null", "1e3"])
def test_what_other_readers_would_convert_is_read_as_written(tmp_path: Path, value: str) -> None:
    """As a title it stays the text; as a mass it is refused with that text."""
    assert faults(tmp_path / "a", edited("project.yaml", ("title: First design", f"title: {value}"))) == []
    assert read_spec(tmp_path / "a").project.title == value
    (fault,) = faults(tmp_path / "b", edited("trailer.yaml", ("rating: 25000 lb", f"rating: {value}")))
    assert f"`{value}`" in fault


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "{{ 7*7 }}",
        "{% include 'x' %}",
        "{# note #}",
        "</text><image href='http://host/x'/>",
        '=HYPERLINK("http://host")',
        "javascript:alert(1)",
        "../../etc/passwd",
        "%s %n %x",
        "$(rm -rf /)",
        "; drop table",
        "a\\b",
    ],
)
def test_markup_and_expressions_stay_text(tmp_path: Path, text: str) -> None:
    quoted = text.replace("'", "''")
    write(tmp_path, edited("project.yaml", ("title: First design", f"title: '{quoted}'")))
    assert read_spec(tmp_path).project.title == text


@pytest.mark.parametrize("char", ["\u202e", "\u2066", "\u200d", "\u200b", "\U000e0041", "\u00ad", "\u2028"])
def test_unseen_characters_are_refused_by_code_point(tmp_path: Path, char: str) -> None:
    found = faults(tmp_path, edited("project.yaml", ("title: First design", f'title: "a\\U{ord(char):08x}b"')))
    assert [f"character U+{ord(char):04X}" in fault for fault in found] == [True]


def test_an_error_line_shows_escape_codes_as_text(tmp_path: Path) -> None:
    found = faults(tmp_path, edited("trailer.yaml", ("rating: 25000 lb", 'rating: "\\e[31m25000"')))
    assert all("\x1b" not in fault and "\n" not in fault for fault in found)
    assert any("\\x1b" in fault for fault in found)
    named = faults(tmp_path, edited("trailer.yaml", ("  rating: 25000 lb", '  "\\e]0;x\\n": 25000 lb')))
    assert named
    assert all("\x1b" not in fault and "\n" not in fault for fault in named)


def test_letters_of_other_scripts_are_kept_where_the_font_has_them(tmp_path: Path) -> None:
    """Vietnamese and Cyrillic are in the font; its character map is asked, not assumed."""
    title = "Nh\u00e0 \u1edf \u2014 \u0414\u043e\u043c"
    if not {ord(c) for c in title} <= covered():
        title = "Nh\u00e0 \u2014 \u0141\u00f3d\u017a"
    write(tmp_path, edited("project.yaml", ("title: First design", f"title: {title}")))
    assert read_spec(tmp_path).project.title == title


@pytest.mark.parametrize("id", ["../x", "con.", "a.b", "x" * 41, "", "A", "1a", "a b", "a\u0301"])
def test_names_that_are_no_names(tmp_path: Path, id: str) -> None:
    (fault,) = faults(tmp_path, edited("project.yaml", ("id: first-design", f'id: "{id}"')))
    assert "small letters, digits and hyphens" in fault or "at most 40" in fault or "cannot print" in fault


def in_memory(changes: dict[str, str]) -> list[str]:
    """The faults of the starter with whole files replaced, without a disk."""
    files = {name: text.encode() for name, text in {**STARTER, **changes}.items()}
    try:
        parse_source(Source("x", tuple(SourceFile(name, data, "") for name, data in files.items())))
    except SpecError as error:
        return [str(fault) for fault in error.faults]
    return []


@pytest.mark.parametrize("value", ["[a]", "{a: b}", "", "-1e9 parsec"])
def test_a_wrong_shape_at_every_place_is_a_fault_and_no_traceback(value: str) -> None:
    """Each value of the trailer file in turn becomes a list, a map, nothing, or the wrong text."""
    rows = STARTER["trailer.yaml"].split("\n")
    tried = 0
    for number, row in enumerate(rows):
        key, _, rest = row.partition(": ")
        if row.lstrip().startswith(("#", "-")) or not rest.strip() or rest.lstrip()[0] in "{[>#":
            continue
        found = in_memory({"trailer.yaml": "\n".join([*rows[:number], f"{key}: {value}", *rows[number + 1 :]])})
        assert all(fault.isprintable() for fault in found)
        assert found or value == "-1e9 parsec"  # a line of free text may say anything
        tried += 1
    assert tried > 90


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300), st.sampled_from(["project.yaml", "house.yaml", "tow.yaml", "notes/questions.md"]))
def test_any_bytes_give_a_spec_or_faults(tmp_path: Path, data: bytes, file: str) -> None:
    for fault in faults(tmp_path, {file: data}):
        assert fault.isprintable()


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_a_file_cut_or_garbled_anywhere_gives_a_spec_or_faults(tmp_path: Path, data: st.DataObject) -> None:
    file = data.draw(st.sampled_from(["trailer.yaml", "house.yaml", "weights.yaml", "costs.yaml"]))
    text = STARTER[file]
    at = data.draw(st.integers(0, len(text)))
    piece = data.draw(
        st.sampled_from(["", "\t", "]", "}", ": ", "- ", "#", "'", '"', "|", "*", "&a ", "!", "\n", "%", "@"])
    )
    rest = text[at:] if data.draw(st.booleans()) else ""
    for fault in faults(tmp_path, {file: text[:at] + piece + rest}):
        assert fault.isprintable()
