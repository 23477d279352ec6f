"""The small parts of documents: formulas, spelling, prose, fitting, the table twin, sentences."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.record import About, Basis, Change, Check, Compared, Missing, Step, Value
from generator.document.blocks import Head, anchor, table, unique
from generator.document.fit import line_count
from generator.document.formula import in_numbers, in_symbols
from generator.document.glyphs import missing, small_faces
from generator.document.notes import html_of
from generator.document.reply import COLUMNS, as_csv, guarded
from generator.document.sections.drawings import _widths
from generator.document.sentences import asked_of, clipped, in_its_file, next_step, verdict
from generator.document.words import US_WORDS, us, us_markup
from generator.release.slices import Cover, ReplyRow, Request
from generator.units import Show

SHOW = Show("us", "USD")
IN, LB = 0.0254, 0.45359237


# ---- formulas


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        (
            "H = W*(x_a - x_g)/(x_a - x_h)",
            "<i>H = W · (x<sub>a</sub> − x<sub>g</sub>) / (x<sub>a</sub> − x<sub>h</sub>)</i>",
        ),
        ("y = -a*b**2", "<i>y = −a · b<sup>2</sup></i>"),
        ("r = sqrt(a_b_c)", "<i>r = sqrt(a<sub>b,c</sub>)</i>"),
        ("m = max(a, -b)", "<i>m = max(a, −b)</i>"),
        ("found by halving the range until it is short enough", "found by halving the range until it is short enough"),
        ("tried <b>bold</b>", "tried &lt;b&gt;bold&lt;/b&gt;"),
    ],
)
def test_formulas_are_set_with_dots_minus_signs_and_subscripts(text, printed):
    assert in_symbols(text) == printed


def test_numbers_are_put_in_with_units_and_negatives_in_brackets():
    step = Step(
        "x",
        "H = W*(x_a - x_h)/n",
        "statics",
        (Value("W", 100 * LB, "kg"), Value("x_a", 120 * IN, "m"), Value("x_h", -84 * IN, "m"), Value("n", 3.0, "1")),
        Value("H", 1.0, "kg"),
    )
    assert str(in_numbers(step, SHOW)).replace("\u00a0", " ") == "100 lb · (120.00 in − (−84.00 in)) / 3"


def test_a_procedure_lists_what_went_in():
    step = Step("x", "until nothing lifts", "solver", (Value("k_s", 0.5, "1"),), Value("H", 1.0, "kg"))
    assert in_numbers(step, SHOW) == "k<sub>s</sub> = 0.500"


# ---- words


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Tyres and TYRE", "Tires and TIRE"),
        ("tyre.1.axle_rating", "tyre.1.axle_rating"),
        ("the tyre.", "the tire."),
        ("a grey equaliser", "a gray equalizer"),
        ("Galvaniser, neighbouring centre", "Galvanizer, neighboring center"),
        ("house.tyre", "house.tyre"),
        ("retyred", "retyred"),
    ],
)
def test_us_spelling(text, printed):
    assert us(text) == printed


def test_markup_keeps_tags_ids_and_names():
    given_ = '<p id="tyre" title="grey tyre">Grey Heron has a grey tyre</p><style>.grey{}</style>'
    assert (
        us_markup(given_, ("Grey Heron",))
        == '<p id="tyre" title="gray tire">Grey Heron has a gray tire</p><style>.grey{}</style>'
    )


def test_the_word_list_changes_every_word_it_has():
    assert all(us(british) == american for british, american in US_WORDS.items())
    assert all(british != american for british, american in US_WORDS.items())


# ---- prose


@pytest.mark.parametrize(
    ("text", "absent"),
    [
        ("<script>alert(1)</script>", "<script"),
        ('<img src=x onerror="a()">', "<img"),
        ("[x](javascript:alert(1))", "href"),
        ("![x](../../secret.png)", "src"),
        ("[x](data:text/html,hi)", "href"),
        ("<div onclick=1>x</div>", "<div o"),
        ("[x](file:///etc/passwd)", "href"),
        ("[x](JAVA\tSCRIPT:alert(1))", "href"),
        ("<!-- secret -->", "<!--"),
        ("[r]\n\n[r]: javascript:1", "href"),
    ],
)
def test_prose_makes_no_element_of_its_own(text, absent):
    assert absent not in html_of(text)


def test_prose_keeps_what_is_allowed():
    made = html_of("# Head\n\n*a* **b** `c`\n\n- d\n\n| e | f |\n|---|---|\n| g | h |\n\n[i](https://example.org/j)")
    for part in (
        "<h4>Head</h4>",
        "<em>a</em>",
        "<strong>b</strong>",
        "<code>c</code>",
        "<li>d</li>",
        "<td>g</td>",
        '<a href="https://example.org/j">i (https://example.org/j)</a>',
    ):
        assert part in made


@given(st.text(max_size=200))
def test_no_prose_breaks_it_or_smuggles_an_element(text):
    made = str(html_of(text)).lower()
    assert "<script" not in made
    assert "<img" not in made
    assert "<iframe" not in made


# ---- the table twin


def request_of(*rows: ReplyRow) -> tuple[Request, Cover]:
    cover = Cover(
        "a", "A", "", "o", "d", "fabricator", "quote", "P1", "2026-01-01", "for quote", "us", "USD", "0" * 12, "tool"
    )
    return Request("R-1", "d", "q", "w", 30, (), rows, ()), cover


def test_the_table_twin_is_what_rfc_4180_asks_and_guards_formulas():
    # RFC 4180, 2: CRLF line ends, quotes doubled inside quoted fields.
    data = as_csv(*request_of(ReplyRow("1", "=HYPERLINK(1)", '+1 "x"', "-2"), ReplyRow("2", "@x", "\ty", "plain")))
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\r\n") == 3
    assert b"\n" not in data.replace(b"\r\n", b"")
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert rows[0] == list(COLUMNS)
    assert rows[1][:6] == ["R-1", "P1", "1", "'=HYPERLINK(1)", '\'+1 "x"', "'-2"]
    assert rows[2][3:6] == ["'@x", "'\ty", "plain"]
    assert all(line.startswith('"') and line.endswith('"') for line in data.decode("utf-8-sig").split("\r\n")[:-1])
    assert rows[1][6:] == ["value", *[""] * (len(COLUMNS) - 7)]


@given(st.text(max_size=20))
def test_no_text_is_left_that_looks_like_a_formula(text):
    assert not guarded(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


# ---- sentences


def check(outcome, *changes: Change) -> Check:
    return Check("a.b", About("T", "t", "s", "c", "k"), "travel", outcome, changes)


def compared(demand: float, limit: float, sense="<=", share: float = 0.0, basis: Basis = Basis.TABLE) -> Compared:
    return Compared(Value("d", demand * LB, "kg"), Value("l", limit * LB, "kg"), sense, share, basis, frozenset(), ())


def test_sentences_say_what_is_left_and_the_way_out():
    change = Change("x", "Tyre one step up", Value("r", 3250 * LB, "kg"), Value("r", 3750 * LB, "kg"), ("wheel.1",))
    said = verdict(check(compared(7000, 6500), change), SHOW).replace("\u00a0", " ")
    assert said == "500 lb over. Clears with Tyre one step up: 3,750 lb instead of 3,250 lb; look again at wheel.1."
    assert (
        verdict(check(compared(900, 1000, ">=")), SHOW)
        .replace("\u00a0", " ")
        .startswith("100 lb short. No single change")
    )
    assert verdict(check(compared(900, 1000)), SHOW).replace("\u00a0", " ") == "100 lb to spare."
    assert "12.0 % of the trials break the limit" in verdict(check(compared(900, 1000, share=0.12)), SHOW).replace(
        "\u00a0", " "
    )
    assert "from memory" in verdict(check(compared(900, 1000, basis=Basis.MEMORY)), SHOW)
    assert verdict(check(Missing(("tow.yaml: bed_rail",))), SHOW) == "Not assessed. Needed: tow.yaml: bed_rail."
    assert next_step(check(Missing(("tow.yaml: bed_rail",))), SHOW) == "Find out: tow.yaml: bed_rail."


@given(st.text(max_size=300), st.integers(10, 200))
def test_clipped_texts_fit(text, most):
    assert len(clipped(text, most)) <= max(most, 1)
    assert clipped(text, len(text)) == text


def test_a_text_is_cut_between_clauses():
    text = "Tongue root, hangers and welds; Ties and ground anchors; Bolts and timber at the house anchors"
    assert clipped(text, 80) == "Tongue root, hangers and welds; Ties and ground anchors…"
    assert clipped("Camber, deeper rails or a wall that stiffens the whole of the deck", 40).endswith(" that…")


@pytest.mark.parametrize(("ask", "said"), [
    ("The shop: its price.", "the shop: its price."),
    ("The building official: frost depth, and whether pads may stand above it.", "the building official."),
    ("A licensed engineer, before steel is cut: static moment both ways, road factor.",
     "a licensed engineer, before steel is cut."),
    ("Whoever tows: door labels, hitch label and a weighed tow vehicle; the insurer.", "whoever tows."),
    ("", ""),
])
def test_whom_to_ask_stands_in_the_sentence(ask, said):
    assert asked_of(ask) == said


def test_a_field_is_named_with_its_file():
    assert in_its_file("site.yaml seismic") == "seismic in site.yaml"
    assert in_its_file("the maker's letter") == "the maker's letter"


# ---- tables, anchors, fitting


def test_tables_print_a_dash_for_nothing_and_know_their_shape():
    made = table("c", (Head("a"), Head("b", True)), [("x", ""), ("group", ("g",)), ("total", ("t", ""))])
    assert [c.text for r in made.rows for c in r.cells] == ["x", "–", "g", "t", ""]
    assert [r.mark for r in made.rows] == ["", "group", "total"]
    assert made.rows[1].is_group
    with pytest.raises(ValueError, match=r"shorter|longer"):
        table("c", (Head("a"),), [("x", "y")])


@given(st.lists(st.text(max_size=8)))
def test_anchors_are_safe_and_unique(ids):
    made = unique(anchor("check", i) for i in ids)
    assert len(set(made)) == len(ids)
    assert all(set(a) <= set("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-") for a in made)


@given(st.text(alphabet="abc ", max_size=400), st.floats(10.0, 150.0))
def test_more_text_never_takes_fewer_lines(text, width):
    assert line_count(text + " abc", width, 8.0) >= line_count(text, width, 8.0) >= 1


# ---- faces and plot


def test_lacking_characters_are_named():
    assert missing("<p>plain · − ≤ ″ &lt;</p>") == ""
    assert missing("<p>a\u6f22b</p>") == "\u6f22 (U+6F22)"


def test_small_faces_hold_what_is_used_and_are_the_same_each_time():
    first, second = small_faces(["Ø"]), small_faces(["Ø"])
    assert first == second
    assert set(first) == {"regular.woff", "semibold.woff", "italic.woff"}
    assert all(data[:4] == b"wOFF" and len(data) < 40_000 for data in first.values())


def test_columns_of_a_schedule_are_as_wide_as_their_texts_need():
    number, name = _widths(("Mark", "Member of the frame"), [("c1", "Crossmember between the rails, coped to the web")])
    assert number + name == pytest.approx(100.0, abs=0.2)
    assert (number, name) == (17.4, 82.6)
