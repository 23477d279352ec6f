"""The list of symbols, powers and gravity as printed, and the table of supports, which must balance as printed."""

import re
from pathlib import Path

import pytest

from generator.calc.record import About, Check, Compared, Step, Value
from generator.design import design
from generator.document.blocks import CheckBlock, Table
from generator.document.formula import in_numbers, in_sentence, in_symbols
from generator.document.section import Context
from generator.document.sections.checks import blocks
from generator.document.sections.symbols import symbols
from generator.document.sections.windows import steel_loads
from generator.formulas import numbers, printed, put_in
from generator.release.cut import cut
from generator.release.slices import Cover, Numbers, SteelLoads
from generator.units import Show

SHOW = Show("us", "USD")
SPECS = Path(__file__).resolve().parents[3] / "specs"


@pytest.fixture(scope="module")
def desk():
    it = design(SPECS / "heron")
    return cut(it.model, it.results, it.data, "owner", "0" * 12, "us")


@pytest.fixture(scope="module")
def context(desk):
    return Context(SHOW, desk.get(Cover))


def check(topic, *steps):
    demand, limit = Value("F", 2.0, "N"), Value("F_a", 4.0, "N", "trailer.yaml:1")
    about = About("Title", topic, "s", "c", "k")
    return Check(f"{topic}.x", about, "travel", Compared(demand, limit, "<=", 0.0, 2, frozenset(), steps))


def table_of(context, *checks):
    (found,) = symbols(Numbers((), checks, ()), context)
    return {str(r.cells[0].text): str(r.cells[1].text) for r in found.rows}


def test_a_symbol_that_stands_for_two_things_says_in_which_checks(context):
    one = Step("Force on the screw", "F = m*k_s", "s", (Value("m", 1.0, "kg"), Value("k_s", 2.0, "N/m:spring")),
               Value("F", 2.0, "N"))
    two = Step("Wind on the side", "F = q*A_r", "s", (Value("q", 1.0, "N/m2"), Value("A_r", 2.0, "m2")),
               Value("F", 2.0, "N"))
    found = table_of(context, check("jacks", one), check("parked", two))
    assert found["<i>F</i>"] == "force on the screw, lbf (jacks); wind on the side, lbf (parked)"
    assert found["<i>A<sub>r</sub></i>"] == "roof in plan, ft²"
    assert found["<i>g<sub>n</sub></i>"].replace("\u00a0", " ") == "standard gravity, 9.80665 N/kg = 1.000 lbf/lb"


def test_a_run_of_numbered_symbols_is_one_row(context):
    parts = tuple(Value(f"{s}_{n}", 1.0, "m") for s in "lh" for n in (1, 2))
    area = Step("Side", "A_s = l_1*h_1 + l_2*h_2", "s", parts, Value("A_s", 2.0, "m2"))
    found = table_of(context, check("parked", area))
    assert found["<i>h<sub>1</sub></i> to <i>h<sub>2</sub></i>"] == "height of a strip of the side, in"


def test_every_symbol_of_a_whole_design_is_listed_once(desk, context):
    (found,) = symbols(desk.get(Numbers), context)
    names = [str(r.cells[0].text) for r in found.rows]
    assert len(names) == len(set(names))
    assert len(names) > 250
    assert not [r for r in found.rows if "goes into" in str(r.cells[1].text)]


def test_powers_stand_raised_as_a_whole_and_numbers_before_them_in_brackets():
    assert in_symbols("K = a**(2/b)") == "<i>K = a<sup>(2 / b)</sup></i>"
    step = Step("x", "J = t_w**3", "s", (Value("t_w", 0.0254, "m"),), Value("J", 1.0, "m4"))
    assert str(in_numbers(step, SHOW)).replace("\u00a0", " ") == "(1.000 in)<sup>3</sup>"
    plain = put_in(step.text, numbers(step.text, step.inputs, SHOW))
    assert plain.replace("\u00a0", " ") == "(1.000 in)^3"


def test_gravity_is_printed_as_a_symbol():
    assert printed("F = 9.80665*m") == "F = g_n·m"
    assert in_symbols("F = 9.80665*m") == "<i>F = g<sub>n</sub> · m</i>"


def test_symbols_in_a_sentence_are_set_as_symbols():
    assert in_sentence("under the mass m_0, <b>") == "under the mass <i>m<sub>0</sub></i>, &lt;b&gt;"


def test_what_is_compared_is_printed_with_its_symbols(desk, context):
    made = [b for b in blocks(desk.get(Numbers), context) if isinstance(b, CheckBlock)]
    compared = [b for b in made if b.compared]
    assert len(compared) > 60
    for b in compared:
        told = r"Compared: <i>.+</i> = .+ [≤≥] <i>.+</i> = .+; (demand / limit|limit / demand) =$"
        assert re.match(told, b.compared), b.id


def number(text):
    return float(re.sub(r"[^\d.−-]", "", text).replace("−", "-") or 0.0)


def test_the_supports_balance_as_printed(desk, context):
    """Statics: forces and moments about datum A of the printed figures, to what rounding to their last digits hides."""
    made = steel_loads(desk.get(SteelLoads), context)
    (found,) = [b for b in made if isinstance(b, Table) and "Supports" in b.caption]
    rows = [[number(str(c.text)) for c in r.cells[1:]] for r in found.rows]
    *held, (centre, load, _) = rows
    assert len(held) == 4
    assert [couple > 0.0 for _, _, couple in held] == [False, True, True, True]
    assert sum(force for _, force, _ in held) == pytest.approx(load, abs=0.5 * len(rows))
    moment = sum(x * force / 12.0 + couple for x, force, couple in held)
    slack = sum(abs(x) / 12.0 * 0.5 + abs(force) / 12.0 * 0.005 + 0.5 for x, force, _ in rows)
    assert moment == pytest.approx(load * centre / 12.0, abs=slack)
    without = sum(x * force / 12.0 for x, force, _ in held)
    assert abs(without - load * centre / 12.0) > 5.0 * slack, "the couples are what closes it"
