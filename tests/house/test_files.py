"""Every file is short, says what it is for, and holds nothing banned."""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path

from tests.house.source import FILES, ROOT, STYLES, imported, name, nodes, parsed
from tests.rules import for_each

MOST_LINES = 400


@for_each([*FILES, *STYLES], name)
def test_no_file_is_too_long(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES


@for_each(FILES, name)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    tree = parsed(path)
    assert ast.get_docstring(tree)
    imports = [n for n in tree.body if isinstance(n, ast.ImportFrom)]
    futures = [n for n in imports if n.module == "__future__"]
    assert futures or not any(isinstance(n, (ast.FunctionDef, ast.ClassDef)) for n in tree.body)


TOP = Path(__file__).parents[2]
KEPT = [path for folder in ("src", "tests", "demo", "machines")
        for path in (TOP / folder).rglob("*")
        if path.suffix in (".py", ".toml", ".json", ".tcss", ".md")]  # fmt: skip


@for_each([TOP / "README.md", TOP / "DEVELOPERS.md", TOP / "pyproject.toml", *KEPT], name)
def test_no_mark_of_a_merge_is_left(path: Path) -> None:
    text = path.read_text("utf-8")
    assert not re.search(r"^(?:<{7} |={7}$|>{7} )", text, re.MULTILINE)
    assert not text.endswith("\n\n")  # what was moved elsewhere leaves its blank lines


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


@for_each(BANNED)
def test_banned_forms(form: str) -> None:
    pattern = re.compile(rf"(?<![A-Za-z_.]){re.escape(form)}")
    found = [name(p) for p in FILES if pattern.search(p.read_text("utf-8"))]
    assert found == [], BANNED[form]


def test_errors_are_never_swallowed_whole() -> None:
    for path in FILES:
        for node in nodes(path):
            if not isinstance(node, ast.ExceptHandler):
                continue
            quiet = all(isinstance(s, ast.Pass) for s in node.body)
            wide = node.type is None or (
                isinstance(node.type, ast.Name) and node.type.id in ("Exception", "BaseException")
            )
            assert not (quiet and wide), f"{name(path)}:{node.lineno}"


def test_the_core_stays_out_of_numerical_packages() -> None:
    ours = {
        "textual", "rich", "pint", "pydantic", "pydantic_core", "platformdirs", "coilwright",
    }
    # The extra for a class in browsers: one file knows it, and does without until it serves.
    extra = {"cli/serving.py": {"aiohttp", "textual_serve"}}
    outside = set[str]()
    for path in FILES:
        known = extra.get(path.relative_to(ROOT / "src" / "coilwright").as_posix(), set())
        outside |= {m.split(".")[0] for m in imported(path) if m} - ours - known
    assert outside - set(sys.stdlib_module_names) == set()
