"""Templates say where things stand, never what they are: no arithmetic, no comparison, no assignment, no filter."""

from pathlib import Path

import pytest
from jinja2 import Environment, StrictUndefined, nodes

from generator.document.templates import environment, template_folder

TEMPLATES = sorted(p.relative_to(template_folder()).as_posix() for p in template_folder().rglob("*.html"))
FORBIDDEN = (
    nodes.BinExpr,
    nodes.Compare,
    nodes.Assign,
    nodes.AssignBlock,
    nodes.Concat,
    nodes.CondExpr,
    nodes.Call,
    nodes.Test,
    nodes.Not,
    nodes.And,
    nodes.Or,
)


def faults(source: str) -> list[str]:
    tree = Environment().parse(source)
    macros = {n.name for n in tree.find_all(nodes.Macro)} | {
        name if isinstance(name, str) else name[1] for n in tree.find_all(nodes.FromImport) for name in n.names
    }
    found = [n for kind in FORBIDDEN for n in tree.find_all(kind)]
    found += list(tree.find_all(nodes.Filter))
    return [
        f"{n.lineno}: {type(n).__name__}"
        for n in found
        if not (isinstance(n, nodes.Call) and isinstance(n.node, nodes.Name) and n.node.name in macros)
        and not (isinstance(n, nodes.And) and all(isinstance(s, nodes.Name | nodes.Getattr) for s in (n.left, n.right)))
    ]


@pytest.mark.parametrize("name", TEMPLATES)
def test_templates_hold_no_logic(name):
    assert faults((template_folder() / name).read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "bad",
    [
        "{{ a + b }}",
        "{% if a > 1 %}x{% endif %}",
        "{% set x = 1 %}",
        "{{ a|safe }}",
        "{{ a.b() }}",
        "{{ a if b else c }}",
        "{% if a is none %}x{% endif %}",
        "{{ a ~ b }}",
        "{% if not a %}x{% endif %}",
    ],
)
def test_the_lint_sees_each_kind_of_logic(bad):
    assert faults(bad)


@pytest.mark.parametrize("web", [True, False])
def test_templates_are_strict_and_escape(web):
    env = environment(web)
    assert env.undefined is StrictUndefined
    assert env.autoescape is True


def test_style_sheets_reach_nothing_outside():
    for sheet in (template_folder() / "css").glob("*.css"):
        text = sheet.read_text(encoding="utf-8")
        assert "http" not in text, sheet.name
        assert "@import" not in text, sheet.name


def test_there_is_a_template_for_every_block():
    from generator.document import blocks, filled, reply, ruling

    kinds = [
        k
        for module in (blocks, filled, reply, ruling)
        for k in vars(module).values()
        if isinstance(k, type) and issubclass(k, blocks.Block) and k is not blocks.Block
    ]
    assert {f"blocks/{k.template}.html" for k in kinds} | {"blocks/verdict.html"} == {
        t for t in TEMPLATES if t.startswith("blocks/")
    }
    assert Path(template_folder() / "fonts.conf").is_file()
