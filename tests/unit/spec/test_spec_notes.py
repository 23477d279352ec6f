"""Pages of prose and to whom they go."""

import pytest

from generator.spec.models.spec import Note
from generator.spec.notes import read_note


def faults(text: str) -> list[str]:
    return [str(fault) for fault in read_note("notes/a.md", text)[1]]


def test_a_note_with_a_head() -> None:
    text = "---\ntitle: To the shop\nto: [fabricator, owner]\n---\n\nFirst line.\n\n- a list\n"
    note, found = read_note("notes/to-the-shop.md", text)
    assert not found
    assert note == Note("notes/to-the-shop.md", "To the shop", ("owner", "fabricator"), "First line.\n\n- a list\n")


def test_a_note_without_a_head_goes_to_the_owner_alone() -> None:
    note, found = read_note("notes/how-we-live.md", "Text.\n")
    assert not found
    assert note == Note("notes/how-we-live.md", "How we live", (), "Text.\n")


def test_a_rule_in_the_text_is_not_a_head() -> None:
    note, found = read_note("notes/a.md", "Text.\n\n---\n\nMore.\n")
    assert not found
    assert note.text == "Text.\n\n---\n\nMore.\n"


def test_markup_and_template_expressions_stay_text() -> None:
    text = "<script>alert(1)</script> {{ 7*7 }} {% include 'x' %} {# no #}"
    note, found = read_note("notes/a.md", text)
    assert not found
    assert note.text == text + "\n"


READERS = "owner, fabricator, official, insurer, haulier, engineer"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("---\ntitle: x\n", "notes/a.md:1: the head has no end; close it with a line `---`"),
        (
            "---\nto: [fabricatr]\n---\ntext",
            "notes/a.md:2: to: `fabricatr` is not a reader; did you mean `fabricator`? write a list of " + READERS,
        ),
        (
            "---\nto: owner\n---\ntext",
            f"notes/a.md:2: to: not a list; write a list of {READERS}, for example `to: [owner]`",
        ),
        (
            "---\ntitel: x\n---\ntext",
            "notes/a.md:2: titel: not a key of a note; did you mean `title`? keys here: title, to",
        ),
        (
            "---\nto: [owner]\ntitle:\n---\ntext",
            "notes/a.md:3: title: not one line of text; at most 80 characters",
        ),
        ("---\nto: [owner]\n---\n\n", "notes/a.md:4: no text under the head; write the note, or remove the file"),
        (
            "---\n---\n\n\n![x](../../secret.png)",
            "notes/a.md:5: a picture; notes hold text alone; pictures are not read",
        ),
        ("![x](http://host/p.png)", "notes/a.md:1: a picture; notes hold text alone; pictures are not read"),
        ("![x](file:///etc/passwd)", "notes/a.md:1: a picture; notes hold text alone; pictures are not read"),
        (
            "---\nto: &a [owner]\n---\ntext",
            "notes/a.md:2: to: anchor `&a`; write the text out; anchors and aliases are not read",
        ),
        (
            "one\ntwo \u202e three",
            "notes/a.md:2: character U+202E (RIGHT-TO-LEFT OVERRIDE); it would not be seen: leave it out",
        ),
        ("x" * 20_001, "notes/a.md:1: longer than 20000 characters; split it into two notes"),
    ],
)
def test_refused_word_for_word(text: str, fault: str) -> None:
    assert faults(text) == [fault]
