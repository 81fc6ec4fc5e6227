"""What the screen library keeps to itself is left alone, but for what is listed here."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

import pytest

import coilwright
from tests.house.source import FILES, name, nodes, parsed
from tests.rules import for_each

KNOWN = {
    ("_file", "wizard/terminal"):
        "What is written after the terminal was closed is dropped, so that no thread dies of it.",
    ("_handle_exception", "wizard/app"):
        "What was typed is written before an app that failed is taken down; no event says so.",
    ("textual._parser", "wizard/terminal"):
        "The terminal is read by our own loop, which handles the parser's error as Textual's does.",
    ("textual._xterm_parser", "wizard/terminal"):
        "That loop needs Textual's own parser of keys; there is no public one.",
    ("_debug", "wizard/terminal"):
        "The driver's flag, which its parser is given.",
    ("_focus_sort_key", "wizard/widgets/field"):
        "Fields are walked in the order of the form where it stands in two columns; the order "
        "of the focus has no public hook.",
    ("_unnotify", "wizard/app"):
        "A notice that goes by itself leaves its rack shown; nothing public says when one goes.",
    ("_action_command_list", "wizard/screens/palette"):
        "The palette passes page keys on to a list that may show no row yet; it has no other way.",
    ("_watch__list_visible", "wizard/screens/palette"):
        "The palette shows its list when commands come, though it may be closed by then.",
    ("_index_to_line", "wizard/widgets/rows"):
        "Whether a list has laid out any row, which turning a page needs, is seen only there.",
    ("_mounted_event", "wizard/key_order"):
        "whether a screen is mounted can be asked in public, but not waited for.",
    ("_pruning", "wizard/screens/base"):
        "A screen closed while it was being mounted must not be mounted; only this tells.",
}  # fmt: skip
"""A private name that is used, the file that uses it, and why. A stale line fails as well."""


def private(word: str) -> bool:
    """Whether a name says that it is nobody else's."""
    return word.startswith("_") and not (word.startswith("__") and word.endswith("__"))


def on_itself(tree: ast.AST) -> Iterator[str]:
    """Names that code gives to attributes of its own object or class."""
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Attribute)
            and isinstance(node.ctx, ast.Store)
            and isinstance(node.value, ast.Name)
            and node.value.id in ("self", "cls")
        ):
            yield node.attr


def defined(tree: ast.AST) -> Iterator[str]:
    """Names that code makes: functions, classes, variables, attributes of its own."""
    yield from on_itself(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            yield node.id
        elif isinstance(node, ast.alias):
            yield node.asname or node.name


@cache
def our_names() -> frozenset[str]:
    """Every private name that our own code makes."""
    return frozenset(n for path in FILES for n in defined(parsed(path)) if private(n))


def modules() -> Iterator[ModuleType]:
    """All modules of the package."""
    for found in pkgutil.walk_packages(coilwright.__path__, "coilwright."):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


@cache
def classes_in(module: str) -> dict[str, ast.ClassDef]:
    """The classes at the top of a module, by name."""
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    return {node.name: node for node in tree.body if isinstance(node, ast.ClassDef)}


@cache
def names_of(cls: type) -> frozenset[str]:
    """The private names that the code of a class makes, on itself or on its objects."""
    found = classes_in(cls.__module__).get(cls.__name__)
    if found is None:
        return frozenset()
    made = set(on_itself(found))
    for node in found.body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            made.add(node.name)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            made |= {target.id for target in targets if isinstance(target, ast.Name)}
    return frozenset(n for n in made if private(n) and n != "_")


def on_super(node: ast.expr) -> bool:
    """Whether it is `super()`."""
    return (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "super"
    )


def theirs(path: Path) -> dict[str, int]:
    """Private names of others that a file uses, with the line."""
    found: dict[str, int] = {}
    for node in nodes(path):
        if isinstance(node, ast.Import | ast.ImportFrom):
            module = (node.module or "") if isinstance(node, ast.ImportFrom) else ""
            for alias in node.names:
                whole = module or alias.name
                ours = whole.split(".")[0] == "coilwright"
                inner = [*whole.split("."), *([alias.name] if module else [])]
                if not ours and module != "__future__" and any(map(private, inner)):
                    found[whole] = node.lineno
        elif (
            isinstance(node, ast.Attribute)
            and private(node.attr)
            and (node.attr not in our_names() or (isinstance(node.value, ast.Call)
                 and isinstance(node.value.func, ast.Name) and node.value.func.id == "super"))
        ):
            found[node.attr] = node.lineno
    return found


def bases(cls: type) -> Iterator[type]:
    """The classes of others that a class of ours builds on, but for the language's own."""
    for base in cls.__mro__:
        outside = base.__module__.split(".")[0]
        if outside != "coilwright" and outside not in sys.stdlib_module_names:
            yield base


def covered() -> dict[tuple[str, str], str]:
    """Private names of a base class that a class of ours makes again, by name and file.

    Made by chance, such a name would quietly break what the base class does.
    """
    found = {}
    for module in modules():
        for cls in vars(module).values():
            if not isinstance(cls, type) or cls.__module__ != module.__name__:
                continue
            if outside := list(bases(cls)):
                own = names_of(cls)
                for base in outside:
                    for word in own & names_of(base):
                        found[word, place(cls.__module__)] = f"{base.__module__}.{base.__name__}"
    return found


def place(module: str) -> str:
    """A module as KNOWN names its file."""
    return module.removeprefix("coilwright.").replace(".", "/")


def used() -> dict[tuple[str, str], str]:
    """Every private name of others that is used, by name and file, with the line."""
    found = dict(covered())
    for path in FILES:
        for word, line in theirs(path).items():
            where = name(path).removeprefix("src/coilwright/").removesuffix(".py")
            found[word, where] = f"{name(path)}:{line}"
    return found


@pytest.mark.slow
def test_no_private_name_of_others_is_used_but_the_known_ones() -> None:
    found = used()
    new = {key: where for key, where in found.items() if key not in KNOWN}
    assert new == {}, "use what is public, or list it with the reason"
    assert set(KNOWN) - set(found) == set(), "no longer used: take them off the list"


@for_each(KNOWN.values())
def test_every_exception_has_a_reason(reason: str) -> None:
    assert len(reason.split()) > 5
    assert reason.endswith(".")
