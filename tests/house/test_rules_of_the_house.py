"""The rules of the house that a machine can hold us to."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import coilwright.calc
from coilwright.units import Kind
from coilwright.values.formula import Formula
from coilwright.values.source import Grade

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "coilwright"
FILES = sorted(SOURCE.rglob("*.py"))
STYLES = sorted(SOURCE.rglob("*.tcss"))
MOST_LINES = 400


@cache
def parsed(path: Path) -> ast.Module:
    """The file's syntax tree, read once."""
    return ast.parse(path.read_text("utf-8"))


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("path", [*FILES, *STYLES], ids=name)
def test_no_file_is_too_long(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES


@pytest.mark.parametrize("path", FILES, ids=name)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    tree = parsed(path)
    assert ast.get_docstring(tree)
    imports = [n for n in tree.body if isinstance(n, ast.ImportFrom)]
    futures = [n for n in imports if n.module == "__future__"]
    assert futures or not any(isinstance(n, (ast.FunctionDef, ast.ClassDef)) for n in tree.body)


HOOKS = re.compile(r"^(compose|render\w*|on_\w+|watch_\w+|validate_\w+|action_\w+|check_action|"
                   r"key_\w+|get_\w+|discover|search|allow_\w+)$")  # fmt: skip
"""Names that the screen library gives: what they do is the library's to say."""


def without_docstring(tree: ast.Module, hooks: bool) -> Iterator[str]:
    """Public classes and functions, and public methods of public classes, that say nothing."""

    def look(body: list[ast.stmt], inside: str) -> Iterator[str]:
        for node in body:
            if not isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)):
                continue
            if node.name.startswith("_") or (hooks and HOOKS.match(node.name)):
                continue
            setter = any(
                isinstance(d, ast.Attribute) and d.attr == "setter" for d in node.decorator_list
            )
            overload = any(
                isinstance(d, ast.Name) and d.id in ("overload", "override")
                for d in node.decorator_list
            )
            if not ast.get_docstring(node) and not setter and not overload:
                yield inside + node.name
            if isinstance(node, ast.ClassDef):
                yield from look(node.body, f"{inside}{node.name}.")

    yield from look(tree.body, "")


@pytest.mark.parametrize("path", FILES, ids=name)
def test_public_names_have_docstrings(path: Path) -> None:
    tree = parsed(path)
    assert list(without_docstring(tree, hooks="wizard" in path.parts)) == []


def formulas() -> dict[str, Formula[...]]:
    """Every formula of the calculations by module and name."""
    found = {}
    for module in pkgutil.walk_packages(coilwright.calc.__path__, "coilwright.calc."):
        for key, value in vars(importlib.import_module(module.name)).items():
            if isinstance(value, Formula) and value.__module__ == module.name:
                found[f"{module.name.removeprefix('coilwright.calc.')}.{key}"] = value
    return found


UNITLESS = {Kind.COUNT, Kind.RATIO, Kind.PERCENT, Kind.PITCH}
UNIT_WORDS = {
    "in": "[in]", "in²": "[in²]", "in³": "[in³]", "lb": "[lb]", "lb/in": "[lb/in]",
    "lb/in²": "[lb/in²]", "lb/in³": "[lb/in³]", "USD": "[USD]", "min": "[min]",
    "°": "[°]",
}  # fmt: skip


@pytest.mark.parametrize("key", formulas())
def test_formula_says_its_unit(key: str) -> None:
    formula = formulas()[key]
    words = formula.__doc__ or ""
    first = words.split("\n\n")[0]
    if formula.kind in UNITLESS:
        assert first
    else:
        unit = UNIT_WORDS[formula.kind.unit]
        assert unit in words or "All in inches" in words, f"{key} should say {unit}"


@pytest.mark.parametrize("key", formulas())
def test_formula_has_a_source(key: str) -> None:
    source = formulas()[key].source
    assert source.text or source.grade is Grade.PRACTICE
    assert str(source)


@pytest.mark.parametrize("key", formulas())
def test_formula_writes_itself_down_with_all_its_symbols(key: str) -> None:
    formula = formulas()[key]
    # three or four of what repeats: corners come in pairs, and need three of them
    count = 6 if formula.symbols(6)[-1][-1].isdigit() else len(formula.symbols(0))
    written = formula.written(count)
    for symbol in formula.symbols(count):
        assert re.search(rf"(?<![A-Za-z]){re.escape(symbol)}(?![0-9A-Za-z])", written), written


def test_there_are_formulas_to_look_at() -> None:
    assert len(formulas()) > 40


BANNED = {
    'type="number"': "eats a decimal comma and can hang; read text with our own reader",
    'type="integer"': "as above",
    "Select.BLANK": "it means something else now; Select.NULL",
    "App.dark": "gone; themes",
    "TODO": "nothing is left for later",
    "FIXME": "nothing is left for later",
    "XXX": "nothing is left for later",
    "eval(": "no text is ever run",
    "pickle": "files are readable text",
    "shell=True": "no shell",
    "monkeypatch": "nothing of a dependency is changed",
}


@pytest.mark.parametrize("form", BANNED)
def test_banned_forms(form: str) -> None:
    pattern = re.compile(rf"(?<![A-Za-z_.]){re.escape(form)}")
    found = [name(p) for p in FILES if pattern.search(p.read_text("utf-8"))]
    assert found == [], BANNED[form]


def test_errors_are_never_swallowed_whole() -> None:
    for path in FILES:
        for node in ast.walk(parsed(path)):
            if not isinstance(node, ast.ExceptHandler):
                continue
            quiet = all(isinstance(s, ast.Pass) for s in node.body)
            wide = node.type is None or (
                isinstance(node.type, ast.Name) and node.type.id in ("Exception", "BaseException")
            )
            assert not (quiet and wide), f"{name(path)}:{node.lineno}"


def imported(path: Path) -> set[str]:
    """Modules a file imports, at its top or later."""
    found: set[str] = set()
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                package = path.relative_to(SOURCE.parent).with_suffix("").parts[: -node.level]
                base = ".".join([*package, base]).rstrip(".")
            found |= {base, *(f"{base}.{alias.name}" for alias in node.names)}
    return found


def layer(path: Path) -> str:
    return path.relative_to(SOURCE).parts[0].removesuffix(".py")


ABOVE = {
    "units": {"formula", "figures", "calc", "plan", "job", "answers", "edit", "guidance", "store",
              "sheets", "cli", "wizard", "drawing", "ask_first", "shipped", "machine"},
    "calc": {"plan", "job", "answers", "edit", "guidance", "store", "sheets", "cli", "wizard",
             "drawing", "ask_first", "shipped", "machine", "figures"},
    "plan": {"sheets", "cli", "wizard", "drawing", "store", "shipped"},
    "formula": {"calc", "plan", "job", "answers", "wizard", "figures"},
    "figures": {"calc", "plan", "job", "answers", "wizard"},
    "answers": {"plan", "edit", "store", "sheets", "cli", "wizard", "drawing", "guidance"},
    "guidance": {"plan", "edit", "store", "sheets", "cli", "wizard", "drawing", "calc", "job"},
    "store": {"sheets", "cli", "wizard", "drawing"},
    "drawing": {"sheets", "cli", "wizard", "store"},
    "sheets": {"cli", "wizard"},
    "cli": set(),
}  # fmt: skip
"""What each layer may never import: whatever stands above it."""
SCREENS = {"textual", "rich"}


@pytest.mark.parametrize("path", FILES, ids=name)
def test_imports_point_one_way(path: Path) -> None:
    above = {f"coilwright.{one}" for one in ABOVE.get(layer(path), set())}
    tops = {".".join(module.split(".")[:2]) for module in imported(path)}
    assert tops & above == set()
    if layer(path) != "wizard":
        assert {m.split(".")[0] for m in imported(path)} & SCREENS == set()


def test_only_the_registry_knows_pint() -> None:
    users = {name(p) for p in FILES if any(m.split(".")[0] == "pint" for m in imported(p))}
    assert users == {"src/coilwright/units/registry.py"}


def test_the_core_stays_out_of_numerical_packages() -> None:
    ours = {
        "textual", "rich", "pint", "pydantic", "pydantic_core", "platformdirs", "coilwright",
    }
    outside = set[str]()
    for path in FILES:
        outside |= {m.split(".")[0] for m in imported(path) if m} - ours
    assert outside - set(sys.stdlib_module_names) == set()
