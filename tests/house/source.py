"""The files of the package and of the tests, read once for all rules."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "coilwright"
FILES = sorted(SOURCE.rglob("*.py"))
STYLES = sorted(SOURCE.rglob("*.tcss"))


@cache
def parsed(path: Path) -> ast.Module:
    """The file's syntax tree."""
    return ast.parse(path.read_text("utf-8"))


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All of the file's syntax tree, as `ast.walk` comes to it."""
    return tuple(ast.walk(parsed(path)))


def name(path: Path) -> str:
    """The file as a reader finds it."""
    return str(path.relative_to(ROOT))


def imported(path: Path) -> set[str]:
    """Modules a file imports, at its top or later."""
    found: set[str] = set()
    for node in nodes(path):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                package = path.relative_to(SOURCE.parent).with_suffix("").parts[: -node.level]
                base = ".".join([*package, base]).rstrip(".")
            found |= {base, *(f"{base}.{alias.name}" for alias in node.names)}
    return found
