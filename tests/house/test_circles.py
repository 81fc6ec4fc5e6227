"""No module imports what imports it, not even inside a function or for its types alone."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components

from tests.house.source import FILES, SOURCE, nodes


def module(name: str) -> str:
    """The module of a name, which may be one inside it; empty where it is none of ours."""
    while name and name not in MODULES:
        name = name.rpartition(".")[0]
    return name


def imported(path: Path) -> Iterator[str]:
    """Modules of ours that a module imports, wherever it does."""
    for node in nodes(path):
        if isinstance(node, ast.ImportFrom):
            yield from (module(f"{node.module}.{name.name}") for name in node.names)
        elif isinstance(node, ast.Import):
            yield from (module(name.name) for name in node.names)


def _name(parts: tuple[str, ...]) -> str:
    return ".".join(("coilwright", *parts)).removesuffix(".__init__")


MODULES = {_name(path.relative_to(SOURCE).with_suffix("").parts): path for path in FILES}


def test_no_circle_of_imports() -> None:
    names = list(MODULES)
    ties = {(names.index(name), names.index(other)) for name in names
            for other in imported(MODULES[name])
            # a package's face shows what is inside, and what is inside may use its neighbors
            if other and other != name and MODULES[other].name != "__init__.py"
            and MODULES[name].name != "__init__.py"}
    assert len(ties) > 1000
    rows, columns = zip(*sorted(ties), strict=True)
    graph = csr_array((np.ones(len(rows)), (rows, columns)), shape=(len(names), len(names)))
    _, label = connected_components(graph, directed=True, connection="strong")
    circles = [[names[at] for at in np.flatnonzero(label == one)]
               for one, size in enumerate(np.bincount(label)) if size > 1]
    assert circles == []
