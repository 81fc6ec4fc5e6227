"""Public names say what they give; formulas also their terms with units, and all examples run."""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import coilwright
import coilwright.calc
from coilwright.units import Kind, registry
from coilwright.values.formula import Formula
from coilwright.values.source import Grade
from tests.house.source import FILES, SOURCE, name, nodes, parsed
from tests.rules import for_each
from tests.values.written import worked_out

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


@for_each(FILES, name)
def test_public_names_have_docstrings(path: Path) -> None:
    tree = parsed(path)
    assert list(without_docstring(tree, hooks="wizard" in path.parts)) == []


@cache
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


@for_each(formulas())
def test_formula_says_its_unit(key: str) -> None:
    formula = formulas()[key]
    words = formula.__doc__ or ""
    first = words.split("\n\n")[0]
    if formula.kind in UNITLESS:
        assert first
    else:
        unit = UNIT_WORDS[formula.kind.unit]
        assert unit in words or "All in inches" in words, f"{key} should say {unit}"


@for_each(formulas())
def test_formula_has_a_source(key: str) -> None:
    source = formulas()[key].source
    assert source.text or source.grade is Grade.PRACTICE
    assert str(source)


@for_each(formulas())
def test_formula_writes_itself_down_with_all_its_symbols(key: str) -> None:
    formula = formulas()[key]
    # three or four of what repeats: corners come in pairs, and need three of them
    count = 6 if formula.symbols(6)[-1][-1].isdigit() else len(formula.symbols(0))
    written = formula.written(count)
    for symbol in formula.symbols(count):
        assert re.search(rf"(?<![A-Za-z]){re.escape(symbol)}(?![0-9A-Za-z])", written), written


def test_there_are_formulas_to_look_at() -> None:
    assert len(formulas()) > 40


_TERM = re.compile(r"(\w+) \[([^\]]+)\]")
_LETTERS = {"1": "", "°F": "delta_degF", "1/Δ°F": "1/delta_degF", "Δ°F": "delta_degF"}
"""Units that pint calls otherwise."""


def terms(key: str) -> dict[str, str]:
    """The terms of a formula and their units, as its docstring has them."""
    said = re.search(r"^Terms: (.*?)\.$", inspect.cleandoc(formulas()[key].__doc__ or ""),
                     re.MULTILINE | re.DOTALL)  # fmt: skip
    assert said, "it should end with a line “Terms: name [unit], …”"
    found = _TERM.findall(" ".join(said[1].split()))
    assert said[1].count("[") == len(found)
    return dict(found)


@for_each(formulas())
def test_formula_says_the_unit_of_every_term(key: str) -> None:
    assert list(terms(key)) == list(inspect.signature(formulas()[key]).parameters)


def in_units(key: str, count: int) -> dict[str, Any]:
    """A quantity for each symbol of the equation, in the unit its term is said to have."""
    said = list(terms(key).values())
    symbols = formulas()[key].symbols(count)
    quantities: dict[str, Any] = {}
    for place, symbol in enumerate(symbols):
        units = said[min(place, len(said) - 1)].split(", ")
        unit = units[max(0, place - len(said) + 1) % len(units)]
        value = 0.1 + 0.01 * place if unit == "1" else 0.5 + 0.1 * place
        quantities[symbol] = registry().Quantity(value, _LETTERS.get(unit, unit))
    return quantities


@for_each(formulas())
def test_units_of_the_terms_give_the_unit_of_the_result(key: str) -> None:
    formula = formulas()[key]
    repeats = len(formula.symbols(9)) == 9
    count = len(terms(key)) + 5 if repeats else len(terms(key))
    result = registry().Quantity(worked_out(formula.written(count), in_units(key, count)))
    unit = _LETTERS.get(formula.kind.unit, formula.kind.unit) or "dimensionless"
    assert result.is_compatible_with(unit), f"{formula.written(count)} is in {result.units}"


@for_each(formulas())
def test_formula_holds_in_metric_units_too(key: str) -> None:
    """No factor of inches or pounds hides in it: metric numbers give the metric result."""
    formula = formulas()[key]
    repeats = len(formula.symbols(9)) == 9
    put_in = list(in_units(key, len(terms(key)) + 5 if repeats else len(terms(key))).values())
    if key == "roof.slope.pitch_from_slope":
        put_in.reverse()  # the slope is the longer one
    unit = formula.kind.unit
    result = registry().Quantity(
        formula(*(q.magnitude for q in put_in)), _LETTERS.get(unit, unit) or "dimensionless")
    for meter in ("meter", "millimeter"):
        turned = [in_metric(quantity, meter) for quantity in put_in]
        assert formula(*turned) == pytest.approx(in_metric(result, meter), rel=1e-9)


def in_metric(quantity: Any, meter: str) -> float:
    """Its magnitude with kilograms for pounds, and meters or millimeters for inches."""
    unit = str(quantity.units).replace("Fahrenheit", "Celsius").replace("fahrenheit", "celsius")
    return float(quantity.to(unit.replace("inch", meter).replace("pound", "kilogram")).magnitude)


CORE = ("units", "values", "job", "words", "calc", "plan")


def raised(function: ast.FunctionDef) -> set[str]:
    """The errors that a function raises itself."""
    found = set()
    for node in ast.walk(function):
        if isinstance(node, ast.Raise) and node.exc is not None:
            error = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
            if isinstance(error, ast.Name):
                found.add(error.id)
    return found


@for_each([path for path in FILES if path.relative_to(SOURCE).parts[0] in CORE], name)
def test_docstrings_name_what_is_raised(path: Path) -> None:
    silent = [
        f"{node.name}: {error}"
        for node in nodes(path)
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
        for error in raised(node)
        if error[0].isupper() and error not in (ast.get_docstring(node) or "")
    ]
    assert silent == []


@for_each(formulas())
def test_formula_has_an_example(key: str) -> None:
    assert ">>>" in (formulas()[key].__doc__ or ""), "it should show a call and what comes of it"


def test_examples_of_formulas_run() -> None:
    # A formula is no plain function, so the finder of examples passes it over.
    runner = doctest.DocTestRunner()
    for key, formula in formulas().items():
        module = importlib.import_module(formula.__module__)
        runner.run(doctest.DocTestParser().get_doctest(
            inspect.cleandoc(formula.__doc__ or ""), dict(vars(module)), key, None, None))
    assert runner.summarize(verbose=False).attempted >= 195
    assert runner.summarize(verbose=False).failed == 0, "those that went wrong are printed above"


@pytest.mark.slow
def test_all_examples_run() -> None:
    run = doctest.TestResults(0, 0)
    for module in pkgutil.walk_packages(coilwright.__path__, "coilwright."):
        if module.name.split(".")[1] not in ("wizard", "__main__"):
            loaded = importlib.import_module(module.name)
            if ">>>" not in inspect.getsource(loaded):
                continue  # to look through all names of a module takes longer than its examples
            done = doctest.testmod(loaded)
            run = doctest.TestResults(run.failed + done.failed, run.attempted + done.attempted)
    assert run.attempted >= 3
    assert run.failed == 0, "the examples that went wrong are printed above"
