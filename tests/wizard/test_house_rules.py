"""Rules of the house for the wizard's code."""

from __future__ import annotations

import ast
import importlib
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from textual.app import App
from textual.keys import format_key
from textual.screen import Screen

import coilwright.wizard
from coilwright.job.answers import answers_of
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.store.shipped import demo_jobs
from coilwright.values.figure import Figure
from coilwright.wizard.keys import START_KEYS, WIZARD_KEYS
from coilwright.wizard.screens.base import ClosedOnce
from coilwright.wizard.screens.help import _key
from coilwright.wizard.step_view import load_view

HERE = Path(coilwright.wizard.__file__).parent
FILES = sorted(HERE.rglob("*.py"))


def test_every_answer_of_a_step_is_on_its_form_once() -> None:
    for step in STEPS:
        keys = load_view(step.key).keys
        assert sorted(keys) == sorted(a.key for a in answers_of(step.key))


def test_every_headline_is_a_figure() -> None:
    known: set[str] = set()
    for job in demo_jobs().values():
        found = plan(job)
        known |= set(found.figures) | set(found.lacks)
    for step in STEPS:
        for headline in load_view(step.key).headlines:
            assert headline.key in known or headline.key.startswith("roof."), headline


def test_every_key_has_an_id_words_and_a_tooltip() -> None:
    keys = [*WIZARD_KEYS, *START_KEYS]
    assert all(k.id and k.description and k.tooltip for k in keys)
    assert len({k.id for k in keys}) == len(keys)


def test_a_key_that_is_a_sign_is_listed_by_its_sign() -> None:
    bound = re.compile(r"""(?:\bBinding\(|\bkeys=)\s*"([a-z0-9_+,]+)\"""")
    parts = {part for path in FILES for keys in bound.findall(path.read_text("utf-8"))
             for key in keys.split(",") for part in key.split("+")}
    assert {"slash", "equals_sign", "pagedown"} <= parts
    signs = {part: sign for part in parts if len(sign := format_key(part)) == 1 and sign.isascii()}
    assert {part: _key(part) for part in signs} == signs
    assert not any("_" in _key(part) for part in parts)


def test_no_text_from_outside_is_parsed_as_markup() -> None:
    for path in FILES:
        code = path.read_text("utf-8")
        assert "from_markup" not in code, path
        assert "markup import" not in code, path
        for call in re.findall(r"(?<!def )(?<!_un)notify\((?:[^()]|\([^()]*\))*\)", code):
            assert "markup=False" in call, (path, call)


def test_no_private_textual_names_and_no_files_too_long() -> None:
    for path in FILES:
        code = path.read_text("utf-8")
        assert not re.search(r"\bapp\._|screen\._compositor|\.query\._", code), path
        assert len(code.splitlines()) <= 400, path


def test_the_session_and_controllers_know_no_textual() -> None:
    for name in ("session", "answering", "ranking", "context", "controllers",
                 "progress", "steps/coils/stock", "steps/machine/machines",
                 "steps/summary/controller", "lists/form", "lists/job_rows", "lists/planes",
                 "lists/openings", "lists/trim", "lists/arrivals", "lists/coils_on_hand",
                 "lists/coil_draft", "lists/run_done"):
        tree = ast.parse((HERE / f"{name}.py").read_text("utf-8"))
        for node in tree.body:
            if isinstance(node, ast.Import | ast.ImportFrom):
                assert "textual" not in ast.unparse(node), (name, node.lineno)


def _openings(path: Path) -> Iterator[tuple[ast.ClassDef | ast.FunctionDef, int]]:
    """Where a module opens a screen, by itself or with a function that is given one to do it on."""
    for outer in ast.parse(path.read_text("utf-8")).body:
        for node in ast.walk(outer):
            named = node.func.id if isinstance(node, ast.Call) and isinstance(
                node.func, ast.Name) else ""
            opens = isinstance(node, ast.Attribute) and node.attr == "push_screen"
            if opens or named in ("carry_out", "open_choices"):
                assert isinstance(outer, ast.ClassDef | ast.FunctionDef), (path, outer.lineno)
                yield outer, node.lineno  # type: ignore[attr-defined]


def test_only_screens_and_the_app_open_screens() -> None:
    """A widget reports with a message, a controller asks its screen through its context."""
    functions = set()
    for path in FILES:
        for outer, line in _openings(path):
            module = importlib.import_module(
                ".".join(("coilwright.wizard", *path.relative_to(HERE).with_suffix("").parts)))
            if isinstance(outer, ast.ClassDef):
                opens = getattr(module, outer.name)
                assert issubclass(opens, Screen | ClosedOnce | App), (path, line)
            else:
                functions.add(outer.name)
                assert ast.unparse(outer.args.args[0]) in (
                    "screen: Screen[Any]", "screen: SizedScreen"), (path, line)
    assert functions == {"carry_out", "put_back_version", "open_choices", "open_keys"}


def test_no_operation_is_left_to_whoever_comes_next_in_the_order_of_classes() -> None:
    for path in FILES:
        code = path.read_text("utf-8")
        assert "NotImplementedError" not in code, path
        assert "super().action_" not in code or path.name in (
            "rows.py", "help.py", "pick.py"), path


def test_the_wizard_does_no_arithmetic_on_figures() -> None:
    """No figure's value is added, scaled or compared here: the plan does that."""
    for path in FILES:
        for line in path.read_text("utf-8").splitlines():
            assert not re.search(r"\.value\s*[-+*/<>]\s*[\w(]", line), (path, line)
            assert not re.search(r"[-+*/]\s*\w+\.value\b(?!\()", line), (path, line)
    assert Figure.__name__ == "Figure"


@pytest.mark.slow
def test_starting_imports_neither_pint_nor_what_comes_later() -> None:
    code = (
        "import sys\n"
        "import coilwright.wizard.app, coilwright.wizard.screens.wizard, "
        "coilwright.wizard.steps.job\n"
        "late = ['pint', 'coilwright.plan.ask_first', 'coilwright.sheets', "
        "'coilwright.drawing.plane', 'coilwright.drawing.shapes', 'coilwright.drawing.above', "
        "'coilwright.store.shipped', 'coilwright.wizard.screens.figures', "
        "'coilwright.wizard.steps.summary', 'coilwright.wizard.commands']\n"
        "print([name for name in late if name in sys.modules])\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
