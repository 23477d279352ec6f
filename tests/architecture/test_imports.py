"""The one-way flow: a package imports only from those to its left; `draw` and `document` see only what slices hold."""

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "generator"
ORDER = ("records", "errors", "units", "formulas", "reference", "spec", "model", "calc", "release", "draw", "document",
         "revision", "store", "write", "design", "build", "issue", "__main__")
RECORDS = frozenset({
    "calc.compared", "calc.findings", "calc.legal", "calc.measured", "calc.quoted", "calc.record", "model.types"
})
"""Modules whose frozen records a slice may hold."""

SEEN = frozenset({"errors", "formulas", "units", "release.slices"}) | RECORDS
WHOLE = frozenset({"Results", "Model", "Item", "State", "Quantity", "Working", "Findings"})
"""What no drawing or document may see: the uncut design, and anything that could still calculate."""

ONLY_IN = {"pint": {"units"}, "weasyprint": {"document", "build"}, "matplotlib": {"draw", "document"},
           "jinja2": {"document"}, "markdown": {"document"}, "pypdf": {"document", "build"}, "pydantic": {"spec"}}
"""Large libraries and the packages that may use them."""


class Import(NamedTuple):
    file: str
    line: int
    owner: str
    module: str
    name: str


def imports(path: Path) -> Iterator[Import]:
    """Every import of a file, absolute, one per name."""
    owner = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    file = str(path.relative_to(ROOT))
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        match node:
            case ast.Import(names=names):
                yield from (Import(file, node.lineno, owner, a.name, "") for a in names)
            case ast.ImportFrom(module=module, names=names, level=level):
                assert level == 0, f"{file}:{node.lineno}: a relative import hides its package"
                yield from (Import(file, node.lineno, owner, str(module), a.name) for a in names)


ALL = [i for path in sorted(PACKAGE.rglob("*.py")) for i in imports(path)]


def target(i: Import) -> str:
    """The module of this project that is imported, without the project's name; empty for another library."""
    if i.module == "generator":
        return "" if i.name == "__version__" else i.name
    return i.module.removeprefix("generator.") if i.module.startswith("generator.") else ""


def refused(i: Import) -> str:
    """What is wrong with an import, or nothing."""
    module = target(i)
    if module:
        top = module.partition(".")[0]
        if i.owner == "__init__" or ORDER.index(top) > ORDER.index(i.owner):
            return f"{i.owner} imports {module}, which stands to its right"
        if i.owner in ("draw", "document") and top != i.owner:
            if top in ("draw", "document"):
                return ""
            if module not in SEEN and top not in SEEN:
                return f"{i.owner} imports {module}, which no slice holds"
            if module in RECORDS and i.name in WHOLE:
                return f"{i.owner} imports {i.name} of {module}, which no slice holds"
    library = i.module.partition(".")[0]
    if library in ONLY_IN and i.owner not in ONLY_IN[library]:
        return f"{i.owner} imports {library}"
    return ""


def test_every_module_is_in_the_order():
    owners = {p.relative_to(PACKAGE).parts[0].removesuffix(".py") for p in PACKAGE.rglob("*.py")}
    assert owners - {"__init__"} <= set(ORDER)
    assert len(ALL) > 300


def test_imports_run_one_way():
    wrong = [f"{i.file}:{i.line}: {refused(i)}" for i in ALL if refused(i)]
    assert wrong == []


@pytest.mark.parametrize(("owner", "module", "name"), [
    ("spec", "generator.calc.record", "Check"), ("calc", "generator.release.slices", "Steel"),
    ("draw", "generator.spec.models.spec", "Spec"), ("document", "generator.calc.run", "calculate"),
    ("draw", "generator.model.types", "Model"), ("document", "generator.calc.findings", "Results"),
    ("units", "generator.reference.load", "reference"), ("release", "generator", "build"), ("calc", "pint", ""),
    ("spec", "matplotlib.pyplot", ""), ("draw", "generator.reference.load", "reference"),
])
def test_the_rule_finds_a_wrong_import(owner, module, name):
    assert refused(Import("made up", 1, owner, module, name))
